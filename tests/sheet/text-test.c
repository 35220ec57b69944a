/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The room that words take, against cairo's own measure of DejaVu Sans.
 */
#include <math.h>
#include <string.h>

#include <cairo.h>

#include "samples.h"
#include "text.h"

/* The advance of a text in a font of size 1. */
static double
drawn_width (const char *text)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cairo = cairo_create (surface);
  cairo_select_font_face (cairo, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size (cairo, 1000);
  cairo_text_extents_t extents;
  cairo_text_extents (cairo, text, &extents);
  cairo_destroy (cairo);
  cairo_surface_destroy (surface);
  return extents.x_advance / 1000;
}

/* Every letter of the table: never too narrow, and at most a hundredth too wide. */
static void
test_letters (void)
{
  for (gunichar c = 0x20; c < 0x180; c++)
    {
      if (c >= 0x7f && c < 0xa0)
        continue;
      char text[8] = { 0 };
      g_unichar_to_utf8 (c, text);
      const double drawn = drawn_width (text), measured = pf_text_width (text, 1);
      g_test_message ("U+%04X: %g, %g", c, drawn, measured);
      g_assert_cmpfloat (measured, >=, drawn - 1e-3);
      g_assert_cmpfloat (measured, <=, drawn + 0.011);
    }
}

static void
test_words (void)
{
  static const char *const words[] = {
    "Torchon ground", "Spitze für den Quittenzweig", "“Gap” … — ×", "Вологда", "Ελλάδα", "花边",
  };
  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    g_assert_cmpfloat (pf_text_width (words[i], 4), >=, 4 * drawn_width (words[i]) - 1e-3);
}

static void
test_wrap (void)
{
  static const struct {
    const char *text;
    double width;
    int max_lines;
    const char *lines;
  } cases[] = {
    { "", 10, 2, "" },
    { "   ", 10, 2, "" },
    { "one", 100, 1, "one" },
    { " one \n two ", 100, 1, "one   two" },
    { "one two", 2.7, 2, "one|two" }, /* "one" is 1.9 wide, "one two" 4.2 */
    { "one two three", 2.7, 2, "one|tw…" },
    { "abcdef", 1.3, 3, "ab|cd|ef" }, /* no space to break at */
    { "abcdefgh", 1.3, 2, "ab|…" },
    { "w", 0.1, 1, "w" }, /* at least one letter a line */
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) lines = pf_text_wrap (cases[i].text, 1, cases[i].width, cases[i].max_lines);
      g_autofree char *joined = g_strjoinv ("|", lines);
      g_assert_cmpstr (joined, ==, cases[i].lines);
    }
}

/* Whatever the text: no line is too wide, none is lost but after an ellipsis. */
static void
test_wrap_any (void)
{
  static const char *const parts[] = { "a", "b ", "ü", "W", " ", "-", "花", "longer ", "…" };
  for (int i = 0; i < 500; i++)
    {
      g_autoptr (GString) text = g_string_new ("x");
      for (int n = g_test_rand_int_range (0, 60); n > 0; n--)
        g_string_append (text, parts[g_test_rand_int_range (0, G_N_ELEMENTS (parts))]);
      const double width = g_test_rand_double_range (3, 20);
      const int most = g_test_rand_int_range (1, 5);
      g_auto (GStrv) lines = pf_text_wrap (text->str, 1, width, most);
      const int n_lines = (int) g_strv_length (lines);
      g_assert_cmpint (n_lines, <=, most);
      g_autoptr (GString) kept = g_string_new (NULL), given = g_string_new (NULL);
      for (int l = 0; l < n_lines; l++)
        {
          g_assert_cmpfloat (pf_text_width (lines[l], 1), <=, width + 1e-9);
          for (const char *p = lines[l]; *p; p++)
            if (*p != ' ')
              g_string_append_c (kept, *p);
        }
      for (const char *p = text->str; *p; p++)
        if (*p != ' ')
          g_string_append_c (given, *p);
      if (!g_string_equal (kept, given))
        {
          g_assert_true (g_str_has_suffix (kept->str, "…"));
          g_string_truncate (kept, kept->len - strlen ("…"));
          g_assert_true (g_str_has_prefix (given->str, kept->str));
        }
    }
}

static void
test_number (void)
{
  static const struct {
    double value;
    const char *text;
  } cases[] = { { 0, "0" },       { -0.001, "0" }, { 4, "4" },        { 2.5, "2.5" },
                { 2.25, "2.25" }, { 2.999, "3" },  { 100, "100" },    { -12.5, "-12.5" },
                { 0.1, "0.1" },   { 1.005, "1" },  { 1.0051, "1.01" } };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = pf_text_number (cases[i].value);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/text/letters", test_letters);
  g_test_add_func ("/sheet/text/words", test_words);
  g_test_add_func ("/sheet/text/wrap", test_wrap);
  g_test_add_func ("/sheet/text/wrap-any", test_wrap_any);
  g_test_add_func ("/sheet/text/number", test_number);
  return g_test_run ();
}
