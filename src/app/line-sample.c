/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws a line on paper as the preferences have it: colour, width and the dashes of its kind.
 */
#include "line-sample.h"

#include <style.h>

#define GAP 4.0 /* mm between pins that the sample is for */

typedef struct {
  PfPreferences *preferences;
  PfPairKind kind;
} Sample;

static void
sample_free (gpointer data)
{
  Sample *sample = data;
  g_object_unref (sample->preferences);
  g_free (sample);
}

static void
draw_paper (cairo_t *cr, int width, int height)
{
  cairo_rectangle (cr, 0.5, 0.5, width - 1, height - 1);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.6, 0.6, 0.6);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  (void) area;
  const Sample *sample = data;
  const PfLook look = pf_preferences_look (sample->preferences);
  const PfSizes sizes = pf_look_sizes (&look, pf_sizes (GAP, 1));
  const PfInk ink = pf_look_ink (&look, sample->kind, pf_line_ink (sample->kind, &sizes));
  const double scale = 2 * pf_preferences_pixels_per_mm (sample->preferences);
  GdkRGBA colour;
  gdk_rgba_parse (&colour, ink.stroke);
  draw_paper (cr, width, height);
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_scale (cr, scale, scale);
  cairo_set_line_width (cr, ink.width);
  cairo_set_dash (cr, ink.dash, ink.n_dash, 0);
  cairo_set_line_cap (cr, ink.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_move_to (cr, 1, height / scale / 2);
  cairo_line_to (cr, width / scale - 1, height / scale / 2);
  cairo_stroke (cr);
}

GtkWidget *
pf_line_sample_new (PfPreferences *preferences, PfPairKind kind)
{
  GtkWidget *area = gtk_drawing_area_new ();
  Sample *sample = g_new (Sample, 1);
  *sample = (Sample){ g_object_ref (preferences), kind };
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), 150);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), 26);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw, sample, sample_free);
  g_signal_connect_object (preferences, "notify", G_CALLBACK (gtk_widget_queue_draw), area,
                           G_CONNECT_SWAPPED);
  return area;
}
