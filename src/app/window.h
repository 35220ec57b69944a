/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The window: one document, the steps of the job at the left, the canvas, the step's panel at the
 * right, and the numbers below.
 */
#pragma once

#include "application.h"
#include "canvas.h"

G_BEGIN_DECLS

#define PF_TYPE_WINDOW (pf_window_get_type ())
G_DECLARE_FINAL_TYPE (PfWindow, pf_window, PF, WINDOW, GtkApplicationWindow)

/* An empty document. */
PfWindow *pf_window_new (PfApplication *application);

PfEditor *pf_window_editor (PfWindow *window);
PfCanvas *pf_window_canvas (PfWindow *window);
/* The document's file; NULL if it was never saved. */
GFile *pf_window_file (PfWindow *window);
/* Nothing was drawn or opened in it yet. */
bool pf_window_is_unused (PfWindow *window);

/* Says something above the canvas until the maker closes it or something else is said. */
void pf_window_say (PfWindow *window, GtkMessageType type, const char *text);

/* Opens a document, or imports a drawing or a picture, by what the file is. Errors are said in the
 * window. */
void pf_window_open (PfWindow *window, GFile *file);
/* Takes over work that was left behind, as unsaved. False, and said why, if it can't be read. */
bool pf_window_open_left (PfWindow *window, const PfLeftWork *left);
/* A demo motif to try things on, which counts as unused. */
void pf_window_open_demo (PfWindow *window);

G_END_DECLS
