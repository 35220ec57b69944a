/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lines between two ends that are laid by hand on the drawing: a mirror axis, or known distances on
 * a scan. They aren't part of the document.
 */
#pragma once

#include "drawing-tool.h"

G_BEGIN_DECLS

#define PF_TYPE_MEASURE_TOOL (pf_measure_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfMeasureTool, pf_measure_tool, PF, MEASURE_TOOL, PfDrawingTool)

#define PF_MEASURE_MAX_LINES 2

/* "changed" is emitted while the maker moves an end, then "dropped" (gboolean): she lets it go, or
 * (FALSE) takes the drag back. */
PfTool *pf_measure_tool_new (PfEditor *editor);

/* How many lines are shown. */
void pf_measure_tool_set_n_lines (PfMeasureTool *measure, size_t n);
/* The lines' own coordinates are mapped to the sheet by it: those of a scan are its pixels. */
void pf_measure_tool_set_map (PfMeasureTool *measure, PfAffine to_sheet);
/* The ends in the lines' own coordinates. */
void pf_measure_tool_set_line (PfMeasureTool *measure, size_t line, PfPoint a, PfPoint b);
void pf_measure_tool_get_line (PfMeasureTool *measure, size_t line, PfPoint *a, PfPoint *b);
/* Its length on the sheet, mm. */
double pf_measure_tool_length (PfMeasureTool *measure, size_t line);

G_END_DECLS
