/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Curves for the tests, and what is asked of them. */
#pragma once

#include <curve.h>

#include "shapes.h"

G_BEGIN_DECLS

/* A point up to `size` from the sheet's corner in x and y. */
PfPoint random_point (double size);
/* Up to 16 nodes anywhere within 100 mm, handles near them or at them. */
PfCurve *random_curve (size_t n, bool closed);
double apart (PfPoint a, PfPoint b);
/* How far a curve's point is from `p`. */
double distance_at_curve (const PfCurve *curve, size_t segment, double t, PfPoint p);
double curve_area (const PfCurve *curve);
/* The node is smooth: its handles are on one line through it, on either side. */
void assert_node_smooth (const PfNode *node);

G_END_DECLS
