/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The legend: a sample and a few words for each thing that the sheet shows, and for no other.
 */
#pragma once

#include <sheet.h>

#include "style.h"

G_BEGIN_DECLS

typedef struct PfLegend PfLegend;

/* `without_room` numbers were left out. */
PfLegend *pf_legend_new (const PfPricking *pricking, const PfSheetSettings *settings,
                         size_t without_room);
/* The same for edge strips. */
PfLegend *pf_legend_new_of_strips (const PfPricking *pricking);
void pf_legend_free (PfLegend *legend);

/* How high it is when set in columns on that width. */
double pf_legend_height (const PfLegend *legend, double width);
void pf_legend_draw (PfPage *page, const PfLegend *legend, PfPoint top_left, double width);

G_END_DECLS
