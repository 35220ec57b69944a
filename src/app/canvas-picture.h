/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The picture: all layers of what is worked out, as they are printed. It is painted by librsvg in
 * another thread; what isn't painted yet, or isn't true any more, is drawn at once instead.
 *
 * A shot belongs to the very motifs it was made from. When those change it is gone: no line of an
 * older filling is ever shown.
 */
#pragma once

#include <sheet.h>

#include "canvas-shot.h"

G_BEGIN_DECLS

typedef struct PfPicture PfPicture;

/* `changed` is called with `data` in the main loop when a sharper shot has come. */
PfPicture *pf_picture_new (void (*changed) (gpointer data), gpointer data);
void pf_picture_free (PfPicture *picture);

/* Takes over `pricking`. True if another picture follows from it. */
bool pf_picture_set_pricking (PfPicture *picture, PfPricking *pricking);
bool pf_picture_set_layers (PfPicture *picture, PfLayers layers);
bool pf_picture_set_look (PfPicture *picture, const PfLook *look);
PfLayers pf_picture_layers (const PfPicture *picture);

/* What is to be shown in the view; borrowed, NULL before there is a pricking. A sharp shot follows
 * if this one isn't. */
PfShot *pf_picture_shot (PfPicture *picture, const PfCanvasView *view, int scale);
/* Is what was shown last as sharp as it gets? */
bool pf_picture_is_sharp (const PfPicture *picture);
/* `box` with room for the motif's numbers: where they are, or how far they usually reach. */
PfBox pf_picture_box_with_numbers (const PfPicture *picture, const PfMotif *motif, PfBox box);
/* The number that is shown at a place of the sheet, and its motif; NULL. Borrowed until the picture
 * changes. */
const PfNumber *pf_picture_find_number (const PfPicture *picture, PfPoint at,
                                        const PfMotif **motif);

G_END_DECLS
