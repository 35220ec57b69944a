/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A stretch marked along a loop by dragging; and how stretches are drawn.
 */
#pragma once

#include <cairo.h>

#include "editor.h"

G_BEGIN_DECLS

/* All zero when nothing is marked. */
typedef struct {
  PfEditor *editor;
  PfDraft *start; /* the draft when the drag began */
  PfMotif *motif;
  size_t loop;
  double from, to;  /* mm along the loop */
  double last;      /* where the pointer was, along the loop, and ... */
  double travelled; /* ... how far it came since it began: backwards if negative */
} PfStretchMark;

/* False if the active motif can't be changed. */
bool pf_stretch_mark_begin (PfStretchMark *mark, PfEditor *editor, size_t loop, double along,
                            double snap);
/* Its end goes to the place nearest to `at`, or to a pinhole within `snap` mm; ways shorter than
 * `least` mm mark nothing. */
void pf_stretch_mark_to (PfStretchMark *mark, PfPoint at, double snap, double least);
void pf_stretch_mark_end (PfStretchMark *mark);
void pf_stretch_mark_cancel (PfStretchMark *mark);
/* In words; free with g_free(). */
char *pf_stretch_mark_describe (const PfStretchMark *mark);

static inline bool
pf_stretch_mark_active (const PfStretchMark *mark)
{
  return mark->start != NULL;
}

/* All stretches of a motif, as bands along the outline, with one user unit to the mm. */
void pf_stretches_draw (const PfMotif *motif, cairo_t *cr, double pixel);
/* One loop, as the one that is worked on. */
void pf_stretches_draw_loop (const PfMotif *motif, size_t loop, cairo_t *cr, double pixel);

G_END_DECLS
