/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which leaving pair becomes which entering one, in random fillings: the graph of all that may be,
 * built by looking at every two crossings, must have the filling's matches as its first best
 * matching. That the matching itself is the best is tested against GLPK in matching-test.c.
 */
#include <math.h>
#include <stdlib.h>

#include <matching.h>

#include "samples.h"

typedef struct {
  const PfGround *ground;
  const PfRegion *region;
  const PfFilling *filling;
  double carry_mm;
} Checked;

static PfStitchId
stitch_of (const Checked *c, guint32 crossing)
{
  return c->filling->stitches[c->filling->crossings[crossing].stitch].id;
}

static double
time_of (const Checked *c, guint32 crossing)
{
  const PfStitchId s = stitch_of (c, crossing);
  return pf_ground_time (c->ground, s.k, s.i, s.j);
}

static double
x_of (const Checked *c, guint32 crossing)
{
  const PfStitchId s = stitch_of (c, crossing);
  return pf_ground_position (c->ground, s.k, s.i, s.j).x;
}

/* Rank among the crossings of the same direction, from 1: by time, x, place in the file, side by
 * side from the left. */
static guint32
rank_of (const Checked *c, guint32 crossing)
{
  const PfFilling *f = c->filling;
  guint32 rank = 1;
  for (guint32 n = 0; n < f->n_crossings; n++)
    {
      if (f->crossings[n].leaves != f->crossings[crossing].leaves || n == crossing)
        continue;
      const double time = time_of (c, n) - time_of (c, crossing),
                   x = x_of (c, n) - x_of (c, crossing);
      const int k = stitch_of (c, n).k - stitch_of (c, crossing).k;
      const int side = (int) f->crossings[n].side - (int) f->crossings[crossing].side;
      if (time < -1e-7)
        rank++;
      else if (time < 1e-7 && (x < -1e-7 || (x < 1e-7 && (k < 0 || (k == 0 && side < 0)))))
        rank++;
    }
  return rank;
}

static bool
same_missing_place (const Checked *c, const PfCrossing *a, const PfCrossing *b)
{
  if (!a->has_missing || !b->has_missing || a->missing.i != b->missing.i ||
      a->missing.j != b->missing.j)
    return false;
  const PfPoint p = c->ground->stitches[a->missing.k].at, q = c->ground->stitches[b->missing.k].at;
  return hypot (p.x - q.x, p.y - q.y) < 1e-9;
}

/* The weight of a match, or false if it may not be. */
static bool
may_match (const Checked *c, guint32 leaving, guint32 entering, guint32 *ranks, PfWeight *weight)
{
  const PfCrossing *a = &c->filling->crossings[leaving], *b = &c->filling->crossings[entering];
  if (a->place.loop != b->place.loop || !(time_of (c, leaving) < time_of (c, entering) - 1e-9))
    return false;
  const double distance =
      pf_loop_distance (&c->region->loops[a->place.loop], a->place.along, b->place.along);
  const bool turned = same_missing_place (c, a, b);
  if (!turned && distance > c->carry_mm + 1e-6)
    return false;
  *weight = (PfWeight){ { 100000 + turned, -(gint64) llround (distance * 1e6),
                          (gint64) ranks[leaving] * ranks[entering] } };
  return true;
}

/* The crossings of one direction, by rank. */
static guint32 *
by_rank (const PfFilling *f, const guint32 *ranks, bool leaves)
{
  guint32 *list = g_new (guint32, f->n_crossings + 1);
  for (guint32 n = 0; n < f->n_crossings; n++)
    if (f->crossings[n].leaves == leaves)
      list[ranks[n] - 1] = n;
  return list;
}

