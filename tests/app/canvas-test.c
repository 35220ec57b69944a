/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The canvas on a screen: what is seen after each change, and what comes to the tool.
 */
#include <math.h>

#include <glib/gstdio.h>

#include <canvas-private.h>

#include "motif-samples.h"
#include "widget-hands.h"

#define WIDTH 640
#define HEIGHT 480

/* --- A tool that writes down what comes ---------------------------------------------------------
 */

#define TEST_TYPE_TOOL (test_tool_get_type ())
G_DECLARE_FINAL_TYPE (TestTool, test_tool, TEST, TOOL, PfTool)

struct _TestTool {
  PfTool parent_instance;
  GString *heard;
  PfPoint at;
  PfPick number;
  bool takes;
};

G_DEFINE_FINAL_TYPE (TestTool, test_tool, PF_TYPE_TOOL)

static void
hear (PfTool *tool, const char *what, const PfPointer *pointer)
{
  TestTool *test = TEST_TOOL (tool);
  g_string_append_printf (test->heard, "%s%s", test->heard->len > 0 ? " " : "", what);
  if (pointer != NULL)
    {
      test->at = pointer->at;
      test->number = pointer->number;
    }
}

static bool
hear_press (PfTool *tool, const PfPointer *pointer)
{
  hear (tool, "press", pointer);
  return TEST_TOOL (tool)->takes;
}

static void
hear_drag (PfTool *tool, const PfPointer *pointer)
{
  hear (tool, "drag", pointer);
}

static void
hear_release (PfTool *tool, const PfPointer *pointer)
{
  hear (tool, "release", pointer);
}

static void
hear_cancel (PfTool *tool)
{
  hear (tool, "cancel", NULL);
}

static void
hear_hover (PfTool *tool, const PfPointer *pointer)
{
  hear (tool, "hover", pointer);
}

static bool
hear_key (PfTool *tool, guint keyval, GdkModifierType state G_GNUC_UNUSED,
          double pixel G_GNUC_UNUSED)
{
  hear (tool, "key", NULL);
  return keyval == GDK_KEY_a;
}

static char *
say_words (PfTool *tool)
{
  return TEST_TOOL (tool)->takes ? g_strdup ("A line is begun") : NULL;
}

static void
test_tool_finalize (GObject *object)
{
  g_string_free (TEST_TOOL (object)->heard, TRUE);
  G_OBJECT_CLASS (test_tool_parent_class)->finalize (object);
}

static void
test_tool_class_init (TestToolClass *class)
{
  G_OBJECT_CLASS (class)->finalize = test_tool_finalize;
  PfToolClass *tool_class = PF_TOOL_CLASS (class);
  tool_class->press = hear_press;
  tool_class->drag = hear_drag;
  tool_class->release = hear_release;
  tool_class->cancel = hear_cancel;
  tool_class->hover = hear_hover;
  tool_class->key = hear_key;
  tool_class->describe = say_words;
}

static void
test_tool_init (TestTool *tool)
{
  tool->heard = g_string_new (NULL);
}

/* --- A canvas and its pixels --------------------------------------------------------------------
 */

typedef struct {
  PfEditor *editor;
  PfCanvas *canvas;
  GtkWidget *window;
  TestTool *tool;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->editor = sample_editor (sample_frame (60, 50, 12, "armure"));
  fixture->canvas = PF_CANVAS (pf_canvas_new (fixture->editor));
  fixture->tool = g_object_new (TEST_TYPE_TOOL, "editor", fixture->editor, NULL);
  fixture->tool->takes = true;
  fixture->window = show_widget (GTK_WIDGET (fixture->canvas), WIDTH, HEIGHT);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  g_object_unref (fixture->tool);
  g_object_unref (fixture->editor);
}

static cairo_surface_t *
pixels_of (PfCanvas *canvas, GskRenderNode *node)
{
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, (int) canvas->view.width, (int) canvas->view.height);
  cairo_t *cr = cairo_create (surface);
  gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  return surface;
}

/* What the canvas shows now, without a turn of the main loop in between. */
static cairo_surface_t *
take_pixels (PfCanvas *canvas)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GTK_WIDGET_GET_CLASS (canvas)->snapshot (GTK_WIDGET (canvas), snapshot);
  GskRenderNode *node = gtk_snapshot_free_to_node (snapshot);
  cairo_surface_t *surface = pixels_of (canvas, node);
  gsk_render_node_unref (node);
  return surface;
}

