/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whole, partial, kept, plain and left out: one repeat, its inside stitches marked by hand, and
 * what becomes of it.
 */
#include <string.h>

#include "samples.h"

#define NO_CHOICE ((PfRepeatState) -1)
/* No stitch inside: the repeat isn't listed, nor is it whole. */
#define NOTHING ((PfRepeatState) -2)

typedef struct {
  const char *ground;
  const char *inside; /* names, separated by commas; or "all" */
  PfRepeatState choice;
  bool all_plain;
  PfBeads beads;
  PfRepeatState state;
  const char *worked; /* names in the file's order; or "all" */
  size_t n_pins, n_beads;
} Case;

#define ARMURE(inside, state, worked, n_pins)                                                      \
  {                                                                                                \
    "armure", inside, NO_CHOICE, false, PF_BEADS_NONE, state, worked, n_pins, 0                    \
  }
#define CHOSEN(ground, inside, choice, state, worked, n_pins)                                      \
  {                                                                                                \
    ground, inside, choice, false, PF_BEADS_NONE, state, worked, n_pins, 0                         \
  }
#define BEADS(inside, choice, beads, state, worked, n_pins, n_beads)                               \
  {                                                                                                \
    "armure", inside, choice, false, beads, state, worked, n_pins, n_beads                         \
  }

