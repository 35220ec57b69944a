/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Books, read back by Poppler: pages in their order with their numbers, bookmarks that lead to the
 * pages that hold their words, nothing outside the paper; and in the drawings of repeats no label
 * over another.
 */
#include <math.h>
#include <string.h>

#include <glib/gstdio.h>
#include <poppler.h>

#include "repeat-kinds.h"
#include "samples.h"
#include "teaching.h"

#define ALL                                                                                        \
  (PF_BOOK_PRICKING | PF_BOOK_NOTES | PF_BOOK_WORKSHEET | PF_BOOK_ANSWERS | PF_BOOK_REPORT)

static PopplerDocument *
open_book (const PfBook *book)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL;
  g_close (g_file_open_tmp ("book-XXXXXX.pdf", &name, &error), NULL);
  g_assert_true (pf_book_save (book, name, &error));
  g_assert_no_error (error);
  char *bytes;
  gsize n;
  g_assert_true (g_file_get_contents (name, &bytes, &n, &error));
  g_remove (name);
  g_autoptr (GBytes) all = g_bytes_new_take (bytes, n);
  PopplerDocument *document = poppler_document_new_from_bytes (all, NULL, &error);
  g_assert_no_error (error);
  return document;
}

static char *
text_on (PopplerDocument *document, int page)
{
  PopplerPage *p = poppler_document_get_page (document, page);
  char *text = poppler_page_get_text (p);
  g_object_unref (p);
  return text;
}

/* Words as they are found on a page, however its lines are broken. */
static char *
one_line (const char *text)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \n", -1);
  GString *line = g_string_new (NULL);
  for (char **word = words; *word; word++)
    if (**word)
      g_string_append_printf (line, "%s%s", line->len > 0 ? " " : "", *word);
  return g_string_free (line, FALSE);
}

static size_t
check_marks (PopplerDocument *document, PopplerIndexIter *iter, int *last_page)
{
  size_t n = 0;
  if (!iter)
    return 0;
  do
    {
      PopplerAction *action = poppler_index_iter_get_action (iter);
      g_assert_cmpint (action->type, ==, POPPLER_ACTION_GOTO_DEST);
      const int page = action->goto_dest.dest->page_num - 1;
      g_assert_cmpint (page, >=, *last_page);
      *last_page = page;
      /* The first part is the drawing, which has the piece's name as its heading. */
      if (page > 0)
        {
          g_autofree char *text = text_on (document, page);
          g_autofree char *line = one_line (text), *wanted = one_line (action->goto_dest.title);
          g_assert_nonnull (strstr (line, wanted));
        }
      poppler_action_free (action);
      n++;
      PopplerIndexIter *child = poppler_index_iter_get_child (iter);
      n += check_marks (document, child, last_page);
      if (child)
        poppler_index_iter_free (child);
  } while (poppler_index_iter_next (iter));
  return n;
}

static void
check_inside (PopplerPage *page)
{
  double width, height;
  poppler_page_get_size (page, &width, &height);
  PopplerRectangle *letters;
  guint n;
  g_assert_true (poppler_page_get_text_layout (page, &letters, &n));
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpfloat (letters[i].x1, >=, 8);
      g_assert_cmpfloat (letters[i].x2, <=, width - 8);
      g_assert_cmpfloat (letters[i].y1, >=, 8);
      g_assert_cmpfloat (letters[i].y2, <=, height - 8);
    }
  g_free (letters);
}

static void
test_book (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 5, PF_EDGE_HALF_STITCH, PF_BEADS_WHOLE);
  PfSheetSettings settings = sample_settings ("A4");
  settings.edge_strip = true;
  g_autoptr (PfBook) book = pf_book_new (pricking, ALL, &settings, true, &error);
  g_assert_no_error (error);
  PopplerDocument *document = open_book (book);
  const int n = poppler_document_get_n_pages (document);
  g_assert_cmpint (n, ==, (int) pf_book_n_pages (book));
  for (int p = 0; p < n; p++)
    {
      PopplerPage *page = poppler_document_get_page (document, p);
      g_autofree char *text = poppler_page_get_text (page);
      g_autofree char *number = g_strdup_printf ("%d / %d", p + 1, n);
      g_assert_nonnull (strstr (text, number));
      check_inside (page);
      g_object_unref (page);
    }
  PopplerIndexIter *iter = poppler_index_iter_new (document);
  int last = 0;
  g_assert_cmpuint (check_marks (document, iter, &last), >, 30);
  poppler_index_iter_free (iter);
  g_object_unref (document);
  pf_pricking_free (pricking);
}