/* The drawing alone: what is round it has the colours of the window that the canvas is in. */
static cairo_surface_t *
take_drawing (PfCanvas *canvas)
{
  cairo_surface_destroy (take_pixels (canvas));
  return pixels_of (canvas, canvas->parts[PF_PART_DRAWING]);
}

static guint32
pixel_at (cairo_surface_t *surface, PfPoint at)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  const int stride = cairo_image_surface_get_stride (surface);
  return ((const guint32 *) (data + (int) at.y * stride))[(int) at.x] & 0xffffff;
}

static size_t
count_different (cairo_surface_t *a, cairo_surface_t *b)
{
  size_t n = 0;
  for (int y = 0; y < cairo_image_surface_get_height (a); y++)
    for (int x = 0; x < cairo_image_surface_get_width (a); x++)
      n += pixel_at (a, (PfPoint){ x, y }) != pixel_at (b, (PfPoint){ x, y });
  return n;
}

static void
wait_until_sharp (PfCanvas *canvas)
{
  const gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;
  while (!pf_picture_is_sharp (canvas->picture) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_true (pf_picture_is_sharp (canvas->picture));
  settle ();
}

static void
move_ground (PfEditor *editor, double by)
{
  PfDraft *draft = pf_editor_edit (editor);
  draft->settings.placement.origin.x += by;
  pf_editor_preview (editor, draft);
}

/* --- What is seen -------------------------------------------------------------------------------
 */

static void
paper_lies_on_the_desk (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  cairo_surface_t *pixels = take_pixels (fixture->canvas);
  /* In the hole, beyond the corner, on a ruler. */
  const PfPoint hole = pf_canvas_to_screen (fixture->canvas, (PfPoint){ 30, 25 });
  const PfPoint corner = pf_canvas_to_screen (fixture->canvas, (PfPoint){ 0, 0 });
  g_assert_cmphex (pixel_at (pixels, hole), ==, 0xffffff);
  g_assert_cmphex (pixel_at (pixels, (PfPoint){ corner.x - 8, corner.y - 8 }), ==, 0xcccccc);
  g_assert_cmphex (pixel_at (pixels, (PfPoint){ 2, 2 }), ==, 0xf8f8f8);
  cairo_surface_destroy (pixels);
}

static PfPoint
pin_near (const PfMotif *motif, PfPoint place)
{
  PfPoint nearest = { INFINITY, INFINITY };
  for (size_t s = 0; s < motif->filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &motif->filling->stitches[s];
      if (motif->ground->stitches[stitch->id.k].pin &&
          hypot (stitch->at.x - place.x, stitch->at.y - place.y) <
              hypot (nearest.x - place.x, nearest.y - place.y))
        nearest = stitch->at;
    }
  return nearest;
}

/* A pin is where it is worked out, to the pixel: once drawn at once, once painted. */
static void
pins_are_where_they_are_worked_out (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  pf_canvas_set_layers (fixture->canvas, PF_LAYER_PINS);
  pf_canvas_set_zoom (fixture->canvas, 2);
  const PfPoint pin = pin_near (motif_of (fixture->editor), (PfPoint){ 30, 40 });
  for (int turn = 0; turn < 2; turn++)
    {
      pf_canvas_show_place (fixture->canvas, pin);
      const PfPoint at = pf_canvas_to_screen (fixture->canvas, pin);
      for (int sharp = 0; sharp < 2; sharp++)
        {
          cairo_surface_t *pixels = take_pixels (fixture->canvas);
          g_assert_cmphex (pixel_at (pixels, at) & 0xff, <, 0x60);
          g_assert_cmphex (pixel_at (pixels, (PfPoint){ at.x + 7, at.y + 1 }), ==, 0xffffff);
          cairo_surface_destroy (pixels);
          wait_until_sharp (fixture->canvas);
        }
      pf_canvas_set_turn (fixture->canvas, 35);
    }
}

/* The frame right after a change is the one that a canvas shows which never saw what was before.
 * Lines inside the shape may wait for the thread on a slow machine; all others may not. */
static void
no_line_is_ever_stale (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const PfLayers at_once = PF_LAYER_ALL & ~(PF_LAYER_PAIR_LINES | PF_LAYER_PINS | PF_LAYER_BEADS);
  pf_canvas_set_layers (fixture->canvas, at_once);
  wait_until_sharp (fixture->canvas);
  cairo_surface_t *before = take_drawing (fixture->canvas);
  for (int n = 0; n < 6; n++)
    {
      move_ground (fixture->editor, 0.37);
      if (n == 3)
        pf_canvas_set_zoom (fixture->canvas, 1.7);
      cairo_surface_t *seen = take_drawing (fixture->canvas);
      GtkWidget *fresh = pf_canvas_new (fixture->editor);
      g_object_ref_sink (fresh);
      pf_canvas_set_layers (PF_CANVAS (fresh), at_once);
      PF_CANVAS (fresh)->view = fixture->canvas->view;
      PF_CANVAS (fresh)->pointer = fixture->canvas->pointer;
      cairo_surface_t *wanted = take_drawing (PF_CANVAS (fresh));
      g_assert_cmpuint (count_different (seen, wanted), ==, 0);
      g_assert_cmpuint (count_different (seen, before), >, 500);
      cairo_surface_destroy (seen);
      cairo_surface_destroy (wanted);
      g_object_unref (fresh);
    }
  pf_editor_cancel (fixture->editor);
  wait_until_sharp (fixture->canvas);
  cairo_surface_destroy (before);
}

static void
taking_back_shows_what_was_there (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  wait_until_sharp (fixture->canvas);
  cairo_surface_t *before = take_pixels (fixture->canvas);
  move_ground (fixture->editor, 1.1);
  wait_until_sharp (fixture->canvas);
  cairo_surface_t *moved = take_pixels (fixture->canvas);
  pf_editor_cancel (fixture->editor);
  wait_until_sharp (fixture->canvas);
  cairo_surface_t *after = take_pixels (fixture->canvas);
  g_assert_cmpuint (count_different (before, moved), >, 500);
  g_assert_cmpuint (count_different (before, after), ==, 0);
  cairo_surface_destroy (before);
  cairo_surface_destroy (moved);
  cairo_surface_destroy (after);
}

static void
hidden_layers_are_not_seen (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_cmpuint (pf_canvas_layers (fixture->canvas), ==, PF_LAYER_ALL);
  pf_canvas_set_layers (fixture->canvas, 0);
  const PfFilling *filling = motif_of (fixture->editor)->filling;
  for (int sharp = 0; sharp < 2; sharp++)
    {
      cairo_surface_t *pixels = take_pixels (fixture->canvas);
      for (size_t s = 0; s < filling->n_stitches; s++)
        g_assert_cmphex (
            pixel_at (pixels, pf_canvas_to_screen (fixture->canvas, filling->stitches[s].at)), ==,
            0xffffff);
      cairo_surface_destroy (pixels);
      wait_until_sharp (fixture->canvas);
    }
}

static double
luminance (guint32 pixel)
{
  double sum = 0;
  static const double weights[] = { 0.0722, 0.7152, 0.2126 };
  for (int c = 0; c < 3; c++)
    {
      const double v = (pixel >> (8 * c) & 0xff) / 255.0;
      sum += weights[c] * (v <= 0.03928 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4));
    }
  return sum;
}

