/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Changes to a draft's curves, and what becomes of the places along them: each stays at its point
 * of the sheet, or goes to the nearest point of the same segment, or else of the whole curve.
 */
#include <math.h>

#include "document-private.h"

/* From places along one curve to places along another. */
typedef struct {
  PfTrail from, to;
  PfAffine map;
  bool reversed;   /* the new curve is the old one, the other way round */
  bool by_segment; /* it has the same segments, of another shape */
} Move;

static bool
is_reversed (const PfCurve *from, const PfCurve *to, PfAffine map)
{
  g_autoptr (PfCurve) mapped = pf_curve_mapped (from, map);
  g_autoptr (PfCurve) back = pf_curve_reversed (mapped);
  return pf_curve_equal (to, back);
}

static void
move_init (Move *move, const PfCurve *from, const PfCurve *to, const PfAffine *map)
{
  pf_trail_init (&move->from, from);
  pf_trail_init (&move->to, to);
  move->map = map ? *map : PF_AFFINE_IDENTITY;
  move->reversed = is_reversed (from, to, move->map);
  move->by_segment = !move->reversed && from->closed == to->closed && move->from.nodes &&
                     move->to.nodes && move->from.n_segments == move->to.n_segments;
}

static void
move_clear (Move *move)
{
  pf_trail_clear (&move->from);
  pf_trail_clear (&move->to);
}

/* A place at a node goes with the node. */
static double
move_along_segment (const Move *move, double along, PfPoint at)
{
  const PfTrail *from = &move->from, *to = &move->to;
  const size_t segment = pf_trail_segment (from, along);
  const size_t start = to->nodes[segment], end = to->nodes[segment + 1];
  if (along - from->along[from->nodes[segment]] <= PF_TOUCH)
    return to->along[start];
  return pf_trail_nearest (to, at, start, end);
}

static double
move_place (const Move *move, double along)
{
  const PfPoint at = pf_affine_map (move->map, pf_trail_point (&move->from, along));
  return move->by_segment ? move_along_segment (move, along, at)
                          : pf_trail_nearest (&move->to, at, 0, move->to.n - 1);
}

static void
move_pinholes (const Move *move, PfDraft *draft, size_t n)
{
  PfDraftEdge *edge = &draft->edges[n];
  if (edge->even)
    return;
  for (size_t k = 0; k < edge->n_pinholes; k++)
    edge->pinholes[k] = move_place (move, edge->pinholes[k]);
  g_autofree double *moved = g_steal_pointer (&edge->pinholes);
  pf_draft_set_pinholes (draft, n, moved, edge->n_pinholes);
}

/* A stretch that shrinks to nothing goes: one whose ends are the same is the whole loop. */
static void
move_stretches (const Move *move, PfDraftEdge *edge)
{
  size_t kept = 0;
  for (size_t k = 0; k < edge->n_stretches; k++)
    {
      const PfEdgeStretch old = edge->stretches[k];
      PfEdgeStretch *new = &edge->stretches[kept];
      *new = old;
      new->from = move_place (move, move->reversed ? old.to : old.from);
      new->to = move_place (move, move->reversed ? old.from : old.to);
      kept += old.from == old.to || fabs (new->from - new->to) > PF_TOUCH;
    }
  edge->n_stretches = kept;
}

static bool
is_at_place (const PfSewingChoice *choice)
{
  return choice->kind == PF_SEW_PINHOLE || choice->kind == PF_SEW_BAR;
}

static void
move_choices (const Move *move, PfFillingSettings *settings, size_t n)
{
  PfSewingChoice *choices = (PfSewingChoice *) settings->sewing_choices; /* the draft's own */
  for (size_t k = 0; k < settings->n_sewing_choices; k++)
    if (is_at_place (&choices[k]) && choices[k].place.loop == n)
      choices[k].place.along = move_place (move, choices[k].place.along);
}

static bool
has_places (const PfDraft *draft, size_t n)
{
  const PfDraftEdge *edge = &draft->edges[n];
  return edge->n_pinholes > 0 || edge->n_stretches > 0 || draft->settings.n_sewing_choices > 0;
}

void
pf_draft_set_curve (PfDraft *draft, size_t n, PfCurve *curve, const PfAffine *map)
{
  g_return_if_fail (n < draft->n_curves);
  PfCurve *old = draft->curves[n];
  draft->curves[n] = pf_curve_ref (curve);
  if (has_places (draft, n) && !pf_curve_equal (old, curve))
    {
      Move move;
      move_init (&move, old, curve, map);
      if (move.from.n > 0 && move.to.n > 0)
        {
          move_pinholes (&move, draft, n);
          move_stretches (&move, &draft->edges[n]);
          move_choices (&move, &draft->settings, n);
        }
      move_clear (&move);
    }
  pf_curve_unref (old);
}

/* Choices of places along the curve go with it; those along later ones keep to theirs. */
static void
remove_places (PfFillingSettings *settings, size_t n)
{
  PfSewingChoice *choices = (PfSewingChoice *) settings->sewing_choices; /* the draft's own */
  size_t kept = 0;
  for (size_t k = 0; k < settings->n_sewing_choices; k++)
    {
      PfSewingChoice choice = choices[k];
      if (is_at_place (&choice) && choice.place.loop == n)
        continue;
      if (is_at_place (&choice) && choice.place.loop > n)
        choice.place.loop--;
      choices[kept++] = choice;
    }
  settings->n_sewing_choices = kept;
}

void
pf_draft_remove_curve (PfDraft *draft, size_t n)
{
  g_return_if_fail (n < draft->n_curves);
  pf_curve_unref (draft->curves[n]);
  pf_draft_edge_clear (&draft->edges[n]);
  draft->n_curves--;
  for (size_t c = n; c < draft->n_curves; c++)
    {
      draft->curves[c] = draft->curves[c + 1];
      draft->edges[c] = draft->edges[c + 1];
    }
  remove_places (&draft->settings, n);
}

/* From 0 to less than 360 degrees, without what sine and cosine lose. */
static double
tidy_turn (double degrees)
{
  const double rounded = round (degrees * 1e10) / 1e10;
  const double turn = fmod (rounded, 360);
  return turn < 0 ? turn + 360 : turn + 0.0;
}

/* A similarity that turns over is a left to right mirror image turned by `angle`; what was turned
 * before that mirror is turned back after it. */
PfPlacement
pf_placement_mapped (PfPlacement placement, PfAffine map)
{
  const double det = pf_affine_determinant (map);
  const bool over = det < 0;
  const double angle = (over ? atan2 (-map.yx, -map.xx) : atan2 (map.yx, map.xx)) * 180 / G_PI;
  return (PfPlacement){
    .gap = placement.gap * sqrt (fabs (det)),
    .turn = tidy_turn (over ? angle - placement.turn : angle + placement.turn),
    .origin = pf_affine_map (map, placement.origin),
    .mirror = placement.mirror != over,
    .angle = placement.angle,
  };
}

void
pf_draft_map (PfDraft *draft, PfAffine map)
{
  const double scale = sqrt (fabs (pf_affine_determinant (map)));
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      g_autoptr (PfCurve) mapped = pf_curve_mapped (draft->curves[c], map);
      pf_draft_set_curve (draft, c, mapped, &map);
      draft->edges[c].gap *= scale;
    }
  draft->settings.placement = pf_placement_mapped (draft->settings.placement, map);
}
