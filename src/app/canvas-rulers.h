/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The rulers at the top and at the left of the canvas. In a view that isn't turned they show
 * places on the sheet; else distances on the screen, from where the sheet's corner is.
 */
#pragma once

#include <gtk/gtk.h>

#include "canvas-view.h"

G_BEGIN_DECLS

/* How wide a ruler is, in pixels. */
#define PF_RULER_WIDTH 24.0

/* The lines of a ruler: every `step` mm a long one with its number, parted in `parts`. */
typedef struct {
  double step;
  int parts;
  double unit; /* mm: what the numbers count */
} PfRulerScale;

PfRulerScale pf_ruler_scale (double pixel, bool inches);
/* The number at `mm`, in the scale's unit, as short as can be. Free with g_free(). */
char *pf_ruler_number (const PfRulerScale *scale, double mm);

typedef struct {
  const PfCanvasView *view;
  bool inches;
  PfPoint pointer; /* pixels; NANs if the pointer is elsewhere */
  GdkRGBA ink, paper, mark;
} PfRulers;

void pf_rulers_snapshot (const PfRulers *rulers, GtkWidget *widget, GtkSnapshot *snapshot);

G_END_DECLS
