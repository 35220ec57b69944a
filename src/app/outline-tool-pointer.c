/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pointer on outlines. What is dragged is a preview until the button is released; then it is
 * one change.
 */
#include "outline-tool-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "outline-edit.h"

#define TREMBLE 3.0 /* pixels that are no drag */

static PfEditor *
editor_of (PfOutlineTool *tool)
{
  return pf_tool_editor (PF_TOOL (tool));
}

static void
add_node_at (PfOutlineTool *tool, const PfSpot *spot)
{
  PfDraft *draft = pf_outline_tool_edit (tool);
  if (draft == NULL)
    return;
  const size_t c = spot->node.curve;
  pf_outline_set_curve (draft, c,
                        pf_curve_with_node_added (draft->curves[c], spot->node.node, spot->t));
  pf_editor_change (editor_of (tool), draft, _ ("Add a node"));
  pf_outline_tool_choose (tool, (PfNodeRef){ c, spot->node.node + 1 }, false);
}

/* Shift adds a node to the chosen ones or takes it away: false then. */
static bool
press_node (PfOutlineTool *tool, PfNodeRef node, bool more)
{
  const bool chosen = pf_node_set_has (tool->nodes, node);
  if (more && chosen)
    {
      pf_node_set_remove (tool->nodes, node);
      pf_outline_tool_nodes_chosen (tool);
      return false;
    }
  if (!chosen)
    pf_outline_tool_choose (tool, node, more);
  return true;
}

static bool
pf_outline_tool_press (PfTool *parent, const PfPointer *pointer)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  PfEditor *editor = editor_of (tool);
  const bool more = (pointer->state & GDK_SHIFT_MASK) != 0;
  PfSpot spot = pf_outline_find (editor, tool->nodes, pointer->at, pointer->reach, pointer->pixel);
  if (spot.on == PF_ON_SEGMENT && pointer->n_press == 2)
    {
      add_node_at (tool, &spot);
      return true;
    }
  if (spot.on == PF_ON_NODE && !press_node (tool, spot.node, more))
    return true;
  if (spot.on == PF_ON_MOTIF && more)
    spot.on = PF_ON_NOTHING;
  if (spot.on == PF_ON_MOTIF)
    pf_editor_set_active (editor, (int) spot.draft);
  tool->banding = spot.on == PF_ON_NOTHING;
  tool->pressed = true;
  tool->band_end = pointer->at;
  pf_outline_drag_begin (&tool->drag, spot, pf_editor_draft (editor), pointer->at, pointer->pixel);
  return true;
}

static void
drag_on (PfOutlineTool *tool, const PfPointer *pointer)
{
  PfDrawingTool *drawing = PF_DRAWING_TOOL (tool);
  const PfOutlineDrag *drag = &tool->drag;
  const bool turning = drag->spot.on == PF_ON_GRIP && drag->spot.grip == PF_GRIP_TURN;
  const PfPoint anchor = pf_outline_drag_anchor (drag);
  PfPoint to = { anchor.x + pointer->at.x - drag->press.x,
                 anchor.y + pointer->at.y - drag->press.y };
  if (drag->spot.on == PF_ON_NODE || drag->spot.on == PF_ON_HANDLE ||
      (drag->spot.on == PF_ON_GRIP && !turning))
    to = pf_drawing_tool_snap (drawing, pointer, to, &anchor, tool->nodes);
  pf_editor_preview (editor_of (tool), pf_outline_drag_to (drag, tool->nodes, to,
                                                           (pointer->state & GDK_SHIFT_MASK) != 0));
}

