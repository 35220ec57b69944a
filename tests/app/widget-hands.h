/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Hands and eyes for widgets: GTK 4 can't be sent events, so what a hand does is done to the event
 * controllers.
 */
#pragma once

#include <stdbool.h>

#include <gtk/gtk.h>

/* Shows a widget in a window of its own, and waits until it is drawn. Destroy the window. */
GtkWidget *show_widget (GtkWidget *widget, int width, int height);
/* Lets the main loop run until nothing is left to do. */
void settle (void);

/* A widget of a template, by its id there. */
GtkWidget *template_child (GtkWidget *widget, const char *id);
/* The first descendant of that type; NULL. */
GtkWidget *find_widget (GtkWidget *widget, GType type);
GtkEventController *find_controller (GtkWidget *widget, GType type);

/* Presses a button as a click would; it must be sensitive and shown. */
void click (GtkWidget *button);
bool press_key (GtkWidget *widget, guint keyval, GdkModifierType state);
