/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From bytes to JSON values. The bytes may be anything: they are looked through before the JSON
 * library sees them.
 *
 * The library goes down one level of its own stack for each bracket, reads comments, octal numbers
 * and other things that aren't JSON, takes a whole number that is too long for another one, and
 * keeps the last of two equal keys without a word. So a first look finds how deep the brackets go
 * and what can't stand in a JSON file, and a key that comes twice is caught as it is read.
 */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "json-reader.h"

static bool
check_size (gsize n, gsize most, const char *file, GError **error)
{
  if (n <= most)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_FILE,
               _ ("%s is too big: a file of this kind has at most %zu MB."), file,
               most / (1024 * 1024));
  return false;
}

char *
pf_json_read_file (const char *filename, gsize most, gsize *n, GError **error)
{
  g_autofree char *shown = g_filename_display_name (filename);
  FILE *file = g_fopen (filename, "rb");
  g_autofree char *text = g_malloc (most + 1);
  *n = file ? fread (text, 1, most + 1, file) : 0;
  const int problem = !file || ferror (file) ? errno : 0;
  if (file)
    fclose (file);
  if (problem)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("%s can't be read: %s."), shown,
                   g_strerror (problem));
      return NULL;
    }
  return check_size (*n, most, shown, error) ? g_steal_pointer (&text) : NULL;
}

/* Past the string that starts at text[i]; n if it doesn't end. */
static gsize
skip_string (const char *text, gsize n, gsize i)
{
  for (i++; i < n && text[i] != '"'; i++)
    if (text[i] == '\\')
      i++;
  return MIN (i + 1, n);
}

char *
pf_json_shown (const char *text)
{
  enum { MOST = 40 };
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  const bool whole = g_utf8_strlen (valid, -1) <= MOST;
  g_autofree char *start = g_utf8_substring (valid, 0, whole ? -1 : MOST);
  return g_strconcat (start, whole ? NULL : "…", NULL);
}

static gsize
skip_digits (const char *text, gsize n, gsize i)
{
  while (i < n && g_ascii_isdigit (text[i]))
    i++;
  return i;
}

/* Past the number that starts at text[i]; i if it isn't one as JSON (RFC 8259, section 6) has it,
 * or a whole number too long for the library. */
static gsize
skip_number (const char *text, gsize n, gsize i)
{
  enum { MOST_DIGITS = 18 };
  const gsize first = text[i] == '-' ? i + 1 : i;
  gsize end = skip_digits (text, n, first);
  if (end == first || end - first > MOST_DIGITS || (text[first] == '0' && end > first + 1))
    return i;
  if (end < n && text[end] == '.')
    {
      const gsize fraction = end + 1;
      end = skip_digits (text, n, fraction);
      if (end == fraction)
        return i;
    }
  if (end < n && (text[end] == 'e' || text[end] == 'E'))
    {
      const gsize sign = end + 1;
      const gsize power = sign < n && (text[sign] == '+' || text[sign] == '-') ? sign + 1 : sign;
      end = skip_digits (text, n, power);
      if (end == power)
        return i;
    }
  return end < n && (g_ascii_isalnum (text[end]) || text[end] == '.') ? i : end;
}

/* Past what starts at text[i]: a string, a number, a letter of a word, a bracket, a mark or a
 * blank; i if it can't stand in a JSON file. */
static gsize
skip_piece (const char *text, gsize n, gsize i)
{
  const char c = text[i];
  if (c == '"')
    return skip_string (text, n, i);
  if (c == '-' || g_ascii_isdigit (c))
    return skip_number (text, n, i);
  return g_ascii_isalpha (c) || strchr (" \t\r\n[]{},:", c) ? i + 1 : i;
}

static bool
look_through (const char *text, gsize n, const char *file, GError **error)
{
  int depth = 0, line = 1;
  for (gsize i = 0; i < n;)
    {
      const char c = text[i];
      line += c == '\n';
      depth += (c == '[' || c == '{') - (c == ']' || c == '}');
      const gsize next = skip_piece (text, n, i);
      if (depth > PF_JSON_MAX_DEPTH || next == i)
        {
          g_autofree char *piece = g_utf8_substring (text + i, 0, 1);
          g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                       next == i
                           ? _ ("%s, line %d: what starts with “%s” can't stand in a JSON file.")
                           : _ ("%s, line %d: “%s” opens brackets within brackets too deep."),
                       file, line, piece);
          return false;
        }
      i = next;
    }
  return true;
}

typedef struct {
  GHashTable *seen; /* of "object/key" */
  char *twice;      /* the first key that came twice in its object, or NULL */
  guint line;       /* where parsing failed */
} Notes;

static void
note_key (G_GNUC_UNUSED JsonParser *parser, JsonObject *object, const char *key, gpointer data)
{
  Notes *notes = data;
  if (!g_hash_table_add (notes->seen, g_strdup_printf ("%p/%s", (void *) object, key)) &&
      !notes->twice)
    notes->twice = g_strdup (key);
}

/* The parser forgets the line before it returns. */
static void
note_line (JsonParser *parser, G_GNUC_UNUSED gpointer problem, gpointer data)
{
  Notes *notes = data;
  notes->line = json_parser_get_current_line (parser);
}

static JsonNode *
parse (const char *text, gsize n, const char *file, Notes *notes, GError **error)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_signal_connect (parser, "object-member", G_CALLBACK (note_key), notes);
  g_signal_connect (parser, "error", G_CALLBACK (note_line), notes);
  if (!json_parser_load_from_data (parser, n ? text : "", (gssize) n, NULL))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_FILE,
          _ ("%s, line %u: this isn't valid JSON. Look there for a comma, quote or bracket "
             "that is missing or too many."),
          file, notes->line);
      return NULL;
    }
  if (notes->twice)
    {
      g_autofree char *shown = pf_json_shown (notes->twice);
      g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                   _ ("%s: “%s” stands twice in the same braces: take one out."), file, shown);
      return NULL;
    }
  JsonNode *root = json_parser_steal_root (parser);
  if (!root)
    g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("%s is empty."), file);
  return root;
}

JsonNode *
pf_json_parse (const char *text, gsize n, gsize most, const char *file, GError **error)
{
  if (!check_size (n, most, file, error))
    return NULL;
  if (!g_utf8_validate_len (text, n, NULL))
    {
      g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                   _ ("%s isn't a text in UTF-8: save it as UTF-8."), file);
      return NULL;
    }
  const gsize mark = n >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; /* of byte order */
  text += mark;
  n -= mark;
  if (!look_through (text, n, file, error))
    return NULL;
  Notes notes = { .seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL) };
  JsonNode *root = parse (text, n, file, &notes, error);
  g_hash_table_unref (notes.seen);
  g_free (notes.twice);
  return root;
}
