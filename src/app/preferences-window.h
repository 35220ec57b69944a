/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The window in which the maker chooses her preferences.
 */
#pragma once

#include <gtk/gtk.h>

#include "preferences.h"

G_BEGIN_DECLS

/* A window over `parent`; what is changed in it holds at once. */
GtkWidget *pf_preferences_window_new (GtkWindow *parent, PfPreferences *preferences);

G_END_DECLS
