/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The maker's own choices at one repeat of the eight-thread armure, and what she is told. What each
 * case must give was followed by hand along the pair lines; that a missing side pin is turned at
 * twice, and that pairs are sewn in as if from missing pins, is common practice.
 *
 *        1
 *      / | \
 *     2  c  3
 *      \ | /
 *        4
 */
#include "armure.h"

#include <math.h>
#include <string.h>

/* Parts of the repeat that are left. */
static const ArmureCut without_2 = { 1, 0, -0.7 };
static const ArmureCut without_1 = { 0, 1, -0.7 };
static const ArmureCut without_1_and_2 = { 1, 1, -0.3 };
static const ArmureCut only_2 = { -1, 0, 0.7 };
static const ArmureCut whole = { 0, 1, -2 };

/* Stitches in the order of the file. */
enum { PIN_1, PIN_2, PIN_3, CENTRE, CLOSE_2, CLOSE_3, PIN_4 };

#define OUT_OF(k, side)                                                                            \
  {                                                                                                \
    { k, 0, 0 }, side, true                                                                        \
  }
#define INTO(k, side)                                                                              \
  {                                                                                                \
    { k, 0, 0 }, side, false                                                                       \
  }

static PfFilling *
fill_chosen (ArmureCut cut, const PfSewingChoice *choices, size_t n)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  PfFillingSettings settings = armure_settings (ground);
  settings.sewing_choices = choices;
  settings.n_sewing_choices = n;
  return armure_fill (ground, cut, &settings);
}

static const PfCrossing *
crossing_at (const PfFilling *filling, PfLineId line)
{
  const guint32 c = pf_filling_find_crossing (filling, line);
  g_assert_cmpuint (c, !=, PF_NONE);
  const PfLineId back = pf_crossing_line (filling, c);
  g_assert_true (back.stitch.k == line.stitch.k && back.stitch.i == line.stitch.i &&
                 back.stitch.j == line.stitch.j && back.side == line.side &&
                 back.leaves == line.leaves);
  return &filling->crossings[c];
}

static const PfSewing *
sewing_at (const PfFilling *filling, PfLineId line)
{
  return &filling->sewings[crossing_at (filling, line)->sewing];
}

/* --- Pairs --------------------------------------------------------------------------------------
 */

typedef struct {
  const char *name;
  const ArmureCut *cut;
  PfSewingChoice choices[3];
  size_t n_choices;
  size_t new_pairs, turned, sewings;
  guint unheeded; /* a bit for each choice that isn't kept to */
} Case;

#define ALONE(line_id)                                                                             \
  {                                                                                                \
    .line = line_id, .kind = PF_SEW_ALONE                                                          \
  }
#define TURN(line_id, other_id)                                                                    \
  {                                                                                                \
    .line = line_id, .kind = PF_SEW_TURN, .other = other_id                                        \
  }

