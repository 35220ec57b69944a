/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The picture that lies under the drawing, such as a scan: read in another thread.
 */
#pragma once

#include <document.h>

#include "canvas-shot.h"

G_BEGIN_DECLS

typedef struct PfUnderlayPicture PfUnderlayPicture;

/* `changed` is called with `data` in the main loop when a file has been read, or can't be. */
PfUnderlayPicture *pf_underlay_picture_new (void (*changed) (gpointer data), gpointer data);
void pf_underlay_picture_free (PfUnderlayPicture *picture);

/* Goes over to another underlay (NULL: none). A file that is shown already isn't read again. */
void pf_underlay_picture_set (PfUnderlayPicture *picture, const PfUnderlay *underlay);
/* Why it can't be shown, or NULL. */
const char *pf_underlay_picture_trouble (const PfUnderlayPicture *picture);
/* Where it lies on the sheet, mm; false while there is none to be seen. */
bool pf_underlay_picture_box (const PfUnderlayPicture *picture, PfBox *box);

/* Paints it in the widget's pixels. `smooth` takes longer: for a view that is still. */
void pf_underlay_picture_paint (const PfUnderlayPicture *picture, const PfCanvasView *view,
                                bool smooth, cairo_t *cr);

G_END_DECLS
