/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pointer, touch and keyboard on the canvas. What moves the view is done here; all else goes to the
 * tool, as places on the sheet. The tool gets a release or a cancel for every press it took.
 */
#include <math.h>

#include "canvas-private.h"

#define REACH 8.0        /* how near is near, pixels */
#define TOUCH_REACH 16.0 /* of a finger */
#define WHEEL_PAN 60.0   /* pixels for a click of the wheel */
#define KEY_PAN 80.0     /* and of an arrow key */
#define WHEEL_ZOOM 1.2
#define TURN_BY_HAND 12.0 /* two fingers turn only after so many degrees */

static PfToolClass *
class_of (PfCanvas *canvas)
{
  return PF_TOOL_GET_CLASS (canvas->tool);
}

/* By the event: under X11 its device is the one pointer of all. */
static bool
is_finger (GtkEventController *controller)
{
  GdkEvent *event = gtk_event_controller_get_current_event (controller);
  return event != NULL && gdk_event_get_event_sequence (event) != NULL;
}

static double
reach_of (GtkEventController *controller)
{
  return is_finger (controller) ? TOUCH_REACH : REACH;
}

/* What the number at a place stands beside. */
static PfPick
find_numbered (PfCanvas *canvas, PfPoint at)
{
  const PfMotif *motif;
  const PfNumber *number = pf_picture_find_number (canvas->picture, at, &motif);
  if (number == NULL || number->of == PF_NUMBER_OF_MOTIF)
    return PF_PICK_NOTHING;
  PfPick pick = { .kind = number->of == PF_NUMBER_OF_SEWING ? PF_PICK_SEWING : PF_PICK_PINHOLE,
                  .loop = number->loop,
                  .index = number->index };
  const size_t n_drafts = pf_editor_document (canvas->editor)->n_drafts;
  for (; pick.draft < n_drafts; pick.draft++)
    if (pf_editor_motif (canvas->editor, pick.draft) == motif)
      return pick;
  return PF_PICK_NOTHING;
}

static PfPointer
make_pointer (PfCanvas *canvas, GtkEventController *controller, double x, double y)
{
  const double pixel = pf_canvas_view_pixel (&canvas->view);
  const PfPoint at = pf_canvas_view_to_sheet (&canvas->view, (PfPoint){ x, y });
  return (PfPointer){
    .at = at,
    .pixel = pixel,
    .reach = reach_of (controller) * pixel,
    .n_press = canvas->input.n_press,
    .button = canvas->input.button,
    .state = gtk_event_controller_get_current_event_state (controller),
    .number = find_numbered (canvas, at),
  };
}

static void
move_pointer (PfCanvas *canvas, double x, double y)
{
  canvas->pointer = (PfPoint){ x, y };
  pf_canvas_redraw (canvas, 1u << PF_PART_RULERS);
}

void
pf_canvas_update_cursor (PfCanvas *canvas)
{
  const char *name = NULL;
  if (canvas->input.drag == PF_DRAG_PAN)
    name = "grabbing";
  else if (canvas->input.space)
    name = "grab";
  else if (canvas->tool != NULL)
    name = class_of (canvas)->cursor (canvas->tool);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (canvas), name);
}

/* --- Dragging -----------------------------------------------------------------------------------
 */

void
pf_canvas_cancel_drag (PfCanvas *canvas)
{
  const PfDragKind drag = canvas->input.drag;
  canvas->input.drag = PF_DRAG_NONE;
  if (drag == PF_DRAG_TOOL)
    class_of (canvas)->cancel (canvas->tool);
}

/* The second press of a double click is near the first, in place and time. */
static void
count_press (PfCanvas *canvas, GtkGesture *gesture, double x, double y)
{
  PfCanvasInput *input = &canvas->input;
  const guint32 time = gtk_event_controller_get_current_event_time (GTK_EVENT_CONTROLLER (gesture));
  int wait, apart;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (canvas)), "gtk-double-click-time", &wait,
                "gtk-double-click-distance", &apart, NULL);
  const bool again = input->n_press > 0 && input->button == input->last_button &&
                     time - input->last_time < (guint32) wait && time != 0 &&
                     hypot (x - input->last_press.x, y - input->last_press.y) <= apart;
  input->n_press = again ? input->n_press + 1 : 1;
  input->last_button = input->button;
  input->last_time = time;
  input->last_press = (PfPoint){ x, y };
}

