/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The preferences window: each row shows one property and is bound to it both ways, so that a
 * change takes effect while the window is open.
 */
#include "preferences-window.h"

#include <glib/gi18n-lib.h>

#include "form.h"
#include "line-sample.h"
#include "printer-dialog.h"
#include "true-size-dialog.h"

static GtkWidget *
choice_new (PfPreferences *preferences, const char *property, const char *const *words)
{
  g_autoptr (GPtrArray) shown = g_ptr_array_new ();
  for (; *words; words++)
    g_ptr_array_add (shown, (gpointer) _ (*words));
  g_ptr_array_add (shown, NULL);
  GtkWidget *choice = gtk_drop_down_new_from_strings ((const char *const *) shown->pdata);
  g_object_bind_property (preferences, property, choice, "selected",
                          G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  return choice;
}

static void
add_look (GtkGrid *form, PfPreferences *preferences)
{
  static const char *const units[] = { N_ ("Millimetres"), N_ ("Inches"), NULL };
  static const char *const styles[] = {
    N_ ("As the system"),       N_ ("Light"), N_ ("Dark"), N_ ("Light, high contrast"),
    N_ ("Dark, high contrast"), NULL
  };
  pf_form_add_heading (form, _ ("The window"));
  pf_form_add_row (form, _ ("_Lengths in"), choice_new (preferences, "units", units));
  pf_form_add_wide (form,
                    pf_hint_new (_ ("For rulers, and all lengths that are shown or typed in the "
                                    "window. Another unit may be typed with the number: 4 mm, "
                                    "0.5 in, 3/8 in. Files, reports and sheets stay in mm.")));
  pf_form_add_row (form, _ ("_Style"), choice_new (preferences, "style", styles));
}

static gboolean
to_rgba (GBinding *binding, const GValue *from, GValue *to, gpointer data)
{
  (void) binding;
  (void) data;
  GdkRGBA colour;
  gdk_rgba_parse (&colour, g_value_get_string (from));
  g_value_set_boxed (to, &colour);
  return TRUE;
}

static gboolean
from_rgba (GBinding *binding, const GValue *from, GValue *to, gpointer data)
{
  (void) binding;
  (void) data;
  const GdkRGBA *colour = g_value_get_boxed (from);
  g_value_take_string (to, g_strdup_printf ("#%02x%02x%02x", (guint) (colour->red * 255 + 0.5f),
                                            (guint) (colour->green * 255 + 0.5f),
                                            (guint) (colour->blue * 255 + 0.5f)));
  return TRUE;
}

static void
add_colour (GtkGrid *form, PfPreferences *preferences, PfPairKind kind, const char *mnemonic)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *button = gtk_color_button_new ();
  gtk_color_button_set_title (GTK_COLOR_BUTTON (button), _ ("Colour of the line"));
  gtk_color_button_set_modal (GTK_COLOR_BUTTON (button), TRUE);
  g_object_bind_property_full (preferences, pf_preferences_colour_property (kind), button, "rgba",
                               G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL, to_rgba, from_rgba,
                               NULL, NULL);
  GtkWidget *sample = pf_line_sample_new (preferences, kind);
  gtk_widget_set_hexpand (sample, TRUE);
  gtk_box_append (GTK_BOX (box), sample);
  gtk_box_append (GTK_BOX (box), button);
  pf_form_add_row_for (form, mnemonic, box, button);
}

static void
add_width (GtkGrid *form, PfPreferences *preferences)
{
  GtkAdjustment *width = gtk_adjustment_new (1, PF_LINE_WIDTH_MIN, PF_LINE_WIDTH_MAX, 0.1, 0.5, 0);
  GtkWidget *slider = gtk_scale_new (GTK_ORIENTATION_HORIZONTAL, width);
  gtk_scale_add_mark (GTK_SCALE (slider), 1, GTK_POS_BOTTOM, NULL);
  gtk_widget_set_hexpand (slider, TRUE);
  GtkWidget *number = gtk_spin_button_new (width, 0.1, 1);
  gtk_editable_set_width_chars (GTK_EDITABLE (number), 4);
  pf_name_widget (slider, _ ("Wider or narrower lines"));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_box_append (GTK_BOX (box), slider);
  gtk_box_append (GTK_BOX (box), number);
  g_object_bind_property (preferences, "line-width", width, "value",
                          G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  pf_form_add_row_for (form, _ ("Line _width"), box, number);
}

static void
add_lines (GtkGrid *form, PfPreferences *preferences)
{
  pf_form_add_heading (form, _ ("Lines of pairs on the screen"));
  add_colour (form, preferences, PF_PAIR_NEW, _ ("_New pairs"));
  add_colour (form, preferences, PF_PAIR_TURNED, _ ("_Turned pairs"));
  add_colour (form, preferences, PF_PAIR_CARRIED, _ ("_Carried pairs"));
  add_colour (form, preferences, PF_PAIR_FINISHED, _ ("_Finished pairs"));

  add_width (form, preferences);
  pf_form_add_wide (
      form,
      pf_hint_new (_ ("1 is as printed. The printed sheet keeps its own colours and widths.")));
}

typedef GtkWidget *(*NewDialog) (GtkWindow *parent, PfPreferences *preferences);

static void
open_dialog (GtkWidget *button, PfPreferences *preferences, NewDialog dialog_new)
{
  GtkWindow *parent = GTK_WINDOW (gtk_widget_get_root (button));
  gtk_window_present (GTK_WINDOW (dialog_new (parent, preferences)));
}

static void
measure_screen (GtkWidget *button, PfPreferences *preferences)
{
  open_dialog (button, preferences, pf_true_size_dialog_new);
}

static void
measure_printer (GtkWidget *button, PfPreferences *preferences)
{
  open_dialog (button, preferences, pf_printer_dialog_new);
}

/* What is measured, in words, and a button to measure it. */
static void
add_measured (GtkGrid *form, GtkWidget *words, const char *mnemonic, GCallback measure,
              PfPreferences *preferences)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (mnemonic);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_signal_connect_object (button, "clicked", measure, preferences, 0);
  pf_form_add_wide (form, words);
  pf_form_add_wide (form, button);
}

