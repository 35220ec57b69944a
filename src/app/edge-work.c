/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pinholes are changed from the list that was worked out, evenly spaced or not, so that all others
 * stay where the maker saw them.
 */
#include "edge-work.h"

#include <math.h>

#include <glib/gi18n-lib.h>

PfMotif *
pf_edge_motif (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  if (active < 0)
    return NULL;
  const PfMotif *motif = pf_editor_motif (editor, (size_t) active);
  if (motif != NULL)
    return pf_motif_ref ((PfMotif *) motif);
  if (pf_editor_trouble (editor, (size_t) active, NULL) != NULL)
    return NULL;
  g_autoptr (PfDraft) draft = pf_document_resolve (pf_editor_document (editor), (size_t) active);
  g_autoptr (PfDraft) empty = pf_draft_copy (draft);
  pf_draft_set_ground (empty, NULL, NULL);
  return pf_motif_new (empty, NULL, NULL);
}

double
pf_edge_nearest (const PfMotif *motif, size_t loop, PfPoint p, double *distance)
{
  const PfLoop *l = &motif->region->loops[loop];
  double best = INFINITY, along = 0;
  for (size_t i = 0; i < l->n_points; i++)
    {
      const PfPoint a = l->points[i], b = l->points[i + 1 < l->n_points ? i + 1 : 0];
      const double x = b.x - a.x, y = b.y - a.y;
      const double t = CLAMP (((p.x - a.x) * x + (p.y - a.y) * y) / (x * x + y * y), 0, 1);
      const double d = hypot (a.x + t * x - p.x, a.y + t * y - p.y);
      if (d >= best)
        continue;
      best = d;
      along = l->along[i] + t * (l->along[i + 1] - l->along[i]);
    }
  if (distance != NULL)
    *distance = best;
  return pf_edge_wrap (motif, loop, along);
}

static bool
is_on_outline (PfEditor *editor, size_t n, PfPoint p, double reach, PfPlace *place)
{
  const PfMotif *motif = pf_editor_motif (editor, n);
  double distance;
  if (motif == NULL)
    return false;
  *place = pf_region_nearest (motif->region, p, &distance);
  return distance <= reach;
}

bool
pf_edge_find_outline (PfEditor *editor, PfPoint p, double reach, size_t *draft, PfPlace *place)
{
  const size_t n_drafts = pf_editor_document (editor)->n_drafts;
  const int active = pf_editor_active (editor);
  *draft = active >= 0 ? (size_t) active : 0;
  if (active >= 0 && is_on_outline (editor, *draft, p, reach, place))
    return true;
  for (*draft = 0; *draft < n_drafts; ++*draft)
    if (is_on_outline (editor, *draft, p, reach, place))
      return true;
  return false;
}

double
pf_edge_way (const PfMotif *motif, size_t loop, double from, double to)
{
  const double length = pf_loop_length (&motif->region->loops[loop]);
  return remainder (to - from, length);
}

double
pf_edge_wrap (const PfMotif *motif, size_t loop, double along)
{
  const double length = pf_loop_length (&motif->region->loops[loop]);
  const double wrapped = along - length * floor (along / length);
  return wrapped < length ? wrapped : 0;
}

guint32
pf_edge_pinhole_near (const PfMotif *motif, size_t loop, double along)
{
  const PfEdge *edge = &motif->edges[loop];
  guint32 best = PF_NONE;
  double least = INFINITY;
  for (size_t p = 0; p < edge->n_pinholes; p++)
    {
      const double d = fabs (pf_edge_way (motif, loop, along, edge->pinholes[p]));
      if (d >= least)
        continue;
      least = d;
      best = (guint32) p;
    }
  return best;
}

guint32
pf_edge_next_pinhole (const PfMotif *motif, size_t loop, double along, int step)
{
  const PfEdge *edge = &motif->edges[loop];
  const PfLoop *l = &motif->region->loops[loop];
  guint32 best = PF_NONE;
  double least = INFINITY;
  for (size_t p = 0; p < edge->n_pinholes; p++)
    {
      const double d = step > 0 ? pf_loop_forward (l, along, edge->pinholes[p])
                                : pf_loop_forward (l, edge->pinholes[p], along);
      if (d <= PF_TOUCH || d >= least)
        continue;
      least = d;
      best = (guint32) p;
    }
  return best;
}

