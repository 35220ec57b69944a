/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A sample of the line of one kind of pair, as the screen shows it.
 */
#pragma once

#include <gtk/gtk.h>

#include "preferences.h"

G_BEGIN_DECLS

GtkWidget *pf_line_sample_new (PfPreferences *preferences, PfPairKind kind);

G_END_DECLS
