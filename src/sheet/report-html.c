/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A report as one HTML file: no scripts, nothing to be loaded, for the screen and for printing. It
 * is written so that readers of XML understand it as well.
 */
#include "report-parts.h"

#include <string.h>

#include <glib/gi18n-lib.h>

static const char style[] =
    "body { font-family: 'DejaVu Sans', Verdana, sans-serif; color: #1c1c1c; background: #fff;\n"
    "       line-height: 1.45; max-width: 60em; margin: 2em auto; padding: 0 1em; }\n"
    "h1 { font-size: 1.7em; } h2 { font-size: 1.35em; margin-top: 2em; } h3 { font-size: 1.05em; "
    "}\n"
    "table { border-collapse: collapse; margin: 0.8em 0; }\n"
    "caption { text-align: left; padding-bottom: 0.4em; }\n"
    "th, td { text-align: left; vertical-align: top; padding: 0.2em 1.2em 0.2em 0;\n"
    "         border-bottom: 1px solid #d2d2d2; font-weight: normal; }\n"
    "thead th { color: #5a5a5a; font-size: 0.85em; vertical-align: bottom;\n"
    "           border-bottom: 1px solid #1c1c1c; }\n"
    ".number { text-align: right; font-variant-numeric: tabular-nums; }\n"
    "tr.total th, tr.total td { border-top: 1px solid #1c1c1c; }\n"
    ".small { color: #5a5a5a; font-size: 0.85em; }\n"
    ".swatch { display: inline-block; width: 0.9em; height: 0.9em; margin-right: 0.4em;\n"
    "          border: 1px solid #5a5a5a; }\n"
    "@page { margin: 15mm; }\n"
    "@media print {\n"
    "  body { font-size: 9pt; max-width: none; margin: 0; padding: 0; }\n"
    "  .contents { display: none; }\n"
    "  h1, h2, h3 { break-after: avoid; }\n"
    "  tr { break-inside: avoid; }\n"
    "  thead { display: table-header-group; }\n"
    "  .swatch { print-color-adjust: exact; }\n"
    "}\n";

/* The language that the words are in: the catalogue tells its own in its header, which is the
 * translation of an empty text. */
