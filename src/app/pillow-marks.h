/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is drawn over the outline beside the pillow: pairs, pins, and the present step. In pixels.
 */
#pragma once

#include <gtk/gtk.h>

#include "pillow-place.h"

G_BEGIN_DECLS

typedef struct {
  const PfPillowPlan *plan;
  size_t place;      /* all before is done */
  PfPillowSpan span; /* the present steps */
  PfAffine map;      /* from the sheet, mm, to pixels */
  double gap;        /* of the ground, pixels */
  double nearest;    /* from a present stitch to any other, pixels */
  double text;       /* size of numbers, pixels */
  PfBox window;      /* of the sheet, mm: what can be seen, and a little round it */
  GtkWidget *widget; /* for its font */
} PfPillowMarks;

/* pillow-pairs.c: the lines of all pairs that are near, the present ones last and strong. */
void pf_pillow_draw_pairs (const PfPillowMarks *marks, cairo_t *cr);
/* pillow-pins.c: the pins that are near. */
void pf_pillow_draw_pins (const PfPillowMarks *marks, cairo_t *cr);
/* What the signs of pins mean, in the corner of a drawing so large. */
void pf_pillow_draw_key (const PfPillowMarks *marks, cairo_t *cr, double width, double height);
/* pillow-marks.c: rings round the present stitches, arrows to the present sewings, and the numbers
 * of their pairs. */
void pf_pillow_draw_present (const PfPillowMarks *marks, cairo_t *cr);

/* --- Shared -------------------------------------------------------------------------------------
 */

static inline PfPoint
pf_pillow_stitch_at (const PfPillowMarks *marks, guint32 stitch)
{
  return pf_affine_map (marks->map, marks->plan->motif->filling->stitches[stitch].at);
}

static inline PfPoint
pf_pillow_sewing_at (const PfPillowMarks *marks, guint32 sewing)
{
  return pf_affine_map (marks->map, marks->plan->motif->filling->sewings[sewing].at);
}

static inline bool
pf_pillow_is_near (const PfPillowMarks *marks, PfPoint place)
{
  return place.x >= marks->window.min.x && place.y >= marks->window.min.y &&
         place.x <= marks->window.max.x && place.y <= marks->window.max.y;
}

/* The present pairs' lines, each from where the pair is to where the step takes it. */
typedef struct {
  PfPoint from, to; /* pixels */
  guint32 pair;
  bool along;   /* laid along the edge */
  bool outward; /* `to` is at the edge */
} PfPillowLine;

/* An array of PfPillowLine; free with g_array_unref(). */
GArray *pf_pillow_present_lines (const PfPillowMarks *marks);

G_END_DECLS
