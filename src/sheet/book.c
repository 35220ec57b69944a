/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Joins the parts of a book. Pages are numbered from the first of the pricking to the last of the
 * report, so all parts are laid out before any gets its numbers.
 */
#include <sheet.h>

#include <glib/gi18n-lib.h>

#include "book-pages.h"
#include "report-parts.h"
#include "teaching.h"

struct PfBook {
  PfBookPages *all;
  char *title;
  gint64 created;
};

/* A part that is set in text: its pages, and the headings on them. */
typedef struct {
  GPtrArray *pages;
  GArray *headings; /* of PfFlowBookmark */
} Part;

static void
clear_part (gpointer data)
{
  Part *part = data;
  g_ptr_array_unref (part->pages);
  g_array_unref (part->headings);
}

/* --- Parts --------------------------------------------------------------------------------------
 */

static void
add_teaching (GArray *parts, const PfPricking *pricking, const PfPaper *paper, PfTeaching what,
              bool colours)
{
  g_autoptr (PfFlow) flow = pf_flow_new (paper, pricking->title);
  pf_teaching_add (flow, pricking, what, colours);
  Part part;
  part.pages = pf_flow_finish (flow, &part.headings);
  g_array_append_val (parts, part);
}

static void
add_report (GArray *parts, const PfPricking *pricking, const PfPaper *paper)
{
  g_autoptr (PfReportParts) report = pf_report_parts_new (pricking);
  Part part;
  part.pages = pf_report_parts_pages (report, paper, &part.headings);
  g_array_append_val (parts, part);
}

/* All parts but the pricking; an array of Part. */
static GArray *
text_parts (const PfPricking *pricking, PfBookParts wanted, const PfPaper *paper, bool colours)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));
  g_array_set_clear_func (parts, clear_part);
  if (wanted & PF_BOOK_NOTES)
    add_teaching (parts, pricking, paper, PF_TEACHING_NOTES, colours);
  if (wanted & PF_BOOK_WORKSHEET)
    add_teaching (parts, pricking, paper, PF_TEACHING_WORKSHEET, colours);
  if (wanted & PF_BOOK_ANSWERS)
    add_teaching (parts, pricking, paper, PF_TEACHING_ANSWERS, colours);
  if (wanted & PF_BOOK_REPORT)
    add_report (parts, pricking, paper);
  return parts;
}

/* --- Joining ------------------------------------------------------------------------------------
 */

static bool
add_pricking (PfBook *book, const PfPricking *pricking, const PfSheetSettings *settings,
              size_t n_text_pages, GError **error)
{
  g_autoptr (PfSheet) counted = pf_sheet_new (pricking, settings, error);
  if (counted == NULL)
    return false;
  PfSheetSettings numbered = *settings;
  if (n_text_pages > 0)
    numbered.of_pages = pf_sheet_n_pages (counted) + n_text_pages;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &numbered, error);
  if (sheet == NULL)
    return false;
  pf_book_pages_mark (book->all, 0, 1, _ ("Pricking"));
  for (size_t n = 0; n < pf_sheet_n_pages (sheet); n++)
    {
      double width, height;
      pf_sheet_page_size (sheet, &width, &height);
      pf_book_pages_take (book->all, g_strdup (pf_sheet_page_svg (sheet, n)), width, height);
    }
  return true;
}

PfBook *
pf_book_new (const PfPricking *pricking, PfBookParts parts, const PfSheetSettings *sheet,
             bool pair_colours, GError **error)
{
  if (parts == 0)
    {
      g_set_error_literal (error, PF_ERROR, PF_ERROR_SETTING,
                           _ ("No part is chosen: choose what goes into the book, the pricking, "
                              "say."));
      return NULL;
    }
  g_autoptr (GArray) texts = text_parts (pricking, parts, sheet->paper, pair_colours);
  guint n_text_pages = 0;
  for (guint t = 0; t < texts->len; t++)
    n_text_pages += g_array_index (texts, Part, t).pages->len;
  g_autoptr (PfBook) book = g_new0 (PfBook, 1);
  book->all = pf_book_pages_new ();
  book->title = g_utf8_make_valid (pricking->title ? pricking->title : "", -1);
  book->created = sheet->created;
  if ((parts & PF_BOOK_PRICKING) && !add_pricking (book, pricking, sheet, n_text_pages, error))
    return NULL;
  const guint n_pages = book->all->pages->len + n_text_pages;
  for (guint t = 0; t < texts->len; t++)
    {
      const Part *part = &g_array_index (texts, Part, t);
      pf_book_pages_add_flow (book->all, part->pages, part->headings, sheet->paper, n_pages);
    }
  return g_steal_pointer (&book);
}

void
pf_book_free (PfBook *book)
{
  if (book == NULL)
    return;
  pf_book_pages_free (book->all);
  g_free (book->title);
  g_free (book);
}

size_t
pf_book_n_pages (const PfBook *book)
{
  return book->all->pages->len;
}

const char *
pf_book_page (const PfBook *book, size_t n, double *width, double *height)
{
  g_return_val_if_fail (n < book->all->pages->len, NULL);
  const PfPaintPage *page = &g_array_index (book->all->pages, PfPaintPage, n);
  *width = page->width;
  *height = page->height;
  return page->svg;
}

bool
pf_book_draw_page (const PfBook *book, size_t n, cairo_t *cr, GError **error)
{
  g_return_val_if_fail (n < book->all->pages->len, false);
  const PfPaintPage *page = &g_array_index (book->all->pages, PfPaintPage, n);
  return pf_paint_page (cr, page->svg, page->width, page->height, error);
}

bool
pf_book_save (const PfBook *book, const char *filename, GError **error)
{
  if (!pf_file_ends_in (filename, ".pdf"))
    {
      g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("“%s” can’t be saved: end its name in .pdf."),
                   filename);
      return false;
    }
  g_autoptr (GByteArray) pdf = pf_paint_book (book->all->pages, book->all->marks,
                                              (PfPdfWords){ book->title, book->created }, error);
  return pdf != NULL && pf_file_save (filename, (const char *) pdf->data, pdf->len, error);
}
