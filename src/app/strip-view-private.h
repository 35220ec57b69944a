/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The inside of the edge strip's widget, shared by its files.
 */
#pragma once

#include "edge-drag.h"
#include "strip-view.h"

G_BEGIN_DECLS

struct _PfStripView {
  GtkBox parent_instance;

  PfEditor *editor;
  GtkWidget *loops, *area, *teller, *scrollbar;
  GtkAdjustment *scroll; /* mm along the loop */
  PfMotif *motif;        /* the active one, perhaps without a filling; NULL */
  size_t loop;
  PfLook look;
  double zoom;
  bool fitted, updating;
  PfPick shown; /* what was last scrolled to */
  PfEdgeDrag drag;
  PfPoint from; /* where the drag began, pixels */
};

/* The part of the strip that is shown; false if there is none. */
bool pf_strip_view_get_strip (PfStripView *view, PfEdgeStrip *strip);
/* Pixels to the mm of the strip. */
double pf_strip_view_scale (PfStripView *view);

/* strip-input.c */
void pf_strip_view_init_input (PfStripView *view);
/* strip-marks.c: the strip with what is selected and hovered. */
void pf_strip_view_draw (PfStripView *view, cairo_t *cr, int width, int height);

G_END_DECLS
