/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A report set on pages.
 */
#include "book-pages.h"
#include "report-parts.h"

/* A table of nothing but numbers is narrow. */
static bool
is_of_numbers (const PfReportTable *table)
{
  for (size_t c = 0; c < table->n_columns; c++)
    if (table->columns[c] != PF_FLOW_NUMBERS)
      return false;
  return true;
}

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
    .side_by_side = is_of_numbers (table),
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

PfFlow *
pf_report_parts_flow (const PfReportParts *parts, const PfPaper *paper)
{
  PfFlow *flow = pf_flow_new (paper, parts->title);
  for (guint i = 0; i < parts->parts->len; i++)
    set_part (flow, g_ptr_array_index (parts->parts, i));
  return flow;
}

GByteArray *
pf_report_parts_pdf (const PfReportParts *parts, const PfPaper *paper, gint64 created,
                     GError **error)
{
  g_autoptr (PfFlow) flow = pf_report_parts_flow (parts, paper);
  g_autoptr (PfBookPages) book = pf_book_pages_new ();
  pf_book_pages_add_flow (book, flow, paper, pf_flow_n_pages (flow));
  return pf_paint_book (book->pages, book->marks, (PfPdfWords){ parts->title, created }, error);
}