static char *
language (void)
{
  static const char key[] = "\nLanguage: ";
  const char *header = g_dgettext (GETTEXT_PACKAGE, "");
  const char *found = header ? strstr (header, key) : NULL;
  if (found == NULL)
    return g_strdup ("en");
  found += strlen (key);
  const size_t n =
      strspn (found, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-");
  char *code = n > 0 ? g_strndup (found, n) : g_strdup ("en");
  return g_strdelimit (code, "_", '-');
}

static void
append_element (GString *html, const char *element, const char *attributes, const char *text)
{
  g_autofree char *words = g_strchomp (g_strdup (text));
  g_string_append_printf (html, "<%s%s>", element, attributes);
  pf_page_append_text (html, words);
  g_string_append_printf (html, "</%s>\n", element);
}

static bool
is_colour (const char *text)
{
  return text[0] == '#' && strlen (text) == 7 && strspn (text + 1, "0123456789abcdef") == 6;
}

static void
append_cell (GString *html, const char *element, const char *scope, bool number, const char *text)
{
  g_string_append_printf (html, "<%s%s%s>", element, scope, number ? " class=\"number\"" : "");
  if (is_colour (text))
    g_string_append_printf (html, "<span class=\"swatch\" style=\"background: %s\"></span>", text);
  pf_page_append_text (html, text);
  g_string_append_printf (html, "</%s>", element);
}

static void
append_head (GString *html, const PfReportTable *table)
{
  if (table->heads->len == 0)
    return;
  g_string_append (html, "<thead><tr>");
  for (size_t c = 0; c < table->n_columns; c++)
    {
      const char *head = g_ptr_array_index (table->heads, c);
      const bool number = table->columns[c] == PF_FLOW_NUMBERS;
      if (*head != '\0')
        append_cell (html, "th", " scope=\"col\"", number, head);
      else
        append_cell (html, "td", "", number, "");
    }
  g_string_append (html, "</tr></thead>\n");
}

static void
append_row (GString *html, const PfReportTable *table, size_t r, bool total)
{
  const size_t n = table->n_columns;
  g_string_append (html, total ? "<tr class=\"total\">" : "<tr>");
  for (size_t c = 0; c < n; c++)
    {
      const char *cell = g_ptr_array_index (table->cells, r * n + c);
      const bool names = c == 0 && *cell != '\0';
      append_cell (html, names ? "th" : "td", names ? " scope=\"row\"" : "",
                   table->columns[c] == PF_FLOW_NUMBERS, cell);
    }
  g_string_append (html, "</tr>\n");
}

static void
append_table (GString *html, const PfReportTable *table)
{
  const size_t n_rows = pf_report_table_rows (table);
  if (n_rows == 0)
    return;
  g_string_append (html, "<table>\n");
  if (table->caption)
    append_element (html, "caption", "", table->caption);
  append_head (html, table);
  g_string_append (html, "<tbody>\n");
  for (size_t r = 0; r < n_rows; r++)
    append_row (html, table, r, table->total && r == n_rows - 1);
  g_string_append (html, "</tbody>\n</table>\n");
}

/* Links to the sections. */
static void
append_contents (GString *html, const PfReportParts *parts)
{
  g_string_append (html, "<ul class=\"contents\">\n");
  for (guint i = 0; i < parts->parts->len; i++)
    {
      const PfReportPart *part = g_ptr_array_index (parts->parts, i);
      if (part->kind != PF_PART_HEADING || part->level != 2)
        continue;
      g_string_append_printf (html, "<li><a href=\"#part-%u\">", i);
      pf_page_append_text (html, part->text);
      g_string_append (html, "</a></li>\n");
    }
  g_string_append (html, "</ul>\n");
}

static void
append_heading (GString *html, const PfReportParts *parts, guint i)
{
  const PfReportPart *part = g_ptr_array_index (parts->parts, i);
  const char element[] = { 'h', (char) ('0' + CLAMP (part->level, 1, 3)), '\0' };
  g_autofree char *id = g_strdup_printf (" id=\"part-%u\"", i);
  append_element (html, element, id, part->text);
  if (part->level == 1)
    append_contents (html, parts);
}

/* Items that follow one another are one list. */
static bool
is_item (const PfReportParts *parts, guint i)
{
  return i < parts->parts->len &&
         ((const PfReportPart *) g_ptr_array_index (parts->parts, i))->kind == PF_PART_ITEM;
}

static void
append_part (GString *html, const PfReportParts *parts, guint i)
{
  const PfReportPart *part = g_ptr_array_index (parts->parts, i);
  switch (part->kind)
    {
    case PF_PART_HEADING:
      append_heading (html, parts, i);
      break;
    case PF_PART_PARAGRAPH:
      append_element (html, "p", "", part->text);
      break;
    case PF_PART_CAPTION:
      append_element (html, "p", " class=\"small\"", part->text);
      break;
    case PF_PART_ITEM:
      if (i == 0 || !is_item (parts, i - 1))
        g_string_append (html, "<ul>\n");
      append_element (html, "li", "", part->text);
      if (!is_item (parts, i + 1))
        g_string_append (html, "</ul>\n");
      break;
    case PF_PART_TABLE:
      append_table (html, part->table);
      break;
    }
}

char *
pf_report_parts_html (const PfReportParts *parts)
{
  g_autofree char *code = language ();
  GString *html = g_string_new ("<!DOCTYPE html>\n");
  g_string_append_printf (
      html,
      "<html lang=\"%s\" xml:lang=\"%s\" xmlns=\"http://www.w3.org/1999/xhtml\">\n"
      "<head>\n<meta charset=\"utf-8\"/>\n",
      code, code);
  append_element (html, "title", "", parts->title);
  g_string_append (html,
                   "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
                   "<meta name=\"generator\" content=\"Pinfold\"/>\n<style>\n");
  g_string_append (html, style);
  g_string_append (html, "</style>\n</head>\n<body>\n");
  for (guint i = 0; i < parts->parts->len; i++)
    append_part (html, parts, i);
  append_element (html, "p", " class=\"small\"", parts->care);
  g_string_append (html, "</body>\n</html>\n");
  return g_string_free (html, FALSE);
}
