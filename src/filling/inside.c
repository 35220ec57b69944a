/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which stitches are inside: a walk along the outline, not a question asked for each stitch.
 *
 * In repeat numbers, the stitches k stand on whole numbers, in rows. Each edge of the outline flips
 * the first stitch to the right of it in each row it passes, so that after a running exclusive-or
 * along the rows every stitch knows whether the outline was passed an odd number of times. An edge
 * passes row j if one of its ends is above (smaller than j) and the other isn't: the same rule at
 * both edges of a vertex, so no vertex is counted twice or missed. What rounding may leave in doubt
 * lies within PF_TOUCH of the outline, and a second walk takes out every stitch nearer to it than
 * the clearance, and at least that.
 */
#include "lattice.h"

#include <math.h>
#include <string.h>

/* "At least clearance·gap" is meant with this many mm to spare: a stitch that was meant to stand
 * exactly at the clearance is inside. */
#define CLEARANCE_SLACK 1e-6

/* An edge of the outline: on the sheet, and in repeat numbers. */
typedef struct {
  PfPoint p, q;
  PfPoint a, b;
} Edge;

static Edge *
edges_in_repeats (const PfLattice *lattice, const PfRegion *region, size_t *n_edges)
{
  size_t n = 0;
  for (size_t l = 0; l < region->n_loops; l++)
    n += region->loops[l].n_points;
  Edge *edges = g_new (Edge, n);
  size_t e = 0;
  for (size_t l = 0; l < region->n_loops; l++)
    {
      const PfLoop *loop = &region->loops[l];
      const size_t first = e;
      for (size_t p = 0; p < loop->n_points; p++, e++)
        {
          edges[e].p = loop->points[p];
          edges[e].a = pf_affine_map (lattice->to_lattice, loop->points[p]);
        }
      for (size_t p = first; p < e; p++)
        {
          const Edge *next = &edges[p + 1 < e ? p + 1 : first];
          edges[p].q = next->p;
          edges[p].b = next->a;
        }
    }
  *n_edges = n;
  return edges;
}

/* Flips the first stitch to the right of the edge from a to b in every row it passes. */
static void
flip_rows (const PfLattice *lattice, guint64 *plane, PfPoint a, PfPoint b)
{
  const PfPoint top = a.y < b.y ? a : b;
  const PfPoint bottom = a.y < b.y ? b : a;
  const int first = pf_ceil (top.y);
  if (!(first < bottom.y))
    return;
  const double slope = (bottom.x - top.x) / (bottom.y - top.y);
  for (int j = first; j < bottom.y; j++)
    {
      const double x = top.x + (j - top.y) * slope;
      const size_t column = (size_t) (pf_floor (x) + 1 - lattice->i0);
      const size_t row = (size_t) (j - lattice->j0) * lattice->row_words;
      plane[row + column / 64] ^= G_GUINT64_CONSTANT (1) << (column % 64);
    }
}

/* Turns flips into runs: each bit becomes the exclusive-or of all bits of its row up to itself. */
static void
fill_runs (guint64 *row, size_t n_words)
{
  guint64 carried = 0;
  for (size_t w = 0; w < n_words; w++)
    {
      guint64 x = row[w];
      for (int shift = 1; shift < 64; shift *= 2)
        x ^= x << shift;
      row[w] = x ^ carried;
      carried = -(row[w] >> 63);
    }
}

static double
distance_squared (PfPoint p, const Edge *edge)
{
  const double dx = edge->q.x - edge->p.x, dy = edge->q.y - edge->p.y;
  const double px = p.x - edge->p.x, py = p.y - edge->p.y;
  const double t = CLAMP ((px * dx + py * dy) / (dx * dx + dy * dy), 0.0, 1.0);
  const double ex = px - t * dx, ey = py - t * dy;
  return ex * ex + ey * ey;
}

/* A distance from the outline, and how far it reaches in repeats along a row and across rows. */
typedef struct {
  double squared; /* mm² */
  double along, across;
} Band;

