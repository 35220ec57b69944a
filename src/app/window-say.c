/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is said above the canvas. While several files are opened, what went wrong with one isn't
 * lost when the next is there: it is said together.
 */
#include "window-private.h"

#include <glib/gi18n.h>

/* More would leave no room for the drawing. */
#define MOST_ERRORS 3

static void
show (PfWindow *window, GtkMessageType type, const char *text)
{
  gtk_label_set_label (window->info_label, text);
  gtk_widget_set_visible (window->info_backup, FALSE);
  gtk_info_bar_set_message_type (window->info_bar, type);
  gtk_info_bar_set_revealed (window->info_bar, TRUE);
}

static void
add_line (GString *lines, const char *line)
{
  if (lines->len > 0)
    g_string_append_c (lines, '\n');
  g_string_append (lines, line);
}

/* The errors so far, then what was said last. */
static char *
all_lines (const GPtrArray *errors, const char *last)
{
  GString *lines = g_string_new (NULL);
  for (guint e = 0; e < errors->len && e < MOST_ERRORS; e++)
    add_line (lines, g_ptr_array_index (errors, e));
  if (errors->len > MOST_ERRORS)
    {
      const guint more = errors->len - MOST_ERRORS;
      g_autofree char *line =
          g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Nor can %u more file be opened.",
                                        "Nor can %u more files be opened.", more),
                           more);
      add_line (lines, line);
    }
  if (last != NULL)
    add_line (lines, last);
  return g_string_free (lines, FALSE);
}

void
pf_window_say (PfWindow *window, GtkMessageType type, const char *text)
{
  if (!window->opening)
    {
      show (window, type, text);
      return;
    }
  if (type == GTK_MESSAGE_ERROR)
    g_ptr_array_add (window->errors, g_strdup (text));
  else
    {
      g_free (window->said);
      window->said = g_strdup (text);
    }
  g_autofree char *lines = all_lines (window->errors, window->said);
  show (window, window->errors->len > 0 ? GTK_MESSAGE_ERROR : type, lines);
}

void
pf_window_begin_saying (PfWindow *window)
{
  g_ptr_array_set_size (window->errors, 0);
  g_clear_pointer (&window->said, g_free);
}

/* A document that was opened in this window took the bar away. */
void
pf_window_end_saying (PfWindow *window)
{
  if (window->errors->len > 0)
    gtk_info_bar_set_revealed (window->info_bar, TRUE);
}
