/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The scan under the drawing: laying it, how strongly it is seen, straightening it by known
 * distances. The marks are kept in the scan's own pixels, so that they stay where they were laid
 * when it is straightened, and when that is undone.
 */
#include "outline-panel-private.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gi18n-lib.h>

#include "scan-picture.h"

static const PfUnderlay *
get_scan (PfOutlinePanel *panel)
{
  return pf_editor_document (pf_outline_panel_editor (panel))->underlay;
}

static void
change_scan (PfOutlinePanel *panel, const PfUnderlay *underlay, const char *name, bool merged)
{
  PfEditor *editor = pf_outline_panel_editor (panel);
  PfDocument *document = pf_document_with_underlay (pf_editor_document (editor), underlay);
  if (merged)
    pf_history_change (pf_editor_history (editor), document, name, true);
  else
    pf_editor_change_document (editor, document, name);
}

/* --- Laying it ----------------------------------------------------------------------------------
 */

static void
scan_opened (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  g_autoptr (PfOutlinePanel) panel = data;
  g_autoptr (GError) error = NULL;
  PfUnderlay *underlay = pf_scan_picture_open_finish (result, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_object (&panel->opening);
  if (underlay != NULL)
    {
      change_scan (panel, underlay, _ ("Lay a scan under the drawing"), false);
      gtk_expander_set_expanded (panel->scan_expander, TRUE);
      pf_scan_picture_free (underlay);
    }
  else
    {
      g_autofree char *text =
          g_strdup_printf (_ ("This picture can’t be opened: %s"), error->message);
      pf_panel_say (PF_PANEL (panel), text);
    }
  pf_panel_update (PF_PANEL (panel));
}

static void
open_scan (PfOutlinePanel *panel, const char *file)
{
  const PfDocument *document = pf_editor_document (pf_outline_panel_editor (panel));
  if (panel->opening != NULL)
    g_cancellable_cancel (panel->opening);
  g_clear_object (&panel->opening);
  panel->opening = g_cancellable_new ();
  pf_scan_picture_open_async (file, document->width, panel->opening, scan_opened,
                              g_object_ref (panel));
  pf_panel_update (PF_PANEL (panel));
}

static void
scan_chosen (GtkNativeDialog *dialog, int response, PfOutlinePanel *panel)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog))
                               : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  if (path != NULL)
    open_scan (panel, path);
  else if (file != NULL)
    pf_panel_say (PF_PANEL (panel), _ ("Only pictures on this computer can be laid under the "
                                       "drawing. Copy it here first."));
  g_object_unref (dialog);
}

static void
choose_scan (GtkButton *button, PfOutlinePanel *panel)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (button));
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      _ ("Lay a scan under the drawing"), GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
      GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, _ ("Pictures (PNG, JPEG)"));
  gtk_file_filter_add_mime_type (filter, "image/png");
  gtk_file_filter_add_mime_type (filter, "image/jpeg");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (scan_chosen), panel, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
remove_scan (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  change_scan (panel, NULL, _ ("Remove the scan"), false);
  pf_outline_panel_use (panel, panel->choose);
}

static void
scan_shown_changed (GtkCheckButton *check, PfOutlinePanel *panel)
{
  const PfUnderlay *scan = get_scan (panel);
  if (scan == NULL || pf_panel_updating (PF_PANEL (panel)))
    return;
  PfUnderlay changed = *scan;
  changed.shown = gtk_check_button_get_active (check);
  change_scan (panel, &changed, changed.shown ? _ ("Show the scan") : _ ("Hide the scan"), false);
}

static void
scan_strength_changed (GtkRange *range, PfOutlinePanel *panel)
{
  const PfUnderlay *scan = get_scan (panel);
  if (scan == NULL || pf_panel_updating (PF_PANEL (panel)))
    return;
  PfUnderlay changed = *scan;
  changed.strength = gtk_range_get_value (range);
  change_scan (panel, &changed, _ ("Change the scan’s strength"), true);
}

/* --- Straightening ------------------------------------------------------------------------------
 */

static void
down_toggled (GtkCheckButton *check, PfOutlinePanel *panel)
{
  pf_measure_tool_set_n_lines (PF_MEASURE_TOOL (panel->marks),
                               gtk_check_button_get_active (check) ? 2 : 1);
  pf_panel_update (PF_PANEL (panel));
}

