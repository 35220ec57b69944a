/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edits of curves: each works on a copy that nobody else has seen yet.
 */
#include "curve.h"

#include <math.h>

#include "outline.h"

static PfCurve *
copy (const PfCurve *curve)
{
  return pf_curve_new (curve->nodes, curve->n_nodes, curve->closed);
}

static PfPoint
plus (PfPoint p, PfPoint by)
{
  return (PfPoint){ p.x + by.x, p.y + by.y };
}

static PfPoint
between (PfPoint p, PfPoint q, double t)
{
  return (PfPoint){ p.x + t * (q.x - p.x), p.y + t * (q.y - p.y) };
}

static void
move_node (PfNode *node, PfPoint by)
{
  node->at = plus (node->at, by);
  node->in = plus (node->in, by);
  node->out = plus (node->out, by);
}

PfCurve *
pf_curve_with_node_at (const PfCurve *curve, size_t node, PfPoint to)
{
  PfCurve *edited = copy (curve);

  move_node (&edited->nodes[node], pf_point_minus (to, curve->nodes[node].at));
  return edited;
}

PfCurve *
pf_curve_with_nodes_moved (const PfCurve *curve, const bool *chosen, PfPoint by)
{
  PfCurve *edited = copy (curve);

  for (size_t i = 0; i < edited->n_nodes; i++)
    if (chosen[i])
      move_node (&edited->nodes[i], by);
  return edited;
}

/* Turns `handle` of a node so that it points away from `other`, and keeps its length. */
static PfPoint
opposite (PfPoint at, PfPoint other, PfPoint handle)
{
  const double reach = hypot (other.x - at.x, other.y - at.y);
  const double length = hypot (handle.x - at.x, handle.y - at.y);

  if (reach <= 0)
    return handle;
  return (PfPoint){ at.x - (other.x - at.x) * length / reach,
                    at.y - (other.y - at.y) * length / reach };
}

PfCurve *
pf_curve_with_handle_at (const PfCurve *curve, size_t node, PfHandle handle, PfPoint to)
{
  PfCurve *edited = copy (curve);
  PfNode *n = &edited->nodes[node];

  if (handle == PF_HANDLE_IN)
    n->in = to;
  else
    n->out = to;
  if (n->smooth && handle == PF_HANDLE_IN)
    n->out = opposite (n->at, n->in, n->out);
  else if (n->smooth)
    n->in = opposite (n->at, n->out, n->in);
  return edited;
}

/* A new handle of a third of the way to the neighbour: towards it, but on the line of the other
 * handle at a smooth node that has one. */
static PfPoint
new_handle (const PfNode *node, PfPoint other, PfPoint neighbour)
{
  const PfPoint handle = between (node->at, neighbour, 1.0 / 3);

  return node->smooth ? opposite (node->at, other, handle) : handle;
}

static void
set_straight (PfCurve *curve, size_t segment, bool straight)
{
  PfNode *from = &curve->nodes[segment], *to = &curve->nodes[(segment + 1) % curve->n_nodes];
  const PfPoint out = new_handle (from, from->in, to->at), in = new_handle (to, to->out, from->at);

  from->out = straight ? from->at : out;
  to->in = straight ? to->at : in;
}

PfCurve *
pf_curve_with_segment_straight (const PfCurve *curve, size_t segment, bool straight)
{
  PfCurve *edited = copy (curve);

  set_straight (edited, segment, straight);
  return edited;
}

/* The point at t moves by the share 3·s²·t of the first handle's move and 3·s·t² of the second's;
 * both are moved by the same way, which is the least move for its middle. */
PfCurve *
pf_curve_with_segment_through (const PfCurve *curve, size_t segment, double t, PfPoint to)
{
  PfCurve *edited = copy (curve);
  const double near_end = 0.05, u = fmin (1 - near_end, fmax (near_end, t)), s = 1 - u;

  if (pf_curve_segment_straight (curve, segment))
    set_straight (edited, segment, false);
  const PfPoint move = pf_point_minus (to, pf_curve_point (edited, segment, u));
  const double share = 3 * s * u; /* 3·s²·u + 3·s·u² */
  const PfPoint by = { move.x / share, move.y / share };
  PfNode *from = &edited->nodes[segment], *end = &edited->nodes[(segment + 1) % edited->n_nodes];
  from->out = plus (from->out, by);
  end->in = plus (end->in, by);
  /* The only node of a closed curve is both ends: turning a handle would move the segment again. */
  if (from == end)
    from->smooth = pf_node_runs_smooth (from);
  else if (from->smooth)
    from->in = opposite (from->at, from->out, from->in);
  if (from != end && end->smooth)
    end->out = opposite (end->at, end->in, end->out);
  return edited;
}

