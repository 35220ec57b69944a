/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A report set on pages.
 */
#include "report-parts.h"

#include "paint.h"

static void
set_table (PfFlow *flow, const PfReportTable *table)
{
  const PfFlowTable set = {
    .caption = table->caption,
    .columns = table->columns,
    .n_columns = table->n_columns,
    .heads = table->heads->len > 0 ? (const char *const *) table->heads->pdata : NULL,
    .cells = (const char *const *) table->cells->pdata,
    .n_rows = pf_report_table_rows (table),
    .total = table->total,
  };
  pf_flow_table (flow, &set);
}

static void
set_part (PfFlow *flow, const PfReportPart *part)
{
  switch (part->kind)
    {
    case PF_PART_HEADING:
      pf_flow_heading (flow, part->level, part->text);
      break;
    case PF_PART_PARAGRAPH:
      pf_flow_paragraph (flow, part->text);
      break;
    case PF_PART_CAPTION:
      pf_flow_caption (flow, part->text);
      break;
    case PF_PART_ITEM:
      pf_flow_bullet (flow, part->text);
      break;
    case PF_PART_TABLE:
      set_table (flow, part->table);
      break;
    }
}

GPtrArray *
pf_report_parts_pages (const PfReportParts *parts, const PfPaper *paper, GArray **bookmarks)
{
  g_autoptr (PfFlow) flow = pf_flow_new (paper, parts->title);
  for (guint i = 0; i < parts->parts->len; i++)
    set_part (flow, g_ptr_array_index (parts->parts, i));
  return pf_flow_finish (flow, bookmarks);
}

GByteArray *
pf_report_parts_pdf (const PfReportParts *parts, const PfPaper *paper, gint64 created,
                     GError **error)
{
  g_autoptr (GPtrArray) bare = pf_report_parts_pages (parts, paper, NULL);
  g_autoptr (GPtrArray) pages = g_ptr_array_new_with_free_func (g_free);
  for (guint p = 0; p < bare->len; p++)
    g_ptr_array_add (pages, pf_flow_with_foot (g_ptr_array_index (bare, p), paper, parts->care,
                                               p + 1, bare->len));
  return pf_paint_pdf ((const char *const *) pages->pdata, pages->len, paper->width, paper->height,
                       (PfPdfWords){ parts->title, created }, error);
}