static void
pf_outline_tool_drag (PfTool *parent, const PfPointer *pointer)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  PfOutlineDrag *drag = &tool->drag;
  if (!tool->pressed)
    return;
  if (!drag->moved && hypot (pointer->at.x - drag->press.x, pointer->at.y - drag->press.y) <=
                          TREMBLE * pointer->pixel)
    return;
  if (!drag->moved && !tool->banding && drag->start->mirror_of != NULL)
    {
      pf_draft_unref (pf_outline_tool_edit (tool));
      tool->pressed = false;
      return;
    }
  drag->moved = true;
  tool->band_end = pointer->at;
  if (!tool->banding)
    drag_on (tool, pointer);
  pf_tool_redraw (parent);
}

/* A click that didn't become a drag. */
static void
clicked (PfOutlineTool *tool, const PfPointer *pointer)
{
  const PfSpot *spot = &tool->drag.spot;
  const bool more = (pointer->state & GDK_SHIFT_MASK) != 0;
  if (spot->on == PF_ON_NODE && !more)
    pf_outline_tool_choose (tool, spot->node, false);
  else if (spot->on == PF_ON_SEGMENT)
    {
      const size_t n = tool->drag.start->curves[spot->node.curve]->n_nodes;
      pf_outline_tool_choose (tool, spot->node, more);
      pf_outline_tool_choose (tool, (PfNodeRef){ spot->node.curve, (spot->node.node + 1) % n },
                              true);
    }
  else if ((spot->on == PF_ON_NOTHING && !more) || spot->on == PF_ON_MOTIF)
    pf_outline_tool_choose_none (tool);
}

static void
end_drag (PfOutlineTool *tool)
{
  tool->pressed = tool->banding = false;
  pf_outline_drag_clear (&tool->drag);
  pf_drawing_tool_unsnap (PF_DRAWING_TOOL (tool));
}

static void
pf_outline_tool_release (PfTool *parent, const PfPointer *pointer)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  const PfPoint a = tool->drag.press, b = tool->band_end;
  if (!tool->pressed)
    {
      end_drag (tool);
      return;
    }
  if (!tool->drag.moved)
    clicked (tool, pointer);
  else if (tool->banding)
    {
      if ((pointer->state & GDK_SHIFT_MASK) == 0)
        pf_node_set_clear (tool->nodes);
      pf_outline_tool_choose_within (
          tool, &(PfBox){ { MIN (a.x, b.x), MIN (a.y, b.y) }, { MAX (a.x, b.x), MAX (a.y, b.y) } });
    }
  else
    pf_editor_commit (editor_of (tool), pf_outline_drag_name (&tool->drag, tool->nodes));
  end_drag (tool);
}

static void
pf_outline_tool_cancel (PfTool *parent)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  if (tool->pressed && tool->drag.moved && !tool->banding)
    pf_editor_cancel (editor_of (tool));
  end_drag (tool);
}

static void
pf_outline_tool_hover (PfTool *parent, const PfPointer *pointer)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  tool->hovered =
      pf_outline_find (editor_of (tool), tool->nodes, pointer->at, pointer->reach, pointer->pixel)
          .on;
}

static void
pf_outline_tool_leave (PfTool *parent)
{
  PF_OUTLINE_TOOL (parent)->hovered = PF_ON_NOTHING;
}

static const char *
pf_outline_tool_cursor (PfTool *parent)
{
  const PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  switch (tool->pressed ? tool->drag.spot.on : tool->hovered)
    {
    case PF_ON_HANDLE:
    case PF_ON_NODE:
    case PF_ON_GRIP:
      return "pointer";
    case PF_ON_SEGMENT:
      return "grab";
    case PF_ON_MOTIF:
      return "move";
    case PF_ON_NOTHING:
      break;
    }
  return NULL;
}

void
pf_outline_tool_follow_pointer (PfToolClass *class)
{
  class->press = pf_outline_tool_press;
  class->drag = pf_outline_tool_drag;
  class->release = pf_outline_tool_release;
  class->cancel = pf_outline_tool_cancel;
  class->hover = pf_outline_tool_hover;
  class->leave = pf_outline_tool_leave;
  class->cursor = pf_outline_tool_cursor;
}