static const Case cases[] = {
  /* the armure: pins 1, 2, 3, 4; the middle is core. Common practice. */
  ARMURE ("all", PF_REPEAT_WHOLE, "all", 4),
  ARMURE ("", NOTHING, "", 0),
  ARMURE ("1,2,3,centre,close 2,close 3", PF_REPEAT_KEPT, "1,2,3,centre,close 2,close 3", 3),
  ARMURE ("1,2,centre,close 2", PF_REPEAT_KEPT, "1,2,centre,close 2", 2),
  ARMURE ("1,4,centre", PF_REPEAT_KEPT, "1,centre,4", 2),
  ARMURE ("1,2,3,close 2,close 3,4", PF_REPEAT_PLAIN, "1,2,3,close 2,close 3,4", 4),
  ARMURE ("1,2,close 2", PF_REPEAT_PLAIN, "1,2,close 2", 2),
  ARMURE ("2,close 2,centre", PF_REPEAT_PLAIN, "2,close 2", 1), /* one pin alone is always plain */
  ARMURE ("4", PF_REPEAT_PLAIN, "4", 1),
  ARMURE ("centre", PF_REPEAT_LEFT_OUT, "", 0), /* no pin */

  /* all partial repeats plain */
  { "armure", "1,2,3,centre,close 2,close 3", NO_CHOICE, true, PF_BEADS_NONE, PF_REPEAT_PLAIN,
    "1,2,3,close 2,close 3", 3, 0 },
  { "armure", "all", NO_CHOICE, true, PF_BEADS_NONE, PF_REPEAT_WHOLE, "all", 4, 0 },
  { "armure", "centre", NO_CHOICE, true, PF_BEADS_NONE, PF_REPEAT_LEFT_OUT, "", 0, 0 },
  { "torchon", "1", NO_CHOICE, true, PF_BEADS_NONE, PF_REPEAT_WHOLE, "1", 1, 0 },
  { "rose", "2,3", NO_CHOICE, true, PF_BEADS_NONE, PF_REPEAT_PARTIAL, "2,3", 2, 0 },
  { "armure", "1,2,3,centre,close 2,close 3", PF_REPEAT_KEPT, true, PF_BEADS_NONE, PF_REPEAT_KEPT,
    "1,2,3,centre,close 2,close 3", 3, 0 },

  /* the maker's choice */
  CHOSEN ("armure", "1,2,3,centre,close 2,close 3", PF_REPEAT_PLAIN, PF_REPEAT_PLAIN,
          "1,2,3,close 2,close 3", 3),
  CHOSEN ("armure", "2,close 2,centre", PF_REPEAT_KEPT, PF_REPEAT_KEPT, "2,centre,close 2", 1),
  CHOSEN ("armure", "1,2,close 2", PF_REPEAT_KEPT, PF_REPEAT_PLAIN, "1,2,close 2",
          2), /* no middle to keep: not heeded */
  CHOSEN ("armure", "all", PF_REPEAT_PLAIN, PF_REPEAT_PLAIN, "1,2,3,close 2,close 3,4", 4),
  CHOSEN ("armure", "all", PF_REPEAT_KEPT, PF_REPEAT_WHOLE, "all", 4),
  CHOSEN ("armure", "all", PF_REPEAT_LEFT_OUT, PF_REPEAT_LEFT_OUT, "", 0),
  CHOSEN ("armure", "1,2,3,centre,close 2,close 3", PF_REPEAT_LEFT_OUT, PF_REPEAT_LEFT_OUT, "", 0),
  CHOSEN ("armure", "centre", PF_REPEAT_KEPT, PF_REPEAT_KEPT, "centre", 0),
  CHOSEN ("armure", "centre", PF_REPEAT_PLAIN, PF_REPEAT_PLAIN, "", 0),
  CHOSEN ("armure", "", PF_REPEAT_LEFT_OUT, NOTHING, "", 0),
  CHOSEN ("armure", "", PF_REPEAT_KEPT, NOTHING, "", 0),

  /* no core: neither kept nor plain */
  CHOSEN ("rose", "nw,2,3", NO_CHOICE, PF_REPEAT_PARTIAL, "nw,2,3", 2),
  CHOSEN ("rose", "nw", NO_CHOICE, PF_REPEAT_LEFT_OUT, "", 0),
  CHOSEN ("rose", "nw,ne", NO_CHOICE, PF_REPEAT_LEFT_OUT, "", 0),
  CHOSEN ("rose", "nw,2", PF_REPEAT_PLAIN, PF_REPEAT_PARTIAL, "nw,2", 1),
  CHOSEN ("rose", "nw,2", PF_REPEAT_KEPT, PF_REPEAT_PARTIAL, "nw,2", 1),
  CHOSEN ("rose", "nw,2", PF_REPEAT_LEFT_OUT, PF_REPEAT_LEFT_OUT, "", 0),
  CHOSEN ("rose", "nw", PF_REPEAT_KEPT, PF_REPEAT_LEFT_OUT, "", 0),
  CHOSEN ("torchon", "1", NO_CHOICE, PF_REPEAT_WHOLE, "1", 1),
  CHOSEN ("torchon", "1", PF_REPEAT_LEFT_OUT, PF_REPEAT_LEFT_OUT, "", 0),

  /* no pins: never left out, unless the maker says so */
  CHOSEN ("torchon-without-pins", "1", NO_CHOICE, PF_REPEAT_WHOLE, "1", 0),
  CHOSEN ("torchon-without-pins", "1", PF_REPEAT_PLAIN, PF_REPEAT_WHOLE, "1", 0),
  CHOSEN ("torchon-without-pins", "1", PF_REPEAT_LEFT_OUT, PF_REPEAT_LEFT_OUT, "", 0),

  /* a core with a pin of its own, which isn't one of the other pins */
  CHOSEN ("spider", "all", NO_CHOICE, PF_REPEAT_WHOLE, "all", 6),
  CHOSEN ("spider", "top,body 1,body 2,body 3,body 4,body 5,body 6,body 7,body 8", NO_CHOICE,
          PF_REPEAT_PLAIN, "top", 1),
  CHOSEN ("spider", "top,left 1,body 1,body 2,body 3,body 4,body 5,body 6,body 7,body 8", NO_CHOICE,
          PF_REPEAT_KEPT, "top,left 1,body 1,body 2,body 3,body 4,body 5,body 6,body 7,body 8", 3),
  CHOSEN ("spider", "top,left 1,body 1,body 2,body 3,body 4,body 5,body 6,body 7", NO_CHOICE,
          PF_REPEAT_PLAIN, "top,left 1", 2),
  CHOSEN ("spider", "body 4,body 5", NO_CHOICE, PF_REPEAT_PLAIN, "",
          0), /* its pin is inside: not left out */
  CHOSEN ("spider", "body 1", NO_CHOICE, PF_REPEAT_LEFT_OUT, "", 0),

  /* beads, on the armure's middle */
  BEADS ("all", NO_CHOICE, PF_BEADS_NONE, PF_REPEAT_WHOLE, "all", 4, 0),
  BEADS ("all", NO_CHOICE, PF_BEADS_WHOLE, PF_REPEAT_WHOLE, "all", 4, 1),
  BEADS ("all", NO_CHOICE, PF_BEADS_KEPT, PF_REPEAT_WHOLE, "all", 4, 1),
  BEADS ("1,4,centre", NO_CHOICE, PF_BEADS_WHOLE, PF_REPEAT_KEPT, "1,centre,4", 2, 0),
  BEADS ("1,4,centre", NO_CHOICE, PF_BEADS_KEPT, PF_REPEAT_KEPT, "1,centre,4", 2, 1),
  BEADS ("1,centre", NO_CHOICE, PF_BEADS_KEPT, PF_REPEAT_PLAIN, "1", 1, 0),
  BEADS ("1,4", PF_REPEAT_KEPT, PF_BEADS_KEPT, PF_REPEAT_PLAIN, "1,4", 2, 0),
  BEADS ("all", PF_REPEAT_PLAIN, PF_BEADS_KEPT, PF_REPEAT_PLAIN, "1,2,3,close 2,close 3,4", 4, 0),
};

