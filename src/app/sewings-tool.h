/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool of the stage "Sewings": walks, corrects and drags sewings, and chooses what one turns
 * with.
 *
 * Signals: "changed": choosing a line to turn with began or ended; "partner" (guint): the crossing
 * that was chosen.
 */
#pragma once

#include "sewing-walk.h"
#include "tool.h"

G_BEGIN_DECLS

#define PF_TYPE_SEWINGS_TOOL (pf_sewings_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfSewingsTool, pf_sewings_tool, PF, SEWINGS_TOOL, PfTool)

PfTool *pf_sewings_tool_new (PfEditor *editor);

/* What is walked through: until the maker sets it, partial repeats of a ground with a core, else
 * sewings. */
PfWalk pf_sewings_tool_walk (PfSewingsTool *tool);
void pf_sewings_tool_set_walk (PfSewingsTool *tool, PfWalk walk);

/* The lines that the selected sewing can turn with are marked, and the next press chooses one. */
bool pf_sewings_tool_choosing (PfSewingsTool *tool);
void pf_sewings_tool_set_choosing (PfSewingsTool *tool, bool choosing);

/* The keys that correct the selected sewing, also used in the edge strip: Left, Right, B, A,
 * Delete. False if the key is none of them, or no sewing of the active motif is selected. */
bool pf_sewing_key (PfEditor *editor, guint keyval);

G_END_DECLS
