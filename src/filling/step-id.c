/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds working steps again. All steps of a stitch follow one another: what brings its pairs from
 * the left to the right, the stitch, and what becomes of its pairs; only new pairs may be sewn in
 * before all others.
 */
#include "step-id.h"

#include "filling-private.h"

/* Is step n a twist of a pair that goes out of its stitch? */
static bool
comes_after_its_stitch (const PfWorkingSteps *steps, size_t n)
{
  const guint32 s = steps->steps[n].stitch;
  for (size_t m = n; m > 0 && steps->steps[m - 1].stitch == s; m--)
    if (steps->steps[m - 1].kind == PF_WORK_STITCH)
      return true;
  return false;
}

static guint32
crossing_of (const PfWorkStep *step, const PfFilling *filling)
{
  const PfSewing *sewing = &filling->sewings[step->sewing];
  return step->kind == PF_WORK_CARRY || step->kind == PF_WORK_SEW_OUT ? sewing->leaving
                                                                      : sewing->entering;
}

PfStepId
pf_working_step_id (const PfWorkingSteps *steps, const PfFilling *filling, size_t n)
{
  const PfWorkStep *step = &steps->steps[n];
  PfStepId id = { .kind = step->kind };
  if (step->sewing != PF_NONE)
    id.line = pf_crossing_line (filling, crossing_of (step, filling));
  else
    id.line.stitch = filling->stitches[step->stitch].id;
  if (step->kind == PF_WORK_TWIST)
    {
      id.line.side = (PfSide) step->side;
      id.line.leaves = comes_after_its_stitch (steps, n);
    }
  return id;
}

/* Where the step comes among those of its stitch. */
static int
place_at_stitch (PfStepId id)
{
  if (id.kind == PF_WORK_STITCH)
    return 2 * PF_STITCH_MAX_PAIRS;
  const int sewing = id.kind != PF_WORK_TWIST;
  const int side = 2 * (int) id.line.side;
  return id.line.leaves ? 2 * PF_STITCH_MAX_PAIRS + 1 + side + sewing : side + !sewing;
}

static bool
is_same (PfStepId a, PfStepId b)
{
  return a.kind == b.kind && place_at_stitch (a) == place_at_stitch (b);
}

size_t
pf_working_steps_find (const PfWorkingSteps *steps, const PfFilling *filling, PfStepId id)
{
  const guint32 s = pf_filling_find_stitch (filling, id.line.stitch);
  if (s == PF_NONE)
    return steps->n_steps;
  size_t n = 0;
  while (n < steps->n_steps &&
         (steps->steps[n].stitch != s || !is_same (pf_working_step_id (steps, filling, n), id)))
    n++;
  return n;
}

/* The step at stitch s just before `place` there; if none is, the one before its first. */
static size_t
find_before (const PfWorkingSteps *steps, const PfFilling *filling, guint32 s, int place)
{
  size_t stitch = 0;
  while (steps->steps[stitch].stitch != s || steps->steps[stitch].kind != PF_WORK_STITCH)
    stitch++;
  size_t at = stitch;
  while (at > 0 && steps->steps[at - 1].stitch == s)
    at--;
  size_t best = at > 0 ? at - 1 : 0;
  for (; at < steps->n_steps && steps->steps[at].stitch == s; at++)
    if (place_at_stitch (pf_working_step_id (steps, filling, at)) <= place)
      best = at;
  return best;
}

typedef struct {
  gint64 time, x;
} Key;

static Key
key_of (const PfFilling *filling, const PfGround *ground, PfStitchId id)
{
  const gint64 x = pf_round_time (pf_ground_position (ground, id.k, id.i, id.j).x);
  return (Key){ pf_round_time (pf_ground_time (ground, id.k, id.i, id.j)),
                filling->habits.right_first ? -x : x };
}

static bool
is_earlier (Key a, Key b)
{
  return a.time != b.time ? a.time < b.time : a.x < b.x;
}

/* The worked stitch whose time comes just before that of a missing one, or PF_NONE. */
static guint32
stitch_before (const PfFilling *filling, const PfGround *ground, PfStitchId missing,
               bool same_repeat)
{
  const Key limit = key_of (filling, ground, missing);
  guint32 best = PF_NONE;
  Key best_key = { 0, 0 };
  for (guint32 s = 0; s < filling->n_stitches; s++)
    {
      const PfStitchId id = filling->stitches[s].id;
      if (same_repeat && (id.i != missing.i || id.j != missing.j))
        continue;
      const Key key = key_of (filling, ground, id);
      if (!is_earlier (key, limit) || (best != PF_NONE && is_earlier (key, best_key)))
        continue;
      best = s;
      best_key = key;
    }
  return best;
}

size_t
pf_working_steps_find_near (const PfWorkingSteps *steps, const PfFilling *filling,
                            const PfGround *ground, PfStepId id)
{
  const size_t exact = pf_working_steps_find (steps, filling, id);
  if (exact < steps->n_steps || steps->n_steps == 0)
    return steps->n_steps > 0 ? exact : 0;
  const guint32 own = pf_filling_find_stitch (filling, id.line.stitch);
  if (own != PF_NONE)
    return find_before (steps, filling, own, place_at_stitch (id));
  guint32 s = stitch_before (filling, ground, id.line.stitch, true);
  if (s == PF_NONE)
    s = stitch_before (filling, ground, id.line.stitch, false);
  return s != PF_NONE ? find_before (steps, filling, s, G_MAXINT) : 0;
}
