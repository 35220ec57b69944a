/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The maker's own choices at one repeat of the eight-thread armure. What each
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

static const Case cases[] = {
  { "as by itself", &armure_without_2, { { .kind = PF_SEW_ALONE } }, 0, 3, 2, 8, 0 },
  /* the pair from pin 1 isn't turned at missing pin 2: it is finished, and a new one enters */
  { "alone before the middle",
    &armure_without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)) },
    1,
    4,
    1,
    9,
    0 },
  { "alone after the middle", &armure_without_2, { ALONE (INTO (PIN_4, PF_LEFT)) }, 1, 4, 1, 9, 0 },
  { "alone both times",
    &armure_without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), ALONE (OUT_OF (CENTRE, PF_LEFT)) },
    2,
    5,
    0,
    10,
    0 },
  /* the middle by itself: the pair from pin 1 is turned to pin 4 instead */
  { "alone at the middle",
    &armure_without_2,
    { ALONE (INTO (CENTRE, PF_LEFT)), ALONE (OUT_OF (CENTRE, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  /* both ends of one turn: the same as one of them */
  { "alone at both ends",
    &armure_without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), ALONE (INTO (CENTRE, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  /* the pair from pin 1 misses the middle and goes to pin 4; the middle's gets a new pair, and its
     pair is finished */
  { "turned past the middle",
    &armure_without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)) },
    1,
    4,
    1,
    9,
    0 },
  { "turned as by itself",
    &armure_without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (CENTRE, PF_LEFT)) },
    1,
    3,
    2,
    8,
    0 },
  /* the pair from pin 3 crosses over to pin 4's left; the middle's, which turned, is finished */
  { "turned from the other side",
    &armure_without_1_and_2,
    { TURN (OUT_OF (CLOSE_3, PF_RIGHT), INTO (PIN_4, PF_LEFT)) },
    1,
    3,
    1,
    7,
    0 },
  /* nothing can turn where all that leaves is worked after all that enters */
  { "turned too late",
    &armure_without_1,
    { TURN (OUT_OF (CLOSE_2, PF_LEFT), INTO (PIN_3, PF_LEFT)) },
    1,
    4,
    0,
    8,
    1 },
  { "turned at itself",
    &armure_only_2,
    { TURN (OUT_OF (CLOSE_2, PF_LEFT), INTO (PIN_2, PF_LEFT)) },
    1,
    2,
    0,
    4,
    1 },
  { "turned the wrong way",
    &armure_without_2,
    { TURN (INTO (CENTRE, PF_LEFT), OUT_OF (PIN_1, PF_LEFT)) },
    1,
    3,
    2,
    8,
    1 },
  /* of two for one line the later one counts */
  { "alone, then turned",
    &armure_without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  { "turned, then alone",
    &armure_without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)), ALONE (OUT_OF (PIN_1, PF_LEFT)) },
    2,
    4,
    1,
    9,
    0 },
  { "turned twice to one stitch",
    &armure_without_2,
    { TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT)),
      TURN (OUT_OF (CENTRE, PF_LEFT), INTO (PIN_4, PF_LEFT)) },
    2,
    3,
    2,
    8,
    0 },
  { "the later one can't be",
    &armure_without_2,
    { ALONE (OUT_OF (PIN_1, PF_LEFT)), TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_RIGHT)) },
    2,
    4,
    1,
    9,
    2 },
  /* lines that aren't cut */
  { "not cut",
    &armure_without_2,
    { ALONE (OUT_OF (PIN_2, PF_LEFT)), ALONE (OUT_OF (PIN_1, PF_RIGHT)),
      TURN (OUT_OF (PIN_1, PF_LEFT), INTO (CENTRE, PF_RIGHT)) },
    3,
    3,
    2,
    8,
    7 },
  { "another ground's",
    &armure_whole,
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
  g_autoptr (PfFilling) filling = armure_fill_chosen (*c->cut, c->choices, c->n_choices);
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
  g_autoptr (PfFilling) filling = armure_fill_chosen (armure_without_2, &choice, 1);
  g_autoptr (PfRegion) region = armure_region (armure_without_2);
  const PfCrossing *from = armure_crossing (filling, choice.line);
  const PfCrossing *to = armure_crossing (filling, choice.other);
  const PfSewing *sewing = armure_sewing (filling, choice.line);
  g_assert_true (sewing == armure_sewing (filling, choice.other));
  g_assert_true (from->chosen && to->chosen && sewing->chosen);
  g_assert_cmpint (sewing->kind, ==, PF_PAIR_TURNED);
  g_assert_cmpuint (from->pair, ==, to->pair);
  g_assert_cmpfloat (sewing->target.along, ==,
                     pf_loop_midway (&region->loops[0], from->place.along, to->place.along));
  /* between them the middle's own two are sewn alone */
  g_assert_cmpint (armure_crossing (filling, (PfLineId) INTO (CENTRE, PF_LEFT))->kind, ==,
                   PF_PAIR_NEW);
  g_assert_cmpint (armure_crossing (filling, (PfLineId) OUT_OF (CENTRE, PF_LEFT))->kind, ==,
                   PF_PAIR_FINISHED);
  g_assert_false (armure_sewing (filling, (PfLineId) INTO (CENTRE, PF_LEFT))->chosen);
}

