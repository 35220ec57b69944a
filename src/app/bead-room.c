/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bead-room.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#define NEARBY 2 /* repeats each way */

static double
nearest_stitch (const PfGround *ground, PfAffine map, int k)
{
  const PfPoint at = pf_affine_map (map, ground->stitches[k].at);
  double nearest = INFINITY;
  for (int j = -NEARBY; j <= NEARBY; j++)
    for (int i = -NEARBY; i <= NEARBY; i++)
      for (int other = 0; other < ground->n_stitches; other++)
        {
          const PfPoint stitch = pf_affine_map (map, pf_ground_position (ground, other, i, j));
          const double distance = hypot (stitch.x - at.x, stitch.y - at.y);
          if (distance > PF_TOUCH)
            nearest = fmin (nearest, distance);
        }
  return nearest;
}

double
pf_bead_distance (const PfGround *ground, PfPlacement placement)
{
  const PfAffine map = pf_placement_map (ground, placement);
  double least = INFINITY;
  for (int k = 0; k < ground->n_stitches; k++)
    if (ground->stitches[k].bead)
      least = fmin (least, nearest_stitch (ground, map, k));
  return isfinite (least) ? least : 0;
}

double
pf_bead_thread (const PfDraft *draft)
{
  if (draft->thread.wraps_per_cm > 0)
    return 10 / draft->thread.wraps_per_cm;
  const PfPlacement placement = draft->settings.placement;
  if (draft->ground == NULL || !pf_fit_known (draft->ground, placement))
    return 0;
  return 10 / pf_fit_threads (draft->ground, placement, draft->thread.rule).from;
}

char *
pf_bead_room_words (PfEditor *editor, const PfDraft *draft)
{
  if (draft->ground == NULL)
    return g_strdup ("");
  const double distance = pf_bead_distance (draft->ground, draft->settings.placement);
  if (distance <= 0)
    return g_strdup (_ ("This ground has no place for a bead."));
  const double thread = pf_bead_thread (draft), room = floor (10 * (distance - thread)) / 10;
  if (room <= 0)
    return g_strdup (_ ("At this gap a bead finds no room beside the thread: try a wider gap or a "
                        "finer thread."));
  g_autofree char *length = pf_editor_length (editor, room, 1);
  if (draft->thread.wraps_per_cm > 0)
    return g_strdup_printf (_ ("Beads up to about %s find room at this gap with this thread. A "
                               "guide: try one first."),
                            length);
  if (thread > 0)
    return g_strdup_printf (_ ("Beads up to about %s find room at this gap with a thread that "
                               "suits it. A guide: try one first."),
                            length);
  return g_strdup_printf (_ ("Beads up to about %s, less a thread, find room at this gap. A guide: "
                             "try one first."),
                          length);
}
