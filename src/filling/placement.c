/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How a ground lies on the sheet: mirrored, stretched, scaled, turned and moved, in this
 * order.
 */
#include "filling.h"

#include <math.h>

/* Cosine and sine of an angle in degrees, exact at quarter turns, so that a ground turned by 90
 * degrees keeps stitches that stood on an outline on it. */
static void
cos_sin (double degrees, double *c, double *s)
{
  const double turn = fmod (degrees, 360.0);
  const double quarters = turn / 90.0;
  if (quarters == floor (quarters))
    {
      static const double cosines[] = { 1, 0, -1, 0 };
      const int q = ((int) quarters + 4) % 4;
      *c = cosines[q];
      *s = cosines[(q + 3) % 4];
      return;
    }
  *c = cos (turn * G_PI / 180.0);
  *s = sin (turn * G_PI / 180.0);
}

/* mm to a ground unit, across and along the footside. */
static PfPoint
scales (const PfGround *ground, PfPlacement placement)
{
  const double stretch = pf_ground_stretch (ground, placement.angle);
  const double scale = placement.gap / pf_ground_stretched_spacing (ground, stretch);
  return (PfPoint){ scale, scale * stretch };
}

PfAffine
pf_placement_map (const PfGround *ground, PfPlacement placement)
{
  const PfPoint scale = scales (ground, placement);
  const double mirror = placement.mirror ? -1 : 1;
  double c, s;
  cos_sin (placement.turn, &c, &s);
  return (PfAffine){
    .xx = mirror * scale.x * c,
    .xy = -scale.y * s,
    .yx = mirror * scale.x * s,
    .yy = scale.y * c,
    .x0 = placement.origin.x,
    .y0 = placement.origin.y,
  };
}

double
pf_placement_footside (const PfGround *ground, PfPlacement placement)
{
  return pf_ground_footside (ground) * scales (ground, placement).y;
}
