/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds room for labels: what has been drawn is remembered in a grid of cells, and a label goes to
 * the first of its candidate places where it covers nothing.
 */
#pragma once

#include <sheet.h>

#include "view.h"

G_BEGIN_DECLS

/* What a label must not cover (marks, outlines, other labels), or rather not (fine lines). */
typedef enum { PF_BLOCK_HARD = 1, PF_BLOCK_SOFT = 2 } PfBlock;

typedef struct PfPlacer PfPlacer;

/* `cell` is about the size of a label. */
PfPlacer *pf_placer_new (double cell);
void pf_placer_free (PfPlacer *placer);

void pf_placer_block_box (PfPlacer *placer, PfBox box, PfBlock block);
void pf_placer_block_line (PfPlacer *placer, PfPoint a, PfPoint b, PfBlock block);
/* Whether `box` covers nothing of the kinds in `blocks`, a set of PfBlock. */
bool pf_placer_is_free (const PfPlacer *placer, PfBox box, int blocks);

/* A label that has its place. */
typedef struct {
  PfBox box;        /* all of its letters lie in it */
  PfPoint baseline; /* its middle */
  double size;      /* font size */
  PfPoint anchor;   /* what it belongs to */
  bool leader;      /* a fine line leads from the anchor to it */
  const char *colour;
  char *text;    /* g_free() */
  PfNumberOf of; /* what it numbers: for numbers alone */
  size_t loop;
  guint32 index;
} PfLabel;

/* The box of `text` round `centre`. */
PfBox pf_label_box (const char *text, double size, PfPoint centre);
/* A label in `box`. Takes over `text`. */
PfLabel pf_label_in_box (PfBox box, double size, char *text, const char *colour, PfPoint anchor,
                         bool leader);

/* What may stand in the way beyond what the placer knows: gives whether a label may be at `box`. */
typedef bool (*PfLabelAllowed) (PfBox box, gconstpointer data);

/* Looks for room for `text` on the side of `anchor` that `outward` leads to, at first beside it,
 * then up to `reach` font sizes away. Gives whether there was some; `*label` then gets it, and the
 * placer knows of it. */
bool pf_label_place (PfPlacer *placer, const char *text, double size, const char *colour,
                     PfPoint anchor, PfPoint outward, double reach, PfLabelAllowed allowed,
                     gconstpointer data, PfLabel *label);

/* Draws n labels that the window wholly holds, round their letters a halo of that colour (NULL:
 * none); `shift` leads from the field to the page. */
void pf_labels_draw (PfPage *page, const PfView *view, const PfLabel *labels, size_t n,
                     const char *halo);

G_END_DECLS
