/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every ground that comes with the program, set into three of the demo motifs: stitches, repeats
 * and cut lines counted again in the plainest way, with GEOS (https://libgeos.org) for what lies
 * inside; the pairs' sums; and every thread conserved.
 */
#include <math.h>

#include "samples.h"
#include "thread-checks.h"

enum { HALF = 24, SIDE = 2 * HALF + 1 }; /* repeats from -HALF to HALF are looked at */

typedef struct {
  const PfGround *ground;
  const GeosRegion *geos;
  PfAffine map;
  bool *inside, *dropped; /* per stitch and repeat */
  PfCounts counts;
} Plain;

static size_t
number (PfStitchId s)
{
  g_assert_cmpint (ABS (s.i), <=, HALF);
  g_assert_cmpint (ABS (s.j), <=, HALF);
  return ((size_t) s.k * SIDE + (size_t) (s.j + HALF)) * SIDE + (size_t) (s.i + HALF);
}

static PfPoint
place_of (const Plain *p, PfStitchId s)
{
  return pf_affine_map (p->map, pf_ground_position (p->ground, s.k, s.i, s.j));
}

static void
find_inside (Plain *p, double least)
{
  for (int k = 0; k < p->ground->n_stitches; k++)
    for (int j = -HALF; j <= HALF; j++)
      for (int i = -HALF; i <= HALF; i++)
        {
          const PfStitchId s = { k, i, j };
          const PfPoint point = place_of (p, s);
          p->inside[number (s)] =
              geos_contains (p->geos, point) && geos_distance (p->geos, point) >= least - 1e-6;
        }
}

static void
sort_repeat (Plain *p, int i, int j)
{
  const PfGround *ground = p->ground;
  int all = 0, core = 0, core_inside = 0, pins_inside = 0, other_pins = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const bool inside = p->inside[number ((PfStitchId){ k, i, j })];
      all += inside;
      core += ground->stitches[k].core;
      core_inside += inside && ground->stitches[k].core;
      pins_inside += inside && ground->stitches[k].pin;
      other_pins += inside && ground->stitches[k].pin && !ground->stitches[k].core;
    }
  if (all == 0)
    return;
  const bool whole = all == ground->n_stitches;
  const bool left_out = ground->has_pins && pins_inside == 0;
  const bool kept = core > 0 && core_inside == core && other_pins >= 2;
  const bool plain = !whole && !left_out && core > 0 && !kept;
  p->counts.whole += whole;
  p->counts.left_out += left_out;
  p->counts.partial += !whole && !left_out;
  p->counts.kept += !whole && !left_out && kept;
  p->counts.plain += plain;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const size_t s = number ((PfStitchId){ k, i, j });
      p->dropped[s] = plain && ground->stitches[k].core;
      p->inside[s] = p->inside[s] && !left_out && !p->dropped[s];
      p->counts.stitches += p->inside[s];
      p->counts.pins += p->inside[s] && ground->stitches[k].pin;
    }
}

/* Where the pair of an exit goes, or comes from, over dropped stitches. */
static PfStitchId
other_end (const Plain *p, PfStitchId s, PfSide side, bool forward)
{
  do
    for (int l = 0; l < p->ground->n_lines; l++)
      {
        const PfPairLine *line = &p->ground->lines[l];
        const PfEnd near = forward ? line->from : line->to, far = forward ? line->to : line->from;
        if (near.stitch != s.k || near.side != side)
          continue;
        const int sign = forward ? 1 : -1;
        s = (PfStitchId){ far.stitch, s.i + sign * line->da, s.j + sign * line->db };
        side = far.side;
        break;
      }
  while (p->dropped[number (s)]);
  return s;
}

static void
count_cuts (Plain *p, PfStitchId s)
{
  for (int side = 0; side < p->ground->stitches[s.k].n_pairs; side++)
    {
      const PfStitchId to = other_end (p, s, (PfSide) side, true);
      const PfStitchId from = other_end (p, s, (PfSide) side, false);
      const bool goes_on = p->inside[number (to)];
      const bool leaves =
          !goes_on || geos_outside (p->geos, place_of (p, s), place_of (p, to)) > 1e-6;
      p->counts.leaving += leaves;
      p->counts.entering += !p->inside[number (from)] ||
                            geos_outside (p->geos, place_of (p, from), place_of (p, s)) > 1e-6;
    }
}

