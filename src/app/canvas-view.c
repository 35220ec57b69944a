/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The map between sheet and screen is always made anew from the view's numbers, so that nothing
 * adds up over a long afternoon of turning and zooming.
 */
#include "canvas-view.h"

#include <math.h>

/* Left free round a drawing that is fitted in, in pixels. */
#define FIT_ROOM 24.0

PfCanvasView
pf_canvas_view_default (void)
{
  return (PfCanvasView){ .zoom = 1, .pixels_per_mm = PF_CANVAS_PIXELS_PER_MM };
}

double
pf_canvas_view_pixel (const PfCanvasView *view)
{
  return 1 / (view->zoom * view->pixels_per_mm);
}

PfPoint
pf_canvas_view_centre (const PfCanvasView *view)
{
  return (PfPoint){ (view->width + view->inset) / 2, (view->height + view->inset) / 2 };
}

/* Sine and cosine, exact for quarter turns. */
static PfPoint
direction_of (double degrees)
{
  const double quarter = degrees / 90;
  if (quarter == floor (quarter))
    {
      static const PfPoint quarters[] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
      return quarters[(int) quarter & 3];
    }
  const double radians = degrees * G_PI / 180;
  return (PfPoint){ cos (radians), sin (radians) };
}

PfAffine
pf_canvas_view_map (const PfCanvasView *view)
{
  const double scale = view->zoom * view->pixels_per_mm;
  const PfPoint d = direction_of (view->turn);
  const PfPoint centre = pf_canvas_view_centre (view);
  PfAffine map = { scale * d.x, -scale * d.y, scale * d.y, scale * d.x, 0, 0 };
  const PfPoint middle = pf_affine_map (map, view->middle);
  map.x0 = centre.x - middle.x;
  map.y0 = centre.y - middle.y;
  return map;
}

PfPoint
pf_canvas_view_to_screen (const PfCanvasView *view, PfPoint place)
{
  return pf_affine_map (pf_canvas_view_map (view), place);
}

PfPoint
pf_canvas_view_to_sheet (const PfCanvasView *view, PfPoint pixel)
{
  return pf_affine_map (pf_affine_invert (pf_canvas_view_map (view)), pixel);
}

/* The box round `box` after it is mapped. */
static PfBox
mapped_box (PfAffine map, PfBox box)
{
  const PfPoint corners[] = {
    box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y }
  };
  PfBox around = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
  for (size_t c = 0; c < G_N_ELEMENTS (corners); c++)
    {
      const PfPoint p = pf_affine_map (map, corners[c]);
      around.min = (PfPoint){ fmin (around.min.x, p.x), fmin (around.min.y, p.y) };
      around.max = (PfPoint){ fmax (around.max.x, p.x), fmax (around.max.y, p.y) };
    }
  return around;
}

PfBox
pf_canvas_view_window (const PfCanvasView *view, double margin)
{
  const PfBox seen = { { view->inset - margin, view->inset - margin },
                       { view->width + margin, view->height + margin } };
  return mapped_box (pf_affine_invert (pf_canvas_view_map (view)), seen);
}

bool
pf_canvas_view_equal (const PfCanvasView *a, const PfCanvasView *b)
{
  return a->middle.x == b->middle.x && a->middle.y == b->middle.y && a->zoom == b->zoom &&
         a->turn == b->turn && a->pixels_per_mm == b->pixels_per_mm && a->width == b->width &&
         a->height == b->height && a->inset == b->inset;
}

/* Moves the sheet so that `place` comes to lie at `pixel`. */
static void
lay_at (PfCanvasView *view, PfPoint place, PfPoint pixel)
{
  const PfPoint now = pf_canvas_view_to_screen (view, place);
  pf_canvas_view_pan (view, pixel.x - now.x, pixel.y - now.y);
}

void
pf_canvas_view_zoom_at (PfCanvasView *view, PfPoint pixel, double zoom)
{
  const PfPoint place = pf_canvas_view_to_sheet (view, pixel);
  view->zoom = CLAMP (zoom, PF_ZOOM_MIN, PF_ZOOM_MAX);
  lay_at (view, place, pixel);
}

void
pf_canvas_view_turn_at (PfCanvasView *view, PfPoint pixel, double degrees)
{
  const PfPoint place = pf_canvas_view_to_sheet (view, pixel);
  const double turn = fmod (degrees, 360);
  view->turn = turn < 0 ? turn + 360 : turn;
  if (view->turn >= 360) /* a tiny negative turn, rounded */
    view->turn = 0;
  lay_at (view, place, pixel);
}

void
pf_canvas_view_pan (PfCanvasView *view, double x, double y)
{
  const PfPoint centre = pf_canvas_view_centre (view);
  view->middle = pf_canvas_view_to_sheet (view, (PfPoint){ centre.x - x, centre.y - y });
}

void
pf_canvas_view_fit (PfCanvasView *view, PfBox box)
{
  const double width = fmax (view->width - view->inset - 2 * FIT_ROOM, 1);
  const double height = fmax (view->height - view->inset - 2 * FIT_ROOM, 1);
  const PfPoint d = direction_of (view->turn);
  const PfBox turned = mapped_box ((PfAffine){ d.x, -d.y, d.y, d.x, 0, 0 }, box);
  const double mm_wide = fmax (turned.max.x - turned.min.x, PF_TOUCH);
  const double mm_high = fmax (turned.max.y - turned.min.y, PF_TOUCH);
  const double zoom = fmin (width / mm_wide, height / mm_high) / view->pixels_per_mm;
  view->zoom = CLAMP (zoom, PF_ZOOM_MIN, PF_ZOOM_MAX);
  view->middle = (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
}

/* How far `x` has to go to lie from `low` to `high`; to their middle if there is no room. */
static double
way_between (double x, double low, double high)
{
  if (low > high)
    return (low + high) / 2 - x;
  return CLAMP (x, low, high) - x;
}

bool
pf_canvas_view_show (PfCanvasView *view, PfPoint place, double margin)
{
  const PfPoint at = pf_canvas_view_to_screen (view, place);
  const double x = way_between (at.x, view->inset + margin, view->width - margin);
  const double y = way_between (at.y, view->inset + margin, view->height - margin);
  if (x == 0 && y == 0)
    return false;
  pf_canvas_view_pan (view, x, y);
  return true;
}

void
pf_canvas_view_keep (PfCanvasView *view, PfBox box)
{
  view->middle.x = CLAMP (view->middle.x, box.min.x, box.max.x);
  view->middle.y = CLAMP (view->middle.y, box.min.y, box.max.y);
}
