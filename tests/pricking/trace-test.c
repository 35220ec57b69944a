/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Scans: pictures stretched and turned by known maps come out true; the threshold is that of an
 * example worked by hand, and of a search; shapes drawn with soft edges are traced with their
 * areas.
 */
#include <math.h>
#include <string.h>

#include <trace.h>

/* --- Straightening ------------------------------------------------------------------------------
 */

static PfPoint
random_point (double size)
{
  return (PfPoint){ g_test_rand_double_range (-size, size),
                    g_test_rand_double_range (-size, size) };
}

static void
assert_near (PfPoint a, PfPoint b, double within)
{
  g_assert_cmpfloat (hypot (a.x - b.x, a.y - b.y), <=, within);
}

/* The picture of a sheet: turned by any angle, scaled by `across` and `down` pixels to the mm. */
static PfAffine
random_picture (double across, double down)
{
  const double angle = g_test_rand_double_range (0, 2 * G_PI);
  const PfPoint at = random_point (1000);
  const PfAffine turn = { cos (angle), -sin (angle), sin (angle), cos (angle), at.x, at.y };

  return pf_affine_compose (turn, (PfAffine){ across, 0, 0, down, 0, 0 });
}

static PfKnownDistance
known (PfAffine picture, PfPoint a, PfPoint b)
{
  return (PfKnownDistance){ pf_affine_map (picture, a), pf_affine_map (picture, b),
                            hypot (b.x - a.x, b.y - a.y) };
}

static void
check_true (PfAffine picture, PfAffine map, PfPoint mark, PfPoint at)
{
  for (int i = 0; i < 10; i++)
    {
      const PfPoint p = random_point (200);
      const PfPoint want = { p.x - mark.x + at.x, p.y - mark.y + at.y };

      assert_near (pf_affine_map (map, pf_affine_map (picture, p)), want, 1e-8);
    }
}

static void
test_straighten (void)
{
  for (int k = 0; k < 100; k++)
    {
      const double scale = g_test_rand_double_range (2, 50);
      const double stretch = k % 2 ? g_test_rand_double_range (0.8, 1.25) : 1;
      PfAffine picture = random_picture (scale, scale * stretch);
      const PfPoint left = random_point (100), top = random_point (100), at = random_point (300);
      const PfPoint right = { left.x + g_test_rand_double_range (1, 200), left.y };
      const PfPoint bottom = { top.x, top.y + g_test_rand_double_range (1, 200) };
      /* A scanner may lean too: across and down needn't be at right angles in the picture. */
      if (k % 4 == 1)
        picture = pf_affine_compose ((PfAffine){ 1, 0.2, 0, 1, 0, 0 }, picture);
      const PfKnownDistance across = known (picture, left, right);
      const PfKnownDistance down = known (picture, top, bottom);
      const PfKnownDistance up = { down.b, down.a, down.mm };
      PfAffine map;

      g_assert_true (pf_scan_straighten (&across, &down, at, &map, NULL));
      check_true (picture, map, left, at);
      g_assert_true (pf_scan_straighten (&across, &up, at, &map, NULL));
      check_true (picture, map, left, at);
      if (k % 2 == 0)
        {
          g_assert_true (pf_scan_straighten (&across, NULL, at, &map, NULL));
          check_true (picture, map, left, at);
        }
    }
}