/* --- Changes ------------------------------------------------------------------------------------
 */

static guint32
find_pinhole (const PfDraftEdge *edge, double along)
{
  for (size_t p = 0; p < edge->n_pinholes; p++)
    if (fabs (edge->pinholes[p] - along) <= PF_TOUCH)
      return (guint32) p;
  return PF_NONE;
}

guint32
pf_edge_move_pinhole (PfDraft *draft, const PfMotif *motif, size_t loop, guint32 pinhole, double by)
{
  const PfEdge *edge = &motif->edges[loop];
  const PfLoop *l = &motif->region->loops[loop];
  const size_t n = edge->n_pinholes;
  const double at = edge->pinholes[pinhole], length = pf_loop_length (l);
  double back = length / 2, on = length / 2;
  if (n > 1)
    {
      back = pf_loop_forward (l, edge->pinholes[(pinhole + n - 1) % n], at) - PF_PINHOLES_APART;
      on = pf_loop_forward (l, at, edge->pinholes[(pinhole + 1) % n]) - PF_PINHOLES_APART;
    }
  g_autofree double *places = g_memdup2 (edge->pinholes, n * sizeof *places);
  places[pinhole] =
      pf_edge_wrap (motif, loop, at + fmax (fmin (by, fmax (on, 0)), fmin (-back, 0)));
  pf_draft_set_pinholes (draft, loop, places, n);
  return find_pinhole (&draft->edges[loop], places[pinhole]);
}

guint32
pf_edge_add_pinhole (PfDraft *draft, const PfMotif *motif, size_t loop, double along)
{
  const PfEdge *edge = &motif->edges[loop];
  const size_t n = edge->n_pinholes;
  const double at = pf_edge_wrap (motif, loop, along);
  const guint32 nearest = pf_edge_pinhole_near (motif, loop, at);
  if (nearest != PF_NONE &&
      fabs (pf_edge_way (motif, loop, at, edge->pinholes[nearest])) < PF_PINHOLES_APART - PF_TOUCH)
    return PF_NONE;
  g_autofree double *places = g_new (double, n + 1);
  for (size_t p = 0; p < n; p++)
    places[p] = edge->pinholes[p];
  places[n] = at;
  pf_draft_set_pinholes (draft, loop, places, n + 1);
  return find_pinhole (&draft->edges[loop], at);
}

void
pf_edge_remove_pinhole (PfDraft *draft, const PfMotif *motif, size_t loop, guint32 pinhole)
{
  const PfEdge *edge = &motif->edges[loop];
  g_autofree double *places = g_new (double, edge->n_pinholes);
  size_t n = 0;
  for (size_t p = 0; p < edge->n_pinholes; p++)
    if (p != pinhole)
      places[n++] = edge->pinholes[p];
  pf_draft_set_pinholes (draft, loop, places, n);
}

void
pf_edge_add_stretch (PfDraft *draft, const PfMotif *motif, size_t loop, double from, double to)
{
  const PfDraftEdge *edge = &draft->edges[loop];
  const PfEdgeKind around = pf_edge_kind_at (&motif->edges[loop], from);
  g_autofree PfEdgeStretch *stretches = g_new (PfEdgeStretch, edge->n_stretches + 1);
  for (size_t s = 0; s < edge->n_stretches; s++)
    stretches[s] = edge->stretches[s];
  stretches[edge->n_stretches] =
      (PfEdgeStretch){ from, to,
                       around == PF_EDGE_HALF_STITCH ? PF_EDGE_CLOTH_STITCH : PF_EDGE_HALF_STITCH };
  pf_draft_set_stretches (draft, loop, stretches, edge->n_stretches + 1);
}

char *
pf_edge_loop_name (size_t loop)
{
  return loop == 0 ? g_strdup (_ ("Outer outline")) : g_strdup_printf (_ ("Hole %zu"), loop);
}
