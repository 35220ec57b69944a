/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Flattening Bézier curves: each is sampled densely from its defining polynomial, and the chain
 * compared with the samples. Then the rules for subpaths, and what is refused.
 */
#include "shapes.h"

#define SAMPLES 2000

static PfPoint
bezier (const PfPoint *p, int degree, double t)
{
  const double s = 1 - t;
  const double w[4] = { degree == 3 ? s * s * s : s * s, degree == 3 ? 3 * s * s * t : 2 * s * t,
                        degree == 3 ? 3 * s * t * t : t * t, t * t * t };
  PfPoint sum = { 0, 0 };

  for (int i = 0; i <= degree; i++)
    {
      sum.x += w[i] * p[i].x;
      sum.y += w[i] * p[i].y;
    }
  return sum;
}

static PfPoint
bezier_tangent (const PfPoint *p, int degree, double t)
{
  PfPoint d[3];

  for (int i = 0; i < degree; i++)
    d[i] = (PfPoint){ p[i + 1].x - p[i].x, p[i + 1].y - p[i].y };
  if (degree == 3)
    return bezier (d, 2, t);
  return (PfPoint){ (1 - t) * d[0].x + t * d[1].x, (1 - t) * d[0].y + t * d[1].y };
}

static double
turn_between (PfPoint a, PfPoint b)
{
  return fabs (atan2 (a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)) * 180 / G_PI;
}

static double
distance_at (const PfPoint *p, int degree, double t, PfPoint at)
{
  const PfPoint q = bezier (p, degree, t);

  return hypot (q.x - at.x, q.y - at.y);
}

/* The parameter nearest to `at` between two, found by thirds. */
static double
nearest_parameter (const PfPoint *p, int degree, double low, double high, PfPoint at)
{
  for (int i = 0; i < 80; i++)
    {
      const double third = (high - low) / 3;

      if (distance_at (p, degree, low + third, at) < distance_at (p, degree, high - third, at))
        high -= third;
      else
        low += third;
    }
  return (low + high) / 2;
}

/* The first parameter from `after` on where the curve comes to `at`, or -1. */
static double
find_parameter (const PfPoint *p, int degree, double after, PfPoint at)
{
  const double step = (1 - after) / SAMPLES;

  for (int i = 0; i < SAMPLES; i++)
    {
      const double from = after + i * step, to = from + step;
      const double here = distance_at (p, degree, from, at);
      const double length = distance_at (p, degree, from, bezier (p, degree, to));

      if (here > 3 * length + 1e-3)
        continue;
      const double t = nearest_parameter (p, degree, from, to, at);
      if (distance_at (p, degree, t, at) < 1e-7)
        return t;
    }
  return -1;
}

/* The smallest radius in mm of a bend that is more than a cusp. */
#define CUSP_RADIUS 1e-3

/* How much the tangent turns from one parameter to another, cusps left out. */
static double
smooth_turn (const PfPoint *p, int degree, double from, double to, int depth)
{
  const double turn =
      turn_between (bezier_tangent (p, degree, from), bezier_tangent (p, degree, to));
  const double length = distance_at (p, degree, from, bezier (p, degree, to));
  const double middle = (from + to) / 2;

  if (turn < 1 || depth == 0)
    return length > turn * G_PI / 180 * CUSP_RADIUS ? turn : 0;
  return smooth_turn (p, degree, from, middle, depth - 1) +
         smooth_turn (p, degree, middle, to, depth - 1);
}

/* The same over stretches so short that no bend the other way is missed. */
static double
total_turn (const PfPoint *p, int degree, double from, double to)
{
  const double step = (to - from) / 50;
  double sum = 0;

  /* At its very ends a curve may have no tangent. */
  for (int i = 0; i < 50; i++)
    sum += smooth_turn (p, degree, from + (i + 1e-3) * step, from + (i + 1 - 1e-3) * step, 30);
  return sum;
}

typedef struct {
  const char *name;
  int degree;
  PfPoint p[4];
} Curve;

