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

/* Parts of the repeat that are left. */
extern const ArmureCut armure_without_2, armure_without_1, armure_without_1_and_2, armure_only_2,
    armure_whole;

/* Stitches in the order of the file. */
enum { PIN_1, PIN_2, PIN_3, CENTRE, CLOSE_2, CLOSE_3, PIN_4 };

#define OUT_OF(k, side)                                                                            \
  {                                                                                                \
    { k, 0, 0 }, side, true                                                                        \
  }
#define INTO(k, side)                                                                              \
  {                                                                                                \
    { k, 0, 0 }, side, false                                                                       \
  }

#define ALONE(line_id)                                                                             \
  {                                                                                                \
    .line = line_id, .kind = PF_SEW_ALONE                                                          \
  }
#define TURN(line_id, other_id)                                                                    \
  {                                                                                                \
    .line = line_id, .kind = PF_SEW_TURN, .other = other_id                                        \
  }

/* The filling of a part with the maker's choices. */
PfFilling *armure_fill_chosen (ArmureCut cut, const PfSewingChoice *choices, size_t n);
/* The crossing of a line that must be cut, and its sewing. */
const PfCrossing *armure_crossing (const PfFilling *filling, PfLineId line);
const PfSewing *armure_sewing (const PfFilling *filling, PfLineId line);
