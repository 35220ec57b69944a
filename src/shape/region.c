/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Regions: loops that have been checked, with their grid. All checks are done before a region
 * exists, and nothing of it changes afterwards.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "outline-index.h"

typedef struct {
  PfLoop *loops;
  size_t n;
} Loops;

static void
loops_clear (Loops *loops)
{
  for (size_t i = 0; i < loops->n; i++)
    pf_loop_clear (&loops->loops[i]);
  g_clear_pointer (&loops->loops, g_free);
  loops->n = 0;
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Loops, loops_clear)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfOutlineIndex, pf_outline_index_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfRegion, pf_region_free)

static bool
loops_init (Loops *loops, const PfChain *chains, size_t n, GError **error)
{
  loops->loops = g_new0 (PfLoop, MAX (n, 1));
  for (loops->n = 0; loops->n < n; loops->n++)
    if (!pf_loop_init (&loops->loops[loops->n], &chains[loops->n], error))
      return false;
  return true;
}

/* A region of loops that are known to fit together; it takes their memory. */
static PfRegion *
region_from_loops (Loops *loops, GError **error)
{
  PfRegion *region = g_new0 (PfRegion, 1);

  region->n_loops = loops->n;
  region->loops = g_steal_pointer (&loops->loops);
  loops->n = 0;
  region->index = pf_outline_index_new (region->loops, region->n_loops, error);
  if (!region->index)
    {
      pf_region_free (region);
      return NULL;
    }
  region->box = region->index->box;
  return region;
}

static bool
check_holes (const PfRegion *region, GError **error)
{
  g_autofree PfNest *nests = pf_nesting_new (region->loops, region->n_loops);

  for (size_t i = 1; i < region->n_loops; i++)
    if (nests[i].parent != 0 || nests[i].depth != 1)
      {
        const PfPoint at = region->loops[i].points[0];

        g_set_error (
            error, PF_ERROR, PF_ERROR_OUTLINE,
            nests[i].depth > 1
                ? _ ("The hole at (%.2f, %.2f) mm lies within another hole. Remove one of them.")
                : _ ("The hole at (%.2f, %.2f) mm isn't inside the outline. Move it inside, or "
                     "remove it."),
            at.x, at.y);
        pf_error_set_place (error, at);
        return false;
      }
  return true;
}

PfRegion *
pf_region_new (const PfChain *chains, size_t n_chains, GError **error)
{
  g_auto (Loops) loops = { NULL, 0 };

  if (n_chains == 0)
    {
      g_set_error_literal (error, PF_ERROR, PF_ERROR_OUTLINE,
                           _ ("There is no outline. Draw a closed line round the space to fill."));
      return NULL;
    }
  if (!loops_init (&loops, chains, n_chains, error))
    return NULL;
  g_autoptr (PfRegion) region = region_from_loops (&loops, error);
  if (!region || !pf_outline_check (region->index, error) || !check_holes (region, error))
    return NULL;
  return g_steal_pointer (&region);
}

void
pf_region_free (PfRegion *region)
{
  if (!region)
    return;
  Loops loops = { region->loops, region->n_loops };
  loops_clear (&loops);
  pf_outline_index_free (region->index);
  g_free (region);
}

/* The region of loop `outer` and the holes next within it, in the order of the loops. */
static PfRegion *
take_region (Loops *all, size_t outer, const size_t *holes, size_t n_holes, GError **error)
{
  g_auto (Loops) loops = { g_new0 (PfLoop, n_holes + 1), 0 };

  loops.loops[loops.n++] = all->loops[outer];
  memset (&all->loops[outer], 0, sizeof (PfLoop));
  for (size_t k = 0; k < n_holes; k++)
    {
      loops.loops[loops.n++] = all->loops[holes[k]];
      memset (&all->loops[holes[k]], 0, sizeof (PfLoop));
    }
  return region_from_loops (&loops, error);
}

static bool
check_together (const Loops *loops, GError **error)
{
  g_autoptr (PfOutlineIndex) index = pf_outline_index_new (loops->loops, loops->n, error);

  return index && pf_outline_check (index, error);
}

GPtrArray *
pf_regions_from_chains (const PfChain *chains, size_t n_chains, size_t **owners, GError **error)
{
  g_auto (Loops) loops = { NULL, 0 };
  g_autoptr (GPtrArray) regions = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_region_free);
  g_autofree size_t *outers = g_new0 (size_t, MAX (n_chains, 1));

  if (!loops_init (&loops, chains, n_chains, error) ||
      (n_chains > 0 && !check_together (&loops, error)))
    return NULL;

  const size_t n = loops.n;
  g_autofree PfNest *nests = pf_nesting_new (loops.loops, n);
  g_autofree size_t *holes = g_new (size_t, MAX (n, 1));
  for (size_t i = 0; i < n; i++)
    {
      size_t n_holes = 0;

      if (nests[i].depth % 2 != 0)
        continue;
      for (size_t j = 0; j < n; j++)
        if (nests[j].parent == i)
          holes[n_holes++] = j;
      PfRegion *region = take_region (&loops, i, holes, n_holes, error);
      if (!region)
        return NULL;
      outers[regions->len] = i;
      g_ptr_array_add (regions, region);
    }
  if (owners)
    *owners = g_steal_pointer (&outers);
  return g_steal_pointer (&regions);
}

double
pf_region_area (const PfRegion *region)
{
  double area = 0;

  for (size_t i = 0; i < region->n_loops; i++)
    {
      const double loop = fabs (pf_chain_area (region->loops[i].points, region->loops[i].n_points));

      area += i == 0 ? loop : -loop;
    }
  return area;
}

/* The last point of the loop that isn't farther along than `along`. */
static size_t
edge_at (const PfLoop *loop, double along)
{
  size_t low = 0, high = loop->n_points;

  while (high - low > 1)
    {
      const size_t middle = low + (high - low) / 2;

      if (loop->along[middle] <= along)
        low = middle;
      else
        high = middle;
    }
  return low;
}

PfPoint
pf_region_point (const PfRegion *region, PfPlace place)
{
  const PfLoop *loop = &region->loops[place.loop];
  const size_t edge = edge_at (loop, place.along), next = edge + 1 < loop->n_points ? edge + 1 : 0;
  const PfPoint a = loop->points[edge], b = loop->points[next];
  const double u = (place.along - loop->along[edge]) / (loop->along[edge + 1] - loop->along[edge]);

  return (PfPoint){ a.x + u * (b.x - a.x), a.y + u * (b.y - a.y) };
}

PfPoint
pf_region_direction (const PfRegion *region, PfPlace place)
{
  const PfLoop *loop = &region->loops[place.loop];
  const size_t edge = edge_at (loop, place.along), next = edge + 1 < loop->n_points ? edge + 1 : 0;
  const PfPoint a = loop->points[edge], b = loop->points[next];
  const double length = loop->along[edge + 1] - loop->along[edge];

  return (PfPoint){ (b.x - a.x) / length, (b.y - a.y) / length };
}
