/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Follows all threads through the working order, stitch by stitch.
 *
 * When a stitch is reached, the threads of all its pairs are known: each pair was sewn in, or came
 * from a stitch worked before. Its word says where they go out.
 */
#include "threads.h"

#include <moves.h>

#include "filling-private.h"

/* All the threads that can lie at one stitch. */
enum { MAX_THREADS = 2 * PF_STITCH_MAX_PAIRS };

/* How many places of a stitch one pair takes: where four pairs meet, it moves as one thread does
 * elsewhere, and its two threads stay side by side. */
static int
threads_to_place (const PfWorkedStitch *stitch)
{
  return (int) stitch->n_sides * 2 / PF_PLACES;
}

/* The threads at a stitch, from the left, that come in, in the places where they go out. */
static void
work_stitch (const PfFilling *filling, const PfGround *ground, const PfWorkedStitch *stitch,
             const guint32 *in, guint32 *out)
{
  PfMove moves[PF_MOVES_MAX];
  guint8 order[PF_PLACES];
  const int n = pf_word_moves (pf_filling_work (filling, ground, stitch), moves);
  const int wide = threads_to_place (stitch);
  pf_moves_order (moves, n, order);
  for (int place = 0; place < PF_PLACES; place++)
    for (int t = 0; t < wide; t++)
      out[wide * place + t] = in[wide * order[place] + t];
}

static bool
is_dropped (const PfFilling *filling, const PfGround *ground, PfStitchId id)
{
  return ground->stitches[id.k].core &&
         pf_filling_repeat_state (filling, id.i, id.j) == PF_REPEAT_PLAIN;
}

int
pf_twists_after (const PfFilling *filling, const PfGround *ground, guint32 stitch, PfSide side)
{
  PfStitchId at = filling->stitches[stitch].id;
  int twists = 0;
  do
    {
      const PfPairLine *line = &ground->lines[ground->exits[at.k][side]];
      twists += line->twists;
      at = (PfStitchId){ line->to.stitch, at.i + line->da, at.j + line->db };
      side = line->to.side;
  } while (is_dropped (filling, ground, at));
  return twists;
}

int
pf_twists_before (const PfFilling *filling, const PfGround *ground, guint32 stitch, PfSide side)
{
  PfStitchId at = filling->stitches[stitch].id;
  int twists = 0;
  do
    {
      const PfPairLine *line = &ground->lines[ground->entries[at.k][side]];
      twists += line->twists;
      at = (PfStitchId){ line->from.stitch, at.i - line->da, at.j - line->db };
      side = line->from.side;
  } while (is_dropped (filling, ground, at));
  return twists;
}

/* Does no pair line of the ground add a twist? Then none needs to be looked at. */
static bool
never_twists (const PfGround *ground)
{
  for (int l = 0; l < ground->n_lines; l++)
    if (ground->lines[l].twists != 0)
      return false;
  return true;
}

/* Hands the two threads of an exit to the entry where their pair comes in next. */
static void
pass_on (PfThreads *threads, const PfFilling *filling, const PfWorkedEnd *exit, bool exchanged)
{
  const guint32 *out = threads->out[exit - filling->ends];
  const guint32 match =
      exit->leaving != PF_NONE ? filling->crossings[exit->leaving].match : PF_NONE;
  if (exit->leaving != PF_NONE && match == PF_NONE)
    return;
  const PfCrossing *entering = match != PF_NONE ? &filling->crossings[match] : NULL;
  const PfWorkedStitch *next = &filling->stitches[entering ? entering->stitch : exit->to];
  const guint32 entry = next->first_end + (entering ? (guint32) entering->side : exit->to_side);
  threads->in[entry][0] = out[exchanged];
  threads->in[entry][1] = out[!exchanged];
}

static void
sew_in (PfThreads *threads, const PfFilling *filling, const PfWorkedEnd *entry)
{
  guint32 *in = threads->in[entry - filling->ends];
  if (entry->entering == PF_NONE || filling->crossings[entry->entering].kind != PF_PAIR_NEW)
    return;
  in[0] = 2 * entry->pair;
  in[1] = 2 * entry->pair + 1;
}

