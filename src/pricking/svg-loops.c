/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The closed chains that are taken: each element's own interior first, by its fill rule, then every
 * loop once, however often it is drawn. What isn't taken goes to the background.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Loops are the same if all their points are this near, in mm. */
#define SAME 1e-6

/* Whether the chain isn't all on one line. One that crosses itself may bound as much on one hand as
 * on the other: it goes on to the check of regions, which says where it crosses. */
bool
pf_svg_chain_has_area (const PfChain *chain)
{
  const PfPoint start = chain->points[0];
  double around = 0, area = 0;
  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint a = chain->points[i], b = chain->points[(i + 1) % chain->n_points];
      around += hypot (b.x - a.x, b.y - a.y);
      area += fabs ((a.x - start.x) * (b.y - start.y) - (a.y - start.y) * (b.x - start.x)) / 2;
    }
  return area > PF_TOUCH * around;
}

static bool
is_same_point (PfPoint a, PfPoint b)
{
  return fabs (a.x - b.x) <= SAME && fabs (a.y - b.y) <= SAME;
}

/* Whether `b`, begun at its point `start` and read forward (step 1) or back (n - 1), is `a`. */
static bool
runs_alike (const PfChain *a, const PfChain *b, size_t start, size_t step)
{
  const size_t n = a->n_points;
  for (size_t i = 0, j = start; i < n; i++, j = (j + step) % n)
    if (!is_same_point (a->points[i], b->points[j]))
      return false;
  return true;
}

static bool
is_same_loop (const PfChain *a, const PfChain *b)
{
  const size_t n = a->n_points;
  for (size_t i = 0; i < n; i++)
    if (is_same_point (a->points[0], b->points[i]) &&
        (runs_alike (a, b, i, 1) || runs_alike (a, b, i, n - 1)))
      return true;
  return false;
}

static double
leftmost (const PfChain *chain)
{
  double left = chain->points[0].x;
  for (size_t i = 1; i < chain->n_points; i++)
    left = fmin (left, chain->points[i].x);
  return left;
}

/* What loops are sorted by, so that the same ones stand near one another. */
typedef struct {
  double left;
  size_t number;
  const PfChain *chain;
  bool repeat;
} Key;

static int
compare_keys (const void *a, const void *b)
{
  const Key *k = a, *l = b;
  if (k->chain->n_points != l->chain->n_points)
    return k->chain->n_points < l->chain->n_points ? -1 : 1;
  if (k->left != l->left)
    return k->left < l->left ? -1 : 1;
  return (k->number > l->number) - (k->number < l->number);
}

/* Marks the loops after keys[first] that are the same; of each set the first drawn remains. */
static void
mark_repeats (Key *keys, size_t n, size_t first, bool *repeats)
{
  for (size_t j = first + 1; j < n && keys[j].chain->n_points == keys[first].chain->n_points &&
                             keys[j].left - keys[first].left <= SAME;
       j++)
    if (!keys[j].repeat && is_same_loop (keys[first].chain, keys[j].chain))
      {
        keys[j].repeat = true;
        repeats[MAX (keys[first].number, keys[j].number)] = true;
        keys[first].number = MIN (keys[first].number, keys[j].number);
      }
}

/* Takes the loops from number `start` on that repeat another of these out of the array. */
static void
drop_repeats (PfSvgReader *reader, GArray *loops, guint start)
{
  const size_t n = loops->len - start;
  if (n < 2)
    return;
  PfSvgLoop *const all = &g_array_index (loops, PfSvgLoop, start);
  Key *const keys = g_new (Key, n);
  bool *const repeats = g_new0 (bool, n);
  for (size_t i = 0; i < n; i++)
    keys[i] = (Key){ leftmost (all[i].chain), i, all[i].chain, false };
  qsort (keys, n, sizeof *keys, compare_keys);
  for (size_t i = 0; i < n; i++)
    if (!keys[i].repeat)
      mark_repeats (keys, n, i, repeats);
  guint kept = start;
  for (size_t i = 0; i < n; i++)
    if (!repeats[i])
      g_array_index (loops, PfSvgLoop, kept++) = all[i];
    else
      pf_svg_remark (reader->remarks, all[i].shape->node,
                     _ ("the same outline is drawn before; it is taken once"));
  g_array_set_size (loops, kept);
  g_free (keys);
  g_free (repeats);
}

/* Under the nonzero rule, sends the loops that bound nothing to the background. */
static void
drop_unbounding (PfSvgReader *reader, GArray *loops, guint start, PfDrawing *drawing)
{
  const size_t n = loops->len - start;
  PfChain *const chains = g_new (PfChain, n);
  bool *const bounding = g_new0 (bool, n);
  for (size_t i = 0; i < n; i++)
    chains[i] = *g_array_index (loops, PfSvgLoop, start + i).chain;
  pf_svg_find_bounding (chains, n, bounding);
  guint kept = start;
  for (size_t i = 0; i < n; i++)
    {
      const PfSvgLoop loop = g_array_index (loops, PfSvgLoop, start + i);
      if (bounding[i])
        {
          g_array_index (loops, PfSvgLoop, kept++) = loop;
          continue;
        }
      pf_svg_add_background (drawing, loop.chain);
      pf_svg_remark (
          reader->remarks, loop.shape->node,
          _ ("a line within it makes no hole, as both run the same way round; for a hole set "
             "fill-rule to evenodd or turn one round"));
    }
  g_array_set_size (loops, kept);
  g_free (chains);
  g_free (bounding);
}

static void
add_shape (PfSvgReader *reader, const PfSvgShape *shape, GArray *loops, PfDrawing *drawing)
{
  const guint start = loops->len;
  for (size_t i = 0; i < shape->n_chains; i++)
    {
      const PfSvgLoop loop = { &shape->chains[i], shape->curves[i], shape };
      const bool has_area = pf_svg_chain_has_area (loop.chain);
      if (loop.chain->closed && has_area)
        {
          g_array_append_val (loops, loop);
          continue;
        }
      pf_svg_add_background (drawing, loop.chain);
      if (loop.chain->closed)
        pf_svg_remark (reader->remarks, shape->node,
                       _ ("a closed line without area is no outline; kept as background"));
    }
  if (loops->len < start + 2)
    return;
  drop_repeats (reader, loops, start);
  if (!shape->even_odd)
    drop_unbounding (reader, loops, start, drawing);
}

GArray *
pf_svg_loops (PfSvgReader *reader, PfDrawing *drawing)
{
  GArray *loops = g_array_new (FALSE, FALSE, sizeof (PfSvgLoop));
  for (guint i = 0; i < reader->shapes->len; i++)
    {
      const PfSvgShape *shape = &g_array_index (reader->shapes, PfSvgShape, i);
      if (pf_svg_is_pinhole (shape))
        continue;
      if (shape->picked && !shape->pinhole_layer)
        add_shape (reader, shape, loops, drawing);
      else
        for (size_t k = 0; k < shape->n_chains; k++)
          pf_svg_add_background (drawing, &shape->chains[k]);
    }
  drop_repeats (reader, loops, 0);
  return loops;
}
