/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of keys. What the window lists and what the keys do can't differ.
 */
#include "shortcuts.h"

#include <glib/gi18n-lib.h>

static const PfShortcut shortcuts[] = {
  { N_ ("Pricking"), N_ ("Begin a new one"), "<Control>n", "app.new" },
  { N_ ("Pricking"), N_ ("Open"), "<Control>o", "win.open" },
  { N_ ("Pricking"), N_ ("Import a drawing"), "<Control>i", "win.import" },
  { N_ ("Pricking"), N_ ("Save"), "<Control>s", "win.save" },
  { N_ ("Pricking"), N_ ("Save under another name"), "<Control><Shift>s", "win.save-as" },
  { N_ ("Pricking"), N_ ("Export sheet or report"), "<Control>e", "win.export" },
  { N_ ("Pricking"), N_ ("Print"), "<Control>p", "win.print" },
  { N_ ("Pricking"), N_ ("Close the window"), "<Control>w", "window.close" },

  { N_ ("Changes"), N_ ("Undo"), "<Control>z", "win.undo" },
  { N_ ("Changes"), N_ ("Redo"), "<Control><Shift>z <Control>y", "win.redo" },
  { N_ ("Changes"), N_ ("Give up what was begun"), "Escape", NULL },
  { N_ ("Changes"), N_ ("Remove what is selected"), "Delete", NULL },

  { N_ ("Steps"), N_ ("Outline"), "<Alt>1", "win.stage::outline" },
  { N_ ("Steps"), N_ ("Edge"), "<Alt>2", "win.stage::edge" },
  { N_ ("Steps"), N_ ("Ground"), "<Alt>3", "win.stage::ground" },
  { N_ ("Steps"), N_ ("Sewings"), "<Alt>4", "win.stage::sewings" },
  { N_ ("Steps"), N_ ("Sheet"), "<Alt>5", "win.stage::sheet" },

  { N_ ("View"), N_ ("Larger"), "<Control>plus <Control>equal", "win.zoom-in" },
  { N_ ("View"), N_ ("Smaller"), "<Control>minus", "win.zoom-out" },
  { N_ ("View"), N_ ("All of the drawing"), "<Control>0", "win.zoom-fit" },
  { N_ ("View"), N_ ("True size"), "<Control>1", "win.zoom-true" },
  { N_ ("View"), N_ ("Turn clockwise"), "<Control>bracketright", "win.turn-right" },
  { N_ ("View"), N_ ("Turn anticlockwise"), "<Control>bracketleft", "win.turn-left" },
  { N_ ("View"), N_ ("Upright again"), "<Control>backslash", "win.turn-reset" },

  { N_ ("Help"), N_ ("Help"), "F1", "app.help" },
  { N_ ("Help"), N_ ("These keys"), "<Control>question", "win.shortcuts" },
  { N_ ("Help"), N_ ("Preferences"), "<Control>comma", "win.preferences" },
  { N_ ("Help"), N_ ("Menu"), "F10", "win.menu" },
  { N_ ("Help"), N_ ("Quit"), "<Control>q", "app.quit" },
};

const PfShortcut *
pf_shortcuts (size_t *n)
{
  *n = G_N_ELEMENTS (shortcuts);
  return shortcuts;
}

void
pf_shortcuts_install (GtkApplication *application)
{
  for (size_t i = 0; i < G_N_ELEMENTS (shortcuts); i++)
    if (shortcuts[i].action)
      {
        g_auto (GStrv) keys = g_strsplit (shortcuts[i].keys, " ", -1);
        gtk_application_set_accels_for_action (application, shortcuts[i].action,
                                               (const char *const *) keys);
      }
}
