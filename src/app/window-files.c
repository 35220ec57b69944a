/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Opening and saving. Files are read and written in threads; a document never changes, so the maker
 * can go on while hers is being saved.
 */
#include "window-private.h"

#include <string.h>

#include <glib/gi18n.h>

#include "import-dialog.h"
#include "resources.h"

/* A scan of unknown resolution is laid down at this many dots per inch. */
#define SCAN_DPI 150.0

static const char *const document_patterns[] = { "*" PF_DOCUMENT_SUFFIX, NULL };
static const char *const drawing_patterns[] = { "*.svg", "*.SVG", NULL };
static const char *const picture_patterns[] = { "*.png",  "*.PNG",  "*.jpg", "*.JPG",
                                                "*.jpeg", "*.JPEG", NULL };
static const char *const all_patterns[] = { "*" PF_DOCUMENT_SUFFIX,
                                            "*.svg",
                                            "*.SVG",
                                            "*.png",
                                            "*.PNG",
                                            "*.jpg",
                                            "*.JPG",
                                            "*.jpeg",
                                            "*.JPEG",
                                            NULL };

static void
say_error (PfWindow *window, const GError *error)
{
  pf_window_say (window, GTK_MESSAGE_ERROR, error->message);
}

/* --- Going over to a document -------------------------------------------------------------------
 */

char *
pf_window_file_state (GFile *file)
{
  g_autoptr (GFileInfo) info = file != NULL ? g_file_query_info (file, G_FILE_ATTRIBUTE_ETAG_VALUE,
                                                                 G_FILE_QUERY_INFO_NONE, NULL, NULL)
                                            : NULL;
  return info != NULL ? g_strdup (g_file_info_get_etag (info)) : NULL;
}

void
pf_window_set_file (PfWindow *window, GFile *file)
{
  g_set_object (&window->file, file);
  g_free (window->file_state);
  window->file_state = pf_window_file_state (file);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  if (window->journal != NULL)
    pf_journal_set_filename (window->journal, path);
  if (file != NULL)
    {
      g_autofree char *uri = g_file_get_uri (file);
      gtk_recent_manager_add_item (gtk_recent_manager_get_default (), uri);
    }
}

static bool
any_ground (const PfDocument *document)
{
  for (size_t n = 0; n < document->n_drafts; n++)
    if (document->drafts[n]->ground != NULL)
      return true;
  return false;
}

/* Shows where the job stands: a document that is filled opens at its ground. */
static void
show_document (PfWindow *window, PfDocument *document)
{
  pf_editor_open (window->editor, document);
  pf_editor_set_stage (window->editor, any_ground (document) ? PF_STAGE_GROUND : PF_STAGE_OUTLINE);
  pf_canvas_fit (PF_CANVAS (window->canvas));
  gtk_info_bar_set_revealed (window->info_bar, FALSE);
}

/* In this window if nothing was done in it, else in a new one. */
static PfWindow *
window_for_document (PfWindow *window)
{
  if (pf_window_is_unused (window))
    return window;
  return pf_window_new (PF_APPLICATION (gtk_window_get_application (GTK_WINDOW (window))));
}

PfWindow *
pf_window_take_document (PfWindow *opener, PfDocument *document, GFile *file)
{
  PfWindow *window = window_for_document (opener);
  window->unused = false;
  show_document (window, document);
  pf_window_set_file (window, file);
  pf_window_update_title (window);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}

bool
pf_window_open_left (PfWindow *opener, const PfLeftWork *left)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = pf_journal_load (left, &error);
  if (document == NULL)
    {
      say_error (opener, error);
      return false;
    }
  g_autoptr (GFile) file = left->filename != NULL ? g_file_new_for_path (left->filename) : NULL;
  PfWindow *window = window_for_document (opener);
  window->unused = false;
  show_document (window, document);
  pf_window_set_file (window, file);
  pf_history_set_unsaved (pf_editor_history (window->editor));
  pf_window_update_title (window);
  if (window->journal != NULL && pf_journal_flush (window->journal, &error))
    pf_journal_discard (left, NULL);
  gtk_window_present (GTK_WINDOW (window));
  return true;
}

/* --- Reading in a thread ------------------------------------------------------------------------
 */

typedef enum { KIND_DOCUMENT, KIND_DRAWING, KIND_PICTURE, KIND_UNKNOWN } Kind;

typedef struct {
  Kind kind;
  char *path;
  PfDocument *document;
  PfDocument *backup; /* of a document that can't be read, or NULL */
  PfDrawing *drawing;
  int width, height; /* of a picture, pixels */
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;
  g_free (reading->path);
  g_clear_pointer (&reading->document, pf_document_unref);
  g_clear_pointer (&reading->backup, pf_document_unref);
  g_clear_pointer (&reading->drawing, pf_drawing_free);
  g_free (reading);
}

