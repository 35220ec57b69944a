/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The window's actions and its menu. Which of them can be done is decided in one place,
 * pf_window_update_actions().
 */
#include "window-private.h"

#include <string.h>

#include <glib/gi18n.h>

#define ZOOM_STEP 1.25
#define TURN_STEP 15.0

/* --- What they do -------------------------------------------------------------------------------
 */

typedef void (*Activate) (GSimpleAction *action, GVariant *parameter, gpointer window);

#define ACTION(name, expression)                                                                   \
  static void name (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter G_GNUC_UNUSED,        \
                    gpointer data)                                                                 \
  {                                                                                                \
    PfWindow *window = data;                                                                       \
    expression;                                                                                    \
  }

#define CANVAS PF_CANVAS (window->canvas)

/* The drawing; at the pillow, its letters too. */
static void
zoom_by (PfWindow *window, double factor)
{
  if (window->at_pillow)
    pf_window_scale_pillow (window, factor);
  else
    pf_canvas_set_zoom (CANVAS, pf_canvas_zoom (CANVAS) * factor);
}

ACTION (open_activated, pf_window_choose_open (window))
ACTION (import_activated, pf_window_choose_import (window))
ACTION (save_activated, pf_window_save (window))
ACTION (save_as_activated, pf_window_choose_save (window))
ACTION (undo_activated, pf_history_undo (pf_editor_history (window->editor)))
ACTION (redo_activated, pf_history_redo (pf_editor_history (window->editor)))
ACTION (zoom_in_activated, zoom_by (window, ZOOM_STEP))
ACTION (zoom_out_activated, zoom_by (window, 1 / ZOOM_STEP))
ACTION (true_size_activated, pf_canvas_set_zoom (CANVAS, 1))
ACTION (zoom_threads_activated, pf_canvas_zoom_to_threads (CANVAS))
ACTION (fit_activated, pf_canvas_fit (CANVAS))
ACTION (fit_motif_activated, pf_canvas_fit_active (CANVAS))
ACTION (turn_on_activated, pf_canvas_set_turn (CANVAS, pf_canvas_turn (CANVAS) + TURN_STEP))
ACTION (turn_back_activated, pf_canvas_set_turn (CANVAS, pf_canvas_turn (CANVAS) - TURN_STEP))
ACTION (turn_upright_activated, pf_canvas_set_turn (CANVAS, 0))
ACTION (print_activated, pf_window_print (window))
ACTION (export_activated, pf_window_choose_export (window))
ACTION (report_activated, pf_window_choose_report (window))
ACTION (steps_activated, pf_window_choose_steps (window))
ACTION (canvas_activated,
        gtk_widget_grab_focus (window->at_pillow ? window->pillow : window->canvas))
ACTION (fullscreen_activated, g_object_set (window, "fullscreened",
                                            !gtk_window_is_fullscreen (GTK_WINDOW (window)), NULL))
ACTION (close_activated, gtk_window_close (GTK_WINDOW (window)))

static void
stage_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter, gpointer data)
{
  PfWindow *window = data;
  const gint32 stage = g_variant_get_int32 (parameter);
  pf_window_go_to_pillow (window, false);
  if (stage >= 0 && stage < PF_N_STAGES)
    pf_editor_set_stage (window->editor, (PfStage) stage);
  if (stage != PF_STAGE_SHEET)
    gtk_widget_grab_focus (window->canvas);
}

/* The motif after the active one, or before it, round and round. */
static void
next_motif_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter, gpointer data)
{
  PfWindow *window = data;
  const int n = (int) pf_editor_document (window->editor)->n_drafts;
  if (n == 0)
    return;
  const int step = g_variant_get_int32 (parameter);
  pf_editor_set_active (window->editor, (pf_editor_active (window->editor) + step + n) % n);
}

/* --- Layers -------------------------------------------------------------------------------------
 */

static const struct {
  const char *action;
  PfLayers layer;
} layers[] = {
  { "layer-background", PF_LAYER_BACKGROUND }, { "layer-repeats", PF_LAYER_REPEATS },
  { "layer-missing", PF_LAYER_MISSING },       { "layer-pair-lines", PF_LAYER_PAIR_LINES },
  { "layer-pinholes", PF_LAYER_PINHOLES },     { "layer-predicted", PF_LAYER_PREDICTED },
  { "layer-sewings", PF_LAYER_SEWINGS },       { "layer-pins", PF_LAYER_PINS },
  { "layer-beads", PF_LAYER_BEADS },           { "layer-numbers", PF_LAYER_NUMBERS },
  { "layer-threads", PF_LAYER_THREADS },
};

