/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The screen is measured with a ruler, or with a bank card, which is of the same size everywhere.
 * Slider, number and the drawing's own right end, which can be dragged, all change one adjustment:
 * pixels to the mm.
 */
#include "true-size-dialog.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "form.h"

typedef struct {
  double width;  /* mm */
  double height; /* 0: a line */
} Measure;

/* A card of type ID-1 is 85.60 mm by 53.98 mm (ISO/IEC 7810). */
static const Measure measures[] = {
  { 100, 0 },
  { 4 * PF_MM_PER_INCH, 0 },
  { 85.60, 53.98 },
};

#define MARGIN 24
#define CORNER 3.18 /* mm: about how round a card's corners are */

typedef struct {
  PfPreferences *preferences;
  GtkWidget *area, *choice;
  GtkAdjustment *pixels; /* to the mm */
} TrueSize;

static const Measure *
current (const TrueSize *size)
{
  return &measures[gtk_drop_down_get_selected (GTK_DROP_DOWN (size->choice))];
}

static double
snapped (double x)
{
  return round (x - 0.5) + 0.5;
}

/* A line whose ends can be laid against a ruler's marks, with a mark at every tenth. */
static void
draw_line (cairo_t *cr, double length, double height)
{
  const double middle = snapped (height / 2);
  for (int tenth = 0; tenth <= 10; tenth++)
    {
      const double x = snapped (MARGIN + tenth * length / 10);
      const double reach = tenth % 10 == 0 ? 30 : tenth == 5 ? 14 : 8;
      cairo_move_to (cr, x, middle - reach);
      cairo_line_to (cr, x, middle + reach);
    }
  cairo_move_to (cr, snapped (MARGIN), middle);
  cairo_line_to (cr, snapped (MARGIN + length), middle);
  cairo_stroke (cr);
}

static void
draw_card (cairo_t *cr, const Measure *card, double pixels)
{
  const double x = snapped (MARGIN), y = snapped (MARGIN), r = CORNER * pixels;
  const double right = snapped (x + card->width * pixels);
  const double bottom = snapped (y + card->height * pixels);
  cairo_arc (cr, x + r, y + r, r, G_PI, 1.5 * G_PI);
  cairo_arc (cr, right - r, y + r, r, 1.5 * G_PI, 2 * G_PI);
  cairo_arc (cr, right - r, bottom - r, r, 0, 0.5 * G_PI);
  cairo_arc (cr, x + r, bottom - r, r, 0.5 * G_PI, G_PI);
  cairo_close_path (cr);
  cairo_stroke (cr);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  (void) width;
  const TrueSize *size = data;
  const Measure *measure = current (size);
  const double pixels = gtk_adjustment_get_value (size->pixels);
  GdkRGBA ink;
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, 1);
  if (measure->height > 0)
    draw_card (cr, measure, pixels);
  else
    draw_line (cr, measure->width * pixels, height);
}

/* The drawing's place grows with it, and never below what fits a usual screen. */
static void
update (TrueSize *size)
{
  const Measure *measure = current (size);
  const double pixels = gtk_adjustment_get_value (size->pixels);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (size->area),
                                      (int) ceil (measure->width * pixels) + 2 * MARGIN);
  gtk_drawing_area_set_content_height (
      GTK_DRAWING_AREA (size->area),
      measure->height > 0 ? (int) ceil (measure->height * pixels) + 2 * MARGIN : 100);
  gtk_widget_queue_draw (size->area);
}

static void
dragged (GtkGestureDrag *gesture, double dx, double dy, TrueSize *size)
{
  (void) dy;
  double x;
  gtk_gesture_drag_get_start_point (gesture, &x, NULL);
  gtk_adjustment_set_value (size->pixels, (x + dx - MARGIN) / current (size)->width);
}

static void
accept (GtkWidget *button, TrueSize *size)
{
  g_object_set (size->preferences, "pixels-per-mm", gtk_adjustment_get_value (size->pixels), NULL);
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (button)));
}

static void
true_size_free (gpointer data)
{
  TrueSize *size = data;
  g_object_unref (size->preferences);
  g_object_unref (size->pixels);
  g_free (size);
}

