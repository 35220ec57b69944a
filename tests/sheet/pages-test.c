/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drawings cut into sheets of paper: they are covered, sheets overlap, and join marks bring them
 * together again.
 */
#include <math.h>
#include <string.h>

#include "pages.h"
#include "samples.h"

static double
strip_of (double width, bool many, gconstpointer data)
{
  (void) width;
  return *(const double *) data + (many ? 5 : 0);
}

static bool
lay_out (PfTiling *tiling, const char *paper, PfBox field, double overlap, GError **error)
{
  static const double strip = 40;
  const PfPaper *found = pf_paper_find (paper, NULL);
  return pf_tiling_init (tiling, found, field, overlap, strip_of, &strip, error);
}

static void
test_papers (void)
{
  static const struct {
    const char *name;
    double width, height;
  } papers[] = { { "A4", 210, 297 },
                 { "a4", 210, 297 },
                 { "A3", 297, 420 },
                 { "letter", 215.9, 279.4 },
                 { "LETTER", 215.9, 279.4 } };
  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      const PfPaper *paper = pf_paper_find (papers[i].name, NULL);
      g_assert_nonnull (paper);
      g_assert_cmpfloat (paper->width, ==, papers[i].width);
      g_assert_cmpfloat (paper->height, ==, papers[i].height);
    }
  static const char *const wrong[] = { "", "A5", "A4 ", "Legal" };
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (pf_paper_find (wrong[i], &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
      g_assert_nonnull (strstr (error->message, "Letter"));
    }
}

/* With a strip of 40 mm (45 if there are several sheets), A4 upright shows 188 by 243 mm, lying 275
 * by 156. */
static void
test_choices (void)
{
  static const struct {
    double width, height; /* of the field, mm */
    bool lying;
    int columns, rows;
  } cases[] = {
    { 0, 0, false, 1, 1 },    { 188, 243, false, 1, 1 }, { 189, 100, true, 1, 1 },
    { 275, 156, true, 1, 1 }, { 150, 250, false, 1, 2 }, { 300, 220, false, 2, 1 },
    { 500, 150, true, 2, 1 }, { 700, 140, true, 3, 1 },  { 366, 466, false, 2, 2 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfTiling tiling;
      const PfBox field = { { -10, 20 }, { -10 + cases[i].width, 20 + cases[i].height } };
      g_assert_true (lay_out (&tiling, "A4", field, 10, NULL));
      g_test_message ("%g by %g: %d by %d", cases[i].width, cases[i].height, tiling.columns,
                      tiling.rows);
      g_assert_cmpint (tiling.width > tiling.height, ==, cases[i].lying);
      g_assert_cmpint (tiling.columns, ==, cases[i].columns);
      g_assert_cmpint (tiling.rows, ==, cases[i].rows);
    }
}

static PfBox
part_of_field (const PfTiling *tiling, size_t n)
{
  const PfPoint corner = pf_tiling_corner (tiling, n);
  return (PfBox){ corner,
                  { corner.x + tiling->window.max.x - tiling->window.min.x,
                    corner.y + tiling->window.max.y - tiling->window.min.y } };
}

static bool
is_inside (PfBox box, PfPoint p)
{
  return p.x >= box.min.x && p.x <= box.max.x && p.y >= box.min.y && p.y <= box.max.y;
}

/* Any square of the overlap's size lies whole on some sheet; so does a join mark on two. */
static void
test_cover (void)
{
  static const char *const papers[] = { "A4", "A3", "Letter" };
  for (int i = 0; i < 300; i++)
    {
      PfTiling tiling;
      const PfPoint min = { g_test_rand_double_range (-500, 500),
                            g_test_rand_double_range (-500, 500) };
      const PfBox field = { min,
                            { min.x + g_test_rand_double_range (20, 1500),
                              min.y + g_test_rand_double_range (20, 1500) } };
      const double overlap = g_test_rand_double_range (10, 25);
      g_assert_true (lay_out (&tiling, papers[i % 3], field, overlap, NULL));
      const size_t n = pf_tiling_n_sheets (&tiling);
      for (int p = 0; p < 50; p++)
        {
          const double side = 0.999 * fmin (overlap, tiling.overlap);
          const PfPoint a = { g_test_rand_double_range (field.min.x, field.max.x - side),
                              g_test_rand_double_range (field.min.y, field.max.y - side) };
          bool whole = false;
          int shown = 0;
          for (size_t s = 0; s < n; s++)
            shown += is_inside (part_of_field (&tiling, s), a);
          g_assert_cmpint (pf_tiling_overlaps (&tiling, a), ==, shown > 1);
          for (size_t s = 0; s < n && !whole; s++)
            whole = is_inside (part_of_field (&tiling, s), a) &&
                    is_inside (part_of_field (&tiling, s), (PfPoint){ a.x + side, a.y + side });
          g_assert_true (whole);
        }
      /* Furniture and drawing keep to rooms of their own. */
      g_assert_false (tiling.window.max.y > tiling.strip.min.y);
      g_assert_cmpfloat (tiling.window.min.x, >=, tiling.frame.min.x + PF_GUTTER);
      g_assert_true (is_inside (tiling.frame, tiling.window.max));
    }
}

static void
test_joins (void)
{
  PfTiling tiling;
  const PfBox field = { { 0, 0 }, { 900, 700 } };
  g_assert_true (lay_out (&tiling, "A4", field, 10, NULL));
  PfPlacer *placer = pf_placer_new (4);
  g_autoptr (GArray) joins = pf_joins_new (&tiling, placer);
  /* Two for each pair of neighbours. */
  const int neighbours = (tiling.columns - 1) * tiling.rows + tiling.columns * (tiling.rows - 1);
  g_assert_cmpint ((int) joins->len, ==, 2 * neighbours);
  g_autoptr (GHashTable) letters = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < joins->len; i++)
    {
      PfJoin *join = &g_array_index (joins, PfJoin, i);
      g_assert_true (g_hash_table_add (letters, join->letters));
      int shown = 0;
      for (size_t s = 0; s < pf_tiling_n_sheets (&tiling); s++)
        shown += is_inside (pf_box_grown (part_of_field (&tiling, s), -2), join->at);
      g_assert_cmpint (shown, >=, 2);
    }
  g_assert_true (g_hash_table_contains (letters, "A"));
  g_assert_true (g_hash_table_contains (letters, "Z"));
  g_assert_true (g_hash_table_contains (letters, "AA"));
  pf_placer_free (placer);
}

