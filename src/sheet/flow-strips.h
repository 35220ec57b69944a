/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to the flow: everything that is set becomes strips, as wide as the column and never cut,
 * each glued to the one before it or not. flow.c and flow-table.c make them; flow-pages.c lays them
 * on pages.
 */
#pragma once

#include "flow.h"

G_BEGIN_DECLS

#define PF_FLOW_RUNNING_ROOM 8.0 /* from the upper margin to what is set */
#define PF_FLOW_LEADING 1.4      /* from one line to the next, of the font's size */

/* The look of text, and the class of its group. */
typedef enum {
  PF_FLOW_RUNNING,
  PF_FLOW_HEADING,
  PF_FLOW_TEXT,
  PF_FLOW_SMALL,
  PF_FLOW_HEAD,
  PF_FLOW_CELL,
  PF_FLOW_N_STYLES,
} PfFlowStyle;

/* One line of text. */
typedef struct {
  PfFlowStyle style;
  PfTextAnchor anchor;
  double size;
  PfPoint at; /* its baseline, from the strip's top left corner */
  char *text;
} PfFlowPiece;

typedef enum {
  PF_FLOW_LOOSE, /* a page may end before it */
  PF_FLOW_KEPT,  /* rather not: a page is broken here only if what is kept together is too high */
  PF_FLOW_GLUED, /* a worse place still */
} PfFlowGlue;

typedef struct PfFlowStrip PfFlowStrip;
struct PfFlowStrip {
  PfFlowGlue glue; /* to the strip before */
  bool new_page;
  double before; /* space above it; none at the head of a page */
  double height;
  GArray *pieces;          /* of PfFlowPiece */
  double rule[2];          /* widths of a line along its top and its foot; 0 for none */
  double ruled;            /* how long these are */
  bool strong;             /* dark ones */
  const PfFlowStrip *head; /* of a table's row: its header, or NULL */
  int level;               /* of a heading that begins here, else 0 */
  char *heading;
  PfFlowDraw draw; /* NULL for none, and where: from the strip's top left corner */
  PfBox box;
  gpointer data;
  GDestroyNotify destroy;
};

struct PfFlow {
  const PfPaper *paper;
  char *running;
  GPtrArray *strips; /* of PfFlowStrip */
  bool keeping, kept_one, after_heading, new_page;
};

/* Adds an empty strip with its glue as what was added before and what is kept together ask for it:
 * at least `glue`. */
PfFlowStrip *pf_flow_add_strip (PfFlow *flow, PfFlowGlue glue, double before, double height);
/* Adds a line of text with its baseline at `at`. */
void pf_flow_add_piece (PfFlowStrip *strip, PfFlowStyle style, PfTextAnchor anchor, double size,
                        PfPoint at, const char *text);
/* Lines above a table, which stay with it. */
void pf_flow_title (PfFlow *flow, const char *text);
/* Where the first baseline stands below the top of a line. */
double pf_flow_baseline (double size);

G_END_DECLS
