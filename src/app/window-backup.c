/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A document that can't be read any more may have its last version beside it, FILE~: that is
 * offered under the error.
 */
#include "window-private.h"

#include <glib/gi18n.h>

typedef struct {
  PfDocument *document;
  GFile *file; /* that can't be read: what is saved goes there */
} Backup;

static void
backup_free (gpointer data)
{
  Backup *backup = data;
  pf_document_unref (backup->document);
  g_object_unref (backup->file);
  g_free (backup);
}

#define KEY "pf-backup"

void
pf_window_offer_backup (PfWindow *window, PfDocument *document, GFile *file)
{
  Backup *backup = g_new0 (Backup, 1);
  backup->document = pf_document_ref (document);
  backup->file = g_object_ref (file);
  g_object_set_data_full (G_OBJECT (window), KEY, backup, backup_free);
  gtk_widget_set_visible (window->info_backup, TRUE);
}

void
pf_window_open_backup (PfWindow *window)
{
  Backup *backup = g_object_steal_data (G_OBJECT (window), KEY);
  if (backup == NULL)
    return;
  g_autofree char *name = g_file_get_basename (backup->file);
  g_autofree char *shown = g_filename_display_name (name);
  g_autofree char *text = g_strdup_printf (
      _ ("This is the version before the last save of “%s”. Save it to put it in the place of the "
         "broken file."),
      shown);
  PfWindow *opened = pf_window_take_document (window, backup->document, backup->file);
  pf_history_set_unsaved (pf_editor_history (opened->editor));
  pf_window_update_title (opened);
  pf_window_say (opened, GTK_MESSAGE_INFO, text);
  backup_free (backup);
}
