/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which thread lies over which: at the stitches, letter by letter, and on the twisted pair lines.
 */
#include "layers.h"

PfOnWalk
pf_ground_thread_at (const PfGround *ground, const PfGroundWalks *threads, int k, int place)
{
  const int thread = pf_ground_thread_in (ground, k, place);
  const PfPairLine *line = &ground->lines[thread / 2];
  const PfOnWalk on = threads->on[thread];
  return (PfOnWalk){ on.walk, -line->da - on.da, -line->db - on.db };
}

static void
add_over (GArray *overs, PfOnWalk over, PfOnWalk under, int stitch)
{
  const PfGroundOver o = { over.walk, under.walk, under.da - over.da, under.db - over.db, stitch };
  g_array_append_val (overs, o);
}

static void
add_stitch (const PfGround *ground, const PfGroundWalks *threads, int k, GArray *overs)
{
  PfMove moves[PF_THREAD_MOVES_MAX];
  const int n = pf_ground_thread_moves (ground, k, moves);
  const int n_threads = 2 * ground->stitches[k].n_pairs;
  PfOnWalk at[PF_STITCH_MAX_THREADS];
  for (int place = 0; place < n_threads; place++)
    at[place] = pf_ground_thread_at (ground, threads, k, place);
  for (int m = 0; m < n; m++)
    {
      if (moves[m].kind == PF_MOVE_WEAVE)
        {
          for (int place = 0; place + 1 < n_threads; place++)
            {
              add_over (overs, at[place], at[place + 1], k);
              add_over (overs, at[place + 1], at[place], k);
            }
          continue;
        }
      PfOnWalk *left = &at[moves[m].place], *right = left + 1;
      const PfOnWalk swap = *left;
      if (moves[m].left_over)
        add_over (overs, *left, *right, k);
      else
        add_over (overs, *right, *left, k);
      *left = *right;
      *right = swap;
    }
}

/* In a twist the right thread passes over the left; the next one lies the other way. */
static void
add_twists (const PfGround *ground, const PfGroundWalks *threads, int e, GArray *overs)
{
  const PfPairLine *line = &ground->lines[e];
  const int right = 2 * line->to.side + 1;
  PfOnWalk at[2] = { pf_ground_thread_at (ground, threads, line->to.stitch, right - 1),
                     pf_ground_thread_at (ground, threads, line->to.stitch, right) };
  for (int t = line->twists; t > 0; t--) /* the last one first: it brought in the left thread */
    add_over (overs, at[(line->twists - t) % 2], at[(line->twists - t + 1) % 2], line->to.stitch);
}

GArray *
pf_ground_find_overs (const PfGround *ground, const PfGroundWalks *threads)
{
  GArray *overs = g_array_new (FALSE, FALSE, sizeof (PfGroundOver));
  for (int k = 0; k < ground->n_stitches; k++)
    add_stitch (ground, threads, k, overs);
  for (int e = 0; e < ground->n_lines; e++)
    add_twists (ground, threads, e, overs);
  return overs;
}
