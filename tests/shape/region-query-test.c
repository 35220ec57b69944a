/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Inside, nearest, and where a line meets the outline: hand-worked degenerate cases, then random
 * ones against GEOS (libgeos) and against the definition applied to every edge.
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

static PfPoint
random_point (double low, double high)
{
  return (PfPoint){ g_test_rand_double_range (low, high), g_test_rand_double_range (low, high) };
}

static PfPoint
random_lattice_point (int low, int high)
{
  return (PfPoint){ g_test_rand_int_range (low, high + 1), g_test_rand_int_range (low, high + 1) };
}

/* --- Inside and nearest -------------------------------------------------------------------------
 */

/* A point on the outline is on one side of it or the other; everywhere else GEOS decides. */
static void
check_point (GEOSContextHandle_t geos, const GEOSPreparedGeometry *polygon,
             const GEOSGeometry *boundary, const PfRegion *region, PfPoint p)
{
  GEOSGeometry *point = geos_point (geos, p);
  double want, got;

  const PfPlace place = pf_region_nearest (region, p, &got);
  const PfPoint at = pf_region_point (region, place);
  GEOSDistance_r (geos, point, boundary, &want);
  g_assert_cmpfloat_with_epsilon (got, want, 1e-9);
  g_assert_cmpfloat_with_epsilon (hypot (at.x - p.x, at.y - p.y), want, 1e-8);
  g_assert_cmpfloat (place.along, >=, 0);
  g_assert_cmpfloat (place.along, <, pf_loop_length (&region->loops[place.loop]));
  if (want > 0)
    g_assert_cmpint (pf_region_contains (region, p), ==,
                     GEOSPreparedContains_r (geos, polygon, point));
  GEOSGeom_destroy_r (geos, point);
}

static void
check_points (PfRegion *region, int lattice)
{
  GEOSContextHandle_t geos = GEOS_init_r ();
  GEOSGeometry *polygon = geos_polygon (geos, region);
  const GEOSPreparedGeometry *prepared = GEOSPrepare_r (geos, polygon);
  GEOSGeometry *boundary = GEOSBoundary_r (geos, polygon);

  for (int k = 0; k < 200; k++)
    check_point (geos, prepared, boundary, region,
                 lattice > 0  ? random_lattice_point (-1, lattice + 1)
                 : k % 50 > 0 ? random_point (-10, 130)
                              : random_point (-3000, 3000));
  GEOSGeom_destroy_r (geos, boundary);
  GEOSPreparedGeom_destroy_r (geos, prepared);
  GEOSGeom_destroy_r (geos, polygon);
  GEOS_finish_r (geos);
}

static void
test_random_points (void)
{
  for (int k = 0; k < 30; k++)
    {
      g_autoptr (PfRegion) region = random_region ();
      g_autoptr (PfRegion) lattice = random_lattice_region (8, 4 + (size_t) k % 4);

      check_points (region, 0);
      check_points (lattice, 8);
    }
}

/* Equally near places: the first by loop and distance along. */
static void
test_nearest_ties (void)
{
  static const PfPoint frame[] = { { 0, 0 }, { 12, 0 }, { 12, 12 }, { 0, 12 } };
  static const PfPoint hole[] = { { 5, 5 }, { 7, 5 }, { 7, 7 }, { 5, 7 } };
  static const struct {
    PfPoint p;
    PfPlace place;
    double distance;
  } table[] = {
    { { 2, 2 }, { 0, 2 }, 2 },               /* from the top; the left would be at 46 */
    { { 10, 2 }, { 0, 10 }, 2 },             /* before the right, at 14 */
    { { 9, 9 }, { 1, 4 }, 2 * G_SQRT2 },     /* the hole's corner, 2.83 away */
    { { 6, 6 }, { 1, 1 }, 1 },               /* the middle: all four sides */
    { { 2.5, 6 }, { 0, 42 }, 2.5 },          /* outline and hole: the outline */
    { { 2.5 + 0.3e-9, 6 }, { 0, 42 }, 2.5 }, /* by a hair nearer to the hole, but within PF_TOUCH */
    { { 2.5 + 3e-9, 6 }, { 1, 7 }, 2.5 },    /* nearer to the hole */
    { { 0, 0 }, { 0, 0 }, 0 },               /* the first point, also the end of the last side */
    { { -3, -4 }, { 0, 0 }, 5 },
    { { 0, 12 }, { 0, 36 }, 0 },
  };
  const PfChain chains[] = { CHAIN (frame), CHAIN (hole) };
  g_autoptr (PfRegion) region = pf_region_new (chains, 2, NULL);

  for (size_t i = 0; i < G_N_ELEMENTS (table); i++)
    {
      double distance;
      const PfPlace place = pf_region_nearest (region, table[i].p, &distance);

      g_assert_cmpuint (place.loop, ==, table[i].place.loop);
      g_assert_cmpfloat_with_epsilon (place.along, table[i].place.along, 1e-8);
      g_assert_cmpfloat_with_epsilon (distance, table[i].distance, 1e-8);
    }
}

