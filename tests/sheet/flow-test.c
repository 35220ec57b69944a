/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Words set on pages, read back from the SVG: where each stands is measured by cairo, and every
 * word says in its own letters where it belongs ("t2r5c1w3": table 2, row 5, column 1, word 3).
 */
#include <math.h>
#include <string.h>

#include "flow.h"
#include "samples.h"

#define TOUCH 0.02 /* mm: three decimals, and hinting */

/* A text as it stands on a page. */
typedef struct {
  guint page;
  char *style, *text;
  PfBox ink;
} Seen;

static void
clear_seen (gpointer data)
{
  Seen *seen = data;
  g_free (seen->style);
  g_free (seen->text);
}

static GArray *
read_pages (const GPtrArray *pages)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Seen));
  g_array_set_clear_func (all, clear_seen);
  for (guint p = 0; p < pages->len; p++)
    {
      xmlDoc *page = read_page (g_ptr_array_index (pages, p));
      g_autoptr (GPtrArray) texts = elements_of (page, NULL, "text");
      for (guint i = 0; i < texts->len; i++)
        {
          xmlNode *node = g_ptr_array_index (texts, i);
          xmlChar *style = xmlGetProp (node->parent, (const xmlChar *) "class");
          const Seen seen = { p, g_strdup ((const char *) style), text_of (node), text_ink (node) };
          xmlFree (style);
          g_array_append_val (all, seen);
        }
      xmlFreeDoc (page);
    }
  return all;
}

static const Seen *
seen_at (const GArray *all, guint i)
{
  return &g_array_index (all, Seen, i);
}

static const PfPaper *
paper_of (const char *name)
{
  g_autoptr (GError) error = NULL;
  const PfPaper *paper = pf_paper_find (name, &error);
  g_assert_no_error (error);
  return paper;
}

static char *
words (GRand *random, const char *name, int least, int most)
{
  GString *text = g_string_new (NULL);
  const int n = g_rand_int_range (random, least, most + 1);
  for (int w = 0; w < n; w++)
    g_string_append_printf (text, "%s%sw%d", w > 0 ? " " : "", name, w);
  return g_string_free (text, FALSE);
}

static bool
overlap (PfBox a, PfBox b)
{
  return a.min.x < b.max.x - TOUCH && b.min.x < a.max.x - TOUCH && a.min.y < b.max.y - TOUCH &&
         b.min.y < a.max.y - TOUCH;
}

/* Within the margins, above the foot, and nothing over anything else. */
static void
check_places (const GArray *all, const PfPaper *paper)
{
  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = seen_at (all, i);
      g_test_message ("page %u, %s, “%s”", seen->page, seen->style, seen->text);
      g_assert_cmpfloat (seen->ink.min.x, >=, PF_FLOW_MARGIN - 0.1);
      g_assert_cmpfloat (seen->ink.max.x, <=, paper->width - PF_FLOW_MARGIN + TOUCH);
      g_assert_cmpfloat (seen->ink.min.y, >=, PF_FLOW_MARGIN - 0.1);
      g_assert_cmpfloat (seen->ink.max.y, <=,
                         paper->height - PF_FLOW_MARGIN - PF_FLOW_FOOT + TOUCH);
      for (guint j = i + 1; j < all->len && seen_at (all, j)->page == seen->page; j++)
        g_assert_false (overlap (seen->ink, seen_at (all, j)->ink));
    }
}

/* The pages of the texts whose words begin with `name`; how many texts there are on each. */
static guint
lines_of (const GArray *all, const char *name, guint n_pages, guint *on_page)
{
  guint n = 0;
  memset (on_page, 0, n_pages * sizeof *on_page);
  for (guint i = 0; i < all->len; i++)
    if (g_str_has_prefix (seen_at (all, i)->text, name))
      {
        on_page[seen_at (all, i)->page]++;
        n++;
      }
  return n;
}

static guint
n_used (const guint *on_page, guint n_pages)
{
  guint n = 0;
  for (guint p = 0; p < n_pages; p++)
    n += on_page[p] > 0;
  return n;
}

/* No page ends with a heading or a table's header, but the last may. */
static void
check_feet (const GArray *all)
{
  for (guint i = 0; i + 1 < all->len; i++)
    if (seen_at (all, i)->page != seen_at (all, i + 1)->page)
      {
        g_assert_cmpstr (seen_at (all, i)->style, !=, "heading");
        g_assert_cmpstr (seen_at (all, i)->style, !=, "head");
      }
}

