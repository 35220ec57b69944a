/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which sewing goes into which pinhole.
 *
 * A matching of greatest weight between sewings and places (each pinhole several times over): first
 * as many sewings at pinholes as can be, then the least total distance. A sewing is offered only
 * the pinholes near it. On a cloth stitch edge, where a crowd may push it farther, the prices tell
 * whether a pinhole beyond could have served better: a sewing's price at or above what the nearest
 * pinhole not offered is worth to it proves that none could. Else it is offered twice as far.
 */
#include "filling-private.h"
#include "matching.h"

#include <math.h>
#include <stdlib.h>

/* Reach holds with this many mm to spare. */
#define REACH_SLACK 1e-6
/* Distances are weighed in whole millionths of a thousandth of a mm, finer than any sum of them can
 * show. */
#define UNITS_PER_MM 1e9
/* Places offered to sewings, all told: about a quarter of a gigabyte. Only an edge with far too few
 * pinholes needs more. */
#define MAX_OFFERS 8000000

typedef struct {
  PfPlacing *placings;
  size_t n;
  const PfLoop *loop;
  const PfEdge *edge;
  int limit;
  double *offered; /* per sewing: how far the pinholes it is offered may be, mm */
} Problem;

static int
compare_targets (const void *a, const void *b)
{
  const PfPlacing *p = a, *q = b;
  if (p->target < q->target || p->target > q->target)
    return p->target < q->target ? -1 : 1;
  if (p->from < q->from || p->from > q->from)
    return p->from < q->from ? -1 : 1;
  return (p->sewing > q->sewing) - (p->sewing < q->sewing);
}

static void
offer_pinhole (const Problem *problem, size_t pinhole, double distance, GArray *partners,
               GArray *weights)
{
  const PfWeight weight = { { 1, -(gint64) llround (distance * UNITS_PER_MM), 0 } };
  for (int n = 0; n < problem->limit; n++)
    {
      const guint32 place = (guint32) pinhole * (guint32) problem->limit + (guint32) n;
      g_array_append_val (partners, place);
      g_array_append_val (weights, weight);
    }
}

/* Offers a sewing every pinhole within its distance: on from its target, then back from it. */
static void
offer_near (const Problem *problem, size_t sewing, GArray *partners, GArray *weights)
{
  const double *pinholes = problem->edge->pinholes;
  const size_t n = problem->edge->n_pinholes;
  const double target = problem->placings[sewing].target;
  size_t low = 0, high = n;
  while (low < high)
    {
      const size_t middle = low + (high - low) / 2;
      if (pinholes[middle] < target)
        low = middle + 1;
      else
        high = middle;
    }
  size_t onward = 0, back = 1;
  for (; onward < n; onward++)
    {
      const size_t pinhole = (low + onward) % n;
      const double distance = pf_loop_distance (problem->loop, target, pinholes[pinhole]);
      if (distance > problem->offered[sewing])
        break;
      offer_pinhole (problem, pinhole, distance, partners, weights);
    }
  for (; onward + back <= n; back++)
    {
      const size_t pinhole = (low + n - back) % n;
      const double distance = pf_loop_distance (problem->loop, target, pinholes[pinhole]);
      if (distance > problem->offered[sewing])
        break;
      offer_pinhole (problem, pinhole, distance, partners, weights);
    }
}

/* Offers more to each sewing that a pinhole beyond its distance might have served better. True if
 * there was one. */
static bool
offer_more (Problem *problem, const PfMatching *matching)
{
  const double farthest = pf_loop_length (problem->loop) / 2;
  bool more = false;
  for (size_t s = 0; s < problem->n; s++)
    {
      const PfWeight beyond = { { 1, -(gint64) llround (problem->offered[s] * UNITS_PER_MM), 0 } };
      if (problem->offered[s] >= farthest || !pf_weight_less (matching->left_price[s], beyond))
        continue;
      problem->offered[s] *= 2;
      more = true;
    }
  return more;
}

