/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From bits to stitches: lists the worked stitches, joins each exit to the entry its pair goes on
 * to, and hangs the crossings on those that are cut.
 */
#include "filling-private.h"

#include <stdlib.h>

static void
start_stitch (PfFilling *filling, PfWorkedStitch *stitch, const PfLattice *lattice, PfStitchId id)
{
  const unsigned n_sides = (unsigned) lattice->ground->stitches[id.k].n_pairs;
  *stitch = (PfWorkedStitch){
    .id = id,
    .at = pf_lattice_position (lattice, id),
    .first_end = (unsigned) filling->n_ends & 0x1FFFFFFF,
    .n_sides = n_sides & 7,
  };
  for (unsigned side = 0; side < n_sides; side++)
    filling->ends[filling->n_ends++] =
        (PfWorkedEnd){ PF_NONE, PF_NONE, PF_NONE, PF_NONE, PF_NONE, 0 };
}

/* The sides of all stitches inside. */
static size_t
count_ends (const PfLattice *lattice)
{
  size_t n = 0;
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    {
      const guint64 *plane = pf_lattice_plane (lattice, k);
      size_t inside = 0;
      for (size_t w = 0; w < lattice->plane_words; w++)
        inside += (size_t) __builtin_popcountll (plane[w]);
      n += inside * (size_t) lattice->ground->stitches[k].n_pairs;
    }
  return n;
}

static void
list_stitches (PfFilling *filling, const PfLattice *lattice)
{
  filling->ends = g_new (PfWorkedEnd, count_ends (lattice));
  filling->n_stitches = lattice->n_inside;
  filling->stitches = g_new (PfWorkedStitch, lattice->n_inside);
  const size_t n_words = lattice->plane_words * (size_t) lattice->ground->n_stitches;
  PfWorkedStitch *next = filling->stitches;
  for (size_t w = 0; w < n_words; w++)
    for (guint64 left = lattice->inside[w]; left != 0; left &= left - 1)
      {
        const size_t in_plane = w % lattice->plane_words;
        const int row = (int) (in_plane / lattice->row_words);
        const int column = (int) (in_plane % lattice->row_words) * 64 + __builtin_ctzll (left);
        start_stitch (filling, next++, lattice,
                      (PfStitchId){ (int) (w / lattice->plane_words), lattice->i0 + column,
                                    lattice->j0 + row });
      }
}

static void
join_stitches (PfFilling *filling, const PfLattice *lattice)
{
  for (guint32 s = 0; s < filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[s];
      PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          PfSide entry;
          const PfStitchId to = pf_follow_pair (lattice, stitch->id, (PfSide) side, &entry);
          if (!pf_lattice_inside (lattice, to))
            continue;
          const guint32 t = pf_lattice_index (lattice, to);
          ends[side].to = t;
          ends[side].to_side = (guint8) entry;
          pf_worked_ends (filling, &filling->stitches[t])[entry].from = s;
        }
    }
}

static void
set_missing (PfCrossing *crossing, const PfLattice *lattice, PfStitchId other, bool other_inside)
{
  crossing->missing_at = pf_lattice_position (lattice, other);
  crossing->has_missing = !other_inside;
  if (!other_inside)
    crossing->missing = other;
}

static void
add_crossings (GArray *crossings, const PfLattice *lattice, const PfRegion *region,
               const PfCutLine *cut)
{
  const PfCrossing start = { .match = PF_NONE, .sewing = PF_NONE, .pair = PF_NONE };
  if (cut->from_inside)
    {
      PfCrossing crossing = start;
      crossing.stitch = pf_lattice_index (lattice, cut->from);
      crossing.side = cut->from_side;
      crossing.leaves = true;
      crossing.kind = PF_PAIR_FINISHED;
      crossing.place = cut->leaves;
      crossing.at = pf_region_point (region, cut->leaves);
      set_missing (&crossing, lattice, cut->to, cut->to_inside);
      g_array_append_val (crossings, crossing);
    }
  if (cut->to_inside)
    {
      PfCrossing crossing = start;
      crossing.stitch = pf_lattice_index (lattice, cut->to);
      crossing.side = cut->to_side;
      crossing.kind = PF_PAIR_NEW;
      crossing.place = cut->enters;
      crossing.at = pf_region_point (region, cut->enters);
      set_missing (&crossing, lattice, cut->from, cut->from_inside);
      g_array_append_val (crossings, crossing);
    }
}

/* By loop and distance along; several at one place by stitch and side, so that the order never
 * depends on how they were found. */
static int
compare_crossings (const void *a, const void *b)
{
  const PfCrossing *p = a, *q = b;
  if (p->place.loop != q->place.loop)
    return p->place.loop < q->place.loop ? -1 : 1;
  if (p->place.along < q->place.along || p->place.along > q->place.along)
    return p->place.along < q->place.along ? -1 : 1;
  if (p->stitch != q->stitch)
    return p->stitch < q->stitch ? -1 : 1;
  return (int) (p->side * 2 + p->leaves) - (int) (q->side * 2 + q->leaves);
}

/* Ends the links of the lines that are cut, and lets the stitches know their crossings. */
static void
cut_links (PfFilling *filling)
{
  for (guint32 c = 0; c < filling->n_crossings; c++)
    {
      const PfCrossing *crossing = &filling->crossings[c];
      PfWorkedEnd *end =
          &pf_worked_ends (filling, &filling->stitches[crossing->stitch])[crossing->side];
      if (crossing->leaves)
        {
          end->leaving = c;
          end->to = PF_NONE;
        }
      else
        {
          end->entering = c;
          end->from = PF_NONE;
        }
    }
}

void
pf_link_stitches (PfFilling *filling, const PfLattice *lattice, const PfRegion *region)
{
  list_stitches (filling, lattice);
  join_stitches (filling, lattice);
  g_autoptr (GArray) cut_lines = pf_find_cut_lines (lattice, region);
  GArray *crossings = g_array_new (FALSE, FALSE, sizeof (PfCrossing));
  for (guint c = 0; c < cut_lines->len; c++)
    add_crossings (crossings, lattice, region, &g_array_index (cut_lines, PfCutLine, c));
  filling->n_crossings = crossings->len;
  filling->crossings = (PfCrossing *) (void *) g_array_free (crossings, FALSE);
  if (filling->n_crossings > 0)
    qsort (filling->crossings, filling->n_crossings, sizeof (PfCrossing), compare_crossings);
  cut_links (filling);
}
