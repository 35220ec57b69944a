/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The canvas: keeps the view, and follows the editor. Whenever what is worked out changes, the
 * picture hears of it before anything is drawn.
 */
#include <malloc.h>
#include <math.h>

#include <glib/gi18n-lib.h>

#include "canvas-marks.h"
#include "canvas-private.h"
#include "canvas-rulers.h"

/* How long after it was changed the view counts as still, ms. */
#define STILL_MS 80
/* How near the rim a place may lie that is to be seen, pixels. */
#define SHOW_ROOM 60
/* How near a sewing off its line is explained, pixels. */
#define OFF_LINE_REACH 14.0

G_DEFINE_FINAL_TYPE (PfCanvas, pf_canvas, GTK_TYPE_WIDGET)

static guint view_changed_signal;

void
pf_canvas_redraw (PfCanvas *canvas, guint parts)
{
  for (int p = 0; p < PF_N_PARTS; p++)
    if ((parts & 1u << p) != 0)
      g_clear_pointer (&canvas->parts[p], gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static void
redraw_all (gpointer data)
{
  pf_canvas_redraw (data, PF_ALL_PARTS);
}

/* --- Following the editor -----------------------------------------------------------------------
 */

static void
update_words (PfCanvas *canvas)
{
  g_autofree char *words =
      canvas->tool != NULL ? PF_TOOL_GET_CLASS (canvas->tool)->describe (canvas->tool) : NULL;
  if (words == NULL)
    {
      const PfPick selected = pf_editor_selected (canvas->editor);
      const PfPick hovered = pf_editor_hovered (canvas->editor);
      words =
          pf_editor_describe (canvas->editor, selected.kind == PF_PICK_NONE ? hovered : selected);
    }
  const int active = pf_editor_active (canvas->editor);
  const char *trouble =
      active >= 0 ? pf_editor_trouble (canvas->editor, (size_t) active, NULL) : NULL;
  g_autofree char *all = trouble != NULL ? g_strconcat (words, "\n", trouble, NULL) : NULL;
  pf_teller_tell (canvas->teller, all != NULL ? all : words);
}

static void
follow_document (PfCanvas *canvas)
{
  pf_picture_set_pricking (canvas->picture, pf_editor_pricking (canvas->editor));
  pf_underlay_picture_set (canvas->underlay, pf_editor_document (canvas->editor)->underlay);
  PfHistory *history = pf_editor_history (canvas->editor);
  if (g_set_object (&canvas->history, history))
    pf_canvas_fit (canvas);
  update_words (canvas);
  pf_canvas_redraw (canvas, PF_ALL_PARTS & ~(1u << PF_PART_RULERS));
}

static void
follow_picks (PfCanvas *canvas)
{
  update_words (canvas);
  pf_canvas_redraw (canvas, 1u << PF_PART_DRAWING);
}

static void
follow_tool (PfCanvas *canvas)
{
  update_words (canvas);
  pf_canvas_update_cursor (canvas);
  pf_canvas_redraw (canvas, 1u << PF_PART_DRAWING);
}

/* A motif that is worked out, with the numbers round it. */
static PfBox
motif_box (PfCanvas *canvas, size_t n)
{
  const PfMotif *motif = pf_editor_motif (canvas->editor, n);
  return pf_picture_box_with_numbers (canvas->picture, motif, motif->region->box);
}

/* All there is to see, mm. */
static PfBox
whole_box (PfCanvas *canvas)
{
  const PfDocument *document = pf_editor_document (canvas->editor);
  PfBox box = { { 0, 0 }, { document->width, document->height } };
  for (size_t n = 0; n <= document->n_drafts; n++)
    {
      PfBox own;
      if (n == document->n_drafts)
        {
          if (!pf_underlay_picture_box (canvas->underlay, &own))
            break;
        }
      else if (pf_editor_motif (canvas->editor, n) != NULL)
        own = motif_box (canvas, n);
      else if (document->drafts[n]->n_curves > 0 && document->drafts[n]->curves[0]->n_nodes > 0)
        own = pf_curve_box (document->drafts[n]->curves[0]);
      else
        continue;
      box.min = (PfPoint){ fmin (box.min.x, own.min.x), fmin (box.min.y, own.min.y) };
      box.max = (PfPoint){ fmax (box.max.x, own.max.x), fmax (box.max.y, own.max.y) };
    }
  return box;
}

/* --- The view -----------------------------------------------------------------------------------
 */

static gboolean
view_is_still (gpointer data)
{
  PfCanvas *canvas = data;
  canvas->still_timeout = 0;
  canvas->moving = false;
  PfBox box;
  if (pf_underlay_picture_box (canvas->underlay, &box))
    pf_canvas_redraw (canvas, 1u << PF_PART_DRAWING);
  return G_SOURCE_REMOVE;
}

void
pf_canvas_view_changed (PfCanvas *canvas)
{
  canvas->fitted = false;
  pf_canvas_view_keep (&canvas->view, whole_box (canvas));
  canvas->moving = true;
  g_clear_handle_id (&canvas->still_timeout, g_source_remove);
  canvas->still_timeout = g_timeout_add (STILL_MS, view_is_still, canvas);
  pf_canvas_follow_threads (canvas);
  pf_canvas_redraw (canvas, PF_ALL_PARTS);
  g_signal_emit (canvas, view_changed_signal, 0);
}

void
pf_canvas_set_true_size (PfCanvas *canvas, double pixels_per_mm)
{
  g_return_if_fail (pixels_per_mm > 0);
  if (pixels_per_mm == canvas->view.pixels_per_mm)
    return;
  canvas->view.pixels_per_mm = pixels_per_mm;
  pf_canvas_view_changed (canvas);
}

double
pf_canvas_zoom (PfCanvas *canvas)
{
  return canvas->view.zoom;
}

void
pf_canvas_set_zoom (PfCanvas *canvas, double zoom)
{
  canvas->fit_pending = false;
  pf_canvas_view_zoom_at (&canvas->view, pf_canvas_view_centre (&canvas->view), zoom);
  pf_canvas_view_changed (canvas);
}

static void
fit_box (PfCanvas *canvas, PfBox box)
{
  canvas->fit_pending = canvas->view.width <= 0;
  if (canvas->fit_pending)
    return;
  pf_canvas_view_fit (&canvas->view, box);
  pf_canvas_view_changed (canvas);
  canvas->fitted = true;
  canvas->fitted_box = box;
}

void
pf_canvas_fit (PfCanvas *canvas)
{
  fit_box (canvas, whole_box (canvas));
}

void
pf_canvas_fit_active (PfCanvas *canvas)
{
  const int active = pf_editor_active (canvas->editor);
  if (active >= 0 && pf_editor_motif (canvas->editor, (size_t) active) != NULL)
    {
      fit_box (canvas, motif_box (canvas, (size_t) active));
      return;
    }
  if (active >= 0)
    {
      g_autoptr (PfDraft) draft =
          pf_document_resolve (pf_editor_document (canvas->editor), (size_t) active);
      if (draft->n_curves > 0 && draft->curves[0]->n_nodes > 1)
        {
          fit_box (canvas, pf_curve_box (draft->curves[0]));
          return;
        }
    }
  pf_canvas_fit (canvas);
}

double
pf_canvas_turn (PfCanvas *canvas)
{
  return canvas->view.turn;
}

void
pf_canvas_set_turn (PfCanvas *canvas, double degrees)
{
  g_return_if_fail (isfinite (degrees));
  pf_canvas_view_turn_at (&canvas->view, pf_canvas_view_centre (&canvas->view), degrees);
  pf_canvas_view_changed (canvas);
}

void
pf_canvas_show_place (PfCanvas *canvas, PfPoint place)
{
  if (pf_canvas_view_show (&canvas->view, place, SHOW_ROOM))
    pf_canvas_view_changed (canvas);
}

PfPoint
pf_canvas_to_screen (PfCanvas *canvas, PfPoint place)
{
  return pf_canvas_view_to_screen (&canvas->view, place);
}

PfPoint
pf_canvas_to_sheet (PfCanvas *canvas, PfPoint pixel)
{
  return pf_canvas_view_to_sheet (&canvas->view, pixel);
}

void
pf_canvas_set_inches (PfCanvas *canvas, bool inches)
{
  canvas->inches = inches;
  pf_canvas_redraw (canvas, 1u << PF_PART_RULERS);
}

PfLayers
pf_canvas_layers (PfCanvas *canvas)
{
  return pf_picture_layers (canvas->picture);
}

void
pf_canvas_set_layers (PfCanvas *canvas, PfLayers layers)
{
  if (!pf_picture_set_layers (canvas->picture, layers))
    return;
  pf_canvas_follow_threads (canvas);
  pf_canvas_redraw (canvas, 1u << PF_PART_DRAWING);
  g_signal_emit (canvas, view_changed_signal, 0);
}

void
pf_canvas_set_look (PfCanvas *canvas, const PfLook *look)
{
  if (pf_picture_set_look (canvas->picture, look))
    pf_canvas_redraw (canvas, 1u << PF_PART_DRAWING);
}

/* --- The tool -----------------------------------------------------------------------------------
 */

void
pf_canvas_set_tool (PfCanvas *canvas, PfTool *tool)
{
  if (tool == canvas->tool)
    return;
  pf_canvas_cancel_drag (canvas);
  if (canvas->tool != NULL)
    {
      PF_TOOL_GET_CLASS (canvas->tool)->leave (canvas->tool);
      g_signal_handlers_disconnect_by_data (canvas->tool, canvas);
    }
  g_set_object (&canvas->tool, tool);
  if (tool != NULL)
    g_signal_connect_swapped (tool, "redraw", G_CALLBACK (follow_tool), canvas);
  follow_tool (canvas);
}

PfTool *
pf_canvas_tool (PfCanvas *canvas)
{
  return canvas->tool;
}

bool
pf_canvas_dragging (PfCanvas *canvas)
{
  return canvas->input.drag == PF_DRAG_TOOL;
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
pf_canvas_measure (GtkWidget *widget G_GNUC_UNUSED, GtkOrientation orientation G_GNUC_UNUSED,
                   int for_size G_GNUC_UNUSED, int *minimum, int *natural, int *minimum_baseline,
                   int *natural_baseline)
{
  *minimum = 200;
  *natural = 600;
  *minimum_baseline = *natural_baseline = -1;
}

static void
pf_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  PfCanvas *canvas = PF_CANVAS (widget);
  gtk_widget_size_allocate (canvas->teller, &(GtkAllocation){ 0, 0, 1, 1 }, baseline);
  if (width == canvas->view.width && height == canvas->view.height)
    return;
  canvas->view.width = width;
  canvas->view.height = height;
  if (canvas->fit_pending)
    pf_canvas_fit (canvas);
  else if (canvas->fitted)
    fit_box (canvas, canvas->fitted_box);
  else
    pf_canvas_view_changed (canvas);
}

static void
pf_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PfCanvas *canvas = PF_CANVAS (widget);
  pf_canvas_draw (canvas, snapshot);
  pf_canvas_draw_focus (canvas, snapshot);
}

static void
pf_canvas_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pf_canvas_parent_class)->css_changed (widget, change);
  pf_canvas_redraw (PF_CANVAS (widget), PF_ALL_PARTS);
}

