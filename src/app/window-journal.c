/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Unsaved work: every change goes to the window's journal; a saved document has none.
 */
#include "window-private.h"

/* A change is written within half a second. */
#define LOOK_AFTER 1500 /* ms */

static void
say_once (PfWindow *window, const GError *error)
{
  if (!window->journal_failed)
    pf_window_say (window, GTK_MESSAGE_WARNING, error->message);
  window->journal_failed = true;
}

void
pf_window_start_journal (PfWindow *window)
{
  g_autofree char *folder = pf_application_journal_folder ();
  g_autofree char *path = window->file != NULL ? g_file_get_path (window->file) : NULL;
  g_autoptr (GError) error = NULL;
  window->journal = pf_journal_new (folder, path, &error);
  if (window->journal == NULL)
    say_once (window, error);
}

void
pf_window_stop_journal (PfWindow *window, bool remove)
{
  g_clear_handle_id (&window->journal_look, g_source_remove);
  if (window->journal != NULL)
    pf_journal_free (g_steal_pointer (&window->journal), remove);
}

/* What the maker tried in vain matters more to her than what is done by itself. */
static bool
an_error_stands_there (PfWindow *window)
{
  return gtk_info_bar_get_revealed (window->info_bar) &&
         gtk_info_bar_get_message_type (window->info_bar) == GTK_MESSAGE_ERROR;
}

/* Was it written? Said once, until it can be written again. */
static gboolean
look_at_journal (gpointer data)
{
  PfWindow *window = data;
  g_autoptr (GError) error = pf_journal_take_error (window->journal);
  if (error != NULL && an_error_stands_there (window))
    return G_SOURCE_CONTINUE;
  window->journal_look = 0;
  if (error != NULL)
    say_once (window, error);
  else
    window->journal_failed = false;
  return G_SOURCE_REMOVE;
}

void
pf_window_journal_change (PfWindow *window)
{
  if (window->journal == NULL)
    return;
  PfHistory *history = pf_editor_history (window->editor);
  pf_journal_write (window->journal,
                    pf_history_is_saved (history) ? NULL : pf_editor_document (window->editor));
  if (window->journal_look == 0)
    window->journal_look = g_timeout_add (LOOK_AFTER, look_at_journal, window);
}
