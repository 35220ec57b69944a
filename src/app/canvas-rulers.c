/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Rulers. Numbers stand at whole multiples of the step, counted from zero, so that a number keeps
 * its place while the sheet is moved under it.
 */
#include "canvas-rulers.h"

#include <math.h>

/* Least pixels from number to number, and from line to line. */
#define NUMBERS_APART 64.0
#define LINES_APART 5.0

#define INCH 25.4

/* Below an inch makers divide by two: 1/2, 1/4, down to 1/64. */
static PfRulerScale
inch_scale (double pixel)
{
  double inches = 1.0 / 64;
  while (inches < 1 && inches * INCH / pixel < NUMBERS_APART)
    inches *= 2;
  return (PfRulerScale){ inches * INCH, inches < 1 ? 4 : 8, INCH };
}

static int
fitting_parts (double step, double pixel, const int *parts)
{
  while (*parts > 1 && step / *parts / pixel < LINES_APART)
    parts++;
  return *parts;
}

PfRulerScale
pf_ruler_scale (double pixel, bool inches)
{
  static const int by_ten[] = { 10, 5, 2, 1 }, by_two[] = { 4, 2, 1 }, by_half[] = { 8, 4, 2, 1 };
  if (inches && inch_scale (pixel).step / pixel >= NUMBERS_APART)
    {
      PfRulerScale scale = inch_scale (pixel);
      scale.parts = fitting_parts (scale.step, pixel, scale.parts == 8 ? by_half : by_two);
      return scale;
    }
  const double unit = inches ? INCH : 1;
  double power = pow (10, floor (log10 (NUMBERS_APART * pixel / unit)));
  static const int steps[] = { 1, 2, 5, 10 };
  int s = 0;
  while (s < 3 && steps[s] * power * unit / pixel < NUMBERS_APART)
    s++;
  const double step = steps[s] * power * unit;
  return (PfRulerScale){ step, fitting_parts (step, pixel, steps[s] == 2 ? by_two : by_ten), unit };
}

char *
pf_ruler_number (const PfRulerScale *scale, double mm)
{
  const double step = scale->step / scale->unit;
  int decimals = 0;
  for (double s = step; decimals < 6 && fabs (s - round (s)) > 1e-6 * s; s *= 10)
    decimals++;
  const double value = mm / scale->unit;
  return g_strdup_printf ("%.*f", decimals, fabs (value) < step / 2 ? 0.0 : value);
}

/* One of the two rulers, being drawn along x; the left one is turned by a quarter. */
typedef struct {
  const PfRulers *rulers;
  GtkWidget *widget;
  GtkSnapshot *snapshot;
  PfRulerScale scale;
  double zero, pixel; /* where 0 mm is, in pixels; mm to a pixel */
  double length;
  bool upright;
} Ruler;

static void
draw_line (const Ruler *ruler, cairo_t *cr, double at, double size)
{
  const double x = floor (at) + 0.5;
  if (ruler->upright)
    {
      cairo_move_to (cr, PF_RULER_WIDTH - size, x);
      cairo_line_to (cr, PF_RULER_WIDTH, x);
    }
  else
    {
      cairo_move_to (cr, x, PF_RULER_WIDTH - size);
      cairo_line_to (cr, x, PF_RULER_WIDTH);
    }
}

static void
draw_number (const Ruler *ruler, double at, double mm)
{
  g_autofree char *number = pf_ruler_number (&ruler->scale, mm);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (ruler->widget, number);
  PangoAttrList *small = pango_attr_list_new ();
  pango_attr_list_insert (small, pango_attr_scale_new (PANGO_SCALE_SMALL));
  pango_layout_set_attributes (layout, small);
  pango_attr_list_unref (small);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  /* A number that the corner would cut into is another one. */
  if ((ruler->upright ? at - width : at) < PF_RULER_WIDTH)
    return;
  gtk_snapshot_save (ruler->snapshot);
  const graphene_point_t along = { (float) floor (at) + 3, -1 };
  const graphene_point_t up = { -1, (float) floor (at) - 3 };
  gtk_snapshot_translate (ruler->snapshot, ruler->upright ? &up : &along);
  if (ruler->upright)
    gtk_snapshot_rotate (ruler->snapshot, -90);
  gtk_snapshot_append_layout (ruler->snapshot, layout, &ruler->rulers->ink);
  gtk_snapshot_restore (ruler->snapshot);
}

