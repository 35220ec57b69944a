/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The maker's choices in random fillings: pairs are kept as many as they must be; each choice is
 * kept to or told; the rest is the best that GLPK (the GNU Linear Programming Kit) can find beside
 * the choices; and a choice that isn't kept to changes nothing.
 */
#include <math.h>
#include <string.h>

#include <glpk.h>

#include <filling-private.h>

#include "same.h"

enum { MOST = 24 };

typedef struct {
  PfRegion *region;
  PfGround *ground;
  PfEdge edges[3];
  PfFillingSettings settings;
  PfSewingChoice choices[MOST];
  PfFilling *without, *filling; /* the choices */
} Filled;

static PfFilling *
fill (const Filled *f, const PfSewingChoice *choices, size_t n)
{
  PfFillingSettings settings = f->settings;
  settings.sewing_choices = choices;
  settings.n_sewing_choices = n;
  g_autoptr (GError) error = NULL;
  PfFilling *filling = pf_filling_new (f->region, f->edges, f->ground, &settings, &error);
  g_assert_no_error (error);
  return filling;
}

static PfLineId
random_line (const PfFilling *filling)
{
  if (filling->n_crossings > 0 && g_test_rand_int_range (0, 12) > 0)
    return pf_crossing_line (filling,
                             (guint32) g_test_rand_int_range (0, (int) filling->n_crossings));
  return (PfLineId){ { g_test_rand_int_range (-1, 9), g_test_rand_int_range (-3, 4),
                       g_test_rand_int_range (-3, 4) },
                     g_test_rand_bit () ? PF_LEFT : PF_RIGHT,
                     g_test_rand_bit () };
}

/* A line that leaves and one that enters; often near one another, so that they can be turned. */
static PfSewingChoice
random_turn (const PfFilling *filling)
{
  PfSewingChoice choice = { .kind = PF_SEW_TURN,
                            .line = random_line (filling),
                            .other = random_line (filling) };
  const guint32 c = pf_filling_find_crossing (filling, choice.line);
  if (c == PF_NONE || g_test_rand_int_range (0, 5) == 0)
    return choice;
  const guint32 n = (guint32) filling->n_crossings;
  for (guint32 k = 1; k < n; k++)
    if (filling->crossings[(c + k) % n].leaves != filling->crossings[c].leaves)
      {
        choice.other = pf_crossing_line (filling, (c + k) % n);
        break;
      }
  if (choice.line.leaves)
    return choice;
  return (PfSewingChoice){ .kind = PF_SEW_TURN, .line = choice.other, .other = choice.line };
}

static PfSewingChoice
random_place (const Filled *f, const PfFilling *filling)
{
  PfSewingChoice choice = { .kind = g_test_rand_bit () ? PF_SEW_PINHOLE : PF_SEW_BAR,
                            .line = random_line (filling) };
  const guint32 c = pf_filling_find_crossing (filling, choice.line);
  if (c == PF_NONE)
    return choice;
  choice.place = filling->sewings[filling->crossings[c].sewing].target;
  const double length = pf_loop_length (&f->region->loops[choice.place.loop]);
  choice.place.along = fmod (
      choice.place.along + length + g_test_rand_double_range (-1, 1) * MIN (8, length / 2), length);
  return choice;
}

static Filled
start (int trial)
{
  Filled f = { .region = sample_star ((PfPoint){ 0, 0 }, 10, 25,
                                      (size_t) g_test_rand_int_range (7, 30), (size_t) trial % 3),
               .ground = sample_ground (trial % 2 == 0 ? "armure" : "torchon"),
               .settings = pf_filling_settings_default () };
  f.settings.placement = sample_placement (4, 6);
  f.settings.carry = g_test_rand_int_range (0, 4);
  for (size_t l = 0; l < f.region->n_loops; l++)
    {
      const PfLoop *loop = &f.region->loops[l];
      g_assert_true (
          pf_edge_init_even (&f.edges[l], loop, (PfEdgeKind) g_test_rand_bit (), 2, NULL));
      const PfEdgeStretch stretch = { g_test_rand_double_range (0, pf_loop_length (loop)),
                                      g_test_rand_double_range (0, pf_loop_length (loop)),
                                      (PfEdgeKind) g_test_rand_bit () };
      g_assert_true (pf_edge_set_stretches (&f.edges[l], loop, &stretch, 1, NULL));
    }
  f.without = fill (&f, NULL, 0);
  for (size_t c = 0; c < MOST; c++)
    switch (g_test_rand_int_range (0, 3))
      {
      case 0:
        f.choices[c] = (PfSewingChoice){ .kind = PF_SEW_ALONE, .line = random_line (f.without) };
        break;
      case 1:
        f.choices[c] = random_turn (f.without);
        break;
      default:
        f.choices[c] = random_place (&f, f.without);
      }
  f.filling = fill (&f, f.choices, MOST);
  return f;
}

