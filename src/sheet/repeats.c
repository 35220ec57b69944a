/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Kept repeats stand on a tint, plain ones have a dotted line round them, and where a repeat is
 * left out stands a cross.
 */
#include "layers.h"

#include <math.h>

#include "marks.h"

/* How far the shape of a repeat reaches round its stitches, in gaps. */
#define MARGIN 0.28

static int
compare_points (gconstpointer a, gconstpointer b)
{
  const PfPoint *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return p->y < q->y ? -1 : p->y > q->y;
}

/* Twice the area of the triangle, positive if it turns clockwise as seen on the sheet. */
static double
turn (PfPoint a, PfPoint b, PfPoint c)
{
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static size_t
add_to_hull (PfPoint *hull, size_t n, size_t least, PfPoint p)
{
  while (n >= least && turn (hull[n - 2], hull[n - 1], p) <= 0)
    n--;
  hull[n] = p;
  return n + 1;
}

/* The convex hull of the points (at least 3), by A. M. Andrew's monotone chains (Information
 * Processing Letters 9, 1979). */
static PfPoint *
convex_hull (GArray *points, size_t *n_hull)
{
  g_array_sort (points, compare_points);
  const PfPoint *p = (const PfPoint *) (gpointer) points->data;
  PfPoint *hull = g_new (PfPoint, 2 * points->len);
  size_t n = 0;
  for (guint i = 0; i < points->len; i++)
    n = add_to_hull (hull, n, 2, p[i]);
  const size_t least = n + 1;
  for (guint i = points->len - 1; i-- > 0;)
    n = add_to_hull (hull, n, least, p[i]);
  *n_hull = n - 1;
  return hull;
}

static void
add_round (GArray *points, PfPoint centre, double radius)
{
  for (int i = 0; i < 8; i++)
    {
      const double angle = (i + 0.5) * G_PI / 4;
      const PfPoint p = { centre.x + radius * cos (angle), centre.y + radius * sin (angle) };
      g_array_append_val (points, p);
    }
}

/* For each kept or plain repeat, points round its worked stitches; NULL for the others. */
static GArray **
points_of_repeats (const PfFilling *filling, double margin)
{
  GArray **points = g_new0 (GArray *, filling->n_repeats);
  gint64 *keys = g_new (gint64, filling->n_repeats);
  g_autoptr (GHashTable) by_key = g_hash_table_new (g_int64_hash, g_int64_equal);
  for (size_t r = 0; r < filling->n_repeats; r++)
    {
      const PfRepeat *repeat = &filling->repeats[r];
      if (repeat->state != PF_REPEAT_KEPT && repeat->state != PF_REPEAT_PLAIN)
        continue;
      points[r] = g_array_new (FALSE, FALSE, sizeof (PfPoint));
      keys[r] = pf_pair_key (repeat->i, repeat->j);
      g_hash_table_insert (by_key, &keys[r], points[r]);
    }
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const gint64 key = pf_pair_key (filling->stitches[s].id.i, filling->stitches[s].id.j);
      GArray *found = g_hash_table_lookup (by_key, &key);
      if (found)
        add_round (found, filling->stitches[s].at, margin);
    }
  g_free (keys);
  return points;
}

static void
find_shapes (PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  const double margin = MARGIN * filling->placement.gap;
  GArray **points = points_of_repeats (filling, margin);
  for (size_t r = 0; r < filling->n_repeats; r++)
    if (points[r] && points[r]->len > 0)
      {
        PfRepeatShape shape = { .state = filling->repeats[r].state };
        shape.points = convex_hull (points[r], &shape.n_points);
        g_array_append_val (drawn->repeats, shape);
      }
  for (size_t r = 0; r < filling->n_repeats; r++)
    g_clear_pointer (&points[r], g_array_unref);
  g_free (points);
}

/* A point of the region where repeat (i, j) would be; gives whether there is one. */
static bool
spot_of_left_out (const PfDrawn *drawn, int i, int j, PfPoint *spot)
{
  const PfGround *ground = drawn->ground;
  const PfAffine map = drawn->motif->filling->to_sheet;
  PfPoint middle = { 0, 0 };
  for (int k = 0; k < ground->n_stitches; k++)
    middle = pf_point_add (middle, pf_ground_position (ground, k, i, j), 1.0 / ground->n_stitches);
  *spot = pf_affine_map (map, middle);
  bool inside = pf_region_contains (drawn->motif->region, *spot);
  for (int k = 0; k < ground->n_stitches && !inside; k++)
    {
      *spot = pf_affine_map (map, pf_ground_position (ground, k, i, j));
      inside = pf_region_contains (drawn->motif->region, *spot);
    }
  return inside;
}

void
pf_repeats_find (PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  find_shapes (drawn);
  for (size_t r = 0; r < filling->n_repeats; r++)
    {
      const PfRepeat *repeat = &filling->repeats[r];
      PfPoint spot;
      if (repeat->state == PF_REPEAT_LEFT_OUT &&
          spot_of_left_out (drawn, repeat->i, repeat->j, &spot))
        g_array_append_val (drawn->left_out, spot);
    }
}

static void
draw_shapes (PfPage *page, const PfView *view, const PfDrawn *drawn, PfRepeatState state,
             const char *name)
{
  pf_page_group (page, name, pf_ink_repeat (state, &drawn->sizes));
  for (guint r = 0; r < drawn->repeats->len; r++)
    {
      const PfRepeatShape *shape = &g_array_index (drawn->repeats, PfRepeatShape, r);
      if (shape->state != state)
        continue;
      PfBox box = PF_BOX_EMPTY;
      PfPoint *points = g_new (PfPoint, shape->n_points);
      for (size_t i = 0; i < shape->n_points; i++)
        {
          points[i] = pf_view_point (view, shape->points[i]);
          box = pf_box_with (box, points[i]);
        }
      if (pf_boxes_meet (box, view->window))
        pf_page_polygon (page, points, shape->n_points);
      g_free (points);
    }
  pf_page_group_end (page);
}

void
pf_layer_repeats (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  draw_shapes (page, view, drawn, PF_REPEAT_KEPT, "kept");
  draw_shapes (page, view, drawn, PF_REPEAT_PLAIN, "plain");
  pf_page_group (page, "left-out", pf_ink_left_out (&drawn->sizes));
  for (guint i = 0; i < drawn->left_out->len; i++)
    {
      const PfPoint at = pf_view_point (view, g_array_index (drawn->left_out, PfPoint, i));
      if (pf_view_sees (view, at, 1))
        pf_mark_left_out (page, &drawn->sizes, at);
    }
  pf_page_group_end (page);
}
