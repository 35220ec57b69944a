/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "widget-hands.h"

void
settle (void)
{
  for (int quiet = 0; quiet < 5;)
    if (g_main_context_iteration (NULL, FALSE))
      quiet = 0;
    else
      {
        g_usleep (2000);
        quiet++;
      }
}

GtkWidget *
show_widget (GtkWidget *widget, int width, int height)
{
  GtkWidget *window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  gtk_window_set_child (GTK_WINDOW (window), widget);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (window);
  settle ();
  return window;
}

GtkWidget *
template_child (GtkWidget *widget, const char *id)
{
  GObject *child = gtk_widget_get_template_child (widget, G_OBJECT_TYPE (widget), id);
  g_assert_true (GTK_IS_WIDGET (child));
  return GTK_WIDGET (child);
}

GtkWidget *
find_widget (GtkWidget *widget, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_widget (child, type);
      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkEventController *
find_controller (GtkWidget *widget, GType type)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  for (guint c = 0; c < g_list_model_get_n_items (controllers); c++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, c);
      if (g_type_is_a (G_OBJECT_TYPE (controller), type))
        return controller; /* the widget keeps it */
    }
  g_assert_not_reached ();
}

void
click (GtkWidget *button)
{
  g_assert_true (gtk_widget_is_sensitive (button));
  g_assert_true (gtk_widget_get_mapped (button));
  g_signal_emit_by_name (button, "clicked");
  settle ();
}

bool
press_key (GtkWidget *widget, guint keyval, GdkModifierType state)
{
  gboolean used = FALSE;
  g_signal_emit_by_name (find_controller (widget, GTK_TYPE_EVENT_CONTROLLER_KEY), "key-pressed",
                         keyval, 0u, state, &used);
  settle ();
  return used;
}
