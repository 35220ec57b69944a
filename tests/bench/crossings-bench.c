/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which of two million pair lines are cut at the edge, and where: all at once, and line by line
 * with GEOS, which is only asked whether each line meets the outline: of the prepared outline, or
 * of the edges that its tree finds near the line.
 */
#include "bench.h"

#include <stdio.h>

#include <crossings.h>

#define N_LINES 2e6
#define N_EDGES 2000
#define BATCH 10000

typedef struct {
  PfPoint from, to;
} Line;

typedef struct {
  const PfRegion *region;
  PfLattice *lattice;
  Line *lines; /* every pair line that starts in the region's box */
  size_t n_lines;
} Task;

static void
list_lines (Task *task)
{
  const PfLattice *lattice = task->lattice;
  const PfBox box = task->region->box;
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (Line));
  for (int l = 0; l < lattice->ground->n_lines; l++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        {
          const PfPairLine *line = &lattice->ground->lines[l];
          const Line ends = {
            pf_lattice_position (lattice, (PfStitchId){ line->from.stitch, i, j }),
            pf_lattice_position (lattice,
                                 (PfStitchId){ line->to.stitch, i + line->da, j + line->db })
          };
          if (ends.from.x >= box.min.x && ends.from.x <= box.max.x && ends.from.y >= box.min.y &&
              ends.from.y <= box.max.y)
            g_array_append_val (lines, ends);
        }
  task->n_lines = lines->len;
  task->lines = (Line *) (void *) g_array_free (lines, FALSE);
}

static double
time_lattice (const Task *task, size_t *n_cut)
{
  const double start = bench_now ();
  g_autoptr (GArray) cuts = pf_find_cut_lines (task->lattice, task->region);
  *n_cut = cuts->len;
  return bench_now () - start;
}

static GEOSGeometry *
make_line (GEOSContextHandle_t geos, PfPoint from, PfPoint to)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (geos, 2, 2);
  GEOSCoordSeq_setXY_r (geos, points, 0, from.x, from.y);
  GEOSCoordSeq_setXY_r (geos, points, 1, to.x, to.y);
  return GEOSGeom_createLineString_r (geos, points);
}

/* One edge of the outline, as the tree holds it. */
typedef struct {
  PfPoint a, b;
} Edge;

typedef struct {
  const Line *line;
  bool met;
} Query;

