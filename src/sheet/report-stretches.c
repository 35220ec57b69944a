/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report-stretches.h"

#include <stdlib.h>

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* Where the kind changes along a loop, rising; none if it is all of one kind. */
static GArray *
changes_of (const PfEdge *edge, const PfLoop *loop)
{
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (double));
  for (size_t s = 0; s < edge->n_stretches; s++)
    for (int e = 0; e < 2; e++)
      {
        const double end = e == 0 ? edge->stretches[s].from : edge->stretches[s].to;
        const double on_loop = end < pf_loop_length (loop) ? end : 0;
        g_array_append_val (ends, on_loop);
      }
  g_array_sort (ends, compare_doubles);
  GArray *changes = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint e = 0; e < ends->len; e++)
    {
      const double at = g_array_index (ends, double, e);
      const double before = g_array_index (ends, double, (e + ends->len - 1) % ends->len);
      if (pf_edge_kind_at (edge, at) != pf_edge_kind_at (edge, before))
        g_array_append_val (changes, at);
    }
  return changes;
}

/* Half-open and exact, as pf_edge_kind_at() is. */
static bool
is_within (const PfStretchCount *stretch, double along)
{
  if (stretch->whole)
    return true;
  if (stretch->from < stretch->to)
    return along >= stretch->from && along < stretch->to;
  return along >= stretch->from || along < stretch->to;
}

static void
count_sewings (PfStretchCount *stretch, const PfMotif *motif)
{
  const PfEdge *edge = &motif->edges[stretch->loop];
  for (size_t p = 0; p < edge->n_pinholes; p++)
    stretch->n_pinholes += is_within (stretch, edge->pinholes[p]);
  for (size_t s = 0; s < motif->filling->n_sewings; s++)
    {
      const PfSewing *sewing = &motif->filling->sewings[s];
      if (sewing->place.loop != stretch->loop || !is_within (stretch, sewing->place.along))
        continue;
      stretch->at_pinhole += sewing->pinhole != PF_NONE;
      stretch->round_bar += sewing->pinhole == PF_NONE;
      stretch->off_line += sewing->off_line;
    }
}

GArray *
pf_stretch_counts (const PfMotif *motif)
{
  GArray *counts = g_array_new (FALSE, FALSE, sizeof (PfStretchCount));
  for (size_t l = 0; l < motif->region->n_loops; l++)
    {
      const PfEdge *edge = &motif->edges[l];
      const PfLoop *loop = &motif->region->loops[l];
      g_autoptr (GArray) changes = changes_of (edge, loop);
      for (guint c = 0; c < MAX (changes->len, 1); c++)
        {
          const bool whole = changes->len == 0;
          const double from = whole ? 0 : g_array_index (changes, double, c);
          PfStretchCount stretch = { .loop = l, .whole = whole, .from = from };
          stretch.to = whole ? pf_loop_length (loop)
                             : g_array_index (changes, double, (c + 1) % changes->len);
          stretch.kind = pf_edge_kind_at (edge, from);
          count_sewings (&stretch, motif);
          g_array_append_val (counts, stretch);
        }
    }
  return counts;
}
