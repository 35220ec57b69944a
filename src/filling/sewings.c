/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sewings: one for each pair that begins, ends or is turned, two for each that is carried.
 *
 * A pair is sewn in just before the stitch that needs it (a new one before the first stitch, if the
 * maker likes), and sewn out just after the stitch that ends it; the sewings are numbered in this
 * order. Its target is where its line crosses the outline; for a turned pair, half-way between its
 * two lines. Each gets its place once: first those for which the maker chose, then those that have
 * no pinhole in their own stretch of the edge, then the rest, stretch by stretch.
 */
#include "sewing-places.h"

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
                      .chosen = crossing->chosen,
                      .target = crossing->place,
                      .pinhole = PF_NONE };
  if (leaving != PF_NONE && entering != PF_NONE)
    {
      const PfLoop *loop = &region->loops[sewing.target.loop];
      sewing.chosen = sewing.chosen || filling->crossings[leaving].chosen;
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

/* Those of new pairs, in the order in which they are needed. */
static void
list_new_first (PfFilling *filling, const PfRegion *region, GArray *sewings)
{
  for (size_t n = 0; n < filling->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = pf_stitch_in_order (filling, n);
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        if (ends[side].entering != PF_NONE &&
            filling->crossings[ends[side].entering].kind == PF_PAIR_NEW)
          add_sewing (filling, region, sewings, PF_NONE, ends[side].entering);
    }
}

static void
list_sewings (PfFilling *filling, const PfRegion *region)
{
  GArray *sewings = g_array_new (FALSE, FALSE, sizeof (PfSewing));
  const bool new_first = filling->habits.sew_in_first;
  if (new_first)
    list_new_first (filling, region, sewings);
  for (size_t n = 0; n < filling->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = pf_stitch_in_order (filling, n);
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          const guint32 entering = ends[side].entering;
          if (entering == PF_NONE)
            continue;
          const PfCrossing *crossing = &filling->crossings[entering];
          if (new_first && crossing->kind == PF_PAIR_NEW)
            continue;
          add_sewing (filling, region, sewings,
                      crossing->kind == PF_PAIR_TURNED ? crossing->match : PF_NONE, entering);
        }
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          const guint32 leaving = ends[side].leaving;
          if (leaving != PF_NONE && filling->crossings[leaving].kind != PF_PAIR_TURNED)
            add_sewing (filling, region, sewings, leaving, PF_NONE);
        }
    }
  filling->n_sewings = sewings->len;
  filling->sewings = (PfSewing *) (void *) g_array_free (sewings, FALSE);
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
  const bool at_target = sewing->pinhole == PF_NONE && sewing->distance <= 0;
  if (crossing == PF_NONE || at_target)
    return 0;
  const PfPoint from = filling->stitches[filling->crossings[crossing].stitch].at;
  return angle_between (from, sewing->target_at, sewing->at);
}

/* The pinholes on either side of a sewing round the bar. */
static void
find_bar (PfSewing *sewing, const PfEdge *edge)
{
  const size_t n = edge->n_pinholes;
  sewing->between[0] = sewing->between[1] = PF_NONE;
  if (sewing->pinhole != PF_NONE || n == 0)
    return;
  size_t after = pf_edge_pinhole_from (edge, sewing->place.along);
  if (after < n && edge->pinholes[after] <= sewing->place.along)
    after++; /* a bar chosen right at a pinhole is the one on from it */
  sewing->between[0] = (guint32) ((after + n - 1) % n);
  sewing->between[1] = (guint32) (after % n);
}

