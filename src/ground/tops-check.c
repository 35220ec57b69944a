/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Each mesh has one top and one foot: its two sides run down from one stitch to another.
 *
 * A mesh without a top or a foot would be a loop of pairs, which working times exclude. With the
 * pairs in side by side at each stitch, and the pairs out too, a stitch of n pairs is the top of n
 * - 1 meshes; there are just as many tops in all as meshes, so that each has one, and likewise one
 * foot. The sides of a column that doesn't hang together with its repeats have neither.
 */
#include <glib/gi18n-lib.h>

#include "drawing.h"

bool
pf_ground_check_tops (const PfGround *ground, GError **error)
{
  g_autofree PfMesh *meshes = g_new (PfMesh, 2 * ground->n_lines);
  const int n = pf_ground_trace_meshes (ground, meshes);
  for (int m = 0; m < n; m++)
    {
      const int due = meshes[m].da == 0 && meshes[m].db == 0;
      if (meshes[m].tops == due && meshes[m].feet == due)
        continue;
      g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                   _ ("The mesh beside stitch “%s” doesn't run down from one stitch to another: "
                      "check the ends of the pair lines round it, and their repeats."),
                   ground->stitches[meshes[m].stitch].name);
      return false;
    }
  return true;
}
