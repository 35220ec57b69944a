/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Affine maps, and distances along a loop: always the shorter way round, always within its length.
 */
#include "shapes.h"

static void
assert_point (PfPoint got, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (got.x, x, 1e-12);
  g_assert_cmpfloat_with_epsilon (got.y, y, 1e-12);
}

static void
test_affine (void)
{
  const PfAffine twice = { 2, 0, 0, 2, 0, 0 }, move = { 1, 0, 0, 1, 3, 4 };
  const PfAffine skew = { 1, 0.5, -0.25, 2, 7, -3 };

  assert_point (pf_affine_map (pf_affine_compose (twice, move), (PfPoint){ 1, 1 }), 8, 10);
  assert_point (pf_affine_map (pf_affine_compose (move, twice), (PfPoint){ 1, 1 }), 5, 6);
  assert_point (pf_affine_map (skew, (PfPoint){ 4, 2 }), 12, 0);
  g_assert_cmpfloat (pf_affine_determinant (skew), ==, 2.125);
  assert_point (pf_affine_map (pf_affine_invert (skew), (PfPoint){ 12, 0 }), 4, 2);
  assert_point (
      pf_affine_map (pf_affine_compose (skew, pf_affine_invert (skew)), (PfPoint){ 5, -9 }), 5, -9);
}

static void
test_area (void)
{
  /* x right, y down: this way round is clockwise as seen. */
  static const PfPoint clockwise[] = {
    { 1e5, 1e5 - 1 }, { 1e5, 1e5 }, { 1e5 - 2, 1e5 }, { 1e5 - 2, 1e5 - 1 }
  };
  static const PfPoint other_way[] = { { 0, 0 }, { 0, 3 }, { 4, 0 } };

  g_assert_cmpfloat (pf_chain_area (clockwise, 4), ==, 2);
  g_assert_cmpfloat (pf_chain_area (other_way, 3), ==, -6);
  g_assert_cmpfloat (pf_chain_area (other_way, 2), ==, 0);
  g_assert_cmpfloat (pf_chain_area (other_way, 0), ==, 0);
}

static PfRegion *
rectangle (void)
{
  /* Points that repeat, the last as the first too, are one point. */
  static const PfPoint points[] = { { 2, 1 }, { 8, 1 }, { 8, 1 + 0.5e-9 }, { 8, 5 },
                                    { 8, 5 }, { 2, 5 }, { 2, 1 } };
  const PfChain chain = CHAIN (points);

  return pf_region_new (&chain, 1, NULL);
}

static void
test_along (void)
{
  static const struct {
    double along, x, y;
    PfPoint direction;
  } table[] = { { 0, 2, 1, { 1, 0 } }, { 1.5, 3.5, 1, { 1, 0 } }, { 6, 8, 1, { 0, 1 } },
                { 7, 8, 2, { 0, 1 } }, { 10, 8, 5, { -1, 0 } },   { 19.5, 2, 1.5, { 0, -1 } } };
  g_autoptr (PfRegion) region = rectangle ();
  const PfLoop *loop = &region->loops[0];

  g_assert_cmpuint (loop->n_points, ==, 4);
  g_assert_cmpfloat_with_epsilon (pf_loop_length (loop), 20, 1e-9);
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const PfPlace place = { 0, table[i].along };
      const PfPoint p = pf_region_point (region, place), way = pf_region_direction (region, place);

      g_assert_cmpfloat_with_epsilon (p.x, table[i].x, 1e-9);
      g_assert_cmpfloat_with_epsilon (p.y, table[i].y, 1e-9);
      g_assert_cmpfloat_with_epsilon (way.x, table[i].direction.x, 1e-9);
      g_assert_cmpfloat_with_epsilon (way.y, table[i].direction.y, 1e-9);
    }
}

static void
test_ways_round (void)
{
  static const struct {
    double a, b, forward, distance, midway;
  } table[] = {
    { 2, 5, 3, 3, 3.5 },   { 5, 2, 17, 3, 3.5 },   { 19, 3, 4, 4, 1 }, { 3, 19, 16, 4, 1 },
    { 19, 2, 3, 3, 0.5 },  { 1, 18, 17, 3, 19.5 }, { 4, 4, 0, 0, 4 },  { 0, 10, 10, 10, 5 },
    { 10, 0, 10, 10, 15 }, { 0, 19, 19, 1, 19.5 },
  };
  g_autoptr (PfRegion) region = rectangle ();
  const PfLoop *loop = &region->loops[0];

  for (size_t i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_assert_cmpfloat_with_epsilon (pf_loop_forward (loop, table[i].a, table[i].b),
                                      table[i].forward, 1e-8);
      g_assert_cmpfloat_with_epsilon (pf_loop_distance (loop, table[i].a, table[i].b),
                                      table[i].distance, 1e-8);
      g_assert_cmpfloat_with_epsilon (pf_loop_midway (loop, table[i].a, table[i].b),
                                      table[i].midway, 1e-8);
    }
}

/* Rounding never gives the length itself, which is the start. */
static void
test_never_the_length (void)
{
  g_autoptr (PfRegion) region = rectangle ();
  const PfLoop *loop = &region->loops[0];
  const double length = pf_loop_length (loop), last = nextafter (length, 0);

  g_assert_cmpfloat (pf_loop_forward (loop, 1e-300, 0), <, length);
  g_assert_cmpfloat (pf_loop_forward (loop, nextafter (1, 2), 1), <, length);
  g_assert_cmpfloat (pf_loop_midway (loop, last, 0), <, length);
  g_assert_cmpfloat (pf_loop_midway (loop, 0, last), <, length);
  g_assert_cmpfloat (pf_loop_midway (loop, last, last), <, length);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/loop/affine", test_affine);
  g_test_add_func ("/loop/area", test_area);
  g_test_add_func ("/loop/along", test_along);
  g_test_add_func ("/loop/ways-round", test_ways_round);
  g_test_add_func ("/loop/never-the-length", test_never_the_length);
  return g_test_run ();
}
