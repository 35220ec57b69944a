/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The stage "Edge": in which stitch the lace around the motif is worked, and where its pinholes
 * are.
 *
 * Everything here is about one loop of the active motif, which the tool keeps; one pinhole, which
 * is the editor's selection.
 */
#include "panel.h"

#include <glib/gi18n-lib.h>

#include "edge-tool.h"
#include "edge-work.h"
#include "number-entry.h"
#include "panel-wheel.h"
#include "pinhole-steps.h"
#include "stretch-row.h"

struct _PfEdgePanel {
  PfPanel parent_instance;

  GtkWidget *loop_box;
  GtkDropDown *loop, *kind;
  GtkLabel *kind_hint, *spaced_hint, *pinhole_label;
  GtkSpinButton *gap, *place, *add_at;
  GtkLabel *count_pinholes, *count_length, *count_mean;
  GtkWidget *even_button, *previous_button, *next_button, *remove_button, *add_button;
  GtkWidget *stretch_button;
  GtkBox *stretches;
  GtkToggleButton *mark_toggle;
};

#define PF_TYPE_EDGE_PANEL (pf_edge_panel_get_type ())
G_DECLARE_FINAL_TYPE (PfEdgePanel, pf_edge_panel, PF, EDGE_PANEL, PfPanel)
G_DEFINE_FINAL_TYPE (PfEdgePanel, pf_edge_panel, PF_TYPE_PANEL)

static PfEditor *
editor_of (PfEdgePanel *panel)
{
  return pf_panel_editor (PF_PANEL (panel));
}

static PfEdgeTool *
tool_of (PfEdgePanel *panel)
{
  return PF_EDGE_TOOL (pf_panel_tool (PF_PANEL (panel)));
}

static size_t
loop_of (PfEdgePanel *panel)
{
  return pf_edge_tool_loop (tool_of (panel));
}

/* The selected pinhole, if it is on the loop that is worked on; PF_NONE. */
static guint32
selected_pinhole (PfEdgePanel *panel, const PfMotif *motif)
{
  const PfPick pick = pf_editor_selected (editor_of (panel));
  const size_t loop = loop_of (panel);
  return pick.kind == PF_PICK_PINHOLE && pick.loop == loop && motif != NULL &&
                 (int) pick.draft == pf_editor_active (editor_of (panel)) &&
                 pick.index < motif->edges[loop].n_pinholes
             ? pick.index
             : PF_NONE;
}

/* --- From the document to the widgets -----------------------------------------------------------
 */

static void
show_loops (PfEdgePanel *panel, size_t n)
{
  GtkStringList *names = GTK_STRING_LIST (gtk_drop_down_get_model (panel->loop));
  while (g_list_model_get_n_items (G_LIST_MODEL (names)) > n)
    gtk_string_list_remove (names, g_list_model_get_n_items (G_LIST_MODEL (names)) - 1);
  for (size_t l = g_list_model_get_n_items (G_LIST_MODEL (names)); l < n; l++)
    gtk_string_list_take (names, pf_edge_loop_name (l));
  gtk_drop_down_set_selected (panel->loop, (guint) loop_of (panel));
  gtk_widget_set_visible (panel->loop_box, n > 1);
}

static void
show_edge (PfEdgePanel *panel, const PfDraftEdge *edge)
{
  gtk_drop_down_set_selected (panel->kind, (guint) edge->kind);
  gtk_label_set_label (panel->kind_hint,
                       edge->kind == PF_EDGE_HALF_STITCH
                           ? _ ("A pair can be sewn into a pinhole, or round the bar of threads "
                                "between two pinholes.")
                           : _ ("Pairs are sewn into pinholes only: a sewing anywhere else would "
                                "tear a hole that shows."));
  gtk_spin_button_set_value (panel->gap, edge->gap);
  gtk_label_set_label (panel->spaced_hint,
                       edge->even
                           ? _ ("Spaced evenly between the corners. Move, add or remove one, "
                                "and the list is your own.")
                           : _ ("These pinholes are your own: they stay where you put them "
                                "when the edge gap changes."));
  gtk_widget_set_sensitive (panel->even_button, !edge->even);
}

static void
show_counts (PfEdgePanel *panel, const PfMotif *motif)
{
  const PfEdge *edge = motif != NULL ? &motif->edges[loop_of (panel)] : NULL;
  const double length = motif != NULL ? pf_loop_length (&motif->region->loops[loop_of (panel)]) : 0;
  const size_t n = edge != NULL ? edge->n_pinholes : 0;
  g_autofree char *count = edge != NULL ? g_strdup_printf ("%zu", n) : g_strdup ("–");
  PfEditor *editor = pf_panel_editor (PF_PANEL (panel));
  g_autofree char *round = edge != NULL ? pf_editor_length (editor, length, 1) : g_strdup ("–");
  g_autofree char *mean =
      n > 0 ? pf_editor_length (editor, length / (double) n, 2) : g_strdup ("–");
  gtk_label_set_label (panel->count_pinholes, count);
  gtk_label_set_label (panel->count_length, round);
  gtk_label_set_label (panel->count_mean, mean);
  gtk_spin_button_set_range (panel->add_at, 0, length);
  gtk_widget_set_sensitive (panel->add_button, edge != NULL);
}

