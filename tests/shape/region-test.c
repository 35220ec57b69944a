/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which chains make a region, and which errors name which place; nesting; areas. Random loops are
 * judged by what GEOS (libgeos) makes of their lines.
 */
#include <stdio.h>

#include "shapes.h"

/* Several loops as one row of points: a loop ends before each point that is BREAK. */
#define BREAK                                                                                      \
  {                                                                                                \
    NAN, NAN                                                                                       \
  }
#define MAX_LOOPS 4

static size_t
split (const PfPoint *points, size_t n, PfChain *chains)
{
  size_t n_chains = 0;

  for (size_t i = 0, first = 0; i <= n; i++)
    if (i == n || isnan (points[i].x))
      {
        chains[n_chains++] = (PfChain){ (PfPoint *) points + first, i - first, true };
        first = i + 1;
      }
  return n_chains;
}

typedef struct {
  const char *name;
  PfPoint points[16];
  size_t n_points;
  const char *error; /* what it says, or NULL */
} Shape;

static const Shape shapes[] = {
  { "square", { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 } }, 4, NULL },
  { "hole",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 }, BREAK, { 3, 3 }, { 6, 3 }, { 6, 6 } },
    8,
    NULL },
  { "bow tie", { { 0, 0 }, { 8, 8 }, { 8, 0 }, { 0, 8 } }, 4, "crosses itself at (4.00, 4.00) mm" },
  { "two points", { { 1, 2 }, { 5, 2 } }, 2, "starts at (1.00, 2.00) mm has no area" },
  { "one line", { { 1, 2 }, { 5, 2 }, { 9, 2 } }, 3, "has no area" },
  { "one point", { { 1, 2 }, { 1, 2 }, { 1, 2 } }, 3, "has no area" },
  { "no points", { { 0, 0 } }, 0, "has no area" },
  { "spike of no width",
    { { 0, 0 }, { 8, 0 }, { 8, 4 }, { 12, 4 }, { 8, 4 }, { 8, 8 }, { 0, 8 } },
    7,
    "runs back on itself at (8.00, 4.00) mm" },
  { "spike folded back a part of the way",
    { { 0, 0 }, { 8, 0 }, { 3, 0 }, { 3, 8 } },
    4,
    "runs back on itself at" },
  { "slit closed along its whole length",
    { { 0, 0 }, { 4, 0 }, { 4, 5 }, { 4, 0 }, { 8, 0 }, { 8, 8 }, { 0, 8 } },
    7,
    "runs back on itself" },
  { "two lines on one another, both longer",
    { { 0, 0 }, { 10, 0 }, { 10, 4 }, { 6, 4 }, { 6, 0 }, { 2, 0 }, { 2, 4 }, { 0, 4 } },
    8,
    "runs back on itself" },
  { "narrow spike",
    { { 0, 0 }, { 8, 0 }, { 8, 4 }, { 90, 4.000001 }, { 8, 4.00001 }, { 8, 8 }, { 0, 8 } },
    7,
    NULL },
  { "touches its own side", { { 0, 0 }, { 8, 0 }, { 8, 8 }, { 4, 0 }, { 0, 8 } }, 5, NULL },
  { "passes over its own side",
    { { 0, 0 }, { 8, 0 }, { 8, 8 }, { 5, 8 }, { 4, 0 }, { 4, -4 }, { 3, 8 }, { 0, 8 } },
    8,
    "crosses itself at" },
  { "touches its own corner",
    { { 0, 0 }, { 4, 4 }, { 8, 0 }, { 8, 8 }, { 4, 4 }, { 0, 8 } },
    6,
    NULL },
  { "passes over its own corner",
    { { 0, 0 }, { 4, 4 }, { 8, 8 }, { 8, 0 }, { 4, 4 }, { 0, 8 } },
    6,
    "crosses itself at (4.00, 4.00) mm" },
  { "NaN", { { 0, 0 }, { 9, 0 }, { 9, NAN } }, 3, "isn't a usable number" },
  { "infinite", { { 0, 0 }, { 9, 0 }, { INFINITY, 9 } }, 3, "isn't a usable number" },
  { "too far", { { 0, 0 }, { 9, 0 }, { 200000, 9 } }, 3, "reaches (200000.00, 9.00) mm" },
  { "hole outside",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 }, BREAK, { 13, 3 }, { 16, 3 }, { 16, 6 } },
    8,
    "hole at (13.00, 3.00) mm isn't inside" },
  { "hole outside, in a bay",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 5, 2 }, { 0, 9 }, BREAK, { 5, 6 }, { 6, 6 }, { 5, 7 } },
    9,
    "hole at (5.00, 6.00) mm isn't inside" },
  { "hole around the outline",
    { { 3, 3 }, { 6, 3 }, { 6, 6 }, BREAK, { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 } },
    8,
    "hole at (0.00, 0.00) mm isn't inside" },
  { "hole in a hole",
    { { 0, 0 },
      { 9, 0 },
      { 9, 9 },
      { 0, 9 },
      BREAK,
      { 1, 1 },
      { 8, 1 },
      { 8, 8 },
      { 1, 8 },
      BREAK,
      { 4, 3 },
      { 6, 3 },
      { 6, 6 } },
    13,
    "hole at (4.00, 3.00) mm lies within another hole" },
  { "hole across the outline",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 }, BREAK, { 3, 3 }, { 19, 5 }, { 3, 5 } },
    8,
    "Two outlines cross at (9.00," },
  { "hole on the outline",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 }, BREAK, { 3, 3 }, { 9, 3 }, { 9, 6 } },
    8,
    "lie on one another at (9.00," },
  { "the outline again",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, BREAK, { 9, 9 }, { 0, 0 }, { 9, 0 } },
    7,
    "lie on one another" },
  { "hole touches with one corner",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 }, BREAK, { 3, 3 }, { 9, 4 }, { 3, 6 } },
    8,
    NULL },
  { "hole touches with all its corners",
    { { 0, 0 }, { 8, 0 }, { 8, 8 }, { 0, 8 }, BREAK, { 4, 0 }, { 8, 4 }, { 4, 8 }, { 0, 4 } },
    9,
    NULL },
  { "hole touches corner to corner",
    { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 0, 9 }, BREAK, { 0, 0 }, { 5, 3 }, { 3, 5 } },
    8,
    NULL },
  { "holes touch one another",
    { { 0, 0 },
      { 9, 0 },
      { 9, 9 },
      { 0, 9 },
      BREAK,
      { 1, 1 },
      { 5, 1 },
      { 5, 5 },
      BREAK,
      { 5, 5 },
      { 8, 5 },
      { 8, 8 } },
    12,
    NULL },
};