static void
filled_clear (Filled *f)
{
  pf_filling_free (f->without);
  pf_filling_free (f->filling);
  for (size_t l = 0; l < f->region->n_loops; l++)
    pf_edge_clear (&f->edges[l]);
  pf_region_free (f->region);
  pf_ground_free (f->ground);
}

static bool
is_unheeded (const PfFilling *filling, size_t index)
{
  for (size_t u = 0; u < filling->n_unheeded; u++)
    if (filling->unheeded[u].of_sewing && filling->unheeded[u].index == index)
      return true;
  return false;
}

/* --- Counts -------------------------------------------------------------------------------------
 */

static void
check_counts (const Filled *f)
{
  const PfCounts *n = &f->filling->counts, *was = &f->without->counts;
  g_assert_cmpuint (n->entering, ==, was->entering);
  g_assert_cmpuint (n->leaving, ==, was->leaving);
  g_assert_cmpuint (n->stitches, ==, was->stitches);
  g_assert_cmpuint (n->reused, ==, n->turned + n->carried);
  g_assert_cmpuint (n->new_pairs, ==, n->entering - n->reused);
  g_assert_cmpuint (n->finished, ==, n->new_pairs);
  g_assert_cmpuint (n->sewings, ==, n->new_pairs + n->finished + n->turned + 2 * n->carried);
  g_assert_cmpuint (n->at_pinhole + n->round_bar, ==, n->sewings);
  g_assert_cmpuint (f->filling->n_pairs, ==, n->new_pairs);
  double place_mm = 0;
  size_t stitches = 0, off_line = 0;
  for (size_t s = 0; s < f->filling->n_sewings; s++)
    {
      place_mm += f->filling->sewings[s].distance;
      off_line += f->filling->sewings[s].off_line;
    }
  g_assert_cmpfloat (fabs (place_mm - n->place_mm), <, 1e-6);
  g_assert_cmpuint (off_line, ==, n->off_line);
  for (size_t s = 0; s < f->filling->n_path_steps; s++)
    stitches += f->filling->path_steps[s].kind == PF_STEP_STITCH;
  g_assert_cmpuint (stitches, ==, 2 * n->stitches);
}

static void
check_crossings (const PfFilling *filling)
{
  for (guint32 c = 0; c < filling->n_crossings; c++)
    {
      const PfCrossing *crossing = &filling->crossings[c];
      g_assert_true (filling->sewings[crossing->sewing].chosen || !crossing->chosen);
      g_assert_cmpuint (pf_filling_find_crossing (filling, pf_crossing_line (filling, c)), ==, c);
      if (crossing->match == PF_NONE)
        {
          g_assert_cmpint (crossing->kind, ==, crossing->leaves ? PF_PAIR_FINISHED : PF_PAIR_NEW);
          continue;
        }
      const PfCrossing *other = &filling->crossings[crossing->match];
      g_assert_cmpuint (other->match, ==, c);
      g_assert_cmpint (other->kind, ==, crossing->kind);
      g_assert_true (other->chosen == crossing->chosen);
      g_assert_true (other->leaves != crossing->leaves);
      g_assert_cmpuint (other->pair, ==, crossing->pair);
    }
}

/* --- Each choice --------------------------------------------------------------------------------
 */

static bool
same_line (PfLineId a, PfLineId b)
{
  return a.stitch.k == b.stitch.k && a.stitch.i == b.stitch.i && a.stitch.j == b.stitch.j &&
         a.side == b.side && a.leaves == b.leaves;
}

