/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Random regions are stars: corners at rising angles round a centre never cross.
 */
#include "samples.h"

#include <math.h>

PfGround *
sample_ground (const char *name)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_load (name, &error);
  g_assert_no_error (error);
  return ground;
}

PfRegion *
sample_polygon (const PfPoint *points, size_t n)
{
  const PfChain chain = { (PfPoint *) points, n, true };
  g_autoptr (GError) error = NULL;
  PfRegion *region = pf_region_new (&chain, 1, &error);
  g_assert_no_error (error);
  return region;
}

static PfChain
star (PfPoint centre, double inner, double outer, size_t n)
{
  PfPoint *points = g_new (PfPoint, n);
  for (size_t p = 0; p < n; p++)
    {
      const double angle =
          2 * G_PI * ((double) p + g_test_rand_double_range (0.05, 0.95)) / (double) n;
      const double radius = g_test_rand_double_range (inner, outer);
      points[p] = (PfPoint){ centre.x + radius * cos (angle), centre.y + radius * sin (angle) };
    }
  return (PfChain){ points, n, true };
}

PfRegion *
sample_star (PfPoint centre, double inner, double outer, size_t n, size_t n_holes)
{
  g_assert (n_holes <= 2);
  PfChain chains[3] = { star (centre, inner, outer, n) };
  for (size_t h = 1; h <= n_holes; h++)
    {
      /* The outline may cut straight from one corner to the next; n > 6 corners leave more than
       * inner/2. */
      const double off = (h == 1 ? -0.22 : 0.22) * inner;
      chains[h] = star ((PfPoint){ centre.x + off, centre.y }, 0.02 * inner, 0.2 * inner,
                        (size_t) g_test_rand_int_range (5, 12));
    }
  g_autoptr (GError) error = NULL;
  PfRegion *region = pf_region_new (chains, n_holes + 1, &error);
  g_assert_no_error (error);
  for (size_t c = 0; c <= n_holes; c++)
    g_free (chains[c].points);
  return region;
}

PfPlacement
sample_placement (double least_gap, double most_gap)
{
  static const double turns[] = { 0, 45, 90, -30, 180, 270 };
  const int turn = g_test_rand_int_range (0, 2 * G_N_ELEMENTS (turns));
  return (PfPlacement){
    .gap = g_test_rand_double_range (least_gap, most_gap),
    .turn = turn < (int) G_N_ELEMENTS (turns) ? turns[turn] : g_test_rand_double_range (-180, 180),
    .origin = { g_test_rand_double_range (-100, 100), g_test_rand_double_range (-100, 100) },
    .mirror = g_test_rand_bit (),
    .angle = g_test_rand_int_range (0, 3) == 0
                 ? g_test_rand_double_range (PF_ANGLE_MIN, PF_ANGLE_MAX)
                 : 0,
  };
}

static GEOSGeometry *
ring (GEOSContextHandle_t handle, const PfLoop *loop)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (handle, (unsigned) loop->n_points + 1, 2);
  for (size_t p = 0; p <= loop->n_points; p++)
    {
      const PfPoint at = loop->points[p < loop->n_points ? p : 0];
      GEOSCoordSeq_setXY_r (handle, points, (unsigned) p, at.x, at.y);
    }
  return GEOSGeom_createLinearRing_r (handle, points);
}

GeosRegion *
geos_region_new (const PfRegion *region)
{
  GeosRegion *geos = g_new0 (GeosRegion, 1);
  geos->handle = GEOS_init_r ();
  g_autofree GEOSGeometry **holes = g_new (GEOSGeometry *, region->n_loops);
  for (size_t h = 1; h < region->n_loops; h++)
    holes[h - 1] = ring (geos->handle, &region->loops[h]);
  geos->area = GEOSGeom_createPolygon_r (geos->handle, ring (geos->handle, &region->loops[0]),
                                         holes, (unsigned) region->n_loops - 1);
  geos->outline = GEOSBoundary_r (geos->handle, geos->area);
  geos->inside = GEOSPrepare_r (geos->handle, geos->area);
  geos->near = GEOSPrepare_r (geos->handle, geos->outline);
  return geos;
}

void
geos_region_free (GeosRegion *geos)
{
  GEOSPreparedGeom_destroy_r (geos->handle, geos->inside);
  GEOSPreparedGeom_destroy_r (geos->handle, geos->near);
  GEOSGeom_destroy_r (geos->handle, geos->area);
  GEOSGeom_destroy_r (geos->handle, geos->outline);
  GEOS_finish_r (geos->handle);
  g_free (geos);
}

GEOSGeometry *
geos_point (const GeosRegion *geos, PfPoint p)
{
  return GEOSGeom_createPointFromXY_r (geos->handle, p.x, p.y);
}

GEOSGeometry *
geos_line (const GeosRegion *geos, PfPoint from, PfPoint to)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (geos->handle, 2, 2);
  GEOSCoordSeq_setXY_r (geos->handle, points, 0, from.x, from.y);
  GEOSCoordSeq_setXY_r (geos->handle, points, 1, to.x, to.y);
  return GEOSGeom_createLineString_r (geos->handle, points);
}

bool
geos_contains (const GeosRegion *geos, PfPoint p)
{
  GEOSGeometry *point = geos_point (geos, p);
  const char contains = GEOSPreparedContains_r (geos->handle, geos->inside, point);
  GEOSGeom_destroy_r (geos->handle, point);
  g_assert_cmpint (contains, <=, 1);
  return contains;
}

double
geos_distance (const GeosRegion *geos, PfPoint p)
{
  GEOSGeometry *point = geos_point (geos, p);
  double distance;
  g_assert_cmpint (GEOSPreparedDistance_r (geos->handle, geos->near, point, &distance), ==, 1);
  GEOSGeom_destroy_r (geos->handle, point);
  return distance;
}

double
geos_outside (const GeosRegion *geos, PfPoint from, PfPoint to)
{
  if (hypot (to.x - from.x, to.y - from.y) <= 0)
    return 0;
  GEOSGeometry *line = geos_line (geos, from, to);
  double length = 0;
  if (!GEOSPreparedCovers_r (geos->handle, geos->inside, line))
    {
      GEOSGeometry *rest = GEOSDifference_r (geos->handle, line, geos->area);
      g_assert_nonnull (rest);
      GEOSLength_r (geos->handle, rest, &length);
      GEOSGeom_destroy_r (geos->handle, rest);
    }
  GEOSGeom_destroy_r (geos->handle, line);
  return length;
}
