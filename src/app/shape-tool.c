/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Rectangles and ellipses. Nothing is in the document before the drag ends.
 */
#include "shape-tool.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "outline-marks.h"

/* mm: what is smaller was a slip of the hand */
#define SMALLEST 0.1

struct _PfShapeTool {
  PfDrawingTool parent_instance;

  bool ellipse, pressed;
  PfPoint from, to;
};

G_DEFINE_FINAL_TYPE (PfShapeTool, pf_shape_tool, PF_TYPE_DRAWING_TOOL)

static PfBox
dragged_box (const PfShapeTool *shape)
{
  const PfPoint a = shape->from, b = shape->to;
  return (PfBox){ { MIN (a.x, b.x), MIN (a.y, b.y) }, { MAX (a.x, b.x), MAX (a.y, b.y) } };
}

static PfCurve *
curve_in (const PfShapeTool *shape, PfBox box)
{
  const PfPoint middle = { (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
  return shape->ellipse ? pf_curve_new_ellipse (middle, (box.max.x - box.min.x) / 2,
                                                (box.max.y - box.min.y) / 2)
                        : pf_curve_new_rectangle (box);
}

void
pf_shape_tool_add (PfShapeTool *shape, PfBox box)
{
  PfDrawingTool *drawing = PF_DRAWING_TOOL (shape);
  if (box.max.x - box.min.x < SMALLEST || box.max.y - box.min.y < SMALLEST)
    {
      pf_drawing_tool_say (drawing, _ ("Drag from one corner to the opposite one."));
      return;
    }
  pf_drawing_tool_add (drawing, curve_in (shape, box),
                       shape->ellipse ? _ ("Draw an ellipse") : _ ("Draw a rectangle"));
  pf_drawing_tool_finished (drawing);
}

static bool
pf_shape_tool_press (PfTool *tool, const PfPointer *pointer)
{
  PfShapeTool *shape = PF_SHAPE_TOOL (tool);
  shape->from = shape->to =
      pf_drawing_tool_snap (PF_DRAWING_TOOL (tool), pointer, pointer->at, NULL, NULL);
  shape->pressed = true;
  return true;
}

static void
pf_shape_tool_drag (PfTool *tool, const PfPointer *pointer)
{
  PfShapeTool *shape = PF_SHAPE_TOOL (tool);
  if (!shape->pressed)
    return;
  shape->to = pf_drawing_tool_snap (PF_DRAWING_TOOL (tool), pointer, pointer->at, NULL, NULL);
  if ((pointer->state & GDK_SHIFT_MASK) != 0)
    {
      const double dx = shape->to.x - shape->from.x, dy = shape->to.y - shape->from.y;
      const double side = MAX (fabs (dx), fabs (dy));
      shape->to =
          (PfPoint){ shape->from.x + copysign (side, dx), shape->from.y + copysign (side, dy) };
    }
  pf_tool_redraw (tool);
}

static void
pf_shape_tool_cancel (PfTool *tool)
{
  PF_SHAPE_TOOL (tool)->pressed = false;
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (tool));
}

static void
pf_shape_tool_release (PfTool *tool, const PfPointer *pointer G_GNUC_UNUSED)
{
  PfShapeTool *shape = PF_SHAPE_TOOL (tool);
  if (!shape->pressed)
    return;
  pf_shape_tool_cancel (tool);
  pf_shape_tool_add (shape, dragged_box (shape));
}

static void
pf_shape_tool_hover (PfTool *tool, const PfPointer *pointer)
{
  pf_drawing_tool_snap (PF_DRAWING_TOOL (tool), pointer, pointer->at, NULL, NULL);
}

static void
pf_shape_tool_leave (PfTool *tool)
{
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (tool));
}

static bool
pf_shape_tool_key (PfTool *tool, guint keyval, GdkModifierType state G_GNUC_UNUSED,
                   double pixel G_GNUC_UNUSED)
{
  if (keyval != GDK_KEY_Escape)
    return false;
  pf_shape_tool_cancel (tool);
  pf_drawing_tool_finished (PF_DRAWING_TOOL (tool));
  return true;
}

static void
pf_shape_tool_draw (PfTool *tool, cairo_t *cr, double pixel)
{
  PfShapeTool *shape = PF_SHAPE_TOOL (tool);
  if (shape->pressed)
    {
      g_autoptr (PfCurve) curve = curve_in (shape, dragged_box (shape));
      pf_marks_draw_curve (cr, pixel, curve);
    }
  pf_drawing_tool_draw_snap (PF_DRAWING_TOOL (tool), cr, pixel);
}

static const char *
pf_shape_tool_cursor (PfTool *tool G_GNUC_UNUSED)
{
  return "crosshair";
}

static char *
pf_shape_tool_describe (PfTool *tool)
{
  const PfShapeTool *shape = PF_SHAPE_TOOL (tool);
  const PfBox box = dragged_box (shape);
  if (!shape->pressed)
    return NULL;
  g_autofree char *width = pf_editor_length (pf_tool_editor (tool), box.max.x - box.min.x, 2);
  g_autofree char *height = pf_editor_length (pf_tool_editor (tool), box.max.y - box.min.y, 2);
  return g_strdup_printf (_ ("%s wide and %s high"), width, height);
}

static void
pf_shape_tool_class_init (PfShapeToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  tool->press = pf_shape_tool_press;
  tool->drag = pf_shape_tool_drag;
  tool->release = pf_shape_tool_release;
  tool->cancel = pf_shape_tool_cancel;
  tool->hover = pf_shape_tool_hover;
  tool->leave = pf_shape_tool_leave;
  tool->key = pf_shape_tool_key;
  tool->draw = pf_shape_tool_draw;
  tool->cursor = pf_shape_tool_cursor;
  tool->describe = pf_shape_tool_describe;
}

static void
pf_shape_tool_init (PfShapeTool *shape G_GNUC_UNUSED)
{
}

PfTool *
pf_shape_tool_new (PfEditor *editor, bool ellipse)
{
  PfShapeTool *shape = g_object_new (PF_TYPE_SHAPE_TOOL, "editor", editor, NULL);
  shape->ellipse = ellipse;
  return PF_TOOL (shape);
}