static void
test_too_many (void)
{
  PfTiling tiling;
  g_autoptr (GError) error = NULL;
  const PfBox field = { { 0, 0 }, { 1e5, 1e5 } };
  g_assert_false (lay_out (&tiling, "A4", field, 10, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
  g_assert_nonnull (strstr (error->message, "A4"));
}

/* The join marks of one page by their letters. */
static GHashTable *
marks_of (xmlDoc *page)
{
  GHashTable *marks = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GPtrArray) texts = elements_of (page, "join-letters", "text");
  for (guint i = 0; i < texts->len; i++)
    {
      const xmlNode *text = g_ptr_array_index (texts, i);
      const PfPoint at = { number_of (text, "x"), number_of (text, "y") };
      g_hash_table_insert (marks, text_of (text), g_memdup2 (&at, sizeof at));
    }
  return marks;
}

/* Where page `page` lies beside one that lies at `other_at`; gives whether they share a mark. */
static bool
joined (GHashTable *page, GHashTable *other, PfPoint other_at, PfPoint *at)
{
  GHashTableIter iter;
  gpointer letters, mark;
  bool found = false;
  g_hash_table_iter_init (&iter, page);
  while (g_hash_table_iter_next (&iter, &letters, &mark))
    {
      const PfPoint *here = mark, *there = g_hash_table_lookup (other, letters);
      if (!there)
        continue;
      const PfPoint lies = { other_at.x + there->x - here->x, other_at.y + there->y - here->y };
      /* All marks that two pages share agree. */
      g_assert_true (!found || pf_point_distance (lies, *at) < 0.003);
      *at = lies;
      found = true;
    }
  return found;
}

/* Finds where each page lies, from the marks alone. */
static PfPoint *
join_pages (xmlDoc **pages, size_t n)
{
  PfPoint *at = g_new0 (PfPoint, n);
  bool *placed = g_new0 (bool, n);
  GHashTable **marks = g_new (GHashTable *, n);
  for (size_t i = 0; i < n; i++)
    marks[i] = marks_of (pages[i]);
  placed[0] = true;
  for (size_t round = 0; round < n; round++)
    for (size_t i = 0; i < n; i++)
      for (size_t j = 0; j < n && !placed[i]; j++)
        placed[i] = placed[j] && joined (marks[i], marks[j], at[j], &at[i]);
  for (size_t i = 0; i < n; i++)
    {
      g_assert_true (placed[i]);
      g_hash_table_unref (marks[i]);
    }
  g_free (marks);
  g_free (placed);
  return at;
}

/* Adds p unless a point within a hundredth of a mm is there. */
static void
add_distinct (GArray *points, PfPoint p)
{
  for (guint i = 0; i < points->len; i++)
    if (pf_point_distance (g_array_index (points, PfPoint, i), p) < 0.01)
      return;
  g_array_append_val (points, p);
}

/* Puts the pages together by their join marks, as a lace maker does, and counts the pins that are
 * there: those of the filling. */
static void
check_joined (const char *demo, double gap, double enlarge, const char *paper)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking = sample_demo (demo, "torchon", gap, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  PfSheetSettings settings = sample_settings (paper);
  settings.enlarge = enlarge;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  const size_t n = pf_sheet_n_pages (sheet);
  g_assert_cmpuint (n, >, 1);
  xmlDoc **pages = g_new (xmlDoc *, n);
  for (size_t i = 0; i < n; i++)
    pages[i] = read_page (pf_sheet_page_svg (sheet, i));
  PfPoint *at = join_pages (pages, n);
  g_autoptr (GArray) pins = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (size_t i = 0; i < n; i++)
    {
      const PfBox window = window_of (pages[i]);
      g_autoptr (GPtrArray) circles = elements_of (pages[i], "pins", "circle");
      for (guint c = 0; c < circles->len; c++)
        {
          const xmlNode *circle = g_ptr_array_index (circles, c);
          const PfPoint p = { number_of (circle, "cx"), number_of (circle, "cy") };
          if (is_inside (window, p))
            add_distinct (pins, pf_point_add (p, at[i], 1));
        }
      xmlFreeDoc (pages[i]);
    }
  g_assert_cmpuint (pins->len, ==, pf_pricking_counts (pricking).pins);
  g_free (at);
  g_free (pages);
  pf_pricking_free (pricking);
}

static void
test_joined (void)
{
  check_joined ("swift", 6, 1, "A4");
  check_joined ("quince-flower", 8, 5, "Letter");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/pages/papers", test_papers);
  g_test_add_func ("/sheet/pages/choices", test_choices);
  g_test_add_func ("/sheet/pages/cover", test_cover);
  g_test_add_func ("/sheet/pages/joins", test_joins);
  g_test_add_func ("/sheet/pages/too-many", test_too_many);
  g_test_add_func ("/sheet/pages/joined", test_joined);
  return g_test_run ();
}
