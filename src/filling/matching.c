/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The matching of greatest weight, one left node after the other.
 *
 * The invariant is in matching.h: prices that prove the matching so far to be the best among the
 * left nodes seen so far. A new left node looks for the cheapest way to fit in: along lines whose
 * "loss" (the two prices less the weight) is smallest, from left to right, and from a right node
 * that is taken back to the left node that has it. The way ends at a free right node, or at a left
 * node that had better go without a partner, at the loss of its price. This is the shortest
 * augmenting path method (J. Edmonds and R. M. Karp, Journal of the ACM 19, 1972, with the
 * potentials of N. Tomizawa, Networks 1, 1971). A search ends as soon as no way can be cheaper than
 * the best end found; along an outline, where a crossing has few and near partners, it touches a
 * handful of nodes.
 */
#include "matching.h"

typedef struct {
  PfWeight loss;
  guint32 right;
} Reached;

/* How a right node was reached last. */
typedef struct {
  PfWeight loss;  /* the least at which the search reaches it */
  guint32 via;    /* the left node it is reached from */
  guint32 search; /* the number of the search */
} Reach;

/* One search: what it reached, and how. */
typedef struct {
  const PfMatchGraph *graph;
  PfMatching *matching;
  Reached *heap; /* least loss first; a right node may stand in it several times, once for each of
                    its lines */
  guint32 n_heap;
  Reach *reaches;   /* per right node */
  guint32 number;   /* of this search */
  Reached *settled; /* the right nodes whose loss is final, in order */
  guint32 n_settled;
  PfWeight best;     /* the loss at the best end so far */
  guint32 end_right; /* the free right node where it ends, or PF_NONE */
  guint32 end_left;  /* or the left node that goes without */
} Search;

static void
heap_push (Search *s, Reached item)
{
  Reached *items = s->heap;
  guint32 at = s->n_heap++;
  while (at > 0 && pf_weight_less (item.loss, items[(at - 1) / 2].loss))
    {
      items[at] = items[(at - 1) / 2];
      at = (at - 1) / 2;
    }
  items[at] = item;
}

static Reached
heap_pop (Search *s)
{
  Reached *items = s->heap;
  const Reached top = items[0];
  const guint32 n = --s->n_heap;
  const Reached last = items[n];
  guint32 at = 0;
  for (guint32 child = 1; child < n; child = 2 * at + 1)
    {
      if (child + 1 < n && pf_weight_less (items[child + 1].loss, items[child].loss))
        child++;
      if (!pf_weight_less (items[child].loss, last.loss))
        break;
      items[at] = items[child];
      at = child;
    }
  items[at] = last;
  return top;
}

/* Looks at all partners of `left`, which the search reached at `loss`. */
static void
look_from (Search *s, guint32 left, PfWeight loss)
{
  const PfMatchGraph *graph = s->graph;
  const PfMatching *m = s->matching;
  const PfWeight base = pf_weight_add (loss, m->left_price[left]);
  if (pf_weight_less (base, s->best))
    {
      s->best = base;
      s->end_left = left;
      s->end_right = PF_NONE;
    }
  for (guint32 e = graph->first[left]; e < graph->first[left + 1]; e++)
    {
      const guint32 right = graph->partners[e];
      const PfWeight reached =
          pf_weight_subtract (pf_weight_add (base, m->right_price[right]), graph->weights[e]);
      if (!pf_weight_less (reached, s->best))
        continue;
      Reach *reach = &s->reaches[right];
      if (reach->search == s->number && !pf_weight_less (reached, reach->loss))
        continue;
      *reach = (Reach){ reached, left, s->number };
      if (m->of_right[right] == PF_NONE)
        {
          s->best = reached;
          s->end_right = right;
          s->end_left = PF_NONE;
        }
      else
        heap_push (s, (Reached){ reached, right });
    }
}

