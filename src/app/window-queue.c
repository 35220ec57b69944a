/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Files that wait to be opened. They are taken one after another: each change is made on what the
 * one before left, a question about a drawing is answered before the next is asked, and nothing is
 * changed under a hand that is dragging.
 */
#include "window-private.h"

/* How often it is looked whether the hand is off the drawing. */
#define LOOK_MS 50

static void
open_next (PfWindow *window)
{
  g_autoptr (GFile) file = g_queue_pop_head (&window->to_open);
  window->opening = file != NULL;
  if (file != NULL)
    pf_window_read (window, file);
  else
    pf_window_end_saying (window);
}

void
pf_window_file_done (PfWindow *window)
{
  if (!pf_window_is_gone (window))
    open_next (window);
}

void
pf_window_forget_files (PfWindow *window)
{
  g_clear_handle_id (&window->hand_timer, g_source_remove);
  g_clear_object (&window->waiting);
  g_queue_clear_full (&window->to_open, g_object_unref);
}

static void
add_files (PfWindow *window, const GSList *files, bool documents)
{
  for (const GSList *at = files; at != NULL; at = at->next)
    {
      g_autofree char *name = g_file_get_basename (at->data);
      if (pf_file_ends_in (name, PF_DOCUMENT_SUFFIX) == documents)
        g_queue_push_tail (&window->to_open, g_object_ref (at->data));
    }
}

/* Drawings and scans first: they are meant for the document that is there now. */
static void
open_all (PfWindow *window, const GSList *files)
{
  add_files (window, files, false);
  add_files (window, files, true);
  if (window->opening)
    return;
  pf_window_begin_saying (window);
  open_next (window);
}

void
pf_window_open (PfWindow *window, GFile *file)
{
  open_all (window, &(GSList){ .data = file });
}

/* --- The hand on the drawing --------------------------------------------------------------------
 */

static bool
hand_is_free (PfWindow *window)
{
  return !pf_canvas_dragging (PF_CANVAS (window->canvas)) &&
         !pf_history_previewing (pf_editor_history (window->editor));
}

static gboolean
look_at_hand (gpointer data)
{
  PfWindow *window = data;
  if (!hand_is_free (window))
    return G_SOURCE_CONTINUE;
  window->hand_timer = 0;
  g_autoptr (GTask) task = g_steal_pointer (&window->waiting);
  pf_window_take (window, g_task_get_task_data (task));
  return G_SOURCE_REMOVE;
}

void
pf_window_take_when_free (PfWindow *window, GTask *task)
{
  if (hand_is_free (window))
    {
      pf_window_take (window, g_task_get_task_data (task));
      return;
    }
  g_set_object (&window->waiting, task);
  window->hand_timer = g_timeout_add (LOOK_MS, look_at_hand, window);
}

/* --- Drag and drop ------------------------------------------------------------------------------
 */

static gboolean
dropped (GtkDropTarget *target G_GNUC_UNUSED, const GValue *value, double x G_GNUC_UNUSED,
         double y G_GNUC_UNUSED, gpointer window)
{
  open_all (window, g_value_get_boxed (value));
  return TRUE;
}

void
pf_window_accept_drops (PfWindow *window)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);
  g_signal_connect (target, "drop", G_CALLBACK (dropped), window);
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (target));
}
