/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Nesting: which loop lies within which. The loops are known not to cross, so any one point of a
 * loop that isn't on the other decides.
 */
#include "outline.h"

bool
pf_loop_contains (const PfLoop *loop, PfPoint p)
{
  bool inside = false;

  for (size_t i = 0, before = loop->n_points - 1; i < loop->n_points; before = i++)
    inside ^= pf_edge_passes_left (loop->points[before], loop->points[i], p);
  return inside;
}

static bool
is_on_loop (const PfLoop *loop, PfPoint p)
{
  for (size_t i = 0, before = loop->n_points - 1; i < loop->n_points; before = i++)
    {
      const PfPoint way = pf_point_minus (loop->points[i], loop->points[before]);
      const PfPoint to_p = pf_point_minus (p, loop->points[before]);
      const double whole = pf_point_dot (way, way), part = pf_point_dot (way, to_p);
      const double u = part > 0 ? (part < whole ? part / whole : 1) : 0;

      if (pf_point_near ((PfPoint){ u * way.x, u * way.y }, to_p, 2 * PF_TOUCH))
        return true;
    }
  return false;
}

static bool
box_holds (PfBox outer, PfBox inner)
{
  return inner.min.x >= outer.min.x - PF_TOUCH && inner.min.y >= outer.min.y - PF_TOUCH &&
         inner.max.x <= outer.max.x + PF_TOUCH && inner.max.y <= outer.max.y + PF_TOUCH;
}

/* Where on its edges a loop is tried. They touch the other loop in single points, so of a few
 * points on each edge one is free, unless the other loop was made to touch just these. */
static const double trials[] = { 0, 0.5, 0.381966, 0.723607, 0.145898 };

static bool
holds (const PfLoop *outer, const PfLoop *inner)
{
  for (size_t k = 0; k < G_N_ELEMENTS (trials); k++)
    for (size_t i = 0; i < inner->n_points; i++)
      {
        const PfPoint a = inner->points[i], b = inner->points[i + 1 < inner->n_points ? i + 1 : 0];
        const PfPoint p = { a.x + trials[k] * (b.x - a.x), a.y + trials[k] * (b.y - a.y) };

        if (!is_on_loop (outer, p))
          return pf_loop_contains (outer, p);
      }
  return false;
}

/* Loops around a loop are nested in each other, so the next one around is the deepest of them. */
PfNest *
pf_nesting_new (const PfLoop *loops, size_t n)
{
  PfNest *nests = g_new (PfNest, MAX (n, 1));
  g_autofree PfBox *boxes = g_new (PfBox, MAX (n, 1));
  g_autofree double *areas = g_new (double, MAX (n, 1));

  for (size_t i = 0; i < n; i++)
    {
      boxes[i] = pf_loop_box (&loops[i]);
      areas[i] = fabs (pf_chain_area (loops[i].points, loops[i].n_points));
      nests[i] = (PfNest){ SIZE_MAX, 0 };
    }
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++)
      if (j != i && areas[j] > areas[i] && box_holds (boxes[j], boxes[i]) &&
          holds (&loops[j], &loops[i]))
        {
          nests[i].depth++;
          if (nests[i].parent == SIZE_MAX || areas[j] < areas[nests[i].parent])
            nests[i].parent = j;
        }
  return nests;
}
