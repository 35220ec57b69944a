/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random fillings with random choices of the maker. */
#pragma once

#include "samples.h"

enum { MOST_CHOICES = 24 };

typedef struct {
  PfRegion *region;
  PfGround *ground;
  PfEdge edges[3];
  PfFillingSettings settings;
  PfSewingChoice choices[MOST_CHOICES];
  PfFilling *without, *filling; /* the choices */
} Chosen;

/* Edges are of half and cloth stitch in stretches, a trial's number decides on ground and holes. */
Chosen chosen_new (int trial);
void chosen_clear (Chosen *f);
/* The same filled with other choices. */
PfFilling *chosen_fill (const Chosen *f, const PfSewingChoice *choices, size_t n);
/* A place chosen at random for one of its sewings, mostly near its target. */
PfSewingChoice chosen_random_place (const Chosen *f);
/* Is sewing choice `index` among those that weren't kept to? */
bool chosen_unheeded (const PfFilling *filling, size_t index);
double chosen_time (const Chosen *f, PfLineId line);
