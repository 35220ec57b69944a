/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working of a repeat in words.
 */
#include <string.h>

#include "samples.h"

static char **
steps_of (PfGround *ground)
{
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_ground_complete (ground, &error));
  g_assert_no_error (error);
  return pf_ground_working (ground);
}

/* Corners, then the pins from the top: J. Edkins, lace school web pages (2014-22). */
static void
test_rose (void)
{
  static const char *const expected[] = {
    "Stitch nw: double stitch (cloth stitch and twist) with the pairs from bottom and right of the "
    "repeat above left.",
    "Stitch ne: double stitch (cloth stitch and twist) with the pairs from left and bottom of the "
    "repeat above right.",
    "Stitch top: half stitch with the pairs from nw and ne; pin; half stitch.",
    "Stitch left: half stitch with the pairs from nw and top; pin; half stitch.",
    "Stitch right: half stitch with the pairs from top and ne; pin; half stitch.",
    "Stitch bottom: half stitch with the pairs from left and right; pin; half stitch.",
    NULL,
  };
  PfGround *ground = sample_rose ();
  g_auto (GStrv) steps = steps_of (ground);
  g_assert_true (g_strv_equal ((const char *const *) steps, expected));
  pf_ground_free (ground);
}

/* Pins that stay open, and pins that another stitch closes: common practice. */
static void
test_armure (void)
{
  static const char *const expected[] = {
    "Stitch top: half stitch with the pairs from close right of the repeat above left and close "
    "left of the repeat above right; pin, which stays open.",
    "Stitch left: half stitch with the pairs from bottom of the repeat above left and top; pin, to "
    "be closed later.",
    "Stitch right: half stitch with the pairs from top and bottom of the repeat above right; pin, "
    "to be closed later.",
    "Stitch centre: half stitch with the pairs from left and right.",
    "Stitch close left: half stitch with the pairs from left and centre, to close the pin of left.",
    "Stitch close right: half stitch with the pairs from centre and right, to close the pin of "
    "right.",
    "Stitch bottom: half stitch with the pairs from close left and close right; pin, which stays "
    "open.",
    NULL,
  };
  PfGround *ground = sample_armure ();
  g_auto (GStrv) steps = steps_of (ground);
  for (int n = 0; steps[n]; n++)
    g_assert_cmpstr (steps[n], ==, expected[n]);
  g_assert_cmpuint (g_strv_length (steps), ==, 7);
  pf_ground_free (ground);
}

/* The craft's names: ct half stitch, ctc cloth stitch, ctct cloth stitch and twist or double
 * stitch, ctt half stitch and twist, cttc turning stitch (J. Edkins, lace school web pages,
 * 2014-22). A plait is counted in half stitches (T. de Dillmont, Encyclopedia of Needlework, fig.
 * 796). What has no name is told in letters. */
static void
test_words (void)
{
  static const struct {
    const char *work, *step;
  } cases[] = {
    { "ct", "half stitch with @." },
    { "ctc", "cloth stitch with @." },
    { "ctct", "double stitch (cloth stitch and twist) with @." },
    { "ctt", "half stitch and twist with @." },
    { "cttt", "half stitch and two twists with @." },
    { "cttc", "turning stitch with @." },
    { "ctctct", "3 half stitches with @." },
    { "ctctctct", "4 half stitches with @." },
    { "ctctt", "double stitch (cloth stitch and twist), 1 twist with @." },
    { "ctctctctt", "4 half stitches, 1 twist with @." },
    { "ccc", "ccc with @." },
    { "ctcct", "ctcct with @." },
    { "ctccttt", "ctccttt with @." },
    { "c", "c with @." },
    { "t", "1 twist with @." },
    { "ctpct", "half stitch with @; pin; half stitch." },
    { "ttcpttc", "2 twists, c with @; pin; 2 twists, c." },
    { "ctp", "half stitch with @; pin, which stays open." },
    { "ctptt", "half stitch with @; pin, which stays open; 2 twists." },
    { "pctc", "pin between @; cloth stitch." },
    { "l", "leadwork with @." },
    { "lt", "leadwork, 1 twist with @." },
    { "lttptt", "leadwork, 2 twists with @; pin, which stays open; 2 twists." },
    { "ctclpctc", "cloth stitch, leadwork with @; pin; cloth stitch." },
    { "ctpl", "half stitch with @; pin; leadwork." },
    { "ttctcpctc", "2 twists, cloth stitch with @; pin; cloth stitch." },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon ();
      g_free (ground->stitches[0].work);
      ground->stitches[0].work = g_strdup (cases[i].work);
      g_auto (GStrv) steps = steps_of (ground);
      g_auto (GStrv) parts = g_strsplit (cases[i].step, "@", 2);
      g_autofree char *expected = g_strconcat ("Stitch 1: ", parts[0],
                                               "the pairs from 1 of the repeat above left and 1 of "
                                               "the repeat above right",
                                               parts[1], NULL);
      g_assert_cmpstr (steps[0], ==, expected);
      g_assert_null (steps[1]);
      pf_ground_free (ground);
    }
}