static const Curve curves[] = {
  { "arch", 3, { { 0, 0 }, { 0, 40 }, { 50, 40 }, { 50, 0 } } },
  { "s", 3, { { 0, 0 }, { 60, 0 }, { -20, 30 }, { 40, 30 } } },
  { "loop", 3, { { 0, 0 }, { 60, 50 }, { -20, 50 }, { 40, 0 } } },
  { "cusp", 3, { { 0, 0 }, { 40, 50 }, { 0, 50 }, { 40, 0 } } },
  /* x = 30t² - 20t, y = 30t³ - 30t² + 10t: both stand still at t = 1/3. */
  { "cusp off the middle",
    3,
    { { 0, 0 }, { -20. / 3, 10. / 3 }, { -10. / 3, -10. / 3 }, { 10, 10 } } },
  { "nearly a cusp", 3, { { 0, 0 }, { 40.5, 50 }, { -0.5, 50 }, { 40, 0 } } },
  { "straight", 3, { { 1, 2 }, { 11, 12 }, { 21, 22 }, { 31, 32 } } },
  { "there and back", 3, { { 0, 0 }, { 60, 0 }, { -20, 0 }, { 40, 0 } } },
  { "first control at the start", 3, { { 5, 5 }, { 5, 5 }, { 30, 0 }, { 30, 30 } } },
  { "second control at the end", 3, { { 5, 5 }, { 30, 0 }, { 30, 30 }, { 30, 30 } } },
  { "both controls at the ends", 3, { { 5, 5 }, { 5, 5 }, { 30, 30 }, { 30, 30 } } },
  { "closed", 3, { { 5, 5 }, { 80, 5 }, { 5, 80 }, { 5, 5 } } },
  { "tiny", 3, { { 0, 0 }, { 0, 0.04 }, { 0.05, 0.04 }, { 0.05, 0 } } },
  { "bow", 2, { { 0, 0 }, { 25, 40 }, { 50, 0 } } },
  { "needle", 2, { { 0, 0 }, { 50, 0.2 }, { 0, 0.4 } } },
  { "folded", 2, { { 0, 0 }, { 50, 0 }, { 0, 0 } } },
};

static const PfAffine maps[] = {
  { 1, 0, 0, 1, 0, 0 },
  { 25.4 / 96, 0, 0, 25.4 / 96, 10, 10 },
  { 0.8, 0.9, -0.3, 1.1, -7, 40 },
  { -1, 0, 0, 1, 0, 0 },
  { 12, 3, 2, 15, 500, -900 },
  { 1, 0, 0, 0.01, 0, 3 },
};

static void
check_curve (const Curve *curve, PfAffine map)
{
  g_autoptr (PfPath) path = pf_path_new (map);
  const int degree = curve->degree;
  PfPoint p[4];
  size_t n;

  pf_path_move_to (path, curve->p[0]);
  if (degree == 3)
    pf_path_curve_to (path, curve->p[1], curve->p[2], curve->p[3]);
  else
    pf_path_quadratic_to (path, curve->p[1], curve->p[2]);
  const PfChain *chain = pf_path_chains (path, &n, NULL);
  g_assert_cmpuint (n, ==, 1);
  g_assert_false (chain->closed);
  for (int i = 0; i <= degree; i++)
    p[i] = pf_affine_map (map, curve->p[i]);
  for (int i = 0; i <= SAMPLES; i++)
    g_assert_cmpfloat (distance_to_chain (bezier (p, degree, (double) i / SAMPLES), chain), <=,
                       PF_FLATNESS);

  double t = 0;
  for (size_t i = 1; i < chain->n_points; i++)
    {
      const double from = t;

      t = i + 1 < chain->n_points ? find_parameter (p, degree, t, chain->points[i]) : 1;
      g_assert_cmpfloat (t, >=, from);
      g_assert_cmpfloat (total_turn (p, degree, from, t), <=, PF_MAX_TURN * 1.001);
    }
  /* The ends of the curve are kept. */
  g_assert_cmpfloat (hypot (p[0].x - chain->points[0].x, p[0].y - chain->points[0].y), <, 1e-9);
  g_assert_cmpfloat (hypot (p[degree].x - chain->points[chain->n_points - 1].x,
                            p[degree].y - chain->points[chain->n_points - 1].y),
                     <, 1e-9);
}

static void
test_curve (gconstpointer data)
{
  for (size_t i = 0; i < G_N_ELEMENTS (maps); i++)
    check_curve (data, maps[i]);
}

static void
test_random_curves (void)
{
  for (int k = 0; k < 60; k++)
    {
      Curve curve = { "random", 2 + k % 2, { { 0, 0 } } };

      for (int i = 0; i < 4; i++)
        curve.p[i] =
            (PfPoint){ g_test_rand_double_range (0, 100), g_test_rand_double_range (0, 100) };
      check_curve (&curve, maps[k % 3]);
    }
}

