/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the two files of the tool share: outline-tool.c (choosing, changing, the keyboard) and
 * outline-tool-pointer.c.
 */
#pragma once

#include "outline-drag.h"
#include "outline-tool.h"

G_BEGIN_DECLS

struct _PfOutlineTool {
  PfDrawingTool parent_instance;

  PfNodeSet *nodes;
  PfOutlineDrag drag;
  bool pressed, banding;
  PfPoint band_end;
  PfOn hovered;
  PfTool *drawn_with; /* borrowed, or NULL */
};

/* Tells the editor the node chosen last. */
void pf_outline_tool_nodes_chosen (PfOutlineTool *tool);
/* Chooses the nodes within a box (NULL: all) beside the others. */
void pf_outline_tool_choose_within (PfOutlineTool *tool, const PfBox *box);
/* A copy of the motif to change, or NULL after saying why not. */
PfDraft *pf_outline_tool_edit (PfOutlineTool *tool);
/* Sets what the class does with the pointer. */
void pf_outline_tool_follow_pointer (PfToolClass *class);

G_END_DECLS
