/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Panels: the settings of one stage, beside the canvas. A panel brings the tool that works on the
 * canvas with it, and may change it.
 */
#pragma once

#include "canvas.h"

G_BEGIN_DECLS

#define PF_TYPE_PANEL (pf_panel_get_type ())
G_DECLARE_DERIVABLE_TYPE (PfPanel, pf_panel, PF, PANEL, GtkBox)

/* Properties: "editor" (PfEditor) and "canvas" (PfCanvas), given when it is made; "tool" (PfTool),
 * the one for the canvas while the panel is shown. Signal "say" (char *): something to tell the
 * maker, such as why a thing can't be done. */
struct _PfPanelClass {
  GtkBoxClass parent_class;

  /* Brings the panel's widgets up to date with the editor. Called while the panel is shown, after
   * anything in the editor changed but what is hovered, and when it is shown again. Setting a
   * widget here must not change the document: see pf_panel_updating(). */
  void (*update) (PfPanel *panel);
};

PfEditor *pf_panel_editor (PfPanel *panel);
PfCanvas *pf_panel_canvas (PfPanel *panel);
void pf_panel_set_tool (PfPanel *panel, PfTool *tool);
PfTool *pf_panel_tool (PfPanel *panel);

/* True within update(): handlers of the widgets' signals return at once then. */
bool pf_panel_updating (PfPanel *panel);
/* Calls update() if the panel is shown. */
void pf_panel_update (PfPanel *panel);
/* A copy of the active draft to change; if there is none or it follows another motif, says so to
 * the maker and gives NULL. */
PfDraft *pf_panel_edit (PfPanel *panel);
void pf_panel_say (PfPanel *panel, const char *text);
/* Scrolls to a widget of a panel that may have been shown only now. */
void pf_panel_scroll_to (GtkWidget *widget);

/* The five of them. */
GtkWidget *pf_outline_panel_new (PfEditor *editor, PfCanvas *canvas);
GtkWidget *pf_edge_panel_new (PfEditor *editor, PfCanvas *canvas);
GtkWidget *pf_ground_panel_new (PfEditor *editor, PfCanvas *canvas);
GtkWidget *pf_sewings_panel_new (PfEditor *editor, PfCanvas *canvas);
GtkWidget *pf_sheet_panel_new (PfEditor *editor, PfCanvas *canvas);

G_END_DECLS
