/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which sewing goes into which pinhole: the most sewings and the least distance against GLPK (the
 * GNU Linear Programming Kit), which solves the same as a transport problem; and the order along
 * the edge.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <glpk.h>

#include <sewing-places.h>

#include "samples.h"

/* --- Against GLPK -------------------------------------------------------------------------------
 */

typedef struct {
  const PfEdgeLine *line;
  double reach;
} Task;

static double
distance_to (const Task *task, double target, size_t pinhole)
{
  const double straight = fabs (target - task->line->pinholes[pinhole]);
  return task->line->closed ? fmin (straight, task->line->length - straight) : straight;
}

static bool
may_have (const Task *task, double target, size_t pinhole)
{
  return task->line->kind == PF_EDGE_CLOTH_STITCH ||
         distance_to (task, target, pinhole) <= task->reach + 1e-6;
}

/* A row for each sewing and each pinhole, a column for each pinhole a sewing may have. A sewing at
 * a pinhole is worth more than any distance. */
static glp_prob *
transport_programme (const Task *task, const PfPlacing *placings, size_t n, double worth)
{
  glp_prob *lp = glp_create_prob ();
  glp_set_obj_dir (lp, GLP_MAX);
  glp_add_rows (lp, (int) (n + task->line->n_pinholes));
  for (size_t s = 0; s < n; s++)
    glp_set_row_bnds (lp, (int) s + 1, GLP_UP, 0, 1);
  for (size_t p = 0; p < task->line->n_pinholes; p++)
    {
      const int room = (int) task->line->room[p];
      glp_set_row_bnds (lp, (int) (n + p) + 1, room > 0 ? GLP_DB : GLP_FX, 0, room);
    }
  for (size_t s = 0; s < n; s++)
    for (size_t p = 0; p < task->line->n_pinholes; p++)
      {
        if (!may_have (task, placings[s].target, p))
          continue;
        const int rows[] = { 0, (int) s + 1, (int) (n + p) + 1 };
        const double ones[] = { 0, 1, 1 };
        const int column = glp_add_cols (lp, 1);
        glp_set_col_bnds (lp, column, GLP_LO, 0, 0);
        glp_set_mat_col (lp, column, 2, rows, ones);
        glp_set_obj_coef (lp, column, worth - distance_to (task, placings[s].target, p));
      }
  return lp;
}

static double
best_worth (const Task *task, const PfPlacing *placings, size_t n, double worth)
{
  glp_prob *lp = transport_programme (task, placings, n, worth);
  glp_smcp how;
  glp_init_smcp (&how);
  how.msg_lev = GLP_MSG_OFF;
  g_assert_cmpint (glp_simplex (lp, &how), ==, 0);
  const double best = glp_get_num_cols (lp) > 0 ? glp_get_obj_val (lp) : 0;
  glp_delete_prob (lp);
  return best;
}

/* Each placing is one that it may have, its distance is right, and no pinhole has too many. */
static void
check_allowed (const Task *task, const PfPlacing *placings, size_t n)
{
  g_autofree int *used = g_new0 (int, task->line->n_pinholes);
  for (size_t s = 0; s < n; s++)
    {
      const PfPlacing *placing = &placings[s];
      if (placing->pinhole == PF_NONE)
        {
          g_assert_cmpfloat (placing->distance, ==, 0);
          g_assert_cmpint (task->line->kind, ==, PF_EDGE_HALF_STITCH);
          continue;
        }
      g_assert_cmpuint (placing->pinhole, <, task->line->n_pinholes);
      g_assert_true (may_have (task, placing->target, placing->pinhole));
      g_assert_cmpint (++used[placing->pinhole], <=, task->line->room[placing->pinhole]);
      g_assert_cmpfloat (
          fabs (placing->distance - distance_to (task, placing->target, placing->pinhole)), <,
          1e-9);
    }
}

/* The distance on (or back, then negative) from the target to its pinhole. */
static double
way (const Task *task, const PfPlacing *placing)
{
  const double straight = task->line->pinholes[placing->pinhole] - placing->target;
  if (!task->line->closed)
    return straight;
  const double length = task->line->length, forward = straight < 0 ? straight + length : straight;
  return forward <= length / 2 ? forward : forward - length;
}

/* On the loop unrolled, no two sewings have their pinholes in the wrong order. Half-way round the
 * loop either way is the shorter, so there is no order there. */
