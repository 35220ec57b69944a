/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where things stand in an edge strip. Along it, places lie to scale; across it, from top to
 * bottom: numbers of pairs in two rows, their lines, targets, marks on the outline, the band of the
 * edge, numbers of pinholes, the ruler.
 */
#pragma once

#include <sheet.h>

#include "page.h"
#include "style.h"

G_BEGIN_DECLS

/* Across the strip, in parts of which PF_EDGE_STRIP_HEIGHT go to its height. */
#define PF_STRIP_ROW_HEIGHT 3.7  /* of one row of pairs' numbers; the upper row begins at 0.2 */
#define PF_STRIP_LABEL_FOOT 7.7  /* a pair's line leads from here ... */
#define PF_STRIP_TARGET_TOP 11.0 /* ... to its target's tick */
#define PF_STRIP_TARGET_FOOT 12.2
#define PF_STRIP_OUTLINE 16.4
#define PF_STRIP_BAND_FOOT 18.2
#define PF_STRIP_NUMBERS 20.2 /* baseline */
#define PF_STRIP_RULER 21.0   /* ticks lead down from here */

/* One sewing of the loop. Distances along the strip in mm from the loop's first point, as if the
 * loop began before its start and went on after its end. */
typedef struct {
  guint32 sewing;
  double target, place, label;
  int row;      /* of its number: 0 the lower */
  double stack; /* how far above the outline its mark is, for others are at the same place; parts */
} PfStripItem;

typedef struct {
  double unit;        /* mm to a part */
  double length;      /* of the loop, mm along the strip */
  double text;        /* font size of pairs' numbers, mm */
  bool upright;       /* numbers of pairs are set upwards, for lack of room */
  PfStripItem *items; /* n_items, by target */
  size_t n_items;
  PfSizes sizes; /* of marks */
  PfSizes lines; /* of lines of pairs, in the strip's look */
} PfStripLayout;

PfStripLayout *pf_strip_layout_new (const PfEdgeStrip *strip);
void pf_strip_layout_free (PfStripLayout *layout);

/* A place of the layout in the strip, in mm. */
double pf_strip_x (const PfEdgeStrip *strip, double along);
double pf_strip_y (const PfStripLayout *layout, double parts);
/* The middle of a label. */
double pf_strip_label_y (const PfStripLayout *layout, int row);
/* Half a label's extent along and across the strip, for `text`. */
PfPoint pf_strip_label_reach (const PfStripLayout *layout, const char *text);

/* --- Drawing ------------------------------------------------------------------------------------
 */

typedef struct {
  PfPage *page;
  const PfEdgeStrip *strip;
  const PfStripLayout *layout;
  const PfLoop *loop;
  const PfEdge *edge;
  PfPoint corner; /* the strip's top left one on the page */
  double width;   /* mm */
  bool whole;     /* a sewing is shown only if all of it lies in the strip */
} PfStrip;

/* A point of the page: `x` mm from the strip's left end, `parts` from its top. */
PfPoint pf_strip_at (const PfStrip *strip, double x, double parts);
PfInk pf_strip_thin_ink (const PfStrip *strip, const char *colour, double parts);
void pf_strip_line (const PfStrip *strip, double x, double top, double foot);

void pf_strip_draw_edge (const PfStrip *strip);    /* edge-strip-edge.c: with ruler and pinholes */
void pf_strip_draw_sewings (const PfStrip *strip); /* edge-strip-sewings.c */

/* Draws the strip with its top left corner at `corner`; with `whole`, only sewings of which all
 * lies within it. */
void pf_strip_draw (PfPage *page, const PfEdgeStrip *strip, const PfStripLayout *layout,
                    PfPoint corner, bool whole);

/* What the pages of strips have in common with those before them. */
typedef struct {
  const char *title;
  double width, height; /* of the paper as it lies, before it is stretched, mm */
  PfPoint stretch;      /* pf_page_new_stretched() */
  size_t n_before;      /* pages */
  size_t of_pages;      /* in all; 0: pages have no numbers */
} PfStripPaper;

/* The pages of all strips of a pricking, as SVG documents (char *). Of more than PF_MAX_SHEETS only
 * one more than those. */
GPtrArray *pf_strip_pages_new (const PfPricking *pricking, const PfStripPaper *paper);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfStripLayout, pf_strip_layout_free)

G_END_DECLS
