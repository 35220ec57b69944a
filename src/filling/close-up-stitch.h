/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One thread through one stitch of a close-up.
 */
#pragma once

#include "close-up-frames.h"
#include "strand.h"

G_BEGIN_DECLS

/* Where a thread is, and the way it goes there, a unit vector. */
typedef struct {
  PfPoint at, along;
} PfGate;

/* Where the thread in `place` (from the left, from 0) comes in at a stitch, or goes out. */
PfGate pf_stitch_gate (const PfFrames *frames, const PfFilling *filling,
                       const PfWorkedStitch *stitch, int place, bool out);

/* Draws a thread that changes places with another, each from one gate to the other; it passes over
 * or under. */
void pf_draw_crossing (const PfFrames *frames, PfPen *pen, const PfGate own[2],
                       const PfGate other[2], bool over);

/* Draws the thread that comes in in `place`, through the whole stitch. */
void pf_draw_in_stitch (const PfFrames *frames, const PfFilling *filling,
                        const PfWorkedStitch *stitch, int place, PfPen *pen);

G_END_DECLS
