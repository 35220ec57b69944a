/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A pinhole or a sewing dragged along its loop, on the canvas or in the edge strip: one change.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

/* All zero when nothing is dragged. */
typedef struct {
  PfEditor *editor;
  PfDraft *start; /* the draft when the drag began */
  PfMotif *motif; /* what was worked out from it */
  PfPick pick;    /* what is dragged: a pinhole or a sewing of the active motif */
  size_t loop;
} PfEdgeDrag;

/* False if the thing can't be dragged: the motif follows another one, or it is in work. */
bool pf_edge_drag_begin (PfEdgeDrag *drag, PfEditor *editor, PfPick pick);
/* Drags it to a place along its loop, mm. A sewing goes into a pinhole that is within `snap` mm. */
void pf_edge_drag_to (PfEdgeDrag *drag, double along, double snap);
/* Makes what was dragged a change. */
void pf_edge_drag_end (PfEdgeDrag *drag);
/* Takes it back. */
void pf_edge_drag_cancel (PfEdgeDrag *drag);

static inline bool
pf_edge_drag_active (const PfEdgeDrag *drag)
{
  return drag->start != NULL;
}

G_END_DECLS
