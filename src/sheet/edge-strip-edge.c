/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The worked edge in an edge strip: its outline, straight; its band, by the kind of its work; its
 * pinholes; the ruler along it. A loop goes on and on: before its start lies its end.
 */
#include "edge-strip-layout.h"

#include <math.h>

#include "marks.h"
#include "text.h"
#include "view.h"

#define INCH 25.4

/* The first of 1, 2, 5, 10, ... mm that takes `least` mm of the strip; or of as many inches, and
 * below one of its halves. */
static double
ruler_step (const PfStrip *strip, double least)
{
  static const double steps[] = { 1, 2, 5 };
  const double unit = strip->strip->inches ? INCH : 1, across = strip->strip->across;
  for (double part = 1.0 / 64; strip->strip->inches && part < 1; part *= 2)
    if (part * unit * across >= least)
      return part * unit;
  for (double tens = 1;; tens *= 10)
    for (size_t s = 0; s < G_N_ELEMENTS (steps); s++)
      if (steps[s] * tens * unit * across >= least)
        return steps[s] * tens * unit;
}

/* How long a tick is, parts. */
static double
tick_length (double mm, double fine, double named)
{
  const double slack = fine / 4;
  if (fabs (remainder (mm, named)) < slack)
    return 1.3;
  return fabs (remainder (mm, named / 2)) < slack ? 0.95 : 0.6;
}

/* One turn of the ruler: its ticks, or its figures. */
static void
draw_turn (const PfStrip *strip, int turn, double step, double fine, bool words)
{
  const double unit = strip->layout->unit, length = pf_loop_length (strip->loop);
  const double shift = pf_strip_x (strip->strip, turn * strip->layout->length);
  const double named = ruler_step (strip, 7 * unit);
  for (int n = 0; n * step < length; n++)
    {
      const double mm = n * step, x = mm * strip->strip->across + shift;
      g_autofree char *text = g_strdup_printf ("%g", strip->strip->inches ? mm / INCH : mm);
      /* The loop's first point has its 0, of this turn or the next. */
      const bool room = n == 0 || (length - mm) * strip->strip->across > 3.2 * unit;
      if (words && room && x > 1.6 * unit && x < strip->width - 1.6 * unit)
        pf_page_text (strip->page, pf_strip_at (strip, x, PF_STRIP_RULER + 2.7), PF_TEXT_MIDDLE,
                      1.5 * unit, text);
      else if (!words && x >= 0 && x <= strip->width)
        pf_strip_line (strip, x, PF_STRIP_RULER, PF_STRIP_RULER + tick_length (mm, fine, named));
    }
}

static void
draw_ruler (const PfStrip *strip)
{
  const double unit = strip->layout->unit;
  const double fine = ruler_step (strip, 0.9 * unit), named = ruler_step (strip, 7 * unit);
  pf_page_group (strip->page, "strip-ruler", pf_strip_thin_ink (strip, PF_COLOUR_QUIET, 0.12));
  pf_page_line (strip->page, pf_strip_at (strip, 0, PF_STRIP_RULER),
                pf_strip_at (strip, strip->width, PF_STRIP_RULER));
  for (int turn = -1; turn <= 1; turn++)
    draw_turn (strip, turn, fine, fine, false);
  pf_page_group_end (strip->page);
  pf_page_text_group (strip->page, "strip-ruler-words", PF_COLOUR_QUIET, NULL);
  for (int turn = -1; turn <= 1; turn++)
    draw_turn (strip, turn, named, fine, true);
  pf_page_group_end (strip->page);
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  const double p = *(const double *) a, q = *(const double *) b;
  return (p > q) - (p < q);
}

/* Where the kind of the edge may change, mm along the loop, from 0 to its length. */
static GArray *
find_ends (const PfStrip *strip)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (double));
  const double first = 0, last = pf_loop_length (strip->loop);
  g_array_append_val (ends, first);
  g_array_append_val (ends, last);
  for (size_t i = 0; i < strip->edge->n_stretches; i++)
    {
      g_array_append_val (ends, strip->edge->stretches[i].from);
      g_array_append_val (ends, strip->edge->stretches[i].to);
    }
  g_array_sort (ends, compare_doubles);
  return ends;
}

