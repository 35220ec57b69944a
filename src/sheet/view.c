/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A view leaves out what its page doesn't show, so that a sheet of many pages is no larger than the
 * drawing and its overlaps.
 */
#include "view.h"

#include <math.h>

PfView
pf_view_field (double enlarge, bool mirror)
{
  return (PfView){
    .map = { mirror ? -enlarge : enlarge, 0, 0, enlarge, 0, 0 },
    .enlarge = enlarge,
    .window = { { -G_MAXDOUBLE, -G_MAXDOUBLE }, { G_MAXDOUBLE, G_MAXDOUBLE } },
  };
}

PfView
pf_view_page (const PfView *field, PfPoint corner, PfBox window)
{
  PfView page = *field;
  page.shift = (PfPoint){ window.min.x - corner.x, window.min.y - corner.y };
  page.map.x0 += page.shift.x;
  page.map.y0 += page.shift.y;
  page.window = window;
  return page;
}

bool
pf_view_sees (const PfView *view, PfPoint p, double reach)
{
  return p.x + reach >= view->window.min.x && p.x - reach <= view->window.max.x &&
         p.y + reach >= view->window.min.y && p.y - reach <= view->window.max.y;
}

bool
pf_view_sees_line (const PfView *view, PfPoint a, PfPoint b)
{
  /* Lines are up to 1 mm wide. */
  const PfBox box = { { fmin (a.x, b.x), fmin (a.y, b.y) }, { fmax (a.x, b.x), fmax (a.y, b.y) } };
  return pf_boxes_meet (pf_box_grown (box, 0.5), view->window);
}

PfBox
pf_view_seen (const PfView *view)
{
  const PfBox window = pf_box_grown (view->window, 1);
  if (window.max.x >= G_MAXDOUBLE)
    return view->window;
  const PfAffine back = pf_affine_invert (view->map);
  const PfPoint corners[] = {
    window.min, window.max, { window.min.x, window.max.y }, { window.max.x, window.min.y }
  };
  PfBox seen = PF_BOX_EMPTY;
  for (size_t c = 0; c < G_N_ELEMENTS (corners); c++)
    seen = pf_box_with (seen, pf_affine_map (back, corners[c]));
  return seen;
}

bool
pf_view_holds (const PfView *view, PfBox box)
{
  return box.min.x >= view->window.min.x && box.max.x <= view->window.max.x &&
         box.min.y >= view->window.min.y && box.max.y <= view->window.max.y;
}

/* Points of a chain that can be seen, until a piece is full or a gap comes. */
typedef struct {
  PfPoint points[PF_VIEW_PIECE + 1];
  size_t n;
} Piece;

static void
end_piece (Piece *piece, PfPage *page)
{
  if (piece->n > 1)
    pf_page_polyline (page, piece->points, piece->n);
  piece->n = 0;
}

void
pf_view_chain (const PfView *view, PfPage *page, const PfPoint *points, size_t n, bool closed)
{
  Piece piece;
  piece.n = 0;
  const size_t n_segments = n == 0 ? 0 : closed ? n : n - 1;
  for (size_t i = 0; i < n_segments; i++)
    {
      const PfPoint a = pf_view_point (view, points[i]);
      const PfPoint b = pf_view_point (view, points[(i + 1) % n]);
      if (!pf_view_sees_line (view, a, b))
        {
          end_piece (&piece, page);
          continue;
        }
      if (piece.n > PF_VIEW_PIECE)
        end_piece (&piece, page);
      if (piece.n == 0)
        piece.points[piece.n++] = a;
      piece.points[piece.n++] = b;
    }
  end_piece (&piece, page);
}

PfBox
pf_box_with (PfBox box, PfPoint p)
{
  return (PfBox){ { fmin (box.min.x, p.x), fmin (box.min.y, p.y) },
                  { fmax (box.max.x, p.x), fmax (box.max.y, p.y) } };
}

PfBox
pf_box_union (PfBox a, PfBox b)
{
  return (PfBox){ { fmin (a.min.x, b.min.x), fmin (a.min.y, b.min.y) },
                  { fmax (a.max.x, b.max.x), fmax (a.max.y, b.max.y) } };
}

PfBox
pf_box_grown (PfBox box, double by)
{
  return (PfBox){ { box.min.x - by, box.min.y - by }, { box.max.x + by, box.max.y + by } };
}

bool
pf_boxes_meet (PfBox a, PfBox b)
{
  return a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y;
}

double
pf_point_distance (PfPoint p, PfPoint q)
{
  return hypot (q.x - p.x, q.y - p.y);
}

PfPoint
pf_point_towards (PfPoint p, PfPoint q)
{
  const double distance = pf_point_distance (p, q);
  return distance > 0 ? (PfPoint){ (q.x - p.x) / distance, (q.y - p.y) / distance }
                      : (PfPoint){ 0, 0 };
}
