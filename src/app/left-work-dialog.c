/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The list of work left behind: a row for each piece, with what can be done with it. A row goes
 * when it is done with, and the dialog with the last of them.
 */
#include "left-work-dialog.h"

#include <glib/gi18n-lib.h>

#include "form.h"

typedef struct {
  GPtrArray *list;
  PfOpenLeftWork open;
  gpointer data;
  GtkWidget *window, *rows;
} LeftWork;

typedef struct {
  LeftWork *work;
  const PfLeftWork *left;
  GtkWidget *row;
} Row;

static void
left_work_free (gpointer data)
{
  LeftWork *work = data;
  g_ptr_array_unref (work->list);
  g_free (work);
}

static void
remove_row (Row *row)
{
  LeftWork *work = row->work;
  gtk_list_box_remove (GTK_LIST_BOX (work->rows), row->row);
  if (!gtk_widget_get_first_child (work->rows))
    gtk_window_destroy (GTK_WINDOW (work->window));
}

static void
open_row (Row *row)
{
  if (row->work->open (row->left, row->work->data))
    remove_row (row);
}

static void
tell (GtkWidget *window, const char *text, const char *reason)
{
  GtkWidget *dialog = gtk_message_dialog_new (GTK_WINDOW (window),
                                              GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_ERROR, GTK_BUTTONS_CLOSE, "%s", text);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", reason);
  g_signal_connect (dialog, "response", G_CALLBACK (gtk_window_destroy), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
throw_away (GtkWidget *dialog, int response, Row *row)
{
  g_autoptr (GError) error = NULL;
  gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL); /* which may go before it does */
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response != GTK_RESPONSE_ACCEPT)
    return;
  if (pf_journal_discard (row->left, &error))
    remove_row (row);
  else
    tell (row->work->window, _ ("The work can’t be thrown away"), error->message);
}

static const char *
title_of (const PfLeftWork *left)
{
  return left->title && *left->title ? left->title : _ ("Without a title");
}

static void
ask_to_throw_away (Row *row)
{
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (row->work->window), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
      GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, _ ("Throw “%s” away?"), title_of (row->left));
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s",
      row->left->filename ? _ ("What wasn’t saved is lost for good. The saved file stays as it is.")
                          : _ ("It was never saved, and is lost for good."));
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Keep it"), GTK_RESPONSE_CANCEL);
  GtkWidget *away =
      gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("_Throw it away"), GTK_RESPONSE_ACCEPT);
  gtk_widget_add_css_class (away, "destructive-action");
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_CANCEL);
  g_signal_connect (dialog, "response", G_CALLBACK (throw_away), row);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* "Last changed on 3 May 2026 at 14:05, in “leaf.pinfold”" */
static char *
words_of (const PfLeftWork *left)
{
  g_autoptr (GDateTime) local = g_date_time_to_local (left->written);
  /* Translators: a date and a time, as for g_date_time_format(). */
  g_autofree char *when = g_date_time_format (local, _ ("%-e %B %Y at %H:%M"));
  if (!left->filename)
    return g_strdup_printf (_ ("Never saved. Last changed on %s."), when);
  g_autofree char *file = g_filename_display_name (left->filename);
  return g_strdup_printf (_ ("Saved as “%s”. Last changed on %s."), file, when);
}

static GtkWidget *
button_new (Row *row, const char *mnemonic, GCallback callback)
{
  GtkWidget *button = gtk_button_new_with_label (mnemonic);
  g_autofree char *spoken = g_strdup_printf ("%s: %s", mnemonic, title_of (row->left));
  pf_name_widget (button, spoken);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_signal_connect_swapped (button, "clicked", callback, row);
  return button;
}

static GtkWidget *
row_new (LeftWork *work, const PfLeftWork *left)
{
  Row *row = g_new (Row, 1);
  *row = (Row){ work, left, gtk_list_box_row_new () };
  g_object_set_data_full (G_OBJECT (row->row), "pf-row", row, g_free);
  GtkWidget *words = gtk_label_new (NULL);
  g_autofree char *about = words_of (left);
  g_autofree char *markup =
      g_markup_printf_escaped ("<b>%s</b>\n<small>%s</small>", title_of (left), about);
  gtk_label_set_markup (GTK_LABEL (words), markup);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (words), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (words), 34);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 34);
  gtk_widget_set_hexpand (words, TRUE);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_set_margin_start (box, 12);
  gtk_widget_set_margin_end (box, 12);
  gtk_widget_set_margin_top (box, 10);
  gtk_widget_set_margin_bottom (box, 10);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box),
                  button_new (row, _ ("Throw it away…"), G_CALLBACK (ask_to_throw_away)));
  gtk_box_append (GTK_BOX (box), button_new (row, _ ("Open it"), G_CALLBACK (open_row)));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row->row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row->row), FALSE);
  gtk_widget_set_focusable (row->row, FALSE); /* its buttons are */
  return row->row;
}

static GtkWidget *
content_new (LeftWork *work)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_margin_start (content, 18);
  gtk_widget_set_margin_end (content, 18);
  gtk_widget_set_margin_top (content, 12);
  gtk_widget_set_margin_bottom (content, 18);
  gtk_box_append (
      GTK_BOX (content),
      pf_hint_new (_ ("Pinfold didn’t end as it should the last time, but what you were "
                      "working on was kept. What you leave for later is offered again "
                      "at the next start.")));
  work->rows = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (work->rows), GTK_SELECTION_NONE);
  gtk_list_box_set_show_separators (GTK_LIST_BOX (work->rows), TRUE);
  pf_name_widget (work->rows, _ ("Work that was kept"));
  for (guint i = 0; i < work->list->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (work->rows),
                         row_new (work, g_ptr_array_index (work->list, i)));
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), 360);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), work->rows);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_box_append (GTK_BOX (content), scrolled);
  return content;
}

GtkWidget *
pf_left_work_dialog_new (GtkWindow *parent, GPtrArray *list, PfOpenLeftWork open, gpointer data)
{
  LeftWork *work = g_new0 (LeftWork, 1);
  *work = (LeftWork){ g_ptr_array_ref (list), open, data,
                      pf_dialog_new (parent, _ ("Work left behind"), true), NULL };
  g_object_set_data_full (G_OBJECT (work->window), "pf-left-work", work, left_work_free);
  GtkWidget *later = pf_dialog_add_button (GTK_WINDOW (work->window), _ ("_Later"), false);
  gtk_header_bar_set_show_title_buttons (
      GTK_HEADER_BAR (gtk_window_get_titlebar (GTK_WINDOW (work->window))), FALSE);
  g_signal_connect_swapped (later, "clicked", G_CALLBACK (gtk_window_close), work->window);
  gtk_window_set_child (GTK_WINDOW (work->window), content_new (work));
  return work->window;
}
