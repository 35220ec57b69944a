/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * GTK's spin buttons and scales take the wheel whenever the pointer passes over them: a panel that
 * is scrolled would change a gap or an angle unnoticed. So they are made deaf to it.
 */
#include "panel-wheel.h"

static void
ignore_wheel (GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  for (guint n = 0; n < g_list_model_get_n_items (controllers); n++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, n);
      if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
        gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_NONE);
    }
}

void
pf_panel_wheel_moves_only (GtkWidget *inside)
{
  if (GTK_IS_SPIN_BUTTON (inside) || GTK_IS_RANGE (inside))
    ignore_wheel (inside);
  if (GTK_IS_EXPANDER (inside)) /* what it hides isn't among its children */
    pf_panel_wheel_moves_only (gtk_expander_get_child (GTK_EXPANDER (inside)));
  for (GtkWidget *child = gtk_widget_get_first_child (inside); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    pf_panel_wheel_moves_only (child);
}
