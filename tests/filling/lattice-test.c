/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which stitches are inside: against GEOS on random outlines, by hand on awkward ones, and against
 * exact whole-number arithmetic on outlines snapped to the lattice, where points and pair lines
 * must never disagree.
 */
#include "samples.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <crossings.h>

static PfLattice *
make_lattice (const PfRegion *region, const PfGround *ground, const PfPlacement *placement,
              double clearance)
{
  g_autoptr (GError) error = NULL;
  PfLattice *lattice = pf_lattice_new (region, ground, placement, &error);
  g_assert_no_error (error);
  pf_lattice_find_inside (lattice, region, clearance);
  return lattice;
}

/* --- Random outlines, against GEOS --------------------------------------------------------------
 */

static const char *const grounds[] = { "torchon", "armure",    "rose",
                                       "spider",  "honeycomb", "point-net" };

static bool
expect_inside (const GeosRegion *geos, PfPoint p, double least, bool *in_doubt)
{
  if (!geos_contains (geos, p))
    {
      *in_doubt = false;
      return false;
    }
  const double distance = geos_distance (geos, p);
  *in_doubt = fabs (distance - fmax (least, 2 * PF_TOUCH)) < 1e-9;
  return distance >= least;
}

static void
compare_with_geos (const PfLattice *lattice, const PfRegion *region, double clearance)
{
  g_autoptr (GeosRegion) geos = geos_region_new (region);
  const double least = clearance * lattice->gap - 1e-6;
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        {
          const PfStitchId s = { k, i, j };
          bool in_doubt;
          const bool inside =
              expect_inside (geos, pf_lattice_position (lattice, s), least, &in_doubt);
          g_assert_true (in_doubt || inside == pf_lattice_inside (lattice, s));
        }
}

static void
test_random (void)
{
  static const double clearances[] = { 0, 0.25, 1, 2.5 };
  for (int trial = 0; trial < 80; trial++)
    {
      g_autoptr (PfGround) ground = sample_ground (grounds[trial % (int) G_N_ELEMENTS (grounds)]);
      const PfPoint centre = { g_test_rand_double_range (-50, 50),
                               g_test_rand_double_range (-50, 50) };
      const double inner = g_test_rand_double_range (4, 25);
      g_autoptr (PfRegion) region = sample_star (
          centre, inner, inner * g_test_rand_double_range (1.1, 4),
          (size_t) g_test_rand_int_range (7, 60), (size_t) g_test_rand_int_range (0, 3));
      const PfPlacement placement = sample_placement (1.5, 6);
      const double clearance = clearances[g_test_rand_int_range (0, 4)];
      g_autoptr (PfLattice) lattice = make_lattice (region, ground, &placement, clearance);
      compare_with_geos (lattice, region, clearance);
    }
}

/* --- Awkward outlines, by hand ------------------------------------------------------------------
 */

/* The torchon ground, one mm to a ground unit: stitches stand where x and y are whole and x + y is
 * even; the gap is the square root of 2. Loops are set apart by a slash. */
typedef struct {
  const char *name;
  const char *outline;
  double clearance;
  const char *inside; /* by y, then x */
} Awkward;

static const Awkward awkward[] = {
  { "stitches on the outline", "0,0 4,0 4,4 0,4", 0, "1,1 3,1 2,2 1,3 3,3" },
  { "stitches at the clearance", "0,0 4,0 4,4 0,4", 0.70710678118654757, "1,1 3,1 2,2 1,3 3,3" },
  { "stitches just within the clearance", "0,0 4,0 4,4 0,4", 0.7072, "2,2" },
  { "along a lattice line", "0,0 4,4 0,4", 0, "1,3" },
  { "through stitches and between them", "-1,0 2.5,0 2.5,5 -1,1.5", 0, "1,1 0,2 2,2 1,3 2,4" },
  { "corners on stitches only", "0,0 2,-2 4,0 2,2", 0, "2,0" },
  { "spike", "0,-0.5 8.1,0 0,0.5", 0, "2,0 4,0 6,0 8,0" },
  { "spike, with clearance", "0,-0.5 8.1,0 0,0.5", 0.25, "2,0" },
  { "spike that misses", "0,0.1 8.1,0.5 0,0.9", 0, "" },
  { "tiny hole at a stitch", "0,0 4,0 4,4 0,4 / 1.99,1.99 2.01,1.99 2,2.01", 0, "1,1 3,1 1,3 3,3" },
  { "tiny hole that touches a stitch", "0,0 4,0 4,4 0,4 / 2,2 2.01,2 2.01,2.01", 0,
    "1,1 3,1 1,3 3,3" },
  { "tiny hole between stitches", "0,0 4,0 4,4 0,4 / 2.49,2.5 2.51,2.49 2.5,2.51", 0,
    "1,1 3,1 2,2 1,3 3,3" },
  { "tiny hole between stitches, with clearance", "0,0 4,0 4,4 0,4 / 2.49,2.5 2.51,2.49 2.5,2.51",
    0.5, "1,1 3,1 1,3" },
  { "hole that touches the outline", "0,0 4,0 4,4 0,4 / 2,0 3,1 2,2 1,1", 0, "1,3 3,3" },
  { "smaller than the lattice", "0.2,0.2 0.4,0.2 0.3,0.4", 0, "" },
  { "no wider than a line", "0,-1e-7 6,-1e-7 6,1e-7 0,1e-7", 0, "2,0 4,0" },
};

