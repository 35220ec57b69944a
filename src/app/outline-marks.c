/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Marks on outlines. Each path is stroked twice: wide in white, then narrow in the marks' colour.
 */
#include "outline-marks.h"

#include <math.h>

#define NODE_HALF 4.0 /* pixels */
#define HANDLE_HALF 3.0

static void
set_colour (cairo_t *cr, double alpha)
{
  cairo_set_source_rgba (cr, 0.07, 0.33, 0.72, alpha);
}

static void
stroke_rimmed (cairo_t *cr, double pixel)
{
  cairo_set_source_rgba (cr, 1, 1, 1, 0.85);
  cairo_set_line_width (cr, 3 * pixel);
  cairo_stroke_preserve (cr);
  set_colour (cr, 1);
  cairo_set_line_width (cr, 1.25 * pixel);
  cairo_stroke (cr);
}

static void
fill_rimmed (cairo_t *cr, double pixel, bool filled)
{
  cairo_set_source_rgb (cr, 1, 1, 1);
  if (filled)
    set_colour (cr, 1);
  cairo_fill_preserve (cr);
  stroke_rimmed (cr, pixel);
}

static void
curve_path (cairo_t *cr, const PfCurve *curve)
{
  if (curve->n_nodes == 0)
    return;
  cairo_move_to (cr, curve->nodes[0].at.x, curve->nodes[0].at.y);
  const size_t n = pf_curve_n_segments (curve);
  for (size_t s = 0; s < n; s++)
    {
      const PfNode *from = &curve->nodes[s], *to = &curve->nodes[(s + 1) % curve->n_nodes];
      if (pf_curve_segment_straight (curve, s))
        cairo_line_to (cr, to->at.x, to->at.y);
      else
        cairo_curve_to (cr, from->out.x, from->out.y, to->in.x, to->in.y, to->at.x, to->at.y);
    }
  if (curve->closed)
    cairo_close_path (cr);
}

void
pf_marks_draw_curve (cairo_t *cr, double pixel, const PfCurve *curve)
{
  curve_path (cr, curve);
  stroke_rimmed (cr, pixel);
}

static void
square (cairo_t *cr, PfPoint at, double half)
{
  cairo_rectangle (cr, at.x - half, at.y - half, 2 * half, 2 * half);
}

static void
circle (cairo_t *cr, PfPoint at, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, at.x, at.y, radius, 0, 2 * G_PI);
}

static bool
apart (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y) > PF_TOUCH;
}

static void
draw_handle (cairo_t *cr, double pixel, PfPoint node, PfPoint handle)
{
  if (!apart (node, handle))
    return;
  cairo_move_to (cr, node.x, node.y);
  cairo_line_to (cr, handle.x, handle.y);
  stroke_rimmed (cr, pixel);
  circle (cr, handle, HANDLE_HALF * pixel);
  fill_rimmed (cr, pixel, true);
}

void
pf_marks_draw_node (cairo_t *cr, double pixel, const PfNode *node, bool filled, bool ring)
{
  if (filled)
    {
      draw_handle (cr, pixel, node->at, node->in);
      draw_handle (cr, pixel, node->at, node->out);
    }
  if (ring)
    {
      circle (cr, node->at, 2 * NODE_HALF * pixel);
      stroke_rimmed (cr, pixel);
    }
  if (node->smooth)
    circle (cr, node->at, NODE_HALF * pixel);
  else
    square (cr, node->at, NODE_HALF * pixel);
  fill_rimmed (cr, pixel, filled);
}

/* The part of the sheet that is drawn, and a rim as wide as a mark. */
static PfBox
drawn_box (cairo_t *cr, double pixel)
{
  const double rim = 3 * NODE_HALF * pixel;
  PfBox box;
  cairo_clip_extents (cr, &box.min.x, &box.min.y, &box.max.x, &box.max.y);
  return (PfBox){ { box.min.x - rim, box.min.y - rim }, { box.max.x + rim, box.max.y + rim } };
}

static bool
in_box (PfBox box, PfPoint p)
{
  return p.x >= box.min.x && p.x <= box.max.x && p.y >= box.min.y && p.y <= box.max.y;
}

