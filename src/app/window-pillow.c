/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The mode beside the pillow: its page takes the place of the canvas, and all else is put away but
 * the header and what is said. The screen stays lit for as long: hands at the bobbins can't wake
 * it.
 */
#include "window-private.h"

#include <glib/gi18n.h>

static void
left (PfWindow *window)
{
  pf_window_go_to_pillow (window, false);
}

static void
whole_changed (PfWindow *window)
{
  if (pf_window_preferences (window) != NULL)
    g_object_set (pf_window_preferences (window), "pillow-whole",
                  pf_pillow_page_whole (PF_PILLOW_PAGE (window->pillow)), NULL);
}

void
pf_window_add_pillow (PfWindow *window)
{
  window->pillow = pf_pillow_page_new (window->editor);
  gtk_stack_add_named (window->view_stack, window->pillow, "pillow");
  g_signal_connect_object (window->pillow, "leave", G_CALLBACK (left), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->pillow, "whole-changed", G_CALLBACK (whole_changed), window,
                           G_CONNECT_SWAPPED);
}

static void
keep_awake (PfWindow *window)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (window));
  if (application != NULL && window->awake == 0)
    window->awake =
        gtk_application_inhibit (application, GTK_WINDOW (window), GTK_APPLICATION_INHIBIT_IDLE,
                                 _ ("A lace maker works beside the screen"));
}

void
pf_window_let_sleep (PfWindow *window)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (window));
  if (application != NULL && window->awake != 0)
    gtk_application_uninhibit (application, window->awake);
  window->awake = 0;
}

void
pf_window_go_to_pillow (PfWindow *window, bool there)
{
  if (there == window->at_pillow)
    return;
  GtkWidget *const put_away[] = { GTK_WIDGET (window->rail_place),   window->rail_separator,
                                  GTK_WIDGET (window->panel_place),  window->panel_separator,
                                  GTK_WIDGET (window->status_place), window->status_separator };
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), "pillow");
  window->at_pillow = there;
  for (gsize w = 0; w < G_N_ELEMENTS (put_away); w++)
    gtk_widget_set_visible (put_away[w], !there);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (there));
  pf_window_show_view (window);
  if (there)
    keep_awake (window);
  else
    pf_window_let_sleep (window);
  gtk_widget_grab_focus (there ? window->pillow : window->canvas);
}

void
pf_window_scale_pillow (PfWindow *window, double factor)
{
  PfPillowPage *page = PF_PILLOW_PAGE (window->pillow);
  pf_pillow_page_set_text (page, pf_pillow_page_text (page) * factor);
  if (pf_window_preferences (window) != NULL)
    g_object_set (pf_window_preferences (window), "pillow-text", pf_pillow_page_text (page), NULL);
}
