/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Two widgets, of which the first has the most room: beside each other in a wide window, the first
 * above the second in a tall one.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define PF_TYPE_PILLOW_SPLIT (pf_pillow_split_get_type ())
G_DECLARE_FINAL_TYPE (PfPillowSplit, pf_pillow_split, PF, PILLOW_SPLIT, GtkWidget)

GtkWidget *pf_pillow_split_new (GtkWidget *first, GtkWidget *second);

G_END_DECLS
