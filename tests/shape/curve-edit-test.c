/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edits of curves: what must not change the shape, and what each promises of it. */
#include "curves.h"

static void
test_node_added (void)
{
  for (int k = 0; k < 200; k++)
    {
      g_autoptr (PfCurve) curve =
          random_curve ((size_t) g_test_rand_int_range (2, 6), g_test_rand_bit ());
      const size_t n = pf_curve_n_segments (curve),
                   at = (size_t) g_test_rand_int_range (0, (int) n);
      const double t = g_test_rand_double_range (0, 1);
      g_autoptr (PfCurve) split = pf_curve_with_node_added (curve, at, t);

      g_assert_cmpuint (split->n_nodes, ==, curve->n_nodes + 1);
      g_assert_true (pf_curve_segment_straight (split, at) ==
                     pf_curve_segment_straight (curve, at));
      for (size_t s = 0; s < n; s++)
        for (int i = 0; i <= 20; i++)
          {
            const double u = i / 20.0;
            const PfPoint p = pf_curve_point (curve, s, u);
            const bool second = s > at || (s == at && u > t);
            const double v = s != at ? u : second ? (u - t) / (1 - t) : u / t;

            g_assert_cmpfloat (distance_at_curve (split, s + second, v, p), <, 1e-11);
          }
      if (!pf_curve_segment_straight (curve, at))
        assert_node_smooth (&split->nodes[at + 1]);
    }
}

/* The teardrop: one node, whose segment comes back to it. */
static void
test_node_added_to_teardrop (void)
{
  const PfNode node = { { 0, 0 }, { 40, 40 }, { -40, 40 }, false };
  g_autoptr (PfCurve) drop = pf_curve_new (&node, 1, true);
  g_autoptr (PfCurve) split = pf_curve_with_node_added (drop, 0, 0.5);
  g_autoptr (PfCurve) bent = pf_curve_with_segment_through (drop, 0, 0.5, (PfPoint){ 3, 50 });

  g_assert_cmpuint (split->n_nodes, ==, 2);
  for (int i = 0; i <= 20; i++)
    {
      const PfPoint p = pf_curve_point (drop, 0, i / 20.0);

      g_assert_cmpfloat (distance_at_curve (split, i > 10, i > 10 ? i / 10.0 - 1 : i / 10.0, p), <,
                         1e-12);
    }
  g_assert_cmpfloat (distance_at_curve (bent, 0, 0.5, (PfPoint){ 3, 50 }), <, 1e-12);
  g_assert_cmpfloat_with_epsilon (curve_area (drop), curve_area (split), 1e-9);
}

static void
test_moves (void)
{
  for (int k = 0; k < 100; k++)
    {
      const size_t n = (size_t) g_test_rand_int_range (2, 7);
      g_autoptr (PfCurve) curve = random_curve (n, k % 2);
      const size_t node = (size_t) g_test_rand_int_range (0, (int) n);
      const PfPoint by = random_point (50), at = curve->nodes[node].at;
      const PfPoint to = { at.x + by.x, at.y + by.y };
      bool chosen[8] = { false };
      g_autoptr (PfCurve) moved = pf_curve_with_node_at (curve, node, to);

      chosen[node] = true;
      g_autoptr (PfCurve) with_flags = pf_curve_with_nodes_moved (curve, chosen, by);
      g_assert_cmpfloat (apart (moved->nodes[node].at, to), <, 1e-12);
      g_assert_cmpfloat (apart (moved->nodes[node].in, with_flags->nodes[node].in), <, 1e-12);
      g_assert_cmpfloat_with_epsilon (apart (moved->nodes[node].out, to),
                                      apart (curve->nodes[node].out, at), 1e-12);
      for (size_t i = 0; i < n; i++)
        chosen[i] = true;
      g_autoptr (PfCurve) all = pf_curve_with_nodes_moved (curve, chosen, by);
      g_autoptr (PfCurve) mapped = pf_curve_mapped (curve, (PfAffine){ 1, 0, 0, 1, by.x, by.y });
      g_assert_true (pf_curve_equal (all, mapped));
      g_assert_false (pf_curve_equal (all, curve));
    }
}