static void
find_way (Search *s, guint32 left)
{
  static const PfWeight zero = { { 0, 0, 0 } };
  s->n_heap = s->n_settled = 0;
  s->number++;
  s->best = (PfWeight){ { G_MAXINT64 / 2, 0, 0 } };
  look_from (s, left, zero);
  while (s->n_heap > 0)
    {
      const Reached reached = heap_pop (s);
      if (!pf_weight_less (reached.loss, s->best))
        break;
      if (pf_weight_less (s->reaches[reached.right].loss, reached.loss))
        continue; /* reached at less by another way, and settled already */
      s->settled[s->n_settled++] = reached;
      look_from (s, s->matching->of_right[reached.right], reached.loss);
    }
}

/* Moves the prices so that every line of the way found has no loss. */
static void
adjust_prices (Search *s, guint32 left)
{
  PfMatching *m = s->matching;
  m->left_price[left] = pf_weight_subtract (m->left_price[left], s->best);
  for (guint32 r = 0; r < s->n_settled; r++)
    {
      const Reached *reached = &s->settled[r];
      const PfWeight by = pf_weight_subtract (s->best, reached->loss);
      const guint32 owner = m->of_right[reached->right];
      m->left_price[owner] = pf_weight_subtract (m->left_price[owner], by);
      m->right_price[reached->right] = pf_weight_add (m->right_price[reached->right], by);
    }
}

/* Gives every right node on the way to the left node it was reached from. */
static void
take_way (Search *s, guint32 left)
{
  PfMatching *m = s->matching;
  guint32 right = s->end_right;
  if (right == PF_NONE)
    {
      if (s->end_left == left)
        return;
      right = m->of_left[s->end_left];
      m->of_left[s->end_left] = PF_NONE;
    }
  for (;;)
    {
      const guint32 taker = s->reaches[right].via;
      const guint32 next = m->of_left[taker];
      m->of_left[taker] = right;
      m->of_right[right] = taker;
      if (taker == left)
        return;
      right = next;
    }
}

/* The least price that covers every line of `left` at the right nodes' prices. `*right` gets the
 * first node whose line sets it, or PF_NONE. */
static PfWeight
first_price (const PfMatchGraph *graph, const PfMatching *m, guint32 left, guint32 *right)
{
  PfWeight price = { { 0, 0, 0 } };
  *right = PF_NONE;
  for (guint32 e = graph->first[left]; e < graph->first[left + 1]; e++)
    {
      const PfWeight gain =
          pf_weight_subtract (graph->weights[e], m->right_price[graph->partners[e]]);
      if (pf_weight_less (price, gain))
        {
          price = gain;
          *right = graph->partners[e];
        }
    }
  return price;
}

/* Fits in `left`. Where the right node that it wants most is free, there is nothing to search for.
 */
static void
add_left (Search *s, guint32 left)
{
  PfMatching *m = s->matching;
  guint32 right;
  m->left_price[left] = first_price (s->graph, m, left, &right);
  if (right != PF_NONE && m->of_right[right] == PF_NONE)
    {
      m->of_left[left] = right;
      m->of_right[right] = left;
      return;
    }
  find_way (s, left);
  adjust_prices (s, left);
  take_way (s, left);
}

void
pf_matching_solve (const PfMatchGraph *graph, PfMatching *matching)
{
  const guint32 n_left = graph->n_left, n_right = graph->n_right;
  matching->of_left = g_new (guint32, n_left);
  matching->of_right = g_new (guint32, n_right);
  matching->left_price = g_new0 (PfWeight, n_left);
  matching->right_price = g_new0 (PfWeight, n_right);
  for (guint32 l = 0; l < n_left; l++)
    matching->of_left[l] = PF_NONE;
  for (guint32 r = 0; r < n_right; r++)
    matching->of_right[r] = PF_NONE;

  g_autofree Reached *heap = g_new (Reached, graph->first[n_left]);
  g_autofree Reached *settled = g_new (Reached, n_right);
  g_autofree Reach *reaches = g_new0 (Reach, n_right);
  Search s = {
    .graph = graph, .matching = matching, .heap = heap, .reaches = reaches, .settled = settled
  };
  for (guint32 l = 0; l < n_left; l++)
    add_left (&s, l);
}

void
pf_matching_clear (PfMatching *matching)
{
  g_clear_pointer (&matching->of_left, g_free);
  g_clear_pointer (&matching->of_right, g_free);
  g_clear_pointer (&matching->left_price, g_free);
  g_clear_pointer (&matching->right_price, g_free);
}
