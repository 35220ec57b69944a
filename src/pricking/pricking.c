/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A piece: the motifs of a drawing, each with its worked edge and its filling.
 */
#include "pricking.h"

#include <glib/gi18n-lib.h>

static void
motif_free (gpointer data)
{
  PfMotif *motif = data;
  pf_filling_free (motif->filling);
  if (motif->edges != NULL)
    for (size_t l = 0; l < motif->region->n_loops; l++)
      pf_edge_clear (&motif->edges[l]);
  g_free (motif->edges);
  pf_region_free (motif->region);
  g_free (motif->name);
  g_free (motif);
}

void
pf_pricking_free (PfPricking *pricking)
{
  if (pricking == NULL)
    return;
  g_clear_pointer (&pricking->motifs, g_ptr_array_unref);
  g_clear_pointer (&pricking->background, g_ptr_array_unref);
  pf_ground_free (pricking->ground);
  g_free (pricking->title);
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
motif_new (PfOutline *outline, const PfFillingSettings *settings, bool origin_given)
{
  PfMotif *motif = g_new0 (PfMotif, 1);
  motif->name = g_steal_pointer (&outline->name);
  motif->region = g_steal_pointer (&outline->region);
  motif->settings = *settings;
  if (!origin_given)
    {
      const PfBox box = motif->region->box;
      motif->settings.placement.origin =
          (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
    }
  return motif;
}

static bool
add_motifs (PfPricking *pricking, PfDrawing *drawing, PfEdgeKind kind, double edge_gap,
            const PfFillingSettings *settings, bool origin_given, GError **error)
{
  for (guint o = 0; o < drawing->outlines->len; o++)
    {
      PfOutline *outline = g_ptr_array_index (drawing->outlines, o);
      PfMotif *motif = motif_new (outline, settings, origin_given);
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
  pricking->ground = ground;
  pricking->background = g_ptr_array_ref (drawing->background);
  pricking->motifs = g_ptr_array_new_with_free_func (motif_free);
  const bool done = pf_filling_settings_check (settings, error) &&
                    add_motifs (pricking, drawing, kind, edge_gap, settings, origin_given, error);
  pf_drawing_free (drawing);
  return done ? g_steal_pointer (&pricking) : NULL;
}

bool
pf_pricking_fill (PfPricking *pricking, GError **error)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      PfFilling *filling =
          pf_filling_new (motif->region, motif->edges, pricking->ground, &motif->settings, error);
      if (filling == NULL)
        {
          g_prefix_error (error, _ ("Motif “%s”: "), motif->name);
          return false;
        }
      pf_filling_free (motif->filling);
      motif->filling = filling;
    }
  return true;
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
