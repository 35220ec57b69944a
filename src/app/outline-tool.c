/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Choosing and changing what is drawn. The editor's selected node is always one of the chosen ones,
 * or there are none.
 */
#include "outline-tool-private.h"

#include <glib/gi18n-lib.h>

#include "outline-edit.h"
#include "outline-marks.h"

#define STEP 0.1 /* mm for an arrow key */
#define LONG_STEP 1.0

G_DEFINE_FINAL_TYPE (PfOutlineTool, pf_outline_tool, PF_TYPE_DRAWING_TOOL)

static PfEditor *
editor_of (PfOutlineTool *tool)
{
  return pf_tool_editor (PF_TOOL (tool));
}

/* --- Choosing -----------------------------------------------------------------------------------
 */

const PfNodeSet *
pf_outline_tool_nodes (PfOutlineTool *tool)
{
  return tool->nodes;
}

void
pf_outline_tool_nodes_chosen (PfOutlineTool *tool)
{
  PfEditor *editor = editor_of (tool);
  PfPick pick = PF_PICK_NOTHING;
  if (tool->nodes->len > 0)
    {
      const PfNodeRef last = pf_node_set_get (tool->nodes, tool->nodes->len - 1);
      pick = (PfPick){ .kind = PF_PICK_NODE,
                       .draft = (size_t) pf_editor_active (editor),
                       .loop = last.curve,
                       .index = (guint32) last.node };
    }
  pf_editor_select (editor, pick);
  pf_drawing_tool_changed (PF_DRAWING_TOOL (tool));
}

void
pf_outline_tool_choose (PfOutlineTool *tool, PfNodeRef node, bool more)
{
  if (!more)
    pf_node_set_clear (tool->nodes);
  pf_node_set_add (tool->nodes, node);
  pf_outline_tool_nodes_chosen (tool);
}

void
pf_outline_tool_choose_none (PfOutlineTool *tool)
{
  pf_node_set_clear (tool->nodes);
  pf_outline_tool_nodes_chosen (tool);
}

void
pf_outline_tool_choose_within (PfOutlineTool *tool, const PfBox *box)
{
  const PfDraft *draft = pf_editor_draft (editor_of (tool));
  if (draft == NULL || draft->mirror_of != NULL)
    return;
  for (size_t c = 0; c < draft->n_curves; c++)
    for (size_t n = 0; n < draft->curves[c]->n_nodes; n++)
      {
        const PfPoint at = draft->curves[c]->nodes[n].at;
        if (box == NULL ||
            (at.x >= box->min.x && at.x <= box->max.x && at.y >= box->min.y && at.y <= box->max.y))
          pf_node_set_add (tool->nodes, (PfNodeRef){ c, n });
      }
  pf_outline_tool_nodes_chosen (tool);
}

void
pf_outline_tool_choose_all (PfOutlineTool *tool)
{
  pf_outline_tool_choose_within (tool, NULL);
}

/* The node after the last chosen one, or before it; false past the ends, so that Tab leaves. */
static bool
walk (PfOutlineTool *tool, bool back)
{
  const PfDraft *draft = pf_editor_draft (editor_of (tool));
  if (draft == NULL || draft->mirror_of != NULL || draft->n_curves == 0)
    return false;
  PfNodeRef node = { 0, 0 };
  if (tool->nodes->len > 0)
    {
      node = pf_node_set_get (tool->nodes, tool->nodes->len - 1);
      if (!pf_node_next (draft, &node, back))
        return false;
    }
  else if (back)
    {
      node = (PfNodeRef){ draft->n_curves, 0 };
      if (!pf_node_next (draft, &node, true))
        return false;
    }
  pf_outline_tool_choose (tool, node, false);
  return true;
}

static void
selection_changed (PfOutlineTool *tool)
{
  const PfPick pick = pf_editor_selected (editor_of (tool));
  const PfNodeRef node = { pick.loop, pick.index };
  if (pick.kind == PF_PICK_NODE && pf_node_set_has (tool->nodes, node))
    return;
  if (pick.kind != PF_PICK_NODE && tool->nodes->len == 0)
    return;
  pf_node_set_clear (tool->nodes);
  if (pick.kind == PF_PICK_NODE)
    pf_node_set_add (tool->nodes, node);
  pf_drawing_tool_changed (PF_DRAWING_TOOL (tool));
}

static void
document_changed (PfOutlineTool *tool)
{
  if (pf_node_set_prune (tool->nodes, pf_editor_draft (editor_of (tool))))
    pf_drawing_tool_changed (PF_DRAWING_TOOL (tool));
  pf_tool_redraw (PF_TOOL (tool));
}

/* --- Changing -----------------------------------------------------------------------------------
 */

PfDraft *
pf_outline_tool_edit (PfOutlineTool *tool)
{
  PfDraft *draft = pf_editor_edit (editor_of (tool));
  if (draft == NULL && pf_editor_follows (editor_of (tool)))
    pf_drawing_tool_say (PF_DRAWING_TOOL (tool),
                         _ ("This motif is the mirror image of another one and follows it. Change "
                            "that one."));
  return draft;
}

