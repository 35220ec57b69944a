/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The application: its windows, its preferences, and where it keeps its things.
 */
#pragma once

#include <gtk/gtk.h>

#include "preferences.h"

G_BEGIN_DECLS

#define PF_APPLICATION_ID "org.pinfold.Pinfold"

#define PF_TYPE_APPLICATION (pf_application_get_type ())
G_DECLARE_FINAL_TYPE (PfApplication, pf_application, PF, APPLICATION, GtkApplication)

PfApplication *pf_application_new (void);
PfPreferences *pf_application_preferences (PfApplication *application);

/* Where unsaved work is kept: XDG_STATE_HOME/pinfold. */
char *pf_application_journal_folder (void);

G_END_DECLS
