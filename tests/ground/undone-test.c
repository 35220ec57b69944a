/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Crossings that undo each other: by hand, from what lies over what (cross: left over right; twist:
 * right over left; Jo Edkins, lace school web pages, 2014-22). Two that follow each other between
 * the same two undo each other if the same one lies over both times: Reidemeister's second move.
 */
#include "samples.h"

static void
check (PfGround *ground, const char *first, const char *second)
{
  g_autoptr (GError) error = NULL;
  const bool accepted = pf_ground_check_undone (ground, &error);
  if (first)
    {
      g_autofree char *part = g_strdup_printf (
          "crossing of stitch “%s” and the first of stitch “%s” undo", first, second);
      assert_refused (accepted, &error, part);
    }
  else
    {
      g_assert_no_error (error);
      g_assert_true (accepted);
    }
  pf_ground_free (ground);
}

/* Four columns of pairs: all four meet in a stitch, then plaits of two. */
static void
test_plaits (void)
{
  static const struct {
    const char *crossing, *plait, *first, *second;
  } cases[] = {
    { "ctc", "ctct", NULL, NULL },
    { "ct", "ctct", "1", "2" },    /* the right pair over the left, then its thread over again */
    { "ct", "tctct", "1", "2" },   /* twists slide up over the crossing */
    { "ct", "lctct", NULL, NULL }, /* a leadwork binds */
    { "tc", "ctct", "2", "1" },    /* the plait's last cross, then the pairs twisted back */
    { "tpc", "ctct", "2", "1" },
    { "tc", "ctctl", NULL, NULL },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const ColumnStitch stitches[] = { { 0, cases[i].crossing, 4 },
                                        { 0, cases[i].plait, 2 },
                                        { 2, cases[i].plait, 2 } };
      check (sample_columns (4, stitches, 3), cases[i].first, cases[i].second);
      PfGround *twisted = sample_columns (4, stitches, 3);
      for (int e = 0; e < twisted->n_lines; e++)
        twisted->lines[e].twists = 1 + e % 3; /* they slide, too */
      check (twisted, cases[i].first, cases[i].second);
    }
}

/* A stitch between the two that only twists its pairs holds nothing. */
static void
test_between (void)
{
  const ColumnStitch stitches[] = {
    { 0, "ct", 4 }, { 0, "t", 2 }, { 0, "ctct", 2 }, { 2, "ctct", 2 }
  };
  check (sample_columns (4, stitches, 4), "1", "3");
}

/* Stitches of four pairs, each one column further right. */
static void
test_fours (void)
{
  const ColumnStitch undone[] = { { 0, "c", 4 }, { 1, "t", 4 } };
  check (sample_columns (4, undone, 2), "1", "2");
  const ColumnStitch held[] = { { 0, "c", 4 }, { 1, "ctc", 4 } };
  check (sample_columns (4, held, 2), NULL, NULL);
}

/* Where two pairs meet in each stitch nothing is ever undone, whatever the words: crosses and
 * twists each follow their like, over and under in turn. */
static void
test_two_pairs (void)
{
  for (int round = 0; round < 200; round++)
    {
      PfGround *ground = samples[g_test_rand_int_range (0, N_SAMPLES - 1)].make ();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      for (int k = 0; k < ground->n_stitches; k++)
        {
          char word[6] = "";
          for (int n = g_test_rand_int_range (1, 6); n > 0; n--)
            word[n - 1] = "ct"[g_test_rand_int_range (0, 2)];
          g_assert_cmpint (ground->stitches[k].n_pairs, ==, 2);
          g_free (ground->stitches[k].work);
          ground->stitches[k].work = g_strdup (word);
        }
      check (ground, NULL, NULL);
    }
}

/* Nothing but twists round a closed way: the search ends. */
static void
test_no_crossing (void)
{
  check (sample_plait ("t"), NULL, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/undone/plaits", test_plaits);
  g_test_add_func ("/ground/undone/between", test_between);
  g_test_add_func ("/ground/undone/fours", test_fours);
  g_test_add_func ("/ground/undone/two-pairs", test_two_pairs);
  g_test_add_func ("/ground/undone/no-crossing", test_no_crossing);
  return g_test_run ();
}
