/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working order, the pairs' paths and the counts of random fillings, against the same worked
 * out in the plainest way.
 */
#include <math.h>
#include <string.h>

#include "samples.h"

typedef struct {
  const PfGround *ground;
  const PfRegion *region;
  const PfFilling *filling;
} Checked;

/* --- Order --------------------------------------------------------------------------------------
 */

/* The stitch and entry that the pair of an exit comes to, by pair line, turn or carry; PF_NONE if
 * it is finished. */
static guint32
next_of (const PfFilling *f, guint32 stitch, int side, int *entry)
{
  const PfWorkedStitch *s = &f->stitches[stitch];
  if (pf_worked_ends (f, s)[side].leaving == PF_NONE)
    {
      *entry = pf_worked_ends (f, s)[side].to_side;
      return pf_worked_ends (f, s)[side].to;
    }
  const guint32 match = f->crossings[pf_worked_ends (f, s)[side].leaving].match;
  if (match == PF_NONE)
    return PF_NONE;
  *entry = f->crossings[match].side;
  return f->crossings[match].stitch;
}

static gint64
rounded (double value)
{
  return (gint64) llround (value * 1e9);
}

/* Is stitch `a` taken before `b`? By time, x in the ground, and place in the file. */
static bool
taken_before (const Checked *c, guint32 a, guint32 b)
{
  const PfStitchId s = c->filling->stitches[a].id, t = c->filling->stitches[b].id;
  const gint64 times[] = { rounded (pf_ground_time (c->ground, s.k, s.i, s.j)),
                           rounded (pf_ground_time (c->ground, t.k, t.i, t.j)) };
  if (times[0] != times[1])
    return times[0] < times[1];
  const double sign = c->filling->habits.right_first ? -1 : 1;
  const gint64 x[] = { rounded (sign * pf_ground_position (c->ground, s.k, s.i, s.j).x),
                       rounded (sign * pf_ground_position (c->ground, t.k, t.i, t.j).x) };
  return x[0] != x[1] ? x[0] < x[1] : s.k < t.k;
}

/* Is repeat (i, j) the next of the row that runs down to the side worked first? Of all repeats that
 * lie down to that side, the nearest. */
static bool
is_next_in_row (const Checked *c, const PfStitchId *last, const PfStitchId *next)
{
  const PfPoint a = c->ground->a, b = c->ground->b;
  const double sign = c->filling->habits.right_first ? 1 : -1;
  double least = INFINITY;
  for (int di = -12; di <= 12; di++)
    for (int dj = -12; dj <= 12; dj++)
      {
        const double x = di * a.x + dj * b.x, y = di * a.y + dj * b.y;
        if (y > 1e-6 && sign * x > 1e-6)
          least = fmin (least, hypot (x, y));
      }
  const int di = next->i - last->i, dj = next->j - last->j;
  const double x = di * a.x + dj * b.x, y = di * a.y + dj * b.y;
  return y > 1e-6 && sign * x > 1e-6 && hypot (x, y) < least + 1e-6;
}

/* Looks through all stitches for the one to work next. */
static guint32
plainest_choice (const Checked *c, const guint8 *waits_for, const bool *worked, guint32 last)
{
  const PfFilling *f = c->filling;
  guint32 best = PF_NONE, best_here = PF_NONE, best_in_row = PF_NONE;
  const bool by_row = f->habits.by == PF_WORK_BY_ROW;
  for (guint32 s = 0; s < f->n_stitches; s++)
    {
      if (worked[s] || waits_for[s] > 0)
        continue;
      if (best == PF_NONE || taken_before (c, s, best))
        best = s;
      const bool here = last != PF_NONE && f->stitches[s].id.i == f->stitches[last].id.i &&
                        f->stitches[s].id.j == f->stitches[last].id.j;
      if (here && (best_here == PF_NONE || taken_before (c, s, best_here)))
        best_here = s;
      if (by_row && last != PF_NONE &&
          is_next_in_row (c, &f->stitches[last].id, &f->stitches[s].id) &&
          (best_in_row == PF_NONE || taken_before (c, s, best_in_row)))
        best_in_row = s;
    }
  if (best_here != PF_NONE)
    return best_here;
  return best_in_row != PF_NONE ? best_in_row : best;
}

