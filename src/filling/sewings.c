/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sewings: one for each pair that begins, ends or is turned, two for each that is carried.
 *
 * A pair is sewn in just before the stitch that needs it, and sewn out just after the stitch that
 * ends it; the sewings are numbered in this order. Its target is where its line crosses the
 * outline; for a turned pair, half-way between its two lines.
 */
#include "filling-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

/* An angle at the limit is on the line, whatever rounding does. */
#define ANGLE_SLACK 1e-9

static void
add_sewing (PfFilling *filling, const PfRegion *region, GArray *sewings, guint32 leaving,
            guint32 entering)
{
  const guint32 number = sewings->len;
  const PfCrossing *crossing = &filling->crossings[entering != PF_NONE ? entering : leaving];
  PfSewing sewing = { .kind = crossing->kind,
                      .leaving = leaving,
                      .entering = entering,
                      .pair = PF_NONE,
                      .target = crossing->place,
                      .pinhole = PF_NONE };
  if (leaving != PF_NONE && entering != PF_NONE)
    {
      const PfLoop *loop = &region->loops[sewing.target.loop];
      sewing.target.along =
          pf_loop_midway (loop, filling->crossings[leaving].place.along, crossing->place.along);
    }
  sewing.target_at = pf_region_point (region, sewing.target);
  if (leaving != PF_NONE)
    filling->crossings[leaving].sewing = number;
  if (entering != PF_NONE)
    filling->crossings[entering].sewing = number;
  g_array_append_val (sewings, sewing);
}

static void
list_sewings (PfFilling *filling, const PfRegion *region)
{
  GArray *sewings = g_array_new (FALSE, FALSE, sizeof (PfSewing));
  for (size_t n = 0; n < filling->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = pf_stitch_in_order (filling, n);
      for (int side = 0; side < 2; side++)
        {
          const guint32 entering = stitch->entering[side];
          if (entering == PF_NONE)
            continue;
          const PfCrossing *crossing = &filling->crossings[entering];
          add_sewing (filling, region, sewings,
                      crossing->kind == PF_PAIR_TURNED ? crossing->match : PF_NONE, entering);
        }
      for (int side = 0; side < 2; side++)
        {
          const guint32 leaving = stitch->leaving[side];
          if (leaving != PF_NONE && filling->crossings[leaving].kind != PF_PAIR_TURNED)
            add_sewing (filling, region, sewings, leaving, PF_NONE);
        }
    }
  filling->n_sewings = sewings->len;
  filling->sewings = (PfSewing *) (void *) g_array_free (sewings, FALSE);
}

/* An edge gap, rounded down to a hundredth of a mm, at which evenly spaced pinholes would hold n
 * sewings. */
static double
gap_that_holds (const PfLoop *loop, size_t n, int limit)
{
  double gap =
      fmin (floor (pf_loop_length (loop) * limit / (double) n * 100) / 100, PF_EDGE_GAP_MAX);
  for (; gap >= PF_EDGE_GAP_MIN; gap = floor (gap * 98) / 100)
    {
      PfEdge edge;
      if (!pf_edge_init_even (&edge, loop, PF_EDGE_CLOTH_STITCH, gap, NULL))
        break;
      const bool holds = edge.n_pinholes * (size_t) limit >= n;
      pf_edge_clear (&edge);
      if (holds)
        return gap;
    }
  return PF_EDGE_GAP_MIN;
}

/* How many sewings a pinhole of a loop takes: the maker's limit, or more if a cloth stitch edge has
 * too few. */
static int
loop_limit (PfFilling *filling, const PfLoop *loop, const PfEdge *edge, size_t n, int limit)
{
  if (edge->kind != PF_EDGE_CLOTH_STITCH || edge->n_pinholes * (size_t) limit >= n)
    return limit;
  if (edge->n_pinholes == 0)
    {
      pf_filling_warn (
          filling, PF_WARNING_CROWDED_EDGE, loop->points[0],
          g_strdup_printf (
              _ ("%zu sewings come to a cloth stitch edge without pinholes, where none can be "
                 "sewn. Set its pinholes, or choose a half stitch edge."),
              n));
      return limit;
    }
  const int raised = (int) ((n + edge->n_pinholes - 1) / edge->n_pinholes);
  pf_filling_warn (
      filling, PF_WARNING_CROWDED_EDGE, loop->points[0],
      g_strdup_printf (
          _ ("%zu sewings come to a cloth stitch edge with %zu pinholes: up to %d go into one. "
             "An edge gap of %.2f mm would do with %d."),
          n, edge->n_pinholes, raised, gap_that_holds (loop, n, limit), limit));
  return raised;
}

