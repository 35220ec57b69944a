/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Paints SVG pages to files of other kinds.
 */
#pragma once

#include <stdbool.h>
#include <stddef.h>

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

/* What a PDF says about itself. */
typedef struct {
  const char *title;
  gint64 created; /* seconds since 1970 */
} PfPdfWords;

/* A page of a PDF whose pages differ in size; mm. */
typedef struct {
  char *svg;
  double width, height;
} PfPaintPage;

/* An entry of a PDF's outline: the page it leads to, from 0, and its depth, from 1. */
typedef struct {
  guint page;
  int level;
  char *text;
} PfPaintMark;

/* Paints one page into a viewport of that size, from the origin on. */
bool pf_paint_page (cairo_t *cairo, const char *page, double width, double height, GError **error);

/* A PDF of n pages of width by height mm. NULL on error. */
GByteArray *pf_paint_pdf (const char *const *pages, size_t n, double width, double height,
                          PfPdfWords words, GError **error);

/* A PDF of several sizes of paper (PfPaintPage), with an outline of marks (PfPaintMark). */
GByteArray *pf_paint_book (const GArray *pages, const GArray *marks, PfPdfWords words,
                           GError **error);

/* A picture with so many dots to the mm. PF_ERROR_TOO_BIG beyond PF_PNG_MAX dots a side. NULL on
 * error. */
#define PF_PNG_MAX 20000
#define PF_PNG_DOTS (300 / 25.4) /* usual */
GByteArray *pf_paint_png (const char *page, double width, double height, double dots,
                          GError **error);

/* Saves n pages in the format that the name ends in; as pf_sheet_save(). */
bool pf_paint_save (const char *const *pages, size_t n, double width, double height,
                    PfPdfWords words, const char *filename, char ***files, GError **error);

G_END_DECLS
