/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pages as SVG text: numbers, escaping, groups.
 *
 * What a document may hold: W3C, XML 1.0 (fifth edition), productions 2 (characters) and 14
 * (character data); SVG 1.1, section 4.2 (numbers).
 */
#include <math.h>
#include <string.h>

#include "page.h"
#include "samples.h"

static void
test_numbers (void)
{
  static const struct {
    double value;
    const char *text;
  } cases[] = {
    { 0, "0" },
    { -0.0, "0" },
    { 1, "1" },
    { -1, "-1" },
    { 10, "10" },
    { 100, "100" },
    { 0.5, "0.5" },
    { 0.25, "0.25" },
    { 0.125, "0.125" },
    { 12.3456, "12.346" },
    { -0.0004, "0" },
    { -0.0006, "-0.001" },
    { 1e-300, "0" },
    { 99999.9996, "100000" },
    { 1e9, "1000000000" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GString) out = g_string_new ("<");
      pf_page_append_number (out, cases[i].value);
      g_assert_cmpstr (out->str + 1, ==, cases[i].text);
    }
}

static void
test_any_number (void)
{
  for (int i = 0; i < 2000; i++)
    {
      const double value = g_test_rand_double_range (-1e5, 1e5) * pow (10, -(i % 8));
      g_autoptr (GString) out = g_string_new (NULL);
      pf_page_append_number (out, value);
      g_assert_cmpuint (strspn (out->str, "-.0123456789"), ==, out->len);
      g_assert_cmpfloat_with_epsilon (g_ascii_strtod (out->str, NULL), value, 0.000501);
      const char *point = strchr (out->str, '.');
      g_assert_true (!point || (strlen (point) >= 2 && strlen (point) <= 4));
      g_assert_true (!point || out->str[out->len - 1] != '0');
    }
}

static void
test_text (void)
{
  static const struct {
    const char *plain, *read_back;
  } cases[] = {
    { "torchon", "torchon" },
    { "<&\">'", "<&\">'" },
    { "]]>", "]]>" },
    { "&amp;", "&amp;" },
    { "Klöppelbrief, piqué, 花", "Klöppelbrief, piqué, 花" },
    { "bell\x07 and escape\x1b", "bell\xef\xbf\xbd and escape\xef\xbf\xbd" },
    { "half a letter \xc3", "half a letter \xef\xbf\xbd" },
    { "\xef\xbf\xbe", "\xef\xbf\xbd" }, /* U+FFFE isn't a character of XML */
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      PfPage *page = pf_page_new (100, 50, cases[i].plain);
      pf_page_text_group (page, "words", "#000", NULL);
      pf_page_text (page, (PfPoint){ 1, 2 }, PF_TEXT_START, 3, cases[i].plain);
      pf_page_group_end (page);
      g_autofree char *svg = pf_page_finish (page);
      xmlDoc *read = read_page (svg);
      g_autoptr (GPtrArray) titles = elements_of (read, NULL, "title");
      g_autoptr (GPtrArray) texts = elements_of (read, "words", "text");
      g_autofree char *title = text_of (g_ptr_array_index (titles, 0));
      g_autofree char *text = text_of (g_ptr_array_index (texts, 0));
      g_assert_cmpstr (title, ==, cases[i].read_back);
      g_assert_cmpstr (text, ==, cases[i].read_back);
      xmlFreeDoc (read);
    }
}

static void
test_elements (void)
{
  static const char expected[] =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"20mm\" height=\"10.5mm\""
      " viewBox=\"0 0 20 10.5\" font-family=\"'DejaVu Sans', sans-serif\">\n"
      "<title>T</title>\n"
      "<g class=\"paper\" fill=\"#fff\">\n"
      "<rect x=\"0\" y=\"0\" width=\"20\" height=\"10.5\"/>\n"
      "</g>\n"
      "<g class=\"lines\" fill=\"none\" stroke=\"#123456\" stroke-linejoin=\"round\""
      " stroke-width=\"0.25\" stroke-linecap=\"round\" stroke-dasharray=\"0 1.5\">\n"
      "<line x1=\"1\" y1=\"2\" x2=\"3\" y2=\"4\"/>\n"
      "<polyline points=\"1,2 3,4\"/>\n"
      "<polygon points=\"1,2 3,4\"/>\n"
      "<circle cx=\"1\" cy=\"2\" r=\"0.333\"/>\n"
      "</g>\n"
      "</svg>\n";
  const PfPoint points[] = { { 1, 2 }, { 3, 4 } };
  PfPage *page = pf_page_new (20, 10.5, "T");
  pf_page_group (
      page, "lines",
      (PfInk){
          .stroke = "#123456", .width = 0.25, .dash = { 0, 1.5 }, .n_dash = 2, .round = true });
  pf_page_line (page, points[0], points[1]);
  pf_page_polyline (page, points, 2);
  pf_page_polygon (page, points, 2);
  pf_page_circle (page, points[0], 1.0 / 3);
  pf_page_group_end (page);
  g_autofree char *svg = pf_page_finish (page);
  g_assert_cmpstr (svg, ==, expected);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/page/numbers", test_numbers);
  g_test_add_func ("/sheet/page/any-number", test_any_number);
  g_test_add_func ("/sheet/page/text", test_text);
  g_test_add_func ("/sheet/page/elements", test_elements);
  return g_test_run ();
}
