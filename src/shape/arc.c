/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Elliptical arcs of a path, flattened from their own equation on the sheet: no other curve stands
 * in for them.
 */
#include "path.h"

/* An arc of more steps leaves PF_OUTLINE_LIMIT: it rises about steps² · PF_PATH_TOLERANCE mm. */
#define MAX_ARC_STEPS 1e5

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
  const bool corner = depth == 0 || size <= PF_PATH_CORNER;
  double turn = 0;

  pf_path_add_turn (arc_tangent (arc, from), arc_tangent (arc, to), &turn);
  if (turn <= PF_PATH_TURN || (corner && last))
    pf_path_emit (path, last ? arc->end : arc_point (arc, to));
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

/* How far the cubic curve for a quarter of the unit circle is off at most: from its equation, by
 * handles of 4/3·tan (90°/4). For a part of the angle it is the sixth power of the part. */
#define QUARTER_ERROR 2.74e-4

/* How far the cubic curves may be off, in mm: what two flattenings leave of 2·PF_FLATNESS. */
#define CUBIC_TOLERANCE 0.008

/* The angle in radians of one cubic curve of the arc, at most a right angle. */
static double
arc_cubic_sweep (const Arc *arc)
{
  const double part = pow (CUBIC_TOLERANCE / (QUARTER_ERROR * arc_stretch (arc)), 1.0 / 6);

  return G_PI / 2 * fmin (1, part);
}

/* The cubic curve for `sweep` radians of the arc has handles 4/3·tan (sweep/4) of the radius long:
 * its middle is a point of the arc. */
static void
arc_add_nodes (PfPath *path, const Arc *arc, size_t before)
{
  const double n = fmax (1, ceil (fabs (arc->sweep) / arc_cubic_sweep (arc) - 1e-9));
  const double part = arc->sweep / n;
  const double k = 4.0 / 3 * tan (part / 4);

  for (double i = 0; i < n; i++)
    {
      const PfPoint from = i > 0 ? arc_point (arc, i * part) : arc->start;
      const PfPoint to = i + 1 < n ? arc_point (arc, (i + 1) * part) : arc->end;
      const PfPoint a = arc_tangent (arc, i * part), b = arc_tangent (arc, (i + 1) * part);
      pf_path_add_node (path, before, (PfPoint){ from.x + k * a.x, from.y + k * a.y },
                        (PfPoint){ to.x - k * b.x, to.y - k * b.y }, to);
    }
}

static void
arc_draw (PfPath *path, const Arc *arc)
{
  /* A step of d radians rises by 1 - cos (d / 2) <= d² / 8 above its chord on the unit circle, and
   * by at most that times the stretch on the sheet. */
  const double step = fmin (atan (PF_PATH_TURN), sqrt (8 * PF_PATH_TOLERANCE / arc_stretch (arc)));
  const double steps = ceil (fabs (arc->sweep) / step);

  if (!(steps <= MAX_ARC_STEPS))
    {
      pf_path_check (path, arc_point (arc, arc->sweep / 2));
      pf_path_check (path, (PfPoint){ INFINITY, INFINITY });
      return;
    }
  const size_t before = pf_path_n_points (path);
  for (double i = 1; i <= steps && !path->broken; i++)
    {
      const double to = i < steps ? arc->sweep * i / steps : arc->sweep;

      arc_flatten (path, arc, arc->sweep * (i - 1) / steps, to, PF_PATH_MAX_DEPTH);
    }
  arc_add_nodes (path, arc, before);
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
  if (!pf_path_check (path, arc.end) ||
      !pf_path_check (path, (PfPoint){ isfinite (rx + ry + rotation) ? 0 : NAN, 0 }))
    return;
  rx = fabs (rx);
  ry = fabs (ry);
  PfPoint half = { (c * dx + s * dy) / rx, (c * dy - s * dx) / ry };
  const double h = hypot (half.x, half.y);
  /* A zero radius, or radii so large that nothing is left of the arc's rise. */
  if (rx <= 0 || ry <= 0 || !(h > 0 && h < INFINITY))
    {
      pf_path_emit_line (path, arc.end);
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