/* --- Meetings worked out by hand ----------------------------------------------------------------
 */

/*   0    2    4    6    8
 * 0 +---------+---------+      A roof with a valley: the outline runs clockwise from (0, 0) to (4,
 * 0), |                   |      (8, 0), (8, 6), (4, 3), (0, 6) and back. Distances along at the
 * vertices: 3 |         +         |      0, 4, 8, 14, 19, 24 and 30. |     /       \     | 6 + /
 * \ +
 */
static const PfPoint roof[] = { { 0, 0 }, { 4, 0 }, { 8, 0 }, { 8, 6 }, { 4, 3 }, { 0, 6 } };

typedef struct {
  const char *name;
  PfPoint from, to;
  size_t n;
  struct {
    double t, along, t_run;
    int side;
  } meetings[6];
} Meet;

/* Sides: 1 where the outline passes to the right hand of one who looks along the line. */
static const Meet meets[] = {
  { "inside", { 1, 1 }, { 3, 2 }, 0, { { 0, 0, 0, 0 } } },
  { "outside", { 3, 5 }, { 5, 5 }, 0, { { 0, 0, 0, 0 } } },
  { "far away", { 300, 5 }, { 500, 5 }, 0, { { 0, 0, 0, 0 } } },
  { "out over the right side", { 6, 1 }, { 10, 1 }, 1, { { 0.5, 9, 0.5, 1 } } },
  { "in over the right side", { 10, 1 }, { 6, 1 }, 1, { { 0.5, 9, 0.5, -1 } } },
  { "right across",
    { -2, 1 },
    { 10, 1 },
    2,
    { { 2. / 12, 29, 2. / 12, -1 }, { 10. / 12, 9, 10. / 12, 1 } } },
  { "through a vertex that goes on straight",
    { 4, 2 },
    { 4, -2 },
    2,
    { { 0.5, 4, 0.5, 0 }, { 0.5, 4, 0.5, 1 } } },
  { "through the valley's point, along it",
    { 0, 3 },
    { 8, 3 },
    4,
    { { 0, 27, 0, -1 }, { 0.5, 19, 0.5, -1 }, { 0.5, 19, 0.5, 1 }, { 1, 11, 1, 1 } } },
  { "the same the other way: it passes neither",
    { 8, 3 },
    { 0, 3 },
    4,
    { { 0, 11, 0, -1 }, { 0.5, 19, 0.5, 0 }, { 0.5, 19, 0.5, 0 }, { 1, 27, 1, 1 } } },
  { "through the valley's point, across",
    { 4, 2 },
    { 4, 4 },
    2,
    { { 0.5, 19, 0.5, 0 }, { 0.5, 19, 0.5, 1 } } },
  { "along the top, and farther",
    { -2, 0 },
    { 10, 0 },
    4,
    { { 2. / 12, 0, 2. / 12, -1 },
      { 2. / 12, 0, 6. / 12, 0 },
      { 6. / 12, 4, 10. / 12, 0 },
      { 10. / 12, 8, 10. / 12, 1 } } },
  { "along a part of the top", { 1, 0 }, { 3, 0 }, 1, { { 0, 1, 1, 0 } } },
  { "along a part of the top, back",
    { 6, 0 },
    { 2, 0 },
    2,
    { { 0, 6, 0.5, 0 }, { 0.5, 4, 1, 0 } } },
  { "ends on the outline", { 6, 2 }, { 8, 2 }, 1, { { 1, 10, 1, 1 } } },
  { "ends a hair before it", { 6, 2 }, { 8 - 0.5e-9, 2 }, 1, { { 1, 10, 1, 1 } } },
  { "ends before it", { 6, 2 }, { 8 - 3e-9, 2 }, 0, { { 0, 0, 0, 0 } } },
  { "begins on a corner", { 8, 0 }, { 10, 0 }, 2, { { 0, 8, 0, 0 }, { 0, 8, 0, 1 } } },
  { "begins on the first point", { 0, 0 }, { -5, -5 }, 2, { { 0, 0, 0, 0 }, { 0, 0, 0, 1 } } },
  { "past a corner by a hair",
    { 7, -1 + 0.5e-9 },
    { 9, 1 + 0.5e-9 },
    2,
    { { 0.5, 8, 0.5, -1 }, { 0.5, 8, 0.5, 1 } } },
  { "a point on the outline", { 8, 5 }, { 8, 5 }, 1, { { 0, 13, 0, 0 } } },
  { "a point at a corner", { 8, 6 }, { 8, 6 }, 2, { { 0, 14, 0, 0 }, { 0, 14, 0, 0 } } },
  { "a point a hair away", { 8 + 0.5e-9, 5 }, { 8 + 0.5e-9, 5 }, 1, { { 0, 13, 0, 0 } } },
  { "a point off it", { 8 + 3e-9, 5 }, { 8 + 3e-9, 5 }, 0, { { 0, 0, 0, 0 } } },
  { "not a number", { NAN, 1 }, { 8, 2 }, 0, { { 0, 0, 0, 0 } } },
};

