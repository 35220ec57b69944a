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
  g_clear_pointer (&window->advised, pf_document_unref);
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

void
pf_window_advise_scan (PfWindow *window)
{
  pf_window_say (window, GTK_MESSAGE_INFO,
                 _ ("The scan lies under the drawing. Now mark two points on it that are a known "
                    "distance apart, so that it has its true size."));
  window->advised = pf_document_ref (pf_editor_document (window->editor));
}

/* It lies elsewhere, or is gone. */
static bool
is_moved (const PfUnderlay *scan, const PfUnderlay *now)
{
  const PfAffine a = scan->map;
  if (now == NULL || g_strcmp0 (now->file, scan->file) != 0)
    return true;
  const PfAffine b = now->map;
  return a.xx != b.xx || a.xy != b.xy || a.yx != b.yx || a.yy != b.yy || a.x0 != b.x0 ||
         a.y0 != b.y0;
}

/* If a motif was drawn or traced on it, that needs no advice either; one that is imported is none
 * of these. */
void
pf_window_end_advice (PfWindow *window)
{
  PfDocument *document = pf_editor_document (window->editor);
  if (window->advised == NULL)
    return;
  const bool moved = is_moved (window->advised->underlay, document->underlay);
  if (!moved && (window->opening || document->n_drafts <= window->advised->n_drafts))
    {
      pf_document_ref (document);
      pf_document_unref (window->advised);
      window->advised = document;
      return;
    }
  g_clear_pointer (&window->advised, pf_document_unref);
  gtk_info_bar_set_revealed (window->info_bar, FALSE);
}
