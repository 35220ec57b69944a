/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to this folder: the edges of several loops in a grid of square cells.
 *
 * Every cell lists the edges that come within PF_GRID_MARGIN of it, every row of cells those that
 * come as near to the row. What is asked is asked of a straight line, cell by cell; since both the
 * edges and the line are taken that much too wide, they share the cell of any point where they
 * meet.
 */
#pragma once

#include "outline.h"

G_BEGIN_DECLS

/* Several times PF_TOUCH, and what rounding adds at PF_OUTLINE_LIMIT (1e-11 mm) far below it. */
#define PF_GRID_MARGIN (4 * PF_TOUCH)

typedef struct {
  PfPoint a, b;
  guint32 loop, i; /* from points[i] of that loop to the next */
} PfOutlineEdge;

/* Lists of edges, one after the other: list k is items[start[k]] up to items[start[k + 1]]. */
typedef struct {
  guint32 *start;
  guint32 *items;
} PfEdgeLists;

typedef struct PfOutlineIndex {
  const PfLoop *loops; /* borrowed */
  size_t n_loops;
  PfOutlineEdge *edges;
  guint32 n_edges;
  PfBox box;
  double cell; /* mm */
  double cells_per_mm;
  int columns, rows;
  PfEdgeLists cells; /* by row, then column */
  PfEdgeLists bands; /* by row */
} PfOutlineIndex;

/* Most edges of one region. */
#define PF_OUTLINE_MAX_EDGES 10000000

/* `loops` stay the caller's, and must not move. PF_ERROR_TOO_BIG. */
PfOutlineIndex *pf_outline_index_new (const PfLoop *loops, size_t n_loops, GError **error);
void pf_outline_index_free (PfOutlineIndex *index);

/* Checks that no two edges cross or lie on one another. */
bool pf_outline_check (const PfOutlineIndex *index, GError **error);

/* The cell number of a coordinate `from` the grid's start, held within the grid's `n` cells. */
static inline int
pf_grid_cell (double from, double cells_per_mm, int n)
{
  const double at = from * cells_per_mm;

  return at > 0 ? (at < n - 1 ? (int) at : n - 1) : 0;
}

static inline int
pf_grid_column (const PfOutlineIndex *index, double x)
{
  return pf_grid_cell (x - index->box.min.x, index->cells_per_mm, index->columns);
}

static inline int
pf_grid_row (const PfOutlineIndex *index, double y)
{
  return pf_grid_cell (y - index->box.min.y, index->cells_per_mm, index->rows);
}

/* A straight line on its way through the grid's rows. */
typedef struct {
  PfPoint a;
  double slope; /* dx / dy */
  double min_x, max_x;
  int first_row, last_row;
  bool level; /* takes its whole width in every row */
} PfGridWalk;

static inline PfGridWalk
pf_grid_walk (const PfOutlineIndex *index, PfPoint a, PfPoint b)
{
  const double dy = b.y - a.y;
  PfGridWalk walk = { .a = a,
                      .min_x = a.x < b.x ? a.x : b.x,
                      .max_x = a.x < b.x ? b.x : a.x,
                      .first_row = pf_grid_row (index, (dy < 0 ? b.y : a.y) - PF_GRID_MARGIN),
                      .last_row = pf_grid_row (index, (dy < 0 ? a.y : b.y) + PF_GRID_MARGIN) };

  walk.level = walk.first_row == walk.last_row || fabs (dy) <= PF_GRID_MARGIN;
  walk.slope = walk.level ? 0 : (b.x - a.x) / dy;
  return walk;
}

/* The columns that the line takes in one of its rows. */
static inline void
pf_grid_columns (const PfOutlineIndex *index, const PfGridWalk *walk, int row, int *first,
                 int *last)
{
  double low = walk->min_x, high = walk->max_x;

  if (!walk->level)
    {
      const double top = index->box.min.y + row * index->cell - PF_GRID_MARGIN;
      const double x0 = walk->a.x + (top - walk->a.y) * walk->slope;
      const double x1 = x0 + (index->cell + 2 * PF_GRID_MARGIN) * walk->slope;
      const double left = x0 < x1 ? x0 : x1, right = x0 < x1 ? x1 : x0;

      /* At a limit of the grid the cells go on for ever, but no edge does. */
      low = left > low ? (left < high ? left : high) : low;
      high = right < high ? (right > low ? right : low) : high;
    }
  *first = pf_grid_column (index, low - PF_GRID_MARGIN);
  *last = pf_grid_column (index, high + PF_GRID_MARGIN);
}

static inline size_t
pf_grid_index (const PfOutlineIndex *index, int row, int column)
{
  return (size_t) row * (size_t) index->columns + (size_t) column;
}

G_END_DECLS
