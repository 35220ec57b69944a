/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Work on sewings that the canvas, the edge strip and the panel share: where one can go, which line
 * it can turn with, and the changes of the maker's choices. Each change is one step to undo.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

/* The active motif if it is filled now; NULL. Borrowed. */
const PfMotif *pf_sewing_motif (PfEditor *editor);

/* The cut line that names a sewing: the one it begins, else the one it ends. */
PfLineId pf_sewing_line (const PfFilling *filling, guint32 sewing);

/* The pinhole after its place (`step` 1) or before it (-1); PF_NONE if that is too far from where
 * its pair meets the edge. */
guint32 pf_sewing_next_pinhole (const PfMotif *motif, guint32 sewing, int step);
/* The choice of place for a sewing at `along` mm of its loop, or as near to that as it can go: the
 * nearest pinhole, unless the edge is half stitch there and no pinhole is within `snap` mm. */
PfSewingChoice pf_sewing_choice_at (const PfMotif *motif, guint32 sewing, double along,
                                    double snap);
/* Can it go round the bar where it is? */
bool pf_sewing_can_be_round_bar (const PfMotif *motif, guint32 sewing);

/* The crossings that a sewing can turn with, the nearest along the outline first, at most
 * PF_SEWING_PARTNERS of them (guint32). Free with g_array_unref(). */
#define PF_SEWING_PARTNERS 8
GArray *pf_sewing_partners (const PfMotif *motif, guint32 sewing);
/* A crossing by what stands on the canvas: "Pair 7, which enters at pinhole 12, 4.5 mm on". Free
 * with g_free(). */
char *pf_sewing_partner_name (const PfMotif *motif, guint32 sewing, guint32 crossing,
                              PfUnits units);

/* Has the maker chosen something for this sewing, kept to or not? */
bool pf_sewing_has_choice (const PfMotif *motif, guint32 sewing);
/* The maker's choice for repeat (i, j); PF_REPEAT_WHOLE for none. */
PfRepeatState pf_repeat_choice (const PfMotif *motif, int i, int j);

/* --- Changes, of sewings of the active motif; `draft` is a copy (taken over) --------------------
 */

/* Into the next pinhole along the loop (`step` 1), or the previous one (-1); false if it can't be
 * moved so far. */
bool pf_sewing_move (PfEditor *editor, PfDraft *draft, guint32 sewing, int step);
void pf_sewing_go_round_bar (PfEditor *editor, PfDraft *draft, guint32 sewing);
void pf_sewing_make_alone (PfEditor *editor, PfDraft *draft, guint32 sewing);
/* What was selected there goes with the line that turns. */
void pf_sewing_turn_with (PfEditor *editor, PfDraft *draft, guint32 sewing, guint32 crossing);
void pf_sewing_reset (PfEditor *editor, PfDraft *draft, guint32 sewing);
void pf_repeat_choose (PfEditor *editor, PfDraft *draft, int i, int j, PfRepeatState state);
void pf_choices_reset_all (PfEditor *editor, PfDraft *draft);
/* Takes one choice away that isn't kept to. */
void pf_choice_remove (PfEditor *editor, PfDraft *draft, const PfUnheeded *unheeded);

G_END_DECLS
