/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tracing the scan: in a thread, to outlines that are shown first and taken over only as chosen.
 * What was found on a scan that has changed since is dropped.
 */
#include "outline-panel-private.h"

#include <glib/gi18n-lib.h>

#include "scan-picture.h"

static PfTraceTool *
trace_tool (PfOutlinePanel *panel)
{
  return PF_TRACE_TOOL (panel->trace);
}

static const PfUnderlay *
get_scan (PfOutlinePanel *panel)
{
  return pf_editor_document (pf_outline_panel_editor (panel))->underlay;
}

static PfTraceSettings
settings (PfOutlinePanel *panel)
{
  PfTraceSettings s = pf_trace_settings_default ();
  gtk_spin_button_update (panel->threshold_spin);
  gtk_spin_button_update (panel->speckle_spin);
  gtk_spin_button_update (panel->roundness_spin);
  s.threshold = gtk_check_button_get_active (panel->threshold_check)
                    ? gtk_spin_button_get_value_as_int (panel->threshold_spin)
                    : 0;
  s.light = gtk_check_button_get_active (panel->light_check);
  s.speckle = gtk_spin_button_get_value (panel->speckle_spin);
  s.roundness = gtk_spin_button_get_value (panel->roundness_spin);
  return s;
}

static void
show_found (PfOutlinePanel *panel, GPtrArray *curves, const bool *outer)
{
  if (curves->len == 0)
    {
      pf_panel_say (PF_PANEL (panel), _ ("No outline was found. Try another level of ink, or leave "
                                         "out smaller spots only."));
      return;
    }
  pf_outline_panel_use (panel, panel->trace);
  pf_trace_tool_set_found (trace_tool (panel), curves, outer);
  pf_panel_scroll_to (panel->found_box);
}

static void
traced (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  g_autoptr (PfOutlinePanel) panel = data;
  g_autoptr (GError) error = NULL;
  g_autofree bool *outer = NULL;
  g_autoptr (GPtrArray) curves = pf_scan_picture_trace_finish (result, &outer, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_object (&panel->tracing);
  if (curves != NULL)
    show_found (panel, curves, outer);
  else
    pf_panel_say (PF_PANEL (panel), error->message);
  pf_panel_update (PF_PANEL (panel));
}

static void
trace_scan (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  const PfTraceSettings s = settings (panel);
  const PfUnderlay *scan = get_scan (panel);
  if (scan == NULL)
    return;
  pf_outline_panel_stop_trace (panel);
  panel->tracing = g_cancellable_new ();
  panel->traced_map = scan->map;
  pf_scan_picture_trace_async (scan, &s, panel->tracing, traced, g_object_ref (panel));
  pf_panel_update (PF_PANEL (panel));
}

static void
cancel_tracing (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_panel_stop_trace (panel);
  pf_panel_update (PF_PANEL (panel));
}

static void
discard_found (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_outline_panel_use (panel, panel->choose);
}

static void
take_over (GtkButton *button G_GNUC_UNUSED, PfOutlinePanel *panel)
{
  pf_trace_tool_take_over (trace_tool (panel));
}

static void
threshold_toggled (GtkCheckButton *check, PfOutlinePanel *panel)
{
  gtk_widget_set_sensitive (GTK_WIDGET (panel->threshold_spin),
                            gtk_check_button_get_active (check));
}

void
pf_outline_panel_stop_trace (PfOutlinePanel *panel)
{
  if (panel->tracing != NULL)
    g_cancellable_cancel (panel->tracing);
  g_clear_object (&panel->tracing);
  if (pf_trace_tool_n_found (trace_tool (panel)) > 0)
    pf_trace_tool_set_found (trace_tool (panel), NULL, NULL);
}

static bool
same_map (PfAffine a, PfAffine b)
{
  return a.xx == b.xx && a.xy == b.xy && a.yx == b.yx && a.yy == b.yy && a.x0 == b.x0 &&
         a.y0 == b.y0;
}

void
pf_outline_panel_update_trace (PfOutlinePanel *panel)
{
  const PfUnderlay *scan = get_scan (panel);
  if (scan == NULL || !same_map (scan->map, panel->traced_map))
    pf_outline_panel_stop_trace (panel);
  const size_t n = pf_trace_tool_n_found (trace_tool (panel));
  const size_t chosen = pf_trace_tool_n_chosen (trace_tool (panel));
  g_autofree char *text = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "%zu of %zu outline is chosen. Click an outline to leave it out.",
                   "%zu of %zu outlines are chosen. Click an outline to leave it out.", n),
      chosen, n);
  gtk_label_set_label (panel->found_label, text);
  gtk_widget_set_visible (panel->trace_settings, panel->tracing == NULL && n == 0);
  gtk_widget_set_visible (panel->tracing_row, panel->tracing != NULL);
  gtk_widget_set_visible (panel->found_box, n > 0);
  gtk_widget_set_sensitive (panel->take_over_button, chosen > 0);
}

void
pf_outline_panel_bind_trace (GtkWidgetClass *class)
{
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, threshold_check);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, threshold_spin);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, light_check);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, speckle_spin);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, roundness_spin);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, trace_settings);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, tracing_row);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, found_box);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, found_label);
  gtk_widget_class_bind_template_child (class, PfOutlinePanel, take_over_button);
  gtk_widget_class_bind_template_callback (class, trace_scan);
  gtk_widget_class_bind_template_callback (class, cancel_tracing);
  gtk_widget_class_bind_template_callback (class, take_over);
  gtk_widget_class_bind_template_callback (class, discard_found);
  gtk_widget_class_bind_template_callback (class, threshold_toggled);
}
