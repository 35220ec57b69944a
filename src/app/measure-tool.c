/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lines between two ends. Ends 2·l and 2·l + 1 are those of line l.
 */
#include "measure-tool.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "outline-marks.h"

#define STEP 0.1 /* mm for an arrow key */
#define LONG_STEP 1.0

struct _PfMeasureTool {
  PfDrawingTool parent_instance;

  PfAffine to_sheet;
  PfPoint ends[2 * PF_MEASURE_MAX_LINES], before;
  size_t n_lines;
  int chosen; /* an end, or -1 */
  bool pressed;
  PfPoint hold; /* from the pointer to the end that it holds */
};

G_DEFINE_FINAL_TYPE (PfMeasureTool, pf_measure_tool, PF_TYPE_DRAWING_TOOL)

static guint dropped_signal;

void
pf_measure_tool_set_n_lines (PfMeasureTool *measure, size_t n)
{
  g_return_if_fail (n <= PF_MEASURE_MAX_LINES);
  measure->n_lines = n;
  if (measure->chosen >= (int) (2 * n))
    measure->chosen = -1;
  pf_tool_redraw (PF_TOOL (measure));
}

void
pf_measure_tool_set_map (PfMeasureTool *measure, PfAffine to_sheet)
{
  g_return_if_fail (pf_affine_determinant (to_sheet) != 0);
  measure->to_sheet = to_sheet;
  pf_tool_redraw (PF_TOOL (measure));
}

void
pf_measure_tool_set_line (PfMeasureTool *measure, size_t line, PfPoint a, PfPoint b)
{
  g_return_if_fail (line < PF_MEASURE_MAX_LINES);
  measure->ends[2 * line] = a;
  measure->ends[2 * line + 1] = b;
  pf_tool_redraw (PF_TOOL (measure));
}

void
pf_measure_tool_get_line (PfMeasureTool *measure, size_t line, PfPoint *a, PfPoint *b)
{
  g_return_if_fail (line < PF_MEASURE_MAX_LINES);
  *a = measure->ends[2 * line];
  *b = measure->ends[2 * line + 1];
}

static PfPoint
on_sheet (const PfMeasureTool *measure, size_t end)
{
  return pf_affine_map (measure->to_sheet, measure->ends[end]);
}

double
pf_measure_tool_length (PfMeasureTool *measure, size_t line)
{
  const PfPoint a = on_sheet (measure, 2 * line), b = on_sheet (measure, 2 * line + 1);
  return hypot (b.x - a.x, b.y - a.y);
}

static void
move_end (PfMeasureTool *measure, PfPoint to)
{
  measure->ends[measure->chosen] = pf_affine_map (pf_affine_invert (measure->to_sheet), to);
  pf_drawing_tool_changed (PF_DRAWING_TOOL (measure));
}

/* --- The pointer --------------------------------------------------------------------------------
 */

static bool
pf_measure_tool_press (PfTool *tool, const PfPointer *pointer)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  double nearest = 2 * pointer->reach;
  measure->chosen = -1;
  for (size_t e = 0; e < 2 * measure->n_lines; e++)
    {
      const PfPoint at = on_sheet (measure, e);
      const double far = hypot (at.x - pointer->at.x, at.y - pointer->at.y);
      if (far > nearest)
        continue;
      nearest = far;
      measure->chosen = (int) e;
      measure->hold = (PfPoint){ at.x - pointer->at.x, at.y - pointer->at.y };
    }
  measure->pressed = measure->chosen >= 0;
  if (measure->pressed)
    measure->before = measure->ends[measure->chosen];
  pf_tool_redraw (tool);
  return measure->pressed;
}

static void
pf_measure_tool_drag (PfTool *tool, const PfPointer *pointer)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  if (!measure->pressed)
    return;
  const PfPoint other = on_sheet (measure, (size_t) measure->chosen ^ 1);
  const PfPoint to = { pointer->at.x + measure->hold.x, pointer->at.y + measure->hold.y };
  move_end (measure, pf_drawing_tool_snap (PF_DRAWING_TOOL (tool), pointer, to, &other, NULL));
}

static void
pf_measure_tool_release (PfTool *tool, const PfPointer *pointer G_GNUC_UNUSED)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  if (!measure->pressed)
    return;
  measure->pressed = false;
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (tool));
  g_signal_emit (tool, dropped_signal, 0, TRUE);
}

