/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What of an outline lies under the pointer.
 */
#pragma once

#include "editor.h"
#include "motif-box.h"
#include "node-set.h"

G_BEGIN_DECLS

typedef enum {
  PF_ON_NOTHING,
  PF_ON_HANDLE,  /* of a chosen node: node, handle */
  PF_ON_NODE,    /* node */
  PF_ON_GRIP,    /* of the box, where no node is chosen: grip */
  PF_ON_SEGMENT, /* node at its start, t */
  PF_ON_MOTIF,   /* within a motif: draft */
} PfOn;

typedef struct {
  PfOn on;
  size_t draft; /* the number of the motif */
  PfNodeRef node;
  PfHandle handle;
  PfGrip grip;
  double t;
} PfSpot;

/* The smallest thing within `reach` mm. All but the last kind are of the active motif, and only if
 * it doesn't follow another one (but for its grips, which it then lacks too). */
PfSpot pf_outline_find (PfEditor *editor, const PfNodeSet *chosen, PfPoint at, double reach,
                        double pixel);
/* The active motif's box, where it has grips: no node is chosen, and it doesn't follow. */
bool pf_outline_grips (PfEditor *editor, const PfNodeSet *chosen, PfBox *box);

G_END_DECLS
