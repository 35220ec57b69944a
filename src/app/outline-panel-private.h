/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the files of the outline panel share: outline-panel.c (tools, drawing),
 * outline-panel-motifs.c (the list), outline-panel-numbers.c (nodes and the whole motif by
 * numbers), outline-panel-mirror.c, outline-panel-scan.c (laying under, straightening),
 * outline-panel-trace.c. Each binds its own widgets and handlers, and brings its widgets up to
 * date.
 */
#pragma once

#include "measure-tool.h"
#include "outline-panel.h"
#include "outline-tool.h"
#include "pen-tool.h"
#include "shape-tool.h"
#include "trace-tool.h"

G_BEGIN_DECLS

struct _PfOutlinePanel {
  PfPanel parent_instance;

  /* Owned */
  PfTool *choose, *pen, *rectangle, *ellipse, *axis, *marks, *trace;
  GCancellable *opening, *tracing; /* NULL when nothing is opened or traced */
  char *marked;                    /* the file of the scan that the marks were laid on */
  char *listed;                    /* what the list of motifs shows, to see when it changes */
  PfAffine traced_map;             /* where the scan lay that was traced */

  /* Borrowed: widgets */
  GtkListBox *motif_list;
  GtkWidget *list_scroller, *no_motif_label, *motif_name_row, *follow_row;
  GtkEditable *name_entry;
  GtkWidget *up_button, *down_button, *remove_button;
  GtkLabel *follow_label, *trouble_label;

  GtkToggleButton *choose_button, *pen_button, *rectangle_button, *ellipse_button;
  GtkCheckButton *motif_check, *hole_check;
  GtkLabel *hint_label;
  GtkWidget *drawing_row, *close_button, *back_button, *stop_button;
  GtkSpinButton *add_x, *add_y;

  GtkLabel *chosen_label;
  GtkSpinButton *node_x, *node_y;
  GtkWidget *node_box, *whole_section;
  GtkSpinButton *motif_x, *motif_y, *motif_width, *motif_height, *turn_spin;
  GtkCheckButton *proportions_check;

  GtkCheckButton *snap_nodes, *snap_grid;
  GtkSpinButton *grid_spin;

  GtkExpander *mirror_expander;
  GtkSpinButton *axis_x, *axis_y, *axis_angle;
  PfPoint axis_size; /* of the drawing in whose middle the axis was laid */
  GtkToggleButton *axis_button;
  GtkWidget *half_button, *image_button;

  GtkExpander *scan_expander;
  GtkWidget *scan_button, *opening_row, *scan_box;
  GtkLabel *scan_label;
  GtkCheckButton *scan_shown;
  GtkRange *scan_strength;
  GtkToggleButton *marks_button;
  GtkSpinButton *across_spin, *down_spin;
  GtkCheckButton *down_check;
  GtkLabel *across_label, *down_label;

  GtkCheckButton *threshold_check, *light_check;
  GtkSpinButton *threshold_spin, *speckle_spin, *roundness_spin;
  GtkWidget *trace_settings, *tracing_row, *found_box, *take_over_button;
  GtkLabel *found_label;
};

/* --- outline-panel.c ----------------------------------------------------------------------------
 */

PfEditor *pf_outline_panel_editor (PfOutlinePanel *panel);
/* Gives the canvas another of the tools. */
void pf_outline_panel_use (PfOutlinePanel *panel, PfTool *tool);
/* Gives the keyboard to the canvas. */
void pf_outline_panel_to_canvas (PfOutlinePanel *panel);
/* Shows a number as it would be typed: rounded to the digits that are shown. */
void pf_outline_panel_show_number (PfOutlinePanel *panel, GtkSpinButton *spin, double value);
/* Did the maker type or step another number than is shown for `value`? */
bool pf_outline_panel_typed (PfOutlinePanel *panel, GtkSpinButton *spin, double value);

/* --- The other files ----------------------------------------------------------------------------
 */

void pf_outline_panel_bind_motifs (GtkWidgetClass *class);
void pf_outline_panel_update_motifs (PfOutlinePanel *panel);
void pf_outline_panel_bind_numbers (GtkWidgetClass *class);
void pf_outline_panel_update_numbers (PfOutlinePanel *panel);
void pf_outline_panel_bind_mirror (GtkWidgetClass *class);
void pf_outline_panel_start_mirror (PfOutlinePanel *panel);
void pf_outline_panel_update_mirror (PfOutlinePanel *panel);
void pf_outline_panel_bind_scan (GtkWidgetClass *class);
void pf_outline_panel_update_scan (PfOutlinePanel *panel);
void pf_outline_panel_bind_trace (GtkWidgetClass *class);
void pf_outline_panel_update_trace (PfOutlinePanel *panel);
/* Ends tracing, and forgets what was found. */
void pf_outline_panel_stop_trace (PfOutlinePanel *panel);

G_END_DECLS
