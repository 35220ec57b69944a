/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What to wind before the work begins: how much thread of which colour on how many bobbins, and
 * which pairs of one motif can go on in the next.
 */
#pragma once

#include <pricking.h>

G_BEGIN_DECLS

/* Bobbins of one pair that are wound alike. */
typedef struct {
  guint motif;
  guint32 pair; /* both counted from 0 */
  PfBobbins bobbins;
} PfWoundPair;

/* Bobbins of the same thread, colour and length. */
typedef struct {
  const PfThreadUse *thread; /* borrowed from a motif */
  const char *colour;        /* "#rrggbb", borrowed, or NULL */
  double each;               /* mm to wind on each, rounded up; 0 if no thread is chosen */
  double used;               /* mm that these bobbins take, worked out, what is spare included */
  guint n_bobbins;
  GArray *pairs; /* of PfWoundPair, by motif and pair */
} PfWindingGroup;

typedef struct {
  GArray *groups; /* of PfWindingGroup: by thread, colour, and length, the longest first */
  double step;    /* mm: lengths are rounded up to whole steps; 0 if no thread is chosen */
  bool unknown;   /* the thread of a motif isn't chosen */
} PfWinding;

/* The winding list of all motifs. The bobbins of a pair are wound from one thread and so alike,
 * the longer of its two lengths on each, unless their colours differ. The step is the least of
 * 100, 200, 500, 1000 ... mm that makes at most PF_WINDING_LENGTHS lengths. */
#define PF_WINDING_LENGTHS 8
PfWinding *pf_winding_new (const PfPricking *pricking);
void pf_winding_free (PfWinding *winding);

/* The thread that is wound for a group, in mm. */
double pf_winding_group_length (const PfWindingGroup *group);
/* Its pairs: "1–5, 8 (left)", translated; with several motifs "I 1–5; II 2". Free with g_free(). */
char *pf_winding_pairs_words (const PfWindingGroup *group, bool several_motifs);
/* The same for a file, not translated, and nothing that a spreadsheet takes for a date: "1 to 5, 8
 * left". */
char *pf_winding_pairs_name (const PfWindingGroup *group, bool several_motifs);

/* A pair that is finished in one motif and can be used where one is new in a later one. Stitches
 * change bobbins between pairs: those that it is made of at its end may have been wound as others.
 */
typedef struct {
  guint from_motif, to_motif;
  guint32 from_pair, to_pair; /* all counted from 0 */
  guint32 bobbins[2]; /* at its end, left and right: 2 · pair as wound, + 1 for the right */
} PfHandedOn;

/* Are they the pair's own? */
bool pf_handed_on_is_whole (const PfHandedOn *one);

/* As many such pairs as there can be if the motifs are worked one after the other in their order,
 * each pair handed on to the first motif that has a use for it: of the same thread, and its bobbins
 * at its end of the same colours. A pair that was handed on can be handed on again where it is
 * finished. An array of PfHandedOn, by to_motif and to_pair; g_array_unref(). */
GArray *pf_pairs_handed_on (const PfPricking *pricking);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfWinding, pf_winding_free)

G_END_DECLS
