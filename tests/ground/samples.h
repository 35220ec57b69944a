/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Grounds built in code for the tests of src/ground, and what the tests do to break them.
 */
#pragma once

#include <ground.h>

typedef struct {
  const char *name;
  PfGround *(*make) (void); /* not completed */
} Sample;

#define N_SAMPLES 5
extern const Sample samples[N_SAMPLES];

/* One stitch, two pair lines. */
PfGround *sample_torchon (void);
/* Six stitches, four of them with pins; two corners. */
PfGround *sample_rose (void);
/* Seven stitches; two close pins, a core. */
PfGround *sample_armure (void);
/* Three stitches round hexagons. */
PfGround *sample_honeycomb (void);
/* Two plaits cross, all four pairs in one stitch, between plaits of two pairs. No pins. */
PfGround *sample_plaits (void);
/* "left", "inner left", ..., as messages call it. */
const char *sample_side (const PfGround *ground, PfEnd end);

/* Not among `samples`; their exits and entries are filled in. Torchon's layout with another word; a
 * plait of one word, each by itself; square Valenciennes, in which pairs are plaited by four half
 * stitches and the inner pairs of two plaits meet at a pin. */
PfGround *sample_torchon_worked (const char *work);
PfGround *sample_plait (const char *work);
PfGround *sample_valenciennes (void);

/* Pairs that run side by side in `n_columns` columns, as wide as a repeat, and are worked by one
 * stitch after the other; exits and entries are filled in. Each takes its pairs from `column` on,
 * and may reach into the next repeat. Stitches are called "1", "2", ... */
typedef struct {
  int column;
  const char *work;
  int n_pairs;
} ColumnStitch;
PfGround *sample_columns (int n_columns, const ColumnStitch *stitches, int n);

/* The number of the stitch of that name, which must exist. */
int sample_stitch (const PfGround *ground, const char *name);

/* Changes the pair lines' ends so that the stitch's left and right entries (exits) change places.
 */
void sample_swap_entries (PfGround *ground, int stitch);
void sample_swap_exits (PfGround *ground, int stitch);

/* `error` is a PF_ERROR_GROUND whose message holds `part`; clears it. */
void assert_refused (bool accepted, GError **error, const char *part);