static void
test_shape (gconstpointer data)
{
  const Shape *shape = data;
  g_autoptr (GError) error = NULL;
  PfChain chains[MAX_LOOPS];
  const size_t n = split (shape->points, shape->n_points, chains);
  g_autoptr (PfRegion) region = pf_region_new (chains, n, &error);

  if (!shape->error)
    {
      g_assert_no_error (error);
      g_assert_nonnull (region);
      g_assert_cmpuint (region->n_loops, ==, n);
      for (size_t i = 0; i < n; i++)
        g_assert_cmpmem (region->loops[i].points,
                         (int) (region->loops[i].n_points * sizeof (PfPoint)), chains[i].points,
                         (int) (chains[i].n_points * sizeof (PfPoint)));
      return;
    }
  g_assert_null (region);
  g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
  g_assert_nonnull (strstr (error->message, shape->error));
}

static void
test_no_chains (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) none = pf_regions_from_chains (NULL, 0, NULL, NULL);

  g_assert_cmpuint (none->len, ==, 0);
  g_assert_null (pf_region_new (NULL, 0, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
}

/* --- Random loops against GEOS ------------------------------------------------------------------
 */

/* How often the chain winds round `p`, which isn't on it. */
static int
winding (const PfChain *chain, PfPoint p)
{
  int sum = 0;

  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint a = chain->points[i], b = chain->points[(i + 1) % chain->n_points];

      if ((a.y <= p.y) != (b.y <= p.y))
        sum += (a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) > p.x) ? (b.y > a.y ? 1 : -1) : 0;
    }
  return sum;
}

