/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The drawing beside the pillow. It stands still while the present step lies well within it, so
 * that the eye finds its place again; else the step comes to the middle. Where stitches crowd, as
 * in a spider's body, it comes nearer.
 */
#include "pillow-view.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "pillow-marks.h"
#include "teller.h"

/* A gap of the ground, in sizes of the text. */
#define GAP_IN_TEXT 3.0
/* So many gaps can be seen, unless numbers would get smaller than this. */
#define LEAST_GAPS 5.5
#define LEAST_TEXT 20.0
/* The nearest stitch is at least so many sizes of the text away from the present one, ... */
#define NEAR_IN_TEXT 1.6
/* ... but the drawing isn't so many times nearer than usual, and all present steps can be seen. */
#define NEAREST 5.0
/* The part of the drawing, on each side, into which the present step may not come. */
#define RIM 0.27
/* How far beyond what can be seen stitches may lie whose lines can, gaps. */
#define ROUND 4.0
/* Round the motif, in sizes of the text: for arrows and the numbers of pinholes. */
#define ROOM 3.5
/* How near to a stitch a click is in its repeat, gaps. */
#define REACH 0.75

struct _PfPillowView {
  GtkWidget parent_instance;

  GtkWidget *teller;
  const PfPillowPlan *plan; /* borrowed, or NULL */
  PfScene *scene;           /* of its motif */
  PfMotif *motif;
  size_t place;
  bool whole;
  double text;
  double nearest; /* from a present stitch to any other, mm */
  double extent;  /* of all present stitches, mm */
  PfPoint middle; /* of the sheet, mm; NAN: to be found */
};

G_DEFINE_FINAL_TYPE (PfPillowView, pf_pillow_view, GTK_TYPE_WIDGET)

static guint chosen_signal;

/* --- The view -----------------------------------------------------------------------------------
 */

/* With large letters in a small window the drawing stays so small that enough of it can be seen. */
static double
text_size (PfPillowView *view)
{
  const int width = gtk_widget_get_width (GTK_WIDGET (view));
  const int height = gtk_widget_get_height (GTK_WIDGET (view));
  return fmin (view->text, fmax (MIN (width, height) / (GAP_IN_TEXT * LEAST_GAPS), LEAST_TEXT));
}

/* In steps, so that the drawing seldom changes its size. */
static double
nearness (PfPillowView *view, double usual)
{
  static const double steps[] = { 1, 1.5, 2, 3, 4, NEAREST };
  const int width = gtk_widget_get_width (GTK_WIDGET (view));
  const int height = gtk_widget_get_height (GTK_WIDGET (view));
  const double room = (1 - 2 * RIM) * MIN (width, height);
  const double wanted = NEAR_IN_TEXT * text_size (view) / (usual * view->nearest);
  const double most = view->extent > 0 ? room / (usual * view->extent) : NEAREST;
  double near = 1;
  for (size_t s = 1; s < G_N_ELEMENTS (steps) && near < wanted && steps[s] <= most; s++)
    near = steps[s];
  return near;
}

static double
pixels_per_mm (PfPillowView *view)
{
  const double usual = GAP_IN_TEXT * text_size (view) / view->plan->motif->filling->placement.gap;
  return usual * nearness (view, usual);
}

/* The ground's turn is undone, so that it runs down; turned over it stays turned over. */
static PfAffine
map_of (PfPillowView *view)
{
  const double turn = -view->plan->motif->filling->placement.turn * G_PI / 180;
  const double scale = pixels_per_mm (view), c = scale * cos (turn), s = scale * sin (turn);
  const PfPoint m = view->middle;
  return (PfAffine){ c,
                     -s,
                     s,
                     c,
                     gtk_widget_get_width (GTK_WIDGET (view)) / 2.0 - c * m.x + s * m.y,
                     gtk_widget_get_height (GTK_WIDGET (view)) / 2.0 - s * m.x - c * m.y };
}

PfPoint
pf_pillow_view_to_screen (PfPillowView *view, PfPoint place)
{
  return pf_affine_map (map_of (view), place);
}

