/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A drag on an outline: where it began, and the draft as it is for any place of the pointer. Every
 * step starts from the draft as it was, so that a drag is exact however it went.
 */
#pragma once

#include "outline-find.h"

G_BEGIN_DECLS

typedef struct {
  PfSpot spot;
  PfDraft *start; /* the motif as it was */
  PfPoint press;
  double pixel; /* then */
  bool moved;   /* farther than a trembling hand */
} PfOutlineDrag;

void pf_outline_drag_begin (PfOutlineDrag *drag, PfSpot spot, PfDraft *start, PfPoint press,
                            double pixel);
void pf_outline_drag_clear (PfOutlineDrag *drag);
/* The place that is dragged, as it was: of a node, a handle, a grip's anchor; else the press. */
PfPoint pf_outline_drag_anchor (const PfOutlineDrag *drag);
/* The draft with that place at `to`. `steady`: a turn goes by whole steps. */
PfDraft *pf_outline_drag_to (const PfOutlineDrag *drag, const PfNodeSet *nodes, PfPoint to,
                             bool steady);
/* What it does, translated. */
const char *pf_outline_drag_name (const PfOutlineDrag *drag, const PfNodeSet *nodes);

G_END_DECLS
