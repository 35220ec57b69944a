/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The box of a curve: its nodes, and where its segments turn round in x or y. */
#include "curve.h"

#include <math.h>

/* Where one coordinate of a cubic turns round: the roots of its derivative within (0, 1). */
static int
turning_points (double a, double b, double c, double d, double t[2])
{
  const double p = d - 3 * c + 3 * b - a, q = 2 * (c - 2 * b + a), r = b - a;
  double roots[2] = { NAN, NAN };
  int n = 0;

  if (fabs (p) < 1e-12 * (fabs (q) + fabs (r)))
    roots[0] = -r / q;
  else if (q * q - 4 * p * r >= 0)
    {
      const double far = -0.5 * (q + copysign (sqrt (q * q - 4 * p * r), q));
      roots[0] = far / p;
      roots[1] = r / far;
    }
  for (int i = 0; i < 2; i++)
    if (roots[i] > 0 && roots[i] < 1)
      t[n++] = roots[i];
  return n;
}

static void
grow (PfBox *box, PfPoint p)
{
  box->min.x = fmin (box->min.x, p.x);
  box->min.y = fmin (box->min.y, p.y);
  box->max.x = fmax (box->max.x, p.x);
  box->max.y = fmax (box->max.y, p.y);
}

PfBox
pf_curve_box (const PfCurve *curve)
{
  if (curve->n_nodes == 0)
    return (PfBox){ { 0, 0 }, { 0, 0 } };
  PfBox box = { curve->nodes[0].at, curve->nodes[0].at };
  for (size_t i = 0; i < curve->n_nodes; i++)
    grow (&box, curve->nodes[i].at);
  for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
    {
      const PfNode *from = &curve->nodes[s], *to = &curve->nodes[(s + 1) % curve->n_nodes];
      double t[4];
      int n = turning_points (from->at.x, from->out.x, to->in.x, to->at.x, t);
      n += turning_points (from->at.y, from->out.y, to->in.y, to->at.y, t + n);
      for (int i = 0; i < n && !pf_curve_segment_straight (curve, s); i++)
        grow (&box, pf_curve_point (curve, s, t[i]));
    }
  return box;
}
