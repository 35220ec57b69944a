/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Working notes: how a repeat of each ground is worked, the order of work, and for each kind of
 * partial repeat, once, an enlarged drawing with its steps beside it. On a worksheet the steps and
 * the lines of the pairs are left to be found.
 */
#pragma once

#include <sheet.h>

#include <repeat-kinds.h>

#include "flow.h"

G_BEGIN_DECLS

/* Appends the notes on all motifs, as one part of what is set: a heading of level 1, and below it
 * those of the motifs and kinds. */
void pf_teaching_add (PfFlow *flow, const PfPricking *pricking, PfTeaching what, bool colour);

/* The name of kind n, counted from 0: "A", "B", ... "Z", "AA". Free with g_free(). */
char *pf_kind_letters (guint32 n);

/* kind-table.c: which pairs of the motif those in the drawing of kind k are, and where they are
 * sewn, in each of its repeats (the first 200). */
void pf_kind_table_add (PfFlow *flow, const PfMotif *motif, const PfRepeatKinds *kinds,
                        const PfWorkingSteps *steps, guint32 k);

G_END_DECLS