/* The loops of an outline in text; one string holds the points of one loop. */
static PfRegion *
read_outline (const char *text)
{
  g_auto (GStrv) loops = g_strsplit (text, "/", -1);
  const size_t n = g_strv_length (loops);
  g_autofree PfChain *chains = g_new0 (PfChain, n);
  for (size_t l = 0; l < n; l++)
    {
      g_auto (GStrv) points = g_strsplit (g_strstrip (loops[l]), " ", -1);
      chains[l] =
          (PfChain){ g_new (PfPoint, g_strv_length (points)), g_strv_length (points), true };
      for (size_t p = 0; p < chains[l].n_points; p++)
        g_assert_cmpint (
            sscanf (points[p], "%lf,%lf", &chains[l].points[p].x, &chains[l].points[p].y), ==, 2);
    }
  g_autoptr (GError) error = NULL;
  PfRegion *region = pf_region_new (chains, n, &error);
  g_assert_no_error (error);
  for (size_t l = 0; l < n; l++)
    g_free (chains[l].points);
  return region;
}

static void
test_awkward (gconstpointer data)
{
  const Awkward *c = data;
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  g_autoptr (PfRegion) region = read_outline (c->outline);
  const PfPlacement placement = { .gap = ground->spacing };
  g_autoptr (PfLattice) lattice = make_lattice (region, ground, &placement, c->clearance);
  g_autoptr (GString) inside = g_string_new (NULL);
  for (int y = -20; y <= 20; y++)
    for (int x = -20; x <= 20; x++)
      {
        if ((x + y) % 2 != 0 ||
            !pf_lattice_inside (lattice, (PfStitchId){ 0, (x + y) / 2, (y - x) / 2 }))
          continue;
        g_string_append_printf (inside, "%s%d,%d", inside->len > 0 ? " " : "", x, y);
      }
  g_assert_cmpstr (inside->str, ==, c->inside);
}

/* --- Outlines snapped to the lattice ------------------------------------------------------------
 */

typedef struct {
  int x, y;
} Whole;

/* A polygon in half ground units, perhaps with a hole. */
typedef struct {
  Whole outer[64], hole[4];
  size_t n_outer, n_hole;
} Snapped;

static int
compare_angles (const void *a, const void *b)
{
  const Whole *p = a, *q = b;
  const double s = atan2 (p->y, p->x), t = atan2 (q->y, q->x);
  return (s > t) - (s < t);
}

/* Corners at random places, in the order of their angles; those that would cross are refused later.
 */
static void
snap_star (Snapped *s)
{
  s->n_outer = (size_t) g_test_rand_int_range (4, 14);
  const int step = g_test_rand_bit () ? 2 : 1;
  for (size_t p = 0; p < s->n_outer; p++)
    s->outer[p] =
        (Whole){ step * g_test_rand_int_range (-9, 10), step * g_test_rand_int_range (-9, 10) };
  qsort (s->outer, s->n_outer, sizeof (Whole), compare_angles);
}

/* Columns of random heights above and below an axis: every edge runs along x or y. */
static void
snap_columns (Snapped *s)
{
  const int n = g_test_rand_int_range (2, 8), width = g_test_rand_int_range (1, 4);
  Whole *p = s->outer;
  for (int c = 0; c < n; c++)
    {
      const int top = -g_test_rand_int_range (1, 9);
      *p++ = (Whole){ (c - n / 2) * width, top };
      *p++ = (Whole){ (c + 1 - n / 2) * width, top };
    }
  for (int c = n - 1; c >= 0; c--)
    {
      const int bottom = g_test_rand_int_range (1, 9);
      *p++ = (Whole){ (c + 1 - n / 2) * width, bottom };
      *p++ = (Whole){ (c - n / 2) * width, bottom };
    }
  s->n_outer = (size_t) (p - s->outer);
}

