/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How large a bead finds room where a ground has a place for one. Derived from the drawing alone:
 * a guide to what to try.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

/* From a stitch where a bead can sit to the nearest stitch that stands elsewhere, mm; the least for
 * all such stitches of the ground. 0 if it has none. */
double pf_bead_distance (const PfGround *ground, PfPlacement placement);

/* The thickness of the thread, mm: of the one that was chosen, or else the thickest one that suits
 * the gap; 0 if neither is known. */
double pf_bead_thread (const PfDraft *draft);

/* What it comes to for a motif, in words: the distance less a thread. Free with g_free(). */
char *pf_bead_room_words (PfEditor *editor, const PfDraft *draft);

G_END_DECLS
