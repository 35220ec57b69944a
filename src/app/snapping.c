/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Snapping. What is nearest to hand wins: a node that is near, then the direction that the maker
 * holds, then the grid; so a place never snaps to two things that disagree.
 */
#include "snapping.h"

#include <math.h>

static double
to_grid (double grid, double value)
{
  return grid >= PF_SNAP_GRID_MIN ? round (value / grid) * grid : value;
}

static bool
snap_to_node (const PfPoint *nodes, size_t n, double reach, PfPoint *p)
{
  const PfPoint from = *p;
  double nearest = reach;
  bool found = false;
  for (size_t k = 0; k < n; k++)
    {
      const double far = hypot (nodes[k].x - from.x, nodes[k].y - from.y);
      if (far > nearest || (found && far >= nearest))
        continue;
      nearest = far;
      *p = nodes[k];
      found = true;
    }
  return found;
}

/* The way from `from` to `p` is laid on the nearest of eight directions. */
static PfSnapped
snap_to_direction (double grid, PfPoint from, PfPoint p)
{
  const double dx = p.x - from.x, dy = p.y - from.y;
  const double steep = tan (G_PI / 8);
  if (fabs (dy) <= fabs (dx) * steep)
    return (PfSnapped){ { to_grid (grid, p.x), from.y }, PF_SNAP_LEVEL };
  if (fabs (dx) <= fabs (dy) * steep)
    return (PfSnapped){ { from.x, to_grid (grid, p.y) }, PF_SNAP_UPRIGHT };
  const double slope = (dx > 0) == (dy > 0) ? 1 : -1;
  const double way = to_grid (grid, from.x + (dx + slope * dy) / 2) - from.x;
  return (PfSnapped){ { from.x + way, from.y + slope * way }, PF_SNAP_DIAGONAL };
}

PfSnapped
pf_snap (PfSnapping snapping, const PfPoint *nodes, size_t n, double reach, const PfPoint *from,
         PfPoint p)
{
  PfPoint node = p;
  if (snapping.to_nodes && snap_to_node (nodes, n, reach, &node))
    return (PfSnapped){ node, PF_SNAP_NODE };
  if (from != NULL)
    return snap_to_direction (snapping.grid, *from, p);
  if (snapping.grid >= PF_SNAP_GRID_MIN)
    return (PfSnapped){ { to_grid (snapping.grid, p.x), to_grid (snapping.grid, p.y) },
                        PF_SNAP_GRID };
  return (PfSnapped){ p, PF_SNAP_NONE };
}