/* A smooth node stays so whatever is done to its handles. */
static void
test_smooth (void)
{
  for (int k = 0; k < 200; k++)
    {
      const size_t n = (size_t) g_test_rand_int_range (3, 7),
                   node = (size_t) g_test_rand_int_range (0, (int) n);
      g_autoptr (PfCurve) curve = random_curve (n, true);
      g_autoptr (PfCurve) smooth = pf_curve_with_smooth (curve, node, true);
      const PfNode *before = &smooth->nodes[node];
      const PfHandle handle = k % 2 ? PF_HANDLE_IN : PF_HANDLE_OUT;
      const PfPoint to = random_point (150);
      g_autoptr (PfCurve) turned = pf_curve_with_handle_at (smooth, node, handle, to);
      const PfNode *after = &turned->nodes[node];
      g_autoptr (PfCurve) bent = pf_curve_with_segment_through (turned, node, 0.3, to);
      g_autoptr (PfCurve) straight = pf_curve_with_segment_straight (bent, node, true);
      g_autoptr (PfCurve) curved = pf_curve_with_segment_straight (straight, node, false);
      g_autoptr (PfCurve) corner = pf_curve_with_smooth (smooth, node, false);

      assert_node_smooth (before);
      g_assert_cmpfloat (apart (before->in, before->at), >, 0);
      g_assert_cmpfloat (apart (before->out, before->at), >, 0);
      assert_node_smooth (after);
      g_assert_cmpfloat (apart (handle == PF_HANDLE_IN ? after->in : after->out, to), ==, 0);
      g_assert_cmpfloat_with_epsilon (
          apart (handle == PF_HANDLE_IN ? after->out : after->in, after->at),
          apart (handle == PF_HANDLE_IN ? before->out : before->in, before->at), 1e-9);
      assert_node_smooth (&bent->nodes[node]);
      g_assert_cmpfloat (distance_at_curve (bent, node, 0.3, to), <, 1e-9);
      g_assert_true (pf_curve_segment_straight (straight, node));
      assert_node_smooth (&curved->nodes[node]);
      g_assert_false (pf_curve_segment_straight (curved, node));
      g_assert_false (corner->nodes[node].smooth);
      g_assert_cmpfloat (apart (corner->nodes[node].in, before->in), ==, 0);
    }
}

/* A corner of two straight segments becomes smooth by handles of a third of them. */
static void
test_smooth_corner (void)
{
  g_autoptr (PfCurve) box = pf_curve_new_rectangle ((PfBox){ { 0, 0 }, { 30, 60 } });
  g_autoptr (PfCurve) smooth = pf_curve_with_smooth (box, 1, true);

  assert_node_smooth (&smooth->nodes[1]);
  g_assert_cmpfloat_with_epsilon (apart (smooth->nodes[1].in, smooth->nodes[1].at), 10, 1e-12);
  g_assert_cmpfloat_with_epsilon (apart (smooth->nodes[1].out, smooth->nodes[1].at), 20, 1e-12);
}

static void
test_through (void)
{
  for (int k = 0; k < 100; k++)
    {
      g_autoptr (PfCurve) curve = random_curve (4, true);
      const size_t segment = (size_t) g_test_rand_int_range (0, 4);
      const double t = g_test_rand_double_range (0.05, 0.95);
      const PfPoint to = random_point (150);
      g_autoptr (PfCurve) bent = pf_curve_with_segment_through (curve, segment, t, to);

      g_assert_cmpfloat (distance_at_curve (bent, segment, t, to), <, 1e-11);
      g_assert_false (pf_curve_segment_straight (bent, segment));
      g_assert_cmpfloat (apart (bent->nodes[segment].at, curve->nodes[segment].at), ==, 0);
    }
}

static void
test_without_nodes (void)
{
  g_autoptr (PfCurve) box = pf_curve_new_rectangle ((PfBox){ { 0, 0 }, { 30, 60 } });
  g_autoptr (PfCurve) circle = pf_curve_new_ellipse ((PfPoint){ 0, 0 }, 5, 5);
  const bool one[4] = { false, true, false, false }, two[4] = { true, false, true, false };
  const bool three[4] = { true, true, false, true };
  g_autoptr (PfCurve) triangle = pf_curve_without_nodes (box, one);
  g_autoptr (PfCurve) lens = pf_curve_without_nodes (circle, two);

  g_assert_cmpuint (triangle->n_nodes, ==, 3);
  g_assert_cmpfloat (fabs (curve_area (triangle)), ==, 900);
  g_assert_cmpuint (lens->n_nodes, ==, 2);
  g_assert_null (pf_curve_without_nodes (box, two));
  g_assert_null (pf_curve_without_nodes (box, three));
  g_assert_null (pf_curve_without_nodes (circle, three));
}

static void
test_open_and_closed (void)
{
  g_autoptr (PfCurve) open = pf_curve_new_straight ((PfPoint[]){ { 0, 0 }, { 4, 0 } }, 2, false);
  g_autoptr (PfCurve) longer =
      pf_curve_with_node_appended (open, (PfNode){ { 4, 3 }, { 4, 3 }, { 4, 3 }, false });
  g_autoptr (PfCurve) closed = pf_curve_closed (longer);

  g_assert_cmpuint (pf_curve_n_segments (longer), ==, 2);
  g_assert_cmpuint (pf_curve_n_segments (closed), ==, 3);
  g_assert_cmpfloat (curve_area (closed), ==, 6);
  g_assert_cmpuint (open->n_nodes, ==, 2);
}

