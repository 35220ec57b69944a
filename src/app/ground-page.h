/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The page of a ground: its drawing, its threads close up, and all that is known of it.
 */
#pragma once

#include <gtk/gtk.h>
#include <sheet.h>

#include "length.h"

G_BEGIN_DECLS

#define PF_TYPE_GROUND_PAGE (pf_ground_page_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundPage, pf_ground_page, PF, GROUND_PAGE, GtkBox)

/* Signal "use" (const char *name): the maker wants to work with this ground.
 *
 * A window with a page, over `parent`; Escape closes it. `*page` is inside it. */
GtkWidget *pf_ground_page_window_new (GtkWindow *parent, PfGroundPage **page);

/* Shows one of these grounds (of PfGround; a reference is taken), between which the maker can go to
 * and fro. */
void pf_ground_page_show (PfGroundPage *page, GPtrArray *grounds, guint n, PfUnits units);

G_END_DECLS
