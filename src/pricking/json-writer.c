/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * JSON text as it grows; see json-writer.h for how it looks.
 */
#include "json-writer.h"

#include <math.h>

#include "json-reader.h"

enum { LIST = 1, LINES = 2, HOLDS = 4 };

void
pf_json_writer_init (PfJsonWriter *writer)
{
  *writer = (PfJsonWriter){ g_string_new (NULL), g_byte_array_new () };
}

char *
pf_json_writer_end (PfJsonWriter *writer, gsize *n)
{
  g_assert (writer->open->len == 0);
  g_byte_array_unref (writer->open);
  g_string_append_c (writer->text, '\n');
  *n = writer->text->len;
  return g_string_free (writer->text, FALSE);
}

static guint8 *
innermost (PfJsonWriter *writer)
{
  return &writer->open->data[writer->open->len - 1];
}

static void
start_line (PfJsonWriter *writer)
{
  g_string_append_c (writer->text, '\n');
  for (guint d = 0; d < writer->open->len; d++)
    g_string_append (writer->text, "  ");
}

static void
append_quoted (GString *text, const char *string)
{
  g_autofree char *valid = g_utf8_make_valid (string, -1);
  g_string_append_c (text, '"');
  for (const char *p = valid; *p; p = g_utf8_next_char (p))
    {
      const gunichar letter = g_utf8_get_char (p);
      if (letter == '"' || letter == '\\')
        g_string_append_printf (text, "\\%c", *p);
      else if (letter == '\n' || letter == '\t')
        g_string_append (text, letter == '\n' ? "\\n" : "\\t");
      else
        g_string_append_unichar (text, pf_json_letter_is_shown (letter) ? letter : ' ');
    }
  g_string_append_c (text, '"');
}

/* What stands before a value: a comma after the last one, a new line or a blank, its key. */
static void
start_value (PfJsonWriter *writer, const char *key)
{
  if (writer->open->len > 0)
    {
      guint8 *around = innermost (writer);
      if (*around & HOLDS)
        g_string_append_c (writer->text, ',');
      if (*around & LINES)
        start_line (writer);
      else if (*around & HOLDS)
        g_string_append_c (writer->text, ' ');
      *around |= HOLDS;
    }
  if (key)
    {
      append_quoted (writer->text, key);
      g_string_append (writer->text, ": ");
    }
}

static void
open_bracket (PfJsonWriter *writer, const char *key, guint8 flags)
{
  start_value (writer, key);
  g_string_append_c (writer->text, flags & LIST ? '[' : '{');
  g_byte_array_append (writer->open, &flags, 1);
}

void
pf_json_open_object (PfJsonWriter *writer, const char *key, bool lines)
{
  open_bracket (writer, key, lines ? LINES : 0);
}

void
pf_json_open_list (PfJsonWriter *writer, const char *key, bool lines)
{
  open_bracket (writer, key, LIST | (lines ? LINES : 0));
}

void
pf_json_close (PfJsonWriter *writer)
{
  const guint8 flags = *innermost (writer);
  g_byte_array_set_size (writer->open, writer->open->len - 1);
  if ((flags & LINES) && (flags & HOLDS))
    start_line (writer);
  g_string_append_c (writer->text, flags & LIST ? ']' : '}');
}

void
pf_json_put_text (PfJsonWriter *writer, const char *key, const char *text)
{
  start_value (writer, key);
  append_quoted (writer->text, text);
}

void
pf_append_number (GString *text, double number)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  static const char *const formats[] = { "%.15g", "%.16g", "%.17g" };
  if (!isfinite (number) || number == 0)
    {
      g_string_append_c (text, '0');
      return;
    }
  for (size_t f = 0; f < G_N_ELEMENTS (formats); f++)
    if (g_ascii_strtod (g_ascii_formatd (buffer, sizeof buffer, formats[f], number), NULL) ==
        number)
      break;
  g_string_append (text, buffer);
}

void
pf_json_put_number (PfJsonWriter *writer, const char *key, double number)
{
  start_value (writer, key);
  pf_append_number (writer->text, number);
}

void
pf_json_put_bool (PfJsonWriter *writer, const char *key, bool value)
{
  start_value (writer, key);
  g_string_append (writer->text, value ? "true" : "false");
}

void
pf_json_put_two (PfJsonWriter *writer, const char *key, double a, double b)
{
  pf_json_open_list (writer, key, false);
  pf_json_put_number (writer, NULL, a);
  pf_json_put_number (writer, NULL, b);
  pf_json_close (writer);
}