static Kind
kind_of (const char *path)
{
  static const char *const pictures[] = { ".png", ".jpg", ".jpeg" };
  if (pf_file_ends_in (path, PF_DOCUMENT_SUFFIX))
    return KIND_DOCUMENT;
  if (pf_file_ends_in (path, ".svg"))
    return KIND_DRAWING;
  for (gsize p = 0; p < G_N_ELEMENTS (pictures); p++)
    if (pf_file_ends_in (path, pictures[p]))
      return KIND_PICTURE;
  return KIND_UNKNOWN;
}

static bool
read_picture (Reading *reading, GError **error)
{
  if (gdk_pixbuf_get_file_info (reading->path, &reading->width, &reading->height) != NULL)
    return true;
  g_autofree char *name = g_filename_display_basename (reading->path);
  g_set_error (error, PF_ERROR, PF_ERROR_FILE,
               _ ("“%s” isn’t a picture that can be read. Scan as PNG or JPEG."), name);
  return false;
}

static bool
read_document (Reading *reading, GError **error)
{
  reading->document = pf_document_load (reading->path, error);
  if (reading->document != NULL)
    return true;
  g_autofree char *backup = g_strconcat (reading->path, "~", NULL);
  reading->backup = pf_document_load (backup, NULL);
  return false;
}