static void
check_order (const Checked *c)
{
  const PfFilling *f = c->filling;
  g_autofree guint8 *waits_for = g_new0 (guint8, MAX (f->n_stitches, 1));
  g_autofree bool *worked = g_new0 (bool, MAX (f->n_stitches, 1));
  int entry;
  for (guint32 s = 0; s < f->n_stitches; s++)
    for (int side = 0; side < (int) f->stitches[s].n_sides; side++)
      if (next_of (f, s, side, &entry) != PF_NONE)
        waits_for[next_of (f, s, side, &entry)]++;
  guint32 last = PF_NONE;
  for (size_t n = 0; n < f->n_stitches; n++)
    {
      const guint32 s = f->order[n];
      g_assert_cmpuint (s, ==, plainest_choice (c, waits_for, worked, last));
      worked[s] = true;
      for (int side = 0; side < (int) f->stitches[s].n_sides; side++)
        if (next_of (f, s, side, &entry) != PF_NONE)
          waits_for[next_of (f, s, side, &entry)]--;
      last = s;
    }
}

/* --- Links --------------------------------------------------------------------------------------
 */

/* Each exit goes on to one entry, or to a crossing; each crossing belongs to one exit or entry. */
static void
check_links (const PfFilling *f)
{
  size_t n_crossings = 0;
  for (guint32 s = 0; s < f->n_stitches; s++)
    for (guint32 side = 0; side < f->stitches[s].n_sides; side++)
      {
        const PfWorkedEnd *end = &pf_worked_ends (f, &f->stitches[s])[side];
        g_assert_true ((end->to == PF_NONE) == (end->leaving != PF_NONE));
        g_assert_true ((end->from == PF_NONE) == (end->entering != PF_NONE));
        if (end->to != PF_NONE)
          g_assert_cmpuint (pf_worked_ends (f, &f->stitches[end->to])[end->to_side].from, ==, s);
        n_crossings += (end->leaving != PF_NONE) + (end->entering != PF_NONE);
      }
  g_assert_cmpuint (n_crossings, ==, f->n_crossings);
  for (guint32 n = 0; n < f->n_crossings; n++)
    {
      const PfCrossing *crossing = &f->crossings[n];
      const PfWorkedStitch *stitch = &f->stitches[crossing->stitch];
      const PfWorkedEnd *end = &pf_worked_ends (f, stitch)[crossing->side];
      g_assert_cmpuint (crossing->leaves ? end->leaving : end->entering, ==, n);
      if (n > 0)
        g_assert_true (crossing->place.loop > crossing[-1].place.loop ||
                       (crossing->place.loop == crossing[-1].place.loop &&
                        crossing->place.along >= crossing[-1].place.along));
    }
}

/* --- Matches ------------------------------------------------------------------------------------
 */

static bool
same_missing_place (const Checked *c, const PfCrossing *a, const PfCrossing *b)
{
  const PfStitch *stitches = c->ground->stitches;
  return a->has_missing && b->has_missing && a->missing.i == b->missing.i &&
         a->missing.j == b->missing.j &&
         stitches[a->missing.k].place == stitches[b->missing.k].place;
}

/* A leaving pair enters again only later, on the same loop, near enough or at its missing place; no
 * two more could be matched as they are. */
static void
check_matches (const Checked *c, double carry_mm)
{
  const PfFilling *f = c->filling;
  double sum = 0;
  for (guint32 n = 0; n < f->n_crossings; n++)
    {
      const PfCrossing *a = &f->crossings[n];
      if (a->match == PF_NONE)
        {
          g_assert_cmpint (a->kind, ==, a->leaves ? PF_PAIR_FINISHED : PF_PAIR_NEW);
          continue;
        }
      const PfCrossing *b = &f->crossings[a->match];
      g_assert_cmpuint (b->match, ==, n);
      g_assert_true (a->leaves != b->leaves);
      g_assert_cmpint (a->kind, ==,
                       same_missing_place (c, a, b) ? PF_PAIR_TURNED : PF_PAIR_CARRIED);
      g_assert_cmpint (a->kind, ==, b->kind);
      g_assert_cmpuint (a->place.loop, ==, b->place.loop);
      if (!a->leaves)
        continue;
      const double distance =
          pf_loop_distance (&c->region->loops[a->place.loop], a->place.along, b->place.along);
      g_assert_true (a->kind == PF_PAIR_TURNED || distance <= carry_mm + 1e-6);
      const PfStitchId s = f->stitches[a->stitch].id, t = f->stitches[b->stitch].id;
      g_assert_cmpfloat (pf_ground_time (c->ground, s.k, s.i, s.j) + 1e-9, <,
                         pf_ground_time (c->ground, t.k, t.i, t.j));
      sum += distance;
    }
  g_assert_cmpfloat (fabs (sum - f->counts.carry_mm), <, 1e-6 * (double) (f->n_crossings + 1));
}