static bool
is_pan (PfCanvas *canvas, guint button)
{
  return button == GDK_BUTTON_MIDDLE || (button == GDK_BUTTON_PRIMARY && canvas->input.space);
}

static void
drag_begin (GtkGestureDrag *gesture, double x, double y, PfCanvas *canvas)
{
  PfCanvasInput *input = &canvas->input;
  gtk_widget_grab_focus (GTK_WIDGET (canvas));
  input->button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  count_press (canvas, GTK_GESTURE (gesture), x, y);
  input->start = (PfPoint){ x, y };
  input->panned_x = input->panned_y = 0;
  if (is_pan (canvas, input->button))
    input->drag = PF_DRAG_PAN;
  else
    {
      const PfPointer pointer = make_pointer (canvas, GTK_EVENT_CONTROLLER (gesture), x, y);
      if (canvas->tool != NULL && input->button <= GDK_BUTTON_PRIMARY &&
          class_of (canvas)->press (canvas->tool, &pointer))
        input->drag = PF_DRAG_TOOL;
      else
        input->drag = input->button == GDK_BUTTON_SECONDARY ? PF_DRAG_NONE : PF_DRAG_PAN;
    }
  /* A finger that is claimed would be lost to those who wait for a second one. */
  if (input->drag != PF_DRAG_NONE && !is_finger (GTK_EVENT_CONTROLLER (gesture)))
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
drag_update (GtkGestureDrag *gesture, double x, double y, PfCanvas *canvas)
{
  PfCanvasInput *input = &canvas->input;
  const PfPoint at = { input->start.x + x, input->start.y + y };
  move_pointer (canvas, at.x, at.y);
  if (input->drag == PF_DRAG_PAN)
    {
      pf_canvas_view_pan (&canvas->view, x - input->panned_x, y - input->panned_y);
      input->panned_x = x;
      input->panned_y = y;
      pf_canvas_view_changed (canvas);
    }
  else if (input->drag == PF_DRAG_TOOL)
    {
      const PfPointer pointer = make_pointer (canvas, GTK_EVENT_CONTROLLER (gesture), at.x, at.y);
      class_of (canvas)->drag (canvas->tool, &pointer);
    }
  pf_canvas_update_cursor (canvas);
}

static void
drag_end (GtkGestureDrag *gesture, double x, double y, PfCanvas *canvas)
{
  const PfDragKind drag = canvas->input.drag;
  canvas->input.drag = PF_DRAG_NONE;
  if (drag == PF_DRAG_TOOL)
    {
      const PfPoint start = canvas->input.start;
      const PfPointer pointer =
          make_pointer (canvas, GTK_EVENT_CONTROLLER (gesture), start.x + x, start.y + y);
      class_of (canvas)->release (canvas->tool, &pointer);
    }
  pf_canvas_update_cursor (canvas);
}

static void
drag_cancel (GtkGesture *gesture G_GNUC_UNUSED, GdkEventSequence *sequence G_GNUC_UNUSED,
             PfCanvas *canvas)
{
  pf_canvas_cancel_drag (canvas);
  pf_canvas_update_cursor (canvas);
}

/* --- Hovering -----------------------------------------------------------------------------------
 */

static void
hover (PfCanvas *canvas, GtkEventController *controller)
{
  if (canvas->tool == NULL || canvas->input.drag != PF_DRAG_NONE || isnan (canvas->pointer.x))
    return;
  const PfPointer pointer = make_pointer (canvas, controller, canvas->pointer.x, canvas->pointer.y);
  class_of (canvas)->hover (canvas->tool, &pointer);
  pf_canvas_update_cursor (canvas);
}

static void
pointer_moved (GtkEventController *controller, double x, double y, PfCanvas *canvas)
{
  if (x == canvas->pointer.x && y == canvas->pointer.y)
    return;
  move_pointer (canvas, x, y);
  hover (canvas, controller);
}

static void
pointer_left (GtkEventController *controller G_GNUC_UNUSED, PfCanvas *canvas)
{
  move_pointer (canvas, NAN, NAN);
  if (canvas->tool != NULL && canvas->input.drag == PF_DRAG_NONE)
    class_of (canvas)->leave (canvas->tool);
}

/* --- Wheel and fingers --------------------------------------------------------------------------
 */

/* Where a zoom by the wheel holds the sheet: at the pointer. */
static PfPoint
zoom_at (PfCanvas *canvas)
{
  return isnan (canvas->pointer.x) ? pf_canvas_view_centre (&canvas->view) : canvas->pointer;
}

static gboolean
scrolled (GtkEventControllerScroll *controller, double dx, double dy, PfCanvas *canvas)
{
  const GdkModifierType state =
      gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  const bool wheel = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_WHEEL;
  if (state & GDK_CONTROL_MASK)
    {
      const double clicks = wheel ? dy : dy / WHEEL_PAN;
      pf_canvas_view_zoom_at (&canvas->view, zoom_at (canvas),
                              canvas->view.zoom * pow (WHEEL_ZOOM, -clicks));
    }
  else
    {
      const double times = wheel ? WHEEL_PAN : 1;
      const bool across = (state & GDK_SHIFT_MASK) && dx == 0;
      pf_canvas_view_pan (&canvas->view, -times * (across ? dy : dx), across ? 0 : -times * dy);
    }
  pf_canvas_view_changed (canvas);
  hover (canvas, GTK_EVENT_CONTROLLER (controller));
  return TRUE;
}

static PfPoint
between_fingers (GtkGesture *gesture, PfCanvas *canvas)
{
  PfPoint at = pf_canvas_view_centre (&canvas->view);
  if (gtk_gesture_is_active (gesture))
    gtk_gesture_get_bounding_box_center (gesture, &at.x, &at.y);
  return at;
}

static void
fingers_down (GtkGesture *gesture, GdkEventSequence *sequence G_GNUC_UNUSED, PfCanvas *canvas)
{
  pf_canvas_cancel_drag (canvas);
  canvas->input.first_zoom = canvas->view.zoom;
  canvas->input.first_turn = canvas->view.turn;
  canvas->input.turning = false;
  canvas->input.held = pf_canvas_view_to_sheet (&canvas->view, between_fingers (gesture, canvas));
}

/* The place that was between the fingers stays there. */
static void
hold_place (GtkGesture *gesture, PfCanvas *canvas)
{
  const PfPoint at = between_fingers (gesture, canvas);
  const PfPoint now = pf_canvas_view_to_screen (&canvas->view, canvas->input.held);
  pf_canvas_view_pan (&canvas->view, at.x - now.x, at.y - now.y);
  pf_canvas_view_changed (canvas);
}

static void
pinched (GtkGestureZoom *gesture, double scale, PfCanvas *canvas)
{
  const PfPoint at = between_fingers (GTK_GESTURE (gesture), canvas);
  pf_canvas_view_zoom_at (&canvas->view, at, canvas->input.first_zoom * scale);
  hold_place (GTK_GESTURE (gesture), canvas);
}

static void
rotated (GtkGestureRotate *gesture, double angle G_GNUC_UNUSED, double by, PfCanvas *canvas)
{
  const double degrees = by * 180 / G_PI;
  PfCanvasInput *input = &canvas->input;
  if (!input->turning && fabs (remainder (degrees, 360)) < TURN_BY_HAND)
    return;
  if (!input->turning)
    input->first_turn -= remainder (degrees, 360); /* goes on from where it is, without a jump */
  input->turning = true;
  const PfPoint at = between_fingers (GTK_GESTURE (gesture), canvas);
  pf_canvas_view_turn_at (&canvas->view, at, input->first_turn + degrees);
  hold_place (GTK_GESTURE (gesture), canvas);
}

/* --- Keyboard -----------------------------------------------------------------------------------
 */

static bool
pan_by_key (PfCanvas *canvas, guint keyval)
{
  double x = 0, y = 0;
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      x = KEY_PAN;
      break;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      x = -KEY_PAN;
      break;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      y = KEY_PAN;
      break;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      y = -KEY_PAN;
      break;
    default:
      return false;
    }
  pf_canvas_view_pan (&canvas->view, x, y);
  pf_canvas_view_changed (canvas);
  return true;
}

