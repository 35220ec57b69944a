/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which sewing goes into which pinhole.
 *
 * A matching of greatest weight between sewings and places (each pinhole as often as it has room):
 * first as many sewings at pinholes as can be, then the least total distance. A sewing is offered
 * only the pinholes near it. On a cloth stitch edge, where a crowd may push it farther, the prices
 * tell whether a pinhole beyond could have served better: a sewing's price at or above what the
 * nearest pinhole not offered is worth to it proves that none could. Else it is offered twice as
 * far.
 */
#include "matching.h"
#include "sewing-places.h"

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
  const PfEdgeLine *line;
  double *offered;      /* per sewing: how far the pinholes it is offered may be, mm */
  guint32 *first_place; /* per pinhole: its first place; then how many there are */
} Problem;

/* The distance along the line; of a closed one, the shorter way round. */
static double
distance_along (const PfEdgeLine *line, double a, double b)
{
  const double forward = fabs (b - a);
  return line->closed ? MIN (forward, line->length - forward) : forward;
}

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
  for (guint32 place = problem->first_place[pinhole]; place < problem->first_place[pinhole + 1];
       place++)
    {
      g_array_append_val (partners, place);
      g_array_append_val (weights, weight);
    }
}

/* Offers a sewing a pinhole if it is within its distance. False if it isn't. */
static bool
try_pinhole (const Problem *problem, size_t sewing, size_t pinhole, GArray *partners,
             GArray *weights)
{
  const double distance = distance_along (problem->line, problem->placings[sewing].target,
                                          problem->line->pinholes[pinhole]);
  if (distance > problem->offered[sewing])
    return false;
  offer_pinhole (problem, pinhole, distance, partners, weights);
  return true;
}

/* Offers a sewing every pinhole within its distance: on from its target, then back from it; round
 * and round if the line is closed, but none twice. */
static void
offer_near (const Problem *problem, size_t sewing, GArray *partners, GArray *weights)
{
  const PfEdgeLine *line = problem->line;
  const size_t n = line->n_pinholes;
  const double target = problem->placings[sewing].target;
  size_t low = 0, high = n;
  while (low < high)
    {
      const size_t middle = low + (high - low) / 2;
      if (line->pinholes[middle] < target)
        low = middle + 1;
      else
        high = middle;
    }
  const size_t most_onward = line->closed ? n : n - low;
  size_t onward = 0, back = 1;
  while (onward < most_onward &&
         try_pinhole (problem, sewing, (low + onward) % n, partners, weights))
    onward++;
  const size_t most_back = line->closed ? n - onward : low;
  while (back <= most_back &&
         try_pinhole (problem, sewing, (low + n - back) % n, partners, weights))
    back++;
}

/* Offers more to each sewing that a pinhole beyond its distance might have served better. True if
 * there was one. */
static bool
offer_more (Problem *problem, const PfMatching *matching)
{
  const double farthest = problem->line->closed ? problem->line->length / 2 : problem->line->length;
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
    .n_right = problem->first_place[problem->line->n_pinholes],
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
signed_distance (const PfEdgeLine *line, double target, double pinhole)
{
  double forward = pinhole - target;
  if (!line->closed)
    return forward;
  if (forward < 0)
    forward += line->length;
  if (forward >= line->length)
    forward -= line->length;
  return forward <= line->length / 2 ? forward : forward - line->length;
}

/* Exchanges pinholes until they stand in the order of the targets. On the line, or on the closed
 * line unrolled three times round so that its start doesn't matter, the n-th target takes the n-th
 * pinhole; that never makes the total distance longer. */
static void
put_in_order (Problem *problem)
{
  const PfEdgeLine *line = problem->line;
  g_autoptr (GArray) targets = g_array_new (FALSE, FALSE, sizeof (Unrolled));
  g_autoptr (GArray) pinholes = g_array_new (FALSE, FALSE, sizeof (Unrolled));
  const int rounds = line->closed ? 1 : 0;
  for (int round = -rounds; round <= rounds; round++)
    for (size_t s = 0; s < problem->n; s++)
      {
        const PfPlacing *placing = &problem->placings[s];
        if (placing->pinhole == PF_NONE)
          continue;
        const Unrolled target = { placing->target + round * line->length, (guint32) s };
        const double way =
            signed_distance (line, placing->target, line->pinholes[placing->pinhole]);
        const Unrolled pinhole = { target.at + way, placing->pinhole };
        g_array_append_val (targets, target);
        g_array_append_val (pinholes, pinhole);
      }
  g_array_sort (pinholes, compare_unrolled);
  const guint n = targets->len / (guint) (2 * rounds + 1), first = n * (guint) rounds;
  for (guint t = first; t < first + n; t++)
    {
      PfPlacing *placing = &problem->placings[g_array_index (targets, Unrolled, t).number];
      placing->pinhole = g_array_index (pinholes, Unrolled, t).number;
      placing->distance = distance_along (line, placing->target, line->pinholes[placing->pinhole]);
    }
}

/* The pinholes' places: the first of each, then their number; `pinhole_of` gets each one's pinhole.
 */
static guint32 *
number_places (const PfEdgeLine *line, guint32 **pinhole_of)
{
  guint32 *first = g_new (guint32, line->n_pinholes + 1);
  first[0] = 0;
  for (size_t p = 0; p < line->n_pinholes; p++)
    first[p + 1] = first[p] + line->room[p];
  *pinhole_of = g_new (guint32, first[line->n_pinholes]);
  for (guint32 p = 0; p < line->n_pinholes; p++)
    for (guint32 place = first[p]; place < first[p + 1]; place++)
      (*pinhole_of)[place] = p;
  return first;
}

/* Solves, and offers more until a wider choice couldn't be better. */
static bool
solve_all (Problem *problem, PfMatching *matching)
{
  if (!solve (problem, matching))
    return false;
  while (problem->line->kind == PF_EDGE_CLOTH_STITCH && offer_more (problem, matching))
    {
      pf_matching_clear (matching);
      if (!solve (problem, matching))
        return false;
    }
  return true;
}

bool
pf_assign_places (PfPlacing *placings, size_t n, const PfEdgeLine *line, double reach)
{
  if (n == 0)
    return true;
  qsort (placings, n, sizeof *placings, compare_targets);
  g_autofree double *offered = g_new (double, n);
  for (size_t s = 0; s < n; s++)
    offered[s] = line->kind == PF_EDGE_HALF_STITCH ? reach + REACH_SLACK : 2 * line->gap;
  g_autofree guint32 *pinhole_of = NULL;
  g_autofree guint32 *first_place = number_places (line, &pinhole_of);
  Problem problem = { placings, n, line, offered, first_place };
  PfMatching matching;
  if (!solve_all (&problem, &matching))
    return false;
  for (size_t s = 0; s < n; s++)
    {
      const guint32 place = matching.of_left[s];
      placings[s].pinhole = place == PF_NONE ? PF_NONE : pinhole_of[place];
      placings[s].distance = 0;
    }
  pf_matching_clear (&matching);
  put_in_order (&problem);
  return true;
}