/* Whether some faces between the chain's lines are wound round in a way that only a crossing makes:
 * where two lines cross, the faces beside both, one or none of them are wound round k, k + 1 and k
 * + 2 times. */
static bool
faces_cross (GEOSContextHandle_t geos, const PfChain *chain, const GEOSGeometry *lines)
{
  GEOSGeometry *faces = GEOSPolygonize_r (geos, &lines, 1);
  int least = 0, most = 0;

  for (int i = 0; i < GEOSGetNumGeometries_r (geos, faces); i++)
    {
      GEOSGeometry *inside = GEOSPointOnSurface_r (geos, GEOSGetGeometryN_r (geos, faces, i));
      PfPoint p;

      GEOSGeomGetX_r (geos, inside, &p.x);
      GEOSGeomGetY_r (geos, inside, &p.y);
      least = MIN (least, winding (chain, p));
      most = MAX (most, winding (chain, p));
      GEOSGeom_destroy_r (geos, inside);
    }
  GEOSGeom_destroy_r (geos, faces);
  return most - least > 1;
}

/* The number of edges that come to `p`, two for an edge that goes on. */
static int
ends_at (const PfChain *chain, PfPoint p, double within)
{
  int sum = 0;

  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint a = chain->points[i], b = chain->points[(i + 1) % chain->n_points];

      if (distance_to_step (p, a, b) <= within)
        sum += hypot (p.x - a.x, p.y - a.y) <= within || hypot (p.x - b.x, p.y - b.y) <= within ? 1
                                                                                                : 2;
    }
  return sum;
}

/* Whether two edges that come to `p` are parallel. */
static bool
parallel_at (const PfChain *chain, PfPoint p, double within)
{
  for (size_t i = 0; i < chain->n_points; i++)
    for (size_t j = 0; j < i; j++)
      {
        const PfPoint a = chain->points[i], b = chain->points[(i + 1) % chain->n_points];
        const PfPoint c = chain->points[j], d = chain->points[j + 1];

        if (distance_to_step (p, a, b) <= within && distance_to_step (p, c, d) <= within &&
            (b.x - a.x) * (d.y - c.y) == (b.y - a.y) * (d.x - c.x))
          return true;
      }
  return false;
}

/* GEOS finds all points where lines meet rounded to this many mm, so that lines on one another stay
 * so. On whole numbers they share 1 mm at least. */
#define GRID 1e-6

/* The chain's edges, each a line of its own: GEOS then sees where neighbours lie on one another
 * too. */
static GEOSGeometry *
geos_edges (GEOSContextHandle_t geos, const PfChain *chain)
{
  const size_t n = chain->n_points;
  g_autofree GEOSGeometry **edges = g_new (GEOSGeometry *, n);

  for (size_t i = 0; i < n; i++)
    edges[i] = geos_line (geos, chain->points[i], chain->points[(i + 1) % n]);
  return GEOSGeom_createCollection_r (geos, GEOS_MULTILINESTRING, edges, (unsigned) n);
}

/* A loop fits if no line is drawn twice (the length of all lines together is the length of their
 * union) and none crosses. GEOS's own word for validity also refuses loops that touch themselves in
 * a point; we allow it, so this only goes one way: what GEOS calls valid is a region. */
