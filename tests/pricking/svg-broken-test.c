/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Broken, hostile and oversized drawings: a clear error or what is left of them, never a crash. */
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include <pricking.h>

static const char *const whole[] = {
  "<?xml version='1.0' encoding='UTF-8'?>\n"
  "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "
  "width='100mm' "
  "height='10cm' viewBox='0 0 100 100' preserveAspectRatio='xMidYMid meet'>\n"
  "<style>.a, rect { fill-rule: evenodd } #z{display:none}</style>\n"
  "<defs><g id='leaf'><path class='a' d='M0 0h10v10h-10zM2 2h6v6h-6z'/></g></defs>\n"
  "<use xlink:href='#leaf' x='5' y='5'/><use href='#leaf' transform='translate(30,5) "
  "rotate(45)'/>\n"
  "<rect id='r' x='50' y='5' width='20%' height='20' rx='3'/><path id='z' d='M0 0h5v5z'/>\n"
  "<g id='pinholes'><circle cx='60' cy='5' r='.3'/></g></svg>\n",

  "<svg xmlns='http://www.w3.org/2000/svg' viewBox='-50 -50 100 100'>\n"
  "<path d='M-20,0 C-20-20 20-20 20,0 S 40 30 0 30 Q-30,30-20 0z'/><ellipse rx='3' ry='2' "
  "cy='10'/>\n"
  "<path d='m0-40a5,5 0 01 10,0 5 5 30 1 1 -10 0z' style='fill:red;visibility:visible'/>\n"
  "<svg x='20' y='-45' width='20' height='1em' viewBox='0 0 4 4'><polygon points='0,0 4,0 "
  "4,4'/></svg>\n"
  "<text x='1'>text &amp; more</text><polyline points='1,1 2,2'/><line x2='5'/></svg>\n",

  "<!DOCTYPE svg [<!ENTITY w '20'><!ENTITY n 'http://www.w3.org/2000/svg'>]>\n"
  "<svg xmlns='&n;' width='&w;mm' height='&w;mm' viewBox='0 0 &w; &w;'>"
  "<symbol id='s' viewBox='0 0 1 1'><path d='M0 0H1V1z'/></symbol><use href='#s' width='9' "
  "height='9'/>"
  "</svg>\n",
};

/* The drawing of `n` bytes, or an error that says something. */
static void
assert_survives (const char *svg, gsize n, const char *const *elements)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDrawing) drawing = pf_drawing_parse (svg, n, "broken.svg", elements, &error);
  if (drawing == NULL)
    {
      g_assert_nonnull (error);
      g_assert_true (error->domain == PF_ERROR);
      g_assert_true (g_str_has_prefix (error->message, "broken.svg"));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
    }
  else
    {
      g_assert_no_error (error);
      g_assert_cmpuint (drawing->outlines->len, >, 0);
    }
}

