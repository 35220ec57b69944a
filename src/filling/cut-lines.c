/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Names that outlive a filling: the stitch and the side at which a line is cut.
 *
 * Stitches stand sorted by k, then j, then i, so that a name is found by halving.
 */
#include "filling-private.h"

static int
compare_ids (PfStitchId a, PfStitchId b)
{
  if (a.k != b.k)
    return a.k < b.k ? -1 : 1;
  if (a.j != b.j)
    return a.j < b.j ? -1 : 1;
  return (a.i > b.i) - (a.i < b.i);
}

guint32
pf_filling_find_stitch (const PfFilling *filling, PfStitchId id)
{
  size_t low = 0, high = filling->n_stitches;
  while (low < high)
    {
      const size_t middle = low + (high - low) / 2;
      if (compare_ids (filling->stitches[middle].id, id) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  return low < filling->n_stitches && compare_ids (filling->stitches[low].id, id) == 0
             ? (guint32) low
             : PF_NONE;
}

PfLineId
pf_crossing_line (const PfFilling *filling, guint32 crossing)
{
  const PfCrossing *c = &filling->crossings[crossing];
  return (PfLineId){ filling->stitches[c->stitch].id, c->side, c->leaves };
}

guint32
pf_filling_find_crossing (const PfFilling *filling, PfLineId line)
{
  const guint32 s = pf_filling_find_stitch (filling, line.stitch);
  if (s == PF_NONE || (guint) line.side >= filling->stitches[s].n_sides)
    return PF_NONE;
  const PfWorkedEnd *end = &pf_worked_ends (filling, &filling->stitches[s])[line.side];
  return line.leaves ? end->leaving : end->entering;
}
