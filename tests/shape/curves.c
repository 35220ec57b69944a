/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "curves.h"

PfPoint
random_point (double size)
{
  return (PfPoint){ g_test_rand_double_range (-size, size),
                    g_test_rand_double_range (-size, size) };
}

/* Nodes anywhere, handles near them or at them. */
PfCurve *
random_curve (size_t n, bool closed)
{
  PfNode nodes[16];

  for (size_t i = 0; i < n; i++)
    {
      const PfPoint at = random_point (100), in = random_point (60), out = random_point (60);
      const bool has_in = g_test_rand_int_range (0, 4) > 0,
                 has_out = g_test_rand_int_range (0, 4) > 0;

      nodes[i] = (PfNode){ at,
                           { at.x + (has_in ? in.x : 0), at.y + (has_in ? in.y : 0) },
                           { at.x + (has_out ? out.x : 0), at.y + (has_out ? out.y : 0) },
                           false };
    }
  return pf_curve_new (nodes, n, closed);
}

double
apart (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

double
distance_at_curve (const PfCurve *curve, size_t segment, double t, PfPoint p)
{
  return apart (pf_curve_point (curve, segment, t), p);
}

double
curve_area (const PfCurve *curve)
{
  PfChain chain;

  g_assert_true (pf_curve_flatten (curve, &chain, NULL));
  const double area = pf_chain_area (chain.points, chain.n_points);
  g_free (chain.points);
  return area;
}

/* The handles of a node are on one line through it, on either side. */
void
assert_node_smooth (const PfNode *node)
{
  const PfPoint in = { node->at.x - node->in.x, node->at.y - node->in.y };
  const PfPoint out = { node->out.x - node->at.x, node->out.y - node->at.y };
  const double a = hypot (in.x, in.y), b = hypot (out.x, out.y);

  g_assert_true (node->smooth);
  g_assert_cmpfloat (fabs (in.x * out.y - in.y * out.x), <=, 1e-12 * (a * b + a + b));
  g_assert_cmpfloat (in.x * out.x + in.y * out.y, >=, -1e-12 * (a + b));
}