static const Case cases[] = {
  { "as by itself", &without_2, { { .kind = PF_SEW_ALONE } }, 0, 3, 2, 8, 0 },
  /* the pair from pin 1 isn't turned at missing pin 2: it is finished, and a new one enters */
  { "alone before the middle", &without_2, { ALONE (OUT_OF (PIN_1, PF_LEFT)) }, 1, 4, 1, 9, 0 },
  { "alone after the middle", &without_2, { ALONE (INTO (PIN_4, PF_LEFT)) }, 1, 4, 1, 9, 0 },
  { "alone both times",
    &without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), ALONE (OUT_OF (CENTRE, PF_LEFT)) },
    2,
    5,
    0,
    10,
    0 },
  /* the middle by itself: the pair from pin 1 is turned to pin 4 instead */
  { "alone at the middle",
    &without_2,
    { ALONE (INTO (CENTRE, PF_LEFT)), ALONE (OUT_OF (CENTRE, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  /* both ends of one turn: the same as one of them */
  { "alone at both ends",
    &without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), ALONE (INTO (CENTRE, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  /* the pair from pin 1 misses the middle and goes to pin 4; the middle's gets a new pair, and its
     pair is finished */
  { "turned past the middle",
    &without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)) },
    1,
    4,
    1,
    9,
    0 },
  { "turned as by itself",
    &without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (CENTRE, PF_LEFT)) },
    1,
    3,
    2,
    8,
    0 },
  /* the pair from pin 3 crosses over to pin 4's left; the middle's, which turned, is finished */
  { "turned from the other side",
    &without_1_and_2,
    { TURN (OUT_OF (CLOSE_3, PF_RIGHT), INTO (PIN_4, PF_LEFT)) },
    1,
    3,
    1,
    7,
    0 },
  /* nothing can turn where all that leaves is worked after all that enters */
  { "turned too late",
    &without_1,
    { TURN (OUT_OF (CLOSE_2, PF_LEFT), INTO (PIN_3, PF_LEFT)) },
    1,
    4,
    0,
    8,
    1 },
  { "turned at itself",
    &only_2,
    { TURN (OUT_OF (CLOSE_2, PF_LEFT), INTO (PIN_2, PF_LEFT)) },
    1,
    2,
    0,
    4,
    1 },
  { "turned the wrong way",
    &without_2,
    { TURN (INTO (CENTRE, PF_LEFT), OUT_OF (PIN_1, PF_LEFT)) },
    1,
    3,
    2,
    8,
    1 },
  /* of two for one line the later one counts */
  { "alone, then turned",
    &without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  { "turned, then alone",
    &without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)), ALONE (OUT_OF (PIN_1, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  { "turned twice to one stitch",
    &without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)),
      TURN (OUT_OF (CENTRE, PF_LEFT), INTO (PIN_4, PF_LEFT)) },
    2,
    3,
    2,
    8,
    0 },
  { "the later one can't be",
    &without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_RIGHT)) },
    2,
    4,
    1,
    9,
    2 },
  /* lines that aren't cut */
  { "not cut",
    &without_2,
    { ALONE (OUT_OF (PIN_2, PF_LEFT)), ALONE (OUT_OF (PIN_1, PF_RIGHT)),
      TURN (OUT_OF (PIN_1, PF_LEFT), INTO (CENTRE, PF_RIGHT)) },
    3,
    3,
    2,
    8,
    7 },
  { "another ground's",
    &whole,
    { ALONE (OUT_OF (99, PF_LEFT)), ALONE (OUT_OF (-1, PF_LEFT)) },
    2,
    4,
    0,
    8,
    3 },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (PfFilling) filling = fill_chosen (*c->cut, c->choices, c->n_choices);
  const PfCounts *n = &filling->counts;
  g_assert_cmpuint (n->new_pairs, ==, c->new_pairs);
  g_assert_cmpuint (n->finished, ==, c->new_pairs);
  g_assert_cmpuint (n->turned, ==, c->turned);
  g_assert_cmpuint (n->carried, ==, 0);
  g_assert_cmpuint (n->sewings, ==, c->sewings);
  g_assert_cmpuint (filling->n_pairs, ==, c->new_pairs);
  guint unheeded = 0;
  for (size_t u = 0; u < filling->n_unheeded; u++)
    {
      g_assert_true (filling->unheeded[u].of_sewing);
      unheeded |= 1u << filling->unheeded[u].index;
    }
  g_assert_cmpuint (unheeded, ==, c->unheeded);
}

/* The turn chosen is one sewing, half-way along the outline, and its pair is one pair. */
static void
test_turn (void)
{
  const PfSewingChoice choice = TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT));
  g_autoptr (PfFilling) filling = fill_chosen (without_2, &choice, 1);
  g_autoptr (PfRegion) region = armure_region (without_2);
  const PfCrossing *from = crossing_at (filling, choice.line);
  const PfCrossing *to = crossing_at (filling, choice.other);
  const PfSewing *sewing = sewing_at (filling, choice.line);
  g_assert_true (sewing == sewing_at (filling, choice.other));
  g_assert_true (from->chosen && to->chosen && sewing->chosen);
  g_assert_cmpint (sewing->kind, ==, PF_PAIR_TURNED);
  g_assert_cmpuint (from->pair, ==, to->pair);
  g_assert_cmpfloat (sewing->target.along, ==,
                     pf_loop_midway (&region->loops[0], from->place.along, to->place.along));
  /* between them the middle's own two are sewn alone */
  g_assert_cmpint (crossing_at (filling, (PfLineId) INTO (CENTRE, PF_LEFT))->kind, ==, PF_PAIR_NEW);
  g_assert_cmpint (crossing_at (filling, (PfLineId) OUT_OF (CENTRE, PF_LEFT))->kind, ==,
                   PF_PAIR_FINISHED);
  g_assert_false (sewing_at (filling, (PfLineId) INTO (CENTRE, PF_LEFT))->chosen);
}

