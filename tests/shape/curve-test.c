/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Curves measured against their own equation, sampled densely; the degenerate ones; and the nodes
 * that a path keeps.
 */
#include <string.h>

#include "curves.h"

/* --- Measures -----------------------------------------------------------------------------------
 */

#define SAMPLES 1000

/* The distance by looking everywhere: each sample lower than its neighbours is narrowed down. */
static double
least_distance (const PfCurve *curve, PfPoint p)
{
  double least = apart (curve->nodes[0].at, p);

  for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
    for (int i = 0; i < SAMPLES; i++)
      {
        double low = fmax (0, i - 1.0) / SAMPLES, high = (i + 1.0) / SAMPLES;

        if (distance_at_curve (curve, s, (double) i / SAMPLES, p) > least + 5)
          continue;
        for (int k = 0; k < 60; k++)
          {
            const double third = (high - low) / 3;

            if (distance_at_curve (curve, s, low + third, p) <
                distance_at_curve (curve, s, high - third, p))
              high -= third;
            else
              low += third;
          }
        least = fmin (least, distance_at_curve (curve, s, (low + high) / 2, p));
      }
  return least;
}

static void
check_nearest (const PfCurve *curve, PfPoint p)
{
  size_t segment;
  double t;
  const double distance = pf_curve_nearest (curve, p, &segment, &t);

  g_assert_cmpuint (segment, <, MAX (pf_curve_n_segments (curve), 1));
  g_assert_true (t >= 0 && t <= 1);
  g_assert_cmpfloat (fabs (distance_at_curve (curve, segment, t, p) - distance), <=, 1e-12);
  g_assert_cmpfloat (distance, <=, least_distance (curve, p) + 1e-6);
}

static void
test_nearest (void)
{
  for (int k = 0; k < 60; k++)
    {
      g_autoptr (PfCurve) curve =
          random_curve ((size_t) g_test_rand_int_range (1, 4), g_test_rand_bit ());

      for (int i = 0; i < 4; i++)
        check_nearest (curve, random_point (150));
      if (pf_curve_n_segments (curve) > 0)
        check_nearest (curve, pf_curve_point (curve, 0, g_test_rand_double_range (0, 1)));
    }
}

/* Where many points are about as near. */
static void
test_nearest_of_many (void)
{
  g_autoptr (PfCurve) circle = pf_curve_new_ellipse ((PfPoint){ 5, 5 }, 80, 80);
  /* Two bends so near one another that coarse steps see one: a narrow hairpin. */
  const PfNode hairpin[] = { { { 0, 0 }, { 0, 0 }, { 100, 0.001 }, false },
                             { { 0, 0.003 }, { 100, 0.002 }, { 0, 0.003 }, false } };
  g_autoptr (PfCurve) narrow = pf_curve_new (hairpin, 2, false);
  /* x = 30t² - 20t, y = 30t³ - 30t² + 10t: both stand still at t = 1/3. */
  const PfNode still[] = { { { 0, 0 }, { 0, 0 }, { -20. / 3, 10. / 3 }, false },
                           { { 10, 10 }, { -10. / 3, -10. / 3 }, { 10, 10 }, false } };
  g_autoptr (PfCurve) cusp = pf_curve_new (still, 2, false);

  check_nearest (circle, (PfPoint){ 5, 5 });
  for (int i = 0; i < 20; i++)
    {
      check_nearest (circle, (PfPoint){ 5 + i * 1e-4, 5 - i * 1e-5 });
      check_nearest (narrow, (PfPoint){ 74.99 + i * 1e-3, 0.0015 });
      check_nearest (narrow, (PfPoint){ i * 5, 0.0015 });
      check_nearest (cusp, (PfPoint){ -10. / 3 - 1 + i * 0.1, 10. / 9 });
    }
}

static void
test_box (void)
{
  for (int k = 0; k < 100; k++)
    {
      g_autoptr (PfCurve) curve =
          random_curve ((size_t) g_test_rand_int_range (1, 6), g_test_rand_bit ());
      const PfBox box = pf_curve_box (curve);
      PfBox seen = { curve->nodes[0].at, curve->nodes[0].at };

      for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
        for (int i = 0; i <= 10 * SAMPLES; i++)
          {
            const PfPoint p = pf_curve_point (curve, s, i / (10.0 * SAMPLES));

            seen.min = (PfPoint){ fmin (seen.min.x, p.x), fmin (seen.min.y, p.y) };
            seen.max = (PfPoint){ fmax (seen.max.x, p.x), fmax (seen.max.y, p.y) };
          }
      /* Half a step beside a turning point a sample is off by less than 1e-5 of such a curve. */
      g_assert_cmpfloat (box.min.x, <=, seen.min.x + 1e-9);
      g_assert_cmpfloat (box.min.y, <=, seen.min.y + 1e-9);
      g_assert_cmpfloat (box.max.x, >=, seen.max.x - 1e-9);
      g_assert_cmpfloat (box.max.y, >=, seen.max.y - 1e-9);
      g_assert_cmpfloat (apart (box.min, seen.min), <, 1e-5);
      g_assert_cmpfloat (apart (box.max, seen.max), <, 1e-5);
    }
}

