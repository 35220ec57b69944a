/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the maker likes to work the active motif: which side first, repeat by repeat or row by row,
 * and when new pairs are sewn in. A part of a panel.
 */
#pragma once

#include "panel.h"

G_BEGIN_DECLS

#define PF_TYPE_HABITS_BOX (pf_habits_box_get_type ())
G_DECLARE_FINAL_TYPE (PfHabitsBox, pf_habits_box, PF, HABITS_BOX, GtkBox)

/* Shows the habits of `draft` (NULL: none). Called from its panel's update(). */
void pf_habits_box_show (PfHabitsBox *box, const PfDraft *draft);

G_END_DECLS
