/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Inside or not, a million stitches: all at once with their clearance, and point by point with
 * GEOS's prepared polygon, which isn't asked for the clearance.
 */
#include "bench.h"

#include <math.h>
#include <stdio.h>

#include <lattice.h>

#define N_STITCHES 1e6
#define N_EDGES 2000
#define BATCH 10000

typedef struct {
  const PfGround *ground;
  const PfRegion *region;
  PfPlacement placement;
  PfPoint *points; /* every stitch of the lattice in the region's box */
  size_t n_points;
} Task;

static void
list_points (Task *task)
{
  g_autoptr (PfLattice) lattice =
      pf_lattice_new (task->region, task->ground, &task->placement, NULL);
  const PfBox box = task->region->box;
  GArray *points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (int k = 0; k < task->ground->n_stitches; k++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        {
          const PfPoint p = pf_lattice_position (lattice, (PfStitchId){ k, i, j });
          if (p.x >= box.min.x && p.x <= box.max.x && p.y >= box.min.y && p.y <= box.max.y)
            g_array_append_val (points, p);
        }
  task->n_points = points->len;
  task->points = (PfPoint *) (void *) g_array_free (points, FALSE);
}

static double
time_lattice (const Task *task, double clearance, size_t *n_inside)
{
  const double start = bench_now ();
  g_autoptr (PfLattice) lattice =
      pf_lattice_new (task->region, task->ground, &task->placement, NULL);
  pf_lattice_find_inside (lattice, task->region, clearance);
  const double time = bench_now () - start;
  pf_lattice_count (lattice);
  *n_inside = lattice->n_inside;
  return time;
}

/* Only the questions count, not making the points that GEOS wants. */
static double
time_geos (const Task *task, GEOSContextHandle_t geos, const GEOSPreparedGeometry *area,
           size_t *n_inside)
{
  static GEOSGeometry *batch[BATCH];
  double time = 0;
  *n_inside = 0;
  for (size_t from = 0; from < task->n_points; from += BATCH)
    {
      const size_t n = MIN (BATCH, task->n_points - from);
      for (size_t p = 0; p < n; p++)
        batch[p] =
            GEOSGeom_createPointFromXY_r (geos, task->points[from + p].x, task->points[from + p].y);
      const double start = bench_now ();
      for (size_t p = 0; p < n; p++)
        *n_inside += (size_t) GEOSPreparedContains_r (geos, area, batch[p]);
      time += bench_now () - start;
      for (size_t p = 0; p < n; p++)
        GEOSGeom_destroy_r (geos, batch[p]);
    }
  return time;
}

int
main (void)
{
  g_autoptr (PfGround) ground = bench_ground ("armure");
  PfRegion *region = bench_region (800, N_EDGES);
  Task task = { .ground = ground, .region = region, .placement = { .gap = 1.99, .turn = 13 } };
  list_points (&task);
  GEOSContextHandle_t geos = GEOS_init_r ();
  GEOSGeometry *area = bench_geos_area (geos, region);
  const GEOSPreparedGeometry *prepared = GEOSPrepare_r (geos, area);

  double ours[BENCH_RUNS], without[BENCH_RUNS], theirs[BENCH_RUNS];
  size_t n_with, n_without, n_theirs;
  for (int run = 0; run < BENCH_RUNS; run++)
    {
      ours[run] = time_lattice (&task, 0.25, &n_with);
      without[run] = time_lattice (&task, 0, &n_without);
      theirs[run] = time_geos (&task, geos, prepared, &n_theirs);
    }
  const double n = (double) task.n_points;
  const double with_ms = bench_median (ours), without_ms = bench_median (without);
  const double geos_ms = bench_median (theirs);
  printf (
      "%zu stitches in the box, %d edges, inside: %zu, with clearance %zu (GEOS, without: %zu)\n",
      task.n_points, N_EDGES, n_without, n_with, n_theirs);
  printf ("ns a stitch: %.3f without clearance, %.3f with clearance, GEOS %.1f\n",
          without_ms / n * 1e6, with_ms / n * 1e6, geos_ms / n * 1e6);
  bench_at_least ("stitches in the box", n, N_STITCHES);
  bench_at_most ("differences from GEOS", fabs ((double) n_without - (double) n_theirs), 0);
  bench_at_least ("times as fast as GEOS, with clearance", geos_ms / with_ms, 100);

  GEOSPreparedGeom_destroy_r (geos, prepared);
  GEOSGeom_destroy_r (geos, area);
  GEOS_finish_r (geos);
  g_free (task.points);
  pf_region_free (region);
  return bench_exit ();
}
