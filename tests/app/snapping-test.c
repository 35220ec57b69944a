/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where a place snaps to, as points on squared paper; and what the grips of a motif's box do.
 */
#include <locale.h>
#include <math.h>

#include <motif-box.h>
#include <snapping.h>

static void
assert_at (PfPoint a, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (a.x, x, 1e-9);
  g_assert_cmpfloat_with_epsilon (a.y, y, 1e-9);
}

static void
snaps_as_on_squared_paper (void)
{
  static const PfPoint nodes[] = { { 10.3, 10.3 }, { 20, 20 }, { 10.3, 10.3 } };
  static const PfPoint from = { 5, 5 };
  static const struct {
    const char *what;
    PfSnapping snapping;
    bool directed;
    PfPoint p, at;
    PfSnapKind kind;
  } cases[] = {
    { "nothing asked for", { 0, false }, false, { 10.2, 10.2 }, { 10.2, 10.2 }, PF_SNAP_NONE },
    { "a node in reach", { 0, true }, false, { 10.2, 10.2 }, { 10.3, 10.3 }, PF_SNAP_NODE },
    { "just in reach", { 0, true }, false, { 20, 21 }, { 20, 20 }, PF_SNAP_NODE },
    { "out of reach", { 0, true }, false, { 20, 21.001 }, { 20, 21.001 }, PF_SNAP_NONE },
    { "the grid", { 2.5, false }, false, { 10.3, -3.6 }, { 10, -2.5 }, PF_SNAP_GRID },
    { "a node before the grid", { 1, true }, false, { 10.1, 10.2 }, { 10.3, 10.3 }, PF_SNAP_NODE },
    { "level", { 0, false }, true, { 15, 6 }, { 15, 5 }, PF_SNAP_LEVEL },
    { "level to the left", { 0, false }, true, { -15, 6 }, { -15, 5 }, PF_SNAP_LEVEL },
    { "level, on the grid", { 2, false }, true, { 15.2, 6 }, { 16, 5 }, PF_SNAP_LEVEL },
    { "upright", { 0, false }, true, { 6, -9 }, { 5, -9 }, PF_SNAP_UPRIGHT },
    { "down to the right", { 0, false }, true, { 9, 11 }, { 10, 10 }, PF_SNAP_DIAGONAL },
    { "up to the right", { 0, false }, true, { 9, -1 }, { 10, 0 }, PF_SNAP_DIAGONAL },
    { "up to the left", { 0, false }, true, { 0, 0.4 }, { 0.2, 0.2 }, PF_SNAP_DIAGONAL },
    { "where it came from", { 0, false }, true, { 5, 5 }, { 5, 5 }, PF_SNAP_LEVEL },
    { "a node before a direction", { 0, true }, true, { 19, 20 }, { 20, 20 }, PF_SNAP_NODE },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_test_message ("%s", cases[c].what);
      const PfSnapped snapped = pf_snap (cases[c].snapping, nodes, G_N_ELEMENTS (nodes), 1,
                                         cases[c].directed ? &from : NULL, cases[c].p);
      assert_at (snapped.at, cases[c].at.x, cases[c].at.y);
      g_assert_cmpint (snapped.kind, ==, cases[c].kind);
    }
}

/* The eight directions divide the plane evenly: the snapped way never turns by more than 22.5°. */
static void
turns_to_the_nearest_direction (void)
{
  for (int n = 0; n < 2000; n++)
    {
      const PfPoint from = { g_test_rand_double_range (-50, 50),
                             g_test_rand_double_range (-50, 50) };
      const double turn = g_test_rand_double_range (-G_PI, G_PI);
      const double far = g_test_rand_double_range (0.5, 40);
      const PfPoint p = { from.x + far * cos (turn), from.y + far * sin (turn) };
      const PfSnapped s = pf_snap ((PfSnapping){ 0, false }, NULL, 0, 1, &from, p);
      const double snapped = atan2 (s.at.y - from.y, s.at.x - from.x);
      const double off = remainder (snapped - turn, 2 * G_PI);
      g_assert_cmpfloat (fabs (off), <=, G_PI / 8 + 1e-9);
      g_assert_cmpfloat (fabs (remainder (snapped, G_PI / 4)), <=, 1e-9);
      /* The nearest point of that direction: the rest of the way is at right angles to it. */
      g_assert_cmpfloat_with_epsilon (
          (p.x - s.at.x) * (s.at.x - from.x) + (p.y - s.at.y) * (s.at.y - from.y), 0, 1e-8);
    }
}

