/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets: what is printed. One description of the drawing, an SVG page, is what is shown, printed
 * and saved; PDF and PNG are that same page painted by librsvg.
 */
#pragma once

#include <pricking.h>

G_BEGIN_DECLS

typedef struct {
  const char *name;     /* "A4", "A3", "Letter" */
  double width, height; /* mm, upright */
} PfPaper;

/* The paper of that name, in any case; NULL and PF_ERROR_SETTING if there is none. */
const PfPaper *pf_paper_find (const char *name, GError **error);

typedef struct {
  const PfPaper *paper;
  double enlarge;   /* 1 for true size */
  bool pins_only;   /* the plain pricking, for the pillow */
  bool mirror;      /* seen from the other side; the text still reads */
  bool background;  /* the drawing's other lines, faintly */
  const char *date; /* as printed, or NULL for none */
  gint64 created;   /* seconds since 1970, for the PDF's own date */
} PfSheetSettings;

#define PF_ENLARGE_MIN 0.1
#define PF_ENLARGE_MAX 20.0

typedef struct PfSheet PfSheet;

/* Lays the filled pricking out on pages. PF_ERROR_SETTING, PF_ERROR_TOO_BIG (more than 400 pages).
 */
PfSheet *pf_sheet_new (const PfPricking *pricking, const PfSheetSettings *settings, GError **error);
void pf_sheet_free (PfSheet *sheet);

size_t pf_sheet_n_pages (const PfSheet *sheet);
/* Page `n` as an SVG document, in mm. */
const char *pf_sheet_page_svg (const PfSheet *sheet, size_t n);
/* Its size in mm. */
void pf_sheet_page_size (const PfSheet *sheet, double *width, double *height);

/* Saves all pages, in the format that the name ends in: .pdf; .svg and .png, with pages after the
 * first in NAME-2.svg and so on. A file is written whole or not at all. `*files` (may be NULL) gets
 * the names of the files, NULL-terminated. */
bool pf_sheet_save (const PfSheet *sheet, const char *filename, char ***files, GError **error);

/* One ground by itself, as an SVG document: a patch of repeats with pins, pair lines and names. */
char *pf_ground_drawing_svg (const PfGround *ground);
/* The same, saved as .svg, .pdf or .png. */
bool pf_ground_drawing_save (const PfGround *ground, const char *filename, GError **error);

/* --- Reports ------------------------------------------------------------------------------------
 */

/* The pair-count report: for people, as JSON, and the sewings as CSV. Free with g_free(). */
char *pf_report_text (const PfPricking *pricking);
char *pf_report_json (const PfPricking *pricking);
char *pf_report_csv (const PfPricking *pricking);

/* Saves the report that the name ends in: .txt, .json or .csv. Whole or not at all. */
bool pf_report_save (const PfPricking *pricking, const char *filename, GError **error);

/* Does a file's name end in `ending` (".pdf"), in capitals or not, with something before it? */
bool pf_file_ends_in (const char *filename, const char *ending);

/* Writes n bytes to a file, whole or not at all, with an error that names it. */
bool pf_file_save (const char *filename, const char *bytes, gsize n, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfSheet, pf_sheet_free)

G_END_DECLS