static void
layer_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  PfWindow *window = data;
  const char *name = g_action_get_name (G_ACTION (action));
  PfLayers shown = pf_canvas_layers (CANVAS);
  for (gsize l = 0; l < G_N_ELEMENTS (layers); l++)
    if (strcmp (layers[l].action, name) == 0)
      shown = g_variant_get_boolean (state) ? shown | layers[l].layer : shown & ~layers[l].layer;
  pf_window_show_layers (window, shown);
  if (pf_window_preferences (window) != NULL)
    g_object_set (pf_window_preferences (window), "layers", shown, NULL);
}

void
pf_window_show_layers (PfWindow *window, PfLayers shown)
{
  pf_canvas_set_layers (CANVAS, shown);
  for (gsize l = 0; l < G_N_ELEMENTS (layers); l++)
    {
      GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), layers[l].action);
      g_simple_action_set_state (G_SIMPLE_ACTION (action),
                                 g_variant_new_boolean ((shown & layers[l].layer) != 0));
    }
}

static void
strip_changed (GSimpleAction *action G_GNUC_UNUSED, GVariant *state, gpointer data)
{
  PfWindow *window = data;
  pf_window_want_strip (window, g_variant_get_boolean (state));
  if (pf_window_preferences (window) != NULL)
    g_object_set (pf_window_preferences (window), "edge-strip", g_variant_get_boolean (state),
                  NULL);
}

static void
pillow_changed (GSimpleAction *action G_GNUC_UNUSED, GVariant *state, gpointer data)
{
  pf_window_go_to_pillow (data, g_variant_get_boolean (state));
}

static void
add_toggle (PfWindow *window, const char *name, bool active,
            void (*changed) (GSimpleAction *, GVariant *, gpointer))
{
  g_autoptr (GSimpleAction) action =
      g_simple_action_new_stateful (name, NULL, g_variant_new_boolean (active));
  g_signal_connect (action, "change-state", G_CALLBACK (changed), window);
  g_action_map_add_action (G_ACTION_MAP (window), G_ACTION (action));
}

/* --- The menu -----------------------------------------------------------------------------------
 */

static void
add_section (GMenu *menu, const char *const (*items)[2], gsize n)
{
  g_autoptr (GMenu) section = g_menu_new ();
  for (gsize i = 0; i < n; i++)
    g_menu_append (section, _ (items[i][0]), items[i][1]);
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

/* Undo and redo with the names of their changes. */
static void
add_history_section (GMenu *menu, PfHistory *history)
{
  g_autoptr (GMenu) section = g_menu_new ();
  const char *undo = pf_history_undo_name (history), *redo = pf_history_redo_name (history);
  g_autofree char *undo_text = g_strdup_printf (_ ("_Undo: %s"), undo != NULL ? undo : "–");
  g_autofree char *redo_text = g_strdup_printf (_ ("_Redo: %s"), redo != NULL ? redo : "–");
  g_menu_append (section, undo_text, "win.undo");
  g_menu_append (section, redo_text, "win.redo");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
add_recent_section (GMenu *menu)
{
  GtkRecentManager *manager = gtk_recent_manager_get_default ();
  GList *items = gtk_recent_manager_get_items (manager);
  g_autoptr (GMenu) recent = g_menu_new ();
  int n = 0;
  for (GList *item = items; item != NULL && n < 8; item = item->next)
    {
      GtkRecentInfo *info = item->data;
      const char *uri = gtk_recent_info_get_uri (info);
      if (!g_str_has_suffix (uri, PF_DOCUMENT_SUFFIX) || !gtk_recent_info_exists (info))
        continue;
      g_autoptr (GMenuItem) entry = g_menu_item_new (gtk_recent_info_get_display_name (info), NULL);
      g_menu_item_set_action_and_target (entry, "win.open-uri", "s", uri);
      g_menu_append_item (recent, entry);
      n++;
    }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
  if (n > 0)
    g_menu_append_submenu (menu, _ ("Open a _recent one"), G_MENU_MODEL (recent));
}

static void
fill_menu (PfWindow *window)
{
  static const char *const files[][2] = {
    { N_ ("_New window"), "app.new-window" },
    { N_ ("A motif to _try things on"), "app.demo" },
    { N_ ("_Import a drawing or scan…"), "win.import" },
    { N_ ("Save _as…"), "win.save-as" },
  };
  static const char *const output[][2] = {
    { N_ ("_Print…"), "win.print" },
    { N_ ("_Export the pages…"), "win.export" },
    { N_ ("Save the re_port…"), "win.report" },
    { N_ ("Sa_ve the working steps…"), "win.steps" },
    { N_ ("At the pi_llow"), "win.pillow" },
  };
  static const char *const program[][2] = {
    { N_ ("Measure this _screen…"), "app.true-size" },
    { N_ ("Meas_ure your printer…"), "app.printer" },
    { N_ ("Prefere_nces"), "app.preferences" },
    { N_ ("_Keyboard shortcuts"), "app.shortcuts" },
    { N_ ("_About Pinfold"), "app.about" },
  };
  g_menu_remove_all (window->menu);
  add_section (window->menu, files, G_N_ELEMENTS (files));
  add_recent_section (window->menu);
  add_history_section (window->menu, pf_editor_history (window->editor));
  add_section (window->menu, output, G_N_ELEMENTS (output));
  add_section (window->menu, program, G_N_ELEMENTS (program));
}

/* Filled anew each time it opens: the names of changes and the recent files are others. */
static void
menu_opens (GtkMenuButton *button, gpointer data)
{
  PfWindow *window = data;
  fill_menu (window);
  gtk_menu_button_set_menu_model (button, G_MENU_MODEL (window->menu));
}

/* --- All of them --------------------------------------------------------------------------------
 */

static void
open_uri_activated (GSimpleAction *action G_GNUC_UNUSED, GVariant *parameter, gpointer window)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  pf_window_open (window, file);
}

static void
set_enabled (PfWindow *window, const char *name, bool enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), name);
  if (action != NULL)
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

