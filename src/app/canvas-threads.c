/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The two bobbins of a pair, lit up along their whole ways. The left one's thread is a whole line,
 * the right one's is dashed; from afar they are straight lines from stitch to stitch.
 */
#include <math.h>

#include "canvas-marks.h"
#include "canvas-private.h"

/* Pixels that a thread is thick once one has zoomed in to it. */
#define EASILY_SEEN 4.0

/* --- The view -----------------------------------------------------------------------------------
 */

void
pf_canvas_follow_threads (PfCanvas *canvas)
{
  const bool shown = (pf_canvas_layers (canvas) & PF_LAYER_THREADS) != 0;
  const double pixel = pf_canvas_view_pixel (&canvas->view);
  pf_editor_set_thread_pixel (
      canvas->editor, shown ? pixel / gtk_widget_get_scale_factor (GTK_WIDGET (canvas)) : 0);
}

bool
pf_canvas_threads_too_small (PfCanvas *canvas)
{
  bool any = false;
  if (!pf_editor_shows_threads (canvas->editor))
    return false;
  const size_t n_drafts = pf_editor_document (canvas->editor)->n_drafts;
  for (size_t n = 0; n < n_drafts; n++)
    {
      const PfMotif *motif = pf_editor_motif (canvas->editor, n);
      if (motif == NULL || motif->filling == NULL || motif->filling->n_stitches == 0)
        continue;
      if (pf_editor_sees_threads (canvas->editor, n))
        return false;
      any = true;
    }
  return any;
}

static bool
has_threads (PfCanvas *canvas, size_t n)
{
  const PfMotif *motif = pf_editor_motif (canvas->editor, n);
  return motif != NULL && motif->filling != NULL && motif->filling->n_stitches > 0;
}

/* The active motif if it has threads, else the first that has, or NULL. */
static const PfMotif *
motif_to_see (PfCanvas *canvas)
{
  const int active = pf_editor_active (canvas->editor);
  if (active >= 0 && has_threads (canvas, (size_t) active))
    return pf_editor_motif (canvas->editor, (size_t) active);
  const size_t n_drafts = pf_editor_document (canvas->editor)->n_drafts;
  for (size_t n = 0; n < n_drafts; n++)
    if (has_threads (canvas, n))
      return pf_editor_motif (canvas->editor, n);
  return NULL;
}

static PfPoint
nearest_stitch (const PfFilling *filling, PfPoint at)
{
  PfPoint nearest = filling->stitches[0].at;
  for (size_t s = 1; s < filling->n_stitches; s++)
    {
      const PfPoint p = filling->stitches[s].at;
      if (hypot (p.x - at.x, p.y - at.y) < hypot (nearest.x - at.x, nearest.y - at.y))
        nearest = p;
    }
  return nearest;
}

void
pf_canvas_zoom_to_threads (PfCanvas *canvas)
{
  const PfMotif *motif = motif_to_see (canvas);
  if (motif == NULL)
    return;
  const double pixel = pf_motif_laid (motif)->thickness / EASILY_SEEN;
  const double times = pf_canvas_view_pixel (&canvas->view) / pixel;
  pf_canvas_set_zoom (canvas, pf_canvas_zoom (canvas) * fmax (times, 1));
  const PfPoint middle = pf_canvas_to_sheet (canvas, pf_canvas_view_centre (&canvas->view));
  pf_canvas_show_place (canvas, nearest_stitch (motif->filling, middle));
}

/* --- Two threads --------------------------------------------------------------------------------
 */

typedef struct {
  const PfMarks *marks;
  cairo_t *cr;
  double thickness; /* pixels */
  double halo;      /* beyond it on each side, pixels */
} Light;

static void
set_colour (cairo_t *cr, bool right)
{
  if (right)
    cairo_set_source_rgb (cr, PF_MARK_RIGHT);
  else
    cairo_set_source_rgb (cr, PF_MARK_LIGHT);
}

