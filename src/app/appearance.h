/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How all windows look: light, dark, with high contrast.
 */
#pragma once

#include <gtk/gtk.h>

#include "preferences.h"

G_BEGIN_DECLS

/* Windows look as "style" says, now and whenever it changes. Call it once there is a display. */
void pf_appearance_follow (PfPreferences *preferences);

/* Do windows look dark now? Told from the colour of words in `widget`. */
bool pf_appearance_is_dark (GtkWidget *widget);

G_END_DECLS
