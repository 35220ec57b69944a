/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to the labels of a repeat: what is gathered (repeat-labels.c), finds its room
 * (repeat-labels-room.c) and is drawn (repeat-labels-draw.c).
 */
#pragma once

#include "repeat-labels.h"

G_BEGIN_DECLS

/* In the order in which they find room. */
typedef enum {
  PF_NAME_OF_PIN,
  PF_LETTERS_OF_SEWING,
  PF_NUMBER_OF_PAIR,
  PF_NUMBER_OF_STEP,
  PF_LABEL_N_SHAPES
} PfLabelShape;

typedef struct {
  PfLabelShape shape;
  char *text;
  const char *colour;
  PfPoint anchor;
  PfPoint outward; /* the side it would rather be on; (0, 0) for any */
  PfLabel label;   /* once it has a place */
  bool placed;
  bool covers; /* a line lies under it */
  bool far;    /* there was no room near by */
} PfWantedLabel;

struct PfLabels {
  PfBox box;
  PfPlacer *placer;
  GArray *wanted; /* of PfWantedLabel */
  /* The stretch of the pair that came last, for the number at its end. */
  guint32 pair;
  bool has_pair;
  PfPoint from, to;
  const char *colour;
};

/* The size of a label's letters, and what it takes up: a circle or a box round a number is larger.
 */
double pf_wanted_letters (PfLabelShape shape);
double pf_wanted_room (PfLabelShape shape);

G_END_DECLS
