/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Walking: from one thing that the maker may want to correct to the next.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

typedef enum {
  PF_WALK_REPEATS, /* those that are partial or left out, row by row */
  PF_WALK_SEWINGS, /* all, round each loop */
  PF_WALK_TO_LOOK, /* sewings off their line, or at a warning, round each loop */
} PfWalk;

/* The steps of a walk through the active motif (PfPick); empty if it isn't filled now. Free with
 * g_array_unref(). */
GArray *pf_walk_steps (PfEditor *editor, PfWalk walk);
/* Which step is `pick`; -1 if it is none of them. */
int pf_walk_find (const GArray *steps, PfPick pick);
/* Selects the next step (`by` 1) or the one before (-1); the first or last if none is selected.
 * False at the walk's end, unless it goes `round`. */
bool pf_walk_go (PfEditor *editor, PfWalk walk, int by, bool round);

/* Where a thing is on the sheet; false for nothing. */
bool pf_pick_place (PfEditor *editor, PfPick pick, PfPoint *place);

G_END_DECLS
