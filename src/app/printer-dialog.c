/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the rules measured is kept as if they had been printed without a correction. A sheet that
 * was corrected already adds to that: its rules are off by what the correction left.
 */
#include "printer-dialog.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "form.h"

typedef struct {
  PfPreferences *preferences;
  PfPrinterRules now; /* in use as the dialog opens */
  GtkWidget *printed; /* with the present correction, or without; NULL if there is none */
  GtkWidget *short_side, *long_side, *files;
  GtkLabel *outcome;
  GtkWidget *use;
} Printer;

/* What a rule would measure without a correction. */
static double
uncorrected (const Printer *printer, GtkWidget *number, double now)
{
  const bool corrected = printer->printed != NULL &&
                         gtk_drop_down_get_selected (GTK_DROP_DOWN (printer->printed)) == 0;
  const double measured = gtk_spin_button_get_value (GTK_SPIN_BUTTON (number));
  return corrected ? now * measured / PF_RULE_LENGTH : measured;
}

static PfPrinterRules
rules (const Printer *printer)
{
  return (PfPrinterRules){
    uncorrected (printer, printer->short_side, printer->now.short_side),
    uncorrected (printer, printer->long_side, printer->now.long_side),
  };
}

/* By how much pages are made longer, as a percentage with two decimals; 0 if that isn't seen. */
static double
longer (double measured)
{
  return round (1e4 * (PF_RULE_LENGTH / measured - 1)) / 100;
}

static char *
short_side_words (double percent)
{
  if (percent == 0)
    return g_strdup (_ ("Along the short side pages stay as they are."));
  return percent > 0
             ? g_strdup_printf (_ ("Along the short side pages are made %.2f %% longer."), percent)
             : g_strdup_printf (_ ("Along the short side pages are made %.2f %% shorter."),
                                -percent);
}

static char *
long_side_words (double percent)
{
  if (percent == 0)
    return g_strdup (_ ("Along the long side pages stay as they are."));
  return percent > 0
             ? g_strdup_printf (_ ("Along the long side pages are made %.2f %% longer."), percent)
             : g_strdup_printf (_ ("Along the long side pages are made %.2f %% shorter."),
                                -percent);
}

static char *
outcome_words (const PfPrinterRules *measured)
{
  g_autofree char *short_side = short_side_words (longer (measured->short_side));
  g_autofree char *long_side = long_side_words (longer (measured->long_side));
  return g_strdup_printf ("%s\n%s", short_side, long_side);
}

static void
update (Printer *printer)
{
  g_autoptr (GError) error = NULL;
  const PfPrinterRules measured = rules (printer);
  const bool good = pf_printer_check (&measured, &error);
  g_autofree char *words = good ? outcome_words (&measured) : g_strdup (error->message);
  gtk_label_set_label (printer->outcome, words);
  gtk_widget_set_sensitive (printer->use, good);
}

static void
forget (Printer *printer)
{
  if (printer->printed != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (printer->printed), 1);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (printer->short_side), PF_RULE_LENGTH);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (printer->long_side), PF_RULE_LENGTH);
}

static void
accept (GtkWidget *button, Printer *printer)
{
  gtk_spin_button_update (GTK_SPIN_BUTTON (printer->short_side));
  gtk_spin_button_update (GTK_SPIN_BUTTON (printer->long_side));
  const PfPrinterRules measured = rules (printer);
  if (!pf_printer_check (&measured, NULL))
    return;
  g_object_set (printer->preferences, "printer-short-side", measured.short_side,
                "printer-long-side", measured.long_side, "printer-files",
                gtk_check_button_get_active (GTK_CHECK_BUTTON (printer->files)), NULL);
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (button)));
}

static void
printer_free (gpointer data)
{
  Printer *printer = data;
  g_object_unref (printer->preferences);
  g_free (printer);
}

/* --- Its widgets --------------------------------------------------------------------------------
 */

static GtkWidget *
number_new (Printer *printer)
{
  GtkWidget *number = gtk_spin_button_new_with_range (PF_RULE_LEAST, PF_RULE_MOST, 0.1);
  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (number), 2);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (number), PF_RULE_LENGTH);
  gtk_spin_button_set_update_policy (GTK_SPIN_BUTTON (number), GTK_UPDATE_IF_VALID);
  gtk_text_set_activates_default (GTK_TEXT (gtk_editable_get_delegate (GTK_EDITABLE (number))),
                                  TRUE);
  g_signal_connect_swapped (number, "value-changed", G_CALLBACK (update), printer);
  return number;
}

