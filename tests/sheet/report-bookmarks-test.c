/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The bookmarks of the report's own PDF, read back by Poppler: the piece, below it its sections and
 * motifs, below these their own, each of which leads to the page that holds its words; the same
 * headings, in the same order, as in HTML.
 */
#include <string.h>

#include <glib/gstdio.h>
#include <poppler.h>

#include "samples.h"

static PopplerDocument *
saved (const PfPricking *pricking, const char *paper)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL;
  g_close (g_file_open_tmp ("report-XXXXXX.pdf", &name, &error), NULL);
  g_assert_true (
      pf_report_save_on (pricking, pf_paper_find (paper, NULL), 1709164800, name, &error));
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

/* Without any space, as lines are broken anywhere. */
static char *
letters_of (const char *text)
{
  GString *letters = g_string_new (NULL);
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    if (!g_unichar_isspace (g_utf8_get_char (p)))
      g_string_append_unichar (letters, g_utf8_get_char (p));
  return g_string_free (letters, FALSE);
}

static bool
page_has (PopplerDocument *document, int page, const char *words)
{
  PopplerPage *p = poppler_document_get_page (document, page);
  g_autofree char *text = poppler_page_get_text (p);
  g_autofree char *letters = letters_of (text), *wanted = letters_of (words);
  g_object_unref (p);
  return strstr (letters, wanted) != NULL;
}

/* Appends "1 Title" and so on for each bookmark from here on, by its depth. */
static void
walk (PopplerDocument *document, PopplerIndexIter *iter, int level, int *last_page,
      GPtrArray *found)
{
  do
    {
      PopplerAction *action = poppler_index_iter_get_action (iter);
      g_assert_cmpint (action->type, ==, POPPLER_ACTION_GOTO_DEST);
      const int page = action->goto_dest.dest->page_num - 1;
      g_assert_cmpint (page, >=, *last_page);
      *last_page = page;
      g_assert_true (page_has (document, page, action->goto_dest.title));
      g_ptr_array_add (found, g_strdup_printf ("%d %s", level, action->goto_dest.title));
      poppler_action_free (action);
      PopplerIndexIter *child = poppler_index_iter_get_child (iter);
      if (child)
        walk (document, child, level + 1, last_page, found);
      poppler_index_iter_free (child);
  } while (poppler_index_iter_next (iter));
}

static GPtrArray *
bookmarks_of (PopplerDocument *document)
{
  GPtrArray *found = g_ptr_array_new_with_free_func (g_free);
  PopplerIndexIter *iter = poppler_index_iter_new (document);
  int last_page = 0;
  g_assert_nonnull (iter);
  walk (document, iter, 1, &last_page, found);
  poppler_index_iter_free (iter);
  return found;
}

/* "1 Title" and so on for each of the HTML's headings. */
static void
collect_headings (xmlNode *node, GPtrArray *found)
{
  for (; node; node = node->next)
    {
      const char *name = (const char *) node->name;
      if (node->type != XML_ELEMENT_NODE)
        continue;
      if (name[0] == 'h' && g_ascii_isdigit (name[1]) && name[2] == '\0')
        {
          g_autofree char *text = text_of (node);
          g_ptr_array_add (found, g_strdup_printf ("%c %s", name[1], text));
        }
      collect_headings (node->children, found);
    }
}

static void
check_same (const PfPricking *pricking, const GPtrArray *bookmarks)
{
  g_autofree char *html = pf_report_html (pricking);
  g_autoptr (GPtrArray) headings = g_ptr_array_new_with_free_func (g_free);
  xmlDoc *page = xmlReadMemory (html, (int) strlen (html), NULL, NULL, XML_PARSE_NONET);
  collect_headings (xmlDocGetRootElement (page), headings);
  xmlFreeDoc (page);
  g_assert_cmpuint (headings->len, ==, bookmarks->len);
  for (guint h = 0; h < headings->len; h++)
    g_assert_cmpstr (g_ptr_array_index (bookmarks, h), ==, g_ptr_array_index (headings, h));
}

static void
assert_has (const GPtrArray *bookmarks, const char *wanted)
{
  g_assert_true (
      g_ptr_array_find_with_equal_func ((GPtrArray *) bookmarks, wanted, g_str_equal, NULL));
}

static void
test_several (void)
{
  static const char *const wanted[] = {
    "1 Pair-count report: Three",
    "2 Bobbins",
    "2 Winding list",
    "2 Pairs that can go on in the next motif",
    "2 Motif by motif",
    "2 I. Motif “sun”",
    "2 II. Motif “moon”",
    "2 III. Motif “star”",
    "3 Counts",
  };
  PfPricking *pricking = sample_drawing ("Three",
                                         "<circle id='sun' cx='40' cy='40' r='12'/>"
                                         "<circle id='moon' cx='90' cy='40' r='20'/>"
                                         "<circle id='star' cx='140' cy='40' r='9'/>",
                                         "torchon", 4);
  PopplerDocument *document = saved (pricking, "A4");
  g_autoptr (GPtrArray) bookmarks = bookmarks_of (document);
  for (size_t w = 0; w < G_N_ELEMENTS (wanted); w++)
    assert_has (bookmarks, wanted[w]);
  check_same (pricking, bookmarks);
  g_object_unref (document);
  pf_pricking_free (pricking);
}

static void
test_one (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  PopplerDocument *document = saved (pricking, "Letter");
  g_autoptr (GPtrArray) bookmarks = bookmarks_of (document);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_autofree char *named = g_strdup_printf ("2 Motif “%s”", motif->name);
  assert_has (bookmarks, "2 Winding list");
  assert_has (bookmarks, named);
  check_same (pricking, bookmarks);
  g_object_unref (document);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/report-bookmarks/several", test_several);
  g_test_add_func ("/sheet/report-bookmarks/one", test_one);
  return g_test_run ();
}
