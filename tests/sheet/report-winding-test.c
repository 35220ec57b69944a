/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What to wind, which pairs go on from motif to motif, and the sewings of each stretch of an edge:
 * recounted from the filling itself, and from the lengths that the JSON report gives bobbin by
 * bobbin.
 */
#include <math.h>
#include <string.h>

#include <json-glib/json-glib.h>
#include <threads.h>

#include "report-stretches.h"
#include "report-winding.h"
#include "samples.h"

static PfMotif *
motif_at (const PfPricking *pricking, guint m)
{
  return g_ptr_array_index (pricking->motifs, m);
}

static void
choose_thread (PfPricking *pricking, double wraps)
{
  PfThreadUse use = pf_thread_use_default ();
  use.wraps_per_cm = wraps;
  pf_pricking_set_thread (pricking, &use);
  pf_thread_use_clear (&use);
}

/* A pair's bobbins, or one of them, get a colour. */
static void
colour_pair (PfMotif *motif, guint32 pair, PfBobbins bobbins, const char *colour)
{
  const PfFilling *filling = motif->filling;
  const guint32 entering = filling->sewings[filling->pairs[pair].sewn_in].entering;
  pf_thread_use_set_colour (&motif->thread, pf_crossing_line (filling, entering), bobbins, colour);
}

static PfPricking *
three_motifs (void)
{
  return sample_drawing ("Three",
                         "<circle id='sun' cx='40' cy='40' r='12'/>"
                         "<circle id='moon' cx='90' cy='40' r='20'/>"
                         "<circle id='star' cx='140' cy='40' r='9'/>",
                         "torchon", 4);
}

typedef struct {
  JsonNode *root;
  JsonObject *report;
} Told;

static Told
told_of (const PfPricking *pricking)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = pf_report_json (pricking);
  Told told = { .root = json_from_string (text, &error) };
  g_assert_no_error (error);
  told.report = json_node_get_object (told.root);
  return told;
}

static JsonObject *
element (JsonObject *object, const char *list, guint n)
{
  return json_array_get_object_element (json_object_get_array_member (object, list), n);
}

static guint
length_of (JsonObject *object, const char *list)
{
  return json_array_get_length (json_object_get_array_member (object, list));
}

/* Every bobbin in one group, long enough there, and not a step too long. */
static void
check_group (const Told *told, JsonObject *group, double step, GHashTable *seen)
{
  static const char *const bobbins[] = { "left", "right" };
  const double each = json_object_get_double_member (group, "each_mm");
  const char *colour = json_object_get_string_member_with_default (group, "colour", NULL);
  guint n = 0;
  double used = 0, longest = 0;
  for (guint p = 0; p < length_of (group, "pairs"); p++)
    {
      JsonObject *pair = element (group, "pairs", p);
      const char *which = json_object_get_string_member (pair, "bobbins");
      const guint m = (guint) json_object_get_int_member (pair, "motif");
      const guint number = (guint) json_object_get_int_member (pair, "pair");
      JsonObject *thread =
          json_object_get_object_member (element (told->report, "motifs", m - 1), "thread");
      JsonObject *lengths = element (thread, "bobbins", number - 1);
      for (int b = 0; b < 2; b++)
        {
          if (strcmp (which, "both") != 0 && strcmp (which, bobbins[b]) != 0)
            continue;
          g_autofree char *key = g_strdup_printf ("%s_mm", bobbins[b]);
          g_autofree char *of_colour = g_strdup_printf ("%s_colour", bobbins[b]);
          const double length = json_object_get_double_member (lengths, key);
          g_assert_cmpstr (json_object_get_string_member_with_default (lengths, of_colour, NULL),
                           ==, colour);
          g_assert_true (
              g_hash_table_add (seen, g_strdup_printf ("%u %u %s", m, number, bobbins[b])));
          g_assert_cmpfloat (length, <=, each + 1e-6);
          longest = fmax (longest, length);
          used += length;
          n++;
        }
    }
  g_assert_cmpint (json_object_get_int_member (group, "bobbins"), ==, n);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (group, "used_mm"), used, 1e-6);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (group, "wind_mm"), n * each, 1e-6);
  g_assert_cmpfloat (each - longest, <, step);
}

