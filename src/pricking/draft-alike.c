/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tells whether two drafts give the same motif, so that a step at the pillow, which changes only
 * the draft's account of itself, doesn't have everything worked out anew.
 */
#include <string.h>

#include "document-private.h"

static bool
same_array (const void *a, const void *b, size_t n_a, size_t n_b, size_t size)
{
  return n_a == n_b && (n_a == 0 || memcmp (a, b, n_a * size) == 0);
}

static bool
same_edge (const PfDraftEdge *a, const PfDraftEdge *b)
{
  return a->kind == b->kind && a->gap == b->gap && a->even == b->even &&
         same_array (a->pinholes, b->pinholes, a->n_pinholes, b->n_pinholes, sizeof *a->pinholes) &&
         same_array (a->stretches, b->stretches, a->n_stretches, b->n_stretches,
                     sizeof *a->stretches);
}

static bool
same_curves (const PfDraft *a, const PfDraft *b)
{
  if (a->n_curves != b->n_curves)
    return false;
  for (size_t c = 0; c < a->n_curves; c++)
    if (a->curves[c] != b->curves[c] || !same_edge (&a->edges[c], &b->edges[c]))
      return false;
  return true;
}

/* Byte by byte, so that no setting can be forgotten; copies have the same bytes between them. */
static bool
same_settings (const PfFillingSettings *a, const PfFillingSettings *b)
{
  PfFillingSettings plain[2];
  memcpy (&plain[0], a, sizeof *a);
  memcpy (&plain[1], b, sizeof *b);
  for (int s = 0; s < 2; s++)
    {
      plain[s].choices = NULL;
      plain[s].sewing_choices = NULL;
    }
  return memcmp (&plain[0], &plain[1], sizeof plain[0]) == 0 &&
         same_array (a->choices, b->choices, a->n_choices, b->n_choices, sizeof *a->choices) &&
         same_array (a->sewing_choices, b->sewing_choices, a->n_sewing_choices, b->n_sewing_choices,
                     sizeof *a->sewing_choices);
}

static bool
same_thread (const PfThreadUse *a, const PfThreadUse *b)
{
  return g_strcmp0 (a->name, b->name) == 0 && a->wraps_per_cm == b->wraps_per_cm &&
         a->spare == b->spare && a->rule.from == b->rule.from && a->rule.to == b->rule.to &&
         same_array (a->colours, b->colours, a->n_colours, b->n_colours, sizeof *a->colours);
}

bool
pf_draft_works_alike (const PfDraft *a, const PfDraft *b)
{
  return a == b || (g_strcmp0 (a->name, b->name) == 0 && a->ground == b->ground &&
                    g_strcmp0 (a->mirror_of, b->mirror_of) == 0 &&
                    memcmp (&a->mirror_axis, &b->mirror_axis, sizeof a->mirror_axis) == 0 &&
                    same_curves (a, b) && same_settings (&a->settings, &b->settings) &&
                    same_thread (&a->thread, &b->thread));
}
