/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Paths: segments mapped to the sheet first and flattened there, so that the flatness holds in mm.
 *
 * The last chain grows while its subpath is drawn, so the chains are complete at any time. A
 * subpath becomes a chain with its first point apart from where it starts: one that goes nowhere
 * leaves none.
 */
#include "outline.h"

/* Half of what is promised: the rest is for those who read the flattened loops rounded. */
#define TOLERANCE (PF_FLATNESS / 2)

/* No sum of turns of more than this many radians within a step. */
#define TURN (PF_MAX_TURN * G_PI / 180)

/* At a cusp the curve turns on the spot, and no step is short enough. A step of this many mm that
 * still turns too much is taken as a corner. */
#define CORNER_SIZE 1e-4

/* Halvings of one curve: 1e5 mm halved 40 times is far below CORNER_SIZE. */
#define MAX_DEPTH 40

/* A larger number of steps belongs to an arc that leaves PF_OUTLINE_LIMIT: its rise is about
 * (steps · TOLERANCE)·steps mm. */
#define MAX_ARC_STEPS 1e5

struct PfPath {
  PfAffine to_sheet;
  GArray *chains;         /* of PfChain */
  size_t capacity;        /* of the last chain, while it grows */
  bool drawing;           /* the last chain grows */
  PfPoint start, current; /* of this subpath, in the path's own units */
  PfPoint last;           /* the last point of the chain, on the sheet */
  bool broken;
  PfPoint broken_at;
};

PfPath *
pf_path_new (PfAffine to_sheet)
{
  PfPath *path = g_new0 (PfPath, 1);

  path->to_sheet = to_sheet;
  path->chains = g_array_new (FALSE, FALSE, sizeof (PfChain));
  path->last = pf_affine_map (to_sheet, path->current);
  return path;
}

void
pf_path_free (PfPath *path)
{
  if (!path)
    return;
  for (guint i = 0; i < path->chains->len; i++)
    g_free (g_array_index (path->chains, PfChain, i).points);
  g_array_unref (path->chains);
  g_free (path);
}

PfPoint
pf_path_current (const PfPath *path)
{
  return path->current;
}

const PfChain *
pf_path_chains (const PfPath *path, size_t *n, GError **error)
{
  static const PfChain none = { NULL, 0, false };

  *n = 0;
  if (path->broken)
    {
      pf_point_set_error (path->broken_at, error);
      return NULL;
    }
  *n = path->chains->len;
  return *n > 0 ? (const PfChain *) path->chains->data : &none;
}

/* Notes the first point that can't be used; nothing is collected after it. */
static bool
check (PfPath *path, PfPoint p)
{
  if (!path->broken && !pf_point_usable (p))
    {
      path->broken = true;
      path->broken_at = p;
    }
  return !path->broken;
}

static void
push (PfPath *path, PfPoint p)
{
  PfChain *chain = &g_array_index (path->chains, PfChain, path->chains->len - 1);

  if (chain->n_points == path->capacity)
    {
      path->capacity = path->capacity * 2;
      chain->points = g_renew (PfPoint, chain->points, path->capacity);
    }
  chain->points[chain->n_points++] = p;
}

/* The next point of the chain, on the sheet. */
static void
emit (PfPath *path, PfPoint p)
{
  if (!check (path, p) || pf_point_near (p, path->last, PF_TOUCH))
    return;
  if (!path->drawing)
    {
      path->capacity = 16;
      const PfChain chain = { g_new (PfPoint, path->capacity), 0, false };
      g_array_append_val (path->chains, chain);
      path->drawing = true;
      push (path, path->last);
    }
  push (path, p);
  path->last = p;
}

void
pf_path_move_to (PfPath *path, PfPoint to)
{
  path->drawing = false;
  path->start = path->current = to;
  path->last = pf_affine_map (path->to_sheet, to);
  check (path, path->last);
}

void
pf_path_line_to (PfPath *path, PfPoint to)
{
  emit (path, pf_affine_map (path->to_sheet, to));
  path->current = to;
}

void
pf_path_close (PfPath *path)
{
  if (path->drawing)
    {
      PfChain *chain = &g_array_index (path->chains, PfChain, path->chains->len - 1);

      /* The second point is apart from the first, so at least two remain. */
      while (pf_point_near (chain->points[chain->n_points - 1], chain->points[0], PF_TOUCH))
        chain->n_points--;
      chain->closed = true;
    }
  path->drawing = false;
  path->current = path->start;
  path->last = pf_affine_map (path->to_sheet, path->start);
}

/* Adds the turn from `a` to `b` to `*sum`, as its tangent, which is larger; INFINITY from a right
 * angle on. */
static void
add_turn (PfPoint a, PfPoint b, double *sum)
{
  const double along = pf_point_dot (a, b);

  *sum += along > 0 ? fabs (pf_point_cross (a, b)) / along : INFINITY;
}

