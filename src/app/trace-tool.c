/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Outlines found in a scan. A motif is an outer curve with the holes that follow it; `motifs` holds
 * where each begins, and their end.
 */
#include "trace-tool.h"

#include <glib/gi18n-lib.h>

#include "outline-edit.h"
#include "outline-marks.h"

typedef struct {
  guint begin, end; /* curves */
  bool chosen;
} Found;

struct _PfTraceTool {
  PfDrawingTool parent_instance;

  GPtrArray *curves; /* NULL for none */
  GArray *motifs;    /* of Found */
  int walked;        /* by Tab; -1 for none */
};

G_DEFINE_FINAL_TYPE (PfTraceTool, pf_trace_tool, PF_TYPE_DRAWING_TOOL)

static Found *
get_found (PfTraceTool *trace, guint n)
{
  return &g_array_index (trace->motifs, Found, n);
}

static PfCurve *
get_curve (PfTraceTool *trace, guint c)
{
  return g_ptr_array_index (trace->curves, c);
}

void
pf_trace_tool_set_found (PfTraceTool *trace, GPtrArray *curves, const bool *outer)
{
  g_clear_pointer (&trace->curves, g_ptr_array_unref);
  g_array_set_size (trace->motifs, 0);
  trace->walked = -1;
  trace->curves = curves != NULL ? g_ptr_array_ref (curves) : NULL;
  for (guint c = 0; curves != NULL && c < curves->len; c++)
    {
      const Found one = { c, c, true };
      if (outer[c] || trace->motifs->len == 0)
        g_array_append_val (trace->motifs, one);
      get_found (trace, trace->motifs->len - 1)->end = c + 1;
    }
  pf_drawing_tool_changed (PF_DRAWING_TOOL (trace));
}

size_t
pf_trace_tool_n_found (PfTraceTool *trace)
{
  return trace->motifs->len;
}

size_t
pf_trace_tool_n_chosen (PfTraceTool *trace)
{
  size_t n = 0;
  for (guint m = 0; m < trace->motifs->len; m++)
    n += get_found (trace, m)->chosen;
  return n;
}

void
pf_trace_tool_take_over (PfTraceTool *trace)
{
  PfEditor *editor = pf_tool_editor (PF_TOOL (trace));
  const size_t n_before = pf_editor_document (editor)->n_drafts;
  g_autoptr (PfDocument) document = pf_document_ref (pf_editor_document (editor));
  for (guint m = 0; m < trace->motifs->len; m++)
    {
      const Found *one = get_found (trace, m);
      if (!one->chosen)
        continue;
      g_autofree char *name = pf_outline_new_name (document);
      PfDraft *draft = pf_draft_new (name, NULL);
      for (guint c = one->begin; c < one->end; c++)
        pf_draft_add_curve (draft, get_curve (trace, c));
      PfDocument *with = pf_document_with_draft_added (document, draft);
      pf_document_unref (document);
      document = with;
    }
  const bool any = document->n_drafts > n_before;
  if (any)
    {
      pf_editor_change_document (editor, g_steal_pointer (&document), _ ("Trace the scan"));
      pf_editor_set_active (editor, (int) n_before);
    }
  pf_trace_tool_set_found (trace, NULL, NULL);
  pf_drawing_tool_finished (PF_DRAWING_TOOL (trace));
}

static void
toggle (PfTraceTool *trace, guint m)
{
  get_found (trace, m)->chosen = !get_found (trace, m)->chosen;
  pf_drawing_tool_changed (PF_DRAWING_TOOL (trace));
}

static bool
pf_trace_tool_press (PfTool *tool, const PfPointer *pointer)
{
  PfTraceTool *trace = PF_TRACE_TOOL (tool);
  double nearest = 2 * pointer->reach;
  int found = -1;
  for (guint m = 0; m < trace->motifs->len; m++)
    for (guint c = get_found (trace, m)->begin; c < get_found (trace, m)->end; c++)
      {
        size_t segment;
        double t;
        const double far = pf_curve_nearest (get_curve (trace, c), pointer->at, &segment, &t);
        if (far > nearest)
          continue;
        nearest = far;
        found = (int) m;
      }
  if (found >= 0)
    toggle (trace, (guint) found);
  return found >= 0;
}

