/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * All on a sheet that isn't the drawing: the frame, the check rules, the title block, the legend,
 * the map of the sheets. It keeps to the gutter and the strip, and never covers the drawing.
 */
#pragma once

#include "legend.h"
#include "pages.h"

G_BEGIN_DECLS

typedef struct PfFurniture PfFurniture;

/* Borrows the legend. */
PfFurniture *pf_furniture_new (const PfPricking *pricking, const PfSheetSettings *settings,
                               const PfLegend *legend);
void pf_furniture_free (PfFurniture *furniture);

/* A PfStripHeight; `furniture` is a PfFurniture. */
double pf_furniture_strip_height (double width, bool many, gconstpointer furniture);

/* Draws it on sheet n. */
void pf_furniture_draw (PfPage *page, const PfFurniture *furniture, const PfTiling *tiling,
                        size_t n);

/* The check rules: two lines of PF_RULE_LENGTH mm that start at `corner`, one to the right and one
 * up. They are never enlarged. */
void pf_check_rules_draw (PfPage *page, PfPoint corner);

/* `words`, and behind them the number of page n, counted from 0, of so many; the words alone if
 * that is 0. Free with g_free(). */
char *pf_number_of_page (const char *words, size_t n, size_t of_pages);

/* The scales along the left and the bottom of the view's window, in mm of the drawing. */
void pf_scales_draw (PfPage *page, const PfView *view);

G_END_DECLS
