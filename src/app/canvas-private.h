/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The inside of the canvas, shared by its files.
 */
#pragma once

#include "canvas-picture.h"
#include "canvas-underlay.h"
#include "canvas.h"
#include "teller.h"

G_BEGIN_DECLS

/* What the canvas is drawn from, from below. Each is drawn again only when it changed. */
typedef enum {
  PF_PART_DESK,    /* and the paper on it */
  PF_PART_DRAWING, /* all that lies on the paper, and the marks on it */
  PF_PART_RULERS,
  PF_N_PARTS
} PfCanvasPart;

typedef enum {
  PF_DRAG_NONE,
  PF_DRAG_TOOL, /* the tool goes on with it */
  PF_DRAG_PAN,
} PfDragKind;

typedef struct {
  PfDragKind drag;
  guint button;
  PfPoint start;             /* of the drag, pixels */
  double panned_x, panned_y; /* of it, pixels */
  int n_press;
  guint last_button;
  guint32 last_time;
  PfPoint last_press; /* pixels */
  bool space;         /* held: the pointer pans */
  double first_zoom, first_turn;
  PfPoint held; /* the place of the sheet between two fingers */
  bool turning;
} PfCanvasInput;

struct _PfCanvas {
  GtkWidget parent_instance;

  PfEditor *editor;
  PfHistory *history; /* of the document that the view was fitted to */
  PfTool *tool;
  PfPicture *picture;
  PfUnderlayPicture *underlay;
  GtkWidget *teller;

  PfCanvasView view;
  bool fit_pending; /* as soon as there is a size */
  bool fitted;      /* nothing was zoomed or moved since: stays so when the size changes */
  PfBox fitted_box;
  bool inches;
  PfPoint pointer; /* pixels; NANs: elsewhere */
  bool moving;     /* the view was changed a moment ago */
  guint still_timeout;
  GskRenderNode *parts[PF_N_PARTS];
  PfCanvasInput input;
};

/* Has parts drawn again: flags 1 << PfCanvasPart. */
#define PF_ALL_PARTS ((1u << PF_N_PARTS) - 1)
void pf_canvas_redraw (PfCanvas *canvas, guint parts);
/* To be called after the view was changed. */
void pf_canvas_view_changed (PfCanvas *canvas);

/* canvas-threads.c: tells the editor at which size threads are shown. */
void pf_canvas_follow_threads (PfCanvas *canvas);

/* canvas-draw.c */
void pf_canvas_draw (PfCanvas *canvas, GtkSnapshot *snapshot);
void pf_canvas_draw_focus (PfCanvas *canvas, GtkSnapshot *snapshot);

/* canvas-input.c */
void pf_canvas_init_input (PfCanvas *canvas);
/* Ends what the pointer is doing with the tool. */
void pf_canvas_cancel_drag (PfCanvas *canvas);
/* The tool's cursor, or that of panning. */
void pf_canvas_update_cursor (PfCanvas *canvas);

G_END_DECLS