/* False if it would take too much memory. */
static bool
solve (Problem *problem, PfMatching *matching)
{
  g_autoptr (GArray) first = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) partners = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) weights = g_array_new (FALSE, FALSE, sizeof (PfWeight));
  for (size_t s = 0; s < problem->n && partners->len <= MAX_OFFERS; s++)
    {
      g_array_append_val (first, partners->len);
      offer_near (problem, s, partners, weights);
    }
  if (partners->len > MAX_OFFERS)
    return false;
  g_array_append_val (first, partners->len);
  const PfMatchGraph graph = {
    .n_left = (guint32) problem->n,
    .n_right = (guint32) problem->edge->n_pinholes * (guint32) problem->limit,
    .first = (const guint32 *) (const void *) first->data,
    .partners = (const guint32 *) (const void *) partners->data,
    .weights = (const PfWeight *) (const void *) weights->data,
  };
  pf_matching_solve (&graph, matching);
  return true;
}

/* A sewing or a pinhole on the loop unrolled to a line. */
typedef struct {
  double at;
  guint32 number;
} Unrolled;

static int
compare_unrolled (const void *a, const void *b)
{
  const Unrolled *p = a, *q = b;
  if (p->at < q->at || p->at > q->at)
    return p->at < q->at ? -1 : 1;
  return (p->number > q->number) - (p->number < q->number);
}

/* How far on (positive) or back the pinhole is from the target, the shorter way. */
static double
signed_distance (const PfLoop *loop, double target, double pinhole)
{
  const double forward = pf_loop_forward (loop, target, pinhole);
  return forward <= pf_loop_length (loop) / 2 ? forward : forward - pf_loop_length (loop);
}

/* Exchanges pinholes until they stand in the order of the targets. On the unrolled loop, three
 * times round so that its start doesn't matter, the n-th target takes the n-th pinhole; that never
 * makes the total distance longer. */
static void
put_in_order (Problem *problem)
{
  g_autoptr (GArray) targets = g_array_new (FALSE, FALSE, sizeof (Unrolled));
  g_autoptr (GArray) pinholes = g_array_new (FALSE, FALSE, sizeof (Unrolled));
  const double length = pf_loop_length (problem->loop);
  for (int round = -1; round <= 1; round++)
    for (size_t s = 0; s < problem->n; s++)
      {
        const PfPlacing *placing = &problem->placings[s];
        if (placing->pinhole == PF_NONE)
          continue;
        const Unrolled target = { placing->target + round * length, (guint32) s };
        const double way = signed_distance (problem->loop, placing->target,
                                            problem->edge->pinholes[placing->pinhole]);
        const Unrolled pinhole = { target.at + way, placing->pinhole };
        g_array_append_val (targets, target);
        g_array_append_val (pinholes, pinhole);
      }
  g_array_sort (pinholes, compare_unrolled);
  for (guint t = targets->len / 3; t < targets->len / 3 * 2; t++)
    {
      PfPlacing *placing = &problem->placings[g_array_index (targets, Unrolled, t).number];
      placing->pinhole = g_array_index (pinholes, Unrolled, t).number;
      placing->distance = pf_loop_distance (problem->loop, placing->target,
                                            problem->edge->pinholes[placing->pinhole]);
    }
}

bool
pf_assign_places (PfPlacing *placings, size_t n, const PfLoop *loop, const PfEdge *edge, int limit,
                  double reach)
{
  if (n == 0)
    return true;
  qsort (placings, n, sizeof *placings, compare_targets);
  g_autofree double *offered = g_new (double, n);
  Problem problem = { placings, n, loop, edge, limit, offered };
  const bool bars = edge->kind == PF_EDGE_HALF_STITCH;
  for (size_t s = 0; s < n; s++)
    offered[s] = bars ? reach + REACH_SLACK : 2 * edge->gap;
  PfMatching matching;
  if (!solve (&problem, &matching))
    return false;
  while (!bars && offer_more (&problem, &matching))
    {
      pf_matching_clear (&matching);
      if (!solve (&problem, &matching))
        return false;
    }
  for (size_t s = 0; s < n; s++)
    {
      const guint32 place = matching.of_left[s];
      placings[s].pinhole = place == PF_NONE ? PF_NONE : place / (guint32) limit;
      placings[s].distance = 0;
    }
  pf_matching_clear (&matching);
  put_in_order (&problem);
  return true;
}