static void
snap_outline (Snapped *s)
{
  *s = (Snapped){ 0 };
  if (g_test_rand_bit ())
    snap_star (s);
  else
    {
      snap_columns (s);
      const bool diagonal = g_test_rand_bit ();
      for (size_t p = 0; diagonal && p < s->n_outer; p++)
        s->outer[p] = (Whole){ s->outer[p].x - s->outer[p].y, s->outer[p].x + s->outer[p].y };
    }
  if (g_test_rand_int_range (0, 3) > 0)
    return;
  const int x = g_test_rand_int_range (-2, 3), y = g_test_rand_int_range (-2, 3);
  const int size = g_test_rand_int_range (1, 4);
  s->n_hole = 4;
  for (size_t p = 0; p < 4; p++)
    s->hole[p] = (Whole){ x + (p % 2 == 0 ? 0
                               : p == 1   ? size
                                          : -size),
                          y + (p % 2 == 1 ? 0
                               : p == 0   ? -size
                                          : size) };
}

/* 1 inside the loop, 0 on it, -1 outside; whole numbers, so exact. */
static int
side_of_loop (const Whole *loop, size_t n, Whole at)
{
  bool inside = false;
  for (size_t p = 0; p < n; p++)
    {
      const Whole a = loop[p], b = loop[(p + 1) % n];
      const int cross = (b.x - a.x) * (at.y - a.y) - (b.y - a.y) * (at.x - a.x);
      if (cross == 0 && (at.x - a.x) * (at.x - b.x) <= 0 && (at.y - a.y) * (at.y - b.y) <= 0)
        return 0;
      if ((a.y > at.y) != (b.y > at.y))
        inside ^= (cross > 0) == (b.y > a.y);
    }
  return inside ? 1 : -1;
}

static bool
exactly_inside (const Snapped *s, PfPoint ground_at)
{
  const Whole at = { (int) lround (2 * ground_at.x), (int) lround (2 * ground_at.y) };
  return side_of_loop (s->outer, s->n_outer, at) > 0 &&
         (s->n_hole == 0 || side_of_loop (s->hole, s->n_hole, at) < 0);
}

/* The outline mapped to the sheet, or NULL if it isn't a region: it crosses or touches itself along
 * a line. */
static PfRegion *
place_snapped (const Snapped *s, PfAffine map)
{
  PfPoint outer[64], hole[4];
  for (size_t p = 0; p < s->n_outer; p++)
    outer[p] = pf_affine_map (map, (PfPoint){ s->outer[p].x / 2.0, s->outer[p].y / 2.0 });
  for (size_t p = 0; p < s->n_hole; p++)
    hole[p] = pf_affine_map (map, (PfPoint){ s->hole[p].x / 2.0, s->hole[p].y / 2.0 });
  const PfChain chains[] = { { outer, s->n_outer, true }, { hole, s->n_hole, true } };
  return pf_region_new (chains, s->n_hole > 0 ? 2 : 1, NULL);
}

static size_t
line_number (const PfLattice *lattice, int l, int i, int j)
{
  return ((size_t) l * (size_t) lattice->n_rows + (size_t) (j - lattice->j0)) *
             (size_t) lattice->n_columns +
         (size_t) (i - lattice->i0);
}

/* How often each pair line is cut, by line_number(). */
static guint8 *
count_cuts (const PfLattice *lattice, const PfRegion *region)
{
  const PfGround *ground = lattice->ground;
  g_autoptr (GArray) cuts = pf_find_cut_lines (lattice, region);
  guint8 *counts =
      g_new0 (guint8, line_number (lattice, ground->n_lines, lattice->i0, lattice->j0));
  for (guint c = 0; c < cuts->len; c++)
    {
      const PfCutLine *cut = &g_array_index (cuts, PfCutLine, c);
      const int l = ground->exits[cut->from.k][cut->from_side];
      g_assert_cmpint (ground->lines[l].to.stitch, ==, cut->to.k);
      g_assert_cmpint (ground->lines[l].to.side, ==, cut->to_side);
      g_assert_true (pf_lattice_inside (lattice, cut->from) == cut->from_inside);
      g_assert_true (pf_lattice_inside (lattice, cut->to) == cut->to_inside);
      counts[line_number (lattice, l, cut->from.i, cut->from.j)]++;
    }
  return counts;
}

