/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Matchings: the greatest weight against GLPK (the GNU Linear Programming Kit), the proof by prices
 * on large graphs, and the first of all best matchings against plain enumeration.
 *
 * A matching problem's linear programme has whole corners (G. Birkhoff, 1946), so its simplex
 * optimum is the optimum; the parts of the weight are maximised one after the other, each with the
 * ones before held at their best.
 */
#include <math.h>
#include <string.h>

#include <glpk.h>

#include <matching.h>

/* A graph that owns its arrays. */
typedef struct {
  PfMatchGraph graph;
  guint32 *first, *partners;
  PfWeight *weights;
} Graph;

typedef struct {
  guint32 n_left, n_right;
  int length;  /* of the circle that all stand on */
  int reach;   /* partners are at most this far */
  int n_ranks; /* weights' last part is a product of ranks, below this squared */
  bool extra;  /* some lines are worth more in the first part */
} Kind;

static void
graph_clear (Graph *g)
{
  g_free (g->first);
  g_free (g->partners);
  g_free (g->weights);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Graph, graph_clear)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PfMatching, pf_matching_clear)

static int
circle_distance (int a, int b, int length)
{
  return MIN (ABS (a - b), length - ABS (a - b));
}

/* Lefts and rights at whole places on a circle, so that many distances are equal. */
static Graph
make_graph (Kind kind)
{
  GArray *first = g_array_new (FALSE, FALSE, sizeof (guint32));
  GArray *partners = g_array_new (FALSE, FALSE, sizeof (guint32));
  GArray *weights = g_array_new (FALSE, FALSE, sizeof (PfWeight));
  g_autofree int *places = g_new (int, kind.n_right);
  for (guint32 r = 0; r < kind.n_right; r++)
    places[r] = g_test_rand_int_range (0, kind.length);
  for (guint32 l = 0; l < kind.n_left; l++)
    {
      g_array_append_val (first, partners->len);
      const int place = g_test_rand_int_range (0, kind.length);
      for (guint32 r = 0; r < kind.n_right; r++)
        {
          const int distance = circle_distance (place, places[r], kind.length);
          if (distance > kind.reach)
            continue;
          const gint64 most = kind.extra ? g_test_rand_int_range (0, 4) == 0 : 0;
          const PfWeight weight = { { 64 + most, -distance,
                                      kind.n_ranks > 0 ? (l % (guint32) kind.n_ranks + 1) *
                                                             (r % (guint32) kind.n_ranks + 1)
                                                       : 0 } };
          g_array_append_val (partners, r);
          g_array_append_val (weights, weight);
        }
    }
  g_array_append_val (first, partners->len);
  Graph g = { .first = (guint32 *) (void *) g_array_free (first, FALSE),
              .partners = (guint32 *) (void *) g_array_free (partners, FALSE),
              .weights = (PfWeight *) (void *) g_array_free (weights, FALSE) };
  g.graph = (PfMatchGraph){ kind.n_left, kind.n_right, g.first, g.partners, g.weights };
  return g;
}

/* The line from `left` to its partner. */
static guint32
line_of (const PfMatchGraph *graph, const PfMatching *m, guint32 left)
{
  for (guint32 e = graph->first[left]; e < graph->first[left + 1]; e++)
    if (graph->partners[e] == m->of_left[left])
      return e;
  g_assert_not_reached ();
}

static PfWeight
total (const PfMatchGraph *graph, const PfMatching *m)
{
  PfWeight sum = { { 0, 0, 0 } };
  for (guint32 l = 0; l < graph->n_left; l++)
    if (m->of_left[l] != PF_NONE)
      sum = pf_weight_add (sum, graph->weights[line_of (graph, m, l)]);
  return sum;
}

/* Both lists say the same, and the prices prove that no matching weighs more. */
static void
check_proof (const PfMatchGraph *graph, const PfMatching *m)
{
  static const PfWeight zero = { { 0, 0, 0 } };
  for (guint32 l = 0; l < graph->n_left; l++)
    {
      g_assert_false (pf_weight_less (m->left_price[l], zero));
      g_assert_true (m->of_left[l] != PF_NONE || pf_weight_is_zero (m->left_price[l]));
      g_assert_true (m->of_left[l] == PF_NONE || m->of_right[m->of_left[l]] == l);
      for (guint32 e = graph->first[l]; e < graph->first[l + 1]; e++)
        {
          const PfWeight prices =
              pf_weight_add (m->left_price[l], m->right_price[graph->partners[e]]);
          g_assert_false (pf_weight_less (prices, graph->weights[e]));
          if (m->of_left[l] == graph->partners[e])
            g_assert_true (pf_weight_is_zero (pf_weight_subtract (prices, graph->weights[e])));
        }
    }
  for (guint32 r = 0; r < graph->n_right; r++)
    {
      g_assert_false (pf_weight_less (m->right_price[r], zero));
      g_assert_true (m->of_right[r] != PF_NONE || pf_weight_is_zero (m->right_price[r]));
      g_assert_true (m->of_right[r] == PF_NONE || m->of_left[m->of_right[r]] == r);
    }
}