/* Takes over `text`. */
static void
name_button (GtkWidget *button, char *text)
{
  gtk_widget_set_tooltip_text (button, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  g_free (text);
}

void
pf_window_update_actions (PfWindow *window)
{
  PfHistory *history = pf_editor_history (window->editor);
  const PfDocument *document = pf_editor_document (window->editor);
  const char *undo = pf_history_undo_name (history), *redo = pf_history_redo_name (history);
  const bool still = !pf_history_previewing (history);
  bool filled = false;
  for (size_t n = 0; n < document->n_drafts; n++)
    filled |= document->drafts[n]->ground != NULL || document->drafts[n]->mirror_of != NULL;
  set_enabled (window, "undo", still && undo != NULL);
  set_enabled (window, "redo", still && redo != NULL);
  set_enabled (window, "save", !window->saving);
  set_enabled (window, "save-as", !window->saving);
  set_enabled (window, "next-motif", document->n_drafts > 1);
  set_enabled (window, "fit-motif", document->n_drafts > 0);
  set_enabled (window, "print", filled);
  set_enabled (window, "export", filled);
  set_enabled (window, "report", filled);
  set_enabled (window, "steps", filled);
  name_button (window->undo_button, undo != NULL ? g_strdup_printf (_ ("Undo: %s (Ctrl+Z)"), undo)
                                                 : g_strdup (_ ("Nothing to undo")));
  name_button (window->redo_button, redo != NULL
                                        ? g_strdup_printf (_ ("Redo: %s (Ctrl+Shift+Z)"), redo)
                                        : g_strdup (_ ("Nothing to redo")));
}

void
pf_window_add_actions (PfWindow *window)
{
  static const GActionEntry entries[] = {
    { .name = "open", .activate = open_activated },
    { .name = "open-uri", .activate = open_uri_activated, .parameter_type = "s" },
    { .name = "import", .activate = import_activated },
    { .name = "save", .activate = save_activated },
    { .name = "save-as", .activate = save_as_activated },
    { .name = "undo", .activate = undo_activated },
    { .name = "redo", .activate = redo_activated },
    { .name = "zoom-in", .activate = zoom_in_activated },
    { .name = "zoom-out", .activate = zoom_out_activated },
    { .name = "zoom-to-threads", .activate = zoom_threads_activated },
    { .name = "true-size", .activate = true_size_activated },
    { .name = "fit", .activate = fit_activated },
    { .name = "fit-motif", .activate = fit_motif_activated },
    { .name = "turn-on", .activate = turn_on_activated },
    { .name = "turn-back", .activate = turn_back_activated },
    { .name = "turn-upright", .activate = turn_upright_activated },
    { .name = "print", .activate = print_activated },
    { .name = "export", .activate = export_activated },
    { .name = "report", .activate = report_activated },
    { .name = "steps", .activate = steps_activated },
    { .name = "canvas", .activate = canvas_activated },
    { .name = "fullscreen", .activate = fullscreen_activated },
    { .name = "close", .activate = close_activated },
    { .name = "stage", .activate = stage_activated, .parameter_type = "i" },
    { .name = "next-motif", .activate = next_motif_activated, .parameter_type = "i" },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  const PfLayers shown = pf_canvas_layers (CANVAS);
  for (gsize l = 0; l < G_N_ELEMENTS (layers); l++)
    add_toggle (window, layers[l].action, shown & layers[l].layer, layer_changed);
  add_toggle (window, "edge-strip", true, strip_changed);
  add_toggle (window, "pillow", false, pillow_changed);
  window->menu = g_menu_new ();
  fill_menu (window);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (window->menu_button),
                                  G_MENU_MODEL (window->menu));
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (window->menu_button), menu_opens, window,
                                         NULL);
  pf_window_update_actions (window);
}
