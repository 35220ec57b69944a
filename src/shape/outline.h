/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to this folder: small vectors, and the pieces that regions are made of. */
#pragma once

#include <math.h>
#include <stdint.h>

#include "shape.h"

G_BEGIN_DECLS

static inline PfPoint
pf_point_minus (PfPoint a, PfPoint b)
{
  return (PfPoint){ a.x - b.x, a.y - b.y };
}

static inline double
pf_point_dot (PfPoint a, PfPoint b)
{
  return a.x * b.x + a.y * b.y;
}

/* Positive if `b` points clockwise of `a` as seen on the sheet. */
static inline double
pf_point_cross (PfPoint a, PfPoint b)
{
  return a.x * b.y - a.y * b.x;
}

static inline bool
pf_point_near (PfPoint a, PfPoint b, double within)
{
  const PfPoint d = pf_point_minus (a, b);
  return pf_point_dot (d, d) <= within * within;
}

/* Half-open parity: does the edge from `a` to `b` pass on the left of `p`, seen on the sheet? It
 * has one end above p and the other at p's height or below, so a vertex at p's height counts with
 * what lies below it alone; p on the edge isn't passed. Exactly the same for the edge from `b` to
 * `a`. */
static inline bool
pf_edge_passes_left (PfPoint a, PfPoint b, PfPoint p)
{
  if ((a.y < p.y) == (b.y < p.y))
    return false;
  const PfPoint top = a.y < b.y ? a : b, bottom = a.y < b.y ? b : a;
  return pf_point_cross (pf_point_minus (bottom, top), pf_point_minus (p, top)) < 0;
}

/* Whether `p` can be part of an outline: finite, and within PF_OUTLINE_LIMIT. */
static inline bool
pf_point_usable (PfPoint p)
{
  return fabs (p.x) <= PF_OUTLINE_LIMIT && fabs (p.y) <= PF_OUTLINE_LIMIT;
}

/* The error for a point that isn't usable. */
void pf_point_set_error (PfPoint p, GError **error);

/* A loop with the chain's points, those that repeat left out. Errors: a point that isn't usable, no
 * area. Clear with pf_loop_clear(). */
bool pf_loop_init (PfLoop *loop, const PfChain *chain, GError **error);
void pf_loop_clear (PfLoop *loop);
PfBox pf_loop_box (const PfLoop *loop);

/* Whether `p` is within the loop, found by looking at every edge. */
bool pf_loop_contains (const PfLoop *loop, PfPoint p);

/* For each of n loops that don't cross: the loop next around it, or SIZE_MAX; and how many are
 * around. */
typedef struct {
  size_t parent;
  size_t depth;
} PfNest;
PfNest *pf_nesting_new (const PfLoop *loops, size_t n);

G_END_DECLS
