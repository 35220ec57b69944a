/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The mirror axis: typed, laid by hand, or through two nodes. The axis tool keeps it; while a motif
 * that follows another one is active it is that motif's own, kept in the document.
 */
#include "outline-panel-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "outline-edit.h"

/* Ends of a half this near to the axis, in mm, are meant to lie on it. */
#define ON_AXIS 1.0

static PfMeasureTool *
axis_tool (PfOutlinePanel *panel)
{
  return PF_MEASURE_TOOL (panel->axis);
}

/* The axis runs from its first end to its second. */
static PfAxis
get_axis (PfOutlinePanel *panel)
{
  PfPoint a, b;
  pf_measure_tool_get_line (axis_tool (panel), 0, &a, &b);
  const bool apart = hypot (b.x - a.x, b.y - a.y) > PF_TOUCH;
  return (PfAxis){ a, apart ? atan2 (b.y - a.y, b.x - a.x) * 180 / G_PI : 90 };
}

static void
set_axis (PfOutlinePanel *panel, PfAxis axis)
{
  const double turn = axis.angle * G_PI / 180;
  panel->axis_size = (PfPoint){ -1, -1 };
  const double length = MAX (1, pf_measure_tool_length (axis_tool (panel), 0));
  pf_measure_tool_set_line (
      axis_tool (panel), 0, axis.at,
      (PfPoint){ axis.at.x + length * cos (turn), axis.at.y + length * sin (turn) });
}

static PfDraft *
with_axis (PfOutlinePanel *panel)
{
  PfDraft *draft = pf_draft_copy (pf_editor_draft (pf_outline_panel_editor (panel)));
  draft->mirror_axis = get_axis (panel);
  return draft;
}

static bool
same_axis (PfAxis a, PfAxis b)
{
  return a.at.x == b.at.x && a.at.y == b.at.y && a.angle == b.angle;
}

/* The axis was set by other means than a drag. */
static void
axis_set (PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  if (pf_editor_follows (editor))
    pf_editor_change_merged (editor, with_axis (panel), _ ("Move the mirror axis"));
  else
    pf_panel_update (PF_PANEL (panel));
}

/* An upright axis in the middle of the drawing, until the maker lays it elsewhere: then axis_size
 * is no drawing's size. */
static void
lay_in_middle (PfOutlinePanel *panel)
{
  const PfDocument *document = pf_editor_document (pf_outline_panel_editor (panel));
  const double middle = document->width / 2;
  pf_measure_tool_set_line (axis_tool (panel), 0, (PfPoint){ middle, document->height / 4 },
                            (PfPoint){ middle, document->height * 3 / 4 });
  panel->axis_size = (PfPoint){ document->width, document->height };
}

static void
follow_size (PfOutlinePanel *panel)
{
  const PfDocument *document = pf_editor_document (pf_outline_panel_editor (panel));
  const PfPoint laid = panel->axis_size;
  if (laid.x >= 0 && (laid.x != document->width || laid.y != document->height))
    lay_in_middle (panel);
}

static void
axis_dragged (PfOutlinePanel *panel)
{
  panel->axis_size = (PfPoint){ -1, -1 };
  PfEditor *editor = pf_outline_panel_editor (panel);
  if (pf_editor_follows (editor))
    pf_editor_preview (editor, with_axis (panel));
}

static void
axis_dropped (PfOutlinePanel *panel, gboolean kept)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  if (!pf_history_previewing (pf_editor_history (editor)))
    return;
  if (kept)
    pf_editor_commit (editor, _ ("Move the mirror axis"));
  else
    pf_editor_cancel (editor);
}

static void
axis_typed (GtkSpinButton *spin, PfOutlinePanel *panel)
{
  PfAxis axis = get_axis (panel);
  double *number = spin == panel->axis_x   ? &axis.at.x
                   : spin == panel->axis_y ? &axis.at.y
                                           : &axis.angle;
  if (!pf_outline_panel_typed (panel, spin, *number))
    return;
  *number = gtk_spin_button_get_value (spin);
  set_axis (panel, axis);
  axis_set (panel);
  pf_tool_redraw (panel->choose);
}

