/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The strip is drawn as high as the widget is; the adjustment counts mm along the loop, so that
 * only what is seen is drawn, however long the loop and far the zoom.
 */
#include "strip-view-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "edge-work.h"
#include "teller.h"

#define AREA_HEIGHT 148
#define ZOOM_STEP 1.25
#define ZOOM_AT_FIRST 1.0
#define LEAD                                                                                       \
  24.0 /* pixels of the loop's other end that are seen before its start and after its end */
#define ROOM 40.0 /* pixels that what is scrolled to keeps from the ends */

G_DEFINE_FINAL_TYPE (PfStripView, pf_strip_view, GTK_TYPE_BOX)

double
pf_strip_view_scale (PfStripView *view)
{
  return MAX (gtk_widget_get_height (view->area), 1) / PF_EDGE_STRIP_HEIGHT;
}

static double
loop_length (PfStripView *view)
{
  return view->motif != NULL ? pf_loop_length (&view->motif->region->loops[view->loop]) : 0;
}

/* Pixels to the mm along the loop. */
static double
along_scale (PfStripView *view)
{
  return pf_strip_view_scale (view) * view->zoom;
}

/* Marks and numbers at the loop's first point aren't cut; mm. */
static double
lead (PfStripView *view)
{
  return LEAD / along_scale (view);
}

bool
pf_strip_view_get_strip (PfStripView *view, PfEdgeStrip *strip)
{
  const double from = gtk_adjustment_get_value (view->scroll);
  const double seen = gtk_widget_get_width (view->area) / along_scale (view);
  if (view->motif == NULL || seen <= 0)
    return false;
  *strip = (PfEdgeStrip){ .motif = view->motif,
                          .loop = view->loop,
                          .from = from,
                          .to = fmin (loop_length (view) + lead (view), from + seen),
                          .across = view->zoom,
                          .height = PF_EDGE_STRIP_HEIGHT,
                          .look = &view->look,
                          .inches = pf_editor_units (view->editor) == PF_UNITS_INCH };
  return strip->to > strip->from;
}

void
pf_strip_view_set_look (PfStripView *view, const PfLook *look)
{
  view->look = *look;
  gtk_widget_queue_draw (view->area);
}

/* --- Zoom and scroll ----------------------------------------------------------------------------
 */

static void
configure_scroll (PfStripView *view, double value)
{
  const double seen = gtk_widget_get_width (view->area) / along_scale (view);
  const double first = -lead (view), last = loop_length (view) + lead (view);
  gtk_adjustment_configure (view->scroll, CLAMP (value, first, fmax (last - seen, first)), first,
                            last, 10 / along_scale (view), 0.8 * seen, fmin (seen, last - first));
  gtk_widget_set_visible (view->scrollbar, last - first > seen);
  gtk_widget_queue_draw (view->area);
}

double
pf_strip_view_zoom (PfStripView *view)
{
  return view->zoom;
}

void
pf_strip_view_set_zoom (PfStripView *view, double zoom, double at)
{
  const double pixels = at >= 0 ? at : gtk_widget_get_width (view->area) / 2.0;
  const double held = gtk_adjustment_get_value (view->scroll) + pixels / along_scale (view);
  view->zoom = CLAMP (zoom, PF_STRIP_ZOOM_MIN, PF_STRIP_ZOOM_MAX);
  configure_scroll (view, held - pixels / along_scale (view));
}

static void
fit (PfStripView *view)
{
  const int width = gtk_widget_get_width (view->area);
  if (view->motif != NULL && width > 2 * LEAD)
    pf_strip_view_set_zoom (
        view, (width - 2 * LEAD) / (pf_strip_view_scale (view) * loop_length (view)), 0);
}

/* All of the loop if that is large enough to be read, once there is a size. */
static void
resized (PfStripView *view)
{
  if (!view->fitted && view->motif != NULL && gtk_widget_get_width (view->area) > 0)
    {
      fit (view);
      pf_strip_view_set_zoom (view, fmax (view->zoom, ZOOM_AT_FIRST), 0);
      view->fitted = true;
      configure_scroll (view, -INFINITY);
    }
  configure_scroll (view, gtk_adjustment_get_value (view->scroll));
}

