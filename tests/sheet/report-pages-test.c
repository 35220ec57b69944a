/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The report as HTML and PDF, read back by libxml2 and Poppler: that it is well made, says the
 * numbers of the JSON report, and that nothing on its pages is cut off or lies over anything else.
 */
#include <math.h>
#include <string.h>

#include <json-glib/json-glib.h>
#include <libxml/HTMLparser.h>
#include <poppler.h>

#include "samples.h"

#include "report-parts.h"

static void
choose_thread (PfPricking *pricking)
{
  PfThreadUse use = pf_thread_use_default ();
  const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, 0))->filling;
  const guint32 entering = filling->sewings[filling->pairs[1].sewn_in].entering;
  use.wraps_per_cm = 27;
  pf_thread_use_set_colour (&use, pf_crossing_line (filling, entering), PF_BOBBIN_LEFT, "#aa0000");
  pf_pricking_set_thread (pricking, &use);
  pf_thread_use_clear (&use);
}

static PfPricking *
leaf_in_torchon (void)
{
  return sample_demo ("quince-leaf", "torchon", 4, PF_EDGE_CLOTH_STITCH, PF_BEADS_NONE);
}

static PfPricking *
leaf_in_armure (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  choose_thread (pricking);
  pricking->notes = g_strdup ("Linen 80/2, wound double.\n\nFor <the> christening & later.");
  return pricking;
}

static PfPricking *
runner (void)
{
  PfPricking *pricking = sample_demo ("runner-end", "rose", 6, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  choose_thread (pricking);
  return pricking;
}

static PfPricking *
two_motifs (void)
{
  return sample_drawing ("Two",
                         "<circle id='a-name-far-too-long-for-the-column-of-any-table-on-paper' "
                         "cx='40' cy='40' r='20'/><circle id='moon' cx='90' cy='40' r='15'/>",
                         "torchon", 4);
}

static PfPricking *(*const pieces[]) (void) = { leaf_in_torchon, leaf_in_armure, runner,
                                                two_motifs };

/* --- HTML ---------------------------------------------------------------------------------------
 */

static void
count_error (void *data, const xmlError *error)
{
  g_test_message ("line %d: %s", error->line, error->message);
  (*(int *) data)++;
}

typedef struct {
  int n_tables, n_heads, n_headers;
} HtmlSeen;

/* No scripts, nothing from elsewhere, every header with its scope, links that lead somewhere. */
static void
walk_html (xmlNode *node, HtmlSeen *seen, GHashTable *ids, GPtrArray *links)
{
  for (; node; node = node->next)
    {
      if (node->type != XML_ELEMENT_NODE)
        continue;
      const char *name = (const char *) node->name;
      xmlChar *scope = xmlGetProp (node, (const xmlChar *) "scope");
      xmlChar *href = xmlGetProp (node, (const xmlChar *) "href");
      xmlChar *id = xmlGetProp (node, (const xmlChar *) "id");
      g_assert_cmpstr (name, !=, "script");
      g_assert_cmpstr (name, !=, "link");
      g_assert_null (xmlHasProp (node, (const xmlChar *) "src"));
      g_assert_true ((strcmp (name, "th") == 0) == (scope != NULL));
      seen->n_headers += scope != NULL;
      seen->n_tables += strcmp (name, "table") == 0;
      seen->n_heads += strcmp (name, "thead") == 0;
      if (id)
        g_assert_true (g_hash_table_add (ids, g_strdup ((const char *) id)));
      if (href)
        g_ptr_array_add (links, g_strdup ((const char *) href));
      xmlFree (scope);
      xmlFree (href);
      xmlFree (id);
      walk_html (node->children, seen, ids, links);
    }
}

static void
check_tree (xmlDoc *page)
{
  xmlNode *root = xmlDocGetRootElement (page);
  HtmlSeen seen = { 0 };
  g_autoptr (GHashTable) ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) links = g_ptr_array_new_with_free_func (g_free);
  xmlChar *lang = xmlGetProp (root, (const xmlChar *) "lang");
  g_assert_cmpstr ((const char *) lang, ==, "en");
  xmlFree (lang);
  walk_html (root, &seen, ids, links);
  g_assert_cmpint (seen.n_tables, >, 4);
  g_assert_cmpint (seen.n_heads, >, 1);
  g_assert_cmpint (seen.n_headers, >, 40);
  g_assert_cmpuint (links->len, >=, 3);
  for (guint i = 0; i < links->len; i++)
    {
      const char *link = g_ptr_array_index (links, i);
      g_assert_cmpint (link[0], ==, '#');
      g_assert_true (g_hash_table_contains (ids, link + 1));
    }
}

