/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Crossings: where pair lines are cut at the edge.
 */
#pragma once

#include "lattice.h"

/* A pair line that is cut: between the two stitches that remain after the dropped ones on its way.
 */
typedef struct {
  PfStitchId from, to;
  PfSide from_side, to_side;
  bool from_inside, to_inside;
  PfPlace leaves; /* where it leaves the region; if from_inside */
  PfPlace enters; /* where it enters again; if to_inside */
} PfCutLine;

/* All pair lines of the lattice that are cut, as an array of PfCutLine. A line between two inside
 * stitches is cut if more than 1e-6 mm of it lie outside the region. */
GArray *pf_find_cut_lines (const PfLattice *lattice, const PfRegion *region);

/* Follows the pair that leaves `from` by its exit on `side`, straight on through dropped stitches:
 * gives the stitch it comes to, and in `*entry` the side it enters there. */
PfStitchId pf_follow_pair (const PfLattice *lattice, PfStitchId from, PfSide side, PfSide *entry);

/* The other way: where the pair that enters `to` on `side` comes from, and its exit there. */
PfStitchId pf_trace_pair (const PfLattice *lattice, PfStitchId to, PfSide side, PfSide *exit);
