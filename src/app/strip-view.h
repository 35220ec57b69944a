/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The edge strip under the canvas: the edge of one loop of the active motif, unrolled, with its
 * pinholes and sewings. What is selected and hovered here is so on the canvas, and the other way
 * round.
 */
#pragma once

#include <gtk/gtk.h>

#include "editor.h"

G_BEGIN_DECLS

#define PF_TYPE_STRIP_VIEW (pf_strip_view_get_type ())
G_DECLARE_FINAL_TYPE (PfStripView, pf_strip_view, PF, STRIP_VIEW, GtkBox)

GtkWidget *pf_strip_view_new (PfEditor *editor);

/* Millimetres on the strip for one along the outline. */
double pf_strip_view_zoom (PfStripView *view);
/* Keeps the place that is `at` pixels from the left end of the strip, or what is in its middle if
 * `at` is negative. */
void pf_strip_view_set_zoom (PfStripView *view, double zoom, double at);

/* How lines of pairs look; as printed at first. */
void pf_strip_view_set_look (PfStripView *view, const PfLook *look);

#define PF_STRIP_ZOOM_MIN 0.05
#define PF_STRIP_ZOOM_MAX 20.0

G_END_DECLS
