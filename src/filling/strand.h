/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A pen that draws one thread after another, lifted where a thread passes under others.
 */
#pragma once

#include <shape.h>

G_BEGIN_DECLS

/* A cubic curve, as in paths of SVG. */
typedef struct {
  PfPoint p[4];
} PfCubic;

typedef struct {
  GArray *strands; /* of PfStrand */
  GArray *points;  /* of PfPoint */
  guint32 thread;  /* that is drawn */
  bool down;       /* the last strand goes on */
} PfPen;

/* Where a thread passes under another: at parameter `t` of its curve, over a length of `half` mm to
 * each side. */
typedef struct {
  double t, half;
} PfGap;

PfPoint pf_cubic_point (const PfCubic *cubic, double t);
/* The direction of the curve at t, as long as it is fast there. */
PfPoint pf_cubic_speed (const PfCubic *cubic, double t);

/* Draws a curve, but for its n gaps, which lie in any order. It goes on from the curve before, if
 * the pen is down and that one ends where this one starts. */
void pf_pen_draw (PfPen *pen, PfCubic cubic, const PfGap *gaps, int n);
void pf_pen_lift (PfPen *pen);

G_END_DECLS