static gboolean
to_true_size_words (GBinding *binding, const GValue *from, GValue *to, gpointer data)
{
  (void) binding;
  (void) data;
  const double pixels = g_value_get_double (from);
  const bool measured = pixels != PF_PIXELS_PER_MM_USUAL;
  g_value_take_string (
      to, measured
              ? g_strdup_printf (_ ("Measured: %.2f pixels to the mm"), pixels)
              : g_strdup_printf (_ ("Not measured yet: taken as %.2f pixels to the mm"), pixels));
  return TRUE;
}

static void
add_true_size (GtkGrid *form, PfPreferences *preferences)
{
  pf_form_add_heading (form, _ ("True size on this screen"));
  GtkWidget *words = pf_hint_new ("");
  g_object_bind_property_full (preferences, "pixels-per-mm", words, "label", G_BINDING_SYNC_CREATE,
                               to_true_size_words, NULL, NULL, NULL);
  add_measured (form, words, _ ("_Measure this screen…"), G_CALLBACK (measure_screen), preferences);
}

static gboolean
to_printer_words (GBinding *binding, const GValue *from, GValue *to, gpointer preferences)
{
  (void) binding;
  (void) from;
  const PfPrinterRules printer = pf_preferences_printer (preferences);
  g_value_take_string (
      to, pf_printer_is_true (&printer)
              ? g_strdup (_ ("Pages are printed as they are."))
              : g_strdup_printf (_ ("Pages are corrected for a printer on which 50 mm came out "
                                    "%.2f mm along the short side, %.2f mm along the long side."),
                                 printer.short_side, printer.long_side));
  return TRUE;
}

static void
add_printer (GtkGrid *form, PfPreferences *preferences)
{
  static const char *const sides[] = { "printer-short-side", "printer-long-side" };
  pf_form_add_heading (form, _ ("True size on paper"));
  GtkWidget *words = pf_hint_new ("");
  for (size_t s = 0; s < G_N_ELEMENTS (sides); s++)
    g_object_bind_property_full (preferences, sides[s], words, "label", G_BINDING_SYNC_CREATE,
                                 to_printer_words, NULL, preferences, NULL);
  add_measured (form, words, _ ("Measure your _printer…"), G_CALLBACK (measure_printer),
                preferences);
}

static void
add_reset (GtkGrid *form, PfPreferences *preferences)
{
  GtkWidget *reset = gtk_button_new_with_mnemonic (_ ("_Back to defaults"));
  gtk_widget_set_halign (reset, GTK_ALIGN_END);
  gtk_widget_set_margin_top (reset, 12);
  g_signal_connect_object (reset, "clicked", G_CALLBACK (pf_preferences_reset), preferences,
                           G_CONNECT_SWAPPED);
  pf_form_add_wide (form, reset);
}

GtkWidget *
pf_preferences_window_new (GtkWindow *parent, PfPreferences *preferences)
{
  GtkWidget *window = pf_dialog_new (parent, _ ("Preferences"), false);
  GtkWidget *form = pf_form_new ();
  gtk_widget_set_margin_start (form, 24);
  gtk_widget_set_margin_end (form, 24);
  gtk_widget_set_margin_top (form, 18);
  gtk_widget_set_margin_bottom (form, 24);
  add_look (GTK_GRID (form), preferences);
  add_lines (GTK_GRID (form), preferences);
  add_true_size (GTK_GRID (form), preferences);
  add_printer (GTK_GRID (form), preferences);
  add_reset (GTK_GRID (form), preferences);

  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), form);
  gtk_window_set_child (GTK_WINDOW (window), scrolled);
  gtk_window_set_default_size (GTK_WINDOW (window), 480, -1);
  return window;
}