static void
check_paragraph (const GArray *all, const char *name, guint n_pages)
{
  g_autofree guint *on_page = g_new (guint, n_pages);
  const guint n = lines_of (all, name, n_pages, on_page);
  g_assert_cmpuint (n, >, 0);
  for (guint p = 0; p < n_pages; p++)
    g_assert_true (on_page[p] != 1 || n == 1);
}

/* Each row on one page, below a header that stands there once; the header nowhere else. */
static void
check_table (const GArray *all, const char *name, int n_rows, guint n_pages)
{
  g_autofree guint *rows = g_new0 (guint, n_pages), *on_page = g_new (guint, n_pages);
  for (int r = 0; r < n_rows; r++)
    {
      g_autofree char *row = g_strdup_printf ("%sr%dc", name, r);
      g_assert_cmpuint (lines_of (all, row, n_pages, on_page), >, 0);
      g_assert_cmpuint (n_used (on_page, n_pages), ==, 1);
      for (guint p = 0; p < n_pages; p++)
        rows[p] += on_page[p] > 0;
    }
  g_autofree char *head = g_strdup_printf ("%sh", name);
  lines_of (all, head, n_pages, on_page);
  for (guint p = 0; p < n_pages; p++)
    {
      g_assert_cmpuint (on_page[p], ==, rows[p] > 0 ? 2 : 0); /* of two columns */
      g_assert_true (rows[p] != 1 || n_rows == 1);
    }
}

typedef struct {
  char *name;
  char kind; /* p, h, i, t, b */
  int n;     /* rows */
} Block;

static void
clear_block (gpointer block)
{
  g_free (((Block *) block)->name);
}

static void
add_table (PfFlow *flow, GRand *random, const char *name, int n_rows)
{
  static const PfFlowColumn columns[] = { PF_FLOW_NUMBERS, PF_FLOW_WORDS };
  g_autofree char *first = g_strdup_printf ("%sh0", name), *second = g_strdup_printf ("%sh1", name);
  const char *const heads[] = { first, second };
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  for (int r = 0; r < n_rows; r++)
    {
      g_autofree char *long_cell = g_strdup_printf ("%sr%dc1", name, r);
      g_ptr_array_add (cells, g_strdup_printf ("%sr%dc0", name, r));
      g_ptr_array_add (cells, words (random, long_cell, 1, 40));
    }
  const PfFlowTable table = { .columns = columns,
                              .n_columns = 2,
                              .heads = heads,
                              .cells = (const char *const *) cells->pdata,
                              .n_rows = (size_t) n_rows,
                              .total = g_rand_boolean (random) };
  pf_flow_table (flow, &table);
}

typedef struct {
  PfBox boxes[40];
  int n;
} Drawn;

static void
draw_sample (PfPage *page, PfBox box, gpointer data)
{
  Drawn *drawn = data;
  pf_page_group (page, "sample", (PfInk){ .stroke = "#000", .width = 0.1 });
  pf_page_box (page, box);
  pf_page_group_end (page);
  g_assert_cmpint (drawn->n, <, (int) G_N_ELEMENTS (drawn->boxes));
  drawn->boxes[drawn->n++] = box;
}

static void
add_block (PfFlow *flow, GRand *random, Block *block, Drawn *drawn)
{
  g_autofree char *text = words (random, block->name, 1, block->kind == 'h' ? 3 : 90);
  const PfFlowText beside[] = { { NULL, text }, { "1.", block->name } };
  switch (block->kind)
    {
    case 'h':
      pf_flow_heading (flow, g_rand_int_range (random, 1, 4), text);
      break;
    case 'i':
      pf_flow_bullet (flow, text);
      break;
    case 't':
      block->n = g_rand_int_range (random, 1, 25);
      add_table (flow, random, block->name, block->n);
      break;
    case 'b':
      pf_flow_box (flow, &(PfFlowBox){ .width = g_rand_double_range (random, 20, 180),
                                       .height = g_rand_double_range (random, 5, 120),
                                       .draw = draw_sample,
                                       .data = drawn,
                                       .caption = block->name,
                                       .beside = beside,
                                       .n_beside = 2 });
      break;
    default:
      pf_flow_paragraph (flow, text);
    }
}

/* Every word once, in its order, but for headers, running titles, and labels. */
static void
check_words (const GArray *all, const char *name, GRand *copy, int most)
{
  g_autofree char *wanted = words (copy, name, 1, most);
  g_autoptr (GString) found = g_string_new (NULL);
  for (guint i = 0; i < all->len; i++)
    if (g_str_has_prefix (seen_at (all, i)->text, name))
      g_string_append_printf (found, "%s%s", found->len ? " " : "", seen_at (all, i)->text);
  g_assert_cmpstr (found->str, ==, wanted);
}

