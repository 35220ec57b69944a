/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Questions to a region, answered from its grid: inside or not, the nearest point, where a line
 * meets the outline. All are read-only, so any number of threads may ask at once.
 */
#include "outline-index.h"

/* The place `u` (0 to 1) along an edge. */
static PfPlace
place_on_edge (const PfOutlineIndex *index, const PfOutlineEdge *edge, double u)
{
  const PfLoop *loop = &index->loops[edge->loop];
  const double from = loop->along[edge->i], to = loop->along[edge->i + 1];
  const double along = u < 1 ? from + u * (to - from) : to;

  return (PfPlace){ edge->loop, along < pf_loop_length (loop) ? along : 0 };
}

static bool
place_before (PfPlace a, PfPlace b)
{
  return a.loop != b.loop ? a.loop < b.loop : a.along < b.along;
}

/* --- Inside or not ------------------------------------------------------------------------------
 */

/* Parity. Every edge that counts is in the row of cells that holds p, since rows rise with y. */
bool
pf_region_contains (const PfRegion *region, PfPoint p)
{
  const PfOutlineIndex *index = region->index;

  if (!(p.x >= index->box.min.x && p.x <= index->box.max.x && p.y >= index->box.min.y &&
        p.y <= index->box.max.y))
    return false;

  const int row = pf_grid_row (index, p.y);
  bool inside = false;
  for (guint32 k = index->bands.start[row]; k < index->bands.start[row + 1]; k++)
    {
      const PfOutlineEdge *edge = &index->edges[index->bands.items[k]];

      inside ^= pf_edge_passes_left (edge->a, edge->b, p);
    }
  return inside;
}

/* --- The nearest point --------------------------------------------------------------------------
 */

/* How far along the edge (0 to 1) the point nearest to `p` is; `*square` gets its distance squared.
 */
static inline double
foot_on_edge (const PfOutlineEdge *edge, PfPoint p, double *square)
{
  const PfPoint way = pf_point_minus (edge->b, edge->a), to_p = pf_point_minus (p, edge->a);
  const double whole = pf_point_dot (way, way), part = pf_point_dot (way, to_p);
  const double u = part > 0 ? (part < whole ? part / whole : 1) : 0;
  const PfPoint off = { u * way.x - to_p.x, u * way.y - to_p.y };
  /* Taken from the end itself where the end is nearest. */
  const PfPoint end = u < 1 ? off : pf_point_minus (edge->b, p);

  *square = pf_point_dot (end, end);
  return u;
}

/* Lowers `*square` to the nearest edge's in columns `first` to `last` of a row. */
static void
search_cells (const PfOutlineIndex *index, int row, int first, int last, PfPoint p, double *square)
{
  const guint32 end = index->cells.start[pf_grid_index (index, row, last) + 1];

  for (guint32 k = index->cells.start[pf_grid_index (index, row, first)]; k < end; k++)
    {
      double s;

      foot_on_edge (&index->edges[index->cells.items[k]], p, &s);
      if (s < *square)
        *square = s;
    }
}

/* How far outside of `low` to `high` a number is. */
static double
outside (double x, double low, double high)
{
  return x < low ? low - x : (x > high ? x - high : 0);
}

/* No cell more than `ring` cells away from (row, column), p's own cell or the grid's nearest, is
 * nearer to p than this. */
static double
ring_distance (const PfOutlineIndex *index, PfPoint p, int row, int column, int ring)
{
  const PfPoint start = index->box.min;
  const double off_x = outside (p.x, start.x, index->box.max.x);
  const double off_y = outside (p.y, start.y, index->box.max.y);
  double nearest = INFINITY;

  if (column > ring)
    nearest = fmin (nearest, hypot (p.x - start.x - (column - ring) * index->cell, off_y));
  if (column + ring + 1 < index->columns)
    nearest = fmin (nearest, hypot (start.x + (column + ring + 1) * index->cell - p.x, off_y));
  if (row > ring)
    nearest = fmin (nearest, hypot (p.y - start.y - (row - ring) * index->cell, off_x));
  if (row + ring + 1 < index->rows)
    nearest = fmin (nearest, hypot (start.y + (row + ring + 1) * index->cell - p.y, off_x));
  return nearest - PF_GRID_MARGIN;
}