/* --- Sewings ------------------------------------------------------------------------------------
 */

/* In the order of work: just before the stitch that needs the pair, or just after the one that ends
 * it; each crossing has one. */
static void
check_sewings (const Checked *c)
{
  const PfFilling *f = c->filling;
  guint32 next = 0;
  const bool new_first = f->habits.sew_in_first;
  for (size_t n = 0; n < f->n_stitches && new_first; n++)
    for (guint32 side = 0; side < f->stitches[f->order[n]].n_sides; side++)
      {
        const guint32 entering = pf_worked_ends (f, &f->stitches[f->order[n]])[side].entering;
        if (entering != PF_NONE && f->crossings[entering].kind == PF_PAIR_NEW)
          g_assert_cmpuint (f->sewings[next++].entering, ==, entering);
      }
  for (size_t n = 0; n < f->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = &f->stitches[f->order[n]];
      for (unsigned side = 0; side < stitch->n_sides; side++)
        if (pf_worked_ends (f, stitch)[side].entering != PF_NONE &&
            !(new_first &&
              f->crossings[pf_worked_ends (f, stitch)[side].entering].kind == PF_PAIR_NEW))
          {
            g_assert_cmpuint (f->crossings[pf_worked_ends (f, stitch)[side].entering].sewing, ==,
                              next);
            g_assert_cmpuint (f->sewings[next++].entering, ==,
                              pf_worked_ends (f, stitch)[side].entering);
          }
      for (unsigned side = 0; side < stitch->n_sides; side++)
        if (pf_worked_ends (f, stitch)[side].leaving != PF_NONE &&
            f->crossings[pf_worked_ends (f, stitch)[side].leaving].kind != PF_PAIR_TURNED)
          {
            g_assert_cmpuint (f->crossings[pf_worked_ends (f, stitch)[side].leaving].sewing, ==,
                              next);
            g_assert_cmpuint (f->sewings[next++].leaving, ==,
                              pf_worked_ends (f, stitch)[side].leaving);
          }
    }
  g_assert_cmpuint (next, ==, f->n_sewings);
  for (size_t s = 0; s < f->n_sewings; s++)
    {
      const PfSewing *sewing = &f->sewings[s];
      const bool turned = sewing->leaving != PF_NONE && sewing->entering != PF_NONE;
      g_assert_true (turned == (sewing->kind == PF_PAIR_TURNED));
      const PfCrossing *one =
          &f->crossings[turned || sewing->entering == PF_NONE ? sewing->leaving : sewing->entering];
      const PfLoop *loop = &c->region->loops[one->place.loop];
      const double off = pf_loop_distance (loop, one->place.along, sewing->target.along);
      if (!turned)
        g_assert_cmpfloat (off, ==, 0);
      else
        g_assert_cmpfloat (
            fabs (off - pf_loop_distance (loop, sewing->target.along,
                                          f->crossings[sewing->entering].place.along)),
            <, 1e-9);
    }
}

/* --- Paths --------------------------------------------------------------------------------------
 */

static void
expect_step (const PfFilling *f, size_t *at, PfStepKind kind, guint32 index, int side)
{
  g_assert_cmpuint (*at, <, f->n_path_steps);
  const PfPathStep step = f->path_steps[(*at)++];
  g_assert_cmpuint (step.kind, ==, kind);
  g_assert_cmpuint (step.index, ==, index);
  if (kind == PF_STEP_STITCH)
    g_assert_cmpint (step.side, ==, side);
}

