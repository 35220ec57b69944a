/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Shows the outlines that were found in a scan, and lets the maker choose among them. They aren't
 * part of the document before she takes them over.
 */
#pragma once

#include "drawing-tool.h"

G_BEGIN_DECLS

#define PF_TYPE_TRACE_TOOL (pf_trace_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfTraceTool, pf_trace_tool, PF, TRACE_TOOL, PfDrawingTool)

/* "changed" is emitted when another one is chosen. */
PfTool *pf_trace_tool_new (PfEditor *editor);

/* The curves (of PfCurve; a reference is taken) with a flag for each: an outer one, which its holes
 * follow. NULL for none. All are chosen. */
void pf_trace_tool_set_found (PfTraceTool *trace, GPtrArray *curves, const bool *outer);
/* Motifs, that is outer curves, found and chosen. */
size_t pf_trace_tool_n_found (PfTraceTool *trace);
size_t pf_trace_tool_n_chosen (PfTraceTool *trace);
/* Adds the chosen ones as motifs with their holes: one change. */
void pf_trace_tool_take_over (PfTraceTool *trace);

G_END_DECLS
