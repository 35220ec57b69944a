/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Close-ups: wherever two threads cross, one of them has a gap, and it is the one that passes under
 * (a cross: left over right; a twist: right over left; Jo Edkins, lace school web pages).
 */
#include <math.h>
#include <string.h>

#include <close-up.h>

#include "samples.h"

static PfFilling *
fill (const PfRegion *region, const PfGround *ground, PfPlacement placement)
{
  PfEdge edge;
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = placement;
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 3, &error));
  PfFilling *filling = pf_filling_new (region, &edge, ground, &settings, &error);
  g_assert_no_error (error);
  pf_edge_clear (&edge);
  return filling;
}

/* --- Which thread has the gap -------------------------------------------------------------------
 */

typedef struct {
  const char *name, *work;
  bool mirror;
  int strands[4]; /* of the threads, from the left as they come in */
} Word;

/* One stitch alone. Every gap makes one strand more. In a mirrored ground the maker still works
 * left over right, so of the ground's own threads the others pass under. */
static const Word words[] = {
  { "cross", "c", false, { 1, 1, 2, 1 } },
  { "twist", "t", false, { 2, 1, 2, 1 } },
  { "cross and twist", "ct", false, { 2, 2, 2, 1 } },
  { "cross, mirrored", "c", true, { 1, 2, 1, 1 } },
  { "twist, mirrored", "t", true, { 1, 2, 1, 2 } },
  { "cloth stitch", "ctc", false, { 2, 2, 2, 2 } },
};

