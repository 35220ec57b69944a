/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pinholes along an edge: spacings worked out by hand from the rule (a pinhole on every corner, a
 * turn of more than 30 degrees; each span in max (1, round (length / gap)) parts), and what is
 * refused.
 */
#include "shapes.h"

static PfRegion *
region_of (const PfPoint *points, size_t n)
{
  const PfChain chain = { (PfPoint *) points, n, true };
  GError *error = NULL;
  PfRegion *region = pf_region_new (&chain, 1, &error);

  g_assert_no_error (error);
  return region;
}

#define MAX_POINTS 12
#define MAX_HOLES 24

typedef struct {
  const char *name;
  PfPoint points[MAX_POINTS];
  size_t n_points;
  double gap;
  double pinholes[MAX_HOLES];
  size_t n_pinholes;
} Spacing;

static const Spacing spacings[] = {
  { "10 by 6, gap 2: spans of 10 and 6 mm, in 5 and 3 parts",
    { { 0, 0 }, { 10, 0 }, { 10, 6 }, { 0, 6 } },
    4,
    2,
    { 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30 },
    16 },
  { "10 by 6, gap 4: 10 / 4 = 2.5 rounds up to 3, 6 / 4 = 1.5 to 2",
    { { 0, 0 }, { 10, 0 }, { 10, 6 }, { 0, 6 } },
    4,
    4,
    { 0, 10. / 3, 20. / 3, 10, 13, 16, 16 + 10. / 3, 16 + 20. / 3, 26, 29 },
    10 },
  { "a span shorter than half a gap is one part",
    { { 0, 0 }, { 10, 0 }, { 10, 0.5 }, { 0, 0.5 } },
    4,
    5,
    { 0, 5, 10, 10.5, 15.5, 20.5 },
    6 },
  { "drawn from the middle of a side: the first point is no corner, the last span runs over it",
    { { 5, 0 }, { 10, 0 }, { 10, 6 }, { 0, 6 }, { 0, 0 } },
    5,
    3,
    { 5 - 10. / 3, 5, 8, 11, 11 + 10. / 3, 11 + 20. / 3, 21, 24, 27, 27 + 10. / 3 },
    10 },
  { "turning by 26.6 degrees (1 in 2) makes no corner, by 63.4 more it does",
    { { 0, 0 }, { 4, 0 }, { 8, 2 }, { 8, 9 }, { 0, 9 } },
    5,
    100,
    { 0, 4 + 4.4721359549995796, 11 + 4.4721359549995796, 19 + 4.4721359549995796 },
    4 },
};

static void
test_spacing (gconstpointer data)
{
  const Spacing *want = data;
  g_autoptr (PfRegion) region = region_of (want->points, want->n_points);
  GError *error = NULL;
  PfEdge edge;

  g_assert_true (
      pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, want->gap, &error));
  g_assert_no_error (error);
  g_assert_cmpint (edge.kind, ==, PF_EDGE_HALF_STITCH);
  g_assert_cmpfloat (edge.gap, ==, want->gap);
  g_assert_cmpuint (edge.n_pinholes, ==, want->n_pinholes);
  for (size_t i = 0; i < edge.n_pinholes; i++)
    g_assert_cmpfloat_with_epsilon (edge.pinholes[i], want->pinholes[i], 1e-12);
  pf_edge_clear (&edge);
  g_assert_null (edge.pinholes);
}