/* A pinhole moves up to its neighbours, but not past the loop's first point by typing. */
static void
show_place (PfEdgePanel *panel, const PfMotif *motif, guint32 pinhole)
{
  const PfEdge *edge = &motif->edges[loop_of (panel)];
  const double length = pf_loop_length (&motif->region->loops[loop_of (panel)]);
  const double at = edge->pinholes[pinhole];
  const double low = pinhole > 0 ? edge->pinholes[pinhole - 1] + PF_PINHOLES_APART : 0;
  const double high = pinhole + 1 < edge->n_pinholes
                          ? edge->pinholes[pinhole + 1] - PF_PINHOLES_APART
                          : length - PF_PINHOLES_APART;
  gtk_spin_button_set_range (panel->place, MIN (low, at), MAX (high, at));
  gtk_spin_button_set_value (panel->place, at);
}

static void
show_pinhole (PfEdgePanel *panel, const PfMotif *motif)
{
  const guint32 pinhole = selected_pinhole (panel, motif);
  const bool selected = pinhole != PF_NONE;
  g_autofree char *words =
      selected ? g_strdup_printf (_ ("Pinhole %u of %zu"), pinhole + 1,
                                  motif->edges[loop_of (panel)].n_pinholes)
               : g_strdup (_ ("Click a pinhole on the canvas, or press Tab there. Drag it along "
                              "the outline to move it; double-click the outline to add one."));
  gtk_label_set_label (panel->pinhole_label, words);
  gtk_widget_set_sensitive (GTK_WIDGET (panel->place), selected);
  gtk_widget_set_sensitive (panel->remove_button, selected);
  gtk_widget_set_sensitive (panel->previous_button, motif != NULL);
  gtk_widget_set_sensitive (panel->next_button, motif != NULL);
  if (selected)
    show_place (panel, motif, pinhole);
}

static void
show_tool (PfEdgePanel *panel)
{
  gtk_toggle_button_set_active (panel->mark_toggle, pf_edge_tool_marking (tool_of (panel)));
}

static void add_stretch_row (PfEdgePanel *panel, size_t number);

static void
show_stretches (PfEdgePanel *panel, const PfDraftEdge *edge, const PfMotif *motif)
{
  const double length =
      motif != NULL ? pf_loop_length (&motif->region->loops[loop_of (panel)]) : PF_OUTLINE_LIMIT;
  size_t rows = 0;
  GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (panel->stretches));
  while (row != NULL)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (row);
      if (rows < edge->n_stretches)
        rows++;
      else
        gtk_box_remove (panel->stretches, row);
      row = next;
    }
  for (; rows < edge->n_stretches; rows++)
    add_stretch_row (panel, rows);
  row = gtk_widget_get_first_child (GTK_WIDGET (panel->stretches));
  for (size_t s = 0; s < edge->n_stretches; s++, row = gtk_widget_get_next_sibling (row))
    pf_stretch_row_set (PF_STRETCH_ROW (row), edge->stretches[s], length);
  gtk_widget_set_sensitive (panel->stretch_button, motif != NULL);
  gtk_widget_set_sensitive (GTK_WIDGET (panel->mark_toggle), motif != NULL);
}

static void
update (PfPanel *base)
{
  PfEdgePanel *panel = PF_EDGE_PANEL (base);
  PfEditor *editor = pf_panel_editor (base);
  const int active = pf_editor_active (editor);
  gtk_widget_set_sensitive (GTK_WIDGET (panel), active >= 0);
  show_tool (panel);
  if (active < 0)
    return;
  g_autoptr (PfDraft) draft = pf_document_resolve (pf_editor_document (editor), (size_t) active);
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  show_loops (panel, draft->n_curves);
  if (draft->n_curves > 0)
    {
      show_edge (panel, &draft->edges[loop_of (panel)]);
      show_stretches (panel, &draft->edges[loop_of (panel)], motif);
    }
  show_counts (panel, motif);
  show_pinhole (panel, motif);
}

/* --- From the widgets to the document -----------------------------------------------------------
 */

/* A copy to change of a draft that has the loop; if there is none, the widgets go back. */
static PfDraft *
edit (PfEdgePanel *panel)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return NULL;
  PfDraft *draft = pf_panel_edit (PF_PANEL (panel));
  if (draft != NULL && draft->n_curves > 0)
    return draft;
  g_clear_pointer (&draft, pf_draft_unref);
  pf_panel_update (PF_PANEL (panel));
  return NULL;
}

