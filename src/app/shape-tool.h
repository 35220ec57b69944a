/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws a rectangle or an ellipse by dragging from corner to corner; with Shift a square or circle.
 */
#pragma once

#include "drawing-tool.h"

G_BEGIN_DECLS

#define PF_TYPE_SHAPE_TOOL (pf_shape_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfShapeTool, pf_shape_tool, PF, SHAPE_TOOL, PfDrawingTool)

PfTool *pf_shape_tool_new (PfEditor *editor, bool ellipse);

/* Draws it into a box; says why if that can't be. */
void pf_shape_tool_add (PfShapeTool *shape, PfBox box);

G_END_DECLS
