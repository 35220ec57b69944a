/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The maker's choices in random fillings: pairs are as many as they must be; each choice is kept to
 * or told, as it makes sense or not, the later one of two; and a choice that isn't kept to changes
 * nothing.
 */
#include <math.h>

#include "chosen.h"
#include "same.h"

/* --- Counts -------------------------------------------------------------------------------------
 */

static void
check_counts (const Chosen *f)
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

static bool
makes_sense (const Chosen *f, const PfSewingChoice *choice)
{
  const guint32 a = pf_filling_find_crossing (f->without, choice->line);
  if (a == PF_NONE || choice->kind == PF_SEW_ALONE)
    return a != PF_NONE;
  const guint32 b = pf_filling_find_crossing (f->without, choice->other);
  return b != PF_NONE && choice->line.leaves && !choice->other.leaves &&
         f->without->crossings[a].place.loop == f->without->crossings[b].place.loop &&
         chosen_time (f, choice->line) < chosen_time (f, choice->other) - 1e-9;
}

/* Which choices of pairs count: each that makes sense, if no later one that counts is for one of
 * its lines. */
static void
check_pairs (const Chosen *f)
{
  bool counts[MOST_CHOICES] = { false };
  size_t n_chosen = 0, n_lines = 0;
  for (size_t c = MOST_CHOICES; c-- > 0;)
    {
      const PfSewingChoice *choice = &f->choices[c];
      if (!is_of_pair (choice))
        continue;
      counts[c] = makes_sense (f, choice);
      g_assert_true (chosen_unheeded (f->filling, c) == !counts[c]);
      for (size_t later = c + 1; later < MOST_CHOICES; later++)
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
place_makes_sense (const Chosen *f, const PfSewingChoice *choice, const PfSewing *sewing,
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
check_places (const Chosen *f)
{
  g_autofree bool *placed = g_new0 (bool, f->filling->n_sewings + 1);
  for (size_t c = MOST_CHOICES; c-- > 0;)
    {
      const PfSewingChoice *choice = &f->choices[c];
      if (is_of_pair (choice))
        continue;
      const guint32 crossing = pf_filling_find_crossing (f->filling, choice->line);
      const guint32 s = crossing == PF_NONE ? 0 : f->filling->crossings[crossing].sewing;
      const PfSewing *sewing = &f->filling->sewings[s];
      double along = 0;
      const bool can = crossing != PF_NONE && place_makes_sense (f, choice, sewing, &along);
      g_assert_true (chosen_unheeded (f->filling, c) == !can);
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

static void
test_choices (void)
{
  size_t n_unheeded = 0, n_turned = 0;
  for (int trial = 0; trial < 60; trial++)
    {
      Chosen f = chosen_new (trial);
      check_counts (&f);
      check_crossings (f.filling);
      check_pairs (&f);
      check_places (&f);
      n_unheeded += f.filling->n_unheeded;
      for (size_t s = 0; s < f.filling->n_sewings; s++)
        n_turned += f.filling->sewings[s].chosen && f.filling->sewings[s].kind == PF_PAIR_TURNED;
      chosen_clear (&f);
    }
  g_assert_cmpuint (n_unheeded, >, 60); /* else this tests little */
  g_assert_cmpuint (n_turned, >, 60);
}

/* Without the choices that weren't kept to, nothing is different. */
static void
test_unheeded (void)
{
  for (int trial = 0; trial < 60; trial++)
    {
      Chosen f = chosen_new (trial);
      PfSewingChoice heeded[MOST_CHOICES];
      size_t n = 0;
      for (size_t c = 0; c < MOST_CHOICES; c++)
        if (!chosen_unheeded (f.filling, c))
          heeded[n++] = f.choices[c];
      g_autoptr (PfFilling) again = chosen_fill (&f, heeded, n);
      g_assert_cmpuint (again->n_unheeded, ==, 0);
      assert_same_filling (f.filling, again);
      for (size_t u = 0; u < f.filling->n_unheeded; u++)
        {
          g_assert_true (g_utf8_validate (f.filling->unheeded[u].why, -1, NULL));
          g_assert_true (u == 0 || f.filling->unheeded[u - 1].index < f.filling->unheeded[u].index);
        }
      chosen_clear (&f);
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
      Chosen f = chosen_new (trial);
      PfSewingChoice places[MOST_CHOICES];
      for (size_t c = 0; c < MOST_CHOICES; c++)
        places[c] = chosen_random_place (&f);
      g_autoptr (PfFilling) filling = chosen_fill (&f, places, MOST_CHOICES);
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
      chosen_clear (&f);
    }
  g_assert_cmpuint (n_full, >, 20); /* else this tests little */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/choices/all", test_choices);
  g_test_add_func ("/choices/unheeded", test_unheeded);
  g_test_add_func ("/choices/capacity", test_capacity);
  return g_test_run ();
}
