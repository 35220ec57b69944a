/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Measuring the screen, so that true size is true.
 */
#pragma once

#include <gtk/gtk.h>

#include "preferences.h"

G_BEGIN_DECLS

/* A dialog in which the maker stretches a drawing until it is as long as a thing she holds against
 * the screen. What she accepts becomes the preferences' "pixels-per-mm". */
GtkWidget *pf_true_size_dialog_new (GtkWindow *parent, PfPreferences *preferences);

G_END_DECLS
