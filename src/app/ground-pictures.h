/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pictures of grounds, drawn and rendered in a thread.
 */
#pragma once

#include <gtk/gtk.h>
#include <sheet.h>

G_BEGIN_DECLS

typedef enum {
  PF_GROUND_TILE_DRAWING,
  PF_GROUND_TILE_THREADS,
  PF_GROUND_DRAWING, /* with the names of stitches */
  PF_GROUND_THREADS,
} PfGroundPicture;

/* Draws a square picture with sides of so many pixels, on white. */
void pf_ground_picture_draw (PfGround *ground, PfGroundPicture picture, int side,
                             GCancellable *cancellable, GAsyncReadyCallback done, gpointer data);
GdkTexture *pf_ground_picture_finish (GAsyncResult *result, GError **error);

G_END_DECLS
