/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The layers of a pricking, one function each, from the lowest to the uppermost. Each draws what
 * its view shows of one motif.
 */
#pragma once

#include <pricking.h>
#include <sheet.h>

#include "labels.h"
#include "style.h"
#include "view.h"

G_BEGIN_DECLS

/* A worked repeat that is kept or plain: an outline round its stitches, in the drawing. */
typedef struct {
  PfRepeatState state;
  PfPoint *points;
  size_t n_points;
} PfRepeatShape;

/* A motif with all that its layers share. Borrows the motif. */
typedef struct {
  const PfMotif *motif;
  const PfGround *ground;
  PfSizes sizes;
  PfLook look;
  PfSizes lines;    /* of lines of pairs, in that look */
  double *outward;  /* per loop: 1 if the left of its direction, as seen on the sheet, leads out of
                       the  region, else -1 */
  bool *has_pin;    /* per stitch of the ground: a pin stands at its position; NULL without one */
  GArray *repeats;  /* of PfRepeatShape: kept and plain ones */
  GArray *left_out; /* of PfPoint: where repeats are left out */
  GArray *labels;   /* of PfLabel: those that found room */
  const char **threads; /* colours of threads (pf_thread_colours()), or NULL: none has one */
  GArray *close_up;     /* of PfLabel: what there is room for besides when one looks from near */
} PfDrawn;

/* A motif that isn't filled has nothing but its edge: of the layers below, only those of outline
 * and pinholes, and the labels. */
PfDrawn *pf_drawn_new (const PfMotif *motif, double enlarge);
/* The same without the shapes of repeats, which take a look at every stitch. */
PfDrawn *pf_drawn_new_bare (const PfMotif *motif, double enlarge);
void pf_drawn_free (PfDrawn *drawn);

/* At `place`: the direction of length 1 that leads out of the region. */
PfPoint pf_drawn_outward (const PfDrawn *drawn, PfPlace place);

/* repeats.c: finds drawn->repeats and drawn->left_out. */
void pf_repeats_find (PfDrawn *drawn);
void pf_layer_repeats (PfPage *page, const PfView *view, const PfDrawn *drawn);

void pf_layer_background (PfPage *page, const PfView *view, const PfPricking *pricking);
void pf_layer_pair_lines (PfPage *page, const PfView *view, const PfDrawn *drawn);
/* The same for a view of a few repeats, line by line: doesn’t follow every pair. */
void pf_layer_pair_lines_near (PfPage *page, const PfView *view, const PfDrawn *drawn);
/* In place of pair lines and pins. */
void pf_layer_threads (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_outline (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_missing (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_predicted (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_pinholes (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_sewings (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_pins (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_beads (PfPage *page, const PfView *view, const PfDrawn *drawn);
void pf_layer_labels (PfPage *page, const PfView *view, const PfDrawn *drawn);

/* scene.c: the layers of all motifs, as the view shows them; `pixel` mm to a pixel, 0 on paper. */
void pf_draw_layers (PfPage *page, const PfView *view, const PfScene *scene, PfLayers shown,
                     double pixel);

/* The way of a carried pair from its sewing `from` to its sewing `to`: along the outline, just
 * outside. An array of PfPoint in the drawing. */
GArray *pf_carried_run (const PfDrawn *drawn, const PfView *view, const PfSewing *from,
                        const PfSewing *to);
/* The sewing where the carried pair of `sewing`, which ends a crossing, is sewn in again. */
const PfSewing *pf_carried_end (const PfFilling *filling, const PfSewing *sewing);

/* numbers.c: a placer for labels of all motifs (PfDrawn). */
PfPlacer *pf_numbers_placer (const GPtrArray *all);
/* Makes each motif's drawn->labels, in the field, where there is room: numbers of new and finished
 * pairs, of every tenth pinhole, and of the motifs if there are several. The placer then knows of
 * all that is drawn at the edges. Gives how many pairs' numbers found no room. */
size_t pf_numbers_place (const GPtrArray *all, const PfView *field, PfPlacer *placer);
/* Makes each motif's drawn->close_up anew: numbers of the other pinholes, `size` mm high, where
 * pinholes stand wide enough apart for that and there is room. */
void pf_numbers_place_close_up (const GPtrArray *all, const PfView *field, double size);
/* From 1 to 999 in Roman figures. */
char *pf_roman_number (guint n);

G_END_DECLS
