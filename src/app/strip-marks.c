/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The strip on paper, and rings round what is selected (two) and hovered (one), like those on the
 * canvas.
 */
#include "canvas-marks.h"
#include "strip-view-private.h"

#define RING 8.0 /* pixels */
#define WIDER 4.0

static void
stroke_ring (cairo_t *cr, PfPoint at, double radius)
{
  cairo_new_path (cr);
  cairo_arc (cr, at.x, at.y, radius, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 4);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

static void
mark (PfStripView *view, cairo_t *cr, PfPoint at, bool selected)
{
  const double scale = pf_strip_view_scale (view);
  const PfPoint pixel = { at.x * scale, at.y * scale };
  stroke_ring (cr, pixel, RING);
  if (selected)
    stroke_ring (cr, pixel, RING + WIDER);
}

/* All sewings of a pair that lie on the loop. */
static void
mark_pair (PfStripView *view, const PfEdgeStrip *strip, cairo_t *cr, guint32 pair, bool selected)
{
  const PfFilling *filling = strip->motif->filling;
  for (guint32 s = 0; filling != NULL && s < filling->n_sewings; s++)
    if (filling->sewings[s].pair == pair && filling->sewings[s].target.loop == strip->loop)
      mark (view, cr, pf_edge_strip_sewing (strip, s), selected);
}

static void
mark_pick (PfStripView *view, const PfEdgeStrip *strip, cairo_t *cr, PfPick pick, bool selected)
{
  const PfFilling *filling = strip->motif->filling;
  if (pick.kind == PF_PICK_NONE || (int) pick.draft != pf_editor_active (view->editor))
    return;
  if (pick.kind == PF_PICK_PINHOLE && pick.loop == strip->loop &&
      pick.index < strip->motif->edges[pick.loop].n_pinholes)
    mark (view, cr, pf_edge_strip_pinhole (strip, pick.index), selected);
  else if (pick.kind == PF_PICK_PAIR)
    mark_pair (view, strip, cr, pick.index, selected);
  else if (pick.kind == PF_PICK_SEWING && filling != NULL && pick.index < filling->n_sewings &&
           filling->sewings[pick.index].target.loop == strip->loop)
    mark (view, cr, pf_edge_strip_sewing (strip, pick.index), selected);
}

static void
draw_focus (cairo_t *cr, int width, int height)
{
  cairo_rectangle (cr, 1.5, 1.5, width - 3, height - 3);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

void
pf_strip_view_draw (PfStripView *view, cairo_t *cr, int width, int height)
{
  const double scale = pf_strip_view_scale (view);
  PfEdgeStrip strip;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  if (pf_strip_view_get_strip (view, &strip))
    {
      cairo_save (cr);
      cairo_scale (cr, scale, scale);
      pf_edge_strip_draw (&strip, 1 / scale, cr);
      cairo_restore (cr);
      mark_pick (view, &strip, cr, pf_editor_hovered (view->editor), false);
      mark_pick (view, &strip, cr, pf_editor_selected (view->editor), true);
    }
  if (gtk_widget_has_visible_focus (view->teller))
    draw_focus (cr, width, height);
}