static void
draw_ruler (const Ruler *ruler)
{
  const PfRulerScale *scale = &ruler->scale;
  const graphene_rect_t box =
      ruler->upright
          ? GRAPHENE_RECT_INIT (0, PF_RULER_WIDTH, PF_RULER_WIDTH,
                                (float) (ruler->length - PF_RULER_WIDTH))
          : GRAPHENE_RECT_INIT (PF_RULER_WIDTH, 0, (float) (ruler->length - PF_RULER_WIDTH),
                                PF_RULER_WIDTH);
  if (box.size.width <= 0 || box.size.height <= 0)
    return;
  gtk_snapshot_append_color (ruler->snapshot, &ruler->rulers->paper, &box);
  gtk_snapshot_push_clip (ruler->snapshot, &box);
  const double part = scale->step / scale->parts / ruler->pixel;
  const double first = floor ((PF_RULER_WIDTH - ruler->zero) / part / scale->parts) * scale->parts;
  const double last = ceil ((ruler->length - ruler->zero) / part);
  cairo_t *cr = gtk_snapshot_append_cairo (ruler->snapshot, &box);
  gdk_cairo_set_source_rgba (cr, &ruler->rulers->ink);
  cairo_set_line_width (cr, 1);
  for (double n = first; n <= last; n++)
    {
      const bool numbered = fmod (n, scale->parts) == 0;
      const bool half = fmod (2 * n, scale->parts) == 0;
      draw_line (ruler, cr, ruler->zero + n * part, numbered ? 11 : half ? 7 : 4);
    }
  cairo_stroke (cr);
  cairo_destroy (cr);
  for (double n = first; n <= last; n += scale->parts)
    draw_number (ruler, ruler->zero + n * part, n / scale->parts * scale->step);
  gtk_snapshot_pop (ruler->snapshot);
}

/* A wedge at each ruler's inner side, where the pointer is. */
static void
draw_pointer (const PfRulers *rulers, GtkSnapshot *snapshot)
{
  const PfPoint at = rulers->pointer;
  if (isnan (at.x) || at.x < PF_RULER_WIDTH || at.y < PF_RULER_WIDTH)
    return;
  const float width = (float) rulers->view->width, height = (float) rulers->view->height;
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (PF_RULER_WIDTH - 8, 0, width, PF_RULER_WIDTH));
  gdk_cairo_set_source_rgba (cr, &rulers->mark);
  cairo_move_to (cr, at.x, PF_RULER_WIDTH);
  cairo_rel_line_to (cr, -5, -8);
  cairo_rel_line_to (cr, 10, 0);
  cairo_fill (cr);
  cairo_destroy (cr);
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, PF_RULER_WIDTH - 8, PF_RULER_WIDTH, height));
  gdk_cairo_set_source_rgba (cr, &rulers->mark);
  cairo_move_to (cr, PF_RULER_WIDTH, at.y);
  cairo_rel_line_to (cr, -8, -5);
  cairo_rel_line_to (cr, 0, 10);
  cairo_fill (cr);
  cairo_destroy (cr);
}

/* The unit stands in the corner; an arc round it in a turned view. */
static void
draw_corner (const PfRulers *rulers, GtkWidget *widget, GtkSnapshot *snapshot)
{
  const graphene_rect_t box = GRAPHENE_RECT_INIT (0, 0, PF_RULER_WIDTH, PF_RULER_WIDTH);
  gtk_snapshot_append_color (snapshot, &rulers->paper, &box);
  g_autoptr (PangoLayout) layout =
      gtk_widget_create_pango_layout (widget, rulers->inches ? "in" : "mm");
  PangoAttrList *small = pango_attr_list_new ();
  pango_attr_list_insert (small, pango_attr_scale_new (PANGO_SCALE_X_SMALL));
  pango_layout_set_attributes (layout, small);
  pango_attr_list_unref (small);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) (PF_RULER_WIDTH - width) / 2,
                                                          (float) (PF_RULER_WIDTH - height) / 2));
  gtk_snapshot_append_layout (snapshot, layout, &rulers->ink);
  gtk_snapshot_restore (snapshot);
  if (rulers->view->turn == 0)
    return;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &box);
  gdk_cairo_set_source_rgba (cr, &rulers->mark);
  cairo_set_line_width (cr, 1.5);
  cairo_arc (cr, PF_RULER_WIDTH / 2, PF_RULER_WIDTH / 2, PF_RULER_WIDTH / 2 - 2, -2.6, -0.4);
  cairo_rel_move_to (cr, -5, 0.5);
  cairo_rel_line_to (cr, 5, -0.5);
  cairo_rel_line_to (cr, 0.5, -5);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

void
pf_rulers_snapshot (const PfRulers *rulers, GtkWidget *widget, GtkSnapshot *snapshot)
{
  const PfPoint zero = pf_canvas_view_to_screen (rulers->view, (PfPoint){ 0, 0 });
  Ruler ruler = { rulers, widget, snapshot, .pixel = pf_canvas_view_pixel (rulers->view) };
  ruler.scale = pf_ruler_scale (ruler.pixel, rulers->inches);
  ruler.zero = zero.x;
  ruler.length = rulers->view->width;
  draw_ruler (&ruler);
  ruler.zero = zero.y;
  ruler.length = rulers->view->height;
  ruler.upright = true;
  draw_ruler (&ruler);
  draw_pointer (rulers, snapshot);
  draw_corner (rulers, widget, snapshot);
}
