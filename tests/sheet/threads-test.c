/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The layer of threads, on screens and in files.
 */
#include <math.h>
#include <string.h>

#include "samples.h"

/* One stitch of torchon ground alone. */
#define ONE_STITCH "<rect x='10' y='10' width='8' height='8'/>"

static const PfBox whole = { { 0, 0 }, { 100, 100 } };

static char *
scene_svg (const PfPricking *pricking, PfLayers layers, PfBox window, double pixel)
{
  g_autoptr (PfScene) scene = pf_scene_new (pricking, false);
  return pf_scene_svg (scene, layers, window, pixel);
}

/* The pieces of curves in the groups of that class; with `stroke` only those in that colour. */
static int
count_pieces (xmlDoc *page, const char *group, const char *stroke)
{
  g_autoptr (GPtrArray) paths = elements_of (page, group, "path");
  int n = 0;
  for (guint p = 0; p < paths->len; p++)
    {
      xmlNode *path = g_ptr_array_index (paths, p);
      xmlChar *colour = xmlGetProp (path->parent, (const xmlChar *) "stroke");
      xmlChar *d = xmlGetProp (path, (const xmlChar *) "d");
      if (stroke == NULL || g_str_equal (colour, stroke))
        for (const char *at = (const char *) d; (at = strchr (at, 'M')) != NULL; at++)
          n++;
      xmlFree (colour);
      xmlFree (d);
    }
  return n;
}

/* Cross, twist, pin, cross, twist: two threads change places in each cross, twice two in each
 * twist. That are six crossings; at each, one of the four threads has a gap, so ten pieces. */
