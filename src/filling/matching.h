/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Matchings of greatest weight between two sets, exact at any size.
 */
#pragma once

#include <stdint.h>

#include "filling.h"

/* A weight in three parts, of which the first that differs decides. All arithmetic is exact as long
 * as the sums of each part over a matching stay below 2^62. */
typedef struct {
  gint64 part[3];
} PfWeight;

static inline PfWeight
pf_weight_add (PfWeight a, PfWeight b)
{
  return (PfWeight){ { a.part[0] + b.part[0], a.part[1] + b.part[1], a.part[2] + b.part[2] } };
}

static inline PfWeight
pf_weight_subtract (PfWeight a, PfWeight b)
{
  return (PfWeight){ { a.part[0] - b.part[0], a.part[1] - b.part[1], a.part[2] - b.part[2] } };
}

static inline bool
pf_weight_less (PfWeight a, PfWeight b)
{
  if (a.part[0] != b.part[0])
    return a.part[0] < b.part[0];
  if (a.part[1] != b.part[1])
    return a.part[1] < b.part[1];
  return a.part[2] < b.part[2];
}

static inline bool
pf_weight_is_zero (PfWeight a)
{
  return (a.part[0] | a.part[1] | a.part[2]) == 0;
}

/* Which of n_right partners each of n_left may have: those of `l` are partners[first[l]] up to, not
 * including, partners[first[l + 1]], with the same places in `weights`, all greater than zero. */
typedef struct {
  guint32 n_left, n_right;
  const guint32 *first; /* n_left + 1 */
  const guint32 *partners;
  const PfWeight *weights;
} PfMatchGraph;

/* A matching, and the prices that prove that none has a greater weight: price of l + price of r is
 * at least the weight of every line between them, exactly that for those matched; no price is
 * negative, and who is unmatched has price zero. */
typedef struct {
  guint32 *of_left;  /* n_left: the partner, or PF_NONE */
  guint32 *of_right; /* n_right */
  PfWeight *left_price, *right_price;
} PfMatching;

/* A matching of greatest total weight. Free with pf_matching_clear(). */
void pf_matching_solve (const PfMatchGraph *graph, PfMatching *matching);
void pf_matching_clear (PfMatching *matching);

/* Of all matchings of greatest weight takes the one whose list of pairs (left, right), sorted,
 * comes first. */
void pf_matching_take_first (const PfMatchGraph *graph, PfMatching *matching);
