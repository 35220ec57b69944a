/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether a thread suits a gap. Thickness is counted in wraps: how many turns of the thread lie
 * side by side on 1 cm.
 */
#pragma once

#include "filling.h"

G_BEGIN_DECLS

/* How many wraps of the thread should find room from one pin to the next along the footside. */
typedef struct {
  double from, to;
} PfFitRule;

/* About 10 to 12 for grounds on the torchon grid: from memory, nowhere confirmed, and for the maker
 * to change after a sample. */
#define PF_FIT_USUAL ((PfFitRule){ 10, 12 })

typedef enum {
  PF_FIT_UNKNOWN, /* no rule is known for this ground */
  PF_FIT_OPEN,    /* the thread is too fine for the gap */
  PF_FIT_FITS,
  PF_FIT_CLOSE, /* too thick */
} PfFit;

/* Is there a rule for the ground? For torchon grounds and what is worked in their manner, with pins
 * along the footside, at 45 degrees. */
bool pf_fit_known (const PfGround *ground, PfPlacement placement);
/* The wraps from one pin to the next along the footside: spacing (mm) · wraps per cm / 10. */
double pf_fit_wraps (const PfGround *ground, PfPlacement placement, double wraps_per_cm);
PfFit pf_fit_judge (const PfGround *ground, PfPlacement placement, double wraps_per_cm,
                    PfFitRule rule);

/* The wraps per cm that suit the gap: those of the thinnest and the thickest thread. */
PfFitRule pf_fit_threads (const PfGround *ground, PfPlacement placement, PfFitRule rule);
/* The gaps that suit a thread, mm. */
PfFitRule pf_fit_gaps (const PfGround *ground, PfPlacement placement, double wraps_per_cm,
                       PfFitRule rule);

/* The size at which a pattern for one thread is redrawn for another, in per cent: 100 · wraps per
 * cm of the pattern's thread / of yours (derived: everything grows as the thread does). */
double pf_fit_scale (double pattern_wraps_per_cm, double your_wraps_per_cm);

/* What it comes to in words, translated: how it is judged, by which rule, how sure that is, and how
 * to try it. Free with g_free(). */
char *pf_explain_fit (const PfGround *ground, PfPlacement placement, double wraps_per_cm,
                      PfFitRule rule);

G_END_DECLS
