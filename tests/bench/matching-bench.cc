/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Matchings of greatest weight as they come up along an outline, against MaxWeightedMatching of the
 * LEMON graph library (https://lemon.cs.elte.hu), on the same graphs with the same weights.
 */
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

#include <lemon/matching.h>
#include <lemon/smart_graph.h>

#include "bench.h"

extern "C" {
#include <matching.h>
}

namespace {

constexpr unsigned seed = 20240611;
constexpr int most_partners = 8;
constexpr int most_distance = 1000;
/* More than the distances of any matching here can sum up to. */
constexpr gint64 flat_unit = G_GINT64_CONSTANT (1) << 27;

struct Problem {
  guint32 n; /* on each side */
  std::vector<guint32> first, partners;
  std::vector<PfWeight> weights;

  PfMatchGraph
  graph () const
  {
    return { n, n, first.data (), partners.data (), weights.data () };
  }
};

/* Places along an outline, a whole number of units each, numbered in the order of their height on a
 * round one: as crossings are ranked by working time. */
std::vector<int>
random_places (std::mt19937 &random, guint32 n, int length)
{
  std::vector<int> places (n);
  for (int &place : places)
    place = (int) (random () % (unsigned) length);
  std::sort (places.begin (), places.end (), [length] (int a, int b) {
    return std::cos (2 * G_PI * a / length) < std::cos (2 * G_PI * b / length);
  });
  return places;
}

/* Each left node may have up to most_partners of the right nodes nearest to it, of which a part
 * come too early. */
Problem
make_problem (guint32 n)
{
  std::mt19937 random (seed);
  const int length = (int) n * 250;
  const std::vector<int> lefts = random_places (random, n, length),
                         rights = random_places (random, n, length);
  std::vector<guint32> outline (n);
  for (guint32 r = 0; r < n; r++)
    outline[r] = r;
  std::sort (outline.begin (), outline.end (),
             [&rights] (guint32 a, guint32 b) { return rights[a] < rights[b]; });

  Problem problem = { n, {}, {}, {} };
  for (guint32 l = 0; l < n; l++)
    {
      problem.first.push_back ((guint32) problem.partners.size ());
      const auto near =
          std::lower_bound (outline.begin (), outline.end (), lefts[l],
                            [&rights] (guint32 r, int place) { return rights[r] < place; });
      const long at = near - outline.begin ();
      for (long k = at - most_partners / 2; k < at + most_partners / 2; k++)
        {
          const guint32 r = outline[(size_t) ((k + (long) n) % (long) n)];
          const int apart = std::abs (lefts[l] - rights[r]);
          const int distance = std::min (apart, length - apart);
          const bool too_early = random () % 4 == 0, turned = random () % 8 == 0;
          if (distance > most_distance || too_early)
            continue;
          problem.partners.push_back (r);
          problem.weights.push_back (PfWeight{ { (1 << 16) + turned, -distance, 0 } });
        }
    }
  problem.first.push_back ((guint32) problem.partners.size ());
  return problem;
}

gint64
flat (const PfWeight &weight)
{
  return weight.part[0] * flat_unit + weight.part[1];
}

double
time_ours (const Problem &problem, gint64 &total)
{
  const PfMatchGraph graph = problem.graph ();
  PfMatching matching;
  const double start = bench_now ();
  pf_matching_solve (&graph, &matching);
  const double time = bench_now () - start;
  total = 0;
  for (guint32 l = 0; l < problem.n; l++)
    for (guint32 e = problem.first[l]; e < problem.first[l + 1]; e++)
      if (problem.partners[e] == matching.of_left[l])
        total += flat (problem.weights[e]);
  pf_matching_clear (&matching);
  return time;
}

double
time_lemon (const Problem &problem, gint64 &total)
{
  lemon::SmartGraph graph;
  graph.reserveNode ((int) problem.n * 2);
  graph.reserveEdge ((int) problem.partners.size ());
  for (guint32 node = 0; node < 2 * problem.n; node++)
    graph.addNode ();
  lemon::SmartGraph::EdgeMap<gint64> weights (graph);
  for (guint32 l = 0; l < problem.n; l++)
    for (guint32 e = problem.first[l]; e < problem.first[l + 1]; e++)
      weights[graph.addEdge (graph.nodeFromId ((int) l),
                             graph.nodeFromId ((int) (problem.n + problem.partners[e])))] =
          flat (problem.weights[e]);
  const double start = bench_now ();
  lemon::MaxWeightedMatching<lemon::SmartGraph, lemon::SmartGraph::EdgeMap<gint64> > matching (
      graph, weights);
  matching.run ();
  const double time = bench_now () - start;
  total = matching.matchingWeight ();
  return time;
}

struct Comparison {
  Problem problem;
  double ours[BENCH_RUNS], theirs[BENCH_RUNS];
  gint64 our_total, their_total;

  explicit Comparison (guint32 n_nodes) : problem (make_problem (n_nodes / 2))
  {
  }

  void
  run_once (int run)
  {
    ours[run] = time_ours (problem, our_total);
    theirs[run] = time_lemon (problem, their_total);
  }

  /* Returns our time, ms. */
  double
  report (double times_as_fast)
  {
    const double ms = bench_median (ours), lemon_ms = bench_median (theirs);
    std::printf ("%u nodes, %zu lines: %.3f ms, LEMON %.2f ms\n", 2 * problem.n,
                 problem.partners.size (), ms, lemon_ms);
    bench_at_most ("difference in total weight", std::fabs ((double) (our_total - their_total)), 0);
    bench_at_least ("times as fast as LEMON", lemon_ms / ms, times_as_fast);
    return ms;
  }
};

}

int
main ()
{
  Comparison small (10000), large (100000);
  for (int run = 0; run < BENCH_RUNS; run++)
    {
      small.run_once (run);
      large.run_once (run);
    }
  const double small_ms = small.report (4), large_ms = large.report (8);
  bench_at_most ("times as long for ten times the nodes", large_ms / small_ms, 13);
  return bench_exit ();
}