static void
test_whole (void)
{
  for (size_t i = 0; i < G_N_ELEMENTS (whole); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing =
          pf_drawing_parse (whole[i], strlen (whole[i]), "whole.svg", NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (drawing->outlines->len, >=, 1);
    }
}

static void
test_truncated (void)
{
  for (int i = 0; i < 400; i++)
    {
      const char *svg = whole[g_test_rand_int_range (0, G_N_ELEMENTS (whole))];
      const gsize n = (gsize) g_test_rand_int_range (0, (gint32) strlen (svg));
      g_autofree char *copy = g_memdup2 (svg, n);
      assert_survives (copy, n, NULL);
    }
}

/* Bytes that mean something in XML, numbers or paths do more harm than others. */
static char
random_byte (void)
{
  static const char telling[] = "<>&;'\"=/#%.,-+0123456789eEmMzZaAcCsSqQtThHvVlL()\n \t\\";
  return g_test_rand_int_range (0, 4) > 0 ? telling[g_test_rand_int_range (0, sizeof telling - 1)]
                                          : (char) g_test_rand_int_range (0, 256);
}

static void
test_mutated (void)
{
  static const char *const picks[] = { "r", "leaf", NULL };
  for (int i = 0; i < 1500; i++)
    {
      const char *svg = whole[g_test_rand_int_range (0, G_N_ELEMENTS (whole))];
      const gsize n = strlen (svg);
      g_autofree char *copy = g_memdup2 (svg, n);
      for (int k = g_test_rand_int_range (1, 6); k > 0; k--)
        copy[g_test_rand_int_range (0, (gint32) n)] = random_byte ();
      assert_survives (copy, n, i % 5 == 0 ? picks : NULL);
    }
}

/* Numbers replaced by ones at the ends of what doubles hold. */
static void
test_numbers (void)
{
  static const char *const numbers[] = { "1e308",       "-1e308",      "1e-320", "-0",
                                         "99999999999", "1e5",         "nan",    "inf",
                                         "1e999",       "0",           "-1e5",   "4294967296",
                                         "1e-300",      "2147483648.5" };
  for (int i = 0; i < 600; i++)
    {
      const char *svg = whole[g_test_rand_int_range (0, G_N_ELEMENTS (whole))];
      const char *at = svg + g_test_rand_int_range (0, (gint32) strlen (svg));
      const gsize before = strcspn (at, "0123456789"), digits = strspn (at + before, "0123456789");
      g_autofree char *copy = g_strdup_printf (
          "%.*s%s%s", (int) (at - svg + (gssize) before), svg,
          numbers[g_test_rand_int_range (0, G_N_ELEMENTS (numbers))], at + before + digits);
      assert_survives (copy, strlen (copy), NULL);
    }
}

static void
assert_refused (const char *svg, gsize n, PfError code, const char *part)
{
  g_autoptr (GError) error = NULL;
  g_assert_null (pf_drawing_parse (svg, n, "broken.svg", NULL, &error));
  g_test_message ("%s", error->message);
  g_assert_error (error, PF_ERROR, (int) code);
  g_assert_nonnull (strstr (error->message, part));
}

#define SVG "<svg xmlns='http://www.w3.org/2000/svg'>"

static void
test_unusable (void)
{
  assert_refused ("", 0, PF_ERROR_FILE, "empty");
  assert_refused (" \n", 2, PF_ERROR_FILE, "XML");
  assert_refused ("\x1f\x8b\x08\x00", 4, PF_ERROR_FILE, "compressed");
  assert_refused ("\0\0\0\0", 4, PF_ERROR_FILE, "XML");
  assert_refused ("%PDF-1.4", 8, PF_ERROR_FILE, "XML");
  assert_refused ("<?xml version='1.0' encoding='nonsense'?><svg/>", 47, PF_ERROR_FILE, "XML");
  assert_refused ("<svg>\xff\xfe</svg>", 13, PF_ERROR_FILE, "XML");
  assert_refused ("<a/>", 4, PF_ERROR_FILE, "begins with <a>");
}

/* Entities that double at every step, that read files, and that are merely many. */
static void
test_entities (void)
{
  g_autoptr (GString) many =
      g_string_new ("<!DOCTYPE svg [<!ENTITY a 'aaaaaaaaaa'>]>" SVG "<desc>");
  static const char laughs[] =
      "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>"
      "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;'>]>" SVG "<g id='&c;'/></svg>";
  static const char reads[] =
      "<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/hostname'>]>" SVG "<desc>&a;</desc></svg>";
  static const char parameter[] =
      "<!DOCTYPE svg [<!ENTITY % a SYSTEM 'file:///etc/hostname'> %a;]>" SVG "</svg>";
  for (int i = 0; i < 20000; i++)
    g_string_append (many, "&a;");
  g_string_append (many, "</desc></svg>");
  assert_refused (laughs, strlen (laughs), PF_ERROR_FILE, "the entity “&c;” isn't plain text");
  assert_refused (reads, strlen (reads), PF_ERROR_FILE, "the entity “&a;” isn't plain text");
  assert_refused (parameter, strlen (parameter), PF_ERROR_FILE, "XML");
  assert_refused (many->str, many->len, PF_ERROR_TOO_BIG, "more than 10000 times");
}

static void
test_limits (void)
{
  g_autoptr (GString) many = g_string_new (SVG), deep = g_string_new (SVG),
                      uses = g_string_new (SVG);
  for (int i = 0; i <= PF_SVG_MAX_ELEMENTS; i++)
    g_string_append (many, "<g/>");
  g_string_append (many, "</svg>");
  assert_refused (many->str, many->len, PF_ERROR_TOO_BIG, "more than 200000 elements");
  for (int i = 0; i < PF_SVG_MAX_DEPTH; i++)
    g_string_append (deep, "<g>");
  assert_refused (deep->str, deep->len, PF_ERROR_TOO_BIG, "more than 64 deep");
  /* Each level repeats the one before ten times. */
  g_string_append (uses, "<g id='u0'><rect width='1' height='1'/></g>");
  for (int i = 1; i < 9; i++)
    {
      g_string_append_printf (uses, "<g id='u%d'>", i);
      for (int k = 0; k < 10; k++)
        g_string_append_printf (uses, "<use href='#u%d'/>", i - 1);
      g_string_append (uses, "</g>");
    }
  g_string_append (uses, "</svg>");
  assert_refused (uses->str, uses->len, PF_ERROR_TOO_BIG, "too many elements");
}

static void
test_deep_uses (void)
{
  g_autoptr (GString) uses = g_string_new (SVG "<rect id='u0' width='9' height='9'/>");
  for (int i = 1; i < 80; i++)
    g_string_append_printf (uses, "<use id='u%d' href='#u%d'/>", i, i - 1);
  g_string_append (uses, "</svg>");
  assert_refused (uses->str, uses->len, PF_ERROR_TOO_BIG, "too deep");
}

static void
test_many_points (void)
{
  g_autoptr (GString) svg = g_string_new (SVG "<defs><path id='p' d='M0 0");
  for (int i = 0; i < 30000; i++)
    g_string_append (svg, "l1 1l1-1");
  g_string_append (svg, "'/></defs>");
  for (int i = 0; i < 100; i++)
    g_string_append (svg, "<use href='#p'/>");
  g_string_append (svg, "</svg>");
  assert_refused (svg->str, svg->len, PF_ERROR_TOO_BIG, "too big to read");
}

static void
test_many_outlines (void)
{
  g_autoptr (GString) svg = g_string_new (SVG);
  for (int i = 0; i <= 5000; i++)
    g_string_append_printf (svg, "<path d='M%d 0h9v9z'/>", 10 * i);
  g_string_append (svg, "</svg>");
  assert_refused (svg->str, svg->len, PF_ERROR_TOO_BIG, "5001 closed outlines");
}

/* A name cut short in a message isn't cut within a letter. */
static void
test_long_names (void)
{
  g_autoptr (GString) svg = g_string_new ("<svg><rect width='1e9' height='1e9' id='x");
  static const char *const pick[] = { "r", NULL };
  for (int i = 0; i < 100; i++)
    g_string_append (svg, "ä");
  g_string_append (svg, "'/><g id='r' transform='ä");
  for (int i = 0; i < 100; i++)
    g_string_append (svg, "ö");
  g_string_append (svg, "'/></svg>");
  assert_survives (svg->str, svg->len, NULL);
  assert_survives (svg->str, svg->len, pick);
}

/* 100 MB that no disk holds: the size alone decides. */
static void
test_too_large (void)
{
  g_autofree char *name = NULL;
  g_autoptr (GError) error = NULL;
  const int file = g_file_open_tmp ("large-XXXXXX.svg", &name, &error);
  g_assert_no_error (error);
  g_assert_cmpint (ftruncate (file, 100 * 1000 * 1000), ==, 0);
  close (file);
  g_assert_null (pf_drawing_load (name, NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
  g_assert_nonnull (strstr (error->message, "is larger than 64 MB"));
  g_remove (name);
  /* Only its length counts: the text isn't looked at. */
  g_clear_error (&error);
  g_assert_null (pf_drawing_parse ("", 100 * 1000 * 1000, "broken.svg", NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
}

static void
test_files (void)
{
  g_autofree char *name = NULL;
  g_autoptr (GError) error = NULL;
  const int file = g_file_open_tmp ("drawing-XXXXXX.svg", &name, &error);
  g_assert_no_error (error);
  close (file);
  g_assert_true (g_file_set_contents (name, whole[0], -1, &error));
  g_autoptr (PfDrawing) drawing = pf_drawing_load (name, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (drawing->outlines->len, ==, 3);
  g_assert_true (g_file_set_contents (name, "", -1, &error));
  g_assert_null (pf_drawing_load (name, NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "is empty"));
  g_clear_error (&error);
  g_remove (name);
  g_assert_null (pf_drawing_load (name, NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, name));
  g_clear_error (&error);
  g_assert_null (pf_drawing_load (g_get_tmp_dir (), NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg/broken/whole", test_whole);
  g_test_add_func ("/svg/broken/truncated", test_truncated);
  g_test_add_func ("/svg/broken/mutated", test_mutated);
  g_test_add_func ("/svg/broken/numbers", test_numbers);
  g_test_add_func ("/svg/broken/unusable", test_unusable);
  g_test_add_func ("/svg/broken/entities", test_entities);
  g_test_add_func ("/svg/broken/limits", test_limits);
  g_test_add_func ("/svg/broken/deep-uses", test_deep_uses);
  g_test_add_func ("/svg/broken/many-points", test_many_points);
  g_test_add_func ("/svg/broken/many-outlines", test_many_outlines);
  g_test_add_func ("/svg/broken/long-names", test_long_names);
  g_test_add_func ("/svg/broken/too-large", test_too_large);
  g_test_add_func ("/svg/broken/files", test_files);
  return g_test_run ();
}