/* Every row as wide as its table's first: a rectangle of cells. */
static void
check_rows (xmlDoc *page)
{
  g_autoptr (GPtrArray) rows = elements_of (page, NULL, "tr");
  g_assert_cmpuint (rows->len, >, 40);
  for (guint r = 0; r < rows->len; r++)
    {
      xmlNode *row = g_ptr_array_index (rows, r), *table = row->parent->parent;
      xmlNode *part = xmlFirstElementChild (table);
      if (strcmp ((const char *) part->name, "caption") == 0)
        part = xmlNextElementSibling (part);
      xmlNode *first = xmlFirstElementChild (part);
      g_assert_cmpstr ((const char *) table->name, ==, "table");
      g_assert_cmpuint (xmlChildElementCount (row), ==, xmlChildElementCount (first));
    }
}

static void
test_html (void)
{
  for (size_t p = 0; p < G_N_ELEMENTS (pieces); p++)
    {
      PfPricking *pricking = pieces[p]();
      g_autofree char *html = pf_report_html (pricking);
      const int n = (int) strlen (html);
      int n_errors = 0;
      g_assert_true (g_str_has_prefix (html, "<!DOCTYPE html>\n"));
      xmlSetStructuredErrorFunc (&n_errors, (xmlStructuredErrorFunc) (void (*) (void)) count_error);
      htmlDocPtr page = htmlReadMemory (html, n, NULL, "UTF-8", HTML_PARSE_NONET);
      xmlDoc *as_xml = xmlReadMemory (html, n, NULL, NULL, XML_PARSE_NONET);
      xmlSetStructuredErrorFunc (NULL, NULL);
      g_assert_cmpint (n_errors, ==, 0);
      g_assert_nonnull (page);
      g_assert_nonnull (as_xml);
      check_tree (page);
      check_rows (page);
      if (pricking->notes)
        {
          g_assert_nonnull (strstr (html, "<p>For &lt;the&gt; christening &amp; later.</p>"));
          g_assert_nonnull (strstr (html, "style=\"background: #aa0000\"></span>#aa0000</td>"));
        }
      xmlFreeDoc (page);
      xmlFreeDoc (as_xml);
      pf_pricking_free (pricking);
    }
}

/* --- PDF ----------------------------------------------------------------------------------------
 */

static PopplerDocument *
pdf_of (const PfPricking *pricking, const PfPaper *paper)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfReportParts) parts = pf_report_parts_new (pricking);
  g_autoptr (GByteArray) pdf = pf_report_parts_pdf (parts, paper, 1709164800, &error);
  g_assert_no_error (error);
  g_autoptr (GBytes) bytes = g_byte_array_free_to_bytes (g_steal_pointer (&pdf));
  PopplerDocument *document = poppler_document_new_from_bytes (bytes, NULL, &error);
  g_assert_no_error (error);
  return document;
}

typedef struct {
  gunichar letter;
  PopplerRectangle box;
} Letter;

/* From line to line, then along each. */
static int
compare_letters (gconstpointer a, gconstpointer b)
{
  const PopplerRectangle *x = &((const Letter *) a)->box, *y = &((const Letter *) b)->box;
  const double down = round (x->y2) - round (y->y2), along = x->x1 - y->x1;
  return down != 0 ? (down > 0) - (down < 0) : (along > 0) - (along < 0);
}

