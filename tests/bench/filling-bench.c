/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From an outline to counted pairs: ten thousand, a hundred thousand and a million stitches.
 */
#include "bench.h"

#include <math.h>
#include <stdio.h>

#include <sys/resource.h>

#define N_EDGES 2000
#define EDGE_GAP 3.0

typedef struct {
  PfGround *ground;
  PfChain *chains;
  PfCounts counts; /* of the last run */
  double region_ms, fill_ms;
} Task;

static void
run_once (Task *task)
{
  const double start = bench_now ();
  PfRegion *region = pf_region_new (task->chains, 2, NULL);
  PfEdge edges[2];
  for (size_t l = 0; l < 2; l++)
    pf_edge_init_even (&edges[l], &region->loops[l], PF_EDGE_HALF_STITCH, EDGE_GAP, NULL);
  const double made = bench_now ();
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement = (PfPlacement){ .gap = 2, .turn = 13 };
  PfFilling *filling = pf_filling_new (region, edges, task->ground, &settings, NULL);
  const double filled = bench_now ();
  task->region_ms = made - start;
  task->fill_ms = filled - made;
  task->counts = filling->counts;
  pf_filling_free (filling);
  for (size_t l = 0; l < 2; l++)
    pf_edge_clear (&edges[l]);
  pf_region_free (region);
}

/* Returns ms. */
static double
measure (const char *ground, double n_stitches, double *ns_a_stitch)
{
  Task task = { .ground = bench_ground (ground) };
  /* Seven of the armure's stitches take 4 gap² of the region, one of the torchon's takes gap². */
  const double area = n_stitches * 4 * (g_str_equal (ground, "armure") ? 4.0 / 7 : 1);
  task.chains = bench_chains (sqrt (area / (0.73 * G_PI * 8 / 9)), N_EDGES);
  double region[BENCH_RUNS], fill[BENCH_RUNS], all[BENCH_RUNS];
  for (int run = 0; run < BENCH_RUNS; run++)
    {
      run_once (&task);
      region[run] = task.region_ms;
      fill[run] = task.fill_ms;
      all[run] = task.region_ms + task.fill_ms;
    }
  const double ms = bench_median (all);
  *ns_a_stitch = ms / (double) task.counts.stitches * 1e6;
  printf ("%-8s %8zu stitches, %6zu crossings: outline and edges %7.2f ms, filling %8.2f ms, %5.0f "
          "ns a stitch\n",
          ground, task.counts.stitches, task.counts.leaving + task.counts.entering,
          bench_median (region), bench_median (fill), *ns_a_stitch);
  bench_chains_free (task.chains);
  pf_ground_free (task.ground);
  return ms;
}

int
main (void)
{
  static const char *const grounds[] = { "armure", "torchon" };
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      double ns[3];
      bench_at_most ("ms for 10,000 stitches", measure (grounds[g], 1.0e4, &ns[0]), 20);
      measure (grounds[g], 1.0e5, &ns[1]);
      bench_at_most ("ms for 1,000,000 stitches", measure (grounds[g], 1.0e6, &ns[2]), 1000);
      bench_at_most ("growth of the time a stitch, 10,000 to 100,000", ns[1] / ns[0], 2);
      bench_at_most ("growth of the time a stitch, 100,000 to 1,000,000", ns[2] / ns[1], 2);
    }
  struct rusage usage;
  getrusage (RUSAGE_SELF, &usage);
  bench_at_most ("MiB of memory at the most", (double) usage.ru_maxrss / 1024, 1024);
  return bench_exit ();
}
