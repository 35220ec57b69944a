/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Says what Pinfold is, and under what licence it may be used.
 */
#include "shortcuts.h"

#include <glib/gi18n-lib.h>

#include "application-id.h"

void
pf_about_dialog_show (GtkWindow *parent)
{
  gtk_show_about_dialog (
      parent, "program-name", _ ("Pinfold"), "version", PF_VERSION, "logo-icon-name",
      PF_APPLICATION_ID, "license-type", GTK_LICENSE_GPL_3_0, "comments",
      _ ("For bobbin lace makers who fill shapes: sets a ground into a motif, follows every pair, "
         "and shows where each is sewn in, turned or finished.\n\nPins and needles are sharp, and "
         "small beads are not for small children. Work in good light, and rest your eyes."),
      NULL);
}