/* W3C, Web Content Accessibility Guidelines 2.1, 1.4.11 "Non-text Contrast": at least 3:1. */
static void
a_selected_pair_stands_out (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  pf_canvas_set_layers (fixture->canvas, 0);
  pf_editor_set_stage (fixture->editor, PF_STAGE_SEWINGS);
  const PfFilling *filling = motif_of (fixture->editor)->filling;
  pf_editor_select (fixture->editor, (PfPick){ .kind = PF_PICK_PAIR, .index = 5 });
  cairo_surface_t *pixels = take_pixels (fixture->canvas);
  size_t n;
  g_autofree PfPoint *way = pf_pair_way (filling, 5, &n);
  g_assert_cmpuint (n, >, 7); /* no arrowhead there */
  double darkest = 1;
  for (int x = -12; x <= 12; x++)
    {
      const PfPoint middle = { (way[3].x + way[4].x) / 2, (way[3].y + way[4].y) / 2 };
      const PfPoint at = pf_canvas_to_screen (fixture->canvas, middle);
      darkest = fmin (darkest, luminance (pixel_at (pixels, (PfPoint){ at.x + x, at.y })));
      if (x == 0)
        g_assert_cmphex (pixel_at (pixels, at), ==, 0xffcc40);
    }
  g_assert_cmpfloat (1.05 / (darkest + 0.05), >=, 3);
  cairo_surface_destroy (pixels);
}

