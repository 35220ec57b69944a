/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether a thread suits a gap. The rule of 10 to 12 wraps is from memory; that wraps are compared,
 * and what a sample shows, is read (J. Edkins, lace school web pages; B. Paternoster's way of
 * measuring threads); the scale follows by proportion (derived).
 */
#include <string.h>

#include <thread-fit.h>

#include "samples.h"

/* Torchon at gap g has pins g·√2 apart along the footside: at 27 wraps per cm and a gap of 3 mm
 * 3·√2·2.7 = 11.46 wraps. */
static void
test_torchon (void)
{
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  static const struct {
    double gap, wraps_per_cm;
    PfFit fit;
    const char *says;
  } cases[] = {
    { 3, 27, PF_FIT_FITS, "Fits: 11.5 wraps" },
    { 4, 27, PF_FIT_OPEN, "Too open: 15.3 wraps" },
    { 2.5, 27, PF_FIT_CLOSE, "Too close: 9.5 wraps" },
    { 4, 20, PF_FIT_FITS, "Fits: 11.3 wraps" },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      const PfPlacement placement = { .gap = cases[c].gap };
      g_assert_cmpint (pf_fit_judge (ground, placement, cases[c].wraps_per_cm, PF_FIT_USUAL), ==,
                       cases[c].fit);
      g_autofree char *words =
          pf_explain_fit (ground, placement, cases[c].wraps_per_cm, PF_FIT_USUAL);
      g_assert_true (g_str_has_prefix (words, cases[c].says));
      g_assert_nonnull (strstr (words, "without a printed source"));
    }
}

/* What is suggested fits, and what lies just beyond it doesn't. */
static void
test_suggestions (void)
{
  static const char *const names[] = { "torchon", "rose", "armure" };
  for (size_t n = 0; n < G_N_ELEMENTS (names); n++)
    {
      g_autoptr (PfGround) ground = sample_ground (names[n]);
      PfPlacement placement = { .gap = 3.7 };
      const PfFitRule threads = pf_fit_threads (ground, placement, PF_FIT_USUAL);
      const PfFitRule gaps = pf_fit_gaps (ground, placement, 25, PF_FIT_USUAL);
      g_assert_cmpint (pf_fit_judge (ground, placement, threads.from * 1.001, PF_FIT_USUAL), ==,
                       PF_FIT_FITS);
      g_assert_cmpint (pf_fit_judge (ground, placement, threads.to * 0.999, PF_FIT_USUAL), ==,
                       PF_FIT_FITS);
      g_assert_cmpint (pf_fit_judge (ground, placement, threads.from * 0.999, PF_FIT_USUAL), ==,
                       PF_FIT_CLOSE);
      g_assert_cmpint (pf_fit_judge (ground, placement, threads.to * 1.001, PF_FIT_USUAL), ==,
                       PF_FIT_OPEN);
      placement.gap = gaps.from * 1.001;
      g_assert_cmpint (pf_fit_judge (ground, placement, 25, PF_FIT_USUAL), ==, PF_FIT_FITS);
      placement.gap = gaps.to * 1.001;
      g_assert_cmpint (pf_fit_judge (ground, placement, 25, PF_FIT_USUAL), ==, PF_FIT_OPEN);
    }
}

/* Point grounds, grounds without pins, and torchon drawn at another angle: nothing is claimed. */
static void
test_unknown (void)
{
  static const struct {
    const char *ground;
    double angle;
  } cases[] = { { "point-net", 0 },
                { "honeycomb", 0 },
                { "torchon-without-pins", 0 },
                { "torchon", 60 },
                { "mechlin", 0 } };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (PfGround) ground = sample_ground (cases[c].ground);
      const PfPlacement placement = { .gap = 3, .angle = cases[c].angle };
      g_assert_cmpint (pf_fit_judge (ground, placement, 27, PF_FIT_USUAL), ==, PF_FIT_UNKNOWN);
      g_autofree char *words = pf_explain_fit (ground, placement, 27, PF_FIT_USUAL);
      g_assert_true (g_str_has_prefix (words, "No rule is known"));
      g_assert_null (strstr (words, "mm"));
    }
}

static void
test_scale (void)
{
  g_assert_cmpfloat (pf_fit_scale (27, 27), ==, 100);
  g_assert_cmpfloat (pf_fit_scale (20, 40), ==, 50);
  g_assert_cmpfloat_with_epsilon (pf_fit_scale (27, 29), 93.1034, 1e-3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/thread-fit/torchon", test_torchon);
  g_test_add_func ("/thread-fit/suggestions", test_suggestions);
  g_test_add_func ("/thread-fit/unknown", test_unknown);
  g_test_add_func ("/thread-fit/scale", test_scale);
  return g_test_run ();
}