static void
count_plainly (Plain *p, double least)
{
  /* Room for every line's other end. */
  const int most = HALF - PF_GROUND_MAX_REACH;
  find_inside (p, least);
  for (int j = -HALF; j <= HALF; j++)
    for (int i = -HALF; i <= HALF; i++)
      sort_repeat (p, i, j);
  for (int k = 0; k < p->ground->n_stitches; k++)
    for (int j = -HALF; j <= HALF; j++)
      for (int i = -HALF; i <= HALF; i++)
        if (p->inside[number ((PfStitchId){ k, i, j })])
          {
            g_assert_cmpint (MAX (ABS (i), ABS (j)), <=, most);
            count_cuts (p, (PfStitchId){ k, i, j });
          }
}

/* What follows from any matching of pairs. */
static void
check_sums (const PfCounts *c)
{
  g_assert_cmpuint (c->leaving, ==, c->entering);
  g_assert_cmpuint (c->reused, ==, c->turned + c->carried);
  g_assert_cmpuint (c->new_pairs, ==, c->entering - c->reused);
  g_assert_cmpuint (c->finished, ==, c->new_pairs);
  g_assert_cmpuint (c->sewings, ==, c->new_pairs + c->finished + c->turned + 2 * c->carried);
  g_assert_cmpuint (c->sewings, ==, c->at_pinhole + c->round_bar);
  g_assert_cmpuint (c->most_at_once, <=, c->new_pairs);
}

static void
check_counts (const PfCounts *got, const PfCounts *wanted)
{
  g_assert_cmpuint (got->stitches, ==, wanted->stitches);
  g_assert_cmpuint (got->pins, ==, wanted->pins);
  g_assert_cmpuint (got->whole, ==, wanted->whole);
  g_assert_cmpuint (got->partial, ==, wanted->partial);
  g_assert_cmpuint (got->kept, ==, wanted->kept);
  g_assert_cmpuint (got->plain, ==, wanted->plain);
  g_assert_cmpuint (got->left_out, ==, wanted->left_out);
  g_assert_cmpuint (got->leaving, ==, wanted->leaving);
  g_assert_cmpuint (got->entering, ==, wanted->entering);
}

static PfFilling *
fill (const PfRegion *region, const PfGround *ground, const PfFillingSettings *settings)
{
  g_autoptr (GError) error = NULL;
  g_autofree PfEdge *edges = g_new0 (PfEdge, region->n_loops);
  for (size_t l = 0; l < region->n_loops; l++)
    g_assert_true (
        pf_edge_init_even (&edges[l], &region->loops[l], PF_EDGE_HALF_STITCH, 2, &error));
  PfFilling *filling = pf_filling_new (region, edges, ground, settings, &error);
  g_assert_no_error (error);
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_clear (&edges[l]);
  return filling;
}

static void
check_motif (const PfRegion *region, const PfGround *ground)
{
  g_autoptr (GeosRegion) geos = geos_region_new (region);
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = (PfPlacement){
    .gap = 4.3,
    .turn = 11,
    .origin = { (region->box.min.x + region->box.max.x) / 2 + 0.37,
                (region->box.min.y + region->box.max.y) / 2 - 0.59 },
  };
  const size_t n = (size_t) ground->n_stitches * SIDE * SIDE;
  g_autofree bool *inside = g_new0 (bool, n), *dropped = g_new0 (bool, n);
  Plain plain = { ground, geos,    pf_placement_map (ground, settings.placement),
                  inside, dropped, { 0 } };
  count_plainly (&plain, settings.clearance * settings.placement.gap);
  g_autoptr (PfFilling) filling = fill (region, ground, &settings);
  g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
  check_counts (&filling->counts, &plain.counts);
  check_sums (&filling->counts);
  check_threads (filling, ground, threads);
}

static void
test_ground (gconstpointer name)
{
  static const char *const motifs[] = { "pond.svg", "quince-leaf.svg", "quince-flower.svg" };
  g_autoptr (PfGround) ground = sample_ground (name);
  for (size_t m = 0; m < G_N_ELEMENTS (motifs); m++)
    {
      g_autofree char *path = g_build_filename (DEMO_FOLDER, motifs[m], NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = pf_drawing_load (path, NULL, &error);
      g_assert_no_error (error);
      const PfOutline *outline = g_ptr_array_index (drawing->outlines, 0);
      check_motif (outline->region, ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *path = g_strdup_printf ("/library/%s", *name);
      g_test_add_data_func_full (path, g_strdup (*name), test_ground, g_free);
    }
  return g_test_run ();
}
