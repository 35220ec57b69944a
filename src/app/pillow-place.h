/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the maker is at the pillow: the working steps of one motif with all that is asked of them
 * at each move, worked out once, and the moves themselves. No widget.
 *
 * A place is the number of the step that is to be done next; that of the last plus one once all is
 * done.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

typedef struct {
  PfMotif *motif; /* filled */
  const PfWorkingSteps *steps;
  guint32 *of_stitch;  /* per worked stitch: the step in which it is worked */
  guint32 *of_sewing;  /* per sewing: its step */
  guint32 *sewn_in_at; /* per pair: the steps at which it comes to the pillow and goes */
  guint32 *sewn_out_at;
} PfPillowPlan;

/* Takes a reference to a filled motif. */
PfPillowPlan *pf_pillow_plan_new (const PfMotif *motif);
void pf_pillow_plan_free (PfPillowPlan *plan);

/* Steps that are told and done together. */
typedef struct {
  size_t first, n;
} PfPillowSpan;

/* The step at `place`, or with `whole` all of its group; none if all is done. */
PfPillowSpan pf_pillow_span (const PfPillowPlan *plan, size_t place, bool whole);
/* The group of the step at a place that isn't the end. */
const PfWorkGroup *pf_pillow_group (const PfPillowPlan *plan, size_t place);
/* The next place and the one before; the same at the ends. */
size_t pf_pillow_next (const PfPillowPlan *plan, size_t place, bool whole);
size_t pf_pillow_before (const PfPillowPlan *plan, size_t place, bool whole);
/* The first step of repeat `number`, from 0; G_MAXSIZE if there is no such repeat. */
size_t pf_pillow_repeat (const PfPillowPlan *plan, size_t number);

/* What is still to be done at a place. */
typedef struct {
  size_t steps, stitches, sewings;
  size_t new_pairs; /* still to be sewn in */
} PfPillowLeft;

PfPillowLeft pf_pillow_left (const PfPillowPlan *plan, size_t place);

/* Which pairs are on the pillow at a place: "1–4, 7", and how many. Free with g_free(). */
char *pf_pillow_pairs (const PfPillowPlan *plan, size_t place, size_t *n);

/* --- The active motif of an editor --------------------------------------------------------------
 */

/* Where she is. */
size_t pf_pillow_place (PfEditor *editor, const PfPillowPlan *plan);
/* Goes on to a place: one change with the one before, if that was going on too; or, as a leap, a
 * change of its own. */
void pf_pillow_go (PfEditor *editor, const PfPillowPlan *plan, size_t place, bool leap);

/* Her note for the step at a place, or NULL. Borrowed. */
const char *pf_pillow_note (PfEditor *editor, const PfPillowPlan *plan, size_t place);
void pf_pillow_set_note (PfEditor *editor, const PfPillowPlan *plan, size_t place,
                         const char *text);
void pf_pillow_remove_note (PfEditor *editor, size_t note);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfPillowPlan, pf_pillow_plan_free)

G_END_DECLS
