/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The steps of pf_filling_new(), in the order in which they are done. Each fills in its part of the
 * filling from the parts before it.
 */
#pragma once

#include "crossings.h"

/* Lists the worked stitches, joins them, and finds the crossings where pair lines are cut. */
void pf_link_stitches (PfFilling *filling, const PfLattice *lattice, const PfRegion *region);

/* Sets kind, match and chosen of the crossings whose pairs the maker chose. */
void pf_choose_pairs (PfFilling *filling, const PfGround *ground,
                      const PfFillingSettings *settings);

/* Why a choice for a line can't be kept to, as it isn't cut now; NULL if it is. */
char *pf_why_not_cut (const PfFilling *filling, const PfGround *ground, PfLineId line);

/* Decides at each other crossing whether a pair is new, turned, carried or finished: kind and
 * match. */
void pf_match_crossings (PfFilling *filling, const PfRegion *region, const PfGround *ground,
                         const PfFillingSettings *settings);

/* Finds the working order, by the filling's habits. */
void pf_find_order (PfFilling *filling, const PfLattice *lattice);

/* Lists the sewings in working order, each with its target, and gives each its place. */
bool pf_find_sewings (PfFilling *filling, const PfRegion *region, const PfEdge *edges,
                      const PfGround *ground, const PfFillingSettings *settings, GError **error);

/* Numbers the pairs, and follows each through the order. */
void pf_follow_pairs (PfFilling *filling);

/* Notes what the maker should look at. */
void pf_find_warnings (PfFilling *filling, const PfRegion *region, const PfGround *ground);

/* Appends a warning; takes over `text`. */
void pf_filling_warn (PfFilling *filling, PfWarningKind kind, PfPoint at, char *text);

/* Notes that a choice isn't kept to; takes over `why`. */
void pf_filling_note_unheeded (PfFilling *filling, bool of_sewing, size_t index, char *why);

/* The repeat's entry among `repeats`, or NULL. */
const PfRepeat *pf_filling_find_repeat (const PfFilling *filling, int i, int j);

/* The worked stitch of this name, or PF_NONE. */
guint32 pf_filling_find_stitch (const PfFilling *filling, PfStitchId id);

/* The n-th stitch in working order. Stitches that are worked after one another lie far apart in
 * memory, and so do their ends: those to come are asked for ahead of time, the ends when the stitch
 * that tells where they are has come. */
static inline PfWorkedStitch *
pf_stitch_in_order (const PfFilling *filling, size_t n)
{
  enum { AHEAD = 16 };
  if (n + 2 * AHEAD < filling->n_stitches)
    __builtin_prefetch (&filling->stitches[filling->order[n + 2 * AHEAD]]);
  if (n + AHEAD < filling->n_stitches)
    {
      const PfWorkedStitch *later = &filling->stitches[filling->order[n + AHEAD]];
      const PfWorkedEnd *ends = pf_worked_ends (filling, later);
      __builtin_prefetch (ends);
      __builtin_prefetch ((const char *) (ends + later->n_sides) - 1);
    }
  return &filling->stitches[filling->order[n]];
}

/* Earlier means earlier by more than this. */
#define PF_TIME_SLACK 1e-9

/* Times and places in the ground are compared rounded to 1e-9, so that rounding in the last place
 * decides nothing. */
static inline gint64
pf_round_time (double value)
{
  return (gint64) __builtin_llround (value * 1e9);
}
