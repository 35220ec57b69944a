/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edits of outlines: what tools and panel do to the chosen nodes, or to the whole motif, of a draft
 * that is their own copy. They know neither pointer nor widget.
 */
#pragma once

#include "editor.h"
#include "node-set.h"

G_BEGIN_DECLS

/* Changes curve n to one that is taken over. */
void pf_outline_set_curve (PfDraft *draft, size_t n, PfCurve *taken);
/* The box of all curves; false if there is none. */
bool pf_outline_box (const PfDraft *draft, PfBox *box);
/* The curve that is being drawn, or NULL; it is the draft's last. */
PfCurve *pf_outline_open_curve (const PfDraft *draft);
/* All nodes' places but those of `without` (a set of the active draft; may be NULL). Free the array
 * with g_array_unref(). */
GArray *pf_outline_places (PfEditor *editor, const PfNodeSet *without);

void pf_outline_move_nodes (PfDraft *draft, const PfNodeSet *nodes, PfPoint by);
void pf_outline_set_smooth (PfDraft *draft, const PfNodeSet *nodes, bool smooth);
/* Segments between two chosen nodes; of a single node the segment that leaves it. False if there is
 * none. */
bool pf_outline_set_straight (PfDraft *draft, const PfNodeSet *nodes, bool straight);
/* A node more in the middle of each such segment; `nodes` becomes the new ones. */
bool pf_outline_add_nodes (PfDraft *draft, PfNodeSet *nodes);
/* A hole of which too few nodes stay goes; false, and nothing is changed, if that would be the
 * outer curve. */
bool pf_outline_delete_nodes (PfDraft *draft, const PfNodeSet *nodes);

/* All curves mapped; the edge stays with them. A similarity takes the ground along. */
void pf_outline_map (PfDraft *draft, PfAffine map);
/* Scaled by sx, sy and then turned clockwise by degrees, all about a place. */
PfAffine pf_outline_map_about (PfPoint about, double sx, double sy, double degrees);

/* Adds a curve (taken over): as a hole of the active motif, or as a new motif, which becomes the
 * active one. `name` is that of the change. */
void pf_outline_add_hole (PfEditor *editor, PfCurve *taken, const char *name);
void pf_outline_add_motif (PfEditor *editor, PfCurve *taken, const char *name);
/* Why no hole can be drawn in the active motif, translated, or NULL. */
const char *pf_outline_no_hole (PfEditor *editor);
/* A name that no motif of the document has yet. Free with g_free(). */
char *pf_outline_new_name (const PfDocument *document);

G_END_DECLS