/* --- Against GLPK -------------------------------------------------------------------------------
 */

/* One column for each line, one row for each node: at most one of its lines is taken. */
static glp_prob *
matching_programme (const PfMatchGraph *graph)
{
  glp_prob *lp = glp_create_prob ();
  glp_set_obj_dir (lp, GLP_MAX);
  glp_add_rows (lp, (int) (graph->n_left + graph->n_right));
  for (int row = 1; row <= (int) (graph->n_left + graph->n_right); row++)
    glp_set_row_bnds (lp, row, GLP_UP, 0, 1);
  glp_add_cols (lp, (int) graph->first[graph->n_left]);
  for (guint32 l = 0; l < graph->n_left; l++)
    for (guint32 e = graph->first[l]; e < graph->first[l + 1]; e++)
      {
        const int rows[] = { 0, (int) l + 1, (int) (graph->n_left + graph->partners[e]) + 1 };
        const double ones[] = { 0, 1, 1 };
        glp_set_col_bnds (lp, (int) e + 1, GLP_LO, 0, 0);
        glp_set_mat_col (lp, (int) e + 1, 2, rows, ones);
      }
  return lp;
}

/* The greatest sum of one part; from now on the programme keeps it there. */
static gint64
maximise_part (glp_prob *lp, const PfMatchGraph *graph, int part)
{
  const guint32 n = graph->first[graph->n_left];
  g_autofree int *columns = g_new (int, n + 1);
  g_autofree double *values = g_new (double, n + 1);
  for (guint32 e = 0; e < n; e++)
    {
      columns[e + 1] = (int) e + 1;
      values[e + 1] = (double) graph->weights[e].part[part];
      glp_set_obj_coef (lp, (int) e + 1, values[e + 1]);
    }
  glp_smcp how;
  glp_init_smcp (&how);
  how.msg_lev = GLP_MSG_OFF;
  g_assert_cmpint (glp_simplex (lp, &how), ==, 0);
  g_assert_cmpint (glp_get_status (lp), ==, GLP_OPT);
  const double best = glp_get_obj_val (lp);
  g_assert_cmpfloat (fabs (best - round (best)), <, 1e-3);
  const int row = glp_add_rows (lp, 1);
  glp_set_row_bnds (lp, row, GLP_FX, round (best), round (best));
  glp_set_mat_row (lp, row, (int) n, columns, values);
  return (gint64) llround (best);
}

static const Kind against_glpk[] = {
  { 8, 8, 20, 4, 0, false },   { 12, 9, 20, 4, 5, false },  { 9, 14, 30, 6, 5, true },
  { 20, 20, 40, 4, 20, true }, { 25, 15, 30, 3, 0, true },  { 15, 25, 12, 2, 8, false },
  { 10, 10, 10, 5, 10, true }, { 30, 30, 120, 5, 6, true }, { 1, 6, 4, 2, 3, true },
};

static void
test_glpk (void)
{
  glp_term_out (GLP_OFF);
  for (int trial = 0; trial < 360; trial++)
    {
      g_auto (Graph) g = make_graph (against_glpk[trial % (int) G_N_ELEMENTS (against_glpk)]);
      g_auto (PfMatching) m = { 0 };
      pf_matching_solve (&g.graph, &m);
      check_proof (&g.graph, &m);
      const PfWeight sum = total (&g.graph, &m);
      glp_prob *lp = matching_programme (&g.graph);
      for (int part = 0; part < 3 && g.graph.first[g.graph.n_left] > 0; part++)
        g_assert_cmpint (maximise_part (lp, &g.graph, part), ==, sum.part[part]);
      glp_delete_prob (lp);
      pf_matching_take_first (&g.graph, &m);
      check_proof (&g.graph, &m);
    }
  glp_free_env ();
}

/* --- Large graphs -------------------------------------------------------------------------------
 */

static const Kind large[] = {
  { 5000, 5000, 20000, 6, 5000, true }, /* as along an outline */
  { 5000, 5000, 2000, 1, 0, false },    /* hardly any weight differs */
  { 6000, 3000, 40000, 40, 0, false },  /* too few partners for all */
  { 3000, 6000, 5000, 3, 3000, true },
};

static void
test_large (gconstpointer data)
{
  g_auto (Graph) g = make_graph (*(const Kind *) data);
  g_auto (PfMatching) m = { 0 };
  pf_matching_solve (&g.graph, &m);
  check_proof (&g.graph, &m);
}

