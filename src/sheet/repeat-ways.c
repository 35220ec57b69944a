/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cuts the pairs' paths down to one repeat.
 */
#include "repeat-ways.h"

/* Of a stretch to another repeat this part is drawn. */
#define PART 0.55

typedef struct {
  const PfFilling *filling;
  const PfRepeatWork *work;
  int i, j;
} Repeat;

static bool
has_sewing (const PfRepeatWork *work, guint32 sewing)
{
  for (guint n = 0; n < work->sewings->len; n++)
    if (g_array_index (work->sewings, guint32, n) == sewing)
      return true;
  return false;
}

/* Is something done there in this repeat? */
static bool
is_ours (const Repeat *repeat, PfPathStep step)
{
  if (step.kind == PF_STEP_SEWING)
    return has_sewing (repeat->work, step.index);
  const PfStitchId id = repeat->filling->stitches[step.index].id;
  return id.i == repeat->i && id.j == repeat->j;
}

static PfPoint
place_of (const PfFilling *filling, PfPathStep step)
{
  return step.kind == PF_STEP_SEWING ? filling->sewings[step.index].at
                                     : filling->stitches[step.index].at;
}

static PfPoint
part_way (PfPoint from, PfPoint to, double part)
{
  return (PfPoint){ from.x + part * (to.x - from.x), from.y + part * (to.y - from.y) };
}

static void
add_stretch (const Repeat *repeat, guint32 pair, PfPathStep start, PfPathStep end, GArray *ways)
{
  const bool from_ours = is_ours (repeat, start), to_ours = is_ours (repeat, end);
  if (!from_ours && !to_ours)
    return;
  const PfPoint from = place_of (repeat->filling, start), to = place_of (repeat->filling, end);
  if (pf_point_distance (from, to) <= PF_TOUCH)
    return;
  const bool run = start.kind == PF_STEP_SEWING && end.kind == PF_STEP_SEWING;
  const PfRepeatStretch stretch = {
    .pair = pair,
    .from = from_ours || run ? from : part_way (to, from, PART),
    .to = to_ours || run ? to : part_way (from, to, PART),
    .comes = !from_ours,
    .goes = !to_ours,
    .run = run,
    .start = start,
    .end = end,
  };
  g_array_append_val (ways, stretch);
}

static bool
runs_beside (const PfRepeatStretch *a, const PfRepeatStretch *b)
{
  return pf_point_distance (a->from, b->from) <= PF_TOUCH &&
         pf_point_distance (a->to, b->to) <= PF_TOUCH;
}

/* Lines that lie on one another are drawn side by side, as their pairs leave the stitch. */
static void
part_lines (GArray *ways)
{
  PfRepeatStretch *all = (PfRepeatStretch *) (void *) ways->data;
  for (guint a = 0; a < ways->len; a++)
    {
      int n = 0, before = 0;
      for (guint b = 0; b < ways->len; b++)
        if (runs_beside (&all[a], &all[b]))
          {
            n++;
            before += all[b].start.side < all[a].start.side ||
                      (all[b].start.side == all[a].start.side && b < a);
          }
      all[a].aside = (n - 1) / 2.0 - before;
    }
}

GArray *
pf_repeat_ways (const PfFilling *filling, const PfRepeatWork *work, int i, int j)
{
  const Repeat repeat = { filling, work, i, j };
  GArray *ways = g_array_new (FALSE, FALSE, sizeof (PfRepeatStretch));
  for (guint32 n = 0; n < work->pairs->len; n++)
    {
      const PfPair *pair = &filling->pairs[g_array_index (work->pairs, guint32, n)];
      const PfPathStep *steps = &filling->path_steps[pair->first_step];
      for (size_t s = 1; s < pair->n_steps; s++)
        add_stretch (&repeat, n, steps[s - 1], steps[s], ways);
    }
  part_lines (ways);
  return ways;
}
