/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The ways of pairs through one repeat, as they are drawn: each pair's stretches between the places
 * where something is done with it, in the repeat and just before and after it.
 */
#pragma once

#include <repeat-kinds.h>

#include "layers.h"

G_BEGIN_DECLS

/* From one place to the next. A stretch that leads to another repeat, or comes from there, is only
 * drawn in part. */
typedef struct {
  guint32 pair;     /* among those of the repeat, from 0 */
  PfPoint from, to; /* in the drawing, mm */
  bool comes, goes; /* from another repeat; to one */
  bool run;         /* along the edge: `way` is how */
  double aside;     /* of lines side by side: how many steps to the left, as the ground sees it */
  PfPathStep start, end;
} PfRepeatStretch;

/* All stretches of a repeat (PfRepeatStretch), each pair's in order. Free with g_array_unref(). */
GArray *pf_repeat_ways (const PfFilling *filling, const PfRepeatWork *work, int i, int j);

G_END_DECLS
