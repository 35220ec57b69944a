/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Checks that no two edges of an outline cross or lie on one another, within a loop or between
 * loops.
 *
 * Only edges in one cell of the grid are compared. A cell of many edges is swept from left to
 * right, so that an outline with all its detail in one spot stays fast. Each decision is a distance
 * in mm against PF_TOUCH: an end of one edge that near to another edge touches it, and anything
 * else is strictly on one side.
 */
#include <stdlib.h>

#include <glib/gi18n-lib.h>

#include "outline-index.h"

/* Ends that touch and are one place: each is within PF_TOUCH of the other's edge. */
#define SAME (2 * PF_TOUCH)

/* With more edges than this in a cell, sorting them pays. */
#define FEW 24

typedef enum {
  FAULT_NONE,
  FAULT_CROSS,
  FAULT_OVERLAP,
} Fault;

static PfPoint
point_before (const PfOutlineIndex *index, const PfOutlineEdge *edge)
{
  const PfLoop *loop = &index->loops[edge->loop];

  return loop->points[edge->i > 0 ? edge->i - 1 : loop->n_points - 1];
}

/* Whether one edge follows the other in the loop. */
static bool
are_neighbours (const PfOutlineIndex *index, const PfOutlineEdge *e, const PfOutlineEdge *f)
{
  const size_t n = index->loops[e->loop].n_points;
  const size_t between = e->i > f->i ? e->i - f->i : f->i - e->i;

  return e->loop == f->loop && (between == 1 || between == n - 1);
}

/* Neighbours meet at the vertex between them, and only if the outline turns back there can they do
 * more. */
static bool
only_join (const PfOutlineIndex *index, const PfOutlineEdge *e, const PfOutlineEdge *f)
{
  return are_neighbours (index, e, f) &&
         pf_point_dot (pf_point_minus (e->b, e->a), pf_point_minus (f->b, f->a)) >= 0;
}

/* The distance of `p` from the straight line through the edge, positive to its right. */
static double
off_edge (const PfOutlineEdge *edge, PfPoint p)
{
  const PfPoint way = pf_point_minus (edge->b, edge->a);

  return pf_point_cross (way, pf_point_minus (p, edge->a)) / sqrt (pf_point_dot (way, way));
}

/* Whether `p`, which is `off` from the edge's line, touches the edge: near the line and not past
 * its ends, or near an end. */
static bool
touches (const PfOutlineEdge *edge, PfPoint p, double off)
{
  if (fabs (off) > SAME)
    return false;
  const PfPoint way = pf_point_minus (edge->b, edge->a), to_p = pf_point_minus (p, edge->a);
  const double part = pf_point_dot (way, to_p);
  return (fabs (off) <= PF_TOUCH && part >= 0 && part <= pf_point_dot (way, way)) ||
         pf_point_near (p, edge->a, PF_TOUCH) || pf_point_near (p, edge->b, PF_TOUCH);
}

/* Whether direction `d` lies strictly within the turn that goes clockwise from `from` to `to`. */
static bool
lies_between (PfPoint from, PfPoint to, PfPoint d)
{
  const bool after_from = pf_point_cross (from, d) > 0, before_to = pf_point_cross (d, to) > 0;

  return pf_point_cross (from, to) > 0 ? after_from && before_to : after_from || before_to;
}

/* A line that runs in from `in` over `at` and out to `out`, and one from `p` over `at` to `q`: they
 * cross if p and q are on different sides of the first. */
static bool
pass_over (PfPoint at, PfPoint in, PfPoint out, PfPoint p, PfPoint q)
{
  const PfPoint from = pf_point_minus (in, at), to = pf_point_minus (out, at);

  return lies_between (from, to, pf_point_minus (p, at)) !=
         lies_between (from, to, pf_point_minus (q, at));
}

/* The start of edge `e` touches edge `f`: does the outline pass over f there? At f's own start the
 * outline before f counts too; its end is the start of the edge that follows. */
static bool
start_passes (const PfOutlineIndex *index, const PfOutlineEdge *e, const PfOutlineEdge *f)
{
  if (pf_point_near (e->a, f->b, SAME))
    return false;
  const PfPoint in = pf_point_near (e->a, f->a, SAME) ? point_before (index, f) : f->a;
  return pass_over (e->a, in, f->b, point_before (index, e), e->b);
}

