/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The drawing: order of pairs, meshes, crossings; by cases, and crossings against GEOS.
 */
#include <geos_c.h>

#include "drawing.h"
#include "samples.h"

static PfGround *
prepared (const Sample *sample)
{
  PfGround *ground = sample->make ();
  g_assert_true (pf_ground_check_words (ground, NULL));
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  return ground;
}

static void
test_accepted (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = prepared (&samples[s]);
      g_autoptr (GError) error = NULL;
      g_assert_true (pf_ground_check_drawing (ground, &error));
      g_assert_no_error (error);
      pf_ground_free (ground);
    }
}

/* Left and right exchanged at one stitch: the two pairs cross beside it. */
static void
test_sides_swapped (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    for (int k = 0; k < 7; k++)
      for (int exits = 0; exits < 2; exits++)
        {
          PfGround *ground = samples[s].make ();
          g_autoptr (GError) error = NULL;
          if (k < ground->n_stitches)
            {
              (exits ? sample_swap_exits : sample_swap_entries) (ground, k);
              g_assert_true (pf_ground_check_pairs (ground, NULL));
              assert_refused (pf_ground_check_drawing (ground, &error), &error,
                              "check left and right");
            }
          pf_ground_free (ground);
        }
}

/* Exchanged at every exit and entry, a ground is the mirror image of what its sides say. */
static void
test_mirrored (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_autoptr (GError) error = NULL;
      for (int k = 0; k < ground->n_stitches; k++)
        {
          sample_swap_exits (ground, k);
          sample_swap_entries (ground, k);
        }
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      assert_refused (pf_ground_check_drawing (ground, &error), &error, "drawn in another order");
      ground->a.x = -ground->a.x;
      ground->b.x = -ground->b.x;
      for (int k = 0; k < ground->n_stitches; k++)
        ground->stitches[k].at.x = -ground->stitches[k].at.x;
      g_assert_true (pf_ground_check_drawing (ground, &error));
      pf_ground_free (ground);
    }
}

/* A torchon net whose pins are closed by a stitch of their own, so that two lines have no length.
 */
static PfGround *
closed_later (void)
{
  PfGround *ground = pf_ground_new (2, 4);
  ground->a = (PfPoint){ 1, 1 };
  ground->b = (PfPoint){ -1, 1 };
  ground->stitches[0] =
      (PfStitch){ g_strdup ("set"), { 0, 0 }, g_strdup ("ctp"), .n_pairs = 2, .closes = -1 };
  ground->stitches[1] =
      (PfStitch){ g_strdup ("close"), { 0, 0 }, g_strdup ("ct"), .n_pairs = 2, .closes = 0 };
  ground->lines[0] = (PfPairLine){ { 0, PF_LEFT }, { 1, PF_LEFT }, 0, 0, 0 };
  ground->lines[1] = (PfPairLine){ { 0, PF_RIGHT }, { 1, PF_RIGHT }, 0, 0, 0 };
  ground->lines[2] = (PfPairLine){ { 1, PF_RIGHT }, { 0, PF_LEFT }, 1, 0, 0 };
  ground->lines[3] = (PfPairLine){ { 1, PF_LEFT }, { 0, PF_RIGHT }, 0, 1, 0 };
  return ground;
}

/* Sides exchanged between two stitches at one position don't show in the drawing: the number of
 * meshes gives them away. */
static void
test_hidden_swap (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = closed_later ();
  g_assert_true (pf_ground_complete (ground, &error));
  g_assert_no_error (error);
  sample_swap_entries (ground, 1);
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  g_assert_true (pf_ground_check_order (ground, NULL));
  g_assert_true (pf_ground_check_crossings (ground, NULL));
  assert_refused (pf_ground_check_drawing (ground, &error), &error, "can't be drawn without");
  pf_ground_free (ground);
}

/* Gives the lines that end at the crossing of the plaits, or start there, other sides of it: side s
 * becomes order[s]. */
