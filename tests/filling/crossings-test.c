/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which pair lines are cut, and where: every line of the lattice is followed in the plainest way
 * and cut by GEOS.
 */
#include "samples.h"

#include <math.h>
#include <stdlib.h>

#include <crossings.h>

/* How near two ways of working out one point must come, mm. */
#define NEAR 1e-7

typedef struct {
  const PfLattice *lattice;
  const PfRegion *region;
  const GeosRegion *geos;
} Checked;

/* --- Following a pair ---------------------------------------------------------------------------
 */

static const PfPairLine *
line_from (const PfGround *ground, int stitch, PfSide side)
{
  for (int l = 0; l < ground->n_lines; l++)
    if (ground->lines[l].from.stitch == stitch && ground->lines[l].from.side == side)
      return &ground->lines[l];
  g_assert_not_reached ();
}

/* The stitch that the pair comes to, over those that are dropped; each passes it on at the side
 * where it came. */
static PfStitchId
follow (const PfLattice *lattice, PfStitchId at, PfSide side, PfSide *entry)
{
  do
    {
      const PfPairLine *line = line_from (lattice->ground, at.k, side);
      at = (PfStitchId){ line->to.stitch, at.i + line->da, at.j + line->db };
      side = line->to.side;
  } while (lattice->ground->stitches[at.k].core && pf_lattice_has (lattice, at.i, at.j) &&
           pf_lattice_bit (lattice, lattice->plain, at.i, at.j));
  *entry = side;
  return at;
}

/* --- Where GEOS cuts ----------------------------------------------------------------------------
 */