/* --- Cubic curves -------------------------------------------------------------------------------
 */

typedef struct {
  PfPoint p[4];
} Cubic;

/* A curve never turns by more than its control polygon does. */
static bool
cubic_turns_little (const Cubic *c)
{
  double sum = 0;
  PfPoint before = { 0, 0 };
  bool any = false;

  for (int i = 0; i < 3; i++)
    {
      const PfPoint leg = pf_point_minus (c->p[i + 1], c->p[i]);

      if (pf_point_dot (leg, leg) <= PF_TOUCH * PF_TOUCH)
        continue;
      if (any)
        add_turn (before, leg, &sum);
      before = leg;
      any = true;
    }
  return sum <= TURN;
}

/* For a curve that turns little: no point of it is farther from its chord than 3/4 of how far its
 * control points are, since its weights of these two add up to at most 3/4. */
static bool
cubic_is_flat (const Cubic *c)
{
  const PfPoint chord = pf_point_minus (c->p[3], c->p[0]);
  const double a = fabs (pf_point_cross (chord, pf_point_minus (c->p[1], c->p[0])));
  const double b = fabs (pf_point_cross (chord, pf_point_minus (c->p[2], c->p[0])));

  return 0.75 * fmax (a, b) <= TOLERANCE * sqrt (pf_point_dot (chord, chord));
}

static double
cubic_size (const Cubic *c)
{
  double size = 0;

  for (int i = 0; i < 3; i++)
    size += hypot (c->p[i + 1].x - c->p[i].x, c->p[i + 1].y - c->p[i].y);
  return size;
}

static PfPoint
middle (PfPoint a, PfPoint b)
{
  return (PfPoint){ (a.x + b.x) / 2, (a.y + b.y) / 2 };
}

/* De Casteljau's halving. */
static void
cubic_halve (const Cubic *c, Cubic *first, Cubic *second)
{
  const PfPoint ab = middle (c->p[0], c->p[1]), bc = middle (c->p[1], c->p[2]);
  const PfPoint cd = middle (c->p[2], c->p[3]);
  const PfPoint abc = middle (ab, bc), bcd = middle (bc, cd), mid = middle (abc, bcd);

  *first = (Cubic){ { c->p[0], ab, abc, mid } };
  *second = (Cubic){ { mid, bcd, cd, c->p[3] } };
}

/* `last` is set for the piece that ends the curve: its end is kept. */
static void
cubic_flatten (PfPath *path, const Cubic *c, int depth, bool last)
{
  const bool turns_little = cubic_turns_little (c);
  Cubic first, second;

  if (turns_little && cubic_is_flat (c))
    emit (path, c->p[3]);
  else if (depth == 0 || cubic_size (c) <= CORNER_SIZE)
    {
      if (last)
        emit (path, c->p[3]);
    }
  else
    {
      cubic_halve (c, &first, &second);
      cubic_flatten (path, &first, depth - 1, false);
      cubic_flatten (path, &second, depth - 1, last);
    }
}

void
pf_path_curve_to (PfPath *path, PfPoint a, PfPoint b, PfPoint to)
{
  const PfAffine m = path->to_sheet;
  const Cubic c = { { pf_affine_map (m, path->current), pf_affine_map (m, a), pf_affine_map (m, b),
                      pf_affine_map (m, to) } };

  path->current = to;
  for (int i = 0; i < 4; i++)
    if (!check (path, c.p[i]))
      return;
  cubic_flatten (path, &c, MAX_DEPTH, true);
}

void
pf_path_quadratic_to (PfPath *path, PfPoint a, PfPoint to)
{
  const PfPoint from = path->current;
  const PfPoint b = { from.x + (a.x - from.x) * 2 / 3, from.y + (a.y - from.y) * 2 / 3 };
  const PfPoint c = { to.x + (a.x - to.x) * 2 / 3, to.y + (a.y - to.y) * 2 / 3 };

  check (path, pf_affine_map (path->to_sheet, a));
  pf_path_curve_to (path, b, c, to);
}

/* --- Elliptical arcs ----------------------------------------------------------------------------
 */

/* On the sheet: centre + u·cos (angle) + v·sin (angle), from `first` on over `sweep` radians. */
typedef struct {
  PfPoint start, end;
  PfPoint u, v;
  double first, sweep;
} Arc;

/* Reckoned from the start, so that no centre far away takes the digits. */
static PfPoint
arc_point (const Arc *arc, double after)
{
  const double half = arc->first + after / 2, chord = 2 * sin (after / 2);
  const double x = -chord * sin (half), y = chord * cos (half);

  return (PfPoint){ arc->start.x + arc->u.x * x + arc->v.x * y,
                    arc->start.y + arc->u.y * x + arc->v.y * y };
}

static PfPoint
arc_tangent (const Arc *arc, double after)
{
  const double x = -sin (arc->first + after), y = cos (arc->first + after);

  return (PfPoint){ arc->u.x * x + arc->v.x * y, arc->u.y * x + arc->v.y * y };
}

