/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The outlines of an imported drawing, taken into a document as motifs.
 */
#include "document-private.h"

#include <math.h>

/* Numbers of a drawing come out of unit conversions with a tail of rounding. A millionth of a mm is
 * far finer than anything drawn, and short in a file. */
static double
tidy (double mm)
{
  return round (mm * 1e6) / 1e6;
}

static PfPoint
tidy_point (PfPoint p)
{
  return (PfPoint){ tidy (p.x), tidy (p.y) };
}

static PfCurve *
tidy_curve (const PfCurve *curve)
{
  g_autofree PfNode *nodes = g_memdup2 (curve->nodes, curve->n_nodes * sizeof *nodes);
  for (size_t n = 0; n < curve->n_nodes; n++)
    {
      nodes[n].at = tidy_point (nodes[n].at);
      nodes[n].in = tidy_point (nodes[n].in);
      nodes[n].out = tidy_point (nodes[n].out);
    }
  return pf_curve_new (nodes, curve->n_nodes, curve->closed);
}

/* The drawing's own pinholes are the edge's where it has some. */
static void
take_pinholes (PfDraft *draft, size_t curve, const GArray *own)
{
  if (own && own->len > 0)
    pf_draft_set_pinholes (draft, curve, (const double *) (const void *) own->data, own->len);
}

static PfDraft *
draft_from_outline (const PfOutline *outline, const PfDraft *like)
{
  PfDraft *draft = pf_draft_new (outline->name, NULL);
  pf_draft_set_ground (draft, like->ground, like->ground_json);
  draft->settings = like->settings;
  draft->settings.choices = NULL;
  draft->settings.n_choices = 0;
  draft->settings.sewing_choices = NULL;
  draft->settings.n_sewing_choices = 0;
  const PfBox box = outline->region->box;
  draft->settings.placement.origin =
      tidy_point ((PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 });
  for (size_t l = 0; l < outline->region->n_loops; l++)
    {
      g_autoptr (PfCurve) curve = tidy_curve (outline->curves[l]);
      pf_draft_add_curve (draft, curve);
      if (like->n_curves > 0)
        {
          draft->edges[l].kind = like->edges[0].kind;
          draft->edges[l].gap = like->edges[0].gap;
        }
      take_pinholes (draft, l, outline->pinholes[l]);
    }
  return draft;
}

static void
add_polylines (GPtrArray *to, const GPtrArray *from)
{
  for (guint i = 0; i < from->len; i++)
    {
      const PfPolyline *line = g_ptr_array_index (from, i);
      PfPolyline *own = pf_polyline_new (line->points, line->n_points, line->closed);
      for (size_t p = 0; p < own->n_points; p++)
        own->points[p] = tidy_point (own->points[p]);
      g_ptr_array_add (to, own);
    }
}

static void
cover (PfPoint *far, PfPoint p)
{
  far->x = fmax (far->x, p.x);
  far->y = fmax (far->y, p.y);
}

/* How far to the right and down the outlines chosen reach, and the drawing's other lines, as far as
 * they lie in it. */
static PfPoint
reach_of (const PfDrawing *drawing, const bool *chosen)
{
  PfPoint far = { 0, 0 };
  for (guint o = 0; o < drawing->outlines->len; o++)
    {
      const PfOutline *outline = g_ptr_array_index (drawing->outlines, o);
      if (!chosen || chosen[o])
        cover (&far, outline->region->box.max);
    }
  for (guint l = 0; l < drawing->background->len; l++)
    {
      const PfPolyline *line = g_ptr_array_index (drawing->background, l);
      for (size_t p = 0; p < line->n_points; p++)
        cover (&far, (PfPoint){ fmin (line->points[p].x, drawing->width),
                                fmin (line->points[p].y, drawing->height) });
    }
  return far;
}

/* A sheet that is too small for what came becomes as large as the drawing, or even larger where
 * that runs over its own edge. */
static double
grown (double own, double reach, double drawings)
{
  return reach > own ? tidy (fmax (reach, drawings)) : own;
}

/* The size and the background, in a document that is still one's own copy. */
static void
take_surroundings (PfDocument *document, const PfDrawing *drawing, const bool *chosen)
{
  GPtrArray *background = pf_polylines_new ();
  if (document->n_drafts > 0)
    {
      const PfPoint reach = reach_of (drawing, chosen);
      document->width = grown (document->width, reach.x, drawing->width);
      document->height = grown (document->height, reach.y, drawing->height);
      add_polylines (background, document->background);
    }
  else
    {
      document->width = tidy (drawing->width);
      document->height = tidy (drawing->height);
    }
  add_polylines (background, drawing->background);
  g_ptr_array_unref (document->background);
  document->background = background;
}

PfDocument *
pf_document_with_drawing (const PfDocument *document, const PfDrawing *drawing, const bool *chosen,
                          const PfDraft *like)
{
  PfDocument *with = pf_document_copy (document);
  guint64 number = pf_document_next_number (document);
  take_surroundings (with, drawing, chosen);
  for (guint o = 0; o < drawing->outlines->len; o++)
    if (!chosen || chosen[o])
      pf_document_append (with, draft_from_outline (g_ptr_array_index (drawing->outlines, o), like),
                          number++);
  return with;
}
