/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random shapes from GLib's seeded numbers, and the same shapes for GEOS. */
#include "shapes.h"

double
distance_to_step (PfPoint p, PfPoint a, PfPoint b)
{
  const double dx = b.x - a.x, dy = b.y - a.y, whole = dx * dx + dy * dy;
  const double u = whole > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / whole, 0, 1) : 0;

  return hypot (p.x - a.x - u * dx, p.y - a.y - u * dy);
}

double
distance_to_chain (PfPoint p, const PfChain *chain)
{
  double least = INFINITY;

  for (size_t i = 1; i < chain->n_points; i++)
    least = fmin (least, distance_to_step (p, chain->points[i - 1], chain->points[i]));
  if (chain->closed)
    least =
        fmin (least, distance_to_step (p, chain->points[chain->n_points - 1], chain->points[0]));
  return least;
}

double
distance_ahead (PfPoint p, const PfChain *chain, size_t *step)
{
  const size_t first = *step, end = MIN (first + 50, chain->n_points - 1);
  double least = INFINITY;

  for (size_t i = first; i < end; i++)
    {
      const double d = distance_to_step (p, chain->points[i], chain->points[i + 1]);

      if (d < least)
        {
          least = d;
          *step = i;
        }
    }
  return least;
}

PfChain
random_star (PfPoint centre, double low, double radius, size_t n)
{
  PfChain chain = { g_new (PfPoint, n), n, true };
  const double first = g_test_rand_double_range (0, 2 * G_PI);
  const double step = (g_test_rand_bit () ? 2 : -2) * G_PI / (double) n;

  for (size_t i = 0; i < n; i++)
    {
      const double angle = first + step * ((double) i + g_test_rand_double_range (0, 0.9));
      const double r = g_test_rand_double_range (low, 1) * radius;

      chain.points[i] = (PfPoint){ centre.x + r * cos (angle), centre.y + r * sin (angle) };
    }
  return chain;
}

PfChain
random_lattice_chain (int size, size_t n)
{
  PfChain chain = { g_new (PfPoint, n), n, true };

  for (size_t i = 0; i < n; i++)
    chain.points[i] =
        (PfPoint){ g_test_rand_int_range (0, size + 1), g_test_rand_int_range (0, size + 1) };
  return chain;
}

PfRegion *
random_region (void)
{
  const PfPoint centre = { 60, 60 };
  PfChain chains[8] = { random_star (centre, 0.3, 50, (size_t) g_test_rand_int_range (3, 300)) };
  size_t n = 1;
  GError *error = NULL;

  /* A hole that doesn't fit is left out again. */
  for (int i = 0; i < 7; i++)
    {
      const PfPoint at = { g_test_rand_double_range (20, 100), g_test_rand_double_range (20, 100) };
      const double radius = i % 2 ? 0.01 : g_test_rand_double_range (1, 10);

      chains[n] = random_star (at, 0.5, radius, (size_t) g_test_rand_int_range (3, 20));
      PfRegion *region = pf_region_new (chains, n + 1, NULL);
      if (region)
        n++;
      else
        g_free (chains[n].points);
      pf_region_free (region);
    }
  PfRegion *region = pf_region_new (chains, n, &error);
  g_assert_no_error (error);
  for (size_t i = 0; i < n; i++)
    g_free (chains[i].points);
  return region;
}

PfRegion *
random_lattice_region (int size, size_t n)
{
  GEOSContextHandle_t geos = GEOS_init_r ();
  PfRegion *region = NULL;

  while (!region)
    {
      PfChain chain = random_lattice_chain (size, n);
      GEOSGeometry *ring = geos_ring (geos, chain.points, chain.n_points);

      if (GEOSisSimple_r (geos, ring) == 1)
        region = pf_region_new (&chain, 1, NULL);
      GEOSGeom_destroy_r (geos, ring);
      g_free (chain.points);
    }
  GEOS_finish_r (geos);
  return region;
}

GEOSGeometry *
geos_ring (GEOSContextHandle_t geos, const PfPoint *points, size_t n)
{
  GEOSCoordSequence *seq = GEOSCoordSeq_create_r (geos, (unsigned) n + 1, 2);

  for (size_t i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (geos, seq, (unsigned) i, points[i % n].x, points[i % n].y);
  return GEOSGeom_createLinearRing_r (geos, seq);
}

GEOSGeometry *
geos_polygon (GEOSContextHandle_t geos, const PfRegion *region)
{
  const size_t n = region->n_loops;
  g_autofree GEOSGeometry **rings = g_new (GEOSGeometry *, n);

  for (size_t i = 0; i < n; i++)
    rings[i] = geos_ring (geos, region->loops[i].points, region->loops[i].n_points);
  return GEOSGeom_createPolygon_r (geos, rings[0], rings + 1, (unsigned) n - 1);
}

GEOSGeometry *
geos_point (GEOSContextHandle_t geos, PfPoint p)
{
  return GEOSGeom_createPointFromXY_r (geos, p.x, p.y);
}

GEOSGeometry *
geos_line (GEOSContextHandle_t geos, PfPoint a, PfPoint b)
{
  GEOSCoordSequence *seq = GEOSCoordSeq_create_r (geos, 2, 2);

  GEOSCoordSeq_setXY_r (geos, seq, 0, a.x, a.y);
  GEOSCoordSeq_setXY_r (geos, seq, 1, b.x, b.y);
  return GEOSGeom_createLineString_r (geos, seq);
}
