/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The steps of pf_filling_new(), in the order in which they are done. Each fills in its part of the
 * filling from the parts before it.
 */
#pragma once

#include "crossings.h"

/* Lists the worked stitches, joins them, and finds the crossings where pair lines are cut. */
void pf_link_stitches (PfFilling *filling, const PfLattice *lattice, const PfRegion *region);

/* Decides at each crossing whether a pair is new, turned, carried or finished: kind and match. */
void pf_match_crossings (PfFilling *filling, const PfRegion *region, const PfGround *ground,
                         const PfFillingSettings *settings);

/* Finds the working order. */
void pf_find_order (PfFilling *filling, const PfLattice *lattice);

/* Lists the sewings in working order, each with its target, and gives each its place. */
bool pf_find_sewings (PfFilling *filling, const PfRegion *region, const PfEdge *edges,
                      const PfFillingSettings *settings, GError **error);

/* Numbers the pairs, and follows each through the order. */
void pf_follow_pairs (PfFilling *filling);

/* Notes what the maker should look at. */
void pf_find_warnings (PfFilling *filling, const PfRegion *region, const PfGround *ground);

/* Appends a warning; takes over `text`. */
void pf_filling_warn (PfFilling *filling, PfWarningKind kind, PfPoint at, char *text);

/* A sewing on its way to a place: its target, the sewing's number, and the place it gets. */
typedef struct {
  double target; /* distance along the loop */
  double from;   /* which side its pair comes from: greater farther on along the loop */
  guint32 sewing;
  guint32 pinhole; /* out: number of the pinhole, or PF_NONE */
  double distance; /* out: along the outline, mm */
} PfPlacing;

/* Gives each of n sewings of one loop a pinhole of its edge, or none (round the bar): at most
 * `limit` to a pinhole. On a half stitch edge only pinholes at most `reach` mm (with 1e-6 mm to
 * spare) away, as many as possible; on a cloth stitch edge all (there are limit · n_pinholes
 * places, at least n). In both the total distance is the least possible, and where two could be
 * exchanged they stand in the order of their targets. Sorts the placings by target. False
 * if that would take too much memory. */
bool pf_assign_places (PfPlacing *placings, size_t n, const PfLoop *loop, const PfEdge *edge,
                       int limit, double reach);

/* The n-th stitch in working order. Stitches that are worked after one another lie far apart in
 * memory: the ones to come are asked for ahead of time. */
static inline PfWorkedStitch *
pf_stitch_in_order (const PfFilling *filling, size_t n)
{
  enum { AHEAD = 16 };
  if (n + AHEAD < filling->n_stitches)
    {
      const char *later = (const char *) &filling->stitches[filling->order[n + AHEAD]];
      __builtin_prefetch (later);
      __builtin_prefetch (later + 64);
    }
  return &filling->stitches[filling->order[n]];
}

/* Times and places in the ground are compared rounded to 1e-9, so that rounding in the last place
 * decides nothing. */
static inline gint64
pf_round_time (double value)
{
  return (gint64) __builtin_llround (value * 1e9);
}
