/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pairs that are finished in one motif and go on in a later one. Motif by motif, each new pair
 * takes the first pair that is free and wound alike. What is free then stays so for later motifs,
 * so no pair is kept from another that could use it: pairs that are wound alike are all the same.
 */
#include "report-winding.h"

#include <string.h>

/* A pair that is finished, and waits until it is taken. */
typedef struct {
  bool taken;
  guint motif;
  guint32 pair;
  const PfThreadUse *thread;
  const char *colours[2];
} Waiting;

static bool
same_winding (const Waiting *a, const Waiting *b)
{
  return a->thread->wraps_per_cm == b->thread->wraps_per_cm &&
         strcmp (a->thread->name, b->thread->name) == 0 &&
         g_strcmp0 (a->colours[0], b->colours[0]) == 0 &&
         g_strcmp0 (a->colours[1], b->colours[1]) == 0;
}

/* The pairs that wait or waited, and how many at their head are all taken. */
typedef struct {
  GArray *pairs; /* of Waiting */
  guint n_taken;
} Queue;

/* Takes the first that waits and is wound like `wanted`; NULL if there is none. */
static const Waiting *
take (Queue *queue, const Waiting *wanted)
{
  const guint n = queue->pairs->len;
  while (queue->n_taken < n && g_array_index (queue->pairs, Waiting, queue->n_taken).taken)
    queue->n_taken++;
  for (guint w = queue->n_taken; w < n; w++)
    {
      Waiting *pair = &g_array_index (queue->pairs, Waiting, w);
      if (pair->taken || !same_winding (pair, wanted))
        continue;
      pair->taken = true;
      return pair;
    }
  return NULL;
}

static GArray *
pairs_of (const PfMotif *motif, guint m)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (Waiting));
  g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
  for (guint32 p = 0; p < motif->filling->n_pairs; p++)
    {
      const Waiting pair = { false, m, p, &motif->thread, { colours[2 * p], colours[2 * p + 1] } };
      g_array_append_val (pairs, pair);
    }
  return pairs;
}

GArray *
pf_pairs_handed_on (const PfPricking *pricking)
{
  GArray *handed = g_array_new (FALSE, FALSE, sizeof (PfHandedOn));
  g_autoptr (GArray) waiting = g_array_new (FALSE, FALSE, sizeof (Waiting));
  Queue queue = { waiting, 0 };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      g_autoptr (GArray) pairs = pairs_of (g_ptr_array_index (pricking->motifs, m), m);
      for (guint p = 0; p < pairs->len; p++)
        {
          const Waiting *from = take (&queue, &g_array_index (pairs, Waiting, p));
          if (!from)
            continue;
          const PfHandedOn one = { from->motif, m, from->pair, p };
          g_array_append_val (handed, one);
        }
      g_array_append_vals (waiting, pairs->data, pairs->len);
    }
  return handed;
}
