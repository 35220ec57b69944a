/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edges of half and cloth stitch in stretches: which line a place and a pinhole belong to, against
 * an edge painted half mm by half mm; and where the sewings of a filling go, against the best that
 * trying all ways in order can find (on a line with two ends, the best way keeps the order of the
 * targets).
 */
#include <math.h>
#include <stdlib.h>

#include <sewing-places.h>

#include "same.h"

/* The loop is a square of 10 mm sides: 40 mm, in halves. */
enum { HALVES = 80, MOST = 6 };

typedef struct {
  PfEdgeStretch stretches[MOST];
  size_t n;
  PfEdgeKind painted[HALVES];
} Painted;

static Painted
paint (PfEdgeKind kind)
{
  Painted p = { .n = (size_t) g_test_rand_int_range (0, MOST + 1) };
  for (int h = 0; h < HALVES; h++)
    p.painted[h] = kind;
  for (size_t s = 0; s < p.n; s++)
    {
      const int from = g_test_rand_int_range (0, HALVES + 1);
      const int to = g_test_rand_int_range (0, HALVES + 1);
      p.stretches[s] = (PfEdgeStretch){ from / 2., to / 2., (PfEdgeKind) g_test_rand_bit () };
      for (int h = from; h < (to > from ? to : to + HALVES); h++)
        p.painted[h % HALVES] = p.stretches[s].kind;
    }
  return p;
}

/* The half mm where the line of half mm `h` starts, or 0 if all are of one kind. */
static int
painted_start (const Painted *p, int h)
{
  for (int back = 0; back < HALVES; back++)
    if (p->painted[(h - back - 1 + 2 * HALVES) % HALVES] != p->painted[h])
      return (h - back + HALVES) % HALVES;
  return 0;
}

static void
check_lines (const Painted *p, const PfEdge *edge, const GArray *lines)
{
  int starts = 0;
  for (int h = 0; h < HALVES; h++)
    {
      const PfEdgeLine *line =
          &g_array_index (lines, PfEdgeLine, pf_edge_lines_find (lines, (PfPlace){ 0, h / 2. }));
      g_assert_cmpint (line->kind, ==, p->painted[h]);
      g_assert_cmpfloat (line->from, ==, painted_start (p, h) / 2.);
      starts += painted_start (p, h) == h;
    }
  g_assert_cmpuint (lines->len, ==, MAX (starts, 1));
  size_t n_pinholes = 0;
  double length = 0;
  for (guint l = 0; l < lines->len; l++)
    {
      const PfEdgeLine *line = &g_array_index (lines, PfEdgeLine, l);
      g_assert_true (line->closed == (lines->len == 1));
      n_pinholes += line->n_pinholes;
      length += line->length;
      for (size_t n = 0; n < line->n_pinholes; n++)
        {
          const double along = edge->pinholes[(line->first_pinhole + n) % edge->n_pinholes];
          g_assert_cmpfloat (fabs (fmod (line->from + line->pinholes[n], 40) - along), <, 1e-9);
          g_assert_cmpuint (pf_edge_lines_find (lines, (PfPlace){ 0, along }), ==, l);
        }
    }
  g_assert_cmpuint (n_pinholes, ==, edge->n_pinholes);
  g_assert_cmpfloat (fabs (length - 40), <, 1e-9);
}

