/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Plaits that cross, four pairs to a stitch: small shapes of the plait lattice, whose pairs were
 * counted by hand along the lines of the drawing (derived).
 *
 *       \\ //           Crossings C at (0, 0), (-1, 1), (1, 1), (0, 2) ..., in ground units;
 * between C             them plaits, each of two pairs. Four pairs come to each crossing, two from
 *       // \\           either side, and four go on.
 *      p     p
 *    //       \\
 */
#include <string.h>

#include "samples.h"

#define SCALE 10.0 /* mm to a ground unit */

enum { CROSSING, PLAIT_LEFT, PLAIT_RIGHT };

/* The filling of an outline, and a hole or none, with a half stitch edge; corners in ground units.
 * Clearance 0.01, no carries. */
static PfFilling *
fill (const PfGround *ground, const PfPoint *outline, size_t n, const PfPoint *hole, size_t n_hole,
      const PfRepeatChoice *choice)
{
  g_autofree PfPoint *points = g_new (PfPoint, n + n_hole);
  for (size_t p = 0; p < n + n_hole; p++)
    {
      const PfPoint at = p < n ? outline[p] : hole[p - n];
      points[p] = (PfPoint){ at.x * SCALE, at.y * SCALE };
    }
  const PfChain chains[] = { { points, n, true }, { points + n, n_hole, true } };
  g_autoptr (GError) error = NULL;
  g_autoptr (PfRegion) region = pf_region_new (chains, n_hole > 0 ? 2 : 1, &error);
  g_assert_no_error (error);
  PfEdge edges[2];
  for (size_t l = 0; l < region->n_loops; l++)
    g_assert_true (
        pf_edge_init_even (&edges[l], &region->loops[l], PF_EDGE_HALF_STITCH, 2, &error));
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = SCALE * ground->spacing;
  settings.clearance = 0.01;
  settings.carry = 0;
  settings.choices = choice;
  settings.n_choices = choice != NULL;
  PfFilling *filling = pf_filling_new (region, edges, ground, &settings, &error);
  g_assert_no_error (error);
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_clear (&edges[l]);
  return filling;
}

typedef struct {
  const char *name;
  PfPoint outline[8]; /* then (0, 0) */
  size_t n;
  bool hole; /* a small one round the crossing at (0, 0) */
  size_t stitches, entering, turned, most_at_once;
} Case;

static const Case cases[] = {
  { "a crossing alone",
    { { 0, -0.6 }, { 0.6, 0 }, { 0, 0.6 }, { -0.6, 0 } },
    4,
    false,
    1,
    4,
    0,
    4 },
  { "a plait alone",
    { { -0.8, 0.5 }, { -0.5, 0.2 }, { -0.2, 0.5 }, { -0.5, 0.8 } },
    4,
    false,
    1,
    2,
    0,
    2 },
  /* Four pairs come to the upper crossing; two go to each side, where two more come in and leave
   * again; the lower crossing takes the four. The sides are worked one after the other. */
  { "four crossings",
    { { 0, -0.25 }, { 1.25, 1 }, { 0, 2.25 }, { -1.25, 1 } },
    4,
    false,
    8,
    8,
    0,
    6 },
  /* The plait at (-0.5, 0.5) is missing: its two pairs are turned there, side by side. */
  { "a plait missing",
    { { 0, -0.25 },
      { 1.25, 1 },
      { 0, 2.25 },
      { -1.25, 1 },
      { -0.8, 0.55 },
      { -0.3, 0.7 },
      { -0.45, 0.2 } },
    7,
    false,
    7,
    10,
    2,
    6 },
  /* Only the four plaits round a missing crossing: both pairs of the upper ones turn there and go
   * on in the lower one of the same side, which is nearer. */
  { "a crossing missing",
    { { -0.8, -0.8 }, { 0.8, -0.8 }, { 0.8, 0.8 }, { -0.8, 0.8 } },
    4,
    true,
    4,
    8,
    4,
    4 },
};

static const PfPoint small_hole[] = { { 0, -0.2 }, { 0.2, 0 }, { 0, 0.2 }, { -0.2, 0 } };

static PfFilling *
fill_case (const Case *c, const PfGround *ground)
{
  return fill (ground, c->outline, c->n, small_hole, c->hole ? G_N_ELEMENTS (small_hole) : 0, NULL);
}