static void
test_meet (gconstpointer data)
{
  const Meet *want = data;
  g_autoptr (PfRegion) region = region_of (roof, G_N_ELEMENTS (roof));
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (PfMeeting));

  pf_region_meet (region, want->from, want->to, meetings);
  g_assert_cmpuint (meetings->len, ==, want->n);
  for (guint i = 0; i < meetings->len; i++)
    {
      const PfMeeting *m = &g_array_index (meetings, PfMeeting, i);

      g_assert_cmpfloat_with_epsilon (m->t, want->meetings[i].t, 1e-8);
      g_assert_cmpfloat_with_epsilon (m->t_run, want->meetings[i].t_run, 1e-8);
      g_assert_cmpfloat_with_epsilon (m->place.along, want->meetings[i].along, 1e-8);
      g_assert_cmpint (m->side, ==, want->meetings[i].side);
    }
}

/* --- Meetings against the definition ------------------------------------------------------------
 */

static double
off (PfPoint from, PfPoint to, PfPoint p)
{
  return ((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)) /
         hypot (to.x - from.x, to.y - from.y);
}

static double
foot (PfPoint from, PfPoint to, PfPoint p)
{
  const double dx = to.x - from.x, dy = to.y - from.y;

  return ((p.x - from.x) * dx + (p.y - from.y) * dy) / (dx * dx + dy * dy);
}

/* Every edge of the outline by the definition: how many meet, and the sum of their t, t_run and
 * sides. */
typedef struct {
  guint n;
  double t, t_run;
  int sides, passes;
} Sums;

static Sums
sum_by_definition (const PfRegion *region, PfPoint from, PfPoint to)
{
  const double slack = PF_TOUCH / hypot (to.x - from.x, to.y - from.y);
  Sums sums = { 0, 0, 0, 0, 0 };

  for (size_t l = 0; l < region->n_loops; l++)
    for (size_t i = 0; i < region->loops[l].n_points; i++)
      {
        const PfLoop *loop = &region->loops[l];
        const PfPoint a = loop->points[i], b = loop->points[(i + 1) % loop->n_points];
        const double da = off (from, to, a), db = off (from, to, b);
        const double ta = foot (from, to, a), tb = foot (from, to, b);
        const bool a_on = fabs (da) <= PF_TOUCH, b_on = fabs (db) <= PF_TOUCH;
        double low = ta + da / (da - db) * (tb - ta), high = low;

        if (!a_on && !b_on && (da > 0) == (db > 0))
          continue;
        if (a_on || b_on)
          {
            low = a_on && b_on ? fmin (ta, tb) : (a_on ? ta : tb);
            high = a_on && b_on ? fmax (ta, tb) : low;
          }
        if (high < -slack || low > 1 + slack)
          continue;
        sums.n++;
        sums.t += CLAMP (low, 0, 1);
        sums.t_run += CLAMP (high, 0, 1);
        sums.sides += (db > PF_TOUCH) - (da > PF_TOUCH);
        sums.passes += (db > PF_TOUCH) != (da > PF_TOUCH);
      }
  return sums;
}