PfPoint
pf_pillow_view_to_sheet (PfPillowView *view, PfPoint pixel)
{
  const PfAffine map = map_of (view);
  const double square = map.xx * map.xx + map.yx * map.yx;
  const double x = pixel.x - map.x0, y = pixel.y - map.y0;
  return (PfPoint){ (map.xx * x + map.yx * y) / square, (map.xy * x + map.yy * y) / square };
}

/* What can be seen of the sheet. */
static PfBox
window_of (PfPillowView *view)
{
  const double width = gtk_widget_get_width (GTK_WIDGET (view));
  const double height = gtk_widget_get_height (GTK_WIDGET (view));
  PfBox box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
  for (int corner = 0; corner < 4; corner++)
    {
      const PfPoint p = pf_pillow_view_to_sheet (
          view, (PfPoint){ corner & 1 ? width : 0, corner & 2 ? height : 0 });
      box.min = (PfPoint){ fmin (box.min.x, p.x), fmin (box.min.y, p.y) };
      box.max = (PfPoint){ fmax (box.max.x, p.x), fmax (box.max.y, p.y) };
    }
  return box;
}

/* The present steps; of the pairs that are all sewn in first only one. */
static PfPillowSpan
present_span (const PfPillowView *view)
{
  const PfPillowPlan *plan = view->plan;
  const size_t last = plan->steps->n_steps - 1;
  const PfPillowSpan span = pf_pillow_span (plan, MIN (view->place, last), view->whole);
  return pf_pillow_group (plan, span.first)->sews_in ? (PfPillowSpan){ MIN (view->place, last), 1 }
                                                     : span;
}

static PfPoint
step_at (const PfPillowPlan *plan, size_t step)
{
  return plan->motif->filling->stitches[plan->steps->steps[step].stitch].at;
}

/* How crowded the stitches of the present steps are. Those that lie on one place, as one that
 * closes a pin, are one. */
static void
measure_present (PfPillowView *view)
{
  const PfFilling *filling = view->plan->motif->filling;
  const PfPillowSpan span = present_span (view);
  const double same = 1e-3 * filling->placement.gap;
  view->nearest = filling->placement.gap;
  PfBox box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
  for (size_t n = span.first; n < span.first + span.n; n++)
    {
      const PfPoint at = step_at (view->plan, n);
      box.min = (PfPoint){ fmin (box.min.x, at.x), fmin (box.min.y, at.y) };
      box.max = (PfPoint){ fmax (box.max.x, at.x), fmax (box.max.y, at.y) };
      for (guint32 s = 0; s < filling->n_stitches; s++)
        {
          const PfPoint other = filling->stitches[s].at;
          const double distance = hypot (other.x - at.x, other.y - at.y);
          if (distance > same && distance < view->nearest)
            view->nearest = distance;
        }
    }
  view->extent = hypot (box.max.x - box.min.x, box.max.y - box.min.y);
}

/* Where the present step is: its stitch; of several the middle. */
static PfPoint
present_at (const PfPillowView *view)
{
  const PfPillowPlan *plan = view->plan;
  const PfPillowSpan span = present_span (view);
  PfPoint sum = { 0, 0 };
  for (size_t n = span.first; n < span.first + span.n; n++)
    {
      const PfPoint at = step_at (plan, n);
      sum = (PfPoint){ sum.x + at.x, sum.y + at.y };
    }
  return (PfPoint){ sum.x / (double) span.n, sum.y / (double) span.n };
}

/* How far to move along one axis so that the motif, from `min` to `max`, fills it, or lies in its
 * middle if it is smaller. */
static double
shift_to_fill (double min, double max, double size, double room)
{
  min -= room;
  max += room;
  if (max - min <= size)
    return (min + max - size) / 2;
  return min > 0 ? min : max < size ? max - size : 0;
}

/* The middle moves so that no more of the view is empty than must be. */
static void
keep_on_motif (PfPillowView *view, double width, double height)
{
  const PfBox box = view->motif->region->box;
  const double room = ROOM * text_size (view);
  PfPoint min = { INFINITY, INFINITY }, max = { -INFINITY, -INFINITY };
  for (int corner = 0; corner < 4; corner++)
    {
      const PfPoint p =
          pf_pillow_view_to_screen (view, (PfPoint){ corner & 1 ? box.max.x : box.min.x,
                                                     corner & 2 ? box.max.y : box.min.y });
      min = (PfPoint){ fmin (min.x, p.x), fmin (min.y, p.y) };
      max = (PfPoint){ fmax (max.x, p.x), fmax (max.y, p.y) };
    }
  view->middle = pf_pillow_view_to_sheet (
      view, (PfPoint){ width / 2 + shift_to_fill (min.x, max.x, width, room),
                       height / 2 + shift_to_fill (min.y, max.y, height, room) });
}

