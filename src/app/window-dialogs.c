/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * File choosers, all alike: they start in the folder used last, and remember where the maker went.
 */
#include "window-private.h"

#include <glib/gi18n.h>

typedef struct {
  PfWindow *window; /* referenced */
  PfChosen chosen;
  GtkFileChooserNative *chooser;
} Asked;

static void
remember_folder (PfWindow *window, GFile *file)
{
  g_autoptr (GFile) folder = g_file_get_parent (file);
  g_free (window->folder);
  window->folder = folder != NULL ? g_file_get_path (folder) : NULL;
  PfPreferences *preferences = pf_window_preferences (window);
  if (preferences != NULL && window->folder != NULL)
    g_object_set (preferences, "last-folder", window->folder, NULL);
}

static void
answered (Asked *asked, int response)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (asked->chooser))
                               : NULL;
  if (file != NULL)
    {
      remember_folder (asked->window, file);
      asked->chosen (asked->window, file);
    }
  g_object_unref (asked->chooser);
  g_object_unref (asked->window);
  g_free (asked);
}

static void
add_kind (GtkFileChooser *chooser, const PfFileKind *kind)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, kind->name);
  for (const char *const *p = kind->patterns; *p != NULL; p++)
    gtk_file_filter_add_pattern (filter, *p);
  gtk_file_chooser_add_filter (chooser, filter);
}

static void
start_in_last_folder (PfWindow *window, GtkFileChooser *chooser)
{
  PfPreferences *preferences = pf_window_preferences (window);
  const char *folder = window->folder != NULL ? window->folder
                       : preferences != NULL  ? pf_preferences_last_folder (preferences)
                                              : NULL;
  if (folder == NULL || !g_file_test (folder, G_FILE_TEST_IS_DIR))
    return;
  g_autoptr (GFile) file = g_file_new_for_path (folder);
  gtk_file_chooser_set_current_folder (chooser, file, NULL);
}

void
pf_window_choose_file (PfWindow *window, const char *title, GtkFileChooserAction action,
                       const char *suggested, const PfFileKind *kinds, gsize n_kinds,
                       PfChosen chosen)
{
  const bool saves = action == GTK_FILE_CHOOSER_ACTION_SAVE;
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      title, GTK_WINDOW (window), action, saves ? _ ("_Save") : _ ("_Open"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  for (gsize k = 0; k < n_kinds; k++)
    add_kind (GTK_FILE_CHOOSER (chooser), &kinds[k]);
  start_in_last_folder (window, GTK_FILE_CHOOSER (chooser));
  if (saves)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), suggested);
  Asked *asked = g_new0 (Asked, 1);
  asked->window = g_object_ref (window);
  asked->chosen = chosen;
  asked->chooser = chooser;
  g_signal_connect_swapped (chooser, "response", G_CALLBACK (answered), asked);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
