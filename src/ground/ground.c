/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The ground itself: made empty, filled in by its reader, completed once, and never changed after.
 */
#include "ground.h"

PfGround *
pf_ground_new (int n_stitches, int n_lines)
{
  PfGround *ground = g_new0 (PfGround, 1);
  ground->refs = 1;
  ground->stitches = g_new0 (PfStitch, n_stitches);
  ground->n_stitches = n_stitches;
  ground->lines = g_new0 (PfPairLine, n_lines);
  ground->n_lines = n_lines;
  ground->exits = g_malloc0_n (n_stitches, sizeof *ground->exits);
  ground->entries = g_malloc0_n (n_stitches, sizeof *ground->entries);
  for (int k = 0; k < n_stitches; k++)
    ground->stitches[k].closes = -1;
  return ground;
}

PfGround *
pf_ground_ref (PfGround *ground)
{
  g_atomic_int_inc (&ground->refs);
  return ground;
}

void
pf_ground_free (PfGround *ground)
{
  if (!ground || !g_atomic_int_dec_and_test (&ground->refs))
    return;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      g_free (ground->stitches[k].name);
      g_free (ground->stitches[k].work);
    }
  g_free (ground->stitches);
  g_free (ground->lines);
  g_free (ground->exits);
  g_free (ground->entries);
  g_free (ground->name);
  g_free (ground->title);
  g_strfreev (ground->also_called);
  g_free (ground->family);
  g_free (ground->source);
  g_free (ground->used_for);
  g_free (ground->notes);
  g_free (ground);
}

bool
pf_ground_complete (PfGround *ground, GError **error)
{
  return pf_ground_check_words (ground, error) && pf_ground_check_pairs (ground, error) &&
         pf_ground_find_times (ground, error) && pf_ground_check_drawing (ground, error) &&
         pf_ground_find_spacing (ground, error);
}
