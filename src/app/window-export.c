/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Printing, exporting and reporting. Pages are laid out and written in a thread, from the motifs
 * that are worked out at that moment.
 */
#include "window-private.h"

#include <glib/gi18n.h>

#include "print.h"

typedef enum { TO_PRINTER, TO_FILE, TO_REPORT, TO_STEPS } Goal;

typedef struct {
  Goal goal;
  PfPricking *pricking;
  PfSheetSettings settings;
  PfBookParts parts;
  bool pair_colours;
  char *date;
  char *path;
  PfBook *book; /* for the printer */
  char **files; /* that were written */
} Output;

static void
output_free (gpointer data)
{
  Output *output = data;
  pf_pricking_free (output->pricking);
  g_clear_pointer (&output->book, pf_book_free);
  g_strfreev (output->files);
  g_free (output->date);
  g_free (output->path);
  g_free (output);
}

static bool
lay_out (Output *output, GError **error)
{
  output->book =
      pf_book_new (output->pricking, output->parts, &output->settings, output->pair_colours, error);
  return output->book != NULL;
}

/* A PDF has all parts of the book; the other files, and a book of nothing else, are the pricking's
 * own sheets. */
static bool
write_pages (Output *output, GError **error)
{
  if (output->parts != PF_BOOK_PRICKING && pf_file_ends_in (output->path, ".pdf"))
    return lay_out (output, error) && pf_book_save (output->book, output->path, error);
  g_autoptr (PfSheet) sheet = pf_sheet_new (output->pricking, &output->settings, error);
  return sheet != NULL && pf_sheet_save (sheet, output->path, &output->files, error);
}

static bool
write_output (Output *output, GError **error)
{
  switch (output->goal)
    {
    case TO_PRINTER:
      return lay_out (output, error);
    case TO_FILE:
      return write_pages (output, error);
    case TO_REPORT:
      return pf_report_save_on (output->pricking, output->settings.paper, output->settings.created,
                                output->path, error);
    case TO_STEPS:
      return pf_steps_save (output->pricking, output->path, error);
    }
  return false;
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
      pf_print_document (GTK_WINDOW (window), g_steal_pointer (&output->book),
                         pf_editor_document (window->editor));
      return;
    }
  g_autofree char *names = output->files != NULL ? g_strjoinv (", ", output->files) : NULL;
  g_autofree char *shown = g_filename_display_name (names != NULL ? names : output->path);
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
      const PfDraft *draft = document->drafts[n];
      const char *trouble = pf_editor_trouble (window->editor, n, NULL);
      if (trouble == NULL || (draft->ground == NULL && draft->mirror_of == NULL))
        continue;
      g_autofree char *text =
          g_strdup_printf (_ ("Motif “%s” must be mended first: %s"), draft->name, trouble);
      pf_window_say (window, GTK_MESSAGE_WARNING, text);
      return false;
    }
  return true;
}

static Output *
output_new (PfWindow *window, Goal goal, const char *path)
{
  const PfDocument *document = pf_editor_document (window->editor);
  PfPreferences *preferences = pf_window_preferences (window);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  Output *output = g_new0 (Output, 1);
  output->goal = goal;
  output->pricking = pf_editor_filled (window->editor);
  output->settings = pf_sheet_settings_of (document);
  output->date = g_date_time_format (now, "%Y-%m-%d");
  output->settings.date = output->date;
  output->settings.created = g_date_time_to_unix (now);
  if (preferences != NULL)
    output->settings.printer = goal == TO_PRINTER ? pf_preferences_printer (preferences)
                                                  : pf_preferences_printer_of_files (preferences);
  output->parts = document->page.parts;
  output->pair_colours = document->page.pair_colours;
  output->path = g_strdup (path);
  return output;
}

static void
start (PfWindow *window, Goal goal, const char *path)
{
  if (!all_is_worked_out (window))
    return;
  const char *text = goal == TO_REPORT  ? _ ("Writing the report…")
                     : goal == TO_STEPS ? _ ("Writing the working steps…")
                                        : _ ("Laying out the pages…");
  g_autoptr (GTask) task = pf_window_begin_work (window, text, written);
  g_task_set_task_data (task, output_new (window, goal, path), output_free);
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
  static const char *const endings[] = { ".pdf", ".html", ".ods", ".txt", ".json", ".csv", NULL };
  start_for_file (window, file, TO_REPORT, endings);
}

static void
steps_chosen (PfWindow *window, GFile *file)
{
  static const char *const endings[] = { ".txt", NULL };
  start_for_file (window, file, TO_STEPS, endings);
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
  const PfFileKind kind = { _ ("The pages (.pdf), or the pricking alone (.svg, .png)"), patterns };
  g_autofree char *name = suggest (window, ".pdf");
  pf_window_choose_file (window, _ ("Export the pages"), GTK_FILE_CHOOSER_ACTION_SAVE, name, &kind,
                         1, export_chosen);
}

void
pf_window_choose_report (PfWindow *window)
{
  static const char *const to_read[] = { "*.pdf", "*.html", "*.txt", NULL };
  static const char *const sheets[] = { "*.ods", NULL };
  static const char *const winding[] = { "*-winding.csv", NULL };
  static const char *const to_compute[] = { "*.csv", "*.json", NULL };
  const PfFileKind kinds[] = {
    { _ ("Reports to print and read (.pdf, .html, .txt)"), to_read },
    { _ ("Spreadsheets (.ods)"), sheets },
    { _ ("Winding lists as a plain table (-winding.csv)"), winding },
    { _ ("All sewings as a plain table (.csv), all figures (.json)"), to_compute },
  };
  g_autofree char *name = suggest (window, _ ("-report.pdf"));
  pf_window_choose_file (window, _ ("Save the pair-count report"), GTK_FILE_CHOOSER_ACTION_SAVE,
                         name, kinds, G_N_ELEMENTS (kinds), report_chosen);
}

void
pf_window_choose_steps (PfWindow *window)
{
  static const char *const patterns[] = { "*.txt", NULL };
  const PfFileKind kind = { _ ("Working steps (.txt)"), patterns };
  g_autofree char *name = suggest (window, _ ("-steps.txt"));
  pf_window_choose_file (window, _ ("Save the working steps"), GTK_FILE_CHOOSER_ACTION_SAVE, name,
                         &kind, 1, steps_chosen);
}
