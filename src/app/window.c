/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The window's widgets, and how they follow the editor's stage and document.
 */
#include "window-private.h"

#include <glib/gi18n.h>

#include "motif-chooser.h"
#include "rail.h"
#include "resources.h"
#include "sheet-preview.h"
#include "status-bar.h"
#include "strip-view.h"

G_DEFINE_FINAL_TYPE (PfWindow, pf_window, GTK_TYPE_APPLICATION_WINDOW)

PfEditor *
pf_window_editor (PfWindow *window)
{
  return window->editor;
}

PfCanvas *
pf_window_canvas (PfWindow *window)
{
  return PF_CANVAS (window->canvas);
}

GFile *
pf_window_file (PfWindow *window)
{
  return window->file;
}

bool
pf_window_is_unused (PfWindow *window)
{
  return window->unused && pf_history_is_saved (pf_editor_history (window->editor));
}

PfPreferences *
pf_window_preferences (PfWindow *window)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (window));
  return application != NULL ? pf_application_preferences (PF_APPLICATION (application)) : NULL;
}

bool
pf_window_is_gone (PfWindow *window)
{
  return window->editor == NULL;
}

static void
info_bar_response (GtkInfoBar *bar, int response, gpointer window)
{
  gtk_info_bar_set_revealed (bar, FALSE);
  if (response == GTK_RESPONSE_ACCEPT)
    pf_window_open_backup (window);
}

static void
say (PfWindow *window, const char *text)
{
  pf_window_say (window, GTK_MESSAGE_INFO, text);
}

void
pf_window_update_title (PfWindow *window)
{
  const PfDocument *document = pf_editor_document (window->editor);
  const bool saved = pf_history_is_saved (pf_editor_history (window->editor));
  const char *title = *document->title != '\0' ? document->title : _ ("Pricking without a name");
  g_autofree char *whole = g_strdup_printf ("%s%s – %s", saved ? "" : "• ", title, _ ("Pinfold"));
  gtk_window_set_title (GTK_WINDOW (window), whole);
  gtk_label_set_label (window->title_label, title);
  g_autofree char *path = window->file != NULL ? g_file_get_parse_name (window->file) : NULL;
  g_autofree char *name = path != NULL ? g_path_get_basename (path) : NULL;
  gtk_widget_set_visible (GTK_WIDGET (window->saved_label), name != NULL || !saved);
  if (name == NULL)
    gtk_label_set_label (window->saved_label, _ ("not saved yet"));
  else
    {
      g_autofree char *state =
          g_strdup_printf (saved ? _ ("%s – saved") : _ ("%s – changed"), name);
      gtk_label_set_label (window->saved_label, state);
    }
}

static void
document_changed (PfWindow *window)
{
  pf_window_update_title (window);
  pf_window_update_actions (window);
  pf_window_end_advice (window);
  pf_window_journal_change (window);
}

/* --- Stages -------------------------------------------------------------------------------------
 */

static void
use_tool_of (PfWindow *window, GtkWidget *panel)
{
  if (panel == window->panels[window->shown])
    pf_canvas_set_tool (PF_CANVAS (window->canvas), pf_panel_tool (PF_PANEL (panel)));
}

static void
tool_changed (PfWindow *window, GParamSpec *spec G_GNUC_UNUSED, GtkWidget *panel)
{
  use_tool_of (window, panel);
}

/* The edge strip is shown where edges and sewings are worked on. Elsewhere there is nothing to
 * switch, and no tick. */
static void
show_strip (PfWindow *window)
{
  const bool useful = window->shown == PF_STAGE_EDGE || window->shown == PF_STAGE_SEWINGS;
  const bool shown = useful && window->strip_wanted;
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), "edge-strip");
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), useful);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (shown));
  gtk_widget_set_visible (window->strip, shown);
}

void
pf_window_want_strip (PfWindow *window, bool wanted)
{
  window->strip_wanted = wanted;
  show_strip (window);
}

void
pf_window_show_view (PfWindow *window)
{
  gtk_stack_set_visible_child_name (window->view_stack, window->at_pillow ? "pillow"
                                                        : window->shown == PF_STAGE_SHEET
                                                            ? "pages"
                                                            : "drawing");
}

