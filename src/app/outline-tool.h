/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool that chooses and changes what is drawn: nodes, handles, segments, whole motifs.
 */
#pragma once

#include "drawing-tool.h"

G_BEGIN_DECLS

#define PF_TYPE_OUTLINE_TOOL (pf_outline_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfOutlineTool, pf_outline_tool, PF, OUTLINE_TOOL, PfDrawingTool)

PfTool *pf_outline_tool_new (PfEditor *editor);

/* The chosen nodes of the active motif. Borrowed. */
const PfNodeSet *pf_outline_tool_nodes (PfOutlineTool *tool);
/* Chooses a node, alone or beside the others. */
void pf_outline_tool_choose (PfOutlineTool *tool, PfNodeRef node, bool more);
void pf_outline_tool_choose_all (PfOutlineTool *tool);
void pf_outline_tool_choose_none (PfOutlineTool *tool);

typedef enum {
  PF_OUTLINE_SMOOTH,
  PF_OUTLINE_CORNER,
  PF_OUTLINE_STRAIGHT,
  PF_OUTLINE_CURVED,
  PF_OUTLINE_ADD_NODE,
  PF_OUTLINE_DELETE,
} PfOutlineAct;

/* Draws the marks of another tool (borrowed; NULL: none) with its own: the mirror axis, while it is
 * being talked about. */
void pf_outline_tool_draw_with (PfOutlineTool *tool, PfTool *other);

/* Does it to the chosen nodes, or the segments between them; one change. Says why if it can't. */
void pf_outline_tool_act (PfOutlineTool *tool, PfOutlineAct act);
/* Moves the chosen nodes, or the motif if none is chosen. */
void pf_outline_tool_move (PfOutlineTool *tool, PfPoint by);

G_END_DECLS
