/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which leaving pair becomes which entering one.
 *
 * A pair that leaves may come back where another enters if it is there early enough and near enough
 * along the edge, or at any distance if both lines belong to one missing place, where it is turned.
 * The best choice reuses the most pairs, turns the most of them, carries them the least distance,
 * and lets first in who leaves first: a matching of greatest weight, with these as the parts of the
 * weight. Crossings for which the maker chose stand apart from it, but keep their ranks.
 */
#include "filling-private.h"
#include "matching.h"

#include <math.h>
#include <stdlib.h>

/* Limits along the outline hold with this many mm to spare. */
#define DISTANCE_SLACK 1e-6
/* Distances are weighed in whole millionths of a mm. */
#define UNITS_PER_MM 1e6

/* A crossing as the matching sees it. */
typedef struct {
  guint32 crossing;
  gint64 rounded_time, rounded_x; /* of its stitch */
  double time;
  int stitch; /* its place in the ground's file */
  PfSide side;
} Ranked;

/* An entering crossing that shares a missing place. */
typedef struct {
  PfStitchId place;
  guint32 rank;
} AtPlace;

typedef struct {
  const PfFilling *filling;
  const PfRegion *region;
  const PfGround *ground;
  double limit;               /* mm along the outline */
  Ranked *leaving, *entering; /* by rank */
  guint32 n_leaving, n_entering;
  guint32 *rank;       /* per crossing: its rank among its kind, from 0 */
  guint32 *outline;    /* the entering crossings in outline order, without those chosen ... */
  guint32 *loop_first; /* ... with those of loop l from outline[loop_first[l]] */
  AtPlace *at_place;   /* sorted by place */
  guint32 n_at_place;
  GArray *first, *partners, *weights; /* the graph */
} Problem;

static int
compare_ranked (const void *a, const void *b)
{
  const Ranked *p = a, *q = b;
  if (p->rounded_time != q->rounded_time)
    return p->rounded_time < q->rounded_time ? -1 : 1;
  if (p->rounded_x != q->rounded_x)
    return p->rounded_x < q->rounded_x ? -1 : 1;
  if (p->stitch != q->stitch)
    return p->stitch - q->stitch;
  return (int) p->side - (int) q->side;
}

static Ranked
ranked_crossing (const Problem *problem, guint32 c)
{
  const PfCrossing *crossing = &problem->filling->crossings[c];
  const PfStitchId id = problem->filling->stitches[crossing->stitch].id;
  const double time = pf_ground_time (problem->ground, id.k, id.i, id.j);
  const double x = pf_ground_position (problem->ground, id.k, id.i, id.j).x;
  return (Ranked){ c, pf_round_time (time), pf_round_time (x), time, id.k, crossing->side };
}

static void
rank_crossings (Problem *problem)
{
  const PfFilling *filling = problem->filling;
  problem->leaving = g_new (Ranked, filling->n_crossings);
  problem->entering = g_new (Ranked, filling->n_crossings);
  problem->rank = g_new (guint32, filling->n_crossings);
  for (guint32 c = 0; c < filling->n_crossings; c++)
    if (filling->crossings[c].leaves)
      problem->leaving[problem->n_leaving++] = ranked_crossing (problem, c);
    else
      problem->entering[problem->n_entering++] = ranked_crossing (problem, c);
  if (problem->n_leaving > 0)
    qsort (problem->leaving, problem->n_leaving, sizeof (Ranked), compare_ranked);
  if (problem->n_entering > 0)
    qsort (problem->entering, problem->n_entering, sizeof (Ranked), compare_ranked);
  for (guint32 r = 0; r < problem->n_leaving; r++)
    problem->rank[problem->leaving[r].crossing] = r;
  for (guint32 r = 0; r < problem->n_entering; r++)
    problem->rank[problem->entering[r].crossing] = r;
}

static void
list_outline (Problem *problem)
{
  const PfFilling *filling = problem->filling;
  problem->outline = g_new (guint32, problem->n_entering);
  problem->loop_first = g_new0 (guint32, problem->region->n_loops + 1);
  guint32 n = 0;
  for (guint32 c = 0; c < filling->n_crossings; c++)
    if (!filling->crossings[c].leaves && !filling->crossings[c].chosen)
      {
        problem->outline[n++] = c;
        problem->loop_first[filling->crossings[c].place.loop + 1]++;
      }
  for (size_t l = 0; l < problem->region->n_loops; l++)
    problem->loop_first[l + 1] += problem->loop_first[l];
}

