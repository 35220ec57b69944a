/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * No two pair lines of the endless ground cross except at a stitch, and none runs through a stitch
 * that it doesn't end at.
 *
 * Which repeats of two lines come near each other is read off their boxes in repeat coordinates,
 * where repeat vector a is (1, 0) and b is (0, 1); the tests themselves are done in ground units.
 * Lines that lie on one another don't cross; where they part, they do so at a stitch.
 */
#include <math.h>

#include <glib/gi18n-lib.h>

#include "drawing.h"

/* Widens boxes in repeat coordinates, so that rounding leaves no repeat out. */
#define BOX_SPARE 1e-6

typedef struct {
  PfPoint from, to; /* ground units */
  PfBox box;        /* repeat coordinates */
} Drawn;

typedef struct {
  int i0, i1, j0, j1; /* the last ones included */
} Repeats;

static PfPoint
to_repeats (const PfGround *ground, PfPoint p)
{
  const double area = pf_cross (ground->a, ground->b);
  return (PfPoint){ pf_cross (p, ground->b) / area, pf_cross (ground->a, p) / area };
}

static PfPoint
moved (const PfGround *ground, PfPoint p, int i, int j)
{
  return (PfPoint){ p.x + i * ground->a.x + j * ground->b.x,
                    p.y + i * ground->a.y + j * ground->b.y };
}

static Drawn
draw (const PfGround *ground, PfPoint from, PfPoint to)
{
  const PfPoint p = to_repeats (ground, from), q = to_repeats (ground, to);
  return (Drawn){ from,
                  to,
                  { { fmin (p.x, q.x), fmin (p.y, q.y) }, { fmax (p.x, q.x), fmax (p.y, q.y) } } };
}

/* The repeats in which `f` may meet `e`. */
static Repeats
near (const Drawn *e, const Drawn *f)
{
  return (Repeats){ (int) ceil (e->box.min.x - f->box.max.x - BOX_SPARE),
                    (int) floor (e->box.max.x - f->box.min.x + BOX_SPARE),
                    (int) ceil (e->box.min.y - f->box.max.y - BOX_SPARE),
                    (int) floor (e->box.max.y - f->box.min.y + BOX_SPARE) };
}

/* The two points lie clearly on different sides of the line through `from` and `to`. */
static bool
parts (PfPoint from, PfPoint to, PfPoint p, PfPoint q)
{
  const PfPoint way = pf_minus (to, from);
  const double spare = PF_GROUND_TOUCH * hypot (way.x, way.y);
  const double side_p = pf_cross (way, pf_minus (p, from));
  const double side_q = pf_cross (way, pf_minus (q, from));
  return (side_p > spare && side_q < -spare) || (side_p < -spare && side_q > spare);
}

static bool
cross_somewhere (const PfGround *ground, const Drawn *e, const Drawn *f)
{
  const Repeats r = near (e, f);
  for (int i = r.i0; i <= r.i1; i++)
    for (int j = r.j0; j <= r.j1; j++)
      {
        const PfPoint from = moved (ground, f->from, i, j), to = moved (ground, f->to, i, j);
        if (parts (e->from, e->to, from, to) && parts (from, to, e->from, e->to))
          return true;
      }
  return false;
}

/* `p` lies on the line, but not at its ends. */
static bool
runs_through (const Drawn *e, PfPoint p)
{
  const PfPoint way = pf_minus (e->to, e->from), d = pf_minus (p, e->from);
  const PfPoint rest = pf_minus (p, e->to);
  const double length = hypot (way.x, way.y);
  if (hypot (d.x, d.y) <= PF_GROUND_TOUCH || hypot (rest.x, rest.y) <= PF_GROUND_TOUCH)
    return false;
  const double along = d.x * way.x + d.y * way.y;
  return along > 0 && along < length * length &&
         fabs (pf_cross (way, d)) <= PF_GROUND_TOUCH * length;
}

static bool
runs_through_somewhere (const PfGround *ground, const Drawn *e, PfPoint at)
{
  const Drawn point = draw (ground, at, at);
  const Repeats r = near (e, &point);
  for (int i = r.i0; i <= r.i1; i++)
    for (int j = r.j0; j <= r.j1; j++)
      if (runs_through (e, moved (ground, at, i, j)))
        return true;
  return false;
}

static const char *
from_name (const PfGround *ground, int e)
{
  return ground->stitches[ground->lines[e].from.stitch].name;
}

static const char *
to_name (const PfGround *ground, int e)
{
  return ground->stitches[ground->lines[e].to.stitch].name;
}

/* Draws all lines; refuses those so long that looking at all they may meet would take too long. */
static bool
draw_lines (const PfGround *ground, Drawn *drawn, GError **error)
{
  for (int e = 0; e < ground->n_lines; e++)
    {
      const PfPoint from = ground->stitches[ground->lines[e].from.stitch].at;
      const PfPoint way = pf_end_way (ground, 2 * e);
      drawn[e] = draw (ground, from, (PfPoint){ from.x + way.x, from.y + way.y });
      const PfBox box = drawn[e].box;
      if (box.max.x - box.min.x > PF_GROUND_MAX_RUN || box.max.y - box.min.y > PF_GROUND_MAX_RUN)
        {
          g_set_error (
              error, PF_ERROR, PF_ERROR_GROUND,
              _ ("The pair line from “%s” to “%s” is drawn over more than %g repeats: move "
                 "the two stitches nearer to each other."),
              from_name (ground, e), to_name (ground, e), PF_GROUND_MAX_RUN);
          return false;
        }
    }
  return true;
}

static bool
check_line (const PfGround *ground, const Drawn *drawn, int e, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (runs_through_somewhere (ground, &drawn[e], ground->stitches[k].at))
      {
        g_set_error (
            error, PF_ERROR, PF_ERROR_GROUND,
            _ ("The pair line from “%s” to “%s” runs through stitch “%s”, where it doesn't "
               "end: move a stitch, or let the pair work there."),
            from_name (ground, e), to_name (ground, e), ground->stitches[k].name);
        return false;
      }
  for (int f = e; f < ground->n_lines; f++)
    if (cross_somewhere (ground, &drawn[e], &drawn[f]))
      {
        g_set_error (
            error, PF_ERROR, PF_ERROR_GROUND,
            _ ("The pair lines from “%s” to “%s” and from “%s” to “%s” cross where there is "
               "no stitch: check their ends, or move a stitch."),
            from_name (ground, e), to_name (ground, e), from_name (ground, f), to_name (ground, f));
        return false;
      }
  return true;
}

bool
pf_ground_check_crossings (const PfGround *ground, GError **error)
{
  g_autofree Drawn *drawn = g_new (Drawn, ground->n_lines);
  if (!draw_lines (ground, drawn, error))
    return false;
  for (int e = 0; e < ground->n_lines; e++)
    if (!check_line (ground, drawn, e, error))
      return false;
  return true;
}

bool
pf_ground_check_drawing (const PfGround *ground, GError **error)
{
  return pf_ground_check_order (ground, error) && pf_ground_check_crossings (ground, error) &&
         pf_ground_check_meshes (ground, error);
}
