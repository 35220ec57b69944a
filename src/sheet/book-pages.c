/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "book-pages.h"

#include "report.h"

static void
clear_page (gpointer page)
{
  g_free (((PfPaintPage *) page)->svg);
}

static void
clear_mark (gpointer mark)
{
  g_free (((PfPaintMark *) mark)->text);
}

PfBookPages *
pf_book_pages_new (void)
{
  PfBookPages *book = g_new0 (PfBookPages, 1);
  book->pages = g_array_new (FALSE, FALSE, sizeof (PfPaintPage));
  g_array_set_clear_func (book->pages, clear_page);
  book->marks = g_array_new (FALSE, FALSE, sizeof (PfPaintMark));
  g_array_set_clear_func (book->marks, clear_mark);
  return book;
}

void
pf_book_pages_free (PfBookPages *book)
{
  if (book == NULL)
    return;
  g_array_unref (book->pages);
  g_array_unref (book->marks);
  g_free (book);
}

void
pf_book_pages_take (PfBookPages *book, char *svg, double width, double height)
{
  const PfPaintPage page = { svg, width, height };
  g_array_append_val (book->pages, page);
}

void
pf_book_pages_mark (PfBookPages *book, guint page, int level, const char *text)
{
  const PfPaintMark mark = { page, level, g_strdup (text) };
  g_array_append_val (book->marks, mark);
}

void
pf_book_pages_add_flow (PfBookPages *book, PfFlow *flow, const PfPaper *paper, guint n_pages)
{
  g_autoptr (GArray) headings = NULL;
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, &headings);
  const guint first = book->pages->len;
  for (guint h = 0; h < headings->len; h++)
    {
      const PfFlowBookmark *heading = &g_array_index (headings, PfFlowBookmark, h);
      pf_book_pages_mark (book, first + heading->page, heading->level, heading->text);
    }
  for (guint p = 0; p < pages->len; p++)
    pf_book_pages_take (book,
                        pf_flow_with_foot (g_ptr_array_index (pages, p), paper, pf_report_care (),
                                           first + p + 1, n_pages),
                        paper->width, paper->height);
}
