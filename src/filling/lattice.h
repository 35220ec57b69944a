/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The lattice: all repeats that can touch a region, with one bit for each stitch of each.
 *
 * A plane holds one bit for each repeat (i, j): row j, bit i - i0. There is a plane for each stitch
 * of the ground. Rows and columns have room to spare all round, so that every stitch inside has its
 * neighbours in the lattice, and a row may be shifted by PF_GROUND_MAX_REACH bits without loss.
 */
#pragma once

#include "filling.h"

typedef struct {
  const PfGround *ground;
  double gap;
  PfAffine to_sheet;   /* from ground units to the sheet */
  PfAffine to_lattice; /* from the sheet to repeat numbers: (i, j) of the ground's origin */
  PfPoint *offsets;    /* of each stitch, in repeats */
  int i0, j0;          /* the first repeat */
  int n_columns, n_rows;
  size_t row_words, plane_words;
  guint64 *inside; /* n_stitches planes: the stitches that are worked */
  guint64 *plain;  /* one plane: the repeats whose core is dropped */
  guint32 *before; /* for each word of `inside`, the number of bits before it */
  size_t n_inside;
} PfLattice;

/* An empty lattice over the region's box. PF_ERROR_TOO_BIG. */
PfLattice *pf_lattice_new (const PfRegion *region, const PfGround *ground,
                           const PfPlacement *placement, GError **error);
void pf_lattice_free (PfLattice *lattice);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfLattice, pf_lattice_free)

/* floor() and ceil() of numbers that fit an int, without the call that these are on a plain x86-64.
 */
static inline int
pf_floor (double x)
{
  const int i = (int) x;
  return i - (i > x);
}

static inline int
pf_ceil (double x)
{
  const int i = (int) x;
  return i + (i < x);
}

static inline bool
pf_lattice_has (const PfLattice *lattice, int i, int j)
{
  return i >= lattice->i0 && i < lattice->i0 + lattice->n_columns && j >= lattice->j0 &&
         j < lattice->j0 + lattice->n_rows;
}

static inline guint64 *
pf_lattice_plane (const PfLattice *lattice, int k)
{
  return lattice->inside + (size_t) k * lattice->plane_words;
}

static inline guint64 *
pf_lattice_row (const PfLattice *lattice, int k, int j)
{
  return pf_lattice_plane (lattice, k) + (size_t) (j - lattice->j0) * lattice->row_words;
}

/* The bit of repeat (i, j), which is in the lattice, in a plane. */
static inline bool
pf_lattice_bit (const PfLattice *lattice, const guint64 *plane, int i, int j)
{
  const size_t column = (size_t) (i - lattice->i0);
  const guint64 *row = plane + (size_t) (j - lattice->j0) * lattice->row_words;
  return row[column / 64] >> (column % 64) & 1;
}

static inline bool
pf_lattice_inside (const PfLattice *lattice, PfStitchId s)
{
  return pf_lattice_has (lattice, s.i, s.j) &&
         pf_lattice_bit (lattice, pf_lattice_plane (lattice, s.k), s.i, s.j);
}

/* Is the stitch a core stitch of a plain repeat, where pairs pass straight on? */
static inline bool
pf_lattice_dropped (const PfLattice *lattice, PfStitchId s)
{
  return lattice->ground->stitches[s.k].core && pf_lattice_has (lattice, s.i, s.j) &&
         pf_lattice_bit (lattice, lattice->plain, s.i, s.j);
}

static inline PfPoint
pf_lattice_position (const PfLattice *lattice, PfStitchId s)
{
  return pf_affine_map (lattice->to_sheet, pf_ground_position (lattice->ground, s.k, s.i, s.j));
}

/* Counts the bits of `inside`, once it is final: fills in `before` and `n_inside`. */
void pf_lattice_count (PfLattice *lattice);

/* The number of a worked stitch, in the order by k, then j, then i. */
static inline guint32
pf_lattice_index (const PfLattice *lattice, PfStitchId s)
{
  const size_t column = (size_t) (s.i - lattice->i0);
  const size_t word = (size_t) s.k * lattice->plane_words +
                      (size_t) (s.j - lattice->j0) * lattice->row_words + column / 64;
  const guint64 below = lattice->inside[word] & ((G_GUINT64_CONSTANT (1) << (column % 64)) - 1);
  return lattice->before[word] + (guint32) __builtin_popcountll (below);
}

/* Marks the stitches that lie strictly within the region, at least `clearance` gaps (with 1e-6 mm
 * to spare) from its outline. */
void pf_lattice_find_inside (PfLattice *lattice, const PfRegion *region, double clearance);

/* Sorts the repeats into whole, partial, kept, plain and left out, as the maker chose where she
 * did; takes the stitches of those left out, and the dropped cores, out of `inside`. Of the filling
 * it counts stitches, pins, beads and repeats, and notes choices that can't be kept to. Gives the
 * repeats that aren't whole, and in `*beads` the stitches with a bead. */
GArray *pf_lattice_find_repeats (PfLattice *lattice, const PfFillingSettings *settings,
                                 PfFilling *filling, GArray **beads);
