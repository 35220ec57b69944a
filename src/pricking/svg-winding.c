/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The nonzero rule for one element: a chain bounds the interior only if the winding number is 0 on
 * exactly one side of it. Chains of one element may touch but not cross, so one point on a chain
 * tells its winding number among the others. All points are answered in one sweep from top to
 * bottom; the edges met at a height are those with min ≤ y < max.
 */
#include "svg.h"

#include <math.h>
#include <stdlib.h>

typedef struct {
  PfPoint top, bottom;
  size_t chain;
  int direction; /* what is added to the winding number right of it */
} Edge;

typedef struct {
  PfPoint at;
  size_t chain;
} Sample;

static int
compare_edges (const void *a, const void *b)
{
  const double ya = ((const Edge *) a)->top.y, yb = ((const Edge *) b)->top.y;
  return (ya > yb) - (ya < yb);
}

static int
compare_samples (const void *a, const void *b)
{
  const double ya = ((const Sample *) a)->at.y, yb = ((const Sample *) b)->at.y;
  return (ya > yb) - (ya < yb);
}

/* A point on the chain's longest edge, at the golden section: drawings touch at corners and
 * middles. */
static PfPoint
find_sample (const PfChain *chain)
{
  const double golden = 0.38196601125010515;
  double longest = -1;
  PfPoint sample = chain->points[0];
  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint a = chain->points[i], b = chain->points[(i + 1) % chain->n_points];
      const double length = hypot (b.x - a.x, b.y - a.y);
      if (length > longest)
        {
          longest = length;
          sample = (PfPoint){ a.x + (b.x - a.x) * golden, a.y + (b.y - a.y) * golden };
        }
    }
  return sample;
}

static void
add_edges (GArray *edges, const PfChain *chain, size_t number)
{
  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint a = chain->points[i], b = chain->points[(i + 1) % chain->n_points];
      const Edge edge = a.y < b.y ? (Edge){ a, b, number, -1 } : (Edge){ b, a, number, 1 };
      if (a.y != b.y)
        g_array_append_val (edges, edge);
    }
}

static bool
is_left_of (const Edge *edge, PfPoint p)
{
  const PfPoint a = edge->top, b = edge->bottom;
  return (p.x - a.x) * (b.y - a.y) > (b.x - a.x) * (p.y - a.y);
}

/* Drops the edges that end above y, and counts those of other chains left of the sample. */
static int
count_winding (GArray *active, const Sample *sample)
{
  int winding = 0;
  for (guint i = 0; i < active->len;)
    {
      const Edge *edge = g_array_index (active, const Edge *, i);
      if (edge->bottom.y <= sample->at.y)
        {
          g_array_remove_index_fast (active, i);
          continue;
        }
      if (edge->chain != sample->chain && is_left_of (edge, sample->at))
        winding += edge->direction;
      i++;
    }
  return winding;
}

void
pf_svg_find_bounding (const PfChain *chains, size_t n, bool *bounding)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (Edge));
  GArray *active = g_array_new (FALSE, FALSE, sizeof (Edge *));
  Sample *samples = g_new (Sample, n);
  for (size_t i = 0; i < n; i++)
    {
      add_edges (edges, &chains[i], i);
      samples[i] = (Sample){ find_sample (&chains[i]), i };
    }
  g_array_sort (edges, compare_edges);
  qsort (samples, n, sizeof *samples, compare_samples);
  guint next = 0;
  for (size_t i = 0; i < n; i++)
    {
      const PfChain *chain = &chains[samples[i].chain];
      for (; next < edges->len && g_array_index (edges, Edge, next).top.y <= samples[i].at.y;
           next++)
        {
          const Edge *edge = &g_array_index (edges, Edge, next);
          g_array_append_val (active, edge);
        }
      /* Clockwise on the sheet, its left side goes up: 1 is added on the way in from the left. */
      const int outside = count_winding (active, &samples[i]);
      const int step = pf_chain_area (chain->points, chain->n_points) > 0 ? 1 : -1;
      bounding[samples[i].chain] = (outside == 0) != (outside + step == 0);
    }
  g_free (samples);
  g_array_unref (active);
  g_array_unref (edges);
}