static void
check_definition (const PfRegion *region, PfPoint from, PfPoint to, GArray *meetings)
{
  const Sums want = sum_by_definition (region, from, to);
  Sums got = { meetings->len, 0, 0, 0, 0 };

  for (guint i = 0; i < meetings->len; i++)
    {
      const PfMeeting *m = &g_array_index (meetings, PfMeeting, i);
      const PfPoint at = pf_region_point (region, m->place);
      const double x = from.x + m->t * (to.x - from.x), y = from.y + m->t * (to.y - from.y);

      g_assert_true (i == 0 || m->t >= m[-1].t);
      g_assert_cmpfloat (m->t, >=, 0);
      g_assert_cmpfloat (m->t_run, <=, 1);
      g_assert_cmpfloat (m->place.along, <, pf_loop_length (&region->loops[m->place.loop]));
      g_assert_cmpfloat (hypot (at.x - x, at.y - y), <, 1e-8);
      got.t += m->t;
      got.t_run += m->t_run;
      got.sides += m->side;
      got.passes += m->side != 0;
    }
  g_assert_cmpuint (got.n, ==, want.n);
  g_assert_cmpfloat_with_epsilon (got.t, want.t, 1e-8);
  g_assert_cmpfloat_with_epsilon (got.t_run, want.t_run, 1e-8);
  g_assert_cmpint (got.sides, ==, want.sides);
  g_assert_cmpint (got.passes, ==, want.passes);
}

/* --- Meetings against GEOS ----------------------------------------------------------------------
 */

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Adds the t of every point and line end in which GEOS has the line and the outline meet. */
static void
add_parts (GEOSContextHandle_t geos, const GEOSGeometry *shape, PfPoint from, PfPoint to,
           GArray *ts)
{
  const int n = GEOSGetNumGeometries_r (geos, shape);

  for (int i = 0; i < n; i++)
    {
      const GEOSGeometry *part = GEOSGetGeometryN_r (geos, shape, i);

      if (GEOSisEmpty_r (geos, part))
        continue;
      const GEOSCoordSequence *seq = GEOSGeom_getCoordSeq_r (geos, part);
      unsigned size;
      GEOSCoordSeq_getSize_r (geos, seq, &size);
      for (unsigned k = 0; k < size; k++)
        {
          PfPoint p;

          GEOSCoordSeq_getXY_r (geos, seq, k, &p.x, &p.y);
          const double t = foot (from, to, p);
          g_array_append_val (ts, t);
        }
    }
}

/* Sorts, and leaves out what repeats. */
static void
tidy (GArray *ts)
{
  guint kept = 0;

  g_array_sort (ts, compare_doubles);
  for (guint i = 0; i < ts->len; i++)
    {
      const double t = g_array_index (ts, double, i);

      if (kept == 0 || t - g_array_index (ts, double, kept - 1) > 1e-8)
        g_array_index (ts, double, kept++) = t;
    }
  g_array_set_size (ts, kept);
}

/* The same points, as places along the line: those in which it is touched or crossed, and the ends
 * of runs. */
static void
check_geos (GEOSContextHandle_t geos, const GEOSGeometry *boundary, PfPoint from, PfPoint to,
            const GArray *meetings)
{
  g_autoptr (GArray) want = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) got = g_array_new (FALSE, FALSE, sizeof (double));
  GEOSGeometry *line = geos_line (geos, from, to);
  GEOSGeometry *both = GEOSIntersection_r (geos, line, boundary);

  add_parts (geos, both, from, to, want);
  tidy (want);
  for (guint i = 0; i < meetings->len; i++)
    {
      const PfMeeting *m = &g_array_index (meetings, PfMeeting, i);

      g_array_append_val (got, m->t);
      g_array_append_val (got, m->t_run);
    }
  tidy (got);
  g_assert_cmpuint (got->len, ==, want->len);
  for (guint i = 0; i < got->len; i++)
    g_assert_cmpfloat_with_epsilon (g_array_index (got, double, i), g_array_index (want, double, i),
                                    1e-7);
  GEOSGeom_destroy_r (geos, both);
  GEOSGeom_destroy_r (geos, line);
}

/* From a point to another, neither of them on the outline: inside changes as often as the outline
 * passes. */