static void
reorder_crossing (PfGround *ground, bool exits, const int order[PF_STITCH_MAX_PAIRS])
{
  const int crossing = sample_stitch (ground, "crossing");
  for (int e = 0; e < ground->n_lines; e++)
    {
      PfEnd *end = exits ? &ground->lines[e].from : &ground->lines[e].to;
      if (end->stitch == crossing)
        end->side = (PfSide) order[end->side];
    }
}

/* Of the 24 orders in which four pairs can come to the crossing of two plaits, or leave it, one can
 * be drawn: in all others pairs would cross between it and a plait. */
static void
test_order_of_four (void)
{
  int n_accepted = 0, n = 0;
  for (int code = 0; code < 256; code++)
    {
      const int order[] = { code & 3, code >> 2 & 3, code >> 4 & 3, code >> 6 };
      if ((1 << order[0] | 1 << order[1] | 1 << order[2] | 1 << order[3]) != 15)
        continue;
      for (int exits = 0; exits < 2; exits++)
        {
          PfGround *ground = sample_plaits ();
          g_autoptr (GError) error = NULL;
          reorder_crossing (ground, exits, order);
          const bool accepted = pf_ground_complete (ground, &error);
          g_assert_true (accepted == (error == NULL));
          g_assert_true (accepted == (code == (0 | 1 << 2 | 2 << 4 | 3 << 6)));
          n_accepted += accepted;
          n++;
          pf_ground_free (ground);
        }
    }
  g_assert_cmpint (n, ==, 48);
  g_assert_cmpint (n_accepted, ==, 2);
}

static int
compare_ints (const void *a, const void *b)
{
  return *(const int *) a - *(const int *) b;
}

/* Numbers of meshes: V - E + F = 0 with E = 2V where two pairs meet in each stitch (V. Irvine, F.
 * Ruskey, "Developing a mathematical model for bobbin lace", 2014); of the plaits by Euler's
 * formula with E = 4 + 2 + 2. Numbers of lines round them: derived by hand from the drawings.
 * Between the two pairs of a plait and the crossing before or after it there are four meshes of two
 * lines, which cover nothing, and four plaits enclose a hole. */
static void
test_meshes (void)
{
  static const struct {
    PfGround *(*make) (void);
    int degrees[8]; /* rising, then 0 */
  } cases[] = {
    { sample_torchon, { 4 } },
    { sample_honeycomb, { 3, 3, 6 } },
    { sample_rose, { 3, 3, 3, 3, 4, 8 } },
    { sample_armure, { 3, 3, 4, 4, 4, 4, 6 } },
    { sample_plaits, { 2, 2, 2, 2, 8 } },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = cases[i].make ();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      g_autofree PfMesh *meshes = g_new (PfMesh, 2 * ground->n_lines);
      int degrees[8] = { 0 };
      double area = 0;
      const int n = pf_ground_trace_meshes (ground, meshes);
      g_assert_cmpint (n, ==, ground->n_lines - ground->n_stitches);
      for (int m = 0; m < n; m++)
        {
          degrees[m] = meshes[m].degree;
          g_assert_cmpint (meshes[m].da, ==, 0);
          g_assert_cmpint (meshes[m].db, ==, 0);
          area += meshes[m].area;
        }
      g_assert_cmpfloat_with_epsilon (area, pf_cross (ground->a, ground->b), 1e-12);
      qsort (degrees, n, sizeof *degrees, compare_ints);
      g_assert_cmpmem (degrees, sizeof degrees, cases[i].degrees, sizeof degrees);
      pf_ground_free (ground);
    }
}

/* Two pairs that cross again and again, column beside column without a link. */
static void
test_columns (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_new (2, 4);
  ground->a = (PfPoint){ 1.5, 0 };
  ground->b = (PfPoint){ 0, 2 };
  ground->stitches[0] =
      (PfStitch){ g_strdup ("upper"), { 0, 0 }, g_strdup ("ctpct"), .n_pairs = 2, .closes = -1 };
  ground->stitches[1] =
      (PfStitch){ g_strdup ("lower"), { 0, 1 }, g_strdup ("ctpct"), .n_pairs = 2, .closes = -1 };
  for (int e = 0; e < 4; e++)
    ground->lines[e] = (PfPairLine){ { e / 2, e % 2 }, { 1 - e / 2, e % 2 }, 0, e / 2, 0 };
  g_assert_true (pf_ground_complete (ground, &error));
  g_assert_no_error (error);

  sample_swap_exits (ground, 0);
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  assert_refused (pf_ground_complete (ground, &error), &error, "can't be drawn without crossing");
  pf_ground_free (ground);
}

