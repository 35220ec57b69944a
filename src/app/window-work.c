/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Long work: what takes longer than a moment is named below the canvas, with a button to cancel it.
 */
#include "window-private.h"

#include <glib/gi18n.h>

/* What is done sooner isn't shown. */
#define MOMENT 400 /* ms */

static gboolean
show_bar (gpointer data)
{
  PfWindow *window = data;
  window->work_timer = 0;
  gtk_widget_set_visible (window->work_bar, TRUE);
  gtk_spinner_start (window->work_spinner);
  return G_SOURCE_REMOVE;
}

GTask *
pf_window_begin_work (PfWindow *window, const char *text, GAsyncReadyCallback done)
{
  if (window->n_works++ == 0)
    {
      g_clear_object (&window->work);
      window->work = g_cancellable_new ();
      window->work_timer = g_timeout_add (MOMENT, show_bar, window);
    }
  gtk_label_set_label (window->work_label, text);
  GTask *task = g_task_new (window, window->work, done, NULL);
  g_task_set_return_on_cancel (task, TRUE);
  return task;
}

bool
pf_window_end_work (PfWindow *window, GAsyncResult *result)
{
  g_autoptr (GError) error = NULL;
  window->n_works--;
  if (pf_window_is_gone (window))
    {
      g_task_propagate_boolean (G_TASK (result), NULL);
      return false;
    }
  if (window->n_works == 0)
    {
      g_clear_handle_id (&window->work_timer, g_source_remove);
      gtk_widget_set_visible (window->work_bar, FALSE);
      gtk_spinner_stop (window->work_spinner);
    }
  if (g_task_propagate_boolean (G_TASK (result), &error))
    return true;
  if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    pf_window_say (window, GTK_MESSAGE_ERROR, error->message);
  return false;
}

void
pf_window_cancel_work (PfWindow *window)
{
  g_queue_clear_full (&window->to_open, g_object_unref);
  if (window->work != NULL)
    g_cancellable_cancel (window->work);
}

void
pf_window_stop_work (PfWindow *window)
{
  pf_window_cancel_work (window);
  g_clear_handle_id (&window->work_timer, g_source_remove);
  g_clear_object (&window->work);
}