/* The missing place of a crossing: the first stitch at that position, in its repeat. */
static PfStitchId
missing_place (const Problem *problem, const PfCrossing *crossing)
{
  PfStitchId place = crossing->missing;
  place.k = problem->ground->stitches[place.k].place;
  return place;
}

static int
compare_places (PfStitchId a, PfStitchId b)
{
  if (a.k != b.k)
    return a.k - b.k;
  return a.j != b.j ? a.j - b.j : a.i - b.i;
}

static int
compare_at_place (const void *a, const void *b)
{
  const AtPlace *p = a, *q = b;
  const int order = compare_places (p->place, q->place);
  return order != 0 ? order : (p->rank > q->rank) - (p->rank < q->rank);
}

static void
list_places (Problem *problem)
{
  problem->at_place = g_new (AtPlace, problem->n_entering);
  for (guint32 r = 0; r < problem->n_entering; r++)
    {
      const PfCrossing *crossing = &problem->filling->crossings[problem->entering[r].crossing];
      if (crossing->has_missing && !crossing->chosen)
        problem->at_place[problem->n_at_place++] =
            (AtPlace){ missing_place (problem, crossing), r };
    }
  if (problem->n_at_place > 0)
    qsort (problem->at_place, problem->n_at_place, sizeof (AtPlace), compare_at_place);
}

static bool
same_place (const Problem *problem, const PfCrossing *a, const PfCrossing *b)
{
  return a->has_missing && b->has_missing &&
         compare_places (missing_place (problem, a), missing_place (problem, b)) == 0;
}

/* Adds the line from leaving rank l to entering rank e, if time allows. */
static void
add_line (Problem *problem, guint32 l, guint32 e, double distance, bool turned)
{
  if (!(problem->leaving[l].time < problem->entering[e].time - PF_TIME_SLACK))
    return;
  const PfWeight weight = { { (G_GINT64_CONSTANT (1) << 32) + (turned ? 1 : 0),
                              -(gint64) llround (distance * UNITS_PER_MM),
                              (gint64) (l + 1) * (gint64) (e + 1) } };
  g_array_append_val (problem->partners, e);
  g_array_append_val (problem->weights, weight);
}

static double
distance_between (const Problem *problem, const PfCrossing *a, const PfCrossing *b)
{
  return pf_loop_distance (&problem->region->loops[a->place.loop], a->place.along, b->place.along);
}

