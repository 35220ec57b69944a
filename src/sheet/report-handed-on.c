/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pairs that are finished in one motif and go on in a later one. Motif by motif, each new pair
 * takes the first pair that is free and wound alike. What is free then stays so for later motifs,
 * so no pair is kept from another that could use it: pairs that are wound alike are all the same.
 */
#include "report-winding.h"

#include <string.h>

/* A pair that is finished, and waits. */
typedef struct {
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

/* The number of the first that waits and is wound like `wanted`, or -1. */
static int
find_waiting (const GArray *waiting, const Waiting *wanted)
{
  for (guint w = 0; w < waiting->len; w++)
    if (same_winding (&g_array_index (waiting, Waiting, w), wanted))
      return (int) w;
  return -1;
}

static GArray *
pairs_of (const PfMotif *motif, guint m)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (Waiting));
  g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
  for (guint32 p = 0; p < motif->filling->n_pairs; p++)
    {
      const Waiting pair = { m, p, &motif->thread, { colours[2 * p], colours[2 * p + 1] } };
      g_array_append_val (pairs, pair);
    }
  return pairs;
}

GArray *
pf_pairs_handed_on (const PfPricking *pricking)
{
  GArray *handed = g_array_new (FALSE, FALSE, sizeof (PfHandedOn));
  g_autoptr (GArray) waiting = g_array_new (FALSE, FALSE, sizeof (Waiting));
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      g_autoptr (GArray) pairs = pairs_of (g_ptr_array_index (pricking->motifs, m), m);
      for (guint p = 0; p < pairs->len; p++)
        {
          const Waiting *wanted = &g_array_index (pairs, Waiting, p);
          const int w = find_waiting (waiting, wanted);
          if (w < 0)
            continue;
          const Waiting *from = &g_array_index (waiting, Waiting, w);
          const PfHandedOn one = { from->motif, m, from->pair, wanted->pair };
          g_array_append_val (handed, one);
          g_array_remove_index (waiting, (guint) w);
        }
      g_array_append_vals (waiting, pairs->data, pairs->len);
    }
  return handed;
}
