/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the canvas marks on the drawing: the selected and the hovered thing, and where something is
 * wrong. All is drawn in pixels of the widget.
 */
#pragma once

#include <gtk/gtk.h>

#include "canvas-view.h"
#include "editor.h"

G_BEGIN_DECLS

typedef struct {
  PfEditor *editor;
  const PfCanvasView *view;
  GtkWidget *widget; /* for its font */
} PfMarks;

/* canvas-marks.c. Below the lines: the way of a pair lit up, the area of a repeat, the curves of
 * motifs that aren't worked out. */
void pf_marks_draw_under (const PfMarks *marks, cairo_t *cr);
/* Above them: rings, arrowheads, numbers. */
void pf_marks_draw_over (const PfMarks *marks, cairo_t *cr);

/* canvas-signs.c. A sign and words where a motif can't be worked out, a small sign at each
 * warning. */
void pf_signs_draw (const PfMarks *marks, cairo_t *cr);
/* What a sign at that pixel says, or NULL. Borrowed from the editor. */
const char *pf_signs_find (const PfMarks *marks, PfPoint pixel);
/* Words in a frame, with its top left corner at a pixel; moved so that all can be read. */
void pf_signs_draw_words (const PfMarks *marks, cairo_t *cr, PfPoint at, const char *words);

/* Dark brown, at least 3:1 to the paper and to the lit way; amber. */
#define PF_MARK_INK 0.42f, 0.24f, 0
#define PF_MARK_LIGHT 1, 0.80f, 0.25f
#define PF_MARK_TROUBLE 0.70f, 0.10f, 0.05f

G_END_DECLS