static void
check_matches (const Checked *c)
{
  const PfFilling *f = c->filling;
  const guint32 n = (guint32) f->counts.leaving;
  g_autofree guint32 *ranks = g_new (guint32, f->n_crossings + 1);
  for (guint32 k = 0; k < f->n_crossings; k++)
    ranks[k] = rank_of (c, k);
  g_autofree guint32 *leaving = by_rank (f, ranks, true), *entering = by_rank (f, ranks, false);
  g_autofree guint32 *first = g_new (guint32, n + 1), *partners = g_new (guint32, n * n + 1);
  g_autofree PfWeight *weights = g_new (PfWeight, n * n + 1);
  guint32 lines = 0;
  for (guint32 l = 0; l < n; l++)
    {
      first[l] = lines;
      for (guint32 e = 0; e < n; e++)
        if (may_match (c, leaving[l], entering[e], ranks, &weights[lines]))
          partners[lines++] = e;
    }
  first[n] = lines;
  const PfMatchGraph graph = { n, n, first, partners, weights };
  PfMatching m;
  pf_matching_solve (&graph, &m);
  pf_matching_take_first (&graph, &m);
  for (guint32 l = 0; l < n; l++)
    g_assert_cmpuint (f->crossings[leaving[l]].match, ==,
                      m.of_left[l] == PF_NONE ? PF_NONE : entering[m.of_left[l]]);
  pf_matching_clear (&m);
}

typedef struct {
  const char *name, *ground;
  double gap, carry; /* mm, gaps */
  bool square;       /* a square laid on the lattice, where many distances are equal */
} Sample;

static const Sample samples[] = {
  { "torchon", "torchon", 4, 1, false },
  { "torchon, far", "torchon", 4, 12, false },
  { "torchon, turns only", "torchon", 4, 0, false },
  { "torchon, square", "torchon", 4, 2, true },
  { "torchon, square, far", "torchon", 4, 100, true },
  { "armure", "armure", 4, 1, false },
  { "armure, far", "armure", 4, 6, false },
  { "armure, square", "armure", 4, 3, true },
  { "rose, square", "rose", 5, 3, true },
  { "spider", "spider", 3, 2, false },
  { "honeycomb", "honeycomb", 4, 2, false },
  { "plait lattice", "plait-lattice", 3, 2, false },
  { "plait lattice, square", "plait-lattice", 3, 3, true },
};

static PfRegion *
sample_region (const Sample *sample, int trial)
{
  if (!sample->square)
    return sample_star ((PfPoint){ 0, 0 }, 12, 30, (size_t) g_test_rand_int_range (7, 30),
                        (size_t) trial % 3);
  const double side = g_test_rand_int_range (3, 10) * sample->gap / sqrt (2);
  const PfPoint square[] = { { -side, -side }, { side, -side }, { side, side }, { -side, side } };
  return sample_polygon (square, 4);
}

static void
test_sample (gconstpointer data)
{
  const Sample *sample = data;
  g_autoptr (PfGround) ground = sample_ground (sample->ground);
  size_t reused = 0;
  for (int trial = 0; trial < 8; trial++)
    {
      g_autoptr (PfRegion) region = sample_region (sample, trial);
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.placement.gap = sample->gap;
      settings.placement.turn = sample->square ? 0 : g_test_rand_double_range (0, 360);
      settings.carry = sample->carry;
      PfEdge edges[3];
      for (size_t l = 0; l < region->n_loops; l++)
        g_assert_true (
            pf_edge_init_even (&edges[l], &region->loops[l], PF_EDGE_HALF_STITCH, 3, NULL));
      g_autoptr (PfFilling) filling = pf_filling_new (region, edges, ground, &settings, NULL);
      const Checked c = { ground, region, filling, sample->carry * sample->gap };
      check_matches (&c);
      reused += filling->counts.reused;
      for (size_t l = 0; l < region->n_loops; l++)
        pf_edge_clear (&edges[l]);
    }
  g_assert_cmpuint (reused, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      g_autofree char *path = g_strdup_printf ("/pairs/%s", samples[s].name);
      g_test_add_data_func (path, &samples[s], test_sample);
    }
  return g_test_run ();
}
