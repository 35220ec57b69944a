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
    {
      ground->stitches[k].closes = -1;
      ground->stitches[k].n_pairs = 2;
    }
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
  g_free (ground->usual.thread);
  g_free (ground->usual.source);
  g_free (ground);
}

static bool
stitches_equal (const PfStitch *s, const PfStitch *t)
{
  return g_strcmp0 (s->name, t->name) == 0 && g_strcmp0 (s->work, t->work) == 0 &&
         s->at.x == t->at.x && s->at.y == t->at.y && s->closes == t->closes && s->core == t->core &&
         s->bead == t->bead && s->n_pairs == t->n_pairs;
}

static bool
lines_equal (const PfPairLine *l, const PfPairLine *m)
{
  return l->from.stitch == m->from.stitch && l->from.side == m->from.side &&
         l->to.stitch == m->to.stitch && l->to.side == m->to.side && l->da == m->da &&
         l->db == m->db && l->twists == m->twists;
}

bool
pf_ground_equal (const PfGround *a, const PfGround *b)
{
  if (a == b)
    return true;
  if (g_strcmp0 (a->name, b->name) != 0 || g_strcmp0 (a->title, b->title) != 0 ||
      a->n_stitches != b->n_stitches || a->n_lines != b->n_lines || a->a.x != b->a.x ||
      a->a.y != b->a.y || a->b.x != b->b.x || a->b.y != b->b.y)
    return false;
  for (int k = 0; k < a->n_stitches; k++)
    if (!stitches_equal (&a->stitches[k], &b->stitches[k]))
      return false;
  for (int e = 0; e < a->n_lines; e++)
    if (!lines_equal (&a->lines[e], &b->lines[e]))
      return false;
  return true;
}

int
pf_ground_pairs (const PfGround *ground)
{
  int over_a = 0, over_b = 0;
  for (int e = 0; e < ground->n_lines; e++)
    {
      over_a += ground->lines[e].da;
      over_b += ground->lines[e].db;
    }
  return ABS (over_a) + ABS (over_b);
}

bool
pf_ground_complete (PfGround *ground, GError **error)
{
  return pf_ground_check_words (ground, error) && pf_ground_check_pairs (ground, error) &&
         pf_ground_find_times (ground, error) && pf_ground_check_drawing (ground, error) &&
         pf_ground_find_spacing (ground, error);
}
