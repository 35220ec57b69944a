/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to this folder: what those who flatten curves for a path need of it. */
#pragma once

#include "curve.h"
#include "outline.h"

G_BEGIN_DECLS

/* Half of what is promised: the rest is for those who read the flattened loops rounded. */
#define PF_PATH_TOLERANCE (PF_FLATNESS / 2)

/* No sum of turns of more than this many radians within a step. */
#define PF_PATH_TURN (PF_MAX_TURN * G_PI / 180)

/* At a cusp the curve turns on the spot, and no step is short enough. A step of this many mm that
 * still turns too much is taken as a corner. */
#define PF_PATH_CORNER 1e-4

/* Halvings of one curve: 1e5 mm halved 40 times is far below PF_PATH_CORNER. */
#define PF_PATH_MAX_DEPTH 40

struct PfPath {
  PfAffine to_sheet;
  GArray *chains;         /* of PfChain */
  GPtrArray *nodes;       /* for each chain, an array of PfNode: what it is flattened from */
  size_t capacity;        /* of the last chain, while it grows */
  bool drawing;           /* the last chain grows */
  PfPoint start, current; /* of this subpath, in the path's own units */
  PfPoint last;           /* the last point of the chain, on the sheet */
  bool broken;
  PfPoint broken_at;
};

/* Whether `p`, on the sheet, can be used. Notes the first point that can't; nothing is collected
 * after it. */
bool pf_path_check (PfPath *path, PfPoint p);

/* The next point of the chain, on the sheet. */
void pf_path_emit (PfPath *path, PfPoint p);
/* A straight segment to `to`, on the sheet. */
void pf_path_emit_line (PfPath *path, PfPoint to);

/* Ends a segment of the drawing, at its end point on the sheet, if it has left any point of the
 * chain: the chain had `before` points when it began (pf_path_n_points()). `out` and `in` are its
 * handles, at its ends if it is straight. */
size_t pf_path_n_points (const PfPath *path);
void pf_path_add_node (PfPath *path, size_t before, PfPoint out, PfPoint in, PfPoint at);

/* Adds the turn from `a` to `b` to `*sum`, as its tangent, which is larger; INFINITY from a right
 * angle on. */
static inline void
pf_path_add_turn (PfPoint a, PfPoint b, double *sum)
{
  const double along = pf_point_dot (a, b);

  *sum += along > 0 ? fabs (pf_point_cross (a, b)) / along : INFINITY;
}

G_END_DECLS