/* The radius of four cubic quarters is off by 2.7253e-4 at most and by none at their ends and
 * middles: worked out from (x² + y²) of the quarter with handles of 4/3·(√2 - 1). */
static void
test_ellipse (void)
{
  const double rx = 31, ry = 12;
  g_autoptr (PfCurve) ellipse = pf_curve_new_ellipse ((PfPoint){ 40, -7 }, rx, ry);
  double most = 0;

  g_assert_true (ellipse->closed);
  for (size_t s = 0; s < 4; s++)
    {
      assert_node_smooth (&ellipse->nodes[s]);
      for (int i = 0; i <= SAMPLES; i++)
        {
          const PfPoint p = pf_curve_point (ellipse, s, (double) i / SAMPLES);
          const double radius = hypot ((p.x - 40) / rx, (p.y + 7) / ry);

          most = fmax (most, radius - 1);
          g_assert_cmpfloat (radius, >=, 1 - 1e-12);
        }
    }
  g_assert_cmpfloat_with_epsilon (most, 2.7253e-4, 1e-7);
  /* The chain is up to PF_FLATNESS / 2 within it. */
  g_assert_cmpfloat (fabs (curve_area (ellipse) / (G_PI * rx * ry) - 1), <, 1e-3);
  g_assert_cmpfloat (curve_area (ellipse), >, 0);
}

static void
test_flatten (void)
{
  for (int k = 0; k < 40; k++)
    {
      g_autoptr (PfCurve) curve =
          random_curve ((size_t) g_test_rand_int_range (2, 6), g_test_rand_bit ());
      PfChain chain;

      g_assert_true (pf_curve_flatten (curve, &chain, NULL));
      g_assert_true (chain.closed == curve->closed);
      g_assert_cmpfloat (apart (chain.points[0], curve->nodes[0].at), ==, 0);
      for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
        for (int i = 0; i <= 100; i++)
          {
            const PfPoint p = pf_curve_point (curve, s, i / 100.0);

            g_assert_cmpfloat (distance_to_chain (p, &chain), <=, PF_FLATNESS);
          }
      g_free (chain.points);
    }
}

/* --- Degenerate curves --------------------------------------------------------------------------
 */

static void
test_few_nodes (void)
{
  const PfNode node = { { 3, 4 }, { 3, 4 }, { 3, 4 }, true };
  g_autoptr (PfCurve) none = pf_curve_new (NULL, 0, true);
  const bool chosen[1] = { true };

  g_assert_cmpuint (pf_curve_n_segments (none), ==, 0);
  for (int closed = 0; closed < 2; closed++)
    {
      g_autoptr (PfCurve) one = pf_curve_new (&node, 1, closed);
      g_autoptr (PfCurve) reversed = pf_curve_reversed (one);
      g_autoptr (PfCurve) corner = pf_curve_with_smooth (one, 0, false);
      g_autoptr (PfCurve) smooth = pf_curve_with_smooth (corner, 0, true);
      g_autoptr (PfCurve) whole = pf_curve_with_mirror_half (one, (PfAxis){ { 0, 0 }, 0 }, 1);
      const PfBox box = pf_curve_box (one);
      PfChain chain;
      size_t segment;
      double t;

      g_assert_cmpuint (pf_curve_n_segments (one), ==, closed);
      g_assert_true (pf_curve_equal (one, reversed) && pf_curve_equal (one, smooth));
      g_assert_false (pf_curve_equal (one, corner));
      g_assert_cmpuint (whole->n_nodes, ==, 2);
      g_assert_cmpfloat (pf_curve_nearest (one, (PfPoint){ 0, 0 }, &segment, &t), ==, 5);
      g_assert_cmpfloat (apart (box.min, box.max), ==, 0);
      g_assert_true (pf_curve_flatten (one, &chain, NULL));
      g_assert_null (chain.points);
      g_assert_null (pf_curve_without_nodes (one, chosen));
    }
}

/* All nodes and handles at one point: nothing to flatten, and nothing divides by 0. */
static void
test_coincident (void)
{
  PfNode nodes[3];
  const PfPoint p = { 1, 2 };

  for (int i = 0; i < 3; i++)
    nodes[i] = (PfNode){ p, p, p, true };
  g_autoptr (PfCurve) curve = pf_curve_new (nodes, 3, true);
  g_autoptr (PfCurve) smooth = pf_curve_with_smooth (curve, 1, true);
  g_autoptr (PfCurve) split = pf_curve_with_node_added (curve, 2, 0.5);
  g_autoptr (PfCurve) turned = pf_curve_with_handle_at (curve, 1, PF_HANDLE_IN, (PfPoint){ 5, 5 });
  PfChain chain;

  g_assert_true (pf_curve_equal (curve, smooth));
  g_assert_cmpfloat (apart (split->nodes[3].at, p), ==, 0);
  g_assert_cmpfloat (apart (turned->nodes[1].out, p), ==, 0);
  check_nearest (curve, (PfPoint){ 4, 6 });
  g_assert_true (pf_curve_flatten (curve, &chain, NULL));
  g_assert_null (chain.points);
}

