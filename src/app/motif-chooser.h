/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which motif the panel below is about. Shown where there are several, and a stage works on one of
 * them without listing them itself.
 */
#pragma once

#include <gtk/gtk.h>

#include "editor.h"

G_BEGIN_DECLS

#define PF_TYPE_MOTIF_CHOOSER (pf_motif_chooser_get_type ())
G_DECLARE_FINAL_TYPE (PfMotifChooser, pf_motif_chooser, PF, MOTIF_CHOOSER, GtkBox)

GtkWidget *pf_motif_chooser_new (PfEditor *editor);
/* One that is shown in every stage. */
GtkWidget *pf_motif_chooser_new_everywhere (PfEditor *editor);

G_END_DECLS
