/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The threads of a filling: which one lies where, followed from the words of the stitches alone.
 *
 * Pair p is sewn in with thread 2·p on its left and 2·p + 1 on its right, and there are no others.
 * Stitches, and twists between them, change the places of threads, so that a pair further down may
 * be made of other threads than those it was sewn in with. A pair that is turned or carried comes
 * back as it left, its left thread on the left.
 */
#pragma once

#include "filling.h"

G_BEGIN_DECLS

typedef struct {
  size_t n_threads;
  guint32 (*in)[2];  /* per end of a worked stitch: the left and the right thread that come in */
  guint32 (*out)[2]; /* ... and that go out */
} PfThreads;

/* Follows all threads of `filling`, which was made with `ground`. */
PfThreads *pf_threads_new (const PfFilling *filling, const PfGround *ground);
void pf_threads_free (PfThreads *threads);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfThreads, pf_threads_free)

/* Where a thread lies at a worked stitch, from the left, from 0: in `ends`, one of the two above.
 * It must come there. */
guint8 pf_thread_place (guint32 (*ends)[2], const PfWorkedStitch *stitch, guint32 thread);

/* A thread at a worked stitch, or at a sewing. */
typedef struct {
  PfStepKind kind;
  guint32 index;    /* of the sewing or the worked stitch */
  guint8 place_in;  /* of a stitch: where it lies as it comes in, from the left, from 0 ... */
  guint8 place_out; /* ... and as it goes out */
  guint8 twists;    /* of a stitch: on the way to it */
} PfThreadStep;

/* A thread's way from the sewing that brings it in to the one that ends it: `*n` steps, free with
 * g_free(). A turned pair is sewn once, a carried one twice, as in its pair's path. */
PfThreadStep *pf_thread_way (const PfThreads *threads, const PfFilling *filling,
                             const PfGround *ground, guint32 thread, size_t *n);

/* Where the two bobbins of a pair begin and end, and whether they part on the way, in words for the
 * maker. Translated; free with g_free(). */
char *pf_explain_threads (const PfThreads *threads, const PfFilling *filling,
                          const PfGround *ground, guint32 pair);

/* How many twists the ground adds from the exit of a worked stitch to where its pair goes: to the
 * next worked stitch, or, cut at the edge, to the stitch that is missing. */
int pf_twists_after (const PfFilling *filling, const PfGround *ground, guint32 stitch, PfSide side);
/* The same on the way to an entry. */
int pf_twists_before (const PfFilling *filling, const PfGround *ground, guint32 stitch,
                      PfSide side);

G_END_DECLS
