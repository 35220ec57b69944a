/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Diagonal rows of repeats, in which grounds are worked: each runs down to one side.
 */
#pragma once

#include <ground.h>

G_BEGIN_DECLS

/* From a repeat to the next of its row. */
typedef struct {
  int di, dj;
} PfRow;

/* Rows that run down to the left, or to the right, of the ground: along the shortest way from one
 * repeat to another that does so. */
PfRow pf_row_of (const PfGround *ground, bool to_right);

/* Which row repeat (i, j) is in: the same number for all of a row, and others, in their order from
 * side to side, for all others. */
int pf_row_number (PfRow row, int i, int j);

G_END_DECLS
