/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report-parts.h"

#include <string.h>

#include <glib/gi18n-lib.h>

#include "report.h"

static void
free_table (PfReportTable *table)
{
  if (!table)
    return;
  g_free (table->caption);
  g_free (table->columns);
  g_ptr_array_unref (table->heads);
  g_ptr_array_unref (table->cells);
  g_free (table);
}

static void
free_part (gpointer data)
{
  PfReportPart *part = data;
  g_free (part->text);
  free_table (part->table);
  g_free (part);
}

void
pf_report_parts_free (PfReportParts *parts)
{
  if (!parts)
    return;
  g_free (parts->title);
  g_free (parts->care);
  g_ptr_array_unref (parts->parts);
  g_free (parts);
}

static PfReportPart *
add_part (PfReportParts *parts, PfPartKind kind, char *text)
{
  PfReportPart *part = g_new0 (PfReportPart, 1);
  part->kind = kind;
  part->text = text;
  g_ptr_array_add (parts->parts, part);
  return part;
}

void
pf_report_heading (PfReportParts *parts, int level, const char *text)
{
  add_part (parts, PF_PART_HEADING, g_strdup (text))->level = level;
}

void
pf_report_take (PfReportParts *parts, PfPartKind kind, char *text)
{
  add_part (parts, kind, text);
}

void
pf_report_paragraph (PfReportParts *parts, const char *text)
{
  add_part (parts, PF_PART_PARAGRAPH, g_strdup (text));
}

PfReportTable *
pf_report_table (PfReportParts *parts, const char *caption, const char *columns,
                 const char *const *heads)
{
  PfReportTable *table = g_new0 (PfReportTable, 1);
  table->caption = g_strdup (caption);
  table->n_columns = strlen (columns);
  table->columns = g_new (PfFlowColumn, table->n_columns);
  table->heads = g_ptr_array_new_with_free_func (g_free);
  table->cells = g_ptr_array_new_with_free_func (g_free);
  for (size_t c = 0; c < table->n_columns; c++)
    {
      table->columns[c] = columns[c] == 'n' ? PF_FLOW_NUMBERS : PF_FLOW_WORDS;
      if (heads)
        g_ptr_array_add (table->heads, g_strdup (heads[c]));
    }
  add_part (parts, PF_PART_TABLE, NULL)->table = table;
  return table;
}

void
pf_report_cell (PfReportTable *table, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_ptr_array_add (table->cells, g_strdup_vprintf (format, arguments));
  va_end (arguments);
}

size_t
pf_report_table_rows (const PfReportTable *table)
{
  return table->cells->len / table->n_columns;
}

/* --- The report ---------------------------------------------------------------------------------
 */

static void
add_notes (PfReportParts *parts, const char *notes)
{
  if (notes == NULL || *notes == '\0')
    return;
  pf_report_heading (parts, 2, _ ("Notes"));
  g_auto (GStrv) lines = g_strsplit_set (notes, "\r\n", -1);
  for (char **line = lines; *line; line++)
    if (*g_strstrip (*line) != '\0')
      pf_report_paragraph (parts, *line);
}

PfReportParts *
pf_report_parts_empty (void)
{
  PfReportParts *parts = g_new0 (PfReportParts, 1);
  parts->parts = g_ptr_array_new_with_free_func (free_part);
  return parts;
}

PfReportParts *
pf_report_parts_new (const PfPricking *pricking)
{
  PfReportParts *parts = pf_report_parts_empty ();
  parts->title = pricking->title && *pricking->title
                     ? g_strdup_printf (_ ("Pair-count report: %s"), pricking->title)
                     : g_strdup (_ ("Pair-count report"));
  parts->care = g_strdup (pf_report_care ());
  pf_report_heading (parts, 1, parts->title);
  const PfGround *ground = pf_pricking_ground (pricking);
  if (ground != NULL)
    pf_report_take (parts, PF_PART_PARAGRAPH, g_strdup_printf (_ ("Ground: %s\n"), ground->title));
  add_notes (parts, pricking->notes);
  pf_report_add_piece (parts, pricking);
  for (guint m = 0; m < pricking->motifs->len; m++)
    pf_report_add_motif (parts, pricking, m);
  return parts;
}
