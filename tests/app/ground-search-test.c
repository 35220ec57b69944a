/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which grounds a search finds, and in what order they stand. Names are those of data/grounds, with
 * their sources there.
 */
#include <ground-search.h>
#include <pricking.h>

/* --- Words --------------------------------------------------------------------------------------
 */

static void
test_fold (void)
{
  static const struct {
    const char *text, *folded;
  } rows[] = {
    { "", "" },
    { "  –, ", "" },
    { "Point net", "point net" },
    { "RÉSEAU  Rond", "reseau rond" },
    { "Re\u0301seau", "reseau" }, /* the accent as a letter of its own */
    { "Größe", "grosse" },        /* full case folding (Unicode, CaseFolding.txt) */
    { "spider-16", "spider 16" },
    { "Rose, fourfold corners", "rose fourfold corners" },
    { "point d’esprit", "point d esprit" },
  };
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autofree char *folded = pf_search_fold (rows[r].text);
      g_assert_cmpstr (folded, ==, rows[r].folded);
    }
}

/* --- Of one ground ------------------------------------------------------------------------------
 */

static void
test_words (void)
{
  char *others[] = { "Fond à jours", "grillé", NULL };
  const PfGround ground = {
    .name = "round-net", .title = "Réseau rond", .also_called = others, .family = "Alençon"
  };
  static const struct {
    const char *words;
    bool found;
  } rows[] = {
    { NULL, true },
    { "", true },
    { "   ", true },
    { "reseau", true },
    { "RÉSEAU", true },
    { "rond réseau", true }, /* in any order */
    { "rés ron", true },     /* parts of words, as they are typed */
    { "seau", true },
    { "a jours", true },
    { "Grille", true },
    { "alencon", true },
    { "round-net", true },
    { "net round", true },
    { "réseau carré", false }, /* all must be there */
    { "réseaux", false },
  };
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_test_message ("“%s”", rows[r].words);
      g_assert_cmpint (pf_ground_search_finds ((PfGroundSearch){ .words = rows[r].words }, &ground),
                       ==, rows[r].found);
    }
}

/* --- Among all ----------------------------------------------------------------------------------
 */

static GPtrArray *
all_grounds (void)
{
  GPtrArray *grounds = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_ground_free);
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    g_ptr_array_add (grounds, pf_ground_load (*name, NULL));
  return grounds;
}

/* The numbers of pairs are those that tests/pricking/ground-file-test.c has with their sources. */
static void
test_library (void)
{
  static const struct {
    PfGroundSearch search;
    const char *found; /* names, or NULL: all */
  } rows[] = {
    { { .words = "" }, NULL },
    { { .words = "fond simple" }, "point-net" },
    { { .words = "Lille" }, "point-net" },
    { { .words = "mariage" }, "honeycomb" },
    { { .words = "PAGODA" }, "triangles" },
    { { .words = "valenciennes eight" }, "valenciennes-square-eight" },
    { { .words = "armure eight" }, "armure" },
    { { .words = "spider 16" }, "spider-16" },
    { { .words = "no such ground" }, "" },
    { { .words = "spider", .pairs = 4 }, "spider-ground" },
    { { .family = "Flanders" }, "five-hole five-hole-double" },
    { { .family = "Flanders", .pairs = 2 }, "" },
    { { .words = "double", .family = "torchon", .pairs = 2 }, "double-torchon" },
    { { .family = "flan" }, "" }, /* a family is chosen, not typed */
  };
  g_autoptr (GPtrArray) grounds = all_grounds ();
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autoptr (GPtrArray) found = g_ptr_array_new ();
      for (guint n = 0; n < grounds->len; n++)
        {
          const PfGround *ground = g_ptr_array_index (grounds, n);
          if (pf_ground_search_finds (rows[r].search, ground))
            g_ptr_array_add (found, ground->name);
        }
      g_ptr_array_add (found, NULL);
      g_autofree char *names = g_strjoinv (" ", (char **) found->pdata);
      if (rows[r].found != NULL)
        g_assert_cmpstr (names, ==, rows[r].found);
      else
        g_assert_cmpuint (found->len - 1, ==, grounds->len);
    }
}

static void
test_order (void)
{
  const PfGround armure = { .name = "a", .title = "Armure", .family = "armure" };
  const PfGround brussels = { .name = "b", .title = "Brussels", .family = "Brussels" };
  const PfGround cord = { .name = "c", .title = "Cord", .family = "cloth stitch" };
  const PfGround eclair = { .name = "e", .title = "Éclair", .family = "cloth stitch" };
  const PfGround field = { .name = "f", .title = "Field", .family = "cloth stitch" };
  const PfGround twin = { .name = "g", .title = "Field", .family = "cloth stitch" };
  const PfGround *const ordered[] = { &armure, &brussels, &cord, &eclair, &field, &twin };
  for (size_t a = 0; a < G_N_ELEMENTS (ordered); a++)
    for (size_t b = 0; b < G_N_ELEMENTS (ordered); b++)
      {
        const int order = pf_ground_compare (ordered[a], ordered[b]);
        g_assert_cmpint ((order > 0) - (order < 0), ==, (a > b) - (a < b));
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground-search/fold", test_fold);
  g_test_add_func ("/ground-search/words", test_words);
  g_test_add_func ("/ground-search/library", test_library);
  g_test_add_func ("/ground-search/order", test_order);
  return g_test_run ();
}
