/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of threads, and what the maker says of hers.
 */
#include <string.h>

#include "samples.h"

/* Wraps per cm, as a lace maker's blog passes them on from B. Paternoster, Threads for Lace. */
static void
test_table (void)
{
  static const struct {
    const char *name;
    double wraps;
  } known[] = {
    { "Finca Bolillos 30", 27 }, { "Sulky Cotton 30wt", 27 }, { "Gütermann quilting", 28 },
    { "Mettler 40/3", 28 },      { "Finca Bolillos 40", 29 }, { "Madeira Tanne 30", 29 },
  };
  size_t n;
  const PfThreadKind *kinds = pf_thread_table (&n);
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (known));
  for (size_t k = 0; k < n; k++)
    {
      g_autoptr (GError) error = NULL;
      const PfThreadKind *kind = pf_thread_find (known[k].name, &error);
      g_assert_no_error (error);
      g_assert_cmpfloat (kind->wraps_per_cm, ==, known[k].wraps);
      g_assert_true (*kind->source && *kind->sure);
      if (k > 0)
        g_assert_cmpfloat (kinds[k].wraps_per_cm, >=, kinds[k - 1].wraps_per_cm);
    }
  g_autoptr (GError) error = NULL;
  g_assert_nonnull (pf_thread_find ("METTLER 40/3", NULL));
  g_assert_null (pf_thread_find ("Mettler 40", &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
  g_assert_nonnull (strstr (error->message, "Mettler 40/3"));
}

static void
test_ranges (void)
{
  static const struct {
    double wraps, spare, from, to;
    const char *problem; /* NULL: accepted */
  } cases[] = {
    { 0, 300, 10, 12, NULL },
    { 27, 0, 10, 12, NULL },
    { 1, 10000, 1, 100, NULL },
    { 0.5, 300, 10, 12, "wraps per cm" },
    { 201, 300, 10, 12, "wraps" },
    { G_MAXDOUBLE, 300, 10, 12, "wraps" },
    { 27, -1, 10, 12, "spare" },
    { 27, 10001, 10, 12, "spare" },
    { 27, 300, 12, 10, "largest" },
    { 27, 300, 0, 10, "least" },
    { 0.0 / 0.0, 300, 10, 12, "wraps" },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      PfThreadUse use = pf_thread_use_default ();
      g_autoptr (GError) error = NULL;
      use.wraps_per_cm = cases[c].wraps;
      use.spare = cases[c].spare;
      use.rule = (PfFitRule){ cases[c].from, cases[c].to };
      g_assert_true (pf_thread_use_check (&use, &error) == (cases[c].problem == NULL));
      if (cases[c].problem)
        g_assert_nonnull (strstr (error->message, cases[c].problem));
      pf_thread_use_clear (&use);
    }
}

/* Both bobbins, then one of another colour, then none: the last word counts for each bobbin. */
static void
test_colours (void)
{
  const PfLineId line = { { 0, 1, 2 }, PF_LEFT, false }, other = { { 0, 1, 2 }, PF_RIGHT, false };
  PfThreadUse use = pf_thread_use_default ();
  pf_thread_use_set_colour (&use, line, PF_BOBBIN_BOTH, "#aa0000");
  pf_thread_use_set_colour (&use, other, PF_BOBBIN_BOTH, "#00aa00");
  pf_thread_use_set_colour (&use, line, PF_BOBBIN_LEFT, "#0000aa");
  g_assert_cmpuint (use.n_colours, ==, 3);
  g_assert_cmpint (use.colours[0].bobbins, ==, PF_BOBBIN_RIGHT);
  pf_thread_use_set_colour (&use, line, PF_BOBBIN_BOTH, NULL);
  g_assert_cmpuint (use.n_colours, ==, 1);
  g_assert_cmpstr (use.colours[0].colour, ==, "#00aa00");
  pf_thread_use_clear (&use);
}

/* A colour follows its cut line: each new pair of a filling can be given one, a line that isn't cut
 * is told as unused. */
static void
test_colours_of_filling (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfDraft) draft = sample_square ("square", 0, 0, 30, "armure");
  g_autoptr (GError) error = NULL;
  PfMotif *motif = pf_motif_new (draft, NULL, &error);
  g_assert_no_error (error);
  const PfFilling *filling = motif->filling;
  PfThreadUse use = pf_thread_use_default ();
  guint32 n_new = 0;
  for (guint32 c = 0; c < filling->n_crossings; c++)
    if (filling->crossings[c].kind == PF_PAIR_NEW)
      {
        const PfBobbins bobbins = filling->crossings[c].pair % 2 ? PF_BOBBIN_LEFT : PF_BOBBIN_BOTH;
        pf_thread_use_set_colour (&use, pf_crossing_line (filling, c), bobbins, "#123456");
        n_new++;
      }
  g_assert_cmpuint (n_new, ==, filling->n_pairs);
  pf_thread_use_set_colour (&use, (PfLineId){ { 0, 99, 99 }, PF_LEFT, false }, PF_BOBBIN_BOTH,
                            "#ffffff");
  size_t n_unused;
  g_autofree const char **colours = pf_thread_colours (&use, filling, &n_unused);
  g_assert_cmpuint (n_unused, ==, 1);
  for (size_t p = 0; p < filling->n_pairs; p++)
    {
      g_assert_cmpstr (colours[2 * p], ==, "#123456");
      g_assert_cmpstr (colours[2 * p + 1], ==, p % 2 ? NULL : "#123456");
    }
  pf_thread_use_clear (&use);
  pf_motif_unref (motif);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/thread/table", test_table);
  g_test_add_func ("/thread/ranges", test_ranges);
  g_test_add_func ("/thread/colours", test_colours);
  g_test_add_func ("/thread/colours-of-filling", test_colours_of_filling);
  return g_test_run ();
}