static gboolean
pf_canvas_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (PF_CANVAS (widget)->teller);
}

/* Its pennant stands outside the outline, a few tenths of the gap away. */
static char *
off_line_words (PfCanvas *canvas, PfPoint at)
{
  if ((pf_picture_layers (canvas->picture) & PF_LAYER_SEWINGS) == 0)
    return NULL;
  const size_t n_drafts = pf_editor_document (canvas->editor)->n_drafts;
  for (size_t n = 0; n < n_drafts; n++)
    {
      const PfMotif *motif = pf_editor_motif (canvas->editor, n);
      const PfFilling *filling = motif != NULL ? motif->filling : NULL;
      for (size_t s = 0; filling != NULL && s < filling->n_sewings; s++)
        {
          const PfSewing *sewing = &filling->sewings[s];
          const double reach = fmax (OFF_LINE_REACH * pf_canvas_view_pixel (&canvas->view),
                                     0.5 * filling->placement.gap);
          if (sewing->off_line && hypot (sewing->at.x - at.x, sewing->at.y - at.y) <= reach)
            return g_strdup_printf (
                _ ("The black pennant: this sewing pulls its pair %.0f degrees off its line. See "
                   "whether the thread will lie well, or choose another place in the step "
                   "“Sewings”."),
                sewing->angle);
        }
    }
  return NULL;
}

