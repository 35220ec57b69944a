/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers, lengths, transforms and viewports as the standards define them. */
#include <math.h>
#include <string.h>

#include <svg.h>

#define assert_near(a, b, within) g_assert_cmpfloat_with_epsilon (a, b, within)

/* SVG 1.1, section 4.2 and the grammar of section 8.3.9: what a number is, and what follows it. */
static void
test_numbers (void)
{
  static const struct {
    const char *text;
    double value;
    const char *rest; /* NULL: no number */
  } cases[] = {
    { "12", 12, "" },
    { "-1.5", -1.5, "" },
    { "+.5", 0.5, "" },
    { "1.", 1, "" },
    { "1.5.5", 1.5, ".5" },
    { "1-2", 1, "-2" },
    { "1e3", 1000, "" },
    { "1E-2x", 0.01, "x" },
    { "1em", 1, "em" },
    { "1ex", 1, "ex" },
    { "2e", 2, "e" },
    { "2e+", 2, "e+" },
    { "0x10", 0, "x10" },
    { "1,5", 1, ",5" },
    { ".", 0, NULL },
    { "-", 0, NULL },
    { "", 0, NULL },
    { "inf", 0, NULL },
    { "nan", 0, NULL },
    { "e5", 0, NULL },
    { "1e999", 0, NULL },
    { "-1e999", 0, NULL },
    { "1e-999", 0, "" },
    { "++1", 0, NULL },
    { "0000000000000000000000000000000000000000000000000000000000000000000000000000007.5", 7.5,
      "" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const char *at = cases[i].text;
      double value = -77;
      const bool found = pf_svg_scan_number (&at, &value);
      g_test_message ("\"%s\"", cases[i].text);
      g_assert_cmpint (found, ==, cases[i].rest != NULL);
      g_assert_cmpstr (at, ==, found ? cases[i].rest : cases[i].text);
      g_assert_cmpfloat (value, ==, found ? cases[i].value : -77);
    }
}

/* CSS Values and Units 3, section 6.2: 1in = 2.54cm = 25.4mm = 101.6Q = 72pt = 6pc = 96px. */
static void
test_lengths (void)
{
  static const char *const inches[] = { "1in", "2.54cm", "25.4mm",  "101.6Q", "72pt", "6pc", "96px",
                                        "96",  "48%",    " 1e0in ", "6em",    "12ex", "1IN" };
  static const char *const wrong[] = {
    "", "mm", "1 2", "1furlong", "1 %%", "1e400mm", "nan", "1mm;"
  };
  double px;
  for (size_t i = 0; i < G_N_ELEMENTS (inches); i++)
    {
      g_test_message ("%s", inches[i]);
      g_assert_true (pf_svg_length (inches[i], 200, &px));
      assert_near (px, 96, 1e-12);
    }
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_test_message ("%s", wrong[i]);
      g_assert_false (pf_svg_length (wrong[i], 200, &px));
    }
}

static void
assert_maps (const char *text, PfAffine m)
{
  PfAffine found;
  g_test_message ("%s", text);
  g_assert_true (pf_svg_transform (text, &found));
  assert_near (found.xx, m.xx, 1e-12);
  assert_near (found.xy, m.xy, 1e-12);
  assert_near (found.yx, m.yx, 1e-12);
  assert_near (found.yy, m.yy, 1e-12);
  assert_near (found.x0, m.x0, 1e-12);
  assert_near (found.y0, m.y0, 1e-12);
}

/* SVG 1.1, section 7.6: each function as the matrix it stands for. */
static void
test_transforms (void)
{
  const double c = cos (G_PI / 6), s = sin (G_PI / 6), t = tan (G_PI / 6);
  assert_maps ("", PF_AFFINE_IDENTITY);
  assert_maps ("none", PF_AFFINE_IDENTITY);
  assert_maps ("matrix(1 2 3 4 5 6)", (PfAffine){ 1, 3, 2, 4, 5, 6 });
  assert_maps (" matrix ( 1,2 , 3-4,.5.6 ) ", (PfAffine){ 1, 3, 2, -4, 0.5, 0.6 });
  assert_maps ("translate(7)", (PfAffine){ 1, 0, 0, 1, 7, 0 });
  assert_maps ("translate(7,-8)", (PfAffine){ 1, 0, 0, 1, 7, -8 });
  assert_maps ("scale(3)", (PfAffine){ 3, 0, 0, 3, 0, 0 });
  assert_maps ("scale(3 -1)", (PfAffine){ 3, 0, 0, -1, 0, 0 });
  assert_maps ("rotate(30)", (PfAffine){ c, -s, s, c, 0, 0 });
  assert_maps ("rotate(-330)", (PfAffine){ c, -s, s, c, 0, 0 });
  assert_maps ("rotate(450)", (PfAffine){ 0, -1, 1, 0, 0, 0 });
  assert_maps ("rotate(90, 5, 2)", (PfAffine){ 0, -1, 1, 0, 7, -3 });
  assert_maps ("translate(5,2)rotate(30),translate(-5,-2)",
               (PfAffine){ c, -s, s, c, 5 - 5 * c + 2 * s, 2 - 5 * s - 2 * c });
  assert_maps ("skewX(30)", (PfAffine){ 1, t, 0, 1, 0, 0 });
  assert_maps ("skewY(30)", (PfAffine){ 1, 0, t, 1, 0, 0 });
}

