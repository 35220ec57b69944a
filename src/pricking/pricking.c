/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A piece: the motifs of a drawing, each with its worked edge and its filling.
 */
#include <glib/gi18n-lib.h>

#include <thread-lengths.h>

#include "document-private.h"

PfMotif *
pf_motif_ref (PfMotif *motif)
{
  g_atomic_int_inc (&motif->refs);
  return motif;
}

void
pf_motif_unref (PfMotif *motif)
{
  if (motif == NULL || !g_atomic_int_dec_and_test (&motif->refs))
    return;
  pf_laid_free (motif->laid);
  pf_working_steps_free (motif->steps);
  pf_filling_free (motif->filling);
  if (motif->edges != NULL && motif->region != NULL)
    for (size_t l = 0; l < motif->region->n_loops; l++)
      pf_edge_clear (&motif->edges[l]);
  g_free (motif->edges);
  pf_settings_clear (&motif->settings);
  pf_thread_use_clear (&motif->thread);
  pf_region_free (motif->region);
  pf_ground_free (motif->ground);
  g_free (motif->name);
  g_free (motif);
}

static double
thread_thickness (const PfThreadUse *use)
{
  return use->wraps_per_cm > 0 ? pf_thread_thickness (use->wraps_per_cm) : 0;
}

const PfLaid *
pf_motif_laid (const PfMotif *motif)
{
  PfLaid **kept = &((PfMotif *) motif)->laid; /* it says nothing that the motif doesn't */
  PfLaid *laid = g_atomic_pointer_get (kept);
  if (laid != NULL)
    return laid;
  laid = pf_laid_new (motif->filling, motif->ground, thread_thickness (&motif->thread));
  if (g_atomic_pointer_compare_and_exchange (kept, NULL, laid))
    return laid;
  pf_laid_free (laid); /* another was faster */
  return g_atomic_pointer_get (kept);
}

const PfWorkingSteps *
pf_motif_steps (const PfMotif *motif)
{
  PfWorkingSteps **kept = &((PfMotif *) motif)->steps;
  PfWorkingSteps *steps = g_atomic_pointer_get (kept);
  if (steps != NULL)
    return steps;
  steps = pf_working_steps_new (motif->filling, motif->ground);
  if (g_atomic_pointer_compare_and_exchange (kept, NULL, steps))
    return steps;
  pf_working_steps_free (steps);
  return g_atomic_pointer_get (kept);
}

void
pf_pricking_free (PfPricking *pricking)
{
  if (pricking == NULL)
    return;
  g_clear_pointer (&pricking->motifs, g_ptr_array_unref);
  g_clear_pointer (&pricking->background, g_ptr_array_unref);
  g_free (pricking->title);
  g_free (pricking->notes);
  g_free (pricking);
}

static bool
motif_init_edges (PfMotif *motif, const PfOutline *outline, PfEdgeKind kind, double gap,
                  GError **error)
{
  const PfRegion *region = motif->region;
  motif->edges = g_new0 (PfEdge, region->n_loops);
  for (size_t l = 0; l < region->n_loops; l++)
    {
      const PfLoop *loop = &region->loops[l];
      const GArray *own = outline->pinholes[l];
      const bool done =
          own != NULL && own->len > 0
              ? pf_edge_init_given (&motif->edges[l], loop, kind, gap,
                                    (const double *) (const void *) own->data, own->len, error)
              : pf_edge_init_even (&motif->edges[l], loop, kind, gap, error);
      if (!done)
        return false;
    }
  return true;
}

/* Takes the region and the name over from `outline`. */
static PfMotif *
motif_new (PfOutline *outline, PfGround *ground, const PfFillingSettings *settings,
           bool origin_given)
{
  PfMotif *motif = g_new0 (PfMotif, 1);
  motif->refs = 1;
  motif->ground = pf_ground_ref (ground);
  motif->name = g_steal_pointer (&outline->name);
  motif->region = g_steal_pointer (&outline->region);
  motif->settings = *settings;
  pf_settings_own (&motif->settings);
  motif->thread = pf_thread_use_default ();
  if (!origin_given)
    {
      const PfBox box = motif->region->box;
      motif->settings.placement.origin =
          (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
    }
  return motif;
}

static bool
add_motifs (PfPricking *pricking, PfDrawing *drawing, PfGround *ground, PfEdgeKind kind,
            double edge_gap, const PfFillingSettings *settings, bool origin_given, GError **error)
{
  for (guint o = 0; o < drawing->outlines->len; o++)
    {
      PfOutline *outline = g_ptr_array_index (drawing->outlines, o);
      PfMotif *motif = motif_new (outline, ground, settings, origin_given);
      g_ptr_array_add (pricking->motifs, motif);
      if (!motif_init_edges (motif, outline, kind, edge_gap, error))
        return false;
    }
  return true;
}

PfPricking *
pf_pricking_new (const char *title, PfDrawing *drawing, PfGround *ground, PfEdgeKind kind,
                 double edge_gap, const PfFillingSettings *settings, bool origin_given,
                 GError **error)
{
  g_autoptr (PfPricking) pricking = g_new0 (PfPricking, 1);
  pricking->title = g_strdup (title);
  pricking->width = drawing->width;
  pricking->height = drawing->height;
  pricking->background = g_ptr_array_ref (drawing->background);
  pricking->motifs = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_motif_unref);
  const bool done =
      pf_filling_settings_check (settings, error) &&
      add_motifs (pricking, drawing, ground, kind, edge_gap, settings, origin_given, error);
  pf_drawing_free (drawing);
  pf_ground_free (ground);
  return done ? g_steal_pointer (&pricking) : NULL;
}

bool
pf_pricking_fill (PfPricking *pricking, GError **error)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      if (motif->filling != NULL)
        continue;
      PfFilling *filling =
          pf_filling_new (motif->region, motif->edges, motif->ground, &motif->settings, error);
      if (filling == NULL)
        {
          g_prefix_error (error, _ ("Motif “%s”: "), motif->name);
          return false;
        }
      motif->filling = filling;
    }
  return true;
}

void
pf_pricking_set_thread (PfPricking *pricking, const PfThreadUse *thread)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      pf_thread_use_clear (&motif->thread);
      motif->thread = pf_thread_use_copy (thread);
      g_clear_pointer (&motif->laid, pf_laid_free);
    }
}

const PfGround *
pf_pricking_ground (const PfPricking *pricking)
{
  const PfGround *ground = NULL;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      if (motif->ground == NULL || (ground != NULL && !pf_ground_equal (motif->ground, ground)))
        return NULL;
      ground = motif->ground;
    }
  return ground;
}

bool
pf_pricking_has_core (const PfPricking *pricking)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      if (motif->ground != NULL && motif->ground->has_core)
        return true;
    }
  return false;
}

PfCounts
pf_pricking_counts (const PfPricking *pricking)
{
  PfCounts sum = { 0 };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      if (motif->filling != NULL)
        pf_counts_add (&sum, &motif->filling->counts);
    }
  return sum;
}
