/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Saving, in a thread, and asking before unsaved work would be lost.
 */
#include "window-private.h"

#include <glib/gi18n.h>

typedef struct {
  PfDocument *document;
  char *path;
  bool closes; /* the window goes when it is saved */
} Saving;

static void
saving_free (gpointer data)
{
  Saving *saving = data;
  pf_document_unref (saving->document);
  g_free (saving->path);
  g_free (saving);
}

static void
save_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                GCancellable *cancellable G_GNUC_UNUSED)
{
  const Saving *saving = data;
  GError *error = NULL;
  if (pf_document_save (saving->document, saving->path, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
saved (PfWindow *window, const Saving *saving)
{
  PfHistory *history = pf_editor_history (window->editor);
  g_autoptr (GFile) file = g_file_new_for_path (saving->path);
  pf_window_set_file (window, file);
  window->unused = false;
  if (pf_history_current (history) == saving->document && !pf_history_previewing (history))
    pf_history_set_saved (history);
  pf_window_update_title (window);
  gtk_info_bar_set_revealed (window->info_bar, FALSE);
  if (saving->closes && pf_history_is_saved (history))
    {
      window->closing = true;
      gtk_window_close (GTK_WINDOW (window));
    }
}

static void
saving_done (GObject *source, GAsyncResult *result, gpointer data G_GNUC_UNUSED)
{
  PfWindow *window = PF_WINDOW (source);
  g_autoptr (GError) error = NULL;
  window->saving = false;
  if (g_task_propagate_boolean (G_TASK (result), &error))
    saved (window, g_task_get_task_data (G_TASK (result)));
  else
    pf_window_say (window, GTK_MESSAGE_ERROR, error->message);
  pf_window_update_actions (window);
}

static void
save_to (PfWindow *window, GFile *file, bool closes)
{
  g_autofree char *path = g_file_get_path (file);
  if (path == NULL)
    {
      pf_window_say (window, GTK_MESSAGE_ERROR,
                     _ ("A pricking can only be saved in a folder of this computer."));
      return;
    }
  Saving *saving = g_new0 (Saving, 1);
  saving->document = pf_document_ref (pf_editor_document (window->editor));
  saving->path = g_steal_pointer (&path);
  saving->closes = closes;
  window->saving = true;
  pf_window_update_actions (window);
  /* Not tied to the window's end: what was begun is saved. */
  g_autoptr (GTask) task = g_task_new (window, NULL, saving_done, NULL);
  g_task_set_task_data (task, saving, saving_free);
  g_task_run_in_thread (task, save_in_thread);
}

static GFile *
with_suffix (GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  if (path == NULL || pf_file_ends_in (path, PF_DOCUMENT_SUFFIX))
    return g_object_ref (file);
  g_autofree char *whole = g_strconcat (path, PF_DOCUMENT_SUFFIX, NULL);
  return g_file_new_for_path (whole);
}

static void
save_chosen (PfWindow *window, GFile *chosen)
{
  g_autoptr (GFile) file = with_suffix (chosen);
  save_to (window, file, false);
}

static void
save_chosen_and_close (PfWindow *window, GFile *chosen)
{
  g_autoptr (GFile) file = with_suffix (chosen);
  save_to (window, file, true);
}

static void
choose_save (PfWindow *window, PfChosen chosen)
{
  static const char *const patterns[] = { "*" PF_DOCUMENT_SUFFIX, NULL };
  const PfFileKind kind = { _ ("Prickings (.pinfold)"), patterns };
  const char *title = pf_editor_document (window->editor)->title;
  g_autofree char *name =
      g_strconcat (*title != '\0' ? title : _ ("pricking"), PF_DOCUMENT_SUFFIX, NULL);
  g_strdelimit (name, "/", '-');
  pf_window_choose_file (window, _ ("Save the pricking"), GTK_FILE_CHOOSER_ACTION_SAVE, name, &kind,
                         1, chosen);
}

void
pf_window_choose_save (PfWindow *window)
{
  choose_save (window, save_chosen);
}

/* --- Over a file that has changed ---------------------------------------------------------------
 */

enum { ANSWER_REPLACE = 1, ANSWER_SAVE_AS = 2 };

static void
changed_answered (PfWindow *window, int answer, GtkWindow *dialog)
{
  const bool closes = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (dialog), "pf-closes"));
  gtk_window_destroy (dialog);
  if (answer == ANSWER_REPLACE)
    save_to (window, window->file, closes);
  else if (answer == ANSWER_SAVE_AS)
    choose_save (window, closes ? save_chosen_and_close : save_chosen);
}

/* Another window or program has written the file since: the maker decides. */
static void
ask_before_replacing (PfWindow *window, bool closes)
{
  g_autofree char *path = g_file_get_path (window->file);
  g_autofree char *shown = g_filename_display_basename (path);
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (window), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("“%s” has changed since it was opened here"), shown);
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog),
      _ ("Another window or program has saved it. Save your work under another name to keep both; "
         "if you replace the file, what stands in it now is kept under its name with ~ at the "
         "end."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Replace the file"), ANSWER_REPLACE,
                          _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("Save _as…"), ANSWER_SAVE_AS,
                          NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_SAVE_AS);
  g_object_set_data (G_OBJECT (dialog), "pf-closes", GINT_TO_POINTER (closes));
  g_signal_connect_swapped (dialog, "response", G_CALLBACK (changed_answered), window);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* To the document's own file. One that is gone is written anew. */
static void
save_again (PfWindow *window, bool closes)
{
  g_autofree char *state = pf_window_file_state (window->file);
  if (state != NULL && g_strcmp0 (state, window->file_state) != 0)
    ask_before_replacing (window, closes);
  else
    save_to (window, window->file, closes);
}

void
pf_window_save (PfWindow *window)
{
  if (window->file != NULL)
    save_again (window, false);
  else
    pf_window_choose_save (window);
}

/* --- Closing ------------------------------------------------------------------------------------
 */

enum { ANSWER_DISCARD = 1, ANSWER_SAVE = 2 };

static void
close_answered (PfWindow *window, int answer, GtkWindow *dialog)
{
  gtk_window_destroy (dialog);
  if (answer == ANSWER_DISCARD)
    {
      window->closing = true;
      gtk_window_close (GTK_WINDOW (window));
    }
  else if (answer == ANSWER_SAVE && window->file != NULL)
    save_again (window, true);
  else if (answer == ANSWER_SAVE)
    choose_save (window, save_chosen_and_close);
}

bool
pf_window_may_close (PfWindow *window)
{
  if (window->saving)
    return false;
  if (pf_history_is_saved (pf_editor_history (window->editor)))
    return true;
  const char *title = pf_editor_document (window->editor)->title;
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (window), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Save the changes to “%s” before closing?"),
      *title != '\0' ? title : _ ("Pricking without a name"));
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog),
                                            _ ("What you don’t save is lost."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("Close _without saving"), ANSWER_DISCARD,
                          _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("_Save"), ANSWER_SAVE, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_SAVE);
  g_signal_connect_swapped (dialog, "response", G_CALLBACK (close_answered), window);
  gtk_window_present (GTK_WINDOW (dialog));
  return false;
}