/* Follows a pair from its first entry to its end; each step of its path must be the same. Marks the
 * entries it passes, and notes where in the order it is first and last worked. */
static void
follow_pair (const PfFilling *f, guint32 pair, guint32 stitch, int side,
             const guint32 *place_in_order, bool *passed, guint32 *first, guint32 *last)
{
  size_t at = f->pairs[pair].first_step;
  const guint32 sewn_in =
      f->crossings[pf_worked_ends (f, &f->stitches[stitch])[side].entering].sewing;
  g_assert_cmpuint (f->pairs[pair].sewn_in, ==, sewn_in);
  expect_step (f, &at, PF_STEP_SEWING, sewn_in, side);
  *first = place_in_order[stitch];
  for (;;)
    {
      const PfWorkedStitch *s = &f->stitches[stitch];
      g_assert_false (passed[f->stitches[stitch].first_end + (guint32) side]);
      passed[f->stitches[stitch].first_end + (guint32) side] = true;
      g_assert_cmpuint (pf_worked_ends (f, s)[side].pair, ==, pair);
      expect_step (f, &at, PF_STEP_STITCH, stitch, side);
      *last = place_in_order[stitch];
      const guint32 leaving = pf_worked_ends (f, s)[side].leaving;
      if (leaving != PF_NONE)
        {
          const PfCrossing *crossing = &f->crossings[leaving];
          g_assert_cmpuint (crossing->pair, ==, pair);
          expect_step (f, &at, PF_STEP_SEWING, crossing->sewing, side);
          g_assert_cmpuint (f->sewings[crossing->sewing].pair, ==, pair);
          if (crossing->match == PF_NONE)
            {
              g_assert_cmpuint (f->pairs[pair].sewn_out, ==, crossing->sewing);
              break;
            }
          g_assert_cmpuint (f->crossings[crossing->match].pair, ==, pair);
          if (crossing->kind == PF_PAIR_CARRIED)
            expect_step (f, &at, PF_STEP_SEWING, f->crossings[crossing->match].sewing, side);
        }
      int entry;
      const guint32 next = next_of (f, stitch, side, &entry);
      g_assert_cmpuint (place_in_order[next], >, place_in_order[stitch]);
      stitch = next;
      side = entry;
    }
  g_assert_cmpuint (at, ==, f->pairs[pair].first_step + f->pairs[pair].n_steps);
}

/* Pairs are numbered where they are first worked. The most at once: counted at every stitch. */
static void
check_paths (const PfFilling *f)
{
  g_autofree guint32 *place_in_order = g_new (guint32, MAX (f->n_stitches, 1));
  g_autofree bool *passed = g_new0 (bool, MAX (f->n_ends, 1));
  g_autofree guint32 *first = g_new (guint32, MAX (f->n_pairs, 1)),
                     *last = g_new (guint32, MAX (f->n_pairs, 1));
  for (guint32 n = 0; n < f->n_stitches; n++)
    place_in_order[f->order[n]] = n;
  guint32 pair = 0;
  for (guint32 n = 0; n < f->n_stitches; n++)
    for (int side = 0; side < (int) f->stitches[f->order[n]].n_sides; side++)
      {
        const guint32 entering = pf_worked_ends (f, &f->stitches[f->order[n]])[side].entering;
        if (entering == PF_NONE || f->crossings[entering].kind != PF_PAIR_NEW)
          continue;
        g_assert_cmpuint (f->crossings[entering].pair, ==, pair);
        follow_pair (f, pair, f->order[n], side, place_in_order, passed, &first[pair], &last[pair]);
        pair++;
      }
  g_assert_cmpuint (pair, ==, f->n_pairs);
  for (size_t e = 0; e < f->n_ends; e++)
    g_assert_true (passed[e]);
  size_t most = 0;
  for (guint32 n = 0; n < f->n_stitches; n++)
    {
      size_t now = 0;
      for (guint32 p = 0; p < f->n_pairs; p++)
        now += (f->habits.sew_in_first || first[p] <= n) && n <= last[p];
      most = MAX (most, now);
    }
  g_assert_cmpuint (f->counts.most_at_once, ==, most);
}

