/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Hands each shape of a page to what the page is written or drawn with. What must come out alike in
 * all of them, such as how thin a line may be, is settled here.
 */
#include "page-back-end.h"

/* Dashes and the gaps between them must be this many pixels long together to be told apart. */
#define DASH_LEAST 2.5

char *
pf_page_finish (PfPage *page)
{
  g_assert (page->depth == 0);
  return page->back_end->finish (page);
}

static double
dash_length (const PfInk *ink)
{
  double length = 0;
  for (int i = 0; i < ink->n_dash; i++)
    length += ink->dash[i];
  return length;
}

void
pf_page_group (PfPage *page, const char *name, PfInk ink)
{
  ink.width = MAX (ink.width, page->pixel);
  if (dash_length (&ink) < DASH_LEAST * page->pixel)
    ink.n_dash = 0;
  page->depth++;
  page->back_end->group (page, name, &ink);
}

void
pf_page_text_group (PfPage *page, const char *name, const char *colour, const char *halo)
{
  page->depth++;
  page->back_end->text_group (page, name, colour, halo);
}

void
pf_page_clip_group (PfPage *page, const char *name, PfBox box)
{
  page->depth++;
  page->back_end->clip_group (page, name, box);
}

void
pf_page_group_end (PfPage *page)
{
  g_assert (page->depth > 0);
  page->back_end->group_end (page);
  page->depth--;
}

void
pf_page_line (PfPage *page, PfPoint a, PfPoint b)
{
  page->back_end->line (page, a, b);
}

void
pf_page_polyline (PfPage *page, const PfPoint *points, size_t n)
{
  page->back_end->polyline (page, points, n);
}

void
pf_page_polygon (PfPage *page, const PfPoint *points, size_t n)
{
  page->back_end->polygon (page, points, n);
}

void
pf_page_curves (PfPage *page, const PfPoint *points, size_t n_curves)
{
  page->back_end->curves (page, points, n_curves);
}

void
pf_page_circle (PfPage *page, PfPoint centre, double radius)
{
  page->back_end->circle (page, centre, radius);
}

void
pf_page_box (PfPage *page, PfBox box)
{
  page->back_end->box (page, box);
}

void
pf_page_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, const char *text)
{
  page->back_end->text (page, at, anchor, size, 0, text);
}

void
pf_page_turned_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, double turn,
                     const char *text)
{
  page->back_end->text (page, at, anchor, size, turn, text);
}