static bool
is_of_pair (const PfSewingChoice *choice)
{
  return choice->kind == PF_SEW_ALONE || choice->kind == PF_SEW_TURN;
}

static bool
touches (const PfSewingChoice *a, const PfSewingChoice *b)
{
  return same_line (a->line, b->line) ||
         (a->kind == PF_SEW_TURN && same_line (a->other, b->line)) ||
         (b->kind == PF_SEW_TURN && same_line (a->line, b->other)) ||
         (a->kind == PF_SEW_TURN && b->kind == PF_SEW_TURN && same_line (a->other, b->other));
}

static double
time_of (const Filled *f, PfLineId line)
{
  return pf_ground_time (f->ground, line.stitch.k, line.stitch.i, line.stitch.j);
}

static bool
makes_sense (const Filled *f, const PfSewingChoice *choice)
{
  const guint32 a = pf_filling_find_crossing (f->without, choice->line);
  if (a == PF_NONE || choice->kind == PF_SEW_ALONE)
    return a != PF_NONE;
  const guint32 b = pf_filling_find_crossing (f->without, choice->other);
  return b != PF_NONE && choice->line.leaves && !choice->other.leaves &&
         f->without->crossings[a].place.loop == f->without->crossings[b].place.loop &&
         time_of (f, choice->line) < time_of (f, choice->other) - 1e-9;
}

/* Which choices of pairs count: each that makes sense, if no later one that counts is for one of
 * its lines. */
static void
check_pairs (const Filled *f)
{
  bool counts[MOST] = { false };
  size_t n_chosen = 0, n_lines = 0;
  for (size_t c = MOST; c-- > 0;)
    {
      const PfSewingChoice *choice = &f->choices[c];
      if (!is_of_pair (choice))
        continue;
      counts[c] = makes_sense (f, choice);
      g_assert_true (is_unheeded (f->filling, c) == !counts[c]);
      for (size_t later = c + 1; later < MOST; later++)
        if (counts[later] && touches (choice, &f->choices[later]))
          counts[c] = false;
      if (!counts[c])
        continue;
      const guint32 a = pf_filling_find_crossing (f->filling, choice->line);
      const guint32 b = choice->kind == PF_SEW_TURN
                            ? pf_filling_find_crossing (f->filling, choice->other)
                            : PF_NONE;
      g_assert_true (f->filling->crossings[a].chosen);
      g_assert_cmpuint (f->filling->crossings[a].match, ==, b);
      g_assert_true (b == PF_NONE || f->filling->crossings[a].kind == PF_PAIR_TURNED);
      n_lines += b == PF_NONE ? 1 : 2;
    }
  for (size_t c = 0; c < f->filling->n_crossings; c++)
    n_chosen += f->filling->crossings[c].chosen;
  g_assert_cmpuint (n_chosen, ==, n_lines);
}

/* Can the sewing be placed as chosen? `*along` gets where. */
static bool
place_makes_sense (const Filled *f, const PfSewingChoice *choice, const PfSewing *sewing,
                   double *along)
{
  const size_t l = sewing->target.loop;
  const PfEdge *edge = &f->edges[l];
  const PfLoop *loop = &f->region->loops[l];
  if (choice->place.loop != l)
    return false;
  *along = choice->place.along;
  if (choice->kind == PF_SEW_PINHOLE)
    {
      double least = INFINITY;
      for (size_t p = 0; p < edge->n_pinholes; p++)
        {
          const double off = pf_loop_distance (loop, choice->place.along, edge->pinholes[p]);
          if (off < least)
            *along = edge->pinholes[p];
          least = fmin (least, off);
        }
      if (least > edge->gap / 2 + 1e-6)
        return false;
    }
  else if (pf_edge_kind_at (edge, *along) == PF_EDGE_CLOTH_STITCH)
    return false;
  return pf_loop_distance (loop, sewing->target.along, *along) <=
         fmax (2 * edge->gap, f->settings.placement.gap) + 1e-6;
}