static GtkWidget *
area_new (TrueSize *size)
{
  size->area = gtk_drawing_area_new ();
  pf_name_widget (size->area, _ ("The drawing to compare with the thing you hold"));
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (size->area), draw, size, NULL);
  gtk_widget_set_cursor_from_name (size->area, "ew-resize");
  GtkGesture *drag = gtk_gesture_drag_new ();
  g_signal_connect (drag, "drag-update", G_CALLBACK (dragged), size);
  gtk_widget_add_controller (size->area, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect_swapped (size->pixels, "value-changed", G_CALLBACK (update), size);
  g_signal_connect_swapped (size->choice, "notify::selected", G_CALLBACK (update), size);

  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), size->area);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_widget_add_css_class (scrolled, "view");
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_widget_set_size_request (scrolled, -1, 300);
  return scrolled;
}

static GtkWidget *
slider_new (TrueSize *size)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *slider = gtk_scale_new (GTK_ORIENTATION_HORIZONTAL, size->pixels);
  GtkWidget *number = gtk_spin_button_new (size->pixels, 0.01, 3);
  gtk_scale_set_draw_value (GTK_SCALE (slider), FALSE);
  gtk_widget_set_hexpand (slider, TRUE);
  pf_name_widget (slider, _ ("Longer or shorter"));
  pf_name_widget (number, _ ("Pixels to the mm"));
  gtk_box_append (GTK_BOX (box), slider);
  gtk_box_append (GTK_BOX (box), number);
  gtk_box_append (GTK_BOX (box), gtk_label_new (_ ("pixels to the mm")));
  return box;
}

static GtkWidget *
content_new (TrueSize *size)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_margin_start (content, 18);
  gtk_widget_set_margin_end (content, 18);
  gtk_widget_set_margin_top (content, 12);
  gtk_widget_set_margin_bottom (content, 18);
  gtk_box_append (
      GTK_BOX (content),
      pf_hint_new (_ ("Hold a ruler or a bank card flat against the screen, and stretch "
                      "the drawing until both are of one length. It need be done only "
                      "once for each screen.")));
  GtkWidget *form = pf_form_new ();
  pf_form_add_row (GTK_GRID (form), _ ("_Compare with"), size->choice);
  GtkWidget *slider = slider_new (size);
  gtk_box_append (GTK_BOX (content), form);
  gtk_box_append (GTK_BOX (content), area_new (size));
  gtk_box_append (GTK_BOX (content), slider);
  return content;
}

GtkWidget *
pf_true_size_dialog_new (GtkWindow *parent, PfPreferences *preferences)
{
  const char *const things[] = { _ ("A ruler: 100 mm"), _ ("A ruler: 4 inches"),
                                 _ ("A bank card: 85.6 mm by 54 mm"), NULL };
  GtkWidget *dialog = pf_dialog_new (parent, _ ("Measure this screen"), true);
  TrueSize *size = g_new0 (TrueSize, 1);
  size->preferences = g_object_ref (preferences);
  size->pixels = g_object_ref_sink (gtk_adjustment_new (pf_preferences_pixels_per_mm (preferences),
                                                        PF_PIXELS_PER_MM_MIN, PF_PIXELS_PER_MM_MAX,
                                                        0.01, 0.1, 0));
  size->choice = gtk_drop_down_new_from_strings (things);
  if (pf_preferences_units (preferences) == PF_UNITS_INCH)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (size->choice), 1);
  g_object_set_data_full (G_OBJECT (dialog), "pf-true-size", size, true_size_free);
  gtk_window_set_child (GTK_WINDOW (dialog), content_new (size));
  update (size);

  GtkWidget *cancel = pf_dialog_add_button (GTK_WINDOW (dialog), _ ("C_ancel"), false);
  GtkWidget *use = pf_dialog_add_button (GTK_WINDOW (dialog), _ ("_Use this size"), true);
  gtk_header_bar_set_show_title_buttons (
      GTK_HEADER_BAR (gtk_window_get_titlebar (GTK_WINDOW (dialog))), FALSE);
  gtk_widget_add_css_class (use, "suggested-action");
  gtk_window_set_default_widget (GTK_WINDOW (dialog), use);
  gtk_window_set_default_size (GTK_WINDOW (dialog), 760, -1);
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_close), dialog);
  g_signal_connect (use, "clicked", G_CALLBACK (accept), size);
  return dialog;
}