void
pf_outline_tool_move (PfOutlineTool *tool, PfPoint by)
{
  PfDraft *draft = pf_outline_tool_edit (tool);
  if (draft == NULL)
    return;
  const bool whole = tool->nodes->len == 0;
  if (whole)
    pf_outline_map (draft, (PfAffine){ 1, 0, 0, 1, by.x, by.y });
  else
    pf_outline_move_nodes (draft, tool->nodes, by);
  pf_editor_change_merged (editor_of (tool), draft,
                           whole                   ? _ ("Move the motif")
                           : tool->nodes->len == 1 ? _ ("Move a node")
                                                   : _ ("Move nodes"));
}

static const char *
act_on (PfDraft *draft, PfNodeSet *nodes, PfOutlineAct act)
{
  static const char *const no_segment =
      N_ ("Choose the nodes at both ends of a segment, or click the segment.");
  switch (act)
    {
    case PF_OUTLINE_SMOOTH:
    case PF_OUTLINE_CORNER:
      pf_outline_set_smooth (draft, nodes, act == PF_OUTLINE_SMOOTH);
      return NULL;
    case PF_OUTLINE_STRAIGHT:
    case PF_OUTLINE_CURVED:
      return pf_outline_set_straight (draft, nodes, act == PF_OUTLINE_STRAIGHT) ? NULL
                                                                                : _ (no_segment);
    case PF_OUTLINE_ADD_NODE:
      return pf_outline_add_nodes (draft, nodes) ? NULL : _ (no_segment);
    case PF_OUTLINE_DELETE:
      if (!pf_outline_delete_nodes (draft, nodes))
        return _ ("Too few nodes would be left for an outline. Remove the whole motif instead.");
      pf_node_set_clear (nodes);
      return NULL;
    }
  return NULL;
}

void
pf_outline_tool_act (PfOutlineTool *tool, PfOutlineAct act)
{
  static const char *const names[] = {
    [PF_OUTLINE_SMOOTH] = N_ ("Make nodes smooth"),
    [PF_OUTLINE_CORNER] = N_ ("Make nodes corners"),
    [PF_OUTLINE_STRAIGHT] = N_ ("Make a segment straight"),
    [PF_OUTLINE_CURVED] = N_ ("Make a segment curved"),
    [PF_OUTLINE_ADD_NODE] = N_ ("Add a node"),
    [PF_OUTLINE_DELETE] = N_ ("Delete nodes"),
  };
  g_autoptr (PfDraft) draft = pf_outline_tool_edit (tool);
  if (draft == NULL)
    return;
  g_autoptr (GArray) nodes = g_array_copy (tool->nodes);
  const char *trouble = nodes->len == 0 ? _ ("Choose a node first: click it, or press Tab on the "
                                             "drawing.")
                                        : act_on (draft, nodes, act);
  if (trouble != NULL)
    {
      pf_drawing_tool_say (PF_DRAWING_TOOL (tool), trouble);
      return;
    }
  pf_editor_change (editor_of (tool), g_steal_pointer (&draft), _ (names[act]));
  g_array_set_size (tool->nodes, 0);
  g_array_append_vals (tool->nodes, nodes->data, nodes->len);
  pf_outline_tool_nodes_chosen (tool);
}

/* --- The keyboard -------------------------------------------------------------------------------
 */

static bool
move_key (PfOutlineTool *tool, guint keyval, GdkModifierType state)
{
  const double step = (state & GDK_SHIFT_MASK) != 0 ? LONG_STEP : STEP;
  PfPoint by = { 0, 0 };
  if (keyval == GDK_KEY_Left || keyval == GDK_KEY_KP_Left)
    by.x = -step;
  else if (keyval == GDK_KEY_Right || keyval == GDK_KEY_KP_Right)
    by.x = step;
  else if (keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up)
    by.y = -step;
  else if (keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down)
    by.y = step;
  else
    return false;
  if (pf_editor_draft (editor_of (tool)) == NULL)
    return false;
  pf_outline_tool_move (tool, by);
  return true;
}

static bool
act_key (PfOutlineTool *tool, guint keyval)
{
  static const struct {
    guint keyval;
    PfOutlineAct act;
  } keys[] = {
    { GDK_KEY_s, PF_OUTLINE_SMOOTH },         { GDK_KEY_c, PF_OUTLINE_CORNER },
    { GDK_KEY_l, PF_OUTLINE_STRAIGHT },       { GDK_KEY_b, PF_OUTLINE_CURVED },
    { GDK_KEY_n, PF_OUTLINE_ADD_NODE },       { GDK_KEY_Insert, PF_OUTLINE_ADD_NODE },
    { GDK_KEY_Delete, PF_OUTLINE_DELETE },    { GDK_KEY_KP_Delete, PF_OUTLINE_DELETE },
    { GDK_KEY_BackSpace, PF_OUTLINE_DELETE },
  };
  if (tool->nodes->len == 0)
    return false;
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    if (gdk_keyval_to_lower (keyval) == keys[k].keyval)
      {
        pf_outline_tool_act (tool, keys[k].act);
        return true;
      }
  return false;
}

