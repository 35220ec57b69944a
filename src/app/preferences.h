/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker likes, kept from one start to the next.
 *
 * Properties (each notifies when it changes):
 *   "units"             PfUnits
 *   "style"             PfStyle: how windows look
 *   "new-colour", "turned-colour", "carried-colour", "finished-colour"
 *                       "#rrggbb": lines of pairs on the screen
 *   "line-width"        0.5 to 3: how wide these lines are, 1 as on the sheet
 *   "pixels-per-mm"     of the screen, at true size
 *   "printer-short-side", "printer-long-side"
 *                       45 to 55 mm: what the check rules measured on her printer
 *   "printer-files"     are PDF, SVG and PNG files corrected for it too?
 *   "layers"            PfLayers: what is shown
 *   "edge-strip"        is the edge strip shown below the drawing?
 *   "pillow-text"       22 to 72: the size of letters at the pillow, pixels
 *   "pillow-whole"      are the steps of a repeat taken as one there?
 *   "last-folder"       where files were last opened or saved, or NULL
 *   "welcome-shown"     was the first start's welcome shown?
 *
 * A change is in the file half a second later. Signal "save-failed" (const char *message): it
 * couldn't be saved; the next change tries again.
 */
#pragma once

#include <glib-object.h>

#include <sheet.h>

#include "length.h"

G_BEGIN_DECLS

typedef enum {
  PF_STYLE_SYSTEM,
  PF_STYLE_LIGHT,
  PF_STYLE_DARK,
  PF_STYLE_CONTRAST,
  PF_STYLE_DARK_CONTRAST,
} PfStyle;

#define PF_TYPE_UNITS (pf_units_get_type ())
GType pf_units_get_type (void);
#define PF_TYPE_STYLE (pf_style_get_type ())
GType pf_style_get_type (void);
#define PF_TYPE_LAYERS (pf_layers_get_type ())
GType pf_layers_get_type (void);

#define PF_LINE_WIDTH_MIN 0.5
#define PF_LINE_WIDTH_MAX 3.0

#define PF_PILLOW_TEXT_MIN 22.0
#define PF_PILLOW_TEXT_MAX 72.0
#define PF_PILLOW_TEXT_USUAL 26.0

/* 96 pixels to the inch, until the maker has measured. */
#define PF_PIXELS_PER_MM_USUAL (96 / PF_MM_PER_INCH)
#define PF_PIXELS_PER_MM_MIN 2.0
#define PF_PIXELS_PER_MM_MAX 12.0

#define PF_TYPE_PREFERENCES (pf_preferences_get_type ())
G_DECLARE_FINAL_TYPE (PfPreferences, pf_preferences, PF, PREFERENCES, GObject)

/* Those in `filename`; NULL: pinfold/preferences.ini in the maker's folder of settings. A file that
 * can't be read is set aside under its name and a "~". */
PfPreferences *pf_preferences_new (const char *filename);
/* What was wrong with the file, to be told to the maker; or NULL. Borrowed. */
const char *pf_preferences_trouble (PfPreferences *preferences);
/* Saves at once what isn't saved yet. */
bool pf_preferences_save (PfPreferences *preferences, GError **error);

/* Back to what a new maker gets: what the preferences window shows, or one property. Where she has
 * been and what she has seen stays. */
void pf_preferences_reset (PfPreferences *preferences);
void pf_preferences_reset_property (PfPreferences *preferences, const char *property);

PfUnits pf_preferences_units (PfPreferences *preferences);
PfStyle pf_preferences_style (PfPreferences *preferences);
PfLayers pf_preferences_layers (PfPreferences *preferences);
double pf_preferences_line_width (PfPreferences *preferences);
double pf_preferences_pixels_per_mm (PfPreferences *preferences);
/* What the pages that go to the printer are corrected by, and those that are saved. */
PfPrinterRules pf_preferences_printer (PfPreferences *preferences);
PfPrinterRules pf_preferences_printer_of_files (PfPreferences *preferences);
bool pf_preferences_edge_strip (PfPreferences *preferences);
double pf_preferences_pillow_text (PfPreferences *preferences);
bool pf_preferences_pillow_whole (PfPreferences *preferences);
bool pf_preferences_welcome_shown (PfPreferences *preferences);
/* Borrowed, until the next change. */
const char *pf_preferences_colour (PfPreferences *preferences, PfPairKind kind);
const char *pf_preferences_last_folder (PfPreferences *preferences);
PfLook pf_preferences_look (PfPreferences *preferences);
/* The name of the property with the colour of one kind of pair. */
const char *pf_preferences_colour_property (PfPairKind kind);

G_END_DECLS