/* The repeat that is marked. */
#define I (-3)
#define J 4

static int
stitch_named (const PfGround *ground, const char *name)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (g_str_equal (ground->stitches[k].name, name))
      return k;
  g_error ("no stitch %s", name);
}

static void
mark (const PfLattice *lattice, int k, int i, int j)
{
  const size_t column = (size_t) (i - lattice->i0);
  pf_lattice_row (lattice, k, j)[column / 64] |= G_GUINT64_CONSTANT (1) << (column % 64);
}

static void
mark_inside (const PfLattice *lattice, const char *inside)
{
  if (g_str_equal (inside, "all"))
    {
      for (int k = 0; k < lattice->ground->n_stitches; k++)
        mark (lattice, k, I, J);
      return;
    }
  g_auto (GStrv) names = g_strsplit (inside, ",", -1);
  for (char **name = names; *name != NULL; name++)
    mark (lattice, stitch_named (lattice->ground, *name), I, J);
}

static char *
worked_names (const PfLattice *lattice)
{
  GString *names = g_string_new (NULL);
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    if (pf_lattice_inside (lattice, (PfStitchId){ k, I, J }))
      g_string_append_printf (names, "%s%s", names->len > 0 ? "," : "",
                              lattice->ground->stitches[k].name);
  return g_string_free (names, FALSE);
}

