/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents with one motif, and hands for tools, for the tests of src/app.
 */
#pragma once

#include <editor.h>
#include <tool.h>

/* A rectangle from (0, 0), clockwise from its top left corner, with an edge gap of 2 mm, filled
 * with a ground that comes with the program (NULL: not filled) at a gap of 5 mm, its origin in the
 * middle. */
PfDocument *sample_rectangle (double width, double height, const char *ground);
/* The same with a square hole of `hole` mm in the middle. */
PfDocument *sample_frame (double width, double height, double hole, const char *ground);
/* An editor with a document, which is taken over. */
PfEditor *sample_editor (PfDocument *document);

/* The active motif as it is worked out, and its first edge as it is drawn up. */
const PfMotif *motif_of (PfEditor *editor);
const PfDraftEdge *edge_of (PfEditor *editor);
/* How many changes can be undone; undoes and redoes them. */
int count_changes (PfEditor *editor);

/* What a hand does, with 0.1 mm to the pixel and a reach of 0.8 mm. */
PfPointer hand_at (PfPoint at);
bool press (PfTool *tool, PfPoint at, int n_press, GdkModifierType state);
void drag (PfTool *tool, PfPoint at);
void release (PfTool *tool, PfPoint at);
/* Press, drag in steps, release. */
void drag_from_to (PfTool *tool, PfPoint from, PfPoint to, GdkModifierType state);
void cancel (PfTool *tool);
bool key (PfTool *tool, guint keyval, GdkModifierType state);
