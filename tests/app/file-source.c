/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * file-source FILE...
 * A small window out of which these files can be dragged, all together, as out of a file manager.
 */
#include <gtk/gtk.h>

static GdkContentProvider *
offer_files (GtkDragSource *source G_GNUC_UNUSED, double x G_GNUC_UNUSED, double y G_GNUC_UNUSED,
             gpointer files)
{
  return gdk_content_provider_new_typed (GDK_TYPE_FILE_LIST, files);
}

static void
closed (GtkWidget *window G_GNUC_UNUSED, gpointer loop)
{
  g_main_loop_quit (loop);
}

int
main (int argc, char **argv)
{
  gtk_init ();
  GSList *files = NULL;
  for (int a = argc - 1; a > 0; a--)
    files = g_slist_prepend (files, g_file_new_for_commandline_arg (argv[a]));
  GdkFileList *list = gdk_file_list_new_from_list (files);
  GMainLoop *loop = g_main_loop_new (NULL, FALSE);
  GtkWidget *window = gtk_window_new ();
  GtkWidget *label = gtk_label_new ("Drag me");
  GtkDragSource *source = gtk_drag_source_new ();
  g_signal_connect (source, "prepare", G_CALLBACK (offer_files), list);
  gtk_widget_add_controller (label, GTK_EVENT_CONTROLLER (source));
  gtk_window_set_title (GTK_WINDOW (window), "Files to drag");
  gtk_window_set_default_size (GTK_WINDOW (window), 120, 80);
  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_child (GTK_WINDOW (window), label);
  g_signal_connect (window, "destroy", G_CALLBACK (closed), loop);
  gtk_window_present (GTK_WINDOW (window));
  g_main_loop_run (loop);
  g_main_loop_unref (loop);
  g_boxed_free (GDK_TYPE_FILE_LIST, list);
  g_slist_free_full (files, g_object_unref);
  return 0;
}
