/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "walks.h"

/* --- At one stitch ------------------------------------------------------------------------------
 */

/* Pairs a b and c d change places: first the inner threads b and c, last the outer ones a and d. */
static int
add_pair_swap (PfMove *moves, int n, PfMove swap)
{
  static const guint8 places[] = { 1, 0, 2, 1 };
  for (gsize s = 0; s < G_N_ELEMENTS (places); s++)
    {
      moves[n] = swap;
      moves[n++].place = (guint8) (2 * swap.place + places[s]);
    }
  return n;
}

int
pf_ground_thread_moves (const PfGround *ground, int k, PfMove moves[PF_THREAD_MOVES_MAX])
{
  PfMove of_word[PF_MOVES_MAX];
  const int n_word = pf_word_moves (ground->stitches[k].work, of_word);
  const bool of_pairs = ground->stitches[k].n_pairs == PF_PLACES;
  int n = 0;
  for (int m = 0; m < n_word; m++)
    if (of_word[m].kind == PF_MOVE_SWAP && of_pairs)
      n = add_pair_swap (moves, n, of_word[m]);
    else if (of_word[m].kind != PF_MOVE_PIN)
      moves[n++] = of_word[m];
  return n;
}

/* places_out[place]: where the thread that comes in there goes out. */
static void
find_places_out (const PfGround *ground, int k, guint8 places_out[PF_STITCH_MAX_THREADS])
{
  PfMove moves[PF_THREAD_MOVES_MAX];
  guint8 order[PF_STITCH_MAX_THREADS];
  const int n = pf_ground_thread_moves (ground, k, moves);
  for (guint8 place = 0; place < PF_STITCH_MAX_THREADS; place++)
    order[place] = place;
  for (int m = 0; m < n; m++)
    if (moves[m].kind == PF_MOVE_SWAP)
      {
        const guint8 left = order[moves[m].place];
        order[moves[m].place] = order[moves[m].place + 1];
        order[moves[m].place + 1] = left;
      }
  for (guint8 place = 0; place < PF_STITCH_MAX_THREADS; place++)
    places_out[order[place]] = place;
}

int
pf_ground_thread_in (const PfGround *ground, int k, int place)
{
  const int e = ground->entries[k][place / 2];
  return 2 * e + (place + ground->lines[e].twists) % 2;
}

/* --- From line to line --------------------------------------------------------------------------
 */

static int
pair_line (int pair)
{
  return pair;
}

static int
thread_line (int thread)
{
  return thread / 2;
}

/* Follows `next` from each of n pairs or threads; line_of (x) is the line that x lies on. */
static PfGroundWalks
follow (const PfGround *ground, const int *next, int n, int (*line_of) (int))
{
  PfGroundWalks walks = { 0, g_new (PfGroundWalk, n), g_new (PfOnWalk, n) };
  g_autofree bool *walked = g_new0 (bool, n);
  for (int start = 0; start < n; start++)
    {
      if (walked[start])
        continue;
      PfGroundWalk walk = { 0, 0, 0 };
      int x = start;
      do
        {
          const PfPairLine *line = &ground->lines[line_of (x)];
          walked[x] = true;
          walks.on[x] = (PfOnWalk){ walks.n, walk.da, walk.db };
          walk.da += line->da;
          walk.db += line->db;
          walk.n_stitches++;
          x = next[x];
      } while (x != start);
      walks.walks[walks.n++] = walk;
    }
  return walks;
}

PfGroundWalks
pf_ground_walk_pairs (const PfGround *ground)
{
  g_autofree int *next = g_new (int, ground->n_lines);
  for (int e = 0; e < ground->n_lines; e++)
    next[e] = ground->exits[ground->lines[e].to.stitch][ground->lines[e].to.side];
  return follow (ground, next, ground->n_lines, pair_line);
}

void
pf_ground_next_threads (const PfGround *ground, int *next)
{
  for (int k = 0; k < ground->n_stitches; k++)
    {
      guint8 places_out[PF_STITCH_MAX_THREADS];
      find_places_out (ground, k, places_out);
      for (int place = 0; place < 2 * ground->stitches[k].n_pairs; place++)
        next[pf_ground_thread_in (ground, k, place)] =
            2 * ground->exits[k][places_out[place] / 2] + places_out[place] % 2;
    }
}

PfGroundWalks
pf_ground_walk_threads (const PfGround *ground)
{
  g_autofree int *next = g_new (int, 2 * ground->n_lines);
  pf_ground_next_threads (ground, next);
  return follow (ground, next, 2 * ground->n_lines, thread_line);
}

void
pf_ground_walks_clear (PfGroundWalks *walks)
{
  g_free (walks->walks);
  g_free (walks->on);
}