/* Puts letters together that stand on one line of the page, whatever columns Poppler sees. */
static void
append_lines (GString *text, PopplerPage *page)
{
  g_autofree char *plain = poppler_page_get_text (page);
  PopplerRectangle *boxes;
  guint n;
  g_assert_true (poppler_page_get_text_layout (page, &boxes, &n));
  g_assert_cmpint (g_utf8_strlen (plain, -1), ==, n);
  g_autoptr (GArray) letters = g_array_new (FALSE, FALSE, sizeof (Letter));
  const char *c = plain;
  for (guint i = 0; i < n; i++, c = g_utf8_next_char (c))
    {
      const Letter letter = { g_utf8_get_char (c), boxes[i] };
      if (!g_unichar_isspace (letter.letter))
        g_array_append_val (letters, letter);
    }
  g_array_sort (letters, compare_letters);
  for (guint i = 0; i < letters->len; i++)
    {
      const Letter *letter = &g_array_index (letters, Letter, i), *before = letter - 1;
      if (i > 0 && round (letter->box.y2) != round (before->box.y2))
        g_string_append_c (text, '\n');
      else if (i > 0 && letter->box.x1 > before->box.x2 + 1)
        g_string_append_c (text, ' ');
      g_string_append_unichar (text, letter->letter);
    }
  g_string_append_c (text, '\n');
  g_free (boxes);
}

/* All text, page by page, as it stands on lines. */
static char *
text_of_pdf (PopplerDocument *document)
{
  GString *all = g_string_new (NULL);
  for (int p = 0; p < poppler_document_get_n_pages (document); p++)
    {
      PopplerPage *page = poppler_document_get_page (document, p);
      append_lines (all, page);
      g_object_unref (page);
    }
  return g_string_free (all, FALSE);
}

/* The letters' boxes lie on the page, within its margins, and none over another. */
static void
check_layout (PopplerPage *page)
{
  const double margin = PF_FLOW_MARGIN * 72 / 25.4;
  double width, height;
  PopplerRectangle *boxes;
  guint n;
  poppler_page_get_size (page, &width, &height);
  g_assert_true (poppler_page_get_text_layout (page, &boxes, &n));
  g_assert_cmpuint (n, >, 100);
  for (guint i = 0; i < n; i++)
    {
      const PopplerRectangle *a = &boxes[i];
      if (a->x2 - a->x1 < 0.01) /* a line's end */
        continue;
      g_assert_cmpfloat (a->x1, >=, margin - 1);
      g_assert_cmpfloat (a->x2, <=, width - margin + 1);
      g_assert_cmpfloat (a->y1, >=, margin - 2);
      g_assert_cmpfloat (a->y2, <=, height - margin + 1);
      for (guint j = i + 1; j < n; j++)
        {
          const double over = fmin (a->x2, boxes[j].x2) - fmax (a->x1, boxes[j].x1);
          const double down = fmin (a->y2, boxes[j].y2) - fmax (a->y1, boxes[j].y1);
          g_assert_false (over > 0.5 && down > 0.5);
        }
    }
  g_free (boxes);
}

static void
test_layout (void)
{
  size_t n_papers;
  const PfPaper *papers = pf_papers (&n_papers);
  for (size_t p = 0; p < G_N_ELEMENTS (pieces); p++)
    {
      PfPricking *pricking = pieces[p]();
      PopplerDocument *document = pdf_of (pricking, &papers[p % n_papers]);
      const int n = poppler_document_get_n_pages (document);
      g_assert_cmpint (n, >, 1);
      for (int i = 0; i < n; i++)
        {
          PopplerPage *page = poppler_document_get_page (document, i);
          g_autofree char *number = g_strdup_printf (" %d / %d\n", i + 1, n);
          g_autoptr (GString) text = g_string_new (NULL);
          append_lines (text, page);
          g_assert_true (g_str_has_suffix (text->str, number));
          g_assert_nonnull (strstr (text->str, "pins and needles are sharp"));
          check_layout (page);
          g_object_unref (page);
        }
      g_object_unref (document);
      pf_pricking_free (pricking);
    }
}

/* How often each word stands in a text. */
static GHashTable *
words_in (const char *text)
{
  GHashTable *words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GString) plain = g_string_new (text);
  g_string_replace (plain, "\u00a0", " ", 0);
  g_auto (GStrv) all = g_strsplit_set (plain->str, " \n\t\r\f", -1);
  for (char **word = all; *word; word++)
    if (**word != '\0')
      g_hash_table_insert (
          words, g_strdup (*word),
          GINT_TO_POINTER (GPOINTER_TO_INT (g_hash_table_lookup (words, *word)) + 1));
  return words;
}

