/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An abstract pillow: it knows bobbins, pins and edge places, and does what it is told, step by
 * step. A step that can't be done (a pair that isn't there, or hangs elsewhere; a pin that stands
 * already, or doesn't; a line that goes on where a pair is to be cut off) is a failure in words.
 */
#pragma once

#include <repeat-kinds.h>
#include <threads.h>

typedef struct Pillow Pillow;

Pillow *pillow_new (const PfFilling *filling, const PfGround *ground, int sewings_per_pinhole,
                    bool may_crowd);
void pillow_free (Pillow *pillow);

/* Does one step; NULL if it could be done, else why not, to be freed with g_free(). */
char *pillow_do (Pillow *pillow, const PfWorkStep *step);

/* What is left to do: NULL if nothing is, else what, to be freed with g_free(). */
char *pillow_left (const Pillow *pillow);

/* Do the bobbins lie where PfThreads says, at every stitch worked so far? */
bool pillow_bobbins_agree (const Pillow *pillow, const PfThreads *threads);

/* How many pairs lay on it at once, at most, while a stitch was worked. */
size_t pillow_most (const Pillow *pillow);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Pillow, pillow_free)
