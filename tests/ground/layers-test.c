/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Threads that fall apart, or lie on one another, in grounds made to do so; all derived by hand
 * from what lies over what (cross: left over right; twist: right over left; Jo Edkins, lace school
 * web pages, 2014-22).
 */
#include <layers.h>

#include "samples.h"

#define APART "Nothing holds the threads"
#define LAYER "could be lifted off"

static void
check (PfGround *ground, const char *part)
{
  g_autoptr (GError) error = NULL;
  const bool accepted = pf_ground_check_layers (ground, &error);
  if (part)
    assert_refused (accepted, &error, part);
  else
    {
      g_assert_no_error (error);
      g_assert_true (accepted);
    }
  pf_ground_free (ground);
}

static void
test_samples (void)
{
  for (int s = 0; s < N_SAMPLES; s++)
    {
      PfGround *ground = samples[s].make ();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      check (ground, NULL);
    }
  check (sample_valenciennes (), NULL);
}

/* In torchon's layout. With crosses alone, the two threads that cross at a pin meet again at the
 * pin straight below, and no others: the net is a row of two-strand ropes. With twists alone, no
 * pair is ever joined to another. The words that are taught all hold. */
static void
test_torchon_words (void)
{
  static const struct {
    const char *work, *part;
  } cases[] = {
    { "c", APART },        { "cc", APART },  { "cpc", APART }, { "ccc", APART },
    { "t", APART },        { "tpt", APART }, { "ct", NULL },   { "ctpct", NULL },
    { "ctt", NULL },       { "cttt", NULL }, { "ctc", NULL },  { "cttc", NULL },
    { "ctctct", NULL },    { "tc", NULL },   { "ctct", NULL }, { "cttpctt", NULL },
    { "ctctpctct", NULL }, { "l", NULL },    { "cl", NULL },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    check (sample_torchon_worked (cases[i].work), cases[i].part);
}

/* Crosses alone, with the twists on the way: half stitch again. */
static void
test_twisted_lines (void)
{
  PfGround *ground = sample_torchon_worked ("c");
  ground->lines[0].twists = 1;
  ground->lines[1].twists = 1;
  check (ground, NULL);
  /* Twice twisted, threads that came in on one side of a pair go on there, joined with the other.
   */
  ground = sample_torchon_worked ("c");
  ground->lines[0].twists = 2;
  ground->lines[1].twists = 2;
  check (ground, NULL);
}

/* A plait need not hang together with the next one, but its own threads must. */
static void
test_plait (void)
{
  check (sample_plait ("ct"), NULL);
  check (sample_plait ("ctct"), NULL);
  check (sample_plait ("cc"), APART); /* the outer threads cross nothing */
  check (sample_plait ("tt"), APART);
}

/* Twists on all lines join the two threads of each pair. */
static PfGround *
twisted (PfGround *ground)
{
  for (int e = 0; e < ground->n_lines; e++)
    ground->lines[e].twists = 2;
  return ground;
}

/* Twisted pairs, first in columns 0 to 3, then in 1 to 4: a pair that moves left lies over each one
 * that it meets, for ever. */
static void
test_sheets (void)
{
  const ColumnStitch sheets[] = { { 0, "t", 4 }, { 1, "t", 4 } };
  check (sample_columns (4, sheets, 2), LAYER);
  check (twisted (sample_columns (4, sheets, 2)), LAYER);
  /* Crossed instead, one gap after the other: now a pair that moves right lies over. */
  const ColumnStitch crossed[] = { { 3, "c", 4 }, { 0, "c", 4 }, { 2, "c", 4 }, { 1, "c", 4 } };
  check (sample_columns (4, crossed, 4), LAYER);
  check (twisted (sample_columns (4, crossed, 4)), LAYER);
  /* Over some, under others. */
  const ColumnStitch braid[] = { { 0, "t", 4 }, { 0, "c", 4 }, { 2, "c", 4 } };
  check (sample_columns (4, braid, 3), NULL);
}

/* Each pair crosses over its right neighbour and comes back, over it again: shingles. Rolled up to
 * one repeat each lies over the next, all the way round. */
static void
test_shingles (void)
{
  const ColumnStitch stitches[] = {
    { 0, "c", 4 }, { 2, "c", 4 }, { 1, "t", 4 }, /* 1 over 2, 3 over 4, and back */
    { 1, "c", 4 }, { 3, "c", 4 }, { 2, "t", 4 }, /* 2 over 3, 4 over 5 */
    { 1, "t", 4 }, { 0, "c", 4 }, { 2, "c", 4 }, /* 2 over 1, 4 over 3 */
    { 2, "t", 4 }, { 1, "c", 4 }, { 3, "c", 4 }, /* 3 over 2, 5 over 4 */
  };
  check (sample_columns (4, stitches, 6), LAYER);
  /* The other way round. */
  check (sample_columns (4, stitches + 6, 6), LAYER);
  /* Half of them lie over and under each other; the rest is still shingled. */
  check (sample_columns (4, stitches, 9), LAYER);
  check (sample_columns (4, stitches, 12), NULL);
}

/* --- Threads of many repeats, joined one by one -------------------------------------------------
 */

/* A part of the endless ground so large, and rolled up, that what is joined only round the back is
 * not joined in a small ground. */
#define ROUND 29

typedef struct {
  const PfGround *ground;
  int *joined; /* per thread of a line of each repeat */
} Patch;

static int
find (const Patch *patch, int thread)
{
  while (patch->joined[thread] != thread)
    thread = patch->joined[thread] = patch->joined[patch->joined[thread]];
  return thread;
}

static void
join (const Patch *patch, int thread, int other)
{
  patch->joined[find (patch, thread)] = find (patch, other);
}

static int
thread_of (const Patch *patch, int line, int place, int i, int j)
{
  const int repeat = ((i + ROUND) % ROUND) * ROUND + (j + ROUND) % ROUND;
  return (repeat * patch->ground->n_lines + line) * 2 + place;
}

/* The threads that come to stitch k of a repeat; the last twist of a line has joined both. */
static void
find_threads_in (const Patch *patch, int k, int i, int j, int threads[4])
{
  for (int place = 0; place < 4; place++)
    {
      const int e = patch->ground->entries[k][place / 2];
      const PfPairLine *line = &patch->ground->lines[e];
      threads[place] = thread_of (patch, e, (place + line->twists) % 2, i - line->da, j - line->db);
    }
}

static void
work_stitch (const Patch *patch, int k, int i, int j)
{
  int threads[4];
  find_threads_in (patch, k, i, j, threads);
  for (int side = 0; side < 2; side++)
    if (patch->ground->lines[patch->ground->entries[k][side]].twists > 0)
      join (patch, threads[2 * side], threads[2 * side + 1]);
  for (const char *letter = patch->ground->stitches[k].work; *letter; letter++)
    for (int place = *letter == 'c'; place < 3; place += 2)
      {
        const int left = threads[place];
        join (patch, left, threads[place + 1]);
        threads[place] = threads[place + 1];
        threads[place + 1] = left;
      }
  for (int place = 0; place < 4; place++)
    join (patch, threads[place],
          thread_of (patch, patch->ground->exits[k][place / 2], place % 2, i, j));
}

static bool
hangs_together (const PfGround *ground)
{
  const int n_repeats = ROUND * ROUND, n_threads = 2 * ground->n_lines;
  g_autofree int *joined = g_new (int, n_repeats *n_threads);
  const Patch patch = { ground, joined };
  for (int t = 0; t < n_repeats * n_threads; t++)
    joined[t] = t;
  for (int i = 0; i < ROUND; i++)
    for (int j = 0; j < ROUND; j++)
      for (int k = 0; k < ground->n_stitches; k++)
        work_stitch (&patch, k, i, j);
  for (int k = 0; k < ground->n_stitches; k++)
    {
      int threads[4];
      find_threads_in (&patch, k, 0, 0, threads);
      for (int place = 1; place < 4; place++)
        if (find (&patch, threads[place]) != find (&patch, threads[0]))
          return false;
    }
  return true;
}

/* The same ground, some of its stitches taken from other repeats. */
static void
shift_stitch (PfGround *ground, int k, int da, int db)
{
  for (int e = 0; e < ground->n_lines; e++)
    {
      PfPairLine *line = &ground->lines[e];
      const int by = (line->from.stitch == k) - (line->to.stitch == k);
      line->da += by * da;
      line->db += by * db;
    }
}

/* Two pairs meet in each stitch, so nothing lies on the rest: over and under come in turn. */
static void
test_random_words (void)
{
  static const char *const words[] = { "c", "cc", "t", "ctt", "cttt", "ct", "ctc" };
  int n_held = 0;
  for (int round = 0; round < 150; round++)
    {
      PfGround *ground = samples[g_test_rand_int_range (0, N_SAMPLES - 1)].make ();
      g_assert_true (pf_ground_check_pairs (ground, NULL));
      const int n_words = g_test_rand_int_range (1, G_N_ELEMENTS (words));
      for (int k = 0; k < ground->n_stitches; k++)
        {
          g_free (ground->stitches[k].work);
          ground->stitches[k].work = g_strdup (words[g_test_rand_int_range (0, n_words)]);
          shift_stitch (ground, k, g_test_rand_int_range (-2, 3), g_test_rand_int_range (-2, 3));
        }
      for (int e = 0; e < ground->n_lines; e++)
        ground->lines[e].twists = g_test_rand_int_range (0, 8) / 7;
      const bool holds = hangs_together (ground);
      n_held += holds;
      check (ground, holds ? NULL : APART);
    }
  g_assert_cmpint (n_held, >, 10);
  g_assert_cmpint (n_held, <, 140);
}

/* Whole combinations of vectors, against all small ones. */
static void
test_span (void)
{
  enum { N = 3, MOST = 30, NEAR = 5 };
  for (int round = 0; round < 100; round++)
    {
      PfGroundSpan span = { 0, 0, 0 };
      int x[N], y[N];
      bool has[2 * NEAR + 1][2 * NEAR + 1] = { { false } };
      const int n = g_test_rand_int_range (1, N + 1);
      for (int v = 0; v < N; v++)
        {
          x[v] = v < n ? g_test_rand_int_range (-3, 4) : 0;
          y[v] = v < n ? g_test_rand_int_range (-3, 4) : 0;
          pf_ground_span_add (&span, x[v], y[v]);
        }
      for (int p = -MOST; p <= MOST; p++)
        for (int q = -MOST; q <= MOST; q++)
          for (int r = -MOST; r <= MOST; r++)
            {
              const int u = p * x[0] + q * x[1] + r * x[2], v = p * y[0] + q * y[1] + r * y[2];
              if (ABS (u) <= NEAR && ABS (v) <= NEAR)
                has[u + NEAR][v + NEAR] = true;
            }
      for (int u = -NEAR; u <= NEAR; u++)
        for (int v = -NEAR; v <= NEAR; v++)
          g_assert_true (pf_ground_span_has (&span, u, v) == has[u + NEAR][v + NEAR]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/layers/samples", test_samples);
  g_test_add_func ("/ground/layers/torchon-words", test_torchon_words);
  g_test_add_func ("/ground/layers/twisted-lines", test_twisted_lines);
  g_test_add_func ("/ground/layers/plait", test_plait);
  g_test_add_func ("/ground/layers/sheets", test_sheets);
  g_test_add_func ("/ground/layers/shingles", test_shingles);
  g_test_add_func ("/ground/layers/random-words", test_random_words);
  g_test_add_func ("/ground/layers/span", test_span);
  return g_test_run ();
}