static void
stage_changed (PfWindow *window)
{
  static const char *const names[] = { "outline", "edge", "ground", "sewings", "sheet" };
  window->shown = pf_editor_stage (window->editor);
  pf_window_go_to_pillow (window, false);
  gtk_stack_set_visible_child_name (window->panel_stack, names[window->shown]);
  pf_window_show_view (window);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (window->panel_scroller), 0);
  use_tool_of (window, window->panels[window->shown]);
  show_strip (window);
  pf_window_update_actions (window);
}

static void
add_panel (PfWindow *window, PfStage stage, const char *name, GtkWidget *panel)
{
  window->panels[stage] = panel;
  gtk_stack_add_named (window->panel_stack, panel, name);
  g_signal_connect_object (panel, "notify::tool", G_CALLBACK (tool_changed), window,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (panel, "say", G_CALLBACK (say), window, G_CONNECT_SWAPPED);
}

static void
add_panels (PfWindow *window)
{
  PfEditor *editor = window->editor;
  PfCanvas *canvas = PF_CANVAS (window->canvas);
  add_panel (window, PF_STAGE_OUTLINE, "outline", pf_outline_panel_new (editor, canvas));
  add_panel (window, PF_STAGE_EDGE, "edge", pf_edge_panel_new (editor, canvas));
  add_panel (window, PF_STAGE_GROUND, "ground", pf_ground_panel_new (editor, canvas));
  add_panel (window, PF_STAGE_SEWINGS, "sewings", pf_sewings_panel_new (editor, canvas));
  add_panel (window, PF_STAGE_SHEET, "sheet", pf_sheet_panel_new (editor, canvas));
}

/* --- Preferences --------------------------------------------------------------------------------
 */

static void
use_preferences (PfWindow *window)
{
  PfPreferences *preferences = pf_window_preferences (window);
  if (preferences == NULL)
    return;
  pf_canvas_set_true_size (PF_CANVAS (window->canvas), pf_preferences_pixels_per_mm (preferences));
  pf_canvas_set_inches (PF_CANVAS (window->canvas),
                        pf_preferences_units (preferences) == PF_UNITS_INCH);
  pf_editor_set_units (window->editor, pf_preferences_units (preferences));
  pf_sheet_preview_set_printer (PF_SHEET_PREVIEW (window->preview),
                                pf_preferences_printer (preferences));
  const PfLook look = pf_preferences_look (preferences);
  pf_canvas_set_look (PF_CANVAS (window->canvas), &look);
  pf_pillow_page_set_text (PF_PILLOW_PAGE (window->pillow),
                           pf_preferences_pillow_text (preferences));
  pf_pillow_page_set_whole (PF_PILLOW_PAGE (window->pillow),
                            pf_preferences_pillow_whole (preferences));
  pf_strip_view_set_look (PF_STRIP_VIEW (window->strip), &look);
  pf_window_show_layers (window, pf_preferences_layers (preferences));
  pf_window_want_strip (window, pf_preferences_edge_strip (preferences));
}

static void
application_set (PfWindow *window)
{
  PfPreferences *preferences = pf_window_preferences (window);
  if (preferences == NULL)
    return;
  g_signal_connect_object (preferences, "notify", G_CALLBACK (use_preferences), window,
                           G_CONNECT_SWAPPED);
  use_preferences (window);
}

/* --- The object ---------------------------------------------------------------------------------
 */

static gboolean
pf_window_close_request (GtkWindow *gtk_window)
{
  PfWindow *window = PF_WINDOW (gtk_window);
  if (!window->closing && !pf_window_may_close (window))
    return TRUE;
  pf_window_let_sleep (window);
  pf_window_stop_journal (window, true);
  return GTK_WINDOW_CLASS (pf_window_parent_class)->close_request (gtk_window);
}

static void
pf_window_dispose (GObject *object)
{
  PfWindow *window = PF_WINDOW (object);
  pf_window_let_sleep (window);
  pf_window_forget_files (window);
  pf_window_stop_work (window);
  pf_window_stop_journal (window, false);
  g_clear_object (&window->file);
  g_clear_object (&window->menu);
  g_clear_pointer (&window->advised, pf_document_unref);
  g_clear_pointer (&window->folder, g_free);
  gtk_widget_dispose_template (GTK_WIDGET (window), PF_TYPE_WINDOW);
  G_OBJECT_CLASS (pf_window_parent_class)->dispose (object);
  g_clear_object (&window->editor);
}

static void
pf_window_finalize (GObject *object)
{
  g_ptr_array_unref (PF_WINDOW (object)->errors);
  g_free (PF_WINDOW (object)->said);
  g_free (PF_WINDOW (object)->file_state);
  G_OBJECT_CLASS (pf_window_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *class)
{
  gtk_widget_class_set_template_from_resource (class, PF_RESOURCES "window.ui");
  gtk_widget_class_bind_template_callback (class, info_bar_response);
  gtk_widget_class_bind_template_callback (class, pf_window_cancel_work);
  gtk_widget_class_bind_template_child (class, PfWindow, work_bar);
  gtk_widget_class_bind_template_child (class, PfWindow, work_label);
  gtk_widget_class_bind_template_child (class, PfWindow, work_spinner);
  gtk_widget_class_bind_template_child (class, PfWindow, title_label);
  gtk_widget_class_bind_template_child (class, PfWindow, saved_label);
  gtk_widget_class_bind_template_child (class, PfWindow, info_label);
  gtk_widget_class_bind_template_child (class, PfWindow, info_bar);
  gtk_widget_class_bind_template_child (class, PfWindow, info_backup);
  gtk_widget_class_bind_template_child (class, PfWindow, open_button);
  gtk_widget_class_bind_template_child (class, PfWindow, undo_button);
  gtk_widget_class_bind_template_child (class, PfWindow, redo_button);
  gtk_widget_class_bind_template_child (class, PfWindow, menu_button);
  gtk_widget_class_bind_template_child (class, PfWindow, save_button);
  gtk_widget_class_bind_template_child (class, PfWindow, view_stack);
  gtk_widget_class_bind_template_child (class, PfWindow, panel_stack);
  gtk_widget_class_bind_template_child (class, PfWindow, panel_scroller);
  gtk_widget_class_bind_template_child (class, PfWindow, strip_paned);
  gtk_widget_class_bind_template_child (class, PfWindow, rail_separator);
  gtk_widget_class_bind_template_child (class, PfWindow, panel_separator);
  gtk_widget_class_bind_template_child (class, PfWindow, status_separator);
  gtk_widget_class_bind_template_child (class, PfWindow, rail_place);
  gtk_widget_class_bind_template_child (class, PfWindow, panel_place);
  gtk_widget_class_bind_template_child (class, PfWindow, preview_place);
  gtk_widget_class_bind_template_child (class, PfWindow, status_place);
}

static void
pf_window_class_init (PfWindowClass *class)
{
  pf_use_resources ();
  G_OBJECT_CLASS (class)->dispose = pf_window_dispose;
  G_OBJECT_CLASS (class)->finalize = pf_window_finalize;
  GTK_WINDOW_CLASS (class)->close_request = pf_window_close_request;
  bind_children (GTK_WIDGET_CLASS (class));
}

/* What is made in code, as it needs the editor. */
static void
add_children (PfWindow *window)
{
  PfEditor *editor = window->editor;
  window->canvas = pf_canvas_new (editor);
  window->strip = pf_strip_view_new (editor);
  window->preview = pf_sheet_preview_new (editor);
  gtk_box_append (window->rail_place, pf_rail_new (editor));
  gtk_box_prepend (window->panel_place, pf_motif_chooser_new (editor));
  gtk_paned_set_start_child (window->strip_paned, window->canvas);
  gtk_paned_set_end_child (window->strip_paned, window->strip);
  gtk_box_append (window->preview_place, window->preview);
  gtk_box_append (window->status_place, pf_status_bar_new (editor, PF_CANVAS (window->canvas)));
  pf_window_add_pillow (window);
  add_panels (window);
}

static void
pf_window_init (PfWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
  g_autoptr (PfDocument) document = pf_document_new ();
  window->editor = pf_editor_new (document);
  window->unused = true;
  window->strip_wanted = true;
  window->errors = g_ptr_array_new_with_free_func (g_free);
  add_children (window);
  pf_window_add_actions (window);
  pf_window_accept_drops (window);
  g_signal_connect_object (window->editor, "document-changed", G_CALLBACK (document_changed),
                           window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->editor, "stage-changed", G_CALLBACK (stage_changed), window,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (window->editor, "selection-changed",
                           G_CALLBACK (pf_window_update_actions), window, G_CONNECT_SWAPPED);
  g_signal_connect (window, "notify::application", G_CALLBACK (application_set), NULL);
  stage_changed (window);
  pf_window_update_title (window);
}

PfWindow *
pf_window_new (PfApplication *application)
{
  PfWindow *window = g_object_new (PF_TYPE_WINDOW, "application", application, NULL);
  pf_window_start_journal (window);
  return window;
}
