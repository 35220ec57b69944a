/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drafts as wholes: made, shared, copied. A draft owns its texts and arrays; curves and grounds,
 * which never change, are shared.
 */
#include "document-private.h"

#define EDGE_GAP 2.0 /* mm */

PfDraftEdge
pf_draft_edge_default (void)
{
  return (PfDraftEdge){ .kind = PF_EDGE_HALF_STITCH, .gap = EDGE_GAP, .even = true };
}

PfDraftEdge
pf_draft_edge_copy (const PfDraftEdge *edge)
{
  PfDraftEdge copy = *edge;
  copy.pinholes = g_memdup2 (edge->pinholes, edge->n_pinholes * sizeof *edge->pinholes);
  copy.stretches = g_memdup2 (edge->stretches, edge->n_stretches * sizeof *edge->stretches);
  return copy;
}

void
pf_draft_edge_clear (PfDraftEdge *edge)
{
  g_clear_pointer (&edge->pinholes, g_free);
  g_clear_pointer (&edge->stretches, g_free);
  edge->n_pinholes = edge->n_stretches = 0;
}

PfDraft *
pf_draft_new (const char *name, PfGround *ground)
{
  PfDraft *draft = g_new0 (PfDraft, 1);
  draft->refs = 1;
  draft->id = g_strdup ("");
  draft->name = g_strdup (name);
  draft->notes = g_strdup ("");
  draft->settings = pf_filling_settings_default ();
  draft->thread = pf_thread_use_default ();
  draft->ground = ground ? pf_ground_ref (ground) : NULL;
  return draft;
}

PfDraft *
pf_draft_ref (PfDraft *draft)
{
  g_atomic_int_inc (&draft->refs);
  return draft;
}

void
pf_draft_unref (PfDraft *draft)
{
  if (!draft || !g_atomic_int_dec_and_test (&draft->refs))
    return;
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      pf_curve_unref (draft->curves[c]);
      pf_draft_edge_clear (&draft->edges[c]);
    }
  g_free (draft->curves);
  g_free (draft->edges);
  pf_settings_clear (&draft->settings);
  pf_thread_use_clear (&draft->thread);
  pf_pillow_clear (&draft->pillow);
  pf_ground_free (draft->ground);
  g_free (draft->ground_json);
  g_free (draft->mirror_of);
  g_free (draft->id);
  g_free (draft->name);
  g_free (draft->notes);
  g_free (draft);
}

PfDraft *
pf_draft_copy (const PfDraft *draft)
{
  PfDraft *copy = g_memdup2 (draft, sizeof *draft);
  copy->refs = 1;
  copy->id = g_strdup (draft->id);
  copy->name = g_strdup (draft->name);
  copy->notes = g_strdup (draft->notes);
  copy->curves = g_memdup2 (draft->curves, draft->n_curves * sizeof *draft->curves);
  copy->edges = g_memdup2 (draft->edges, draft->n_curves * sizeof *draft->edges);
  for (size_t c = 0; c < copy->n_curves; c++)
    {
      pf_curve_ref (copy->curves[c]);
      copy->edges[c] = pf_draft_edge_copy (&draft->edges[c]);
    }
  copy->ground = draft->ground ? pf_ground_ref (draft->ground) : NULL;
  copy->ground_json = g_strdup (draft->ground_json);
  pf_settings_own (&copy->settings);
  copy->thread = pf_thread_use_copy (&draft->thread);
  copy->pillow = pf_pillow_copy (&draft->pillow);
  copy->mirror_of = g_strdup (draft->mirror_of);
  return copy;
}
