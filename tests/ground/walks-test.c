/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The ways of pairs and threads: what makers teach of grounds, and random words against threads
 * that are moved one by one.
 */
#include <string.h>

#include <walks.h>

#include "samples.h"

static int
compare_walks (const void *x, const void *y)
{
  const PfGroundWalk *u = x, *v = y;
  return u->da != v->da ? u->da - v->da : u->db - v->db;
}

/* "2,0 0,2" and so on, rising. */
static char *
say_walks (const PfGroundWalks *walks)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree PfGroundWalk *sorted = g_memdup2 (walks->walks, (gsize) walks->n * sizeof *sorted);
  qsort (sorted, (size_t) walks->n, sizeof *sorted, compare_walks);
  for (int w = 0; w < walks->n; w++)
    g_string_append_printf (text, "%s%d,%d", w ? " " : "", sorted[w].da, sorted[w].db);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* A pair that comes to a torchon pin on the left leaves on the left, comes to the next one on the
 * right, and so on: one zigzag, two stitches long. In all grounds pairs that keep their sides never
 * cross, so that all of them run alike. (Derived.) */
static void
test_pairs (void)
{
  static const int n_walks[N_SAMPLES] = { 1, 2, 2, 2, 2 };
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      g_auto (PfGroundWalks) pairs = pf_ground_walk_pairs (ground);
      int n_stitches = 0;
      g_assert_cmpint (pairs.n, ==, n_walks[s]);
      for (int w = 0; w < pairs.n; w++)
        {
          g_assert_true (pairs.walks[w].da == 1 && pairs.walks[w].db == 1);
          n_stitches += pairs.walks[w].n_stitches;
        }
      g_assert_cmpint (n_stitches, ==, ground->n_lines);
      pf_ground_free (ground);
    }
}

/* The ways of threads in torchon's layout, where (1, 0) leads down right and (0, 1) down left.
 *
 * That double torchon's pairs keep to their sides and zigzag, that in point net one thread of each
 * pair runs on the diagonal and the other zigzags, and that all zigzag if it has one twist less:
 * Jo Edkins, lace school web pages (2014-22). Halley's pages (2013) tell the first of "Brussels"
 * ground, the same one. The rest is derived by hand, from the words as in moves-test.c. */
static void
test_torchon_words (void)
{
  static const struct {
    const char *work, *walks;
  } cases[] = {
    { "ctctpctct", "1,1 1,1" },   /* double torchon */
    { "cttpctt", "1,1 1,1" },     /* twisted hole */
    { "ctttp", "0,1 1,0 1,1" },   /* point net: two diagonals, a zigzag */
    { "cttp", "2,2" },            /* every thread goes all ways */
    { "ctpct", "0,2 2,0" },       /* torchon: each thread on one diagonal, now left, now right in
                                     its pair */
    { "ctc", "0,1 0,1 1,0 1,0" }, /* cloth stitch: all straight on */
    { "cttc", "1,1 1,1" },        /* turning stitch: all turn */
    { "ct", "0,1 1,0 1,1" },      /* half stitch: as point net */
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfGround *ground = sample_torchon_worked (cases[i].work);
      g_auto (PfGroundWalks) threads = pf_ground_walk_threads (ground);
      g_autofree char *walks = say_walks (&threads);
      g_assert_cmpstr (walks, ==, cases[i].walks);
      pf_ground_free (ground);
    }
}

/* Point net, each pair: one thread on the diagonal, one in a zigzag (Edkins, as above). */
static void
test_point_net (void)
{
  PfGround *ground = sample_torchon_worked ("ctttp");
  g_auto (PfGroundWalks) threads = pf_ground_walk_threads (ground);
  for (int side = PF_LEFT; side <= PF_RIGHT; side++)
    {
      int zigzags = 0;
      for (int place = 2 * side; place < 2 * side + 2; place++)
        {
          const int walk = threads.on[pf_ground_thread_in (ground, 0, place)].walk;
          zigzags += threads.walks[walk].da == 1 && threads.walks[walk].db == 1;
        }
      g_assert_cmpint (zigzags, ==, 1);
    }
  pf_ground_free (ground);
}

/* Square Valenciennes: the pairs A B and C D of two plaits come out as A C and B D (T. de Dillmont,
 * Encyclopedia of Needlework, fig. 796; Edkins, as above). */
