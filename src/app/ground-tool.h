/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool of the stage "Ground": drags the ground over the active motif, and turns it by a handle.
 */
#pragma once

#include "tool.h"

G_BEGIN_DECLS

#define PF_TYPE_GROUND_TOOL (pf_ground_tool_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundTool, pf_ground_tool, PF, GROUND_TOOL, PfTool)

PfTool *pf_ground_tool_new (PfEditor *editor);

G_END_DECLS
