/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The wheel over a panel moves the panel, never a number under the pointer.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* `scroller` holds the panel. */
void pf_panel_wheel_moves_only (GtkScrolledWindow *scroller);

G_END_DECLS
