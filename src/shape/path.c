/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Paths: segments mapped to the sheet first and flattened there, so that the flatness holds in mm.
 *
 * The last chain grows while its subpath is drawn, so the chains are complete at any time. A
 * subpath becomes a chain with its first point apart from where it starts: one that goes nowhere
 * leaves none.
 */
#include "path.h"

PfPath *
pf_path_new (PfAffine to_sheet)
{
  PfPath *path = g_new0 (PfPath, 1);

  path->to_sheet = to_sheet;
  path->chains = g_array_new (FALSE, FALSE, sizeof (PfChain));
  path->nodes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
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
  g_ptr_array_unref (path->nodes);
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

bool
pf_path_check (PfPath *path, PfPoint p)
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

void
pf_path_emit (PfPath *path, PfPoint p)
{
  if (!pf_path_check (path, p) || pf_point_near (p, path->last, PF_TOUCH))
    return;
  if (!path->drawing)
    {
      path->capacity = 16;
      const PfChain chain = { g_new (PfPoint, path->capacity), 0, false };
      const PfNode first = { path->last, path->last, path->last, false };
      GArray *nodes = g_array_new (FALSE, FALSE, sizeof (PfNode));
      g_array_append_val (path->chains, chain);
      g_array_append_val (nodes, first);
      g_ptr_array_add (path->nodes, nodes);
      path->drawing = true;
      push (path, path->last);
    }
  push (path, p);
  path->last = p;
}

size_t
pf_path_n_points (const PfPath *path)
{
  return path->drawing ? g_array_index (path->chains, PfChain, path->chains->len - 1).n_points : 0;
}

void
pf_path_add_node (PfPath *path, size_t before, PfPoint out, PfPoint in, PfPoint at)
{
  if (pf_path_n_points (path) <= before)
    return;
  GArray *nodes = g_ptr_array_index (path->nodes, path->nodes->len - 1);
  const PfNode node = { at, in, at, false };
  g_array_index (nodes, PfNode, nodes->len - 1).out = out;
  g_array_append_val (nodes, node);
}

/* A straight segment, on the sheet. */
void
pf_path_emit_line (PfPath *path, PfPoint to)
{
  const size_t before = pf_path_n_points (path);
  const PfPoint from = path->last;

  pf_path_emit (path, to);
  pf_path_add_node (path, before, from, to, to);
}

void
pf_path_move_to (PfPath *path, PfPoint to)
{
  path->drawing = false;
  path->start = path->current = to;
  path->last = pf_affine_map (path->to_sheet, to);
  pf_path_check (path, path->last);
}

void
pf_path_line_to (PfPath *path, PfPoint to)
{
  pf_path_emit_line (path, pf_affine_map (path->to_sheet, to));
  path->current = to;
}

/* A last node that is the first one again is that one. */
static void
join_ends (GArray *nodes)
{
  PfNode *first = &g_array_index (nodes, PfNode, 0);
  const PfNode last = g_array_index (nodes, PfNode, nodes->len - 1);

  if (nodes->len < 2 || !pf_point_near (last.at, first->at, PF_TOUCH))
    return;
  first->in = last.in;
  g_array_set_size (nodes, nodes->len - 1);
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
      join_ends (g_ptr_array_index (path->nodes, path->nodes->len - 1));
    }
  path->drawing = false;
  path->current = path->start;
  path->last = pf_affine_map (path->to_sheet, path->start);
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
        pf_path_add_turn (before, leg, &sum);
      before = leg;
      any = true;
    }
  return sum <= PF_PATH_TURN;
}

/* For a curve that turns little: no point of it is farther from its chord than 3/4 of how far its
 * control points are, since its weights of these two add up to at most 3/4. */
static bool
cubic_is_flat (const Cubic *c)
{
  const PfPoint chord = pf_point_minus (c->p[3], c->p[0]);
  const double a = fabs (pf_point_cross (chord, pf_point_minus (c->p[1], c->p[0])));
  const double b = fabs (pf_point_cross (chord, pf_point_minus (c->p[2], c->p[0])));

  return 0.75 * fmax (a, b) <= PF_PATH_TOLERANCE * sqrt (pf_point_dot (chord, chord));
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
    pf_path_emit (path, c->p[3]);
  else if (depth == 0 || cubic_size (c) <= PF_PATH_CORNER)
    {
      if (last)
        pf_path_emit (path, c->p[3]);
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
    if (!pf_path_check (path, c.p[i]))
      return;
  const size_t before = pf_path_n_points (path);
  cubic_flatten (path, &c, PF_PATH_MAX_DEPTH, true);
  pf_path_add_node (path, before, c.p[1], c.p[2], c.p[3]);
}

void
pf_path_quadratic_to (PfPath *path, PfPoint a, PfPoint to)
{
  const PfPoint from = path->current;
  const PfPoint b = { from.x + (a.x - from.x) * 2 / 3, from.y + (a.y - from.y) * 2 / 3 };
  const PfPoint c = { to.x + (a.x - to.x) * 2 / 3, to.y + (a.y - to.y) * 2 / 3 };

  pf_path_check (path, pf_affine_map (path->to_sheet, a));
  pf_path_curve_to (path, b, c, to);
}