/* The steps from angle `from` to `to`, both counted from the start, already short enough to be
 * flat. */
static void
arc_flatten (PfPath *path, const Arc *arc, double from, double to, int depth)
{
  const bool last = to == arc->sweep;
  const double size = (hypot (arc->u.x, arc->u.y) + hypot (arc->v.x, arc->v.y)) * fabs (to - from);
  const bool corner = depth == 0 || size <= CORNER_SIZE;
  double turn = 0;

  add_turn (arc_tangent (arc, from), arc_tangent (arc, to), &turn);
  if (turn <= TURN || (corner && last))
    emit (path, last ? arc->end : arc_point (arc, to));
  else if (!corner)
    {
      const double half = (from + to) / 2;

      arc_flatten (path, arc, from, half, depth - 1);
      arc_flatten (path, arc, half, to, depth - 1);
    }
}

/* The largest factor by which the map from the unit circle to the ellipse stretches a line. */
static double
arc_stretch (const Arc *arc)
{
  /* Taken in parts of its size, so that squares of huge radii stay finite. */
  const double size = hypot (hypot (arc->u.x, arc->u.y), hypot (arc->v.x, arc->v.y));
  const double area = fabs (pf_point_cross ((PfPoint){ arc->u.x / size, arc->u.y / size },
                                            (PfPoint){ arc->v.x / size, arc->v.y / size }));

  return size > 0 ? size * sqrt ((1 + sqrt (fmax (0, (1 - 2 * area) * (1 + 2 * area)))) / 2) : 0;
}

static void
arc_draw (PfPath *path, const Arc *arc)
{
  /* A step of d radians rises by 1 - cos (d / 2) <= d² / 8 above its chord on the unit circle, and
   * by at most that times the stretch on the sheet. */
  const double step = fmin (atan (TURN), sqrt (8 * TOLERANCE / arc_stretch (arc)));
  const double steps = ceil (fabs (arc->sweep) / step);

  if (!(steps <= MAX_ARC_STEPS))
    {
      check (path, arc_point (arc, arc->sweep / 2));
      check (path, (PfPoint){ INFINITY, INFINITY });
      return;
    }
  for (double i = 1; i <= steps && !path->broken; i++)
    {
      const double to = i < steps ? arc->sweep * i / steps : arc->sweep;

      arc_flatten (path, arc, arc->sweep * (i - 1) / steps, to, MAX_DEPTH);
    }
}

/* SVG 2, appendix B.2.4, done on the unit circle: `half` is half the way from the arc's end to its
 * start there, at most 1 long. */
static void
arc_find_angles (Arc *arc, PfPoint half, bool large, bool sweep)
{
  const double h = fmin (1, hypot (half.x, half.y));
  const double rise = sqrt ((1 - h) * (1 + h));
  const double to_centre = (large == sweep ? -rise : rise) / h;
  const double turn = 2 * atan2 (h, rise);

  arc->first = atan2 (half.y + to_centre * half.x, half.x - to_centre * half.y);
  arc->sweep = (large ? 2 * G_PI - turn : turn) * (sweep ? 1 : -1);
}

void
pf_path_arc_to (PfPath *path, double rx, double ry, double rotation, bool large, bool sweep,
                PfPoint to)
{
  const PfAffine m = path->to_sheet;
  const PfPoint from = path->current;
  const double c = cos (rotation * G_PI / 180), s = sin (rotation * G_PI / 180);
  const double dx = (from.x - to.x) / 2, dy = (from.y - to.y) / 2;
  Arc arc = { .start = pf_affine_map (m, from), .end = pf_affine_map (m, to) };

  path->current = to;
  if (!check (path, arc.end) ||
      !check (path, (PfPoint){ isfinite (rx + ry + rotation) ? 0 : NAN, 0 }))
    return;
  rx = fabs (rx);
  ry = fabs (ry);
  PfPoint half = { (c * dx + s * dy) / rx, (c * dy - s * dx) / ry };
  const double h = hypot (half.x, half.y);
  /* A zero radius, or radii so large that nothing is left of the arc's rise. */
  if (rx <= 0 || ry <= 0 || !(h > 0 && h < INFINITY))
    {
      emit (path, arc.end);
      return;
    }
  /* Appendix B.2.5: radii too small are enlarged just enough. */
  const double enlarge = fmax (1, h);
  half = (PfPoint){ half.x / enlarge, half.y / enlarge };
  rx *= enlarge;
  ry *= enlarge;
  arc.u = (PfPoint){ rx * (m.xx * c + m.xy * s), rx * (m.yx * c + m.yy * s) };
  arc.v = (PfPoint){ ry * (m.xy * c - m.xx * s), ry * (m.yy * c - m.yx * s) };
  arc_find_angles (&arc, half, large, sweep);
  arc_draw (path, &arc);
}
