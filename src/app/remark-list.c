/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Remarks are numbered by whoever lists them, and hand that number back when they are pressed.
 */
#include "remark-list.h"

#include <glib/gi18n-lib.h>

typedef struct {
  PfRemarkFunc act;
  gpointer data;
  guint number;
} Remark;

static void
act (GtkButton *button G_GNUC_UNUSED, Remark *remark)
{
  remark->act (remark->number, remark->data);
}

static void
free_remark (gpointer data, GClosure *closure G_GNUC_UNUSED)
{
  g_free (data);
}

static void
connect_button (GtkWidget *button, guint number, PfRemarkFunc go, gpointer data)
{
  Remark *remark = g_new (Remark, 1);
  *remark = (Remark){ go, data, number };
  g_signal_connect_data (button, "clicked", G_CALLBACK (act), remark, free_remark, 0);
}

static GtkWidget *
wrapped_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 20);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

void
pf_remark_list_clear (GtkBox *list)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL)
    gtk_box_remove (list, child);
}

/* Says once that there are more. */
static bool
is_full (GtkBox *list, guint number)
{
  if (number < PF_REMARKS_SHOWN)
    return false;
  GtkWidget *last = gtk_widget_get_last_child (GTK_WIDGET (list));
  const guint more = number + 1 - PF_REMARKS_SHOWN;
  g_autofree char *text =
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "And %u more", "And %u more", more), more);
  if (number == PF_REMARKS_SHOWN)
    gtk_box_append (list, wrapped_label (text));
  else
    gtk_label_set_label (GTK_LABEL (last), text);
  return true;
}

void
pf_remark_list_add_place (GtkBox *list, guint number, const char *text, PfRemarkFunc go,
                          gpointer data)
{
  if (is_full (list, number))
    return;
  GtkWidget *button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (button), wrapped_label (text));
  gtk_widget_set_tooltip_text (button, _ ("Go there"));
  connect_button (button, number, go, data);
  gtk_box_append (list, button);
}

void
pf_remark_list_add_button (GtkBox *list, guint number, const char *text, const char *tip,
                           PfRemarkFunc go, gpointer data)
{
  if (is_full (list, number))
    return;
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *button = gtk_button_new_from_icon_name ("list-remove-symbolic");
  GtkWidget *label = wrapped_label (text);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
  connect_button (button, number, go, data);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (list, row);
}