/* --- Counts -------------------------------------------------------------------------------------
 */

static void
check_counts (const PfFilling *f)
{
  const PfCounts *n = &f->counts;
  size_t kinds[4] = { 0 }, leaving = 0;
  for (size_t k = 0; k < f->n_crossings; k++)
    {
      kinds[f->crossings[k].kind]++;
      leaving += f->crossings[k].leaves;
    }
  g_assert_cmpuint (n->stitches, ==, f->n_stitches);
  g_assert_cmpuint (n->leaving, ==, leaving);
  g_assert_cmpuint (n->entering, ==, leaving);
  g_assert_cmpuint (f->n_crossings, ==, 2 * leaving);
  g_assert_cmpuint (n->new_pairs, ==, kinds[PF_PAIR_NEW]);
  g_assert_cmpuint (n->finished, ==, kinds[PF_PAIR_FINISHED]);
  g_assert_cmpuint (2 * n->turned, ==, kinds[PF_PAIR_TURNED]);
  g_assert_cmpuint (2 * n->carried, ==, kinds[PF_PAIR_CARRIED]);
  g_assert_cmpuint (n->reused, ==, n->turned + n->carried);
  g_assert_cmpuint (n->new_pairs, ==, n->entering - n->reused);
  g_assert_cmpuint (n->finished, ==, n->new_pairs);
  g_assert_cmpuint (n->sewings, ==, n->new_pairs + n->finished + n->turned + 2 * n->carried);
  g_assert_cmpuint (n->sewings, ==, f->n_sewings);
  g_assert_cmpuint (n->sewings, ==, n->at_pinhole + n->round_bar);
  g_assert_cmpuint (f->n_pairs, ==, n->new_pairs);
}

/* --- Samples ------------------------------------------------------------------------------------
 */

typedef struct {
  const char *ground;
  double least_gap, most_gap; /* mm */
  double clearance, carry;    /* gaps */
  bool all_plain;
} Sample;

static const Sample samples[] = {
  { "torchon", 2.5, 5, 0.25, 1, false },     { "torchon", 2.5, 5, 0, 0, false },
  { "torchon", 2.5, 5, 1, 8, false },        { "armure", 3, 6, 0.25, 1, false },
  { "armure", 3, 6, 0.25, 3, true },         { "armure", 3, 6, 0, 30, false },
  { "rose", 3, 6, 0.25, 1, false },          { "spider", 2, 4, 0.25, 1, false },
  { "spider", 2, 4, 0.1, 2, true },          { "honeycomb", 2.5, 5, 0.25, 1, false },
  { "point-net", 2.5, 5, 0.25, 1, false },   { "torchon-without-pins", 2.5, 5, 0.25, 1, false },
  { "plait-lattice", 2, 4, 0.25, 1, false }, { "plait-lattice", 2, 4, 0, 6, false },
};

static void
check_filling (const PfRegion *region, const PfGround *ground, const PfFillingSettings *settings)
{
  PfEdge edges[3];
  for (size_t l = 0; l < region->n_loops; l++)
    g_assert_true (pf_edge_init_even (
        &edges[l], &region->loops[l],
        g_test_rand_bit () ? PF_EDGE_HALF_STITCH : PF_EDGE_CLOTH_STITCH, 3, NULL));
  g_autoptr (GError) error = NULL;
  g_autoptr (PfFilling) filling = pf_filling_new (region, edges, ground, settings, &error);
  g_assert_no_error (error);
  const Checked c = { ground, region, filling };
  check_links (filling);
  check_order (&c);
  check_matches (&c, settings->carry * settings->placement.gap);
  check_sewings (&c);
  check_paths (filling);
  check_counts (filling);
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_clear (&edges[l]);
}

