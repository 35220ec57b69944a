/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sewings are walked as they lie along the outline, not in the order of work, so that the eye can
 * follow.
 */
#include "sewing-walk.h"

#include <math.h>

#include "sewing-work.h"

#define NEAR_WARNING 0.5 /* gaps */

static double
distance_of (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

/* Does the sewing begin or end at a stitch, or lie at a place, that a warning is about? */
static bool
is_warned (const PfFilling *filling, const PfSewing *sewing)
{
  const double near = NEAR_WARNING * filling->placement.gap;
  const guint32 crossings[] = { sewing->leaving, sewing->entering };
  for (size_t w = 0; w < filling->n_warnings; w++)
    {
      const PfPoint at = filling->warnings[w].at;
      if (distance_of (at, sewing->at) <= near)
        return true;
      for (gsize c = 0; c < G_N_ELEMENTS (crossings); c++)
        if (crossings[c] != PF_NONE &&
            distance_of (at, filling->stitches[filling->crossings[crossings[c]].stitch].at) <= near)
          return true;
    }
  return false;
}

typedef struct {
  PfPlace place;
  guint32 sewing;
} Stop;

static int
compare_stops (const void *first, const void *second)
{
  const Stop *a = first, *b = second;
  if (a->place.loop != b->place.loop)
    return a->place.loop < b->place.loop ? -1 : 1;
  if (a->place.along != b->place.along)
    return a->place.along < b->place.along ? -1 : 1;
  return (a->sewing > b->sewing) - (a->sewing < b->sewing);
}

static void
append_sewings (GArray *steps, const PfFilling *filling, size_t draft, bool all)
{
  g_autofree Stop *stops = g_new (Stop, MAX (filling->n_sewings, 1));
  size_t n = 0;
  for (guint32 s = 0; s < filling->n_sewings; s++)
    if (all || filling->sewings[s].off_line || is_warned (filling, &filling->sewings[s]))
      stops[n++] = (Stop){ filling->sewings[s].target, s };
  qsort (stops, n, sizeof *stops, compare_stops);
  for (size_t k = 0; k < n; k++)
    {
      const PfPick pick = { .kind = PF_PICK_SEWING, .draft = draft, .index = stops[k].sewing };
      g_array_append_val (steps, pick);
    }
}

static void
append_repeats (GArray *steps, const PfFilling *filling, size_t draft)
{
  for (size_t r = 0; r < filling->n_repeats; r++)
    {
      const PfPick pick = { .kind = PF_PICK_REPEAT,
                            .draft = draft,
                            .i = filling->repeats[r].i,
                            .j = filling->repeats[r].j };
      g_array_append_val (steps, pick);
    }
}

GArray *
pf_walk_steps (PfEditor *editor, PfWalk walk)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (PfPick));
  const PfMotif *motif = pf_sewing_motif (editor);
  if (motif == NULL)
    return steps;
  const size_t draft = (size_t) pf_editor_active (editor);
  if (walk == PF_WALK_REPEATS)
    append_repeats (steps, motif->filling, draft);
  else
    append_sewings (steps, motif->filling, draft, walk == PF_WALK_SEWINGS);
  return steps;
}

int
pf_walk_find (const GArray *steps, PfPick pick)
{
  for (guint s = 0; s < steps->len; s++)
    if (pf_pick_equal (g_array_index (steps, PfPick, s), pick))
      return (int) s;
  return -1;
}

/* Where to go on if what is selected isn't on the walk: at the step nearest to it. */
static int
find_nearest (PfEditor *editor, const GArray *steps, PfPick from)
{
  PfPoint here, there;
  int best = -1;
  double least = INFINITY;
  if (!pf_pick_place (editor, from, &here))
    return -1;
  for (guint s = 0; s < steps->len; s++)
    if (pf_pick_place (editor, g_array_index (steps, PfPick, s), &there) &&
        distance_of (here, there) < least)
      {
        least = distance_of (here, there);
        best = (int) s;
      }
  return best;
}

bool
pf_walk_go (PfEditor *editor, PfWalk walk, int by, bool round)
{
  g_autoptr (GArray) steps = pf_walk_steps (editor, walk);
  const PfPick selected = pf_editor_selected (editor);
  const int n = (int) steps->len, now = pf_walk_find (steps, selected);
  int next = now >= 0 ? now + by : find_nearest (editor, steps, selected);
  if (n == 0)
    return false;
  if (now < 0 && next < 0)
    next = by > 0 ? 0 : n - 1;
  if (!round && (next < 0 || next >= n))
    return false;
  pf_editor_select (editor, g_array_index (steps, PfPick, (guint) ((next + n) % n)));
  return true;
}

static PfPoint
middle_of_repeat (const PfMotif *motif, int i, int j)
{
  const PfGround *ground = motif->ground;
  PfPoint sum = { 0, 0 };
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const PfPoint at = pf_ground_position (ground, k, i, j);
      sum.x += at.x / ground->n_stitches;
      sum.y += at.y / ground->n_stitches;
    }
  return pf_affine_map (motif->filling->to_sheet, sum);
}

bool
pf_pick_place (PfEditor *editor, PfPick pick, PfPoint *place)
{
  const PfMotif *motif = pick.kind != PF_PICK_NONE ? pf_editor_motif (editor, pick.draft) : NULL;
  const PfFilling *filling = motif != NULL ? motif->filling : NULL;
  if (pick.kind == PF_PICK_PINHOLE && motif != NULL)
    *place = pf_region_point (motif->region,
                              (PfPlace){ pick.loop, motif->edges[pick.loop].pinholes[pick.index] });
  else if (filling == NULL)
    return false;
  else if (pick.kind == PF_PICK_SEWING)
    *place = filling->sewings[pick.index].at;
  else if (pick.kind == PF_PICK_PAIR)
    *place = filling->sewings[filling->pairs[pick.index].sewn_in].at;
  else if (pick.kind == PF_PICK_REPEAT)
    *place = middle_of_repeat (motif, pick.i, pick.j);
  else
    return false;
  return true;
}
