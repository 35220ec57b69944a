/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * pinfold: the window.
 */
#include <locale.h>

#include <glib/gi18n.h>

#include "application.h"

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, PF_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_autoptr (PfApplication) application = pf_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
