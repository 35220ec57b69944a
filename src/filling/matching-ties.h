/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Ties between matchings of greatest weight.
 *
 * The prices tell which lines a best matching can have: the tight ones, without loss. A matching of
 * tight lines is best if and only if it leaves no node alone whose price is above zero.
 */
#pragma once

#include "matching.h"

typedef struct {
  const PfMatchGraph *graph;
  PfMatching *matching;
  guint32 n_nodes;    /* the left nodes, then the right nodes, then one extra node */
  guint32 *component; /* per node: nodes that can exchange partners have the same */
} PfTies;

/* Fills in `t`; component is to be freed with g_free(). */
void pf_ties_find (PfTies *t, const PfMatchGraph *graph, PfMatching *matching);

/* Is line `e` of `left` without loss? */
static inline bool
pf_ties_tight (const PfTies *t, guint32 left, guint32 e)
{
  const PfMatching *m = t->matching;
  const PfWeight prices =
      pf_weight_add (m->left_price[left], m->right_price[t->graph->partners[e]]);
  return pf_weight_is_zero (pf_weight_subtract (prices, t->graph->weights[e]));
}

/* Can line `e` of `left` be exchanged for another, or another for it? */
static inline bool
pf_ties_choice (const PfTies *t, guint32 left, guint32 e)
{
  return t->component[left] == t->component[t->graph->n_left + t->graph->partners[e]] &&
         pf_ties_tight (t, left, e);
}