/* Twists on a pair's way come before the stitch that it goes to. */
static void
test_twists (void)
{
  PfGround *ground = sample_rose ();
  ground->lines[5].twists = 1;
  g_assert_cmpint (ground->lines[5].from.stitch, ==, sample_stitch (ground, "nw"));
  g_assert_cmpint (ground->lines[5].to.stitch, ==, sample_stitch (ground, "top"));
  ground->lines[0].twists = 6;
  g_assert_cmpint (ground->lines[0].from.stitch, ==, sample_stitch (ground, "bottom"));
  g_assert_cmpint (ground->lines[0].to.stitch, ==, sample_stitch (ground, "nw"));
  g_auto (GStrv) steps = steps_of (ground);
  g_assert_cmpuint (g_strv_length (steps), ==, 8);
  g_assert_cmpstr (steps[0], ==,
                   "Twist 6 times the pair that goes from bottom of the repeat above left to nw.");
  g_assert_true (g_str_has_prefix (steps[1], "Stitch nw: "));
  g_assert_true (g_str_has_prefix (steps[2], "Stitch ne: "));
  g_assert_cmpstr (steps[3], ==, "Twist the pair that goes from nw to top.");
  g_assert_true (g_str_has_prefix (steps[4], "Stitch top: "));
  pf_ground_free (ground);
}

/* The step, in `steps`, of the stitch called `name`. */
static int
step_of (char **steps, const char *name)
{
  g_autofree char *start = g_strdup_printf ("Stitch %s: ", name);
  for (int n = 0; steps[n]; n++)
    if (g_str_has_prefix (steps[n], start))
      return n;
  g_assert_not_reached ();
}

/* Two plaits cross, each pair as one thread (J. Edkins, lace school web pages, 2014-22). */
static void
test_four_pairs (void)
{
  PfGround *ground = sample_plaits ();
  g_auto (GStrv) steps = steps_of (ground);
  g_assert_cmpuint (g_strv_length (steps), ==, (guint) ground->n_stitches);
  g_assert_cmpstr (steps[step_of (steps, "crossing")], ==,
                   "Stitch crossing: cloth stitch with the two pairs from right of the "
                   "repeat above left and the two pairs from left of the repeat above "
                   "right, each pair as if it were one thread.");
  g_assert_cmpstr (steps[step_of (steps, "left")], ==,
                   "Stitch left: 4 half stitches with the two pairs from crossing.");
  pf_ground_free (ground);
}

/* Both pairs from one stitch, twisted as often, are told of together. */
static void
test_both_twisted (void)
{
  static const struct {
    int left, right;
    const char *steps[3];
  } cases[] = {
    { 2, 2, { "Twist 2 times both pairs that go from crossing to left." } },
    { 1, 1, { "Twist both pairs that go from crossing to left." } },
    { 1,
      3,
      { "Twist the pair that goes from crossing to left.",
        "Twist 3 times the pair that goes from crossing to left." } },
    { 0, 3, { "Twist 3 times the pair that goes from crossing to left." } },
    { 0, 0, { NULL } },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_plaits ();
      const int plait = sample_stitch (ground, "left");
      for (int e = 0; e < ground->n_lines; e++)
        if (ground->lines[e].to.stitch == plait)
          ground->lines[e].twists =
              ground->lines[e].to.side == PF_LEFT ? cases[i].left : cases[i].right;
      g_auto (GStrv) steps = steps_of (ground);
      const int step = step_of (steps, "left"), first = step_of (steps, "crossing") + 1;
      for (int n = first; n < step; n++)
        g_assert_cmpstr (steps[n], ==, cases[i].steps[n - first]);
      g_assert_null (cases[i].steps[step - first]);
      pf_ground_free (ground);
    }
}

