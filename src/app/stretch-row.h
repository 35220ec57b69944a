/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One stretch of an edge in the panel: its stitch, from where to where, and a button to remove it.
 *
 * Signals: "changed", when the maker changes one of them; "removed".
 */
#pragma once

#include <gtk/gtk.h>

#include <shape.h>

G_BEGIN_DECLS

#define PF_TYPE_STRETCH_ROW (pf_stretch_row_get_type ())
G_DECLARE_FINAL_TYPE (PfStretchRow, pf_stretch_row, PF, STRETCH_ROW, GtkGrid)

/* `number` counts from 0. */
GtkWidget *pf_stretch_row_new (size_t number);
size_t pf_stretch_row_number (PfStretchRow *row);
/* Shows a stretch of a loop `length` mm long. Emits nothing. */
void pf_stretch_row_set (PfStretchRow *row, PfEdgeStretch stretch, double length);
PfEdgeStretch pf_stretch_row_get (PfStretchRow *row);

G_END_DECLS
