/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Values as words in a key file: choices by name and not by number, so that a file can be read, and
 * stays good when choices are added.
 */
#include "preferences-key.h"

#include <string.h>

#include "preferences.h"

#define GROUP "Pinfold"

static const GEnumValue units_values[] = {
  { PF_UNITS_MM, "PF_UNITS_MM", "mm" },
  { PF_UNITS_INCH, "PF_UNITS_INCH", "inch" },
  { 0, NULL, NULL },
};

static const GEnumValue style_values[] = {
  { PF_STYLE_SYSTEM, "PF_STYLE_SYSTEM", "system" },
  { PF_STYLE_LIGHT, "PF_STYLE_LIGHT", "light" },
  { PF_STYLE_DARK, "PF_STYLE_DARK", "dark" },
  { PF_STYLE_CONTRAST, "PF_STYLE_CONTRAST", "contrast" },
  { PF_STYLE_DARK_CONTRAST, "PF_STYLE_DARK_CONTRAST", "dark-contrast" },
  { 0, NULL, NULL },
};

static const GFlagsValue layers_values[] = {
  { PF_LAYER_BACKGROUND, "PF_LAYER_BACKGROUND", "background" },
  { PF_LAYER_REPEATS, "PF_LAYER_REPEATS", "repeats" },
  { PF_LAYER_MISSING, "PF_LAYER_MISSING", "missing" },
  { PF_LAYER_PAIR_LINES, "PF_LAYER_PAIR_LINES", "pair-lines" },
  { PF_LAYER_OUTLINE, "PF_LAYER_OUTLINE", "outline" },
  { PF_LAYER_PINHOLES, "PF_LAYER_PINHOLES", "pinholes" },
  { PF_LAYER_PREDICTED, "PF_LAYER_PREDICTED", "predicted" },
  { PF_LAYER_SEWINGS, "PF_LAYER_SEWINGS", "sewings" },
  { PF_LAYER_PINS, "PF_LAYER_PINS", "pins" },
  { PF_LAYER_BEADS, "PF_LAYER_BEADS", "beads" },
  { PF_LAYER_NUMBERS, "PF_LAYER_NUMBERS", "numbers" },
  { PF_LAYER_THREADS, "PF_LAYER_THREADS", "threads" },
  { 0, NULL, NULL },
};

GType
pf_units_get_type (void)
{
  static GType type;
  if (g_once_init_enter (&type))
    g_once_init_leave (&type, g_enum_register_static ("PfUnits", units_values));
  return type;
}

GType
pf_style_get_type (void)
{
  static GType type;
  if (g_once_init_enter (&type))
    g_once_init_leave (&type, g_enum_register_static ("PfStyle", style_values));
  return type;
}

GType
pf_layers_get_type (void)
{
  static GType type;
  if (g_once_init_enter (&type))
    g_once_init_leave (&type, g_flags_register_static ("PfLayers", layers_values));
  return type;
}

bool
pf_preferences_is_colour (const char *text)
{
  if (!text || strlen (text) != 7 || text[0] != '#')
    return false;
  for (size_t i = 1; i < 7; i++)
    if (!g_ascii_isxdigit (text[i]))
      return false;
  return true;
}

static bool
read_enum (GKeyFile *keys, GParamSpec *pspec, GValue *value)
{
  g_autofree char *word = g_key_file_get_string (keys, GROUP, pspec->name, NULL);
  const GEnumValue *found =
      word ? g_enum_get_value_by_nick (G_PARAM_SPEC_ENUM (pspec)->enum_class, word) : NULL;
  if (found)
    g_value_set_enum (value, found->value);
  return found;
}

/* A name that isn't known is left out. */
static bool
read_flags (GKeyFile *keys, GParamSpec *pspec, GValue *value)
{
  g_auto (GStrv) words = g_key_file_get_string_list (keys, GROUP, pspec->name, NULL, NULL);
  if (!words)
    return false;
  guint flags = 0;
  for (char **word = words; *word; word++)
    {
      const GFlagsValue *found =
          g_flags_get_value_by_nick (G_PARAM_SPEC_FLAGS (pspec)->flags_class, *word);
      flags |= found ? found->value : 0;
    }
  g_value_set_flags (value, flags);
  return true;
}

static void
write_flags (GKeyFile *keys, GParamSpec *pspec, guint flags)
{
  const GFlagsClass *class = G_PARAM_SPEC_FLAGS (pspec)->flags_class;
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  for (guint i = 0; i < class->n_values; i++)
    if (flags & class->values[i].value)
      g_ptr_array_add (words, (gpointer) class->values[i].value_nick);
  g_key_file_set_string_list (keys, GROUP, pspec->name, (const char *const *) words->pdata,
                              words->len);
}

bool
pf_preferences_key_read (GKeyFile *keys, GParamSpec *pspec, GValue *value)
{
  g_autoptr (GError) error = NULL;
  const char *key = pspec->name;
  if (!g_key_file_has_key (keys, GROUP, key, NULL))
    return false;
  if (G_IS_PARAM_SPEC_ENUM (pspec))
    return read_enum (keys, pspec, value);
  if (G_IS_PARAM_SPEC_FLAGS (pspec))
    return read_flags (keys, pspec, value);
  if (G_IS_PARAM_SPEC_DOUBLE (pspec))
    g_value_set_double (value, g_key_file_get_double (keys, GROUP, key, &error));
  else if (G_IS_PARAM_SPEC_BOOLEAN (pspec))
    g_value_set_boolean (value, g_key_file_get_boolean (keys, GROUP, key, &error));
  else
    g_value_take_string (value, g_key_file_get_string (keys, GROUP, key, &error));
  return !error && !g_param_value_validate (pspec, value);
}

void
pf_preferences_key_write (GKeyFile *keys, GParamSpec *pspec, const GValue *value)
{
  const char *key = pspec->name;
  if (g_param_value_defaults (pspec, value))
    g_key_file_remove_key (keys, GROUP, key, NULL);
  else if (G_IS_PARAM_SPEC_ENUM (pspec))
    g_key_file_set_string (
        keys, GROUP, key,
        g_enum_get_value (G_PARAM_SPEC_ENUM (pspec)->enum_class, g_value_get_enum (value))
            ->value_nick);
  else if (G_IS_PARAM_SPEC_FLAGS (pspec))
    write_flags (keys, pspec, g_value_get_flags (value));
  else if (G_IS_PARAM_SPEC_DOUBLE (pspec))
    g_key_file_set_double (keys, GROUP, key, g_value_get_double (value));
  else if (G_IS_PARAM_SPEC_BOOLEAN (pspec))
    g_key_file_set_boolean (keys, GROUP, key, g_value_get_boolean (value));
  else
    g_key_file_set_string (keys, GROUP, key, g_value_get_string (value));
}
