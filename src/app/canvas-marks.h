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

/* What pairs are marked with: an arrowhead at `tip`, for one who comes from `from`; a dot and the
 * number where a pair begins. In pixels. */
void pf_marks_draw_arrow (cairo_t *cr, PfPoint from, PfPoint tip, double size);
void pf_marks_draw_start (const PfMarks *marks, cairo_t *cr, PfPoint at, guint32 pair,
                          bool selected);

/* canvas-threads.c. The two threads of a pair as they lie; their ways, straight from stitch to
 * stitch; where they begin and end. */
void pf_marks_draw_threads (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, guint32 pair,
                            bool selected);
void pf_marks_draw_thread_ways (const PfMarks *marks, cairo_t *cr, const PfMotif *motif,
                                guint32 pair, bool selected);
void pf_marks_draw_thread_ends (const PfMarks *marks, cairo_t *cr, const PfMotif *motif,
                                guint32 pair, bool selected);

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
/* A blue for the right one of two threads, which is dashed too. */
#define PF_MARK_RIGHT 0.10f, 0.36f, 0.78f
#define PF_MARK_TROUBLE 0.70f, 0.10f, 0.05f

G_END_DECLS