static void
check_bookmarks (const GArray *bookmarks, const GArray *blocks, const GArray *all)
{
  guint n = 0;
  for (guint b = 0; b < blocks->len; b++)
    {
      const Block *block = &g_array_index (blocks, Block, b);
      if (block->kind != 'h')
        continue;
      const PfFlowBookmark *bookmark = &g_array_index (bookmarks, PfFlowBookmark, n++);
      g_assert_true (g_str_has_prefix (bookmark->text, block->name));
      for (guint i = 0; i < all->len; i++)
        if (g_str_has_prefix (seen_at (all, i)->text, block->name))
          {
            g_assert_cmpuint (seen_at (all, i)->page, ==, bookmark->page);
            break;
          }
    }
  g_assert_cmpuint (bookmarks->len, ==, n);
}

/* A document of blocks in any order, on each paper. */
static void
test_any (void)
{
  size_t n_papers;
  const PfPaper *papers = pf_papers (&n_papers);
  for (guint round = 0; round < 12; round++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed ((guint32) g_test_rand_int ());
      const PfPaper *paper = &papers[round % n_papers];
      g_autoptr (PfFlow) flow = pf_flow_new (paper, "Running title");
      g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (Block));
      g_array_set_clear_func (blocks, clear_block);
      Drawn drawn = { .n = 0 };
      int n_boxes = 0;
      for (int b = 0; b < 40; b++)
        {
          Block block = { NULL, "phitbp"[g_rand_int_range (random, 0, 6)], 0 };
          block.name = g_strdup_printf ("%c%d.", block.kind, b);
          n_boxes += block.kind == 'b';
          add_block (flow, random, &block, &drawn);
          g_array_append_val (blocks, block);
        }
      GArray *bookmarks;
      g_autoptr (GPtrArray) pages = pf_flow_finish (flow, &bookmarks);
      g_autoptr (GArray) headings = bookmarks;
      g_autoptr (GArray) all = read_pages (pages);
      g_assert_cmpuint (pages->len, >, 1);
      check_places (all, paper);
      check_feet (all);
      check_bookmarks (headings, blocks, all);
      g_assert_cmpint (drawn.n, ==, n_boxes);
      for (guint b = 0; b < blocks->len; b++)
        {
          const Block *block = &g_array_index (blocks, Block, b);
          if (block->kind == 'p')
            check_paragraph (all, block->name, pages->len);
          if (block->kind == 't')
            check_table (all, block->name, block->n, pages->len);
        }
    }
}

/* Nothing is lost, whatever a page ends with. */
static void
test_words (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed ((guint32) g_test_rand_int ());
  g_autoptr (GRand) copy = g_rand_copy (random);
  g_autoptr (PfFlow) flow = pf_flow_new (paper_of ("A4"), "Running title");
  for (int b = 0; b < 30; b++)
    {
      g_autofree char *name = g_strdup_printf ("x%d.", b);
      g_autofree char *text = words (random, name, 1, 300);
      pf_flow_paragraph (flow, text);
    }
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, NULL);
  g_autoptr (GArray) all = read_pages (pages);
  for (int b = 0; b < 30; b++)
    {
      g_autofree char *name = g_strdup_printf ("x%d.", b);
      check_words (all, name, copy, 300);
    }
}

/* What is kept together stays so if it can; drawings stay within the column. */
static void
test_keep (void)
{
  const PfPaper *paper = paper_of ("A4");
  g_autoptr (PfFlow) flow = pf_flow_new (paper, "Running title");
  Drawn drawn = { .n = 0 };
  for (int k = 0; k < 20; k++)
    {
      g_autofree char *name = g_strdup_printf ("k%d.", k);
      pf_flow_keep_begin (flow);
      for (int p = 0; p < 8; p++)
        pf_flow_paragraph (flow, name);
      pf_flow_box (flow,
                   &(PfFlowBox){ .width = 500, .height = 30, .draw = draw_sample, .data = &drawn });
      pf_flow_keep_end (flow);
    }
  pf_flow_new_page (flow);
  pf_flow_box (flow, &(PfFlowBox){ .height = 5000, .draw = draw_sample, .data = &drawn });
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, NULL);
  g_autoptr (GArray) all = read_pages (pages);
  g_autofree guint *on_page = g_new (guint, pages->len);
  for (int k = 0; k < 20; k++)
    {
      g_autofree char *name = g_strdup_printf ("k%d.", k);
      g_assert_cmpuint (lines_of (all, name, pages->len, on_page), ==, 8);
      g_assert_cmpuint (n_used (on_page, pages->len), ==, 1);
    }
  g_assert_cmpint (drawn.n, ==, 21);
  for (int d = 0; d < drawn.n; d++)
    {
      g_assert_cmpfloat (drawn.boxes[d].min.x, >=, PF_FLOW_MARGIN);
      g_assert_cmpfloat (drawn.boxes[d].max.x, <=, paper->width - PF_FLOW_MARGIN + TOUCH);
      g_assert_cmpfloat (drawn.boxes[d].max.y, <=, paper->height - PF_FLOW_MARGIN - PF_FLOW_FOOT);
    }
}

