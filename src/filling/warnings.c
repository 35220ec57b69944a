/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker should look at, before she winds a bobbin.
 */
#include "filling-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

/* A region is narrow where it is less wide than this many gaps, ... */
#define NARROW_WIDTH 2.0
/* ... along more than this many gaps of its outline, so that a corner alone doesn't count. */
#define NARROW_STRETCH 4.0

static void
warn_nothing_fits (PfFilling *filling, const PfRegion *region)
{
  const PfPoint middle = { (region->box.min.x + region->box.max.x) / 2,
                           (region->box.min.y + region->box.max.y) / 2 };
  pf_filling_warn (
      filling, PF_WARNING_NOTHING_FITS, middle,
      g_strdup (_ ("No stitch fits into the shape. Choose a smaller gap, another place for the "
                   "ground, or less clearance.")));
}

/* Does the pair at an exit go to the edge, or to a stitch at the same place whose own pairs all do?
 */
static bool
ends_here (const PfFilling *filling, const PfGround *ground, const PfWorkedStitch *stitch,
           const PfWorkedEnd *exit)
{
  if (exit->to == PF_NONE)
    return true;
  const PfWorkedStitch *next = &filling->stitches[exit->to];
  const PfWorkedEnd *ends = pf_worked_ends (filling, next);
  bool all = next->id.i == stitch->id.i && next->id.j == stitch->id.j &&
             ground->stitches[next->id.k].place == ground->stitches[stitch->id.k].place;
  for (unsigned side = 0; side < next->n_sides; side++)
    all = all && ends[side].to == PF_NONE;
  return all;
}

/* Are all its pairs sewn in, and all sewn out again? */
static bool
stands_alone (const PfFilling *filling, const PfGround *ground, const PfWorkedStitch *stitch)
{
  const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
  for (unsigned side = 0; side < stitch->n_sides; side++)
    if (ends[side].from != PF_NONE || !ends_here (filling, ground, stitch, &ends[side]))
      return false;
  return true;
}

static void
warn_lone_stitches (PfFilling *filling, const PfGround *ground)
{
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[s];
      if (!stands_alone (filling, ground, stitch))
        continue;
      const char *name = ground->stitches[stitch->id.k].name;
      char *text = stitch->n_sides == 2
                       ? g_strdup_printf (_ ("Stitch %s stands alone at (%.1f, %.1f) mm: its pairs "
                                             "are sewn in and out again, four sewings for one "
                                             "stitch. Leave it out, or move the ground."),
                                          name, stitch->at.x, stitch->at.y)
                       : g_strdup_printf (_ ("Stitch %s stands alone at (%.1f, %.1f) mm: its pairs "
                                             "are sewn in and out again, eight sewings for one "
                                             "stitch. Leave it out, or move the ground."),
                                          name, stitch->at.x, stitch->at.y);
      pf_filling_warn (filling, PF_WARNING_LONE_STITCH, stitch->at, text);
    }
}

static void
warn_core_dropped (PfFilling *filling, const PfRegion *region)
{
  const PfCounts *counts = &filling->counts;
  if (counts->plain * 2 <= counts->whole + counts->partial)
    return;
  pf_filling_warn (
      filling, PF_WARNING_CORE_DROPPED, region->loops[0].points[0],
      g_strdup_printf (
          _ ("In %zu of %zu repeats the middle of the pattern is dropped. Choose a smaller "
             "gap, or another place for the ground."),
          counts->plain, counts->whole + counts->partial));
}

/* Is the region less wide than `width` at a point of the outline, measured square to it? `inward`
 * is 1 if the inside lies to the right of the edge as drawn (clockwise loop), -1 if to its left. */
static bool
is_narrow_at (const PfRegion *region, PfPlace place, double width, double inward, GArray *meetings)
{
  const PfLoop *loop = &region->loops[place.loop];
  const double step = fmin (width / 8, pf_loop_length (loop) / 8);
  const PfPoint at = pf_region_point (region, place);
  const PfPoint before =
      pf_region_point (region, (PfPlace){ place.loop, pf_loop_forward (loop, step, place.along) });
  PfPlace ahead = place;
  ahead.along = fmod (place.along + step, pf_loop_length (loop));
  const PfPoint after = pf_region_point (region, ahead);
  const double dx = after.x - before.x, dy = after.y - before.y;
  const double length = hypot (dx, dy);
  if (length < PF_TOUCH)
    return false;
  const PfPoint normal = { -inward * dy / length, inward * dx / length };
  const double start = width * 1e-3;
  pf_region_meet (region, (PfPoint){ at.x + normal.x * start, at.y + normal.y * start },
                  (PfPoint){ at.x + normal.x * width, at.y + normal.y * width }, meetings);
  return meetings->len > 0;
}

/* The longest stretch of one loop along which the region is narrow: its middle, and its length in
 * mm. */
static double
longest_narrow (const PfRegion *region, size_t l, double gap, double *middle)
{
  const PfLoop *loop = &region->loops[l];
  const double clockwise = pf_chain_area (loop->points, loop->n_points) > 0 ? 1 : -1;
  const double inward = l == 0 ? clockwise : -clockwise;
  const double length = pf_loop_length (loop);
  const size_t n = (size_t) fmax (8, ceil (length / (gap / 2)));
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (PfMeeting));
  size_t run = 0, longest = 0;
  /* twice round, so that a stretch over the loop's start is seen whole */
  for (size_t s = 0; s < 2 * n && run < n; s++)
    {
      const PfPlace place = { l, length * (double) (s % n) / (double) n };
      run = is_narrow_at (region, place, NARROW_WIDTH * gap, inward, meetings) ? run + 1 : 0;
      if (run <= longest)
        continue;
      longest = run;
      *middle = fmod (place.along + length - (double) (run - 1) / 2 * length / (double) n, length);
    }
  return (double) longest * length / (double) n;
}

static void
warn_narrow (PfFilling *filling, const PfRegion *region)
{
  const double gap = filling->placement.gap;
  for (size_t l = 0; l < region->n_loops; l++)
    {
      double middle = 0;
      const double stretch = longest_narrow (region, l, gap, &middle);
      if (stretch <= NARROW_STRETCH * gap)
        continue;
      const PfPoint at = pf_region_point (region, (PfPlace){ l, middle });
      pf_filling_warn (
          filling, PF_WARNING_NARROW, at,
          g_strdup_printf (
              _ ("Near (%.1f, %.1f) mm the shape is narrower than two gaps along %.0f mm of "
                 "its edge: little of the pattern will show there."),
              at.x, at.y, stretch));
      return; /* the other side of the same stretch says nothing new */
    }
}

void
pf_find_warnings (PfFilling *filling, const PfRegion *region, const PfGround *ground)
{
  if (filling->n_stitches == 0)
    {
      warn_nothing_fits (filling, region);
      return;
    }
  warn_lone_stitches (filling, ground);
  warn_core_dropped (filling, region);
  warn_narrow (filling, region);
}