static void
trouble_is_shown_at_its_place (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const PfPoint bow[] = { { 5, 5 }, { 45, 45 }, { 45, 5 }, { 5, 45 } };
  PfDraft *draft = pf_editor_edit (fixture->editor);
  pf_draft_remove_curve (draft, 1);
  g_autoptr (PfCurve) curve = pf_curve_new_straight (bow, 4, true);
  pf_draft_set_curve (draft, 0, curve, NULL);
  pf_editor_change (fixture->editor, draft, "Bow");
  PfPoint where;
  g_assert_nonnull (pf_editor_trouble (fixture->editor, 0, &where));
  g_assert_cmpfloat_with_epsilon (where.x, 25, 0.01);
  const PfPoint at = pf_canvas_to_screen (fixture->canvas, where);
  cairo_surface_t *pixels = take_pixels (fixture->canvas);
  g_assert_cmphex (pixel_at (pixels, (PfPoint){ at.x - 4, at.y + 5 }), ==, 0xfff3ee);
  cairo_surface_destroy (pixels);
}

/* --- The underlay -------------------------------------------------------------------------------
 */

static void
lay_under (PfEditor *editor, const char *file)
{
  const PfUnderlay underlay = {
    .file = (char *) file, .map = { 0.1, 0, 0, 0.1, 10, 5 }, .strength = 1, .shown = true
  };
  pf_editor_change_document (
      editor, pf_document_with_underlay (pf_editor_document (editor), &underlay), "Scan");
}