/* The example "Nested" of SVG 1.1, section 7.5; its matrices are printed with three digits. */
static void
test_nested_example (void)
{
  PfAffine m;
  g_assert_true (pf_svg_transform ("translate(50,90) rotate(-45) translate(130,160)", &m));
  assert_near (m.xx, 0.707, 5e-4);
  assert_near (m.yx, -0.707, 5e-4);
  assert_near (m.xy, 0.707, 5e-4);
  assert_near (m.yy, 0.707, 5e-4);
  assert_near (m.x0, 255.03, 0.05);
  assert_near (m.y0, 111.21, 0.05);
}

static void
test_wrong_transforms (void)
{
  static const char *const wrong[] = { "turn(5)",
                                       "scale()",
                                       "scale(1",
                                       "scale 1",
                                       "matrix(1 2 3)",
                                       "rotate(1,2)",
                                       "translate(1,,2)",
                                       "scale(1)) ",
                                       "scale(1,2,3)",
                                       "skewX(1 2)",
                                       "scale(1 2 3 4 5 6 7)",
                                       "rotate(nan)",
                                       ",scale(1)",
                                       "Scale(2)" };
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      PfAffine m;
      g_test_message ("%s", wrong[i]);
      g_assert_false (pf_svg_transform (wrong[i], &m));
    }
}

/* SVG 1.1, section 7.8, describes the alignments; a box of 30 by 40 as in its figure. Shares of the
 * room left over are worked out by hand. */
static void
test_alignment (void)
{
  static const char *const names[] = { "Min", "Mid", "Max" };
  static const struct {
    double width, height;
    bool slice;
    double scale, x[3], y[3];
  } cases[] = {
    { 50, 30, false, 0.75, { 0, 13.75, 27.5 }, { 0, 0, 0 } },
    { 30, 60, false, 1, { 0, 0, 0 }, { 0, 10, 20 } },
    { 30, 60, true, 1.5, { 0, -7.5, -15 }, { 0, 0, 0 } },
    { 60, 50, true, 2, { 0, 0, 0 }, { 0, -15, -30 } },
  };
  for (size_t k = 0; k < 9 * G_N_ELEMENTS (cases); k++)
    {
      const size_t i = k / 9, x = k % 3, y = k / 3 % 3;
      g_autofree char *text =
          g_strdup_printf ("x%sY%s %s", names[x], names[y], cases[i].slice ? "slice" : "meet");
      const PfAffine m = pf_svg_fit ((PfSvgBox){ 100, 200, 30, 40 }, text,
                                     (PfSvgBox){ 1, 2, cases[i].width, cases[i].height });
      const PfPoint corner = pf_affine_map (m, (PfPoint){ 100, 200 });
      g_test_message ("%s in %g by %g", text, cases[i].width, cases[i].height);
      assert_near (m.xx, cases[i].scale, 1e-12);
      assert_near (m.yy, cases[i].scale, 1e-12);
      assert_near (corner.x, 1 + cases[i].x[x], 1e-12);
      assert_near (corner.y, 2 + cases[i].y[y], 1e-12);
    }
}

static void
test_other_alignments (void)
{
  static const struct {
    const char *text;
    double sx, sy, x0;
  } cases[] = {
    { "none", 2, 1, 0 },
    { "none slice", 2, 1, 0 },
    { NULL, 1, 1, 5 },
    { "", 1, 1, 5 },
    { "defer xMaxYMin", 1, 1, 10 },
    { "xMaxYMin slice", 2, 2, 0 },
    { "xmaxymin", 1, 1, 5 },
    { "xMinYMin cover", 1, 1, 5 },
    { "meet", 1, 1, 5 },
    { " xMinYMax  meet ", 1, 1, 0 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const PfAffine m =
          pf_svg_fit ((PfSvgBox){ 0, 0, 10, 10 }, cases[i].text, (PfSvgBox){ 0, 0, 20, 10 });
      g_test_message ("%s", cases[i].text);
      assert_near (m.xx, cases[i].sx, 1e-12);
      assert_near (m.yy, cases[i].sy, 1e-12);
      assert_near (m.x0, cases[i].x0, 1e-12);
    }
}

static void
test_view_box (void)
{
  PfSvgBox box;
  g_assert_true (pf_svg_view_box (" -1,2 30 4e1 ", &box));
  g_assert_true (box.x == -1 && box.y == 2 && box.width == 30 && box.height == 40);
  g_assert_false (pf_svg_view_box ("0 0 10", &box));
  g_assert_false (pf_svg_view_box ("0 0 10 10 10", &box));
  g_assert_false (pf_svg_view_box ("0 0 -10 10", &box));
  g_assert_false (pf_svg_view_box ("0 0 10mm 10", &box));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg/text/numbers", test_numbers);
  g_test_add_func ("/svg/text/lengths", test_lengths);
  g_test_add_func ("/svg/text/transforms", test_transforms);
  g_test_add_func ("/svg/text/nested-example", test_nested_example);
  g_test_add_func ("/svg/text/wrong-transforms", test_wrong_transforms);
  g_test_add_func ("/svg/text/alignment", test_alignment);
  g_test_add_func ("/svg/text/other-alignments", test_other_alignments);
  g_test_add_func ("/svg/text/view-box", test_view_box);
  return g_test_run ();
}
