/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The present step beside the pillow: its stitches ringed, its places at the edge shown by arrows,
 * its pairs numbered in circles.
 */
#include "pillow-marks.h"

#include <math.h>

static void
stroke_light_and_dark (cairo_t *cr, double width)
{
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, width + 4);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.08, 0.08, 0.08);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* Rings round stitches that crowd don't cover each other. */
static double
ring_radius (const PfPillowMarks *marks)
{
  const double usual = fmax (0.55 * marks->text, 0.2 * fmin (marks->gap, 3 * marks->text));
  return fmax (fmin (usual, 0.42 * marks->nearest), 0.2 * marks->text);
}

static void
ring_stitch (const PfPillowMarks *marks, cairo_t *cr, guint32 stitch)
{
  const PfPoint at = pf_pillow_stitch_at (marks, stitch);
  cairo_new_path (cr);
  cairo_arc (cr, at.x, at.y, ring_radius (marks), 0, 2 * G_PI);
  stroke_light_and_dark (cr, 0.1 * marks->text);
}

/* --- Numbers ------------------------------------------------------------------------------------
 */

static PangoLayout *
layout_number (const PfPillowMarks *marks, const char *text, double size)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (marks->widget, text);
  g_autoptr (PangoFontDescription) font = pango_font_description_copy (
      pango_context_get_font_description (gtk_widget_get_pango_context (marks->widget)));
  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  return layout;
}

#define NUMBER 0.8 /* the size of numbers, in that of the text */

static double
number_radius (const PfPillowMarks *marks)
{
  return 0.85 * NUMBER * marks->text;
}

static void
draw_number (const PfPillowMarks *marks, cairo_t *cr, PfPoint at, const char *number, bool round)
{
  const double size = NUMBER * marks->text;
  g_autoptr (PangoLayout) layout = layout_number (marks, number, size);
  PangoRectangle ink;
  pango_layout_get_pixel_extents (layout, &ink, NULL);
  const double radius = fmax (number_radius (marks), 0.5 * ink.width + 0.3 * size);
  cairo_new_path (cr);
  if (round)
    cairo_arc (cr, at.x, at.y, radius, 0, 2 * G_PI);
  else
    cairo_rectangle (cr, at.x - radius, at.y - 0.7 * size, 2 * radius, 1.4 * size);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  if (round)
    cairo_set_source_rgb (cr, 0.05, 0.28, 0.63);
  else
    cairo_set_source_rgb (cr, 0.08, 0.08, 0.08);
  cairo_set_line_width (cr, 0.1 * marks->text);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, 0.05, 0.05, 0.05);
  cairo_move_to (cr, at.x - ink.x - 0.5 * ink.width, at.y - ink.y - 0.5 * ink.height);
  pango_cairo_show_layout (cr, layout);
}

static bool
is_numbered (const GArray *lines, guint n)
{
  const guint32 pair = g_array_index (lines, PfPillowLine, n).pair;
  for (guint before = 0; before < n; before++)
    if (g_array_index (lines, PfPillowLine, before).pair == pair)
      return true;
  return false;
}

/* Where a number may stand, the best place first: on the line, nearer to where the pair is now; but
 * beside a short one, so that neither end is hidden, on the side away from the stitch's middle, or
 * above it if it is level. */
enum { N_PLACES = 9 };

static void
find_places (const PfPillowMarks *marks, const PfPillowLine *line, PfPoint places[N_PLACES])
{
  static const double along[N_PLACES] = { 0.44, 0.44, 0.44, 0.2, 0.2, 0.7, 0.7, 0.44, 0.44 };
  static const double across[N_PLACES] = { 0, 1.35, -1.35, 1.35, -1.35, 1.35, -1.35, 3.4, -3.4 };
  const double radius = number_radius (marks);
  const PfPoint d = { line->to.x - line->from.x, line->to.y - line->from.y };
  const double length = fmax (hypot (d.x, d.y), 1e-6);
  const double out = line->outward ? d.x : -d.x;
  const bool level = fabs (d.y) < 0.2 * length;
  const double side = (level ? d.x <= 0 : -d.y * out >= 0) ? radius / length : -radius / length;
  const bool is_short = length < 4.2 * radius;
  for (int p = 0; p < N_PLACES; p++)
    {
      const int from = is_short ? (p + 1) % N_PLACES : p; /* on the line last of all */
      const double beside = side * across[from];
      places[p] = (PfPoint){ line->from.x + along[from] * d.x - beside * d.y,
                             line->from.y + along[from] * d.y + beside * d.x };
    }
}

static bool
is_free (const GArray *taken, PfPoint at, double room)
{
  for (guint n = 0; n < taken->len; n++)
    {
      const PfPoint other = g_array_index (taken, PfPoint, n);
      if (hypot (other.x - at.x, other.y - at.y) < room)
        return false;
    }
  return true;
}

