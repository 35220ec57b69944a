/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of keys. What the window lists and what the keys do can't differ.
 */
#include "shortcuts.h"

#include <glib/gi18n-lib.h>

static const PfShortcut shortcuts[] = {
  { N_ ("Pricking"), N_ ("New window"), "<Control>n", "app.new-window" },
  { N_ ("Pricking"), N_ ("Open"), "<Control>o", "win.open" },
  { N_ ("Pricking"), N_ ("Import a drawing or scan"), "<Control>i", "win.import" },
  { N_ ("Pricking"), N_ ("Save"), "<Control>s", "win.save" },
  { N_ ("Pricking"), N_ ("Save under another name"), "<Control><Shift>s", "win.save-as" },
  { N_ ("Pricking"), N_ ("Export the pricking"), "<Control>e", "win.export" },
  { N_ ("Pricking"), N_ ("Save the report"), "<Control><Shift>e", "win.report" },
  { N_ ("Pricking"), N_ ("Print"), "<Control>p", "win.print" },
  { N_ ("Pricking"), N_ ("Close the window"), "<Control>w", "win.close" },

  { N_ ("Changes"), N_ ("Undo"), "<Control>z", "win.undo" },
  { N_ ("Changes"), N_ ("Redo"), "<Control><Shift>z <Control>y", "win.redo" },
  { N_ ("Changes"), N_ ("Give up what was begun"), "Escape", NULL },
  { N_ ("Changes"), N_ ("Remove what is selected"), "Delete", NULL },

  { N_ ("Steps"), N_ ("Outline"), "<Alt>1", "win.stage(0)" },
  { N_ ("Steps"), N_ ("Edge"), "<Alt>2", "win.stage(1)" },
  { N_ ("Steps"), N_ ("Ground"), "<Alt>3", "win.stage(2)" },
  { N_ ("Steps"), N_ ("Sewings"), "<Alt>4", "win.stage(3)" },
  { N_ ("Steps"), N_ ("Sheet"), "<Alt>5", "win.stage(4)" },

  { N_ ("At the pillow"), N_ ("At the pillow, and back"), "F9", "win.pillow" },
  { N_ ("At the pillow"), N_ ("Done, go on"), "space Return Right Down Page_Down", NULL },
  { N_ ("At the pillow"), N_ ("Back"), "BackSpace Left Up Page_Up", NULL },
  { N_ ("At the pillow"), N_ ("To the first step, to the last"), "Home End", NULL },
  { N_ ("At the pillow"), N_ ("Note what was done otherwise"), "n", NULL },
  { N_ ("At the pillow"), N_ ("Go to a repeat"), "g", NULL },
  { N_ ("At the pillow"), N_ ("All steps of a repeat at once"), "w", NULL },

  { N_ ("View"), N_ ("Larger"), "<Control>plus <Control>equal <Control>KP_Add", "win.zoom-in" },
  { N_ ("View"), N_ ("Smaller"), "<Control>minus <Control>KP_Subtract", "win.zoom-out" },
  { N_ ("View"), N_ ("All of the drawing"), "<Control>0", "win.fit" },
  { N_ ("View"), N_ ("The active motif"), "<Control>9", "win.fit-motif" },
  { N_ ("View"), N_ ("True size"), "<Control>1", "win.true-size" },
  { N_ ("View"), N_ ("Turn clockwise"), "<Control>bracketright", "win.turn-on" },
  { N_ ("View"), N_ ("Turn anticlockwise"), "<Control>bracketleft", "win.turn-back" },
  { N_ ("View"), N_ ("Upright again"), "<Control>u", "win.turn-upright" },
  { N_ ("View"), N_ ("Threads as they lie"), "<Control>t", "win.layer-threads" },
  { N_ ("View"), N_ ("To the canvas"), "F6", "win.canvas" },
  { N_ ("View"), N_ ("The whole screen"), "F11", "win.fullscreen" },
  { N_ ("View"), N_ ("Next motif"), "<Control>Page_Down", "win.next-motif(1)" },
  { N_ ("View"), N_ ("Motif before"), "<Control>Page_Up", "win.next-motif(-1)" },

  { N_ ("On the canvas"), N_ ("Move what is selected, or the ground"), "Left", NULL },
  { N_ ("On the canvas"), N_ ("In larger steps"), "<Shift>Left", NULL },
  { N_ ("On the canvas"), N_ ("Turn the ground"), "comma", NULL },
  { N_ ("On the canvas"), N_ ("Show another part of the sheet"), "<Control>Left", NULL },
  { N_ ("On the canvas"), N_ ("Drag the sheet, with the pointer"), "space", NULL },

  { N_ ("Program"), N_ ("Menu"), "F10", NULL },
  { N_ ("Program"), N_ ("These keys"), "<Control>question", "app.shortcuts" },
  { N_ ("Program"), N_ ("Preferences"), "<Control>comma", "app.preferences" },
  { N_ ("Program"), N_ ("Quit"), "<Control>q", "app.quit" },
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