/* Some of the repeats get a state of their own. */
static void
test_sample (gconstpointer data)
{
  const Sample *sample = data;
  g_autoptr (PfGround) ground = sample_ground (sample->ground);
  for (int trial = 0; trial < 12; trial++)
    {
      const PfPoint centre = { g_test_rand_double_range (-50, 50),
                               g_test_rand_double_range (-50, 50) };
      g_autoptr (PfRegion) region =
          sample_star (centre, 12, 35, (size_t) g_test_rand_int_range (7, 40), (size_t) trial % 3);
      PfRepeatChoice choices[40];
      for (size_t n = 0; n < G_N_ELEMENTS (choices); n++)
        choices[n] = (PfRepeatChoice){ g_test_rand_int_range (-8, 9), g_test_rand_int_range (-8, 9),
                                       (PfRepeatState) g_test_rand_int_range (
                                           PF_REPEAT_KEPT, PF_REPEAT_LEFT_OUT + 1) };
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.placement = sample_placement (sample->least_gap, sample->most_gap);
      settings.placement.origin = centre;
      settings.clearance = sample->clearance;
      settings.carry = sample->carry;
      settings.all_plain = sample->all_plain;
      settings.habits = (PfWorkingHabits){ g_test_rand_bit (),
                                           trial % 3 == 0 ? PF_WORK_BY_REPEAT : PF_WORK_BY_ROW,
                                           g_test_rand_int_range (0, 4) == 0 };
      settings.choices = choices;
      settings.n_choices = trial % 2 == 0 ? G_N_ELEMENTS (choices) : 0;
      check_filling (region, ground, &settings);
    }
}

/* --- The same ground, described otherwise -------------------------------------------------------
 */

/* The torchon ground with repeat vectors a and b + n·a: the pair line to the left then goes n
 * repeats back as well. */
static PfGround *
sheared_torchon (int n)
{
  PfGround *ground = pf_ground_new (1, 2);
  ground->stitches[0].name = g_strdup ("1");
  ground->stitches[0].work = g_strdup ("ctpct");
  ground->stitches[0].closes = -1;
  ground->a = (PfPoint){ 1, 1 };
  ground->b = (PfPoint){ -1 + n, 1 + n };
  ground->lines[0] = (PfPairLine){ { 0, PF_RIGHT }, { 0, PF_LEFT }, 1, 0, 0 };
  ground->lines[1] = (PfPairLine){ { 0, PF_LEFT }, { 0, PF_RIGHT }, -n, 1, 0 };
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_ground_complete (ground, &error));
  g_assert_no_error (error);
  return ground;
}

static PfCounts
count_sheared (const PfRegion *region, const PfPlacement *placement, int n)
{
  g_autoptr (PfGround) ground = sheared_torchon (n);
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = *placement;
  settings.clearance = 0;
  check_filling (region, ground, &settings);
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 3, NULL));
  g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &settings, NULL);
  pf_edge_clear (&edge);
  return filling->counts;
}

/* Pair lines that reach as far as any may give the same filling. */
static void
test_sheared (void)
{
  for (int trial = 0; trial < 8; trial++)
    {
      static const PfPoint square[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 } };
      g_autoptr (PfRegion) region = trial % 2 == 0 ? sample_polygon (square, 4)
                                                   : sample_star ((PfPoint){ 0, 0 }, 12, 25, 12, 0);
      const PfPlacement placement = sample_placement (2, 5);
      const PfCounts plain = count_sheared (region, &placement, 0);
      for (int n = -PF_GROUND_MAX_REACH; n <= PF_GROUND_MAX_REACH; n += 4)
        {
          const PfCounts counts = count_sheared (region, &placement, n);
          g_assert_cmpuint (counts.stitches, ==, plain.stitches);
          g_assert_cmpuint (counts.leaving, ==, plain.leaving);
          g_assert_cmpuint (counts.turned, ==, plain.turned);
          g_assert_cmpuint (counts.carried, ==, plain.carried);
          g_assert_cmpuint (counts.most_at_once, ==, plain.most_at_once);
          g_assert_cmpuint (counts.sewings, ==, plain.sewings);
          g_assert_cmpuint (counts.at_pinhole, ==, plain.at_pinhole);
          g_assert_cmpfloat (fabs (counts.carry_mm - plain.carry_mm), <, 1e-4);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      g_autofree char *path = g_strdup_printf ("/order/%02zu-%s", s + 1, samples[s].ground);
      g_test_add_data_func (path, &samples[s], test_sample);
    }
  g_test_add_func ("/order/sheared", test_sheared);
  return g_test_run ();
}