static void
test_valenciennes (void)
{
  PfGround *ground = sample_valenciennes ();
  const int pin = sample_stitch (ground, "1");
  const int above[2] = { sample_stitch (ground, "plait right"),
                         sample_stitch (ground, "plait left") };
  const int below[2] = { above[1], above[0] };
  g_autofree int *next = g_new (int, 2 * ground->n_lines);
  pf_ground_next_threads (ground, next);
  char came_out[9] = "........";
  for (int place = 0; place < 8; place++)
    {
      int thread = pf_ground_thread_in (ground, above[place / 4], place % 4);
      do
        thread = next[thread]; /* through the plait, and perhaps through the pin's stitch */
      while (ground->lines[thread / 2].to.stitch == pin);
      for (int p = 0; p < 8; p++)
        if (pf_ground_thread_in (ground, below[p / 4], p % 4) == thread)
          came_out[p] = "AABBCCDD"[place];
    }
  g_assert_cmpstr (came_out, ==, "AACCBBDD");
  pf_ground_free (ground);
}

/* Moves what lies in the four places of one stitch as it is taught, one letter at a time. */
static void
work_by_hand (const char *work, bool places[4])
{
  for (; *work; work++)
    for (int place = 0; place < 3; place++)
      if ((*work == 'c' && place == 1) || (*work == 't' && place != 1))
        {
          const bool left = places[place];
          places[place] = places[place + 1];
          places[place + 1] = left;
        }
}

/* Where the thread that comes in on `side`, in `place` of its pair, goes out. */
static int
go_through (const PfGround *ground, PfEnd in, int place)
{
  const PfStitch *stitch = &ground->stitches[in.stitch];
  bool places[4] = { false };
  int out = 0;
  places[stitch->n_pairs == 4 ? (int) in.side : 2 * (int) in.side + place] = true;
  work_by_hand (stitch->work, places);
  while (!places[out])
    out++;
  return stitch->n_pairs == 4 ? 2 * ground->exits[in.stitch][out] + place
                              : 2 * ground->exits[in.stitch][out / 2] + out % 2;
}

/* One thread, followed for as many stitches as its walk has, is then where the walk says. */
static void
follow_by_hand (const PfGround *ground, const PfGroundWalks *walks, int thread)
{
  const PfGroundWalk walk = walks->walks[walks->on[thread].walk];
  int at = thread, da = 0, db = 0;
  for (int n = 0; n < walk.n_stitches; n++)
    {
      const PfPairLine *line = &ground->lines[at / 2];
      int place = at % 2;
      for (int t = 0; t < line->twists; t++)
        place = 1 - place;
      da += line->da;
      db += line->db;
      at = go_through (ground, line->to, place);
      g_assert_true ((at == thread) == (n == walk.n_stitches - 1));
    }
  g_assert_cmpint (da, ==, walk.da);
  g_assert_cmpint (db, ==, walk.db);
}

static void
test_random_words (void)
{
  for (int round = 0; round < 200; round++)
    {
      PfGround *ground = samples[g_test_rand_int_range (0, N_SAMPLES)].make ();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      for (int k = 0; k < ground->n_stitches; k++)
        {
          char word[8] = "";
          for (int n = g_test_rand_int_range (1, 8); n > 0; n--)
            word[n - 1] = "ct"[g_test_rand_int_range (0, 2)];
          g_free (ground->stitches[k].work);
          ground->stitches[k].work = g_strdup (word);
        }
      for (int e = 0; e < ground->n_lines; e++)
        ground->lines[e].twists = g_test_rand_int_range (0, 4);
      g_auto (PfGroundWalks) threads = pf_ground_walk_threads (ground);
      int n_stitches = 0;
      for (int w = 0; w < threads.n; w++)
        n_stitches += threads.walks[w].n_stitches;
      g_assert_cmpint (n_stitches, ==, 2 * ground->n_lines);
      for (int thread = 0; thread < 2 * ground->n_lines; thread++)
        follow_by_hand (ground, &threads, thread);
      pf_ground_free (ground);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/walks/pairs", test_pairs);
  g_test_add_func ("/ground/walks/torchon-words", test_torchon_words);
  g_test_add_func ("/ground/walks/point-net", test_point_net);
  g_test_add_func ("/ground/walks/valenciennes", test_valenciennes);
  g_test_add_func ("/ground/walks/random-words", test_random_words);
  return g_test_run ();
}