static void
draw_band_and_outline (const PfStrip *strip)
{
  const double length = strip->layout->length, across = strip->strip->across;
  g_autoptr (GArray) ends = find_ends (strip);
  pf_page_group (strip->page, "strip-band", pf_strip_thin_ink (strip, PF_COLOUR_PAIR_LINE, 0.12));
  for (int turn = -1; turn <= 1; turn++)
    for (guint i = 0; i + 1 < ends->len; i++)
      {
        const double a = g_array_index (ends, double, i), b = g_array_index (ends, double, i + 1);
        const double shift = pf_strip_x (strip->strip, turn * length);
        const double from = fmax (0, a * across + shift);
        const double to = fmin (strip->width, b * across + shift);
        const PfBox band = { pf_strip_at (strip, from, PF_STRIP_OUTLINE + 0.35),
                             pf_strip_at (strip, to, PF_STRIP_BAND_FOOT) };
        if (from < to)
          pf_mark_band (strip->page, pf_edge_kind_at (strip->edge, (a + b) / 2), band,
                        pf_strip_at (strip, pf_strip_x (strip->strip, 0), 0).x);
      }
  pf_page_group_end (strip->page);
  pf_page_group (strip->page, "strip-outline", pf_strip_thin_ink (strip, PF_COLOUR_INK, 0.34));
  pf_page_line (strip->page, pf_strip_at (strip, 0, PF_STRIP_OUTLINE),
                pf_strip_at (strip, strip->width, PF_STRIP_OUTLINE));
  pf_page_group_end (strip->page);
}

/* How many pinholes on the next one with a number stands: 1 where there is room for all. */
static size_t
number_every (const PfStrip *strip, double size)
{
  const PfEdge *edge = strip->edge;
  double least = G_MAXDOUBLE;
  for (size_t h = 1; h < edge->n_pinholes; h++)
    least = fmin (least, edge->pinholes[h] - edge->pinholes[h - 1]);
  g_autofree char *longest = g_strdup_printf ("%zu", edge->n_pinholes);
  return least * strip->strip->across >= pf_text_width (longest, size) + 0.3 * size ? 1 : 10;
}

static void
draw_pinholes (const PfStrip *strip, bool numbers)
{
  const double size = 1.5 * strip->layout->unit;
  const size_t every = number_every (strip, size);
  for (int turn = -1; turn <= 1; turn++)
    for (size_t h = 0; h < strip->edge->n_pinholes; h++)
      {
        const double along = strip->edge->pinholes[h] * strip->strip->across;
        const double x = pf_strip_x (strip->strip, along + turn * strip->layout->length);
        if (x < 0 || x > strip->width)
          continue;
        g_autofree char *text = g_strdup_printf ("%zu", h + 1);
        const double reach = pf_text_width (text, size) / 2;
        if (!numbers)
          pf_page_circle (strip->page, pf_strip_at (strip, x, PF_STRIP_OUTLINE),
                          0.42 * strip->layout->unit);
        else if ((h == 0 || (h + 1) % every == 0) && x >= reach && x <= strip->width - reach)
          pf_page_text (strip->page, pf_strip_at (strip, x, PF_STRIP_NUMBERS), PF_TEXT_MIDDLE, size,
                        text);
      }
}

static void
draw_holes (const PfStrip *strip)
{
  pf_page_group (strip->page, "strip-pinholes",
                 (PfInk){ .fill = PF_COLOUR_PAPER,
                          .stroke = PF_COLOUR_INK,
                          .width = 0.16 * strip->layout->unit });
  draw_pinholes (strip, false);
  pf_page_group_end (strip->page);
  pf_page_text_group (strip->page, "strip-pinhole-numbers", PF_COLOUR_HOLE_NUMBER, NULL);
  draw_pinholes (strip, true);
  pf_page_group_end (strip->page);
}

void
pf_strip_draw_edge (const PfStrip *strip)
{
  draw_ruler (strip);
  draw_band_and_outline (strip);
  draw_holes (strip);
}
