/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * No thread, and no set of threads, lies free on the others or beside them.
 *
 * Draw an arrow from each thread of the endless ground to every thread that it passes over. Threads
 * that no arrow joins to the rest can be drawn apart from it sideways: they must hang together as
 * far as their pairs do, that is, all threads that come to a stitch must. A set of threads that no
 * arrow enters lies over all the rest and can be lifted off it: there is none just if arrows lead
 * from each thread to each other one that it hangs together with.
 *
 * Rolled up to one repeat, threads become closed walks, and arrows say how many repeats away they
 * lead. What is joined: a span of repeats for each part of the rolled up graph. What can be
 * reached: each walk of a part from each other one, and, when rolled out again, in all directions.
 * A way along a thread leads both ways; so only across the threads, if all of them run alike, may
 * directions be missing. They are if no round of arrows leads to one side, which potentials prove
 * (Bellman and Ford's way to shortest paths): then threads lie on one another like shingles.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "layers.h"

typedef struct {
  int part;      /* its first walk */
  gint64 da, db; /* from that one, along some of the arrows */
} Node;

typedef struct {
  const PfGround *ground;
  const PfGroundWalks *threads;
  const PfGroundOver *overs;
  int n_overs;
  Node *nodes;         /* per walk */
  PfGroundSpan *spans; /* per part: repeats between threads of one walk that hang together */
  int n_parts;
} Layers;

/* --- Hanging together ---------------------------------------------------------------------------
 */

/* Lets part `from` become part of `to`, moved by (da, db). */
static void
join (Layers *l, int from, int to, gint64 da, gint64 db)
{
  for (int w = 0; w < l->threads->n; w++)
    if (l->nodes[w].part == from)
      {
        l->nodes[w].part = to;
        l->nodes[w].da += da;
        l->nodes[w].db += db;
      }
}

static void
find_parts (Layers *l)
{
  for (int w = 0; w < l->threads->n; w++)
    l->nodes[w] = (Node){ w, 0, 0 };
  for (int o = 0; o < l->n_overs; o++)
    {
      const PfGroundOver *over = &l->overs[o];
      const Node u = l->nodes[over->over], v = l->nodes[over->under];
      const gint64 da = u.da + over->da - v.da, db = u.db + over->db - v.db;
      if (u.part < v.part)
        join (l, v.part, u.part, da, db);
      else if (v.part < u.part)
        join (l, u.part, v.part, -da, -db);
    }
  memset (l->spans, 0, (gsize) l->threads->n * sizeof *l->spans);
  for (int w = 0; w < l->threads->n; w++)
    pf_ground_span_add (&l->spans[l->nodes[w].part], l->threads->walks[w].da,
                        l->threads->walks[w].db);
  for (int o = 0; o < l->n_overs; o++)
    {
      const PfGroundOver *over = &l->overs[o];
      const Node u = l->nodes[over->over], v = l->nodes[over->under];
      pf_ground_span_add (&l->spans[u.part], u.da + over->da - v.da, u.db + over->db - v.db);
    }
}

static bool
hang_together (const Layers *l, PfOnWalk x, PfOnWalk y)
{
  const Node u = l->nodes[x.walk], v = l->nodes[y.walk];
  return u.part == v.part && pf_ground_span_has (&l->spans[u.part], (y.da - v.da) - (x.da - u.da),
                                                 (y.db - v.db) - (x.db - u.db));
}

static bool
check_together (const Layers *l, GError **error)
{
  for (int k = 0; k < l->ground->n_stitches; k++)
    {
      const PfOnWalk first = pf_ground_thread_at (l->ground, l->threads, k, 0);
      for (int place = 1; place < 2 * l->ground->stitches[k].n_pairs; place++)
        if (!hang_together (l, first, pf_ground_thread_at (l->ground, l->threads, k, place)))
          {
            g_set_error (error, PF_ERROR, PF_ERROR_GROUND,
                         _ ("Nothing holds the threads of stitch “%s” together: followed through "
                            "the whole ground, some of them never cross the others, and fall "
                            "apart from them. Work it, or the stitches near it, with both crosses "
                            "and twists."),
                         l->ground->stitches[k].name);
            return false;
          }
    }
  return true;
}

/* --- Lying on the rest --------------------------------------------------------------------------
 */

static bool
refuse_layer (const Layers *l, int stitch, GError **error)
{
  g_set_error (
      error, PF_ERROR, PF_ERROR_GROUND,
      _ ("At stitch “%s” threads lie over others that never come to lie over them in turn, "
         "so that they could be lifted off the ground. Change the crosses and twists of "
         "the stitches on their way."),
      l->ground->stitches[stitch].name);
  return false;
}

/* Marks what arrows lead to from the marked walks, or (`back`) from where they lead to these. */
static void
spread (const Layers *l, bool *marked, bool back)
{
  for (bool changed = true; changed;)
    {
      changed = false;
      for (int o = 0; o < l->n_overs; o++)
        {
          const PfGroundOver *over = &l->overs[o];
          const int from = back ? over->under : over->over, to = back ? over->over : over->under;
          if (marked[from] && !marked[to])
            marked[to] = changed = true;
        }
    }
}

/* From each walk arrows lead to each other one of its part. */
static bool
check_walks (const Layers *l, GError **error)
{
  g_autofree bool *marked = g_new (bool, l->threads->n);
  for (int back = 0; back < 2; back++)
    {
      for (int w = 0; w < l->threads->n; w++)
        marked[w] = l->nodes[w].part == w;
      spread (l, marked, back);
      for (int o = 0; o < l->n_overs; o++)
        if (marked[l->overs[o].over] != marked[l->overs[o].under])
          return refuse_layer (l, l->overs[o].stitch, error);
    }
  return true;
}

/* How far (da, db) leads to one side of the way of `walk`. */
static gint64
aside (const PfGroundWalk *walk, int da, int db)
{
  return (gint64) walk->da * db - (gint64) walk->db * da;
}

/* Finds potentials under which no arrow of the part leads to the side named by `sign`; false if
 * some round of arrows does lead there. */
static bool
find_potentials (const Layers *l, int part, int sign, gint64 *potentials)
{
  memset (potentials, 0, (gsize) l->threads->n * sizeof *potentials);
  for (int round = 0; round <= l->threads->n; round++)
    {
      bool changed = false;
      for (int o = 0; o < l->n_overs; o++)
        {
          const PfGroundOver *over = &l->overs[o];
          if (l->nodes[over->over].part != part)
            continue;
          const gint64 least =
              potentials[over->over] + sign * aside (&l->threads->walks[part], over->da, over->db);
          if (potentials[over->under] > least)
            {
              potentials[over->under] = least;
              changed = true;
            }
        }
      if (!changed)
        return true;
    }
  return false;
}

/* A part that spreads both ways, and whose threads all run alike: arrows lead to both sides. */
static bool
check_sides (const Layers *l, int part, GError **error)
{
  const PfGroundWalk *walk = &l->threads->walks[part];
  if (l->spans[part].a == 0 || l->spans[part].c == 0)
    return true;
  for (int w = 0; w < l->threads->n; w++)
    if (l->nodes[w].part == part &&
        aside (walk, l->threads->walks[w].da, l->threads->walks[w].db) != 0)
      return true;
  g_autofree gint64 *potentials = g_new (gint64, l->threads->n);
  for (int sign = -1; sign <= 1; sign += 2)
    {
      if (!find_potentials (l, part, sign, potentials))
        continue;
      for (int o = 0; o < l->n_overs; o++)
        {
          const PfGroundOver *over = &l->overs[o];
          if (l->nodes[over->over].part == part &&
              potentials[over->under] <
                  potentials[over->over] + sign * aside (walk, over->da, over->db))
            return refuse_layer (l, over->stitch, error);
        }
    }
  return true;
}

bool
pf_ground_check_layers (const PfGround *ground, GError **error)
{
  g_auto (PfGroundWalks) threads = pf_ground_walk_threads (ground);
  g_autoptr (GArray) overs = pf_ground_find_overs (ground, &threads);
  g_autofree Node *nodes = g_new (Node, threads.n);
  g_autofree PfGroundSpan *spans = g_new (PfGroundSpan, threads.n);
  Layers l = { ground, &threads, &g_array_index (overs, PfGroundOver, 0), (int) overs->len, nodes,
               spans,  0 };
  find_parts (&l);
  if (!check_together (&l, error) || !check_walks (&l, error))
    return false;
  for (int w = 0; w < threads.n; w++)
    if (nodes[w].part == w && !check_sides (&l, w, error))
      return false;
  return true;
}
