/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The rail: the steps of the job from top to bottom, each with its number, its name and what it has
 * come to: how many motifs, which edge, which ground, how many sewings, which paper.
 */
#pragma once

#include <gtk/gtk.h>

#include "editor.h"

G_BEGIN_DECLS

#define PF_TYPE_RAIL (pf_rail_get_type ())
G_DECLARE_FINAL_TYPE (PfRail, pf_rail, PF, RAIL, GtkBox)

GtkWidget *pf_rail_new (PfEditor *editor);

G_END_DECLS
