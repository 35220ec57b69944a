/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the field is cut into sheets of paper that overlap, and the marks by which they are joined.
 */
#pragma once

#include <sheet.h>

#include "labels.h"
#include "view.h"

G_BEGIN_DECLS

#define PF_FRAME_MARGIN 7.0 /* from the paper's edge to the frame: most printers reach it */
#define PF_GUTTER 8.0       /* left of the window; holds the upright check rule */
#define PF_OVERLAP 10.0     /* at least, of neighbouring sheets */
#define PF_MAX_SHEETS 400

/* All sheets of paper are alike. The strip below the window holds the furniture. */
typedef struct {
  double width, height; /* of the paper as it lies */
  PfBox frame, window, strip;
  int columns, rows;
  double overlap;
  PfPoint corner; /* the field's point at the top left of the first window */
} PfTiling;

/* The height of the strip on a frame of that width; `many` if there are several sheets. */
typedef double (*PfStripHeight) (double width, bool many, gconstpointer data);

/* Lays out the box `field`, upright or lying, whichever takes fewer sheets. PF_ERROR_TOO_BIG. */
bool pf_tiling_init (PfTiling *tiling, const PfPaper *paper, PfBox field, double overlap,
                     PfStripHeight strip_height, gconstpointer data, GError **error);

static inline size_t
pf_tiling_n_sheets (const PfTiling *tiling)
{
  return (size_t) tiling->columns * (size_t) tiling->rows;
}

/* The field's point at the top left of sheet n's window; sheets go by rows. */
PfPoint pf_tiling_corner (const PfTiling *tiling, size_t n);

/* Whether a point of the field lies where neighbouring sheets overlap. */
bool pf_tiling_overlaps (const PfTiling *tiling, PfPoint p);

/* A cross with letters that lies on two sheets or more; `at` is in the field. */
typedef struct {
  PfPoint at;
  char letters[8];
} PfJoin;

/* The join marks, two for each pair of neighbours, where they cover least. An array of PfJoin. */
GArray *pf_joins_new (const PfTiling *tiling, PfPlacer *placer);
/* Draws those on sheet n, and where the sheets are joined. */
void pf_joins_draw (PfPage *page, const PfView *view, const PfTiling *tiling, const GArray *joins,
                    size_t n);

G_END_DECLS
