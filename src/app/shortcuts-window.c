/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lists the table of keys. GtkShortcutsWindow can be filled by GtkBuilder alone in GTK 4.8, so the
 * table is written as its XML first.
 */
#include "shortcuts.h"

#include <stdbool.h>
#include <string.h>

#include <glib/gi18n-lib.h>

static void
add_property (GString *xml, const char *name, const char *value)
{
  g_autofree char *text =
      g_markup_printf_escaped ("<property name=\"%s\">%s</property>", name, value);
  g_string_append (xml, text);
}

static void
add_shortcut (GString *xml, const PfShortcut *shortcut)
{
  g_string_append (xml, "<child><object class=\"GtkShortcutsShortcut\">");
  add_property (xml, "title", _ (shortcut->title));
  add_property (xml, "accelerator", shortcut->keys);
  g_string_append (xml, "</object></child>");
}

static char *
window_xml (void)
{
  size_t n;
  const PfShortcut *shortcuts = pf_shortcuts (&n);
  GString *xml = g_string_new ("<interface><object class=\"GtkShortcutsWindow\" id=\"window\">"
                               "<property name=\"modal\">1</property>"
                               "<child><object class=\"GtkShortcutsSection\">"
                               "<property name=\"section-name\">all</property>"
                               "<property name=\"max-height\">11</property>");
  for (size_t i = 0; i < n; i++)
    {
      const bool first = i == 0 || strcmp (shortcuts[i - 1].group, shortcuts[i].group) != 0;
      const bool last = i == n - 1 || strcmp (shortcuts[i + 1].group, shortcuts[i].group) != 0;
      if (first)
        {
          g_string_append (xml, "<child><object class=\"GtkShortcutsGroup\">");
          add_property (xml, "title", _ (shortcuts[i].group));
        }
      add_shortcut (xml, &shortcuts[i]);
      if (last)
        g_string_append (xml, "</object></child>");
    }
  g_string_append (xml, "</object></child></object></interface>");
  return g_string_free (xml, FALSE);
}

GtkWidget *
pf_shortcuts_window_new (GtkWindow *parent)
{
  g_autofree char *xml = window_xml ();
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_string (xml, -1);
  GtkWidget *window = GTK_WIDGET (gtk_builder_get_object (builder, "window"));
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  return window;
}
