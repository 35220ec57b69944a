/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Working times: samples by hand, and random graphs against GLPK, which finds the same least times
 * as the optimum of a linear programme, or that it has no solution.
 */
#include <glpk.h>

#include "samples.h"

/* Derived by hand from h_k >= y_k and a step of 1/16 along each pair line. */
static void
test_samples (void)
{
  static const struct {
    PfGround *(*make) (void);
    const char *stitch;
    double time;
  } cases[] = {
    { sample_torchon, "1", 0 },
    { sample_rose, "nw", -1 + 1. / 16 }, /* after the bottom (at 1) of the repeat above, 2 up */
    { sample_rose, "ne", -1 + 1. / 16 },
    { sample_rose, "top", -1 + 2. / 16 },
    { sample_rose, "left", 0 },
    { sample_rose, "right", 0 },
    { sample_rose, "bottom", 1 },
    { sample_armure, "top", -1 },
    { sample_armure, "left", 0 },
    { sample_armure, "right", 0 },
    { sample_armure, "centre", 1. / 16 },
    { sample_armure, "close left", 2. / 16 },
    { sample_armure, "close right", 2. / 16 },
    { sample_armure, "bottom", 1 },
    { sample_honeycomb, "mid", 0 },
    { sample_honeycomb, "left", 0.5 },
    { sample_honeycomb, "right", 0.5 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = cases[i].make ();
      g_autoptr (GError) error = NULL;
      g_assert_true (pf_ground_complete (ground, &error));
      const int k = sample_stitch (ground, cases[i].stitch);
      g_assert_cmpfloat_with_epsilon (ground->stitches[k].time, cases[i].time, 1e-12);
      pf_ground_free (ground);
    }
}

/* One line of a sample goes to another repeat, and closes a loop or doesn't. */
static void
test_loops (void)
{
  static const struct {
    PfGround *(*make) (void);
    int line, da, db;
    const char *loop; /* NULL: can be worked */
  } cases[] = {
    { sample_torchon, 0, 1, 1, NULL },
    { sample_torchon, 0, 0, 0, ": “1”, “1”." },
    { sample_torchon, 0, -1, 0, ": “1”, “1”." },
    { sample_torchon, 0, 1, -1, ": “1”, “1”." },
    /* Left to ne. The other lines round that mesh are ne to top and top to left. */
    { sample_rose, 2, 0, 0, ": “ne”, “top”, “left”, “ne”." },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = cases[i].make ();
      g_autoptr (GError) error = NULL;
      ground->lines[cases[i].line].da = cases[i].da;
      ground->lines[cases[i].line].db = cases[i].db;
      g_assert_true (pf_ground_check_pairs (ground, &error));
      const bool accepted = pf_ground_find_times (ground, &error);
      g_assert_true (accepted == !cases[i].loop);
      if (!accepted)
        assert_refused (accepted, &error, cases[i].loop);
      pf_ground_free (ground);
    }
}

/* A repeat that lies one step lower is just low enough. */
static void
test_step (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = sample_torchon ();
  ground->a.y = 1. / 16;
  g_assert_true (pf_ground_find_times (ground, &error));
  ground->a.y -= 1e-9;
  assert_refused (pf_ground_find_times (ground, &error), &error, "can't be worked");
  pf_ground_free (ground);
}

static void
test_closing_first (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = sample_armure ();
  /* The pair from the left pin passes its closing stitch by. */
  ground->stitches[sample_stitch (ground, "left")].closes = sample_stitch (ground, "close left");
  ground->stitches[sample_stitch (ground, "close left")].closes = -1;
  assert_refused (pf_ground_find_times (ground, &error), &error,
                  "“left” closes the pin of “close left”");
  pf_ground_free (ground);
}

/* Any graph with two pairs in and two out: exits in file order, entries shuffled. */
static PfGround *
random_graph (void)
{
  const int n = g_test_rand_int_range (1, 9);
  PfGround *ground = pf_ground_new (n, 2 * n);
  ground->a = (PfPoint){ 1, g_test_rand_double_range (0, 2) };
  ground->b = (PfPoint){ -1, g_test_rand_double_range (0, 2) };
  for (int k = 0; k < n; k++)
    {
      ground->stitches[k].name = g_strdup_printf ("%d", k);
      ground->stitches[k].work = g_strdup ("ct");
      ground->stitches[k].at.y = g_test_rand_double_range (-1, 1);
    }
  int entries[16];
  for (int e = 0; e < 2 * n; e++)
    {
      const int swap = g_test_rand_int_range (0, e + 1);
      entries[e] = entries[swap];
      entries[swap] = e;
    }
  for (int e = 0; e < 2 * n; e++)
    ground->lines[e] = (PfPairLine){ { e / 2, e % 2 ? PF_RIGHT : PF_LEFT },
                                     { entries[e] / 2, entries[e] % 2 ? PF_RIGHT : PF_LEFT },
                                     g_test_rand_int_range (0, 2),
                                     g_test_rand_int_range (0, 2),
                                     0 };
  return ground;
}

/* min Σ h, h_k >= y_k, h_v - h_u >= 1/16 - offset. */
static glp_prob *
linear_programme (const PfGround *ground)
{
  glp_prob *lp = glp_create_prob ();
  glp_set_obj_dir (lp, GLP_MIN);
  glp_add_cols (lp, ground->n_stitches);
  glp_add_rows (lp, ground->n_lines);
  for (int k = 0; k < ground->n_stitches; k++)
    {
      glp_set_col_bnds (lp, k + 1, GLP_LO, ground->stitches[k].at.y, 0);
      glp_set_obj_coef (lp, k + 1, 1);
    }
  for (int e = 0; e < ground->n_lines; e++)
    {
      const PfPairLine *line = &ground->lines[e];
      const double least = 1. / 16 - line->da * ground->a.y - line->db * ground->b.y;
      const int columns[] = { 0, line->to.stitch + 1, line->from.stitch + 1 };
      const double values[] = { 0, 1, -1 };
      glp_set_row_bnds (lp, e + 1, GLP_LO, least, 0);
      if (line->to.stitch != line->from.stitch)
        glp_set_mat_row (lp, e + 1, 2, columns, values);
    }
  return lp;
}

static void
test_against_glpk (void)
{
  int workable = 0;
  for (int round = 0; round < 400; round++)
    {
      PfGround *ground = random_graph ();
      g_autoptr (GError) error = NULL;
      glp_prob *lp = linear_programme (ground);
      glp_smcp settings;
      glp_init_smcp (&settings);
      settings.msg_lev = GLP_MSG_OFF;
      const int failed = glp_simplex (lp, &settings);
      const bool feasible = !failed && glp_get_status (lp) == GLP_OPT;
      const bool accepted = pf_ground_find_times (ground, &error);
      g_assert_true (accepted == feasible);
      for (int k = 0; accepted && k < ground->n_stitches; k++)
        g_assert_cmpfloat_with_epsilon (ground->stitches[k].time, glp_get_col_prim (lp, k + 1),
                                        1e-7);
      workable += accepted;
      glp_delete_prob (lp);
      pf_ground_free (ground);
    }
  glp_free_env ();
  /* Both kinds came up. */
  g_assert_cmpint (workable, >, 20);
  g_assert_cmpint (workable, <, 380);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/times/samples", test_samples);
  g_test_add_func ("/ground/times/loops", test_loops);
  g_test_add_func ("/ground/times/step", test_step);
  g_test_add_func ("/ground/times/closing-first", test_closing_first);
  g_test_add_func ("/ground/times/against-glpk", test_against_glpk);
  return g_test_run ();
}