/* Every part alone is what it is called; a pricking alone is the same as its sheet but for the
 * numbers. */
static void
test_parts (void)
{
  static const struct {
    PfBookParts part;
    const char *says, *says_not;
  } parts[] = {
    { PF_BOOK_NOTES, "Sew new pair", "Answers" },
    { PF_BOOK_WORKSHEET, "write down the steps", "Sew new pair" },
    { PF_BOOK_ANSWERS, "Sew new pair", "write down the steps" },
    { PF_BOOK_REPORT, "Pair-count report", "Working notes" },
    { PF_BOOK_PRICKING, "Measure both rules", "Pair-count report" },
  };
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 5, PF_EDGE_CLOTH_STITCH, PF_BEADS_NONE);
  const PfSheetSettings settings = sample_settings ("Letter");
  for (size_t k = 0; k < G_N_ELEMENTS (parts); k++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfBook) book = pf_book_new (pricking, parts[k].part, &settings, false, &error);
      g_assert_no_error (error);
      PopplerDocument *document = open_book (book);
      GString *all = g_string_new (NULL);
      for (int p = 0; p < poppler_document_get_n_pages (document); p++)
        {
          g_autofree char *text = text_on (document, p), *line = one_line (text);
          g_string_append_printf (all, "%s ", line);
        }
      g_assert_nonnull (strstr (all->str, parts[k].says));
      g_assert_null (strstr (all->str, parts[k].says_not));
      g_string_free (all, TRUE);
      g_object_unref (document);
    }
  pf_pricking_free (pricking);
}

/* Each kind's steps stand in the notes word for word. */
static void
test_steps (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 5, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const PfSheetSettings settings = sample_settings ("A4");
  g_autoptr (PfBook) book = pf_book_new (pricking, PF_BOOK_NOTES, &settings, false, &error);
  g_assert_no_error (error);
  PopplerDocument *document = open_book (book);
  GString *all = g_string_new (NULL);
  for (int p = 0; p < poppler_document_get_n_pages (document); p++)
    {
      g_autofree char *text = text_on (document, p), *line = one_line (text);
      g_string_append_printf (all, "%s ", line);
    }
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (motif->filling, motif->ground, steps);
  for (guint32 k = 0; k < kinds->n_kinds; k++)
    {
      const PfWorkedRepeat *repeat = &kinds->repeats[kinds->kinds[k].repeats[0]];
      g_autoptr (PfRepeatWork) work =
          pf_repeat_work_new (motif->filling, motif->ground, steps, repeat->i, repeat->j);
      const PfStepNames names = pf_repeat_work_names (work);
      g_autofree char *letters = pf_kind_letters (k);
      g_autofree char *heading = g_strdup_printf ("Kind %s: repeat", letters);
      g_assert_nonnull (strstr (all->str, heading));
      for (guint s = 0; s < work->steps->len; s++)
        {
          g_autofree char *step = pf_explain_step (
              motif->filling, motif->ground, &g_array_index (work->steps, PfWorkStep, s), &names);
          g_assert_nonnull (strstr (all->str, step));
        }
    }
  g_string_free (all, TRUE);
  g_object_unref (document);

  /* And all of them in plain text, as many as there are. */
  g_autofree char *text = pf_steps_text (pricking);
  g_autofree char *last = g_strdup_printf ("%5zu. ", steps->n_steps);
  g_autofree char *more = g_strdup_printf ("%5zu. ", steps->n_steps + 1);
  g_assert_nonnull (strstr (text, last));
  g_assert_null (strstr (text, more));
  pf_pricking_free (pricking);
}

