/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * All crossings of a ground's threads, as a graph: which closed walk passes over which, how many
 * repeats away. Walk w of threads, moved by (i, j) repeats, is thread (w, i, j) of the endless
 * ground.
 */
#pragma once

#include "walks.h"

G_BEGIN_DECLS

typedef struct {
  int over, under; /* walks */
  int da, db;      /* thread (over, i, j) lies over thread (under, i + da, j + db) ... */
  int stitch;      /* ... at this stitch, or on the way to it */
} PfGroundOver;

/* All of them, in no order. A leadwork's thread passes over and under its neighbours. Elements are
 * PfGroundOver; free with g_array_unref(). */
GArray *pf_ground_find_overs (const PfGround *ground, const PfGroundWalks *threads);

/* The thread, as a walk and how far it is moved, that comes to stitch k of repeat (0, 0) in
 * `place`.
 */
PfOnWalk pf_ground_thread_at (const PfGround *ground, const PfGroundWalks *threads, int k,
                              int place);

/* Whole combinations of some vectors of two whole numbers, as those of (a, b) and (0, c). */
typedef struct {
  gint64 a, b, c;
} PfGroundSpan;

/* Adds a vector to those that span it. */
void pf_ground_span_add (PfGroundSpan *span, gint64 x, gint64 y);
bool pf_ground_span_has (const PfGroundSpan *span, gint64 x, gint64 y);

G_END_DECLS