PfThreads *
pf_threads_new (const PfFilling *filling, const PfGround *ground)
{
  const bool straight = never_twists (ground);
  PfThreads *threads = g_new0 (PfThreads, 1);
  threads->n_threads = 2 * filling->n_pairs;
  threads->in = g_malloc_n (MAX (filling->n_ends, 1), sizeof *threads->in);
  threads->out = g_malloc_n (MAX (filling->n_ends, 1), sizeof *threads->out);
  for (size_t n = 0; n < filling->n_stitches; n++)
    {
      const guint32 s = filling->order[n];
      const PfWorkedStitch *stitch = &filling->stitches[s];
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        sew_in (threads, filling, &ends[side]);
      work_stitch (filling, ground, stitch, threads->in[stitch->first_end],
                   threads->out[stitch->first_end]);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        pass_on (threads, filling, &ends[side],
                 !straight && pf_twists_after (filling, ground, s, (PfSide) side) % 2 != 0);
    }
  return threads;
}

void
pf_threads_free (PfThreads *threads)
{
  if (threads == NULL)
    return;
  g_free (threads->in);
  g_free (threads->out);
  g_free (threads);
}

/* --- One thread's way ---------------------------------------------------------------------------
 */

guint8
pf_thread_place (guint32 (*ends)[2], const PfWorkedStitch *stitch, guint32 thread)
{
  const guint32 *here = ends[stitch->first_end];
  for (guint8 place = 0; place < 2 * stitch->n_sides; place++)
    if (here[place] == thread)
      return place;
  g_assert_not_reached ();
}

static void
add_sewing (GArray *way, guint32 sewing)
{
  const PfThreadStep step = { .kind = PF_STEP_SEWING, .index = sewing };
  g_array_append_val (way, step);
}

/* Adds the sewings after an exit that leaves; gives the stitch where the pair comes in again, or
 * PF_NONE. */
static guint32
follow_along_edge (const PfFilling *filling, guint32 leaving, GArray *way, PfSide *side)
{
  const PfCrossing *crossing = &filling->crossings[leaving];
  add_sewing (way, crossing->sewing);
  if (crossing->match == PF_NONE)
    return PF_NONE;
  const PfCrossing *entering = &filling->crossings[crossing->match];
  if (entering->sewing != crossing->sewing)
    add_sewing (way, entering->sewing);
  *side = entering->side;
  return entering->stitch;
}

PfThreadStep *
pf_thread_way (const PfThreads *threads, const PfFilling *filling, const PfGround *ground,
               guint32 thread, size_t *n)
{
  GArray *way = g_array_new (FALSE, FALSE, sizeof (PfThreadStep));
  const PfSewing *first = &filling->sewings[filling->pairs[thread / 2].sewn_in];
  guint32 s = filling->crossings[first->entering].stitch;
  PfSide side = filling->crossings[first->entering].side;
  add_sewing (way, filling->pairs[thread / 2].sewn_in);
  while (s != PF_NONE)
    {
      const PfWorkedStitch *stitch = &filling->stitches[s];
      const PfThreadStep step = { .kind = PF_STEP_STITCH,
                                  .index = s,
                                  .place_in = pf_thread_place (threads->in, stitch, thread),
                                  .place_out = pf_thread_place (threads->out, stitch, thread),
                                  .twists = (guint8) pf_twists_before (filling, ground, s, side) };
      g_array_append_val (way, step);
      const PfWorkedEnd *exit = &pf_worked_ends (filling, stitch)[step.place_out / 2];
      side = (PfSide) exit->to_side;
      s = exit->leaving != PF_NONE ? follow_along_edge (filling, exit->leaving, way, &side)
                                   : exit->to;
    }
  *n = way->len;
  return (PfThreadStep *) (void *) g_array_free (way, FALSE);
}
