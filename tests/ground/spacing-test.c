/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The distance between nearest pins: samples by hand, random ones against a plain search.
 */
#include <math.h>

#include "samples.h"

/* Derived from the drawings: torchon pins lie on a grid at 45 degrees whose diagonals are repeats;
 * the honeycomb's lie a unit apart in three directions; plaits lie half-way
 * between crossings a diagonal apart. */
static void
test_samples (void)
{
  static const double spacing[N_SAMPLES] = { G_SQRT2, G_SQRT2, G_SQRT2, 1, M_SQRT1_2 };
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_autoptr (GError) error = NULL;
      g_assert_true (pf_ground_complete (ground, &error));
      g_assert_cmpfloat_with_epsilon (ground->spacing, spacing[s], 1e-12);
      pf_ground_free (ground);
    }
}

static void
test_places (void)
{
  PfGround *ground = sample_armure ();
  g_assert_true (pf_ground_complete (ground, NULL));
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const char *name = ground->stitches[k].name;
      const bool closing = g_str_has_prefix (name, "close ");
      g_assert_cmpint (ground->stitches[k].place, ==,
                       closing ? sample_stitch (ground, name + strlen ("close ")) : k);
    }
  pf_ground_free (ground);
}

/* Pins 1 to 2 ground units apart, with 1e-6 to spare. */
static void
test_limits (void)
{
  static const struct {
    double spacing;
    bool accepted;
  } cases[] = {
    { 0.5, false }, { 1 - 1e-5, false }, { 1 - 1e-7, true },  { 1, true },
    { 2, true },    { 2 + 1e-7, true },  { 2 + 1e-5, false }, { 10, false },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon ();
      g_autoptr (GError) error = NULL;
      const double x = cases[i].spacing / G_SQRT2;
      ground->a = (PfPoint){ x, x };
      ground->b = (PfPoint){ -x, x };
      const bool accepted = pf_ground_complete (ground, &error);
      g_assert_true (accepted == cases[i].accepted);
      if (!accepted)
        assert_refused (accepted, &error, "nearest pins, those of “1” and “1”");
      pf_ground_free (ground);

      /* Without pins any size will do. */
      ground = sample_torchon ();
      strcpy (ground->stitches[0].work, "ctct");
      ground->a = (PfPoint){ x, x };
      ground->b = (PfPoint){ -x, x };
      g_assert_true (pf_ground_complete (ground, NULL));
      g_assert_cmpfloat_with_epsilon (ground->spacing, cases[i].spacing, 1e-12);
      pf_ground_free (ground);
    }
}

/* Over all repeats from -40 to 40 each way. */
static double
plain_search (const PfGround *ground)
{
  double nearest = INFINITY;
  for (int k = 0; k < ground->n_stitches; k++)
    for (int l = 0; l < ground->n_stitches; l++)
      for (int i = -40; i <= 40; i++)
        for (int j = -40; j <= 40; j++)
          {
            const PfPoint p = ground->stitches[k].at, q = pf_ground_position (ground, l, i, j);
            const double d = hypot (p.x - q.x, p.y - q.y);
            if (d > 1e-9 &&
                (!ground->has_pins || (ground->stitches[k].pin && ground->stitches[l].pin)))
              nearest = fmin (nearest, d);
          }
  return nearest;
}

/* Repeats drawn as skew as the plain search can follow: it needs at most 12 times as many of a as
 * of b, and few of b. A fourth stitch shares the first one's position. */
static void
test_random (void)
{
  for (int round = 0; round < 100; round++)
    {
      const int n = g_test_rand_int_range (1, 5);
      PfGround *ground = pf_ground_new (n, 0);
      const PfPoint u = { g_test_rand_double_range (1, 3), g_test_rand_double_range (-0.3, 0.3) };
      const PfPoint v = { g_test_rand_double_range (-0.3, 0.3), g_test_rand_double_range (1, 3) };
      const int skew = g_test_rand_int_range (-12, 13);
      ground->a = u;
      ground->b = (PfPoint){ v.x + skew * u.x, v.y + skew * u.y };
      ground->has_pins = g_test_rand_bit ();
      for (int k = 0; k < n; k++)
        {
          PfStitch *stitch = &ground->stitches[k];
          stitch->name = g_strdup ("k");
          stitch->pin = k < 2;
          stitch->at =
              (PfPoint){ g_test_rand_double_range (-1, 1), g_test_rand_double_range (-1, 1) };
          if (k == 3)
            stitch->at = ground->stitches[0].at;
        }
      pf_ground_find_spacing (ground, NULL);
      g_assert_cmpfloat_with_epsilon (ground->spacing, plain_search (ground), 1e-9);
      pf_ground_free (ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/spacing/samples", test_samples);
  g_test_add_func ("/ground/spacing/places", test_places);
  g_test_add_func ("/ground/spacing/limits", test_limits);
  g_test_add_func ("/ground/spacing/random", test_random);
  return g_test_run ();
}
