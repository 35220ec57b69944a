/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Elliptical arcs. What an arc is follows from SVG 2 (section 9.3.8 and appendix B.2): its ends lie
 * on an ellipse with the given radii and rotation, `large` says whether it sweeps more than half of
 * it, `sweep` whether angles rise along it, radii too small are scaled up until the ellipse just
 * reaches. Each arc is taken back to the circle of which it is the picture, where all of this can
 * be seen.
 */
#include "shapes.h"

typedef struct {
  PfPoint from;
  double rx, ry, rotation;
  bool large, sweep;
  PfPoint to;
} Arc;

/* From the path's units to the plane where the ellipse is a circle of radius 1. */
static PfAffine
to_circle (const Arc *arc, double rx, double ry)
{
  const double c = cos (arc->rotation * G_PI / 180), s = sin (arc->rotation * G_PI / 180);

  return (PfAffine){ c / rx, s / rx, -s / ry, c / ry, 0, 0 };
}

/* The centre of the circle of radius 1 through `a` and `b` from which the arc from a to b is as
 * `large` and `sweep` say. */
static PfPoint
find_centre (PfPoint a, PfPoint b, bool large, bool sweep)
{
  const double dx = (b.x - a.x) / 2, dy = (b.y - a.y) / 2, half = hypot (dx, dy);
  const double rise = sqrt (fmax (0, 1 - half * half));
  /* Angles rise clockwise as seen. Of two such arcs, the smaller one has its centre on its right
   * hand, which is (-dy, dx). */
  const double side = large == sweep ? -1 : 1;

  return (PfPoint){ (a.x + b.x) / 2 - side * rise * dy / half,
                    (a.y + b.y) / 2 + side * rise * dx / half };
}

static const PfChain *
draw (PfPath *path, const Arc *arc)
{
  GError *error = NULL;
  size_t n;

  pf_path_move_to (path, arc->from);
  pf_path_arc_to (path, arc->rx, arc->ry, arc->rotation, arc->large, arc->sweep, arc->to);
  const PfChain *chain = pf_path_chains (path, &n, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpfloat (pf_path_current (path).x, ==, arc->to.x);
  return chain;
}

/* All points of the chain, taken back to the circle, lie on it, and go the right way round it. */
static void
check_on_circle (const Arc *arc, const PfChain *chain, PfAffine back, PfPoint centre)
{
  const double way = arc->sweep ? 1 : -1;
  double sum = 0, last = 0;

  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint p = pf_affine_map (back, chain->points[i]);
      const double angle = atan2 (p.y - centre.y, p.x - centre.x);

      g_assert_cmpfloat_with_epsilon (hypot (p.x - centre.x, p.y - centre.y), 1, 2e-7);
      if (i > 0)
        {
          const double step = remainder (way * (angle - last), 2 * G_PI);

          g_assert_cmpfloat (step, >, 0);
          sum += step;
        }
      last = angle;
    }
  g_assert_true (sum > G_PI - 1e-3 || !arc->large);
  g_assert_true (sum < G_PI + 1e-3 || arc->large);
}

/* The curve itself, sampled, lies within PF_FLATNESS of the chain, step by step. */
static void
check_flat (const Arc *arc, const PfChain *chain, PfAffine back, PfPoint centre)
{
  const PfAffine forth = pf_affine_invert (back);
  const PfPoint a = pf_affine_map (back, chain->points[0]);
  const PfPoint b = pf_affine_map (back, chain->points[chain->n_points - 1]);
  const double first = atan2 (a.y - centre.y, a.x - centre.x);
  size_t step = 0;
  double sweep = remainder (atan2 (b.y - centre.y, b.x - centre.x) - first, 2 * G_PI);

  if (arc->sweep ? sweep < 0 : sweep > 0)
    sweep += arc->sweep ? 2 * G_PI : -2 * G_PI;
  for (int i = 0; i <= 2000; i++)
    {
      const double angle = first + sweep * i / 2000;
      const PfPoint p =
          pf_affine_map (forth, (PfPoint){ centre.x + cos (angle), centre.y + sin (angle) });

      g_assert_cmpfloat (distance_ahead (p, chain, &step), <=, PF_FLATNESS);
    }
}

