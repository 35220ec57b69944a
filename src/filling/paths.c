/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Follows each pair through the working order: it gets the next number where it is first worked
 * (the left entry of a stitch first), keeps its side through every stitch, and its number through
 * turns and carries.
 */
#include "filling-private.h"

#include <math.h>

/* Where a pair begins and ends in the order, and how many steps its path has. */
typedef struct {
  guint32 first, last; /* places in the order */
  guint32 n_steps;
  guint32 sewn_in, sewn_out;
} Way;

static void
begin_pair (const PfFilling *filling, PfWorkedEnd *entry, guint32 at, GArray *ways)
{
  const Way way = { at, at, 1, filling->crossings[entry->entering].sewing, PF_NONE };
  entry->pair = ways->len;
  g_array_append_val (ways, way);
}

/* Takes a pair on from the exit of a stitch. */
static void
pass_pair (PfFilling *filling, const PfWorkedEnd *exit, Way *way)
{
  if (exit->leaving == PF_NONE)
    {
      pf_worked_ends (filling, &filling->stitches[exit->to])[exit->to_side].pair = exit->pair;
      return;
    }
  PfCrossing *crossing = &filling->crossings[exit->leaving];
  crossing->pair = exit->pair;
  way->n_steps += crossing->kind == PF_PAIR_CARRIED ? 2 : 1;
  if (crossing->match == PF_NONE)
    {
      way->sewn_out = crossing->sewing;
      return;
    }
  const PfCrossing *entering = &filling->crossings[crossing->match];
  pf_worked_ends (filling, &filling->stitches[entering->stitch])[entering->side].pair = exit->pair;
}

static void
number_pairs (PfFilling *filling, GArray *ways)
{
  for (guint32 n = 0; n < filling->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = pf_stitch_in_order (filling, n);
      PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          if (ends[side].pair == PF_NONE)
            begin_pair (filling, &ends[side], n, ways);
          if (ends[side].entering != PF_NONE)
            filling->crossings[ends[side].entering].pair = ends[side].pair;
        }
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          Way *way = &g_array_index (ways, Way, ends[side].pair);
          way->last = n;
          way->n_steps++;
          pass_pair (filling, &ends[side], way);
        }
    }
}

/* A pair lies on the pillow from its first stitch, or from the very first, to its last. */
static size_t
most_at_once (const GArray *ways, size_t n_stitches, bool all_from_start)
{
  if (all_from_start)
    return ways->len;
  g_autofree gint32 *change = g_new0 (gint32, n_stitches + 1);
  for (guint w = 0; w < ways->len; w++)
    {
      change[g_array_index (ways, Way, w).first]++;
      change[g_array_index (ways, Way, w).last + 1]--;
    }
  gint32 now = 0, most = 0;
  for (size_t n = 0; n < n_stitches; n++)
    {
      now += change[n];
      most = MAX (most, now);
    }
  return (size_t) most;
}

static void
lay_out_paths (PfFilling *filling, const GArray *ways)
{
  filling->n_pairs = ways->len;
  filling->pairs = g_new (PfPair, ways->len);
  size_t n_steps = 0;
  for (guint w = 0; w < ways->len; w++)
    {
      const Way *way = &g_array_index (ways, Way, w);
      filling->pairs[w] = (PfPair){ n_steps, 0, way->sewn_in, way->sewn_out };
      n_steps += way->n_steps;
    }
  filling->n_path_steps = n_steps;
  filling->path_steps = g_new (PfPathStep, n_steps);
}

static void
add_step (PfFilling *filling, guint32 pair, PfStepKind kind, guint32 side, guint32 index)
{
  PfPair *p = &filling->pairs[pair];
  PfPathStep *step = &filling->path_steps[p->first_step + p->n_steps++];
  *step = (PfPathStep){ .kind = kind & 1, .side = side & 3, .index = index & 0x1FFFFFFF };
  if (kind == PF_STEP_SEWING)
    filling->sewings[index].pair = pair;
}

static void
fill_paths (PfFilling *filling)
{
  for (guint32 n = 0; n < filling->n_stitches; n++)
    {
      const guint32 s = filling->order[n];
      const PfWorkedStitch *stitch = pf_stitch_in_order (filling, n);
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (guint32 side = 0; side < stitch->n_sides; side++)
        {
          const guint32 entering = ends[side].entering, leaving = ends[side].leaving;
          const guint32 pair = ends[side].pair;
          if (entering != PF_NONE)
            add_step (filling, pair, PF_STEP_SEWING, side, filling->crossings[entering].sewing);
          add_step (filling, pair, PF_STEP_STITCH, side, s);
          if (leaving != PF_NONE && filling->crossings[leaving].kind != PF_PAIR_TURNED)
            add_step (filling, pair, PF_STEP_SEWING, side, filling->crossings[leaving].sewing);
        }
    }
}

void
pf_follow_pairs (PfFilling *filling)
{
  g_autoptr (GArray) ways = g_array_new (FALSE, FALSE, sizeof (Way));
  number_pairs (filling, ways);
  filling->counts.most_at_once =
      most_at_once (ways, filling->n_stitches, filling->habits.sew_in_first);
  lay_out_paths (filling, ways);
  fill_paths (filling);
}

static PfPoint
step_point (const PfFilling *filling, PfPathStep step)
{
  return step.kind == PF_STEP_SEWING ? filling->sewings[step.index].at
                                     : filling->stitches[step.index].at;
}

PfPoint *
pf_pair_way (const PfFilling *filling, guint32 pair, size_t *n)
{
  const PfPair *p = &filling->pairs[pair];
  PfPoint *points = g_new (PfPoint, p->n_steps);
  for (size_t s = 0; s < p->n_steps; s++)
    points[s] = step_point (filling, filling->path_steps[p->first_step + s]);
  *n = p->n_steps;
  return points;
}

double
pf_pair_length (const PfFilling *filling, guint32 pair)
{
  const PfPair *p = &filling->pairs[pair];
  double length = 0;
  for (size_t s = 1; s < p->n_steps; s++)
    {
      const PfPathStep from = filling->path_steps[p->first_step + s - 1];
      const PfPathStep to = filling->path_steps[p->first_step + s];
      const PfPoint a = step_point (filling, from), b = step_point (filling, to);
      const bool run = from.kind == PF_STEP_SEWING && to.kind == PF_STEP_SEWING;
      length += run ? filling->sewings[to.index].run : hypot (b.x - a.x, b.y - a.y);
    }
  return length;
}