/* `drawn` is the outline in ground units, where all its corners and all stitches are exact. */
static void
compare_lines (const PfLattice *lattice, const PfRegion *region, const PfRegion *drawn,
               double scale)
{
  const PfGround *ground = lattice->ground;
  g_autoptr (GeosRegion) geos = geos_region_new (drawn);
  g_autofree guint8 *counts = count_cuts (lattice, region);
  for (int l = 0; l < ground->n_lines; l++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        {
          const PfPairLine *line = &ground->lines[l];
          const PfStitchId from = { line->from.stitch, i, j };
          const PfStitchId to = { line->to.stitch, i + line->da, j + line->db };
          const int ends = pf_lattice_inside (lattice, from) + pf_lattice_inside (lattice, to);
          const guint8 cut = counts[line_number (lattice, l, i, j)];
          if (ends < 2)
            g_assert_cmpuint (cut, ==, ends);
          else
            g_assert_cmpuint (cut, ==,
                              geos_outside (geos,
                                            pf_ground_position (ground, from.k, from.i, from.j),
                                            pf_ground_position (ground, to.k, to.i, to.j)) *
                                      scale >
                                  1e-6);
        }
}

static void
compare_stitches (const PfLattice *lattice, const Snapped *snapped)
{
  for (int k = 0; k < lattice->ground->n_stitches; k++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        g_assert_true (pf_lattice_inside (lattice, (PfStitchId){ k, i, j }) ==
                       exactly_inside (snapped, pf_ground_position (lattice->ground, k, i, j)));
}

/* Half of the outlines are laid on the sheet where everything stays exact, half where rounding
 * moves all of it. */
static void
test_snapped (gconstpointer name)
{
  g_autoptr (PfGround) ground = sample_ground (name);
  int n = 0;
  for (int trial = 0; trial < 20000 && n < 1500; trial++)
    {
      Snapped snapped;
      snap_outline (&snapped);
      const PfPlacement exact = { .gap = ground->spacing };
      const PfPlacement placement = trial % 2 == 0 ? exact : sample_placement (0.5, 8);
      g_autoptr (PfRegion) drawn = place_snapped (&snapped, PF_AFFINE_IDENTITY);
      if (drawn == NULL)
        continue;
      g_autoptr (PfRegion) region = place_snapped (&snapped, pf_placement_map (ground, placement));
      g_assert_nonnull (region);
      g_autoptr (PfLattice) lattice = make_lattice (region, ground, &placement, 0);
      compare_stitches (lattice, &snapped);
      compare_lines (lattice, region, drawn, placement.gap / ground->spacing);
      n++;
    }
  g_assert_cmpint (n, ==, 1500);
}

/* --- The rest of the lattice --------------------------------------------------------------------
 */

/* Worked stitches are numbered by k, then j, then i. */
static void
test_numbers (void)
{
  g_autoptr (PfGround) ground = sample_ground ("armure");
  g_autoptr (PfRegion) region = sample_star ((PfPoint){ 0, 0 }, 100, 300, 40, 2);
  const PfPlacement placement = { .gap = 2, .turn = 20 };
  g_autoptr (PfLattice) lattice = make_lattice (region, ground, &placement, 0.25);
  pf_lattice_count (lattice);
  guint32 n = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    for (int j = lattice->j0; j < lattice->j0 + lattice->n_rows; j++)
      for (int i = lattice->i0; i < lattice->i0 + lattice->n_columns; i++)
        if (pf_lattice_inside (lattice, (PfStitchId){ k, i, j }))
          g_assert_cmpuint (pf_lattice_index (lattice, (PfStitchId){ k, i, j }), ==, n++);
  g_assert_cmpuint (n, ==, lattice->n_inside);
  g_assert_cmpuint (n, >, 10000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lattice/random", test_random);
  for (size_t c = 0; c < G_N_ELEMENTS (awkward); c++)
    {
      g_autofree char *path = g_strdup_printf ("/lattice/awkward/%s", awkward[c].name);
      g_test_add_data_func (path, &awkward[c], test_awkward);
    }
  g_test_add_data_func ("/lattice/snapped/torchon", "torchon", test_snapped);
  g_test_add_data_func ("/lattice/snapped/armure", "armure", test_snapped);
  g_test_add_data_func ("/lattice/snapped/rose", "rose", test_snapped);
  g_test_add_func ("/lattice/numbers", test_numbers);
  return g_test_run ();
}
