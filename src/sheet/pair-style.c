/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Dashes are in widths of the line. Neighbours in the list look unlike each other, as the first few
 * pairs of a repeat are most often together.
 */
#include "pair-style.h"

#include "style.h"

static const struct {
  const char *colour;
  double dash[4];
  int n_dash;
  bool round;
} styles[PF_PAIR_STYLES] = {
  { "#000000", { 0 }, 0, false },
  { "#0072b2", { 4.5, 2.2 }, 2, false },
  { "#d55e00", { 0, 2.1 }, 2, true },
  { "#009e73", { 7, 2.2, 1.2, 2.2 }, 4, false },
  { "#cc79a7", { 11, 2.6 }, 2, false },
  { "#e69f00", { 1.6, 1.6 }, 2, false },
  { "#56b4e9", { 5, 1.8, 0.01, 1.8 }, 4, true },
  { "#5a5a5a", { 13, 2, 2, 2 }, 4, false },
};

PfInk
pf_pair_ink (guint32 n, double width, bool colour)
{
  const guint32 s = n % PF_PAIR_STYLES;
  PfInk ink = { .stroke = colour ? styles[s].colour : PF_COLOUR_INK,
                .width = width,
                .n_dash = styles[s].n_dash,
                .round = styles[s].round };
  for (int d = 0; d < ink.n_dash; d++)
    ink.dash[d] = styles[s].dash[d] * width;
  return ink;
}
