/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Words set on pages: headings, paragraphs, lists, tables and drawings run down a column and on to
 * the next page, as many as are needed.
 *
 *   g_autoptr (PfFlow) flow = pf_flow_new (paper, "Quince leaf: what to wind");
 *   pf_flow_heading (flow, 1, _ ("Pairs"));
 *   pf_flow_paragraph (flow, words);
 *   pf_flow_table (flow, &table);
 *   GArray *bookmarks;
 *   GPtrArray *pages = pf_flow_finish (flow, &bookmarks);
 *
 * Every page is an SVG document of the paper's size, with margins of PF_FLOW_MARGIN on all sides, a
 * running title at its top left, and an empty foot, PF_FLOW_FOOT high: whoever joins the pages of
 * several parts sets their numbers there, with pf_flow_with_foot(). What is set is plain text in
 * UTF-8, already translated; space at its ends, and line breaks, count as spaces. Everything given
 * is copied. Lengths are in mm.
 *
 * Pages break in good places. A heading stays with what follows it; no line of a paragraph stands
 * alone at the foot or the head of a page; neither a row of a table is cut nor a table of up to
 * half a page; of a higher one the header stands again on each page that it goes on to, and its
 * first and last two rows stay together; a drawing stays with its words. What is higher than a page
 * by itself is cut all the same, where it hurts least.
 *
 * Text is in DejaVu Sans and in groups of these classes: "running", "heading", "text", "caption",
 * "head" (of a table), "cell" and "foot".
 */
#pragma once

#include <pricking.h>

#include "page.h"

G_BEGIN_DECLS

#define PF_FLOW_MARGIN 12.0
#define PF_FLOW_FOOT 10.0 /* above the lower margin */
#define PF_FLOW_BODY 3.2  /* sizes of fonts */
#define PF_FLOW_CAPTION 2.6
#define PF_FLOW_BETWEEN 4.0 /* columns of a table */

typedef struct PfFlow PfFlow;

/* Pages of `paper`, upright, with a running title (one line: what is too long is left off). The
 * paper is borrowed until the flow is freed. */
PfFlow *pf_flow_new (const PfPaper *paper, const char *running);
void pf_flow_free (PfFlow *flow);

/* The width of the column, and the most height that a page has for what is set on it. */
double pf_flow_width (const PfFlow *flow);
double pf_flow_height (const PfFlow *flow);

/* A heading, which becomes a bookmark: level 1 is 5 mm high, 2 is 4 mm, 3 is 3.6 mm. */
void pf_flow_heading (PfFlow *flow, int level, const char *text);
void pf_flow_paragraph (PfFlow *flow, const char *text);
/* A smaller paragraph that stands back; its first line stays with what comes before it. */
void pf_flow_caption (PfFlow *flow, const char *text);
/* A line of a list, as long as it is; the label ("•", "12.") stands to the left of all its lines.
 */
void pf_flow_item (PfFlow *flow, const char *label, const char *text);
void pf_flow_bullet (PfFlow *flow, const char *text);

/* --- Tables -------------------------------------------------------------------------------------
 */

typedef enum {
  PF_FLOW_WORDS,   /* from the left, wrapped if they must be */
  PF_FLOW_NUMBERS, /* to the right, on one line as far as the page is wide enough */
} PfFlowColumn;

typedef struct {
  const char *caption;         /* above the table, or NULL */
  const PfFlowColumn *columns; /* n_columns */
  size_t n_columns;
  const char *const *heads; /* n_columns, or NULL: a table without a header */
  const char *const *cells; /* n_rows · n_columns, row by row */
  size_t n_rows;
  bool total;        /* the last row adds the others up: a line is drawn above it */
  bool side_by_side; /* if the table is long and narrow, its rows stand beside each other, as many
                        as there is room for: read along, then down */
} PfFlowTable;

/* Columns are as wide as what stands in them if there is room for all; else the widest of words
 * become narrower, down to their longest words, and their cells higher. Nothing without rows. */
void pf_flow_table (PfFlow *flow, const PfFlowTable *table);

/* --- Drawings -----------------------------------------------------------------------------------
 */

/* Draws into `box` of the page; groups it opens it ends. Called once, in pf_flow_finish(). What may
 * reach out of the box it clips. */
typedef void (*PfFlowDraw) (PfPage *page, PfBox box, gpointer data);

/* A paragraph beside a drawing; with a label (else NULL) a line of a list. */
typedef struct {
  const char *label, *text;
} PfFlowText;

typedef struct {
  double width, height; /* of the drawing; a width of 0, or too large a one, is the column's. It is
                           at most 40 mm lower than a page */
  PfFlowDraw draw;
  gpointer data;
  GDestroyNotify destroy;   /* frees `data` after it is drawn, or never drawn; may be NULL */
  const char *caption;      /* below the drawing, or NULL */
  const PfFlowText *beside; /* n_beside, to the right of the drawing, or NULL */
  size_t n_beside;
} PfFlowBox;

/* A drawing with words beside it. If these are higher than a page, or there are less than 40 mm for
 * them, they stand below it: the first with it, the others on to the next page if need be. */
void pf_flow_box (PfFlow *flow, const PfFlowBox *box);

/* --- Breaks -------------------------------------------------------------------------------------
 */

/* What is added from here to pf_flow_keep_end() stays on one page, if one is high enough. No keep
 * within a keep. */
void pf_flow_keep_begin (PfFlow *flow);
void pf_flow_keep_end (PfFlow *flow);
/* What comes next begins a page. */
void pf_flow_new_page (PfFlow *flow);

/* --- Pages --------------------------------------------------------------------------------------
 */

/* A heading, and the page, counted from 0, that it stands on. */
typedef struct {
  guint page;
  int level;
  char *text;
} PfFlowBookmark;

/* How many pages there will be, of what is set until now: without drawing any. */
guint pf_flow_n_pages (PfFlow *flow);
/* The pages, at least one, as SVG documents (char *) without anything in their foot; and, if asked
 * for, the headings (PfFlowBookmark), in their order. Both free what they hold: g_ptr_array_unref()
 * and g_array_unref(). Once to a flow. */
GPtrArray *pf_flow_finish (PfFlow *flow, GArray **bookmarks);

/* A page of that paper, from a flow or elsewhere, with its foot set: "3 / 12" at the right (nothing
 * if `n` is 0), and a line of care or the like, of at most two lines, at the left (NULL for none).
 * `number` counts from 1. Free with g_free(). */
char *pf_flow_with_foot (const char *svg, const PfPaper *paper, const char *words, guint number,
                         guint n);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfFlow, pf_flow_free)

G_END_DECLS
