/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Shots: what was seen of the drawing from one view, as pixels. From another view it is shown
 * moved, scaled and turned.
 */
#pragma once

#include <gtk/gtk.h>

#include "canvas-view.h"

G_BEGIN_DECLS

typedef struct {
  cairo_surface_t *surface;
  GdkTexture *texture; /* the same; made when it is asked for */
  PfAffine map;        /* from the sheet, mm, to the surface's pixels */
  PfCanvasView view;
  int scale; /* pixels of the surface to one of the widget */
} PfShot;

/* An empty one of all that is seen, and `margin` pixels of the widget more on every side. */
PfShot *pf_shot_new (const PfCanvasView *view, double margin, int scale);
void pf_shot_free (PfShot *shot);

/* To draw in it, one user unit to the mm. Destroy it when done. */
cairo_t *pf_shot_cairo (const PfShot *shot);
/* Is it as sharp as one of that view would be? */
bool pf_shot_is_sharp_for (const PfShot *shot, const PfCanvasView *view, int scale);
/* Does it hold all of `sheet` (mm) that is seen in the view? */
bool pf_shot_covers (const PfShot *shot, const PfCanvasView *view, PfBox sheet);

/* Shows the shot as it lies in the view: by cairo, in the widget's pixels, or as a texture, for
 * where a graphics card draws. */
void pf_shot_paint (const PfShot *shot, const PfCanvasView *view, cairo_t *cr);
void pf_shot_append (PfShot *shot, const PfCanvasView *view, GtkSnapshot *snapshot);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfShot, pf_shot_free)

G_END_DECLS
