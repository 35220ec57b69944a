/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to this folder: the pieces of documents that several files change.
 */
#pragma once

#include <document.h>

G_BEGIN_DECLS

PfUnderlay *pf_underlay_copy (const PfUnderlay *underlay);
void pf_underlay_free (PfUnderlay *underlay);

PfPolyline *pf_polyline_new (const PfPoint *points, size_t n, bool closed);
void pf_polyline_free (PfPolyline *polyline);
/* An empty array of PfPolyline that frees them. */
GPtrArray *pf_polylines_new (void);

/* Appends to a document that is still one's own copy; takes over `draft`, whose id becomes
 * "m<number>". No draft has the number that pf_document_next_number() gives, or a higher one. */
void pf_document_append (PfDocument *document, PfDraft *draft, guint64 number);
guint64 pf_document_next_number (const PfDocument *document);

/* An even edge, as pf_draft_new() has it. */
PfDraftEdge pf_draft_edge_default (void);
PfDraftEdge pf_draft_edge_copy (const PfDraftEdge *edge);
void pf_draft_edge_clear (PfDraftEdge *edge);

/* The draft's own arrays of choices in place of those that it shares with others, and their end. */
void pf_settings_own (PfFillingSettings *settings);
void pf_settings_clear (PfFillingSettings *settings);

/* The same of what is noted at the pillow. */
PfPillow pf_pillow_copy (const PfPillow *pillow);
void pf_pillow_clear (PfPillow *pillow);

/* The placement that lays the ground where it lies now, mapped by a similarity. */
PfPlacement pf_placement_mapped (PfPlacement placement, PfAffine map);

/* --- Places along curves ------------------------------------------------------------------------
 */

/* A curve flattened, with the distance along at each point, to find places on. */
typedef struct {
  PfPoint *points; /* n; of a closed curve the first one again at the end */
  double *along;   /* n: mm from points[0] */
  size_t n;        /* 0: the curve has no length */
  size_t *nodes;   /* for each segment the point that it starts at, and the last one's end; NULL if
                      they can't be told apart */
  size_t n_segments;
  bool closed;
} PfTrail;

void pf_trail_init (PfTrail *trail, const PfCurve *curve);
void pf_trail_clear (PfTrail *trail);
PfPoint pf_trail_point (const PfTrail *trail, double along);
/* The segment at a distance along, for a trail with `nodes`. */
size_t pf_trail_segment (const PfTrail *trail, double along);
/* The distance along of the point nearest to `p`, between two points of the trail. */
double pf_trail_nearest (const PfTrail *trail, PfPoint p, size_t from, size_t to);

G_END_DECLS
