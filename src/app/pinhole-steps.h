/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Changes of the selected pinhole, one step to undo each, as keys and buttons make them.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

void pf_pinhole_select (PfEditor *editor, size_t loop, guint32 pinhole);
/* The selected pinhole, if it is one of the active motif, which `motif` is. */
bool pf_pinhole_selected (PfEditor *editor, const PfMotif *motif, PfPick *pick);

/* The functions below give false if there is nothing to do. */

/* Selects the next pinhole of a loop (`step` 1) or the one before (-1); the first or last if none
 * of that loop is selected, or, with `round`, after the loop's end. */
bool pf_pinhole_walk (PfEditor *editor, size_t loop, int step, bool round);
/* Moves it by some mm along the outline, up to its neighbours. Steps in a row are one change. */
bool pf_pinhole_nudge (PfEditor *editor, double by);
bool pf_pinhole_remove (PfEditor *editor);
/* Adds one, and selects it; half-way from the selected one to the next. */
bool pf_pinhole_add (PfEditor *editor, size_t loop, double along);
bool pf_pinhole_add_midway (PfEditor *editor);

G_END_DECLS
