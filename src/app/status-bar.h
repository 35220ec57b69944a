/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The line below the canvas: the counts of the active motif, live; which layers are shown; zoom and
 * turn of the view.
 */
#pragma once

#include "canvas.h"

G_BEGIN_DECLS

#define PF_TYPE_STATUS_BAR (pf_status_bar_get_type ())
G_DECLARE_FINAL_TYPE (PfStatusBar, pf_status_bar, PF, STATUS_BAR, GtkBox)

GtkWidget *pf_status_bar_new (PfEditor *editor, PfCanvas *canvas);

G_END_DECLS
