/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Work that was left behind by a crash, offered back.
 */
#pragma once

#include <document.h>
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Opens one piece of work; false if it can't be (and the maker has been told): it stays listed. */
typedef bool (*PfOpenLeftWork) (const PfLeftWork *left, gpointer data);

/* Offers the pieces of work in `list` (of PfLeftWork; takes a reference). What the maker opens goes
 * to `open`, what she throws away is discarded, the rest stays for the next start. */
GtkWidget *pf_left_work_dialog_new (GtkWindow *parent, GPtrArray *list, PfOpenLeftWork open,
                                    gpointer data);

G_END_DECLS