static void
add_number (GtkGrid *form, const char *mnemonic, GtkWidget *number)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_box_append (GTK_BOX (box), number);
  gtk_box_append (GTK_BOX (box), gtk_label_new (_ ("mm")));
  pf_form_add_row_for (form, mnemonic, box, number);
}

static void
add_printed (GtkGrid *form, Printer *printer)
{
  const char *const ways[] = { _ ("With the present correction"), _ ("Without a correction"),
                               NULL };
  printer->printed = gtk_drop_down_new_from_strings (ways);
  g_signal_connect_swapped (printer->printed, "notify::selected", G_CALLBACK (update), printer);
  pf_form_add_row (form, _ ("The sheet was _printed"), printer->printed);
}

static GtkWidget *
content_new (Printer *printer)
{
  GtkWidget *form = pf_form_new ();
  gtk_widget_set_margin_start (form, 18);
  gtk_widget_set_margin_end (form, 18);
  gtk_widget_set_margin_top (form, 12);
  gtk_widget_set_margin_bottom (form, 18);
  pf_form_add_wide (
      GTK_GRID (form),
      /* xgettext:no-c-format */
      pf_hint_new (_ ("Print a pricking at 100 %, and lay a ruler along the two check rules in its "
                      "corner. Each should be 50 mm long. Type in what they measure, and pages are "
                      "corrected, along either side by itself. It need be done only once for each "
                      "printer and paper.")));
  if (!pf_printer_is_true (&printer->now))
    add_printed (GTK_GRID (form), printer);
  add_number (GTK_GRID (form), _ ("The rule along the _short side of the paper"),
              printer->short_side);
  add_number (GTK_GRID (form), _ ("The rule along the _long side of the paper"),
              printer->long_side);
  gtk_label_set_xalign (printer->outcome, 0);
  gtk_label_set_wrap (printer->outcome, TRUE);
  gtk_label_set_max_width_chars (printer->outcome, 60);
  pf_form_add_wide (GTK_GRID (form), GTK_WIDGET (printer->outcome));
  GtkWidget *none = gtk_button_new_with_mnemonic (_ ("_No correction"));
  gtk_widget_set_halign (none, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (none, _ ("Takes both rules as 50 mm long"));
  g_signal_connect_swapped (none, "clicked", G_CALLBACK (forget), printer);
  pf_form_add_wide (GTK_GRID (form), none);
  pf_form_add_wide (GTK_GRID (form), printer->files);
  pf_form_add_wide (GTK_GRID (form),
                    pf_hint_new (_ ("Turn that off before you save files for others: their "
                                    "printers are not off by the same.")));
  return form;
}

static void
add_buttons (GtkWindow *dialog, Printer *printer)
{
  GtkWidget *cancel = pf_dialog_add_button (dialog, _ ("C_ancel"), false);
  printer->use = pf_dialog_add_button (dialog, _ ("_Correct pages"), true);
  gtk_header_bar_set_show_title_buttons (GTK_HEADER_BAR (gtk_window_get_titlebar (dialog)), FALSE);
  gtk_widget_add_css_class (printer->use, "suggested-action");
  gtk_window_set_default_widget (dialog, printer->use);
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_close), dialog);
  g_signal_connect (printer->use, "clicked", G_CALLBACK (accept), printer);
}

GtkWidget *
pf_printer_dialog_new (GtkWindow *parent, PfPreferences *preferences)
{
  GtkWidget *dialog = pf_dialog_new (parent, _ ("Measure your printer"), true);
  gboolean files;
  g_object_get (preferences, "printer-files", &files, NULL);
  Printer *printer = g_new0 (Printer, 1);
  printer->preferences = g_object_ref (preferences);
  printer->now = pf_preferences_printer (preferences);
  printer->short_side = number_new (printer);
  printer->long_side = number_new (printer);
  printer->outcome = GTK_LABEL (gtk_label_new (""));
  printer->files = gtk_check_button_new_with_mnemonic (_ ("Correct PDF, SVG and PNG _files too"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (printer->files), files);
  g_object_set_data_full (G_OBJECT (dialog), "pf-printer", printer, printer_free);
  gtk_window_set_child (GTK_WINDOW (dialog), content_new (printer));
  add_buttons (GTK_WINDOW (dialog), printer);
  gtk_window_set_default_size (GTK_WINDOW (dialog), 560, -1);
  gtk_window_set_focus (GTK_WINDOW (dialog), printer->short_side);
  update (printer);
  return dialog;
}
