/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Curves: made, looked at, flattened. Everything asks segments for their four control points; a
 * straight segment is one whose handles lie at its nodes.
 */
#include "curve.h"

#include <math.h>

#include "outline.h"
#include "path.h"

bool
pf_node_runs_smooth (const PfNode *node)
{
  const PfPoint in = pf_point_minus (node->at, node->in);
  const PfPoint out = pf_point_minus (node->out, node->at);
  const double along = pf_point_dot (in, out);

  return along > 0 && fabs (pf_point_cross (in, out)) <= tan (G_PI / 180) * along;
}

PfCurve *
pf_curve_new (const PfNode *nodes, size_t n, bool closed)
{
  PfCurve *curve = g_new0 (PfCurve, 1);

  curve->refs = 1;
  curve->nodes = g_memdup2 (nodes, n * sizeof *nodes);
  curve->n_nodes = n;
  curve->closed = closed;
  return curve;
}

PfCurve *
pf_curve_ref (PfCurve *curve)
{
  g_atomic_int_inc (&curve->refs);
  return curve;
}

void
pf_curve_unref (PfCurve *curve)
{
  if (!curve || !g_atomic_int_dec_and_test (&curve->refs))
    return;
  g_free (curve->nodes);
  g_free (curve);
}

static bool
same_point (PfPoint p, PfPoint q)
{
  return !(p.x < q.x || p.x > q.x || p.y < q.y || p.y > q.y);
}

bool
pf_curve_equal (const PfCurve *a, const PfCurve *b)
{
  if (a->n_nodes != b->n_nodes || a->closed != b->closed)
    return false;
  for (size_t i = 0; i < a->n_nodes; i++)
    {
      const PfNode *p = &a->nodes[i], *q = &b->nodes[i];
      if (!same_point (p->at, q->at) || !same_point (p->in, q->in) ||
          !same_point (p->out, q->out) || p->smooth != q->smooth)
        return false;
    }
  return true;
}

PfCurve *
pf_curve_new_straight (const PfPoint *points, size_t n, bool closed)
{
  g_autofree PfNode *nodes = g_new (PfNode, MAX (n, 1));

  for (size_t i = 0; i < n; i++)
    nodes[i] = (PfNode){ points[i], points[i], points[i], false };
  return pf_curve_new (nodes, n, closed);
}

PfCurve *
pf_curve_new_ellipse (PfPoint centre, double rx, double ry)
{
  const double k = 4.0 / 3 * (G_SQRT2 - 1);
  const PfPoint at[4] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
  PfNode nodes[4];

  for (int i = 0; i < 4; i++)
    {
      const PfPoint p = at[i], along = { -p.y * k, p.x * k };
      nodes[i].at = (PfPoint){ centre.x + rx * p.x, centre.y + ry * p.y };
      nodes[i].in = (PfPoint){ centre.x + rx * (p.x - along.x), centre.y + ry * (p.y - along.y) };
      nodes[i].out = (PfPoint){ centre.x + rx * (p.x + along.x), centre.y + ry * (p.y + along.y) };
      nodes[i].smooth = true;
    }
  return pf_curve_new (nodes, 4, true);
}

PfCurve *
pf_curve_new_rectangle (PfBox box)
{
  const PfPoint corners[4] = {
    box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y }
  };

  return pf_curve_new_straight (corners, 4, true);
}

static void
control_points (const PfCurve *curve, size_t segment, PfPoint p[4])
{
  const PfNode *from = &curve->nodes[segment];
  const PfNode *to = &curve->nodes[(segment + 1) % curve->n_nodes];

  p[0] = from->at;
  p[1] = from->out;
  p[2] = to->in;
  p[3] = to->at;
}

bool
pf_curve_segment_straight (const PfCurve *curve, size_t segment)
{
  PfPoint p[4];

  control_points (curve, segment, p);
  return same_point (p[0], p[1]) && same_point (p[2], p[3]);
}

static double
bezier (double a, double b, double c, double d, double t)
{
  const double s = 1 - t;

  return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
}

PfPoint
pf_curve_point (const PfCurve *curve, size_t segment, double t)
{
  PfPoint p[4];

  control_points (curve, segment, p);
  if (pf_curve_segment_straight (curve, segment))
    return (PfPoint){ p[0].x + t * (p[3].x - p[0].x), p[0].y + t * (p[3].y - p[0].y) };
  return (PfPoint){ bezier (p[0].x, p[1].x, p[2].x, p[3].x, t),
                    bezier (p[0].y, p[1].y, p[2].y, p[3].y, t) };
}

bool
pf_curve_flatten (const PfCurve *curve, PfChain *chain, GError **error)
{
  *chain = (PfChain){ NULL, 0, curve->closed };
  if (curve->n_nodes == 0)
    return true;
  PfPath *path = pf_path_new (PF_AFFINE_IDENTITY);
  pf_path_move_to (path, curve->nodes[0].at);
  for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
    {
      PfPoint p[4];
      control_points (curve, s, p);
      if (pf_curve_segment_straight (curve, s))
        pf_path_line_to (path, p[3]);
      else
        pf_path_curve_to (path, p[1], p[2], p[3]);
    }
  if (curve->closed)
    pf_path_close (path);
  size_t n;
  const PfChain *chains = pf_path_chains (path, &n, error);
  if (chains && n > 0)
    {
      chain->points = g_memdup2 (chains[0].points, chains[0].n_points * sizeof (PfPoint));
      chain->n_points = chains[0].n_points;
    }
  pf_path_free (path);
  return chains != NULL;
}

PfCurve *
pf_path_curve (const PfPath *path, size_t n)
{
  const GArray *nodes = g_ptr_array_index (path->nodes, n);
  const bool closed = g_array_index (path->chains, PfChain, n).closed;
  PfCurve *curve = pf_curve_new ((const PfNode *) (const void *) nodes->data, nodes->len, closed);

  for (size_t i = 0; i < curve->n_nodes; i++)
    curve->nodes[i].smooth = pf_node_runs_smooth (&curve->nodes[i]);
  return curve;
}
