/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the tools that draw outlines share. The mark of what was snapped to lasts until the pointer
 * moves on.
 */
#include "drawing-tool.h"

#include "outline-edit.h"
#include "outline-marks.h"

typedef struct {
  PfSnapping snapping;
  PfSnapped snapped;
  PfPoint from; /* that a direction was snapped from */
  bool hole;
} PfDrawingToolPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (PfDrawingTool, pf_drawing_tool, PF_TYPE_TOOL)

enum { SAY, CHANGED, FINISHED, N_SIGNALS };
static guint signals[N_SIGNALS];

static PfDrawingToolPrivate *
get_private (PfDrawingTool *tool)
{
  return pf_drawing_tool_get_instance_private (tool);
}

PfSnapping
pf_drawing_tool_snapping (PfDrawingTool *tool)
{
  return get_private (tool)->snapping;
}

void
pf_drawing_tool_set_snapping (PfDrawingTool *tool, PfSnapping snapping)
{
  get_private (tool)->snapping = snapping;
  pf_tool_redraw (PF_TOOL (tool));
}

bool
pf_drawing_tool_hole (PfDrawingTool *tool)
{
  return get_private (tool)->hole;
}

void
pf_drawing_tool_set_hole (PfDrawingTool *tool, bool hole)
{
  get_private (tool)->hole = hole;
}

PfPoint
pf_drawing_tool_snap (PfDrawingTool *tool, const PfPointer *pointer, PfPoint p, const PfPoint *from,
                      const PfNodeSet *moving)
{
  PfDrawingToolPrivate *priv = get_private (tool);
  const bool directed = from != NULL && (pointer->state & GDK_SHIFT_MASK) != 0;
  g_autoptr (GArray) places =
      priv->snapping.to_nodes ? pf_outline_places (pf_tool_editor (PF_TOOL (tool)), moving) : NULL;
  priv->snapped =
      pf_snap (priv->snapping, places != NULL ? (const PfPoint *) places->data : NULL,
               places != NULL ? places->len : 0, pointer->reach, directed ? from : NULL, p);
  if (directed)
    priv->from = *from;
  pf_tool_redraw (PF_TOOL (tool));
  return priv->snapped.at;
}

void
pf_drawing_tool_unsnap (PfDrawingTool *tool)
{
  get_private (tool)->snapped.kind = PF_SNAP_NONE;
  pf_tool_redraw (PF_TOOL (tool));
}

void
pf_drawing_tool_draw_snap (PfDrawingTool *tool, cairo_t *cr, double pixel)
{
  PfDrawingToolPrivate *priv = get_private (tool);
  pf_marks_draw_snap (cr, pixel, priv->snapped, priv->from);
}

void
pf_drawing_tool_say (PfDrawingTool *tool, const char *text)
{
  g_signal_emit (tool, signals[SAY], 0, text);
}

void
pf_drawing_tool_changed (PfDrawingTool *tool)
{
  g_signal_emit (tool, signals[CHANGED], 0);
  pf_tool_redraw (PF_TOOL (tool));
}

void
pf_drawing_tool_finished (PfDrawingTool *tool)
{
  g_signal_emit (tool, signals[FINISHED], 0);
}

void
pf_drawing_tool_add (PfDrawingTool *tool, PfCurve *taken, const char *name)
{
  g_autoptr (PfCurve) curve = taken;
  PfEditor *editor = pf_tool_editor (PF_TOOL (tool));
  const bool hole = pf_drawing_tool_hole (tool);
  const char *trouble = hole ? pf_outline_no_hole (editor) : NULL;
  if (trouble != NULL)
    pf_drawing_tool_say (tool, trouble);
  else if (hole)
    pf_outline_add_hole (editor, g_steal_pointer (&curve), name);
  else
    pf_outline_add_motif (editor, g_steal_pointer (&curve), name);
}

static void
pf_drawing_tool_class_init (PfDrawingToolClass *class)
{
  signals[SAY] = g_signal_new ("say", PF_TYPE_DRAWING_TOOL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[CHANGED] = g_signal_new ("changed", PF_TYPE_DRAWING_TOOL, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
  signals[FINISHED] = g_signal_new ("finished", PF_TYPE_DRAWING_TOOL, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 0);
  (void) class;
}

static void
pf_drawing_tool_init (PfDrawingTool *tool)
{
  get_private (tool)->snapping = (PfSnapping){ 0, true };
}
