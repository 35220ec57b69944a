/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Snapping: the place that is meant when the pointer is nearly there.
 */
#pragma once

#include <shape.h>

G_BEGIN_DECLS

typedef enum {
  PF_SNAP_NONE,
  PF_SNAP_GRID,
  PF_SNAP_NODE,
  PF_SNAP_LEVEL,    /* on a level line through another place */
  PF_SNAP_UPRIGHT,  /* right above or below it */
  PF_SNAP_DIAGONAL, /* at 45 degrees */
} PfSnapKind;

typedef struct {
  double grid;   /* mm between the grid's lines; 0 for no grid */
  bool to_nodes; /* to nodes that are near */
} PfSnapping;

typedef struct {
  PfPoint at;
  PfSnapKind kind;
} PfSnapped;

/* The finest grid, in mm. */
#define PF_SNAP_GRID_MIN 0.1

/* Where `p` snaps to: the nearest of n places of nodes within `reach` mm (the first of those
 * equally near); else, if `from` is given, the nearest place that is level with it, upright or at
 * 45 degrees, on a line of the grid if there is one; else the nearest point of the grid. */
PfSnapped pf_snap (PfSnapping snapping, const PfPoint *nodes, size_t n, double reach,
                   const PfPoint *from, PfPoint p);

G_END_DECLS
