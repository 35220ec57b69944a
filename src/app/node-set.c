/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Chosen nodes, kept as numbers: after any change of the draft those that it lacks are pruned.
 */
#include "node-set.h"

PfNodeSet *
pf_node_set_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (PfNodeRef));
}

static guint
find (const PfNodeSet *set, PfNodeRef node)
{
  guint n = 0;
  while (n < set->len)
    {
      const PfNodeRef other = pf_node_set_get (set, n);
      if (other.curve == node.curve && other.node == node.node)
        break;
      n++;
    }
  return n;
}

bool
pf_node_set_has (const PfNodeSet *set, PfNodeRef node)
{
  return find (set, node) < set->len;
}

void
pf_node_set_add (PfNodeSet *set, PfNodeRef node)
{
  if (!pf_node_set_has (set, node))
    g_array_append_val (set, node);
}

void
pf_node_set_remove (PfNodeSet *set, PfNodeRef node)
{
  const guint n = find (set, node);
  if (n < set->len)
    g_array_remove_index (set, n);
}

bool
pf_node_set_prune (PfNodeSet *set, const PfDraft *draft)
{
  const guint before = set->len;
  for (guint n = set->len; n-- > 0;)
    {
      const PfNodeRef node = pf_node_set_get (set, n);
      if (draft == NULL || node.curve >= draft->n_curves ||
          node.node >= draft->curves[node.curve]->n_nodes)
        g_array_remove_index (set, n);
    }
  return set->len != before;
}

bool *
pf_node_set_flags (const PfNodeSet *set, const PfDraft *draft, size_t curve)
{
  bool *flags = NULL;
  for (guint n = 0; n < set->len; n++)
    {
      const PfNodeRef node = pf_node_set_get (set, n);
      if (node.curve != curve)
        continue;
      if (flags == NULL)
        flags = g_new0 (bool, draft->curves[curve]->n_nodes);
      flags[node.node] = true;
    }
  return flags;
}

static bool
step_on (const PfDraft *draft, PfNodeRef *node)
{
  PfNodeRef next = { node->curve, node->node + 1 };
  while (next.curve < draft->n_curves && next.node >= draft->curves[next.curve]->n_nodes)
    next = (PfNodeRef){ next.curve + 1, 0 };
  if (next.curve >= draft->n_curves)
    return false;
  *node = next;
  return true;
}

static bool
step_back (const PfDraft *draft, PfNodeRef *node)
{
  PfNodeRef next = *node;
  while (next.node == 0)
    {
      if (next.curve == 0)
        return false;
      next.curve--;
      next.node = draft->curves[next.curve]->n_nodes;
    }
  next.node--;
  *node = next;
  return true;
}

bool
pf_node_next (const PfDraft *draft, PfNodeRef *node, bool back)
{
  return back ? step_back (draft, node) : step_on (draft, node);
}
