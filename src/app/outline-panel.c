/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The outline panel: its tools, and drawing. One tool is in use at a time; the buttons follow it.
 */
#include "outline-panel-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "number-entry.h"
#include "outline-edit.h"

G_DEFINE_FINAL_TYPE (PfOutlinePanel, pf_outline_panel, PF_TYPE_PANEL)

PfEditor *
pf_outline_panel_editor (PfOutlinePanel *panel)
{
  return pf_panel_editor (PF_PANEL (panel));
}

/* How many of the last digit shown make up one of the number. */
static double
last_digits (PfOutlinePanel *panel, GtkSpinButton *spin)
{
  const bool inches = gtk_widget_has_css_class (GTK_WIDGET (spin), "length") &&
                      pf_editor_units (pf_outline_panel_editor (panel)) == PF_UNITS_INCH;
  return inches ? pow (10, PF_INCH_DECIMALS) / PF_MM_PER_INCH
                : pow (10, gtk_spin_button_get_digits (spin));
}

void
pf_outline_panel_show_number (PfOutlinePanel *panel, GtkSpinButton *spin, double value)
{
  const double step = last_digits (panel, spin);
  gtk_spin_button_set_value (spin, round (value * step) / step);
}

bool
pf_outline_panel_typed (PfOutlinePanel *panel, GtkSpinButton *spin, double value)
{
  const double step = last_digits (panel, spin);
  return !pf_panel_updating (PF_PANEL (panel)) &&
         fabs (gtk_spin_button_get_value (spin) - round (value * step) / step) > 0.25 / step;
}

/* --- Tools --------------------------------------------------------------------------------------
 */

#define N_BUTTONS 6

static void
get_tools (PfOutlinePanel *panel, GtkToggleButton *buttons[N_BUTTONS], PfTool *tools[N_BUTTONS])
{
  GtkToggleButton *const all[] = { panel->choose_button,    panel->pen_button,
                                   panel->rectangle_button, panel->ellipse_button,
                                   panel->axis_button,      panel->marks_button };
  PfTool *const their[] = { panel->choose,  panel->pen,  panel->rectangle,
                            panel->ellipse, panel->axis, panel->marks };
  for (int b = 0; b < N_BUTTONS; b++)
    {
      buttons[b] = all[b];
      tools[b] = their[b];
    }
}

void
pf_outline_panel_use (PfOutlinePanel *panel, PfTool *tool)
{
  if (pf_panel_tool (PF_PANEL (panel)) == tool)
    return;
  if (pf_panel_tool (PF_PANEL (panel)) == panel->trace)
    pf_outline_panel_stop_trace (panel);
  pf_panel_set_tool (PF_PANEL (panel), tool);
  pf_panel_update (PF_PANEL (panel));
}

void
pf_outline_panel_to_canvas (PfOutlinePanel *panel)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (panel)))
    gtk_widget_grab_focus (GTK_WIDGET (pf_panel_canvas (PF_PANEL (panel))));
}

static void
tool_toggled (GtkToggleButton *button, PfOutlinePanel *panel)
{
  GtkToggleButton *buttons[N_BUTTONS];
  PfTool *tools[N_BUTTONS];
  if (pf_panel_updating (PF_PANEL (panel)) || !gtk_toggle_button_get_active (button))
    return;
  get_tools (panel, buttons, tools);
  for (int b = 0; b < N_BUTTONS; b++)
    if (buttons[b] == button && tools[b] != NULL)
      {
        pf_outline_panel_use (panel, tools[b]);
        pf_outline_panel_to_canvas (panel);
      }
}

