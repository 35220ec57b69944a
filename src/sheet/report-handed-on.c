/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pairs that are finished in one motif and go on in a later one. Motif by motif, each new pair
 * takes the first pair that is free and wound alike. What is free then stays so for later motifs,
 * so no pair is kept from another that could use it: pairs that are wound alike are all the same.
 * What counts is the two bobbins that a pair ends with, and the two that it begins with.
 */
#include "report-winding.h"

#include <string.h>

#include <threads.h>

/* A pair that is finished, and waits until it is taken. */
typedef struct {
  bool taken;
  guint motif;
  guint32 pair;
  const PfThreadUse *thread;
  guint32 bobbins[2];
  const char *colours[2]; /* of these */
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
pairs_as_wound (const PfMotif *motif, guint m, const char *const *colours)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (Waiting));
  for (guint32 p = 0; p < motif->filling->n_pairs; p++)
    {
      const guint32 left = 2 * p, right = 2 * p + 1;
      const Waiting pair = {
        false, m, p, &motif->thread, { left, right }, { colours[left], colours[right] }
      };
      g_array_append_val (pairs, pair);
    }
  return pairs;
}

/* Gives each pair the two bobbins that its last stitch leaves it with. */
static void
end_pairs (GArray *pairs, const PfMotif *motif, const char *const *colours)
{
  const PfFilling *filling = motif->filling;
  g_autoptr (PfThreads) threads = pf_threads_new (filling, motif->ground);
  for (guint32 s = 0; s < filling->n_sewings; s++)
    {
      const PfSewing *sewing = &filling->sewings[s];
      if (sewing->kind != PF_PAIR_FINISHED)
        continue;
      const PfCrossing *crossing = &filling->crossings[sewing->leaving];
      const guint32 end = filling->stitches[crossing->stitch].first_end + crossing->side;
      Waiting *pair = &g_array_index (pairs, Waiting, sewing->pair);
      for (int b = 0; b < 2; b++)
        {
          pair->bobbins[b] = threads->out[end][b];
          pair->colours[b] = colours[threads->out[end][b]];
        }
    }
}

bool
pf_handed_on_is_whole (const PfHandedOn *one)
{
  return one->bobbins[0] == 2 * one->from_pair && one->bobbins[1] == 2 * one->from_pair + 1;
}

GArray *
pf_pairs_handed_on (const PfPricking *pricking)
{
  GArray *handed = g_array_new (FALSE, FALSE, sizeof (PfHandedOn));
  g_autoptr (GArray) waiting = g_array_new (FALSE, FALSE, sizeof (Waiting));
  Queue queue = { waiting, 0 };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
      g_autoptr (GArray) pairs = pairs_as_wound (motif, m, colours);
      for (guint p = 0; p < pairs->len; p++)
        {
          const Waiting *from = take (&queue, &g_array_index (pairs, Waiting, p));
          if (!from)
            continue;
          const PfHandedOn one = {
            from->motif, m, from->pair, p, { from->bobbins[0], from->bobbins[1] }
          };
          g_array_append_val (handed, one);
        }
      end_pairs (pairs, motif, colours);
      g_array_append_vals (waiting, pairs->data, pairs->len);
    }
  return handed;
}