/* The stretch of row `j` (for stitches of one class, the edge's ends being `a` and `b`) that can be
 * within the band of the edge: from *from to *to. */
static void
band_columns (const Band *band, PfPoint a, PfPoint b, int j, int *from, int *to)
{
  double x0 = a.x, x1 = b.x;
  const double dy = b.y - a.y;
  if (fabs (dy) > 2 * band->across)
    {
      const double s = (j - band->across - a.y) / dy, t = (j + band->across - a.y) / dy;
      x0 = a.x + CLAMP (s, 0.0, 1.0) * (b.x - a.x);
      x1 = a.x + CLAMP (t, 0.0, 1.0) * (b.x - a.x);
    }
  *from = pf_ceil (MIN (x0, x1) - band->along);
  *to = pf_floor (MAX (x0, x1) + band->along);
}

/* Takes out the stitches k within the band of one edge. */
static void
clear_band (const PfLattice *lattice, int k, const Edge *edge, const Band *band)
{
  const PfPoint offset = lattice->offsets[k];
  const PfPoint a = { edge->a.x - offset.x, edge->a.y - offset.y };
  const PfPoint b = { edge->b.x - offset.x, edge->b.y - offset.y };
  const int last = pf_floor (MAX (a.y, b.y) + band->across);
  for (int j = pf_ceil (MIN (a.y, b.y) - band->across); j <= last; j++)
    {
      int from, to;
      band_columns (band, a, b, j, &from, &to);
      for (int i = from; i <= to; i++)
        {
          const PfStitchId s = { k, i, j };
          if (!pf_lattice_inside (lattice, s) ||
              distance_squared (pf_lattice_position (lattice, s), edge) >= band->squared)
            continue;
          const size_t column = (size_t) (i - lattice->i0);
          pf_lattice_row (lattice, k, j)[column / 64] &= ~(G_GUINT64_CONSTANT (1) << (column % 64));
        }
    }
}

static Band
clearance_band (const PfLattice *lattice, double clearance)
{
  const PfAffine m = lattice->to_lattice;
  /* 2·PF_TOUCH and not PF_TOUCH: at the very edge of the band rounding decides. */
  const double width = fmax (clearance * lattice->gap - CLEARANCE_SLACK, 2 * PF_TOUCH);
  return (Band){
    .squared = width * width,
    .along = width * hypot (m.xx, m.xy) + 1e-9,
    .across = width * hypot (m.yx, m.yy) + 1e-9,
  };
}

static void
find_inside_of_class (const PfLattice *lattice, int k, const Edge *edges, size_t n_edges,
                      const Band *band)
{
  guint64 *plane = pf_lattice_plane (lattice, k);
  const PfPoint o = lattice->offsets[k];
  for (size_t e = 0; e < n_edges; e++)
    {
      const Edge *edge = &edges[e];
      flip_rows (lattice, plane, (PfPoint){ edge->a.x - o.x, edge->a.y - o.y },
                 (PfPoint){ edge->b.x - o.x, edge->b.y - o.y });
    }
  for (int j = 0; j < lattice->n_rows; j++)
    fill_runs (plane + (size_t) j * lattice->row_words, lattice->row_words);
  for (size_t e = 0; e < n_edges; e++)
    clear_band (lattice, k, &edges[e], band);
}

void
pf_lattice_find_inside (PfLattice *lattice, const PfRegion *region, double clearance)
{
  size_t n_edges;
  g_autofree Edge *edges = edges_in_repeats (lattice, region, &n_edges);
  const Band band = clearance_band (lattice, clearance);
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    {
      const int place = lattice->ground->stitches[k].place;
      if (place == k)
        find_inside_of_class (lattice, k, edges, n_edges, &band);
      else
        memcpy (pf_lattice_plane (lattice, k), pf_lattice_plane (lattice, place),
                lattice->plane_words * sizeof (guint64));
    }
}
