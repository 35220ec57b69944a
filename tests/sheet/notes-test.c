/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working notes of large pieces: every repeat has its number on the map, none over another; the
 * list of repeats is the order of work; long tables of numbers; and where a book ends.
 */
#include <math.h>
#include <string.h>

#include "repeat-kinds.h"
#include "samples.h"

#define TOUCH 0.02 /* mm: three decimals, and hinting */

static PfBook *
notes_of (const PfPricking *pricking)
{
  g_autoptr (GError) error = NULL;
  const PfSheetSettings settings = sample_settings ("A4");
  PfBook *book = pf_book_new (pricking, PF_BOOK_NOTES, &settings, false, &error);
  g_assert_no_error (error);
  return book;
}

static xmlDoc *
page_of (const PfBook *book, size_t n)
{
  double width, height;
  return read_page (pf_book_page (book, n, &width, &height));
}

static PfPricking *
moon (const char *ground, double radius, PfWorkBy by)
{
  g_autofree char *drawing = g_strdup_printf ("<circle id='moon' cx='%g' cy='%g' r='%g'/>",
                                              radius + 5, radius + 5, radius);
  PfPricking *pricking = sample_drawing ("Moon", drawing, ground, 4);
  PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_autoptr (GError) error = NULL;
  motif->settings.habits.by = by;
  g_clear_pointer (&motif->filling, pf_filling_free);
  pf_pricking_fill (pricking, &error);
  g_assert_no_error (error);
  return pricking;
}

/* --- The map ------------------------------------------------------------------------------------
 */

static bool
is_within (const xmlNode *node, const char *group)
{
  for (const xmlNode *n = node->parent; n; n = n->parent)
    {
      xmlChar *class = xmlGetProp ((xmlNode *) n, (const xmlChar *) "class");
      const bool found = class && strcmp ((const char *) class, group) == 0;
      xmlFree (class);
      if (found)
        return true;
    }
  return false;
}

/* The texts of a page's maps, each clear of all others; those of the parts are numbers, too. */
static void
read_map (xmlDoc *page, GHashTable *numbers, guint *n_maps)
{
  g_autoptr (GPtrArray) texts = elements_of (page, "numbers", "text");
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (PfBox));
  *n_maps += (guint) count_of (page, "map", "g") > 0;
  for (guint t = 0; t < texts->len; t++)
    {
      xmlNode *text = g_ptr_array_index (texts, t);
      if (!is_within (text, "map"))
        continue;
      const PfBox box = text_ink (text);
      for (guint b = 0; b < boxes->len; b++)
        {
          const PfBox *other = &g_array_index (boxes, PfBox, b);
          g_assert_false (box.min.x < other->max.x - TOUCH && other->min.x < box.max.x - TOUCH &&
                          box.min.y < other->max.y - TOUCH && other->min.y < box.max.y - TOUCH);
        }
      g_array_append_val (boxes, box);
      g_assert_cmpfloat (number_of (text, "font-size"), >=, 1.2);
      g_hash_table_add (numbers, text_of (text));
    }
}

typedef struct {
  const char *ground;
  double radius; /* mm */
  bool parts;    /* the map is cut into some */
} MapCase;

static void
test_map (gconstpointer data)
{
  const MapCase *wanted = data;
  PfPricking *pricking = moon (wanted->ground, wanted->radius, PF_WORK_BY_REPEAT);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_autoptr (PfBook) book = notes_of (pricking);
  g_autoptr (GHashTable) numbers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n_maps = 0;
  for (size_t n = 0; n < pf_book_n_pages (book); n++)
    {
      xmlDoc *page = page_of (book, n);
      read_map (page, numbers, &n_maps);
      xmlFreeDoc (page);
    }
  g_assert_cmpint (n_maps > 1, ==, wanted->parts);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (motif->filling, motif->ground, steps);
  g_autoptr (GHashTable) plain = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GHashTableIter iter;
  gpointer number;
  g_hash_table_iter_init (&iter, numbers);
  while (g_hash_table_iter_next (&iter, &number, NULL))
    g_hash_table_add (plain, g_strndup (number, strspn (number, "0123456789")));
  g_assert_cmpuint (g_hash_table_size (plain), ==, (guint) kinds->n_repeats);
  for (size_t r = 0; r < kinds->n_repeats; r++)
    {
      g_autofree char *wanted_number = g_strdup_printf ("%zu", r + 1);
      g_assert_true (g_hash_table_contains (plain, wanted_number));
    }
  pf_pricking_free (pricking);
}

/* --- The order ----------------------------------------------------------------------------------
 */

