/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Prints the pages of a book: the same drawings as on the screen and in the PDF.
 */
#include "print.h"

#include <glib/gi18n-lib.h>

#include "print-operation.h"

static bool
page_lies (gpointer data, size_t n)
{
  double width, height;
  pf_book_page (data, n, &width, &height);
  return width > height;
}

static bool
draw_page (gpointer data, size_t n, cairo_t *cr, GError **error)
{
  return pf_book_draw_page (data, n, cr, error);
}

static void
tell (GtkWindow *window, const char *reason)
{
  GtkWidget *dialog =
      gtk_message_dialog_new (window, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                              GTK_MESSAGE_ERROR, GTK_BUTTONS_CLOSE, _ ("Nothing was printed"));
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog),
      _ ("%s\nCheck the printer, or export the pages as a PDF and print that at 100 %%."), reason);
  g_signal_connect (dialog, "response", G_CALLBACK (gtk_window_destroy), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
done (GtkPrintOperation *operation, GtkPrintOperationResult result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  GtkWindow *const *window = data;
  const GError *trouble = pf_print_operation_trouble (operation);
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    gtk_print_operation_get_error (operation, &error);
  if (!trouble)
    trouble = error;
  if (trouble && *window)
    tell (*window, trouble->message);
}

static void
window_slot_free (gpointer data, GClosure *closure)
{
  (void) closure;
  GtkWindow **window = data;
  g_clear_weak_pointer (window);
  g_free (window);
}

void
pf_print_document (GtkWindow *window, PfBook *book, const PfDocument *document)
{
  const PfPrintJob job = {
    .title = *document->title ? document->title : _ ("Pricking"),
    .paper = document->page.paper,
    .n_pages = pf_book_n_pages (book),
    .copies = document->page.copies,
    .lies = page_lies,
    .draw = draw_page,
    .data = book,
  };
  g_autoptr (GtkPrintOperation) operation = pf_print_operation_new (&job);
  g_object_set_data_full (G_OBJECT (operation), "pf-book", book, (GDestroyNotify) pf_book_free);
  GtkWindow **slot = g_new0 (GtkWindow *, 1);
  g_set_weak_pointer (slot, window);
  g_signal_connect_data (operation, "done", G_CALLBACK (done), slot, window_slot_free, 0);
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_show_progress (operation, TRUE);
  /* An error is told by "done" too. */
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, window, NULL);
}