static void
zoom_in (PfStripView *view)
{
  pf_strip_view_set_zoom (view, view->zoom * ZOOM_STEP, -1);
}

static void
zoom_out (PfStripView *view)
{
  pf_strip_view_set_zoom (view, view->zoom / ZOOM_STEP, -1);
}

/* --- Following the editor -----------------------------------------------------------------------
 */

/* Where the selected thing is along the shown loop; NAN if it isn't on one of the active motif. */
static double
place_of (PfStripView *view, PfPick pick, size_t *loop)
{
  const PfMotif *motif = view->motif;
  const PfFilling *filling = motif != NULL ? motif->filling : NULL;
  if (motif == NULL || (int) pick.draft != pf_editor_active (view->editor))
    return NAN;
  if (pick.kind == PF_PICK_PINHOLE && pick.loop < motif->region->n_loops &&
      pick.index < motif->edges[pick.loop].n_pinholes)
    {
      *loop = pick.loop;
      return motif->edges[pick.loop].pinholes[pick.index];
    }
  const bool is_pair =
      pick.kind == PF_PICK_PAIR && filling != NULL && pick.index < filling->n_pairs;
  const guint32 sewing = is_pair ? filling->pairs[pick.index].sewn_in : pick.index;
  if ((!is_pair && pick.kind != PF_PICK_SEWING) || filling == NULL || sewing >= filling->n_sewings)
    return NAN;
  *loop = filling->sewings[sewing].target.loop;
  return filling->sewings[sewing].place.along;
}

static void
show_loop (PfStripView *view, size_t loop)
{
  if (loop == view->loop)
    return;
  view->loop = loop;
  configure_scroll (view, -INFINITY);
}

/* Goes to what is selected, if that changed: to its loop, and so far that it is seen. */
static void
show_selected (PfStripView *view)
{
  const PfPick pick = pf_editor_selected (view->editor);
  size_t loop;
  if (pf_pick_equal (pick, view->shown))
    return;
  const double along = place_of (view, pick, &loop);
  view->shown = pick;
  if (isnan (along))
    return;
  show_loop (view, loop);
  const double room = ROOM / along_scale (view), from = gtk_adjustment_get_value (view->scroll);
  const double seen = gtk_widget_get_width (view->area) / along_scale (view);
  if (along < from + room || along > from + seen - room)
    configure_scroll (view, along - seen / 2);
}

static void
show_loops (PfStripView *view)
{
  GtkStringList *names = GTK_STRING_LIST (gtk_drop_down_get_model (GTK_DROP_DOWN (view->loops)));
  const guint n = view->motif != NULL ? (guint) view->motif->region->n_loops : 0;
  const guint had = g_list_model_get_n_items (G_LIST_MODEL (names));
  if (had > n)
    gtk_string_list_splice (names, n, had - n, NULL);
  for (guint l = had; l < n; l++)
    gtk_string_list_take (names, pf_edge_loop_name (l));
  gtk_widget_set_visible (view->loops, n > 1);
  if (n > 0)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (view->loops), (guint) view->loop);
}

static void
tell (PfStripView *view)
{
  const PfPick pick = pf_editor_selected (view->editor);
  g_autofree char *words = pick.kind != PF_PICK_NONE ? pf_editor_describe (view->editor, pick)
                                                     : g_strdup (_ ("Edge strip"));
  pf_teller_tell (view->teller, words);
}

static void
update (PfStripView *view)
{
  g_clear_pointer (&view->motif, pf_motif_unref);
  view->motif = pf_edge_motif (view->editor);
  if (view->motif == NULL || view->loop >= view->motif->region->n_loops)
    view->loop = 0;
  view->updating = true;
  resized (view);
  show_selected (view);
  show_loops (view);
  view->updating = false;
  tell (view);
}

static void
loop_chosen (PfStripView *view)
{
  const guint loop = gtk_drop_down_get_selected (GTK_DROP_DOWN (view->loops));
  if (!view->updating && loop != GTK_INVALID_LIST_POSITION)
    show_loop (view, loop);
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
draw (GtkDrawingArea *area G_GNUC_UNUSED, cairo_t *cr, int width, int height, gpointer view)
{
  pf_strip_view_draw (view, cr, width, height);
}

static GtkWidget *
icon_button (PfStripView *view, const char *icon, const char *name, void (*clicked) (PfStripView *))
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), view);
  return button;
}