/* Weights near the limit: sums of each part just below 2^62. */
static void
test_large_weights (void)
{
  static const guint32 first[] = { 0, 2, 4 }, partners[] = { 0, 1, 0, 1 };
  const gint64 big = G_GINT64_CONSTANT (1) << 60;
  const PfWeight weights[] = { { { big, -big, big } },
                               { { big, -big, big - 1 } },
                               { { big, -big, big - 1 } },
                               { { big, -big, big - 3 } } };
  const PfMatchGraph graph = { 2, 2, first, partners, weights };
  g_auto (PfMatching) m = { 0 };
  pf_matching_solve (&graph, &m);
  check_proof (&graph, &m);
  g_assert_cmpuint (m.of_left[0], ==, 1);
  g_assert_cmpuint (m.of_left[1], ==, 0);
}

static void
test_nothing (void)
{
  static const guint32 first[] = { 0, 0, 0 };
  const PfMatchGraph none = { 0, 0, first, NULL, NULL }, alone = { 2, 3, first, NULL, NULL };
  g_auto (PfMatching) m = { 0 }, n = { 0 };
  pf_matching_solve (&none, &m);
  pf_matching_take_first (&none, &m);
  pf_matching_solve (&alone, &n);
  pf_matching_take_first (&alone, &n);
  check_proof (&alone, &n);
  g_assert_cmpuint (n.of_left[0], ==, PF_NONE);
}

/* --- The first of all best matchings ------------------------------------------------------------
 */

/* Tries every matching. */
typedef struct {
  const PfMatchGraph *graph;
  guint32 of_left[16], best[16];
  bool taken[16];
  PfWeight best_sum;
  bool found;
} Trial;

/* Does the trial's list of pairs come before the best one's? Of two lists of which one begins the
 * other, neither weighs the same as the other, so the first difference decides: there who has a
 * partner comes first, then the first partner. */
static bool
list_before (const Trial *t)
{
  for (guint32 l = 0; l < t->graph->n_left; l++)
    if (t->of_left[l] != t->best[l])
      return t->of_left[l] < t->best[l]; /* PF_NONE is the largest */
  return false;
}

static void
try_all (Trial *t, guint32 left, PfWeight sum)
{
  const PfMatchGraph *graph = t->graph;
  if (left == graph->n_left)
    {
      if (!t->found || pf_weight_less (t->best_sum, sum) ||
          (!pf_weight_less (sum, t->best_sum) && list_before (t)))
        {
          memcpy (t->best, t->of_left, sizeof t->best);
          t->best_sum = sum;
          t->found = true;
        }
      return;
    }
  t->of_left[left] = PF_NONE;
  try_all (t, left + 1, sum);
  for (guint32 e = graph->first[left]; e < graph->first[left + 1]; e++)
    {
      const guint32 right = graph->partners[e];
      if (t->taken[right])
        continue;
      t->taken[right] = true;
      t->of_left[left] = right;
      try_all (t, left + 1, pf_weight_add (sum, graph->weights[e]));
      t->taken[right] = false;
    }
}

static const Kind against_all[] = {
  { 5, 5, 6, 3, 0, false }, /* all weights of a distance are equal */
  { 6, 4, 6, 2, 0, true },  { 4, 6, 6, 2, 2, false }, { 6, 6, 8, 2, 0, false },
  { 6, 6, 8, 2, 2, true },  { 7, 7, 4, 1, 0, false }, { 3, 7, 1, 1, 0, true },
  { 7, 3, 1, 1, 0, true },
};

static void
test_first (void)
{
  int n_ties = 0;
  for (int trial = 0; trial < 4000; trial++)
    {
      g_auto (Graph) g = make_graph (against_all[trial % (int) G_N_ELEMENTS (against_all)]);
      g_auto (PfMatching) m = { 0 };
      Trial t = { .graph = &g.graph };
      try_all (&t, 0, (PfWeight){ { 0, 0, 0 } });
      pf_matching_solve (&g.graph, &m);
      n_ties += memcmp (m.of_left, t.best, g.graph.n_left * sizeof (guint32)) != 0;
      pf_matching_take_first (&g.graph, &m);
      check_proof (&g.graph, &m);
      for (guint32 l = 0; l < g.graph.n_left; l++)
        g_assert_cmpuint (m.of_left[l], ==, t.best[l]);
    }
  g_assert_cmpint (n_ties, >, 400); /* else this tests little */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/matching/glpk", test_glpk);
  for (size_t k = 0; k < G_N_ELEMENTS (large); k++)
    {
      g_autofree char *path = g_strdup_printf ("/matching/large/%zu", k + 1);
      g_test_add_data_func (path, &large[k], test_large);
    }
  g_test_add_func ("/matching/large-weights", test_large_weights);
  g_test_add_func ("/matching/nothing", test_nothing);
  g_test_add_func ("/matching/first", test_first);
  return g_test_run ();
}
