/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The wheel over a panel moves the panel, never a number under the pointer.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The wheel scrolls `inside`, or what it is in, and changes no number or scale there. */
void pf_panel_wheel_moves_only (GtkWidget *inside);

G_END_DECLS
