/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One tile of the gallery: a ground's title under a small picture, which is made in a thread when
 * it is asked for.
 */
#pragma once

#include <gtk/gtk.h>

#include "ground-pictures.h"

G_BEGIN_DECLS

#define PF_TYPE_GROUND_TILE (pf_ground_tile_get_type ())
G_DECLARE_FINAL_TYPE (PfGroundTile, pf_ground_tile, PF, GROUND_TILE, GtkFlowBoxChild)

/* Takes a reference to the ground. Signal "drawn": a picture that was asked for is there, or can't
 * be made. */
GtkWidget *pf_ground_tile_new (PfGround *ground);

/* Borrowed. */
PfGround *pf_ground_tile_ground (PfGroundTile *tile);
void pf_ground_tile_set_chosen (PfGroundTile *tile, bool chosen);

/* Which picture it shows: PF_GROUND_TILE_DRAWING or PF_GROUND_TILE_THREADS. White until it is
 * drawn.
 */
void pf_ground_tile_show (PfGroundTile *tile, PfGroundPicture picture);
bool pf_ground_tile_lacks_picture (PfGroundTile *tile);
void pf_ground_tile_draw (PfGroundTile *tile);

G_END_DECLS
