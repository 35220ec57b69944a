/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Room for labels: the grid against asking every obstacle, and numbers that never overlap on real
 * sheets, measured by cairo.
 */
#include <math.h>

#include "labels.h"
#include "samples.h"

typedef struct {
  PfPoint a, b;
  bool is_line;
  PfBlock block;
} Obstacle;

/* Whether the line has a point in the box: by the sides of the line on which the corners lie. */
static bool
line_meets (PfPoint a, PfPoint b, PfBox box)
{
  if (fmax (a.x, b.x) < box.min.x || fmin (a.x, b.x) > box.max.x || fmax (a.y, b.y) < box.min.y ||
      fmin (a.y, b.y) > box.max.y)
    return false;
  bool left = false, right = false;
  for (int i = 0; i < 4; i++)
    {
      const PfPoint p = { i & 1 ? box.max.x : box.min.x, i & 2 ? box.max.y : box.min.y };
      const double side = (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
      left = left || side >= 0;
      right = right || side <= 0;
    }
  return left && right;
}

static bool
is_free (const GArray *obstacles, PfBox box, int blocks)
{
  for (guint i = 0; i < obstacles->len; i++)
    {
      const Obstacle *o = &g_array_index (obstacles, Obstacle, i);
      if (!(o->block & blocks))
        continue;
      if (o->is_line ? line_meets (o->a, o->b, box)
                     : o->a.x <= box.max.x && o->b.x >= box.min.x && o->a.y <= box.max.y &&
                           o->b.y >= box.min.y)
        return false;
    }
  return true;
}

static PfPoint
random_point (double size)
{
  return (PfPoint){ g_test_rand_double_range (-size, size),
                    g_test_rand_double_range (-size, size) };
}

static void
test_grid (void)
{
  guint n_free = 0, n_taken = 0;
  for (int round = 0; round < 30; round++)
    {
      PfPlacer *placer = pf_placer_new (g_test_rand_double_range (0.5, 8));
      g_autoptr (GArray) obstacles = g_array_new (FALSE, FALSE, sizeof (Obstacle));
      for (int i = 0; i < 40; i++)
        {
          const PfPoint a = random_point (30);
          PfPoint b = { a.x + g_test_rand_double_range (-9, 9),
                        a.y + g_test_rand_double_range (-9, 9) };
          const PfBlock block = g_test_rand_bit () ? PF_BLOCK_HARD : PF_BLOCK_SOFT;
          const bool is_line = g_test_rand_bit ();
          if (!is_line)
            b = (PfPoint){ a.x + fabs (b.x - a.x) / 4, a.y + fabs (b.y - a.y) / 4 };
          const Obstacle obstacle = { a, b, is_line, block };
          g_array_append_val (obstacles, obstacle);
          if (is_line)
            pf_placer_block_line (placer, a, b, block);
          else
            pf_placer_block_box (placer, (PfBox){ a, b }, block);
        }
      for (int i = 0; i < 300; i++)
        {
          const PfPoint at = random_point (32);
          const PfBox box = { at, { at.x + g_test_rand_double_range (0, 6), at.y + 2 } };
          const int blocks = i % 3 + 1;
          const bool expected = is_free (obstacles, box, blocks);
          g_assert_cmpint (pf_placer_is_free (placer, box, blocks), ==, expected);
          n_free += expected;
          n_taken += !expected;
        }
      pf_placer_free (placer);
    }
  g_assert_cmpuint (n_free, >, 500);
  g_assert_cmpuint (n_taken, >, 500);
}

static bool
anywhere (PfBox box, gconstpointer data)
{
  (void) box;
  (void) data;
  return true;
}

/* Labels for one point: each finds a place of its own, then there is no more room. */
static void
test_same_point (void)
{
  PfPlacer *placer = pf_placer_new (4);
  GArray *labels = g_array_new (FALSE, FALSE, sizeof (PfLabel));
  PfLabel label;
  while (pf_label_place (placer, "88", 2, "#000", (PfPoint){ 5, 5 }, (PfPoint){ 0, -1 }, 6,
                         anywhere, NULL, &label))
    {
      g_assert_cmpfloat (label.box.max.y, <, 5);
      for (guint i = 0; i < labels->len; i++)
        g_assert_false (pf_boxes_meet (g_array_index (labels, PfLabel, i).box, label.box));
      g_array_append_val (labels, label);
    }
  g_assert_cmpuint (labels->len, >=, 5);
  g_assert_cmpuint (labels->len, <, 40);
  g_assert_false (g_array_index (labels, PfLabel, 0).leader);
  g_assert_true (g_array_index (labels, PfLabel, labels->len - 1).leader);
  for (guint i = 0; i < labels->len; i++)
    g_free (g_array_index (labels, PfLabel, i).text);
  g_array_unref (labels);
  pf_placer_free (placer);
}

/* The numbers on one page of a sheet: none over another, all whole in the window, none on a sewing.
 */
static size_t
check_page (const char *svg)
{
  xmlDoc *page = read_page (svg);
  const PfBox window = window_of (page);
  g_autoptr (GPtrArray) texts = elements_of (page, "numbers", "text");
  g_autoptr (GPtrArray) lozenges = elements_of (page, "at-pinhole", "polygon");
  g_autoptr (GPtrArray) slots = elements_of (page, "round-bar", "polygon");
  PfBox *boxes = g_new (PfBox, texts->len + 1);
  for (guint i = 0; i < texts->len; i++)
    {
      boxes[i] = text_ink (g_ptr_array_index (texts, i));
      g_assert_true (boxes[i].min.x > window.min.x && boxes[i].max.x < window.max.x &&
                     boxes[i].min.y > window.min.y && boxes[i].max.y < window.max.y);
      for (guint j = 0; j < i; j++)
        g_assert_false (pf_boxes_meet (boxes[i], boxes[j]));
    }
  for (guint s = 0; s < lozenges->len + slots->len; s++)
    {
      const xmlNode *mark = s < lozenges->len ? g_ptr_array_index (lozenges, s)
                                              : g_ptr_array_index (slots, s - lozenges->len);
      g_autoptr (GArray) points = points_of (mark);
      PfPoint middle = { 0, 0 };
      for (guint p = 0; p < points->len; p++)
        middle = pf_point_add (middle, g_array_index (points, PfPoint, p), 1.0 / points->len);
      for (guint i = 0; i < texts->len; i++)
        g_assert_false (pf_boxes_meet (boxes[i], (PfBox){ middle, middle }));
    }
  const size_t n = texts->len;
  g_free (boxes);
  xmlFreeDoc (page);
  return n;
}

static void
check_sheet (const char *demo, const char *ground, double gap, double enlarge, PfEdgeKind edge)
{
  g_autoptr (GError) error = NULL;
  g_test_message ("%s, %s, %g mm, %g : 1", demo, ground, gap, enlarge);
  PfPricking *pricking = sample_demo (demo, ground, gap, edge, PF_BEADS_NONE);
  PfSheetSettings settings = sample_settings ("A4");
  settings.enlarge = enlarge;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  size_t n = 0;
  for (size_t i = 0; i < pf_sheet_n_pages (sheet); i++)
    n += check_page (pf_sheet_page_svg (sheet, i));
  g_assert_cmpuint (n, >, 0);
  pf_pricking_free (pricking);
}

static void
test_sheets (void)
{
  static const char *const demos[] = { "quince-leaf", "quince-flower", "pond", "swift" };
  static const char *const grounds[] = { "torchon", "armure", "rose", "spider" };
  for (size_t d = 0; d < G_N_ELEMENTS (demos); d++)
    for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
      check_sheet (demos[d], grounds[g], d + g == 0 ? 2 : 3 + (double) ((d + g) % 3), 1,
                   (d + g) % 3 == 0 ? PF_EDGE_CLOTH_STITCH : PF_EDGE_HALF_STITCH);
  check_sheet ("quince-flower", "torchon", 2, 3, PF_EDGE_HALF_STITCH);
  check_sheet ("runner-end", "rose", 4, 1, PF_EDGE_HALF_STITCH);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/labels/grid", test_grid);
  g_test_add_func ("/sheet/labels/same-point", test_same_point);
  g_test_add_func ("/sheet/labels/sheets", test_sheets);
  return g_test_run ();
}
