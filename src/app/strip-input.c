/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pointer and keyboard on the edge strip: the same drags and keys as on the canvas. Only Tab leaves
 * the strip, and Left and Right walk it while nothing is selected.
 */
#include "strip-view-private.h"

#include <math.h>

#include "edge-work.h"
#include "pinhole-steps.h"
#include "sewing-walk.h"
#include "sewings-tool.h"

#define REACH 8.0     /* pixels */
#define LEAST_WAY 3.0 /* a shorter drag is a click */
#define WHEEL_ZOOM 1.2
#define WHEEL_PAN 60.0
#define FINE_STEP 0.1 /* mm */
#define COARSE_STEP 1.0
#define KEY_ZOOM 1.25

/* --- The pointer --------------------------------------------------------------------------------
 */

/* A sewing often lies on its pinhole: which of them is meant depends on the stage. */
static PfPick
find_pick (PfStripView *view, double x, double y)
{
  const double scale = pf_strip_view_scale (view), reach = REACH / scale;
  const PfPoint at = { x / scale, y / scale };
  const bool edge = pf_editor_stage (view->editor) == PF_STAGE_EDGE;
  PfEdgeStrip strip;
  if (!pf_strip_view_get_strip (view, &strip))
    return PF_PICK_NOTHING;
  const guint32 sewing = pf_edge_strip_find_sewing (&strip, at, reach);
  const guint32 pinhole = pf_edge_strip_find_pinhole (&strip, at, reach);
  PfPick pick = { .draft = (size_t) pf_editor_active (view->editor), .loop = view->loop };
  if (pinhole != PF_NONE && (edge || sewing == PF_NONE))
    {
      pick.kind = PF_PICK_PINHOLE;
      pick.index = pinhole;
    }
  else if (sewing != PF_NONE)
    {
      pick.kind = PF_PICK_SEWING;
      pick.index = sewing;
    }
  return pick;
}

static void
set_cursor (PfStripView *view, PfPick pick)
{
  gtk_widget_set_cursor_from_name (view->area, pf_edge_drag_active (&view->drag) ? "grabbing"
                                               : pick.kind != PF_PICK_NONE       ? "grab"
                                                                                 : NULL);
}

static void
drag_begin (GtkGestureDrag *gesture G_GNUC_UNUSED, double x, double y, PfStripView *view)
{
  const PfPick pick = find_pick (view, x, y);
  gtk_widget_grab_focus (view->teller);
  pf_editor_select (view->editor, pick);
  view->from = (PfPoint){ x, y };
  if (pick.kind != PF_PICK_NONE)
    pf_edge_drag_begin (&view->drag, view->editor, pick);
  set_cursor (view, pick);
}

static void
drag_update (GtkGestureDrag *gesture G_GNUC_UNUSED, double dx, double dy G_GNUC_UNUSED,
             PfStripView *view)
{
  const double scale = pf_strip_view_scale (view);
  const bool begun = pf_history_previewing (pf_editor_history (view->editor));
  PfEdgeStrip strip;
  if (!pf_edge_drag_active (&view->drag) || (!begun && fabs (dx) < LEAST_WAY) ||
      !pf_strip_view_get_strip (view, &strip))
    return;
  const double along = pf_edge_strip_along (&strip, (view->from.x + dx) / scale);
  pf_edge_drag_to (&view->drag, pf_edge_wrap (view->drag.motif, view->drag.loop, along),
                   REACH / (scale * view->zoom));
}

static void
drag_end (GtkGestureDrag *gesture G_GNUC_UNUSED, double dx G_GNUC_UNUSED, double dy G_GNUC_UNUSED,
          PfStripView *view)
{
  if (pf_edge_drag_active (&view->drag))
    pf_edge_drag_end (&view->drag);
  set_cursor (view, pf_editor_hovered (view->editor));
}

static void
cancel_drag (PfStripView *view)
{
  if (pf_edge_drag_active (&view->drag))
    pf_edge_drag_cancel (&view->drag);
}

static void
pointer_moved (GtkEventController *controller G_GNUC_UNUSED, double x, double y, PfStripView *view)
{
  if (pf_edge_drag_active (&view->drag))
    return;
  const PfPick pick = find_pick (view, x, y);
  pf_editor_hover (view->editor, pick);
  set_cursor (view, pick);
}

static void
pointer_left (GtkEventController *controller G_GNUC_UNUSED, PfStripView *view)
{
  pf_editor_hover (view->editor, PF_PICK_NOTHING);
}