/* Numbers beyond any sheet are refused where they are flattened, and end everywhere else. */
static void
test_huge (void)
{
  static const double sizes[] = { 2e5, 1e12, 1e100, 1e160, 1e300, 1.7e308, INFINITY, NAN };

  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      const double s = sizes[i];
      const PfNode nodes[] = { { { -s, 0 }, { -s, -s }, { -s, s }, true },
                               { { s, 0 }, { s, s }, { s, -s }, true } };
      g_autoptr (PfCurve) curve = pf_curve_new (nodes, 2, true);
      g_autoptr (PfCurve) split = pf_curve_with_node_added (curve, 0, 0.5);
      g_autoptr (PfCurve) smooth = pf_curve_with_smooth (curve, 0, true);
      g_autoptr (GError) error = NULL;
      size_t segment;
      double t;
      PfChain chain;

      pf_curve_nearest (curve, (PfPoint){ 0, 0 }, &segment, &t);
      g_assert_true (segment < 2 && t >= 0 && t <= 1);
      pf_curve_box (curve);
      g_assert_false (pf_curve_flatten (curve, &chain, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
      g_assert_null (chain.points);
    }
}

/* --- Nodes of paths -----------------------------------------------------------------------------
 */

/* Without arcs the chain is flattened from the very same curve: not a bit differs. */
static void
test_path_curve (void)
{
  for (int k = 0; k < 100; k++)
    {
      g_autoptr (PfPath) path = pf_path_new ((PfAffine){ 0.7, 0.2, -0.3, 1.1, 5, 6 });
      size_t n_chains;

      for (int i = 0; i < 8; i++)
        {
          const PfPoint a = random_point (80), b = random_point (80), to = random_point (80);
          const int kind = g_test_rand_int_range (0, 6);

          if (kind == 0 || i == 0)
            pf_path_move_to (path, to);
          else if (kind == 1)
            pf_path_close (path);
          else if (kind == 2)
            pf_path_line_to (path, to);
          else if (kind == 3)
            pf_path_quadratic_to (path, a, to);
          else
            pf_path_curve_to (path, a, b, to);
        }
      const PfChain *chains = pf_path_chains (path, &n_chains, NULL);
      for (size_t c = 0; c < n_chains; c++)
        {
          g_autoptr (PfCurve) curve = pf_path_curve (path, c);
          PfChain chain;

          g_assert_true (pf_curve_flatten (curve, &chain, NULL));
          g_assert_true (chain.closed == chains[c].closed);
          g_assert_cmpuint (chain.n_points, ==, chains[c].n_points);
          g_assert_true (
              memcmp (chain.points, chains[c].points, chain.n_points * sizeof (PfPoint)) == 0);
          g_free (chain.points);
        }
    }
}

/* Arcs become cubic curves that are off by no more than 0.008 mm, of at most a right angle. */
static void
test_path_curve_of_arcs (void)
{
  for (int k = 0; k < 60; k++)
    {
      g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
      const double r = pow (10, g_test_rand_double_range (-1, 4));
      size_t n;

      /* Three quarters of a circle from its top, clockwise. */
      pf_path_move_to (path, (PfPoint){ 0, -r });
      pf_path_arc_to (path, r, r, 0, true, true, (PfPoint){ -r, 0 });
      pf_path_chains (path, &n, NULL);
      g_autoptr (PfCurve) curve = pf_path_curve (path, 0);
      g_assert_cmpuint (pf_curve_n_segments (curve), >=, 3);
      g_assert_cmpuint (pf_curve_n_segments (curve), <=, r < 29 ? 3 : 12);
      for (size_t s = 0; s < pf_curve_n_segments (curve); s++)
        for (int i = 0; i <= 20; i++)
          {
            const PfPoint p = pf_curve_point (curve, s, i / 20.0);

            g_assert_cmpfloat (fabs (hypot (p.x, p.y) - r), <=, 0.008);
          }
      for (size_t i = 1; i + 1 < curve->n_nodes; i++)
        g_assert_true (curve->nodes[i].smooth);
      g_assert_cmpfloat (apart (curve->nodes[curve->n_nodes - 1].at, (PfPoint){ -r, 0 }), ==, 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/curve/nearest", test_nearest);
  g_test_add_func ("/curve/nearest-of-many", test_nearest_of_many);
  g_test_add_func ("/curve/box", test_box);
  g_test_add_func ("/curve/ellipse", test_ellipse);
  g_test_add_func ("/curve/flatten", test_flatten);
  g_test_add_func ("/curve/few-nodes", test_few_nodes);
  g_test_add_func ("/curve/coincident", test_coincident);
  g_test_add_func ("/curve/huge", test_huge);
  g_test_add_func ("/curve/path", test_path_curve);
  g_test_add_func ("/curve/path-of-arcs", test_path_curve_of_arcs);
  return g_test_run ();
}