/* A smooth curve has no corner: no vertex of its chain turns by as much as PF_CORNER_TURN. */
static void
test_no_false_corners (void)
{
  g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
  size_t n;

  pf_path_move_to (path, (PfPoint){ 0, 0 });
  for (int k = 0; k < 200; k++)
    {
      const double r = pow (10, g_test_rand_double_range (-2, 3));

      pf_path_move_to (path, (PfPoint){ 0, 0 });
      pf_path_curve_to (path, (PfPoint){ 0, r }, (PfPoint){ r, r }, (PfPoint){ r, 0 });
    }
  const PfChain *chains = pf_path_chains (path, &n, NULL);
  g_assert_cmpuint (n, ==, 200);
  for (size_t c = 0; c < n; c++)
    for (size_t i = 2; i < chains[c].n_points; i++)
      {
        const PfPoint *p = chains[c].points + i;
        const PfPoint in = { p[-1].x - p[-2].x, p[-1].y - p[-2].y };
        const PfPoint out = { p[0].x - p[-1].x, p[0].y - p[-1].y };

        g_assert_cmpfloat (turn_between (in, out), <, 2 * PF_MAX_TURN);
      }
}

/* A path in letters: M, L with a point; Z. */
typedef struct {
  const char *name;
  const char *letters;
  PfPoint points[8];
  size_t n_chains;
  struct {
    size_t n_points;
    bool closed;
    PfPoint first, last;
  } chains[3];
} Subpaths;

static const Subpaths subpaths[] = {
  { "nothing", "", { { 0, 0 } }, 0, { { 0, false, { 0, 0 }, { 0, 0 } } } },
  { "a move alone", "MM", { { 1, 1 }, { 2, 2 } }, 0, { { 0, false, { 0, 0 }, { 0, 0 } } } },
  { "no length",
    "MLLZ",
    { { 1, 1 }, { 1, 1 }, { 1, 1 + 0.5e-9 } },
    0,
    { { 0, false, { 0, 0 }, { 0, 0 } } } },
  { "open", "MLL", { { 1, 1 }, { 5, 1 }, { 5, 5 } }, 1, { { 3, false, { 1, 1 }, { 5, 5 } } } },
  { "closed", "MLLZ", { { 1, 1 }, { 5, 1 }, { 5, 5 } }, 1, { { 3, true, { 1, 1 }, { 5, 5 } } } },
  { "closed where it began",
    "MLLLZ",
    { { 1, 1 }, { 5, 1 }, { 5, 5 }, { 1, 1 } },
    1,
    { { 3, true, { 1, 1 }, { 5, 5 } } } },
  { "closed a hair from where it began",
    "MLLLZ",
    { { 1, 1 }, { 5, 1 }, { 5, 5 }, { 1, 1 + 0.9e-9 } },
    1,
    { { 3, true, { 1, 1 }, { 5, 5 } } } },
  { "points that repeat",
    "MLLLLZ",
    { { 1, 1 }, { 1, 1 }, { 5, 1 }, { 5, 1 }, { 5, 5 } },
    1,
    { { 3, true, { 1, 1 }, { 5, 5 } } } },
  { "on from where it was closed",
    "MLLZLL",
    { { 1, 1 }, { 5, 1 }, { 5, 5 }, { 0, 3 }, { 0, 4 } },
    2,
    { { 3, true, { 1, 1 }, { 5, 5 } }, { 3, false, { 1, 1 }, { 0, 4 } } } },
  { "two",
    "MLLMLL",
    { { 1, 1 }, { 5, 1 }, { 5, 5 }, { 7, 7 }, { 8, 7 }, { 8, 8 } },
    2,
    { { 3, false, { 1, 1 }, { 5, 5 } }, { 3, false, { 7, 7 }, { 8, 8 } } } },
  { "no move first", "LL", { { 1, 1 }, { 5, 1 } }, 1, { { 3, false, { 0, 0 }, { 5, 1 } } } },
};

