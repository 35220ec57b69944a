/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A ground drawn steeper or flatter than it is: stretched along the footside, which stands upright,
 * so that its diagonals stand at another angle. Which stitch is worked with which pairs, and when,
 * stays the same.
 */
#include <math.h>

#include "drawing.h"

/* The diagonal whose angle is meant: the first repeat vector that is neither level nor upright, or
 * both together. */
static PfPoint
diagonal (const PfGround *ground)
{
  const PfPoint vectors[] = { ground->a, ground->b };
  for (int v = 0; v < 2; v++)
    if (fabs (vectors[v].x) > PF_GROUND_TOUCH && fabs (vectors[v].y) > PF_GROUND_TOUCH)
      return vectors[v];
  return (PfPoint){ ground->a.x + ground->b.x, ground->a.y + ground->b.y };
}

double
pf_ground_angle (const PfGround *ground)
{
  const PfPoint d = diagonal (ground);
  return atan2 (fabs (d.x), fabs (d.y)) * 180 / G_PI;
}

double
pf_ground_stretch (const PfGround *ground, double angle)
{
  if (angle == 0)
    return 1;
  const PfPoint d = diagonal (ground);
  return fabs (d.x) / (tan (angle * G_PI / 180) * fabs (d.y));
}

/* The repeats of a and b that bring a stitch `d` away as near as they can to straight above or
 * below, within the limit of a pair line's reach, are tried one by one: a ground whose pins line up
 * only farther apart than that has no footside of its own. */
static double
upright_distance (PfPoint d, const PfGround *ground)
{
  double least = INFINITY;
  for (int i = -PF_GROUND_MAX_REACH; i <= PF_GROUND_MAX_REACH; i++)
    for (int j = -PF_GROUND_MAX_REACH; j <= PF_GROUND_MAX_REACH; j++)
      {
        const double x = d.x + i * ground->a.x + j * ground->b.x;
        const double y = d.y + i * ground->a.y + j * ground->b.y;
        if (fabs (x) <= PF_GROUND_TOUCH && fabs (y) > PF_GROUND_TOUCH)
          least = fmin (least, fabs (y));
      }
  return least;
}

double
pf_ground_footside (const PfGround *ground)
{
  const PfStitch *stitches = ground->stitches;
  double least = INFINITY;
  for (int k = 0; k < ground->n_stitches; k++)
    for (int l = k; l < ground->n_stitches; l++)
      if (!ground->has_pins || (stitches[k].pin && stitches[l].pin))
        least = fmin (least, upright_distance (pf_minus (stitches[l].at, stitches[k].at), ground));
  return isfinite (least) ? least : 0;
}