static void
follow_step (PfPillowView *view)
{
  const PfPoint at = present_at (view);
  const double width = gtk_widget_get_width (GTK_WIDGET (view));
  const double height = gtk_widget_get_height (GTK_WIDGET (view));
  if (isfinite (view->middle.x))
    {
      const PfPoint p = pf_pillow_view_to_screen (view, at);
      if (p.x >= RIM * width && p.x <= (1 - RIM) * width && p.y >= RIM * height &&
          p.y <= (1 - RIM) * height)
        return;
    }
  view->middle = at;
  keep_on_motif (view, width, height);
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

static PfPillowMarks
marks_of (PfPillowView *view)
{
  const double room = ROUND * view->plan->motif->filling->placement.gap;
  PfBox window = window_of (view);
  window.min = (PfPoint){ window.min.x - room, window.min.y - room };
  window.max = (PfPoint){ window.max.x + room, window.max.y + room };
  return (PfPillowMarks){ .plan = view->plan,
                          .place = view->place,
                          .span = pf_pillow_span (view->plan, view->place, view->whole),
                          .map = map_of (view),
                          .gap = pixels_per_mm (view) * view->plan->motif->filling->placement.gap,
                          .nearest = pixels_per_mm (view) * view->nearest,
                          .text = text_size (view),
                          .window = window,
                          .widget = GTK_WIDGET (view) };
}

static void
draw_outline (PfPillowView *view, cairo_t *cr)
{
  const PfAffine map = map_of (view);
  cairo_save (cr);
  cairo_transform (cr, &(cairo_matrix_t){ map.xx, map.yx, map.xy, map.yy, map.x0, map.y0 });
  pf_scene_draw (view->scene, PF_LAYER_OUTLINE | PF_LAYER_PINHOLES, window_of (view),
                 1 / pixels_per_mm (view), cr);
  cairo_restore (cr);
}

/* The paper is light in every style, as on the canvas. */
static void
pf_pillow_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PfPillowView *view = PF_PILLOW_VIEW (widget);
  const float width = (float) gtk_widget_get_width (widget);
  const float height = (float) gtk_widget_get_height (widget);
  const graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, width, height);
  gtk_snapshot_append_color (snapshot, &(GdkRGBA){ 1, 1, 1, 1 }, &all);
  if (view->plan == NULL)
    return;
  follow_step (view);
  const PfPillowMarks marks = marks_of (view);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &all);
  draw_outline (view, cr);
  pf_pillow_draw_pairs (&marks, cr);
  pf_pillow_draw_pins (&marks, cr);
  pf_pillow_draw_present (&marks, cr);
  pf_pillow_draw_key (&marks, cr, width, height);
  if (gtk_widget_has_visible_focus (view->teller))
    {
      cairo_rectangle (cr, 1.5, 1.5, width - 3, height - 3);
      cairo_set_source_rgb (cr, 0.05, 0.28, 0.63);
      cairo_set_line_width (cr, 3);
      cairo_stroke (cr);
    }
  cairo_destroy (cr);
}

/* --- The pointer --------------------------------------------------------------------------------
 */

static void
clicked (GtkGestureClick *click G_GNUC_UNUSED, int n_press G_GNUC_UNUSED, double x, double y,
         PfPillowView *view)
{
  gtk_widget_grab_focus (view->teller);
  if (view->plan == NULL)
    return;
  const PfFilling *filling = view->plan->motif->filling;
  const PfPoint at = pf_pillow_view_to_sheet (view, (PfPoint){ x, y });
  double best = REACH * filling->placement.gap;
  guint32 found = PF_NONE;
  for (guint32 s = 0; s < filling->n_stitches; s++)
    {
      const PfPoint p = filling->stitches[s].at;
      const double distance = hypot (p.x - at.x, p.y - at.y);
      if (distance >= best)
        continue;
      best = distance;
      found = s;
    }
  if (found == PF_NONE)
    return;
  const PfPillowSpan span = pf_pillow_span (view->plan, view->plan->of_stitch[found], true);
  g_signal_emit (view, chosen_signal, 0, (guint) span.first);
}