static void
pf_measure_tool_cancel (PfTool *tool)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  if (measure->pressed)
    {
      measure->ends[measure->chosen] = measure->before;
      measure->pressed = false;
      pf_drawing_tool_unsnap (PF_DRAWING_TOOL (tool));
      pf_drawing_tool_changed (PF_DRAWING_TOOL (tool));
      g_signal_emit (tool, dropped_signal, 0, FALSE);
    }
}

/* --- The keyboard -------------------------------------------------------------------------------
 */

static bool
walk (PfMeasureTool *measure, bool back)
{
  const int n = (int) (2 * measure->n_lines);
  const int next = measure->chosen < 0 ? (back ? n - 1 : 0) : measure->chosen + (back ? -1 : 1);
  measure->chosen = next >= 0 && next < n ? next : -1;
  pf_tool_redraw (PF_TOOL (measure));
  return measure->chosen >= 0;
}

static bool
pf_measure_tool_key (PfTool *tool, guint keyval, GdkModifierType state, double pixel G_GNUC_UNUSED)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  if (measure->pressed || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return false;
  if (keyval == GDK_KEY_Tab || keyval == GDK_KEY_ISO_Left_Tab)
    return walk (measure, keyval == GDK_KEY_ISO_Left_Tab || (state & GDK_SHIFT_MASK) != 0);
  if (keyval == GDK_KEY_Escape)
    {
      pf_drawing_tool_finished (PF_DRAWING_TOOL (tool));
      return true;
    }
  if (measure->chosen < 0)
    return false;
  const double step = (state & GDK_SHIFT_MASK) != 0 ? LONG_STEP : STEP;
  PfPoint at = on_sheet (measure, (size_t) measure->chosen);
  if (keyval == GDK_KEY_Left)
    at.x -= step;
  else if (keyval == GDK_KEY_Right)
    at.x += step;
  else if (keyval == GDK_KEY_Up)
    at.y -= step;
  else if (keyval == GDK_KEY_Down)
    at.y += step;
  else
    return false;
  move_end (measure, at);
  g_signal_emit (tool, dropped_signal, 0, TRUE);
  return true;
}

/* --- Drawing and words --------------------------------------------------------------------------
 */

static void
pf_measure_tool_draw (PfTool *tool, cairo_t *cr, double pixel)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  for (size_t l = 0; l < measure->n_lines; l++)
    pf_marks_draw_measure (cr, pixel, on_sheet (measure, 2 * l), on_sheet (measure, 2 * l + 1),
                           measure->chosen - (int) (2 * l));
  pf_drawing_tool_draw_snap (PF_DRAWING_TOOL (tool), cr, pixel);
}

static const char *
pf_measure_tool_cursor (PfTool *tool G_GNUC_UNUSED)
{
  return "crosshair";
}

static char *
pf_measure_tool_describe (PfTool *tool)
{
  PfMeasureTool *measure = PF_MEASURE_TOOL (tool);
  if (measure->chosen < 0)
    return NULL;
  const PfPoint at = on_sheet (measure, (size_t) measure->chosen);
  PfEditor *editor = pf_tool_editor (tool);
  g_autofree char *place = pf_editor_place (editor, at, 2);
  g_autofree char *length =
      pf_editor_length (editor, pf_measure_tool_length (measure, (size_t) measure->chosen / 2), 2);
  return g_strdup_printf (_ ("End %d of line %d, at %s; the line is %s long"),
                          measure->chosen % 2 + 1, measure->chosen / 2 + 1, place, length);
}

static void
pf_measure_tool_class_init (PfMeasureToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  dropped_signal = g_signal_new ("dropped", PF_TYPE_MEASURE_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
  tool->press = pf_measure_tool_press;
  tool->drag = pf_measure_tool_drag;
  tool->release = pf_measure_tool_release;
  tool->cancel = pf_measure_tool_cancel;
  tool->key = pf_measure_tool_key;
  tool->draw = pf_measure_tool_draw;
  tool->cursor = pf_measure_tool_cursor;
  tool->describe = pf_measure_tool_describe;
}

static void
pf_measure_tool_init (PfMeasureTool *measure)
{
  measure->to_sheet = PF_AFFINE_IDENTITY;
  measure->n_lines = 1;
  measure->chosen = -1;
}

PfTool *
pf_measure_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_MEASURE_TOOL, "editor", editor, NULL);
}