/* --- Places -------------------------------------------------------------------------------------
 */

/* Pinholes stand 2 mm apart or a little less, and a place may be 14.1 mm (the ground's gap) off. */
static void
test_places (void)
{
  const PfLineId line = OUT_OF (PIN_1, PF_LEFT);
  g_autoptr (PfFilling) before = fill_chosen (without_2, NULL, 0);
  const double target = sewing_at (before, line)->target.along;
  const struct {
    PfSewingChoiceKind kind;
    double by; /* mm on from the target */
    bool heeded;
  } places[] = {
    { PF_SEW_PINHOLE, 4, true },   { PF_SEW_PINHOLE, -6, true }, { PF_SEW_PINHOLE, 13, true },
    { PF_SEW_PINHOLE, 16, false }, { PF_SEW_BAR, 3.3, true },    { PF_SEW_BAR, 0, true },
    { PF_SEW_BAR, -9.1, true },    { PF_SEW_BAR, 15, false },
  };
  for (size_t p = 0; p < G_N_ELEMENTS (places); p++)
    {
      const PfSewingChoice choice = { .line = line,
                                      .kind = places[p].kind,
                                      .place = { 0, target + places[p].by } };
      g_autoptr (PfFilling) filling = fill_chosen (without_2, &choice, 1);
      const PfSewing *sewing = sewing_at (filling, line), *was = sewing_at (before, line);
      g_assert_cmpuint (filling->n_unheeded, ==, !places[p].heeded);
      g_assert_true (sewing->chosen == places[p].heeded);
      g_assert_cmpuint (filling->counts.turned, ==, 2);
      if (!places[p].heeded)
        g_assert_cmpfloat (sewing->place.along, ==, was->place.along);
      else if (places[p].kind == PF_SEW_BAR)
        {
          g_assert_cmpuint (sewing->pinhole, ==, PF_NONE);
          g_assert_cmpfloat (sewing->place.along, ==, choice.place.along);
          g_assert_cmpuint ((sewing->between[0] + 1) % 40, ==, sewing->between[1]);
          g_assert_true ((sewing->angle > 0) == (fabs (places[p].by) > 0));
        }
      else
        {
          g_assert_cmpuint (sewing->pinhole, !=, PF_NONE);
          g_assert_cmpfloat (fabs (sewing->place.along - choice.place.along), <=, 1);
        }
      if (places[p].heeded)
        g_assert_cmpfloat (fabs (sewing->distance - fabs (sewing->place.along - target)), <, 1e-9);
    }
}

/* A choice for either end of a turned pair places its one sewing; the later one counts. */
static void
test_place_of_turn (void)
{
  const PfLineId from = OUT_OF (PIN_1, PF_LEFT), to = INTO (CENTRE, PF_LEFT);
  g_autoptr (PfFilling) before = fill_chosen (without_2, NULL, 0);
  const double target = sewing_at (before, from)->target.along;
  const PfSewingChoice choices[] = {
    { .line = to, .kind = PF_SEW_BAR, .place = { 0, target + 1 } },
    { .line = from, .kind = PF_SEW_BAR, .place = { 0, target + 2 } },
    { .line = to, .kind = PF_SEW_BAR, .place = { 0, target + 40 } }, /* too far */
    { .line = from, .kind = PF_SEW_BAR, .place = { 1, target } },    /* on no outline */
  };
  g_autoptr (PfFilling) first = fill_chosen (without_2, choices, 1);
  g_assert_cmpfloat (sewing_at (first, from)->place.along, ==, target + 1);
  g_autoptr (PfFilling) all = fill_chosen (without_2, choices, 4);
  g_assert_cmpfloat (sewing_at (all, from)->place.along, ==, target + 2);
  g_assert_cmpuint (all->n_unheeded, ==, 2);
  g_assert_cmpuint (all->unheeded[0].index, ==, 2);
  g_assert_cmpuint (all->unheeded[1].index, ==, 3);
}