/* Each pair once, where no other number stands. */
static void
number_pairs (const PfPillowMarks *marks, cairo_t *cr, GArray *taken)
{
  g_autoptr (GArray) lines = pf_pillow_present_lines (marks);
  const double room = 2.1 * number_radius (marks);
  for (guint n = 0; n < lines->len; n++)
    {
      const PfPillowLine *line = &g_array_index (lines, PfPillowLine, n);
      if (is_numbered (lines, n))
        continue;
      PfPoint places[N_PLACES];
      find_places (marks, line, places);
      int p = 0;
      while (p < N_PLACES - 1 && !is_free (taken, places[p], room))
        p++;
      g_array_append_val (taken, places[p]);
      g_autofree char *number = g_strdup_printf ("%u", line->pair + 1);
      draw_number (marks, cr, places[p], number, true);
    }
}

/* --- At the edge --------------------------------------------------------------------------------
 */

static void
trace_arrow (cairo_t *cr, PfPoint tail, PfPoint tip, double size)
{
  const double length = hypot (tip.x - tail.x, tip.y - tail.y);
  const PfPoint d = { (tip.x - tail.x) / length, (tip.y - tail.y) / length };
  const PfPoint neck = { tip.x - size * d.x, tip.y - size * d.y };
  cairo_new_path (cr);
  cairo_move_to (cr, tail.x, tail.y);
  cairo_line_to (cr, neck.x, neck.y);
  cairo_move_to (cr, neck.x - 0.6 * size * d.y, neck.y + 0.6 * size * d.x);
  cairo_line_to (cr, tip.x, tip.y);
  cairo_line_to (cr, neck.x + 0.6 * size * d.y, neck.y - 0.6 * size * d.x);
}

/* "12", or "3–4" for the bar between two pinholes; NULL if there are none. */
static char *
name_place (const PfSewing *sewing)
{
  if (sewing->pinhole != PF_NONE)
    return g_strdup_printf ("%u", sewing->pinhole + 1);
  if (sewing->between[0] == PF_NONE)
    return NULL;
  return g_strdup_printf ("%u–%u", sewing->between[0] + 1, sewing->between[1] + 1);
}

/* Where the box of a name stands that is as wide as its letters: as far out as a narrow one. */
static PfPoint
box_at (const PfPillowMarks *marks, PfPoint tail, PfPoint out, const char *name)
{
  g_autoptr (PangoLayout) layout = layout_number (marks, name, NUMBER * marks->text);
  PangoRectangle ink;
  pango_layout_get_pixel_extents (layout, &ink, NULL);
  const double wider = 0.5 * ink.width + 0.3 * NUMBER * marks->text - number_radius (marks);
  return (PfPoint){ tail.x + out.x * fmax (wider, 0) * 1.4, tail.y };
}

/* From outside the shape to the place, with the number of its pinhole in a box. */
static void
point_at_sewing (const PfPillowMarks *marks, cairo_t *cr, const PfWorkStep *step, GArray *taken)
{
  const PfPoint at = pf_pillow_sewing_at (marks, step->sewing);
  const PfPoint from = pf_pillow_stitch_at (marks, step->stitch);
  const double length = fmax (hypot (at.x - from.x, at.y - from.y), 1e-9);
  const PfPoint out = length > 1e-6
                          ? (PfPoint){ (at.x - from.x) / length, (at.y - from.y) / length }
                          : (PfPoint){ 0, -1 };
  const double near = 0.35 * marks->text, far = 2.4 * marks->text;
  const PfPoint tip = { at.x + near * out.x, at.y + near * out.y };
  const PfPoint tail = { at.x + far * out.x, at.y + far * out.y };
  trace_arrow (cr, tail, tip, 0.6 * marks->text);
  stroke_light_and_dark (cr, 0.16 * marks->text);
  cairo_new_path (cr);
  cairo_arc (cr, at.x, at.y, 0.22 * marks->text, 0, 2 * G_PI);
  stroke_light_and_dark (cr, 0.08 * marks->text);
  g_array_append_val (taken, tail);
  g_autofree char *name = name_place (&marks->plan->motif->filling->sewings[step->sewing]);
  if (name != NULL)
    draw_number (marks, cr, box_at (marks, tail, out, name), name, false);
}

void
pf_pillow_draw_present (const PfPillowMarks *marks, cairo_t *cr)
{
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (size_t n = marks->span.first; n < marks->span.first + marks->span.n; n++)
    {
      const PfWorkStep *step = &marks->plan->steps->steps[n];
      if (step->sewing != PF_NONE)
        point_at_sewing (marks, cr, step, taken);
      else if (step->kind == PF_WORK_STITCH)
        ring_stitch (marks, cr, step->stitch);
    }
  number_pairs (marks, cr, taken);
}
