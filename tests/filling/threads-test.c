/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Threads: none is lost, each lies where its stitches' words bring it, and the grounds that a
 * source describes let them run as it says.
 */
#include <string.h>

#include <threads.h>

#include "samples.h"

typedef struct {
  const char *ground;
  double gap; /* mm */
  bool all_plain;
} Sample;

static const Sample samples[] = {
  { "torchon", 3, false },       { "armure", 4, false },    { "armure", 4, true },
  { "rose", 4, false },          { "spider", 3, false },    { "spider", 3, true },
  { "honeycomb", 3, false },     { "point-net", 3, false }, { "valenciennes-square", 4, false },
  { "plait-lattice", 3, false },
};

static PfFilling *
fill (const PfRegion *region, const PfGround *ground, PfPlacement placement, bool all_plain)
{
  PfEdge edges[3];
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = placement;
  settings.all_plain = all_plain;
  g_autoptr (GError) error = NULL;
  for (size_t l = 0; l < region->n_loops; l++)
    g_assert_true (
        pf_edge_init_even (&edges[l], &region->loops[l], PF_EDGE_HALF_STITCH, 3, &error));
  PfFilling *filling = pf_filling_new (region, edges, ground, &settings, &error);
  g_assert_no_error (error);
  for (size_t l = 0; l < region->n_loops; l++)
    pf_edge_clear (&edges[l]);
  return filling;
}

static void
exchange (guint32 *threads, int at, int wide)
{
  for (int t = 0; t < wide; t++)
    {
      const guint32 left = threads[wide * at + t];
      threads[wide * at + t] = threads[wide * (at + 1) + t];
      threads[wide * (at + 1) + t] = left;
    }
}

/* The word done with one's own hands, letter by letter, on single threads or on whole pairs. */
static void
work_by_hand (const char *work, guint32 *threads, int n_pairs)
{
  const int wide = n_pairs / 2;
  for (const char *letter = work; *letter != '\0'; letter++)
    if (*letter == 'c')
      exchange (threads, 1, wide);
    else if (*letter == 't')
      {
        exchange (threads, 0, wide);
        exchange (threads, 2, wide);
      }
}

/* Every thread comes in once at a stitch and goes out once; each side holds two. */
static void
check_stitches (const PfFilling *f, const PfGround *ground, const PfThreads *threads)
{
  for (size_t s = 0; s < f->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &f->stitches[s];
      const guint32 n = 2 * stitch->n_sides;
      guint32 by_hand[2 * PF_STITCH_MAX_PAIRS];
      memcpy (by_hand, threads->in[stitch->first_end], n * sizeof (guint32));
      for (guint32 a = 0; a < n; a++)
        {
          g_assert_cmpuint (by_hand[a], <, threads->n_threads);
          for (guint32 b = a + 1; b < n; b++)
            g_assert_cmpuint (by_hand[a], !=, by_hand[b]);
        }
      work_by_hand (pf_filling_work (f, ground, stitch), by_hand, stitch->n_sides);
      for (guint32 place = 0; place < n; place++)
        g_assert_cmpuint (by_hand[place], ==,
                          threads->out[stitch->first_end + place / 2][place % 2]);
    }
}

/* The ways of all threads together pass each place of each stitch once, one after another in
 * working order, from a sewing to a sewing; and each sewing is passed by both threads of a pair. */
static void
check_ways (const PfFilling *f, const PfGround *ground, const PfThreads *threads)
{
  g_autofree guint8 *passed = g_new0 (guint8, MAX (2 * f->n_ends, 1));
  g_autofree guint8 *sewn = g_new0 (guint8, MAX (f->n_sewings, 1));
  g_autofree guint32 *when = g_new (guint32, MAX (f->n_stitches, 1));
  for (guint32 n = 0; n < f->n_stitches; n++)
    when[f->order[n]] = n;
  for (guint32 t = 0; t < threads->n_threads; t++)
    {
      size_t n;
      g_autofree PfThreadStep *way = pf_thread_way (threads, f, ground, t, &n);
      g_assert_cmpint (way[0].kind, ==, PF_STEP_SEWING);
      g_assert_cmpint (way[n - 1].kind, ==, PF_STEP_SEWING);
      gint64 last = -1;
      for (size_t s = 0; s < n; s++)
        if (way[s].kind == PF_STEP_SEWING)
          sewn[way[s].index]++;
        else
          {
            passed[2 * f->stitches[way[s].index].first_end + way[s].place_in]++;
            g_assert_cmpint (when[way[s].index], >, last);
            last = when[way[s].index];
          }
    }
  for (size_t e = 0; e < 2 * f->n_ends; e++)
    g_assert_cmpuint (passed[e], ==, 1);
  for (size_t s = 0; s < f->n_sewings; s++)
    g_assert_cmpuint (sewn[s], ==, 2);
}

