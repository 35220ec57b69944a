/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Shapes: outlines flattened to loops, regions, and the worked edge around them.
 *
 * Lengths are in mm, angles in degrees clockwise as seen on the sheet; x runs right and y down.
 * A region never changes once it is made: share it freely between threads.
 */
#pragma once

#include <stdbool.h>
#include <stddef.h>

#include <glib.h>

G_BEGIN_DECLS

/* Errors of every part of Pinfold. */
#define PF_ERROR (pf_error_quark ())
GQuark pf_error_quark (void);

typedef enum {
  PF_ERROR_OUTLINE, /* an outline that can't be a region */
  PF_ERROR_GROUND,  /* a ground that can't be worked or drawn */
  PF_ERROR_SETTING, /* a number outside its range */
  PF_ERROR_FILE,    /* a file that can't be read as what it should be */
  PF_ERROR_TOO_BIG, /* more than fits: stitches, elements, nesting */
} PfError;

/* A tolerance in mm: points nearer than this are one point. It is far below what a lace maker can
 * prick (about 0.1 mm) and far above what doubles lose on a sheet of metres (about 1e-12 mm). */
#define PF_TOUCH 1e-9

/* Coordinates of an outline lie within this many mm of the sheet's top left corner. */
#define PF_OUTLINE_LIMIT 1e5

typedef struct {
  double x, y;
} PfPoint;

/* The place on the sheet, in mm, that an error of PF_ERROR is about; a point with NAN if it has
 * none. Errors of outlines have one, but for coordinates that aren't numbers. */
PfPoint pf_error_place (const GError *error);
/* Gives `*error`, if there is one, its place. */
void pf_error_set_place (GError **error, PfPoint place);

typedef struct {
  PfPoint min, max;
} PfBox;

/* An affine map: (x, y) becomes (xx·x + xy·y + x0, yx·x + yy·y + y0). */
typedef struct {
  double xx, xy, yx, yy, x0, y0;
} PfAffine;

#define PF_AFFINE_IDENTITY ((PfAffine){ 1, 0, 0, 1, 0, 0 })

static inline PfPoint
pf_affine_map (PfAffine m, PfPoint p)
{
  return (PfPoint){ m.xx * p.x + m.xy * p.y + m.x0, m.yx * p.x + m.yy * p.y + m.y0 };
}

/* First `inner`, then `outer`. */
PfAffine pf_affine_compose (PfAffine outer, PfAffine inner);

/* The area scale of `m`; 0 if it flattens the plane to a line. */
static inline double
pf_affine_determinant (PfAffine m)
{
  return m.xx * m.yy - m.xy * m.yx;
}

/* The inverse of `m`, whose determinant must not be 0. */
PfAffine pf_affine_invert (PfAffine m);

/* --- Curves: drawn paths flattened to chains of straight steps ----------------------------------
 */

/* A chain lies within this many mm of the curve it stands for, ... */
#define PF_FLATNESS 0.01
/* ... and the curve turns by at most this many degrees between two points of the chain. */
#define PF_MAX_TURN 10.0

/* One subpath, flattened: n points, closed if its end is joined to its start. */
typedef struct {
  PfPoint *points;
  size_t n_points;
  bool closed;
} PfChain;

/* Collects the segments of a path, mapped to the sheet and flattened as they come. */
typedef struct PfPath PfPath;

/* An empty path; every point given to it is mapped by `to_sheet` first. Free with pf_path_free().
 */
PfPath *pf_path_new (PfAffine to_sheet);
void pf_path_free (PfPath *path);

void pf_path_move_to (PfPath *path, PfPoint to);
void pf_path_line_to (PfPath *path, PfPoint to);
/* A cubic Bézier curve with control points `a` and `b`. */
void pf_path_curve_to (PfPath *path, PfPoint a, PfPoint b, PfPoint to);
/* A quadratic Bézier curve with control point `a`. */
void pf_path_quadratic_to (PfPath *path, PfPoint a, PfPoint to);
/* An elliptical arc as in SVG 2, appendix B.2 (conversion from endpoint to centre): radii `rx`,
 * `ry` in the path's own units, the ellipse's x axis turned by `rotation` degrees, the larger or
 * the smaller arc, clockwise (`sweep`) or not. Radii too small are enlarged; a zero radius is a
 * line. */
void pf_path_arc_to (PfPath *path, double rx, double ry, double rotation, bool large, bool sweep,
                     PfPoint to);
void pf_path_close (PfPath *path);
/* Where the pen is, in the path's own units. */
PfPoint pf_path_current (const PfPath *path);

/* The chains so far, in drawing order; `*n` gets their number. Points that repeat within PF_TOUCH
 * are one point. The chains belong to the path. A coordinate that isn't finite, or beyond
 * PF_OUTLINE_LIMIT, is an error (PF_ERROR_OUTLINE); NULL then. */
const PfChain *pf_path_chains (const PfPath *path, size_t *n, GError **error);

/* --- Loops and regions --------------------------------------------------------------------------
 */

/* A closed chain, in the direction and from the first point it was drawn. */
typedef struct {
  PfPoint *points; /* n_points; the last is joined to the first */
  double *along;   /* n_points + 1: mm from points[0] to each point; the last is the whole length */
  size_t n_points;
} PfLoop;

/* A place on the outline of a region. */
typedef struct {
  size_t loop;
  double along; /* mm from the loop's first point, from 0 to less than its length */
} PfPlace;