/* Two chosen nodes, or else the ends of the open outline. */
static bool
find_two (PfOutlinePanel *panel, PfPoint *a, PfPoint *b)
{
  const PfDraft *draft = pf_editor_draft (pf_outline_panel_editor (panel));
  const PfNodeSet *nodes = pf_outline_tool_nodes (PF_OUTLINE_TOOL (panel->choose));
  const PfCurve *open = pf_outline_open_curve (draft);
  if (nodes->len == 2)
    {
      const PfNodeRef first = pf_node_set_get (nodes, 0), last = pf_node_set_get (nodes, 1);
      *a = draft->curves[first.curve]->nodes[first.node].at;
      *b = draft->curves[last.curve]->nodes[last.node].at;
    }
  else if (open != NULL && open->n_nodes > 1)
    {
      *a = open->nodes[0].at;
      *b = open->nodes[open->n_nodes - 1].at;
    }
  else
    return false;
  return hypot (b->x - a->x, b->y - a->y) > PF_TOUCH;
}

static void
axis_through (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfPoint a, b;
  if (!find_two (panel, &a, &b))
    {
      pf_panel_say (PF_PANEL (panel), _ ("Choose the two nodes through which the axis runs."));
      return;
    }
  pf_measure_tool_set_line (axis_tool (panel), 0, a, b);
  axis_set (panel);
}

static void
complete_half (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  const PfCurve *half = draft != NULL ? pf_outline_open_curve (draft) : NULL;
  if (half == NULL || half->n_nodes < 2)
    {
      g_clear_pointer (&draft, pf_draft_unref);
      return;
    }
  pf_outline_set_curve (draft, draft->n_curves - 1,
                        pf_curve_with_mirror_half (half, get_axis (panel), ON_AXIS));
  pf_editor_change (pf_outline_panel_editor (panel), draft, _ ("Complete the half"));
  pf_outline_panel_use (panel, panel->choose);
}

static void
add_mirror_image (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  const int active = pf_editor_active (editor);
  if (active < 0)
    return;
  const size_t n = pf_editor_document (editor)->n_drafts;
  pf_editor_change_document (editor,
                             pf_document_with_mirror_image (pf_editor_document (editor),
                                                            (size_t) active, get_axis (panel)),
                             _ ("Add a mirror image"));
  pf_editor_set_active (editor, (int) n);
}

void
pf_outline_panel_update_mirror (PfOutlinePanel *panel)
{
  const PfDraft *draft = pf_editor_draft (pf_outline_panel_editor (panel));
  const bool follows = draft != NULL && draft->mirror_of != NULL;
  const PfCurve *open = pf_outline_open_curve (draft);
  if (!follows)
    follow_size (panel);
  if (follows && !same_axis (draft->mirror_axis, get_axis (panel)))
    set_axis (panel, draft->mirror_axis);
  const PfAxis axis = get_axis (panel);
  pf_outline_panel_show_number (panel, panel->axis_x, axis.at.x);
  pf_outline_panel_show_number (panel, panel->axis_y, axis.at.y);
  pf_outline_panel_show_number (panel, panel->axis_angle, axis.angle);
  gtk_widget_set_sensitive (panel->half_button, open != NULL && open->n_nodes > 1);
  gtk_widget_set_sensitive (panel->image_button,
                            draft != NULL && !follows && draft->n_curves > 0 && open == NULL);
}

/* The axis is seen while its settings are. */
static void
expanded (PfOutlinePanel *panel)
{
  const bool shown = gtk_expander_get_expanded (GTK_EXPANDER (panel->mirror_expander));
  pf_outline_tool_draw_with (PF_OUTLINE_TOOL (panel->choose), shown ? panel->axis : NULL);
}

void
pf_outline_panel_start_mirror (PfOutlinePanel *panel)
{
  lay_in_middle (panel);
  g_signal_connect_object (panel->mirror_expander, "notify::expanded", G_CALLBACK (expanded), panel,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (panel->axis, "changed", G_CALLBACK (axis_dragged), panel,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (panel->axis, "dropped", G_CALLBACK (axis_dropped), panel,
                           G_CONNECT_SWAPPED);
}

void
pf_outline_panel_bind_mirror (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, mirror_expander);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, axis_x);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, axis_y);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, axis_angle);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, axis_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, half_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, image_button);
  gtk_widget_class_bind_template_callback (class, axis_typed);
  gtk_widget_class_bind_template_callback (class, axis_through);
  gtk_widget_class_bind_template_callback (class, complete_half);
  gtk_widget_class_bind_template_callback (class, add_mirror_image);
}
