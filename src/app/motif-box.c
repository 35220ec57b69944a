/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The box round a motif. A grip is a place on it in halves of its width and height; the one
 * opposite, which stays, has the same numbers mirrored.
 */
#include "motif-box.h"

#include <math.h>

#define OUTSIDE 12.0    /* pixels from the box to the grips */
#define TURN_ABOVE 38.0 /* and to the one that turns */
#define TURN_STEP 15.0  /* degrees */
#define SMALLEST 0.01   /* the motif never gets smaller than this part of its size at once */

static const struct {
  double x, y; /* 0 left or top, 1 right or bottom */
} places[] = {
  [PF_GRIP_TOP_LEFT] = { 0, 0 },     [PF_GRIP_TOP] = { 0.5, 0 },
  [PF_GRIP_TOP_RIGHT] = { 1, 0 },    [PF_GRIP_RIGHT] = { 1, 0.5 },
  [PF_GRIP_BOTTOM_RIGHT] = { 1, 1 }, [PF_GRIP_BOTTOM] = { 0.5, 1 },
  [PF_GRIP_BOTTOM_LEFT] = { 0, 1 },  [PF_GRIP_LEFT] = { 0, 0.5 },
};

static PfPoint
within (PfBox box, double x, double y)
{
  return (PfPoint){ box.min.x + x * (box.max.x - box.min.x),
                    box.min.y + y * (box.max.y - box.min.y) };
}

PfPoint
pf_grip_place (PfBox box, PfGrip grip, double pixel)
{
  const double out = OUTSIDE * pixel;
  if (grip == PF_GRIP_TURN)
    return (PfPoint){ (box.min.x + box.max.x) / 2, box.min.y - TURN_ABOVE * pixel };
  return within (
      (PfBox){ { box.min.x - out, box.min.y - out }, { box.max.x + out, box.max.y + out } },
      places[grip].x, places[grip].y);
}

PfPoint
pf_grip_anchor (PfBox box, PfGrip grip, double pixel)
{
  return grip == PF_GRIP_TURN ? pf_grip_place (box, grip, pixel)
                              : within (box, places[grip].x, places[grip].y);
}

bool
pf_grip_find (PfBox box, double pixel, double reach, PfPoint at, PfGrip *grip)
{
  double nearest = reach;
  bool found = false;
  for (int g = 0; g < PF_N_GRIPS; g++)
    {
      const PfPoint place = pf_grip_place (box, (PfGrip) g, pixel);
      const double far = hypot (place.x - at.x, place.y - at.y);
      if (far > nearest)
        continue;
      nearest = far;
      *grip = (PfGrip) g;
      found = true;
    }
  return found;
}

static PfAffine
turn_about (PfPoint about, double turn)
{
  const double c = cos (turn), s = sin (turn);
  return (PfAffine){
    c, -s, s, c, about.x - c * about.x + s * about.y, about.y - s * about.x - c * about.y
  };
}

static PfAffine
turned_to (PfBox box, PfPoint to, bool steady)
{
  const PfPoint middle = within (box, 0.5, 0.5);
  double turn = atan2 (to.x - middle.x, middle.y - to.y);
  const double step = TURN_STEP * G_PI / 180;
  if (steady)
    turn = round (turn / step) * step;
  return turn_about (middle, turn);
}

/* How far `to` lies from what stays, as part of how far the grip does. */
static double
part (double to, double stays, double grip)
{
  return fabs (grip - stays) <= PF_TOUCH ? 1 : MAX (SMALLEST, (to - stays) / (grip - stays));
}

PfAffine
pf_grip_map (PfBox box, PfGrip grip, PfPoint to, bool steady)
{
  if (grip == PF_GRIP_TURN)
    return turned_to (box, to, steady);
  const PfPoint from = within (box, places[grip].x, places[grip].y);
  const PfPoint stays = within (box, 1 - places[grip].x, 1 - places[grip].y);
  double sx = part (to.x, stays.x, from.x), sy = part (to.y, stays.y, from.y);
  if (places[grip].x != 0.5 && places[grip].y != 0.5)
    {
      /* Along the diagonal: the part that comes nearest to where the pointer is. */
      const double dx = from.x - stays.x, dy = from.y - stays.y;
      const double size = dx * dx + dy * dy;
      const double along = (to.x - stays.x) * dx + (to.y - stays.y) * dy;
      sx = sy = size > 0 ? MAX (SMALLEST, along / size) : 1;
    }
  return (PfAffine){ sx, 0, 0, sy, stays.x * (1 - sx), stays.y * (1 - sy) };
}