static PfLattice *
make_lattice (const PfGround *ground)
{
  static const PfPoint square[] = { { -400, -400 }, { 400, -400 }, { 400, 400 }, { -400, 400 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  const PfPlacement placement = { .gap = 5 };
  g_autoptr (GError) error = NULL;
  PfLattice *lattice = pf_lattice_new (region, ground, &placement, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (lattice->row_words, >, 1);
  return lattice;
}

static void
check_counts (const Case *c, const PfCounts *counts)
{
  const bool kept = c->state == PF_REPEAT_KEPT, plain = c->state == PF_REPEAT_PLAIN;
  g_assert_cmpuint (counts->whole, ==, c->state == PF_REPEAT_WHOLE);
  g_assert_cmpuint (counts->partial, ==, kept || plain || c->state == PF_REPEAT_PARTIAL);
  g_assert_cmpuint (counts->kept, ==, kept);
  g_assert_cmpuint (counts->plain, ==, plain);
  g_assert_cmpuint (counts->left_out, ==, c->state == PF_REPEAT_LEFT_OUT);
  g_assert_cmpuint (counts->pins, ==, c->n_pins);
  g_assert_cmpuint (counts->beads, ==, c->n_beads);
}

/* The choices for nothing (0 to 2) are told, and number 3 if it isn't kept to. */
static void
check_unheeded (const Case *c, const PfFilling *filling)
{
  const bool whole = c->choice == PF_REPEAT_KEPT && c->state == PF_REPEAT_WHOLE;
  const bool heeded = c->choice == NO_CHOICE || c->choice == c->state || whole ||
                      (c->choice == PF_REPEAT_LEFT_OUT && c->state == PF_REPEAT_LEFT_OUT);
  g_assert_cmpuint (filling->n_unheeded, ==, heeded ? 3 : 4);
  for (size_t u = 0; u < filling->n_unheeded; u++)
    {
      g_assert_false (filling->unheeded[u].of_sewing);
      g_assert_cmpuint (filling->unheeded[u].index, ==, u);
      g_assert_nonnull (filling->unheeded[u].why);
    }
}

/* Of two choices for one repeat the later one counts, if it can be kept to. */
static void
test_later (void)
{
  static const struct {
    const char *inside;
    PfRepeatState first, second, state;
  } later[] = {
    { "all", PF_REPEAT_PLAIN, PF_REPEAT_KEPT, PF_REPEAT_WHOLE },
    { "all", PF_REPEAT_KEPT, PF_REPEAT_PLAIN, PF_REPEAT_PLAIN },
    { "all", PF_REPEAT_LEFT_OUT, PF_REPEAT_PLAIN, PF_REPEAT_PLAIN },
    { "1,4,centre", PF_REPEAT_PLAIN, PF_REPEAT_LEFT_OUT, PF_REPEAT_LEFT_OUT },
    { "1,4,centre", PF_REPEAT_LEFT_OUT, PF_REPEAT_KEPT, PF_REPEAT_KEPT },
    { "1,4", PF_REPEAT_LEFT_OUT, PF_REPEAT_KEPT, PF_REPEAT_LEFT_OUT }, /* the second can't be */
  };
  g_autoptr (PfGround) ground = sample_ground ("armure");
  for (size_t c = 0; c < G_N_ELEMENTS (later); c++)
    {
      g_autoptr (PfLattice) lattice = make_lattice (ground);
      mark_inside (lattice, later[c].inside);
      const PfRepeatChoice choices[] = { { I, J, later[c].first }, { I, J, later[c].second } };
      PfFillingSettings settings = pf_filling_settings_default ();
      settings.choices = choices;
      settings.n_choices = 2;
      g_autoptr (PfFilling) filling = g_new0 (PfFilling, 1);
      g_autoptr (GArray) beads = NULL;
      g_autoptr (GArray) repeats = pf_lattice_find_repeats (lattice, &settings, filling, &beads);
      const bool whole = later[c].state == PF_REPEAT_WHOLE;
      g_assert_cmpuint (filling->counts.whole, ==, whole);
      g_assert_cmpuint (repeats->len, ==, !whole);
      if (whole)
        continue;
      const PfRepeat repeat = g_array_index (repeats, PfRepeat, 0);
      g_assert_cmpint (repeat.state, ==, later[c].state);
      g_assert_true (repeat.chosen);
      g_assert_cmpint (repeat.core_inside, ==,
                       strstr (later[c].inside, ",4") == NULL ||
                           strstr (later[c].inside, "centre") != NULL);
    }
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (PfGround) ground = sample_ground (c->ground);
  g_autoptr (PfLattice) lattice = make_lattice (ground);
  mark_inside (lattice, c->inside);
  /* choices for repeats that hold nothing, or lie off the lattice, change nothing */
  const PfRepeatChoice choices[] = { { I, J + 1, PF_REPEAT_LEFT_OUT },
                                     { 10000, J, PF_REPEAT_PLAIN },
                                     { I, -10000, PF_REPEAT_KEPT },
                                     { I, J, c->choice } };
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.choices = choices;
  settings.n_choices = c->choice == NO_CHOICE ? 3 : 4;
  settings.all_plain = c->all_plain;
  settings.beads = c->beads;
  g_autoptr (PfFilling) filling = g_new0 (PfFilling, 1);
  g_autoptr (GArray) beads = NULL;
  g_autoptr (GArray) repeats = pf_lattice_find_repeats (lattice, &settings, filling, &beads);
  const PfCounts counts = filling->counts;
  check_counts (c, &counts);
  check_unheeded (c, filling);
  g_assert_cmpuint (beads->len, ==, c->n_beads);
  for (guint b = 0; b < beads->len; b++)
    g_assert_true (ground->stitches[g_array_index (beads, PfStitchId, b).k].bead);

  g_autofree char *worked = worked_names (lattice);
  if (g_str_equal (c->worked, "all"))
    g_assert_cmpuint (counts.stitches, ==, ground->n_stitches);
  else
    g_assert_cmpstr (worked, ==, c->worked);
  pf_lattice_count (lattice);
  g_assert_cmpuint (lattice->n_inside, ==, counts.stitches);

  const bool listed = c->state != PF_REPEAT_WHOLE && c->state != NOTHING;
  g_assert_cmpuint (repeats->len, ==, listed);
  if (!listed)
    return;
  const PfRepeat repeat = g_array_index (repeats, PfRepeat, 0);
  g_assert_true (repeat.i == I && repeat.j == J && repeat.state == c->state);
  g_assert_true (pf_lattice_dropped (lattice, (PfStitchId){ 0, I, J }) ==
                 (c->state == PF_REPEAT_PLAIN && ground->stitches[0].core));
  for (int k = 0; k < ground->n_stitches; k++)
    if (ground->stitches[k].core)
      g_assert_true (pf_lattice_dropped (lattice, (PfStitchId){ k, I, J }) ==
                     (c->state == PF_REPEAT_PLAIN));
}

/* Repeats of all states side by side, over more than one word of bits, are told apart. */
static void
test_neighbours (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfLattice) lattice = make_lattice (ground);
  const int n = lattice->n_columns;
  for (int c = 0; c < n; c++)
    for (int k = 0; k < ground->n_stitches; k++)
      if (c % 3 == 0 || (c % 3 == 1 && k != 0) || (c % 3 == 2 && k == 0))
        mark (lattice, k, lattice->i0 + c, J);
  const PfFillingSettings settings = pf_filling_settings_default ();
  g_autoptr (PfFilling) filling = g_new0 (PfFilling, 1);
  g_autoptr (GArray) beads = NULL;
  g_autoptr (GArray) repeats = pf_lattice_find_repeats (lattice, &settings, filling, &beads);
  const PfCounts counts = filling->counts;
  g_assert_cmpuint (counts.whole, ==, (n + 2) / 3);
  g_assert_cmpuint (counts.kept, ==, (n + 1) / 3);
  g_assert_cmpuint (counts.plain, ==, n / 3);
  g_assert_cmpuint (counts.stitches, ==, (n + 2) / 3 * 7 + (n + 1) / 3 * 6 + n / 3);
  g_assert_cmpuint (repeats->len, ==, n - (n + 2) / 3);
  for (guint r = 0; r < repeats->len; r++)
    {
      const PfRepeat repeat = g_array_index (repeats, PfRepeat, r);
      g_assert_cmpint (repeat.state, ==,
                       (repeat.i - lattice->i0) % 3 == 1 ? PF_REPEAT_KEPT : PF_REPEAT_PLAIN);
    }
}

/* A filling lists its repeats by j, then i, and finds each again. */
static void
test_listed (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfRegion) region = sample_star ((PfPoint){ 0, 0 }, 20, 60, 30, 1);
  PfEdge edges[2];
  for (int l = 0; l < 2; l++)
    g_assert_true (pf_edge_init_even (&edges[l], &region->loops[l], PF_EDGE_HALF_STITCH, 3, NULL));
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = 2.5;
  g_autoptr (PfFilling) filling = pf_filling_new (region, edges, ground, &settings, NULL);
  g_assert_cmpuint (filling->n_repeats, ==, filling->counts.partial + filling->counts.left_out);
  g_assert_cmpuint (filling->n_repeats, >, 10);
  for (size_t r = 0; r < filling->n_repeats; r++)
    {
      const PfRepeat *repeat = &filling->repeats[r], *before = repeat - 1;
      g_assert_true (r == 0 || before->j < repeat->j ||
                     (before->j == repeat->j && before->i < repeat->i));
      g_assert_cmpint (pf_filling_repeat_state (filling, repeat->i, repeat->j), ==, repeat->state);
    }
  g_assert_cmpint (pf_filling_repeat_state (filling, 1000, 1000), ==, PF_REPEAT_WHOLE);
  for (int l = 0; l < 2; l++)
    pf_edge_clear (&edges[l]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/repeats/case/%02zu", c + 1);
      g_test_add_data_func (path, &cases[c], test_case);
    }
  g_test_add_func ("/repeats/neighbours", test_neighbours);
  g_test_add_func ("/repeats/listed", test_listed);
  g_test_add_func ("/repeats/later", test_later);
  return g_test_run ();
}
