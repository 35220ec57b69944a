/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A drag on an outline, as a function from where the pointer is to the changed draft.
 */
#include "outline-drag.h"

#include <glib/gi18n-lib.h>

#include "outline-edit.h"

/* A segment is bent at its middle part, else its handles would fly away. */
#define BEND_MIN 0.15

void
pf_outline_drag_begin (PfOutlineDrag *drag, PfSpot spot, PfDraft *start, PfPoint press,
                       double pixel)
{
  pf_outline_drag_clear (drag);
  *drag = (PfOutlineDrag){ .spot = spot, .press = press, .pixel = pixel };
  drag->start = start != NULL ? pf_draft_ref (start) : NULL;
}

void
pf_outline_drag_clear (PfOutlineDrag *drag)
{
  g_clear_pointer (&drag->start, pf_draft_unref);
  drag->spot.on = PF_ON_NOTHING;
}

static const PfNode *
dragged_node (const PfOutlineDrag *drag)
{
  return &drag->start->curves[drag->spot.node.curve]->nodes[drag->spot.node.node];
}

PfPoint
pf_outline_drag_anchor (const PfOutlineDrag *drag)
{
  PfBox box;
  switch (drag->spot.on)
    {
    case PF_ON_NODE:
      return dragged_node (drag)->at;
    case PF_ON_HANDLE:
      return drag->spot.handle == PF_HANDLE_IN ? dragged_node (drag)->in : dragged_node (drag)->out;
    case PF_ON_GRIP:
      if (pf_outline_box (drag->start, &box))
        return pf_grip_anchor (box, drag->spot.grip, drag->pixel);
      break;
    case PF_ON_NOTHING:
    case PF_ON_SEGMENT:
    case PF_ON_MOTIF:
      break;
    }
  return drag->press;
}

PfDraft *
pf_outline_drag_to (const PfOutlineDrag *drag, const PfNodeSet *nodes, PfPoint to, bool steady)
{
  const PfSpot *spot = &drag->spot;
  const PfPoint from = pf_outline_drag_anchor (drag);
  const PfPoint by = { to.x - from.x, to.y - from.y };
  PfDraft *draft = pf_draft_copy (drag->start);
  const size_t c = spot->node.curve;
  PfBox box;
  switch (spot->on)
    {
    case PF_ON_NODE:
      pf_outline_move_nodes (draft, nodes, by);
      break;
    case PF_ON_HANDLE:
      pf_outline_set_curve (
          draft, c, pf_curve_with_handle_at (draft->curves[c], spot->node.node, spot->handle, to));
      break;
    case PF_ON_SEGMENT:
      pf_outline_set_curve (draft, c,
                            pf_curve_with_segment_through (draft->curves[c], spot->node.node,
                                                           CLAMP (spot->t, BEND_MIN, 1 - BEND_MIN),
                                                           to));
      break;
    case PF_ON_GRIP:
      if (pf_outline_box (drag->start, &box))
        pf_outline_map (draft, pf_grip_map (box, spot->grip, to, steady));
      break;
    case PF_ON_MOTIF:
      pf_outline_map (draft, (PfAffine){ 1, 0, 0, 1, by.x, by.y });
      break;
    case PF_ON_NOTHING:
      break;
    }
  return draft;
}

const char *
pf_outline_drag_name (const PfOutlineDrag *drag, const PfNodeSet *nodes)
{
  switch (drag->spot.on)
    {
    case PF_ON_NODE:
      return nodes->len == 1 ? _ ("Move a node") : _ ("Move nodes");
    case PF_ON_HANDLE:
      return _ ("Move a handle");
    case PF_ON_SEGMENT:
      return _ ("Bend a segment");
    case PF_ON_GRIP:
      return drag->spot.grip == PF_GRIP_TURN ? _ ("Turn the motif") : _ ("Scale the motif");
    case PF_ON_MOTIF:
    case PF_ON_NOTHING:
      break;
    }
  return _ ("Move the motif");
}
