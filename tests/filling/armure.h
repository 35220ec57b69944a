/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One repeat of the eight-thread armure, cut by a straight edge. */
#pragma once

#include "samples.h"

#define ARMURE_SCALE 10.0 /* mm to a ground unit */

/* What lies at nx·x + ny·y > offset (ground units) is kept. */
typedef struct {
  double nx, ny, offset;
} ArmureCut;

/* The diamond |x| + |y| <= 1.5 cut so, in mm. */
PfRegion *armure_region (ArmureCut cut);
/* The defaults for one repeat in it: clearance 0.01, no carries. */
PfFillingSettings armure_settings (const PfGround *ground);
/* The filling of that region with a half stitch edge with a pinhole about every 2 mm; with
 * `settings`, or those defaults. */
PfFilling *armure_fill (const PfGround *ground, ArmureCut cut, const PfFillingSettings *settings);
