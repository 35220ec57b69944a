/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds the diagonal rows of a ground.
 *
 * The repeat vectors may be any two that give the lattice, so the way along a row is looked for
 * among all the sums of them that a pair line may reach. The shortest such way has no repeat on it
 * that it would jump over, so that rows have all their repeats.
 */
#include "rows.h"

#include <math.h>

PfRow
pf_row_of (const PfGround *ground, bool to_right)
{
  PfRow best = { 1, 0 };
  double best_length = INFINITY;
  for (int di = -PF_GROUND_MAX_REACH; di <= PF_GROUND_MAX_REACH; di++)
    for (int dj = -PF_GROUND_MAX_REACH; dj <= PF_GROUND_MAX_REACH; dj++)
      {
        const double x = di * ground->a.x + dj * ground->b.x;
        const double y = di * ground->a.y + dj * ground->b.y;
        const double length = hypot (x, y);
        const bool runs = y > 1e-9 * length && (to_right ? x > 1e-9 * length : x < -1e-9 * length);
        /* Of two as long, by more than rounding, the first. */
        if (!runs || length > best_length * (1 - 1e-9))
          continue;
        best = (PfRow){ di, dj };
        best_length = length;
      }
  return best;
}

int
pf_row_number (PfRow row, int i, int j)
{
  return row.di * j - row.dj * i;
}