static void
test_straighten_refused (void)
{
  static const struct {
    PfKnownDistance across, down;
    const char *says;
  } cases[] = {
    { { { 0, 0 }, { 100, 0 }, 0 }, { { 0, 0 }, { 0, 100 }, 10 }, "0.00 mm" },
    { { { 0, 0 }, { 100, 0 }, 10 }, { { 0, 0 }, { 0, 100 }, 10001 }, "10001.00 mm" },
    { { { 0, 0 }, { 100, 0 }, NAN }, { { 0, 0 }, { 0, 100 }, 10 }, "can't be used" },
    { { { 5, 5 }, { 5, 5 }, 10 }, { { 0, 0 }, { 0, 100 }, 10 }, "fall together" },
    { { { 0, 0 }, { 100, 0 }, 10 }, { { 7, 7 }, { 7.3, 7 }, 10 }, "fall together" },
    { { { 0, 0 }, { INFINITY, 0 }, 10 }, { { 0, 0 }, { 0, 100 }, 10 }, "fall together" },
    { { { 0, 0 }, { 100, 0 }, 10 }, { { 50, 20 }, { 150, 20 }, 10 }, "along one line" },
    { { { 0, 0 }, { 100, 50 }, 10 }, { { 50, 20 }, { 30, 10 }, 10 }, "along one line" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      PfAffine map;

      g_assert_false (
          pf_scan_straighten (&cases[i].across, &cases[i].down, (PfPoint){ 0, 0 }, &map, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, cases[i].says));
    }
}

/* --- The threshold ------------------------------------------------------------------------------
 */

static int
threshold_of (const guint8 *grey, int n)
{
  return pf_scan_threshold (&(PfScan){ grey, n, 1, n });
}

/* Levels 0 to 5 with 8, 7, 2, 6, 9 and 4 of 36 pixels. By hand, darker than 3: 17 pixels with the
 * mean 11/17 = 0.6471, and 19 with the mean 74/19 = 3.8947; 17/36 · 19/36 · 3.2477² = 2.6287. The
 * other levels give 1.593 (1), 2.563 (2), 2.142 (4) and 0.870 (5). */
static void
test_threshold_by_hand (void)
{
  static const int counts[] = { 8, 7, 2, 6, 9, 4 };
  guint8 grey[36];
  int n = 0;

  for (size_t level = 0; level < G_N_ELEMENTS (counts); level++)
    for (int i = 0; i < counts[level]; i++)
      grey[n++] = (guint8) level;
  g_assert_cmpint (threshold_of (grey, n), ==, 3);
}

/* The sum of the squares that the classes' means leave, twice through the pixels: Otsu's paper
 * shows that what makes it least makes the variance between most. */
static double
squares_left (const guint8 *grey, int n, int threshold)
{
  double sum[2] = { 0, 0 }, count[2] = { 0, 0 }, squares = 0;

  for (int i = 0; i < n; i++)
    {
      sum[grey[i] < threshold] += grey[i];
      count[grey[i] < threshold]++;
    }
  for (int i = 0; i < n; i++)
    squares += pow (grey[i] - sum[grey[i] < threshold] / count[grey[i] < threshold], 2);
  return squares;
}

static void
test_threshold_by_search (void)
{
  for (int k = 0; k < 60; k++)
    {
      guint8 grey[200];
      const int dark = g_test_rand_int_range (0, 120), light = g_test_rand_int_range (120, 250);
      const int n = g_test_rand_int_range (20, 201);
      double least = INFINITY;

      for (int i = 0; i < n; i++)
        grey[i] = (guint8) CLAMP ((g_test_rand_int_range (0, 3) ? light : dark) +
                                      g_test_rand_int_range (-40, 41),
                                  0, 255);
      grey[0] = 0;
      grey[1] = 255;
      for (int level = 1; level < 256; level++)
        least = fmin (least, squares_left (grey, n, level));
      g_assert_cmpfloat (squares_left (grey, n, threshold_of (grey, n)), <=, least * (1 + 1e-12));
    }
}

static void
test_threshold_of_few (void)
{
  static const guint8 two[] = { 0, 255, 255, 0 }, near[] = { 100, 101 }, white[] = { 255, 255 };
  static const guint8 black[] = { 0, 0, 0 };

  g_assert_cmpint (threshold_of (two, 4), ==, 128);
  g_assert_cmpint (threshold_of (near, 2), ==, 101);
  g_assert_cmpint (threshold_of (white, 2), <=, 255);
  g_assert_cmpint (threshold_of (black, 3), >, 0);
}

/* --- Tracing ------------------------------------------------------------------------------------
 */

#define SIZE 260
#define MARGIN 4 /* bytes after each row that aren't the picture's */
#define STRIDE (SIZE + MARGIN)
#define SAMPLES 8

/* Whether a point of the picture is ink, in pixels. */
typedef bool (*Ink) (PfPoint p);

static double
from_middle (PfPoint p)
{
  return hypot (p.x - 130.3, p.y - 128.6);
}

static bool
disc (PfPoint p)
{
  return from_middle (p) < 100;
}

static bool
ring (PfPoint p)
{
  return from_middle (p) < 100 && from_middle (p) > 60;
}

static bool
target (PfPoint p)
{
  return ring (p) || from_middle (p) < 30;
}

static bool
rectangle (PfPoint p)
{
  return p.x > 20 && p.x < 220 && p.y > 50 && p.y < 150;
}

static bool
spot_beside (PfPoint p)
{
  return rectangle (p) || (p.x > 100 && p.x < 104 && p.y > 200 && p.y < 205);
}

static bool
nothing (PfPoint p)
{
  return p.x < 0;
}

/* Each pixel as grey as its share of ink. */
static guint8 *
draw (Ink ink, bool light)
{
  guint8 *grey = g_malloc0 (SIZE * STRIDE);

  memset (grey, light ? 255 : 0, SIZE * STRIDE);
  for (int i = 0; i < SIZE * SIZE; i++)
    {
      const int x = i % SIZE, y = i / SIZE;
      int n = 0;

      for (int k = 0; k < SAMPLES * SAMPLES; k++)
        n +=
            ink ((PfPoint){ x + (k % SAMPLES + 0.5) / SAMPLES, y + (k / SAMPLES + 0.5) / SAMPLES });
      n = light ? n : SAMPLES * SAMPLES - n;
      grey[y * STRIDE + x] = (guint8) (n * 255 / (SAMPLES * SAMPLES));
    }
  return grey;
}

static double
curve_area (const PfCurve *curve)
{
  PfChain chain;

  g_assert_true (pf_curve_flatten (curve, &chain, NULL));
  const double area = fabs (pf_chain_area (chain.points, chain.n_points));
  g_free (chain.points);
  return area;
}

/* 300 dots to the inch. */
#define MM (25.4 / 300)

static const struct {
  const char *name;
  Ink ink;
  double speckle; /* mm² */
  guint n;
  bool outer[3];
  double areas[3]; /* square pixels */
} pictures[] = {
  { "disc", disc, 0.5, 1, { true }, { G_PI * 100 * 100 } },
  { "ring", ring, 0.5, 2, { true, false }, { G_PI * 100 * 100, G_PI * 60 * 60 } },
  { "target",
    target,
    0.5,
    3,
    { true, false, true },
    { G_PI * 100 * 100, G_PI * 60 * 60, G_PI * 30 * 30 } },
  { "rectangle", rectangle, 0.5, 1, { true }, { 200 * 100 } },
  /* The spot has 20 pixels: 0.1434 mm². */
  { "spot left out", spot_beside, 0.144, 1, { true }, { 200 * 100 } },
  { "spot kept", spot_beside, 0.143, 2, { true, true }, { 20, 200 * 100 } },
  { "nothing", nothing, 0.5, 0, { false }, { 0 } },
};

static const PfAffine maps[] = {
  { MM, 0, 0, MM, 0, 0 },
  { 0, MM / 2, -MM * 2, 0, 50, 300 },
  { -MM, 0, 0, MM, 10, 10 },
};

static void
check_picture (size_t i, bool light, PfAffine map)
{
  g_autofree guint8 *grey = draw (pictures[i].ink, light);
  const PfScan scan = { grey, SIZE, SIZE, STRIDE };
  PfTraceSettings settings = pf_trace_settings_default ();
  g_autofree bool *outer = NULL;
  GError *error = NULL;

  settings.light = light;
  settings.speckle = pictures[i].speckle;
  g_autoptr (GPtrArray) curves = pf_scan_trace (&scan, &settings, map, &outer, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (curves->len, ==, pictures[i].n);
  for (guint c = 0; c < curves->len; c++)
    {
      const double want = pictures[i].areas[c] * MM * MM;
      const double area = curve_area (curves->pdata[c]);

      g_test_message ("%s %u: %.4f mm² for %.4f", pictures[i].name, c, area, want);
      /* 0.3 pixels all round a circle of that area: potrace cuts bends a little short. */
      g_assert_cmpfloat (fabs (area - want), <=,
                         0.3 * 2 * sqrt (G_PI * pictures[i].areas[c]) * MM * MM);
      g_assert_true (outer[c] == pictures[i].outer[c]);
    }
}

static void
test_pictures (void)
{
  for (size_t i = 0; i < G_N_ELEMENTS (pictures); i++)
    for (size_t k = 0; k < 2 * G_N_ELEMENTS (maps); k++)
      check_picture (i, k % 2 == 1, maps[k / 2]);
}

/* The disc's curve stays within a pixel of the circle (potrace cuts bends short by up to that much,
 * without any curves joined too), and is smooth all round. */
static void
test_disc (void)
{
  g_autofree guint8 *grey = draw (disc, false);
  const PfScan scan = { grey, SIZE, SIZE, STRIDE };
  const PfTraceSettings settings = pf_trace_settings_default ();
  g_autoptr (GPtrArray) curves =
      pf_scan_trace (&scan, &settings, (PfAffine){ MM, 0, 0, MM, 7, -3 }, NULL, NULL);

  g_assert_cmpuint (curves->len, ==, 1);
  const PfCurve *curve = curves->pdata[0];
  g_assert_true (curve->closed);
  g_assert_cmpuint (curve->n_nodes, >=, 4);
  g_assert_cmpuint (curve->n_nodes, <=, 24);
  for (size_t s = 0; s < curve->n_nodes; s++)
    {
      g_assert_true (curve->nodes[s].smooth);
      for (int k = 0; k < 20; k++)
        {
          const PfPoint p = pf_curve_point (curve, s, k / 20.0);
          const PfPoint pixel = { (p.x - 7) / MM, (p.y + 3) / MM };

          g_assert_cmpfloat (fabs (from_middle (pixel) - 100), <, 1);
        }
    }
}

/* Without roundness the rectangle is its four corners, exactly. */
static void
test_rectangle (void)
{
  g_autofree guint8 *grey = draw (rectangle, false);
  const PfScan scan = { grey, SIZE, SIZE, STRIDE };
  PfTraceSettings settings = pf_trace_settings_default ();

  settings.roundness = 0;
  g_autoptr (GPtrArray) curves =
      pf_scan_trace (&scan, &settings, (PfAffine){ 0.1, 0, 0, 0.1, 0, 0 }, NULL, NULL);
  g_assert_cmpuint (curves->len, ==, 1);
  const PfCurve *curve = curves->pdata[0];
  g_assert_cmpuint (curve->n_nodes, ==, 4);
  for (size_t i = 0; i < 4; i++)
    {
      const PfPoint p = curve->nodes[i].at;

      g_assert_true (pf_curve_segment_straight (curve, i));
      assert_near (p, (PfPoint){ p.x < 12 ? 2 : 22, p.y < 10 ? 5 : 15 }, 1e-9);
    }
}

static void
test_refused (void)
{
  static const guint8 grey[] = { 0 };
  static const struct {
    PfScan scan;
    PfTraceSettings settings;
    PfAffine map;
    PfError code;
  } cases[] = {
    { { grey, 1, 1, 1 }, { 256, false, 1, 1, 1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 1, 1, 1 }, { -1, false, 1, 1, 1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 1, 1, 1 }, { 0, false, -1, 1, 1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 1, 1, 1 }, { 0, false, NAN, 1, 1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 1, 1, 1 }, { 0, false, 1, 1.4, 1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 1, 1, 1 }, { 0, false, 1, 1, -1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 1, 1, 1 }, { 0, false, 1, 1, 1 }, { 1, 1, 1, 1, 0, 0 }, PF_ERROR_SETTING },
    { { grey, 20000, 20000, 1 }, { 0, false, 1, 1, 1 }, { 1, 0, 0, 1, 0, 0 }, PF_ERROR_TOO_BIG },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      bool *outer = NULL;

      g_assert_null (
          pf_scan_trace (&cases[i].scan, &cases[i].settings, cases[i].map, &outer, &error));
      g_assert_error (error, PF_ERROR, (int) cases[i].code);
      g_assert_null (outer);
    }
}

/* Noise: whatever comes out is closed curves, and every hole follows an outer one. */
static void
test_noise (void)
{
  for (int k = 0; k < 10; k++)
    {
      const int width = g_test_rand_int_range (0, 130), height = g_test_rand_int_range (0, 60);
      g_autofree guint8 *grey = g_malloc (MAX (width * height, 1));
      const PfScan scan = { grey, width, height, width };
      PfTraceSettings settings = pf_trace_settings_default ();
      g_autofree bool *outer = NULL;

      for (int i = 0; i < width * height; i++)
        grey[i] = (guint8) g_test_rand_int_range (0, 256);
      settings.speckle = 0;
      settings.threshold = g_test_rand_int_range (1, 256);
      g_autoptr (GPtrArray) curves =
          pf_scan_trace (&scan, &settings, PF_AFFINE_IDENTITY, &outer, NULL);
      g_assert_nonnull (curves);
      for (guint c = 0; c < curves->len; c++)
        {
          const PfCurve *curve = curves->pdata[c];

          g_assert_true (curve->closed);
          g_assert_cmpuint (curve->n_nodes, >=, 2);
        }
      if (curves->len > 0)
        g_assert_true (outer[0]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scan/straighten", test_straighten);
  g_test_add_func ("/scan/straighten-refused", test_straighten_refused);
  g_test_add_func ("/scan/threshold-by-hand", test_threshold_by_hand);
  g_test_add_func ("/scan/threshold-by-search", test_threshold_by_search);
  g_test_add_func ("/scan/threshold-of-few", test_threshold_of_few);
  g_test_add_func ("/scan/pictures", test_pictures);
  g_test_add_func ("/scan/disc", test_disc);
  g_test_add_func ("/scan/rectangle", test_rectangle);
  g_test_add_func ("/scan/refused", test_refused);
  g_test_add_func ("/scan/noise", test_noise);
  return g_test_run ();
}