/* The angle at `from` between its ways to `a` and `b`, in degrees. */
static double
angle_between (PfPoint from, PfPoint a, PfPoint b)
{
  const double ax = a.x - from.x, ay = a.y - from.y, bx = b.x - from.x, by = b.y - from.y;
  return fabs (atan2 (ax * by - ay * bx, ax * bx + ay * by)) * 180 / G_PI;
}

static double
angle_at_crossing (const PfFilling *filling, guint32 crossing, const PfSewing *sewing)
{
  if (crossing == PF_NONE || sewing->pinhole == PF_NONE)
    return 0;
  const PfPoint from = filling->stitches[filling->crossings[crossing].stitch].at;
  return angle_between (from, sewing->target_at, sewing->at);
}

static void
take_place (PfFilling *filling, const PfRegion *region, const PfEdge *edges,
            const PfPlacing *placing, double off_line)
{
  PfSewing *sewing = &filling->sewings[placing->sewing];
  PfCounts *counts = &filling->counts;
  sewing->place = sewing->target;
  sewing->pinhole = placing->pinhole;
  sewing->distance = placing->distance;
  if (placing->pinhole != PF_NONE)
    sewing->place.along = edges[sewing->place.loop].pinholes[placing->pinhole];
  sewing->at = pf_region_point (region, sewing->place);
  sewing->angle = fmax (angle_at_crossing (filling, sewing->leaving, sewing),
                        angle_at_crossing (filling, sewing->entering, sewing));
  sewing->off_line = sewing->angle > off_line + ANGLE_SLACK;
  counts->at_pinhole += placing->pinhole != PF_NONE;
  counts->round_bar += placing->pinhole == PF_NONE;
  counts->off_line += sewing->off_line;
  counts->place_mm += placing->distance;
}

/* How far on along the outline the stitch of a crossing stands, as seen from the sewing's target.
 */
static double
side_of_crossing (const PfFilling *filling, guint32 crossing, PfPoint target, PfPoint onward)
{
  if (crossing == PF_NONE)
    return 0;
  const PfPoint at = filling->stitches[filling->crossings[crossing].stitch].at;
  return (at.x - target.x) * onward.x + (at.y - target.y) * onward.y;
}

/* Two pairs may have one target, as when both go to one stitch too near the edge. They are sewn in
 * the order of the sides they come from, so that they don't cross. */
static PfPlacing
start_placing (const PfFilling *filling, const PfRegion *region, guint32 s)
{
  const PfSewing *sewing = &filling->sewings[s];
  const PfPoint onward = pf_region_direction (region, sewing->target);
  return (PfPlacing){ .target = sewing->target.along,
                      .from =
                          side_of_crossing (filling, sewing->leaving, sewing->target_at, onward) +
                          side_of_crossing (filling, sewing->entering, sewing->target_at, onward),
                      .sewing = s,
                      .pinhole = PF_NONE };
}

bool
pf_find_sewings (PfFilling *filling, const PfRegion *region, const PfEdge *edges,
                 const PfFillingSettings *settings, GError **error)
{
  list_sewings (filling, region);
  filling->counts.sewings = filling->n_sewings;
  g_autofree PfPlacing *placings = g_new (PfPlacing, filling->n_sewings);
  for (size_t l = 0; l < region->n_loops; l++)
    {
      size_t n = 0;
      for (guint32 s = 0; s < filling->n_sewings; s++)
        if (filling->sewings[s].target.loop == l)
          placings[n++] = start_placing (filling, region, s);
      const int limit =
          loop_limit (filling, &region->loops[l], &edges[l], n, settings->sewings_per_pinhole);
      if (!pf_assign_places (placings, n, &region->loops[l], &edges[l], limit,
                             settings->reach * edges[l].gap))
        {
          g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                       _ ("%zu sewings come to an edge with %zu pinholes, far too few. Choose an "
                          "edge gap of "
                          "%.2f mm, or set more pinholes."),
                       n, edges[l].n_pinholes,
                       gap_that_holds (&region->loops[l], n, settings->sewings_per_pinhole));
          return false;
        }
      for (size_t p = 0; p < n; p++)
        take_place (filling, region, edges, &placings[p], settings->off_line);
    }
  return true;
}