static void
check_order (const Task *task, const PfPlacing *placings, size_t n)
{
  const double length = task->line->length;
  const int rounds = task->line->closed;
  for (size_t s = 0; s < n; s++)
    for (size_t t = 0; t < n; t++)
      for (int round = -rounds; round <= rounds; round++)
        {
          if (placings[s].pinhole == PF_NONE || placings[t].pinhole == PF_NONE)
            continue;
          const double target = placings[s].target, later = placings[t].target + round * length;
          const double mine = way (task, &placings[s]), its = way (task, &placings[t]);
          if (target >= later || (rounds > 0 && fmax (fabs (mine), fabs (its)) > length / 2 - 1e-6))
            continue;
          g_assert_cmpfloat (target + mine, <=, later + its + 1e-9);
        }
}

typedef struct {
  const char *name;
  PfEdgeKind kind;
  int n_sewings, n_pinholes, limit;
  double reach; /* mm; the line is about 200 mm long */
  double crowd; /* the part of the loop that the targets come from */
} Case;

static const Case cases[] = {
  { "half stitch", PF_EDGE_HALF_STITCH, 30, 30, 2, 3, 1 },
  { "half stitch, short reach", PF_EDGE_HALF_STITCH, 30, 30, 2, 0.5, 1 },
  { "half stitch, no reach", PF_EDGE_HALF_STITCH, 10, 10, 2, 0, 1 },
  { "half stitch, crowded", PF_EDGE_HALF_STITCH, 40, 20, 1, 12, 0.2 },
  { "half stitch, one to a pinhole", PF_EDGE_HALF_STITCH, 25, 15, 1, 8, 1 },
  { "half stitch, reach beyond the loop", PF_EDGE_HALF_STITCH, 12, 5, 2, 1000, 1 },
  { "half stitch, no pinholes", PF_EDGE_HALF_STITCH, 10, 0, 2, 5, 1 },
  { "cloth stitch", PF_EDGE_CLOTH_STITCH, 30, 30, 2, 0, 1 },
  { "cloth stitch, crowded", PF_EDGE_CLOTH_STITCH, 30, 20, 2, 0, 0.15 },
  { "cloth stitch, full", PF_EDGE_CLOTH_STITCH, 20, 10, 2, 0, 1 },
  { "cloth stitch, full and crowded", PF_EDGE_CLOTH_STITCH, 20, 20, 1, 0, 0.1 },
  { "cloth stitch, one pinhole", PF_EDGE_CLOTH_STITCH, 7, 1, 7, 0, 1 },
  { "cloth stitch, two pinholes", PF_EDGE_CLOTH_STITCH, 9, 2, 5, 0, 1 },
  { "cloth stitch, few pinholes", PF_EDGE_CLOTH_STITCH, 20, 4, 5, 0, 0.6 },
  { "one sewing", PF_EDGE_CLOTH_STITCH, 1, 6, 2, 0, 1 },
  { "no sewings", PF_EDGE_CLOTH_STITCH, 0, 6, 2, 0, 1 },
};

