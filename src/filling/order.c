/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working order.
 *
 * A stitch is ready when all that come before it, by pair line or by match, are worked. The maker
 * stays in the repeat she is in as long as it has a ready stitch; then, if she works row by row,
 * goes on to the next repeat of the row if that has one; else she takes the earliest of all that
 * are ready. Times rise along every pair line and every match, so there is always one that
 * is ready until all are worked.
 */
#include "filling-private.h"
#include "rows.h"

#include <stdlib.h>

/* A stitch in the heap. The numbers of stitches grow with their place in the file, so that they
 * decide last. */
typedef struct {
  gint64 time, x; /* x as seen from the side that is worked first */
  guint32 stitch;
} Ready;

enum { DONE = 255 };

typedef struct {
  PfFilling *filling;
  const PfLattice *lattice;
  GArray *heap;    /* of Ready */
  guint8 *waiting; /* per stitch: how many it waits for; DONE once it is worked */
  int *by_time;    /* the ground's stitches by (time, x, place in the file) */
  PfRow row;       /* the step to the next repeat of a row */
} Work;

static bool
earlier (const Ready *a, const Ready *b)
{
  if (a->time != b->time)
    return a->time < b->time;
  return a->x != b->x ? a->x < b->x : a->stitch < b->stitch;
}

static Ready
ready_stitch (const Work *work, guint32 s)
{
  const PfStitchId id = work->filling->stitches[s].id;
  const PfGround *ground = work->lattice->ground;
  const gint64 x = pf_round_time (pf_ground_position (ground, id.k, id.i, id.j).x);
  return (Ready){ pf_round_time (pf_ground_time (ground, id.k, id.i, id.j)),
                  work->filling->habits.right_first ? -x : x, s };
}

static void
push_ready (Work *work, guint32 s)
{
  const Ready item = ready_stitch (work, s);
  g_array_append_val (work->heap, item);
  Ready *items = (Ready *) (void *) work->heap->data;
  guint at = work->heap->len - 1;
  for (; at > 0 && earlier (&item, &items[(at - 1) / 2]); at = (at - 1) / 2)
    items[at] = items[(at - 1) / 2];
  items[at] = item;
}

static guint32
pop_ready (Work *work)
{
  Ready *items = (Ready *) (void *) work->heap->data;
  const guint32 top = items[0].stitch;
  const guint n = work->heap->len - 1;
  const Ready last = items[n];
  guint at = 0;
  for (guint child = 1; child < n; child = 2 * at + 1)
    {
      if (child + 1 < n && earlier (&items[child + 1], &items[child]))
        child++;
      if (!earlier (&items[child], &last))
        break;
      items[at] = items[child];
      at = child;
    }
  items[at] = last;
  g_array_set_size (work->heap, n);
  return top;
}

/* The worked stitch whose entry the pair of an exit comes to, by pair line or by match, or PF_NONE.
 */
static guint32
next_stitch (const PfFilling *filling, const PfWorkedEnd *exit)
{
  if (exit->leaving == PF_NONE)
    return exit->to;
  const guint32 match = filling->crossings[exit->leaving].match;
  return match == PF_NONE ? PF_NONE : filling->crossings[match].stitch;
}

static void
count_waiting (Work *work)
{
  const PfFilling *filling = work->filling;
  for (size_t e = 0; e < filling->n_ends; e++)
    {
      const guint32 next = next_stitch (filling, &filling->ends[e]);
      if (next != PF_NONE)
        work->waiting[next]++;
    }
  for (guint32 s = 0; s < filling->n_stitches; s++)
    if (work->waiting[s] == 0)
      push_ready (work, s);
}

/* The first ready stitch of a repeat, or PF_NONE. */
static guint32
ready_in_repeat (const Work *work, int i, int j)
{
  for (int n = 0; n < work->lattice->ground->n_stitches; n++)
    {
      const PfStitchId id = { work->by_time[n], i, j };
      if (!pf_lattice_inside (work->lattice, id))
        continue;
      const guint32 s = pf_lattice_index (work->lattice, id);
      if (work->waiting[s] == 0)
        return s;
    }
  return PF_NONE;
}

static guint32
choose_stitch (Work *work, const PfStitchId *last)
{
  guint32 s = last != NULL ? ready_in_repeat (work, last->i, last->j) : PF_NONE;
  if (s == PF_NONE && last != NULL && work->filling->habits.by == PF_WORK_BY_ROW)
    s = ready_in_repeat (work, last->i + work->row.di, last->j + work->row.dj);
  if (s != PF_NONE)
    return s;
  do
    s = pop_ready (work);
  while (work->waiting[s] == DONE);
  return s;
}

static void
work_stitch (Work *work, guint32 s)
{
  const PfFilling *filling = work->filling;
  const PfWorkedStitch *stitch = &filling->stitches[s];
  const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
  work->waiting[s] = DONE;
  for (unsigned side = 0; side < stitch->n_sides; side++)
    {
      const guint32 next = next_stitch (filling, &ends[side]);
      if (next != PF_NONE && --work->waiting[next] == 0)
        push_ready (work, next);
    }
}

/* Sorts the few stitches of a repeat: by time, x and place in the file. */
static int *
stitches_by_time (const PfGround *ground, bool right_first)
{
  const double sign = right_first ? -1 : 1;
  int *order = g_new (int, ground->n_stitches);
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const gint64 time = pf_round_time (ground->stitches[k].time);
      const gint64 x = pf_round_time (sign * ground->stitches[k].at.x);
      int at = k;
      for (; at > 0; at--)
        {
          const PfStitch *before = &ground->stitches[order[at - 1]];
          const gint64 its_time = pf_round_time (before->time);
          if (its_time < time || (its_time == time && pf_round_time (sign * before->at.x) <= x))
            break;
          order[at] = order[at - 1];
        }
      order[at] = k;
    }
  return order;
}

void
pf_find_order (PfFilling *filling, const PfLattice *lattice)
{
  g_autoptr (GArray) heap = g_array_new (FALSE, FALSE, sizeof (Ready));
  g_autofree guint8 *waiting = g_new0 (guint8, filling->n_stitches);
  g_autofree int *by_time = stitches_by_time (lattice->ground, filling->habits.right_first);
  Work work = { filling, lattice, heap,
                waiting, by_time, pf_row_of (lattice->ground, filling->habits.right_first) };
  count_waiting (&work);
  filling->order = g_new (guint32, filling->n_stitches);
  const PfStitchId *last = NULL;
  for (size_t n = 0; n < filling->n_stitches; n++)
    {
      const guint32 s = choose_stitch (&work, last);
      filling->order[n] = s;
      last = &filling->stitches[s].id;
      work_stitch (&work, s);
    }
}