static void
test_counts (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (PfGround) ground = sample_ground ("plait-lattice");
  g_autoptr (PfFilling) filling = fill_case (c, ground);
  const PfCounts *n = &filling->counts;
  g_assert_cmpuint (n->stitches, ==, c->stitches);
  g_assert_cmpuint (n->pins, ==, 0);
  g_assert_cmpuint (n->entering, ==, c->entering);
  g_assert_cmpuint (n->leaving, ==, c->entering);
  g_assert_cmpuint (n->turned, ==, c->turned);
  g_assert_cmpuint (n->carried, ==, 0);
  g_assert_cmpuint (n->new_pairs, ==, c->entering - c->turned);
  g_assert_cmpuint (n->finished, ==, c->entering - c->turned);
  g_assert_cmpuint (n->sewings, ==, 2 * c->entering - c->turned);
  g_assert_cmpuint (n->most_at_once, ==, c->most_at_once);
  size_t n_ends = 0;
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      g_assert_cmpuint (filling->stitches[s].first_end, ==, n_ends);
      g_assert_cmpuint (filling->stitches[s].n_sides, ==,
                        filling->stitches[s].id.k == CROSSING ? 4 : 2);
      n_ends += filling->stitches[s].n_sides;
    }
  g_assert_cmpuint (filling->n_ends, ==, n_ends);
}

static guint32
crossing_of (const PfFilling *filling, int k, int i, int j, int side, bool leaves)
{
  const guint32 c =
      pf_filling_find_crossing (filling, (PfLineId){ { k, i, j }, (PfSide) side, leaves });
  g_assert_cmpuint (c, !=, PF_NONE);
  return c;
}

/* The pair that leaves stitch `from` at a side comes back to `to` at another. */
static void
check_turn (const PfFilling *filling, PfStitchId from, int from_side, PfStitchId to, int to_side)
{
  const guint32 leaving = crossing_of (filling, from.k, from.i, from.j, from_side, true);
  const guint32 entering = crossing_of (filling, to.k, to.i, to.j, to_side, false);
  g_assert_cmpint (filling->crossings[leaving].kind, ==, PF_PAIR_TURNED);
  g_assert_cmpuint (filling->crossings[leaving].match, ==, entering);
}

/* Pairs turned at one place go on side by side as they came: the left one on the left. */
static void
test_turns (void)
{
  g_autoptr (PfGround) ground = sample_ground ("plait-lattice");
  g_autoptr (PfFilling) without_plait = fill_case (&cases[3], ground);
  const PfStitchId upper = { CROSSING, 0, 0 }, left = { CROSSING, 0, 1 };
  check_turn (without_plait, upper, 0, left, 2);
  check_turn (without_plait, upper, 1, left, 3);
  g_autoptr (PfFilling) without_crossing = fill_case (&cases[4], ground);
  for (int side = 0; side < 2; side++)
    {
      check_turn (without_crossing, (PfStitchId){ PLAIT_RIGHT, -1, 0 }, side,
                  (PfStitchId){ PLAIT_LEFT, 0, 0 }, side);
      check_turn (without_crossing, (PfStitchId){ PLAIT_LEFT, 0, -1 }, side,
                  (PfStitchId){ PLAIT_RIGHT, 0, 0 }, side);
    }
}

static void
test_warnings (void)
{
  g_autoptr (PfGround) ground = sample_ground ("plait-lattice");
  static const char *const said[] = { "eight sewings for one stitch",
                                      "four sewings for one stitch" };
  for (size_t c = 0; c < G_N_ELEMENTS (said); c++)
    {
      g_autoptr (PfFilling) filling = fill_case (&cases[c], ground);
      size_t n = 0;
      for (size_t w = 0; w < filling->n_warnings; w++)
        if (filling->warnings[w].kind == PF_WARNING_LONE_STITCH)
          {
            g_assert_nonnull (strstr (filling->warnings[w].text, said[c]));
            n++;
          }
      g_assert_cmpuint (n, ==, 1);
    }
  g_autoptr (PfFilling) linked = fill_case (&cases[2], ground);
  for (size_t w = 0; w < linked->n_warnings; w++)
    g_assert_cmpint (linked->warnings[w].kind, !=, PF_WARNING_LONE_STITCH);
}

