/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The numbers of grounds: published or derived ones, and pair lines counted at cuts through the
 * drawing.
 */
#include <math.h>

#include <drawing.h>

#include "samples.h"

/* That E = 2V and F = V: V. Irvine, F. Ruskey, "Developing a mathematical model for bobbin lace",
 * Journal of Mathematics and the Arts 8 (2014). Rose ground takes four pairs (Jo Edkins, lace
 * school web pages, 2014-22), the armure eight threads (common practice), torchon two pairs to each
 * pin (T. de Dillmont, Encyclopedia of Needlework). The rest is derived by hand: lines round the
 * meshes from the drawings, lines across from the lines' repeats, rows by following the threads: in
 * rose ground all run straight down the diagonals, two repeats until they are back; in the armure
 * one thread after the other takes all places; in the lattice of plaits each keeps to its plait. */
static void
test_samples (void)
{
  static const struct {
    PfGround *(*make) (void);
    int n_stitches, n_fours, n_pins, degrees[8], across, n_pairs;
    gint64 rows;
  } cases[] = {
    { sample_torchon, 1, 0, 1, { 4 }, 1, 2, 2 },
    { sample_honeycomb, 3, 0, 3, { 3, 3, 6 }, 2, 4, 2 },
    { sample_rose, 6, 0, 4, { 3, 3, 3, 3, 4, 8 }, 2, 4, 2 },
    { sample_plaits, 3, 1, 0, { 2, 2, 2, 2, 8 }, 2, 4, 1 },
    { sample_armure, 7, 0, 4, { 3, 3, 4, 4, 4, 4, 6 }, 2, 4, 8 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = cases[i].make ();
      g_assert_true (pf_ground_complete (ground, NULL));
      g_autoptr (PfGroundNumbers) numbers = pf_ground_count (ground);
      g_assert_cmpint (numbers->n_stitches, ==, cases[i].n_stitches);
      g_assert_cmpint (numbers->n_pins, ==, cases[i].n_pins);
      g_assert_cmpint (numbers->n_lines, ==, 2 * cases[i].n_stitches + 2 * cases[i].n_fours);
      g_assert_cmpint (numbers->n_meshes, ==, numbers->n_lines - cases[i].n_stitches);
      for (int m = 0; m < numbers->n_meshes; m++)
        g_assert_cmpint (numbers->degrees[m], ==, cases[i].degrees[m]);
      g_assert_cmpint (numbers->across_a, ==, cases[i].across);
      g_assert_cmpint (numbers->across_b, ==, cases[i].across);
      g_assert_cmpint (numbers->n_pairs, ==, cases[i].n_pairs);
      g_assert_cmpint (numbers->rows, ==, cases[i].rows);
      pf_ground_free (ground);
    }
}

/* A plait stands on its own: two pairs across a cut along a, none along b, and the outer side of
 * the column isn't a mesh. Twice ctct brings each thread home, once doesn't (derived; 4321). */
static void
test_column (void)
{
  PfGround *ground = sample_plait ("ctct");
  g_autoptr (PfGroundNumbers) numbers = pf_ground_count (ground);
  g_assert_cmpint (numbers->n_meshes, ==, 1);
  g_assert_cmpint (numbers->degrees[0], ==, 2);
  g_assert_cmpint (numbers->across_a, ==, 2);
  g_assert_cmpint (numbers->across_b, ==, 0);
  g_assert_cmpint (numbers->n_pairs, ==, 2);
  g_assert_cmpint (numbers->n_thread_walks, ==, 2);
  g_assert_cmpint (numbers->rows, ==, 2);
  pf_ground_free (ground);
}

/* Rows after which all threads are back, in torchon's layout: derived from the ways of the threads
 * in walks-test.c. */
static void
test_rows (void)
{
  static const struct {
    const char *work;
    gint64 rows;
  } cases[] = { { "ctc", 1 }, { "ctttp", 2 }, { "ctpct", 2 }, { "ctctpctct", 2 }, { "cttp", 4 } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon_worked (cases[i].work);
      g_autoptr (PfGroundNumbers) numbers = pf_ground_count (ground);
      g_assert_cmpint (numbers->rows, ==, cases[i].rows);
      pf_ground_free (ground);
    }
}

/* Torchon with two pins in a repeat, and b skew: two pairs to each pin in a level row. */
static void
test_skew (void)
{
  PfGround *ground = sample_torchon ();
  PfGround *skew = pf_ground_new (2, 4);
  skew->a = ground->a;
  skew->b = (PfPoint){ ground->a.x + 2 * ground->b.x, ground->a.y + 2 * ground->b.y };
  skew->stitches[0] =
      (PfStitch){ g_strdup ("1"), { 0, 0 }, g_strdup ("ctpct"), .n_pairs = 2, .closes = -1 };
  skew->stitches[1] =
      (PfStitch){ g_strdup ("2"), ground->b, g_strdup ("ctpct"), .n_pairs = 2, .closes = -1 };
  skew->lines[0] = (PfPairLine){ { 0, PF_RIGHT }, { 0, PF_LEFT }, 1, 0, 0 };
  skew->lines[1] = (PfPairLine){ { 1, PF_RIGHT }, { 1, PF_LEFT }, 1, 0, 0 };
  skew->lines[2] = (PfPairLine){ { 0, PF_LEFT }, { 1, PF_RIGHT }, 0, 0, 0 };
  skew->lines[3] = (PfPairLine){ { 1, PF_LEFT }, { 0, PF_RIGHT }, -1, 1, 0 };
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_ground_complete (skew, &error));
  g_autoptr (PfGroundNumbers) numbers = pf_ground_count (skew);
  /* a = (1, 1), b = (-1, 3): 3·a - b = (4, 0) is level, and two pins stand on it. */
  g_assert_cmpint (numbers->n_pairs, ==, 4);
  pf_ground_free (skew);
  pf_ground_free (ground);
}

