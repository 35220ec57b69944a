/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A print operation in mm, from the paper's own corner, at 100 %.
 *
 * Each page is drawn in a thread of its own while the operation waits for it, so that the window
 * goes on working; nothing else touches the page's surface meanwhile.
 */
#include "print-operation.h"

typedef struct {
  PfPrintJob job;
  GError *trouble;
} Printing;

typedef struct {
  Printing *printing;
  cairo_t *cr;
  size_t n;
} Page;

static void
printing_free (gpointer data)
{
  Printing *printing = data;
  g_clear_error (&printing->trouble);
  g_free (printing);
}

static Printing *
printing_of (GtkPrintOperation *operation)
{
  return g_object_get_data (G_OBJECT (operation), "pf-printing");
}

static void
page_free (gpointer data)
{
  Page *page = data;
  cairo_destroy (page->cr);
  g_free (page);
}

static void
draw_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  (void) source;
  (void) cancellable;
  const Page *page = data;
  const PfPrintJob *job = &page->printing->job;
  GError *error = NULL;
  if (job->draw (job->data, page->n, page->cr, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
page_drawn (GObject *source, GAsyncResult *result, gpointer data)
{
  GtkPrintOperation *operation = GTK_PRINT_OPERATION (source);
  Printing *printing = data;
  g_autoptr (GError) error = NULL;
  if (!g_task_propagate_boolean (G_TASK (result), &error) && !printing->trouble)
    {
      printing->trouble = g_steal_pointer (&error);
      gtk_print_operation_cancel (operation);
    }
  gtk_print_operation_draw_page_finish (operation);
}

static void
draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int n, gpointer data)
{
  gtk_print_operation_set_defer_drawing (operation);
  Page *page = g_new (Page, 1);
  *page =
      (Page){ data, cairo_reference (gtk_print_context_get_cairo_context (context)), (size_t) n };
  g_autoptr (GTask) task = g_task_new (operation, NULL, page_drawn, data);
  g_task_set_task_data (task, page, page_free);
  g_task_run_in_thread (task, draw_in_thread);
}

/* Pages of one book may lie or stand. */
static void
turn_page (GtkPrintOperation *operation, GtkPrintContext *context, int n, GtkPageSetup *setup,
           gpointer data)
{
  (void) operation;
  (void) context;
  const PfPrintJob *job = &((const Printing *) data)->job;
  gtk_page_setup_set_orientation (setup, job->lies (job->data, (size_t) n)
                                             ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                             : GTK_PAGE_ORIENTATION_PORTRAIT);
}

/* The paper by the name that printers know (PWG 5101.1), so that the right tray is found. */
static GtkPaperSize *
paper_size (const PfPaper *paper)
{
  static const struct {
    const char *name, *known;
  } papers[] = {
    { "A4", GTK_PAPER_NAME_A4 },
    { "A3", GTK_PAPER_NAME_A3 },
    { "Letter", GTK_PAPER_NAME_LETTER },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++)
    if (g_str_equal (papers[i].name, paper->name))
      return gtk_paper_size_new (papers[i].known);
  return gtk_paper_size_new_custom (paper->name, paper->name, paper->width, paper->height,
                                    GTK_UNIT_MM);
}

static GtkPageSetup *
page_setup (const PfPrintJob *job)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) size = paper_size (job->paper);
  gtk_page_setup_set_paper_size (setup, size);
  if (job->lies (job->data, 0))
    gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_LANDSCAPE);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_MM);
  return setup;
}

static GtkPrintSettings *
print_settings (const PfPrintJob *job)
{
  GtkPrintSettings *settings = gtk_print_settings_new ();
  gtk_print_settings_set_n_copies (settings, MAX (job->copies, 1));
  gtk_print_settings_set_scale (settings, 100);
  /* CUPS must not fit the page to the printer's margins (IPP "print-scaling", PWG 5100.13). */
  gtk_print_settings_set (settings, "cups-print-scaling", "none");
  return settings;
}

GtkPrintOperation *
pf_print_operation_new (const PfPrintJob *job)
{
  GtkPrintOperation *operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = page_setup (job);
  g_autoptr (GtkPrintSettings) settings = print_settings (job);
  Printing *printing = g_new0 (Printing, 1);
  printing->job = *job;
  g_object_set_data_full (G_OBJECT (operation), "pf-printing", printing, printing_free);
  gtk_print_operation_set_job_name (operation, job->title);
  gtk_print_operation_set_n_pages (operation, (int) job->n_pages);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_print_settings (operation, settings);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_signal_connect (operation, "request-page-setup", G_CALLBACK (turn_page), printing);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page), printing);
  return operation;
}

const GError *
pf_print_operation_trouble (GtkPrintOperation *operation)
{
  return printing_of (operation)->trouble;
}