static void
check_against_geos (GEOSContextHandle_t geos, const PfChain *chain)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfRegion) region = pf_region_new (chain, 1, &error);
  GEOSGeometry *ring = geos_ring (geos, chain->points, chain->n_points);
  GEOSGeometry *edges = geos_edges (geos, chain);
  GEOSGeometry *lines = GEOSUnaryUnionPrec_r (geos, edges, GRID);
  GEOSGeometry *polygon = GEOSGeom_createPolygon_r (geos, GEOSGeom_clone_r (geos, ring), NULL, 0);
  double length = 0, drawn = 0;

  GEOSLength_r (geos, ring, &drawn);
  GEOSLength_r (geos, lines, &length);
  const bool overlaps = fabs (length - drawn) > 0.5;
  const bool crosses = !overlaps && faces_cross (geos, chain, lines);
  g_assert_true (region || GEOSisValid_r (geos, polygon) != 1);
  if (region)
    {
      double area;

      g_assert_false (overlaps || crosses);
      GEOSArea_r (geos, polygon, &area);
      g_assert_cmpfloat_with_epsilon (pf_region_area (region), area, 1e-9);
    }
  else if (!strstr (error->message, "no area"))
    {
      const char *place = strchr (error->message, '(');
      PfPoint at;

      g_assert_nonnull (place);
      g_assert_cmpint (sscanf (place, "(%lf, %lf)", &at.x, &at.y), ==, 2);
      /* Two lines at the place at least, that is four ends; where three lines meet, all may cross
       * and the faces not show it. */
      const int ends = ends_at (chain, at, 0.0072);
      g_assert_true (ends >= 4 || (overlaps && parallel_at (chain, at, 0.0072)));
      g_assert_true (overlaps || crosses || ends >= 6);
    }
  GEOSGeom_destroy_r (geos, polygon);
  GEOSGeom_destroy_r (geos, lines);
  GEOSGeom_destroy_r (geos, edges);
  GEOSGeom_destroy_r (geos, ring);
}

static void
test_random_loops (void)
{
  GEOSContextHandle_t geos = GEOS_init_r ();

  for (int k = 0; k < 3000; k++)
    {
      const int size = k % 3 == 0 ? 1000 : k % 3 == 1 ? 6 : 3;
      PfChain chain = random_lattice_chain (size, (size_t) g_test_rand_int_range (3, 9));
      size_t kept = 0;

      for (size_t i = 0; i < chain.n_points; i++)
        if (kept == 0 || chain.points[i].x != chain.points[kept - 1].x ||
            chain.points[i].y != chain.points[kept - 1].y)
          chain.points[kept++] = chain.points[i];
      if (kept > 1 && chain.points[0].x == chain.points[kept - 1].x &&
          chain.points[0].y == chain.points[kept - 1].y)
        kept--;
      chain.n_points = kept;
      if (kept >= 3)
        check_against_geos (geos, &chain);
      g_free (chain.points);
    }
  GEOS_finish_r (geos);
}

/* Stars with holes: GEOS calls them valid too, and gives the same area. */
static void
test_random_regions (void)
{
  GEOSContextHandle_t geos = GEOS_init_r ();

  for (int k = 0; k < 60; k++)
    {
      g_autoptr (PfRegion) region = random_region ();
      GEOSGeometry *polygon = geos_polygon (geos, region);
      double area;

      g_assert_cmpint (GEOSisValid_r (geos, polygon), ==, 1);
      GEOSArea_r (geos, polygon, &area);
      g_assert_cmpfloat_with_epsilon (pf_region_area (region), area, 1e-8);
      GEOSGeom_destroy_r (geos, polygon);
    }
  GEOS_finish_r (geos);
}

