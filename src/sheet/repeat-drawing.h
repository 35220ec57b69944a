/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One repeat, enlarged, as it is worked: the pairs in their own line styles and numbers, pins by
 * name, missing ones as ghosts, sewings with letters, and at each place the numbers of the steps
 * that are done there. It is turned so that the work runs down the page.
 */
#pragma once

#include <repeat-kinds.h>

#include "layers.h"

G_BEGIN_DECLS

typedef struct {
  bool worksheet; /* pins and edge alone: the lines are for the reader to find */
  bool colour;    /* pairs have colours, too */
} PfRepeatLook;

typedef struct PfRepeatPicture PfRepeatPicture;

/* The picture of repeat (i, j) of a filled motif (borrowed), with its steps (taken over), at most
 * `width` by `height` mm. */
PfRepeatPicture *pf_repeat_picture_new (const PfMotif *motif, PfRepeatWork *work, int i, int j,
                                        PfRepeatLook look, double width, double height);
void pf_repeat_picture_free (PfRepeatPicture *picture);

/* What it takes up, mm. */
void pf_repeat_picture_size (const PfRepeatPicture *picture, double *width, double *height);

/* Which of its labels found no room, in words to stand below it; NULL if all did. Borrowed. */
const char *pf_repeat_picture_left_out (const PfRepeatPicture *picture);

/* Draws it into a box of that size. */
void pf_repeat_picture_draw (PfPage *page, PfBox box, gpointer picture);

/* From the motif to a drawing in which the work runs down: not turned, `scale` times as large. */
PfAffine pf_worked_map (const PfMotif *motif, double scale);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfRepeatPicture, pf_repeat_picture_free)

G_END_DECLS
