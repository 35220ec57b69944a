/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The look of the sheets: colours, line styles and sizes. The four kinds of pairs differ in dashes,
 * weight and end mark, so that grey prints are enough; colour only helps.
 */
#pragma once

#include <filling.h>

#include <sheet.h>

#include "page.h"

G_BEGIN_DECLS

#define PF_COLOUR_INK "#1c1c1c" /* pins, outline, words */
#define PF_COLOUR_PAIR_LINE "#8a8a8a"
#define PF_COLOUR_FAINT "#b4b4b4" /* beyond the edge */
#define PF_COLOUR_BACKGROUND "#d2d2d2"
#define PF_COLOUR_QUIET "#5a5a5a" /* words that stand back */
#define PF_COLOUR_HOLE_NUMBER "#767676"
#define PF_COLOUR_KEPT "#e9e4d4" /* a light sand; light grey in a grey print */
#define PF_COLOUR_PAPER "#fff"

/* The line of one kind of pair. Dashes are in dash units (PfSizes). */
typedef struct {
  const char *name; /* class of the group */
  const char *colour;
  double weight; /* of PfSizes.line */
  double dash[4];
  int n_dash;
  bool round;
} PfLineStyle;

const PfLineStyle *pf_line_style (PfPairKind kind);

/* Sizes on the paper, in mm, that follow from the distance between pins. */
typedef struct {
  double pin;     /* radius of a ground pin */
  double hole;    /* radius of an edge pinhole */
  double mark;    /* half the size of a sewing's mark */
  double fine;    /* width of a pair line */
  double line;    /* width of a predicted line */
  double outline; /* width of the outline */
  double dash;    /* dash unit */
  double arrow;   /* length of an arrowhead */
  double text;    /* font size of numbers */
} PfSizes;

/* For pins `gap` mm apart, enlarged. An enlargement of n makes lines and words at most √n larger.
 */
PfSizes pf_sizes (double gap, double enlarge);

PfInk pf_line_ink (PfPairKind kind, const PfSizes *sizes);
/* A look's colour for a kind's lines, an ink of theirs in that colour, and sizes with its line
 * width instead of that on paper. NULL: as printed. Colours are borrowed from the look. */
const char *pf_look_colour (const PfLook *look, PfPairKind kind);
PfInk pf_look_ink (const PfLook *look, PfPairKind kind, PfInk ink);
PfSizes pf_look_sizes (const PfLook *look, PfSizes sizes);

G_END_DECLS
