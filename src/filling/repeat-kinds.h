/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Kinds of repeats: those of a filling that are worked alike, wherever they lie.
 *
 * Two repeats are of one kind if the same stitches are worked in the same way and order, their
 * pairs come from the same stitches near by and go to the same, and what is cut is sewn in the same
 * way. So each kind needs to be drawn and told once.
 */
#pragma once

#include "working-steps.h"

G_BEGIN_DECLS

/* A repeat with stitches that are worked. */
typedef struct {
  int i, j;
  guint32 kind;
  guint32 row;         /* its diagonal row, numbered in the order of work */
  size_t first_stitch; /* in PfRepeatKinds.stitches: its worked stitches, in working order, ... */
  size_t n_stitches;   /* ... and how many */
} PfWorkedRepeat;

typedef struct {
  guint32 *repeats; /* n_repeats of this kind, in the order in which they are begun */
  size_t n_repeats;
  PfRepeatState state;
  bool cut; /* a pair of it is sewn at the edge */
} PfRepeatKind;

typedef struct {
  PfWorkedRepeat *repeats; /* in the order in which they are begun */
  size_t n_repeats;
  PfRepeatKind *kinds; /* in that order, too; but whole repeats with no pair cut are first */
  size_t n_kinds;
  guint32 *stitches; /* worked stitches */
} PfRepeatKinds;

/* The kinds of `filling`, which was made with `ground`; `steps` are its own. */
PfRepeatKinds *pf_repeat_kinds_new (const PfFilling *filling, const PfGround *ground,
                                    const PfWorkingSteps *steps);
void pf_repeat_kinds_free (PfRepeatKinds *kinds);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfRepeatKinds, pf_repeat_kinds_free)

/* Is it the whole repeat with no pair cut, worked as the ground is? */
bool pf_repeat_kind_is_plain_ground (const PfRepeatKind *kind);

/* What one repeat has by itself, in the order in which it is worked. */
typedef struct {
  GArray *steps;   /* of PfWorkStep */
  GArray *pairs;   /* of guint32: its pairs, as they come up ... */
  GArray *sewings; /* ... and its sewings */
} PfRepeatWork;

/* The steps of a repeat, all groups of it together. New pairs that were sewn in before the first
 * stitch of all have their step here, too. */
PfRepeatWork *pf_repeat_work_new (const PfFilling *filling, const PfGround *ground,
                                  const PfWorkingSteps *steps, int i, int j);
void pf_repeat_work_free (PfRepeatWork *work);
/* Pairs and sewings by their places in those lists; borrowed. */
PfStepNames pf_repeat_work_names (const PfRepeatWork *work);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfRepeatWork, pf_repeat_work_free)

/* How a repeat differs from a whole one, in sentences: which of its pins are there and which are
 * missing, and what becomes of its middle. Translated; free with g_free(). */
char *pf_explain_difference (const PfFilling *filling, const PfGround *ground, int i, int j);

/* Where each pair of a repeat comes from, of those that come from another repeat: "Pair 1 comes
 * from pin 4 of the repeat above right." NULL-terminated, translated; free with g_strfreev(). */
char **pf_explain_origins (const PfFilling *filling, const PfGround *ground,
                           const PfRepeatWork *work, int i, int j);

G_END_DECLS