static gboolean
pf_canvas_query_tooltip (GtkWidget *widget, int x, int y, gboolean by_keyboard, GtkTooltip *tooltip)
{
  PfCanvas *canvas = PF_CANVAS (widget);
  if (by_keyboard)
    return FALSE;
  const PfMarks marks = { canvas->editor, &canvas->view, widget };
  const char *text = NULL;
  g_autofree char *words = NULL;
  if (x >= PF_RULER_WIDTH && y >= PF_RULER_WIDTH)
    {
      const PfPoint at = { x, y };
      text = pf_signs_find (&marks, at);
      if (text == NULL)
        text = words = off_line_words (canvas, pf_canvas_to_sheet (canvas, at));
    }
  else if (canvas->view.turn != 0)
    text = _ ("The view is turned: the rulers show distances on the screen, from where the "
              "drawing’s corner is.");
  gtk_tooltip_set_text (tooltip, text);
  return text != NULL;
}

static void
pf_canvas_dispose (GObject *object)
{
  PfCanvas *canvas = PF_CANVAS (object);
  g_clear_handle_id (&canvas->still_timeout, g_source_remove);
  if (canvas->editor != NULL)
    g_signal_handlers_disconnect_by_data (canvas->editor, canvas);
  if (canvas->tool != NULL)
    g_signal_handlers_disconnect_by_data (canvas->tool, canvas);
  g_clear_object (&canvas->tool);
  g_clear_pointer (&canvas->picture, pf_picture_free);
  g_clear_pointer (&canvas->underlay, pf_underlay_picture_free);
  for (int p = 0; p < PF_N_PARTS; p++)
    g_clear_pointer (&canvas->parts[p], gsk_render_node_unref);
  g_clear_pointer (&canvas->teller, gtk_widget_unparent);
  g_clear_object (&canvas->history);
  g_clear_object (&canvas->editor);
  G_OBJECT_CLASS (pf_canvas_parent_class)->dispose (object);
}