/* Where the repeat that a pair comes from lies, for repeats laid out in other ways. */
static void
test_directions (void)
{
  static const struct {
    PfPoint a, b;
    const char *from;
  } cases[] = {
    { { 1, 1 }, { -1, 1 }, "1 of the repeat above left and 1 of the repeat above right" },
    { { 0, 1 }, { -1, 1 }, "1 of the repeat above and 1 of the repeat above right" },
    { { 1, 1 }, { 0, 1 }, "1 of the repeat above left and 1 of the repeat above" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon ();
      ground->a = cases[i].a;
      ground->b = cases[i].b;
      g_auto (GStrv) steps = steps_of (ground);
      g_assert_nonnull (strstr (steps[0], cases[i].from));
      pf_ground_free (ground);
    }
}

/* Each stitch once, and after those that its pairs come from, however the file lists them. */
static void
test_order (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    for (int round = 0; round < 20; round++)
      {
        PfGround *ground = samples[s].make ();
        for (int k = ground->n_stitches - 1; k > 0; k--)
          {
            const int other = g_test_rand_int_range (0, k + 1);
            const PfStitch stitch = ground->stitches[k];
            ground->stitches[k] = ground->stitches[other];
            ground->stitches[other] = stitch;
            for (int e = 0; e < ground->n_lines; e++)
              {
                PfEnd *ends[] = { &ground->lines[e].from, &ground->lines[e].to };
                for (int n = 0; n < 2; n++)
                  ends[n]->stitch = ends[n]->stitch == k       ? other
                                    : ends[n]->stitch == other ? k
                                                               : ends[n]->stitch;
              }
            for (int l = 0; l < ground->n_stitches; l++)
              {
                int *closes = &ground->stitches[l].closes;
                *closes = *closes == k ? other : *closes == other ? k : *closes;
              }
          }
        g_auto (GStrv) steps = steps_of (ground);
        g_assert_cmpuint (g_strv_length (steps), ==, (guint) ground->n_stitches);
        for (int e = 0; e < ground->n_lines; e++)
          {
            const PfPairLine *line = &ground->lines[e];
            if (!line->da && !line->db)
              g_assert_cmpint (step_of (steps, ground->stitches[line->from.stitch].name), <,
                               step_of (steps, ground->stitches[line->to.stitch].name));
          }
        pf_ground_free (ground);
      }
}

/* Torchon: two pairs to a pin (Dillmont, figs 787-788). Rose: four pairs (Edkins). Armure: eight
 * threads (common practice). Honeycomb: derived from its drawing. Plaits: two of
 * two pairs cross (Edkins). */
static void
test_pairs (void)
{
  static const struct {
    PfGround *(*make) (void);
    int pairs;
  } cases[] = {
    { sample_torchon, 2 },   { sample_rose, 4 },   { sample_armure, 4 },
    { sample_honeycomb, 4 }, { sample_plaits, 4 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = cases[i].make ();
      g_assert_cmpint (pf_ground_pairs (ground), ==, cases[i].pairs);
      pf_ground_free (ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/working/rose", test_rose);
  g_test_add_func ("/ground/working/armure", test_armure);
  g_test_add_func ("/ground/working/words", test_words);
  g_test_add_func ("/ground/working/twists", test_twists);
  g_test_add_func ("/ground/working/four-pairs", test_four_pairs);
  g_test_add_func ("/ground/working/both-twisted", test_both_twisted);
  g_test_add_func ("/ground/working/directions", test_directions);
  g_test_add_func ("/ground/working/order", test_order);
  g_test_add_func ("/ground/working/pairs", test_pairs);
  return g_test_run ();
}
