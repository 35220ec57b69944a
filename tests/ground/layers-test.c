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

/* Twisted pairs, first in columns 0 to 3, then in 1 to 4: a pair that moves left lies over each one
 * that it meets, for ever. */
static void
test_sheets (void)
{
  const ColumnStitch sheets[] = { { 0, "t", 4 }, { 1, "t", 4 } };
  check (sample_columns (4, sheets, 2), LAYER);
  /* Crossed between: what moves right lies over. */
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

/* Whole combinations of vectors, against all small ones. */
static void
test_span (void)
{
  enum { N = 3, MOST = 12, NEAR = 5 };
  for (int round = 0; round < 200; round++)
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
  g_test_add_func ("/ground/layers/span", test_span);
  return g_test_run ();
}