/* The list adds up to the whole. */
static void
check_winding (const PfPricking *pricking)
{
  const Told told = told_of (pricking);
  g_autoptr (PfWinding) winding = pf_winding_new (pricking);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  double used = 0, total = 0;
  guint n_bobbins = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      total += json_object_get_double_member (
          json_object_get_object_member (element (told.report, "motifs", m), "thread"), "total_mm");
      n_bobbins += 2 * (guint) motif_at (pricking, m)->filling->n_pairs;
    }
  g_assert_cmpuint (length_of (told.report, "winding"), >, 0);
  for (guint g = 0; g < length_of (told.report, "winding"); g++)
    {
      JsonObject *group = element (told.report, "winding", g);
      check_group (&told, group, winding->step, seen);
      used += json_object_get_double_member (group, "used_mm");
    }
  g_assert_cmpuint (g_hash_table_size (seen), ==, n_bobbins);
  g_assert_cmpfloat_with_epsilon (used, total, 1e-3);
  JsonObject *bobbins = json_object_get_object_member (told.report, "bobbins");
  g_assert_cmpint (json_object_get_int_member (bobbins, "to_wind"), ==, n_bobbins);
  json_node_unref (told.root);
}

static void
test_sums (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  choose_thread (pricking, 27);
  check_winding (pricking);
  colour_pair (motif_at (pricking, 0), 2, PF_BOBBIN_LEFT, "#aa0000");
  colour_pair (motif_at (pricking, 0), 3, PF_BOBBIN_BOTH, "#aa0000");
  check_winding (pricking);
  pf_pricking_free (pricking);
  pricking = three_motifs ();
  choose_thread (pricking, 20);
  motif_at (pricking, 1)->thread.wraps_per_cm = 40;
  check_winding (pricking);
  pf_pricking_free (pricking);
}

/* A long and narrow shape has pairs of very unlike lengths: they are rounded to few. */
static void
test_steps (void)
{
  PfPricking *pricking =
      sample_drawing ("Wedge", "<path id='wedge' d='M 10 10 L 130 10 L 10 700 Z'/>", "torchon", 10);
  choose_thread (pricking, 20);
  g_autoptr (PfWinding) winding = pf_winding_new (pricking);
  g_assert_cmpfloat (winding->step, >, 100);
  g_assert_cmpuint (winding->groups->len, >, 1);
  g_assert_cmpuint (winding->groups->len, <=, PF_WINDING_LENGTHS);
  for (guint g = 1; g < winding->groups->len; g++)
    g_assert_cmpfloat (g_array_index (winding->groups, PfWindingGroup, g).each, <,
                       g_array_index (winding->groups, PfWindingGroup, g - 1).each);
  check_winding (pricking);
  pf_pricking_free (pricking);
}

/* Without a thread: how many bobbins of which colour, and no lengths. */
static void
test_no_thread (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  colour_pair (motif_at (pricking, 0), 0, PF_BOBBIN_RIGHT, "#0000aa");
  const size_t n_pairs = motif_at (pricking, 0)->filling->n_pairs;
  const Told told = told_of (pricking);
  g_assert_cmpuint (length_of (told.report, "winding"), ==, 2);
  g_assert_cmpint (json_object_get_int_member (element (told.report, "winding", 0), "bobbins"), ==,
                   2 * n_pairs - 1);
  g_assert_cmpint (json_object_get_int_member (element (told.report, "winding", 1), "bobbins"), ==,
                   1);
  for (guint g = 0; g < 2; g++)
    g_assert_false (json_object_has_member (element (told.report, "winding", g), "each_mm"));
  json_node_unref (told.root);
  g_autofree char *csv = pf_report_winding_csv (pricking);
  g_autofree char *last =
      g_strdup_printf ("\r\n,,,%zu,,,,\"1 left, 2 to %zu\"\r\n", 2 * n_pairs - 1, n_pairs);
  g_assert_nonnull (strstr (csv, last));
  g_assert_true (g_str_has_suffix (csv, "\r\n,,#0000aa,1,,,,1 right\r\n"));
  pf_pricking_free (pricking);
}

