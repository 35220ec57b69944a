/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the checks of a ground's drawing share: the two ends of each pair line, and the order in
 * which they stand round a stitch.
 *
 * An end is numbered 2 · line where the line leaves a stitch and 2 · line + 1 where it reaches one;
 * the other end of `end` is `end ^ 1`. All here needs exits and entries, so it comes after
 * pf_ground_check_pairs().
 */
#pragma once

#include "ground.h"

G_BEGIN_DECLS

/* Points nearer than this, in ground units, are one point. A drawing's coordinates are at most
 * PF_GROUND_LIMIT, where doubles lose about 1e-13. */
#define PF_GROUND_TOUCH 1e-9
#define PF_GROUND_LIMIT 1000.0

/* A pair line runs over at most this many repeats as drawn. */
#define PF_GROUND_MAX_RUN 12.0

static inline double
pf_cross (PfPoint u, PfPoint v)
{
  return u.x * v.y - u.y * v.x;
}

static inline PfPoint
pf_minus (PfPoint p, PfPoint q)
{
  return (PfPoint){ p.x - q.x, p.y - q.y };
}

static inline int
pf_end_stitch (const PfGround *ground, int end)
{
  const PfPairLine *line = &ground->lines[end / 2];
  return end % 2 ? line->to.stitch : line->from.stitch;
}

/* From the end's own stitch to the stitch at the other end, as drawn. */
PfPoint pf_end_way (const PfGround *ground, int end);
/* Both stitches stand at one position: the line has no direction. */
bool pf_end_is_short (const PfGround *ground, int end);
/* The next end clockwise round the same stitch: the ins from the left, then the outs from the
 * right.
 */
int pf_end_clockwise (const PfGround *ground, int end);

/* A mesh of the ground: the lines that bound it, walked round once. */
typedef struct {
  int stitch;  /* one of its corners */
  int degree;  /* number of lines round it */
  int da, db;  /* repeats between the walk's start and its end; 0 where the mesh closes */
  int tops;    /* corners where two lines of the mesh begin */
  int feet;    /* corners where two end */
  double area; /* as drawn, if it closes; positive where the walk goes round it
                  anticlockwise, as it does in a sound drawing */
} PfMesh;

/* Walks round all meshes that the order of the pairs round the stitches gives. `meshes` has room
 * for 2 · n_lines of them. Gives their number. */
int pf_ground_trace_meshes (const PfGround *ground, PfMesh *meshes);

/* The pieces of pf_ground_check_drawing(). */
bool pf_ground_check_order (const PfGround *ground, GError **error);
bool pf_ground_check_meshes (const PfGround *ground, GError **error);
bool pf_ground_check_crossings (const PfGround *ground, GError **error);

G_END_DECLS