static gboolean
key_pressed (GtkEventController *controller G_GNUC_UNUSED, guint keyval, guint code G_GNUC_UNUSED,
             GdkModifierType state, PfCanvas *canvas)
{
  if (keyval == GDK_KEY_Escape && canvas->input.drag == PF_DRAG_TOOL)
    {
      pf_canvas_cancel_drag (canvas);
      return TRUE;
    }
  if (canvas->tool != NULL &&
      class_of (canvas)->key (canvas->tool, keyval, state, pf_canvas_view_pixel (&canvas->view)))
    return TRUE;
  if ((state & GDK_CONTROL_MASK) && pan_by_key (canvas, keyval))
    return TRUE;
  /* Arrows never leave the canvas: Tab does. */
  if (keyval >= GDK_KEY_Left && keyval <= GDK_KEY_Down && !(state & GDK_ALT_MASK))
    return TRUE;
  if (keyval != GDK_KEY_space)
    return FALSE;
  canvas->input.space = true;
  pf_canvas_update_cursor (canvas);
  return TRUE;
}

static void
key_released (GtkEventController *controller G_GNUC_UNUSED, guint keyval, guint code G_GNUC_UNUSED,
              GdkModifierType state G_GNUC_UNUSED, PfCanvas *canvas)
{
  if (keyval != GDK_KEY_space)
    return;
  canvas->input.space = false;
  pf_canvas_update_cursor (canvas);
}