static void
test_subpaths (gconstpointer data)
{
  const Subpaths *want = data;
  g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
  GError *error = NULL;
  size_t n, next = 0;

  for (const char *c = want->letters; *c; c++)
    if (*c == 'M')
      pf_path_move_to (path, want->points[next++]);
    else if (*c == 'L')
      pf_path_line_to (path, want->points[next++]);
    else
      pf_path_close (path);
  const PfChain *chains = pf_path_chains (path, &n, &error);
  g_assert_no_error (error);
  g_assert_nonnull (chains);
  g_assert_cmpuint (n, ==, want->n_chains);
  for (size_t i = 0; i < n; i++)
    {
      const size_t n_points = chains[i].n_points;
      const PfPoint first = chains[i].points[0], last = chains[i].points[n_points - 1];

      g_assert_cmpuint (n_points, ==, want->chains[i].n_points);
      g_assert_true (chains[i].closed == want->chains[i].closed);
      g_assert_true (first.x == want->chains[i].first.x && first.y == want->chains[i].first.y);
      g_assert_true (last.x == want->chains[i].last.x && last.y == want->chains[i].last.y);
    }
}

static void
test_current (void)
{
  g_autoptr (PfPath) path = pf_path_new ((PfAffine){ 2, 0, 0, 2, 100, 100 });

  pf_path_move_to (path, (PfPoint){ 3, 4 });
  pf_path_line_to (path, (PfPoint){ 5, 6 });
  g_assert_cmpfloat (pf_path_current (path).x, ==, 5);
  pf_path_curve_to (path, (PfPoint){ 5, 7 }, (PfPoint){ 8, 7 }, (PfPoint){ 9, 8 });
  g_assert_cmpfloat (pf_path_current (path).y, ==, 8);
  pf_path_close (path);
  g_assert_cmpfloat (pf_path_current (path).x, ==, 3);
  g_assert_cmpfloat (pf_path_current (path).y, ==, 4);
}

/* Whatever is drawn before and after it, a point that can't be used is an error, and soon found. */
static void
test_refused (void)
{
  static const double numbers[] = { NAN, INFINITY, -INFINITY, 1.0001e5, -2e5, 1e300, -1.7e308 };

  for (size_t i = 0; i < G_N_ELEMENTS (numbers); i++)
    for (int kind = 0; kind < 6; kind++)
      {
        g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
        g_autoptr (GError) error = NULL;
        const PfPoint bad = { 1, numbers[i] }, good = { 10, 20 };
        size_t n;

        pf_path_move_to (path, kind == 0 ? bad : (PfPoint){ 1, 1 });
        if (kind == 1)
          pf_path_line_to (path, bad);
        else if (kind == 2)
          pf_path_curve_to (path, bad, good, good);
        else if (kind == 3)
          pf_path_curve_to (path, good, good, bad);
        else if (kind == 4)
          pf_path_quadratic_to (path, bad, good);
        else if (kind == 5)
          pf_path_arc_to (path, 3, 4, 0, true, true, bad);
        pf_path_line_to (path, good);
        pf_path_close (path);
        g_assert_null (pf_path_chains (path, &n, &error));
        g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
        g_assert_cmpuint (n, ==, 0);
      }
}

/* The error says where; the limit itself is allowed. */
static void
test_limit (void)
{
  g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
  g_autoptr (GError) error = NULL;
  size_t n;

  pf_path_move_to (path, (PfPoint){ PF_OUTLINE_LIMIT, -PF_OUTLINE_LIMIT });
  pf_path_line_to (path, (PfPoint){ -PF_OUTLINE_LIMIT, PF_OUTLINE_LIMIT });
  g_assert_nonnull (pf_path_chains (path, &n, NULL));
  pf_path_line_to (path, (PfPoint){ 12.5, 100000.25 });
  g_assert_null (pf_path_chains (path, &n, &error));
  g_assert_nonnull (strstr (error->message, "(12.50, 100000.25) mm"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (curves); i++)
    {
      g_autofree char *name = g_strdup_printf ("/path/curve/%s", curves[i].name);

      g_test_add_data_func (name, &curves[i], test_curve);
    }
  for (size_t i = 0; i < G_N_ELEMENTS (subpaths); i++)
    {
      g_autofree char *name = g_strdup_printf ("/path/subpaths/%s", subpaths[i].name);

      g_test_add_data_func (name, &subpaths[i], test_subpaths);
    }
  g_test_add_func ("/path/random-curves", test_random_curves);
  g_test_add_func ("/path/no-false-corners", test_no_false_corners);
  g_test_add_func ("/path/current", test_current);
  g_test_add_func ("/path/refused", test_refused);
  g_test_add_func ("/path/limit", test_limit);
  return g_test_run ();
}
