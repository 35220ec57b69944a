/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static int failures;

double
bench_now (void)
{
  struct timespec now;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double) now.tv_sec * 1e3 + (double) now.tv_nsec / 1e6;
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

double
bench_median (double times[BENCH_RUNS])
{
  qsort (times, BENCH_RUNS, sizeof times[0], compare_doubles);
  return times[BENCH_RUNS / 2];
}

static void
verdict (const char *what, double value, double limit, const char *bound, bool met)
{
  printf ("%-52s %10.4g   %s %-8g %s\n", what, value, bound, limit, met ? "ok" : "MISSED");
  failures += !met;
}

void
bench_at_least (const char *what, double value, double limit)
{
  verdict (what, value, limit, "at least", value >= limit);
}

void
bench_at_most (const char *what, double value, double limit)
{
  verdict (what, value, limit, "at most", value <= limit);
}

int
bench_exit (void)
{
  return failures > 0;
}

static PfChain
wave (double radius, size_t n)
{
  PfPoint *points = g_new (PfPoint, n);
  for (size_t p = 0; p < n; p++)
    {
      const double angle = 2 * G_PI * (double) p / (double) n;
      const double r = radius * (0.85 + 0.12 * sin (7 * angle) + 0.03 * sin (23 * angle + 1));
      points[p] = (PfPoint){ r * cos (angle), r * sin (angle) };
    }
  return (PfChain){ points, n, true };
}

PfChain *
bench_chains (double radius, size_t n_edges)
{
  PfChain *chains = g_new (PfChain, 2);
  chains[0] = wave (radius, n_edges - n_edges / 4);
  chains[1] = wave (radius / 3, n_edges / 4);
  return chains;
}

void
bench_chains_free (PfChain *chains)
{
  g_free (chains[0].points);
  g_free (chains[1].points);
  g_free (chains);
}

PfRegion *
bench_region (double radius, size_t n_edges)
{
  PfChain *chains = bench_chains (radius, n_edges);
  PfRegion *region = pf_region_new (chains, 2, NULL);
  bench_chains_free (chains);
  g_assert (region != NULL);
  return region;
}

PfGround *
bench_ground (const char *name)
{
  PfGround *ground = pf_ground_load (name, NULL);
  g_assert (ground != NULL);
  return ground;
}

static GEOSGeometry *
ring (GEOSContextHandle_t geos, const PfLoop *loop)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (geos, (unsigned) loop->n_points + 1, 2);
  for (size_t p = 0; p <= loop->n_points; p++)
    {
      const PfPoint at = loop->points[p < loop->n_points ? p : 0];
      GEOSCoordSeq_setXY_r (geos, points, (unsigned) p, at.x, at.y);
    }
  return GEOSGeom_createLinearRing_r (geos, points);
}

GEOSGeometry *
bench_geos_area (GEOSContextHandle_t geos, const PfRegion *region)
{
  GEOSGeometry *hole = ring (geos, &region->loops[1]);
  return GEOSGeom_createPolygon_r (geos, ring (geos, &region->loops[0]), &hole, 1);
}