static Fault
compare_edges (const PfOutlineIndex *index, const PfOutlineEdge *e, const PfOutlineEdge *f,
               PfPoint *at)
{
  const double fa = off_edge (e, f->a), fb = off_edge (e, f->b);
  if ((fa > SAME && fb > SAME) || (fa < -SAME && fb < -SAME))
    return FAULT_NONE;
  const double ea = off_edge (f, e->a), eb = off_edge (f, e->b);
  if ((ea > SAME && eb > SAME) || (ea < -SAME && eb < -SAME))
    return FAULT_NONE;

  const bool touching[] = { touches (f, e->a, ea), touches (f, e->b, eb), touches (e, f->a, fa),
                            touches (e, f->b, fb) };
  const PfPoint ends[] = { e->a, e->b, f->a, f->b };
  int first = -1;
  for (int k = 0; k < 4; k++)
    if (touching[k])
      {
        *at = ends[first < 0 ? first = k : first];
        /* Two ends on the other edge, apart: so is all between them. */
        if (!pf_point_near (*at, ends[k], SAME))
          return FAULT_OVERLAP;
      }
  if (first >= 0)
    return !are_neighbours (index, e, f) && ((touching[0] && start_passes (index, e, f)) ||
                                             (touching[2] && start_passes (index, f, e)))
               ? FAULT_CROSS
               : FAULT_NONE;
  if ((fa > 0) == (fb > 0) || (ea > 0) == (eb > 0))
    return FAULT_NONE;
  const double u = ea / (ea - eb);
  *at = (PfPoint){ e->a.x + u * (e->b.x - e->a.x), e->a.y + u * (e->b.y - e->a.y) };
  return FAULT_CROSS;
}

static bool
boxes_are_apart (const PfOutlineEdge *e, const PfOutlineEdge *f)
{
  return MAX (e->a.x, e->b.x) < MIN (f->a.x, f->b.x) - SAME ||
         MAX (f->a.x, f->b.x) < MIN (e->a.x, e->b.x) - SAME ||
         MAX (e->a.y, e->b.y) < MIN (f->a.y, f->b.y) - SAME ||
         MAX (f->a.y, f->b.y) < MIN (e->a.y, e->b.y) - SAME;
}

static void
set_crossing (bool one_loop, PfPoint at, GError **error)
{
  g_set_error (
      error, PF_ERROR, PF_ERROR_OUTLINE,
      one_loop
          ? _ ("The outline crosses itself at (%.2f, %.2f) mm. Redraw it there so that its lines "
               "don't cross.")
          : _ ("Two outlines cross at (%.2f, %.2f) mm. Move one of them, or join them to one."),
      at.x, at.y);
  pf_error_set_place (error, at);
}

static void
set_overlap (bool one_loop, PfPoint at, GError **error)
{
  g_set_error (
      error, PF_ERROR, PF_ERROR_OUTLINE,
      one_loop
          ? _ ("The outline runs back on itself at (%.2f, %.2f) mm. Redraw it there so that no two "
               "of its lines lie on one another.")
          : _ ("Two outlines lie on one another at (%.2f, %.2f) mm. Move one of them, or join "
               "them to one."),
      at.x, at.y);
  pf_error_set_place (error, at);
}

static bool
check_pair (const PfOutlineIndex *index, guint32 one, guint32 other, GError **error)
{
  const PfOutlineEdge *e = &index->edges[MIN (one, other)], *f = &index->edges[MAX (one, other)];
  PfPoint at = { 0, 0 };

  if (boxes_are_apart (e, f) || only_join (index, e, f))
    return true;
  const Fault fault = compare_edges (index, e, f, &at);
  if (fault == FAULT_NONE)
    return true;
  if (fault == FAULT_CROSS)
    set_crossing (e->loop == f->loop, at, error);
  else
    set_overlap (e->loop == f->loop, at, error);
  return false;
}

/* An edge with its leftmost x, for sweeping. */
typedef struct {
  double left, right;
  guint32 edge;
} Swept;

static int
compare_swept (const void *a, const void *b)
{
  const Swept *s = a, *t = b;

  if (s->left != t->left)
    return s->left < t->left ? -1 : 1;
  return s->edge < t->edge ? -1 : s->edge > t->edge;
}

static bool
sweep_cell (const PfOutlineIndex *index, const guint32 *items, guint32 n, GError **error)
{
  g_autofree Swept *swept = g_new (Swept, n);

  for (guint32 k = 0; k < n; k++)
    {
      const PfOutlineEdge *e = &index->edges[items[k]];

      swept[k] = (Swept){ MIN (e->a.x, e->b.x) - SAME, MAX (e->a.x, e->b.x), items[k] };
    }
  qsort (swept, n, sizeof *swept, compare_swept);
  for (guint32 k = 0; k < n; k++)
    for (guint32 l = k + 1; l < n && swept[l].left <= swept[k].right; l++)
      if (!check_pair (index, swept[k].edge, swept[l].edge, error))
        return false;
  return true;
}

static bool
check_cell (const PfOutlineIndex *index, size_t cell, GError **error)
{
  const guint32 *items = index->cells.items + index->cells.start[cell];
  const guint32 n = index->cells.start[cell + 1] - index->cells.start[cell];

  if (n > FEW)
    return sweep_cell (index, items, n, error);
  for (guint32 k = 0; k < n; k++)
    for (guint32 l = k + 1; l < n; l++)
      if (!check_pair (index, items[k], items[l], error))
        return false;
  return true;
}

bool
pf_outline_check (const PfOutlineIndex *index, GError **error)
{
  const size_t n_cells = (size_t) index->rows * (size_t) index->columns;

  for (size_t cell = 0; cell < n_cells; cell++)
    if (!check_cell (index, cell, error))
      return false;
  return true;
}
