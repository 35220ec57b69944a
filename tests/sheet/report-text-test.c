/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The report as plain text says of what is to be wound, and of pairs that go on, word for word what
 * the one as HTML says, in rows of the same cells.
 */
#include <string.h>

#include "samples.h"

static const char *const sections[] = { "Bobbins", "Winding list",
                                        "Pairs that can go on in the next motif" };

/* Single spaces between words, none at the ends. */
static char *
plain (const char *text)
{
  g_autoptr (GString) spaces = g_string_new (text);
  g_string_replace (spaces, "\u00a0", " ", 0);
  g_auto (GStrv) words = g_strsplit_set (spaces->str, " \n\t", -1);
  GString *line = g_string_new (NULL);
  for (char **word = words; *word; word++)
    if (**word)
      g_string_append_printf (line, "%s%s", line->len > 0 ? " " : "", *word);
  return g_string_free (line, FALSE);
}

/* The lines of a section of the text, up to the next heading, without rules; NULL if there is none.
 */
static char **
section_lines (const char *text, const char *heading)
{
  g_auto (GStrv) all = g_strsplit (text, "\n", -1);
  g_autoptr (GStrvBuilder) found = g_strv_builder_new ();
  bool within = false, any = false;
  for (char **line = all; *line; line++)
    {
      const size_t rule = strspn (*line, " -");
      if (line[1] && line[1][0] == '-')
        within = strcmp (*line, heading) == 0;
      any |= within;
      if (within && (*line)[rule] != '\0' && strcmp (*line, heading) != 0)
        {
          g_autofree char *words = plain (*line);
          g_strv_builder_add (found, words);
        }
    }
  return any ? g_strv_builder_end (found) : NULL;
}

/* The rows and paragraphs of a section of the HTML, as lines. */
static void
append_rows (xmlNode *node, GStrvBuilder *lines)
{
  for (; node; node = node->next)
    {
      if (strcmp ((const char *) node->name, "tr") != 0)
        {
          append_rows (node->children, lines);
          continue;
        }
      g_autoptr (GString) row = g_string_new (NULL);
      for (xmlNode *cell = node->children; cell; cell = cell->next)
        {
          g_autofree char *text = text_of (cell);
          g_string_append_printf (row, "%s ", text);
        }
      g_autofree char *words = plain (row->str);
      g_strv_builder_add (lines, words);
    }
}

static char **
html_lines (xmlDoc *page, const char *heading)
{
  g_autoptr (GPtrArray) headings = elements_of (page, NULL, "h2");
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();
  xmlNode *node = NULL;
  for (guint h = 0; h < headings->len && !node; h++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (headings, h));
      if (strcmp (text, heading) == 0)
        node = xmlNextElementSibling (g_ptr_array_index (headings, h));
    }
  if (node == NULL)
    return NULL;
  for (; node && strcmp ((const char *) node->name, "h2") != 0; node = xmlNextElementSibling (node))
    if (strcmp ((const char *) node->name, "p") == 0)
      {
        g_autofree char *text = text_of (node), *words = plain (text);
        g_strv_builder_add (lines, words);
      }
    else
      append_rows (node->children, lines);
  return g_strv_builder_end (lines);
}

static void
check_same (const PfPricking *pricking, guint n_wanted)
{
  g_autofree char *text = pf_report_text (pricking), *html = pf_report_html (pricking);
  xmlDoc *page = xmlReadMemory (html, (int) strlen (html), NULL, NULL, XML_PARSE_NONET);
  guint n_found = 0;
  for (size_t s = 0; s < G_N_ELEMENTS (sections); s++)
    {
      g_auto (GStrv) told = section_lines (text, sections[s]);
      g_auto (GStrv) wanted = html_lines (page, sections[s]);
      g_assert_cmpint (told == NULL, ==, wanted == NULL);
      if (told == NULL)
        continue;
      n_found++;
      g_assert_cmpuint (g_strv_length (told), >, 1);
      g_autofree char *all_told = g_strjoinv (" ", told), *all_wanted = g_strjoinv (" ", wanted);
      g_assert_cmpstr (all_told, ==, all_wanted);
    }
  g_assert_cmpuint (n_found, ==, n_wanted);
  xmlFreeDoc (page);
}

static void
choose_thread (PfPricking *pricking)
{
  PfThreadUse use = pf_thread_use_default ();
  use.wraps_per_cm = 27;
  pf_pricking_set_thread (pricking, &use);
  pf_thread_use_clear (&use);
}

static PfPricking *
three_motifs (void)
{
  return sample_drawing ("Three",
                         "<circle id='sun' cx='40' cy='40' r='12'/>"
                         "<circle id='moon' cx='90' cy='40' r='20'/>"
                         "<circle id='star' cx='140' cy='40' r='9'/>",
                         "torchon", 4);
}

static void
test_winding (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  check_same (pricking, 2);
  choose_thread (pricking);
  check_same (pricking, 2);
  pf_pricking_free (pricking);
}

static void
test_handed_on (void)
{
  PfPricking *pricking = three_motifs ();
  check_same (pricking, 3);
  choose_thread (pricking);
  check_same (pricking, 3);
  g_autofree char *text = pf_report_text (pricking);
  /* The numbers by which they name motifs stand beside the motifs' names. */
  g_assert_nonnull (strstr (text, "\nII. Motif “moon”\n"));
  pf_pricking_free (pricking);
}

/* Columns: in a table's rows, each cell of numbers ends where that of the row above does. */
static void
test_columns (void)
{
  PfPricking *pricking = three_motifs ();
  g_autofree char *text = pf_report_text (pricking);
  const char *at = strstr (text, "\nBobbins\n");
  g_assert_nonnull (at);
  g_auto (GStrv) lines = g_strsplit (at + 1, "\n", -1);
  glong width = 0;
  for (int n = 2; n < 8; n++)
    {
      g_assert_true (g_ascii_isdigit (lines[n][strlen (lines[n]) - 1]));
      g_assert_true (width == 0 || width == g_utf8_strlen (lines[n], -1));
      width = g_utf8_strlen (lines[n], -1);
    }
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/report-text/winding", test_winding);
  g_test_add_func ("/sheet/report-text/handed-on", test_handed_on);
  g_test_add_func ("/sheet/report-text/columns", test_columns);
  return g_test_run ();
}