static void
check_places (const Filled *f)
{
  g_autofree bool *placed = g_new0 (bool, f->filling->n_sewings + 1);
  for (size_t c = MOST; c-- > 0;)
    {
      const PfSewingChoice *choice = &f->choices[c];
      if (is_of_pair (choice))
        continue;
      const guint32 crossing = pf_filling_find_crossing (f->filling, choice->line);
      const guint32 s = crossing == PF_NONE ? 0 : f->filling->crossings[crossing].sewing;
      const PfSewing *sewing = &f->filling->sewings[s];
      double along = 0;
      const bool can = crossing != PF_NONE && place_makes_sense (f, choice, sewing, &along);
      g_assert_true (is_unheeded (f->filling, c) == !can);
      if (!can || placed[s])
        continue;
      placed[s] = true;
      g_assert_true (sewing->chosen);
      g_assert_cmpfloat (sewing->place.along, ==, along);
      g_assert_true ((sewing->pinhole != PF_NONE) == (choice->kind == PF_SEW_PINHOLE));
    }
  for (size_t s = 0; s < f->filling->n_sewings; s++)
    {
      const PfSewing *sewing = &f->filling->sewings[s];
      const bool leaving =
          sewing->leaving != PF_NONE && f->filling->crossings[sewing->leaving].chosen;
      const bool entering =
          sewing->entering != PF_NONE && f->filling->crossings[sewing->entering].chosen;
      g_assert_true (sewing->chosen == (placed[s] || leaving || entering));
    }
}

/* --- The rest, against GLPK ---------------------------------------------------------------------
 */

