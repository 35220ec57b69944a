/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pairs and threads followed from pair line to pair line, until each comes to where it began, some
 * repeats on.
 *
 * A pair is told by its line, and keeps its side through a stitch (in on the left, out on the
 * left). A thread is told by 2 · line + its place of the two where the line begins, 0 left and 1
 * right; where it goes follows from the words of the stitches and the twists on the lines. Both
 * are one-to-one, so that each pair and each thread lies on just one closed walk. All here needs
 * exits and entries, so it comes after pf_ground_check_pairs().
 */
#pragma once

#include "moves.h"

G_BEGIN_DECLS

/* Where a pair or a thread lies on its walk. */
typedef struct {
  int walk;
  int da, db; /* its line begins so many repeats from where the walk began */
} PfOnWalk;

typedef struct {
  int n;
  PfGroundWalk *walks;
  PfOnWalk *on; /* per line of pairs; per thread of threads */
} PfGroundWalks;

PfGroundWalks pf_ground_walk_pairs (const PfGround *ground);
PfGroundWalks pf_ground_walk_threads (const PfGround *ground);
void pf_ground_walks_clear (PfGroundWalks *walks);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PfGroundWalks, pf_ground_walks_clear)

/* Threads at a stitch, from the left, and the moves of its work as swaps of single threads: where
 * each place of the word holds a pair, one swap of pairs is four of threads. */
#define PF_STITCH_MAX_THREADS (2 * PF_STITCH_MAX_PAIRS)
#define PF_THREAD_MOVES_MAX (4 * PF_MOVES_MAX)

/* The moves of stitch k's work between its threads, pins left out. Gives their number. */
int pf_ground_thread_moves (const PfGround *ground, int k, PfMove moves[PF_THREAD_MOVES_MAX]);

/* Where each thread goes: next[thread], for 2 · n_lines of them. */
void pf_ground_next_threads (const PfGround *ground, int *next);

/* The thread that comes to stitch k in `place`. */
int pf_ground_thread_in (const PfGround *ground, int k, int place);

G_END_DECLS