/* --- The same line in another filling -----------------------------------------------------------
 */

/* The ground a little larger, smaller, or moved: the same line is cut, and the choice is kept to.
 */
static void
test_survives (void)
{
  const PfSewingChoice choices[] = { ALONE (OUT_OF (PIN_1, PF_LEFT)),
                                     ALONE (OUT_OF (PIN_4, PF_LEFT)) };
  static const PfPoint origins[] = { { 0, 0 }, { 0.5, 0.3 }, { -0.4, 0.6 }, { 0.2, -0.7 } };
  g_autoptr (PfGround) ground = sample_ground ("armure");
  for (int scale = 97; scale <= 103; scale += 3)
    for (size_t o = 0; o < G_N_ELEMENTS (origins); o++)
      {
        PfFillingSettings settings = armure_settings (ground);
        settings.placement.gap *= scale / 100.0;
        settings.placement.origin = origins[o];
        settings.sewing_choices = choices;
        settings.n_sewing_choices = 2;
        g_autoptr (PfFilling) filling = armure_fill (ground, without_2, &settings);
        g_assert_cmpuint (filling->n_unheeded, ==, 0);
        for (size_t c = 0; c < 2; c++)
          {
            const PfCrossing *crossing = crossing_at (filling, choices[c].line);
            g_assert_true (crossing->chosen);
            g_assert_cmpint (crossing->kind, ==, PF_PAIR_FINISHED);
          }
        g_assert_cmpuint (filling->counts.turned, ==, 1);
      }
}

/* Moved so far that pin 1 is gone, and back again. */
static void
test_returns (void)
{
  const PfSewingChoice choice = ALONE (OUT_OF (PIN_1, PF_LEFT));
  g_autoptr (PfFilling) gone = fill_chosen (without_1, &choice, 1);
  g_assert_cmpuint (gone->n_unheeded, ==, 1);
  g_assert_cmpstr (gone->unheeded[0].why, ==,
                   "The edge doesn’t cut the line that leaves pin 1 of repeat (0, 0) on its left "
                   "where the ground lies now. Reset the choice, or move the ground.");
  g_autoptr (PfFilling) back = fill_chosen (without_2, &choice, 1);
  g_assert_cmpuint (back->n_unheeded, ==, 0);
}

/* --- Words --------------------------------------------------------------------------------------
 */

static void
check_repeat (const PfFilling *filling, const PfGround *ground, int i, const char *said)
{
  g_autofree char *text = pf_explain_repeat (filling, ground, i, 0);
  g_assert_cmpstr (text, ==, said);
}

/* Pinholes counted by hand: the sides of the cut diamond have 11, 11, 5, 8 and 5 parts, so its
 * corners are pinholes 1, 12, 23, 28 and 36, and the one half-way along the cut, beside the middle,
 * is 32. */
static void
test_repeat_words (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfFilling) filling = armure_fill (ground, without_2, NULL);
  check_repeat (filling, ground, 0,
                "Repeat (0, 0) is kept: its middle and 3 of its 4 pins are inside; pin 2 is "
                "missing.\n"
                "New pair 1 is sewn into pinhole 39, and goes to pin 1 from its left.\n"
                "New pair 2 is sewn into pinhole 3, and goes to pin 1 from its right.\n"
                "New pair 3 is sewn into pinhole 10, and goes to pin 3 from its right.\n"
                "Pin 2 is missing: the pair from pin 1 turns here, sewn into pinhole 33.\n"
                "Pair 3 leaves pin 3 on its right and is finished: sewn into pinhole 14, tied and "
                "cut.\n"
                "Pin 2 is missing: the pair from the middle turns here, sewn into pinhole 31.\n"
                "Pair 1 leaves pin 4 on its left and is finished: sewn into pinhole 25, tied and "
                "cut.\n"
                "Pair 2 leaves pin 4 on its right and is finished: sewn into pinhole 21, tied and "
                "cut.");
  check_repeat (filling, ground, 1, "Repeat (1, 0) has no stitch inside the shape.");
}

