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

/* --- Parts --------------------------------------------------------------------------------------
 */

static void
add_teaching (GPtrArray *flows, const PfPricking *pricking, const PfPaper *paper, PfTeaching what,
              bool colours)
{
  PfFlow *flow = pf_flow_new (paper, pricking->title);
  pf_teaching_add (flow, pricking, what, colours);
  g_ptr_array_add (flows, flow);
}

static void
add_report (GPtrArray *flows, const PfPricking *pricking, const PfPaper *paper)
{
  g_autoptr (PfReportParts) report = pf_report_parts_new (pricking);
  g_ptr_array_add (flows, pf_report_parts_flow (report, paper));
}

/* All parts but the pricking, set but not drawn yet; an array of PfFlow. */
static GPtrArray *
text_parts (const PfPricking *pricking, PfBookParts wanted, const PfPaper *paper, bool colours)
{
  GPtrArray *flows = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_flow_free);
  if (wanted & PF_BOOK_NOTES)
    add_teaching (flows, pricking, paper, PF_TEACHING_NOTES, colours);
  if (wanted & PF_BOOK_WORKSHEET)
    add_teaching (flows, pricking, paper, PF_TEACHING_WORKSHEET, colours);
  if (wanted & PF_BOOK_ANSWERS)
    add_teaching (flows, pricking, paper, PF_TEACHING_ANSWERS, colours);
  if (wanted & PF_BOOK_REPORT)
    add_report (flows, pricking, paper);
  return flows;
}

/* --- Joining ------------------------------------------------------------------------------------
 */

static bool
add_pricking (PfBook *book, const PfPricking *pricking, const PfSheetSettings *settings,
              size_t n_text_pages, GError **error)
{
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, settings, error);
  if (sheet != NULL && n_text_pages > 0)
    {
      PfSheetSettings numbered = *settings;
      numbered.of_pages = pf_sheet_n_pages (sheet) + n_text_pages;
      pf_sheet_free (sheet);
      sheet = pf_sheet_new (pricking, &numbered, error);
    }
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

static bool
check_pages (size_t n, GError **error)
{
  if (n <= PF_BOOK_MAX_PAGES)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               g_dngettext (GETTEXT_PACKAGE,
                            "The book would have %zu page, at most %d are possible: choose fewer "
                            "of its parts, or fewer motifs.",
                            "The book would have %zu pages, at most %d are possible: choose fewer "
                            "of its parts, or fewer motifs.",
                            (gulong) n),
               n, PF_BOOK_MAX_PAGES);
  return false;
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
  g_autoptr (GPtrArray) flows = text_parts (pricking, parts, sheet->paper, pair_colours);
  guint n_text_pages = 0;
  for (guint f = 0; f < flows->len; f++)
    n_text_pages += pf_flow_n_pages (g_ptr_array_index (flows, f));
  if (!check_pages (n_text_pages, error))
    return NULL;
  g_autoptr (PfBook) book = g_new0 (PfBook, 1);
  book->all = pf_book_pages_new ();
  book->title = g_utf8_make_valid (pricking->title ? pricking->title : "", -1);
  book->created = sheet->created;
  if ((parts & PF_BOOK_PRICKING) && !add_pricking (book, pricking, sheet, n_text_pages, error))
    return NULL;
  const guint n_pages = book->all->pages->len + n_text_pages;
  /* A pricking alone has the limit of its sheet. */
  if (n_text_pages > 0 && !check_pages (n_pages, error))
    return NULL;
  for (guint f = 0; f < flows->len; f++)
    pf_book_pages_add_flow (book->all, g_ptr_array_index (flows, f), sheet->paper, n_pages);
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
