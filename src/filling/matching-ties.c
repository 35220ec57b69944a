/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where the best matching has a choice.
 *
 * Draw an arrow from left to right for each tight line that isn't matched, from right to left for
 * each that is, and to and from one extra node for each node that may be, or become, alone. Two
 * best matchings differ along cycles of arrows. So a line can be exchanged if and only if its ends
 * lie in one strongly connected component.
 */
#include "matching-ties.h"

/* Appends the nodes that arrows lead to from `node`. */
static void
arrows_from (const PfTies *t, guint32 node, GArray *targets)
{
  const PfMatchGraph *graph = t->graph;
  const PfMatching *m = t->matching;
  const guint32 n_left = graph->n_left, extra = t->n_nodes - 1;
  if (node < n_left)
    {
      for (guint32 e = graph->first[node]; e < graph->first[node + 1]; e++)
        if (m->of_left[node] != graph->partners[e] && pf_ties_tight (t, node, e))
          {
            const guint32 right = n_left + graph->partners[e];
            g_array_append_val (targets, right);
          }
      if (m->of_left[node] != PF_NONE && pf_weight_is_zero (m->left_price[node]))
        g_array_append_val (targets, extra);
    }
  else if (node < extra)
    {
      const guint32 owner = m->of_right[node - n_left];
      const guint32 target = owner == PF_NONE ? extra : owner;
      g_array_append_val (targets, target);
    }
}

/* The arrows from the extra node, found once: to lefts that are alone, and to matched rights that
 * may be. */
static void
arrows_from_extra (const PfTies *t, GArray *targets)
{
  const PfMatchGraph *graph = t->graph;
  for (guint32 l = 0; l < graph->n_left; l++)
    if (t->matching->of_left[l] == PF_NONE)
      g_array_append_val (targets, l);
  for (guint32 r = 0; r < graph->n_right; r++)
    {
      const guint32 right = graph->n_left + r;
      if (t->matching->of_right[r] != PF_NONE && pf_weight_is_zero (t->matching->right_price[r]))
        g_array_append_val (targets, right);
    }
}

/* A node on the way down: its arrows stand from `first` to `end`, and `next` is looked at next. */
typedef struct {
  guint32 node, first, next, end;
} Frame;

/* R. Tarjan, "Depth-first search and linear graph algorithms", SIAM Journal on Computing 1 (1972),
 * without recursion. The arrows of the nodes on the way down stand in `arrows`, one node's after
 * the other's. */
typedef struct {
  PfTies *ties;
  guint32 *number, *low; /* 0: not visited */
  guint32 last_number, last_component;
  GArray *frames, *arrows, *open;
} Descent;

static void
enter_node (Descent *d, guint32 node)
{
  Frame frame = { node, d->arrows->len, d->arrows->len, 0 };
  if (node == d->ties->n_nodes - 1)
    arrows_from_extra (d->ties, d->arrows);
  else
    arrows_from (d->ties, node, d->arrows);
  frame.end = d->arrows->len;
  g_array_append_val (d->frames, frame);
  g_array_append_val (d->open, node);
  d->number[node] = d->low[node] = ++d->last_number;
}

/* Closes the component that `node` is the first visited of, if it is. */
static void
close_component (Descent *d, guint32 node)
{
  if (d->low[node] != d->number[node])
    return;
  d->last_component++;
  guint32 member;
  do
    {
      member = g_array_index (d->open, guint32, d->open->len - 1);
      g_array_set_size (d->open, d->open->len - 1);
      d->ties->component[member] = d->last_component;
  } while (member != node);
}

static void
leave_node (Descent *d)
{
  const Frame frame = g_array_index (d->frames, Frame, d->frames->len - 1);
  g_array_set_size (d->arrows, frame.first);
  g_array_set_size (d->frames, d->frames->len - 1);
  if (d->frames->len > 0)
    {
      const guint32 above = g_array_index (d->frames, Frame, d->frames->len - 1).node;
      d->low[above] = MIN (d->low[above], d->low[frame.node]);
    }
  close_component (d, frame.node);
}

static void
descend (Descent *d, guint32 root)
{
  enter_node (d, root);
  while (d->frames->len > 0)
    {
      Frame *frame = &g_array_index (d->frames, Frame, d->frames->len - 1);
      if (frame->next == frame->end)
        {
          leave_node (d);
          continue;
        }
      const guint32 node = frame->node;
      const guint32 target = g_array_index (d->arrows, guint32, frame->next++);
      if (d->number[target] == 0)
        enter_node (d, target);
      else if (d->ties->component[target] == 0)
        d->low[node] = MIN (d->low[node], d->number[target]);
    }
}

void
pf_ties_find (PfTies *t, const PfMatchGraph *graph, PfMatching *matching)
{
  t->graph = graph;
  t->matching = matching;
  t->n_nodes = graph->n_left + graph->n_right + 1;
  g_autofree guint32 *number = g_new0 (guint32, t->n_nodes);
  g_autofree guint32 *low = g_new0 (guint32, t->n_nodes);
  g_autoptr (GArray) frames = g_array_new (FALSE, FALSE, sizeof (Frame));
  g_autoptr (GArray) arrows = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (guint32));
  Descent d = {
    .ties = t, .number = number, .low = low, .frames = frames, .arrows = arrows, .open = open
  };
  t->component = g_new0 (guint32, t->n_nodes);
  for (guint32 node = 0; node < t->n_nodes; node++)
    if (number[node] == 0)
      descend (&d, node);
}