/* The first line of what is told of repeat (0, 0). */
static const struct {
  const char *name;
  const ArmureCut *cut;
  bool chosen;
  PfRepeatState choice;
  bool all_plain;
  const char *said;
} states[] = {
  { "whole", &whole, false, 0, false, "Repeat (0, 0) is whole: all its stitches are inside." },
  { "whole and plain", &whole, true, PF_REPEAT_PLAIN, false,
    "Repeat (0, 0) is plain, as you chose: its middle is dropped. All its pins are inside." },
  { "left out", &whole, true, PF_REPEAT_LEFT_OUT, false,
    "Repeat (0, 0) is left out, as you chose." },
  { "two missing", &without_1_and_2, false, 0, false,
    "Repeat (0, 0) is kept: its middle and 2 of its 4 pins are inside; pins 1, 2 are missing." },
  { "kept", &without_2, true, PF_REPEAT_KEPT, false,
    "Repeat (0, 0) is kept, as you chose: its middle and 3 of its 4 pins are inside; pin 2 is "
    "missing." },
  { "plain", &without_2, true, PF_REPEAT_PLAIN, false,
    "Repeat (0, 0) is plain, as you chose: its middle is dropped. 3 of its 4 pins are inside; pin "
    "2 is missing." },
  { "all plain", &without_2, false, 0, true,
    "Repeat (0, 0) is plain, as all partial repeats are: its middle is dropped. 3 of its 4 pins "
    "are inside; pin 2 is missing." },
  { "one pin", &only_2, false, 0, false,
    "Repeat (0, 0) is plain: its middle is missing. 1 of its 4 pins is inside; pins 1, 3, 4 are "
    "missing." },
};

static void
test_state_words (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  for (size_t s = 0; s < G_N_ELEMENTS (states); s++)
    {
      const PfRepeatChoice choice = { 0, 0, states[s].choice };
      PfFillingSettings settings = armure_settings (ground);
      settings.choices = &choice;
      settings.n_choices = states[s].chosen;
      settings.all_plain = states[s].all_plain;
      g_autoptr (PfFilling) filling = armure_fill (ground, *states[s].cut, &settings);
      g_autofree char *text = pf_explain_repeat (filling, ground, 0, 0);
      char *end = strchr (text, '\n');
      if (end != NULL)
        *end = '\0';
      g_assert_cmpstr (text, ==, states[s].said);
    }
}

static void
check_sewing (const PfFilling *filling, PfLineId line, const char *said)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autofree char *text = pf_explain_sewing (filling, ground, crossing_at (filling, line)->sewing);
  g_assert_cmpstr (text, ==, said);
}

static void
test_sewing_words (void)
{
  const PfLineId from = OUT_OF (PIN_1, PF_LEFT), to = INTO (PIN_4, PF_LEFT);
  g_autoptr (PfFilling) plain = fill_chosen (without_2, NULL, 0);
  check_sewing (
      plain, from,
      "Pin 2 is missing: the pair from pin 1 turns here, sewn into pinhole 33. It goes on "
      "to the middle from its left.");
  check_sewing (plain, (PfLineId) OUT_OF (PIN_4, PF_RIGHT),
                "Pair 2 leaves pin 4 on its right and is finished: sewn into pinhole 21, tied and "
                "cut. Its line leads to pin 2 of the next repeat, which is missing.");
  const PfSewingChoice alone = ALONE (OUT_OF (PIN_1, PF_LEFT));
  g_autoptr (PfFilling) finished = fill_chosen (without_2, &alone, 1);
  check_sewing (finished, from,
                "Pair 1 leaves pin 1 on its left and is finished: sewn round the bar between "
                "pinholes 33 and 34, tied and cut. Its line leads to pin 2, which is missing. You "
                "chose to sew this pair alone.");
  check_sewing (finished, (PfLineId) INTO (CENTRE, PF_LEFT),
                "New pair 4 is sewn into pinhole 32, and goes to the middle from its left. Its "
                "line comes from pin 2, which is missing.");
  const PfSewingChoice turn = TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT));
  g_autoptr (PfFilling) turned = fill_chosen (without_2, &turn, 1);
  /* the middle's own two have filled pinhole 32 */
  check_sewing (turned, to,
                "Pin 2 is missing: the pair from pin 1 turns here, sewn round the bar between "
                "pinholes 32 and 33. It goes on to pin 4 from its left. You chose this turn.");
}

