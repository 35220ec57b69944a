/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Work on edges that the canvas, the edge strip and the panels share: what is where along a loop,
 * and the changes of its pinholes.
 */
#pragma once

#include "editor.h"

G_BEGIN_DECLS

/* The active motif with its edges, also while its filling is in work; NULL if there is none or its
 * outline is in trouble. Release with pf_motif_unref(). */
PfMotif *pf_edge_motif (PfEditor *editor);

/* The place of one loop nearest to `p`, mm along it; `*distance` (may be NULL) gets how far. */
double pf_edge_nearest (const PfMotif *motif, size_t loop, PfPoint p, double *distance);
/* The place on the outlines of all motifs, the active one first, within `reach` mm of `p`. */
bool pf_edge_find_outline (PfEditor *editor, PfPoint p, double reach, size_t *draft,
                           PfPlace *place);
/* From `from` to `to` along a loop, the shorter way: negative if that runs backwards. */
double pf_edge_way (const PfMotif *motif, size_t loop, double from, double to);
/* `along` brought back on the loop. */
double pf_edge_wrap (const PfMotif *motif, size_t loop, double along);

/* The pinhole nearest to a place along the loop; PF_NONE if there is none. */
guint32 pf_edge_pinhole_near (const PfMotif *motif, size_t loop, double along);
/* The next pinhole on along the loop (`step` 1) or back (-1), strictly; PF_NONE if none. */
guint32 pf_edge_next_pinhole (const PfMotif *motif, size_t loop, double along, int step);

/* No two pinholes are moved nearer to each other than this, mm. */
#define PF_PINHOLES_APART 0.1

/* Changes of a draft that is one's own copy of what `motif` was worked out from. The list of
 * pinholes becomes the maker's own. */
/* Moves a pinhole along its loop, up to its neighbours; gives its number afterwards. */
guint32 pf_edge_move_pinhole (PfDraft *draft, const PfMotif *motif, size_t loop, guint32 pinhole,
                              double by);
/* Gives the new pinhole's number; PF_NONE, and no change, if one is there already. */
guint32 pf_edge_add_pinhole (PfDraft *draft, const PfMotif *motif, size_t loop, double along);
void pf_edge_remove_pinhole (PfDraft *draft, const PfMotif *motif, size_t loop, guint32 pinhole);
/* Adds a stretch of the kind that the edge isn't at its start. */
void pf_edge_add_stretch (PfDraft *draft, const PfMotif *motif, size_t loop, double from,
                          double to);

/* "Outer outline", "Hole 1". Free with g_free(). */
char *pf_edge_loop_name (size_t loop);

G_END_DECLS
