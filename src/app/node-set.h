/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The nodes that are chosen of a motif: any number, of any of its curves, in the order in which
 * they were chosen.
 */
#pragma once

#include <document.h>

G_BEGIN_DECLS

typedef struct {
  size_t curve, node;
} PfNodeRef;

/* A GArray of PfNodeRef, no two alike. */
typedef GArray PfNodeSet;

PfNodeSet *pf_node_set_new (void);
static inline PfNodeRef
pf_node_set_get (const PfNodeSet *set, size_t n)
{
  return g_array_index (set, PfNodeRef, n);
}
bool pf_node_set_has (const PfNodeSet *set, PfNodeRef node);
void pf_node_set_add (PfNodeSet *set, PfNodeRef node);
void pf_node_set_remove (PfNodeSet *set, PfNodeRef node);
static inline void
pf_node_set_clear (PfNodeSet *set)
{
  g_array_set_size (set, 0);
}
/* Drops nodes that the draft doesn't have; true if there were any. */
bool pf_node_set_prune (PfNodeSet *set, const PfDraft *draft);
/* A flag for each node of a curve; free with g_free(). NULL if none of them is chosen. */
bool *pf_node_set_flags (const PfNodeSet *set, const PfDraft *draft, size_t curve);

/* Nodes in the order of the curves; false if there is none after (or before) this one. */
bool pf_node_next (const PfDraft *draft, PfNodeRef *node, bool back);

G_END_DECLS