/* The path, white, dark, and in the bobbin's colour; light dashes run along the right one's. */
static void
stroke_thread (const Light *light, bool right)
{
  cairo_t *cr = light->cr;
  const double t = light->thickness;
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, t + 2 * light->halo);
  cairo_stroke_preserve (cr);
  set_colour (cr, right);
  cairo_set_line_width (cr, t);
  cairo_stroke_preserve (cr);
  if (right)
    {
      const double dash = fmax (1.3 * t, 5);
      cairo_set_source_rgb (cr, 1, 1, 1);
      cairo_set_dash (cr, (const double[]){ dash, dash }, 2, 0);
      cairo_set_line_width (cr, 0.5 * t);
      cairo_stroke_preserve (cr);
      cairo_set_dash (cr, NULL, 0, 0);
    }
  cairo_new_path (cr);
}

static void
trace_strands (const Light *light, const PfCloseUp *close_up, guint32 thread)
{
  const PfAffine map = pf_canvas_view_map (light->marks->view);
  for (size_t s = 0; s < close_up->n_strands; s++)
    {
      const PfStrand *strand = &close_up->strands[s];
      if (strand->thread != thread)
        continue;
      const PfPoint *points = close_up->points + strand->first;
      const PfPoint start = pf_affine_map (map, points[0]);
      cairo_move_to (light->cr, start.x, start.y);
      for (size_t c = 0; c < strand->n_curves; c++)
        {
          PfPoint p[3];
          for (size_t k = 0; k < 3; k++)
            p[k] = pf_affine_map (map, points[3 * c + k + 1]);
          cairo_curve_to (light->cr, p[0].x, p[0].y, p[1].x, p[1].y, p[2].x, p[2].y);
        }
    }
}

void
pf_marks_draw_threads (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, guint32 pair,
                       bool selected)
{
  const PfLaid *laid = pf_motif_laid (motif);
  g_autoptr (PfCloseUp) close_up =
      pf_close_up_pair (laid, pf_canvas_view_window (marks->view, 20), pair);
  const Light light = { marks, cr, laid->thickness / pf_canvas_view_pixel (marks->view),
                        selected ? 2 : 1.2 };
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint32 right = 0; right < 2; right++)
    {
      trace_strands (&light, close_up, 2 * pair + right);
      stroke_thread (&light, right != 0);
    }
  cairo_restore (cr);
}

/* --- Their ways ---------------------------------------------------------------------------------
 */

static PfPoint
step_place (const PfMarks *marks, const PfFilling *filling, const PfThreadStep *step)
{
  return pf_canvas_view_to_screen (marks->view, step->kind == PF_STEP_STITCH
                                                    ? filling->stitches[step->index].at
                                                    : filling->sewings[step->index].at);
}

void
pf_marks_draw_thread_ways (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, guint32 pair,
                           bool selected)
{
  const PfLaid *laid = pf_motif_laid (motif);
  const PfFilling *filling = motif->filling;
  const double gap = filling->placement.gap / pf_canvas_view_pixel (marks->view);
  const double wide = CLAMP (0.4 * gap, 3.5, selected ? 9 : 5);
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint32 right = 0; right < 2; right++)
    {
      size_t n;
      g_autofree PfThreadStep *way =
          pf_thread_way (laid->threads, filling, motif->ground, 2 * pair + right, &n);
      for (size_t s = 0; s < n; s++)
        {
          const PfPoint p = step_place (marks, filling, &way[s]);
          cairo_line_to (cr, p.x, p.y);
        }
      /* Where they run together the right one lies on the left. */
      const Light light = { marks, cr, right ? 0.6 * wide : wide, right ? 0.6 : 1.5 };
      stroke_thread (&light, right != 0);
    }
  cairo_restore (cr);
}

void
pf_marks_draw_thread_ends (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, guint32 pair,
                           bool selected)
{
  const PfLaid *laid = pf_motif_laid (motif);
  const double size = selected ? 15 : 11;
  for (guint32 right = 0; right < 2; right++)
    {
      size_t n;
      g_autofree PfThreadStep *way =
          pf_thread_way (laid->threads, motif->filling, motif->ground, 2 * pair + right, &n);
      const PfPoint start = step_place (marks, motif->filling, &way[0]);
      pf_marks_draw_arrow (cr, step_place (marks, motif->filling, &way[n - 2]),
                           step_place (marks, motif->filling, &way[n - 1]), size);
      if (right == 0)
        pf_marks_draw_start (marks, cr, start, pair, selected);
    }
}
