/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Small pictures of what a sheet shows, for the legend.
 */
#pragma once

#include "style.h"

G_BEGIN_DECLS

#define PF_SAMPLE_WIDTH 9.5
#define PF_SAMPLE_HEIGHT 3.8

typedef enum {
  PF_SAMPLE_NONE,
  PF_SAMPLE_PIN,
  PF_SAMPLE_EDGE,
  PF_SAMPLE_NEW,
  PF_SAMPLE_TURNED,
  PF_SAMPLE_CARRIED,
  PF_SAMPLE_FINISHED,
  PF_SAMPLE_AT_PINHOLE,
  PF_SAMPLE_ROUND_BAR,
  PF_SAMPLE_OFF_LINE,
  PF_SAMPLE_CHOSEN,
  PF_SAMPLE_MISSING,
  PF_SAMPLE_KEPT,
  PF_SAMPLE_PLAIN,
  PF_SAMPLE_LEFT_OUT,
  PF_SAMPLE_BEAD,
  PF_SAMPLE_NUMBER,
  PF_SAMPLE_PINHOLE_NUMBER,
  PF_SAMPLE_OFF_LINE_NUMBER,
  PF_SAMPLE_TARGET,
  PF_SAMPLE_HALF_STITCH,
  PF_SAMPLE_CLOTH_STITCH,
} PfSample;

/* Draws one round `middle`. */
void pf_sample_draw (PfPage *page, const PfSizes *sizes, PfPoint middle, PfSample sample);

G_END_DECLS