/* A regular polygon with n sides turns by 360 / n degrees at each. */
static void
test_corner_limit (void)
{
  static const struct {
    size_t sides;
    bool corners;
  } table[] = { { 11, true }, { 12, false }, { 13, false } };

  for (size_t k = 0; k < G_N_ELEMENTS (table); k++)
    for (int turned = 0; turned < 20; turned++)
      {
        const size_t n = table[k].sides;
        PfPoint points[13];
        PfEdge edge;

        for (size_t i = 0; i < n; i++)
          {
            const double angle = 2 * G_PI * (double) i / (double) n + turned;
            points[i] = (PfPoint){ 90 + 20 * cos (angle), 70 + 20 * sin (angle) };
          }
        g_autoptr (PfRegion) region = region_of (points, n);
        const PfLoop *loop = &region->loops[0];
        const double side = pf_loop_length (loop) / (double) n;

        /* Two parts of 2/3 of a side are left of a side with corners, else they go over them. */
        g_assert_true (pf_edge_init_even (&edge, loop, PF_EDGE_CLOTH_STITCH, side / 1.6, NULL));
        const double parts = table[k].corners ? 2.0 * (double) n : round (1.6 * (double) n);
        g_assert_cmpfloat ((double) edge.n_pinholes, ==, parts);
        for (size_t i = 0; i < edge.n_pinholes; i++)
          g_assert_cmpfloat_with_epsilon (edge.pinholes[i],
                                          (double) i * pf_loop_length (loop) / parts, 1e-9);
        pf_edge_clear (&edge);
      }
}

/* A circle has no corner: from its first point, evenly, round (length / gap) of them. */
static void
test_circle (void)
{
  g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
  PfEdge edge;
  size_t n;

  pf_path_move_to (path, (PfPoint){ 30, 20 });
  pf_path_arc_to (path, 10, 10, 0, false, true, (PfPoint){ 10, 20 });
  pf_path_arc_to (path, 10, 10, 0, false, true, (PfPoint){ 30, 20 });
  pf_path_close (path);
  const PfChain *chain = pf_path_chains (path, &n, NULL);
  g_assert_cmpuint (n, ==, 1);
  g_autoptr (PfRegion) region = region_of (chain->points, chain->n_points);

  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 2, NULL));
  /* 62.8 mm round, so 31 parts. */
  g_assert_cmpuint (edge.n_pinholes, ==, 31);
  for (size_t i = 0; i < 31; i++)
    {
      const PfPoint at = pf_region_point (region, (PfPlace){ 0, edge.pinholes[i] });
      const double angle = 2 * G_PI * (double) i / 31;

      g_assert_cmpfloat_with_epsilon (at.x, 20 + 10 * cos (angle), 0.01);
      g_assert_cmpfloat_with_epsilon (at.y, 20 + 10 * sin (angle), 0.01);
    }
  pf_edge_clear (&edge);
}

/* A drop: one corner, whose span is the whole loop. */
static void
test_one_corner (void)
{
  g_autoptr (PfPath) path = pf_path_new (PF_AFFINE_IDENTITY);
  PfEdge edge;
  size_t n;

  pf_path_move_to (path, (PfPoint){ 10, 40 });
  pf_path_curve_to (path, (PfPoint){ 40, 40 }, (PfPoint){ 30, 10 }, (PfPoint){ 10, 0 });
  pf_path_curve_to (path, (PfPoint){ -10, 10 }, (PfPoint){ -20, 40 }, (PfPoint){ 10, 40 });
  pf_path_close (path);
  const PfChain *chain = pf_path_chains (path, &n, NULL);
  g_autoptr (PfRegion) region = region_of (chain->points, chain->n_points);
  const PfLoop *loop = &region->loops[0];
  const double length = pf_loop_length (loop);
  const PfPlace corner = pf_region_nearest (region, (PfPoint){ 10, 0 }, NULL);

  g_assert_true (pf_edge_init_even (&edge, loop, PF_EDGE_HALF_STITCH, length / 8, NULL));
  g_assert_cmpuint (edge.n_pinholes, ==, 8);
  for (size_t i = 0; i < 8; i++)
    {
      const double parts = pf_loop_forward (loop, corner.along, edge.pinholes[i]) / (length / 8);

      g_assert_cmpfloat_with_epsilon (parts, round (parts), 1e-9);
      g_assert_true (i == 0 || edge.pinholes[i] > edge.pinholes[i - 1]);
      g_assert_true (edge.pinholes[i] >= 0 && edge.pinholes[i] < length);
    }
  pf_edge_clear (&edge);
}

static const PfPoint square[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } };

