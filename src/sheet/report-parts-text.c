/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A report as plain text: tables have columns as wide as what stands in them, of words at most
 * WORDS_MOST, as many lines as these then take.
 */
#include "report-parts.h"

#include <string.h>

#define INDENT "  "
#define WORDS_MOST 56
#define BETWEEN 2

void
pf_report_append_heading (GString *text, const char *heading, char underline)
{
  g_string_append_printf (text, "\n%s\n", heading);
  for (glong n = g_utf8_strlen (heading, -1); n > 0; n--)
    g_string_append_c (text, underline);
  g_string_append_c (text, '\n');
}

/* --- Cells --------------------------------------------------------------------------------------
 */

static int
length_of (const char *text)
{
  return (int) g_utf8_strlen (text, -1);
}

/* The lines of a cell, none longer than `width` unless a single word is. */
static GPtrArray *
lines_of (const char *cell, int width)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) words = g_strsplit (cell, " ", -1);
  GString *line = g_string_new (NULL);
  for (char **word = words; *word; word++)
    {
      if (line->len > 0 && length_of (line->str) + 1 + length_of (*word) > width)
        {
          g_ptr_array_add (lines, g_strdup (line->str));
          g_string_truncate (line, 0);
        }
      g_string_append_printf (line, "%s%s", line->len > 0 ? " " : "", *word);
    }
  g_ptr_array_add (lines, g_string_free (line, FALSE));
  return lines;
}

/* A row of cells, each with its lines; an array of arrays. */
static GPtrArray *
broken_row (const PfReportTable *table, const GPtrArray *cells, size_t r)
{
  GPtrArray *row = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  for (size_t c = 0; c < table->n_columns; c++)
    g_ptr_array_add (row, lines_of (g_ptr_array_index (cells, r * table->n_columns + c),
                                    table->columns[c] == PF_FLOW_WORDS ? WORDS_MOST : G_MAXINT));
  return row;
}

static guint
height_of (const GPtrArray *row)
{
  guint height = 0;
  for (guint c = 0; c < row->len; c++)
    height = MAX (height, ((const GPtrArray *) g_ptr_array_index (row, c))->len);
  return height;
}

static void
widen (const GPtrArray *row, int *widths)
{
  for (guint c = 0; c < row->len; c++)
    {
      const GPtrArray *lines = g_ptr_array_index (row, c);
      for (guint l = 0; l < lines->len; l++)
        widths[c] = MAX (widths[c], length_of (g_ptr_array_index (lines, l)));
    }
}

/* One line of a row. Nothing is filled up after its last word. */
static void
append_line (GString *text, const PfReportTable *table, const GPtrArray *row, guint l,
             const int *widths)
{
  const gsize start = text->len;
  g_string_append (text, INDENT);
  for (guint c = 0; c < row->len; c++)
    {
      const GPtrArray *lines = g_ptr_array_index (row, c);
      const char *cell = l < lines->len ? g_ptr_array_index (lines, l) : "";
      const int room = widths[c] - length_of (cell);
      const bool right = table->columns[c] == PF_FLOW_NUMBERS;
      g_string_append_printf (text, "%*s%s%*s", right ? room : 0, "", cell,
                              BETWEEN + (right ? 0 : room), "");
    }
  gsize end = text->len;
  while (end > start && text->str[end - 1] == ' ')
    end--;
  g_string_truncate (text, end);
  g_string_append_c (text, '\n');
}

static void
append_rule (GString *text, const int *widths, size_t n)
{
  int whole = -BETWEEN;
  for (size_t c = 0; c < n; c++)
    whole += widths[c] + BETWEEN;
  g_string_append (text, INDENT);
  for (int i = 0; i < whole; i++)
    g_string_append_c (text, '-');
  g_string_append_c (text, '\n');
}

static void
append_table (GString *text, const PfReportTable *table)
{
  g_autofree int *widths = g_new0 (int, table->n_columns);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  if (table->caption)
    g_string_append_printf (text, "%s\n", table->caption);
  if (table->heads->len > 0)
    g_ptr_array_add (rows, broken_row (table, table->heads, 0));
  for (size_t r = 0; r < pf_report_table_rows (table); r++)
    g_ptr_array_add (rows, broken_row (table, table->cells, r));
  for (guint r = 0; r < rows->len; r++)
    widen (g_ptr_array_index (rows, r), widths);
  for (guint r = 0; r < rows->len; r++)
    {
      const GPtrArray *row = g_ptr_array_index (rows, r);
      if (table->total && r == rows->len - 1)
        append_rule (text, widths, table->n_columns);
      for (guint l = 0; l < height_of (row); l++)
        append_line (text, table, row, l, widths);
    }
}

/* --- Parts --------------------------------------------------------------------------------------
 */

static void
append_part (GString *text, const PfReportPart *part)
{
  static const char underlines[] = { '=', '-' };
  g_autofree char *words = g_strchomp (g_strdup (part->text ? part->text : ""));
  switch (part->kind)
    {
    case PF_PART_HEADING:
      if (part->level <= 2)
        pf_report_append_heading (text, words, underlines[MAX (part->level, 1) - 1]);
      else
        g_string_append_printf (text, "\n%s\n", words);
      break;
    case PF_PART_PARAGRAPH:
    case PF_PART_CAPTION:
      g_string_append_printf (text, "%s\n", words);
      break;
    case PF_PART_ITEM:
      g_string_append_printf (text, INDENT "%s\n", words);
      break;
    case PF_PART_TABLE:
      append_table (text, part->table);
      break;
    }
}

void
pf_report_parts_append_text (const PfReportParts *parts, GString *text)
{
  for (guint i = 0; i < parts->parts->len; i++)
    append_part (text, g_ptr_array_index (parts->parts, i));
}
