/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * GTK's spin buttons and scales take the wheel whenever the pointer passes over them: a panel that
 * is scrolled would change a gap or an angle unnoticed. So the wheel is caught on its way to them.
 */
#include "panel-wheel.h"

#include <math.h>
#include <stdbool.h>

static bool
is_over_number (GtkWidget *scroller, GdkEvent *event)
{
  GtkNative *native = gtk_widget_get_native (scroller);
  double x, y, left, top;
  if (event == NULL || native == NULL || !gdk_event_get_position (event, &x, &y))
    return false;
  gtk_native_get_surface_transform (native, &left, &top);
  GtkWidget *under = gtk_widget_pick (GTK_WIDGET (native), x - left, y - top, GTK_PICK_INSENSITIVE);
  return under != NULL && (gtk_widget_get_ancestor (under, GTK_TYPE_SPIN_BUTTON) != NULL ||
                           gtk_widget_get_ancestor (under, GTK_TYPE_SCALE) != NULL);
}

static gboolean
wheel_turned (GtkEventControllerScroll *controller, double dx G_GNUC_UNUSED, double dy,
              gpointer scroller)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (controller));
  if (!is_over_number (scroller, event))
    return FALSE;
  GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (scroller);
  /* As far as GtkScrolledWindow goes with one click. */
  const double click = pow (gtk_adjustment_get_page_size (place), 2.0 / 3);
  const bool pixels = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_SURFACE;
  gtk_adjustment_set_value (place, gtk_adjustment_get_value (place) + dy * (pixels ? 1 : click));
  return TRUE;
}

void
pf_panel_wheel_moves_only (GtkScrolledWindow *scroller)
{
  GtkEventController *wheel =
      gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  gtk_event_controller_set_propagation_phase (wheel, GTK_PHASE_CAPTURE);
  g_signal_connect (wheel, "scroll", G_CALLBACK (wheel_turned), scroller);
  gtk_widget_add_controller (GTK_WIDGET (scroller), wheel);
}