static void
test_given (void)
{
  static const double places[] = { 33, 7.5, 40, 0, 7.5, 7.5 + 0.5e-9, 12, 40 - 0.5e-9 };
  static const double want[] = { 0, 7.5, 12, 33 };
  g_autoptr (PfRegion) region = region_of (square, 4);
  GError *error = NULL;
  PfEdge edge;

  g_assert_true (pf_edge_init_given (&edge, &region->loops[0], PF_EDGE_CLOTH_STITCH, 3, places,
                                     G_N_ELEMENTS (places), &error));
  g_assert_no_error (error);
  g_assert_cmpint (edge.kind, ==, PF_EDGE_CLOTH_STITCH);
  g_assert_cmpuint (edge.n_pinholes, ==, G_N_ELEMENTS (want));
  for (size_t i = 0; i < edge.n_pinholes; i++)
    g_assert_cmpfloat (edge.pinholes[i], ==, want[i]);
  pf_edge_clear (&edge);

  g_assert_true (
      pf_edge_init_given (&edge, &region->loops[0], PF_EDGE_CLOTH_STITCH, 3, NULL, 0, NULL));
  g_assert_cmpuint (edge.n_pinholes, ==, 0);
  pf_edge_clear (&edge);
}

static void
test_refused (void)
{
  static const double gaps[] = { 0.099, 1000.1, 0, -2, NAN, INFINITY };
  static const double places[] = { -0.1, 40.1, NAN, INFINITY };
  g_autoptr (PfRegion) region = region_of (square, 4);
  const PfLoop *loop = &region->loops[0];
  PfEdge edge;

  for (size_t i = 0; i < G_N_ELEMENTS (gaps); i++)
    {
      g_autoptr (GError) even = NULL, given = NULL;

      g_assert_false (pf_edge_init_even (&edge, loop, PF_EDGE_HALF_STITCH, gaps[i], &even));
      g_assert_error (even, PF_ERROR, PF_ERROR_SETTING);
      g_assert_false (
          pf_edge_init_given (&edge, loop, PF_EDGE_HALF_STITCH, gaps[i], NULL, 0, &given));
      g_assert_error (given, PF_ERROR, PF_ERROR_SETTING);
    }
  for (size_t i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (
          pf_edge_init_given (&edge, loop, PF_EDGE_HALF_STITCH, 2, &places[i], 1, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
      pf_edge_clear (&edge);
    }
  g_assert_true (pf_edge_init_even (&edge, loop, PF_EDGE_HALF_STITCH, 0.1, NULL));
  g_assert_cmpuint (edge.n_pinholes, ==, 400);
  pf_edge_clear (&edge);
  g_assert_true (pf_edge_init_even (&edge, loop, PF_EDGE_HALF_STITCH, 1000, NULL));
  g_assert_cmpuint (edge.n_pinholes, ==, 4);
  pf_edge_clear (&edge);
}

static void
test_too_many (void)
{
  static const PfPoint huge[] = { { -1e5, -1e5 }, { 1e5, -1e5 }, { 1e5, 1e5 }, { -1e5, 1e5 } };
  g_autoptr (PfRegion) region = region_of (huge, 4);
  g_autoptr (GError) error = NULL;
  PfEdge edge;

  g_assert_false (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 0.2, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
}

/* Stretches between whole and half mm of a loop 40 mm round, painted over one another: each half mm
 * has the kind of the last that covers it, its first point included and its last not. */
static void
test_stretches (void)
{
  enum { HALVES = 80, MOST = 6 };
  g_autoptr (PfRegion) region = region_of (square, 4);
  const PfLoop *loop = &region->loops[0];

  for (int trial = 0; trial < 2000; trial++)
    {
      const PfEdgeKind kind = g_test_rand_bit () ? PF_EDGE_HALF_STITCH : PF_EDGE_CLOTH_STITCH;
      const size_t n = (size_t) g_test_rand_int_range (0, MOST + 1);
      PfEdgeStretch stretches[MOST];
      PfEdgeKind painted[HALVES];
      PfEdge edge;

      for (int h = 0; h < HALVES; h++)
        painted[h] = kind;
      for (size_t s = 0; s < n; s++)
        {
          const int from = g_test_rand_int_range (0, HALVES + 1);
          const int to = g_test_rand_int_range (0, HALVES + 1);

          stretches[s] = (PfEdgeStretch){ from / 2., to / 2., (PfEdgeKind) g_test_rand_bit () };
          for (int h = from; h < (to > from ? to : to + HALVES); h++)
            painted[h % HALVES] = stretches[s].kind;
        }
      g_assert_true (pf_edge_init_even (&edge, loop, kind, 2, NULL));
      g_assert_true (pf_edge_set_stretches (&edge, loop, stretches, n, NULL));
      g_assert_cmpuint (edge.n_stretches, ==, n);
      for (int h = 0; h < HALVES; h++)
        {
          g_assert_cmpint (pf_edge_kind_at (&edge, h / 2.), ==, painted[h]);
          g_assert_cmpint (pf_edge_kind_at (&edge, h / 2. + 0.25), ==, painted[h]);
          g_assert_cmpint (pf_edge_kind_at (&edge, nextafter ((h + 1) / 2., 0)), ==, painted[h]);
        }
      pf_edge_clear (&edge);
      g_assert_null (edge.stretches);
      g_assert_cmpuint (edge.n_stretches, ==, 0);
    }
}

static void
test_stretches_refused (void)
{
  static const PfEdgeStretch good = { 3, 7, PF_EDGE_CLOTH_STITCH };
  static const PfEdgeStretch bad[] = {
    { -0.1, 5, PF_EDGE_CLOTH_STITCH },     { 5, -0.1, PF_EDGE_CLOTH_STITCH },
    { 40.1, 5, PF_EDGE_CLOTH_STITCH },     { 5, 40.1, PF_EDGE_CLOTH_STITCH },
    { NAN, 5, PF_EDGE_CLOTH_STITCH },      { 5, NAN, PF_EDGE_CLOTH_STITCH },
    { 5, INFINITY, PF_EDGE_CLOTH_STITCH }, { 5, 6, (PfEdgeKind) 2 },
  };
  g_autoptr (PfRegion) region = region_of (square, 4);
  const PfLoop *loop = &region->loops[0];
  PfEdge edge;

  g_assert_true (pf_edge_init_even (&edge, loop, PF_EDGE_HALF_STITCH, 2, NULL));
  g_assert_true (pf_edge_set_stretches (&edge, loop, &good, 1, NULL));
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      const PfEdgeStretch both[] = { good, bad[i] };
      g_autoptr (GError) error = NULL;

      g_assert_false (pf_edge_set_stretches (&edge, loop, both, 2, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
    }
  g_autofree PfEdgeStretch *many = g_new0 (PfEdgeStretch, 1001);
  g_autoptr (GError) error = NULL;
  g_assert_false (pf_edge_set_stretches (&edge, loop, many, 1001, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
  /* the edge is as it was */
  g_assert_cmpuint (edge.n_stretches, ==, 1);
  g_assert_cmpint (pf_edge_kind_at (&edge, 5), ==, PF_EDGE_CLOTH_STITCH);
  g_assert_true (pf_edge_set_stretches (&edge, loop, NULL, 0, NULL));
  g_assert_cmpint (pf_edge_kind_at (&edge, 5), ==, PF_EDGE_HALF_STITCH);
  pf_edge_clear (&edge);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (spacings); i++)
    {
      g_autofree char *name = g_strdup_printf ("/edge/spacing/%" G_GSIZE_FORMAT, i + 1);

      g_test_add_data_func (name, &spacings[i], test_spacing);
    }
  g_test_add_func ("/edge/corner-limit", test_corner_limit);
  g_test_add_func ("/edge/circle", test_circle);
  g_test_add_func ("/edge/one-corner", test_one_corner);
  g_test_add_func ("/edge/given", test_given);
  g_test_add_func ("/edge/refused", test_refused);
  g_test_add_func ("/edge/too-many", test_too_many);
  g_test_add_func ("/edge/stretches", test_stretches);
  g_test_add_func ("/edge/stretches-refused", test_stretches_refused);
  return g_test_run ();
}