static void
test_strands (void)
{
  PfPricking *pricking = sample_drawing ("one", ONE_STITCH, "torchon", 10);
  g_assert_cmpuint (pf_pricking_counts (pricking).stitches, ==, 1);
  g_autofree char *svg = scene_svg (pricking, PF_LAYER_THREADS, whole, 0.01);
  xmlDoc *page = read_page (svg);
  g_assert_cmpint (count_pieces (page, "threads", NULL), ==, 10);
  g_assert_cmpint (count_pieces (page, "thread-sides", NULL), ==, 10);
  g_assert_cmpuint (count_of (page, "pins", "circle"), ==, 1);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

/* Of the same stitch the threads of the pair on the left: of its six crossings a cross lies left
 * over right, a twist right over left (Jo Edkins, lace school web pages). Followed by hand, places
 * 1 2 3 4: c 1 3 2 4, thread 3 under; t 3 1 4 2, threads 1 and 2 under; c 3 4 1 2, 4 under; t 4 3 2
 * 1, threads 3 and 1 under. So 1 comes in three pieces and 2 in two. A dark thread has light sides,
 * a light one dark sides. */
static void
test_pair (void)
{
  PfPricking *pricking = sample_drawing ("one", ONE_STITCH, "torchon", 10);
  PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const PfFilling *filling = motif->filling;
  for (guint32 pair = 0; pair < filling->n_pairs; pair++)
    {
      const guint32 entering = filling->sewings[filling->pairs[pair].sewn_in].entering;
      if (filling->crossings[entering].side != PF_LEFT)
        continue;
      const PfLineId line = pf_crossing_line (filling, entering);
      pf_thread_use_set_colour (&motif->thread, line, PF_BOBBIN_LEFT, "#200040");
      pf_thread_use_set_colour (&motif->thread, line, PF_BOBBIN_RIGHT, "#ffd0a0");
    }
  g_autofree char *svg = scene_svg (pricking, PF_LAYER_THREADS, whole, 0.01);
  xmlDoc *page = read_page (svg);
  g_assert_cmpint (count_pieces (page, "threads", "#200040"), ==, 3);
  g_assert_cmpint (count_pieces (page, "threads", "#ffd0a0"), ==, 2);
  g_assert_cmpint (count_pieces (page, "threads", NULL), ==, 10);
  g_assert_cmpint (count_pieces (page, "thread-sides", "#fff"), ==, 3);
  g_assert_cmpint (count_pieces (page, "thread-sides", NULL), ==, 10);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

/* Shown in place of pair lines and pins, and only where a thread is thick enough to be seen. */
static void
test_too_small (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 3, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const double most = pf_motif_laid (motif)->thickness / 1.5;
  const PfLayers layers = PF_LAYER_THREADS | PF_LAYER_PAIR_LINES | PF_LAYER_PINS;
  g_assert_true (pf_threads_show (motif, 0.99 * most));
  g_assert_false (pf_threads_show (motif, 1.01 * most));
  for (int small = 0; small < 2; small++)
    {
      g_autofree char *svg = scene_svg (pricking, layers, whole, (small ? 1.01 : 0.99) * most);
      g_autofree char *other =
          scene_svg (pricking, small ? PF_LAYER_PAIR_LINES | PF_LAYER_PINS : PF_LAYER_THREADS,
                     whole, (small ? 1.01 : 0.99) * most);
      xmlDoc *page = read_page (svg);
      g_assert_true ((count_of (page, "threads", "path") > 0) == !small);
      g_assert_cmpstr (svg, ==, other);
      xmlFreeDoc (page);
    }
  pf_pricking_free (pricking);
}

/* A window costs what it shows. */
static void
test_window (void)
{
  PfPricking *pricking = sample_demo ("swift", "torchon", 3, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, 0))->filling;
  const PfPoint at = filling->stitches[filling->n_stitches / 2].at;
  const PfBox part = { { at.x - 3, at.y - 3 }, { at.x + 3, at.y + 3 } };
  g_autofree char *all =
      scene_svg (pricking, PF_LAYER_THREADS, (PfBox){ { -50, -50 }, { 500, 500 } }, 0.01);
  g_autofree char *some = scene_svg (pricking, PF_LAYER_THREADS, part, 0.01);
  g_assert_cmpuint (filling->n_stitches, >, 400);
  g_assert_cmpuint (strlen (some), <, strlen (all) / 20);
  xmlDoc *page = read_page (some);
  g_assert_cmpint (count_pieces (page, "threads", NULL), >, 10);
  xmlFreeDoc (page);
  pf_pricking_free (pricking);
}

/* In the motif's own thread: its thickness is what 1 cm has room for so many times. */
static void
test_own_thread (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 5, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  PfThreadUse use = pf_thread_use_default ();
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const double widest = pf_motif_laid (motif)->thickness;
  g_assert_cmpfloat (widest, >, 0.1);
  use.wraps_per_cm = 100;
  pf_pricking_set_thread (pricking, &use);
  g_assert_cmpfloat_with_epsilon (pf_motif_laid (motif)->thickness, 0.1, 1e-12);
  use.wraps_per_cm = 1;
  pf_pricking_set_thread (pricking, &use);
  g_assert_cmpfloat (pf_motif_laid (motif)->thickness, ==, widest);
  pf_thread_use_clear (&use);
  pf_pricking_free (pricking);
}

static void
test_refused (void)
{
  static const struct {
    PfBox part;
    int code;
  } parts[] = {
    { { { 0, 0 }, { 1001, 10 } }, PF_ERROR_TOO_BIG },
    { { { 0, 0 }, { 0, 10 } }, PF_ERROR_SETTING },
    { { { 5, 5 }, { 4, 10 } }, PF_ERROR_SETTING },
    { { { 0, 0 }, { NAN, 10 } }, PF_ERROR_SETTING },
    { { { -INFINITY, 0 }, { 10, 10 } }, PF_ERROR_SETTING },
  };
  PfPricking *pricking = sample_drawing ("one", ONE_STITCH, "torchon", 10);
  for (size_t p = 0; p < G_N_ELEMENTS (parts); p++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_false (pf_close_up_save (pricking, &parts[p].part, 0, "never.svg", &error));
      g_assert_error (error, PF_ERROR, parts[p].code);
      g_assert_false (g_file_test ("never.svg", G_FILE_TEST_EXISTS));
    }
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/threads/strands", test_strands);
  g_test_add_func ("/sheet/threads/pair", test_pair);
  g_test_add_func ("/sheet/threads/too-small", test_too_small);
  g_test_add_func ("/sheet/threads/window", test_window);
  g_test_add_func ("/sheet/threads/own-thread", test_own_thread);
  g_test_add_func ("/sheet/threads/refused", test_refused);
  return g_test_run ();
}
