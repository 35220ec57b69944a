/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "thread-checks.h"

#include <string.h>

static void
exchange (guint32 *threads, int at, int wide)
{
  for (int t = 0; t < wide; t++)
    {
      const guint32 left = threads[wide * at + t];
      threads[wide * at + t] = threads[wide * (at + 1) + t];
      threads[wide * (at + 1) + t] = left;
    }
}

/* The word done with one's own hands, letter by letter, on single threads or on whole pairs. */
static void
work_by_hand (const char *work, guint32 *threads, int n_pairs)
{
  const int wide = n_pairs / 2;
  for (const char *letter = work; *letter != '\0'; letter++)
    if (*letter == 'c')
      exchange (threads, 1, wide);
    else if (*letter == 't')
      {
        exchange (threads, 0, wide);
        exchange (threads, 2, wide);
      }
}

/* Every thread comes in once at a stitch and goes out once; each side holds two. */
static void
check_stitches (const PfFilling *f, const PfGround *ground, const PfThreads *threads)
{
  for (size_t s = 0; s < f->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &f->stitches[s];
      const guint32 n = 2 * stitch->n_sides;
      guint32 by_hand[2 * PF_STITCH_MAX_PAIRS];
      memcpy (by_hand, threads->in[stitch->first_end], n * sizeof (guint32));
      for (guint32 a = 0; a < n; a++)
        {
          g_assert_cmpuint (by_hand[a], <, threads->n_threads);
          for (guint32 b = a + 1; b < n; b++)
            g_assert_cmpuint (by_hand[a], !=, by_hand[b]);
        }
      work_by_hand (pf_filling_work (f, ground, stitch), by_hand, stitch->n_sides);
      for (guint32 place = 0; place < n; place++)
        g_assert_cmpuint (by_hand[place], ==,
                          threads->out[stitch->first_end + place / 2][place % 2]);
    }
}

/* The ways of all threads together pass each place of each stitch once, one after another in
 * working order, from a sewing to a sewing; and each sewing is passed by both threads of a pair. */
static void
check_ways (const PfFilling *f, const PfGround *ground, const PfThreads *threads)
{
  g_autofree guint8 *passed = g_new0 (guint8, MAX (2 * f->n_ends, 1));
  g_autofree guint8 *sewn = g_new0 (guint8, MAX (f->n_sewings, 1));
  g_autofree guint32 *when = g_new (guint32, MAX (f->n_stitches, 1));
  for (guint32 n = 0; n < f->n_stitches; n++)
    when[f->order[n]] = n;
  for (guint32 t = 0; t < threads->n_threads; t++)
    {
      size_t n;
      g_autofree PfThreadStep *way = pf_thread_way (threads, f, ground, t, &n);
      g_assert_cmpint (way[0].kind, ==, PF_STEP_SEWING);
      g_assert_cmpint (way[n - 1].kind, ==, PF_STEP_SEWING);
      gint64 last = -1;
      for (size_t s = 0; s < n; s++)
        if (way[s].kind == PF_STEP_SEWING)
          sewn[way[s].index]++;
        else
          {
            passed[2 * f->stitches[way[s].index].first_end + way[s].place_in]++;
            g_assert_cmpint (when[way[s].index], >, last);
            last = when[way[s].index];
          }
    }
  for (size_t e = 0; e < 2 * f->n_ends; e++)
    g_assert_cmpuint (passed[e], ==, 1);
  for (size_t s = 0; s < f->n_sewings; s++)
    g_assert_cmpuint (sewn[s], ==, 2);
}

void
check_threads (const PfFilling *filling, const PfGround *ground, const PfThreads *threads)
{
  g_assert_cmpuint (threads->n_threads, ==, 2 * filling->counts.new_pairs);
  check_stitches (filling, ground, threads);
  check_ways (filling, ground, threads);
}