/* Bobbins are named one by one where a pair has two colours, else runs by their ends. */
static void
test_words (void)
{
  PfWoundPair pairs[] = { { 0, 0, PF_BOBBIN_BOTH }, { 0, 1, PF_BOBBIN_BOTH },
                          { 0, 2, PF_BOBBIN_LEFT }, { 0, 3, PF_BOBBIN_LEFT },
                          { 0, 6, PF_BOBBIN_BOTH }, { 0, 7, PF_BOBBIN_BOTH },
                          { 0, 8, PF_BOBBIN_BOTH }, { 1, 9, PF_BOBBIN_BOTH },
                          { 2, 0, PF_BOBBIN_RIGHT } };
  PfWindingGroup group = { .pairs = g_array_new (FALSE, FALSE, sizeof (PfWoundPair)) };
  g_array_append_vals (group.pairs, pairs, G_N_ELEMENTS (pairs));
  g_autofree char *words = pf_winding_pairs_words (&group, true);
  g_autofree char *name = pf_winding_pairs_name (&group, true);
  g_assert_cmpstr (words, ==,
                   "I\u00a01, 2, 3\u00a0(left), 4\u00a0(left), 7–9; II\u00a010; "
                   "III\u00a01\u00a0(right)");
  g_assert_cmpstr (name, ==, "I 1, 2, 3 left, 4 left, 7 to 9; II 10; III 1 right");
  g_array_unref (group.pairs);
}

/* --- From motif to motif ------------------------------------------------------------------------
 */

/* Followed along its own way, the thread ends in a sewing that finishes the pair. */
static void
check_ends_with (const PfMotif *motif, guint32 thread, guint32 pair)
{
  size_t n;
  g_autoptr (PfThreads) threads = pf_threads_new (motif->filling, motif->ground);
  g_autofree PfThreadStep *way = pf_thread_way (threads, motif->filling, motif->ground, thread, &n);
  g_assert_cmpint (way[n - 1].kind, ==, PF_STEP_SEWING);
  const PfSewing *last = &motif->filling->sewings[way[n - 1].index];
  g_assert_cmpint (last->kind, ==, PF_PAIR_FINISHED);
  g_assert_cmpuint (last->pair, ==, pair);
}

/* Each pair goes on once from where it is finished, to a later motif, into a pair wound alike. */
static void
check_handed (const PfPricking *pricking, const GArray *handed)
{
  g_autoptr (GHashTable) from = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) to = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < handed->len; i++)
    {
      const PfHandedOn *one = &g_array_index (handed, PfHandedOn, i);
      const PfMotif *a = motif_at (pricking, one->from_motif);
      const PfMotif *b = motif_at (pricking, one->to_motif);
      g_autofree const char **given = pf_thread_colours (&a->thread, a->filling, NULL);
      g_autofree const char **taken = pf_thread_colours (&b->thread, b->filling, NULL);
      g_assert_cmpuint (one->from_motif, <, one->to_motif);
      g_assert_cmpuint (one->from_pair, <, a->filling->n_pairs);
      g_assert_cmpuint (one->to_pair, <, b->filling->n_pairs);
      g_assert_true (
          g_hash_table_add (from, g_strdup_printf ("%u %u", one->from_motif, one->from_pair)));
      g_assert_true (g_hash_table_add (to, g_strdup_printf ("%u %u", one->to_motif, one->to_pair)));
      for (int bobbin = 0; bobbin < 2; bobbin++)
        {
          g_assert_cmpstr (given[one->bobbins[bobbin]], ==,
                           taken[2 * one->to_pair + (guint) bobbin]);
          check_ends_with (a, one->bobbins[bobbin], one->from_pair);
        }
      g_assert_cmpfloat (a->thread.wraps_per_cm, ==, b->thread.wraps_per_cm);
    }
}

/* All pairs alike: what is wound in all is what the motif with the most pairs takes (derived: a
 * motif winds only what those before it have not left free). */
static void
test_handed_on (void)
{
  PfPricking *pricking = three_motifs ();
  size_t all = 0, most = 0;
  for (guint m = 0; m < 3; m++)
    {
      const size_t n = motif_at (pricking, m)->filling->n_pairs;
      all += n;
      most = MAX (most, n);
    }
  g_autoptr (GArray) handed = pf_pairs_handed_on (pricking);
  check_handed (pricking, handed);
  g_assert_cmpuint (all - handed->len, ==, most);
  const Told told = told_of (pricking);
  JsonObject *bobbins = json_object_get_object_member (told.report, "bobbins");
  g_assert_cmpuint (length_of (told.report, "pairs_handed_on"), ==, handed->len);
  g_assert_cmpint (json_object_get_int_member (bobbins, "to_wind_handed_on"), ==, 2 * most);
  json_node_unref (told.root);
  pf_pricking_free (pricking);
}