/* The text of the HTML's body, each element's by itself. */
static void
append_texts (xmlNode *node, GString *text)
{
  for (; node; node = node->next)
    {
      xmlChar *class =
          node->type == XML_ELEMENT_NODE ? xmlGetProp (node, (const xmlChar *) "class") : NULL;
      if (node->type == XML_TEXT_NODE)
        g_string_append_printf (text, "%s ", (const char *) node->content);
      else if (!class || strcmp ((const char *) class, "contents") != 0)
        append_texts (node->children, text);
      xmlFree (class);
    }
}

/* Nothing that the browser shows is missing on paper. */
static void
test_same_words (void)
{
  for (size_t p = 0; p < 3; p++) /* the last has a name that paper must cut */
    {
      PfPricking *pricking = pieces[p]();
      PopplerDocument *document = pdf_of (pricking, pf_paper_find ("A4", NULL));
      g_autofree char *printed = text_of_pdf (document), *html = pf_report_html (pricking);
      xmlDoc *page = xmlReadMemory (html, (int) strlen (html), NULL, NULL, XML_PARSE_NONET);
      g_autoptr (GString) shown = g_string_new (NULL);
      append_texts (xmlLastElementChild (xmlDocGetRootElement (page)), shown);
      g_autoptr (GHashTable) on_paper = words_in (printed), on_screen = words_in (shown->str);
      GHashTableIter iter;
      gpointer word, times;
      g_assert_cmpuint (g_hash_table_size (on_screen), >, 200);
      g_hash_table_iter_init (&iter, on_screen);
      while (g_hash_table_iter_next (&iter, &word, &times))
        {
          const int n = GPOINTER_TO_INT (g_hash_table_lookup (on_paper, word));
          g_test_message ("%s: %d times, printed %d times", (char *) word, GPOINTER_TO_INT (times),
                          n);
          g_assert_cmpint (n, >=, GPOINTER_TO_INT (times));
        }
      xmlFreeDoc (page);
      g_object_unref (document);
      pf_pricking_free (pricking);
    }
}

/* The number that follows a label, where it stands first. */
static double
number_after (const char *text, const char *label)
{
  const char *at = strstr (text, label);
  if (at == NULL)
    g_error ("“%s” isn’t in the report", label);
  at += strlen (label);
  char *end;
  const double number = g_ascii_strtod (at, &end);
  g_assert_true (end > at);
  return number;
}

