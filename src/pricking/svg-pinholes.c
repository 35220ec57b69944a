/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Small circles on or beside an outline are the holes that the edge's pins left: each goes to the
 * place nearest to it on any outline taken.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* In mm: how large a pinhole is at most, and how far it may lie from the outline. Drawn on a layer
 * for pinholes it can have any size, and be farther off. */
#define SIZE 1.0
#define NEAR 1.0
#define LAYER_NEAR 5.0
/* What is lost when units are converted. */
#define SPARE 1e-6
/* Two pinholes nearer than this, in mm, are one. */
#define SAME 0.01

bool
pf_svg_is_pinhole (const PfSvgShape *shape)
{
  return shape->round && (shape->pinhole_layer || shape->across <= SIZE + SPARE);
}

static double
distance_to_box (PfBox box, PfPoint p)
{
  const double dx = fmax (0, fmax (box.min.x - p.x, p.x - box.max.x));
  const double dy = fmax (0, fmax (box.min.y - p.y, p.y - box.max.y));
  return hypot (dx, dy);
}

/* The outline nearest to `p`, if one lies within `limit`; `*place` is on it. */
static PfOutline *
find_nearest (const PfDrawing *drawing, PfPoint p, double limit, PfPlace *place)
{
  PfOutline *nearest = NULL;
  for (guint i = 0; i < drawing->outlines->len; i++)
    {
      PfOutline *const outline = drawing->outlines->pdata[i];
      double distance;
      if (distance_to_box (outline->region->box, p) > limit)
        continue;
      const PfPlace found = pf_region_nearest (outline->region, p, &distance);
      if (distance > limit || (nearest != NULL && distance >= limit))
        continue;
      nearest = outline;
      *place = found;
      limit = distance;
    }
  return nearest;
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* Sorts the pinholes and drops repeats, also across the loop's first point. */
static void
tidy (GArray *pinholes, const PfLoop *loop)
{
  guint kept = 0;
  g_array_sort (pinholes, compare_doubles);
  for (guint i = 0; i < pinholes->len; i++)
    {
      const double at = g_array_index (pinholes, double, i);
      if (kept > 0 && (at - g_array_index (pinholes, double, kept - 1) <= SAME ||
                       pf_loop_distance (loop, at, g_array_index (pinholes, double, 0)) <= SAME))
        continue;
      g_array_index (pinholes, double, kept++) = at;
    }
  g_array_set_size (pinholes, kept);
}

/* A circle that is no pinhole after all. Where elements were picked it may belong to another. */
static void
leave_out (PfSvgReader *reader, PfDrawing *drawing, const PfSvgShape *shape)
{
  const char *const why =
      shape->pinhole_layer
          ? _ ("it is more than 5 mm from every outline that is filled; it makes no pinhole")
          : _ ("so small a circle is a pinhole, but no outline that is filled lies within 1 mm");
  if (reader->n_wanted == 0)
    pf_svg_remark (reader->remarks, shape->node, "%s", why);
  for (size_t i = 0; i < shape->n_chains; i++)
    pf_svg_add_background (drawing, &shape->chains[i]);
}

void
pf_svg_add_pinholes (PfSvgReader *reader, PfDrawing *drawing)
{
  for (guint i = 0; i < reader->shapes->len; i++)
    {
      const PfSvgShape *const shape = &g_array_index (reader->shapes, PfSvgShape, i);
      const double limit = (shape->pinhole_layer ? LAYER_NEAR : NEAR) + SPARE;
      PfPlace place;
      if (!pf_svg_is_pinhole (shape))
        {
          if (shape->pinhole_layer)
            pf_svg_remark (reader->remarks, shape->node,
                           _ ("on the layer for pinholes only circles are read; skipped"));
          continue;
        }
      PfOutline *const outline = find_nearest (drawing, shape->centre, limit, &place);
      if (outline != NULL)
        g_array_append_val (outline->pinholes[place.loop], place.along);
      else
        leave_out (reader, drawing, shape);
    }
  for (guint i = 0; i < drawing->outlines->len; i++)
    {
      PfOutline *const outline = drawing->outlines->pdata[i];
      for (size_t k = 0; k < outline->region->n_loops; k++)
        tidy (outline->pinholes[k], &outline->region->loops[k]);
    }
}
