/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From drafts to motifs: curves flattened to a region, the edges on it, the ground set in.
 *
 * Loop l of the region is curve l, from its node 0 on and in its direction, so that a place along
 * the curve is one along the loop. Nothing of the draft is changed: any thread may work one out.
 */
#include <math.h>

#include <glib/gi18n-lib.h>

#include "document-private.h"

static void
refuse_open (const PfCurve *curve, GError **error)
{
  if (curve->n_nodes == 0)
    {
      g_set_error_literal (error, PF_ERROR, PF_ERROR_OUTLINE,
                           _ ("An outline has no nodes. Draw it, or remove it."));
      return;
    }
  const PfPoint at = curve->nodes[curve->n_nodes - 1].at;
  g_set_error (error, PF_ERROR, PF_ERROR_OUTLINE,
               _ ("The outline ends at (%.2f, %.2f) mm without being closed. Go on to its first "
                  "node, or remove it."),
               at.x, at.y);
  pf_error_set_place (error, at);
}

static void
refuse_small (const PfCurve *curve, GError **error)
{
  const PfPoint at = curve->nodes[0].at;
  g_set_error (error, PF_ERROR, PF_ERROR_OUTLINE,
               _ ("The outline at (%.2f, %.2f) mm is a single point. Draw it, or remove it."), at.x,
               at.y);
  pf_error_set_place (error, at);
}

static bool
flatten (const PfCurve *curve, PfChain *chain, GError **error)
{
  if (!curve->closed || curve->n_nodes == 0)
    {
      refuse_open (curve, error);
      return false;
    }
  if (!pf_curve_flatten (curve, chain, error))
    return false;
  if (!chain->points)
    refuse_small (curve, error);
  return chain->points != NULL;
}

static PfRegion *
make_region (const PfDraft *draft, GError **error)
{
  g_autofree PfChain *chains = g_new0 (PfChain, MAX (draft->n_curves, 1));
  bool flat = true;
  for (size_t c = 0; c < draft->n_curves && flat; c++)
    flat = flatten (draft->curves[c], &chains[c], error);
  PfRegion *region = flat ? pf_region_new (chains, draft->n_curves, error) : NULL;
  for (size_t c = 0; c < draft->n_curves; c++)
    g_free (chains[c].points);
  return region;
}

/* A place that rounding has put on or just past the loop's end is its start. */
static double
on_loop (const PfLoop *loop, double along)
{
  const double length = pf_loop_length (loop);
  return along >= length && along <= length + PF_TOUCH ? 0 : along;
}

static bool
make_edge (PfEdge *edge, const PfDraftEdge *draft, const PfLoop *loop, GError **error)
{
  PfDraftEdge own = pf_draft_edge_copy (draft);
  for (size_t k = 0; k < own.n_pinholes; k++)
    own.pinholes[k] = on_loop (loop, own.pinholes[k]);
  for (size_t k = 0; k < own.n_stretches; k++)
    {
      own.stretches[k].from = on_loop (loop, own.stretches[k].from);
      own.stretches[k].to = on_loop (loop, own.stretches[k].to);
    }
  const bool done = (own.even ? pf_edge_init_even (edge, loop, own.kind, own.gap, error)
                              : pf_edge_init_given (edge, loop, own.kind, own.gap, own.pinholes,
                                                    own.n_pinholes, error)) &&
                    pf_edge_set_stretches (edge, loop, own.stretches, own.n_stretches, error);
  pf_draft_edge_clear (&own);
  return done;
}

static bool
make_edges (PfMotif *motif, const PfDraft *draft, GError **error)
{
  motif->edges = g_new0 (PfEdge, motif->region->n_loops);
  for (size_t l = 0; l < motif->region->n_loops; l++)
    if (!make_edge (&motif->edges[l], &draft->edges[l], &motif->region->loops[l], error))
      return false;
  return true;
}

static void
keep_choices_on_loops (PfMotif *motif)
{
  PfFillingSettings *s = &motif->settings;
  PfSewingChoice *choices = (PfSewingChoice *) s->sewing_choices; /* the motif's own */
  for (size_t k = 0; k < s->n_sewing_choices; k++)
    if (choices[k].place.loop < motif->region->n_loops)
      choices[k].place.along =
          on_loop (&motif->region->loops[choices[k].place.loop], choices[k].place.along);
}

static bool
fill_motif (PfMotif *motif, GError **error)
{
  if (!motif->ground)
    return true;
  motif->filling =
      pf_filling_new (motif->region, motif->edges, motif->ground, &motif->settings, error);
  return motif->filling != NULL;
}

PfMotif *
pf_motif_new (const PfDraft *draft, PfPoint *where, GError **error)
{
  g_autoptr (GError) inner = NULL;
  g_autoptr (PfMotif) motif = g_new0 (PfMotif, 1);
  motif->refs = 1;
  motif->name = g_strdup (draft->name);
  motif->ground = draft->ground ? pf_ground_ref (draft->ground) : NULL;
  motif->settings = draft->settings;
  pf_settings_own (&motif->settings);
  motif->thread = pf_thread_use_copy (&draft->thread);
  motif->region = make_region (draft, &inner);
  if (motif->region)
    keep_choices_on_loops (motif);
  const bool done = motif->region && make_edges (motif, draft, &inner) &&
                    pf_thread_use_check (&motif->thread, &inner) && fill_motif (motif, &inner);
  if (where)
    *where = pf_error_place (inner);
  if (done)
    return g_steal_pointer (&motif);
  g_propagate_error (error, g_steal_pointer (&inner));
  return NULL;
}

PfPricking *
pf_pricking_from_motifs (const PfDocument *document, GPtrArray *motifs)
{
  PfPricking *pricking = g_new0 (PfPricking, 1);
  pricking->title = g_strdup (document->title);
  pricking->notes = *document->notes ? g_strdup (document->notes) : NULL;
  pricking->width = document->width;
  pricking->height = document->height;
  pricking->background = g_ptr_array_ref (document->background);
  pricking->motifs = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_motif_unref);
  for (guint m = 0; m < motifs->len; m++)
    g_ptr_array_add (pricking->motifs, pf_motif_ref (g_ptr_array_index (motifs, m)));
  return pricking;
}

PfPricking *
pf_document_fill (const PfDocument *document, GError **error)
{
  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_motif_unref);
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      g_autoptr (PfDraft) draft = pf_document_resolve (document, n);
      if (!draft->ground)
        continue;
      PfMotif *motif = pf_motif_new (draft, NULL, error);
      if (!motif)
        {
          g_prefix_error (error, _ ("Motif “%s”: "), draft->name);
          return NULL;
        }
      g_ptr_array_add (motifs, motif);
    }
  return pf_pricking_from_motifs (document, motifs);
}
