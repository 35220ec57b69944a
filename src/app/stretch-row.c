/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A row keeps nothing but its widgets: what they show is the stretch.
 */
#include "stretch-row.h"

#include <glib/gi18n-lib.h>

#include "form.h"

struct _PfStretchRow {
  GtkGrid parent_instance;

  size_t number;
  bool setting;
  GtkLabel *title;
  GtkDropDown *kind;
  GtkSpinButton *from, *to;
};

G_DEFINE_FINAL_TYPE (PfStretchRow, pf_stretch_row, GTK_TYPE_GRID)

enum { CHANGED, REMOVED, N_SIGNALS };
static guint signals[N_SIGNALS];

size_t
pf_stretch_row_number (PfStretchRow *row)
{
  return row->number;
}

void
pf_stretch_row_set (PfStretchRow *row, PfEdgeStretch stretch, double length)
{
  row->setting = true;
  gtk_spin_button_set_range (row->from, 0, length);
  gtk_spin_button_set_range (row->to, 0, length);
  gtk_spin_button_set_value (row->from, stretch.from);
  gtk_spin_button_set_value (row->to, stretch.to);
  gtk_drop_down_set_selected (row->kind, (guint) stretch.kind);
  row->setting = false;
}

PfEdgeStretch
pf_stretch_row_get (PfStretchRow *row)
{
  return (PfEdgeStretch){ gtk_spin_button_get_value (row->from),
                          gtk_spin_button_get_value (row->to),
                          (PfEdgeKind) gtk_drop_down_get_selected (row->kind) };
}

static void
changed (PfStretchRow *row)
{
  if (!row->setting)
    g_signal_emit (row, signals[CHANGED], 0);
}

static void
remove_clicked (PfStretchRow *row)
{
  g_signal_emit (row, signals[REMOVED], 0);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
add_row (PfStretchRow *row, int at, const char *name, GtkWidget *widget)
{
  GtkWidget *label = gtk_label_new (name);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), widget);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_grid_attach (GTK_GRID (row), label, 0, at, 1, 1);
  gtk_grid_attach (GTK_GRID (row), widget, 1, at, 1, 1);
}

static GtkSpinButton *
add_length (PfStretchRow *row, int at, const char *name)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (0, 1, 0.1);
  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (spin), 2);
  gtk_spin_button_set_update_policy (GTK_SPIN_BUTTON (spin), GTK_UPDATE_IF_VALID);
  gtk_editable_set_width_chars (GTK_EDITABLE (spin), 8);
  gtk_widget_add_css_class (spin, "length");
  g_signal_connect_swapped (spin, "value-changed", G_CALLBACK (changed), row);
  add_row (row, at, name, spin);
  return GTK_SPIN_BUTTON (spin);
}

static void
add_title (PfStretchRow *row)
{
  GtkWidget *remove = gtk_button_new_from_icon_name ("list-remove-symbolic");
  row->title = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (row->title, 0);
  gtk_widget_set_tooltip_text (remove, _ ("Remove this stretch"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Remove this stretch"), -1);
  gtk_widget_set_halign (remove, GTK_ALIGN_END);
  g_signal_connect_swapped (remove, "clicked", G_CALLBACK (remove_clicked), row);
  gtk_grid_attach (GTK_GRID (row), GTK_WIDGET (row->title), 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (row), remove, 1, 0, 1, 1);
}

static void
pf_stretch_row_class_init (PfStretchRowClass *class)
{
  static const char *const names[N_SIGNALS] = { "changed", "removed" };
  for (int s = 0; s < N_SIGNALS; s++)
    signals[s] = g_signal_new (names[s], G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL,
                               NULL, NULL, G_TYPE_NONE, 0);
}

static void
pf_stretch_row_init (PfStretchRow *row)
{
  const char *const kinds[] = { _ ("Half stitch"), _ ("Cloth stitch"), NULL };
  gtk_grid_set_row_spacing (GTK_GRID (row), 6);
  gtk_grid_set_column_spacing (GTK_GRID (row), 12);
  add_title (row);
  row->kind = GTK_DROP_DOWN (gtk_drop_down_new_from_strings (kinds));
  g_signal_connect_swapped (row->kind, "notify::selected", G_CALLBACK (changed), row);
  add_row (row, 1, _ ("Worked in"), GTK_WIDGET (row->kind));
  pf_name_choice (row->kind, _ ("Worked in"));
  row->from = add_length (row, 2, _ ("From"));
  row->to = add_length (row, 3, _ ("To"));
}

GtkWidget *
pf_stretch_row_new (size_t number)
{
  PfStretchRow *row = g_object_new (PF_TYPE_STRETCH_ROW, NULL);
  g_autofree char *title = g_strdup_printf (_ ("Stretch %zu"), number + 1);
  row->number = number;
  gtk_label_set_label (row->title, title);
  return GTK_WIDGET (row);
}
