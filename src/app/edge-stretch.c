/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The way of the pointer along the loop is added up step by step, so that a stretch can run either
 * way round, past the loop's first point and over more than half of it.
 */
#include "edge-stretch.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "canvas-marks.h"
#include "edge-work.h"

static double
snapped (const PfMotif *motif, size_t loop, double along, double snap)
{
  const guint32 pinhole = pf_edge_pinhole_near (motif, loop, along);
  if (pinhole == PF_NONE)
    return along;
  const double at = motif->edges[loop].pinholes[pinhole];
  return fabs (pf_edge_way (motif, loop, along, at)) <= snap ? at : along;
}

bool
pf_stretch_mark_begin (PfStretchMark *mark, PfEditor *editor, size_t loop, double along,
                       double snap)
{
  PfDraft *draft = pf_editor_draft (editor);
  PfMotif *motif = draft != NULL && !pf_editor_follows (editor) ? pf_edge_motif (editor) : NULL;
  if (motif == NULL)
    return false;
  const double from = snapped (motif, loop, along, snap);
  *mark = (PfStretchMark){
    editor, pf_draft_ref (draft), motif, loop, from, from, along, 0,
  };
  return true;
}

void
pf_stretch_mark_to (PfStretchMark *mark, PfPoint at, double snap, double least)
{
  const double most = pf_loop_length (&mark->motif->region->loops[mark->loop]) - PF_TOUCH;
  const double along = pf_edge_nearest (mark->motif, mark->loop, at, NULL);
  mark->travelled += pf_edge_way (mark->motif, mark->loop, mark->last, along);
  mark->travelled = CLAMP (mark->travelled, -most, most);
  mark->last = along;
  mark->to = snapped (mark->motif, mark->loop, along, snap);
  if (fabs (mark->travelled) < least || mark->to == mark->from)
    {
      pf_editor_cancel (mark->editor);
      return;
    }
  PfDraft *draft = pf_draft_copy (mark->start);
  const bool on = mark->travelled > 0;
  pf_edge_add_stretch (draft, mark->motif, mark->loop, on ? mark->from : mark->to,
                       on ? mark->to : mark->from);
  pf_editor_preview (mark->editor, draft);
}

static void
finish (PfStretchMark *mark)
{
  g_clear_pointer (&mark->start, pf_draft_unref);
  g_clear_pointer (&mark->motif, pf_motif_unref);
  *mark = (PfStretchMark){ 0 };
}

void
pf_stretch_mark_end (PfStretchMark *mark)
{
  if (pf_history_previewing (pf_editor_history (mark->editor)))
    pf_editor_commit (mark->editor, _ ("Mark a stretch"));
  finish (mark);
}

void
pf_stretch_mark_cancel (PfStretchMark *mark)
{
  pf_editor_cancel (mark->editor);
  finish (mark);
}

char *
pf_stretch_mark_describe (const PfStretchMark *mark)
{
  const bool on = mark->travelled >= 0;
  g_autofree char *from = pf_editor_length (mark->editor, on ? mark->from : mark->to, 1);
  g_autofree char *to = pf_editor_length (mark->editor, on ? mark->to : mark->from, 1);
  return g_strdup_printf (_ ("A stretch from %s to %s along the outline"), from, to);
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

static void
line_to (const PfMotif *motif, size_t loop, double along, cairo_t *cr)
{
  const PfPoint p = pf_region_point (motif->region, (PfPlace){ loop, along });
  cairo_line_to (cr, p.x, p.y);
}

/* The outline from `from` on to `to`: its points from the first one past `from`, round the loop. */
static void
trace_stretch (const PfMotif *motif, size_t loop, double from, double to, cairo_t *cr)
{
  const PfLoop *l = &motif->region->loops[loop];
  const size_t n = l->n_points;
  double way = pf_loop_forward (l, from, to);
  if (way == 0)
    way = pf_loop_length (l);
  size_t first = 0;
  while (first < n && l->along[first] <= from)
    first++;
  cairo_new_path (cr);
  line_to (motif, loop, from, cr);
  for (size_t k = 0; k < n; k++)
    {
      const size_t i = (first + k) % n;
      const double d = pf_loop_forward (l, from, l->along[i]);
      if (d > 0 && d < way)
        cairo_line_to (cr, l->points[i].x, l->points[i].y);
    }
  line_to (motif, loop, to, cr);
}

static void
draw_stretch (const PfMotif *motif, size_t loop, const PfEdgeStretch *stretch, cairo_t *cr,
              double pixel)
{
  const double dashes[] = { 3 * pixel, 3 * pixel };
  trace_stretch (motif, loop, stretch->from, stretch->to, cr);
  if (stretch->kind == PF_EDGE_HALF_STITCH)
    cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_set_source_rgba (cr, PF_MARK_INK, 0.5);
  cairo_set_line_width (cr, 9 * pixel);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

void
pf_stretches_draw (const PfMotif *motif, cairo_t *cr, double pixel)
{
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (size_t l = 0; l < motif->region->n_loops; l++)
    for (size_t s = 0; s < motif->edges[l].n_stretches; s++)
      draw_stretch (motif, l, &motif->edges[l].stretches[s], cr, pixel);
  cairo_restore (cr);
}

void
pf_stretches_draw_loop (const PfMotif *motif, size_t loop, cairo_t *cr, double pixel)
{
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  trace_stretch (motif, loop, 0, 0, cr);
  cairo_set_source_rgba (cr, PF_MARK_LIGHT, 0.25);
  cairo_set_line_width (cr, 12 * pixel);
  cairo_stroke (cr);
  cairo_restore (cr);
}
