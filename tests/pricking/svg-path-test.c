/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Path data: the points that come out, and where it breaks. */
#include <math.h>
#include <string.h>

#include <svg.h>

static PfPath *
draw (const char *d, size_t *bad)
{
  PfSvgPen pen = { .path = pf_path_new (PF_AFFINE_IDENTITY), .limit = 100000 };
  *bad = SIZE_MAX;
  g_test_message ("%s", d);
  g_assert_cmpint (pf_svg_path_data (d, &pen, bad), ==, *bad == SIZE_MAX);
  g_assert_false (pen.full);
  return pen.path;
}

/* The chains as text: "0,0 1,0 z | 5,5 6,5". */
static char *
chains_text (const PfPath *path)
{
  size_t n;
  g_autoptr (GError) error = NULL;
  const PfChain *chains = pf_path_chains (path, &n, &error);
  GString *text = g_string_new (NULL);
  g_assert_no_error (error);
  for (size_t i = 0; i < n; i++)
    {
      g_string_append (text, i > 0 ? " | " : "");
      for (size_t k = 0; k < chains[i].n_points; k++)
        g_string_append_printf (text, "%s%.10g,%.10g", k > 0 ? " " : "", chains[i].points[k].x,
                                chains[i].points[k].y);
      g_string_append (text, chains[i].closed ? " z" : "");
    }
  return g_string_free (text, FALSE);
}

/* `bad` is the character at which reading stops; -1 if all can be read. */
static const struct {
  const char *d, *chains;
  int bad;
} lines[] = {
  { "", "", -1 },
  { "none", "", -1 },
  { "M 1 1", "", -1 },
  /* SVG 1.1, section 8.3.3: the closed triangle of triangle01. */
  { "M 100 100 L 300 100 L 200 300 z", "100,100 300,100 200,300 z", -1 },
  { "M0,0 1,0 1,1", "0,0 1,0 1,1", -1 },
  { "m1,1 1,0 0,1", "1,1 2,1 2,2", -1 },
  { "M0 0H5V6h-2v-1", "0,0 5,0 5,6 3,6 3,5", -1 },
  { "M0 0h1 2 3v1 2", "0,0 1,0 3,0 6,0 6,1 6,3", -1 },
  /* Section 8.3.9: "M 100-200" and "M 0.6.5" are two numbers each. */
  { "M 100-200L0.6.5", "100,-200 0.6,0.5", -1 },
  { "M1e1-1e-1l+.5.5", "10,-0.1 10.5,0.4", -1 },
  /* Section 8.3.4: what follows a closepath starts where the closed subpath did. */
  { "M1 1h2v2z l 5 5", "1,1 3,1 3,3 z | 1,1 6,6", -1 },
  { "M1 1h2v2z m 5 5 l 1 0", "1,1 3,1 3,3 z | 6,6 7,6", -1 },
  { "M1 1h2v2zzZ", "1,1 3,1 3,3 z", -1 },
  { "M0,0 2,0 2,2 0,0z", "0,0 2,0 2,2 z", -1 },
  { "M0 0L1 0M5 5L6 5", "0,0 1,0 | 5,5 6,5", -1 },
  /* Section 8.3.8: a zero radius makes an arc a line. */
  { "M0 0A0 5 0 0 1 3 4", "0,0 3,4", -1 },
  /* Appendix F.2: "M 10,10 L 20,20,30" is drawn to (20, 20). */
  { "M 10,10 L 20,20,30", "10,10 20,20", 18 },
  { "L 1 1", "", 0 },
  { "1 1", "", 0 },
  { "M 0 0 L 1 1 X 2 2 L 3 3", "0,0 1,1", 12 },
  { "M 0 0 L 1 1 L", "0,0 1,1", 13 },
  { "M 0 0 L 1 1,", "0,0 1,1", 11 },
  { "M 0 0 L, 1 1", "", 7 },
  { "M 0 0 L 1,,1", "", 10 },
  { "M 0 0 1 0 A 1 1 0 2 1 5 5", "0,0 1,0", 18 },
  { "M 0 0 1 0 L 1e999 0", "0,0 1,0", 12 },
  { "M 0 0 1 0 L nan 0", "0,0 1,0", 12 },
  { "M 0 0 1 0 L 0x10 0", "0,0 1,0", 13 },
  { "M 0 0 1 0 z 5 5", "0,0 1,0 z", 12 },
};

