/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lays the lattice over the region's box, and numbers the stitches in it.
 */
#include "lattice.h"

#include <math.h>

#include <glib/gi18n-lib.h>

/* Bits in all planes together: 32 MiB of memory. A box that needs more is far beyond
 * PF_FILLING_MAX_STITCHES, unless the region is a long thin band across the lattice. */
#define MAX_BITS (256.0 * 1024 * 1024)

typedef struct {
  double min, max;
} Range;

static void
range_take (Range *range, double value)
{
  range->min = fmin (range->min, value);
  range->max = fmax (range->max, value);
}

/* The affine map from repeats to the sheet: where the origin of repeat (i, j) lies. */
static PfAffine
repeats_to_sheet (const PfGround *ground, PfAffine to_sheet)
{
  const PfAffine repeats = { ground->a.x, ground->b.x, ground->a.y, ground->b.y, 0, 0 };
  return pf_affine_compose (to_sheet, repeats);
}

/* The repeat numbers that stitches in the region's box can have. */
static void
box_ranges (const PfLattice *lattice, const PfBox *box, Range *columns, Range *rows)
{
  *columns = *rows = (Range){ INFINITY, -INFINITY };
  for (int corner = 0; corner < 4; corner++)
    {
      const PfPoint p = { corner & 1 ? box->max.x : box->min.x,
                          corner & 2 ? box->max.y : box->min.y };
      const PfPoint at = pf_affine_map (lattice->to_lattice, p);
      for (int k = 0; k < lattice->ground->n_stitches; k++)
        {
          range_take (columns, at.x - lattice->offsets[k].x);
          range_take (rows, at.y - lattice->offsets[k].y);
        }
    }
}

static PfPoint *
stitch_offsets (const PfGround *ground)
{
  const PfAffine repeats = { ground->a.x, ground->b.x, ground->a.y, ground->b.y, 0, 0 };
  const PfAffine to_repeats = pf_affine_invert (repeats);
  PfPoint *offsets = g_new (PfPoint, ground->n_stitches);
  for (int k = 0; k < ground->n_stitches; k++)
    offsets[k] = pf_affine_map (to_repeats, ground->stitches[k].at);
  return offsets;
}

PfLattice *
pf_lattice_new (const PfRegion *region, const PfGround *ground, const PfPlacement *placement,
                GError **error)
{
  g_autoptr (PfLattice) lattice = g_new0 (PfLattice, 1);
  lattice->ground = ground;
  lattice->gap = placement->gap;
  lattice->to_sheet = pf_placement_map (ground, *placement);
  lattice->to_lattice = pf_affine_invert (repeats_to_sheet (ground, lattice->to_sheet));
  lattice->offsets = stitch_offsets (ground);

  Range columns, rows;
  box_ranges (lattice, &region->box, &columns, &rows);
  const double spare = PF_GROUND_MAX_REACH + 1;
  const double n_columns = ceil (columns.max) - floor (columns.min) + 2 * spare + 1;
  const double n_rows = ceil (rows.max) - floor (rows.min) + 2 * spare + 1;
  if (!(n_columns * n_rows * ground->n_stitches <= MAX_BITS))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_TOO_BIG,
          _ ("At a gap of %.2f mm the shape, %.0f × %.0f mm, holds too many stitches. Choose a "
             "larger gap, or check the drawing's size."),
          placement->gap, region->box.max.x - region->box.min.x,
          region->box.max.y - region->box.min.y);
      return NULL;
    }
  lattice->i0 = (int) (floor (columns.min) - spare);
  lattice->j0 = (int) (floor (rows.min) - spare);
  lattice->n_columns = (int) n_columns;
  lattice->n_rows = (int) n_rows;
  lattice->row_words = ((size_t) lattice->n_columns + 63) / 64;
  lattice->plane_words = lattice->row_words * (size_t) lattice->n_rows;
  lattice->inside = g_new0 (guint64, lattice->plane_words * (size_t) ground->n_stitches);
  lattice->plain = g_new0 (guint64, lattice->plane_words);
  return g_steal_pointer (&lattice);
}

void
pf_lattice_free (PfLattice *lattice)
{
  if (lattice == NULL)
    return;
  g_free (lattice->offsets);
  g_free (lattice->inside);
  g_free (lattice->plain);
  g_free (lattice->before);
  g_free (lattice);
}

void
pf_lattice_count (PfLattice *lattice)
{
  const size_t n_words = lattice->plane_words * (size_t) lattice->ground->n_stitches;
  g_assert (lattice->before == NULL);
  lattice->before = g_new (guint32, n_words);
  size_t n = 0;
  for (size_t w = 0; w < n_words; w++)
    {
      lattice->before[w] = (guint32) n;
      n += (size_t) __builtin_popcountll (lattice->inside[w]);
    }
  lattice->n_inside = n;
}