PfCurve *
pf_curve_with_node_added (const PfCurve *curve, size_t segment, double t)
{
  const size_t n = curve->n_nodes, next = (segment + 1) % n;
  const bool straight = pf_curve_segment_straight (curve, segment);
  g_autofree PfNode *nodes = g_new (PfNode, n + 1);
  const PfNode from = curve->nodes[segment], to = curve->nodes[next];
  const PfPoint a = between (from.at, from.out, t), b = between (from.out, to.in, t);
  const PfPoint c = between (to.in, to.at, t), d = between (a, b, t), e = between (b, c, t);

  for (size_t i = 0, o = 0; i < n; i++)
    {
      nodes[o++] = curve->nodes[i];
      if (i == segment)
        nodes[o++] = (PfNode){ between (d, e, t), d, e, true };
    }
  PfNode *added = &nodes[segment + 1];
  if (straight)
    {
      const PfPoint at = between (from.at, to.at, t);
      *added = (PfNode){ at, at, at, false };
    }
  else
    {
      nodes[segment].out = a;
      nodes[next == 0 ? 0 : segment + 2].in = c;
    }
  return pf_curve_new (nodes, n + 1, curve->closed);
}

PfCurve *
pf_curve_with_node_appended (const PfCurve *curve, PfNode node)
{
  g_autofree PfNode *nodes = g_new (PfNode, curve->n_nodes + 1);

  for (size_t i = 0; i < curve->n_nodes; i++)
    nodes[i] = curve->nodes[i];
  nodes[curve->n_nodes] = node;
  return pf_curve_new (nodes, curve->n_nodes + 1, curve->closed);
}

static bool
all_straight (const PfCurve *curve)
{
  for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
    if (!pf_curve_segment_straight (curve, s))
      return false;
  return true;
}

PfCurve *
pf_curve_without_nodes (const PfCurve *curve, const bool *chosen)
{
  g_autofree PfNode *nodes = g_new (PfNode, MAX (curve->n_nodes, 1));
  size_t n = 0;

  for (size_t i = 0; i < curve->n_nodes; i++)
    if (!chosen[i])
      nodes[n++] = curve->nodes[i];
  if (n < 2)
    return NULL;
  PfCurve *edited = pf_curve_new (nodes, n, curve->closed);
  if (n == 2 && curve->closed && all_straight (edited))
    g_clear_pointer (&edited, pf_curve_unref);
  return edited;
}

/* A handle a third of the way to the neighbour, where there was none. */
static void
give_handle (PfPoint *handle, PfPoint at, PfPoint neighbour)
{
  if (!pf_point_near (*handle, at, PF_TOUCH))
    return;
  *handle = between (at, neighbour, 1.0 / 3);
}

PfCurve *
pf_curve_with_smooth (const PfCurve *curve, size_t node, bool smooth)
{
  PfCurve *edited = copy (curve);
  const size_t n = curve->n_nodes;
  PfNode *at = &edited->nodes[node];

  at->smooth = smooth;
  if (!smooth || n < 2 || (!curve->closed && (node == 0 || node == n - 1)))
    return edited;
  give_handle (&at->in, at->at, edited->nodes[(node + n - 1) % n].at);
  give_handle (&at->out, at->at, edited->nodes[(node + 1) % n].at);
  const double in = hypot (at->in.x - at->at.x, at->in.y - at->at.y);
  const double out = hypot (at->out.x - at->at.x, at->out.y - at->at.y);
  /* The line that both are put on divides the angle between them in equal parts. */
  PfPoint along = { (at->out.x - at->at.x) / out - (at->in.x - at->at.x) / in,
                    (at->out.y - at->at.y) / out - (at->in.y - at->at.y) / in };
  const double length = hypot (along.x, along.y);
  if (!(in > 0 && out > 0))
    return edited;
  if (length < 1e-9) /* a spike: across it */
    along = (PfPoint){ -(at->out.y - at->at.y) / out, (at->out.x - at->at.x) / out };
  else
    along = (PfPoint){ along.x / length, along.y / length };
  at->in = (PfPoint){ at->at.x - along.x * in, at->at.y - along.y * in };
  at->out = (PfPoint){ at->at.x + along.x * out, at->at.y + along.y * out };
  return edited;
}

