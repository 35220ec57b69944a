/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Preferences: properties that are kept in a key file, one key each.
 *
 * Only what differs from the default stands in the file, so that a default that is bettered reaches
 * all who never chose. Keys of other versions stay as they are; a value that makes no sense is
 * taken for the default and stays in the file until the maker chooses another.
 */
#include "preferences.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include <style.h>

#include "preferences-key.h"

#define SAVE_AFTER 500 /* ms */

enum {
  PROP_NONE,
  PROP_UNITS,
  PROP_STYLE,
  PROP_NEW_COLOUR,
  PROP_TURNED_COLOUR,
  PROP_CARRIED_COLOUR,
  PROP_FINISHED_COLOUR,
  PROP_LINE_WIDTH,
  PROP_PIXELS_PER_MM,
  PROP_PRINTER_SHORT_SIDE,
  PROP_PRINTER_LONG_SIDE,
  PROP_PRINTER_FILES,
  PROP_LAYERS,
  PROP_EDGE_STRIP,
  PROP_PILLOW_TEXT,
  PROP_PILLOW_WHOLE,
  PROP_LAST_FOLDER,
  PROP_WELCOME_SHOWN,
  N_PROPS
};

enum { SAVE_FAILED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

struct _PfPreferences {
  GObject parent;
  char *filename;
  GKeyFile *keys;
  char *trouble;
  GValue values[N_PROPS];
  bool unsaved;
  guint save_id;
};

G_DEFINE_FINAL_TYPE (PfPreferences, pf_preferences, G_TYPE_OBJECT)

static const guint colour_props[] = {
  [PF_PAIR_NEW] = PROP_NEW_COLOUR,
  [PF_PAIR_TURNED] = PROP_TURNED_COLOUR,
  [PF_PAIR_CARRIED] = PROP_CARRIED_COLOUR,
  [PF_PAIR_FINISHED] = PROP_FINISHED_COLOUR,
};

static bool
is_colour (guint prop)
{
  for (size_t kind = 0; kind < G_N_ELEMENTS (colour_props); kind++)
    if (colour_props[kind] == prop)
      return true;
  return false;
}

/* --- The file -----------------------------------------------------------------------------------
 */

static void
set_aside (PfPreferences *preferences, const char *reason)
{
  g_autofree char *aside = g_strconcat (preferences->filename, "~", NULL);
  const bool moved = g_rename (preferences->filename, aside) == 0;
  g_autofree char *shown = g_filename_display_name (moved ? aside : preferences->filename);
  preferences->trouble =
      moved ? g_strdup_printf (_ ("Your preferences couldn’t be read (%s) and are the usual ones "
                                  "again. The old file is kept as “%s”."),
                               reason, shown)
            : g_strdup_printf (_ ("Your preferences in “%s” couldn’t be read (%s) and are the "
                                  "usual ones again."),
                               shown, reason);
}

static void
load (PfPreferences *preferences)
{
  g_autoptr (GError) error = NULL;
  if (!g_key_file_load_from_file (preferences->keys, preferences->filename,
                                  G_KEY_FILE_KEEP_COMMENTS | G_KEY_FILE_KEEP_TRANSLATIONS, &error))
    {
      if (!g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
        set_aside (preferences, error->message);
      g_key_file_unref (preferences->keys);
      preferences->keys = g_key_file_new ();
      return;
    }
  for (guint prop = 1; prop < N_PROPS; prop++)
    {
      g_auto (GValue) value = G_VALUE_INIT;
      g_value_init (&value, props[prop]->value_type);
      if (pf_preferences_key_read (preferences->keys, props[prop], &value) &&
          (!is_colour (prop) || pf_preferences_is_colour (g_value_get_string (&value))))
        g_value_copy (&value, &preferences->values[prop]);
    }
}

bool
pf_preferences_save (PfPreferences *preferences, GError **error)
{
  g_clear_handle_id (&preferences->save_id, g_source_remove);
  if (!preferences->unsaved)
    return true;
  g_autofree char *folder = g_path_get_dirname (preferences->filename);
  g_mkdir_with_parents (folder, 0700); /* if it can't be made, saving says why */
  gsize n;
  g_autofree char *text = g_key_file_to_data (preferences->keys, &n, NULL);
  preferences->unsaved = !pf_file_save (preferences->filename, text, n, error);
  return !preferences->unsaved;
}

static gboolean
save_now (gpointer data)
{
  PfPreferences *preferences = data;
  g_autoptr (GError) error = NULL;
  preferences->save_id = 0;
  if (!pf_preferences_save (preferences, &error))
    g_signal_emit (preferences, signals[SAVE_FAILED], 0, error->message);
  return G_SOURCE_REMOVE;
}

/* --- Properties ---------------------------------------------------------------------------------
 */

static void
get_property (GObject *object, guint prop, GValue *value, GParamSpec *pspec)
{
  (void) pspec;
  g_value_copy (&PF_PREFERENCES (object)->values[prop], value);
}

static void
set_property (GObject *object, guint prop, const GValue *value, GParamSpec *pspec)
{
  PfPreferences *preferences = PF_PREFERENCES (object);
  g_return_if_fail (!is_colour (prop) || pf_preferences_is_colour (g_value_get_string (value)));
  if (g_param_values_cmp (pspec, value, &preferences->values[prop]) == 0)
    return;
  g_value_copy (value, &preferences->values[prop]);
  pf_preferences_key_write (preferences->keys, pspec, value);
  preferences->unsaved = true;
  if (!preferences->save_id)
    preferences->save_id = g_timeout_add (SAVE_AFTER, save_now, preferences);
  g_object_notify_by_pspec (object, pspec);
}

void
pf_preferences_reset_property (PfPreferences *preferences, const char *property)
{
  GParamSpec *pspec = g_object_class_find_property (G_OBJECT_GET_CLASS (preferences), property);
  g_return_if_fail (pspec);
  g_object_set_property (G_OBJECT (preferences), property, g_param_spec_get_default_value (pspec));
}

void
pf_preferences_reset (PfPreferences *preferences)
{
  static const guint shown[] = {
    PROP_UNITS,          PROP_STYLE,           PROP_NEW_COLOUR, PROP_TURNED_COLOUR,
    PROP_CARRIED_COLOUR, PROP_FINISHED_COLOUR, PROP_LINE_WIDTH,
  };
  for (size_t i = 0; i < G_N_ELEMENTS (shown); i++)
    pf_preferences_reset_property (preferences, props[shown[i]]->name);
}

/* --- Reading ------------------------------------------------------------------------------------
 */

PfUnits
pf_preferences_units (PfPreferences *preferences)
{
  return (PfUnits) g_value_get_enum (&preferences->values[PROP_UNITS]);
}

PfStyle
pf_preferences_style (PfPreferences *preferences)
{
  return (PfStyle) g_value_get_enum (&preferences->values[PROP_STYLE]);
}

PfLayers
pf_preferences_layers (PfPreferences *preferences)
{
  return (PfLayers) g_value_get_flags (&preferences->values[PROP_LAYERS]);
}

double
pf_preferences_line_width (PfPreferences *preferences)
{
  return g_value_get_double (&preferences->values[PROP_LINE_WIDTH]);
}

double
pf_preferences_pixels_per_mm (PfPreferences *preferences)
{
  return g_value_get_double (&preferences->values[PROP_PIXELS_PER_MM]);
}

PfPrinterRules
pf_preferences_printer (PfPreferences *preferences)
{
  return (PfPrinterRules){ g_value_get_double (&preferences->values[PROP_PRINTER_SHORT_SIDE]),
                           g_value_get_double (&preferences->values[PROP_PRINTER_LONG_SIDE]) };
}

PfPrinterRules
pf_preferences_printer_of_files (PfPreferences *preferences)
{
  return g_value_get_boolean (&preferences->values[PROP_PRINTER_FILES])
             ? pf_preferences_printer (preferences)
             : pf_printer_true ();
}

bool
pf_preferences_edge_strip (PfPreferences *preferences)
{
  return g_value_get_boolean (&preferences->values[PROP_EDGE_STRIP]);
}

double
pf_preferences_pillow_text (PfPreferences *preferences)
{
  return g_value_get_double (&preferences->values[PROP_PILLOW_TEXT]);
}

bool
pf_preferences_pillow_whole (PfPreferences *preferences)
{
  return g_value_get_boolean (&preferences->values[PROP_PILLOW_WHOLE]);
}

bool
pf_preferences_welcome_shown (PfPreferences *preferences)
{
  return g_value_get_boolean (&preferences->values[PROP_WELCOME_SHOWN]);
}

const char *
pf_preferences_colour (PfPreferences *preferences, PfPairKind kind)
{
  return g_value_get_string (&preferences->values[colour_props[kind]]);
}

PfLook
pf_preferences_look (PfPreferences *preferences)
{
  PfLook look = { .line_width = pf_preferences_line_width (preferences) };
  for (int kind = 0; kind < PF_N_PAIR_KINDS; kind++)
    g_strlcpy (look.colours[kind], pf_preferences_colour (preferences, (PfPairKind) kind),
               sizeof look.colours[kind]);
  return look;
}

const char *
pf_preferences_last_folder (PfPreferences *preferences)
{
  return g_value_get_string (&preferences->values[PROP_LAST_FOLDER]);
}

const char *
pf_preferences_colour_property (PfPairKind kind)
{
  return props[colour_props[kind]]->name;
}

const char *
pf_preferences_trouble (PfPreferences *preferences)
{
  return preferences->trouble;
}

/* --- The object ---------------------------------------------------------------------------------
 */

PfPreferences *
pf_preferences_new (const char *filename)
{
  PfPreferences *preferences = g_object_new (PF_TYPE_PREFERENCES, NULL);
  preferences->filename =
      filename ? g_strdup (filename)
               : g_build_filename (g_get_user_config_dir (), "pinfold", "preferences.ini", NULL);
  load (preferences);
  return preferences;
}

static void
finalize (GObject *object)
{
  PfPreferences *preferences = PF_PREFERENCES (object);
  g_autoptr (GError) error = NULL;
  if (!pf_preferences_save (preferences, &error))
    g_message ("%s", error->message); /* too late to ask the maker */
  g_free (preferences->filename);
  g_free (preferences->trouble);
  g_key_file_unref (preferences->keys);
  for (guint prop = 1; prop < N_PROPS; prop++)
    g_value_unset (&preferences->values[prop]);
  G_OBJECT_CLASS (pf_preferences_parent_class)->finalize (object);
}

static void
pf_preferences_init (PfPreferences *preferences)
{
  preferences->keys = g_key_file_new ();
  for (guint prop = 1; prop < N_PROPS; prop++)
    {
      g_value_init (&preferences->values[prop], props[prop]->value_type);
      g_param_value_set_default (props[prop], &preferences->values[prop]);
    }
}

static void
make_props (void)
{
  static const char *const colour_names[] = {
    [PF_PAIR_NEW] = "new-colour",
    [PF_PAIR_TURNED] = "turned-colour",
    [PF_PAIR_CARRIED] = "carried-colour",
    [PF_PAIR_FINISHED] = "finished-colour",
  };
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;
  props[PROP_UNITS] = g_param_spec_enum ("units", NULL, NULL, PF_TYPE_UNITS, PF_UNITS_MM, flags);
  props[PROP_STYLE] =
      g_param_spec_enum ("style", NULL, NULL, PF_TYPE_STYLE, PF_STYLE_SYSTEM, flags);
  for (size_t kind = 0; kind < G_N_ELEMENTS (colour_props); kind++)
    props[colour_props[kind]] = g_param_spec_string (
        colour_names[kind], NULL, NULL, pf_line_style ((PfPairKind) kind)->colour, flags);
  props[PROP_LINE_WIDTH] = g_param_spec_double ("line-width", NULL, NULL, PF_LINE_WIDTH_MIN,
                                                PF_LINE_WIDTH_MAX, 1, flags);
  props[PROP_PIXELS_PER_MM] =
      g_param_spec_double ("pixels-per-mm", NULL, NULL, PF_PIXELS_PER_MM_MIN, PF_PIXELS_PER_MM_MAX,
                           PF_PIXELS_PER_MM_USUAL, flags);
  props[PROP_PRINTER_SHORT_SIDE] = g_param_spec_double (
      "printer-short-side", NULL, NULL, PF_RULE_LEAST, PF_RULE_MOST, PF_RULE_LENGTH, flags);
  props[PROP_PRINTER_LONG_SIDE] = g_param_spec_double (
      "printer-long-side", NULL, NULL, PF_RULE_LEAST, PF_RULE_MOST, PF_RULE_LENGTH, flags);
  props[PROP_PRINTER_FILES] = g_param_spec_boolean ("printer-files", NULL, NULL, TRUE, flags);
  props[PROP_LAYERS] =
      g_param_spec_flags ("layers", NULL, NULL, PF_TYPE_LAYERS, PF_LAYER_ALL, flags);
  props[PROP_EDGE_STRIP] = g_param_spec_boolean ("edge-strip", NULL, NULL, TRUE, flags);
  props[PROP_PILLOW_TEXT] = g_param_spec_double ("pillow-text", NULL, NULL, PF_PILLOW_TEXT_MIN,
                                                 PF_PILLOW_TEXT_MAX, PF_PILLOW_TEXT_USUAL, flags);
  props[PROP_PILLOW_WHOLE] = g_param_spec_boolean ("pillow-whole", NULL, NULL, FALSE, flags);
  props[PROP_LAST_FOLDER] = g_param_spec_string ("last-folder", NULL, NULL, NULL, flags);
  props[PROP_WELCOME_SHOWN] = g_param_spec_boolean ("welcome-shown", NULL, NULL, FALSE, flags);
}

static void
pf_preferences_class_init (PfPreferencesClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  object_class->finalize = finalize;
  object_class->get_property = get_property;
  object_class->set_property = set_property;
  make_props ();
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[SAVE_FAILED] = g_signal_new ("save-failed", PF_TYPE_PREFERENCES, G_SIGNAL_RUN_LAST, 0,
                                       NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
