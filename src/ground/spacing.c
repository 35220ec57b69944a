/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How near the nearest two pins of the endless ground stand, and which stitches share a position.
 *
 * The shortest way between two stitches over all repeats is looked for with the shortest two
 * vectors that make the same repeats (Gauss's reduction): with them it is one of the few ways round
 * the rounded one, however skew the drawn vectors are.
 */
#include <math.h>

#include <glib/gi18n-lib.h>

#include "drawing.h"

/* The nearest pins stand 1 to 2 ground units apart. */
#define SPACING_MIN 1.0
#define SPACING_MAX 2.0
#define SPACING_SPARE 1e-6

static double
dot (PfPoint u, PfPoint v)
{
  return u.x * v.x + u.y * v.y;
}

static void
reduce (PfPoint *a, PfPoint *b)
{
  for (;;)
    {
      if (dot (*b, *b) < dot (*a, *a))
        {
          const PfPoint swap = *a;
          *a = *b;
          *b = swap;
        }
      const double m = round (dot (*a, *b) / dot (*a, *a));
      const PfPoint shorter = { b->x - m * a->x, b->y - m * a->y };
      if (!(dot (shorter, shorter) < dot (*b, *b)))
        return;
      *b = shorter;
    }
}

/* The least distance that isn't 0 between a point and all that stand `d` and any repeats from it.
 */
static double
nearest_repeat (PfPoint d, PfPoint a, PfPoint b)
{
  const double area = pf_cross (a, b);
  const double u = round (pf_cross (d, b) / area), v = round (pf_cross (a, d) / area);
  double nearest = INFINITY;
  for (int i = -2; i <= 2; i++)
    for (int j = -2; j <= 2; j++)
      {
        const double x = d.x - (u + i) * a.x - (v + j) * b.x;
        const double y = d.y - (u + i) * a.y - (v + j) * b.y;
        const double distance = hypot (x, y);
        if (distance > PF_GROUND_TOUCH)
          nearest = fmin (nearest, distance);
      }
  return nearest;
}

static void
find_places (PfGround *ground)
{
  for (int k = 0; k < ground->n_stitches; k++)
    {
      int place = 0;
      for (; place < k; place++)
        {
          const PfPoint d = pf_minus (ground->stitches[k].at, ground->stitches[place].at);
          if (hypot (d.x, d.y) <= PF_GROUND_TOUCH)
            break;
        }
      ground->stitches[k].place = place;
    }
}

/* The distance of the nearest two pins, stretched along y, and whose they are. */
static double
nearest_pins (const PfGround *ground, double stretch, int *p, int *q)
{
  const PfStitch *stitches = ground->stitches;
  PfPoint a = { ground->a.x, ground->a.y * stretch }, b = { ground->b.x, ground->b.y * stretch };
  double nearest = INFINITY;
  reduce (&a, &b);
  for (int k = 0; k < ground->n_stitches; k++)
    for (int l = k; l < ground->n_stitches; l++)
      if (!ground->has_pins || (stitches[k].pin && stitches[l].pin))
        {
          const PfPoint way = pf_minus (stitches[l].at, stitches[k].at);
          const double d = nearest_repeat ((PfPoint){ way.x, way.y * stretch }, a, b);
          if (d < nearest)
            {
              nearest = d;
              *p = k;
              *q = l;
            }
        }
  return nearest;
}

bool
pf_ground_find_spacing (PfGround *ground, GError **error)
{
  int p = 0, q = 0;
  find_places (ground);
  ground->spacing = nearest_pins (ground, 1, &p, &q);
  if (ground->has_pins && !(ground->spacing >= SPACING_MIN - SPACING_SPARE &&
                            ground->spacing <= SPACING_MAX + SPACING_SPARE))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_GROUND,
          _ ("The nearest pins, those of “%s” and “%s”, stand %.4g ground units apart, not 1 "
             "to 2: divide all positions and repeat vectors by %.4g."),
          ground->stitches[p].name, ground->stitches[q].name, ground->spacing, ground->spacing);
      return false;
    }
  return true;
}

double
pf_ground_stretched_spacing (const PfGround *ground, double stretch)
{
  int p = 0, q = 0;
  return stretch == 1 ? ground->spacing : nearest_pins (ground, stretch, &p, &q);
}
