/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the threads lie after a word. Derived by hand from the two moves as they are taught (Jo
 * Edkins, lace school web pages, 2014-22: cross, the second of four threads over the third; twist,
 * right over left in each pair); that ctt, pin, ctt brings all back stands on her honeycomb page.
 */
#include <string.h>

#include <moves.h>

static const struct {
  const char *work, *threads;
} words[] = {
  { "c", "1324" },      { "t", "2143" },        { "ct", "3142" },      { "ctt", "1324" },
  { "cttt", "3142" },   { "ctc", "3412" },      { "ctct", "4321" },    { "cttc", "1234" },
  { "ctctct", "2413" }, { "ctctctct", "1234" }, { "cttpctt", "1234" }, { "ctpct", "4321" },
  { "l", "1234" },      { "ctclpctc", "1234" }, { "p", "1234" },
};

static void
test_order (void)
{
  for (gsize w = 0; w < G_N_ELEMENTS (words); w++)
    {
      PfMove moves[PF_MOVES_MAX];
      guint8 order[PF_PLACES];
      char threads[PF_PLACES + 1] = "";
      pf_moves_order (moves, pf_word_moves (words[w].work, moves), order);
      for (int place = 0; place < PF_PLACES; place++)
        threads[place] = (char) ('1' + order[place]);
      g_assert_cmpstr (threads, ==, words[w].threads);
    }
}

/* Left over right in a cross, right over left in a twist, both twists of one step. */
static void
test_over (void)
{
  PfMove moves[PF_MOVES_MAX];
  g_assert_cmpint (pf_word_moves ("ctpl", moves), ==, 5);
  g_assert_true (moves[0].kind == PF_MOVE_SWAP && moves[0].place == 1 && moves[0].left_over);
  for (int m = 1; m <= 2; m++)
    g_assert_true (moves[m].kind == PF_MOVE_SWAP && moves[m].step == 1 && !moves[m].left_over);
  g_assert_cmpint (moves[1].place, ==, 0);
  g_assert_cmpint (moves[2].place, ==, 2);
  g_assert_true (moves[3].kind == PF_MOVE_PIN && moves[3].step == 2);
  g_assert_true (moves[4].kind == PF_MOVE_WEAVE && moves[4].step == 3);
}

/* A word as long as a ground allows. */
static void
test_longest (void)
{
  char work[PF_WORD_MAX + 1];
  PfMove moves[PF_MOVES_MAX];
  memset (work, 't', PF_WORD_MAX);
  work[PF_WORD_MAX] = '\0';
  g_assert_cmpint (pf_word_moves (work, moves), ==, PF_MOVES_MAX);
  g_assert_cmpint (moves[PF_MOVES_MAX - 1].step, ==, PF_WORD_MAX - 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/moves/order", test_order);
  g_test_add_func ("/ground/moves/over", test_over);
  g_test_add_func ("/ground/moves/longest", test_longest);
  return g_test_run ();
}
