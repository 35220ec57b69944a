/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A stitch's work, letter by letter: which threads change places, and which lies over which.
 *
 * The threads at a stitch of two pairs lie in four places, 0 to 3 from the left. c is the cross:
 * the thread in place 1 passes over the one in place 2. t is the twist: in each pair the right
 * thread passes over the left. In a stitch of four pairs each place holds a whole pair, which moves
 * as one thread does. (Jo Edkins, lace school web pages, 2014-22.)
 */
#pragma once

#include "ground.h"

G_BEGIN_DECLS

typedef enum {
  PF_MOVE_SWAP,  /* what lies in `place` and in `place` + 1 change places */
  PF_MOVE_PIN,   /* the pin is set, between the two middle places */
  PF_MOVE_WEAVE, /* a leadwork: one thread weaves over and under the others, and all stay in place
                  */
} PfMoveKind;

typedef struct {
  guint8 kind;    /* PfMoveKind */
  guint8 step;    /* the letter, counted from 0; the two swaps of a twist are of one step */
  guint8 place;   /* of a swap: the left one of the two */
  bool left_over; /* of a swap: what comes from the left passes over */
} PfMove;

/* The places at a stitch. */
#define PF_PLACES 4
/* A word has at most this many letters. */
#define PF_WORD_MAX 64
#define PF_MOVES_MAX (2 * PF_WORD_MAX)

/* The moves of a word of c, t, p and l, which has passed the checks of a ground: at most
 * PF_MOVES_MAX of them. Gives their number. */
int pf_word_moves (const char *work, PfMove moves[PF_MOVES_MAX]);

/* Where the threads are after the moves: order[place] is the place where the thread that lies in
 * `place` now came from. */
void pf_moves_order (const PfMove *moves, int n, guint8 order[PF_PLACES]);

G_END_DECLS