/* One stitch of a sample moves. */
static void
test_moved (void)
{
  static const struct {
    PfGround *(*make) (void);
    const char *stitch;
    double x, y;
    const char *problem; /* NULL: accepted */
  } cases[] = {
    { sample_rose, "bottom", 0.25, 0.75, NULL },
    { sample_rose, "bottom", 0, 0.001, NULL },
    { sample_rose, "top", 0, 0, NULL },
    { sample_armure, "centre", 0, -0.5, NULL },
    /* over the line from top to right */
    { sample_armure, "centre", 0.75, -0.75, "cross where there is no stitch" },
    /* out beside the left pin */
    { sample_rose, "bottom", -2.5, 0.5, "cross where there is no stitch" },
    /* onto the line from left to bottom, and from nw to left */
    { sample_rose, "right", -0.5, 0.5, "“left” to “bottom” runs through stitch “right”" },
    { sample_rose, "top", -1, -0.5, "“nw” to “left” runs through stitch “top”" },
    /* far away: lines over more than 12 repeats */
    { sample_rose, "top", 40, 40, "is drawn over more than 12 repeats" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = cases[i].make ();
      g_autoptr (GError) error = NULL;
      ground->stitches[sample_stitch (ground, cases[i].stitch)].at =
          (PfPoint){ cases[i].x, cases[i].y };
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      const bool accepted = pf_ground_check_crossings (ground, &error);
      g_test_message ("%zu: %s", i, error ? error->message : "accepted");
      g_assert_true (accepted == !cases[i].problem);
      if (!accepted)
        assert_refused (accepted, &error, cases[i].problem);
      pf_ground_free (ground);
    }
}

/* Stitches at one position whose pairs don't work together may touch, but not cross. */
static void
test_touching (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = sample_rose ();
  ground->stitches[sample_stitch (ground, "top")].at = (PfPoint){ 0, 0 };
  ground->stitches[sample_stitch (ground, "bottom")].at = (PfPoint){ 0, 0 };
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  g_assert_true (pf_ground_check_drawing (ground, &error));
  g_assert_no_error (error);
  pf_ground_free (ground);
}

/* Two torchon nets on the same positions. */
static void
test_nets_crossing (void)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_new (2, 4);
  ground->a = (PfPoint){ 1, 1 };
  ground->b = (PfPoint){ -1, 1 };
  for (int k = 0; k < 2; k++)
    {
      ground->stitches[k].name = g_strdup (k ? "second" : "first");
      ground->stitches[k].work = g_strdup ("ctpct");
      ground->lines[2 * k] = (PfPairLine){ { k, PF_RIGHT }, { k, PF_LEFT }, 1, 0, 0 };
      ground->lines[2 * k + 1] = (PfPairLine){ { k, PF_LEFT }, { k, PF_RIGHT }, 0, 1, 0 };
    }
  g_assert_true (pf_ground_check_words (ground, NULL));
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  assert_refused (pf_ground_check_drawing (ground, &error), &error,
                  "“first” and “second” stand at one position");
  ground->stitches[1].at = (PfPoint){ 3, 5 }; /* four repeats of a, one of b */
  assert_refused (pf_ground_check_drawing (ground, &error), &error,
                  "“first” and “second” stand at one position");
  pf_ground_free (ground);
}

/* --- Against GEOS --- */

#define REPEATS 3 /* of the unrolled drawing, each way from the middle */

/* Moves all positions by a random multiple of 1/1024, those at one position together, so that all
 * sums below are exact in doubles. */
