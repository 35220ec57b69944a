/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the tools that draw outlines share: snapping, its mark, and what they tell the panel.
 */
#pragma once

#include "node-set.h"
#include "snapping.h"
#include "tool.h"

G_BEGIN_DECLS

#define PF_TYPE_DRAWING_TOOL (pf_drawing_tool_get_type ())
G_DECLARE_DERIVABLE_TYPE (PfDrawingTool, pf_drawing_tool, PF, DRAWING_TOOL, PfTool)

/* Signals: "say" (char *): why a thing can't be done; "changed": what the panel shows of the tool;
 * "finished": what was drawn is closed or given up. */
struct _PfDrawingToolClass {
  PfToolClass parent_class;
};

PfSnapping pf_drawing_tool_snapping (PfDrawingTool *tool);
void pf_drawing_tool_set_snapping (PfDrawingTool *tool, PfSnapping snapping);
/* New curves are holes of the active motif, not motifs. */
bool pf_drawing_tool_hole (PfDrawingTool *tool);
void pf_drawing_tool_set_hole (PfDrawingTool *tool, bool hole);

/* Where `p` snaps to, and keeps that for the mark. `from` (may be NULL) counts while Shift is held;
 * nodes of `moving` (may be NULL) don't. */
PfPoint pf_drawing_tool_snap (PfDrawingTool *tool, const PfPointer *pointer, PfPoint p,
                              const PfPoint *from, const PfNodeSet *moving);
/* Takes the mark away. */
void pf_drawing_tool_unsnap (PfDrawingTool *tool);
void pf_drawing_tool_draw_snap (PfDrawingTool *tool, cairo_t *cr, double pixel);

void pf_drawing_tool_say (PfDrawingTool *tool, const char *text);
void pf_drawing_tool_changed (PfDrawingTool *tool);
void pf_drawing_tool_finished (PfDrawingTool *tool);
/* Adds a closed curve (taken over) as what is wanted: a hole, or a motif; or says why not. */
void pf_drawing_tool_add (PfDrawingTool *tool, PfCurve *taken, const char *name);

G_END_DECLS