/* --- Places -------------------------------------------------------------------------------------
 */

/* Pinholes stand 2 mm apart or a little less, and a place may be 14.1 mm (the ground's gap) off. */
static void
test_places (void)
{
  const PfLineId line = OUT_OF (PIN_1, PF_LEFT);
  g_autoptr (PfFilling) before = armure_fill_chosen (armure_without_2, NULL, 0);
  const double target = armure_sewing (before, line)->target.along;
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
      g_autoptr (PfFilling) filling = armure_fill_chosen (armure_without_2, &choice, 1);
      const PfSewing *sewing = armure_sewing (filling, line), *was = armure_sewing (before, line);
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
  g_autoptr (PfFilling) before = armure_fill_chosen (armure_without_2, NULL, 0);
  const double target = armure_sewing (before, from)->target.along;
  const PfSewingChoice choices[] = {
    { .line = to, .kind = PF_SEW_BAR, .place = { 0, target + 1 } },
    { .line = from, .kind = PF_SEW_BAR, .place = { 0, target + 2 } },
    { .line = to, .kind = PF_SEW_BAR, .place = { 0, target + 40 } }, /* too far */
    { .line = from, .kind = PF_SEW_BAR, .place = { 1, target } },    /* on no outline */
  };
  g_autoptr (PfFilling) first = armure_fill_chosen (armure_without_2, choices, 1);
  g_assert_cmpfloat (armure_sewing (first, from)->place.along, ==, target + 1);
  g_autoptr (PfFilling) all = armure_fill_chosen (armure_without_2, choices, 4);
  g_assert_cmpfloat (armure_sewing (all, from)->place.along, ==, target + 2);
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
        g_autoptr (PfFilling) filling = armure_fill (ground, armure_without_2, &settings);
        g_assert_cmpuint (filling->n_unheeded, ==, 0);
        for (size_t c = 0; c < 2; c++)
          {
            const PfCrossing *crossing = armure_crossing (filling, choices[c].line);
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
  g_autoptr (PfFilling) gone = armure_fill_chosen (armure_without_1, &choice, 1);
  g_assert_cmpuint (gone->n_unheeded, ==, 1);
  g_assert_cmpstr (gone->unheeded[0].why, ==,
                   "The edge doesn’t cut the line that leaves pin 1 of repeat (0, 0) on its left "
                   "where the ground lies now. Reset the choice, or move the ground.");
  g_autoptr (PfFilling) back = armure_fill_chosen (armure_without_2, &choice, 1);
  g_assert_cmpuint (back->n_unheeded, ==, 0);
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
  return g_test_run ();
}
