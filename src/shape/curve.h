/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Curves as they are drawn: nodes, joined by straight or curved segments. A loop is flattened from
 * a closed curve.
 *
 * A curve never changes once it is made, and is shared by counting references. What edits a curve
 * gives another one. Segment s runs from node s to the next; the last one of a closed curve runs to
 * node 0.
 */
#pragma once

#include <shape.h>

G_BEGIN_DECLS

/* A node with its handles: the control points of the segments that reach it and leave it. A handle
 * that lies at the node makes no curve; a segment with both of its handles so is straight. */
typedef struct {
  PfPoint at, in, out; /* mm */
  bool smooth;         /* the handles stay on one line */
} PfNode;

typedef struct {
  int refs; /* private */
  PfNode *nodes;
  size_t n_nodes;
  bool closed;
} PfCurve;

/* Whether both handles are there and lie on one line through the node, within 1 degree. */
bool pf_node_runs_smooth (const PfNode *node);

/* At most this many nodes. */
#define PF_CURVE_MAX_NODES 100000

/* A curve through n nodes (copied). */
PfCurve *pf_curve_new (const PfNode *nodes, size_t n, bool closed);
PfCurve *pf_curve_ref (PfCurve *curve);
void pf_curve_unref (PfCurve *curve);
bool pf_curve_equal (const PfCurve *a, const PfCurve *b);

/* A straight-sided curve through points. */
PfCurve *pf_curve_new_straight (const PfPoint *points, size_t n, bool closed);
/* An ellipse with its axes along the sheet, from four nodes; off a true one by at most 0.03 % of
 * its radius (the usual factor 4/3·tan (90°/4) of a quarter circle by one cubic curve). */
PfCurve *pf_curve_new_ellipse (PfPoint centre, double rx, double ry);
PfCurve *pf_curve_new_rectangle (PfBox box);

static inline size_t
pf_curve_n_segments (const PfCurve *curve)
{
  return curve->closed ? curve->n_nodes : curve->n_nodes > 0 ? curve->n_nodes - 1 : 0;
}

bool pf_curve_segment_straight (const PfCurve *curve, size_t segment);
/* The point of a segment at t, 0 at its start and 1 at its end. */
PfPoint pf_curve_point (const PfCurve *curve, size_t segment, double t);
/* The box that holds the curve exactly (not just its handles). */
PfBox pf_curve_box (const PfCurve *curve);
/* The point of the curve nearest to `p`: its segment and t; gives how far it is, in mm. A curve
 * needs a node at least. */
double pf_curve_nearest (const PfCurve *curve, PfPoint p, size_t *segment, double *t);

/* The curve flattened as pf_path does; points NULL if it has no two points apart. Coordinates out
 * of bounds: PF_ERROR_OUTLINE. Free the points with g_free(). */
bool pf_curve_flatten (const PfCurve *curve, PfChain *chain, GError **error);

/* The curve that chain `n` of a path is flattened from: on the sheet, from the same first point on,
 * and closed if the chain is. Arcs become cubic curves of at most a right angle, off by at most
 * 0.008 mm. A node is smooth where it runs so. */
PfCurve *pf_path_curve (const PfPath *path, size_t n);

/* --- Edits: each gives a new curve --------------------------------------------------------------
 */

typedef enum { PF_HANDLE_IN, PF_HANDLE_OUT } PfHandle;

/* Node and handles moved together. */
PfCurve *pf_curve_with_node_at (const PfCurve *curve, size_t node, PfPoint to);
/* Several nodes moved by the same way; `chosen` has n_nodes flags. */
PfCurve *pf_curve_with_nodes_moved (const PfCurve *curve, const bool *chosen, PfPoint by);
/* At a smooth node the other handle turns with it and keeps its length. */
PfCurve *pf_curve_with_handle_at (const PfCurve *curve, size_t node, PfHandle handle, PfPoint to);
/* A curved segment bent so that its point at t lies at `to`; a straight one becomes curved. t
 * counts as 0.05 to 0.95: nearer to its ends a segment can't be bent. */
PfCurve *pf_curve_with_segment_through (const PfCurve *curve, size_t segment, double t, PfPoint to);
/* Adds a node at the segment's t, without a change of shape (de Casteljau's construction). */
PfCurve *pf_curve_with_node_added (const PfCurve *curve, size_t segment, double t);
/* A node more at the end of an open curve. */
PfCurve *pf_curve_with_node_appended (const PfCurve *curve, PfNode node);
/* Without these nodes. NULL if fewer than two would be left, or three of a closed straight one. */
PfCurve *pf_curve_without_nodes (const PfCurve *curve, const bool *chosen);
/* Smooth: handles put on one line, made a third of the segments' length where there were none;
 * a corner: handles stay. */
PfCurve *pf_curve_with_smooth (const PfCurve *curve, size_t node, bool smooth);
/* Straight: handles laid at the nodes; curved: at a third of its length, at a smooth node on the
 * line of the other handle. */
PfCurve *pf_curve_with_segment_straight (const PfCurve *curve, size_t segment, bool straight);
/* First node joined to the last. */
PfCurve *pf_curve_closed (const PfCurve *curve);
PfCurve *pf_curve_reversed (const PfCurve *curve);
PfCurve *pf_curve_mapped (const PfCurve *curve, PfAffine map);

/* A line to mirror at. */
typedef struct {
  PfPoint at;
  double angle; /* degrees clockwise from the x axis */
} PfAxis;

PfAffine pf_axis_reflection (PfAxis axis);
/* An open half of a shape and its mirror image, joined to a closed curve. Ends within `snap` mm of
 * the axis are laid on it; the node there is smooth if the halves meet so. */
PfCurve *pf_curve_with_mirror_half (const PfCurve *half, PfAxis axis, double snap);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfCurve, pf_curve_unref)

G_END_DECLS