static void
finished (PfOutlinePanel *panel)
{
  pf_outline_panel_use (panel, panel->choose);
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

static void
hole_toggled (GtkCheckButton *check, PfOutlinePanel *panel)
{
  PfTool *const tools[] = { panel->pen, panel->rectangle, panel->ellipse };
  for (gsize t = 0; t < G_N_ELEMENTS (tools); t++)
    pf_drawing_tool_set_hole (PF_DRAWING_TOOL (tools[t]), gtk_check_button_get_active (check));
}

static void
close_outline (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_pen_tool_close (PF_PEN_TOOL (panel->pen));
}

static void
remove_last (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_pen_tool_remove_last (PF_PEN_TOOL (panel->pen));
}

static void
stop_drawing (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_pen_tool_end (PF_PEN_TOOL (panel->pen));
}

/* The pen draws it; the keyboard goes back to where the next place is typed. */
static void
add_at (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  gtk_spin_button_update (panel->add_x);
  gtk_spin_button_update (panel->add_y);
  const PfPoint at = { gtk_spin_button_get_value (panel->add_x),
                       gtk_spin_button_get_value (panel->add_y) };
  pf_outline_panel_use (panel, panel->pen);
  pf_pen_tool_add (PF_PEN_TOOL (panel->pen), (PfNode){ .at = at, .in = at, .out = at });
  gtk_widget_grab_focus (GTK_WIDGET (panel->add_x));
}

static void
snapping_changed (GtkWidget *widget G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  PfTool *const tools[] = { panel->choose,  panel->pen,  panel->rectangle,
                            panel->ellipse, panel->axis, panel->marks };
  const bool grid = gtk_check_button_get_active (panel->snap_grid);
  const PfSnapping snapping = { grid ? gtk_spin_button_get_value (panel->grid_spin) : 0,
                                gtk_check_button_get_active (panel->snap_nodes) };
  for (gsize t = 0; t < G_N_ELEMENTS (tools); t++)
    if (tools[t] != NULL && tools[t] != panel->marks)
      pf_drawing_tool_set_snapping (PF_DRAWING_TOOL (tools[t]), snapping);
}

static const char *
hint (PfOutlinePanel *panel)
{
  const PfTool *tool = pf_panel_tool (PF_PANEL (panel));
  if (tool == panel->pen)
    return pf_pen_tool_hint (PF_PEN_TOOL (panel->pen));
  if (tool == panel->rectangle || tool == panel->ellipse)
    return _ ("Drag from one corner to the opposite one.");
  if (tool == panel->axis)
    return _ ("Drag the ends of the mirror axis to where it runs.");
  if (tool == panel->marks)
    return _ ("Drag the ends of the lines to points whose distance you know.");
  if (tool == panel->trace)
    return _ ("Click an outline to leave it out or to take it in again. By keyboard: Tab walks "
              "them, Delete leaves one out, Insert takes it in, Return takes over.");
  if (pf_outline_open_curve (pf_editor_draft (pf_outline_panel_editor (panel))) != NULL)
    return _ ("An outline is still open. Go on with the pen, close it, or complete it as the half "
              "of a mirror image.");
  return _ (
      "Click or drag a node, a segment, or a motif. Shift adds to what is chosen; drag beside "
      "the motifs to choose several nodes.");
}

static void
update_drawing (PfOutlinePanel *panel)
{
  GtkToggleButton *buttons[N_BUTTONS];
  PfTool *tools[N_BUTTONS];
  const PfTool *tool = pf_panel_tool (PF_PANEL (panel));
  const size_t n = pf_pen_tool_n_nodes (PF_PEN_TOOL (panel->pen));
  get_tools (panel, buttons, tools);
  for (int b = 0; b < N_BUTTONS; b++)
    gtk_toggle_button_set_active (buttons[b], tools[b] == tool);
  gtk_label_set_label (panel->hint_label, hint (panel));
  gtk_widget_set_visible (panel->drawing_row, n > 0);
  gtk_widget_set_sensitive (panel->close_button, n > 1);
  gtk_widget_set_sensitive (panel->stop_button, tool == panel->pen);
}

/* --- The object ---------------------------------------------------------------------------------
 */

static void
pf_outline_panel_update (PfPanel *parent)
{
  PfOutlinePanel *panel = PF_OUTLINE_PANEL (parent);
  pf_outline_panel_update_motifs (panel);
  update_drawing (panel);
  pf_outline_panel_update_numbers (panel);
  pf_outline_panel_update_mirror (panel);
  pf_outline_panel_update_scan (panel);
  pf_outline_panel_update_trace (panel);
}

static void
say (PfOutlinePanel *panel, const char *text)
{
  pf_panel_say (PF_PANEL (panel), text);
}

static void
pf_outline_panel_constructed (GObject *object)
{
  PfOutlinePanel *panel = PF_OUTLINE_PANEL (object);
  G_OBJECT_CLASS (pf_outline_panel_parent_class)->constructed (object);
  PfEditor *editor = pf_outline_panel_editor (panel);
  panel->choose = pf_outline_tool_new (editor);
  panel->pen = pf_pen_tool_new (editor);
  panel->rectangle = pf_shape_tool_new (editor, false);
  panel->ellipse = pf_shape_tool_new (editor, true);
  panel->axis = pf_measure_tool_new (editor);
  panel->marks = pf_measure_tool_new (editor);
  panel->trace = pf_trace_tool_new (editor);
  PfTool *const tools[] = { panel->choose, panel->pen,   panel->rectangle, panel->ellipse,
                            panel->axis,   panel->marks, panel->trace };
  for (gsize t = 0; t < G_N_ELEMENTS (tools); t++)
    {
      g_signal_connect_object (tools[t], "say", G_CALLBACK (say), panel, G_CONNECT_SWAPPED);
      g_signal_connect_object (tools[t], "finished", G_CALLBACK (finished), panel,
                               G_CONNECT_SWAPPED);
      g_signal_connect_object (tools[t], "changed", G_CALLBACK (pf_panel_update), panel,
                               G_CONNECT_SWAPPED);
    }
  pf_drawing_tool_set_snapping (PF_DRAWING_TOOL (panel->marks), (PfSnapping){ 0, false });
  pf_outline_panel_start_mirror (panel);
  pf_panel_set_tool (PF_PANEL (panel), panel->choose);
}

static void
pf_outline_panel_dispose (GObject *object)
{
  PfOutlinePanel *panel = PF_OUTLINE_PANEL (object);
  PfTool **const tools[] = { &panel->choose, &panel->pen,   &panel->rectangle, &panel->ellipse,
                             &panel->axis,   &panel->marks, &panel->trace };
  if (panel->opening != NULL)
    g_cancellable_cancel (panel->opening);
  if (panel->tracing != NULL)
    g_cancellable_cancel (panel->tracing);
  g_clear_object (&panel->opening);
  g_clear_object (&panel->tracing);
  for (gsize t = 0; t < G_N_ELEMENTS (tools); t++)
    g_clear_object (tools[t]);
  g_clear_pointer (&panel->marked, g_free);
  g_clear_pointer (&panel->listed, g_free);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (panel))) != NULL)
    gtk_box_remove (GTK_BOX (panel), child);
  G_OBJECT_CLASS (pf_outline_panel_parent_class)->dispose (object);
}