static void
keyboard_left (GtkEventController *controller G_GNUC_UNUSED, PfCanvas *canvas)
{
  canvas->input.space = false;
  pf_canvas_update_cursor (canvas);
}

/* --- All of it ----------------------------------------------------------------------------------
 */

static void
add_two_fingers (PfCanvas *canvas)
{
  GtkGesture *zoom = gtk_gesture_zoom_new ();
  g_signal_connect (zoom, "begin", G_CALLBACK (fingers_down), canvas);
  g_signal_connect (zoom, "scale-changed", G_CALLBACK (pinched), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), GTK_EVENT_CONTROLLER (zoom));
  GtkGesture *rotate = gtk_gesture_rotate_new ();
  g_signal_connect (rotate, "angle-changed", G_CALLBACK (rotated), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), GTK_EVENT_CONTROLLER (rotate));
  gtk_gesture_group (rotate, zoom);
}

static void
add_keyboard (PfCanvas *canvas)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), canvas);
  g_signal_connect (key, "key-released", G_CALLBACK (key_released), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), key);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect (focus, "leave", G_CALLBACK (keyboard_left), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), focus);
}

void
pf_canvas_init_input (PfCanvas *canvas)
{
  GtkWidget *widget = GTK_WIDGET (canvas);
  GtkGesture *drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin), canvas);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update), canvas);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end), canvas);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_cancel), canvas);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect (motion, "enter", G_CALLBACK (pointer_moved), canvas);
  g_signal_connect (motion, "motion", G_CALLBACK (pointer_moved), canvas);
  g_signal_connect (motion, "leave", G_CALLBACK (pointer_left), canvas);
  gtk_widget_add_controller (widget, motion);
  GtkEventController *scroll =
      gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scrolled), canvas);
  gtk_widget_add_controller (widget, scroll);
  add_two_fingers (canvas);
  add_keyboard (canvas);
}