static void
grips_keep_what_is_opposite (void)
{
  static const PfBox box = { { 10, 20 }, { 50, 40 } };
  for (int g = 0; g < PF_GRIP_TURN; g++)
    {
      const PfPoint grip = pf_grip_anchor (box, (PfGrip) g, 0.1);
      const PfPoint opposite = pf_grip_anchor (box, (PfGrip) ((g + 4) % 8), 0.1);
      const PfAffine still = pf_grip_map (box, (PfGrip) g, grip, false);
      assert_at (pf_affine_map (still, grip), grip.x, grip.y);
      /* Twice as far from the opposite one. */
      const PfPoint to = { 2 * grip.x - opposite.x, 2 * grip.y - opposite.y };
      const PfAffine map = pf_grip_map (box, (PfGrip) g, to, false);
      assert_at (pf_affine_map (map, opposite), opposite.x, opposite.y);
      assert_at (pf_affine_map (map, grip), to.x, to.y);
      g_assert_cmpfloat_with_epsilon (pf_affine_determinant (map), g % 2 == 0 ? 4 : 2, 1e-9);
      /* Past the opposite one: small, but never turned inside out. */
      const PfPoint past = { 3 * opposite.x - 2 * grip.x, 3 * opposite.y - 2 * grip.y };
      g_assert_cmpfloat (pf_affine_determinant (pf_grip_map (box, (PfGrip) g, past, false)), >, 0);
    }
}

static void
the_turn_grip_turns_about_the_middle (void)
{
  static const PfBox box = { { 10, 20 }, { 50, 40 } };
  const PfPoint middle = { 30, 30 };
  static const struct {
    PfPoint to;
    bool steady;
    double degrees;
  } cases[] = {
    { { 30, 0 }, false, 0 },   { { 60, 30 }, false, 90 }, { { 30, 90 }, false, 180 },
    { { 0, 30 }, false, 270 }, { { 60, 0 }, false, 45 },  { { 60, 1 }, true, 45 },
    { { 60, 29 }, true, 90 },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      const PfAffine map = pf_grip_map (box, PF_GRIP_TURN, cases[c].to, cases[c].steady);
      const double turn = cases[c].degrees * G_PI / 180;
      assert_at (pf_affine_map (map, middle), 30, 30);
      /* Clockwise on the sheet, whose y runs down: right goes towards down. */
      assert_at (pf_affine_map (map, (PfPoint){ 40, 30 }), 30 + 10 * cos (turn),
                 30 + 10 * sin (turn));
    }
}

static void
the_nearest_grip_is_found (void)
{
  static const PfBox box = { { 0, 0 }, { 40, 40 } };
  PfGrip grip;
  g_assert_true (pf_grip_find (box, 0.1, 1, (PfPoint){ 41.5, 41 }, &grip));
  g_assert_cmpint (grip, ==, PF_GRIP_BOTTOM_RIGHT);
  g_assert_true (pf_grip_find (box, 0.1, 1, pf_grip_place (box, PF_GRIP_TURN, 0.1), &grip));
  g_assert_cmpint (grip, ==, PF_GRIP_TURN);
  g_assert_false (pf_grip_find (box, 0.1, 1, (PfPoint){ 30, 41 }, &grip));
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/snapping/squared-paper", snaps_as_on_squared_paper);
  g_test_add_func ("/snapping/directions", turns_to_the_nearest_direction);
  g_test_add_func ("/motif-box/opposite-stays", grips_keep_what_is_opposite);
  g_test_add_func ("/motif-box/turn", the_turn_grip_turns_about_the_middle);
  g_test_add_func ("/motif-box/find", the_nearest_grip_is_found);
  return g_test_run ();
}