static bool
pf_outline_tool_key (PfTool *parent, guint keyval, GdkModifierType state,
                     double pixel G_GNUC_UNUSED)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  if (tool->pressed)
    return false;
  if ((state & GDK_CONTROL_MASK) != 0 && gdk_keyval_to_lower (keyval) == GDK_KEY_a)
    {
      pf_outline_tool_choose_all (tool);
      return true;
    }
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return false;
  if (keyval == GDK_KEY_Tab || keyval == GDK_KEY_ISO_Left_Tab)
    return walk (tool, keyval == GDK_KEY_ISO_Left_Tab || (state & GDK_SHIFT_MASK) != 0);
  if (keyval == GDK_KEY_Escape && tool->nodes->len > 0)
    {
      pf_outline_tool_choose_none (tool);
      return true;
    }
  return move_key (tool, keyval, state) || act_key (tool, keyval);
}

/* --- Drawing and words --------------------------------------------------------------------------
 */

void
pf_outline_tool_draw_with (PfOutlineTool *tool, PfTool *other)
{
  tool->drawn_with = other;
  pf_tool_redraw (PF_TOOL (tool));
}

static void
pf_outline_tool_draw (PfTool *parent, cairo_t *cr, double pixel)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  PfEditor *editor = editor_of (tool);
  const PfDraft *draft = pf_editor_draft (editor);
  PfBox box;
  if (draft != NULL && draft->mirror_of == NULL)
    {
      for (size_t c = 0; c < draft->n_curves; c++)
        pf_marks_draw_curve (cr, pixel, draft->curves[c]);
      if (pf_outline_grips (editor, tool->nodes, &box))
        pf_marks_draw_box (cr, pixel, box);
      pf_marks_draw_nodes (cr, pixel, draft, tool->nodes);
    }
  if (tool->pressed && tool->banding && tool->drag.moved)
    pf_marks_draw_band (cr, pixel, tool->drag.press, tool->band_end);
  if (tool->drawn_with != NULL)
    PF_TOOL_GET_CLASS (tool->drawn_with)->draw (tool->drawn_with, cr, pixel);
  pf_drawing_tool_draw_snap (PF_DRAWING_TOOL (tool), cr, pixel);
}

static char *
pf_outline_tool_describe (PfTool *parent)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (parent);
  PfEditor *editor = editor_of (tool);
  const PfDraft *draft = pf_editor_draft (editor);
  PfBox box;
  if (tool->nodes->len > 1)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%u node is chosen", "%u nodes are chosen", tool->nodes->len),
        tool->nodes->len);
  if (tool->nodes->len == 1)
    return pf_editor_describe (editor, pf_editor_selected (editor));
  if (!pf_outline_box (draft, &box))
    return NULL;
  g_autofree char *width = pf_editor_length (editor, box.max.x - box.min.x, 2);
  g_autofree char *height = pf_editor_length (editor, box.max.y - box.min.y, 2);
  return g_strdup_printf (_ ("%s, %s wide and %s high"), draft->name, width, height);
}

/* --- The object ---------------------------------------------------------------------------------
 */

static void
pf_outline_tool_constructed (GObject *object)
{
  G_OBJECT_CLASS (pf_outline_tool_parent_class)->constructed (object);
  PfEditor *editor = pf_tool_editor (PF_TOOL (object));
  g_signal_connect_object (editor, "selection-changed", G_CALLBACK (selection_changed), object,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "document-changed", G_CALLBACK (document_changed), object,
                           G_CONNECT_SWAPPED);
}

static void
pf_outline_tool_finalize (GObject *object)
{
  PfOutlineTool *tool = PF_OUTLINE_TOOL (object);
  pf_outline_drag_clear (&tool->drag);
  g_array_unref (tool->nodes);
  G_OBJECT_CLASS (pf_outline_tool_parent_class)->finalize (object);
}

static void
pf_outline_tool_class_init (PfOutlineToolClass *class)
{
  PfToolClass *tool = PF_TOOL_CLASS (class);
  G_OBJECT_CLASS (class)->constructed = pf_outline_tool_constructed;
  G_OBJECT_CLASS (class)->finalize = pf_outline_tool_finalize;
  pf_outline_tool_follow_pointer (tool);
  tool->key = pf_outline_tool_key;
  tool->draw = pf_outline_tool_draw;
  tool->describe = pf_outline_tool_describe;
}

static void
pf_outline_tool_init (PfOutlineTool *tool)
{
  tool->nodes = pf_node_set_new ();
}

PfTool *
pf_outline_tool_new (PfEditor *editor)
{
  return g_object_new (PF_TYPE_OUTLINE_TOOL, "editor", editor, NULL);
}