/* Every pair of a lone crossing is told with its side. */
static void
test_sides_in_words (void)
{
  static const char *const sides[] = { "left", "inner left", "inner right", "right" };
  g_autoptr (PfGround) ground = sample_ground ("plait-lattice");
  g_autoptr (PfFilling) filling = fill_case (&cases[0], ground);
  for (int side = 0; side < 4; side++)
    {
      const guint32 in = crossing_of (filling, CROSSING, 0, 0, side, false);
      const guint32 out = crossing_of (filling, CROSSING, 0, 0, side, true);
      g_autofree char *new = pf_explain_sewing (filling, ground, filling->crossings[in].sewing);
      g_autofree char *finished =
          pf_explain_sewing (filling, ground, filling->crossings[out].sewing);
      g_autofree char *from_side = g_strdup_printf (" from its %s.", sides[side]);
      g_autofree char *on_side = g_strdup_printf (" on its %s and is finished", sides[side]);
      g_assert_nonnull (strstr (new, from_side));
      g_assert_nonnull (strstr (finished, on_side));
    }
}

/* A choice for a side that a stitch doesn't have changes nothing, and is told. */
static void
test_no_such_side (void)
{
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  PfFillingSettings settings = pf_filling_settings_default ();
  const PfSewingChoice choice = { .line = { { 0, 0, 0 }, PF_THIRD, true }, .kind = PF_SEW_ALONE };
  settings.sewing_choices = &choice;
  settings.n_sewing_choices = 1;
  settings.placement.gap = SCALE * ground->spacing;
  static const PfPoint small[] = { { -5, -5 }, { 5, -5 }, { 5, 5 }, { -5, 5 } };
  g_autoptr (PfRegion) region = sample_polygon (small, 4);
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 2, NULL));
  g_autoptr (GError) error = NULL;
  g_autoptr (PfFilling) filling = pf_filling_new (region, &edge, ground, &settings, &error);
  g_assert_no_error (error);
  pf_edge_clear (&edge);
  g_assert_cmpuint (filling->counts.stitches, ==, 1);
  g_assert_cmpuint (filling->n_unheeded, ==, 1);
  g_assert_cmpuint (filling->counts.new_pairs, ==, 2);
}

/* A lattice with pins, one of whose plaits is a leaf; given are the work of its
 * crossing and of its other plait, as in the file. */
static PfGround *
pinned (const char *crossing, const char *plait)
{
  g_autofree char *text =
      g_strdup_printf ("{\"format\": \"pinfold-ground\", \"version\": 1, \"name\": \"pinned\", "
                       "\"title\": \"Pinned\","
                       " \"family\": \"plaits\", \"source\": \"Common practice.\","
                       " \"repeat\": {\"a\": [1.5, 1.5], \"b\": [-1.5, 1.5]}, \"stitches\": ["
                       "{\"name\": \"crossing\", \"at\": [0, 0], \"pairs\": 4, %s},"
                       "{\"name\": \"leaf\", \"at\": [-0.75, 0.75], \"work\": \"ctclpctc\"},"
                       "{\"name\": \"plait\", \"at\": [0.75, 0.75], %s}], \"pair_lines\": ["
                       "{\"from\": \"crossing.L\", \"to\": \"leaf.L\"},"
                       "{\"from\": \"crossing.IL\", \"to\": \"leaf.R\"},"
                       "{\"from\": \"crossing.IR\", \"to\": \"plait.L\"},"
                       "{\"from\": \"crossing.R\", \"to\": \"plait.R\"},"
                       "{\"from\": \"plait.L\", \"to\": \"crossing.L\", \"repeat\": [1, 0]},"
                       "{\"from\": \"plait.R\", \"to\": \"crossing.IL\", \"repeat\": [1, 0]},"
                       "{\"from\": \"leaf.L\", \"to\": \"crossing.IR\", \"repeat\": [0, 1]},"
                       "{\"from\": \"leaf.R\", \"to\": \"crossing.R\", \"repeat\": [0, 1]}]}",
                       crossing, plait);
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_parse (text, strlen (text), "pinned", &error);
  g_assert_no_error (error);
  return ground;
}

