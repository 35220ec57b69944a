/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Numbers, repeat vectors, words and closed pins.
 */
#include <math.h>

#include "samples.h"

static void
set_work (PfGround *ground, const char *stitch, const char *work)
{
  char **old = &ground->stitches[sample_stitch (ground, stitch)].work;
  g_free (*old);
  *old = g_strdup (work);
}

static void
test_words (void)
{
  static const struct {
    const char *work, *problem; /* NULL: accepted */
    bool pin;
  } cases[] = {
    { "c", NULL, false },
    { "t", NULL, false },
    { "ct", NULL, false },
    { "pct", NULL, true },
    { "ctp", NULL, true },
    { "ctpct", NULL, true },
    { "l", NULL, false },
    { "ctclpctc", NULL, true },
    { "ctctctctctctctctctctctctctctctctctctctctctctctctctctctctctctctct", NULL, false },
    { "ctctctctctctctctctctctctctctctctctctctctctctctctctctctctctctctctc", "too long", false },
    { "", "moves no thread", false },
    { "p", "moves no thread", false },
    { "ctppct", "twice", false },
    { "pctp", "twice", false },
    { "CT", "Only c (cross)", false },
    { "c t", "Only c (cross)", false },
    { "ctx", "Only c (cross)", false },
    { "ct\u00e9", "Only c (cross)", false },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon ();
      g_autoptr (GError) error = NULL;
      set_work (ground, "1", cases[i].work);
      const bool accepted = pf_ground_check_words (ground, &error);
      if (cases[i].problem)
        {
          g_assert_nonnull (strstr (error->message, "“1”"));
          assert_refused (accepted, &error, cases[i].problem);
        }
      else
        {
          g_assert_no_error (error);
          g_assert_true (accepted);
          g_assert_true (ground->stitches[0].pin == cases[i].pin);
          g_assert_true (ground->has_pins == cases[i].pin);
        }
      pf_ground_free (ground);
    }
}

static void
test_positions (void)
{
  static const double bad[] = { NAN, INFINITY, -INFINITY, 1e300, -1000.5 };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    for (int axis = 0; axis < 2; axis++)
      {
        PfGround *ground = sample_rose ();
        g_autoptr (GError) error = NULL;
        PfPoint *at = &ground->stitches[sample_stitch (ground, "left")].at;
        *(axis ? &at->y : &at->x) = bad[i];
        assert_refused (pf_ground_check_words (ground, &error), &error, "“left” stands too far");
        *at = (PfPoint){ -1, 0 };
        *(axis ? &ground->b.y : &ground->a.x) = bad[i];
        assert_refused (pf_ground_check_words (ground, &error), &error,
                        "repeat vector is too long");
        pf_ground_free (ground);
      }
}

static void
test_vectors (void)
{
  static const struct {
    PfPoint a, b;
    bool accepted;
  } cases[] = {
    { { 1, 1 }, { -1, 1 }, true },           { { -1, 1 }, { 1, 1 }, true },
    { { 1, 0 }, { 900, 1 }, true },          { { 1, 1 }, { 1, 1 }, false },
    { { 1, 1 }, { -2, -2 }, false },         { { 1, 1 }, { 1, 1 + 1e-8 }, false },
    { { 0, 0 }, { 1, 1 }, false },           { { 1, 1 }, { 0, 0 }, false },
    { { 1e-200, 0 }, { 0, 1e-200 }, false },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon ();
      g_autoptr (GError) error = NULL;
      ground->a = cases[i].a;
      ground->b = cases[i].b;
      const bool accepted = pf_ground_check_words (ground, &error);
      g_assert_true (accepted == cases[i].accepted);
      if (!accepted)
        assert_refused (accepted, &error, "lie on one line");
      pf_ground_free (ground);
    }
}

static void
test_closing (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = sample_armure ();
  g_assert_true (pf_ground_check_words (ground, &error));
  g_assert_true (ground->has_core);

  PfStitch *closing = &ground->stitches[sample_stitch (ground, "close left")];
  closing->at.x = -0.9;
  assert_refused (pf_ground_check_words (ground, &error), &error,
                  "“close left” closes the pin of “left”");
  closing->at.x = -1;
  set_work (ground, "left", "ct");
  assert_refused (pf_ground_check_words (ground, &error), &error, "“left” must set a pin");
  set_work (ground, "left", "ctp");
  set_work (ground, "close left", "ctp");
  assert_refused (pf_ground_check_words (ground, &error), &error, "and “close left” must not");
  pf_ground_free (ground);
}

static void
test_closed_twice (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = sample_armure ();
  PfStitch *other = &ground->stitches[sample_stitch (ground, "close right")];
  other->closes = sample_stitch (ground, "left");
  other->at = (PfPoint){ -1, 0 };
  assert_refused (pf_ground_check_words (ground, &error), &error,
                  "“close right” both close the pin of “left”");
  pf_ground_free (ground);
}

static void
test_sizes (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *none = pf_ground_new (0, 0);
  none->a = (PfPoint){ 1, 1 };
  none->b = (PfPoint){ -1, 1 };
  assert_refused (pf_ground_complete (none, &error), &error, "this one has 0");
  pf_ground_free (none);
  PfGround *many = pf_ground_new (PF_GROUND_MAX_STITCHES + 1, 0);
  assert_refused (pf_ground_complete (many, &error), &error, "this one has 257");
  pf_ground_free (many);
  pf_ground_free (NULL);
}

/* Two pairs or four; a leadwork is made with two. */
static void
test_n_pairs (void)
{
  static const struct {
    int n_pairs;
    const char *work, *problem; /* NULL: accepted */
  } cases[] = {
    { 2, "ctc", NULL },
    { 4, "ctc", NULL },
    { 4, "ctpc", NULL },
    { 3, "ctc", "joins 3 pairs" },
    { 0, "ctc", "joins 0 pairs" },
    { 6, "ctc", "joins 6 pairs" },
    { -2, "ctc", "joins -2" },
    { 4, "l", "made with two" },
    { 4, "ctcl", "made with two" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_plaits ();
      g_autoptr (GError) error = NULL;
      set_work (ground, "crossing", cases[i].work);
      ground->stitches[0].n_pairs = cases[i].n_pairs;
      const bool accepted = pf_ground_check_words (ground, &error);
      if (cases[i].problem)
        assert_refused (accepted, &error, cases[i].problem);
      else
        g_assert_true (accepted);
      pf_ground_free (ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/words/words", test_words);
  g_test_add_func ("/ground/words/positions", test_positions);
  g_test_add_func ("/ground/words/vectors", test_vectors);
  g_test_add_func ("/ground/words/closing", test_closing);
  g_test_add_func ("/ground/words/closed-twice", test_closed_twice);
  g_test_add_func ("/ground/words/sizes", test_sizes);
  g_test_add_func ("/ground/words/n-pairs", test_n_pairs);
  return g_test_run ();
}
