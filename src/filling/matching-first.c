/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Of all matchings of greatest weight, the first.
 *
 * Lines that can be exchanged fall into groups that don't touch; a group is tiny, as it takes a
 * coincidence of weights to make one. In each group the left nodes take, in order, the first
 * partner that leaves the others a best matching: one that leaves nobody alone whose price is above
 * zero. By the theorem of N. S. Mendelsohn and A. L. Dulmage (Canadian Journal of Mathematics 10,
 * 1958) it is enough that one matching covers all such left nodes, and one all such right nodes:
 * then there is one that covers both.
 */
#include "matching-ties.h"

/* A line that can be exchanged. */
typedef struct {
  guint32 left, right;
  guint32 group;
} Line;

/* One group, its nodes numbered anew. Lines sorted by (left, right). */
typedef struct {
  const Line *lines;
  guint n_lines;
  const PfMatching *matching;
  guint32 *partner; /* per node of the graph: in the cover that is tried */
  bool *seen;       /* per node of the graph: in the search for one partner */
  bool *fixed;      /* per node of the graph: it has its final partner */
  guint32 n_left;
} Group;

static guint32
node_of (const Group *g, const Line *line, bool left)
{
  return left ? line->left : g->n_left + line->right;
}

/* Finds `node`, on the left or right, a partner that isn't fixed, moving others on. */
static bool
cover_node (Group *g, guint32 node, bool left)
{
  for (guint k = 0; k < g->n_lines; k++)
    {
      if (node_of (g, &g->lines[k], left) != node)
        continue;
      const guint32 other = node_of (g, &g->lines[k], !left);
      if (g->fixed[other] || g->seen[other])
        continue;
      g->seen[other] = true;
      if (g->partner[other] == PF_NONE || cover_node (g, g->partner[other], left))
        {
          g->partner[other] = node;
          return true;
        }
    }
  return false;
}

static bool
needs_partner (const Group *g, guint32 node)
{
  const PfMatching *m = g->matching;
  return !pf_weight_is_zero (node < g->n_left ? m->left_price[node]
                                              : m->right_price[node - g->n_left]);
}

/* Can all nodes of one side that need a partner and aren't fixed have one? */
static bool
can_cover (Group *g, bool left)
{
  for (guint k = 0; k < g->n_lines; k++)
    g->partner[node_of (g, &g->lines[k], !left)] = PF_NONE;
  g_autofree guint32 *done = g_new (guint32, g->n_lines);
  guint n_done = 0;
  for (guint k = 0; k < g->n_lines; k++)
    {
      const guint32 node = node_of (g, &g->lines[k], left);
      bool again = false;
      for (guint d = 0; d < n_done && !again; d++)
        again = done[d] == node;
      if (again || g->fixed[node] || !needs_partner (g, node))
        continue;
      done[n_done++] = node;
      for (guint s = 0; s < g->n_lines; s++)
        g->seen[node_of (g, &g->lines[s], !left)] = false;
      if (!cover_node (g, node, left))
        return false;
    }
  return true;
}

/* Gives `line->left` that partner for good, if the others can still have a best matching. */
static bool
fix_line (Group *g, const Line *line)
{
  const guint32 left = node_of (g, line, true), right = node_of (g, line, false);
  if (g->fixed[left] || g->fixed[right])
    return false;
  g->fixed[left] = g->fixed[right] = true;
  if (can_cover (g, true) && can_cover (g, false))
    return true;
  g->fixed[left] = g->fixed[right] = false;
  return false;
}

/* Takes the first best matching of one group. A left node that no partner can be found for stays
 * alone: it is marked fixed when its lines are through. */
static void
take_first_of_group (Group *g, PfMatching *m)
{
  for (guint k = 0; k < g->n_lines; k++)
    {
      m->of_left[g->lines[k].left] = PF_NONE;
      m->of_right[g->lines[k].right] = PF_NONE;
    }
  for (guint k = 0; k < g->n_lines; k++)
    {
      const Line *line = &g->lines[k];
      if (fix_line (g, line))
        {
          m->of_left[line->left] = line->right;
          m->of_right[line->right] = line->left;
        }
      if (k + 1 == g->n_lines || g->lines[k + 1].left != line->left)
        g->fixed[line->left] = true;
    }
}

static guint32
find_root (guint32 *parents, guint32 node)
{
  while (parents[node] != node)
    node = parents[node] = parents[parents[node]];
  return node;
}

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  const Line *p = a, *q = b;
  if (p->group != q->group)
    return p->group < q->group ? -1 : 1;
  if (p->left != q->left)
    return p->left < q->left ? -1 : 1;
  return p->right < q->right ? -1 : p->right > q->right;
}

/* The lines that can be exchanged, group by group. */
static GArray *
find_choices (const PfTies *ties)
{
  const PfMatchGraph *graph = ties->graph;
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (Line));
  for (guint32 l = 0; l < graph->n_left; l++)
    for (guint32 e = graph->first[l]; e < graph->first[l + 1]; e++)
      if (pf_ties_choice (ties, l, e))
        {
          const Line line = { l, graph->partners[e], 0 };
          g_array_append_val (lines, line);
        }
  if (lines->len == 0)
    return lines;
  g_autofree guint32 *parents = g_new (guint32, ties->n_nodes);
  for (guint32 n = 0; n < ties->n_nodes; n++)
    parents[n] = n;
  for (guint k = 0; k < lines->len; k++)
    {
      const Line *line = &g_array_index (lines, Line, k);
      parents[find_root (parents, line->left)] = find_root (parents, graph->n_left + line->right);
    }
  for (guint k = 0; k < lines->len; k++)
    {
      Line *line = &g_array_index (lines, Line, k);
      line->group = find_root (parents, line->left);
    }
  g_array_sort (lines, compare_lines);
  return lines;
}

void
pf_matching_take_first (const PfMatchGraph *graph, PfMatching *matching)
{
  PfTies ties;
  pf_ties_find (&ties, graph, matching);
  g_autoptr (GArray) lines = find_choices (&ties);
  g_free (ties.component);
  if (lines->len == 0)
    return;
  const Line *all = (const Line *) (const void *) lines->data;
  g_autofree guint32 *partner = g_new (guint32, ties.n_nodes);
  g_autofree bool *seen = g_new0 (bool, ties.n_nodes);
  g_autofree bool *fixed = g_new0 (bool, ties.n_nodes);
  for (guint from = 0, to; from < lines->len; from = to)
    {
      for (to = from + 1; to < lines->len && all[to].group == all[from].group;)
        to++;
      Group group = { .lines = all + from,
                      .n_lines = to - from,
                      .matching = matching,
                      .partner = partner,
                      .seen = seen,
                      .fixed = fixed,
                      .n_left = graph->n_left };
      take_first_of_group (&group, matching);
    }
}
