/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How many sewings a pinhole takes: the maker's limit, or more where cloth stitch has too few
 * pinholes, since there is no other place to sew.
 *
 * What was placed before the rest (by the maker's choice, or for want of a pinhole elsewhere) takes
 * up room, too.
 */
#include "sewing-places.h"

#include <math.h>

#include <glib/gi18n-lib.h>

static PfPoint
middle_of (const PfRegion *region, const PfEdgeLine *line)
{
  const PfLoop *loop = &region->loops[line->loop];
  if (line->closed)
    return loop->points[0];
  const double along = fmod (line->from + line->length / 2, pf_loop_length (loop));
  return pf_region_point (region, (PfPlace){ line->loop, along });
}

/* How many of an edge's pinholes lie in the line. */
static size_t
count_pinholes (const PfRegion *region, const PfEdgeLine *line, const PfEdge *edge)
{
  if (line->closed)
    return edge->n_pinholes;
  const double length = pf_loop_length (&region->loops[line->loop]);
  const double to = line->from + line->length;
  const size_t before = pf_edge_pinhole_from (edge, line->from);
  if (to <= length)
    return pf_edge_pinhole_from (edge, to) - before;
  return edge->n_pinholes - before + pf_edge_pinhole_from (edge, to - length);
}

double
pf_gap_that_holds (const PfRegion *region, const PfEdgeLine *line, size_t n, int limit)
{
  const PfLoop *loop = &region->loops[line->loop];
  double gap = fmin (floor (line->length * limit / (double) n * 100) / 100, PF_EDGE_GAP_MAX);
  for (; gap >= PF_EDGE_GAP_MIN; gap = floor (gap * 98) / 100)
    {
      PfEdge edge;
      if (!pf_edge_init_even (&edge, loop, PF_EDGE_CLOTH_STITCH, gap, NULL))
        break;
      const bool holds = count_pinholes (region, line, &edge) * (size_t) limit >= n;
      pf_edge_clear (&edge);
      if (holds)
        return gap;
    }
  return PF_EDGE_GAP_MIN;
}

void
pf_sewer_warn_no_pinholes (PfSewer *sewer, const PfEdgeLine *line, size_t n)
{
  const PfPoint at = middle_of (sewer->region, line);
  char *text =
      sewer->edges[line->loop].n_pinholes == 0
          ? g_strdup_printf (
                ngettext (
                    "%zu sewing comes to a cloth stitch edge without pinholes, where it can’t "
                    "be sewn. Set its pinholes, or choose a half stitch edge.",
                    "%zu sewings come to a cloth stitch edge without pinholes, where none "
                    "can be sewn. Set its pinholes, or choose a half stitch edge.",
                    n),
                n)
          : g_strdup_printf (
                ngettext ("%zu sewing comes to the stretch of cloth stitch edge near (%.1f, %.1f) "
                          "mm, which has no pinhole: it goes into the nearest pinhole beside it. "
                          "Set a pinhole there, or choose half stitch.",
                          "%zu sewings come to the stretch of cloth stitch edge near (%.1f, %.1f) "
                          "mm, which has no pinhole: they go into the nearest pinhole beside it. "
                          "Set a pinhole there, or choose half stitch.",
                          n),
                n, at.x, at.y);
  pf_filling_warn (sewer->filling, PF_WARNING_CROWDED_EDGE, at, text);
}

static void
warn_crowded (PfSewer *sewer, const PfEdgeLine *line, size_t n, int raised)
{
  const int limit = sewer->settings->sewings_per_pinhole;
  const double gap = pf_gap_that_holds (sewer->region, line, n, limit);
  const PfPoint at = middle_of (sewer->region, line);
  char *text =
      line->closed
          ? g_strdup_printf (
                _ ("%zu sewings come to a cloth stitch edge with %zu pinholes: up to %d go into "
                   "one. An edge gap of %.2f mm would do with %d."),
                n, line->n_pinholes, raised, gap, limit)
          : g_strdup_printf (
                _ ("%zu sewings come to the stretch of cloth stitch edge near (%.1f, %.1f) mm with "
                   "%zu pinholes: up to %d go into one. An edge gap of %.2f mm would do with %d."),
                n, at.x, at.y, line->n_pinholes, raised, gap, limit);
  pf_filling_warn (sewer->filling, PF_WARNING_CROWDED_EDGE, at, text);
}

/* Sewings that pinhole p of the line has already. */
static guint32
taken (const PfSewer *sewer, const PfEdgeLine *line, size_t p)
{
  const size_t n = sewer->edges[line->loop].n_pinholes;
  return sewer->taken[line->loop][(line->first_pinhole + p) % n];
}

/* Fills in the room at a limit, and gives all of it. */
static size_t
make_room (const PfSewer *sewer, PfEdgeLine *line, int limit)
{
  size_t all = 0;
  for (size_t p = 0; p < line->n_pinholes; p++)
    {
      const guint32 used = taken (sewer, line, p);
      line->room[p] = used < (guint32) limit ? (guint32) limit - used : 0;
      all += line->room[p];
    }
  return all;
}

void
pf_sewer_make_room (PfSewer *sewer, PfEdgeLine *line, size_t n)
{
  const int limit = sewer->settings->sewings_per_pinhole;
  line->room = g_new0 (guint32, line->n_pinholes);
  if (make_room (sewer, line, limit) >= n || line->kind == PF_EDGE_HALF_STITCH ||
      line->n_pinholes == 0)
    return;
  size_t used = 0;
  for (size_t p = 0; p < line->n_pinholes; p++)
    used += taken (sewer, line, p);
  int raised = MAX (limit, (int) ((n + line->n_pinholes - 1) / line->n_pinholes));
  while (make_room (sewer, line, raised) < n)
    raised++;
  warn_crowded (sewer, line, n + used, raised);
}
