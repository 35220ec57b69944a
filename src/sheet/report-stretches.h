/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sewings of each stretch of an edge that is of one kind.
 */
#pragma once

#include <pricking.h>

G_BEGIN_DECLS

typedef struct {
  size_t loop;
  bool whole; /* the whole loop is of one kind */
  double from,
      to; /* mm along the loop; past its start if `to` is less. 0 and its length if whole */
  PfEdgeKind kind;
  size_t n_pinholes;
  size_t at_pinhole, round_bar, off_line; /* sewings, where they go */
} PfStretchCount;

/* By loop and start: the longest stretches of one kind, whatever stretches the edge is written in.
 * Every sewing of the motif counts in one of them. An array of PfStretchCount; g_array_unref(). */
GArray *pf_stretch_counts (const PfMotif *motif);

G_END_DECLS
