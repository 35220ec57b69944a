/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Beside the maker's choices, what is left is still matched in the best way: the most pairs reused
 * and turned, then the least distance, against GLPK (the GNU Linear Programming Kit).
 */
#include <math.h>

#include <glpk.h>

#include "chosen.h"

static bool
same_missing_place (const Chosen *f, const PfCrossing *a, const PfCrossing *b)
{
  return a->has_missing && b->has_missing && a->missing.i == b->missing.i &&
         a->missing.j == b->missing.j &&
         f->ground->stitches[a->missing.k].place == f->ground->stitches[b->missing.k].place;
}

typedef struct {
  glp_prob *lp;
  GArray *worths;    /* per column: of a match, 2^20 and one more if turned */
  GArray *distances; /* per column: millionths of a mm, negative */
} Programme;

/* A column for each match of two crossings without a choice that may be. */
static void
add_column (Programme *p, const Chosen *f, guint32 leaving, guint32 entering)
{
  const PfCrossing *a = &f->filling->crossings[leaving], *b = &f->filling->crossings[entering];
  if (!a->leaves || b->leaves || a->chosen || b->chosen || a->place.loop != b->place.loop ||
      !(chosen_time (f, pf_crossing_line (f->filling, leaving)) <
        chosen_time (f, pf_crossing_line (f->filling, entering)) - 1e-9))
    return;
  const double distance =
      pf_loop_distance (&f->region->loops[a->place.loop], a->place.along, b->place.along);
  const bool turned = same_missing_place (f, a, b);
  if (!turned && distance > f->settings.carry * f->settings.placement.gap + 1e-6)
    return;
  const int rows[] = { 0, (int) leaving + 1, (int) entering + 1 };
  const double ones[] = { 0, 1, 1 }, worth = 1024 + turned, cost = -round (distance * 1e6);
  const int column = glp_add_cols (p->lp, 1);
  glp_set_col_bnds (p->lp, column, GLP_LO, 0, 0);
  glp_set_mat_col (p->lp, column, 2, rows, ones);
  g_array_append_val (p->worths, worth);
  g_array_append_val (p->distances, cost);
}

/* The greatest sum of one value per column; the programme keeps it there from now on. */
static double
maximise (Programme *p, const GArray *values)
{
  const guint n = values->len;
  if (n == 0)
    return 0;
  g_autofree int *columns = g_new (int, n + 1);
  g_autofree double *row = g_new (double, n + 1);
  for (guint c = 0; c < n; c++)
    {
      columns[c + 1] = (int) c + 1;
      row[c + 1] = g_array_index (values, double, c);
      glp_set_obj_coef (p->lp, (int) c + 1, row[c + 1]);
    }
  glp_smcp how;
  glp_init_smcp (&how);
  how.msg_lev = GLP_MSG_OFF;
  g_assert_cmpint (glp_simplex (p->lp, &how), ==, 0);
  const double best = glp_get_obj_val (p->lp);
  const int fixed = glp_add_rows (p->lp, 1);
  glp_set_row_bnds (p->lp, fixed, GLP_FX, round (best), round (best));
  glp_set_mat_row (p->lp, fixed, (int) n, columns, row);
  return best;
}

/* The most pairs reused and turned, then the least distance. */
static void
check_optimum (const Chosen *f)
{
  const PfFilling *filling = f->filling;
  if (filling->n_crossings == 0)
    return;
  g_autoptr (GArray) worths = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) distances = g_array_new (FALSE, FALSE, sizeof (double));
  Programme p = { glp_create_prob (), worths, distances };
  glp_set_obj_dir (p.lp, GLP_MAX);
  glp_add_rows (p.lp, (int) filling->n_crossings);
  for (int row = 1; row <= (int) filling->n_crossings; row++)
    glp_set_row_bnds (p.lp, row, GLP_UP, 0, 1);
  for (guint32 a = 0; a < filling->n_crossings; a++)
    for (guint32 b = 0; b < filling->n_crossings; b++)
      add_column (&p, f, a, b);
  double worth = 0, distance = 0, chosen_mm = 0;
  for (guint32 c = 0; c < filling->n_crossings; c++)
    {
      const PfCrossing *a = &filling->crossings[c];
      if (!a->leaves || a->match == PF_NONE)
        continue;
      const PfCrossing *b = &filling->crossings[a->match];
      const double way =
          pf_loop_distance (&f->region->loops[a->place.loop], a->place.along, b->place.along);
      worth += a->chosen ? 0 : 1024 + (a->kind == PF_PAIR_TURNED);
      distance += a->chosen ? 0 : round (way * 1e6);
      chosen_mm += a->chosen ? round (way * 1e6) : 0;
    }
  g_assert_cmpfloat (fabs (maximise (&p, p.worths) - worth), <, 1e-3);
  g_assert_cmpfloat (fabs (maximise (&p, p.distances) + distance), <, 0.5);
  g_assert_cmpfloat (fabs (filling->counts.carry_mm * 1e6 - distance - chosen_mm), <, 0.5);
  glp_delete_prob (p.lp);
}

static void
test_optimum (void)
{
  size_t n_chosen = 0;
  glp_term_out (GLP_OFF);
  for (int trial = 0; trial < 60; trial++)
    {
      Chosen f = chosen_new (trial);
      check_optimum (&f);
      for (size_t c = 0; c < f.filling->n_crossings; c++)
        n_chosen += f.filling->crossings[c].chosen;
      chosen_clear (&f);
    }
  glp_free_env ();
  g_assert_cmpuint (n_chosen, >, 200); /* else this tests little */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/choices-optimum/random", test_optimum);
  return g_test_run ();
}
