/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Two pairs in, two pairs out: every way in which one pair line can be wrong, in every sample.
 */
#include "samples.h"

static void
test_filled_in (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_autoptr (GError) error = NULL;
      g_assert_true (pf_ground_check_pairs (ground, &error));
      g_assert_no_error (error);
      int n_ends = 0;
      for (int k = 0; k < ground->n_stitches; k++)
        n_ends += ground->stitches[k].n_pairs;
      g_assert_cmpint (ground->n_lines, ==, n_ends);
      for (int e = 0; e < ground->n_lines; e++)
        {
          const PfPairLine *line = &ground->lines[e];
          g_assert_cmpint (ground->exits[line->from.stitch][line->from.side], ==, e);
          g_assert_cmpint (ground->entries[line->to.stitch][line->to.side], ==, e);
        }
      pf_ground_free (ground);
    }
}

/* Without one line, its start has no pair out: the message names that stitch and the side. */
static void
test_line_missing (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    for (int e = 0; e < 2 * 7; e++)
      {
        PfGround *ground = samples[s].make ();
        g_autoptr (GError) error = NULL;
        if (e < ground->n_lines)
          {
            const PfPairLine gone = ground->lines[e];
            ground->lines[e] = ground->lines[--ground->n_lines];
            const bool accepted = pf_ground_check_pairs (ground, &error);
            g_autofree char *leaves = g_strdup_printf ("Stitch “%s”: No pair leaves it on its %s",
                                                       ground->stitches[gone.from.stitch].name,
                                                       sample_side (ground, gone.from));
            g_autofree char *comes = g_strdup_printf ("Stitch “%s”: No pair comes to it on its %s",
                                                      ground->stitches[gone.to.stitch].name,
                                                      sample_side (ground, gone.to));
            assert_refused (accepted, &error, strstr (error->message, "leaves") ? leaves : comes);
          }
        pf_ground_free (ground);
      }
}

static void
test_end_taken (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    for (int e = 1; e < 2 * 7; e++)
      for (int start = 0; start < 2; start++)
        {
          PfGround *ground = samples[s].make ();
          g_autoptr (GError) error = NULL;
          if (e < ground->n_lines)
            {
              const PfPairLine first = ground->lines[0];
              *(start ? &ground->lines[e].from : &ground->lines[e].to) =
                  start ? first.from : first.to;
              const PfEnd end = start ? first.from : first.to;
              g_autofree char *part = g_strdup_printf (
                  "Stitch “%s”: Two pairs %s it on its %s", ground->stitches[end.stitch].name,
                  start ? "leave" : "come to", sample_side (ground, end));
              assert_refused (pf_ground_check_pairs (ground, &error), &error, part);
            }
          pf_ground_free (ground);
        }
}

static void
test_reach_and_twists (void)
{
  static const struct {
    int da, db, twists;
    const char *problem;
  } cases[] = {
    { 8, -8, 20, NULL },
    { 9, 0, 0, "“nw” to “top” goes 9 and 0 repeats away" },
    { 0, -9, 0, "“nw” to “top” goes 0 and -9 repeats away" },
    { G_MAXINT, 0, 0, "repeats away" },
    { 0, G_MININT, 0, "repeats away" },
    { 0, 0, 21, "“nw” to “top” has 21 twists" },
    { 0, 0, -1, "“nw” to “top” has -1 twists" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_rose ();
      g_autoptr (GError) error = NULL;
      PfPairLine *line = &ground->lines[5];
      line->da = cases[i].da;
      line->db = cases[i].db;
      line->twists = cases[i].twists;
      const bool accepted = pf_ground_check_pairs (ground, &error);
      g_assert_true (accepted == !cases[i].problem);
      if (!accepted)
        assert_refused (accepted, &error, cases[i].problem);
      pf_ground_free (ground);
    }
}

/* Only where four pairs meet are there inner sides. */
static void
test_inner_sides (void)
{
  for (int start = 0; start < 2; start++)
    {
      PfGround *ground = sample_plaits ();
      g_autoptr (GError) error = NULL;
      PfPairLine *line = &ground->lines[start ? 4 : 0]; /* from a plait, to a plait */
      (start ? &line->from : &line->to)->side = PF_THIRD;
      assert_refused (pf_ground_check_pairs (ground, &error), &error, "ends at an inner side");
      pf_ground_free (ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/pairs/filled-in", test_filled_in);
  g_test_add_func ("/ground/pairs/line-missing", test_line_missing);
  g_test_add_func ("/ground/pairs/end-taken", test_end_taken);
  g_test_add_func ("/ground/pairs/reach-and-twists", test_reach_and_twists);
  g_test_add_func ("/ground/pairs/inner-sides", test_inner_sides);
  return g_test_run ();
}