/* A high drawing whose words don't fit beside it goes to the next page with its heading, and with
 * the first of its words. */
static void
test_high_drawing (void)
{
  const PfPaper *paper = paper_of ("A4");
  g_autoptr (PfFlow) flow = pf_flow_new (paper, "Running title");
  PfFlowText words[60];
  for (guint w = 0; w < G_N_ELEMENTS (words); w++)
    words[w] = (PfFlowText){ "–", w == 0 ? "firstofall" : "more" };
  for (int p = 0; p < 20; p++)
    pf_flow_paragraph (flow, "before");
  pf_flow_keep_begin (flow);
  pf_flow_heading (flow, 3, "Heading");
  pf_flow_paragraph (flow, "below it");
  Drawn drawn = { .n = 0 };
  pf_flow_box (flow, &(PfFlowBox){ .height = 0.75 * pf_flow_height (flow),
                                   .draw = draw_sample,
                                   .data = &drawn,
                                   .beside = words,
                                   .n_beside = G_N_ELEMENTS (words) });
  pf_flow_keep_end (flow);
  g_autoptr (GArray) headings = NULL;
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, &headings);
  g_assert_cmpuint (g_array_index (headings, PfFlowBookmark, 0).page, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (pages, 1), "firstofall"));
  g_assert_cmpint (drawn.n, ==, 1);
}

/* Numbers end under each other; a table too wide for the page is made to fit. */
static void
test_columns (void)
{
  const PfPaper *paper = paper_of ("A4");
  g_autoptr (PfFlow) flow = pf_flow_new (paper, "Running title");
  static const PfFlowColumn columns[] = { PF_FLOW_NUMBERS, PF_FLOW_WORDS, PF_FLOW_NUMBERS };
  static const char *const heads[] = { "Pair", "Way", "mm" };
  static const char *const cells[] = { "1", "short", "12.5", "100", "words", "7.0" };
  pf_flow_table (flow, &(PfFlowTable){ NULL, columns, 3, heads, cells, 2, false, false });
  static const char *const wide[] = {
    "12345678901234567890123456789012345678901234567890",
    "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenverwaltungsvorschrift",
    "12345678901234567890123456789012345678901234567890",
  };
  pf_flow_table (flow, &(PfFlowTable){ "Wide", columns, 3, NULL, wide, 1, false, false });
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, NULL);
  g_autoptr (GArray) all = read_pages (pages);
  check_places (all, paper);
  double right[4] = { 0 };
  for (guint i = 0; i < all->len; i++)
    {
      const char *ends[] = { "1", "100", "12.5", "7.0" };
      for (int e = 0; e < 4; e++)
        if (g_str_equal (seen_at (all, i)->text, ends[e]))
          right[e] = seen_at (all, i)->ink.max.x;
    }
  g_assert_cmpfloat_with_epsilon (right[0], right[1], 0.2); /* the digits' own bearings */
  g_assert_cmpfloat_with_epsilon (right[2], right[3], 0.2);
  g_assert_cmpfloat (right[3], >, right[1] + 10);
}

