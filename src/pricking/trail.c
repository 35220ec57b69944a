/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Trails: curves flattened to find places along them again after an edit. Flattened as regions are,
 * so that a distance along the trail is one along the region's loop.
 */
#include <math.h>

#include "document-private.h"

static bool
is_near (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y) <= PF_TOUCH;
}

/* Nodes are points of the trail, in their order. */
static void
find_nodes (PfTrail *trail, const PfCurve *curve)
{
  const size_t n = pf_curve_n_segments (curve);
  g_autofree size_t *nodes = g_new (size_t, n + 1);
  size_t at = 0;
  for (size_t s = 0; s < n; s++)
    {
      while (at < trail->n && !is_near (trail->points[at], curve->nodes[s].at))
        at++;
      nodes[s] = at;
    }
  if (at >= trail->n)
    return;
  nodes[n] = trail->n - 1;
  trail->nodes = g_steal_pointer (&nodes);
  trail->n_segments = n;
}

void
pf_trail_init (PfTrail *trail, const PfCurve *curve)
{
  PfChain chain = { 0 };
  *trail = (PfTrail){ .closed = curve->closed };
  if (!pf_curve_flatten (curve, &chain, NULL) || !chain.points)
    return;
  trail->n = chain.n_points + curve->closed;
  trail->points = g_renew (PfPoint, chain.points, trail->n);
  if (curve->closed)
    trail->points[chain.n_points] = trail->points[0];
  trail->along = g_new (double, trail->n);
  trail->along[0] = 0;
  for (size_t k = 1; k < trail->n; k++)
    trail->along[k] = trail->along[k - 1] + hypot (trail->points[k].x - trail->points[k - 1].x,
                                                   trail->points[k].y - trail->points[k - 1].y);
  find_nodes (trail, curve);
}

void
pf_trail_clear (PfTrail *trail)
{
  g_clear_pointer (&trail->points, g_free);
  g_clear_pointer (&trail->along, g_free);
  g_clear_pointer (&trail->nodes, g_free);
  trail->n = 0;
}

PfPoint
pf_trail_point (const PfTrail *trail, double along)
{
  size_t low = 0, high = trail->n - 1;
  while (high - low > 1)
    {
      const size_t middle = low + (high - low) / 2;
      if (trail->along[middle] <= along)
        low = middle;
      else
        high = middle;
    }
  const PfPoint a = trail->points[low], b = trail->points[high];
  const double length = trail->along[high] - trail->along[low];
  const double u = length > 0 ? CLAMP ((along - trail->along[low]) / length, 0, 1) : 0;
  return (PfPoint){ a.x + u * (b.x - a.x), a.y + u * (b.y - a.y) };
}

size_t
pf_trail_segment (const PfTrail *trail, double along)
{
  size_t low = 0, high = trail->n_segments;
  while (high - low > 1)
    {
      const size_t middle = low + (high - low) / 2;
      if (trail->along[trail->nodes[middle]] <= along)
        low = middle;
      else
        high = middle;
    }
  return low;
}

double
pf_trail_nearest (const PfTrail *trail, PfPoint p, size_t from, size_t to)
{
  double along = trail->along[from], least = INFINITY;
  for (size_t k = from + 1; k <= to; k++)
    {
      const PfPoint a = trail->points[k - 1], b = trail->points[k];
      const double dx = b.x - a.x, dy = b.y - a.y;
      const double u = CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0, 1);
      const double x = a.x + u * dx - p.x, y = a.y + u * dy - p.y;
      const double square = x * x + y * y;
      if (square < least)
        {
          least = square;
          along = trail->along[k - 1] + u * (trail->along[k] - trail->along[k - 1]);
        }
    }
  return trail->closed && along >= trail->along[trail->n - 1] ? 0 : along;
}
