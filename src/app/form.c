/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Rows of a form: a label on the left whose mnemonic leads to the widget on its right, and which is
 * the widget's accessible name too.
 */
#include "form.h"

GtkWidget *
pf_form_new (void)
{
  GtkWidget *form = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (form), 8);
  gtk_grid_set_column_spacing (GTK_GRID (form), 12);
  return form;
}

static int
n_rows (GtkGrid *form)
{
  int rows = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (form)); child;
       child = gtk_widget_get_next_sibling (child))
    {
      int row, height;
      gtk_grid_query_child (form, child, NULL, &row, NULL, &height);
      rows = MAX (rows, row + height);
    }
  return rows;
}

void
pf_form_add_heading (GtkGrid *form, const char *text)
{
  const int row = n_rows (form);
  GtkWidget *heading = gtk_label_new (text);
  gtk_widget_add_css_class (heading, "heading");
  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_widget_set_margin_top (heading, row > 0 ? 12 : 0);
  gtk_grid_attach (form, heading, 0, row, 2, 1);
}

void
pf_name_widget (GtkWidget *widget, const char *mnemonic)
{
  g_auto (GStrv) parts = g_strsplit (mnemonic, "_", -1);
  g_autofree char *name = g_strjoinv ("", parts);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* "Lengths in: Inches" */
static void
name_choice (GtkDropDown *choice, GParamSpec *pspec, const char *mnemonic)
{
  (void) pspec;
  GObject *item = gtk_drop_down_get_selected_item (choice);
  const char *chosen =
      GTK_IS_STRING_OBJECT (item) ? gtk_string_object_get_string (GTK_STRING_OBJECT (item)) : "";
  g_autofree char *name = g_strdup_printf ("%s: %s", mnemonic, chosen);
  pf_name_widget (gtk_widget_get_first_child (GTK_WIDGET (choice)), name);
}

static void
free_name (gpointer name, GClosure *closure)
{
  (void) closure;
  g_free (name);
}

void
pf_name_choice (GtkDropDown *choice, const char *mnemonic)
{
  g_signal_connect_data (choice, "notify::selected-item", G_CALLBACK (name_choice),
                         g_strdup (mnemonic), free_name, 0);
  name_choice (choice, NULL, mnemonic);
}

/* Some widgets give the keyboard to a button inside them, which has no name of its own. */
static void
name_inside (GtkWidget *widget, const char *mnemonic)
{
  if (GTK_IS_COLOR_BUTTON (widget))
    pf_name_widget (gtk_widget_get_first_child (widget), mnemonic);
  if (GTK_IS_DROP_DOWN (widget))
    pf_name_choice (GTK_DROP_DOWN (widget), mnemonic);
}

void
pf_form_add_row (GtkGrid *form, const char *mnemonic, GtkWidget *widget)
{
  pf_form_add_row_for (form, mnemonic, widget, widget);
}

void
pf_form_add_row_for (GtkGrid *form, const char *mnemonic, GtkWidget *box, GtkWidget *widget)
{
  const int row = n_rows (form);
  GtkWidget *label = gtk_label_new_with_mnemonic (mnemonic);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), widget);
  name_inside (widget, mnemonic);
  gtk_widget_set_hexpand (box, TRUE);
  gtk_grid_attach (form, label, 0, row, 1, 1);
  gtk_grid_attach (form, box, 1, row, 1, 1);
}

void
pf_form_add_wide (GtkGrid *form, GtkWidget *widget)
{
  gtk_grid_attach (form, widget, 0, n_rows (form), 2, 1);
}

GtkWidget *
pf_hint_new (const char *text)
{
  GtkWidget *hint = gtk_label_new (text);
  gtk_label_set_wrap (GTK_LABEL (hint), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (hint), 40);
  gtk_label_set_max_width_chars (GTK_LABEL (hint), 60);
  gtk_label_set_xalign (GTK_LABEL (hint), 0);
  return hint;
}

static gboolean
close_window (GtkWidget *window, GVariant *arguments, gpointer data)
{
  (void) arguments;
  (void) data;
  gtk_window_close (GTK_WINDOW (window));
  return TRUE;
}

GtkWidget *
pf_dialog_new (GtkWindow *parent, const char *title, bool modal)
{
  GtkWidget *dialog = g_object_new (GTK_TYPE_WINDOW, "title", title, "transient-for", parent,
                                    "modal", modal, "destroy-with-parent", TRUE, NULL);
  gtk_window_set_titlebar (GTK_WINDOW (dialog), gtk_header_bar_new ());
  GtkEventController *keys = gtk_shortcut_controller_new ();
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                        gtk_callback_action_new (close_window, NULL, NULL)));
  gtk_widget_add_controller (dialog, keys);
  return dialog;
}

GtkWidget *
pf_dialog_add_button (GtkWindow *dialog, const char *mnemonic, bool at_end)
{
  GtkHeaderBar *bar = GTK_HEADER_BAR (gtk_window_get_titlebar (dialog));
  GtkWidget *button = gtk_button_new_with_mnemonic (mnemonic);
  if (at_end)
    gtk_header_bar_pack_end (bar, button);
  else
    gtk_header_bar_pack_start (bar, button);
  return button;
}
