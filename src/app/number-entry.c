/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "number-entry.h"

#include <math.h>

#include <glib/gi18n-lib.h>

/* One step in inches: a hundredth; a thousandth of a square inch. */
#define INCH_STEP (0.01 * PF_MM_PER_INCH)
#define SQUARE_INCH_STEP (0.001 * PF_MM_PER_INCH * PF_MM_PER_INCH)
#define MM_STEP_KEY "pf-mm-step"

static PfUnits
units_of (PfPanel *panel)
{
  return pf_editor_units (pf_panel_editor (panel));
}

static bool
is_area (GtkSpinButton *spin)
{
  return gtk_widget_has_css_class (GTK_WIDGET (spin), "area");
}

/* A length as the entry shows it, always with as many decimals. */
static char *
shown_length (GtkSpinButton *spin, double mm, PfUnits units)
{
  if (is_area (spin))
    return pf_format_area (mm, units);
  if (units == PF_UNITS_INCH)
    {
      g_autofree char *inches =
          g_strdup_printf ("%.*f", PF_INCH_DECIMALS, mm / PF_MM_PER_INCH + 0.0);
      return g_strdup_printf (_ ("%s in"), inches);
    }
  return pf_format_fixed_length (mm, (int) gtk_spin_button_get_digits (spin), units);
}

static gboolean
show_length (GtkSpinButton *spin, PfPanel *panel)
{
  g_autofree char *text = shown_length (
      spin, gtk_adjustment_get_value (gtk_spin_button_get_adjustment (spin)), units_of (panel));
  if (g_strcmp0 (text, gtk_editable_get_text (GTK_EDITABLE (spin))) != 0)
    gtk_editable_set_text (GTK_EDITABLE (spin), text);
  return TRUE;
}

static void
refuse (PfPanel *panel, const char *text, const char *least, const char *most)
{
  g_autofree char *words = g_strdup_printf (
      _ ("“%s” can’t stand there: give a number from %s to %s."), text, least, most);
  pf_panel_say (panel, words);
}

static char *
name_limit (GtkSpinButton *spin, double mm, PfUnits units)
{
  return is_area (spin) ? pf_format_area (mm, units) : pf_format_length (mm, units);
}

/* What is shown stands for the whole length, of which it shows only some decimals. */
static int
read_length (GtkSpinButton *spin, double *mm, PfPanel *panel)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (spin));
  const double now = gtk_adjustment_get_value (gtk_spin_button_get_adjustment (spin));
  const PfUnits units = units_of (panel);
  g_autofree char *shown = shown_length (spin, now, units);
  double least, most, typed;
  if (g_strcmp0 (shown, text) == 0)
    {
      *mm = now;
      return TRUE;
    }
  gtk_spin_button_get_range (spin, &least, &most);
  const bool read =
      is_area (spin) ? pf_parse_area (text, units, &typed) : pf_parse_length (text, units, &typed);
  if (read && typed >= least && typed <= most)
    {
      *mm = typed;
      return TRUE;
    }
  g_autofree char *from = name_limit (spin, least, units), *to = name_limit (spin, most, units);
  refuse (panel, text, from, to);
  return GTK_INPUT_ERROR;
}

static int
read_number (GtkSpinButton *spin, double *number, PfPanel *panel)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (spin));
  double least, most;
  char *end;
  const double typed = g_strtod (text, &end);
  gtk_spin_button_get_range (spin, &least, &most);
  while (g_ascii_isspace (*end))
    end++;
  if (end != text && *end == '\0' && typed >= least && typed <= most)
    {
      *number = typed;
      return TRUE;
    }
  g_autofree char *from = g_strdup_printf ("%g", least), *to = g_strdup_printf ("%g", most);
  refuse (panel, text, from, to);
  return GTK_INPUT_ERROR;
}

static void
use_units (GtkSpinButton *spin, PfPanel *panel)
{
  const double mm_step = *(double *) g_object_get_data (G_OBJECT (spin), MM_STEP_KEY);
  const double inch_step = is_area (spin) ? SQUARE_INCH_STEP : INCH_STEP;
  const double step = units_of (panel) == PF_UNITS_INCH ? inch_step : mm_step;
  GtkAdjustment *adjustment = gtk_spin_button_get_adjustment (spin);
  gtk_adjustment_set_step_increment (adjustment, step);
  gtk_adjustment_set_page_increment (adjustment, 10 * step);
  show_length (spin, panel);
}

static void
units_changed (GtkSpinButton *spin, PfEditor *editor G_GNUC_UNUSED)
{
  PfPanel *panel = PF_PANEL (gtk_widget_get_ancestor (GTK_WIDGET (spin), PF_TYPE_PANEL));
  if (panel != NULL)
    use_units (spin, panel);
}

static void
prepare_length (GtkSpinButton *spin, PfPanel *panel)
{
  double *step = g_new (double, 1);
  gtk_spin_button_set_numeric (spin, FALSE); /* units are typed too */
  *step = gtk_adjustment_get_step_increment (gtk_spin_button_get_adjustment (spin));
  g_object_set_data_full (G_OBJECT (spin), MM_STEP_KEY, step, g_free);
  g_signal_connect_object (spin, "input", G_CALLBACK (read_length), panel, 0);
  g_signal_connect_object (spin, "output", G_CALLBACK (show_length), panel, 0);
  g_signal_connect_object (pf_panel_editor (panel), "units-changed", G_CALLBACK (units_changed),
                           spin, G_CONNECT_SWAPPED);
  use_units (spin, panel);
}

void
pf_number_entries_prepare (GtkWidget *inside, PfPanel *panel)
{
  if (GTK_IS_SPIN_BUTTON (inside))
    {
      if (gtk_widget_has_css_class (inside, "length") || gtk_widget_has_css_class (inside, "area"))
        prepare_length (GTK_SPIN_BUTTON (inside), panel);
      else
        g_signal_connect_object (inside, "input", G_CALLBACK (read_number), panel, 0);
      return;
    }
  if (GTK_IS_EXPANDER (inside)) /* what it hides isn't among its children */
    {
      pf_number_entries_prepare (gtk_expander_get_child (GTK_EXPANDER (inside)), panel);
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (inside); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    pf_number_entries_prepare (child, panel);
}
