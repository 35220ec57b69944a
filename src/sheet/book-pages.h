/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pages of one PDF, part by part, with the bookmarks that lead to them.
 */
#pragma once

#include "flow.h"
#include "paint.h"

G_BEGIN_DECLS

typedef struct {
  GArray *pages; /* of PfPaintPage */
  GArray *marks; /* of PfPaintMark */
} PfBookPages;

/* None yet. */
PfBookPages *pf_book_pages_new (void);
void pf_book_pages_free (PfBookPages *book);

/* A page; the SVG document is taken over. */
void pf_book_pages_take (PfBookPages *book, char *svg, double width, double height);
/* A bookmark, of a level from 1 on, that leads to a page, from 0. */
void pf_book_pages_mark (PfBookPages *book, guint page, int level, const char *text);
/* All pages of a flow, which is finished by this, with their feet set, numbered after those that
 * are here already, of `n_pages` in all; and a bookmark for each heading. */
void pf_book_pages_add_flow (PfBookPages *book, PfFlow *flow, const PfPaper *paper, guint n_pages);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfBookPages, pf_book_pages_free)

G_END_DECLS
