/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tellers: children that take the keyboard for what is drawn. A teller's accessible name is what is
 * selected, for those who don't see it.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *pf_teller_new (void);
void pf_teller_tell (GtkWidget *teller, const char *words);

G_END_DECLS