static bool
pf_trace_tool_key (PfTool *tool, guint keyval, GdkModifierType state, double pixel G_GNUC_UNUSED)
{
  PfTraceTool *trace = PF_TRACE_TOOL (tool);
  const int n = (int) trace->motifs->len;
  const bool back = keyval == GDK_KEY_ISO_Left_Tab || (state & GDK_SHIFT_MASK) != 0;
  if (keyval == GDK_KEY_Tab || keyval == GDK_KEY_ISO_Left_Tab)
    {
      const int next = trace->walked < 0 && back ? n - 1 : trace->walked + (back ? -1 : 1);
      trace->walked = next >= 0 && next < n ? next : -1;
      pf_tool_redraw (tool);
      return trace->walked >= 0;
    }
  if ((keyval == GDK_KEY_Delete || keyval == GDK_KEY_Insert) && trace->walked >= 0)
    {
      get_found (trace, (guint) trace->walked)->chosen = keyval == GDK_KEY_Insert;
      pf_drawing_tool_changed (PF_DRAWING_TOOL (tool));
      return true;
    }
  if (keyval == GDK_KEY_Return && n > 0)
    {
      pf_trace_tool_take_over (trace);
      return true;
    }
  if (keyval != GDK_KEY_Escape)
    return false;
  pf_trace_tool_set_found (trace, NULL, NULL);
  pf_drawing_tool_finished (PF_DRAWING_TOOL (tool));
  return true;
}

static void
pf_trace_tool_draw (PfTool *tool, cairo_t *cr, double pixel)
{
  PfTraceTool *trace = PF_TRACE_TOOL (tool);
  const double dashes[] = { 2 * pixel, 4 * pixel };
  for (guint m = 0; m < trace->motifs->len; m++)
    {
      const Found *one = get_found (trace, m);
      cairo_save (cr);
      if (!one->chosen)
        cairo_set_dash (cr, dashes, 2, 0);
      for (guint c = one->begin; c < one->end; c++)
        pf_marks_draw_curve (cr, pixel, get_curve (trace, c));
      cairo_restore (cr);
      if ((int) m == trace->walked)
        pf_marks_draw_node (cr, pixel, &get_curve (trace, one->begin)->nodes[0], true, true);
    }
}

static const char *
pf_trace_tool_cursor (PfTool *tool G_GNUC_UNUSED)
{
  return "pointer";
}

static char *
pf_trace_tool_describe (PfTool *tool)
{
  PfTraceTool *trace = PF_TRACE_TOOL (tool);
  if (trace->walked < 0)
    return NULL;
  const Found *one = get_found (trace, (guint) trace->walked);
  const PfBox box = pf_curve_box (get_curve (trace, one->begin));
  PfEditor *editor = pf_tool_editor (tool);
  g_autofree char *width = pf_editor_length (editor, box.max.x - box.min.x, 2);
  g_autofree char *height = pf_editor_length (editor, box.max.y - box.min.y, 2);
  return g_strdup_printf (one->chosen ? _ ("Outline %d of %u, %s by %s, to be taken over")
                                      : _ ("Outline %d of %u, %s by %s, not to be taken over"),
                          trace->walked + 1, trace->motifs->len, width, height);
}

static void
pf_trace_tool_finalize (GObject *object)
{
  PfTraceTool *trace = PF_TRACE_TOOL (object);
  g_clear_pointer (&trace->curves, g_ptr_array_unref);
  g_array_unref (trace->motifs);
  G_OBJECT_CLASS (pf_trace_tool_parent_class)->finalize (object);
}

static void
pf_trace_tool_class_init (PfTraceToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  G_OBJECT_CLASS (class)->finalize = pf_trace_tool_finalize;
  tool->press = pf_trace_tool_press;
  tool->key = pf_trace_tool_key;
  tool->draw = pf_trace_tool_draw;
  tool->cursor = pf_trace_tool_cursor;
  tool->describe = pf_trace_tool_describe;
}

static void
pf_trace_tool_init (PfTraceTool *trace)
{
  trace->motifs = g_array_new (FALSE, FALSE, sizeof (Found));
  trace->walked = -1;
}

PfTool *
pf_trace_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_TRACE_TOOL, "editor", editor, NULL);
}