static void
test_round_trips (void)
{
  for (int k = 0; k < 100; k++)
    {
      g_autoptr (PfCurve) curve =
          random_curve ((size_t) g_test_rand_int_range (1, 7), g_test_rand_bit ());
      const size_t n = pf_curve_n_segments (curve);
      g_autoptr (PfCurve) reversed = pf_curve_reversed (curve);
      g_autoptr (PfCurve) again = pf_curve_reversed (reversed);
      const PfAffine map = { g_test_rand_double_range (1, 2),
                             g_test_rand_double_range (-0.5, 0.5),
                             g_test_rand_double_range (-0.5, 0.5),
                             g_test_rand_double_range (1, 2),
                             3,
                             -4 };
      g_autoptr (PfCurve) mapped = pf_curve_mapped (curve, map);
      g_autoptr (PfCurve) back = pf_curve_mapped (mapped, pf_affine_invert (map));

      g_assert_true (pf_curve_equal (curve, again));
      for (size_t s = 0; s < n; s++)
        for (int i = 0; i <= 10; i++)
          {
            const PfPoint p = pf_curve_point (curve, s, i / 10.0);

            g_assert_cmpfloat (distance_at_curve (reversed, n - 1 - s, 1 - i / 10.0, p), <, 1e-11);
            g_assert_cmpfloat (distance_at_curve (mapped, s, i / 10.0, pf_affine_map (map, p)), <,
                               1e-11);
            g_assert_cmpfloat (distance_at_curve (back, s, i / 10.0, p), <, 1e-11);
          }
      if (curve->closed)
        g_assert_cmpfloat (apart (reversed->nodes[0].at, curve->nodes[0].at), ==, 0);
    }
}

/* --- Halves -------------------------------------------------------------------------------------
 */

/* The whole is its own mirror image: every point's image is a point of it. */
static void
check_symmetric (const PfCurve *whole, PfAxis axis)
{
  const PfAffine reflection = pf_axis_reflection (axis);

  g_assert_true (whole->closed);
  for (size_t s = 0; s < whole->n_nodes; s++)
    for (int i = 0; i <= 10; i++)
      {
        const PfPoint image = pf_affine_map (reflection, pf_curve_point (whole, s, i / 10.0));
        size_t segment;
        double t;

        g_assert_cmpfloat (pf_curve_nearest (whole, image, &segment, &t), <, 1e-6);
      }
}

static void
test_halves (void)
{
  for (int k = 0; k < 100; k++)
    {
      const size_t n = (size_t) g_test_rand_int_range (2, 6);
      const PfAxis axis = { random_point (50), g_test_rand_double_range (-180, 180) };
      const double c = cos (axis.angle * G_PI / 180), s = sin (axis.angle * G_PI / 180);
      g_autoptr (PfCurve) any = random_curve (n, false);
      /* The ends are put on the axis or 0.5 mm off it, or stay far away. */
      const double along[2] = { -60, 70 };
      const int where[2] = { k % 3, k / 3 % 3 };
      g_autoptr (PfCurve) half = pf_curve_ref (any);

      for (int e = 0; e < 2; e++)
        {
          const double off = where[e] == 1 ? 0.5 : where[e] == 2 ? 30 : 0;
          const PfPoint to = { axis.at.x + along[e] * c - off * s,
                               axis.at.y + along[e] * s + off * c };
          PfCurve *placed = pf_curve_with_node_at (half, e == 0 ? 0 : n - 1, to);

          pf_curve_unref (half);
          half = placed;
        }
      g_autoptr (PfCurve) whole = pf_curve_with_mirror_half (half, axis, 1);
      g_assert_cmpuint (whole->n_nodes, ==, 2 * n - (where[0] < 2) - (where[1] < 2));
      check_symmetric (whole, axis);
      for (size_t i = 0; i < whole->n_nodes; i++)
        g_assert_true (!whole->nodes[i].smooth || pf_node_runs_smooth (&whole->nodes[i]));
    }
}

/* Half a circle gives the whole one, smooth where the halves meet. */
static void
test_half_circle (void)
{
  g_autoptr (PfCurve) circle = pf_curve_new_ellipse ((PfPoint){ 10, 20 }, 7, 7);
  g_autoptr (PfCurve) half = pf_curve_new (circle->nodes, 3, false);
  g_autoptr (PfCurve) whole = pf_curve_with_mirror_half (half, (PfAxis){ { 0, 20 }, 0 }, 1e-6);

  g_assert_cmpuint (whole->n_nodes, ==, 4);
  for (size_t i = 0; i < 4; i++)
    {
      g_assert_true (whole->nodes[i].smooth);
      g_assert_cmpfloat (apart (whole->nodes[i].at, circle->nodes[i].at), <, 1e-12);
      g_assert_cmpfloat (apart (whole->nodes[i].in, circle->nodes[i].in), <, 1e-12);
      g_assert_cmpfloat (apart (whole->nodes[i].out, circle->nodes[i].out), <, 1e-12);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/curve/node-added", test_node_added);
  g_test_add_func ("/curve/node-added-to-teardrop", test_node_added_to_teardrop);
  g_test_add_func ("/curve/moves", test_moves);
  g_test_add_func ("/curve/smooth", test_smooth);
  g_test_add_func ("/curve/smooth-corner", test_smooth_corner);
  g_test_add_func ("/curve/through", test_through);
  g_test_add_func ("/curve/without-nodes", test_without_nodes);
  g_test_add_func ("/curve/open-and-closed", test_open_and_closed);
  g_test_add_func ("/curve/round-trips", test_round_trips);
  g_test_add_func ("/curve/halves", test_halves);
  g_test_add_func ("/curve/half-circle", test_half_circle);
  return g_test_run ();
}
