/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Shots. A shot keeps the map it was taken with; whatever the view is now, the same place of the
 * sheet comes out at the same place of the screen.
 */
#include "canvas-shot.h"

#include <math.h>

/* No side of a surface is longer. */
#define MAX_SIDE 16384

PfShot *
pf_shot_new (const PfCanvasView *view, double margin, int scale)
{
  PfShot *shot = g_new0 (PfShot, 1);
  const double width = ceil (view->width) + 2 * ceil (margin);
  const double height = ceil (view->height) + 2 * ceil (margin);
  shot->surface =
      cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) CLAMP (width * scale, 1, MAX_SIDE),
                                  (int) CLAMP (height * scale, 1, MAX_SIDE));
  const PfAffine grow = { scale, 0, 0, scale, ceil (margin) * scale, ceil (margin) * scale };
  shot->map = pf_affine_compose (grow, pf_canvas_view_map (view));
  shot->view = *view;
  shot->scale = scale;
  return shot;
}

void
pf_shot_free (PfShot *shot)
{
  if (shot == NULL)
    return;
  cairo_surface_destroy (shot->surface);
  g_clear_object (&shot->texture);
  g_free (shot);
}

static cairo_matrix_t
as_matrix (PfAffine m)
{
  return (cairo_matrix_t){ m.xx, m.yx, m.xy, m.yy, m.x0, m.y0 };
}

cairo_t *
pf_shot_cairo (const PfShot *shot)
{
  cairo_t *cr = cairo_create (shot->surface);
  const cairo_matrix_t matrix = as_matrix (shot->map);
  cairo_set_matrix (cr, &matrix);
  return cr;
}

bool
pf_shot_is_sharp_for (const PfShot *shot, const PfCanvasView *view, int scale)
{
  return shot->scale == scale && shot->view.turn == view->turn &&
         pf_canvas_view_pixel (&shot->view) == pf_canvas_view_pixel (view);
}

/* The part of the sheet that is seen is turned with the view; its corners are looked at, cut to the
 * sheet's box in a view that isn't turned. */
bool
pf_shot_covers (const PfShot *shot, const PfCanvasView *view, PfBox sheet)
{
  PfBox seen = pf_canvas_view_window (view, 0);
  seen.min = (PfPoint){ fmax (seen.min.x, sheet.min.x), fmax (seen.min.y, sheet.min.y) };
  seen.max = (PfPoint){ fmin (seen.max.x, sheet.max.x), fmin (seen.max.y, sheet.max.y) };
  if (seen.min.x > seen.max.x || seen.min.y > seen.max.y)
    return true;
  PfPoint corners[] = {
    seen.min, { seen.max.x, seen.min.y }, seen.max, { seen.min.x, seen.max.y }
  };
  if (view->turn != 0)
    {
      const PfPoint pixels[] = { { view->inset, view->inset },
                                 { view->width, view->inset },
                                 { view->width, view->height },
                                 { view->inset, view->height } };
      for (size_t c = 0; c < G_N_ELEMENTS (corners); c++)
        corners[c] = pf_canvas_view_to_sheet (view, pixels[c]);
    }
  const int width = cairo_image_surface_get_width (shot->surface);
  const int height = cairo_image_surface_get_height (shot->surface);
  for (size_t c = 0; c < G_N_ELEMENTS (corners); c++)
    {
      const PfPoint p = pf_affine_map (shot->map, corners[c]);
      if (p.x < -1 || p.y < -1 || p.x > width + 1 || p.y > height + 1)
        return false;
    }
  return true;
}

/* From the surface's pixels to the widget's. Where the shot is only moved, by whole pixels of the
 * screen: it stays crisp, and is quick to paint. */
static PfAffine
map_to_widget (const PfShot *shot, const PfCanvasView *view)
{
  PfAffine map = pf_affine_compose (pf_canvas_view_map (view), pf_affine_invert (shot->map));
  if (pf_shot_is_sharp_for (shot, view, shot->scale))
    {
      const double s = shot->scale;
      map = (PfAffine){ 1 / s, 0, 0, 1 / s, round (map.x0 * s) / s, round (map.y0 * s) / s };
    }
  return map;
}

void
pf_shot_paint (const PfShot *shot, const PfCanvasView *view, cairo_t *cr)
{
  const cairo_matrix_t matrix = as_matrix (map_to_widget (shot, view));
  cairo_save (cr);
  cairo_transform (cr, &matrix);
  cairo_set_source_surface (cr, shot->surface, 0, 0);
  /* Cairo's better filters take longer than a frame when they shrink or turn. */
  const bool turned = shot->view.turn != view->turn;
  cairo_pattern_set_filter (cairo_get_source (cr),
                            turned ? CAIRO_FILTER_NEAREST : CAIRO_FILTER_BILINEAR);
  cairo_paint (cr);
  cairo_restore (cr);
}

static GdkTexture *
texture_of (PfShot *shot)
{
  if (shot->texture == NULL)
    {
      cairo_surface_flush (shot->surface);
      const int stride = cairo_image_surface_get_stride (shot->surface);
      const int height = cairo_image_surface_get_height (shot->surface);
      g_autoptr (GBytes) bytes = g_bytes_new_with_free_func (
          cairo_image_surface_get_data (shot->surface), (gsize) stride * height,
          (GDestroyNotify) cairo_surface_destroy, cairo_surface_reference (shot->surface));
      shot->texture = gdk_memory_texture_new (cairo_image_surface_get_width (shot->surface), height,
                                              GDK_MEMORY_DEFAULT, bytes, (gsize) stride);
    }
  return shot->texture;
}

void
pf_shot_append (PfShot *shot, const PfCanvasView *view, GtkSnapshot *snapshot)
{
  const PfAffine map = map_to_widget (shot, view);
  graphene_matrix_t matrix;
  graphene_matrix_init_from_2d (&matrix, map.xx, map.yx, map.xy, map.yy, map.x0, map.y0);
  GdkTexture *texture = texture_of (shot);
  const graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float) gdk_texture_get_width (texture),
                                                  (float) gdk_texture_get_height (texture));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_transform_matrix (snapshot, &matrix);
  gtk_snapshot_append_texture (snapshot, texture, &all);
  gtk_snapshot_restore (snapshot);
}
