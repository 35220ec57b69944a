/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A report as one structure, in the maker's language: headings, paragraphs, lists and tables in the
 * order in which they are read. What is printed and what is shown in a browser are both written
 * from it, so that they say the same.
 */
#pragma once

#include "flow.h"

G_BEGIN_DECLS

typedef enum {
  PF_PART_HEADING,
  PF_PART_PARAGRAPH,
  PF_PART_CAPTION, /* a smaller paragraph */
  PF_PART_ITEM,    /* of a list */
  PF_PART_TABLE,
} PfPartKind;

typedef struct {
  char *caption; /* or NULL */
  size_t n_columns;
  PfFlowColumn *columns;
  GPtrArray *heads; /* n_columns texts, or none: then the first cell of a row is its header */
  GPtrArray *cells; /* texts, row by row */
  bool total;       /* the last row adds the others up */
} PfReportTable;

typedef struct {
  PfPartKind kind;
  int level; /* of a heading: 1 the report's own, 2, 3 */
  char *text;
  PfReportTable *table;
} PfReportPart;

typedef struct {
  char *title;
  char *care;       /* the line of care at its end or on each page */
  GPtrArray *parts; /* of PfReportPart */
} PfReportParts;

/* Everything that the report says of a filled pricking. */
PfReportParts *pf_report_parts_new (const PfPricking *pricking);
/* Nothing yet: for one of the parts below alone. */
PfReportParts *pf_report_parts_empty (void);
void pf_report_parts_free (PfReportParts *parts);

/* --- Adding to it -------------------------------------------------------------------------------
 */

void pf_report_heading (PfReportParts *parts, int level, const char *text);
/* The text is taken over. */
void pf_report_take (PfReportParts *parts, PfPartKind kind, char *text);
void pf_report_paragraph (PfReportParts *parts, const char *text);

/* A table with these heads (n; NULL for a table of two columns without a header), a letter of
 * `columns` for each: "n" for numbers, else words. The caption may be NULL. */
PfReportTable *pf_report_table (PfReportParts *parts, const char *caption, const char *columns,
                                const char *const *heads);
void pf_report_cell (PfReportTable *table, const char *format, ...) G_GNUC_PRINTF (2, 3);
size_t pf_report_table_rows (const PfReportTable *table);

/* --- What it is made of -------------------------------------------------------------------------
 */

/* report-piece.c: bobbins, the winding list and pairs handed on; and the same with the motifs
 * beside each other. */
void pf_report_add_winding (PfReportParts *parts, const PfPricking *pricking);
void pf_report_add_piece (PfReportParts *parts, const PfPricking *pricking);
/* report-motif.c: all of one motif. */
void pf_report_add_motif (PfReportParts *parts, const PfPricking *pricking, guint m);

/* --- Writing it ---------------------------------------------------------------------------------
 */

/* Set on pages of that paper. */
PfFlow *pf_report_parts_flow (const PfReportParts *parts, const PfPaper *paper);
/* As a PDF, its pages numbered, with the line of care on each, and a bookmark for each heading;
 * NULL on error. */
GByteArray *pf_report_parts_pdf (const PfReportParts *parts, const PfPaper *paper, gint64 created,
                                 GError **error);
/* As an OpenDocument spreadsheet, a sheet for each section; NULL on error. */
GByteArray *pf_report_parts_ods (const PfReportParts *parts, bool several_motifs, gint64 created,
                                 GError **error);
/* As one HTML file that needs no other. Free with g_free(). */
char *pf_report_parts_html (const PfReportParts *parts);
/* Appends them as plain text, tables in columns of a fixed width. */
void pf_report_parts_append_text (const PfReportParts *parts, GString *text);
/* A heading of plain text, with a line of `underline` below it. */
void pf_report_append_heading (GString *text, const char *heading, char underline);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfReportParts, pf_report_parts_free)

G_END_DECLS
