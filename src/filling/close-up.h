/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Close-ups: the threads of a filling as they lie, over and under each other, as smooth curves.
 *
 * At a stitch the threads run side by side along its axis, and change places in steps, one for each
 * letter of its word, above the pin what is worked before it, below it the rest. Between stitches
 * each pair's two threads run together, and cross where the ground twists them. A thread that
 * passes under another has a gap there.
 */
#pragma once

#include "threads.h"

G_BEGIN_DECLS

/* What all close-ups of a filling share: its threads, followed once, and how they are laid. Borrows
 * the filling and its ground. */
typedef struct {
  const PfFilling *filling;
  const PfGround *ground;
  PfThreads *threads;
  struct PfFrames *frames; /* private */
  double thickness;        /* of the threads as drawn, mm */
  double longest;          /* way between two stitches, or from one to the edge, mm */
} PfLaid;

/* Threads are drawn as thick as `thickness`, mm, or thinner where they wouldn't find room; 0: as
 * thick as the ground leaves room for. */
PfLaid *pf_laid_new (const PfFilling *filling, const PfGround *ground, double thickness);
void pf_laid_free (PfLaid *laid);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfLaid, pf_laid_free)

/* A visible piece of one thread, from one gap to the next: cubic curves that run on smoothly, the
 * end of each the start of the next. */
typedef struct {
  guint32 thread;
  size_t first;    /* in PfCloseUp.points */
  size_t n_curves; /* it has 1 + 3 · n_curves points, as in a path of SVG */
} PfStrand;

typedef struct {
  double thickness; /* of the threads as drawn, mm */
  PfStrand *strands;
  size_t n_strands;
  PfPoint *points; /* mm */
  size_t n_points;
  PfPoint *pins; /* mm */
  size_t n_pins;
  double pin_radius; /* as drawn, mm */
} PfCloseUp;

/* The close-up of the part of a filling that lies in `box`, mm; what is partly in it is whole. */
PfCloseUp *pf_close_up_part (const PfLaid *laid, PfBox box);
/* The same of nothing but the two threads that are sewn in as that pair. */
PfCloseUp *pf_close_up_pair (const PfLaid *laid, PfBox box, guint32 pair);
void pf_close_up_free (PfCloseUp *close_up);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfCloseUp, pf_close_up_free)

G_END_DECLS