static void
read_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                GCancellable *cancellable G_GNUC_UNUSED)
{
  Reading *reading = data;
  GError *error = NULL;
  bool done = false;
  if (reading->kind == KIND_DOCUMENT)
    done = read_document (reading, &error);
  else if (reading->kind == KIND_DRAWING)
    done = (reading->drawing = pf_drawing_load (reading->path, NULL, &error)) != NULL;
  else
    done = read_picture (reading, &error);
  if (done)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

/* The motif to be filled like the active one, else with nothing yet. */
static PfDraft *
draft_to_follow (PfWindow *window)
{
  PfDraft *draft = pf_editor_draft (window->editor);
  return draft != NULL && draft->mirror_of == NULL ? pf_draft_ref (draft)
                                                   : pf_draft_new (_ ("Motif"), NULL);
}

static char *
title_of (const char *path)
{
  g_autofree char *name = g_filename_display_basename (path);
  char *dot = strrchr (name, '.');
  if (dot != NULL && dot != name)
    *dot = '\0';
  return g_steal_pointer (&name);
}

/* Has the editor go on with what was being drawn, if that isn't closed yet; else with the first of
 * what came. */
static void
go_on_with (PfWindow *window, size_t came)
{
  const int active = pf_editor_active (window->editor);
  const bool drawing = active >= 0 && pf_editor_is_open (window->editor, (size_t) active);
  if (!drawing && came < pf_editor_document (window->editor)->n_drafts)
    pf_editor_set_active (window->editor, (int) came);
}

static void
add_drawing (PfWindow *window, const PfDrawing *drawing, const bool *chosen, const char *path)
{
  g_autoptr (PfDraft) like = draft_to_follow (window);
  const PfDocument *before = pf_editor_document (window->editor);
  const size_t n_before = before->n_drafts;
  g_autoptr (PfDocument) added = pf_document_with_drawing (before, drawing, chosen, like);
  PfDocument *document = pf_document_copy (added);
  if (*document->title == '\0')
    {
      g_free (document->title);
      document->title = title_of (path);
    }
  window->unused = false;
  pf_editor_change_document (window->editor, document, _ ("Import a drawing"));
  go_on_with (window, n_before);
  pf_editor_set_stage (window->editor, PF_STAGE_OUTLINE);
  pf_canvas_fit (PF_CANVAS (window->canvas));
}

typedef struct {
  PfWindow *window;
  PfDrawing *drawing;
  char *path;
} Import;

static void
import_chosen (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  Import *import = data;
  g_autofree bool *chosen = pf_import_dialog_choose_finish (result, NULL);
  if (chosen != NULL && !pf_window_is_gone (import->window))
    add_drawing (import->window, import->drawing, chosen, import->path);
  pf_window_file_done (import->window);
  pf_drawing_free (import->drawing);
  g_object_unref (import->window);
  g_free (import->path);
  g_free (import);
}

/* Several outlines, or remarks to read: the maker chooses. One alone is taken as it is. */
static void
take_drawing (PfWindow *window, PfDrawing *drawing, const char *path)
{
  if (drawing->outlines->len == 1 && drawing->remarks->len == 0)
    {
      add_drawing (window, drawing, NULL, path);
      pf_drawing_free (drawing);
      pf_window_file_done (window);
      return;
    }
  Import *import = g_new0 (Import, 1);
  import->window = g_object_ref (window);
  import->drawing = drawing;
  import->path = g_strdup (path);
  PfPreferences *preferences = pf_window_preferences (window);
  g_autofree char *name = g_filename_display_basename (path);
  pf_import_dialog_choose (GTK_WINDOW (window), drawing, name,
                           preferences != NULL ? pf_preferences_units (preferences) : PF_UNITS_MM,
                           NULL, import_chosen, import);
}

static void
take_picture (PfWindow *window, const Reading *reading)
{
  const double mm = 25.4 / SCAN_DPI;
  PfUnderlay underlay = {
    .file = reading->path, .map = { mm, 0, 0, mm, 0, 0 }, .strength = 0.5, .shown = true
  };
  PfDocument *document = pf_document_with_underlay (pf_editor_document (window->editor), &underlay);
  if (document->n_drafts == 0)
    {
      document->width = reading->width * mm;
      document->height = reading->height * mm;
    }
  window->unused = false;
  pf_editor_change_document (window->editor, document, _ ("Lay a scan under it"));
  pf_editor_set_stage (window->editor, PF_STAGE_OUTLINE);
  pf_canvas_fit (PF_CANVAS (window->canvas));
  pf_window_advise_scan (window);
}

void
pf_window_take (PfWindow *window, gpointer data)
{
  Reading *reading = data;
  if (reading->kind == KIND_DRAWING)
    {
      take_drawing (window, g_steal_pointer (&reading->drawing), reading->path);
      return;
    }
  if (reading->kind == KIND_DOCUMENT)
    {
      g_autoptr (GFile) file = g_file_new_for_path (reading->path);
      pf_window_take_document (window, reading->document, file);
    }
  else
    take_picture (window, reading);
  pf_window_file_done (window);
}

static void
reading_done (GObject *source, GAsyncResult *result, gpointer data G_GNUC_UNUSED)
{
  PfWindow *window = PF_WINDOW (source);
  Reading *reading = g_task_get_task_data (G_TASK (result));
  if (pf_window_end_work (window, result))
    {
      pf_window_take_when_free (window, G_TASK (result));
      return;
    }
  if (reading->backup != NULL && !pf_window_is_gone (window))
    {
      g_autoptr (GFile) file = g_file_new_for_path (reading->path);
      pf_window_offer_backup (window, reading->backup, file);
    }
  pf_window_file_done (window);
}

void
pf_window_read (PfWindow *window, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  if (path == NULL || kind_of (path) == KIND_UNKNOWN)
    {
      g_autofree char *name = g_file_get_parse_name (file);
      g_autofree char *text = g_strdup_printf (
          _ ("“%s” can’t be opened. Open a pricking (.pinfold), a drawing (.svg) or a scan (.png, "
             ".jpg) on this computer."),
          name);
      pf_window_say (window, GTK_MESSAGE_ERROR, text);
      pf_window_file_done (window);
      return;
    }
  Reading *reading = g_new0 (Reading, 1);
  reading->kind = kind_of (path);
  reading->path = g_steal_pointer (&path);
  g_autofree char *name = g_filename_display_basename (reading->path);
  g_autofree char *text = g_strdup_printf (_ ("Reading “%s”…"), name);
  g_autoptr (GTask) task = pf_window_begin_work (window, text, reading_done);
  g_task_set_task_data (task, reading, reading_free);
  g_task_run_in_thread (task, read_in_thread);
}

void
pf_window_open_demo (PfWindow *window)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes =
      g_resources_lookup_data (PF_RESOURCES "demo.pinfold", G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  gsize n = 0;
  const char *json = bytes != NULL ? g_bytes_get_data (bytes, &n) : NULL;
  g_autoptr (PfDocument) document =
      json != NULL ? pf_document_parse (json, n, "demo.pinfold", NULL, &error) : NULL;
  if (document == NULL)
    {
      say_error (window, error);
      return;
    }
  show_document (window, document);
  pf_window_say (window, GTK_MESSAGE_INFO,
                 _ ("This is a motif to try things on. Drag the ground, look at the sewings, print "
                    "it. Open your own drawing whenever you like."));
}

void
pf_window_choose_open (PfWindow *window)
{
  const PfFileKind kinds[] = { { _ ("All that can be opened"), all_patterns },
                               { _ ("Prickings (.pinfold)"), document_patterns },
                               { _ ("Drawings (.svg)"), drawing_patterns },
                               { _ ("Scans (.png, .jpg)"), picture_patterns } };
  pf_window_choose_file (window, _ ("Open"), GTK_FILE_CHOOSER_ACTION_OPEN, NULL, kinds,
                         G_N_ELEMENTS (kinds), pf_window_open);
}

void
pf_window_choose_import (PfWindow *window)
{
  const PfFileKind kinds[] = { { _ ("Drawings (.svg)"), drawing_patterns },
                               { _ ("Scans (.png, .jpg)"), picture_patterns } };
  pf_window_choose_file (window, _ ("Import a drawing or scan"), GTK_FILE_CHOOSER_ACTION_OPEN, NULL,
                         kinds, G_N_ELEMENTS (kinds), pf_window_open);
}
