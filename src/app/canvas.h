/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The canvas: the pricking, sharp at every zoom, with rulers in mm, and the overlay on top.
 */
#pragma once

#include "canvas-view.h"
#include "tool.h"

G_BEGIN_DECLS

#define PF_TYPE_CANVAS (pf_canvas_get_type ())
G_DECLARE_FINAL_TYPE (PfCanvas, pf_canvas, PF, CANVAS, GtkWidget)

GtkWidget *pf_canvas_new (PfEditor *editor);

/* Takes a reference; NULL for none: the canvas can only be looked at. */
void pf_canvas_set_tool (PfCanvas *canvas, PfTool *tool);
PfTool *pf_canvas_tool (PfCanvas *canvas);

PfLayers pf_canvas_layers (PfCanvas *canvas);
void pf_canvas_set_layers (PfCanvas *canvas, PfLayers layers);
/* Are threads to be shown, and all too small to be at this zoom? */
bool pf_canvas_threads_too_small (PfCanvas *canvas);
/* Zooms in on the active motif, or another one that is filled, until its threads can be seen well.
 */
void pf_canvas_zoom_to_threads (PfCanvas *canvas);
/* How lines of pairs look; as printed at first. */
void pf_canvas_set_look (PfCanvas *canvas, const PfLook *look);

/* --- The view -----------------------------------------------------------------------------------
 */

/* Screen pixels to the mm at true size; 96 dpi (3.78) until the maker has measured. */
void pf_canvas_set_true_size (PfCanvas *canvas, double pixels_per_mm);
/* 1 is true size on this screen. */
double pf_canvas_zoom (PfCanvas *canvas);
/* Zooms about the middle of the canvas. */
void pf_canvas_set_zoom (PfCanvas *canvas, double zoom);
/* All of the drawing, or the active motif, as large as it can be. */
void pf_canvas_fit (PfCanvas *canvas);
void pf_canvas_fit_active (PfCanvas *canvas);
/* Degrees clockwise that the sheet is turned on the screen. */
double pf_canvas_turn (PfCanvas *canvas);
void pf_canvas_set_turn (PfCanvas *canvas, double degrees);
/* Scrolls so that a place of the sheet can be seen, if it can't. */
void pf_canvas_show_place (PfCanvas *canvas, PfPoint place);
/* A place of the sheet on the canvas, in pixels, and back. */
PfPoint pf_canvas_to_screen (PfCanvas *canvas, PfPoint place);
PfPoint pf_canvas_to_sheet (PfCanvas *canvas, PfPoint pixel);

/* Does the pointer drag something of the drawing (not the view)? */
bool pf_canvas_dragging (PfCanvas *canvas);

/* Rulers in inches, not mm. */
void pf_canvas_set_inches (PfCanvas *canvas, bool inches);

/* Signal "view-changed": zoom, turn, place, or layers. */

/* --- For tools ----------------------------------------------------------------------------------
 */

/* What lies at a place of the sheet: of motifs' repeats, sewings, pairs and pinholes those that
 * `kinds` (1 << PfPickKind) name; the nearest within `reach` mm, small things before large ones. */
PfPick pf_find_pick (PfEditor *editor, PfPoint at, double reach, guint kinds);

G_END_DECLS
