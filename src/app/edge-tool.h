/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool of the stage "Edge": pinholes and stretches on the outlines of the active motif.
 *
 * Signal "changed": the loop is another one, or marking began or ended.
 */
#pragma once

#include "tool.h"

G_BEGIN_DECLS

#define PF_TYPE_EDGE_TOOL (pf_edge_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfEdgeTool, pf_edge_tool, PF, EDGE_TOOL, PfTool)

PfTool *pf_edge_tool_new (PfEditor *editor);

/* The loop that is worked on. */
size_t pf_edge_tool_loop (PfEdgeTool *tool);
void pf_edge_tool_set_loop (PfEdgeTool *tool, size_t loop);
/* The next drag along the outline marks a stretch, whatever lies under it. */
bool pf_edge_tool_marking (PfEdgeTool *tool);
void pf_edge_tool_set_marking (PfEdgeTool *tool, bool marking);
/* Degrees clockwise that the sheet is turned on the screen: for the arrow keys. */
void pf_edge_tool_set_turn (PfEdgeTool *tool, double degrees);

G_END_DECLS
