/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pairs stand round each stitch as drawn in the order left in, right in, right out, left out,
 * clockwise; where four pairs meet, the inner ones between these.
 *
 * Lines may lie on one another, and a line between two stitches at one position (a pin and its
 * closing stitch) has no direction. So the ends are walked round a whole position: where a line
 * without length comes next, the walk goes over it and on round the other stitch. From each end to
 * the next the direction turns clockwise, by less than a full turn and perhaps not at all; a walk
 * in the right order turns once.
 */
#include <math.h>

#include <glib/gi18n-lib.h>

#include "drawing.h"

/* Directions this near, in radians, are the same. */
#define SAME_DIRECTION 1e-9

PfPoint
pf_end_way (const PfGround *ground, int end)
{
  const PfPairLine *line = &ground->lines[end / 2];
  const PfPoint way = pf_minus (pf_ground_position (ground, line->to.stitch, line->da, line->db),
                                ground->stitches[line->from.stitch].at);
  return end % 2 ? (PfPoint){ -way.x, -way.y } : way;
}

bool
pf_end_is_short (const PfGround *ground, int end)
{
  const PfPoint way = pf_end_way (ground, end);
  return hypot (way.x, way.y) <= PF_GROUND_TOUCH;
}

/* Radians clockwise from one end's direction to another's, 0 to less than a full turn. */
static double
turn_between (const PfGround *ground, int end, int next)
{
  const PfPoint u = pf_end_way (ground, end), v = pf_end_way (ground, next);
  const double turn = atan2 (pf_cross (u, v), u.x * v.x + u.y * v.y);
  if (fabs (turn) <= SAME_DIRECTION)
    return 0;
  return turn < 0 ? turn + 2 * G_PI : turn;
}

/* The next end with a direction, clockwise round the position. */
static int
next_round_position (const PfGround *ground, int end)
{
  end = pf_end_clockwise (ground, end);
  while (pf_end_is_short (ground, end))
    end = pf_end_clockwise (ground, end ^ 1);
  return end;
}

static bool
turns_once (const PfGround *ground, int start)
{
  double turn = 0;
  int end = start;
  do
    {
      const int next = next_round_position (ground, end);
      turn += turn_between (ground, end, next);
      end = next;
  } while (end != start);
  return turn < 3 * G_PI;
}

static bool
same_walk (const PfGround *ground, int start, int other)
{
  int end = start;
  do
    if (end == other)
      return true;
  while ((end = next_round_position (ground, end)) != start);
  return false;
}

/* All ends of the walk from `start` lie at most `turn` clockwise from `end`. */
static bool
all_within (const PfGround *ground, int start, int end, double turn)
{
  int other = start;
  do
    if (turn_between (ground, end, other) > turn + SAME_DIRECTION)
      return false;
  while ((other = next_round_position (ground, other)) != start);
  return true;
}

/* The walk from `start` keeps between two neighbouring ends of the walk from `end0`. */
static bool
keeps_between (const PfGround *ground, int end0, int start)
{
  double whole_turn = 0;
  int end = end0;
  do
    {
      const int next = next_round_position (ground, end);
      const double turn = turn_between (ground, end, next);
      whole_turn += turn;
      if (all_within (ground, start, end, turn))
        return true;
      end = next;
  } while (end != end0);
  return whole_turn < G_PI; /* all its ends lie in one direction */
}

/* An end at the stitch that has a direction, or -1. */
static int
some_end (const PfGround *ground, int k)
{
  for (int side = 0; side < ground->stitches[k].n_pairs; side++)
    {
      const int out = 2 * ground->exits[k][side], in = 2 * ground->entries[k][side] + 1;
      if (!pf_end_is_short (ground, out))
        return out;
      if (!pf_end_is_short (ground, in))
        return in;
    }
  return -1;
}

/* The two stitches stand at one position in some repeats. */
static bool
share_position (const PfGround *ground, int k, int l)
{
  const PfPoint d = pf_minus (ground->stitches[l].at, ground->stitches[k].at);
  const double area = pf_cross (ground->a, ground->b);
  const double i = round (pf_cross (d, ground->b) / area);
  const double j = round (pf_cross (ground->a, d) / area);
  return hypot (d.x - i * ground->a.x - j * ground->b.x, d.y - i * ground->a.y - j * ground->b.y) <=
         PF_GROUND_TOUCH;
}

static bool
check_shared_positions (const PfGround *ground, GError **error)
{
  for (int k = 0; k < ground->n_stitches; k++)
    for (int l = k + 1; l < ground->n_stitches; l++)
      {
        if (!share_position (ground, k, l))
          continue;
        const int e = some_end (ground, k), f = some_end (ground, l);
        if (e < 0 || f < 0 || same_walk (ground, e, f) || keeps_between (ground, e, f))
          continue;
        g_set_error (
            error, PF_ERROR, PF_ERROR_GROUND,
            _ ("Stitches “%s” and “%s” stand at one position, and their pairs cross there: "
               "move one of the two, or let the pairs work together."),
            ground->stitches[k].name, ground->stitches[l].name);
        return false;
      }
  return true;
}

bool
pf_ground_check_order (const PfGround *ground, GError **error)
{
  for (int end = 0; end < 2 * ground->n_lines; end++)
    if (!pf_end_is_short (ground, end) && !turns_once (ground, end))
      {
        g_set_error (
            error, PF_ERROR, PF_ERROR_GROUND,
            _ ("The pairs round stitch “%s” are drawn in another order than left in, right "
               "in, right out, left out (clockwise): check left and right at the ends of "
               "its pair lines, and where they go."),
            ground->stitches[pf_end_stitch (ground, end)].name);
        return false;
      }
  return check_shared_positions (ground, error);
}
