/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The options of pinfold-cli fill, and what can't be said together.
 */
#pragma once

#include "commands.h"

/* The options as they were given; NULL where they weren't. */
typedef struct {
  char *document, **documents; /* the first of what isn't an option, and all of it */
  char *outline, **elements, *ground;
  char *gap, *turn, *angle, *origin;
  char *edge, *edge_gap;
  char *beads, *partial;
  char *first, *work_by, *sew_in;
  char *thread, *wraps, *spare;
  char *clearance, *carry, *reach, *off_line;
  char **reports, **sheets, **close_ups, *part;
  char **books, *contents, **steps, *rules;
  gboolean pair_colours, pins_only, mirror, no_background;
  char *enlarge, *paper;
} PfFillOptions;

/* Reads them; false, with the trouble said, if they are wrong. Clear them in any case. */
bool pf_fill_options_parse (PfFillOptions *options, int argc, char **argv);
void pf_fill_options_clear (PfFillOptions *options);
