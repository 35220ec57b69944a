/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "thread-lengths.h"

#include <math.h>

#include <moves.h>

/* Common practice: twists after a pair is sewn in, and the extra one before it is turned. */
#define TWISTS_AFTER_SEWING 2
#define TWISTS_BEFORE_TURN 1

typedef struct {
  const PfFilling *filling;
  const PfGround *ground;
  PfThreadSizes sizes;
} Measuring;

/* What a stitch does to one thread. */
typedef struct {
  int half_turns;
  int pins;
  int weaves; /* leadworks in which it is the one that weaves */
} Work;

double
pf_thread_thickness (double wraps_per_cm)
{
  return 10 / wraps_per_cm;
}

static Work
work_in_stitch (const Measuring *m, const PfThreadStep *step)
{
  enum { WEAVER = 2 };
  const PfWorkedStitch *stitch = &m->filling->stitches[step->index];
  const int wide = (int) stitch->n_sides * 2 / PF_PLACES;
  PfMove moves[PF_MOVES_MAX];
  const int n = pf_word_moves (pf_filling_work (m->filling, m->ground, stitch), moves);
  Work work = { 0 };
  int place = step->place_in / wide;
  for (int k = 0; k < n; k++)
    switch ((PfMoveKind) moves[k].kind)
      {
      case PF_MOVE_SWAP:
        if (place == moves[k].place || place == moves[k].place + 1)
          {
            place = place == moves[k].place ? place + 1 : place - 1;
            work.half_turns += wide;
          }
        break;
      case PF_MOVE_PIN:
        work.pins++;
        break;
      case PF_MOVE_WEAVE:
        work.weaves += place == WEAVER;
        break;
      }
  return work;
}

static PfPoint
step_at (const Measuring *m, const PfThreadStep *step)
{
  return step->kind == PF_STEP_SEWING ? m->filling->sewings[step->index].at
                                      : m->filling->stitches[step->index].at;
}

/* Twists next to a sewing that the maker adds there. */
static int
added_twists (const Measuring *m, const PfThreadStep *from, const PfThreadStep *to)
{
  if (from->kind == PF_STEP_SEWING)
    return TWISTS_AFTER_SEWING;
  if (to->kind == PF_STEP_SEWING && m->filling->sewings[to->index].kind == PF_PAIR_TURNED)
    return TWISTS_BEFORE_TURN;
  return 0;
}

/* The ground's own twists on the way. */
static int
drawn_twists (const Measuring *m, const PfThreadStep *from, const PfThreadStep *to)
{
  if (to->kind == PF_STEP_STITCH)
    return to->twists;
  return pf_twists_after (m->filling, m->ground, from->index, (PfSide) (from->place_out / 2));
}

static double
length_between (const Measuring *m, const PfThreadStep *from, const PfThreadStep *to)
{
  if (from->kind == PF_STEP_SEWING && to->kind == PF_STEP_SEWING)
    return m->filling->sewings[to->index].run;
  const PfPoint a = step_at (m, from), b = step_at (m, to);
  double turns = added_twists (m, from, to) + drawn_twists (m, from, to);
  if (from->kind == PF_STEP_STITCH)
    turns += work_in_stitch (m, from).half_turns / 2.0;
  if (to->kind == PF_STEP_STITCH)
    turns += work_in_stitch (m, to).half_turns / 2.0;
  return hypot (hypot (b.x - a.x, b.y - a.y), turns * G_PI * m->sizes.thickness / 2);
}

double
pf_thread_length (const PfThreads *threads, const PfFilling *filling, const PfGround *ground,
                  guint32 thread, PfThreadSizes sizes)
{
  const Measuring m = { filling, ground, sizes };
  const double gap = filling->placement.gap;
  size_t n;
  g_autofree PfThreadStep *way = pf_thread_way (threads, filling, ground, thread, &n);
  double length = 0;
  for (size_t s = 0; s < n; s++)
    {
      if (s > 0)
        length += length_between (&m, &way[s - 1], &way[s]);
      if (way[s].kind == PF_STEP_SEWING)
        continue;
      const Work work = work_in_stitch (&m, &way[s]);
      length += work.pins * (G_PI / 2 - 1) * (sizes.pin + sizes.thickness);
      if (sizes.thickness > 0)
        length += work.weaves * gap * gap / sizes.thickness;
    }
  return length;
}
