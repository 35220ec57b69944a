/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lists of remarks in a panel: each a few words, and what can be done about them.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* At most this many are shown; a line says how many more there are. */
#define PF_REMARKS_SHOWN 50

typedef void (*PfRemarkFunc) (guint number, gpointer data);

/* Empties a list, which is a box. */
void pf_remark_list_clear (GtkBox *list);
/* Adds remark `number` (counted from 0) as a button that goes to its place; `data` must outlive
 * the list. */
void pf_remark_list_add_place (GtkBox *list, guint number, const char *text, PfRemarkFunc go,
                               gpointer data);
/* Adds a remark with a button of its own beside it. */
void pf_remark_list_add_button (GtkBox *list, guint number, const char *text, const char *tip,
                                PfRemarkFunc act, gpointer data);

G_END_DECLS