/* Tangents of the ellipse at neighbouring points differ by at most PF_MAX_TURN. */
static void
check_turns (const PfChain *chain, PfAffine back, PfPoint centre)
{
  const PfAffine forth = pf_affine_invert (back);
  PfPoint last = { 0, 0 };

  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint p = pf_affine_map (back, chain->points[i]);
      const double x = -(p.y - centre.y), y = p.x - centre.x;
      const PfPoint tangent = { forth.xx * x + forth.xy * y, forth.yx * x + forth.yy * y };
      const double turn = atan2 (fabs (last.x * tangent.y - last.y * tangent.x),
                                 last.x * tangent.x + last.y * tangent.y);

      if (i > 0)
        g_assert_cmpfloat (turn * 180 / G_PI, <=, PF_MAX_TURN + 1e-3);
      last = tangent;
    }
}

static void
check_arc (const Arc *arc, PfAffine map)
{
  g_autoptr (PfPath) path = pf_path_new (map);
  const PfChain *chain = draw (path, arc);
  double rx = fabs (arc->rx), ry = fabs (arc->ry);
  const PfAffine plain = to_circle (arc, rx, ry);
  const PfPoint a = pf_affine_map (plain, arc->from), b = pf_affine_map (plain, arc->to);
  const double scale = fmax (1, hypot (b.x - a.x, b.y - a.y) / 2);

  rx *= scale;
  ry *= scale;
  const PfAffine circle = to_circle (arc, rx, ry);
  const PfPoint centre = find_centre (pf_affine_map (circle, arc->from),
                                      pf_affine_map (circle, arc->to), arc->large, arc->sweep);
  const PfAffine back = pf_affine_compose (circle, pf_affine_invert (map));
  check_on_circle (arc, chain, back, centre);
  check_flat (arc, chain, back, centre);
  check_turns (chain, back, centre);
}

static const PfAffine maps[] = {
  { 1, 0, 0, 1, 0, 0 },
  { 25.4 / 96, 0, 0, 25.4 / 96, 10, 10 },
  { 0.8, 0.9, -0.3, 1.1, -7, 40 },
  { -1, 0, 0, 1, 200, 0 },
  { 3, -2.9, 2, -2, 5, 6 },
};

static void
test_arcs (void)
{
  static const struct {
    double rx, ry, rotation;
  } ellipses[] = { { 50, 50, 0 },   { 60, 30, 0 },      { 60, 30, 25 }, { 30, 60, -100 },
                   { 80, 20, 400 }, { 10, 10, 0 },      { 1, 0.5, 30 }, { -60, -30, 25 },
                   { 40, 4, 10 },   { 3000, 2000, 45 }, { 100, 0.5, 5 } };
  static const PfPoint ends[] = { { 60, 40 }, { 10.5, 20 }, { -20, 21 }, { 10, 70 } };

  for (size_t e = 0; e < G_N_ELEMENTS (ellipses); e++)
    for (size_t to = 0; to < G_N_ELEMENTS (ends); to++)
      for (int flags = 0; flags < 4; flags++)
        for (size_t m = 0; m < G_N_ELEMENTS (maps); m++)
          {
            const Arc arc = { { 10, 20 }, ellipses[e].rx, ellipses[e].ry, ellipses[e].rotation,
                              flags & 1,  flags & 2,      ends[to] };

            check_arc (&arc, maps[m]);
          }
}

static void
test_random_arcs (void)
{
  for (int k = 0; k < 100; k++)
    {
      const Arc arc = { { g_test_rand_double_range (0, 100), g_test_rand_double_range (0, 100) },
                        g_test_rand_double_range (1, 90),
                        g_test_rand_double_range (1, 90),
                        g_test_rand_double_range (-360, 360),
                        g_test_rand_bit (),
                        g_test_rand_bit (),
                        { g_test_rand_double_range (0, 100), g_test_rand_double_range (0, 100) } };

      check_arc (&arc, maps[k % (int) G_N_ELEMENTS (maps)]);
    }
}

/* SVG 2, 9.3.8: "M300,200 h-150 a150,150 0 1,0 150,-150 z" is a pie, three quarters of the circle
 * of radius 150 round (300, 200), and "M275,175 v-150 a150,150 0 0,0 -150,150 z" the quarter left
 * over, round (275, 175). Both have angles falling. */
