/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker is told: word by word at one repeat of the eight-thread armure, where what happens
 * is common practice and was followed by hand; and in random fillings, that all is said in
 * sentences.
 */
#include <math.h>
#include <string.h>

#include "armure.h"
#include "chosen.h"

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
  g_autoptr (PfFilling) filling = armure_fill (ground, armure_without_2, NULL);
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
  { "whole", &armure_whole, false, 0, false,
    "Repeat (0, 0) is whole: all its stitches are inside." },
  { "whole and plain", &armure_whole, true, PF_REPEAT_PLAIN, false,
    "Repeat (0, 0) is plain, as you chose: its middle is dropped. All its pins are inside." },
  { "left out", &armure_whole, true, PF_REPEAT_LEFT_OUT, false,
    "Repeat (0, 0) is left out, as you chose." },
  { "two missing", &armure_without_1_and_2, false, 0, false,
    "Repeat (0, 0) is kept: its middle and 2 of its 4 pins are inside; pins 1, 2 are missing." },
  { "kept", &armure_without_2, true, PF_REPEAT_KEPT, false,
    "Repeat (0, 0) is kept, as you chose: its middle and 3 of its 4 pins are inside; pin 2 is "
    "missing." },
  { "plain", &armure_without_2, true, PF_REPEAT_PLAIN, false,
    "Repeat (0, 0) is plain, as you chose: its middle is dropped. 3 of its 4 pins are inside; pin "
    "2 is missing." },
  { "all plain", &armure_without_2, false, 0, true,
    "Repeat (0, 0) is plain, as all partial repeats are: its middle is dropped. 3 of its 4 pins "
    "are inside; pin 2 is missing." },
  { "one pin", &armure_only_2, false, 0, false,
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
  g_autofree char *text =
      pf_explain_sewing (filling, ground, armure_crossing (filling, line)->sewing);
  g_assert_cmpstr (text, ==, said);
}

static void
test_sewing_words (void)
{
  const PfLineId from = OUT_OF (PIN_1, PF_LEFT), to = INTO (PIN_4, PF_LEFT);
  g_autoptr (PfFilling) plain = armure_fill_chosen (armure_without_2, NULL, 0);
  check_sewing (
      plain, from,
      "Pin 2 is missing: the pair from pin 1 turns here, sewn into pinhole 33. It goes on "
      "to the middle from its left.");
  check_sewing (plain, (PfLineId) OUT_OF (PIN_4, PF_RIGHT),
                "Pair 2 leaves pin 4 on its right and is finished: sewn into pinhole 21, tied and "
                "cut. Its line leads to pin 2 of the next repeat, which is missing.");
  const PfSewingChoice alone = ALONE (OUT_OF (PIN_1, PF_LEFT));
  g_autoptr (PfFilling) finished = armure_fill_chosen (armure_without_2, &alone, 1);
  check_sewing (finished, from,
                "Pair 1 leaves pin 1 on its left and is finished: sewn round the bar between "
                "pinholes 33 and 34, tied and cut. Its line leads to pin 2, which is missing. You "
                "chose to sew this pair alone.");
  check_sewing (finished, (PfLineId) INTO (CENTRE, PF_LEFT),
                "New pair 4 is sewn into pinhole 32, and goes to the middle from its left. Its "
                "line comes from pin 2, which is missing.");
  const PfSewingChoice turn = TURN (OUT_OF (PIN_1, PF_LEFT), INTO (PIN_4, PF_LEFT));
  g_autoptr (PfFilling) turned = armure_fill_chosen (armure_without_2, &turn, 1);
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
  g_autoptr (PfFilling) before = armure_fill_chosen (armure_without_2, NULL, 0);
  const PfSewingChoice moved = { .line = line,
                                 .kind = PF_SEW_BAR,
                                 .place = { 0, armure_sewing (before, line)->target.along + 4 } };
  g_autoptr (PfFilling) filling = armure_fill_chosen (armure_without_2, &moved, 1);
  const PfSewing *sewing = armure_sewing (filling, line);
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
  g_autoptr (PfFilling) filling = armure_fill (ground, armure_without_2, NULL);
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

/* --- Random fillings -----------------------------------------------------------------------------
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

/* As often as the pair's way says: once, or so many times, or not at all. */
static void
check_turns (const PfFilling *filling, const PfPair *pair, const char *words)
{
  size_t turns = 0;
  for (size_t n = 0; n < pair->n_steps; n++)
    {
      const PfPathStep step = filling->path_steps[pair->first_step + n];
      turns += step.kind != PF_STEP_STITCH && filling->sewings[step.index].kind == PF_PAIR_TURNED;
    }
  g_autofree char *often = g_strdup_printf ("It turns %zu times at the edge.", turns);
  g_assert_true ((strstr (words, "It turns once at the edge.") != NULL) == (turns == 1));
  g_assert_true ((strstr (words, often) != NULL) == (turns > 1));
  g_assert_true ((strstr (words, "It turns") != NULL) == (turns > 0));
}

static void
test_words (void)
{
  for (int trial = 0; trial < 20; trial++)
    {
      Chosen f = chosen_new (trial);
      for (guint32 s = 0; s < f.filling->n_sewings; s++)
        {
          const PfSewing *sewing = &f.filling->sewings[s];
          g_autofree char *words = pf_explain_sewing (f.filling, f.ground, s);
          g_assert_true ((strstr (words, "degrees off its line") != NULL) == sewing->off_line);
          g_assert_true ((strstr (words, "You chose") != NULL) == sewing->chosen);
          check_words (g_steal_pointer (&words));
        }
      for (guint32 p = 0; p < f.filling->n_pairs; p++)
        {
          g_autofree char *words = pf_explain_pair (f.filling, f.ground, p);
          check_turns (f.filling, &f.filling->pairs[p], words);
          check_words (g_steal_pointer (&words));
        }
      for (size_t r = 0; r < f.filling->n_repeats; r++)
        check_words (pf_explain_repeat (f.filling, f.ground, f.filling->repeats[r].i,
                                        f.filling->repeats[r].j));
      chosen_clear (&f);
    }
}

/* A way is as long as its steps; a run along the edge is no shorter than straight across. */
static void
test_ways (void)
{
  for (int trial = 0; trial < 20; trial++)
    {
      Chosen f = chosen_new (trial);
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
      chosen_clear (&f);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/explain/repeat", test_repeat_words);
  g_test_add_func ("/explain/states", test_state_words);
  g_test_add_func ("/explain/sewing", test_sewing_words);
  g_test_add_func ("/explain/off-line", test_off_line_words);
  g_test_add_func ("/explain/pair", test_pair_words);
  g_test_add_func ("/explain/random", test_words);
  g_test_add_func ("/explain/ways", test_ways);
  return g_test_run ();
}
