/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What must hold of the threads of any filling.
 */
#pragma once

#include <threads.h>

/* As many threads come in as go out; each stitch moves them as its word says, done letter by
 * letter; each side of a stitch has two; and the ways of all threads together pass every place of
 * every stitch once, in working order, from a sewing to a sewing. */
void check_threads (const PfFilling *filling, const PfGround *ground, const PfThreads *threads);