static void
check_parity (const PfRegion *region, PfPoint from, PfPoint to, const GArray *meetings)
{
  bool inside = pf_region_contains (region, from);
  double from_off, to_off;

  pf_region_nearest (region, from, &from_off);
  pf_region_nearest (region, to, &to_off);
  if (from_off <= 2 * PF_TOUCH || to_off <= 2 * PF_TOUCH)
    return;
  for (guint i = 0; i < meetings->len; i++)
    if (g_array_index (meetings, PfMeeting, i).side != 0)
      inside = !inside;
  g_assert_true (inside == pf_region_contains (region, to));
}

static void
check_lines (const PfRegion *region, int lattice)
{
  GEOSContextHandle_t geos = GEOS_init_r ();
  GEOSGeometry *polygon = geos_polygon (geos, region);
  GEOSGeometry *boundary = GEOSBoundary_r (geos, polygon);
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (PfMeeting));

  for (int k = 0; k < 100; k++)
    {
      const PfPoint from =
          lattice > 0 ? random_lattice_point (-1, lattice + 1) : random_point (-5, 125);
      PfPoint to = lattice > 0 ? random_lattice_point (-1, lattice + 1) : random_point (-5, 125);

      /* Half of them as short as pair lines are. */
      if (lattice == 0 && k % 2)
        to = (PfPoint){ from.x + (to.x - from.x) / 20, from.y + (to.y - from.y) / 20 };
      if (from.x == to.x && from.y == to.y)
        continue;
      pf_region_meet (region, from, to, meetings);
      check_definition (region, from, to, meetings);
      check_parity (region, from, to, meetings);
      check_geos (geos, boundary, from, to, meetings);
    }
  GEOSGeom_destroy_r (geos, boundary);
  GEOSGeom_destroy_r (geos, polygon);
  GEOS_finish_r (geos);
}

static void
test_random_lines (void)
{
  for (int k = 0; k < 30; k++)
    {
      g_autoptr (PfRegion) region = random_region ();

      check_lines (region, 0);
    }
}

/* Lines through vertices, along edges, from and to the outline. */
static void
test_lattice_lines (void)
{
  for (int k = 0; k < 60; k++)
    {
      g_autoptr (PfRegion) region = random_lattice_region (k % 2 ? 5 : 9, 4 + (size_t) k % 5);

      check_lines (region, k % 2 ? 5 : 9);
    }
}

/* A comb: a spike of 1e-5 mm width every mm. A line across meets each spike's two sides, and where
 * it runs just below the tips, none. */
static void
test_spikes (void)
{
  enum { SPIKES = 500 };
  PfPoint points[2 * SPIKES + 3];
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (PfMeeting));
  size_t n = 0;

  for (int i = 0; i < SPIKES; i++)
    {
      points[n++] = (PfPoint){ i, 0 };
      points[n++] = (PfPoint){ i + 1e-5, 20 };
    }
  points[n++] = (PfPoint){ SPIKES, 0 };
  points[n++] = (PfPoint){ SPIKES, 30 };
  points[n++] = (PfPoint){ 0, 30 };
  g_autoptr (PfRegion) region = region_of (points, n);

  pf_region_meet (region, (PfPoint){ -5, 10 }, (PfPoint){ SPIKES + 5, 10 }, meetings);
  g_assert_cmpuint (meetings->len, ==, 2 * SPIKES + 2);
  check_definition (region, (PfPoint){ -5, 10 }, (PfPoint){ SPIKES + 5, 10 }, meetings);
  pf_region_meet (region, (PfPoint){ 0.5, 20 + 2e-9 }, (PfPoint){ SPIKES - 0.5, 20 + 2e-9 },
                  meetings);
  g_assert_cmpuint (meetings->len, ==, 0);
  pf_region_meet (region, (PfPoint){ 0.5, 20 }, (PfPoint){ SPIKES - 0.5, 20 }, meetings);
  g_assert_cmpuint (meetings->len, ==, 2 * (SPIKES - 1));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (meets); i++)
    {
      g_autofree char *name = g_strdup_printf ("/query/meet/%s", meets[i].name);

      g_test_add_data_func (name, &meets[i], test_meet);
    }
  g_test_add_func ("/query/random-points", test_random_points);
  g_test_add_func ("/query/nearest-ties", test_nearest_ties);
  g_test_add_func ("/query/random-lines", test_random_lines);
  g_test_add_func ("/query/lattice-lines", test_lattice_lines);
  g_test_add_func ("/query/spikes", test_spikes);
  return g_test_run ();
}