/* "1B, 2–4, 7" as 1, 2, 3, 4, 7. */
static void
append_list (GArray *list, const char *words)
{
  g_auto (GStrv) items = g_strsplit (words, ",", -1);
  for (char **item = items; *item; item++)
    {
      char *end;
      guint64 first = g_ascii_strtoull (*item, &end, 10);
      guint64 last = first;
      if (end == *item)
        continue;
      if (g_str_has_prefix (end, "–"))
        last = g_ascii_strtoull (end + strlen ("–"), NULL, 10);
      g_assert_cmpuint (last, >=, first);
      for (; first <= last; first++)
        {
          const guint number = (guint) first;
          g_array_append_val (list, number);
        }
    }
}

/* The repeats of the list, which follows its heading, read over all pages up to the next one. */
static GArray *
listed (const PfBook *book, bool by_row)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (guint));
  bool within = false;
  for (size_t n = 0; n < pf_book_n_pages (book); n++)
    {
      xmlDoc *page = page_of (book, n);
      g_autoptr (GPtrArray) texts = elements_of (page, NULL, "text");
      for (guint t = 0; t < texts->len; t++)
        {
          xmlNode *node = g_ptr_array_index (texts, t);
          g_autofree char *text = text_of (node);
          if (strcmp (text, "Repeats, in the order of work") == 0)
            within = true;
          else if (is_within (node, "heading"))
            within = false;
          else if (within && !by_row && is_within (node, "text"))
            append_list (list, text);
          /* In a table the first column, to the right, has the row's number. */
          else if (within && by_row && is_within (node, "cell") &&
                   !xmlHasProp (node, (const xmlChar *) "text-anchor"))
            append_list (list, text);
        }
      xmlFreeDoc (page);
    }
  return list;
}

static void
test_order (void)
{
  for (int by_row = 0; by_row < 2; by_row++)
    {
      PfPricking *pricking = moon ("armure", 60, by_row ? PF_WORK_BY_ROW : PF_WORK_BY_REPEAT);
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
      g_autoptr (PfBook) book = notes_of (pricking);
      g_autoptr (GArray) list = listed (book, by_row);
      g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
      guint n = 0;
      for (size_t g = 0; g < steps->n_groups; g++)
        if (!steps->groups[g].sews_in)
          {
            g_assert_cmpuint (n, <, list->len);
            g_assert_cmpuint (g_array_index (list, guint, n), ==, steps->groups[g].repeat + 1);
            n++;
          }
      g_assert_cmpuint (n, ==, list->len);
      pf_pricking_free (pricking);
    }
}

/* --- The end ------------------------------------------------------------------------------------
 */

/* What a kind's table doesn't list is said. */
static void
test_unlisted (void)
{
  PfPricking *pricking = moon ("torchon", 40, PF_WORK_BY_REPEAT);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (motif->filling, motif->ground, steps);
  g_assert_cmpuint (kinds->kinds[0].n_repeats, >, 200);
  g_autofree char *wanted =
      g_strdup_printf ("%zu more repeats of this kind", kinds->kinds[0].n_repeats - 200);
  g_autoptr (PfBook) book = notes_of (pricking);
  bool found = false;
  for (size_t n = 0; n < pf_book_n_pages (book); n++)
    {
      double width, height;
      found |= strstr (pf_book_page (book, n, &width, &height), wanted) != NULL;
    }
  g_assert_true (found);
  pf_pricking_free (pricking);
}

/* A book of more pages than anyone prints is refused, before its pages are drawn. */
static void
test_too_big (void)
{
  g_autoptr (GString) drawing = g_string_new (NULL);
  for (int n = 0; n < 144; n++)
    g_string_append_printf (drawing, "<circle id='c%d' cx='%d' cy='%g' r='%g'/>", n,
                            20 + 40 * (n % 12), 20.0 + 40 * (n / 12) + n % 12, 15 + n / 50.0);
  PfPricking *pricking = sample_drawing ("Many", drawing->str, "armure", 4);
  const PfSheetSettings settings = sample_settings ("A4");
  g_autoptr (GError) error = NULL;
  g_assert_null (pf_book_new (pricking, PF_BOOK_NOTES, &settings, false, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
  g_assert_nonnull (strstr (error->message, "fewer of its parts"));
  g_clear_error (&error);
  g_autoptr (PfBook) small = pf_book_new (pricking, PF_BOOK_PRICKING, &settings, false, &error);
  g_assert_no_error (error);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  static const MapCase cases[] = { { "armure", 25, false },
                                   { "torchon", 25, false },
                                   { "torchon", 120, true },
                                   { "rose", 200, true } };
  g_test_init (&argc, &argv, NULL);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *path =
          g_strdup_printf ("/sheet/notes/map/%s-%g", cases[c].ground, cases[c].radius);
      g_test_add_data_func (path, &cases[c], test_map);
    }
  g_test_add_func ("/sheet/notes/order", test_order);
  g_test_add_func ("/sheet/notes/unlisted", test_unlisted);
  g_test_add_func ("/sheet/notes/too-big", test_too_big);
  return g_test_run ();
}
