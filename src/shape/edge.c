/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Worked edges: pinholes along a loop, rising, each apart from the next; and stretches of another
 * kind, of which the last that covers a place decides.
 */
#include <stdlib.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "outline.h"

/* Pinholes along one loop: 100 m of edge at the smallest gap. */
#define MAX_PINHOLES 1e6

/* Stretches of one loop; each question looks at all of them. */
#define MAX_STRETCHES 1000

/* Turns that are PF_CORNER_TURN but for rounding are no corners. */
#define TURN_ROUNDING 1e-9

static bool
check_gap (double gap, GError **error)
{
  if (gap >= PF_EDGE_GAP_MIN && gap <= PF_EDGE_GAP_MAX)
    return true;
  g_set_error (
      error, PF_ERROR, PF_ERROR_SETTING,
      _ ("The edge's pinholes can't be %.2f mm apart. Choose an edge gap from %.1f to %.0f mm."),
      gap, PF_EDGE_GAP_MIN, PF_EDGE_GAP_MAX);
  return false;
}

static bool
check_number (double n, GError **error)
{
  if (n <= MAX_PINHOLES)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("The edge would have more than %.0f pinholes along one outline. Choose a larger "
                  "edge gap."),
               MAX_PINHOLES);
  return false;
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

static bool
is_corner (const PfLoop *loop, size_t i)
{
  const size_t n = loop->n_points;
  const PfPoint at = loop->points[i];
  const PfPoint in = pf_point_minus (at, loop->points[i > 0 ? i - 1 : n - 1]);
  const PfPoint out = pf_point_minus (loop->points[i + 1 < n ? i + 1 : 0], at);
  const double turn = atan2 (fabs (pf_point_cross (in, out)), pf_point_dot (in, out));

  return turn * 180 / G_PI > PF_CORNER_TURN + TURN_ROUNDING;
}

/* Pinholes from the corner at `from` up to the next one, `length` on, which is left out. */
static void
space_span (GArray *pinholes, double from, double length, double gap, double whole)
{
  const double parts = fmax (1, round (length / gap));

  for (double k = 0; k < parts; k++)
    {
      const double along = from + k * length / parts;
      const double wrapped = along < whole ? along : along - whole;

      g_array_append_val (pinholes, wrapped);
    }
}

bool
pf_edge_init_even (PfEdge *edge, const PfLoop *loop, PfEdgeKind kind, double gap, GError **error)
{
  const double length = pf_loop_length (loop);

  memset (edge, 0, sizeof *edge);
  if (!check_gap (gap, error) || !check_number (length / gap, error))
    return false;

  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (double));
  for (size_t i = 0; i < loop->n_points; i++)
    if (is_corner (loop, i))
      g_array_append_val (corners, loop->along[i]);
  if (corners->len == 0)
    g_array_append_val (corners, loop->along[0]);

  GArray *pinholes = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < corners->len; i++)
    {
      const double from = g_array_index (corners, double, i);
      const double to = i + 1 < corners->len ? g_array_index (corners, double, i + 1)
                                             : g_array_index (corners, double, 0) + length;

      space_span (pinholes, from, to - from, gap, length);
    }
  /* The last span may run on past the loop's first point. */
  g_array_sort (pinholes, compare_doubles);
  *edge = (PfEdge){ .kind = kind, .gap = gap, .n_pinholes = pinholes->len };
  edge->pinholes = (double *) (void *) g_array_free (pinholes, FALSE);
  return true;
}

/* Checks a place along the loop; the loop's end becomes its start. */
static bool
use_place (const PfLoop *loop, double place, double *along, GError **error)
{
  const double length = pf_loop_length (loop);

  if (!(place >= 0 && place <= length))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_SETTING,
          _ ("A pinhole %.2f mm along the outline isn't on it: the outline is %.2f mm long."),
          place, length);
      return false;
    }
  *along = place < length ? place : 0;
  return true;
}

bool
pf_edge_init_given (PfEdge *edge, const PfLoop *loop, PfEdgeKind kind, double gap,
                    const double *places, size_t n, GError **error)
{
  memset (edge, 0, sizeof *edge);
  if (!check_gap (gap, error) || !check_number ((double) n, error))
    return false;

  g_autofree double *along = g_new (double, MAX (n, 1));
  for (size_t i = 0; i < n; i++)
    if (!use_place (loop, places[i], &along[i], error))
      return false;
  qsort (along, n, sizeof *along, compare_doubles);

  size_t kept = 0;
  for (size_t i = 0; i < n; i++)
    if (kept == 0 || along[i] - along[kept - 1] > PF_TOUCH)
      along[kept++] = along[i];
  if (kept > 1 && pf_loop_distance (loop, along[0], along[kept - 1]) <= PF_TOUCH)
    kept--;
  *edge = (PfEdge){ .kind = kind, .gap = gap, .n_pinholes = kept };
  edge->pinholes = g_steal_pointer (&along);
  return true;
}

static bool
check_stretch (const PfLoop *loop, const PfEdgeStretch *stretch, GError **error)
{
  const double length = pf_loop_length (loop);

  if (!(stretch->from >= 0 && stretch->from <= length && stretch->to >= 0 && stretch->to <= length))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_SETTING,
          _ ("A stretch of the edge from %.2f to %.2f mm along the outline isn’t on it: the "
             "outline is %.2f mm long. Choose its ends again."),
          stretch->from, stretch->to, length);
      return false;
    }
  if (stretch->kind != PF_EDGE_HALF_STITCH && stretch->kind != PF_EDGE_CLOTH_STITCH)
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_SETTING,
          _ ("The stretch of the edge from %.2f to %.2f mm along the outline is neither half "
             "stitch nor cloth stitch. Choose one of them."),
          stretch->from, stretch->to);
      return false;
    }
  return true;
}

bool
pf_edge_set_stretches (PfEdge *edge, const PfLoop *loop, const PfEdgeStretch *stretches, size_t n,
                       GError **error)
{
  if (n > MAX_STRETCHES)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("The edge has more than %d stretches along one outline. Join some of them."),
                   MAX_STRETCHES);
      return false;
    }
  for (size_t i = 0; i < n; i++)
    if (!check_stretch (loop, &stretches[i], error))
      return false;

  PfEdgeStretch *copy = g_memdup2 (stretches, n * sizeof *stretches);
  g_free (edge->stretches);
  edge->stretches = copy;
  edge->n_stretches = n;
  return true;
}

static bool
stretch_covers (const PfEdgeStretch *stretch, double along)
{
  const bool after = along >= stretch->from, before = along < stretch->to;

  return stretch->from < stretch->to ? after && before : after || before;
}

PfEdgeKind
pf_edge_kind_at (const PfEdge *edge, double along)
{
  for (size_t i = edge->n_stretches; i > 0; i--)
    if (stretch_covers (&edge->stretches[i - 1], along))
      return edge->stretches[i - 1].kind;
  return edge->kind;
}

void
pf_edge_clear (PfEdge *edge)
{
  g_clear_pointer (&edge->pinholes, g_free);
  g_clear_pointer (&edge->stretches, g_free);
  edge->n_pinholes = 0;
  edge->n_stretches = 0;
}
