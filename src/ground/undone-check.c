/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * No two crossings that follow each other undo each other.
 *
 * Two crossings of the same two threads, or of the same two pairs, with no other between them, can
 * be pulled apart if the same one lies over at both (Reidemeister's second move). If first one and
 * then the other lies over, as in cc or tt, they make a whole turn, which holds. So one looks at
 * the gaps between neighbours, and at the way the crossings over each gap lie, one after the other:
 * alike, they turn on; otherwise they undo each other.
 *
 * Within a pair each twist lies right over left, in stitches and on the way between them. Between
 * two pairs each cross lies left over right. That is all where two pairs meet at each stitch:
 * nothing there undoes anything. Where four pairs meet, pairs are twisted over each other, too,
 * right over left, and the two that were twisted may then be crossed, left over right. Twists
 * within the two pairs between these crossings hold nothing: they slide up over the first one. Pins
 * are left out, since they are taken out in the end; a leadwork binds.
 */
#include <stdlib.h>

#include <glib/gi18n-lib.h>

#include "walks.h"

/* What is done at the gap between two neighbouring pairs. */
typedef enum {
  NOTHING,
  BOUND, /* one of the two pairs is worked with another, or a leadwork binds both */
  LEFT_OVER,
  RIGHT_OVER,
} Touch;

/* The gap between the pairs on sides `side` and `side` + 1 of a stitch. */
typedef struct {
  int stitch, side;
} Gap;

static Touch
touch (const PfGround *ground, Gap gap, const PfMove *move)
{
  if (move->kind == PF_MOVE_PIN)
    return NOTHING;
  if (move->kind == PF_MOVE_WEAVE)
    return BOUND;
  /* Where two pairs meet, the only gap between pairs is that between the middle threads. */
  const bool of_pairs = ground->stitches[gap.stitch].n_pairs == PF_PLACES;
  const int place = of_pairs ? gap.side : 1;
  if (move->place == place)
    return move->left_over ? LEFT_OVER : RIGHT_OVER;
  return of_pairs && abs (move->place - place) == 1 ? BOUND : NOTHING;
}

/* What is done there first, or last. */
static Touch
end_touch (const PfGround *ground, Gap gap, bool last)
{
  PfMove moves[PF_MOVES_MAX];
  const int n = pf_word_moves (ground->stitches[gap.stitch].work, moves);
  for (int m = 0; m < n; m++)
    {
      const Touch found = touch (ground, gap, &moves[last ? n - 1 - m : m]);
      if (found != NOTHING)
        return found;
    }
  return NOTHING;
}

/* Moves on to the next stitch, if both pairs go there, side by side. */
static bool
go_on (const PfGround *ground, Gap *gap)
{
  const PfPairLine *left = &ground->lines[ground->exits[gap->stitch][gap->side]];
  const PfPairLine *right = &ground->lines[ground->exits[gap->stitch][gap->side + 1]];
  if (left->to.stitch != right->to.stitch || left->da != right->da || left->db != right->db ||
      (int) right->to.side != (int) left->to.side + 1)
    return false;
  *gap = (Gap){ left->to.stitch, (int) left->to.side };
  return true;
}

/* Is the last crossing at the gap undone further down? Then `gap` is where. */
static bool
is_undone (const PfGround *ground, Gap *gap)
{
  const Touch first = end_touch (ground, *gap, true);
  if (first != LEFT_OVER && first != RIGHT_OVER)
    return false;
  /* A way without any crossing may close. */
  for (int steps = 0; steps <= ground->n_stitches && go_on (ground, gap); steps++)
    {
      const Touch next = end_touch (ground, *gap, false);
      if (next != NOTHING)
        return next != BOUND && next != first;
    }
  return false;
}

bool
pf_ground_check_undone (const PfGround *ground, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    for (int side = 0; side + 1 < ground->stitches[k].n_pairs; side++)
      {
        Gap gap = { k, side };
        if (!is_undone (ground, &gap))
          continue;
        g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                     _ ("The last crossing of stitch “%s” and the first of stitch “%s” undo each "
                        "other: both lay the same pair over the same other one, which holds "
                        "nothing. Leave both out, or let the two pairs work with others between."),
                     ground->stitches[k].name, ground->stitches[gap.stitch].name);
        return false;
      }
  return true;
}
