/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Building the grid that finds edges near a place.
 *
 * Cells are about two edges wide, so that a cell which the outline passes holds a few edges; but
 * never so small that there are more than CELLS_PER_EDGE of them for each edge. Lists are counted
 * first and then filled backwards, which leaves start[k] at the beginning of list k.
 */
#include <glib/gi18n-lib.h>

#include "outline-index.h"

#define CELLS_PER_EDGE 8

static double
total_length (const PfOutlineIndex *index)
{
  double sum = 0;

  for (size_t i = 0; i < index->n_loops; i++)
    sum += pf_loop_length (&index->loops[i]);
  return sum;
}

static void
find_box (PfOutlineIndex *index)
{
  index->box = pf_loop_box (&index->loops[0]);
  for (size_t i = 1; i < index->n_loops; i++)
    {
      const PfBox box = pf_loop_box (&index->loops[i]);

      index->box.min.x = MIN (index->box.min.x, box.min.x);
      index->box.min.y = MIN (index->box.min.y, box.min.y);
      index->box.max.x = MAX (index->box.max.x, box.max.x);
      index->box.max.y = MAX (index->box.max.y, box.max.y);
    }
}

static void
choose_cells (PfOutlineIndex *index)
{
  const double width = index->box.max.x - index->box.min.x;
  const double height = index->box.max.y - index->box.min.y;
  const double edge = total_length (index) / index->n_edges;

  index->cell = fmax (2 * edge, sqrt (width * height / CELLS_PER_EDGE / index->n_edges));
  index->cells_per_mm = 1 / index->cell;
  index->columns = (int) (width * index->cells_per_mm) + 1;
  index->rows = (int) (height * index->cells_per_mm) + 1;
}

static void
copy_edges (PfOutlineIndex *index)
{
  PfOutlineEdge *edge = index->edges = g_new (PfOutlineEdge, index->n_edges);

  for (size_t l = 0; l < index->n_loops; l++)
    {
      const PfLoop *loop = &index->loops[l];

      for (size_t i = 0; i < loop->n_points; i++)
        *edge++ =
            (PfOutlineEdge){ loop->points[i], loop->points[i + 1 < loop->n_points ? i + 1 : 0],
                             (guint32) l, (guint32) i };
    }
}

/* Turns counts into the end of each list; start[n] is the number of all items. */
static void
begin_lists (PfEdgeLists *lists, size_t n)
{
  guint32 sum = 0;

  for (size_t k = 0; k < n; k++)
    lists->start[k] = sum += lists->start[k];
  lists->start[n] = sum;
  lists->items = g_new (guint32, MAX (sum, 1));
}

static void
count_edge (PfOutlineIndex *index, guint32 e)
{
  const PfGridWalk walk = pf_grid_walk (index, index->edges[e].a, index->edges[e].b);
  int first, last;

  for (int row = walk.first_row; row <= walk.last_row; row++)
    {
      index->bands.start[row]++;
      pf_grid_columns (index, &walk, row, &first, &last);
      for (int column = first; column <= last; column++)
        index->cells.start[pf_grid_index (index, row, column)]++;
    }
}

static void
file_edge (PfOutlineIndex *index, guint32 e)
{
  const PfGridWalk walk = pf_grid_walk (index, index->edges[e].a, index->edges[e].b);
  int first, last;

  for (int row = walk.first_row; row <= walk.last_row; row++)
    {
      index->bands.items[--index->bands.start[row]] = e;
      pf_grid_columns (index, &walk, row, &first, &last);
      for (int column = first; column <= last; column++)
        index->cells.items[--index->cells.start[pf_grid_index (index, row, column)]] = e;
    }
}

static void
file_edges (PfOutlineIndex *index)
{
  const size_t n_rows = (size_t) index->rows, n_cells = n_rows * (size_t) index->columns;

  index->cells.start = g_new0 (guint32, n_cells + 1);
  index->bands.start = g_new0 (guint32, n_rows + 1);
  for (guint32 e = 0; e < index->n_edges; e++)
    count_edge (index, e);
  begin_lists (&index->cells, n_cells);
  begin_lists (&index->bands, n_rows);
  for (guint32 e = index->n_edges; e-- > 0;)
    file_edge (index, e);
}

PfOutlineIndex *
pf_outline_index_new (const PfLoop *loops, size_t n_loops, GError **error)
{
  size_t n_edges = 0;

  for (size_t i = 0; i < n_loops; i++)
    n_edges += loops[i].n_points;
  if (n_edges > PF_OUTLINE_MAX_EDGES)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("The outline has more than %d points. Draw it more simply."),
                   PF_OUTLINE_MAX_EDGES);
      return NULL;
    }
  PfOutlineIndex *index = g_new0 (PfOutlineIndex, 1);
  index->loops = loops;
  index->n_loops = n_loops;
  index->n_edges = (guint32) n_edges;
  find_box (index);
  choose_cells (index);
  copy_edges (index);
  file_edges (index);
  return index;
}

void
pf_outline_index_free (PfOutlineIndex *index)
{
  if (!index)
    return;
  g_free (index->edges);
  g_free (index->cells.start);
  g_free (index->cells.items);
  g_free (index->bands.start);
  g_free (index->bands.items);
  g_free (index);
}