static bool
same_missing_place (const Filled *f, const PfCrossing *a, const PfCrossing *b)
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
add_column (Programme *p, const Filled *f, guint32 leaving, guint32 entering)
{
  const PfCrossing *a = &f->filling->crossings[leaving], *b = &f->filling->crossings[entering];
  if (!a->leaves || b->leaves || a->chosen || b->chosen || a->place.loop != b->place.loop ||
      !(time_of (f, pf_crossing_line (f->filling, leaving)) <
        time_of (f, pf_crossing_line (f->filling, entering)) - 1e-9))
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
check_optimum (const Filled *f)
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
test_choices (void)
{
  size_t n_unheeded = 0, n_turned = 0;
  glp_term_out (GLP_OFF);
  for (int trial = 0; trial < 60; trial++)
    {
      Filled f = start (trial);
      check_counts (&f);
      check_crossings (f.filling);
      check_pairs (&f);
      check_places (&f);
      check_optimum (&f);
      n_unheeded += f.filling->n_unheeded;
      for (size_t s = 0; s < f.filling->n_sewings; s++)
        n_turned += f.filling->sewings[s].chosen && f.filling->sewings[s].kind == PF_PAIR_TURNED;
      filled_clear (&f);
    }
  glp_free_env ();
  g_assert_cmpuint (n_unheeded, >, 60); /* else this tests little */
  g_assert_cmpuint (n_turned, >, 60);
}

/* Without the choices that weren't kept to, nothing is different. */
static void
test_unheeded (void)
{
  for (int trial = 0; trial < 60; trial++)
    {
      Filled f = start (trial);
      PfSewingChoice heeded[MOST];
      size_t n = 0;
      for (size_t c = 0; c < MOST; c++)
        if (!is_unheeded (f.filling, c))
          heeded[n++] = f.choices[c];
      g_autoptr (PfFilling) again = fill (&f, heeded, n);
      g_assert_cmpuint (again->n_unheeded, ==, 0);
      assert_same_filling (f.filling, again);
      for (size_t u = 0; u < f.filling->n_unheeded; u++)
        {
          g_assert_true (g_utf8_validate (f.filling->unheeded[u].why, -1, NULL));
          g_assert_true (u == 0 || f.filling->unheeded[u - 1].index < f.filling->unheeded[u].index);
        }
      filled_clear (&f);
    }
}

/* --- Capacity -----------------------------------------------------------------------------------
 */

static bool
is_crowded (const PfFilling *filling)
{
  for (size_t w = 0; w < filling->n_warnings; w++)
    if (filling->warnings[w].kind == PF_WARNING_CROWDED_EDGE)
      return true;
  return false;
}

/* Only places are chosen here: a pinhole that the maker chose for two sewings or more has no room
 * for another, one that she chose for one has room for one more. */
static void
test_capacity (void)
{
  size_t n_full = 0;
  for (int trial = 0; trial < 60; trial++)
    {
      Filled f = start (trial);
      PfSewingChoice places[MOST];
      for (size_t c = 0; c < MOST; c++)
        places[c] = random_place (&f, f.without);
      g_autoptr (PfFilling) filling = fill (&f, places, MOST);
      for (size_t l = 0; l < f.region->n_loops && !is_crowded (filling); l++)
        {
          g_autofree guint *chosen = g_new0 (guint, f.edges[l].n_pinholes);
          g_autofree guint *all = g_new0 (guint, f.edges[l].n_pinholes);
          for (size_t s = 0; s < filling->n_sewings; s++)
            {
              const PfSewing *sewing = &filling->sewings[s];
              if (sewing->place.loop != l || sewing->pinhole == PF_NONE)
                continue;
              all[sewing->pinhole]++;
              chosen[sewing->pinhole] += sewing->chosen;
            }
          for (size_t p = 0; p < f.edges[l].n_pinholes; p++)
            {
              g_assert_cmpuint (all[p], <=, MAX (2, chosen[p]));
              n_full += all[p] >= 2 && chosen[p] > 0;
            }
        }
      filled_clear (&f);
    }
  g_assert_cmpuint (n_full, >, 20); /* else this tests little */
}

/* --- Words --------------------------------------------------------------------------------------
 */

/* All there is to say is said in sentences: whole ones, without a gap. */
static void
check_words (char *words)
{
  g_assert_true (g_utf8_validate (words, -1, NULL));
  g_assert_true (g_str_has_suffix (words, "."));
  g_assert_null (strstr (words, "  "));
  g_assert_null (strstr (words, "(null)"));
  g_assert_null (strstr (words, "4294967295"));
  g_free (words);
}

static void
test_words (void)
{
  for (int trial = 0; trial < 20; trial++)
    {
      Filled f = start (trial);
      for (guint32 s = 0; s < f.filling->n_sewings; s++)
        {
          const PfSewing *sewing = &f.filling->sewings[s];
          g_autofree char *words = pf_explain_sewing (f.filling, f.ground, s);
          g_assert_true ((strstr (words, "degrees off its line") != NULL) == sewing->off_line);
          g_assert_true ((strstr (words, "You chose") != NULL) == sewing->chosen);
          check_words (g_steal_pointer (&words));
        }
      for (guint32 p = 0; p < f.filling->n_pairs; p++)
        check_words (pf_explain_pair (f.filling, f.ground, p));
      for (size_t r = 0; r < f.filling->n_repeats; r++)
        check_words (pf_explain_repeat (f.filling, f.ground, f.filling->repeats[r].i,
                                        f.filling->repeats[r].j));
      filled_clear (&f);
    }
}

/* A way is as long as its steps; a run along the edge is no shorter than straight across. */
static void
test_ways (void)
{
  for (int trial = 0; trial < 20; trial++)
    {
      Filled f = start (trial);
      for (guint32 p = 0; p < f.filling->n_pairs; p++)
        {
          size_t n;
          g_autofree PfPoint *way = pf_pair_way (f.filling, p, &n);
          g_assert_cmpuint (n, ==, f.filling->pairs[p].n_steps);
          double straight = 0;
          for (size_t k = 1; k < n; k++)
            straight += hypot (way[k].x - way[k - 1].x, way[k].y - way[k - 1].y);
          g_assert_cmpfloat (pf_pair_length (f.filling, p), >=, straight - 1e-6);
          if (f.filling->counts.carried == 0)
            g_assert_cmpfloat (fabs (pf_pair_length (f.filling, p) - straight), <, 1e-6);
        }
      for (size_t s = 0; s < f.filling->n_sewings; s++)
        {
          const PfSewing *sewing = &f.filling->sewings[s];
          g_assert_true (sewing->kind == PF_PAIR_CARRIED || sewing->run <= 0);
        }
      filled_clear (&f);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/choices/all", test_choices);
  g_test_add_func ("/choices/unheeded", test_unheeded);
  g_test_add_func ("/choices/capacity", test_capacity);
  g_test_add_func ("/choices/words", test_words);
  g_test_add_func ("/choices/ways", test_ways);
  return g_test_run ();
}