static double
side_of (PfPoint from, PfPoint to, PfPoint p)
{
  return pf_cross (pf_minus (to, from), pf_minus (p, from));
}

/* Pair lines of the endless ground that cross from the left to the right of the way between two
 * points, as one walks it, less those that cross from the right to the left. */
static int
count_across (const PfGround *ground, PfPoint from, PfPoint to)
{
  enum { FAR = 12 };
  int net = 0;
  for (int e = 0; e < ground->n_lines; e++)
    for (int i = -FAR; i <= FAR; i++)
      for (int j = -FAR; j <= FAR; j++)
        {
          const PfPairLine *line = &ground->lines[e];
          const PfPoint p = pf_ground_position (ground, line->from.stitch, i, j);
          const PfPoint q =
              pf_ground_position (ground, line->to.stitch, i + line->da, j + line->db);
          const bool p_aside = side_of (from, to, p) < 0, q_aside = side_of (from, to, q) < 0;
          if (p_aside != q_aside && (side_of (p, q, from) < 0) != (side_of (p, q, to) < 0))
            net += p_aside ? 1 : -1;
        }
  return net;
}

/* Every cut from a point to the same point of the next repeat, straight or bent, is crossed by as
 * many lines. */
static void
test_cuts (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_assert_true (pf_ground_complete (ground, NULL));
      g_autoptr (PfGroundNumbers) numbers = pf_ground_count (ground);
      for (int n = 0; n < 20; n++)
        {
          PfPoint at[2];
          for (int i = 0; i < 2; i++)
            at[i] = (PfPoint){ g_test_rand_double_range (-3, 3), g_test_rand_double_range (-3, 3) };
          const PfPoint a = { at[0].x + ground->a.x, at[0].y + ground->a.y };
          const PfPoint b = { at[0].x + ground->b.x, at[0].y + ground->b.y };
          const PfPoint level = { at[0].x + ground->a.x - ground->b.x, at[0].y };
          g_assert_cmpint (abs (count_across (ground, at[0], a)), ==, numbers->across_a);
          g_assert_cmpint (abs (count_across (ground, at[0], b)), ==, numbers->across_b);
          g_assert_cmpint (abs (count_across (ground, at[0], level)), ==, numbers->n_pairs);
          const int bent = count_across (ground, at[0], at[1]) + count_across (ground, at[1], a);
          g_assert_cmpint (abs (bent), ==, numbers->across_a);
        }
      pf_ground_free (ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/numbers/samples", test_samples);
  g_test_add_func ("/ground/numbers/column", test_column);
  g_test_add_func ("/ground/numbers/rows", test_rows);
  g_test_add_func ("/ground/numbers/skew", test_skew);
  g_test_add_func ("/ground/numbers/cuts", test_cuts);
  return g_test_run ();
}
