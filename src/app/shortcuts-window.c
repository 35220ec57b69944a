/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lists the table of keys in two columns, a group after another into the shorter of them.
 * (GtkShortcutsWindow of GTK 4.8 warns of its own page buttons as soon as there are two pages.)
 */
#include "shortcuts.h"

#include <string.h>

#include <glib/gi18n-lib.h>

#include "form.h"

/* How many entries from `first` on are of its group. */
static size_t
group_length (const PfShortcut *first, const PfShortcut *end)
{
  size_t n = 0;
  while (first + n < end && strcmp (first[n].group, first->group) == 0)
    n++;
  return n;
}

/* Of several keys for the same, the first. */
static GtkWidget *
keys_new (const char *keys)
{
  g_autofree char *first = g_strndup (keys, strcspn (keys, " "));
  GtkWidget *label = gtk_shortcut_label_new (first);
  gtk_widget_set_halign (label, GTK_ALIGN_END);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

static GtkWidget *
group_new (const PfShortcut *shortcuts, size_t n)
{
  GtkWidget *group = pf_form_new ();
  pf_form_add_heading (GTK_GRID (group), _ (shortcuts->group));
  for (size_t i = 0; i < n; i++)
    pf_form_add_row (GTK_GRID (group), _ (shortcuts[i].title), keys_new (shortcuts[i].keys));
  return group;
}

static GtkWidget *
columns_new (void)
{
  size_t n;
  const PfShortcut *shortcut = pf_shortcuts (&n), *end = shortcut + n;
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 48);
  GtkWidget *sides[2];
  size_t rows[2] = { 0 };
  for (int side = 0; side < 2; side++)
    {
      sides[side] = gtk_box_new (GTK_ORIENTATION_VERTICAL, 24);
      gtk_box_append (GTK_BOX (columns), sides[side]);
    }
  while (shortcut < end)
    {
      const size_t length = group_length (shortcut, end);
      const int side = rows[1] < rows[0];
      gtk_box_append (GTK_BOX (sides[side]), group_new (shortcut, length));
      rows[side] += length + 2;
      shortcut += length;
    }
  return columns;
}

GtkWidget *
pf_shortcuts_window_new (GtkWindow *parent)
{
  GtkWidget *window = pf_dialog_new (parent, _ ("Keys"), false);
  GtkWidget *columns = columns_new ();
  gtk_widget_set_margin_start (columns, 24);
  gtk_widget_set_margin_end (columns, 24);
  gtk_widget_set_margin_top (columns, 18);
  gtk_widget_set_margin_bottom (columns, 24);
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), 640);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), columns);
  gtk_widget_set_focusable (scrolled, TRUE); /* arrows scroll at once */
  gtk_window_set_child (GTK_WINDOW (window), scrolled);
  return window;
}
