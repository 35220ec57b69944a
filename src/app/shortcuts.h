/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * All keys of the window, in one table: what they do, and the window that lists them.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct {
  const char *group;  /* heading, to be translated */
  const char *title;  /* what it does, to be translated */
  const char *keys;   /* as gtk_accelerator_parse() has it; several with blanks between */
  const char *action; /* the action they start; NULL: the canvas itself takes the key */
} PfShortcut;

/* The table; groups stand together. */
const PfShortcut *pf_shortcuts (size_t *n);
/* Gives every action its keys. An action may have a parameter: win.stage(2). */
void pf_shortcuts_install (GtkApplication *application);

/* The window that lists the keys. */
GtkWidget *pf_shortcuts_window_new (GtkWindow *parent);
/* What Pinfold is. */
void pf_about_dialog_show (GtkWindow *parent);

G_END_DECLS