static void
wait_for_underlay (PfCanvas *canvas)
{
  PfBox box;
  const gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  while (!pf_underlay_picture_box (canvas->underlay, &box) &&
         pf_underlay_picture_trouble (canvas->underlay) == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
}

static void
a_scan_lies_under_the_drawing (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *file = g_build_filename (g_get_tmp_dir (), "canvas-test-scan.png", NULL);
  cairo_surface_t *scan = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 401, 300);
  cairo_t *cr = cairo_create (scan);
  cairo_set_source_rgb (cr, 0, 1, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  g_assert_cmpint (cairo_surface_write_to_png (scan, file), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (scan);
  lay_under (fixture->editor, file);
  wait_for_underlay (fixture->canvas);
  PfBox box;
  g_assert_true (pf_underlay_picture_box (fixture->canvas->underlay, &box));
  g_assert_cmpfloat_with_epsilon (box.max.x, 50.1, 1e-9);
  pf_canvas_set_layers (fixture->canvas, 0);
  cairo_surface_t *pixels = take_pixels (fixture->canvas);
  g_assert_cmphex (pixel_at (pixels, pf_canvas_to_screen (fixture->canvas, (PfPoint){ 12, 7 })), ==,
                   0x00ff00);
  g_assert_cmphex (pixel_at (pixels, pf_canvas_to_screen (fixture->canvas, (PfPoint){ 8, 7 })), ==,
                   0xffffff);
  cairo_surface_destroy (pixels);
  g_remove (file);
}

static void
a_scan_that_cant_be_read_is_told (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  lay_under (fixture->editor, "/nowhere/at all.png");
  wait_for_underlay (fixture->canvas);
  const char *trouble = pf_underlay_picture_trouble (fixture->canvas->underlay);
  g_assert_nonnull (trouble);
  g_assert_nonnull (strstr (trouble, "“at all.png”"));
  pf_editor_change_document (fixture->editor,
                             pf_document_with_underlay (pf_editor_document (fixture->editor), NULL),
                             "No scan");
  g_assert_null (pf_underlay_picture_trouble (fixture->canvas->underlay));
}

/* --- What comes to the tool ---------------------------------------------------------------------
 */

static void
the_tool_hears_in_mm (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  GtkEventController *gesture =
      find_controller (GTK_WIDGET (fixture->canvas), GTK_TYPE_GESTURE_DRAG);
  const PfPoint from = pf_canvas_to_screen (fixture->canvas, (PfPoint){ 10, 20 });
  const PfPoint to = pf_canvas_to_screen (fixture->canvas, (PfPoint){ 25, 12 });
  g_signal_emit_by_name (gesture, "drag-begin", from.x, from.y);
  g_assert_cmpfloat_with_epsilon (fixture->tool->at.x, 10, 1e-6);
  g_assert_cmpfloat_with_epsilon (fixture->tool->at.y, 20, 1e-6);
  g_signal_emit_by_name (gesture, "drag-update", to.x - from.x, to.y - from.y);
  g_assert_cmpfloat_with_epsilon (fixture->tool->at.x, 25, 1e-6);
  g_signal_emit_by_name (gesture, "drag-end", to.x - from.x, to.y - from.y);
  g_assert_cmpfloat_with_epsilon (fixture->tool->at.y, 12, 1e-6);
  g_signal_emit_by_name (gesture, "drag-begin", from.x, from.y);
  g_signal_emit_by_name (gesture, "cancel", NULL);
  g_signal_emit_by_name (gesture, "drag-end", 0.0, 0.0);
  g_assert_cmpstr (fixture->tool->heard->str, ==, "press drag release press cancel");
}

/* Escape, and another tool, end what was begun. */
static void
what_is_begun_can_be_given_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *widget = GTK_WIDGET (fixture->canvas);
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  GtkEventController *gesture = find_controller (widget, GTK_TYPE_GESTURE_DRAG);
  g_signal_emit_by_name (gesture, "drag-begin", 100.0, 100.0);
  g_assert_true (press_key (widget, GDK_KEY_Escape, 0));
  g_signal_emit_by_name (gesture, "drag-update", 5.0, 5.0);
  g_signal_emit_by_name (gesture, "drag-end", 5.0, 5.0);
  g_signal_emit_by_name (gesture, "drag-begin", 100.0, 100.0);
  pf_canvas_set_tool (fixture->canvas, NULL);
  g_assert_cmpstr (fixture->tool->heard->str, ==, "press cancel press cancel");
}

static void
keys_go_to_the_tool_first (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *widget = GTK_WIDGET (fixture->canvas);
  pf_canvas_set_zoom (fixture->canvas, 4);
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  const PfPoint middle = fixture->canvas->view.middle;
  g_assert_true (press_key (widget, GDK_KEY_a, 0));
  g_assert_false (press_key (widget, GDK_KEY_b, 0));
  /* Arrows that the tool has no use for stay in the canvas all the same. */
  g_assert_true (press_key (widget, GDK_KEY_Right, 0));
  g_assert_cmpfloat (fixture->canvas->view.middle.x, ==, middle.x);
  g_assert_true (press_key (widget, GDK_KEY_Right, GDK_CONTROL_MASK));
  g_assert_cmpfloat (fixture->canvas->view.middle.x, >, middle.x + 1);
  g_assert_cmpstr (fixture->tool->heard->str, ==, "key key key key");
}

/* A drag that the tool doesn't want moves the sheet with the pointer; so does the wheel. */
static void
the_sheet_can_be_moved (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *widget = GTK_WIDGET (fixture->canvas);
  pf_canvas_set_zoom (fixture->canvas, 4);
  fixture->tool->takes = false;
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  const PfPoint place = pf_canvas_to_sheet (fixture->canvas, (PfPoint){ 200, 150 });
  GtkEventController *gesture = find_controller (widget, GTK_TYPE_GESTURE_DRAG);
  g_signal_emit_by_name (gesture, "drag-begin", 300.0, 200.0);
  g_signal_emit_by_name (gesture, "drag-update", 20.0, 10.0);
  g_signal_emit_by_name (gesture, "drag-update", 30.0, -5.0);
  g_signal_emit_by_name (gesture, "drag-end", 30.0, -5.0);
  PfPoint at = pf_canvas_to_screen (fixture->canvas, place);
  g_assert_cmpfloat_with_epsilon (at.x, 230, 1e-6);
  g_assert_cmpfloat_with_epsilon (at.y, 145, 1e-6);
  GtkEventController *scroll = find_controller (widget, GTK_TYPE_EVENT_CONTROLLER_SCROLL);
  gboolean handled = FALSE;
  g_signal_emit_by_name (scroll, "scroll", 0.0, 0.5, &handled);
  g_assert_true (handled);
  at = pf_canvas_to_screen (fixture->canvas, place);
  g_assert_cmpfloat_with_epsilon (at.x, 230, 1e-6);
  g_assert_cmpfloat_with_epsilon (at.y, 115, 1e-6);
}

/* Two fingers: the place between them is held; without points that is the middle. */
static void
fingers_zoom_and_turn (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *widget = GTK_WIDGET (fixture->canvas);
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  pf_canvas_set_zoom (fixture->canvas, 3);
  GtkEventController *drag = find_controller (widget, GTK_TYPE_GESTURE_DRAG);
  GtkEventController *zoom = find_controller (widget, GTK_TYPE_GESTURE_ZOOM);
  GtkEventController *rotate = find_controller (widget, GTK_TYPE_GESTURE_ROTATE);
  const PfPoint centre = pf_canvas_view_centre (&fixture->canvas->view);
  const PfPoint place = pf_canvas_to_sheet (fixture->canvas, centre);
  /* The first finger has begun something: the second one gives it up. */
  g_signal_emit_by_name (drag, "drag-begin", 300.0, 200.0);
  g_signal_emit_by_name (zoom, "begin", NULL);
  g_assert_cmpstr (fixture->tool->heard->str, ==, "press cancel");
  g_signal_emit_by_name (zoom, "scale-changed", 1.5);
  g_assert_cmpfloat_with_epsilon (pf_canvas_zoom (fixture->canvas), 4.5, 1e-9);
  g_signal_emit_by_name (zoom, "scale-changed", 0.5);
  g_assert_cmpfloat_with_epsilon (pf_canvas_zoom (fixture->canvas), 1.5, 1e-9);
  /* A little turn is a slip of the fingers; from 12 degrees on the sheet turns, without a jump. */
  g_signal_emit_by_name (rotate, "angle-changed", 0.0, 10 * G_PI / 180);
  g_assert_cmpfloat (pf_canvas_turn (fixture->canvas), ==, 0);
  g_signal_emit_by_name (rotate, "angle-changed", 0.0, 13 * G_PI / 180);
  g_assert_cmpfloat_with_epsilon (pf_canvas_turn (fixture->canvas), 0, 1e-9);
  g_signal_emit_by_name (rotate, "angle-changed", 0.0, 43 * G_PI / 180);
  g_assert_cmpfloat_with_epsilon (pf_canvas_turn (fixture->canvas), 30, 1e-9);
  const PfPoint now = pf_canvas_to_screen (fixture->canvas, place);
  g_assert_cmpfloat_with_epsilon (now.x, centre.x, 1e-6);
  g_assert_cmpfloat_with_epsilon (now.y, centre.y, 1e-6);
}

/* --- Numbers and marks --------------------------------------------------------------------------
 */

static const PfNumber *
number_of (GArray *numbers, PfNumberOf of)
{
  for (guint n = 0; n < numbers->len; n++)
    if (g_array_index (numbers, PfNumber, n).of == of)
      return &g_array_index (numbers, PfNumber, n);
  g_assert_not_reached ();
}

static void
hover_over (Fixture *fixture, PfBox box)
{
  GtkEventController *motion =
      find_controller (GTK_WIDGET (fixture->canvas), GTK_TYPE_EVENT_CONTROLLER_MOTION);
  const PfPoint at = pf_canvas_to_screen (
      fixture->canvas, (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 });
  g_signal_emit_by_name (motion, "motion", at.x, at.y);
}

/* A number is that of the sewing or pinhole it stands beside, as long as numbers are shown. */
static void
numbers_are_what_they_number (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const PfMotif *motif = motif_of (fixture->editor);
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  pf_canvas_fit (fixture->canvas);
  settle ();
  wait_until_sharp (fixture->canvas);
  g_autoptr (PfPricking) pricking = pf_editor_pricking (fixture->editor);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  g_autoptr (GArray) numbers = pf_scene_numbers (scene);
  const PfNumber *sewing = number_of (numbers, PF_NUMBER_OF_SEWING);
  const PfNumber *pinhole = number_of (numbers, PF_NUMBER_OF_PINHOLE);
  hover_over (fixture, sewing->box);
  g_assert_cmpint (fixture->tool->number.kind, ==, PF_PICK_SEWING);
  g_assert_cmpuint (fixture->tool->number.index, ==, sewing->index);
  g_assert_cmpuint (sewing->index, <, motif->filling->n_sewings);
  hover_over (fixture, pinhole->box);
  g_assert_cmpint (fixture->tool->number.kind, ==, PF_PICK_PINHOLE);
  g_assert_cmpuint (fixture->tool->number.loop, ==, pinhole->loop);
  g_assert_cmpuint (fixture->tool->number.index, ==, pinhole->index);
  pf_canvas_set_layers (fixture->canvas, PF_LAYER_ALL & ~PF_LAYER_NUMBERS);
  hover_over (fixture, sewing->box);
  g_assert_cmpint (fixture->tool->number.kind, ==, PF_PICK_NONE);
}

/* The paper is as large as the motif: what stands round it must find room all the same. */
static void
numbers_are_not_cut (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  PfDocument *document = pf_document_copy (pf_editor_document (fixture->editor));
  document->width = document->height = 20;
  pf_editor_change_document (fixture->editor, document, "Small paper");
  g_autoptr (PfPricking) pricking = pf_editor_pricking (fixture->editor);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  g_autoptr (GArray) numbers = pf_scene_numbers (scene);
  for (int whole = 0; whole < 2; whole++)
    {
      if (whole)
        pf_canvas_fit (fixture->canvas);
      else
        pf_canvas_fit_active (fixture->canvas);
      for (guint n = 0; n < numbers->len; n++)
        {
          const PfBox box = g_array_index (numbers, PfNumber, n).box;
          const PfPoint a = pf_canvas_to_screen (fixture->canvas, box.min);
          const PfPoint b = pf_canvas_to_screen (fixture->canvas, box.max);
          g_assert_cmpfloat (a.x, >, fixture->canvas->view.inset);
          g_assert_cmpfloat (a.y, >, fixture->canvas->view.inset);
          g_assert_cmpfloat (b.x, <, fixture->canvas->view.width);
          g_assert_cmpfloat (b.y, <, fixture->canvas->view.height);
        }
    }
}

/* What is selected for one step isn't lit in the others. */
static void
marks_stay_in_their_step (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  pf_canvas_set_layers (fixture->canvas, 0);
  const PfFilling *filling = motif_of (fixture->editor)->filling;
  pf_editor_select (fixture->editor, (PfPick){ .kind = PF_PICK_PAIR, .index = 5 });
  size_t n;
  g_autofree PfPoint *way = pf_pair_way (filling, 5, &n);
  g_assert_cmpuint (n, >, 7); /* no arrowhead there */
  const PfPoint middle = { (way[3].x + way[4].x) / 2, (way[3].y + way[4].y) / 2 };
  for (PfStage stage = PF_STAGE_OUTLINE; stage < PF_N_STAGES; stage++)
    {
      const bool lit = stage == PF_STAGE_EDGE || stage == PF_STAGE_SEWINGS;
      pf_editor_set_stage (fixture->editor, stage);
      pf_canvas_redraw (fixture->canvas, PF_ALL_PARTS);
      cairo_surface_t *pixels = take_pixels (fixture->canvas);
      g_assert_cmphex (pixel_at (pixels, pf_canvas_to_screen (fixture->canvas, middle)), ==,
                       lit ? 0xffcc40 : 0xffffff);
      cairo_surface_destroy (pixels);
    }
}

/* What the pennant of a sewing means can be read where it is, and nowhere else. */
static void
the_pennant_is_explained (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  PfDraft *draft = pf_editor_edit (fixture->editor);
  draft->settings.off_line = 3;
  pf_editor_change (fixture->editor, draft, "Mark more of them");
  const PfFilling *filling = motif_of (fixture->editor)->filling;
  g_assert_cmpuint (filling->counts.off_line, >, 0);
  pf_canvas_fit_active (fixture->canvas);
  size_t s = 0;
  while (!filling->sewings[s].off_line)
    s++;
  g_autoptr (GObject) tooltip = g_object_new (GTK_TYPE_TOOLTIP, NULL);
  gboolean shown = FALSE;
  for (int at_middle = 0; at_middle < 2; at_middle++)
    {
      const PfPoint at = pf_canvas_to_screen (fixture->canvas, at_middle ? (PfPoint){ 15, 20 }
                                                                         : filling->sewings[s].at);
      g_signal_emit_by_name (fixture->canvas, "query-tooltip", (int) at.x, (int) at.y, FALSE,
                             tooltip, &shown);
      g_assert_cmpint (shown, ==, !at_middle);
    }
}

/* --- What is told -------------------------------------------------------------------------------
 */

static void
assert_told (PfCanvas *canvas, const char *words)
{
  g_autofree char *found = gtk_test_accessible_check_property (
      GTK_ACCESSIBLE (canvas->teller), GTK_ACCESSIBLE_PROPERTY_LABEL, words);
  g_assert_cmpstr (found, ==, NULL);
}

static void
what_is_selected_is_told (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_test_accessible_assert_role (fixture->canvas, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_test_accessible_assert_property (fixture->canvas, GTK_ACCESSIBLE_PROPERTY_LABEL, "Drawing");
  assert_told (fixture->canvas, "Nothing is selected");
  const PfPick pick = { .kind = PF_PICK_SEWING, .index = 3 };
  pf_editor_select (fixture->editor, pick);
  g_autofree char *sewing = pf_editor_describe (fixture->editor, pick);
  assert_told (fixture->canvas, sewing);
  pf_canvas_set_tool (fixture->canvas, PF_TOOL (fixture->tool));
  assert_told (fixture->canvas, "A line is begun");
  fixture->tool->takes = false;
  pf_tool_redraw (PF_TOOL (fixture->tool));
  assert_told (fixture->canvas, sewing);
}

/* A pair's words, and what lights up, are those of its two bobbins while threads are shown. */
static void
threads_are_seen_from_near (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const PfMotif *motif = motif_of (fixture->editor);
  pf_canvas_set_zoom (fixture->canvas, 0.5);
  g_assert_false (pf_canvas_threads_too_small (fixture->canvas));
  pf_editor_select (fixture->editor, (PfPick){ .kind = PF_PICK_PAIR, .index = 3 });
  g_autofree char *pair = pf_explain_pair (motif->filling, motif->ground, 3);
  assert_told (fixture->canvas, pair);
  pf_canvas_set_layers (fixture->canvas, PF_LAYER_ALL | PF_LAYER_THREADS);
  g_assert_true (pf_canvas_threads_too_small (fixture->canvas));
  g_autofree char *bobbins =
      pf_explain_threads (pf_motif_laid (motif)->threads, motif->filling, motif->ground, 3);
  g_autofree char *both = g_strconcat (pair, "\n", bobbins, NULL);
  assert_told (fixture->canvas, both);
  wait_until_sharp (fixture->canvas);
  pf_canvas_zoom_to_threads (fixture->canvas);
  g_assert_false (pf_canvas_threads_too_small (fixture->canvas));
  wait_until_sharp (fixture->canvas);
  cairo_surface_t *threads = take_drawing (fixture->canvas);
  pf_canvas_set_layers (fixture->canvas, PF_LAYER_ALL);
  assert_told (fixture->canvas, pair);
  wait_until_sharp (fixture->canvas);
  cairo_surface_t *lines = take_drawing (fixture->canvas);
  g_assert_cmpuint (count_different (threads, lines), >, 2000);
  cairo_surface_destroy (threads);
  cairo_surface_destroy (lines);
}

static void
the_keyboard_reaches_the_teller (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_true (gtk_widget_grab_focus (GTK_WIDGET (fixture->canvas)));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (fixture->window)) == fixture->canvas->teller);
}