/* What is printed of a motif is what JSON says. */
static void
check_motif_numbers (const char *text, JsonObject *motif)
{
  static const struct {
    const char *label, *group, *key;
  } numbers[] = {
    { "New pairs (to wind)", "pairs", "new" },
    { "Turns of a pair at the edge", "pairs", "turned" },
    { "Carries of a pair along the edge", "pairs", "carried" },
    { "Pairs finished", "pairs", "finished" },
    { "Most pairs on the pillow at once", "pairs", "most_at_once" },
    { "Stitches", NULL, "stitches" },
    { "Pins", NULL, "pins" },
    { "Beads", NULL, "beads" },
    { "Whole repeats", "repeats", "whole" },
    { "Partial repeats", "repeats", "partial" },
    { "Repeats left out", "repeats", "left_out" },
    { "Sewings", "sewings", "total" },
    { "Sewings into a pinhole", "sewings", "at_pinhole" },
    { "Sewings round a bar", "sewings", "round_bar" },
    { "Sewings off their line", "sewings", "off_line" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      JsonObject *group =
          numbers[i].group ? json_object_get_object_member (motif, numbers[i].group) : motif;
      g_autofree char *label = g_strdup_printf ("\n%s ", numbers[i].label);
      g_assert_cmpfloat (number_after (text, label), ==,
                         (double) json_object_get_int_member (group, numbers[i].key));
    }
}

static void
test_numbers (void)
{
  for (size_t p = 0; p < G_N_ELEMENTS (pieces); p++)
    {
      g_autoptr (GError) error = NULL;
      PfPricking *pricking = pieces[p]();
      PopplerDocument *document = pdf_of (pricking, pf_paper_find ("A4", NULL));
      g_autofree char *text = text_of_pdf (document), *json = pf_report_json (pricking);
      g_autoptr (JsonNode) root = json_from_string (json, &error);
      g_assert_no_error (error);
      JsonObject *report = json_node_get_object (root);
      JsonObject *bobbins = json_object_get_object_member (report, "bobbins");
      g_assert_cmpfloat (number_after (text, "Bobbins to wind for them"), ==,
                         (double) json_object_get_int_member (bobbins, "to_wind"));
      g_assert_cmpfloat (number_after (text, "Bobbins on the pillow then"), ==,
                         (double) json_object_get_int_member (bobbins, "most_at_once"));
      JsonArray *motifs = json_object_get_array_member (report, "motifs");
      const char *at = text;
      for (guint m = 0; m < json_array_get_length (motifs); m++)
        {
          JsonObject *motif = json_array_get_object_element (motifs, m);
          g_autofree char *title =
              g_strdup_printf ("Motif “%s”", json_object_get_string_member (motif, "name"));
          at = strstr (at, title);
          g_assert_nonnull (at);
          check_motif_numbers (at, motif);
          if (json_object_has_member (motif, "thread"))
            g_assert_cmpfloat_with_epsilon (
                number_after (at, "All bobbins together:"),
                json_object_get_double_member (json_object_get_object_member (motif, "thread"),
                                               "total_mm") /
                    1000,
                0.005 + 1e-9);
          else
            g_assert_nonnull (strstr (at, "No thread is chosen for this motif"));
        }
      g_object_unref (document);
      pf_pricking_free (pricking);
    }
}

/* --- What is told -------------------------------------------------------------------------------
 */

/* What the maker chose, warnings, and too many sewings to list. */
static void
test_told (void)
{
  PfPricking *pricking = leaf_in_armure ();
  PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  motif->filling->sewings[2].chosen = true;
  g_autofree char *html = pf_report_html (pricking);
  g_autofree char *words = pf_explain_sewing (motif->filling, motif->ground, 2);
  g_autofree char *item = g_strdup_printf ("<ul>\n<li>Sewing 3: %s</li>\n</ul>", words);
  g_assert_nonnull (strstr (html, "What you chose yourself</h3>"));
  g_assert_nonnull (strstr (html, item));
  pf_pricking_free (pricking);

  pricking = leaf_in_torchon ();
  motif = g_ptr_array_index (pricking->motifs, 0);
  motif->settings.habits = (PfWorkingHabits){ .right_first = true, .by = PF_WORK_BY_ROW };
  g_clear_pointer (&motif->filling, pf_filling_free);
  g_autoptr (GError) error = NULL;
  pf_pricking_fill (pricking, &error);
  g_assert_no_error (error);
  g_autofree char *plain = pf_report_html (pricking);
  g_assert_nonnull (strstr (plain, "Worked first</th><td>The right<"));
  g_assert_nonnull (strstr (plain, "Way of working</th><td>In diagonal rows<"));
  g_assert_nonnull (strstr (plain, "Pairs are sewn in</th><td>As they are needed<"));
  g_assert_null (strstr (plain, "What you chose yourself"));
  g_assert_null (strstr (plain, "Motif by motif"));
  pf_pricking_free (pricking);

  pricking =
      sample_drawing ("Large", "<circle id='moon' cx='200' cy='200' r='120'/>", "torchon", 4);
  g_autofree char *large = pf_report_html (pricking);
  g_assert_nonnull (strstr (large, "the report saved as .txt lists them all"));
  g_assert_null (strstr (large, "in the order of work"));
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/report-pages/html", test_html);
  g_test_add_func ("/sheet/report-pages/layout", test_layout);
  g_test_add_func ("/sheet/report-pages/same-words", test_same_words);
  g_test_add_func ("/sheet/report-pages/numbers", test_numbers);
  g_test_add_func ("/sheet/report-pages/told", test_told);
  return g_test_run ();
}