static void
test_lines (void)
{
  for (size_t i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      size_t bad;
      PfPath *path = draw (lines[i].d, &bad);
      g_autofree char *text = chains_text (path);
      g_assert_cmpstr (text, ==, lines[i].chains);
      g_assert_cmpint (bad == SIZE_MAX ? -1 : (int) bad, ==, lines[i].bad);
      pf_path_free (path);
    }
}

static double
distance_to_chains (const PfPath *path, PfPoint p)
{
  size_t n;
  double least = INFINITY;
  const PfChain *chains = pf_path_chains (path, &n, NULL);
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k + 1 < chains[i].n_points; k++)
      {
        const PfPoint a = chains[i].points[k], b = chains[i].points[k + 1];
        const double dx = b.x - a.x, dy = b.y - a.y;
        const double t = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy);
        const double u = CLAMP (t, 0, 1);
        least = fmin (least, hypot (a.x + u * dx - p.x, a.y + u * dy - p.y));
      }
  return least;
}

/* Points that lie on the curve, from the standard's own examples: half-way points of its Bézier
 * curves by de Casteljau, points of its circles by their radius. */
static const struct {
  const char *d;
  PfPoint on[4];
} curves[] = {
  /* SVG 1.1, section 8.3.6, cubic01: S mirrors (250, 100) to (250, 300). */
  { "M100,200 C100,100 250,100 250,200 S400,300 400,200",
    { { 175, 125 }, { 250, 200 }, { 325, 275 }, { 400, 200 } } },
  /* The same with relative commands. */
  { "m100,200c0-100,150-100,150,0s150,100,150,0",
    { { 175, 125 }, { 250, 200 }, { 325, 275 }, { 400, 200 } } },
  /* Section 8.3.7, quad01: T mirrors (400, 50) to (800, 550). */
  { "M200,300 Q400,50 600,300 T1000,300",
    { { 400, 175 }, { 600, 300 }, { 800, 425 }, { 1000, 300 } } },
  { "m200,300q200-250,400,0t400,0", { { 400, 175 }, { 600, 300 }, { 800, 425 }, { 1000, 300 } } },
  /* S without C before it, T without Q: the control point is the current point. */
  { "M0 0 S 0 80 80 80", { { 40 / 4.0, 80 * 0.5 }, { 0, 0 }, { 80, 80 }, { 80, 80 } } },
  { "M0 0 L 10 0 T 30 20", { { 20, 10 }, { 10, 0 }, { 30, 20 }, { 5, 0 } } },
  { "M0 0 Q 5 5 10 0 S 10 80 90 80", { { 20, 40 }, { 5, 2.5 }, { 90, 80 }, { 10, 0 } } },
  /* Section 8.3.8, arcs01: three quarters of a circle of radius 150 round (300, 200), and a quarter
   * of one round (275, 175). */
  { "M300,200 h-150 a150,150 0 1,0 150,-150 z",
    { { 150, 200 }, { 300, 350 }, { 450, 200 }, { 300, 50 } } },
  { "M275,175 v-150 a150,150 0 0,0 -150,150 z",
    { { 275, 25 }, { 125, 175 }, { 275 - 90, 175 - 120 }, { 275 - 120, 175 - 90 } } },
  /* Flags need no space round them. */
  { "M0 0a25 25 0 0150 0", { { 25, -25 }, { 5, -15 }, { 45, -15 }, { 50, 0 } } },
  { "M0 0a25,25 0 1050,0", { { 25, 25 }, { 5, 15 }, { 45, 15 }, { 50, 0 } } },
  { "M0 0a1 1 0 01.5.5", { { 0.5, 0.5 }, { 0, 0 }, { 0.5, 0.5 }, { 0, 0 } } },
  /* Radii too small are enlarged, negative ones made positive: appendix F.6.6. */
  { "M0 0A1 1 0 0 1 50 0", { { 25, -25 }, { 5, -15 }, { 45, -15 }, { 50, 0 } } },
  { "M0 0A-25-25 0 0 1 50 0", { { 25, -25 }, { 5, -15 }, { 45, -15 }, { 50, 0 } } },
};

