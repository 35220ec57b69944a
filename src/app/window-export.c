/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Printing, exporting and reporting. Sheets are laid out and written in a thread, from the motifs
 * that are worked out at that moment.
 */
#include "window-private.h"

#include <glib/gi18n.h>

#include "print.h"

typedef enum { TO_PRINTER, TO_FILE, TO_REPORT } Goal;

typedef struct {
  Goal goal;
  PfPricking *pricking;
  PfSheetSettings settings;
  char *date;
  char *path;
  PfSheet *sheet; /* for the printer */
  char **files;   /* that were written */
} Output;

static void
output_free (gpointer data)
{
  Output *output = data;
  pf_pricking_free (output->pricking);
  g_clear_pointer (&output->sheet, pf_sheet_free);
  g_strfreev (output->files);
  g_free (output->date);
  g_free (output->path);
  g_free (output);
}

static bool
write_output (Output *output, GError **error)
{
  if (output->goal == TO_REPORT)
    {
      output->files = g_new0 (char *, 2);
      output->files[0] = g_strdup (output->path);
      return pf_report_save (output->pricking, output->path, error);
    }
  output->sheet = pf_sheet_new (output->pricking, &output->settings, error);
  if (output->sheet == NULL)
    return false;
  return output->goal == TO_PRINTER ||
         pf_sheet_save (output->sheet, output->path, &output->files, error);
}

static void
write_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                 GCancellable *cancellable G_GNUC_UNUSED)
{
  GError *error = NULL;
  if (write_output (data, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
written (GObject *source, GAsyncResult *result, gpointer data G_GNUC_UNUSED)
{
  PfWindow *window = PF_WINDOW (source);
  Output *output = g_task_get_task_data (G_TASK (result));
  if (!pf_window_end_work (window, result))
    return;
  if (output->goal == TO_PRINTER)
    {
      pf_print_document (GTK_WINDOW (window), g_steal_pointer (&output->sheet),
                         pf_editor_document (window->editor));
      return;
    }
  g_autofree char *names = g_strjoinv (", ", output->files);
  g_autofree char *shown = g_filename_display_name (names);
  g_autofree char *text = g_strdup_printf (_ ("Written: %s"), shown);
  pf_window_say (window, GTK_MESSAGE_INFO, text);
}

/* False, and said why, if something isn't worked out. */
static bool
all_is_worked_out (PfWindow *window)
{
  const PfDocument *document = pf_editor_document (window->editor);
  if (pf_editor_busy (window->editor))
    {
      pf_window_say (window, GTK_MESSAGE_INFO,
                     _ ("The filling is still being worked out. Try again in a moment."));
      return false;
    }
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      const char *trouble = pf_editor_trouble (window->editor, n, NULL);
      if (trouble == NULL)
        continue;
      g_autofree char *text = g_strdup_printf (_ ("Motif “%s” must be mended first: %s"),
                                               document->drafts[n]->name, trouble);
      pf_window_say (window, GTK_MESSAGE_WARNING, text);
      return false;
    }
  return true;
}

static void
start (PfWindow *window, Goal goal, const char *path)
{
  if (!all_is_worked_out (window))
    return;
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  Output *output = g_new0 (Output, 1);
  output->goal = goal;
  output->pricking = pf_editor_filled (window->editor);
  output->settings = pf_sheet_settings_of (pf_editor_document (window->editor));
  output->date = g_date_time_format (now, "%Y-%m-%d");
  output->settings.date = output->date;
  output->settings.created = g_date_time_to_unix (now);
  output->path = g_strdup (path);
  g_autoptr (GTask) task = pf_window_begin_work (
      window, goal == TO_REPORT ? _ ("Writing the report…") : _ ("Laying out the sheet…"), written);
  g_task_set_task_data (task, output, output_free);
  g_task_run_in_thread (task, write_in_thread);
}

static void
start_for_file (PfWindow *window, GFile *file, Goal goal, const char *const *endings)
{
  g_autofree char *path = g_file_get_path (file);
  bool known = false;
  for (const char *const *e = endings; path != NULL && *e != NULL; e++)
    known |= pf_file_ends_in (path, *e);
  if (!known)
    {
      g_autofree char *list = g_strjoinv (", ", (char **) endings);
      g_autofree char *text =
          g_strdup_printf (_ ("The name tells the format: let it end in one of %s."), list);
      pf_window_say (window, GTK_MESSAGE_WARNING, text);
      return;
    }
  start (window, goal, path);
}

static void
export_chosen (PfWindow *window, GFile *file)
{
  static const char *const endings[] = { ".pdf", ".svg", ".png", NULL };
  start_for_file (window, file, TO_FILE, endings);
}

static void
report_chosen (PfWindow *window, GFile *file)
{
  static const char *const endings[] = { ".txt", ".json", ".csv", NULL };
  start_for_file (window, file, TO_REPORT, endings);
}

static char *
suggest (PfWindow *window, const char *ending)
{
  const char *title = pf_editor_document (window->editor)->title;
  char *name = g_strconcat (*title != '\0' ? title : _ ("pricking"), ending, NULL);
  return g_strdelimit (name, "/", '-');
}

void
pf_window_print (PfWindow *window)
{
  start (window, TO_PRINTER, NULL);
}

void
pf_window_choose_export (PfWindow *window)
{
  static const char *const patterns[] = { "*.pdf", "*.svg", "*.png", NULL };
  const PfFileKind kind = { _ ("Prickings to print or show (.pdf, .svg, .png)"), patterns };
  g_autofree char *name = suggest (window, ".pdf");
  pf_window_choose_file (window, _ ("Export the pricking"), GTK_FILE_CHOOSER_ACTION_SAVE, name,
                         &kind, 1, export_chosen);
}

void
pf_window_choose_report (PfWindow *window)
{
  static const char *const patterns[] = { "*.txt", "*.json", "*.csv", NULL };
  const PfFileKind kind = { _ ("Reports (.txt, .json, .csv)"), patterns };
  g_autofree char *name = suggest (window, ".txt");
  pf_window_choose_file (window, _ ("Save the pair-count report"), GTK_FILE_CHOOSER_ACTION_SAVE,
                         name, &kind, 1, report_chosen);
}