static const PfPoint square[] = { { -6, -6 }, { 6, -6 }, { 6, 6 }, { -6, 6 } };
static const PfRepeatChoice plain = { 0, 0, PF_REPEAT_PLAIN };

#define CORE_CROSSING "\"work\": \"ctc\", \"core\": true"
#define PINNED_PLAIT "\"work\": \"ctctpctct\""

static const PfWorkedStitch *
worked (const PfFilling *filling, int k, int i, int j)
{
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const PfStitchId id = filling->stitches[s].id;
      if (id.k == k && id.i == i && id.j == j)
        return &filling->stitches[s];
    }
  return NULL;
}

/* Where the crossing is dropped, both pairs of a plait pass straight on to the plait below on their
 * side, and come in there as they left. */
static void
test_dropped (void)
{
  static const struct {
    PfStitchId above, below;
  } ways[] = {
    { { PLAIT_RIGHT, -1, 0 }, { PLAIT_LEFT, 0, 0 } },
    { { PLAIT_LEFT, 0, -1 }, { PLAIT_RIGHT, 0, 0 } },
  };
  g_autoptr (PfGround) ground = pinned (CORE_CROSSING, PINNED_PLAIT);
  g_autoptr (PfFilling) filling = fill (ground, square, 4, NULL, 0, &plain);
  g_assert_cmpuint (filling->n_unheeded, ==, 0);
  g_assert_null (worked (filling, CROSSING, 0, 0));
  g_assert_nonnull (worked (filling, CROSSING, 1, 0));
  for (size_t w = 0; w < G_N_ELEMENTS (ways); w++)
    {
      const PfStitchId from = ways[w].above, to = ways[w].below;
      const PfWorkedStitch *above = worked (filling, from.k, from.i, from.j);
      const PfWorkedStitch *below = worked (filling, to.k, to.i, to.j);
      for (int side = 0; side < 2; side++)
        {
          const PfWorkedEnd *exit = &pf_worked_ends (filling, above)[side];
          const PfWorkedEnd *entry = &pf_worked_ends (filling, below)[side];
          g_assert_true (&filling->stitches[exit->to] == below);
          g_assert_cmpint (exit->to_side, ==, side);
          g_assert_true (&filling->stitches[entry->from] == above);
          g_assert_cmpuint (exit->pair, ==, entry->pair);
        }
    }
}

/* In a plain repeat a pin gets half stitch, pin, half stitch, but a leaf stays a leaf, and so does
 * a crossing of four pairs. */
static void
test_plain_work (void)
{
  g_autoptr (PfGround) ground = pinned (CORE_CROSSING, PINNED_PLAIT);
  g_autoptr (PfFilling) filling = fill (ground, square, 4, NULL, 0, &plain);
  g_assert_cmpstr (pf_filling_work (filling, ground, worked (filling, PLAIT_RIGHT, 0, 0)), ==,
                   "ctpct");
  g_assert_cmpstr (pf_filling_work (filling, ground, worked (filling, PLAIT_LEFT, 0, 0)), ==,
                   "ctclpctc");
  g_assert_cmpstr (pf_filling_work (filling, ground, worked (filling, PLAIT_RIGHT, 1, 0)), ==,
                   "ctctpctct");

  g_autoptr (PfGround) crossing_pinned =
      pinned ("\"work\": \"ctpc\"", "\"work\": \"ctctctct\", \"core\": true");
  g_autoptr (PfFilling) other = fill (crossing_pinned, square, 4, NULL, 0, &plain);
  g_assert_null (worked (other, PLAIT_RIGHT, 0, 0));
  g_assert_cmpstr (pf_filling_work (other, crossing_pinned, worked (other, CROSSING, 0, 0)), ==,
                   "ctpc");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/plaits/%s", cases[c].name);
      g_test_add_data_func (path, &cases[c], test_counts);
    }
  g_test_add_func ("/plaits/turns", test_turns);
  g_test_add_func ("/plaits/warnings", test_warnings);
  g_test_add_func ("/plaits/sides-in-words", test_sides_in_words);
  g_test_add_func ("/plaits/no-such-side", test_no_such_side);
  g_test_add_func ("/plaits/dropped", test_dropped);
  g_test_add_func ("/plaits/plain-work", test_plain_work);
  return g_test_run ();
}