/* A worksheet has a line to write on for each step of each kind. */
static void
test_worksheet (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 5, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const PfSheetSettings settings = sample_settings ("A4");
  g_autoptr (PfBook) book = pf_book_new (pricking, PF_BOOK_WORKSHEET, &settings, false, &error);
  g_assert_no_error (error);
  g_autoptr (PfWorkingSteps) steps = pf_working_steps_new (motif->filling, motif->ground);
  g_autoptr (PfRepeatKinds) kinds = pf_repeat_kinds_new (motif->filling, motif->ground, steps);
  guint n_steps = 0, n_lines = 0;
  for (size_t k = 0; k < kinds->n_kinds; k++)
    {
      const PfWorkedRepeat *repeat = &kinds->repeats[kinds->kinds[k].repeats[0]];
      g_autoptr (PfRepeatWork) work =
          pf_repeat_work_new (motif->filling, motif->ground, steps, repeat->i, repeat->j);
      n_steps += work->steps->len;
    }
  for (size_t n = 0; n < pf_book_n_pages (book); n++)
    {
      double width, height;
      xmlDoc *page = read_page (pf_book_page (book, n, &width, &height));
      g_autoptr (GPtrArray) texts = elements_of (page, "text", "text");
      for (guint t = 0; t < texts->len; t++)
        {
          g_autofree char *text = text_of (g_ptr_array_index (texts, t));
          n_lines += strspn (text, "_") > 10;
        }
      xmlFreeDoc (page);
    }
  g_assert_cmpuint (n_lines, ==, n_steps);
  pf_pricking_free (pricking);
}

/* However many pairs and sewings a repeat has, no number in its table is broken over lines. */
static void
test_many_columns (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking = sample_demo ("pond", "spider-16", 2.5, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfSheetSettings settings = sample_settings ("A4");
  g_autoptr (PfBook) book = pf_book_new (pricking, PF_BOOK_NOTES, &settings, false, &error);
  g_assert_no_error (error);
  guint n_heads = 0, n_cells = 0;
  for (size_t n = 0; n < pf_book_n_pages (book); n++)
    {
      double width, height;
      xmlDoc *page = read_page (pf_book_page (book, n, &width, &height));
      g_autoptr (GPtrArray) heads = elements_of (page, "head", "text");
      g_autoptr (GPtrArray) cells = elements_of (page, "cell", "text");
      for (guint h = 0; h < heads->len; h++)
        {
          g_autofree char *text = text_of (g_ptr_array_index (heads, h));
          g_assert_true (g_regex_match_simple ("^(Repeat|Pair [0-9]+|[a-z])$", text, 0, 0));
        }
      for (guint c = 0; c < cells->len; c++)
        {
          g_autofree char *text = text_of (g_ptr_array_index (cells, c));
          g_assert_true (g_regex_match_simple ("^(hole [0-9]+: )?[0-9]+(–[0-9]+)?$", text, 0, 0));
        }
      n_heads += heads->len;
      n_cells += cells->len;
      xmlFreeDoc (page);
    }
  g_assert_cmpuint (n_heads, >, 100);
  g_assert_cmpuint (n_cells, >, n_heads);
  pf_pricking_free (pricking);
}

/* --- Drawings of repeats ------------------------------------------------------------------------
 */

static bool
meet (PfBox a, PfBox b)
{
  return a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;
}

/* Labels of one page, in the ink of their letters, don't cover each other. */
static guint
check_labels (const char *svg)
{
  xmlDoc *page = read_page (svg);
  g_autoptr (GPtrArray) texts = elements_of (page, "numbers", "text");
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (PfBox));
  for (guint t = 0; t < texts->len; t++)
    {
      const PfBox box = text_ink (g_ptr_array_index (texts, t));
      for (guint b = 0; b < boxes->len; b++)
        g_assert_false (meet (box, g_array_index (boxes, PfBox, b)));
      g_array_append_val (boxes, box);
    }
  xmlFreeDoc (page);
  return texts->len;
}

static void
test_labels (gconstpointer ground)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking = sample_demo ("quince-leaf", ground, 5, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfSheetSettings settings = sample_settings ("A4");
  g_autoptr (PfBook) book = pf_book_new (pricking, PF_BOOK_ANSWERS, &settings, false, &error);
  g_assert_no_error (error);
  guint n_labels = 0;
  for (size_t n = 0; n < pf_book_n_pages (book); n++)
    {
      double width, height;
      n_labels += check_labels (pf_book_page (book, n, &width, &height));
    }
  g_assert_cmpuint (n_labels, >, 100);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  static const char *const grounds[] = { "armure", "torchon", "rose", "point-net" };
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/book/pages", test_book);
  g_test_add_func ("/book/parts", test_parts);
  g_test_add_func ("/book/steps", test_steps);
  g_test_add_func ("/book/worksheet", test_worksheet);
  g_test_add_func ("/book/many-columns", test_many_columns);
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      g_autofree char *path = g_strdup_printf ("/book/labels/%s", grounds[g]);
      g_test_add_data_func (path, grounds[g], test_labels);
    }
  return g_test_run ();
}
