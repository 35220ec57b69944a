/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Working steps: what the hands do at the pillow, one thing after another, from the first pair that
 * is sewn in to the last that is cut off.
 *
 * At the edge (common practice): a pair that is sewn in is twisted twice after; one that is turned
 * gets one twist more before, as a sewing tends to lose one.
 */
#pragma once

#include "filling.h"

G_BEGIN_DECLS

#define PF_TWISTS_AFTER_SEWING_IN 2
#define PF_TWISTS_BEFORE_TURN 1

typedef enum {
  PF_WORK_SEW_IN,   /* a new pair, and twist it twice */
  PF_WORK_TWIST,    /* a pair on its way to a stitch, or from it to the edge */
  PF_WORK_TURN,     /* one twist more, sew the pair once, and take it back */
  PF_WORK_CARRY,    /* sew the pair, and lay it along the edge */
  PF_WORK_CARRY_IN, /* sew it where it enters again, and twist it twice */
  PF_WORK_STITCH,   /* work a stitch, its pin and bead included */
  PF_WORK_SEW_OUT,  /* sew the pair, tie it off and cut it */
} PfWorkKind;

typedef struct {
  PfWorkKind kind : 8;
  guint8 side;    /* of the stitch, if the pair is twisted */
  guint8 twists;  /* then, how often */
  guint32 stitch; /* the worked stitch; of a sewing, the one that it leads to or comes from */
  guint32 sewing; /* or PF_NONE */
  guint32 pair;   /* counted from 0; PF_NONE of a stitch, whose pairs are those of its sides */
} PfWorkStep;

/* Steps that follow each other in one repeat. */
typedef struct {
  bool sews_in; /* all new pairs, before the first stitch; then it is of no repeat */
  int i, j;
  guint32 repeat; /* its number in the order in which repeats are begun, from 0 */
  guint32 row;    /* its diagonal row, likewise */
  size_t first_step, n_steps;
} PfWorkGroup;

typedef struct {
  PfWorkStep *steps;
  size_t n_steps;
  PfWorkGroup *groups;
  size_t n_groups;
  size_t n_repeats, n_rows; /* that are worked */
} PfWorkingSteps;

/* All steps of `filling`, which was made with `ground`, in its working order. */
PfWorkingSteps *pf_working_steps_new (const PfFilling *filling, const PfGround *ground);
void pf_working_steps_free (PfWorkingSteps *steps);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfWorkingSteps, pf_working_steps_free)

/* What pairs and sewings are called in words: as on the sheet (all NULL and 0), or by their places,
 * from 1 and from a, in lists of those that one repeat has. Borrowed. */
typedef struct {
  const guint32 *pairs;
  size_t n_pairs;
  const guint32 *sewings;
  size_t n_sewings;
} PfStepNames;

/* What is done, in one or two sentences: "Pin 2: half stitch with pairs 5 and 6; set the pin, which
 * stays open." Translated; free with g_free(). */
char *pf_explain_step (const PfFilling *filling, const PfGround *ground, const PfWorkStep *step,
                       const PfStepNames *names);

/* The number of a pair under those names, from 1; 0 if it isn't among them. */
guint32 pf_step_pair_number (const PfStepNames *names, guint32 pair);
/* The letters of a sewing under those names: "a", "b", ... "z", "aa"; NULL if it isn't among them.
 * Free with g_free(). */
char *pf_step_sewing_letters (const PfStepNames *names, guint32 sewing);

/* What the number of a pair means: it stays at a place, and bobbins change. Translated. */
const char *pf_explain_pair_numbers (void);
/* How pairs are sewn in this work, and what their numbers mean, whatever the motif: sentences for
 * the head of notes, translated and NULL-terminated; free with g_strfreev(). */
char **pf_explain_sewing_habits (void);

G_END_DECLS
