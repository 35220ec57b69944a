/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Measuring the printer, so that its pages are of true size.
 */
#pragma once

#include <gtk/gtk.h>

#include "preferences.h"

G_BEGIN_DECLS

/* A dialog in which the maker types what the two check rules of a sheet measured. What she accepts
 * becomes the preferences' "printer-short-side", "printer-long-side" and "printer-files". */
GtkWidget *pf_printer_dialog_new (GtkWindow *parent, PfPreferences *preferences);

G_END_DECLS