static void
test_word (gconstpointer data)
{
  const Word *word = data;
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  g_free (ground->stitches[0].work);
  ground->stitches[0].work = g_strdup (word->work);
  static const PfPoint square[] = { { -4, -4 }, { 4, -4 }, { 4, 4 }, { -4, 4 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  const PfPlacement placement = { .gap = 10, .mirror = word->mirror };
  g_autoptr (PfFilling) filling = fill (region, ground, placement);
  g_assert_cmpuint (filling->n_stitches, ==, 1);
  g_autoptr (PfLaid) laid = pf_laid_new (filling, ground, 0);
  g_autoptr (PfCloseUp) close_up = pf_close_up_part (laid, region->box);
  int strands[4] = { 0 };
  for (size_t s = 0; s < close_up->n_strands; s++)
    for (int place = 0; place < 4; place++)
      strands[place] += laid->threads->in[place / 2][place % 2] == close_up->strands[s].thread;
  for (int place = 0; place < 4; place++)
    g_assert_cmpint (strands[place], ==, word->strands[place]);
}

/* --- No two strands cross -----------------------------------------------------------------------
 */

enum { PARTS = 12 }; /* straight pieces of a curve */

typedef struct {
  PfPoint a, b;
  size_t strand;
} Piece;

static PfPoint
on_curve (const PfPoint *p, double t)
{
  const double s = 1 - t;
  const double k[4] = { s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t };
  PfPoint at = { 0, 0 };
  for (int n = 0; n < 4; n++)
    at = (PfPoint){ at.x + k[n] * p[n].x, at.y + k[n] * p[n].y };
  return at;
}

static GArray *
pieces_of (const PfCloseUp *close_up)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
  for (size_t s = 0; s < close_up->n_strands; s++)
    for (size_t c = 0; c < close_up->strands[s].n_curves; c++)
      for (int part = 0; part < PARTS; part++)
        {
          const PfPoint *p = close_up->points + close_up->strands[s].first + 3 * c;
          const Piece piece = { on_curve (p, (double) part / PARTS),
                                on_curve (p, (double) (part + 1) / PARTS), s };
          g_array_append_val (pieces, piece);
        }
  return pieces;
}

static double
side_of (PfPoint a, PfPoint b, PfPoint p)
{
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static bool
cross (const Piece *p, const Piece *q)
{
  return side_of (p->a, p->b, q->a) * side_of (p->a, p->b, q->b) < 0 &&
         side_of (q->a, q->b, p->a) * side_of (q->a, q->b, p->b) < 0;
}

static int
compare_x (gconstpointer a, gconstpointer b)
{
  const double p = fmin (((const Piece *) a)->a.x, ((const Piece *) a)->b.x);
  const double q = fmin (((const Piece *) b)->a.x, ((const Piece *) b)->b.x);
  return (p > q) - (p < q);
}

static int
count_crossings (const PfCloseUp *close_up)
{
  g_autoptr (GArray) pieces = pieces_of (close_up);
  int n = 0;
  g_array_sort (pieces, compare_x);
  for (guint i = 0; i < pieces->len; i++)
    {
      const Piece *p = &g_array_index (pieces, Piece, i);
      const double last = fmax (p->a.x, p->b.x);
      for (guint j = i + 1; j < pieces->len; j++)
        {
          const Piece *q = &g_array_index (pieces, Piece, j);
          if (fmin (q->a.x, q->b.x) > last)
            break;
          n += p->strand != q->strand && cross (p, q);
        }
    }
  return n;
}

/* The middle of a large filling, away from its edge, where sewn pairs may lie on one another. */
static void
test_no_crossings (gconstpointer name)
{
  g_autoptr (PfGround) ground = sample_ground (name);
  static const PfPoint square[] = { { -60, -60 }, { 60, -60 }, { 60, 60 }, { -60, 60 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  const PfPlacement placement = { .gap = 5 };
  g_autoptr (PfFilling) filling = fill (region, ground, placement);
  g_autoptr (PfLaid) laid = pf_laid_new (filling, ground, 0);
  const PfBox box = { { -20, -20 }, { 20, 20 } };
  g_autoptr (PfCloseUp) close_up = pf_close_up_part (laid, box);
  g_assert_cmpuint (close_up->n_strands, >, 100);
  g_assert_cmpfloat (close_up->thickness, >, 0.01);
  g_assert_cmpint (count_crossings (close_up), ==, 0);
}

/* Thread no thicker than asked for, and thinner where it finds no room. */
static void
test_thickness (void)
{
  g_autoptr (PfGround) ground = sample_ground ("torchon");
  static const PfPoint square[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 } };
  g_autoptr (PfRegion) region = sample_polygon (square, 4);
  const PfPlacement placement = { .gap = 5 };
  g_autoptr (PfFilling) filling = fill (region, ground, placement);
  g_autoptr (PfLaid) widest = pf_laid_new (filling, ground, 0);
  g_autoptr (PfLaid) thin = pf_laid_new (filling, ground, 0.05);
  g_autoptr (PfLaid) thick = pf_laid_new (filling, ground, 3);
  g_assert_cmpfloat (thin->thickness, ==, 0.05);
  g_assert_cmpfloat (widest->thickness, >, 0.05);
  g_assert_cmpfloat (thick->thickness, ==, widest->thickness);
  g_autoptr (PfCloseUp) close_up = pf_close_up_part (thin, region->box);
  g_assert_cmpfloat (close_up->thickness, ==, 0.05);
}

/* --- Parts ------------------------------------------------------------------------------------
 */

/* How much thread lies in the box, mm, and of which threads (2 · pair + side), one or all (-1). */
static double
length_in (const PfCloseUp *close_up, PfBox box, int thread)
{
  double length = 0;
  g_autoptr (GArray) pieces = pieces_of (close_up);
  for (guint i = 0; i < pieces->len; i++)
    {
      const Piece *p = &g_array_index (pieces, Piece, i);
      const PfPoint m = { (p->a.x + p->b.x) / 2, (p->a.y + p->b.y) / 2 };
      if (m.x > box.min.x && m.x < box.max.x && m.y > box.min.y && m.y < box.max.y &&
          (thread < 0 || (int) close_up->strands[p->strand].thread == thread))
        length += hypot (p->b.x - p->a.x, p->b.y - p->a.y);
    }
  return length;
}

/* A part shows what the whole shows there, also one so small that no stitch lies in it; and each
 * pair's two threads lie in it as they do in the whole. */
static void
test_parts (gconstpointer name)
{
  g_autoptr (PfGround) ground = sample_ground (name);
  static const PfPoint corners[] = { { -20, -16 }, { 3, -22 }, { 21, 14 }, { -12, 19 } };
  g_autoptr (PfRegion) region = sample_polygon (corners, 4);
  const PfPlacement placement = { .gap = 5, .turn = 20 };
  g_autoptr (PfFilling) filling = fill (region, ground, placement);
  g_autoptr (PfLaid) laid = pf_laid_new (filling, ground, 0);
  g_autoptr (PfCloseUp) whole = pf_close_up_part (laid, (PfBox){ { -99, -99 }, { 99, 99 } });
  double seen = 0;
  for (int n = 0; n < 40; n++)
    {
      const double side = n % 4 == 0 ? 12 : 0.7;
      const PfPoint at = { g_test_rand_double_range (-16, 16), g_test_rand_double_range (-16, 16) };
      const PfBox box = { at, { at.x + side, at.y + side } };
      g_autoptr (PfCloseUp) part = pf_close_up_part (laid, box);
      const double length = length_in (part, box, -1);
      g_assert_cmpfloat_with_epsilon (length, length_in (whole, box, -1), 1e-9);
      g_assert_cmpuint (part->n_points, <=, whole->n_points);
      seen += side < 1 ? length : 0;
      const guint32 pair = (guint32) g_test_rand_int_range (0, (int) filling->n_pairs);
      g_autoptr (PfCloseUp) two = pf_close_up_pair (laid, box, pair);
      for (size_t s = 0; s < two->n_strands; s++)
        g_assert_cmpuint (two->strands[s].thread / 2, ==, pair);
      for (int side_of_pair = 0; side_of_pair < 2; side_of_pair++)
        g_assert_cmpfloat_with_epsilon (length_in (two, box, 2 * (int) pair + side_of_pair),
                                        length_in (whole, box, 2 * (int) pair + side_of_pair),
                                        1e-9);
    }
  g_assert_cmpfloat (seen, >, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (size_t w = 0; w < G_N_ELEMENTS (words); w++)
    {
      g_autofree char *path = g_strdup_printf ("/close-up/word/%s", words[w].name);
      g_test_add_data_func (path, &words[w], test_word);
    }
  g_auto (GStrv) names = pf_ground_names ();
  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *path = g_strdup_printf ("/close-up/no-crossings/%s", *name);
      g_test_add_data_func_full (path, g_strdup (*name), test_no_crossings, g_free);
    }
  static const char *const in_parts[] = { "torchon", "armure", "valenciennes-square" };
  for (size_t n = 0; n < G_N_ELEMENTS (in_parts); n++)
    {
      g_autofree char *path = g_strdup_printf ("/close-up/parts/%s", in_parts[n]);
      g_test_add_data_func (path, in_parts[n], test_parts);
    }
  g_test_add_func ("/close-up/thickness", test_thickness);
  return g_test_run ();
}