/* Several of the targets stand at pinholes, and some at one place. */
static PfPlacing *
random_placings (const Case *c, const PfEdgeLine *line)
{
  const double length = line->length, from = g_test_rand_double_range (0, length);
  PfPlacing *placings = g_new0 (PfPlacing, MAX (c->n_sewings, 1));
  for (int s = 0; s < c->n_sewings; s++)
    {
      placings[s].sewing = (guint32) (c->n_sewings - s);
      placings[s].target = fmod (from + g_test_rand_double_range (0, c->crowd) * length, length);
      if (s > 0 && g_test_rand_int_range (0, 5) == 0)
        placings[s].target = placings[s - 1].target;
      if (line->n_pinholes > 0 && g_test_rand_int_range (0, 8) == 0)
        placings[s].target = line->pinholes[g_test_rand_int_range (0, (int) line->n_pinholes)];
    }
  return placings;
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* A closed line, or one with two ends, whose pinholes have all the same room; or, if `uneven`,
 * some have less, as where the maker chose places (of cloth stitch, as long as all fit). */
static PfEdgeLine
random_line (const Case *c, bool closed, bool uneven)
{
  PfEdgeLine line = { .length = g_test_rand_double_range (150, 250),
                      .closed = closed,
                      .kind = c->kind,
                      .gap = g_test_rand_double_range (1, 10),
                      .pinholes = g_new (double, c->n_pinholes),
                      .n_pinholes = (size_t) c->n_pinholes,
                      .room = g_new (guint32, c->n_pinholes) };
  for (int p = 0; p < c->n_pinholes; p++)
    {
      line.pinholes[p] = g_test_rand_double_range (0, line.length);
      line.room[p] = (guint32) c->limit;
    }
  if (c->n_pinholes > 0)
    qsort (line.pinholes, line.n_pinholes, sizeof (double), compare_doubles);
  int spare = c->kind == PF_EDGE_CLOTH_STITCH ? c->n_pinholes * c->limit - c->n_sewings : G_MAXINT;
  for (int p = 0; uneven && p < c->n_pinholes; p++)
    {
      const int wanted = g_test_rand_int_range (0, c->limit + 1), less = MIN (wanted, spare);
      line.room[p] -= (guint32) less;
      spare -= less;
    }
  return line;
}

static void
check_problem (const Case *c, const PfEdgeLine *line)
{
  const Task task = { line, c->reach };
  const size_t n = (size_t) c->n_sewings;
  const double worth = line->length * (c->n_sewings + 1);
  g_autofree PfPlacing *placings = random_placings (c, line);
  const double best = best_worth (&task, placings, n, worth);
  g_assert_true (pf_assign_places (placings, n, line, c->reach));
  double sum = 0;
  for (size_t s = 0; s < n; s++)
    {
      g_assert_true (s == 0 || placings[s - 1].target <= placings[s].target);
      if (placings[s].pinhole != PF_NONE)
        sum += worth - placings[s].distance;
    }
  g_assert_cmpfloat (fabs (sum - best), <, 1e-6);
  check_allowed (&task, placings, n);
  check_order (&task, placings, n);
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  glp_term_out (GLP_OFF);
  for (int trial = 0; trial < 40; trial++)
    {
      PfEdgeLine line = random_line (c, trial % 2 == 0, trial % 4 > 1);
      check_problem (c, &line);
      g_free (line.pinholes);
      g_free (line.room);
    }
  glp_free_env ();
}

/* --- In a filling -------------------------------------------------------------------------------
 */

typedef struct {
  PfRegion *region;
  PfEdge edge;
  PfGround *ground;
  PfFilling *filling;
} Filled;

static Filled
fill (PfEdgeKind kind, double edge_gap, int limit)
{
  static const PfPoint square[] = { { 0, 0 }, { 60, 0 }, { 60, 60 }, { 0, 60 } };
  Filled f = { .region = sample_polygon (square, 4), .ground = sample_ground ("torchon") };
  g_assert_true (pf_edge_init_even (&f.edge, &f.region->loops[0], kind, edge_gap, NULL));
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = 3;
  settings.sewings_per_pinhole = limit;
  g_autoptr (GError) error = NULL;
  f.filling = pf_filling_new (f.region, &f.edge, f.ground, &settings, &error);
  g_assert_no_error (error);
  return f;
}

static void
filled_clear (Filled *f)
{
  pf_filling_free (f->filling);
  pf_edge_clear (&f->edge);
  pf_region_free (f->region);
  pf_ground_free (f->ground);
}

static const PfWarning *
crowded_warning (const PfFilling *filling)
{
  for (size_t w = 0; w < filling->n_warnings; w++)
    if (filling->warnings[w].kind == PF_WARNING_CROWDED_EDGE)
      return &filling->warnings[w];
  return NULL;
}

static int
most_in_pinhole (const Filled *f)
{
  g_autofree int *used = g_new0 (int, f->edge.n_pinholes);
  int most = 0;
  for (size_t s = 0; s < f->filling->n_sewings; s++)
    if (f->filling->sewings[s].pinhole != PF_NONE)
      used[f->filling->sewings[s].pinhole]++;
  for (size_t p = 0; p < f->edge.n_pinholes; p++)
    most = MAX (most, used[p]);
  return most;
}

/* A maker who takes out every pinhole of a cloth stitch edge is told so; the sewings stay at their
 * targets. */
static void
test_no_pinholes (void)
{
  static const PfPoint square[] = { { 0, 0 }, { 30, 0 }, { 30, 30 }, { 0, 30 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  PfEdge edge;
  g_assert_true (
      pf_edge_init_given (&edge, &region->loops[0], PF_EDGE_CLOTH_STITCH, 3, NULL, 0, NULL));
  const PfFillingSettings settings = pf_filling_settings_default ();
  g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &settings, NULL);
  g_assert_cmpuint (filling->n_sewings, >, 0);
  g_assert_cmpuint (filling->counts.at_pinhole, ==, 0);
  g_assert_nonnull (crowded_warning (filling));
  pf_edge_clear (&edge);
}

/* A cloth stitch edge with too few pinholes: each takes more, and the warning names an edge gap
 * that would do. */
static void
test_crowded (void)
{
  static const double edge_gaps[] = { 100, 30, 12, 8 };
  for (int limit = 1; limit <= 3; limit++)
    for (size_t g = 0; g < G_N_ELEMENTS (edge_gaps); g++)
      {
        Filled f = fill (PF_EDGE_CLOTH_STITCH, edge_gaps[g], limit);
        const size_t n = f.filling->n_sewings, n_pinholes = f.edge.n_pinholes;
        const PfWarning *warning = crowded_warning (f.filling);
        const bool crowded = n > n_pinholes * (size_t) limit;
        const int raised = crowded ? (int) ((n + n_pinholes - 1) / n_pinholes) : limit;
        g_assert_true ((warning != NULL) == crowded);
        g_assert_cmpint (most_in_pinhole (&f), <=, raised);
        g_assert_cmpuint (f.filling->counts.at_pinhole, ==, n);
        g_assert_cmpuint (f.filling->counts.round_bar, ==, 0);
        if (crowded)
          {
            double would_do = 0;
            const char *advice = strstr (warning->text, "An edge gap of ");
            g_assert_nonnull (advice);
            g_assert_cmpint (sscanf (advice, "An edge gap of %lf", &would_do), ==, 1);
            Filled better = fill (PF_EDGE_CLOTH_STITCH, would_do, limit);
            g_assert_null (crowded_warning (better.filling));
            g_assert_cmpint (most_in_pinhole (&better), <=, limit);
            filled_clear (&better);
          }
        filled_clear (&f);
      }
}

/* On a half stitch edge who finds no pinhole goes round the bar, exactly at its target. */
static void
test_round_bar (void)
{
  Filled f = fill (PF_EDGE_HALF_STITCH, 5, 1);
  const PfCounts *counts = &f.filling->counts;
  size_t round_bar = 0, off_line = 0;
  double place_mm = 0;
  for (size_t s = 0; s < f.filling->n_sewings; s++)
    {
      const PfSewing *sewing = &f.filling->sewings[s];
      place_mm += sewing->distance;
      off_line += sewing->off_line;
      g_assert_true (sewing->off_line == (sewing->angle > 8 + 1e-9));
      if (sewing->pinhole != PF_NONE)
        {
          g_assert_cmpfloat (sewing->place.along, ==, f.edge.pinholes[sewing->pinhole]);
          g_assert_cmpfloat (sewing->distance, <=, 0.25 * 5 + 1e-6);
          continue;
        }
      round_bar++;
      g_assert_cmpfloat (sewing->place.along, ==, sewing->target.along);
      g_assert_cmpfloat (
          hypot (sewing->at.x - sewing->target_at.x, sewing->at.y - sewing->target_at.y), ==, 0);
      g_assert_cmpfloat (sewing->angle, ==, 0);
    }
  g_assert_cmpuint (round_bar, >, 0);
  g_assert_cmpuint (round_bar, <, f.filling->n_sewings);
  g_assert_cmpuint (counts->round_bar, ==, round_bar);
  g_assert_cmpuint (counts->at_pinhole, ==, f.filling->n_sewings - round_bar);
  g_assert_cmpuint (counts->sewings, ==, f.filling->n_sewings);
  g_assert_cmpuint (counts->off_line, ==, off_line);
  g_assert_cmpfloat (fabs (counts->place_mm - place_mm), <, 1e-9);
  filled_clear (&f);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/places/%s", cases[c].name);
      g_test_add_data_func (path, &cases[c], test_case);
    }
  g_test_add_func ("/places/filling/crowded", test_crowded);
  g_test_add_func ("/places/filling/no-pinholes", test_no_pinholes);
  g_test_add_func ("/places/filling/round-bar", test_round_bar);
  return g_test_run ();
}
