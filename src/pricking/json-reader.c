/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Typed values out of JSON objects; see json-reader.h for how errors are kept.
 */
#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "json-reader.h"

void
pf_json_fail (PfJsonReader *reader, const char *format, ...)
{
  if (reader->error)
    return;
  va_list args;
  va_start (args, format);
  g_autofree char *problem = g_strdup_vprintf (format, args);
  va_end (args);
  if (reader->where)
    g_set_error (&reader->error, PF_ERROR, PF_ERROR_FILE, "%s, %s: %s", reader->file, reader->where,
                 problem);
  else
    g_set_error (&reader->error, PF_ERROR, PF_ERROR_FILE, "%s: %s", reader->file, problem);
}

void
pf_json_at (PfJsonReader *reader, char *where)
{
  g_free (reader->where);
  reader->where = where;
}

JsonObject *
pf_json_object (PfJsonReader *reader, JsonNode *node, const char *const *keys)
{
  if (!JSON_NODE_HOLDS_OBJECT (node))
    {
      pf_json_fail (reader, _ ("Braces { } with named values must stand here."));
      return NULL;
    }
  JsonObject *object = json_node_get_object (node);
  JsonObjectIter iter;
  const char *key;
  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &key, NULL))
    if (!g_strv_contains (keys, key))
      {
        g_autofree char *shown = pf_json_shown (key);
        pf_json_fail (reader, _ ("“%s” isn't known here: check its spelling, or take it out."),
                      shown);
        return NULL;
      }
  return object;
}

static JsonNode *
member (const PfJsonReader *reader, JsonObject *object, const char *key)
{
  return reader->error || !object ? NULL : json_object_get_member (object, key);
}

static bool
holds (JsonNode *node, GType type)
{
  return node && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == type;
}

/* A text that can be shown and written to any file: the JSON library makes broken letters of broken
 * escapes, and XML has no place for control characters and the last two letters of each plane. */
bool
pf_json_letter_is_shown (gunichar letter)
{
  return !g_unichar_iscntrl (letter) && (letter & 0xFFFE) != 0xFFFE;
}

static bool
holds_letters (JsonNode *node, const char *others)
{
  if (!holds (node, G_TYPE_STRING) || !g_utf8_validate (json_node_get_string (node), -1, NULL))
    return false;
  for (const char *p = json_node_get_string (node); *p; p = g_utf8_next_char (p))
    if (!pf_json_letter_is_shown (g_utf8_get_char (p)) && !strchr (others, *p))
      return false;
  return true;
}

static bool
is_text (JsonNode *node)
{
  return holds_letters (node, "");
}

const char *
pf_json_string (PfJsonReader *reader, JsonObject *object, const char *key, bool needed)
{
  JsonNode *node = member (reader, object, key);
  if (!node && !needed)
    return "";
  if (!is_text (node) || (needed && !*json_node_get_string (node)))
    {
      pf_json_fail (reader, _ ("“%s” must be a text in quotes, of letters that can be shown."),
                    key);
      return NULL;
    }
  return json_node_get_string (node);
}

const char *
pf_json_lines (PfJsonReader *reader, JsonObject *object, const char *key)
{
  JsonNode *node = member (reader, object, key);
  if (!node)
    return "";
  if (!holds_letters (node, "\n\t"))
    {
      pf_json_fail (reader, _ ("“%s” must be a text in quotes, of letters that can be shown."),
                    key);
      return NULL;
    }
  return json_node_get_string (node);
}

int
pf_json_word (PfJsonReader *reader, JsonObject *object, const char *key, const char *const *words,
              int missing)
{
  JsonNode *node = member (reader, object, key);
  if (!node)
    return missing;
  if (holds (node, G_TYPE_STRING))
    for (int w = 0; words[w]; w++)
      if (strcmp (words[w], json_node_get_string (node)) == 0)
        return w;
  g_autofree char *list = g_strjoinv (", ", (char **) words);
  pf_json_fail (reader, _ ("“%s” must be one of: %s."), key, list);
  return missing;
}

bool
pf_json_bool (PfJsonReader *reader, JsonObject *object, const char *key)
{
  JsonNode *node = member (reader, object, key);
  if (!node)
    return false;
  if (!holds (node, G_TYPE_BOOLEAN))
    {
      pf_json_fail (reader, _ ("“%s” must be true or false, without quotes."), key);
      return false;
    }
  return json_node_get_boolean (node);
}

static bool
is_int (JsonNode *node)
{
  return holds (node, G_TYPE_INT64) && json_node_get_int (node) >= G_MININT &&
         json_node_get_int (node) <= G_MAXINT;
}

int
pf_json_int (PfJsonReader *reader, JsonObject *object, const char *key, int missing)
{
  JsonNode *node = member (reader, object, key);
  if (!node)
    return missing;
  if (!is_int (node))
    {
      pf_json_fail (reader, _ ("“%s” must be a whole number."), key);
      return missing;
    }
  return (int) json_node_get_int (node);
}