/* Pinholes at random half mm, so that many stand where a stretch begins or ends. */
static void
test_lines (void)
{
  static const PfPoint square[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  for (int trial = 0; trial < 2000; trial++)
    {
      const PfEdgeKind kind = (PfEdgeKind) g_test_rand_bit ();
      const Painted p = paint (kind);
      double places[12];
      const size_t n = (size_t) g_test_rand_int_range (0, 13);
      for (size_t k = 0; k < n; k++)
        places[k] = g_test_rand_int_range (0, HALVES + 1) / 2.;
      PfEdge edge;
      g_assert_true (pf_edge_init_given (&edge, &region->loops[0], kind, 2, places, n, NULL));
      g_assert_true (pf_edge_set_stretches (&edge, &region->loops[0], p.stretches, p.n, NULL));
      g_autoptr (GArray) lines = pf_edge_lines_new (region, &edge);
      check_lines (&p, &edge, lines);
      pf_edge_clear (&edge);
    }
}

/* --- Fillings -----------------------------------------------------------------------------------
 */

typedef struct {
  PfRegion *region;
  PfEdge edges[3];
  PfGround *ground;
  PfFillingSettings settings;
  PfFilling *filling;
} Filled;

/* The region, and its edges without stretches. */
static Filled
start (PfEdgeKind kind, size_t n_holes, double edge_gap)
{
  Filled f = { .region = sample_star ((PfPoint){ 0, 0 }, 12, 24,
                                      (size_t) g_test_rand_int_range (7, 30), n_holes),
               .ground = sample_ground (g_test_rand_bit () ? "torchon" : "armure"),
               .settings = pf_filling_settings_default () };
  f.settings.placement = sample_placement (3, 5);
  for (size_t l = 0; l < f.region->n_loops; l++)
    g_assert_true (pf_edge_init_even (&f.edges[l], &f.region->loops[l], kind, edge_gap, NULL));
  return f;
}

static void
set_stretches (Filled *f, size_t l, const PfEdgeStretch *stretches, size_t n)
{
  g_assert_true (pf_edge_set_stretches (&f->edges[l], &f->region->loops[l], stretches, n, NULL));
}

static void
fill (Filled *f)
{
  g_autoptr (GError) error = NULL;
  f->filling = pf_filling_new (f->region, f->edges, f->ground, &f->settings, &error);
  g_assert_no_error (error);
}

static void
filled_clear (Filled *f)
{
  pf_filling_free (f->filling);
  for (size_t l = 0; l < f->region->n_loops; l++)
    pf_edge_clear (&f->edges[l]);
  pf_region_free (f->region);
  pf_ground_free (f->ground);
}

static void
random_stretches (Filled *f)
{
  for (size_t l = 0; l < f->region->n_loops; l++)
    {
      const double length = pf_loop_length (&f->region->loops[l]);
      PfEdgeStretch stretches[4];
      const size_t n = (size_t) g_test_rand_int_range (1, 5);
      for (size_t s = 0; s < n; s++)
        stretches[s] = (PfEdgeStretch){ g_test_rand_double_range (0, length),
                                        g_test_rand_double_range (0, length),
                                        (PfEdgeKind) g_test_rand_bit () };
      set_stretches (f, l, stretches, n);
    }
}

/* The most sewings at pinholes, and their least distance. */
typedef struct {
  int n;
  double distance;
} Best;

static Best
better (Best a, Best b)
{
  if (a.n != b.n)
    return a.n > b.n ? a : b;
  return a.distance <= b.distance ? a : b;
}

/* The best for targets in order and places in order: the last target takes the last place, or one
 * of them is left. */
static Best
best_in_order (const double *targets, int n_targets, const double *places, int n_places,
               double reach)
{
  g_autofree Best *row = g_new0 (Best, n_places + 1);
  for (int t = 0; t < n_targets; t++)
    {
      Best corner = row[0]; /* without this target and this place */
      for (int p = 0; p < n_places; p++)
        {
          const double distance = fabs (targets[t] - places[p]);
          Best best = better (row[p + 1], row[p]);
          if (distance <= reach + 1e-6)
            best = better (best, (Best){ corner.n + 1, corner.distance + distance });
          corner = row[p + 1];
          row[p + 1] = best;
        }
    }
  return row[n_places];
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* What the filling made of one line's sewings. */
typedef struct {
  double targets[400], places[2000];
  int n_targets, n_places, most;
  Best got;
} Look;

static void
look_at_line (const Filled *f, const GArray *lines, guint l, Look *look)
{
  const PfEdgeLine *line = &g_array_index (lines, PfEdgeLine, l);
  const PfLoop *loop = &f->region->loops[line->loop];
  g_autofree int *used = g_new0 (int, f->edges[line->loop].n_pinholes);
  for (size_t s = 0; s < f->filling->n_sewings; s++)
    {
      const PfSewing *sewing = &f->filling->sewings[s];
      if (pf_edge_lines_find (lines, sewing->target) != l)
        continue;
      look->targets[look->n_targets++] = pf_loop_forward (loop, line->from, sewing->target.along);
      if (sewing->pinhole == PF_NONE)
        {
          g_assert_cmpint (line->kind, ==, PF_EDGE_HALF_STITCH);
          g_assert_cmpfloat (sewing->place.along, ==, sewing->target.along);
          continue;
        }
      g_assert_cmpuint (pf_edge_lines_find (lines, sewing->place), ==, l);
      look->got.n++;
      look->got.distance += sewing->distance;
      used[sewing->pinhole]++;
      look->most = MAX (look->most, used[sewing->pinhole]);
    }
}

/* Do sewings of a stretch of cloth stitch without pinholes go into pinholes of others? */
static bool
takes_in_others (const Filled *f, const GArray *lines, size_t loop)
{
  for (size_t s = 0; s < f->filling->n_sewings; s++)
    {
      const PfSewing *sewing = &f->filling->sewings[s];
      const PfEdgeLine *line =
          &g_array_index (lines, PfEdgeLine, pf_edge_lines_find (lines, sewing->target));
      if (line->loop == loop && line->kind == PF_EDGE_CLOTH_STITCH && line->n_pinholes == 0)
        return true;
    }
  return false;
}

/* True if the line is of cloth stitch and too full for two to a pinhole. */
static bool
check_line (const Filled *f, const GArray *lines, guint l)
{
  const PfEdgeLine *line = &g_array_index (lines, PfEdgeLine, l);
  g_autofree Look *look = g_new0 (Look, 1);
  if (line->closed || line->n_pinholes == 0 || takes_in_others (f, lines, line->loop))
    return false;
  look_at_line (f, lines, l, look);
  const bool cloth = line->kind == PF_EDGE_CLOTH_STITCH;
  const int n_pinholes = (int) line->n_pinholes;
  const int raised = (look->n_targets + n_pinholes - 1) / n_pinholes;
  const int limit = cloth ? MAX (2, raised) : 2;
  g_assert_cmpint (look->most, <=, limit);
  for (int p = 0; p < n_pinholes; p++)
    for (int n = 0; n < limit; n++)
      look->places[look->n_places++] = line->pinholes[p];
  qsort (look->targets, (size_t) look->n_targets, sizeof (double), compare_doubles);
  const Best best = best_in_order (look->targets, look->n_targets, look->places, look->n_places,
                                   cloth ? INFINITY : f->settings.reach * line->gap);
  g_assert_cmpint (look->got.n, ==, best.n);
  g_assert_true (!cloth || best.n == look->n_targets);
  g_assert_cmpfloat (fabs (look->got.distance - best.distance), <, 1e-6);
  return cloth && limit > 2;
}

static void
test_fillings (void)
{
  int n_lines = 0;
  for (int trial = 0; trial < 150; trial++)
    {
      Filled f = start (PF_EDGE_HALF_STITCH, (size_t) trial % 3, trial % 4 == 0 ? 7 : 2);
      f.settings.reach = trial % 2 == 0 ? 0.25 : 1.5;
      random_stretches (&f);
      fill (&f);
      g_autoptr (GArray) lines = pf_edge_lines_new (f.region, f.edges);
      size_t n_crowded = 0;
      for (guint l = 0; l < lines->len; l++)
        n_crowded += check_line (&f, lines, l);
      size_t n_warned = 0;
      for (size_t w = 0; w < f.filling->n_warnings; w++)
        n_warned += f.filling->warnings[w].kind == PF_WARNING_CROWDED_EDGE;
      g_assert_cmpuint (n_warned, >=, n_crowded);
      n_lines += (int) lines->len;
      filled_clear (&f);
    }
  g_assert_cmpint (n_lines, >, 400); /* else this tests little */
}

/* Stretches that leave the loop of one kind give what that kind gives without them. */
static void
test_one_kind (void)
{
  for (int trial = 0; trial < 40; trial++)
    {
      const PfEdgeKind kind = (PfEdgeKind) g_test_rand_bit ();
      Filled f = start (kind, (size_t) trial % 3, 2);
      fill (&f);
      PfFilling *plain = f.filling;
      for (size_t l = 0; l < f.region->n_loops; l++)
        {
          const double length = pf_loop_length (&f.region->loops[l]);
          const double a = g_test_rand_double_range (0, length / 2);
          const double b = g_test_rand_double_range (length / 2, length);
          const PfEdgeStretch stretches[] = {
            { 0, 0, !kind }, { b, a, kind }, { 0, length, kind }, { a, b, kind }, { b, b, kind },
          };
          set_stretches (&f, l, stretches, G_N_ELEMENTS (stretches));
          f.edges[l].kind = trial % 2 == 0 ? kind : !kind;
        }
      fill (&f);
      assert_same_filling (plain, f.filling);
      g_assert_cmpuint (plain->n_warnings, ==, f.filling->n_warnings);
      for (size_t w = 0; w < plain->n_warnings; w++)
        g_assert_cmpstr (plain->warnings[w].text, ==, f.filling->warnings[w].text);
      pf_filling_free (plain);
      filled_clear (&f);
    }
}

/* A stretch of cloth stitch between two pinholes: what comes to it goes into the nearer of them,
 * however full, and the maker is told. */
static void
test_no_pinhole (void)
{
  static const PfPoint square[] = { { 0, 0 }, { 60, 0 }, { 60, 60 }, { 0, 60 } };
  const double pinholes[] = { 20, 40, 90 };
  const PfEdgeStretch stretch = { 21, 39, PF_EDGE_CLOTH_STITCH };
  Filled f = { .region = sample_polygon (square, 4),
               .ground = sample_ground ("torchon"),
               .settings = pf_filling_settings_default () };
  f.settings.placement.gap = 3;
  g_assert_true (pf_edge_init_given (&f.edges[0], &f.region->loops[0], PF_EDGE_HALF_STITCH, 2,
                                     pinholes, 3, NULL));
  set_stretches (&f, 0, &stretch, 1);
  fill (&f);
  size_t n = 0;
  for (size_t s = 0; s < f.filling->n_sewings; s++)
    {
      const PfSewing *sewing = &f.filling->sewings[s];
      const double target = sewing->target.along;
      if (target < 21 || target >= 39)
        continue;
      n++;
      g_assert_cmpuint (sewing->pinhole, ==, target <= 30 ? 0 : 1);
      g_assert_cmpfloat (fabs (sewing->distance - fabs (sewing->place.along - target)), <, 1e-9);
    }
  g_assert_cmpuint (n, >, 4);
  g_autofree char *said = g_strdup_printf (
      "%zu sewings come to the stretch of cloth stitch edge near (30.0, 0.0) mm, which has no "
      "pinhole: they go into the nearest pinhole beside it. Set a pinhole there, or choose half "
      "stitch.",
      n);
  g_assert_cmpuint (f.filling->n_warnings, ==, 1);
  g_assert_cmpint (f.filling->warnings[0].kind, ==, PF_WARNING_CROWDED_EDGE);
  g_assert_cmpstr (f.filling->warnings[0].text, ==, said);
  filled_clear (&f);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stretches/lines", test_lines);
  g_test_add_func ("/stretches/fillings", test_fillings);
  g_test_add_func ("/stretches/one-kind", test_one_kind);
  g_test_add_func ("/stretches/no-pinhole", test_no_pinhole);
  return g_test_run ();
}
