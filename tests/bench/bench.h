/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the benchmarks share: outlines, times, and a verdict at the end.
 *
 * Only ratios taken in one run count, and the times of one run; each is the median of BENCH_RUNS.
 */
#pragma once

#include <geos_c.h>

#include <pricking.h>

G_BEGIN_DECLS

#define BENCH_RUNS 7

/* The time that the thread has had a processor, ms: others at work on the machine hardly count. */
double bench_now (void);
/* Sorts the times. */
double bench_median (double times[BENCH_RUNS]);

/* Prints whether `what`, which is `value`, is at least (or at most) `limit`; the benchmark's exit
 * status says whether all were. */
void bench_at_least (const char *what, double value, double limit);
void bench_at_most (const char *what, double value, double limit);
int bench_exit (void);

/* A wavy outline round (0, 0) with a wavy hole, n_edges edges together, the box about 2 · radius mm
 * wide. Free with bench_chains_free(). */
PfChain *bench_chains (double radius, size_t n_edges);
void bench_chains_free (PfChain *chains);
PfRegion *bench_region (double radius, size_t n_edges);

PfGround *bench_ground (const char *name);

/* The same region for GEOS. */
GEOSGeometry *bench_geos_area (GEOSContextHandle_t geos, const PfRegion *region);

G_END_DECLS