static double
distance (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

static PfPoint
coordinate (const GeosRegion *geos, const GEOSGeometry *shape, unsigned n)
{
  PfPoint p;
  GEOSCoordSeq_getXY_r (geos->handle, GEOSGeom_getCoordSeq_r (geos->handle, shape), n, &p.x, &p.y);
  return p;
}

/* The points where the line from `from` to `to` meets the outline nearest to `from` and farthest
 * from it; false if there are none. */
static bool
geos_meetings (const GeosRegion *geos, PfPoint from, PfPoint to, PfPoint *nearest,
               PfPoint *farthest)
{
  GEOSGeometry *line = geos_line (geos, from, to);
  GEOSGeometry *met = GEOSIntersection_r (geos->handle, line, geos->outline);
  g_assert_nonnull (met);
  const int n = GEOSGetNumGeometries_r (geos->handle, met);
  double least = INFINITY, most = -INFINITY;
  for (int g = 0; g < n && !GEOSisEmpty_r (geos->handle, met); g++)
    {
      const GEOSGeometry *part = GEOSGetGeometryN_r (geos->handle, met, g);
      const int n_points = GEOSGeomGetNumPoints_r (geos->handle, part);
      for (int p = 0; p < MAX (n_points, 1); p++)
        {
          const PfPoint at = coordinate (geos, part, (unsigned) p);
          if (distance (from, at) < least)
            *nearest = at;
          if (distance (from, at) > most)
            *farthest = at;
          least = fmin (least, distance (from, at));
          most = fmax (most, distance (from, at));
        }
    }
  GEOSGeom_destroy_r (geos->handle, met);
  GEOSGeom_destroy_r (geos->handle, line);
  return least < INFINITY;
}

static void
check_place (const Checked *c, PfPlace place, PfPoint expected)
{
  const PfPoint at = pf_region_point (c->region, place);
  g_assert_cmpfloat (distance (at, expected), <, NEAR);
  g_assert_cmpfloat (place.along, >=, 0);
  g_assert_cmpfloat (place.along, <, pf_loop_length (&c->region->loops[place.loop]));
}

/* A crossing on the way from an inside stitch to an outside one. */
static void
check_crossing (const Checked *c, PfPlace place, PfStitchId inside, PfStitchId outside)
{
  const PfPoint from = pf_lattice_position (c->lattice, inside);
  const PfPoint to = pf_lattice_position (c->lattice, outside);
  PfPoint nearest, farthest;
  if (geos_meetings (c->geos, from, to, &nearest, &farthest))
    {
      check_place (c, place, nearest);
      return;
    }
  g_assert_true (geos_contains (c->geos, to));
  const PfPoint at = pf_region_point (c->region, place);
  g_assert_cmpfloat (geos_distance (c->geos, at), <, NEAR);
  g_assert_cmpfloat (distance (at, to), <, geos_distance (c->geos, to) + NEAR);
}

/* --- Each line once -----------------------------------------------------------------------------
 */

static int
compare_cuts (gconstpointer a, gconstpointer b)
{
  const PfCutLine *p = a, *q = b;
  const int keys[][2] = { { p->from.k, q->from.k },
                          { (int) p->from_side, (int) q->from_side },
                          { p->from.j, q->from.j },
                          { p->from.i, q->from.i } };
  for (size_t k = 0; k < G_N_ELEMENTS (keys); k++)
    if (keys[k][0] != keys[k][1])
      return keys[k][0] < keys[k][1] ? -1 : 1;
  return 0;
}

static const PfCutLine *
find_cut (const GArray *cuts, PfStitchId from, PfSide side)
{
  const PfCutLine wanted = { .from = from, .from_side = side };
  return bsearch (&wanted, cuts->data, cuts->len, sizeof wanted, compare_cuts);
}

/* Checks the line that leaves `from`, which isn't dropped, and counts it in `*n_seen` if it is cut.
 */
static void
check_line (const Checked *c, const GArray *cuts, PfStitchId from, PfSide side, guint *n_seen)
{
  PfSide entry;
  const PfStitchId to = follow (c->lattice, from, side, &entry);
  const bool from_inside = pf_lattice_inside (c->lattice, from);
  const bool to_inside = pf_lattice_inside (c->lattice, to);
  const PfCutLine *cut = find_cut (cuts, from, side);
  *n_seen += cut != NULL;
  if (cut != NULL)
    {
      g_assert_true (from_inside == cut->from_inside && to_inside == cut->to_inside);
      g_assert_true (cut->to.k == to.k && cut->to.i == to.i && cut->to.j == to.j);
      g_assert_cmpint (cut->to_side, ==, entry);
    }
  if (from_inside != to_inside)
    {
      g_assert_nonnull (cut);
      if (from_inside)
        check_crossing (c, cut->leaves, from, to);
      else
        check_crossing (c, cut->enters, to, from);
      return;
    }
  const PfPoint a = pf_lattice_position (c->lattice, from),
                b = pf_lattice_position (c->lattice, to);
  const double outside = from_inside ? geos_outside (c->geos, a, b) : 0;
  if (fabs (outside - 1e-6) < 1e-8)
    return;
  g_assert_true ((cut != NULL) == (outside > 1e-6));
  PfPoint nearest, farthest;
  if (cut != NULL && geos_meetings (c->geos, a, b, &nearest, &farthest))
    {
      check_place (c, cut->leaves, nearest);
      check_place (c, cut->enters, farthest);
    }
}

static void
check_all_lines (const PfLattice *lattice, const PfRegion *region)
{
  g_autoptr (GeosRegion) geos = geos_region_new (region);
  const Checked c = { lattice, region, geos };
  g_autoptr (GArray) cuts = pf_find_cut_lines (lattice, region);
  g_array_sort (cuts, compare_cuts);
  for (guint n = 1; n < cuts->len; n++)
    g_assert_cmpint (
        compare_cuts (&g_array_index (cuts, PfCutLine, n - 1), &g_array_index (cuts, PfCutLine, n)),
        <, 0);
  guint n_seen = 0;
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        if (!pf_lattice_dropped (lattice, (PfStitchId){ k, i, j }))
          {
            for (int side = 0; side < lattice->ground->stitches[k].n_pairs; side++)
              check_line (&c, cuts, (PfStitchId){ k, i, j }, (PfSide) side, &n_seen);
          }
  g_assert_cmpuint (n_seen, ==, cuts->len);
}

typedef struct {
  const char *name;
  const char *ground;
  double inner, outer, least_gap, most_gap; /* mm */
  double clearance;
  bool all_plain;
} Sample;

static const Sample samples[] = {
  { "torchon", "torchon", 8, 30, 2, 4, 0.25, false },
  { "torchon without clearance", "torchon", 8, 30, 2, 4, 0, false },
  { "deep bays", "torchon", 2, 40, 1.5, 3, 0, false },
  { "wide clearance", "torchon", 20, 30, 1.5, 3, 2, false },
  { "long lines", "honeycomb", 4, 30, 2, 4, 0.1, false },
  { "kept and plain", "armure", 8, 30, 1.5, 4, 0.25, false },
  { "all plain", "armure", 8, 30, 1.5, 4, 0.25, true },
  { "large cores", "spider", 10, 30, 1, 2, 0.25, false },
  { "large cores, all plain", "spider", 10, 30, 1, 2, 0.25, true },
  { "four pairs to a stitch", "plait-lattice", 8, 30, 1, 3, 0.25, false },
  { "corners without pins", "rose", 8, 30, 1.5, 4, 0.25, false },
};

static void
test_sample (gconstpointer data)
{
  const Sample *sample = data;
  g_autoptr (PfGround) ground = sample_ground (sample->ground);
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.all_plain = sample->all_plain;
  for (int trial = 0; trial < 15; trial++)
    {
      g_autoptr (PfRegion) region = sample_star (
          (PfPoint){ g_test_rand_double_range (-50, 50), g_test_rand_double_range (-50, 50) },
          sample->inner, sample->outer, (size_t) g_test_rand_int_range (7, 40),
          (size_t) g_test_rand_int_range (0, 3));
      settings.placement = sample_placement (sample->least_gap, sample->most_gap);
      g_autoptr (PfLattice) lattice = pf_lattice_new (region, ground, &settings.placement, NULL);
      pf_lattice_find_inside (lattice, region, sample->clearance);
      g_autoptr (PfFilling) filling = g_new0 (PfFilling, 1);
      g_autoptr (GArray) beads = NULL;
      g_array_unref (pf_lattice_find_repeats (lattice, &settings, filling, &beads));
      check_all_lines (lattice, region);
    }
}

/* --- Awkward lines, by hand ---------------------------------------------------------------------
 */

/* The torchon ground, one mm to a ground unit: stitches stand where x and y are whole and x + y is
 * even. The pair line from the stitch at (0, 0) right and down to the one at (1, 1) runs inside a
 * square, into which a thin wedge is cut from the left, with its tip at or past the line. */
typedef struct {
  const char *name;
  PfPoint wedge[4]; /* drawn upwards */
  size_t n;
  bool cut;
  double leaves, enters; /* x and y, both the same */
} Wedge;

static const Wedge wedges[] = {
  { "tip before the line", { { -1, 1 }, { 0.4, 0.5 }, { -1, 0.9 } }, 3, false, 0, 0 },
  { "tip on the line", { { -1, 1 }, { 0.5, 0.5 }, { -1, 0.9 } }, 3, false, 0, 0 },
  { "tip past the line", { { -1, 0.75 }, { 1, 0.5 }, { -1, 0.25 } }, 3, true, 3.0 / 7, 5.0 / 9 },
  { "edge along the line",
    { { -1, 0.75 }, { 0.75, 0.75 }, { 0.25, 0.25 }, { -1, 0.25 } },
    4,
    false,
    0,
    0 },
  { "slit of 1.4e-6 mm",
    { { -1, 0.5 + 1e-6 }, { 1, 0.5 + 1e-6 }, { 1, 0.5 }, { -1, 0.5 } },
    4,
    true,
    0.5,
    0.5 + 1e-6 },
  { "slit of 0.7e-6 mm",
    { { -1, 0.5 + 5e-7 }, { 1, 0.5 + 5e-7 }, { 1, 0.5 }, { -1, 0.5 } },
    4,
    false,
    0,
    0 },
};

static void
test_wedge (gconstpointer data)
{
  const Wedge *wedge = data;
  PfPoint outline[8] = { { -1, -1 }, { 2, -1 }, { 2, 2 }, { -1, 2 } };
  for (size_t p = 0; p < wedge->n; p++)
    outline[4 + p] = wedge->wedge[p];
  g_autoptr (PfRegion) region = sample_polygon (outline, 4 + wedge->n);
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  const PfPlacement placement = { .gap = ground->spacing };
  g_autoptr (PfLattice) lattice = pf_lattice_new (region, ground, &placement, NULL);
  pf_lattice_find_inside (lattice, region, 0);
  g_autoptr (GArray) cuts = pf_find_cut_lines (lattice, region);
  g_array_sort (cuts, compare_cuts);
  g_assert_true (pf_lattice_inside (lattice, (PfStitchId){ 0, 0, 0 }));
  g_assert_true (pf_lattice_inside (lattice, (PfStitchId){ 0, 1, 0 }));
  const PfCutLine *cut = find_cut (cuts, (PfStitchId){ 0, 0, 0 }, PF_RIGHT);
  g_assert_true ((cut != NULL) == wedge->cut);
  if (cut == NULL)
    return;
  const PfPoint leaves = pf_region_point (region, cut->leaves);
  const PfPoint enters = pf_region_point (region, cut->enters);
  g_assert_cmpfloat (distance (leaves, (PfPoint){ wedge->leaves, wedge->leaves }), <, 1e-9);
  g_assert_cmpfloat (distance (enters, (PfPoint){ wedge->enters, wedge->enters }), <, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      g_autofree char *path = g_strdup_printf ("/crossings/random/%s", samples[s].name);
      g_test_add_data_func (path, &samples[s], test_sample);
    }
  for (size_t c = 0; c < G_N_ELEMENTS (wedges); c++)
    {
      g_autofree char *path = g_strdup_printf ("/crossings/wedge/%s", wedges[c].name);
      g_test_add_data_func (path, &wedges[c], test_wedge);
    }
  return g_test_run ();
}
