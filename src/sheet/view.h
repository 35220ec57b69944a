/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A view: how the drawing lies on one page, and which part of it the page shows.
 */
#pragma once

#include "page.h"

G_BEGIN_DECLS

/* The *field* is the drawing enlarged and mirrored, before it is cut into pages. */
typedef struct {
  PfAffine map;   /* from the drawing, mm, to the page, mm */
  double enlarge; /* how much longer lengths get */
  PfPoint shift;  /* from the field to the page */
  PfBox window;   /* what of the page shows the drawing */
} PfView;

/* The field itself, all of which can be seen. */
PfView pf_view_field (double enlarge, bool mirror);
/* The page that has the field's `corner` at the top left of its window. */
PfView pf_view_page (const PfView *field, PfPoint corner, PfBox window);

static inline PfPoint
pf_view_point (const PfView *view, PfPoint p)
{
  return pf_affine_map (view->map, p);
}

/* The direction `d` of the drawing as it is on the page. */
static inline PfPoint
pf_view_direction (const PfView *view, PfPoint d)
{
  return (PfPoint){ view->map.xx * d.x + view->map.xy * d.y,
                    view->map.yx * d.x + view->map.yy * d.y };
}

/* Whether something that reaches `reach` mm round a point of the page can be seen. */
bool pf_view_sees (const PfView *view, PfPoint p, double reach);
/* Whether a straight line on the page can be seen; true also for some that just miss a corner. */
bool pf_view_sees_line (const PfView *view, PfPoint a, PfPoint b);
/* A box of the drawing that holds all lines that can be seen, and few others: to pass the rest by
 * quickly. */
PfBox pf_view_seen (const PfView *view);
/* Whether a whole box of the page can be seen. */
bool pf_view_holds (const PfView *view, PfBox box);

/* Draws the parts that can be seen of a chain of the drawing, in pieces of at most
 * PF_VIEW_PIECE segments; a closed one is drawn on to its first point. */
#define PF_VIEW_PIECE 200
void pf_view_chain (const PfView *view, PfPage *page, const PfPoint *points, size_t n, bool closed);

/* --- Plane geometry that layers share -----------------------------------------------------------
 */

#define PF_BOX_EMPTY ((PfBox){ { G_MAXDOUBLE, G_MAXDOUBLE }, { -G_MAXDOUBLE, -G_MAXDOUBLE } })

static inline bool
pf_box_is_empty (PfBox box)
{
  return box.min.x > box.max.x;
}

PfBox pf_box_with (PfBox box, PfPoint p);
PfBox pf_box_union (PfBox a, PfBox b);
PfBox pf_box_grown (PfBox box, double by);
bool pf_boxes_meet (PfBox a, PfBox b);

static inline PfPoint
pf_point_add (PfPoint p, PfPoint q, double times)
{
  return (PfPoint){ p.x + times * q.x, p.y + times * q.y };
}

/* Two small whole numbers as one key of a hash table (g_int64_hash). */
static inline gint64
pf_pair_key (int a, int b)
{
  return (gint64) ((guint64) (guint32) a << 32 | (guint32) b);
}

double pf_point_distance (PfPoint p, PfPoint q);
/* From p towards q, of length 1; (0, 0) if they are one point. */
PfPoint pf_point_towards (PfPoint p, PfPoint q);

G_END_DECLS