/* The same question, where something else makes the change. */
static bool
can_edit (PfEdgePanel *panel)
{
  g_autoptr (PfDraft) draft = edit (panel);
  return draft != NULL;
}

/* Choosing a loop selects its first pinhole, which shows where it begins. */
static void
loop_chosen (PfEdgePanel *panel)
{
  if (pf_panel_updating (PF_PANEL (panel)))
    return;
  const guint loop = gtk_drop_down_get_selected (panel->loop);
  if (loop == GTK_INVALID_LIST_POSITION || loop == loop_of (panel))
    return;
  pf_edge_tool_set_loop (tool_of (panel), loop);
  pf_pinhole_select (editor_of (panel), loop, 0);
}

static void
kind_chosen (PfEdgePanel *panel)
{
  PfDraft *draft = edit (panel);
  if (draft == NULL)
    return;
  draft->edges[loop_of (panel)].kind = (PfEdgeKind) gtk_drop_down_get_selected (panel->kind);
  pf_editor_change (editor_of (panel), draft, _ ("Stitch of the edge"));
}

static void
gap_changed (PfEdgePanel *panel)
{
  PfDraft *draft = edit (panel);
  if (draft == NULL)
    return;
  draft->edges[loop_of (panel)].gap = gtk_spin_button_get_value (panel->gap);
  pf_editor_change_merged (editor_of (panel), draft, _ ("Edge gap"));
}

static void
even_clicked (PfEdgePanel *panel)
{
  PfDraft *draft = edit (panel);
  if (draft == NULL)
    return;
  const size_t loop = loop_of (panel);
  pf_draft_set_pinholes_even (draft, loop, draft->edges[loop].gap);
  pf_editor_change (editor_of (panel), draft, _ ("Space pinholes evenly"));
}

static void
place_changed (PfEdgePanel *panel)
{
  const bool possible = can_edit (panel);
  g_autoptr (PfMotif) motif = possible ? pf_edge_motif (editor_of (panel)) : NULL;
  const guint32 pinhole = selected_pinhole (panel, motif);
  if (pinhole == PF_NONE)
    return;
  const size_t loop = loop_of (panel);
  pf_pinhole_nudge (editor_of (panel),
                    pf_edge_way (motif, loop, motif->edges[loop].pinholes[pinhole],
                                 gtk_spin_button_get_value (panel->place)));
}

static void
walk (PfEdgePanel *panel, int step)
{
  pf_pinhole_walk (editor_of (panel), loop_of (panel), step, true);
  g_autoptr (PfMotif) motif = pf_edge_motif (editor_of (panel));
  const guint32 pinhole = selected_pinhole (panel, motif);
  if (pinhole == PF_NONE)
    return;
  const PfPlace place = { loop_of (panel), motif->edges[loop_of (panel)].pinholes[pinhole] };
  pf_canvas_show_place (pf_panel_canvas (PF_PANEL (panel)), pf_region_point (motif->region, place));
}

static void
previous_clicked (PfEdgePanel *panel)
{
  walk (panel, -1);
}

static void
next_clicked (PfEdgePanel *panel)
{
  walk (panel, 1);
}

static void
remove_clicked (PfEdgePanel *panel)
{
  if (can_edit (panel))
    pf_pinhole_remove (editor_of (panel));
}

static void
add_clicked (PfEdgePanel *panel)
{
  if (can_edit (panel) && !pf_pinhole_add (editor_of (panel), loop_of (panel),
                                           gtk_spin_button_get_value (panel->add_at)))
    pf_panel_say (PF_PANEL (panel), _ ("There is a pinhole already. Choose another place."));
}

/* --- Stretches ----------------------------------------------------------------------------------
 */

static void
stretch_changed (PfEdgePanel *panel, PfStretchRow *row)
{
  PfDraft *draft = edit (panel);
  if (draft == NULL)
    return;
  const size_t number = pf_stretch_row_number (row);
  g_autofree char *name = g_strdup_printf (_ ("Change stretch %zu"), number + 1);
  draft->edges[loop_of (panel)].stretches[number] = pf_stretch_row_get (row);
  pf_editor_change_merged (editor_of (panel), draft, name);
}

static void
stretch_removed (PfEdgePanel *panel, PfStretchRow *row)
{
  PfDraft *draft = edit (panel);
  if (draft == NULL)
    return;
  const size_t loop = loop_of (panel);
  const PfDraftEdge *edge = &draft->edges[loop];
  g_autofree PfEdgeStretch *left = g_new (PfEdgeStretch, edge->n_stretches);
  size_t n = 0;
  for (size_t s = 0; s < edge->n_stretches; s++)
    if (s != pf_stretch_row_number (row))
      left[n++] = edge->stretches[s];
  pf_draft_set_stretches (draft, loop, left, n);
  pf_editor_change (editor_of (panel), draft, _ ("Remove a stretch"));
}