static void
test_pie (void)
{
  static const struct {
    Arc arc;
    PfPoint centre, passes, misses;
  } table[] = {
    { { { 150, 200 }, 150, 150, 0, true, false, { 300, 50 } },
      { 300, 200 },
      { 450, 200 },
      { 194, 94 } },
    { { { 275, 25 }, 150, 150, 0, false, false, { 125, 175 } },
      { 275, 175 },
      { 168.934, 68.934 },
      { 425, 175 } },
  };

  for (size_t k = 0; k < G_N_ELEMENTS (table); k++)
    {
      g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
      const PfChain *chain = draw (path, &table[k].arc);

      for (size_t i = 0; i < chain->n_points; i++)
        g_assert_cmpfloat_with_epsilon (
            hypot (chain->points[i].x - table[k].centre.x, chain->points[i].y - table[k].centre.y),
            150, 1e-9);
      g_assert_cmpfloat (distance_to_chain (table[k].passes, chain), <, PF_FLATNESS);
      g_assert_cmpfloat (distance_to_chain (table[k].misses, chain), >, 100);
    }
}

/* SVG 2, B.2.5: a zero radius makes a straight line; equal ends leave the arc out. */
static void
test_out_of_range (void)
{
  static const Arc straight[] = { { { 0, 0 }, 0, 5, 0, true, true, { 10, 5 } },
                                  { { 0, 0 }, 5, 0, 30, false, true, { 10, 5 } },
                                  { { 0, 0 }, 1e300, 1e300, 0, false, true, { 10, 5 } } };
  g_autoptr (PfPath) nowhere = pf_path_new (PF_AFFINE_IDENTITY);
  size_t n;

  for (size_t i = 0; i < G_N_ELEMENTS (straight); i++)
    {
      g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);

      g_assert_cmpuint (draw (path, &straight[i])->n_points, ==, 2);
    }
  pf_path_move_to (nowhere, (PfPoint){ 3, 4 });
  pf_path_arc_to (nowhere, 5, 5, 0, true, true, (PfPoint){ 3, 4 });
  g_assert_nonnull (pf_path_chains (nowhere, &n, NULL));
  g_assert_cmpuint (n, ==, 0);
}

/* Ellipses that the map or their radii make flat: the chain goes out and back, and ends where it
 * should. */
static void
test_flat_ellipses (void)
{
  static const struct {
    PfAffine map;
    double ry;
  } table[] = { { { 1, 0, 0, 0, 0, 0 }, 20 },
                { { 1, 1, 1, 1, 0, 0 }, 20 },
                { { 1, 0, 0, 1, 0, 0 }, 1e-7 } };

  for (size_t i = 0; i < G_N_ELEMENTS (table); i++)
    {
      const Arc arc = { { 10, 0 }, 20, table[i].ry, 0, true, true, { 20, 0 } };
      g_autoptr (PfPath) path = pf_path_new (table[i].map);
      const PfChain *chain = draw (path, &arc);
      const PfPoint last = chain->points[chain->n_points - 1],
                    want = pf_affine_map (table[i].map, arc.to);

      g_assert_cmpuint (chain->n_points, >, 4);
      g_assert_cmpuint (chain->n_points, <, 1000);
      g_assert_cmpfloat_with_epsilon (last.x, want.x, 1e-9);
      g_assert_cmpfloat_with_epsilon (last.y, want.y, 1e-9);
    }
}

static void
test_refused (void)
{
  static const Arc arcs[] = { { { 0, 0 }, NAN, 5, 0, true, true, { 10, 5 } },
                              { { 0, 0 }, 5, INFINITY, 0, true, true, { 10, 5 } },
                              { { 0, 0 }, 5, 5, NAN, true, true, { 10, 5 } },
                              { { 0, 0 }, 1e6, 1e6, 0, true, true, { 10, 5 } },
                              { { 0, 0 }, 1e200, 1e200, 0, true, true, { 10, 5 } },
                              { { 0, 0 }, 9e4, 9e4, 0, true, true, { 9e4, 9e4 } } };

  for (size_t i = 0; i < G_N_ELEMENTS (arcs); i++)
    {
      g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
      g_autoptr (GError) error = NULL;
      size_t n;

      pf_path_move_to (path, arcs[i].from);
      pf_path_arc_to (path, arcs[i].rx, arcs[i].ry, arcs[i].rotation, arcs[i].large, arcs[i].sweep,
                      arcs[i].to);
      g_assert_null (pf_path_chains (path, &n, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/arc/table", test_arcs);
  g_test_add_func ("/arc/random", test_random_arcs);
  g_test_add_func ("/arc/pie", test_pie);
  g_test_add_func ("/arc/out-of-range", test_out_of_range);
  g_test_add_func ("/arc/flat-ellipses", test_flat_ellipses);
  g_test_add_func ("/arc/refused", test_refused);
  return g_test_run ();
}
