/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pins beside the pillow. Shape tells them apart: a dot where one stands, a large one with a rim
 * where it is to be set now, a diamond where the next ones go, a ring for those after.
 */
#include "pillow-marks.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#define N_NEXT 2      /* steps that set a pin */
#define KEY_TEXT 17.0 /* the size of letters in the key at most, pixels */

typedef enum { PIN_DONE, PIN_NOW, PIN_NEXT, PIN_LATER, N_PINS } PinState;

static void
draw_pin (cairo_t *cr, PfPoint at, double text, PinState state)
{
  const double sizes[N_PINS] = { 0.12 * text, 0.27 * text, 0.27 * text, 0.16 * text };
  const double size = sizes[state];
  cairo_new_path (cr);
  if (state == PIN_NEXT)
    {
      cairo_move_to (cr, at.x, at.y - 1.2 * size);
      cairo_line_to (cr, at.x + 1.2 * size, at.y);
      cairo_line_to (cr, at.x, at.y + 1.2 * size);
      cairo_line_to (cr, at.x - 1.2 * size, at.y);
      cairo_close_path (cr);
    }
  else
    cairo_arc (cr, at.x, at.y, size, 0, 2 * G_PI);
  const double grey = state == PIN_DONE ? 0.62 : 0.08, inside = state == PIN_NOW ? 0.08 : 1;
  if (state == PIN_DONE)
    cairo_set_source_rgb (cr, grey, grey, grey);
  else
    cairo_set_source_rgb (cr, inside, inside, inside);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, grey, grey, grey);
  cairo_set_line_width (cr, state == PIN_NEXT ? 0.1 * text : 0.06 * text);
  cairo_stroke (cr);
}

static bool
sets_pin (const PfPillowMarks *marks, size_t n)
{
  const PfMotif *motif = marks->plan->motif;
  const PfWorkStep *step = &marks->plan->steps->steps[n];
  return step->kind == PF_WORK_STITCH &&
         motif->ground->stitches[motif->filling->stitches[step->stitch].id.k].pin;
}

/* The step after the last of the next ones. */
static size_t
end_of_next (const PfPillowMarks *marks)
{
  size_t n = marks->span.first + marks->span.n;
  for (int found = 0; n < marks->plan->steps->n_steps && found < N_NEXT; n++)
    found += sets_pin (marks, n);
  return n;
}

static PinState
state_of (const PfPillowMarks *marks, size_t step, size_t end_of_next)
{
  if (step >= marks->span.first && step < marks->span.first + marks->span.n)
    return step < marks->place ? PIN_DONE : PIN_NOW;
  if (step < marks->place)
    return PIN_DONE;
  return step < end_of_next ? PIN_NEXT : PIN_LATER;
}

void
pf_pillow_draw_pins (const PfPillowMarks *marks, cairo_t *cr)
{
  const PfMotif *motif = marks->plan->motif;
  const PfFilling *filling = motif->filling;
  const size_t end = end_of_next (marks);
  for (guint32 s = 0; s < filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[s];
      if (!pf_pillow_is_near (marks, stitch->at) || !motif->ground->stitches[stitch->id.k].pin)
        continue;
      draw_pin (cr, pf_affine_map (marks->map, stitch->at), marks->text,
                state_of (marks, marks->plan->of_stitch[s], end));
    }
}

/* --- The key ------------------------------------------------------------------------------------
 */

void
pf_pillow_draw_key (const PfPillowMarks *marks, cairo_t *cr, double width, double height)
{
  if (!marks->plan->motif->ground->has_pins)
    return;
  static const struct {
    PinState state;
    const char *words;
  } rows[] = { { PIN_NOW, N_ ("pin to set now") },
               { PIN_NEXT, N_ ("pins that come next") },
               { PIN_LATER, N_ ("later pins") },
               { PIN_DONE, N_ ("pins that stand") } };
  const double size = fmin (0.6 * marks->text, KEY_TEXT), row = 1.45 * size, signs = 1.2 * size;
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (marks->widget, NULL);
  g_autoptr (PangoFontDescription) font = pango_font_description_copy (
      pango_context_get_font_description (gtk_widget_get_pango_context (marks->widget)));
  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  int widest = 0, line = 0;
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      int w;
      pango_layout_set_text (layout, _ (rows[r].words), -1);
      pango_layout_get_pixel_size (layout, &w, &line);
      widest = MAX (widest, w);
    }
  const double room = widest + 2.2 * signs + 12, tall = row * G_N_ELEMENTS (rows) + 8;
  if (room > 0.6 * width || tall > 0.4 * height)
    return;
  const double left = 10, top = height - tall - 10;
  cairo_rectangle (cr, left + 0.5, top + 0.5, room, tall);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.92);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.7, 0.7, 0.7);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      const double y = top + 4 + row * ((double) r + 0.5);
      draw_pin (cr, (PfPoint){ left + 1.2 * signs, y }, 1.3 * size, rows[r].state);
      pango_layout_set_text (layout, _ (rows[r].words), -1);
      cairo_move_to (cr, left + 2.2 * signs, y - line / 2.0);
      cairo_set_source_rgb (cr, 0.1, 0.1, 0.1);
      pango_cairo_show_layout (cr, layout);
    }
}
