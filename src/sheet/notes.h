/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to the working notes: what is being set of one motif.
 */
#pragma once

#include "teaching.h"

G_BEGIN_DECLS

typedef struct {
  PfFlow *flow;
  const PfMotif *motif;
  const PfWorkingSteps *steps;
  const PfRepeatKinds *kinds;
  PfTeaching what;
  bool colour;
} PfNotes;

/* notes-order.c: the maker's habits, the map of the repeats, and their order. */
void pf_notes_add_order (const PfNotes *notes);
/* notes-map.c: the map with the numbers of the repeats: if they would be too small, the whole
 * without numbers, and after it enlarged parts of it with them, a page each. */
void pf_notes_add_map (const PfNotes *notes);

G_END_DECLS
