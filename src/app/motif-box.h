/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The box round a motif, with grips that scale, stretch and turn it.
 */
#pragma once

#include <shape.h>

G_BEGIN_DECLS

/* Corners scale, sides stretch, and the one above the box turns. */
typedef enum {
  PF_GRIP_TOP_LEFT,
  PF_GRIP_TOP,
  PF_GRIP_TOP_RIGHT,
  PF_GRIP_RIGHT,
  PF_GRIP_BOTTOM_RIGHT,
  PF_GRIP_BOTTOM,
  PF_GRIP_BOTTOM_LEFT,
  PF_GRIP_LEFT,
  PF_GRIP_TURN,
  PF_N_GRIPS
} PfGrip;

/* Where a grip is, with `pixel` mm to a pixel: a little outside the box, so that it doesn't lie on
 * the outline. */
PfPoint pf_grip_place (PfBox box, PfGrip grip, double pixel);
/* The place that the grip moves: the box's corner or the middle of its side; the turn grip itself.
 */
PfPoint pf_grip_anchor (PfBox box, PfGrip grip, double pixel);
/* The grip within `reach` mm of a place, the nearest; false if there is none. */
bool pf_grip_find (PfBox box, double pixel, double reach, PfPoint at, PfGrip *grip);
/* The map of the motif when the grip's anchor is dragged to `to`. The corner or side opposite
 * stays; a turn is about the middle. `steady`: a turn goes by 15 degrees at a time. */
PfAffine pf_grip_map (PfBox box, PfGrip grip, PfPoint to, bool steady);

G_END_DECLS