/* Lines to the crossings that share the missing place of leaving rank l. */
static void
add_turns (Problem *problem, guint32 l)
{
  const PfCrossing *leaving = &problem->filling->crossings[problem->leaving[l].crossing];
  if (!leaving->has_missing)
    return;
  const PfStitchId place = missing_place (problem, leaving);
  guint32 low = 0, high = problem->n_at_place;
  while (low < high)
    {
      const guint32 middle = low + (high - low) / 2;
      if (compare_places (problem->at_place[middle].place, place) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  for (; low < problem->n_at_place && compare_places (problem->at_place[low].place, place) == 0;
       low++)
    {
      const guint32 e = problem->at_place[low].rank;
      const PfCrossing *entering = &problem->filling->crossings[problem->entering[e].crossing];
      if (entering->place.loop == leaving->place.loop)
        add_line (problem, l, e, distance_between (problem, leaving, entering), true);
    }
}

/* Adds a carry from leaving rank l to the entering crossing, unless it is too far. False when it
 * is. */
static bool
try_carry (Problem *problem, guint32 l, guint32 crossing)
{
  const PfFilling *filling = problem->filling;
  const PfCrossing *leaving = &filling->crossings[problem->leaving[l].crossing];
  const PfCrossing *entering = &filling->crossings[crossing];
  const double distance = distance_between (problem, leaving, entering);
  if (distance > problem->limit)
    return false;
  if (!same_place (problem, leaving, entering))
    add_line (problem, l, problem->rank[crossing], distance, false);
  return true;
}

/* Lines to the crossings near enough along the outline: on from the first at or after the leaving
 * one, then back from the one before it; each way ends at the first that is too far, and both
 * together pass no crossing twice. */
static void
add_carries (Problem *problem, guint32 l)
{
  const PfFilling *filling = problem->filling;
  const PfPlace at = filling->crossings[problem->leaving[l].crossing].place;
  const guint32 *near = problem->outline + problem->loop_first[at.loop];
  const guint32 n = problem->loop_first[at.loop + 1] - problem->loop_first[at.loop];
  guint32 low = 0, high = n;
  while (low < high)
    {
      const guint32 middle = low + (high - low) / 2;
      if (filling->crossings[near[middle]].place.along < at.along)
        low = middle + 1;
      else
        high = middle;
    }
  guint32 onward = 0;
  while (onward < n && try_carry (problem, l, near[(low + onward) % n]))
    onward++;
  for (guint32 back = 1; onward + back <= n; back++)
    if (!try_carry (problem, l, near[(low + n - back) % n]))
      break;
}

static void
build_graph (Problem *problem)
{
  problem->first = g_array_new (FALSE, FALSE, sizeof (guint32));
  problem->partners = g_array_new (FALSE, FALSE, sizeof (guint32));
  problem->weights = g_array_new (FALSE, FALSE, sizeof (PfWeight));
  for (guint32 l = 0; l < problem->n_leaving; l++)
    {
      g_array_append_val (problem->first, problem->partners->len);
      if (problem->filling->crossings[problem->leaving[l].crossing].chosen)
        continue;
      add_turns (problem, l);
      add_carries (problem, l);
    }
  g_array_append_val (problem->first, problem->partners->len);
}

/* Joins two crossings to one pair, and counts it. */
static void
join_crossings (PfFilling *filling, guint32 from, guint32 to, bool turned)
{
  PfCrossing *leaving = &filling->crossings[from], *entering = &filling->crossings[to];
  leaving->kind = entering->kind = turned ? PF_PAIR_TURNED : PF_PAIR_CARRIED;
  leaving->match = to;
  entering->match = from;
  filling->counts.reused++;
  filling->counts.turned += turned;
  filling->counts.carried += !turned;
}

static void
take_matching (const Problem *problem, const PfMatching *matching, PfFilling *filling)
{
  gint64 carried_units = 0;
  for (guint32 l = 0; l < problem->n_leaving; l++)
    {
      const guint32 from = problem->leaving[l].crossing;
      const PfCrossing *leaving = &filling->crossings[from];
      const guint32 to = matching->of_left[l] != PF_NONE
                             ? problem->entering[matching->of_left[l]].crossing
                             : leaving->match;
      if (to == PF_NONE)
        continue;
      const PfCrossing *entering = &filling->crossings[to];
      join_crossings (filling, from, to,
                      leaving->chosen || same_place (problem, leaving, entering));
      carried_units += llround (distance_between (problem, leaving, entering) * UNITS_PER_MM);
    }
  filling->counts.carry_mm = (double) carried_units / UNITS_PER_MM;
  filling->counts.leaving = problem->n_leaving;
  filling->counts.entering = problem->n_entering;
  filling->counts.new_pairs = problem->n_entering - filling->counts.reused;
  filling->counts.finished = problem->n_leaving - filling->counts.reused;
}

static void
problem_clear (Problem *problem)
{
  g_free (problem->leaving);
  g_free (problem->entering);
  g_free (problem->rank);
  g_free (problem->outline);
  g_free (problem->loop_first);
  g_free (problem->at_place);
  g_array_unref (problem->first);
  g_array_unref (problem->partners);
  g_array_unref (problem->weights);
}

void
pf_match_crossings (PfFilling *filling, const PfRegion *region, const PfGround *ground,
                    const PfFillingSettings *settings)
{
  Problem problem = {
    .filling = filling,
    .region = region,
    .ground = ground,
    .limit = settings->carry * settings->placement.gap + DISTANCE_SLACK,
  };
  rank_crossings (&problem);
  list_outline (&problem);
  list_places (&problem);
  build_graph (&problem);
  const PfMatchGraph graph = {
    .n_left = problem.n_leaving,
    .n_right = problem.n_entering,
    .first = (const guint32 *) (const void *) problem.first->data,
    .partners = (const guint32 *) (const void *) problem.partners->data,
    .weights = (const PfWeight *) (const void *) problem.weights->data,
  };
  PfMatching matching;
  pf_matching_solve (&graph, &matching);
  pf_matching_take_first (&graph, &matching);
  take_matching (&problem, &matching, filling);
  pf_matching_clear (&matching);
  problem_clear (&problem);
}