/* All detail in one spot, and one edge moved so that it crosses: found, wherever it is. */
static void
test_large (void)
{
  const size_t n = 20000;
  PfChain chain = random_star ((PfPoint){ 5, 5 }, 0.99, 4, n - 4);
  const size_t at = (size_t) g_test_rand_int_range (2, (gint32) n - 10);
  GError *error = NULL;

  g_autoptr (PfRegion) region = pf_region_new (&chain, 1, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (region->n_loops, ==, 1);
  static const PfPoint frame[] = { { 0, 0 }, { 1e5, 0 }, { 1e5, 1e5 }, { 0, 1e5 } };
  const PfChain both[] = { CHAIN (frame), chain };
  g_autoptr (PfRegion) framed = pf_region_new (both, 2, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (framed->n_loops, ==, 2);

  const PfPoint moved = chain.points[at];
  chain.points[at] = (PfPoint){ 15 - 2 * moved.x, 15 - 2 * moved.y };
  g_assert_null (pf_region_new (both, 2, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_OUTLINE);
  g_clear_error (&error);
  g_free (chain.points);
}

/* --- Nesting ------------------------------------------------------------------------------------
 */

/* Squares of given half width round (x, y). */
typedef struct {
  double x, y, half;
} Square;

static void
test_nesting (void)
{
  /* Two outer loops; in the first a hole with an island that has a hole; the chains in no order. */
  static const Square squares[] = { { 0, 0, 6 },   { 50, 0, 5 }, { 0, 0, 20 }, { 0, 0, 3 },
                                    { -15, 0, 1 }, { 0, 0, 10 }, { 50, 0, 9 } };
  static const struct {
    size_t owner, n_loops;
    double area;
  } want[] = { { 0, 2, 144 - 36 }, { 2, 3, 1600 - 400 - 4 }, { 6, 2, 324 - 100 } };
  PfPoint points[G_N_ELEMENTS (squares)][4];
  PfChain chains[G_N_ELEMENTS (squares)];
  g_autofree size_t *owners = NULL;
  GError *error = NULL;

  for (size_t i = 0; i < G_N_ELEMENTS (squares); i++)
    {
      const Square s = squares[i];

      for (int k = 0; k < 4; k++)
        points[i][k] = (PfPoint){ s.x + (k == 0 || k == 3 ? -s.half : s.half),
                                  s.y + (k < 2 ? -s.half : s.half) };
      chains[i] = CHAIN (points[i]);
    }
  g_autoptr (GPtrArray) regions =
      pf_regions_from_chains (chains, G_N_ELEMENTS (chains), &owners, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (regions->len, ==, G_N_ELEMENTS (want));
  for (guint i = 0; i < regions->len; i++)
    {
      const PfRegion *region = regions->pdata[i];

      g_assert_cmpuint (owners[i], ==, want[i].owner);
      g_assert_cmpuint (region->n_loops, ==, want[i].n_loops);
      g_assert_cmpfloat_with_epsilon (pf_region_area (region), want[i].area, 1e-9);
      g_assert_cmpfloat (region->loops[0].points[0].x, ==, chains[owners[i]].points[0].x);
    }
}

/* Stars within stars, at random: the areas of all regions together are the even-odd area, which
 * GEOS finds as the symmetric difference of all polygons. */
static void
test_random_nesting (void)
{
  GEOSContextHandle_t geos = GEOS_init_r ();

  for (int k = 0; k < 30; k++)
    {
      PfChain chains[12];
      GEOSGeometry *all = GEOSGeom_createEmptyPolygon_r (geos);
      g_autoptr (GPtrArray) regions = NULL;
      size_t n = 0;
      double sum = 0, area;

      for (int i = 0; i < 12; i++)
        {
          const PfPoint at = { g_test_rand_double_range (0, 40), g_test_rand_double_range (0, 40) };

          chains[n] = random_star (at, 0.7, g_test_rand_double_range (1, 40), 12);
          GPtrArray *fits = pf_regions_from_chains (chains, n + 1, NULL, NULL);
          if (!fits)
            {
              g_free (chains[n].points);
              continue;
            }
          g_clear_pointer (&regions, g_ptr_array_unref);
          regions = fits;
          GEOSGeometry *star =
              GEOSGeom_createPolygon_r (geos, geos_ring (geos, chains[n].points, 12), NULL, 0);
          GEOSGeometry *more = GEOSSymDifference_r (geos, all, star);
          GEOSGeom_destroy_r (geos, star);
          GEOSGeom_destroy_r (geos, all);
          all = more;
          n++;
        }
      for (guint i = 0; i < regions->len; i++)
        sum += pf_region_area (regions->pdata[i]);
      GEOSArea_r (geos, all, &area);
      g_assert_cmpfloat_with_epsilon (sum, area, 1e-7);
      GEOSGeom_destroy_r (geos, all);
      for (size_t i = 0; i < n; i++)
        g_free (chains[i].points);
    }
  GEOS_finish_r (geos);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *name = g_strdup_printf ("/region/shape/%s", shapes[i].name);

      g_test_add_data_func (name, &shapes[i], test_shape);
    }
  g_test_add_func ("/region/no-chains", test_no_chains);
  g_test_add_func ("/region/random-loops", test_random_loops);
  g_test_add_func ("/region/random-regions", test_random_regions);
  g_test_add_func ("/region/large", test_large);
  g_test_add_func ("/region/nesting", test_nesting);
  g_test_add_func ("/region/random-nesting", test_random_nesting);
  return g_test_run ();
}