static void
another_document_is_fitted_in (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const double zoom = pf_canvas_zoom (fixture->canvas);
  PfDocument *document = sample_rectangle (10, 8, NULL);
  document->width = 10;
  document->height = 8;
  pf_editor_open (fixture->editor, document);
  pf_document_unref (document);
  g_assert_cmpfloat (pf_canvas_zoom (fixture->canvas), >, 2 * zoom);
}

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    {
      g_print ("1..0 # SKIP there is no screen\n");
      return 0;
    }
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, tear_down)
  ADD ("/canvas/paper", paper_lies_on_the_desk);
  ADD ("/canvas/pins", pins_are_where_they_are_worked_out);
  ADD ("/canvas/never-stale", no_line_is_ever_stale);
  ADD ("/canvas/taken-back", taking_back_shows_what_was_there);
  ADD ("/canvas/layers", hidden_layers_are_not_seen);
  ADD ("/canvas/selected", a_selected_pair_stands_out);
  ADD ("/canvas/trouble", trouble_is_shown_at_its_place);
  ADD ("/canvas/scan", a_scan_lies_under_the_drawing);
  ADD ("/canvas/no-scan", a_scan_that_cant_be_read_is_told);
  ADD ("/canvas/tool", the_tool_hears_in_mm);
  ADD ("/canvas/given-up", what_is_begun_can_be_given_up);
  ADD ("/canvas/keys", keys_go_to_the_tool_first);
  ADD ("/canvas/moved", the_sheet_can_be_moved);
  ADD ("/canvas/fingers", fingers_zoom_and_turn);
  ADD ("/canvas/numbers", numbers_are_what_they_number);
  ADD ("/canvas/numbers-seen", numbers_are_not_cut);
  ADD ("/canvas/marks", marks_stay_in_their_step);
  ADD ("/canvas/pennant", the_pennant_is_explained);
  ADD ("/canvas/told", what_is_selected_is_told);
  ADD ("/canvas/threads", threads_are_seen_from_near);
  ADD ("/canvas/focus", the_keyboard_reaches_the_teller);
  ADD ("/canvas/opened", another_document_is_fitted_in);
  return g_test_run ();
}
