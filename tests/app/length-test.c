/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lengths in words. One inch is 25.4 mm (international yard and pound agreement, 1959; NIST
 * Special Publication 811, appendix B).
 */
#include <length.h>

#include <libintl.h>
#include <locale.h>
#include <math.h>

static void
test_format (void)
{
  static const struct {
    double mm;
    PfUnits units;
    const char *text;
  } cases[] = {
    { 12.5, PF_UNITS_MM, "12.5 mm" },     { 4, PF_UNITS_MM, "4 mm" },
    { 100, PF_UNITS_MM, "100 mm" },       { 0, PF_UNITS_MM, "0 mm" },
    { 0.004, PF_UNITS_MM, "0 mm" },       { -0.004, PF_UNITS_MM, "0 mm" },
    { -2.25, PF_UNITS_MM, "-2.25 mm" },   { 85.604, PF_UNITS_MM, "85.6 mm" },
    { 25.4, PF_UNITS_INCH, "1 in" },      { 12.7, PF_UNITS_INCH, "0.5 in" },
    { 3.175, PF_UNITS_INCH, "0.125 in" }, { 2540, PF_UNITS_INCH, "100 in" },
    { 0.01, PF_UNITS_INCH, "0 in" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = pf_format_length (cases[i].mm, cases[i].units);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

static void
test_parse (void)
{
  static const struct {
    const char *text;
    PfUnits units;
    double mm;
  } cases[] = {
    { "4", PF_UNITS_MM, 4 },
    { " 4.5 ", PF_UNITS_MM, 4.5 },
    { "4,5", PF_UNITS_MM, 4.5 },
    { ".5mm", PF_UNITS_MM, 0.5 },
    { "2 cm", PF_UNITS_INCH, 20 },
    { "0.1 m", PF_UNITS_MM, 100 },
    { "1", PF_UNITS_INCH, 25.4 },
    { "1 IN", PF_UNITS_MM, 25.4 },
    { "2 inches", PF_UNITS_MM, 50.8 },
    { "1 inch", PF_UNITS_MM, 25.4 },
    { "1/4\"", PF_UNITS_MM, 6.35 },
    { "1 1/2″", PF_UNITS_MM, 38.1 },
    { "3 / 8", PF_UNITS_INCH, 9.525 },
    { "-3 mm", PF_UNITS_MM, -3 },
    { "− 3\302\240mm\302\240", PF_UNITS_MM, -3 },
    { "\302\2404\302\240mm", PF_UNITS_INCH, 4 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double mm = NAN;
      g_test_message ("“%s”", cases[i].text);
      g_assert_true (pf_parse_length (cases[i].text, cases[i].units, &mm));
      g_assert_cmpfloat_with_epsilon (mm, cases[i].mm, 1e-9);
    }
}

/* A square inch is 645.16 mm², a yard 0.9144 m (the same sources). */
static void
test_areas_and_thread (void)
{
  static const struct {
    const char *text;
    PfUnits units;
    double mm2;
  } cases[] = {
    { "1", PF_UNITS_MM, 1 },
    { "1,5 mm²", PF_UNITS_INCH, 1.5 },
    { "2 cm2", PF_UNITS_MM, 200 },
    { "1", PF_UNITS_INCH, 645.16 },
    { "1/2 sq in", PF_UNITS_MM, 322.58 },
    { "0.01 in²", PF_UNITS_MM, 6.4516 },
  };
  double mm2 = NAN;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("“%s”", cases[i].text);
      g_assert_true (pf_parse_area (cases[i].text, cases[i].units, &mm2));
      g_assert_cmpfloat_with_epsilon (mm2, cases[i].mm2, 1e-9);
    }
  g_assert_false (pf_parse_area ("1 mm", PF_UNITS_MM, &mm2));
  g_assert_false (pf_parse_length ("1 mm²", PF_UNITS_MM, &mm2));
  g_autofree char *area = pf_format_area (1, PF_UNITS_MM);
  g_autofree char *inches = pf_format_area (64.516, PF_UNITS_INCH);
  g_autofree char *metres = pf_format_thread (914.4, 3, PF_UNITS_MM);
  g_autofree char *yards = pf_format_thread (914.4, 2, PF_UNITS_INCH);
  g_assert_cmpstr (area, ==, "1.00 mm²");
  g_assert_cmpstr (inches, ==, "0.1000 sq in");
  g_assert_cmpstr (metres, ==, "0.914 m");
  g_assert_cmpstr (yards, ==, "1.00 yd");
}

static void
test_wrong (void)
{
  static const char *const wrong[] = {
    "",    " ",  "mm", "four", "1e3", "0x10", "nan", "inf",     "1.2.3", "1,2,3", "4 ft",
    "1/0", "1/", "/2", "1 2",  "--3", "1 1/", ".",   "4 mm mm", "\xff",  "4mm/2"
  };
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      double mm = 7;
      g_test_message ("%s", wrong[i]);
      g_assert_false (pf_parse_length (wrong[i], PF_UNITS_MM, &mm));
      g_assert_cmpfloat (mm, ==, 7);
    }
}

static void
test_there_and_back (void)
{
  for (int i = 0; i < 1000; i++)
    {
      const PfUnits units = g_test_rand_bit () ? PF_UNITS_MM : PF_UNITS_INCH;
      const double mm = g_test_rand_double_range (-1000, 1000);
      g_autofree char *text = pf_format_length (mm, units);
      double back = NAN;
      g_assert_true (pf_parse_length (text, PF_UNITS_MM, &back));
      g_assert_cmpfloat_with_epsilon (back, mm, units == PF_UNITS_MM ? 0.00501 : 0.0005 * 25.41);
    }
}

/* Who changes a number that is shown leaves the unit behind it, in whatever language that is. */
static void
test_other_language (void)
{
  static const PfUnits units[] = { PF_UNITS_MM, PF_UNITS_INCH };
  g_setenv ("LANGUAGE", "de", TRUE);
  setlocale (LC_ALL, ""); /* translations are looked up anew */
  bindtextdomain (GETTEXT_PACKAGE, PF_BUILT_TRANSLATIONS);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  g_autofree char *inch = pf_format_length (25.4, PF_UNITS_INCH);
  g_assert_cmpstr (inch, ==, "1 Zoll");
  for (size_t u = 0; u < G_N_ELEMENTS (units); u++)
    {
      double mm = NAN, mm2 = NAN;
      g_autofree char *length = pf_format_fixed_length (127, 2, units[u]);
      g_autofree char *area = pf_format_area (64.516, units[u]);
      g_test_message ("“%s”, “%s”", length, area);
      g_assert_true (pf_parse_length (length, PF_UNITS_MM, &mm));
      g_assert_cmpfloat_with_epsilon (mm, 127, 1e-9);
      g_assert_true (pf_parse_area (area, PF_UNITS_MM, &mm2));
      g_assert_cmpfloat_with_epsilon (mm2, 64.516, 0.01);
      g_assert_false (pf_parse_length (area, PF_UNITS_MM, &mm));
    }
  g_setenv ("LANGUAGE", "en", TRUE);
  setlocale (LC_ALL, "C.UTF-8");
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/length/format", test_format);
  g_test_add_func ("/app/length/parse", test_parse);
  g_test_add_func ("/app/length/areas-and-thread", test_areas_and_thread);
  g_test_add_func ("/app/length/wrong", test_wrong);
  g_test_add_func ("/app/length/there-and-back", test_there_and_back);
  g_test_add_func ("/app/length/other-language", test_other_language);
  return g_test_run ();
}