static gboolean
scrolled (GtkEventControllerScroll *controller, double dx, double dy, PfStripView *view)
{
  const GdkModifierType state =
      gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  const bool wheel = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_WHEEL;
  if (state & GDK_CONTROL_MASK)
    {
      const double clicks = wheel ? dy : dy / WHEEL_PAN;
      double x = -1, y = -1;
      GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (controller));
      if (event == NULL || !gdk_event_get_position (event, &x, &y))
        x = -1;
      else
        gtk_widget_translate_coordinates (GTK_WIDGET (gtk_widget_get_native (view->area)),
                                          view->area, x, y, &x, &y);
      pf_strip_view_set_zoom (view, view->zoom * pow (WHEEL_ZOOM, -clicks), x);
      return TRUE;
    }
  const double by = (dx != 0 ? dx : dy) * (wheel ? WHEEL_PAN : 1);
  gtk_adjustment_set_value (view->scroll, gtk_adjustment_get_value (view->scroll) +
                                              by / (pf_strip_view_scale (view) * view->zoom));
  return TRUE;
}

/* --- The keyboard -------------------------------------------------------------------------------
 */

/* Sewings are walked in their own stage, else pinholes; of the loop that is shown. */
static bool
walk (PfStripView *view, int step)
{
  if (pf_editor_stage (view->editor) == PF_STAGE_SEWINGS)
    return pf_walk_go (view->editor, PF_WALK_SEWINGS, step, true);
  return view->motif != NULL && pf_pinhole_walk (view->editor, view->loop, step, true);
}

static bool
move (PfStripView *view, guint keyval, GdkModifierType state)
{
  const int step = keyval == GDK_KEY_Right ? 1 : -1;
  switch (pf_editor_selected (view->editor).kind)
    {
    case PF_PICK_PINHOLE:
      return pf_pinhole_nudge (view->editor,
                               step * (state & GDK_SHIFT_MASK ? COARSE_STEP : FINE_STEP));
    case PF_PICK_SEWING:
      return pf_sewing_key (view->editor, keyval);
    default:
      return walk (view, step);
    }
}

static bool
remove_or_reset (PfStripView *view)
{
  return pf_editor_selected (view->editor).kind == PF_PICK_PINHOLE
             ? pf_pinhole_remove (view->editor)
             : pf_sewing_key (view->editor, GDK_KEY_Delete);
}

static bool
walk_from_end (PfStripView *view, int step)
{
  pf_editor_select (view->editor, PF_PICK_NOTHING);
  return walk (view, step);
}

static bool
escape (PfStripView *view)
{
  if (!pf_edge_drag_active (&view->drag) && pf_editor_selected (view->editor).kind == PF_PICK_NONE)
    return false;
  if (pf_edge_drag_active (&view->drag))
    cancel_drag (view);
  else
    pf_editor_select (view->editor, PF_PICK_NOTHING);
  return true;
}

static gboolean
key_pressed (GtkEventController *controller G_GNUC_UNUSED, guint keyval, guint code G_GNUC_UNUSED,
             GdkModifierType state, PfStripView *view)
{
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return FALSE;
  switch (gdk_keyval_to_lower (keyval))
    {
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      return move (view, keyval, state);
    case GDK_KEY_n:
      return walk (view, 1);
    case GDK_KEY_p:
      return walk (view, -1);
    case GDK_KEY_Home:
      return walk_from_end (view, 1);
    case GDK_KEY_End:
      return walk_from_end (view, -1);
    case GDK_KEY_Delete:
    case GDK_KEY_BackSpace:
      return remove_or_reset (view);
    case GDK_KEY_Insert:
      return pf_pinhole_add_midway (view->editor);
    case GDK_KEY_Escape:
      return escape (view);
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      pf_strip_view_set_zoom (view, view->zoom * KEY_ZOOM, -1);
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      pf_strip_view_set_zoom (view, view->zoom / KEY_ZOOM, -1);
      return TRUE;
    default:
      return pf_sewing_key (view->editor, gdk_keyval_to_lower (keyval));
    }
}

/* --- All of it ----------------------------------------------------------------------------------
 */

static void
add_pointer (PfStripView *view)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll =
      gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin), view);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update), view);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end), view);
  g_signal_connect_swapped (drag, "cancel", G_CALLBACK (cancel_drag), view);
  g_signal_connect (motion, "motion", G_CALLBACK (pointer_moved), view);
  g_signal_connect (motion, "leave", G_CALLBACK (pointer_left), view);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scrolled), view);
  gtk_widget_add_controller (view->area, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (view->area, motion);
  gtk_widget_add_controller (view->area, scroll);
}

void
pf_strip_view_init_input (PfStripView *view)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  add_pointer (view);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), view);
  gtk_widget_add_controller (view->teller, key);
  g_signal_connect_object (focus, "enter", G_CALLBACK (gtk_widget_queue_draw), view->area,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (gtk_widget_queue_draw), view->area,
                           G_CONNECT_SWAPPED);
  gtk_widget_add_controller (view->teller, focus);
}