/* The foot stands below all else, on the paper. */
static void
test_foot (void)
{
  const PfPaper *paper = paper_of ("A4");
  g_autoptr (PfFlow) flow = pf_flow_new (paper, "A title & more");
  pf_flow_paragraph (flow, "text");
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, NULL);
  g_autofree char *with = pf_flow_with_foot (
      g_ptr_array_index (pages, 0), paper,
      "Take care: pins and needles are sharp; keep pins & small beads away from children; work in "
      "good light, and rest your eyes now and then, as you would with any fine work of the hands.",
      3, 12);
  xmlDoc *page = read_page (with);
  g_autoptr (GPtrArray) foot = elements_of (page, "foot", "text");
  g_assert_cmpuint (foot->len, ==, 3);
  g_autofree char *number = text_of (g_ptr_array_index (foot, 0));
  g_assert_cmpstr (number, ==, "3 / 12");
  for (guint i = 0; i < foot->len; i++)
    {
      const PfBox ink = text_ink (g_ptr_array_index (foot, i));
      g_assert_cmpfloat (ink.min.y, >, paper->height - PF_FLOW_MARGIN - PF_FLOW_FOOT);
      g_assert_cmpfloat (ink.max.y, <=, paper->height - PF_FLOW_MARGIN + TOUCH);
      g_assert_cmpfloat (ink.max.x, <=, paper->width - PF_FLOW_MARGIN + TOUCH);
      if (i > 0)
        g_assert_false (overlap (ink, text_ink (g_ptr_array_index (foot, 0))));
    }
  xmlFreeDoc (page);
}

/* Without anything set there is one page, with its title. */
static void
test_empty (void)
{
  g_autoptr (PfFlow) flow = pf_flow_new (paper_of ("Letter"), "Alone");
  pf_flow_paragraph (flow, "  \n ");
  pf_flow_heading (flow, 1, "");
  pf_flow_table (flow, &(PfFlowTable){ .n_rows = 0 });
  GArray *bookmarks;
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, &bookmarks);
  g_assert_cmpuint (bookmarks->len, ==, 0);
  g_array_unref (bookmarks);
  g_assert_cmpuint (pages->len, ==, 1);
  g_autoptr (GArray) all = read_pages (pages);
  g_assert_cmpuint (all->len, ==, 1);
  g_assert_cmpstr (seen_at (all, 0)->text, ==, "Alone");
}

/* A long and narrow table's rows stand beside each other, read along and then down, each under the
 * header of its block, and all of them once. */
static void
test_side_by_side (void)
{
  static const PfFlowColumn columns[] = { PF_FLOW_NUMBERS, PF_FLOW_NUMBERS };
  const char *const heads[] = { "first", "second" };
  const guint n_rows = 101;
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  for (guint r = 0; r < n_rows; r++)
    for (int c = 0; c < 2; c++)
      g_ptr_array_add (cells, g_strdup_printf ("%u%c", r, "ab"[c]));
  g_autoptr (PfFlow) flow = pf_flow_new (paper_of ("A4"), "Side by side");
  pf_flow_table (flow, &(PfFlowTable){ .columns = columns,
                                       .n_columns = 2,
                                       .heads = heads,
                                       .cells = (const char *const *) cells->pdata,
                                       .n_rows = n_rows,
                                       .side_by_side = true });
  g_assert_cmpuint (pf_flow_n_pages (flow), ==, 1);
  g_autoptr (GPtrArray) pages = pf_flow_finish (flow, NULL);
  g_assert_cmpuint (pages->len, ==, 1);
  g_autoptr (GArray) all = read_pages (pages);
  double y = 0, x = 0;
  guint next = 0, n_heads = 0, lines = 0;
  for (guint i = 0; i < all->len; i++)
    {
      const Seen *seen = seen_at (all, i);
      n_heads += strcmp (seen->style, "head") == 0;
      if (strcmp (seen->style, "cell") != 0)
        continue;
      g_assert_cmpstr (seen->text, ==, g_ptr_array_index (cells, next++));
      g_assert_cmpfloat (seen->ink.max.x, <, paper_of ("A4")->width - PF_FLOW_MARGIN + TOUCH);
      const bool new_line = seen->ink.min.y > y + 1;
      g_assert_true (new_line || seen->ink.min.x > x);
      lines += new_line;
      y = seen->ink.min.y;
      x = seen->ink.max.x;
    }
  g_assert_cmpuint (next, ==, 2 * n_rows);
  g_assert_cmpuint (n_heads, >=, 6);
  g_assert_cmpuint (lines, ==, (n_rows + n_heads / 2 - 1) / (n_heads / 2));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/flow/any", test_any);
  g_test_add_func ("/sheet/flow/words", test_words);
  g_test_add_func ("/sheet/flow/keep", test_keep);
  g_test_add_func ("/sheet/flow/high-drawing", test_high_drawing);
  g_test_add_func ("/sheet/flow/columns", test_columns);
  g_test_add_func ("/sheet/flow/side-by-side", test_side_by_side);
  g_test_add_func ("/sheet/flow/foot", test_foot);
  g_test_add_func ("/sheet/flow/empty", test_empty);
  return g_test_run ();
}
