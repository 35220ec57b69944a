/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Changes to a draft's edges, ground and texts, while it is one's own copy. Pinholes always rise.
 */
#include <stdlib.h>

#include "document-private.h"

static void
replace_text (char **text, const char *by)
{
  char *copy = g_strdup (by);
  g_free (*text);
  *text = copy;
}

void
pf_draft_set_name (PfDraft *draft, const char *name)
{
  replace_text (&draft->name, name);
}

void
pf_draft_set_notes (PfDraft *draft, const char *notes)
{
  replace_text (&draft->notes, notes);
}

void
pf_draft_set_ground (PfDraft *draft, PfGround *ground, const char *json)
{
  if (!draft->ground || !ground || !pf_ground_equal (draft->ground, ground))
    pf_draft_reset_choices (draft);
  PfGround *old = draft->ground;
  draft->ground = ground ? pf_ground_ref (ground) : NULL;
  pf_ground_free (old);
  replace_text (&draft->ground_json, json);
}

void
pf_draft_set_thread (PfDraft *draft, const PfThreadUse *thread)
{
  PfThreadUse copy = pf_thread_use_copy (thread);
  pf_thread_use_clear (&draft->thread);
  draft->thread = copy;
}

void
pf_draft_add_curve (PfDraft *draft, PfCurve *curve)
{
  const size_t n = draft->n_curves++;
  draft->curves = g_renew (PfCurve *, draft->curves, n + 1);
  draft->edges = g_renew (PfDraftEdge, draft->edges, n + 1);
  draft->curves[n] = pf_curve_ref (curve);
  draft->edges[n] = pf_draft_edge_default ();
  if (n > 0)
    {
      draft->edges[n].kind = draft->edges[0].kind;
      draft->edges[n].gap = draft->edges[0].gap;
    }
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

void
pf_draft_set_pinholes (PfDraft *draft, size_t curve, const double *pinholes, size_t n)
{
  g_return_if_fail (curve < draft->n_curves);
  PfDraftEdge *edge = &draft->edges[curve];
  double *sorted = g_memdup2 (pinholes, n * sizeof *pinholes);
  if (n > 1)
    qsort (sorted, n, sizeof *sorted, compare_doubles);
  size_t kept = 0;
  for (size_t k = 0; k < n; k++)
    if (kept == 0 || sorted[k] - sorted[kept - 1] > PF_TOUCH)
      sorted[kept++] = sorted[k];
  g_free (edge->pinholes);
  edge->pinholes = sorted;
  edge->n_pinholes = kept;
  edge->even = false;
}

void
pf_draft_set_pinholes_even (PfDraft *draft, size_t curve, double gap)
{
  g_return_if_fail (curve < draft->n_curves);
  PfDraftEdge *edge = &draft->edges[curve];
  g_clear_pointer (&edge->pinholes, g_free);
  edge->n_pinholes = 0;
  edge->even = true;
  edge->gap = gap;
}

void
pf_draft_set_stretches (PfDraft *draft, size_t curve, const PfEdgeStretch *stretches, size_t n)
{
  g_return_if_fail (curve < draft->n_curves);
  PfDraftEdge *edge = &draft->edges[curve];
  PfEdgeStretch *copy = g_memdup2 (stretches, n * sizeof *stretches);
  g_free (edge->stretches);
  edge->stretches = copy;
  edge->n_stretches = n;
}