/* A bar 4 mm on from where the line is cut. */
static void
test_off_line_words (void)
{
  const PfLineId line = OUT_OF (PIN_4, PF_LEFT);
  g_autoptr (PfFilling) before = fill_chosen (without_2, NULL, 0);
  const PfSewingChoice moved = { .line = line,
                                 .kind = PF_SEW_BAR,
                                 .place = { 0, sewing_at (before, line)->target.along + 4 } };
  g_autoptr (PfFilling) filling = fill_chosen (without_2, &moved, 1);
  const PfSewing *sewing = sewing_at (filling, line);
  g_assert_true (sewing->off_line);
  g_autofree char *said = g_strdup_printf (
      "Pair 1 leaves pin 4 on its left and is finished: sewn round the bar between pinholes %u and "
      "%u, tied and cut. Its line leads to pin 3 of the next repeat, which is missing. You chose "
      "this place. The sewing pulls the pair %.1f degrees off its line.",
      sewing->between[0] + 1, sewing->between[1] + 1, sewing->angle);
  check_sewing (filling, line, said);
}

static void
test_pair_words (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfFilling) filling = armure_fill (ground, without_2, NULL);
  g_autofree char *turned = pf_explain_pair (filling, ground, 0);
  g_assert_cmpstr (
      turned, ==,
      "Pair 1 begins at pinhole 39 and ends at pinhole 25. Its first stitch is pin 1 of "
      "repeat (0, 0), its last is pin 4 of repeat (0, 0). It works 3 stitches on a way "
      "of 42.94 mm. It turns 2 times at the edge.");
  /* in, pin 1, turn, centre, turn, pin 4, out */
  size_t n;
  g_autofree PfPoint *way = pf_pair_way (filling, 0, &n);
  g_assert_cmpuint (n, ==, 7);
  double length = 0;
  for (size_t p = 1; p < n; p++)
    length += hypot (way[p].x - way[p - 1].x, way[p].y - way[p - 1].y);
  g_assert_cmpfloat (fabs (length - pf_pair_length (filling, 0)), <, 1e-9);
  g_assert_cmpfloat (hypot (way[1].x, way[1].y + ARMURE_SCALE), <, 1e-9);
  g_assert_cmpfloat (hypot (way[3].x, way[3].y), <, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path = g_strdup_printf ("/armure-choices/pairs/%s", cases[c].name);
      g_test_add_data_func (path, &cases[c], test_case);
    }
  g_test_add_func ("/armure-choices/turn", test_turn);
  g_test_add_func ("/armure-choices/places", test_places);
  g_test_add_func ("/armure-choices/place-of-turn", test_place_of_turn);
  g_test_add_func ("/armure-choices/survives", test_survives);
  g_test_add_func ("/armure-choices/returns", test_returns);
  g_test_add_func ("/armure-choices/words/repeat", test_repeat_words);
  g_test_add_func ("/armure-choices/words/states", test_state_words);
  g_test_add_func ("/armure-choices/words/sewing", test_sewing_words);
  g_test_add_func ("/armure-choices/words/off-line", test_off_line_words);
  g_test_add_func ("/armure-choices/words/pair", test_pair_words);
  return g_test_run ();
}
