/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The point of a curve nearest to another one, by branch and bound.
 *
 * A cubic piece is nowhere farther from its chord, taken at the same share, than 3/4 of the larger
 * second difference of its control points. So the distance from the chord says how near the piece
 * comes at best, and only pieces that may come nearer than what is found are halved; each halving
 * quarters the second differences. No valley of the distance is missed, however narrow.
 */
#include "curve.h"

#include <math.h>

#include "outline.h"

/* A piece isn't looked into for less than this many mm, and this part of its size. */
#define WORTH 2e-7
#define WORTH_OF_SIZE 1e-10

/* 1e5 mm halved so often bend by less than WORTH. */
#define MAX_DEPTH 40

#define NEWTON_STEPS 12

typedef struct {
  PfPoint p[4];
  double from, to; /* of the segment's t */
} Piece;

typedef struct {
  const PfCurve *curve;
  PfPoint p;
  size_t segment;
  double t, distance;
} Nearest;

static void
try_at (Nearest *nearest, size_t segment, double t)
{
  const PfPoint q = pf_curve_point (nearest->curve, segment, t);
  const double distance = hypot (q.x - nearest->p.x, q.y - nearest->p.y);

  if (!(distance < nearest->distance))
    return;
  nearest->segment = segment;
  nearest->t = t;
  nearest->distance = distance;
}

/* The share of the way from `a` to `b` at which the line comes nearest to `p`, ends included. */
static double
nearest_share (PfPoint a, PfPoint b, PfPoint p)
{
  const PfPoint d = pf_point_minus (b, a);
  const double square = pf_point_dot (d, d);
  const double share = square > 0 ? pf_point_dot (pf_point_minus (p, a), d) / square : 0;

  return fmin (1, fmax (0, share));
}

static PfPoint
middle (PfPoint a, PfPoint b)
{
  return (PfPoint){ a.x / 2 + b.x / 2, a.y / 2 + b.y / 2 };
}

/* De Casteljau's halving. */
static void
halve (const Piece *piece, Piece halves[2])
{
  const PfPoint *p = piece->p;
  const PfPoint ab = middle (p[0], p[1]), bc = middle (p[1], p[2]), cd = middle (p[2], p[3]);
  const PfPoint abc = middle (ab, bc), bcd = middle (bc, cd), mid = middle (abc, bcd);
  const double t = (piece->from + piece->to) / 2;

  halves[0] = (Piece){ { p[0], ab, abc, mid }, piece->from, t };
  halves[1] = (Piece){ { mid, bcd, cd, p[3] }, t, piece->to };
}

/* How far the piece may be from its chord. */
static double
bend (const PfPoint *p)
{
  const double a = hypot (p[0].x - 2 * p[1].x + p[2].x, p[0].y - 2 * p[1].y + p[2].y);
  const double b = hypot (p[1].x - 2 * p[2].x + p[3].x, p[1].y - 2 * p[2].y + p[3].y);

  return 0.75 * fmax (a, b);
}

static double
chord_distance (const Piece *piece, PfPoint p, double *share)
{
  const PfPoint a = piece->p[0], b = piece->p[3];

  *share = nearest_share (a, b, p);
  return hypot (a.x + *share * (b.x - a.x) - p.x, a.y + *share * (b.y - a.y) - p.y);
}

static void
search (Nearest *nearest, size_t segment, const Piece *piece, double worth, int depth)
{
  Piece halves[2];
  double share, ignored;
  const double least = chord_distance (piece, nearest->p, &share) - bend (piece->p);

  if (!(least < nearest->distance - worth))
    return;
  try_at (nearest, segment, piece->from + share * (piece->to - piece->from));
  if (!(least < nearest->distance - worth) || depth == 0)
    return;
  halve (piece, halves);
  /* The more hopeful half first: it may spare the other. */
  const int first = chord_distance (&halves[1], nearest->p, &ignored) <
                    chord_distance (&halves[0], nearest->p, &ignored);
  search (nearest, segment, &halves[first], worth, depth - 1);
  search (nearest, segment, &halves[!first], worth, depth - 1);
}

static void
search_segment (Nearest *nearest, size_t segment)
{
  const PfCurve *curve = nearest->curve;
  const PfNode *from = &curve->nodes[segment], *to = &curve->nodes[(segment + 1) % curve->n_nodes];
  const Piece piece = { { from->at, from->out, to->in, to->at }, 0, 1 };

  if (pf_curve_segment_straight (curve, segment))
    {
      try_at (nearest, segment, nearest_share (from->at, to->at, nearest->p));
      return;
    }
  const double size = hypot (from->out.x - from->at.x, from->out.y - from->at.y) +
                      hypot (to->in.x - from->out.x, to->in.y - from->out.y) +
                      hypot (to->at.x - to->in.x, to->at.y - to->in.y);
  search (nearest, segment, &piece, WORTH + WORTH_OF_SIZE * size, MAX_DEPTH);
}

/* Newton's steps to where the way to `p` is square to the curve; a step that leads away from it is
 * not taken. */
static void
polish (Nearest *nearest)
{
  const PfCurve *curve = nearest->curve;
  const size_t s = nearest->segment;
  const PfNode *from = &curve->nodes[s], *to = &curve->nodes[(s + 1) % curve->n_nodes];
  const PfPoint a = pf_point_minus (from->out, from->at), b = pf_point_minus (to->in, from->out);
  const PfPoint c = pf_point_minus (to->at, to->in);
  const PfPoint ab = pf_point_minus (b, a), bc = pf_point_minus (c, b);
  double t = nearest->t;

  for (int i = 0; i < NEWTON_STEPS; i++)
    {
      const double u = 1 - t;
      const PfPoint way = pf_point_minus (pf_curve_point (curve, s, t), nearest->p);
      const PfPoint speed = { 3 * (u * u * a.x + 2 * u * t * b.x + t * t * c.x),
                              3 * (u * u * a.y + 2 * u * t * b.y + t * t * c.y) };
      const PfPoint gain = { 6 * (u * ab.x + t * bc.x), 6 * (u * ab.y + t * bc.y) };
      const double slope = pf_point_dot (speed, speed) + pf_point_dot (way, gain);

      if (!(slope > 0))
        return;
      t = fmin (1, fmax (0, t - pf_point_dot (way, speed) / slope));
      try_at (nearest, s, t);
    }
}

double
pf_curve_nearest (const PfCurve *curve, PfPoint p, size_t *segment, double *t)
{
  const PfPoint first = curve->nodes[0].at;
  Nearest nearest = { curve, p, 0, 0, hypot (first.x - p.x, first.y - p.y) };

  for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
    search_segment (&nearest, s);
  if (pf_curve_n_segments (curve) > 0 && !pf_curve_segment_straight (curve, nearest.segment))
    polish (&nearest);
  *segment = nearest.segment;
  *t = nearest.t;
  return nearest.distance;
}