static void
test_conserved (gconstpointer data)
{
  const Sample *sample = data;
  g_autoptr (PfGround) ground = sample_ground (sample->ground);
  for (int trial = 0; trial < 6; trial++)
    {
      g_autoptr (PfRegion) region = sample_star ((PfPoint){ 0, 0 }, 12, 25, 12, trial % 3);
      PfPlacement placement = sample_placement (sample->gap, sample->gap + 0.1);
      g_autoptr (PfFilling) filling = fill (region, ground, placement, sample->all_plain);
      g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
      g_assert_cmpuint (threads->n_threads, ==, 2 * filling->counts.new_pairs);
      check_stitches (filling, ground, threads);
      check_ways (filling, ground, threads);
    }
}

/* Which way a thread goes on from each stitch, as letters L and R. */
static char *
turns_of (const PfThreads *threads, const PfFilling *f, const PfGround *ground, guint32 thread)
{
  size_t n;
  g_autofree PfThreadStep *way = pf_thread_way (threads, f, ground, thread, &n);
  GString *turns = g_string_new (NULL);
  for (size_t s = 0; s < n; s++)
    if (way[s].kind == PF_STEP_STITCH)
      g_string_append_c (turns, way[s].place_out < 2 ? 'L' : 'R');
    else if (turns->len > 0 && s + 1 < n)
      g_string_append_c (turns, '|'); /* turned or carried: a new start */
  return g_string_free (turns, FALSE);
}

typedef struct {
  const char *ground, *word; /* the ground's word, or another tried on it */
  int straight, zigzag;      /* of 100 threads that are long enough to tell */
  const char *zig;           /* how a zigzag goes */
} Run;

/* In torchon ground pairs run on straight (common practice). Double torchon: pairs stay on their
 * own sides and zigzag; point net: one thread of each pair runs on the diagonal, the other
 * zigzags, and with one twist less all zigzag (all three Jo Edkins, lace school web pages). How
 * many stitches the zigzags take is derived. */
static const Run runs[] = {
  { "torchon", "ctpct", 100, 0, NULL },
  { "double-torchon", "ctctpctct", 0, 100, "LR" },
  { "point-net", "ctttp", 50, 50, "LR" },
  { "point-net", "cttp", 0, 100, "LLRR" },
};

/* Is it `zig` again and again, from wherever it starts? */
static bool
is_zigzag (const char *turns, const char *zig)
{
  const size_t n = strlen (zig);
  for (size_t start = 0; start < n; start++)
    {
      bool fits = true;
      for (size_t at = 0; turns[at] != '\0'; at++)
        fits = fits && turns[at] == zig[(start + at) % n];
      if (fits)
        return true;
    }
  return false;
}

static void
test_runs (gconstpointer data)
{
  const Run *run = data;
  g_autoptr (PfGround) ground = sample_ground (run->ground);
  g_free (ground->stitches[0].work);
  ground->stitches[0].work = g_strdup (run->word);
  static const PfPoint square[] = { { 0, 0 }, { 60, 0 }, { 60, 60 }, { 0, 60 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  const PfPlacement placement = { .gap = 3, .origin = { 30.3, 29.9 } };
  g_autoptr (PfFilling) filling = fill (region, ground, placement, false);
  g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
  int straight = 0, zigzag = 0, all = 0;
  for (guint32 t = 0; t < threads->n_threads; t++)
    {
      g_autofree char *turns = turns_of (threads, filling, ground, t);
      char *end = strchr (turns, '|');
      if (end != NULL)
        *end = '\0';
      if (strlen (turns) < 8)
        continue;
      all++;
      straight += is_zigzag (turns, "L") || is_zigzag (turns, "R");
      zigzag += run->zig != NULL && is_zigzag (turns, run->zig);
    }
  g_test_message ("%d threads: %d straight, %d zigzag", all, straight, zigzag);
  g_assert_cmpint (all, >, 20);
  g_assert_cmpint (straight + zigzag, ==, all);
  if (run->straight == 100 || run->zigzag == 100)
    g_assert_cmpint (run->straight == 100 ? straight : zigzag, ==, all);
  else
    g_assert_cmpint (ABS (straight - zigzag), <=, all / 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      g_autofree char *path = g_strdup_printf ("/threads/conserved/%s%s", samples[s].ground,
                                               samples[s].all_plain ? "-plain" : "");
      g_test_add_data_func (path, &samples[s], test_conserved);
    }
  for (size_t r = 0; r < G_N_ELEMENTS (runs); r++)
    {
      g_autofree char *path = g_strdup_printf ("/threads/runs/%s-%s", runs[r].ground, runs[r].word);
      g_test_add_data_func (path, &runs[r], test_runs);
    }
  return g_test_run ();
}