void
pf_marks_draw_nodes (cairo_t *cr, double pixel, const PfDraft *draft, const PfNodeSet *chosen)
{
  const PfBox drawn = drawn_box (cr, pixel);
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      const PfCurve *curve = draft->curves[c];
      g_autofree bool *flags = pf_node_set_flags (chosen, draft, c);
      for (size_t n = 0; n < curve->n_nodes; n++)
        if ((flags != NULL && flags[n]) || in_box (drawn, curve->nodes[n].at))
          pf_marks_draw_node (cr, pixel, &curve->nodes[n], flags != NULL && flags[n], false);
    }
}

static void
dash (cairo_t *cr, double pixel)
{
  const double dashes[] = { 4 * pixel, 3 * pixel };
  cairo_set_dash (cr, dashes, 2, 0);
}

void
pf_marks_draw_box (cairo_t *cr, double pixel, PfBox box)
{
  const PfPoint top = pf_grip_place (box, PF_GRIP_TOP, pixel);
  const PfPoint a = pf_grip_place (box, PF_GRIP_TOP_LEFT, pixel);
  const PfPoint b = pf_grip_place (box, PF_GRIP_BOTTOM_RIGHT, pixel);
  const PfPoint turn = pf_grip_place (box, PF_GRIP_TURN, pixel);
  cairo_save (cr);
  dash (cr, pixel);
  cairo_rectangle (cr, a.x, a.y, b.x - a.x, b.y - a.y);
  cairo_move_to (cr, top.x, top.y);
  cairo_line_to (cr, turn.x, turn.y);
  stroke_rimmed (cr, pixel);
  cairo_restore (cr);
  for (int g = 0; g < PF_N_GRIPS; g++)
    {
      const PfPoint place = pf_grip_place (box, (PfGrip) g, pixel);
      if (g == PF_GRIP_TURN)
        circle (cr, place, (NODE_HALF + 1) * pixel);
      else
        square (cr, place, NODE_HALF * pixel);
      fill_rimmed (cr, pixel, false);
    }
}

void
pf_marks_draw_band (cairo_t *cr, double pixel, PfPoint a, PfPoint b)
{
  cairo_save (cr);
  cairo_rectangle (cr, MIN (a.x, b.x), MIN (a.y, b.y), fabs (b.x - a.x), fabs (b.y - a.y));
  set_colour (cr, 0.1);
  cairo_fill_preserve (cr);
  dash (cr, pixel);
  stroke_rimmed (cr, pixel);
  cairo_restore (cr);
}

void
pf_marks_draw_snap (cairo_t *cr, double pixel, PfSnapped snapped, PfPoint from)
{
  const PfPoint at = snapped.at;
  const double half = 6 * pixel;
  cairo_new_path (cr);
  switch (snapped.kind)
    {
    case PF_SNAP_NONE:
      return;
    case PF_SNAP_GRID:
      cairo_move_to (cr, at.x - half, at.y);
      cairo_line_to (cr, at.x + half, at.y);
      cairo_move_to (cr, at.x, at.y - half);
      cairo_line_to (cr, at.x, at.y + half);
      break;
    case PF_SNAP_NODE:
      circle (cr, at, half);
      break;
    case PF_SNAP_LEVEL:
    case PF_SNAP_UPRIGHT:
    case PF_SNAP_DIAGONAL:
      cairo_save (cr);
      dash (cr, pixel);
      cairo_move_to (cr, from.x, from.y);
      cairo_line_to (cr, at.x, at.y);
      stroke_rimmed (cr, pixel);
      cairo_restore (cr);
      return;
    }
  stroke_rimmed (cr, pixel);
}

void
pf_marks_draw_measure (cairo_t *cr, double pixel, PfPoint a, PfPoint b, int chosen)
{
  const PfPoint ends[] = { a, b };
  const double half = 9 * pixel;
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  stroke_rimmed (cr, pixel);
  for (int e = 0; e < 2; e++)
    {
      cairo_move_to (cr, ends[e].x - half, ends[e].y);
      cairo_line_to (cr, ends[e].x + half, ends[e].y);
      cairo_move_to (cr, ends[e].x, ends[e].y - half);
      cairo_line_to (cr, ends[e].x, ends[e].y + half);
      stroke_rimmed (cr, pixel);
      if (e == chosen)
        {
          circle (cr, ends[e], half);
          stroke_rimmed (cr, pixel);
        }
    }
}
