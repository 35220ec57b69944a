/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Nodes and the whole motif by numbers. A number is a change only if it is another one than is
 * shown: what was drawn by hand isn't rounded by looking at it.
 */
#include "outline-panel-private.h"

#include <glib/gi18n-lib.h>

#include "outline-edit.h"

static PfOutlineTool *
chooser (PfOutlinePanel *panel)
{
  return PF_OUTLINE_TOOL (panel->choose);
}

/* --- Nodes --------------------------------------------------------------------------------------
 */

/* The node chosen last; NULL if none is. */
static const PfNode *
last_node (PfOutlinePanel *panel)
{
  const PfNodeSet *nodes = pf_outline_tool_nodes (chooser (panel));
  const PfDraft *draft = pf_editor_draft (pf_outline_panel_editor (panel));
  if (nodes->len == 0 || draft == NULL)
    return NULL;
  const PfNodeRef ref = pf_node_set_get (nodes, nodes->len - 1);
  return ref.curve < draft->n_curves && ref.node < draft->curves[ref.curve]->n_nodes
             ? &draft->curves[ref.curve]->nodes[ref.node]
             : NULL;
}

static void
node_moved (GtkSpinButton *spin, PfOutlinePanel *panel)
{
  const PfNode *node = last_node (panel);
  const bool across = spin == panel->node_x;
  if (node == NULL || !pf_outline_panel_typed (panel, spin, across ? node->at.x : node->at.y))
    return;
  const double to = gtk_spin_button_get_value (spin);
  pf_outline_tool_move (chooser (panel),
                        across ? (PfPoint){ to - node->at.x, 0 } : (PfPoint){ 0, to - node->at.y });
}

static void
make_smooth (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_tool_act (chooser (panel), PF_OUTLINE_SMOOTH);
}

static void
make_corner (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_tool_act (chooser (panel), PF_OUTLINE_CORNER);
}

static void
make_straight (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_tool_act (chooser (panel), PF_OUTLINE_STRAIGHT);
}

static void
make_curved (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_tool_act (chooser (panel), PF_OUTLINE_CURVED);
}

static void
add_node (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_tool_act (chooser (panel), PF_OUTLINE_ADD_NODE);
}

static void
delete_nodes (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_tool_act (chooser (panel), PF_OUTLINE_DELETE);
}

static void
update_nodes (PfOutlinePanel *panel)
{
  const PfNodeSet *nodes = pf_outline_tool_nodes (chooser (panel));
  const PfNode *node = last_node (panel);
  g_autofree char *text = NULL;
  if (node == NULL)
    text = g_strdup (_ ("None. Click a node, or press Tab on the drawing."));
  else if (nodes->len == 1)
    text = pf_editor_describe (pf_outline_panel_editor (panel),
                               pf_editor_selected (pf_outline_panel_editor (panel)));
  else
    text =
        g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u node; the numbers are those of the last",
                                      "%u nodes; the numbers are those of the last", nodes->len),
                         nodes->len);
  gtk_label_set_label (panel->chosen_label, text);
  gtk_widget_set_visible (panel->node_box, node != NULL);
  if (node != NULL)
    {
      pf_outline_panel_show_number (panel, panel->node_x, node->at.x);
      pf_outline_panel_show_number (panel, panel->node_y, node->at.y);
    }
}

/* --- The whole motif ----------------------------------------------------------------------------
 */

static void
change_whole (PfOutlinePanel *panel, PfAffine map, const char *name, bool merged)
{
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft == NULL)
    return;
  pf_outline_map (draft, map);
  if (merged)
    pf_editor_change_merged (pf_outline_panel_editor (panel), draft, name);
  else
    pf_editor_change (pf_outline_panel_editor (panel), draft, name);
}

static bool
get_box (PfOutlinePanel *panel, PfBox *box)
{
  return pf_outline_box (pf_editor_draft (pf_outline_panel_editor (panel)), box);
}

static void
motif_moved (GtkSpinButton *spin, PfOutlinePanel *panel)
{
  PfBox box;
  const bool across = spin == panel->motif_x;
  if (!get_box (panel, &box) ||
      !pf_outline_panel_typed (panel, spin, across ? box.min.x : box.min.y))
    return;
  const double to = gtk_spin_button_get_value (spin);
  const PfAffine map = { 1, 0, 0, 1, across ? to - box.min.x : 0, across ? 0 : to - box.min.y };
  change_whole (panel, map, _ ("Move the motif"), true);
}

static void
motif_sized (GtkSpinButton *spin, PfOutlinePanel *panel)
{
  PfBox box;
  const bool across = spin == panel->motif_width;
  if (!get_box (panel, &box))
    return;
  const double size = across ? box.max.x - box.min.x : box.max.y - box.min.y;
  if (size <= PF_TOUCH || !pf_outline_panel_typed (panel, spin, size))
    return;
  const bool alike = gtk_check_button_get_active (panel->proportions_check);
  const double by = gtk_spin_button_get_value (spin) / size;
  change_whole (
      panel, pf_outline_map_about (box.min, across || alike ? by : 1, !across || alike ? by : 1, 0),
      _ ("Scale the motif"), true);
}

static void
turn_motif (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfBox box;
  gtk_spin_button_update (panel->turn_spin);
  if (!get_box (panel, &box))
    return;
  const PfPoint middle = { (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
  change_whole (panel,
                pf_outline_map_about (middle, 1, 1, gtk_spin_button_get_value (panel->turn_spin)),
                _ ("Turn the motif"), false);
}

static void
update_whole (PfOutlinePanel *panel)
{
  PfBox box;
  const bool can = last_node (panel) == NULL && get_box (panel, &box) &&
                   !pf_editor_follows (pf_outline_panel_editor (panel));
  gtk_widget_set_visible (panel->whole_section, can);
  if (!can)
    return;
  pf_outline_panel_show_number (panel, panel->motif_x, box.min.x);
  pf_outline_panel_show_number (panel, panel->motif_y, box.min.y);
  pf_outline_panel_show_number (panel, panel->motif_width, box.max.x - box.min.x);
  pf_outline_panel_show_number (panel, panel->motif_height, box.max.y - box.min.y);
}

void
pf_outline_panel_update_numbers (PfOutlinePanel *panel)
{
  update_nodes (panel);
  update_whole (panel);
}

void
pf_outline_panel_bind_numbers (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, chosen_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, node_x);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, node_y);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, node_box);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, whole_section);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_x);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_y);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_width);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_height);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, turn_spin);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, proportions_check);
  gtk_widget_class_bind_template_callback (class, node_moved);
  gtk_widget_class_bind_template_callback (class, make_smooth);
  gtk_widget_class_bind_template_callback (class, make_corner);
  gtk_widget_class_bind_template_callback (class, make_straight);
  gtk_widget_class_bind_template_callback (class, make_curved);
  gtk_widget_class_bind_template_callback (class, add_node);
  gtk_widget_class_bind_template_callback (class, delete_nodes);
  gtk_widget_class_bind_template_callback (class, motif_moved);
  gtk_widget_class_bind_template_callback (class, motif_sized);
  gtk_widget_class_bind_template_callback (class, turn_motif);
}