static void
straighten (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  const PfUnderlay *scan = get_scan (panel);
  g_autoptr (GError) error = NULL;
  PfKnownDistance across, down;
  gtk_spin_button_update (panel->across_spin);
  gtk_spin_button_update (panel->down_spin);
  pf_measure_tool_get_line (PF_MEASURE_TOOL (panel->marks), 0, &across.a, &across.b);
  pf_measure_tool_get_line (PF_MEASURE_TOOL (panel->marks), 1, &down.a, &down.b);
  across.mm = gtk_spin_button_get_value (panel->across_spin);
  down.mm = gtk_spin_button_get_value (panel->down_spin);
  PfUnderlay changed = *scan;
  const bool both = gtk_check_button_get_active (panel->down_check);
  if (pf_scan_straighten (&across, both ? &down : NULL, pf_affine_map (scan->map, across.a),
                          &changed.map, &error))
    change_scan (panel, &changed, _ ("Straighten the scan"), false);
  else
    pf_panel_say (PF_PANEL (panel), error->message);
}

/* Marks for a scan that has none yet, where they can be seen and taken. */
static void
lay_marks (PfOutlinePanel *panel, const PfUnderlay *scan)
{
  int width = 1000, height = 1000;
  if (g_strcmp0 (panel->marked, scan->file) == 0)
    return;
  g_free (panel->marked);
  panel->marked = g_strdup (scan->file);
  gdk_pixbuf_get_file_info (scan->file, &width, &height);
  PfMeasureTool *marks = PF_MEASURE_TOOL (panel->marks);
  pf_measure_tool_set_line (marks, 0, (PfPoint){ 0.1 * width, 0.5 * height },
                            (PfPoint){ 0.9 * width, 0.5 * height });
  pf_measure_tool_set_line (marks, 1, (PfPoint){ 0.5 * width, 0.1 * height },
                            (PfPoint){ 0.5 * width, 0.9 * height });
}

static void
show_length (PfOutlinePanel *panel, GtkLabel *label, size_t line)
{
  g_autofree char *length =
      pf_editor_length (pf_outline_panel_editor (panel),
                        pf_measure_tool_length (PF_MEASURE_TOOL (panel->marks), line), 2);
  /* Translators: a length. */
  g_autofree char *text = g_strdup_printf (_ ("now %s"), length);
  gtk_label_set_label (label, text);
}

void
pf_outline_panel_update_scan (PfOutlinePanel *panel)
{
  const PfUnderlay *scan = get_scan (panel);
  const bool both = gtk_check_button_get_active (panel->down_check);
  gtk_widget_set_visible (panel->opening_row, panel->opening != NULL);
  gtk_widget_set_visible (panel->scan_box, scan != NULL);
  if (scan == NULL)
    return;
  lay_marks (panel, scan);
  pf_measure_tool_set_n_lines (PF_MEASURE_TOOL (panel->marks), both ? 2 : 1);
  pf_measure_tool_set_map (PF_MEASURE_TOOL (panel->marks), scan->map);
  g_autofree char *name = g_filename_display_basename (scan->file);
  gtk_label_set_label (panel->scan_label, name);
  gtk_check_button_set_active (panel->scan_shown, scan->shown);
  gtk_range_set_value (panel->scan_strength, scan->strength);
  show_length (panel, panel->across_label, 0);
  show_length (panel, panel->down_label, 1);
  gtk_widget_set_visible (GTK_WIDGET (panel->down_label), both);
  gtk_widget_set_sensitive (GTK_WIDGET (panel->down_spin), both);
}

void
pf_outline_panel_bind_scan (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, scan_expander);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, scan_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, opening_row);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, scan_box);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, scan_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, scan_shown);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, scan_strength);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, marks_button);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, across_spin);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, across_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, down_check);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, down_spin);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, down_label);
  gtk_widget_class_bind_template_callback (class, choose_scan);
  gtk_widget_class_bind_template_callback (class, remove_scan);
  gtk_widget_class_bind_template_callback (class, scan_shown_changed);
  gtk_widget_class_bind_template_callback (class, scan_strength_changed);
  gtk_widget_class_bind_template_callback (class, down_toggled);
  gtk_widget_class_bind_template_callback (class, straighten);
}