static GtkWidget *
make_loops (PfStripView *view)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  view->loops = gtk_drop_down_new (NULL, NULL);
  gtk_drop_down_set_model (GTK_DROP_DOWN (view->loops), G_LIST_MODEL (names));
  gtk_widget_set_tooltip_text (view->loops, _ ("Which loop’s edge is shown"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->loops), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Loop in the edge strip"), -1);
  g_signal_connect_swapped (view->loops, "notify::selected", G_CALLBACK (loop_chosen), view);
  return view->loops;
}

static GtkWidget *
make_bar (PfStripView *view)
{
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (buttons), icon_button (view, "zoom-out-symbolic",
                                                  _ ("Make the edge strip smaller"), zoom_out));
  gtk_box_append (GTK_BOX (buttons),
                  icon_button (view, "zoom-in-symbolic", _ ("Enlarge the edge strip"), zoom_in));
  gtk_box_append (GTK_BOX (buttons),
                  icon_button (view, "zoom-fit-best-symbolic", _ ("The whole loop"), fit));
  gtk_widget_set_halign (buttons, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (bar), make_loops (view));
  gtk_box_append (GTK_BOX (bar), buttons);
  gtk_widget_add_css_class (bar, "strip-bar");
  gtk_widget_set_valign (bar, GTK_ALIGN_CENTER);
  return bar;
}

static GtkWidget *
make_strip (PfStripView *view)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *overlay = gtk_overlay_new ();
  view->area = gtk_drawing_area_new ();
  view->teller = pf_teller_new ();
  view->scrollbar = gtk_scrollbar_new (GTK_ORIENTATION_HORIZONTAL, view->scroll);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (view->area), AREA_HEIGHT);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (view->area), draw, view, NULL);
  gtk_widget_set_vexpand (overlay, TRUE);
  gtk_widget_set_hexpand (overlay, TRUE);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), view->area);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), view->teller);
  gtk_box_append (GTK_BOX (box), overlay);
  gtk_box_append (GTK_BOX (box), view->scrollbar);
  g_signal_connect_swapped (view->area, "resize", G_CALLBACK (resized), view);
  return box;
}

static void
pf_strip_view_dispose (GObject *object)
{
  PfStripView *view = PF_STRIP_VIEW (object);
  if (pf_edge_drag_active (&view->drag))
    pf_edge_drag_cancel (&view->drag);
  g_clear_pointer (&view->motif, pf_motif_unref);
  g_clear_object (&view->editor);
  g_clear_object (&view->scroll);
  G_OBJECT_CLASS (pf_strip_view_parent_class)->dispose (object);
}

static void
pf_strip_view_class_init (PfStripViewClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_strip_view_dispose;
}

static void
pf_strip_view_init (PfStripView *view)
{
  view->zoom = ZOOM_AT_FIRST;
  view->look = pf_look_printed ();
  view->scroll = g_object_ref_sink (gtk_adjustment_new (0, 0, 1, 1, 1, 1));
  gtk_box_append (GTK_BOX (view), make_bar (view));
  gtk_box_append (GTK_BOX (view), make_strip (view));
  g_signal_connect_object (view->scroll, "value-changed", G_CALLBACK (gtk_widget_queue_draw),
                           view->area, G_CONNECT_SWAPPED);
  pf_strip_view_init_input (view);
}

GtkWidget *
pf_strip_view_new (PfEditor *editor)
{
  static const char *const changes[] = { "document-changed", "worked-out", "selection-changed" };
  PfStripView *view = g_object_new (PF_TYPE_STRIP_VIEW, NULL);
  view->editor = g_object_ref (editor);
  for (gsize c = 0; c < G_N_ELEMENTS (changes); c++)
    g_signal_connect_object (editor, changes[c], G_CALLBACK (update), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "units-changed", G_CALLBACK (gtk_widget_queue_draw), view->area,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "hover-changed", G_CALLBACK (gtk_widget_queue_draw), view->area,
                           G_CONNECT_SWAPPED);
  update (view);
  return GTK_WIDGET (view);
}
