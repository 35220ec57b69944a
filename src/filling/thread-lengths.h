/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much thread a filling takes.
 *
 * A thread's way is straight from stitch to stitch, and longer by what it goes round others: each
 * time two threads change places they turn half round each other, each on a helix as wide as one
 * thread. Over a length L with n such half turns of threads of thickness d that makes
 * √(L² + (n·π·d/2)²), the length of a helix unrolled (J. W. S. Hearle, P. Grosberg, S. Backer,
 * Structural Mechanics of Fibers, Yarns, and Fabrics, 1969, from memory). The half turns of a
 * stitch lie half on the way to it, half on the way from it.
 */
#pragma once

#include "threads.h"

G_BEGIN_DECLS

typedef struct {
  double thickness; /* of the thread, mm */
  double pin;       /* diameter of a pin, mm */
} PfThreadSizes;

/* The thickness of a thread of which so many turns lie side by side on 1 cm, in mm. */
double pf_thread_thickness (double wraps_per_cm);

/* A pin that is usual for fine lace, mm; from memory. */
#define PF_PIN_USUAL 0.5

/* The thread that lies in the filling, in mm, with nothing to hold it by. Added to the way: half
 * turns (above); two twists after a pair is sewn in, one before it is turned (common practice); at
 * each pin half way round it instead of straight past, (π/2 - 1)·(pin + thickness); in a leadwork,
 * for the thread that weaves, gap²/thickness: passes packed close in a square as wide as the gap.
 * Where four pairs meet, a pair goes round another as one thread of twice the thickness. */
double pf_thread_length (const PfThreads *threads, const PfFilling *filling, const PfGround *ground,
                         guint32 thread, PfThreadSizes sizes);

G_END_DECLS