static void
bind_drawing (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, choose_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, pen_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, rectangle_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, ellipse_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, motif_check);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, hole_check);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, hint_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, drawing_row);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, close_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, back_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, stop_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, add_x);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, add_y);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, snap_nodes);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, snap_grid);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, grid_spin);
  gtk_widget_class_bind_template_callback (class, tool_toggled);
  gtk_widget_class_bind_template_callback (class, hole_toggled);
  gtk_widget_class_bind_template_callback (class, close_outline);
  gtk_widget_class_bind_template_callback (class, remove_last);
  gtk_widget_class_bind_template_callback (class, stop_drawing);
  gtk_widget_class_bind_template_callback (class, add_at);
  gtk_widget_class_bind_template_callback (class, snapping_changed);
}

static void
pf_outline_panel_class_init (PfOutlinePanelClass *class)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->constructed = pf_outline_panel_constructed;
  G_OBJECT_CLASS (class)->dispose = pf_outline_panel_dispose;
  PF_PANEL_CLASS (class)->update = pf_outline_panel_update;
  gtk_widget_class_set_template_from_resource (widget, "/org/pinfold/Pinfold/outline-panel.ui");
  bind_drawing (widget);
  pf_outline_panel_bind_motifs (widget);
  pf_outline_panel_bind_numbers (widget);
  pf_outline_panel_bind_mirror (widget);
  pf_outline_panel_bind_scan (widget);
  pf_outline_panel_bind_trace (widget);
}

static void
pf_outline_panel_init (PfOutlinePanel *panel)
{
  gtk_widget_init_template (GTK_WIDGET (panel));
}

GtkWidget *
pf_outline_panel_new (PfEditor *editor, PfCanvas *canvas)
{
  return g_object_new (PF_TYPE_OUTLINE_PANEL, "editor", editor, "canvas", canvas, NULL);
}
