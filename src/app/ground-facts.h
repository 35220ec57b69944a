/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What there is to tell of a ground by itself, in words.
 */
#pragma once

#include <ground.h>

#include "length.h"

G_BEGIN_DECLS

/* All are translated, and to be freed with g_free(). */

/* "4 pairs, 8 threads, 7 stitches, 4 pins" */
char *pf_ground_repeat_words (const PfGround *ground);
/* A gap at which it is usually worked, with the thread and the source; NULL if none is known. */
char *pf_ground_usual_words (const PfGround *ground, PfUnits units);
/* Where a bead can sit; NULL if nowhere. */
char *pf_ground_bead_words (const PfGround *ground);
/* One repeat step by step, a numbered line each. */
char *pf_ground_steps_words (const PfGround *ground);

/* What its two pictures show, for who can't see them. */
char *pf_ground_drawing_words (const PfGround *ground);
char *pf_ground_threads_words (const PfGround *ground);

G_END_DECLS
