/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is said at the pillow: sentences of steps and of what is left. All translated; free with
 * g_free().
 */
#pragma once

#include "pillow-place.h"

G_BEGIN_DECLS

/* The step at a place; at the end, that all is done; "" before the first (G_MAXSIZE) and after. */
char *pf_pillow_tell_step (const PfPillowPlan *plan, size_t place);
/* "Step 57 of 892 – repeat 7 of 38, row 3 of 9" */
char *pf_pillow_tell_place (const PfPillowPlan *plan, size_t place);
/* "On the pillow now: 12 pairs: 1–4, 7–14" */
char *pf_pillow_tell_pairs (const PfPillowPlan *plan, size_t place);
/* "Left to do: 835 steps, 310 stitches, 92 sewings, 14 pairs to sew in" */
char *pf_pillow_tell_left (const PfPillowPlan *plan, size_t place);
/* "Your note: ..." for the step at a place; NULL if there is none. */
char *pf_pillow_tell_note (PfEditor *editor, const PfPillowPlan *plan, size_t place);
/* Why the active motif can't be worked at the pillow, and what to do; NULL if it can. */
char *pf_pillow_tell_trouble (PfEditor *editor);

G_END_DECLS
