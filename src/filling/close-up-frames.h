/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the threads lie at each stitch of a ground, in a close-up: along which axis, how far apart,
 * and how long each letter of its word is. The same in every repeat.
 */
#pragma once

#include <moves.h>

#include "filling.h"

G_BEGIN_DECLS

/* A letter of a word, laid along the axis: mm from the stitch's position, in the way of working. */
typedef struct {
  double from, to;
} PfSlot;

typedef struct {
  PfPoint along, across; /* unit vectors on the sheet: the way of working, and from the ground's
                            left to its right */
  PfPoint in[PF_STITCH_MAX_PAIRS];  /* unit vectors: how the pair of each side comes in ... */
  PfPoint out[PF_STITCH_MAX_PAIRS]; /* ... and goes out, between the axis and its line */
  double spacing;                   /* between threads side by side, mm */
  double letter;                    /* the length of a cross or a twist, mm */
} PfFrame;

typedef struct PfFrames {
  const PfGround *ground;
  double thickness;  /* of a thread, mm */
  double pin_radius; /* mm */
  bool mirrored;     /* the ground is turned over: its left is the maker's right */
  PfFrame *frames;   /* of each stitch of the ground */
} PfFrames;

/* Lays out the words for a filling. `thickness` as for pf_laid_new(). */
PfFrames *pf_frames_new (const PfFilling *filling, const PfGround *ground, double thickness);
void pf_frames_free (PfFrames *frames);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfFrames, pf_frames_free)

/* The slots of a word worked at stitch k; gives their number. The pin stands at the stitch's
 * position: what is worked before it lies above, what is worked after it, or closes it, below. */
int pf_frame_slots (const PfFrames *frames, int k, const char *work, PfSlot slots[PF_WORD_MAX]);

/* How often the weaver of a leadwork goes across: there and back. */
#define PF_LEADWORK_PASSES 8

G_END_DECLS