/* Where a straight line meets the outline. */
typedef struct {
  double t; /* 0 at the line's start, 1 at its end */
  PfPlace place;
  double t_run; /* end of the run along an edge that lies on the line; t where there is none */
  int side;     /* 1 where the outline passes to the right hand of one who looks along the line on
                   the sheet, -1 where to the left, 0 where it stays on one side (the line is taken
                   PF_TOUCH to its right, so that both edges of a vertex are told the same) */
} PfMeeting;

/* Area bounded by one outer loop (loops[0]) and any number of holes. */
typedef struct {
  PfLoop *loops;
  size_t n_loops;
  PfBox box;
  struct PfOutlineIndex *index; /* private: finds edges near a place */
} PfRegion;

/* Signed area in mm²: positive if the loop runs clockwise as seen on the sheet. */
double pf_chain_area (const PfPoint *points, size_t n);

/* A region from n_chains closed chains (copied), the first of them the outer loop.
 * PF_ERROR_OUTLINE, with the place in mm, if a loop has no area, two edges cross or lie on one
 * another, or a hole isn't inside the outer loop and outside the other holes. Loops may touch in
 * single points. */
PfRegion *pf_region_new (const PfChain *chains, size_t n_chains, GError **error);
void pf_region_free (PfRegion *region);

/* Sorts n_chains closed chains by even-odd nesting: a chain within an even number of others is an
 * outer loop, and the chains next within it are its holes. Gives a PfRegion for each outer loop, in
 * the order of the chains; `*owners` (free with g_free(); may be NULL) gets the number of each
 * region's outer chain. Errors as for pf_region_new(). Free the array with g_ptr_array_unref(). */
GPtrArray *pf_regions_from_chains (const PfChain *chains, size_t n_chains, size_t **owners,
                                   GError **error);

double pf_region_area (const PfRegion *region);
bool pf_region_contains (const PfRegion *region, PfPoint p);

static inline double
pf_loop_length (const PfLoop *loop)
{
  return loop->along[loop->n_points];
}

/* The point of the outline at `place`. */
PfPoint pf_region_point (const PfRegion *region, PfPlace place);
/* The unit vector along the outline there, in the loop's own direction; at a vertex, that of the
 * edge it begins. */
PfPoint pf_region_direction (const PfRegion *region, PfPlace place);
/* The distance in mm from `from` forward to `to` along the loop, 0 to less than its length. */
double pf_loop_forward (const PfLoop *loop, double from, double to);
/* The distance along the loop, the shorter way round. */
double pf_loop_distance (const PfLoop *loop, double a, double b);
/* Half-way between `a` and `b`, the shorter way round. */
double pf_loop_midway (const PfLoop *loop, double a, double b);

/* The outline point nearest to `p`; of several, the first by loop and distance along. `*distance`
 * (may be NULL) gets how far it is, in mm. */
PfPlace pf_region_nearest (const PfRegion *region, PfPoint p, double *distance);

/* Appends to `meetings` (an array of PfMeeting, cleared first) each edge that the straight line
 * from `from` to `to` meets, ends included, sorted by t. A vertex within PF_TOUCH of the line is on
 * it. */
void pf_region_meet (const PfRegion *region, PfPoint from, PfPoint to, GArray *meetings);

/* --- The worked edge ----------------------------------------------------------------------------
 */

typedef enum {
  PF_EDGE_HALF_STITCH,  /* sew into a pinhole, or round the bar between two */
  PF_EDGE_CLOTH_STITCH, /* sew into pinholes only */
} PfEdgeKind;

/* A stretch of a loop whose edge is of another kind, on from `from` to `to` (mm along the loop;
 * past its start if `to` isn't beyond `from`). `from` belongs to it, `to` doesn't. */
typedef struct {
  double from, to;
  PfEdgeKind kind;
} PfEdgeStretch;

/* The lace already worked along one loop. */
typedef struct {
  PfEdgeKind kind;
  double gap;       /* mm between pinholes */
  double *pinholes; /* n_pinholes distances along the loop, rising */
  size_t n_pinholes;
  PfEdgeStretch *stretches; /* n_stretches; of two that overlap the later one counts */
  size_t n_stretches;
} PfEdge;

#define PF_EDGE_GAP_MIN 0.1
#define PF_EDGE_GAP_MAX 1000.0

/* Turns of the outline by more than this many degrees are corners, and get a pinhole. */
#define PF_CORNER_TURN 30.0

/* Pinholes spaced evenly: one on every corner, each span between two corners divided in
 * max(1, round (length / gap)) equal parts; a loop without corners starts at its first point.
 * PF_ERROR_SETTING if the gap isn't PF_EDGE_GAP_MIN to PF_EDGE_GAP_MAX mm. Free with
 * pf_edge_clear(). */
bool pf_edge_init_even (PfEdge *edge, const PfLoop *loop, PfEdgeKind kind, double gap,
                        GError **error);
/* Pinholes where the maker has them: `places` are n distances along the loop, in any order. */
bool pf_edge_init_given (PfEdge *edge, const PfLoop *loop, PfEdgeKind kind, double gap,
                         const double *places, size_t n, GError **error);
/* Gives the edge n stretches (copied) instead of those it has. PF_ERROR_SETTING if an end isn't on
 * the loop; PF_ERROR_TOO_BIG if there are more than 1000. The edge stays as it was then. */
bool pf_edge_set_stretches (PfEdge *edge, const PfLoop *loop, const PfEdgeStretch *stretches,
                            size_t n, GError **error);
/* The kind of the edge at a distance along its loop. */
PfEdgeKind pf_edge_kind_at (const PfEdge *edge, double along);
void pf_edge_clear (PfEdge *edge);

G_END_DECLS
