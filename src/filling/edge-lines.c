/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An edge as lines of one kind.
 *
 * The kind can change only where a stretch begins or ends. Between two such places it is asked for
 * once, and neighbours of one kind are joined; so a loop of one kind is one line, closed, whatever
 * stretches it has. All comparisons are half-open and exact, as those of pf_edge_kind_at() are.
 */
#include "sewing-places.h"

#include <stdlib.h>

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

size_t
pf_edge_pinhole_from (const PfEdge *edge, double along)
{
  size_t low = 0, high = edge->n_pinholes;
  while (low < high)
    {
      const size_t middle = low + (high - low) / 2;
      if (edge->pinholes[middle] < along)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

guint32
pf_edge_nearest_pinhole (const PfEdge *edge, const PfLoop *loop, double along)
{
  const size_t n = edge->n_pinholes;
  if (n == 0)
    return PF_NONE;
  const size_t from = pf_edge_pinhole_from (edge, along);
  const size_t after = from % n, before = (from + n - 1) % n;
  const size_t first = MIN (after, before), second = MAX (after, before);
  return pf_loop_distance (loop, along, edge->pinholes[second]) <
                 pf_loop_distance (loop, along, edge->pinholes[first])
             ? (guint32) second
             : (guint32) first;
}

/* Where the kind changes along a loop, rising: the starts of its lines. None if it is all of one
 * kind. */
static GArray *
find_changes (const PfEdge *edge, const PfLoop *loop)
{
  const size_t n = 2 * edge->n_stretches;
  g_autofree double *ends = g_new (double, n + 1);
  for (size_t s = 0; s < edge->n_stretches; s++)
    {
      ends[2 * s] = edge->stretches[s].from;
      ends[2 * s + 1] = edge->stretches[s].to;
    }
  for (size_t e = 0; e < n; e++)
    if (!(ends[e] < pf_loop_length (loop)))
      ends[e] = 0;
  if (n > 0)
    qsort (ends, n, sizeof *ends, compare_doubles);
  GArray *changes = g_array_new (FALSE, FALSE, sizeof (double));
  PfEdgeKind before = n > 0 ? pf_edge_kind_at (edge, ends[n - 1]) : edge->kind;
  for (size_t e = 0; e < n; e++)
    {
      const PfEdgeKind kind = pf_edge_kind_at (edge, ends[e]);
      if (kind != before)
        g_array_append_val (changes, ends[e]);
      before = kind;
    }
  return changes;
}

static PfEdgeLine
whole_loop (size_t l, const PfEdge *edge, const PfLoop *loop)
{
  return (PfEdgeLine){
    .loop = l,
    .length = pf_loop_length (loop),
    .closed = true,
    .kind = pf_edge_kind_at (edge, 0),
    .gap = edge->gap,
    .pinholes = g_memdup2 (edge->pinholes, edge->n_pinholes * sizeof (double)),
    .n_pinholes = edge->n_pinholes,
  };
}

/* The line from one change to the next. */
static PfEdgeLine
part_of_loop (size_t l, const PfEdge *edge, const PfLoop *loop, double from, double to)
{
  PfEdgeLine line = { .loop = l,
                      .from = from,
                      .length = pf_loop_forward (loop, from, to),
                      .kind = pf_edge_kind_at (edge, from),
                      .gap = edge->gap,
                      .first_pinhole = pf_edge_pinhole_from (edge, from) };
  const size_t end = pf_edge_pinhole_from (edge, to);
  line.n_pinholes =
      from < to ? end - line.first_pinhole : edge->n_pinholes - line.first_pinhole + end;
  line.pinholes = g_new (double, line.n_pinholes);
  for (size_t p = 0; p < line.n_pinholes; p++)
    line.pinholes[p] =
        pf_loop_forward (loop, from, edge->pinholes[(line.first_pinhole + p) % edge->n_pinholes]);
  return line;
}

static void
line_clear (gpointer data)
{
  PfEdgeLine *line = data;
  g_free (line->pinholes);
  g_free (line->room);
}

GArray *
pf_edge_lines_new (const PfRegion *region, const PfEdge *edges)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (PfEdgeLine));
  g_array_set_clear_func (lines, line_clear);
  for (size_t l = 0; l < region->n_loops; l++)
    {
      const PfLoop *loop = &region->loops[l];
      g_autoptr (GArray) changes = find_changes (&edges[l], loop);
      for (guint c = 0; c < changes->len; c++)
        {
          const PfEdgeLine line =
              part_of_loop (l, &edges[l], loop, g_array_index (changes, double, c),
                            g_array_index (changes, double, (c + 1) % changes->len));
          g_array_append_val (lines, line);
        }
      if (changes->len > 0)
        continue;
      const PfEdgeLine line = whole_loop (l, &edges[l], loop);
      g_array_append_val (lines, line);
    }
  return lines;
}

guint
pf_edge_lines_find (const GArray *lines, PfPlace place)
{
  guint low = 0, high = lines->len; /* the first line after the place */
  while (low < high)
    {
      const guint middle = low + (high - low) / 2;
      const PfEdgeLine *line = &g_array_index (lines, PfEdgeLine, middle);
      if (line->loop > place.loop || (line->loop == place.loop && line->from > place.along))
        high = middle;
      else
        low = middle + 1;
    }
  if (low > 0 && g_array_index (lines, PfEdgeLine, low - 1).loop == place.loop)
    return low - 1;
  /* before the first start: in the last line, which runs on over the loop's first point */
  while (low + 1 < lines->len && g_array_index (lines, PfEdgeLine, low + 1).loop == place.loop)
    low++;
  return low;
}
