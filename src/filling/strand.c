/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "strand.h"

#include <math.h>

#include "close-up.h"

/* Ends nearer than this, in mm, are joined. */
#define JOINED 1e-6

PfPoint
pf_cubic_point (const PfCubic *c, double t)
{
  const double s = 1 - t;
  const double a = s * s * s, b = 3 * s * s * t, d = 3 * s * t * t, e = t * t * t;
  return (PfPoint){ a * c->p[0].x + b * c->p[1].x + d * c->p[2].x + e * c->p[3].x,
                    a * c->p[0].y + b * c->p[1].y + d * c->p[2].y + e * c->p[3].y };
}

PfPoint
pf_cubic_speed (const PfCubic *c, double t)
{
  const double s = 1 - t;
  const double a = 3 * s * s, b = 6 * s * t, d = 3 * t * t;
  return (PfPoint){
    a * (c->p[1].x - c->p[0].x) + b * (c->p[2].x - c->p[1].x) + d * (c->p[3].x - c->p[2].x),
    a * (c->p[1].y - c->p[0].y) + b * (c->p[2].y - c->p[1].y) + d * (c->p[3].y - c->p[2].y),
  };
}

/* The part from t0 to t1, as a curve of its own: its ends, and its speed there. */
static PfCubic
part_of (const PfCubic *c, double t0, double t1)
{
  const PfPoint a = pf_cubic_point (c, t0), b = pf_cubic_point (c, t1);
  const PfPoint u = pf_cubic_speed (c, t0), v = pf_cubic_speed (c, t1);
  const double third = (t1 - t0) / 3;
  return (PfCubic){
    { a, { a.x + third * u.x, a.y + third * u.y }, { b.x - third * v.x, b.y - third * v.y }, b }
  };
}

static void
put_down (PfPen *pen, PfPoint at)
{
  if (pen->down)
    {
      const PfPoint last = g_array_index (pen->points, PfPoint, pen->points->len - 1);
      if (hypot (last.x - at.x, last.y - at.y) <= JOINED)
        return;
    }
  const PfStrand strand = { pen->thread, pen->points->len, 0 };
  g_array_append_val (pen->strands, strand);
  g_array_append_val (pen->points, at);
  pen->down = true;
}

static void
draw_part (PfPen *pen, const PfCubic *cubic, double t0, double t1)
{
  const PfCubic part = part_of (cubic, t0, t1);
  put_down (pen, part.p[0]);
  g_array_append_vals (pen->points, &part.p[1], 3);
  g_array_index (pen->strands, PfStrand, pen->strands->len - 1).n_curves++;
}

void
pf_pen_draw (PfPen *pen, PfCubic cubic, const PfGap *gaps, int n)
{
  double from = 0;
  for (;;)
    {
      /* the next gap that ends after `from` */
      double start = 1, end = 1;
      for (int g = 0; g < n; g++)
        {
          const PfPoint speed = pf_cubic_speed (&cubic, gaps[g].t);
          const double half = gaps[g].half / fmax (hypot (speed.x, speed.y), JOINED);
          if (gaps[g].t + half > from && gaps[g].t - half < start)
            {
              start = gaps[g].t - half;
              end = gaps[g].t + half;
            }
        }
      if (start > from)
        draw_part (pen, &cubic, from, fmin (start, 1));
      if (start >= 1)
        return;
      pf_pen_lift (pen);
      if (end >= 1)
        return;
      from = end;
    }
}

void
pf_pen_lift (PfPen *pen)
{
  pen->down = false;
}
