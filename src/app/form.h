/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forms: rows of a name and what it names, the same in all dialogs and panels.
 */
#pragma once

#include <stdbool.h>

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A grid for rows. */
GtkWidget *pf_form_new (void);
/* A heading over the rows that follow. */
void pf_form_add_heading (GtkGrid *form, const char *text);
/* A row: `mnemonic` (with an underscore) names `widget`, for the eye, the keyboard and for who
 * hears the screen. */
void pf_form_add_row (GtkGrid *form, const char *mnemonic, GtkWidget *widget);
/* The same, of a row with several widgets in a box, the main one of which is named. */
void pf_form_add_row_for (GtkGrid *form, const char *mnemonic, GtkWidget *box, GtkWidget *widget);
/* A row without a name. */
void pf_form_add_wide (GtkGrid *form, GtkWidget *widget);

/* Names a widget for who hears the screen; underscores are left out. */
void pf_name_widget (GtkWidget *widget, const char *mnemonic);
/* Names the button inside, which has the keyboard, with what is chosen: "Paper: A4". */
void pf_name_choice (GtkDropDown *choice, const char *mnemonic);

/* Words in small, that explain; they wrap. */
GtkWidget *pf_hint_new (const char *text);

/* A window over `parent`, which Escape closes, with a title bar of its own. */
GtkWidget *pf_dialog_new (GtkWindow *parent, const char *title, bool modal);
/* A button in its title bar, on the side where the system puts it. */
GtkWidget *pf_dialog_add_button (GtkWindow *dialog, const char *mnemonic, bool at_end);

G_END_DECLS
