/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Measuring curves: their box, and their point nearest to another one.
 *
 * A segment's distance from a point may have several valleys. It is looked at in steps short enough
 * that each valley shows up as a step lower than its neighbours, and each of these is narrowed down
 * by thirds.
 */
#include "curve.h"

#include <math.h>

/* Steps to a segment, and thirds taken of a step: (2/3)^64 of it is 5e-12. */
#define STEPS 48
#define THIRDS 64

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

static double
distance_at (const PfCurve *curve, size_t segment, double t, PfPoint p)
{
  const PfPoint q = pf_curve_point (curve, segment, t);

  return hypot (q.x - p.x, q.y - p.y);
}

/* The lowest point of the valley between two values of t. */
static double
narrow_down (const PfCurve *curve, size_t segment, double low, double high, PfPoint p)
{
  for (int i = 0; i < THIRDS; i++)
    {
      const double a = low + (high - low) / 3, b = high - (high - low) / 3;
      if (distance_at (curve, segment, a, p) <= distance_at (curve, segment, b, p))
        high = b;
      else
        low = a;
    }
  return (low + high) / 2;
}

/* How far `p` is from the box of the segment's control points, at least. */
static double
least_distance (const PfCurve *curve, size_t segment, PfPoint p)
{
  const PfNode *from = &curve->nodes[segment], *to = &curve->nodes[(segment + 1) % curve->n_nodes];
  PfBox box = { from->at, from->at };

  grow (&box, from->out);
  grow (&box, to->in);
  grow (&box, to->at);
  return hypot (fmax (0, fmax (box.min.x - p.x, p.x - box.max.x)),
                fmax (0, fmax (box.min.y - p.y, p.y - box.max.y)));
}

typedef struct {
  size_t segment;
  double t, distance;
} Nearest;

static void
try_at (const PfCurve *curve, size_t segment, double t, PfPoint p, Nearest *nearest)
{
  const double distance = distance_at (curve, segment, t, p);

  if (distance < nearest->distance)
    *nearest = (Nearest){ segment, t, distance };
}

static void
try_straight (const PfCurve *curve, size_t segment, PfPoint p, Nearest *nearest)
{
  const PfPoint a = curve->nodes[segment].at;
  const PfPoint b = curve->nodes[(segment + 1) % curve->n_nodes].at;
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t = square > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0;

  try_at (curve, segment, fmin (1, fmax (0, t)), p, nearest);
}

static void
try_curved (const PfCurve *curve, size_t segment, PfPoint p, Nearest *nearest)
{
  double before = G_MAXDOUBLE, here = distance_at (curve, segment, 0, p);

  for (int i = 0; i <= STEPS; i++)
    {
      const double after =
          i < STEPS ? distance_at (curve, segment, (i + 1.0) / STEPS, p) : G_MAXDOUBLE;
      if (here <= before && here <= after)
        {
          const double low = fmax (0, (i - 1.0) / STEPS), high = fmin (1, (i + 1.0) / STEPS);
          try_at (curve, segment, narrow_down (curve, segment, low, high, p), p, nearest);
          try_at (curve, segment, (double) i / STEPS, p, nearest);
        }
      before = here;
      here = after;
    }
}

double
pf_curve_nearest (const PfCurve *curve, PfPoint p, size_t *segment, double *t)
{
  const PfPoint first = curve->nodes[0].at;
  Nearest nearest = { 0, 0, hypot (first.x - p.x, first.y - p.y) };

  for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
    if (pf_curve_segment_straight (curve, s))
      try_straight (curve, s, p, &nearest);
    else if (least_distance (curve, s, p) < nearest.distance)
      try_curved (curve, s, p, &nearest);
  *segment = nearest.segment;
  *t = nearest.t;
  return nearest.distance;
}