void
pf_sewer_place (PfSewer *sewer, guint32 s, PfSewn sewn)
{
  PfSewing *sewing = &sewer->filling->sewings[s];
  PfCounts *counts = &sewer->filling->counts;
  sewing->place = (PfPlace){ sewing->target.loop, sewn.along };
  sewing->pinhole = sewn.pinhole;
  sewing->distance = sewn.distance;
  find_bar (sewing, &sewer->edges[sewing->place.loop]);
  sewing->at = pf_region_point (sewer->region, sewing->place);
  sewing->angle = fmax (angle_at_crossing (sewer->filling, sewing->leaving, sewing),
                        angle_at_crossing (sewer->filling, sewing->entering, sewing));
  sewing->off_line = sewing->angle > sewer->settings->off_line + ANGLE_SLACK;
  if (sewn.pinhole != PF_NONE)
    sewer->taken[sewing->place.loop][sewn.pinhole]++;
  sewer->placed[s] = true;
  counts->at_pinhole += sewn.pinhole != PF_NONE;
  counts->round_bar += sewn.pinhole == PF_NONE;
  counts->off_line += sewing->off_line;
  counts->place_mm += sewn.distance;
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
start_placing (const PfSewer *sewer, const PfEdgeLine *line, guint32 s)
{
  const PfFilling *filling = sewer->filling;
  const PfSewing *sewing = &filling->sewings[s];
  const PfPoint onward = pf_region_direction (sewer->region, sewing->target);
  const PfLoop *loop = &sewer->region->loops[line->loop];
  return (PfPlacing){
    .target = line->closed ? sewing->target.along
                           : pf_loop_forward (loop, line->from, sewing->target.along),
    .from = side_of_crossing (filling, sewing->leaving, sewing->target_at, onward) +
            side_of_crossing (filling, sewing->entering, sewing->target_at, onward),
    .sewing = s,
    .pinhole = PF_NONE,
  };
}

static void
place_as_assigned (PfSewer *sewer, const PfEdgeLine *line, const PfPlacing *placing)
{
  const PfEdge *edge = &sewer->edges[line->loop];
  PfSewn sewn = { sewer->filling->sewings[placing->sewing].target.along, PF_NONE,
                  placing->distance };
  if (placing->pinhole != PF_NONE)
    {
      sewn.pinhole = (guint32) ((line->first_pinhole + placing->pinhole) % edge->n_pinholes);
      sewn.along = edge->pinholes[sewn.pinhole];
    }
  pf_sewer_place (sewer, placing->sewing, sewn);
}

/* Places the n sewings of one line. */
static bool
place_on_line (PfSewer *sewer, PfEdgeLine *line, const guint32 *sewings, size_t n, GError **error)
{
  const int limit = sewer->settings->sewings_per_pinhole;
  g_autofree PfPlacing *placings = g_new (PfPlacing, n);
  for (size_t s = 0; s < n; s++)
    placings[s] = start_placing (sewer, line, sewings[s]);
  if (n > 0 && line->kind == PF_EDGE_CLOTH_STITCH && line->n_pinholes == 0)
    pf_sewer_warn_no_pinholes (sewer, line, n);
  pf_sewer_make_room (sewer, line, n);
  if (!pf_assign_places (placings, n, line, sewer->settings->reach * line->gap))
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("%zu sewings come to an edge with %zu pinholes, far too few. Choose an "
                      "edge gap of "
                      "%.2f mm, or set more pinholes."),
                   n, line->n_pinholes, pf_gap_that_holds (sewer->region, line, n, limit));
      return false;
    }
  for (size_t p = 0; p < n; p++)
    place_as_assigned (sewer, line, &placings[p]);
  return true;
}

/* Cloth stitch without a pinhole of its own: the sewings go into the nearest one of the loop. */
static void
place_nearest (PfSewer *sewer, const PfEdgeLine *line, const guint32 *sewings, size_t n)
{
  const PfEdge *edge = &sewer->edges[line->loop];
  const PfLoop *loop = &sewer->region->loops[line->loop];
  if (n > 0)
    pf_sewer_warn_no_pinholes (sewer, line, n);
  for (size_t s = 0; s < n; s++)
    {
      const double target = sewer->filling->sewings[sewings[s]].target.along;
      const guint32 pinhole = pf_edge_nearest_pinhole (edge, loop, target);
      const double along = edge->pinholes[pinhole];
      pf_sewer_place (sewer, sewings[s],
                      (PfSewn){ along, pinhole, pf_loop_distance (loop, target, along) });
    }
}