/* --- The object ---------------------------------------------------------------------------------
 */

void
pf_pillow_view_show (PfPillowView *view, const PfPillowPlan *plan, size_t place, bool whole,
                     double text)
{
  view->plan = plan;
  view->place = place;
  view->whole = whole;
  if (text != view->text)
    view->middle = (PfPoint){ NAN, NAN };
  view->text = text;
  if (plan != NULL && plan->steps->n_steps > 0)
    measure_present (view);
  PfMotif *motif = plan != NULL ? plan->motif : NULL;
  if (motif != view->motif)
    {
      g_clear_pointer (&view->scene, pf_scene_free);
      g_clear_pointer (&view->motif, pf_motif_unref);
      view->middle = (PfPoint){ NAN, NAN };
      if (motif != NULL)
        {
          g_autoptr (PfDocument) empty = pf_document_new ();
          g_autoptr (GPtrArray) motifs = g_ptr_array_new ();
          g_ptr_array_add (motifs, motif);
          g_autoptr (PfPricking) alone = pf_pricking_from_motifs (empty, motifs);
          view->motif = pf_motif_ref (motif);
          view->scene = pf_scene_new (alone, false);
        }
    }
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
pf_pillow_view_tell (PfPillowView *view, const char *words)
{
  pf_teller_tell (view->teller, words);
}

static void
pf_pillow_view_measure (GtkWidget *widget G_GNUC_UNUSED, GtkOrientation orientation G_GNUC_UNUSED,
                        int for_size G_GNUC_UNUSED, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  *minimum = 240;
  *natural = 600;
  *minimum_baseline = *natural_baseline = -1;
}

static void
pf_pillow_view_size_allocate (GtkWidget *widget, int width G_GNUC_UNUSED, int height G_GNUC_UNUSED,
                              int baseline)
{
  PfPillowView *view = PF_PILLOW_VIEW (widget);
  gtk_widget_size_allocate (view->teller, &(GtkAllocation){ 0, 0, 1, 1 }, baseline);
}

static gboolean
pf_pillow_view_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (PF_PILLOW_VIEW (widget)->teller);
}

static void
pf_pillow_view_dispose (GObject *object)
{
  PfPillowView *view = PF_PILLOW_VIEW (object);
  view->plan = NULL;
  g_clear_pointer (&view->scene, pf_scene_free);
  g_clear_pointer (&view->motif, pf_motif_unref);
  g_clear_pointer (&view->teller, gtk_widget_unparent);
  G_OBJECT_CLASS (pf_pillow_view_parent_class)->dispose (object);
}

static void
pf_pillow_view_class_init (PfPillowViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = pf_pillow_view_dispose;
  widget_class->measure = pf_pillow_view_measure;
  widget_class->size_allocate = pf_pillow_view_size_allocate;
  widget_class->snapshot = pf_pillow_view_snapshot;
  widget_class->grab_focus = pf_pillow_view_grab_focus;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  chosen_signal = g_signal_new ("chosen", PF_TYPE_PILLOW_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
pf_pillow_view_init (PfPillowView *view)
{
  view->text = 26;
  view->middle = (PfPoint){ NAN, NAN };
  view->teller = pf_teller_new ();
  gtk_widget_set_parent (view->teller, GTK_WIDGET (view));
  g_signal_connect_swapped (view->teller, "state-flags-changed", G_CALLBACK (gtk_widget_queue_draw),
                            view);
  GtkGesture *click = gtk_gesture_click_new ();
  g_signal_connect (click, "released", G_CALLBACK (clicked), view);
  gtk_widget_add_controller (GTK_WIDGET (view), GTK_EVENT_CONTROLLER (click));
  gtk_widget_set_overflow (GTK_WIDGET (view), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The part of the motif that is worked now"), -1);
}

GtkWidget *
pf_pillow_view_new (void)
{
  return g_object_new (PF_TYPE_PILLOW_VIEW, NULL);
}