/* Each frame is painted into new buffers of the window's size. Taken from the system and given back
 * each time, half of a frame's time goes into their pages; kept on the heap they cost nothing. 32
 * MiB is the most that glibc allows, and holds a window of 8 million pixels. */
static void
keep_large_buffers (void)
{
#ifdef __GLIBC__
  mallopt (M_MMAP_THRESHOLD, 32 * 1024 * 1024);
  mallopt (M_TRIM_THRESHOLD, 128 * 1024 * 1024);
#endif
}

static void
pf_canvas_class_init (PfCanvasClass *class)
{
  keep_large_buffers ();
  G_OBJECT_CLASS (class)->dispose = pf_canvas_dispose;
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  widget_class->measure = pf_canvas_measure;
  widget_class->size_allocate = pf_canvas_size_allocate;
  widget_class->snapshot = pf_canvas_snapshot;
  widget_class->css_changed = pf_canvas_css_changed;
  widget_class->grab_focus = pf_canvas_grab_focus;
  widget_class->query_tooltip = pf_canvas_query_tooltip;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_css_name (widget_class, "canvas");
  view_changed_signal = g_signal_new ("view-changed", PF_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 0);
}

static void
redraw_picture (gpointer data)
{
  pf_canvas_redraw (data, 1u << PF_PART_DRAWING);
}

static void
pf_canvas_init (PfCanvas *canvas)
{
  GtkWidget *widget = GTK_WIDGET (canvas);
  canvas->view = pf_canvas_view_default ();
  canvas->view.inset = PF_RULER_WIDTH;
  canvas->pointer = (PfPoint){ NAN, NAN };
  canvas->picture = pf_picture_new (redraw_picture, canvas);
  canvas->underlay = pf_underlay_picture_new (redraw_all, canvas);
  canvas->teller = pf_teller_new ();
  gtk_widget_set_parent (canvas->teller, widget);
  g_signal_connect_swapped (canvas->teller, "state-flags-changed",
                            G_CALLBACK (gtk_widget_queue_draw), canvas);
  g_signal_connect (canvas, "notify::scale-factor", G_CALLBACK (redraw_all), NULL);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (canvas), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Drawing"), -1);
  pf_canvas_init_input (canvas);
}

GtkWidget *
pf_canvas_new (PfEditor *editor)
{
  PfCanvas *canvas = g_object_new (PF_TYPE_CANVAS, NULL);
  canvas->editor = g_object_ref (editor);
  g_signal_connect_swapped (editor, "document-changed", G_CALLBACK (follow_document), canvas);
  g_signal_connect_swapped (editor, "worked-out", G_CALLBACK (follow_document), canvas);
  g_signal_connect_swapped (editor, "selection-changed", G_CALLBACK (follow_picks), canvas);
  g_signal_connect_swapped (editor, "hover-changed", G_CALLBACK (follow_picks), canvas);
  follow_document (canvas);
  return GTK_WIDGET (canvas);
}