static void
test_curves (void)
{
  for (size_t i = 0; i < G_N_ELEMENTS (curves); i++)
    {
      size_t bad;
      PfPath *path = draw (curves[i].d, &bad);
      g_assert_cmpuint (bad, ==, SIZE_MAX);
      for (size_t k = 0; k < G_N_ELEMENTS (curves[i].on); k++)
        g_assert_cmpfloat (distance_to_chains (path, curves[i].on[k]), <=, PF_FLATNESS);
      pf_path_free (path);
    }
}

/* The flags' digit must not be read as the start of a number. */
static void
test_flags (void)
{
  size_t bad, n, m;
  PfPath *tight = draw ("M0 0a1 1 0 01.5.5", &bad), *wide = draw ("M0 0a1 1 0 0 1 .5 .5", &bad);
  const PfChain *a = pf_path_chains (tight, &n, NULL), *b = pf_path_chains (wide, &m, NULL);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpuint (m, ==, 1);
  g_assert_cmpuint (a->n_points, ==, b->n_points);
  g_assert_true (memcmp (a->points, b->points, a->n_points * sizeof (PfPoint)) == 0);
  pf_path_free (tight);
  pf_path_free (wide);
}

static void
test_limit (void)
{
  g_autoptr (GString) d = g_string_new ("M0 0");
  size_t bad, n;
  for (int i = 0; i < 60000; i++)
    g_string_append_printf (d, "l%d 1", i % 2);
  PfSvgPen pen = { .path = pf_path_new (PF_AFFINE_IDENTITY), .limit = 50000 };
  g_assert_false (pf_svg_path_data (d->str, &pen, &bad));
  g_assert_true (pen.full);
  const PfChain *chains = pf_path_chains (pen.path, &n, NULL);
  g_assert_cmpuint (chains->n_points, >, 40000);
  g_assert_cmpuint (chains->n_points, <=, 50000);
  pf_path_free (pen.path);
}

static void
test_points (void)
{
  static const struct {
    const char *points, *chains;
    bool closed;
    int bad;
  } cases[] = {
    { "0,0 1,0 1,1", "0,0 1,0 1,1 z", true, -1 },
    { " 0 0,1 0 , 1 1 ", "0,0 1,0 1,1", false, -1 },
    { "0-1-2-3", "0,-1 -2,-3", false, -1 },
    { "", "", true, -1 },
    /* SVG 1.1, section 9.7.1 with appendix F.2: an odd number of coordinates is an error. */
    { "0,0 1,0 1,1 5", "0,0 1,0 1,1", false, 12 },
    { "0,0 1,0 x", "0,0 1,0", false, 8 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      size_t bad = 0;
      PfSvgPen pen = { .path = pf_path_new (PF_AFFINE_IDENTITY), .limit = 1000 };
      const bool whole = pf_svg_points (cases[i].points, cases[i].closed, &pen, &bad);
      g_autofree char *text = chains_text (pen.path);
      g_test_message ("%s", cases[i].points);
      g_assert_cmpstr (text, ==, cases[i].chains);
      g_assert_cmpint (whole ? -1 : (int) bad, ==, cases[i].bad);
      pf_path_free (pen.path);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg/path/lines", test_lines);
  g_test_add_func ("/svg/path/curves", test_curves);
  g_test_add_func ("/svg/path/flags", test_flags);
  g_test_add_func ("/svg/path/limit", test_limit);
  g_test_add_func ("/svg/path/points", test_points);
  return g_test_run ();
}
