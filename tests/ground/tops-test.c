/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The meshes' tops and feet: one of each, but where a loop of pairs lies round a mesh. (Derived
 * from V. Irvine, F. Ruskey, "Developing a mathematical model for bobbin lace", Journal of
 * Mathematics and the Arts 8, 2014: no loop of pairs closes on itself, and the two ins of each
 * stitch stand side by side.)
 */
#include <drawing.h>

#include "samples.h"

static void
test_samples (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_autoptr (GError) error = NULL;
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      g_assert_true (pf_ground_check_tops (ground, &error));
      g_assert_no_error (error);
      pf_ground_free (ground);
    }
}

/* A plait by itself: one mesh a repeat, and two sides of the column that have no top. */
static void
test_column (void)
{
  PfGround *ground = sample_plait ("ctct");
  PfMesh meshes[4];
  g_assert_true (pf_ground_check_tops (ground, NULL));
  g_assert_cmpint (pf_ground_trace_meshes (ground, meshes), ==, 3);
  for (int m = 0; m < 3; m++)
    {
      const bool closes = meshes[m].da == 0 && meshes[m].db == 0;
      g_assert_cmpint (meshes[m].degree, ==, closes ? 2 : 1);
      g_assert_cmpint (meshes[m].tops, ==, closes);
      g_assert_cmpint (meshes[m].feet, ==, closes);
    }
  pf_ground_free (ground);
}

/* Left to ne in the same repeat closes the loop ne, top, left: no top, no foot. */
static void
test_loop (void)
{
  PfGround *ground = sample_rose ();
  g_autoptr (GError) error = NULL;
  ground->lines[2].da = ground->lines[2].db = 0;
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  assert_refused (pf_ground_check_tops (ground, &error), &error, "doesn't run down");
  pf_ground_free (ground);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/tops/samples", test_samples);
  g_test_add_func ("/ground/tops/column", test_column);
  g_test_add_func ("/ground/tops/loop", test_loop);
  return g_test_run ();
}