/* The sewings not placed yet, line by line; `first` gets where each line's begin, and their number.
 */
static guint32 *
sort_by_line (const PfSewer *sewer, const GArray *lines, guint32 **first)
{
  const PfFilling *filling = sewer->filling;
  g_autofree guint *line_of = g_new (guint, filling->n_sewings);
  guint32 *sorted = g_new (guint32, filling->n_sewings);
  *first = g_new0 (guint32, lines->len + 1);
  for (size_t s = 0; s < filling->n_sewings; s++)
    if (!sewer->placed[s])
      {
        line_of[s] = pf_edge_lines_find (lines, filling->sewings[s].target);
        (*first)[line_of[s] + 1]++;
      }
  for (guint l = 0; l < lines->len; l++)
    (*first)[l + 1] += (*first)[l];
  g_autofree guint32 *next = g_memdup2 (*first, lines->len * sizeof (guint32));
  for (guint32 s = 0; s < filling->n_sewings; s++)
    if (!sewer->placed[s])
      sorted[next[line_of[s]]++] = s;
  return sorted;
}

static bool
place_rest (PfSewer *sewer, GError **error)
{
  g_autoptr (GArray) lines = pf_edge_lines_new (sewer->region, sewer->edges);
  g_autofree guint32 *first = NULL;
  g_autofree guint32 *sorted = sort_by_line (sewer, lines, &first);
  for (int alone = 1; alone >= 0; alone--)
    for (guint l = 0; l < lines->len; l++)
      {
        PfEdgeLine *line = &g_array_index (lines, PfEdgeLine, l);
        const guint32 *sewings = sorted + first[l];
        const size_t n = first[l + 1] - first[l];
        const bool needs_other = line->kind == PF_EDGE_CLOTH_STITCH && line->n_pinholes == 0 &&
                                 sewer->edges[line->loop].n_pinholes > 0;
        if (n == 0 || needs_other != alone)
          continue;
        if (needs_other)
          place_nearest (sewer, line, sewings, n);
        else if (!place_on_line (sewer, line, sewings, n, error))
          return false;
      }
  return true;
}

/* How far each carried pair runs along the outline. */
static void
measure_runs (PfFilling *filling, const PfRegion *region)
{
  for (size_t c = 0; c < filling->n_crossings; c++)
    {
      const PfCrossing *leaving = &filling->crossings[c];
      if (!leaving->leaves || leaving->kind != PF_PAIR_CARRIED)
        continue;
      PfSewing *from = &filling->sewings[leaving->sewing];
      PfSewing *to = &filling->sewings[filling->crossings[leaving->match].sewing];
      from->run = to->run =
          pf_loop_distance (&region->loops[from->place.loop], from->place.along, to->place.along);
    }
}

bool
pf_find_sewings (PfFilling *filling, const PfRegion *region, const PfEdge *edges,
                 const PfGround *ground, const PfFillingSettings *settings, GError **error)
{
  list_sewings (filling, region);
  filling->counts.sewings = filling->n_sewings;
  g_autofree bool *placed = g_new0 (bool, filling->n_sewings);
  g_autofree guint32 **taken = g_new (guint32 *, region->n_loops);
  for (size_t l = 0; l < region->n_loops; l++)
    taken[l] = g_new0 (guint32, edges[l].n_pinholes);
  PfSewer sewer = { filling, region, edges, ground, settings, placed, taken };
  pf_sewer_place_chosen (&sewer);
  const bool done = place_rest (&sewer, error);
  measure_runs (filling, region);
  for (size_t l = 0; l < region->n_loops; l++)
    g_free (taken[l]);
  return done;
}
