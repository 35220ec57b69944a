/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the maker says which grounds are wanted: words, the number of pairs in a repeat, a family.
 */
#pragma once

#include <gtk/gtk.h>

#include "ground-search.h"

G_BEGIN_DECLS

#define PF_TYPE_GROUND_FINDER (pf_ground_finder_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundFinder, pf_ground_finder, PF, GROUND_FINDER, GtkBox)

/* Signals: "changed": another search. "leave": Down in the words, to go on to what was found.
 * "accept": Return in the words, to take the first.
 *
 * Offers the families and numbers of pairs that the grounds (of PfGround) have. */
GtkWidget *pf_ground_finder_new (GPtrArray *grounds);

/* Its strings are borrowed until the next change. */
PfGroundSearch pf_ground_finder_search (PfGroundFinder *finder);
/* Wants all grounds again. */
void pf_ground_finder_clear (PfGroundFinder *finder);
/* Keys typed in `widget` are words to search for. */
void pf_ground_finder_listen_in (PfGroundFinder *finder, GtkWidget *widget);
void pf_ground_finder_focus_words (PfGroundFinder *finder);

G_END_DECLS