static void
shake (PfGround *ground)
{
  const int most = g_test_rand_int_range (100, 1000);
  PfPoint old[PF_GROUND_MAX_STITCHES];
  for (int k = 0; k < ground->n_stitches; k++)
    old[k] = ground->stitches[k].at;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      int same = 0;
      while (old[same].x != old[k].x || old[same].y != old[k].y)
        same++;
      ground->stitches[k].at =
          same < k ? ground->stitches[same].at
                   : (PfPoint){ old[k].x + g_test_rand_int_range (-most, most) / 1024.,
                                old[k].y + g_test_rand_int_range (-most, most) / 1024. };
    }
}

/* NULL for a line without length. */
static GEOSGeometry *
geos_line (const PfGround *ground, int e, int i, int j)
{
  const PfPairLine *line = &ground->lines[e];
  const PfPoint from = pf_ground_position (ground, line->from.stitch, i, j);
  const PfPoint to = pf_ground_position (ground, line->to.stitch, i + line->da, j + line->db);
  if (from.x == to.x && from.y == to.y)
    return NULL;
  GEOSCoordSequence *points = GEOSCoordSeq_create (2, 2);
  GEOSCoordSeq_setXY (points, 0, from.x, from.y);
  GEOSCoordSeq_setXY (points, 1, to.x, to.y);
  return GEOSGeom_createLineString (points);
}

/* GEOS: the insides of two lines share a single point, or the inside of one holds the end of
 * another. "0********" and "F0*******" are patterns of the OGC's nine intersections. */
static bool
geos_crosses (const GEOSGeometry *line, const PfGround *ground, int f)
{
  bool found = false;
  for (int i = -REPEATS; i <= REPEATS && !found; i++)
    for (int j = -REPEATS; j <= REPEATS && !found; j++)
      {
        GEOSGeometry *other = geos_line (ground, f, i, j);
        found = other && (GEOSRelatePattern (line, other, "0********") == 1 ||
                          GEOSRelatePattern (line, other, "F0*******") == 1);
        GEOSGeom_destroy (other);
      }
  return found;
}

static bool
geos_finds_crossing (const PfGround *ground)
{
  bool found = false;
  for (int e = 0; e < ground->n_lines && !found; e++)
    {
      GEOSGeometry *line = geos_line (ground, e, 0, 0);
      for (int f = 0; line && f < ground->n_lines && !found; f++)
        found = geos_crosses (line, ground, f);
      GEOSGeom_destroy (line);
    }
  return found;
}

static void
test_against_geos (void)
{
  static PfGround *(*const makes[]) (void) = { sample_rose, sample_armure };
  int crossing = 0;
  const int rounds = 24;
  initGEOS (NULL, NULL);
  for (int round = 0; round < rounds; round++)
    {
      PfGround *ground = makes[round % 2]();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      shake (ground);
      const bool accepted = pf_ground_check_crossings (ground, NULL);
      g_assert_true (accepted == !geos_finds_crossing (ground));
      crossing += !accepted;
      pf_ground_free (ground);
    }
  finishGEOS ();
  /* Both kinds came up. */
  g_assert_cmpint (crossing, >, 0);
  g_assert_cmpint (crossing, <, rounds);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/drawing/accepted", test_accepted);
  g_test_add_func ("/ground/drawing/sides-swapped", test_sides_swapped);
  g_test_add_func ("/ground/drawing/mirrored", test_mirrored);
  g_test_add_func ("/ground/drawing/hidden-swap", test_hidden_swap);
  g_test_add_func ("/ground/drawing/order-of-four", test_order_of_four);
  g_test_add_func ("/ground/drawing/meshes", test_meshes);
  g_test_add_func ("/ground/drawing/columns", test_columns);
  g_test_add_func ("/ground/drawing/moved", test_moved);
  g_test_add_func ("/ground/drawing/touching", test_touching);
  g_test_add_func ("/ground/drawing/nets-crossing", test_nets_crossing);
  g_test_add_func ("/ground/drawing/against-geos", test_against_geos);
  return g_test_run ();
}
