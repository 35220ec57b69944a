/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Small pictures of outlines.
 */
#pragma once

#include <gtk/gtk.h>
#include <pricking.h>

G_BEGIN_DECLS

/* Adds the loops of a region to cairo's path; holes are holes with CAIRO_FILL_RULE_EVEN_ODD. */
void pf_region_path (cairo_t *cr, const PfRegion *region);
/* Scales and moves so that `box` fits into width by height pixels with a margin; gives the map. */
PfAffine pf_fit_box (PfBox box, double width, double height, double margin);

/* One region by itself, as large as it can be, with its inside tinted. */
void pf_region_draw (cairo_t *cr, const PfRegion *region, double width, double height,
                     const GdkRGBA *ink);

G_END_DECLS