JsonArray *
pf_json_array (PfJsonReader *reader, JsonObject *object, const char *key)
{
  JsonNode *node = member (reader, object, key);
  if (!node || !JSON_NODE_HOLDS_ARRAY (node))
    {
      pf_json_fail (reader, _ ("“%s” must be a list in brackets [ ]."), key);
      return NULL;
    }
  return json_node_get_array (node);
}

/* The two values of a pair in brackets; NULL where there isn't one. */
static bool
two (JsonNode *node, JsonNode *values[2])
{
  if (!node || !JSON_NODE_HOLDS_ARRAY (node))
    return false;
  JsonArray *array = json_node_get_array (node);
  if (json_array_get_length (array) != 2)
    return false;
  values[0] = json_array_get_element (array, 0);
  values[1] = json_array_get_element (array, 1);
  return true;
}

static bool
is_number (JsonNode *node)
{
  return holds (node, G_TYPE_INT64) || holds (node, G_TYPE_DOUBLE);
}

/* A number in range, else `missing` and an error. */
static double
number_of (PfJsonReader *reader, JsonNode *node, const char *key, double limit, double missing)
{
  if (is_number (node) && fabs (json_node_get_double (node)) <= limit)
    return json_node_get_double (node) + 0.0; /* 0 for -0 */
  if (is_number (node))
    pf_json_fail (reader, _ ("“%s” has the number %g; it can be %g to %g."), key,
                  json_node_get_double (node), -limit, limit);
  else
    pf_json_fail (reader, _ ("“%s” must be a number, without quotes."), key);
  return missing;
}

double
pf_json_number (PfJsonReader *reader, JsonObject *object, const char *key, double limit,
                double missing)
{
  JsonNode *node = member (reader, object, key);
  return node ? number_of (reader, node, key, limit, missing) : missing;
}

void
pf_json_numbers (PfJsonReader *reader, JsonObject *object, const char *key, double limit,
                 double *numbers, guint n)
{
  JsonNode *node = member (reader, object, key);
  JsonArray *array = node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  const bool right = array && json_array_get_length (array) == n;
  if (!right)
    pf_json_fail (reader, _ ("“%s” must be %u numbers in brackets."), key, n);
  for (guint k = 0; k < n; k++)
    numbers[k] = right ? number_of (reader, json_array_get_element (array, k), key, limit, 0) : 0;
}

double *
pf_json_all_numbers (PfJsonReader *reader, JsonObject *object, const char *key, double limit,
                     size_t *n)
{
  guint length;
  JsonArray *array = pf_json_list (reader, object, key, &length);
  double *numbers = g_new (double, MAX (length, 1));
  for (guint k = 0; k < length && !reader->error; k++)
    numbers[k] = number_of (reader, json_array_get_element (array, k), key, limit, 0);
  *n = reader->error ? 0 : length;
  return numbers;
}

JsonNode *
pf_json_member (PfJsonReader *reader, JsonObject *object, const char *key)
{
  return member (reader, object, key);
}

JsonArray *
pf_json_list (PfJsonReader *reader, JsonObject *object, const char *key, guint *n)
{
  JsonArray *array = member (reader, object, key) ? pf_json_array (reader, object, key) : NULL;
  *n = array ? json_array_get_length (array) : 0;
  return array;
}

PfPoint
pf_json_point (PfJsonReader *reader, JsonObject *object, const char *key)
{
  JsonNode *values[2];
  if (!two (member (reader, object, key), values) || !is_number (values[0]) ||
      !is_number (values[1]))
    {
      pf_json_fail (reader, _ ("“%s” must be two numbers in brackets, such as [1, 0.5]."), key);
      return (PfPoint){ 0, 0 };
    }
  return (PfPoint){ json_node_get_double (values[0]), json_node_get_double (values[1]) };
}

void
pf_json_two_ints (PfJsonReader *reader, JsonObject *object, const char *key, int *a, int *b)
{
  JsonNode *values[2], *node = member (reader, object, key);
  *a = *b = 0;
  if (!node)
    return;
  if (!two (node, values) || !is_int (values[0]) || !is_int (values[1]))
    {
      pf_json_fail (reader, _ ("“%s” must be two whole numbers in brackets, such as [1, 0]."), key);
      return;
    }
  *a = (int) json_node_get_int (values[0]);
  *b = (int) json_node_get_int (values[1]);
}

char **
pf_json_strings (PfJsonReader *reader, JsonObject *object, const char *key)
{
  g_autoptr (GStrvBuilder) strings = g_strv_builder_new ();
  JsonNode *node = member (reader, object, key);
  JsonArray *array = node ? pf_json_array (reader, object, key) : NULL;
  const guint n = array ? json_array_get_length (array) : 0;
  for (guint i = 0; i < n; i++)
    {
      JsonNode *element = json_array_get_element (array, i);
      if (is_text (element))
        g_strv_builder_add (strings, json_node_get_string (element));
      else
        pf_json_fail (reader, _ ("“%s” must hold only texts in quotes."), key);
    }
  return g_strv_builder_end (strings);
}
