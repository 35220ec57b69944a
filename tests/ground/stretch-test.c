/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Grounds drawn at another angle. The angles: torchon 45 degrees, point grounds 60 with diagonals
 * that cross at 60 and 120 degrees (Jo Edkins, lace school web pages); the lengths follow by
 * trigonometry.
 */
#include <math.h>

#include "samples.h"

typedef struct {
  int sample;
  double angle, stretched_to; /* its own; degrees */
  double spacing;             /* then, in ground units */
  double footside;            /* pins along the footside, in gaps, then */
} Case;

static const Case cases[] = {
  { 0, 45, 45, G_SQRT2, G_SQRT2 },
  /* rhombs of two equal triangles: nearest pins also stand above each other */
  { 0, 45, 60, 1.1547005383792515, 1 },
  /* steeper: diagonals 1/sin 70, uprights 2/tan 70 */
  { 0, 45, 70, 0.7279404685324047, 1 },
  { 0, 45, 30, 2, 1.7320508075688772 },
  /* pins at all four points of diamonds: two of them, not four, to an upright repeat of 4 */
  { 2, 45, 45, G_SQRT2, G_SQRT2 },
  { 3, 60, 60, 1, 1 },
  { 3, 60, 45, 1.2247448713915890, G_SQRT2 },
};

static PfGround *
completed (int sample)
{
  PfGround *ground = samples[sample].make ();
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_ground_complete (ground, &error));
  return ground;
}

static void
test_by_hand (void)
{
  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      const Case *expected = &cases[c];
      PfGround *ground = completed (expected->sample);
      const double stretch = pf_ground_stretch (ground, expected->stretched_to);
      const double spacing = pf_ground_stretched_spacing (ground, stretch);
      g_assert_cmpfloat_with_epsilon (pf_ground_angle (ground), expected->angle, 1e-9);
      g_assert_cmpfloat_with_epsilon (spacing, expected->spacing, 1e-9);
      g_assert_cmpfloat_with_epsilon (pf_ground_footside (ground) * stretch / spacing,
                                      expected->footside, 1e-9);
      pf_ground_free (ground);
    }
}

static void
test_own (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = completed (s);
      g_assert_cmpfloat (pf_ground_stretch (ground, 0), ==, 1);
      g_assert_cmpfloat (pf_ground_stretched_spacing (ground, 1), ==, ground->spacing);
      pf_ground_free (ground);
    }
}

/* A ground drawn stretched by hand is the ground stretched. */
static void
test_redrawn (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    for (double angle = 20; angle <= 80; angle += 7.5)
      {
        PfGround *ground = completed (s), *redrawn = samples[s].make ();
        const double stretch = pf_ground_stretch (ground, angle);
        redrawn->a.y *= stretch;
        redrawn->b.y *= stretch;
        redrawn->has_pins = ground->has_pins;
        for (int k = 0; k < redrawn->n_stitches; k++)
          {
            redrawn->stitches[k].at.y *= stretch;
            redrawn->stitches[k].pin = ground->stitches[k].pin;
          }
        pf_ground_find_spacing (redrawn, NULL);
        g_assert_cmpfloat_with_epsilon (pf_ground_angle (redrawn), angle, 1e-9);
        g_assert_cmpfloat_with_epsilon (pf_ground_stretched_spacing (ground, stretch),
                                        redrawn->spacing, 1e-9);
        g_assert_cmpfloat_with_epsilon (pf_ground_footside (ground) * stretch,
                                        pf_ground_footside (redrawn), 1e-9);
        pf_ground_free (redrawn);
        pf_ground_free (ground);
      }
}

/* Pins that never stand above each other have no distance along the footside. */
static void
test_no_footside (void)
{
  PfGround *ground = sample_torchon ();
  ground->a = (PfPoint){ 1, 1 };
  ground->b = (PfPoint){ -G_SQRT2, 1 };
  g_assert_true (pf_ground_complete (ground, NULL));
  g_assert_cmpfloat (pf_ground_footside (ground), ==, 0);
  pf_ground_free (ground);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/stretch/by-hand", test_by_hand);
  g_test_add_func ("/ground/stretch/own", test_own);
  g_test_add_func ("/ground/stretch/redrawn", test_redrawn);
  g_test_add_func ("/ground/stretch/no-footside", test_no_footside);
  return g_test_run ();
}