PfCurve *
pf_curve_closed (const PfCurve *curve)
{
  return pf_curve_new (curve->nodes, curve->n_nodes, true);
}

PfCurve *
pf_curve_reversed (const PfCurve *curve)
{
  const size_t n = curve->n_nodes;
  g_autofree PfNode *nodes = g_new (PfNode, MAX (n, 1));

  for (size_t i = 0; i < n; i++)
    {
      /* A closed curve keeps its first node. */
      const PfNode node = curve->nodes[curve->closed ? (n - i) % n : n - 1 - i];
      nodes[i] = (PfNode){ node.at, node.out, node.in, node.smooth };
    }
  return pf_curve_new (nodes, n, curve->closed);
}

PfCurve *
pf_curve_mapped (const PfCurve *curve, PfAffine map)
{
  PfCurve *edited = copy (curve);

  for (size_t i = 0; i < edited->n_nodes; i++)
    {
      PfNode *node = &edited->nodes[i];
      node->at = pf_affine_map (map, node->at);
      node->in = pf_affine_map (map, node->in);
      node->out = pf_affine_map (map, node->out);
    }
  return edited;
}

PfAffine
pf_axis_reflection (PfAxis axis)
{
  const double c = cos (axis.angle * G_PI / 90), s = sin (axis.angle * G_PI / 90);
  PfAffine map = { c, s, s, -c, 0, 0 };

  map.x0 = axis.at.x - (map.xx * axis.at.x + map.xy * axis.at.y);
  map.y0 = axis.at.y - (map.yx * axis.at.x + map.yy * axis.at.y);
  return map;
}

/* Lays a node within `snap` of the axis on it. */
static bool
lay_on_axis (PfNode *node, PfAffine reflection, double snap)
{
  const PfPoint image = pf_affine_map (reflection, node->at);

  if (hypot (image.x - node->at.x, image.y - node->at.y) > 2 * snap)
    return false;
  move_node (node, pf_point_minus (between (node->at, image, 0.5), node->at));
  return true;
}

PfCurve *
pf_curve_with_mirror_half (const PfCurve *half, PfAxis axis, double snap)
{
  const PfAffine reflection = pf_axis_reflection (axis);
  g_autoptr (PfCurve) first = copy (half);
  const size_t n = first->n_nodes;
  g_autofree PfNode *nodes = g_new (PfNode, MAX (2 * n, 1));
  size_t total = 0;

  if (n == 0)
    return g_steal_pointer (&first);
  const bool start = lay_on_axis (&first->nodes[0], reflection, snap);
  const bool end = n > 1 && lay_on_axis (&first->nodes[n - 1], reflection, snap);
  for (size_t i = 0; i < n; i++)
    nodes[total++] = first->nodes[i];
  g_autoptr (PfCurve) image = pf_curve_mapped (first, reflection);
  /* On the axis the image's handle goes on, and only one across the axis does so smoothly. */
  if (end)
    {
      nodes[n - 1].out = image->nodes[n - 1].in;
      nodes[n - 1].smooth = pf_node_runs_smooth (&nodes[n - 1]);
    }
  if (start)
    {
      nodes[0].in = image->nodes[0].out;
      nodes[0].smooth = pf_node_runs_smooth (&nodes[0]);
    }
  for (size_t i = end ? n - 1 : n; i-- > (start ? 1u : 0u);)
    {
      const PfNode node = image->nodes[i];
      nodes[total++] = (PfNode){ node.at, node.out, node.in, node.smooth };
    }
  return pf_curve_new (nodes, total, true);
}