/* The distance to the outline: rings of cells round p, until the next one is too far away. */
static double
nearest_distance (const PfOutlineIndex *index, PfPoint p)
{
  const int column = pf_grid_column (index, p.x), row = pf_grid_row (index, p.y);
  double square = INFINITY, beyond = 0;

  for (int ring = 0; beyond < INFINITY && (beyond < 0 || beyond * beyond < square); ring++)
    {
      const int left = MAX (column - ring, 0), right = MIN (column + ring, index->columns - 1);
      const int top = MAX (row - ring, 0), bottom = MIN (row + ring, index->rows - 1);

      for (int r = top; r <= bottom; r++)
        if (r == row - ring || r == row + ring)
          search_cells (index, r, left, right, p, &square);
        else
          {
            if (column - ring >= 0)
              search_cells (index, r, column - ring, column - ring, p, &square);
            if (column + ring < index->columns)
              search_cells (index, r, column + ring, column + ring, p, &square);
          }
      beyond = ring_distance (index, p, row, column, ring);
    }
  return sqrt (square);
}

PfPlace
pf_region_nearest (const PfRegion *region, PfPoint p, double *distance)
{
  const PfOutlineIndex *index = region->index;
  const double nearest = nearest_distance (index, p), reach = nearest + PF_TOUCH;
  const int first = pf_grid_column (index, p.x - reach), last = pf_grid_column (index, p.x + reach);
  const int bottom = pf_grid_row (index, p.y + reach);
  PfPlace place = { SIZE_MAX, 0 };

  /* Of all that are as near, the first place. */
  for (int row = pf_grid_row (index, p.y - reach); row <= bottom; row++)
    {
      const guint32 end = index->cells.start[pf_grid_index (index, row, last) + 1];

      for (guint32 k = index->cells.start[pf_grid_index (index, row, first)]; k < end; k++)
        {
          const PfOutlineEdge *edge = &index->edges[index->cells.items[k]];
          double square;
          const double u = foot_on_edge (edge, p, &square);

          if (square <= reach * reach)
            {
              const PfPlace found = place_on_edge (index, edge, u);

              place = place_before (found, place) ? found : place;
            }
        }
    }
  if (distance)
    *distance = nearest;
  return place.loop == SIZE_MAX ? (PfPlace){ 0, 0 } : place;
}

/* --- Where a line meets the outline -------------------------------------------------------------
 */

/* The straight line asked about. A point's `off` is its distance from it in mm, positive on the
 * right hand of one who looks along it on the sheet; its t is where its foot falls. */
typedef struct {
  PfPoint from, to;
  PfPoint ahead; /* unit vector */
  double length;
  double slack; /* PF_TOUCH as a part of the length */
} Line;

static inline double
off_line (const Line *line, PfPoint p)
{
  return pf_point_cross (line->ahead, pf_point_minus (p, line->from));
}

static inline double
t_on_line (const Line *line, PfPoint p)
{
  return pf_point_dot (line->ahead, pf_point_minus (p, line->from)) / line->length;
}

static inline double
held (double t)
{
  return t > 0 ? (t < 1 ? t : 1) : 0;
}

/* The meeting with an edge whose ends both lie on the line: from its first point on the line to its
 * last. */
static bool
run_on_line (const PfOutlineIndex *index, const Line *line, const PfOutlineEdge *edge,
             PfMeeting *meeting)
{
  const double ta = t_on_line (line, edge->a), tb = t_on_line (line, edge->b);
  const double low = MIN (ta, tb), high = MAX (ta, tb);

  if (!(high >= -line->slack && low <= 1 + line->slack))
    return false;
  meeting->t = held (low);
  meeting->t_run = held (high);
  const double at = low < 0 ? MIN (0, high) : low;
  meeting->place = place_on_edge (index, edge, ta == tb ? 0 : held ((at - ta) / (tb - ta)));
  return true;
}

/* An end is on the line if it is within PF_TOUCH of it: the meeting is there. Ends farther away,
 * one on either side, meet it in between. The side changes as if the line lay PF_TOUCH to the
 * right, so that among the edges at a vertex on the line, as many pass it each way as if it weren't
 * touched. */