/* How many pairs begin, or end, with the same two colours: each thread is followed to its end. */
static GHashTable *
count_colours (const PfMotif *motif, bool at_end)
{
  const PfFilling *filling = motif->filling;
  g_autofree const char **colours = pf_thread_colours (&motif->thread, filling, NULL);
  g_autoptr (PfThreads) threads = pf_threads_new (filling, motif->ground);
  g_autofree guint32 *bobbins = g_new (guint32, 2 * filling->n_pairs);
  for (guint32 thread = 0; thread < 2 * filling->n_pairs; thread++)
    {
      size_t n;
      g_autofree PfThreadStep *way = pf_thread_way (threads, filling, motif->ground, thread, &n);
      const guint32 pair = filling->sewings[way[n - 1].index].pair;
      const guint32 place = at_end ? 2 * pair + way[n - 2].place_out % 2 : thread;
      bobbins[place] = thread;
    }
  GHashTable *counts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint32 p = 0; p < filling->n_pairs; p++)
    {
      char *key = g_strdup_printf ("%s %s", colours[bobbins[2 * p]], colours[bobbins[2 * p + 1]]);
      const guint n = GPOINTER_TO_UINT (g_hash_table_lookup (counts, key));
      g_hash_table_insert (counts, key, GUINT_TO_POINTER (n + 1));
    }
  return counts;
}

/* A red pair goes on as a red one only, and a motif in another thread takes none of the others'. */
static void
test_handed_on_alike (void)
{
  PfPricking *pricking = three_motifs ();
  choose_thread (pricking, 20);
  motif_at (pricking, 1)->thread.wraps_per_cm = 30;
  colour_pair (motif_at (pricking, 0), 0, PF_BOBBIN_BOTH, "#aa0000");
  colour_pair (motif_at (pricking, 2), 1, PF_BOBBIN_BOTH, "#aa0000");
  colour_pair (motif_at (pricking, 2), 2, PF_BOBBIN_BOTH, "#00aa00");
  colour_pair (motif_at (pricking, 0), 3, PF_BOBBIN_LEFT, "#aa0000");
  colour_pair (motif_at (pricking, 2), 0, PF_BOBBIN_RIGHT, "#aa0000");
  g_autoptr (GArray) handed = pf_pairs_handed_on (pricking);
  check_handed (pricking, handed);
  /* Of each two colours as many as end with them in the first motif and begin with them in the last
   * (derived: the second is of another thread). */
  g_autoptr (GHashTable) ends = count_colours (motif_at (pricking, 0), true);
  g_autoptr (GHashTable) starts = count_colours (motif_at (pricking, 2), false);
  guint wanted = 0;
  GHashTableIter iter;
  gpointer colours, n_starts;
  g_hash_table_iter_init (&iter, starts);
  while (g_hash_table_iter_next (&iter, &colours, &n_starts))
    wanted +=
        MIN (GPOINTER_TO_UINT (n_starts), GPOINTER_TO_UINT (g_hash_table_lookup (ends, colours)));
  g_assert_cmpuint (wanted, >, 0);
  g_assert_cmpuint (handed->len, ==, wanted);
  pf_pricking_free (pricking);
}

/* --- Stretches ----------------------------------------------------------------------------------
 */

/* Recounted by asking for the kind of the edge at each place. */
static void
check_stretches (const PfMotif *motif, guint n_wanted)
{
  g_autoptr (GArray) counts = pf_stretch_counts (motif);
  size_t sewn[2] = { 0 }, told[2] = { 0 }, holes[2] = { 0 }, told_holes[2] = { 0 }, off_line = 0;
  double length[2] = { 0 };
  for (guint i = 0; i < counts->len; i++)
    {
      const PfStretchCount *c = &g_array_index (counts, PfStretchCount, i);
      const PfLoop *loop = &motif->region->loops[c->loop];
      told[c->kind] += c->at_pinhole + c->round_bar;
      told_holes[c->kind] += c->n_pinholes;
      off_line += c->off_line;
      length[c->kind] += c->whole ? pf_loop_length (loop) : pf_loop_forward (loop, c->from, c->to);
    }
  for (size_t s = 0; s < motif->filling->n_sewings; s++)
    {
      const PfPlace place = motif->filling->sewings[s].place;
      sewn[pf_edge_kind_at (&motif->edges[place.loop], place.along)]++;
    }
  double whole = 0;
  for (size_t l = 0; l < motif->region->n_loops; l++)
    {
      whole += pf_loop_length (&motif->region->loops[l]);
      for (size_t p = 0; p < motif->edges[l].n_pinholes; p++)
        holes[pf_edge_kind_at (&motif->edges[l], motif->edges[l].pinholes[p])]++;
    }
  g_assert_cmpuint (counts->len, ==, n_wanted);
  for (int kind = 0; kind < 2; kind++)
    {
      g_assert_cmpuint (told[kind], ==, sewn[kind]);
      g_assert_cmpuint (told_holes[kind], ==, holes[kind]);
    }
  g_assert_cmpuint (off_line, ==, motif->filling->counts.off_line);
  g_assert_cmpfloat_with_epsilon (length[0] + length[1], whole, 1e-6);
}

