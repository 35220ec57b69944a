/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Threads: none is lost, each lies where its stitches' words bring it, and the grounds that a
 * source describes let them run as it says.
 */
#include <string.h>

#include "samples.h"
#include "thread-checks.h"

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
      check_threads (filling, ground, threads);
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

/* --- In words ---------------------------------------------------------------------------------
 */

typedef struct {
  const char *word;
  const char *left, *right; /* what is told of the pair that comes in on the left, on the right */
} Told;

/* One stitch alone, its threads 1 2 3 4 followed by hand: a cross takes the middle two, a twist the
 * two of each pair. Half stitch gives 3 1 4 2: each pair parts. Half stitch twice gives 4 3 2 1:
 * the pairs change sides, each whole. Corners of the square, where all lines end, are pinholes 1,
 * 4, 7 and 10: each side has three parts. */
static const Told told[] = {
  { "ct",
    "Both bobbins of pair 1 begin at pinhole 1. They part at pin 1 of repeat (0, 0). The left "
    "bobbin ends in pair 1, at pinhole 10. The right bobbin ends in pair 2, at pinhole 7.",
    "Both bobbins of pair 2 begin at pinhole 4. They part at pin 1 of repeat (0, 0). The left "
    "bobbin ends in pair 1, at pinhole 10. The right bobbin ends in pair 2, at pinhole 7." },
  { "ctct",
    "Both bobbins of pair 1 begin at pinhole 1. They stay together all the way. Both end in pair "
    "2, at pinhole 7.",
    "Both bobbins of pair 2 begin at pinhole 4. They stay together all the way. Both end in pair "
    "1, at pinhole 10." },
};

static void
test_told (gconstpointer data)
{
  const Told *t = data;
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  g_free (ground->stitches[0].work);
  ground->stitches[0].work = g_strdup (t->word);
  static const PfPoint square[] = { { -4, -4 }, { 4, -4 }, { 4, 4 }, { -4, 4 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  g_autoptr (PfFilling) filling = fill (region, ground, (PfPlacement){ .gap = 10 }, false);
  g_assert_cmpuint (filling->n_stitches, ==, 1);
  g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
  for (guint32 pair = 0; pair < 2; pair++)
    {
      g_autofree char *words = pf_explain_threads (threads, filling, ground, pair);
      g_assert_cmpstr (words, ==, pair == 0 ? t->left : t->right);
    }
}

/* All pairs of torchon ground run on together (common practice), all of point ground part: one
 * thread runs on, the other zigzags (Jo Edkins, lace school web pages). */
static void
test_part (void)
{
  static const struct {
    const char *ground;
    bool part;
  } grounds[] = { { "torchon", false }, { "point-net", true } };
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      g_autoptr (PfGround) ground = sample_ground (grounds[g].ground);
      static const PfPoint square[] = { { 0, 0 }, { 40, 0 }, { 40, 40 }, { 0, 40 } };
      g_autoptr (PfRegion) region = sample_polygon (square, 4);
      const PfPlacement placement = { .gap = 3, .origin = { 20.3, 19.9 } };
      g_autoptr (PfFilling) filling = fill (region, ground, placement, false);
      g_autoptr (PfThreads) threads = pf_threads_new (filling, ground);
      g_assert_cmpuint (filling->n_pairs, >, 10);
      for (guint32 pair = 0; pair < filling->n_pairs; pair++)
        {
          g_autofree char *words = pf_explain_threads (threads, filling, ground, pair);
          g_assert_true ((strstr (words, "They part at") != NULL) == grounds[g].part);
          g_assert_true ((strstr (words, "together all the way") != NULL) != grounds[g].part);
          g_assert_nonnull (strstr (words, "in pair "));
        }
    }
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
  for (size_t t = 0; t < G_N_ELEMENTS (told); t++)
    {
      g_autofree char *path = g_strdup_printf ("/threads/told/%s", told[t].word);
      g_test_add_data_func (path, &told[t], test_told);
    }
  g_test_add_func ("/threads/part", test_part);
  return g_test_run ();
}
