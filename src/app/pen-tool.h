/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pen: draws an outline node by node. A click makes a corner, a drag a smooth node.
 *
 * From its second node on the unfinished outline is the last, open curve of the active motif, so
 * that it is saved and undone like everything else. The pen goes on with such a curve wherever it
 * finds one.
 */
#pragma once

#include "drawing-tool.h"

G_BEGIN_DECLS

#define PF_TYPE_PEN_TOOL (pf_pen_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfPenTool, pf_pen_tool, PF, PEN_TOOL, PfDrawingTool)

PfTool *pf_pen_tool_new (PfEditor *editor);

/* Nodes of the unfinished outline. */
size_t pf_pen_tool_n_nodes (PfPenTool *pen);
/* What the maker may do next, translated. */
const char *pf_pen_tool_hint (PfPenTool *pen);

/* A node more; both say why if they can't. */
void pf_pen_tool_add (PfPenTool *pen, PfNode node);
void pf_pen_tool_close (PfPenTool *pen);
/* The last node goes. */
void pf_pen_tool_remove_last (PfPenTool *pen);
/* Ends drawing; what is unfinished stays open, but for a single node. */
void pf_pen_tool_end (PfPenTool *pen);

G_END_DECLS