/* An end of a stretch that lies exactly at the outline's pinhole of that number. */
#define AT_PINHOLE 1000

static double
end_at (const PfEdge *edge, double end)
{
  return end >= AT_PINHOLE ? edge->pinholes[(size_t) end - AT_PINHOLE] : end;
}

static void
test_stretches (void)
{
  g_autoptr (GError) error = NULL;
  static const struct {
    PfEdgeStretch stretches[3];
    size_t n;
    guint wanted; /* of the outline, by hand */
  } cases[] = {
    { { { 0 } }, 0, 1 },
    { { { 10, 25.5, PF_EDGE_CLOTH_STITCH } }, 1, 2 },
    { { { 60, 10, PF_EDGE_CLOTH_STITCH } }, 1, 2 }, /* past the start */
    { { { 10, 20, PF_EDGE_CLOTH_STITCH }, { 20, 30, PF_EDGE_CLOTH_STITCH } }, 2, 2 },
    { { { 10, 20, PF_EDGE_CLOTH_STITCH }, { 40, 50, PF_EDGE_CLOTH_STITCH } }, 2, 4 },
    { { { 10, 50, PF_EDGE_CLOTH_STITCH }, { 20, 30, PF_EDGE_HALF_STITCH } }, 2, 4 },
    { { { 10, 50, PF_EDGE_HALF_STITCH } }, 1, 1 }, /* of the kind it has anyway */
    { { { AT_PINHOLE + 5, 30.7, PF_EDGE_CLOTH_STITCH } }, 1, 2 },
    { { { 10.7, AT_PINHOLE + 20, PF_EDGE_CLOTH_STITCH } }, 1, 2 },
    { { { AT_PINHOLE + 30, AT_PINHOLE + 4, PF_EDGE_CLOTH_STITCH } }, 1, 2 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfPricking *pricking =
          sample_drawing ("Ring",
                          "<path id='ring' fill-rule='evenodd' d='M 10 10 H 70 V "
                          "70 H 10 Z M 30 30 H 50 V 50 H 30 Z'/>",
                          "torchon", 4);
      PfMotif *motif = motif_at (pricking, 0);
      g_assert_cmpuint (motif->region->n_loops, ==, 2);
      PfEdgeStretch stretches[3];
      for (size_t n = 0; n < cases[i].n; n++)
        stretches[n] = (PfEdgeStretch){ end_at (&motif->edges[0], cases[i].stretches[n].from),
                                        end_at (&motif->edges[0], cases[i].stretches[n].to),
                                        cases[i].stretches[n].kind };
      pf_edge_set_stretches (&motif->edges[0], &motif->region->loops[0], stretches, cases[i].n,
                             &error);
      g_assert_no_error (error);
      g_clear_pointer (&motif->filling, pf_filling_free);
      pf_pricking_fill (pricking, &error);
      g_assert_no_error (error);
      check_stretches (motif, cases[i].wanted + 1);
      pf_pricking_free (pricking);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/report-winding/sums", test_sums);
  g_test_add_func ("/sheet/report-winding/steps", test_steps);
  g_test_add_func ("/sheet/report-winding/no-thread", test_no_thread);
  g_test_add_func ("/sheet/report-winding/words", test_words);
  g_test_add_func ("/sheet/report-winding/handed-on", test_handed_on);
  g_test_add_func ("/sheet/report-winding/handed-on-alike", test_handed_on_alike);
  g_test_add_func ("/sheet/report-winding/stretches", test_stretches);
  return g_test_run ();
}
