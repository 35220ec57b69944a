/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the sheet lies on the canvas: which place is in the middle, how large, how turned. Plain
 * numbers; no widget.
 *
 * Pixels are the widget's own, from its top left corner. The rulers take `inset` pixels at the top
 * and at the left; the middle is that of what they leave.
 */
#pragma once

#include <shape.h>

G_BEGIN_DECLS

typedef struct {
  PfPoint middle;       /* the place of the sheet in the middle, mm */
  double zoom;          /* 1 is true size */
  double turn;          /* degrees clockwise that the sheet is turned, 0 to less than 360 */
  double pixels_per_mm; /* at true size */
  double width, height; /* of the widget, pixels */
  double inset;
} PfCanvasView;

#define PF_ZOOM_MIN 0.02
#define PF_ZOOM_MAX 100.0

/* True size on screens of 96 dpi. */
#define PF_CANVAS_PIXELS_PER_MM (96.0 / 25.4)

PfCanvasView pf_canvas_view_default (void);

/* From the sheet, mm, to pixels. */
PfAffine pf_canvas_view_map (const PfCanvasView *view);
PfPoint pf_canvas_view_to_screen (const PfCanvasView *view, PfPoint place);
PfPoint pf_canvas_view_to_sheet (const PfCanvasView *view, PfPoint pixel);
/* The mm to a pixel. */
double pf_canvas_view_pixel (const PfCanvasView *view);
PfPoint pf_canvas_view_centre (const PfCanvasView *view);
/* The box on the sheet that holds all that is seen, and `margin` pixels more on every side. */
PfBox pf_canvas_view_window (const PfCanvasView *view, double margin);
bool pf_canvas_view_equal (const PfCanvasView *a, const PfCanvasView *b);

/* Each keeps the place of the sheet at `pixel` where it is. Zoom stays within its limits. */
void pf_canvas_view_zoom_at (PfCanvasView *view, PfPoint pixel, double zoom);
void pf_canvas_view_turn_at (PfCanvasView *view, PfPoint pixel, double degrees);
/* Moves the sheet by pixels. */
void pf_canvas_view_pan (PfCanvasView *view, double x, double y);
/* As large as it can be with all of `box` seen, turned as it is, and some room round it. */
void pf_canvas_view_fit (PfCanvasView *view, PfBox box);
/* Moves as little as it can so that `place` lies `margin` pixels inside; false if it does. */
bool pf_canvas_view_show (PfCanvasView *view, PfPoint place, double margin);
/* Keeps the middle on `box`, so that the drawing can't be lost. */
void pf_canvas_view_keep (PfCanvasView *view, PfBox box);

G_END_DECLS