static bool
meet_edge (const PfOutlineIndex *index, const Line *line, const PfOutlineEdge *edge,
           PfMeeting *meeting)
{
  const double a = off_line (line, edge->a), b = off_line (line, edge->b);

  if ((a > PF_TOUCH && b > PF_TOUCH) || (a < -PF_TOUCH && b < -PF_TOUCH))
    return false;
  const bool a_on = fabs (a) <= PF_TOUCH, b_on = fabs (b) <= PF_TOUCH;
  meeting->side = (b > PF_TOUCH) - (a > PF_TOUCH);
  if (a_on && b_on)
    return run_on_line (index, line, edge, meeting);

  const double u = a_on ? 0 : b_on ? 1 : a / (a - b);
  const double ta = t_on_line (line, edge->a), tb = t_on_line (line, edge->b);
  const double t = u < 1 ? ta + u * (tb - ta) : tb;
  if (!(t >= -line->slack && t <= 1 + line->slack))
    return false;
  meeting->t = meeting->t_run = held (t);
  meeting->place = place_on_edge (index, edge, u);
  return true;
}

/* A line without length meets the edges that it is within PF_TOUCH of. */
static bool
meet_edge_at_point (const PfOutlineIndex *index, const Line *line, const PfOutlineEdge *edge,
                    PfMeeting *meeting)
{
  double square;
  const double u = foot_on_edge (edge, line->from, &square);

  *meeting = (PfMeeting){ .place = place_on_edge (index, edge, u) };
  return square <= PF_TOUCH * PF_TOUCH;
}

/* An edge is listed in every cell it passes; it counts in the one that holds the meeting. */
static void
meet_in_cell (const PfOutlineIndex *index, const Line *line, int row, int column, GArray *meetings)
{
  const size_t cell = pf_grid_index (index, row, column);
  PfMeeting meeting;

  for (guint32 k = index->cells.start[cell]; k < index->cells.start[cell + 1]; k++)
    {
      const PfOutlineEdge *edge = &index->edges[index->cells.items[k]];

      if (!(line->length > PF_TOUCH ? meet_edge (index, line, edge, &meeting)
                                    : meet_edge_at_point (index, line, edge, &meeting)))
        continue;
      const double x = line->from.x + meeting.t * (line->to.x - line->from.x);
      const double y = line->from.y + meeting.t * (line->to.y - line->from.y);
      if (pf_grid_column (index, x) == column && pf_grid_row (index, y) == row)
        g_array_append_val (meetings, meeting);
    }
}

static int
compare_meetings (const void *a, const void *b)
{
  const PfMeeting *m = a, *n = b;

  if (m->t != n->t)
    return m->t < n->t ? -1 : 1;
  if (m->place.loop != n->place.loop || m->place.along != n->place.along)
    return place_before (m->place, n->place) ? -1 : 1;
  if (m->t_run != n->t_run)
    return m->t_run < n->t_run ? -1 : 1;
  return m->side - n->side;
}

void
pf_region_meet (const PfRegion *region, PfPoint from, PfPoint to, GArray *meetings)
{
  const PfOutlineIndex *index = region->index;
  const PfBox box = index->box;
  const PfPoint way = pf_point_minus (to, from);
  const double length = sqrt (pf_point_dot (way, way));
  int first, last;

  g_array_set_size (meetings, 0);
  if (!(fmin (from.x, to.x) <= box.max.x + PF_GRID_MARGIN &&
        fmax (from.x, to.x) >= box.min.x - PF_GRID_MARGIN &&
        fmin (from.y, to.y) <= box.max.y + PF_GRID_MARGIN &&
        fmax (from.y, to.y) >= box.min.y - PF_GRID_MARGIN))
    return;

  const Line line = { from, to, { way.x / length, way.y / length }, length, PF_TOUCH / length };
  const PfGridWalk walk = pf_grid_walk (index, from, to);
  for (int row = walk.first_row; row <= walk.last_row; row++)
    {
      pf_grid_columns (index, &walk, row, &first, &last);
      for (int column = first; column <= last; column++)
        meet_in_cell (index, &line, row, column, meetings);
    }
  if (meetings->len > 1)
    g_array_sort (meetings, compare_meetings);
}
