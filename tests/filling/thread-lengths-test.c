/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much thread a filling takes. By hand: one torchon stitch between four sewings; and for any
 * ground, what must hold whatever the sizes.
 */
#include <math.h>

#include <thread-lengths.h>

#include "samples.h"

static PfFilling *
fill (const PfRegion *region, const PfGround *ground, PfPlacement placement)
{
  PfEdge edge;
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = placement;
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 3, &error));
  PfFilling *filling = pf_filling_new (region, &edge, ground, &settings, &error);
  g_assert_no_error (error);
  pf_edge_clear (&edge);
  return filling;
}

/* A square stood on its point, one torchon pin in its middle: each pair comes straight from the
 * middle of a side, 2√2 mm away. In ctpct each thread takes part in three half turns: an outer one
 * in t, c and t, an inner one in c, t and t. So 1.5 on each way, and 2 twists after the sewing in.
 */
static void
test_one_stitch (void)
{
  static const PfPoint diamond[] = { { 0, -4 }, { 4, 0 }, { 0, 4 }, { -4, 0 } };
  const double d = 0.4, pin = 0.6, way = 2 * G_SQRT2;
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  g_autoptr (PfRegion) region = sample_polygon (diamond, 4);
  const PfPlacement placement = { .gap = 10 };
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = placement;
  settings.reach = 0; /* every sewing exactly at its target */
  settings.clearance = 0.1;
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 3, NULL));
  g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &settings, NULL);
  pf_edge_clear (&edge);
  g_assert_cmpuint (filling->n_stitches, ==, 1);
  g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
  g_assert_cmpuint (threads->n_threads, ==, 4);
  const double before = hypot (way, (1.5 + 2) * G_PI * d / 2);
  const double after = hypot (way, 1.5 * G_PI * d / 2);
  for (guint32 t = 0; t < 4; t++)
    g_assert_cmpfloat_with_epsilon (
        pf_thread_length (threads, filling, ground, t, (PfThreadSizes){ d, pin }),
        before + after + (G_PI / 2 - 1) * (d + pin), 1e-6);
}

/* A thread without thickness round pins without thickness goes straight: all threads together are
 * twice as long as all pairs. A thicker one is longer, each by itself. */
static void
test_random (gconstpointer name)
{
  g_autoptr (PfGround) ground = sample_ground (name);
  for (int trial = 0; trial < 5; trial++)
    {
      g_autoptr (PfRegion) region = sample_star ((PfPoint){ 0, 0 }, 14, 26, 12, 0);
      g_autoptr (PfFilling) filling = fill (region, ground, sample_placement (3, 4));
      g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
      double by_thread = 0, by_pair = 0;
      for (guint32 t = 0; t < threads->n_threads; t++)
        {
          const double straight =
              pf_thread_length (threads, filling, ground, t, (PfThreadSizes){ 0, 0 });
          const double fine =
              pf_thread_length (threads, filling, ground, t, (PfThreadSizes){ 0.2, 0.5 });
          const double thick =
              pf_thread_length (threads, filling, ground, t, (PfThreadSizes){ 0.4, 0.5 });
          by_thread += straight;
          g_assert_cmpfloat (fine, >, straight);
          /* what is woven takes less of a thick thread */
          if (strstr (name, "tall") == NULL && strstr (name, "lea") == NULL)
            g_assert_cmpfloat (thick, >, fine);
        }
      for (guint32 p = 0; p < filling->n_pairs; p++)
        by_pair += pf_pair_length (filling, p);
      g_assert_cmpfloat_with_epsilon (by_thread, 2 * by_pair, 1e-6 * (1 + by_pair));
    }
}

/* 27 wraps on 1 cm: each is a 27th of it thick. */
static void
test_thickness (void)
{
  g_assert_cmpfloat_with_epsilon (pf_thread_thickness (27), 10.0 / 27, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/thread-lengths/one-stitch", test_one_stitch);
  g_test_add_func ("/thread-lengths/thickness", test_thickness);
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *path = g_strdup_printf ("/thread-lengths/random/%s", *name);
      g_test_add_data_func_full (path, g_strdup (*name), test_random, g_free);
    }
  return g_test_run ();
}