static double
turn (PfPoint a, PfPoint b, PfPoint p)
{
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static void
ask_edge (void *item, void *data)
{
  const Edge *edge = item;
  Query *query = data;
  const PfPoint p = query->line->from, q = query->line->to;
  query->met |= (turn (edge->a, edge->b, p) > 0) != (turn (edge->a, edge->b, q) > 0) &&
                (turn (p, q, edge->a) > 0) != (turn (p, q, edge->b) > 0);
}

/* How GEOS is asked. */
typedef struct {
  GEOSContextHandle_t geos;
  GEOSGeometry *area, *outline;
  const GEOSPreparedGeometry *prepared;
  GEOSSTRtree *tree;
  GPtrArray *boxes; /* of GEOSGeometry: the edges' */
  Edge *edges;
} Geos;

static void
fill_tree (Geos *g, const PfRegion *region)
{
  g->tree = GEOSSTRtree_create_r (g->geos, 10);
  g->boxes = g_ptr_array_new ();
  g->edges = g_new (Edge, N_EDGES);
  Edge *edge = g->edges;
  for (size_t l = 0; l < region->n_loops; l++)
    for (size_t p = 0; p < region->loops[l].n_points; p++, edge++)
      {
        const PfLoop *loop = &region->loops[l];
        *edge = (Edge){ loop->points[p], loop->points[(p + 1) % loop->n_points] };
        GEOSGeometry *line = make_line (g->geos, edge->a, edge->b);
        GEOSSTRtree_insert_r (g->geos, g->tree, line, edge);
        g_ptr_array_add (g->boxes, line);
      }
}

static void
geos_start (Geos *g, const PfRegion *region)
{
  g->geos = GEOS_init_r ();
  g->area = bench_geos_area (g->geos, region);
  g->outline = GEOSBoundary_r (g->geos, g->area);
  g->prepared = GEOSPrepare_r (g->geos, g->outline);
  fill_tree (g, region);
}

static void
geos_end (Geos *g)
{
  GEOSSTRtree_destroy_r (g->geos, g->tree);
  for (guint b = 0; b < g->boxes->len; b++)
    GEOSGeom_destroy_r (g->geos, g_ptr_array_index (g->boxes, b));
  g_ptr_array_unref (g->boxes);
  g_free (g->edges);
  GEOSPreparedGeom_destroy_r (g->geos, g->prepared);
  GEOSGeom_destroy_r (g->geos, g->outline);
  GEOSGeom_destroy_r (g->geos, g->area);
  GEOS_finish_r (g->geos);
}

/* Only the questions count, not making the lines that GEOS wants. */
static double
time_geos (const Task *task, const Geos *g, bool by_tree, size_t *n_met)
{
  static GEOSGeometry *batch[BATCH];
  double time = 0;
  *n_met = 0;
  for (size_t from = 0; from < task->n_lines; from += BATCH)
    {
      const size_t n = MIN (BATCH, task->n_lines - from);
      for (size_t l = 0; l < n; l++)
        batch[l] = make_line (g->geos, task->lines[from + l].from, task->lines[from + l].to);
      const double start = bench_now ();
      for (size_t l = 0; l < n; l++)
        {
          if (!by_tree)
            {
              *n_met += (size_t) GEOSPreparedIntersects_r (g->geos, g->prepared, batch[l]);
              continue;
            }
          Query query = { &task->lines[from + l], false };
          GEOSSTRtree_query_r (g->geos, g->tree, batch[l], ask_edge, &query);
          *n_met += query.met;
        }
      time += bench_now () - start;
      for (size_t l = 0; l < n; l++)
        GEOSGeom_destroy_r (g->geos, batch[l]);
    }
  return time;
}

int
main (void)
{
  g_autoptr (PfGround) ground = bench_ground ("armure");
  PfRegion *region = bench_region (800, N_EDGES);
  const PfPlacement placement = { .gap = 1.99, .turn = 13 };
  g_autoptr (PfLattice) lattice = pf_lattice_new (region, ground, &placement, NULL);
  pf_lattice_find_inside (lattice, region, 0.25);
  Task task = { .region = region, .lattice = lattice };
  list_lines (&task);
  Geos g;
  geos_start (&g, region);

  double ours[BENCH_RUNS], prepared[BENCH_RUNS], tree[BENCH_RUNS];
  size_t n_cut, n_prepared, n_tree;
  for (int run = 0; run < BENCH_RUNS; run++)
    {
      ours[run] = time_lattice (&task, &n_cut);
      prepared[run] = time_geos (&task, &g, false, &n_prepared);
      tree[run] = time_geos (&task, &g, true, &n_tree);
    }
  const double ms = bench_median (ours), prepared_ms = bench_median (prepared),
               tree_ms = bench_median (tree);
  printf ("%zu pair lines, %d edges; cut: %zu (GEOS, without clearance: %zu meet the outline)\n",
          task.n_lines, N_EDGES, n_cut, n_prepared);
  printf ("ms: %.3f with all places, GEOS prepared %.1f, GEOS tree %.1f, without places\n", ms,
          prepared_ms, tree_ms);
  bench_at_least ("pair lines", (double) task.n_lines, N_LINES);
  bench_at_least ("times as fast as GEOS at its fastest", MIN (prepared_ms, tree_ms) / ms, 50);

  geos_end (&g);
  g_free (task.lines);
  pf_region_free (region);
  return bench_exit ();
}