static void
add_stretch_row (PfEdgePanel *panel, size_t number)
{
  GtkWidget *row = pf_stretch_row_new (number);
  g_signal_connect_object (row, "changed", G_CALLBACK (stretch_changed), panel, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "removed", G_CALLBACK (stretch_removed), panel, G_CONNECT_SWAPPED);
  pf_number_entries_prepare (row, PF_PANEL (panel));
  pf_panel_wheel_moves_only (row);
  gtk_box_append (panel->stretches, row);
}

/* From the selected pinhole to the next but four, or so at the loop's start, for the maker to type
 * what it should be. */
static void
stretch_clicked (PfEdgePanel *panel)
{
  PfDraft *draft = edit (panel);
  g_autoptr (PfMotif) motif = draft != NULL ? pf_edge_motif (editor_of (panel)) : NULL;
  if (motif == NULL)
    {
      g_clear_pointer (&draft, pf_draft_unref);
      return;
    }
  const size_t loop = loop_of (panel);
  const guint32 pinhole = selected_pinhole (panel, motif);
  const double length = pf_loop_length (&motif->region->loops[loop]);
  const double from = pinhole != PF_NONE ? motif->edges[loop].pinholes[pinhole] : 0;
  const double way = MIN (5 * draft->edges[loop].gap, length / 2);
  pf_edge_add_stretch (draft, motif, loop, from, pf_edge_wrap (motif, loop, from + way));
  pf_editor_change (editor_of (panel), draft, _ ("Add a stretch"));
}

static void
mark_toggled (PfEdgePanel *panel)
{
  if (!pf_panel_updating (PF_PANEL (panel)))
    pf_edge_tool_set_marking (tool_of (panel), gtk_toggle_button_get_active (panel->mark_toggle));
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
view_changed (PfEdgePanel *panel, PfCanvas *canvas)
{
  pf_edge_tool_set_turn (tool_of (panel), pf_canvas_turn (canvas));
}

static void
pf_edge_panel_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), PF_TYPE_EDGE_PANEL);
  G_OBJECT_CLASS (pf_edge_panel_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfEdgePanel, loop_box);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, loop);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, kind);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, kind_hint);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, spaced_hint);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, pinhole_label);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, gap);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, place);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, add_at);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, count_pinholes);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, count_length);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, count_mean);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, even_button);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, previous_button);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, next_button);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, remove_button);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, add_button);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, stretch_button);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, stretches);
  gtk_widget_class_bind_template_child (class, PfEdgePanel, mark_toggle);
}

static void
pf_edge_panel_class_init (PfEdgePanelClass *class)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_edge_panel_dispose;
  PF_PANEL_CLASS (class)->update = update;
  gtk_widget_class_set_template_from_resource (widget, "/org/pinfold/Pinfold/edge-panel.ui");
  bind_children (widget);
  gtk_widget_class_bind_template_callback (widget, loop_chosen);
  gtk_widget_class_bind_template_callback (widget, kind_chosen);
  gtk_widget_class_bind_template_callback (widget, gap_changed);
  gtk_widget_class_bind_template_callback (widget, even_clicked);
  gtk_widget_class_bind_template_callback (widget, place_changed);
  gtk_widget_class_bind_template_callback (widget, previous_clicked);
  gtk_widget_class_bind_template_callback (widget, next_clicked);
  gtk_widget_class_bind_template_callback (widget, remove_clicked);
  gtk_widget_class_bind_template_callback (widget, add_clicked);
  gtk_widget_class_bind_template_callback (widget, mark_toggled);
  gtk_widget_class_bind_template_callback (widget, stretch_clicked);
}

static void
pf_edge_panel_init (PfEdgePanel *panel)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gtk_widget_init_template (GTK_WIDGET (panel));
  gtk_drop_down_set_model (panel->loop, G_LIST_MODEL (names));
}

GtkWidget *
pf_edge_panel_new (PfEditor *editor, PfCanvas *canvas)
{
  g_autoptr (PfTool) tool = pf_edge_tool_new (editor);
  PfPanel *panel =
      g_object_new (PF_TYPE_EDGE_PANEL, "editor", editor, "canvas", canvas, "tool", tool, NULL);
  g_signal_connect_object (tool, "changed", G_CALLBACK (pf_panel_update), panel, G_CONNECT_SWAPPED);
  g_signal_connect_object (canvas, "view-changed", G_CALLBACK (view_changed), panel,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (panel);
}
