/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tiles of the gallery: a small picture of each ground and its title, those that are searched
 * for. The pictures are made in a thread, one after another, those in view first.
 */
#pragma once

#include <gtk/gtk.h>

#include "ground-search.h"

G_BEGIN_DECLS

#define PF_TYPE_GROUND_TILES (pf_ground_tiles_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundTiles, pf_ground_tiles, PF, GROUND_TILES, GtkBox)

/* Signals: "chosen" (const char *name): the maker takes another ground than the chosen one.
 * "about" (const char *name): the maker wants to know more of it. "left-upwards": with the arrow
 * key, from the first row.
 *
 * For the grounds (of PfGround), in their order. */
GtkWidget *pf_ground_tiles_new (GPtrArray *grounds);

/* Shows those that the search finds, and says how many these are. */
guint pf_ground_tiles_search (PfGroundTiles *tiles, PfGroundSearch search);
/* The threads close up, or drawings of pins and pair lines. */
void pf_ground_tiles_show_threads (PfGroundTiles *tiles, bool threads);

/* Marks the one of that name as chosen; none for NULL or a name that isn't among them. */
void pf_ground_tiles_set_chosen (PfGroundTiles *tiles, const char *name);
/* The one that had the keyboard last; else the chosen one; else the first. Of those shown; NULL if
 * there are none. Borrowed. */
const PfGround *pf_ground_tiles_current (PfGroundTiles *tiles);
/* Those shown, in their order; free with g_ptr_array_unref(). */
GPtrArray *pf_ground_tiles_shown (PfGroundTiles *tiles);

/* Gives the first of those shown the keyboard; takes it as the maker's choice. */
void pf_ground_tiles_focus_first (PfGroundTiles *tiles);
void pf_ground_tiles_choose_first (PfGroundTiles *tiles);

G_END_DECLS
