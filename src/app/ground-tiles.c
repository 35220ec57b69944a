/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-tiles.h"

#include <graphene.h>

#include <glib/gi18n-lib.h>

#include "ground-tile.h"

#define HEIGHT 300 /* of what is seen of all tiles, at least */

struct _PfGroundTiles {
  GtkBox parent_instance;

  GPtrArray *tiles; /* of PfGroundTile, as they stand in the box */
  GtkFlowBox *box;
  GtkAdjustment *scroll;
  bool drawing; /* one of them */
  int chosen;   /* -1: none */
  int current;  /* had the keyboard last; -1: none */
  guint scroll_tick;
};

G_DEFINE_FINAL_TYPE (PfGroundTiles, pf_ground_tiles, GTK_TYPE_BOX)

enum { CHOSEN, ABOUT, LEFT_UPWARDS, N_SIGNALS };
static guint signals[N_SIGNALS];

static PfGroundTile *
tile_at (PfGroundTiles *tiles, int n)
{
  return g_ptr_array_index (tiles->tiles, (guint) n);
}

static PfGround *
ground_at (PfGroundTiles *tiles, int n)
{
  return pf_ground_tile_ground (tile_at (tiles, n));
}

static int
n_tiles (PfGroundTiles *tiles)
{
  return (int) tiles->tiles->len;
}

static bool
is_shown (PfGroundTiles *tiles, int n)
{
  return n >= 0 && gtk_widget_get_visible (GTK_WIDGET (tile_at (tiles, n)));
}

/* --- Pictures -----------------------------------------------------------------------------------
 */

/* From the top of all tiles, pixels. */
static bool
find_rows (PfGroundTiles *tiles, int n, double *top, double *bottom)
{
  graphene_rect_t bounds;
  if (!gtk_widget_compute_bounds (GTK_WIDGET (tile_at (tiles, n)), GTK_WIDGET (tiles->box),
                                  &bounds))
    return false;
  *top = bounds.origin.y;
  *bottom = bounds.origin.y + bounds.size.height;
  return true;
}

static bool
is_in_view (PfGroundTiles *tiles, int n)
{
  const double from = gtk_adjustment_get_value (tiles->scroll);
  const double to = from + gtk_adjustment_get_page_size (tiles->scroll);
  double top, bottom;
  return find_rows (tiles, n, &top, &bottom) && bottom > from && top < to;
}

static bool
lacks_picture (PfGroundTiles *tiles, int n)
{
  return is_shown (tiles, n) && pf_ground_tile_lacks_picture (tile_at (tiles, n));
}

/* -1: none lacks one. */
static int
next_to_draw (PfGroundTiles *tiles)
{
  int next = -1;
  for (int n = n_tiles (tiles) - 1; n >= 0; n--)
    if (lacks_picture (tiles, n))
      next = n;
  for (int n = next; n >= 0 && n < n_tiles (tiles); n++)
    if (lacks_picture (tiles, n) && is_in_view (tiles, n))
      return n;
  return next;
}

static void
draw_next (PfGroundTiles *tiles)
{
  if (tiles->drawing || !gtk_widget_get_mapped (GTK_WIDGET (tiles)))
    return;
  const int n = next_to_draw (tiles);
  if (n < 0)
    return;
  tiles->drawing = true;
  pf_ground_tile_draw (tile_at (tiles, n));
}

static void
drawn (PfGroundTiles *tiles)
{
  tiles->drawing = false;
  draw_next (tiles);
}

void
pf_ground_tiles_show_threads (PfGroundTiles *tiles, bool threads)
{
  for (int n = 0; n < n_tiles (tiles); n++)
    pf_ground_tile_show (tile_at (tiles, n),
                         threads ? PF_GROUND_TILE_THREADS : PF_GROUND_TILE_DRAWING);
  draw_next (tiles);
}

/* --- Which ones ---------------------------------------------------------------------------------
 */

/* Once it has a place. */
static gboolean
scroll_to_chosen (GtkWidget *widget, GdkFrameClock *clock G_GNUC_UNUSED,
                  gpointer data G_GNUC_UNUSED)
{
  PfGroundTiles *tiles = PF_GROUND_TILES (widget);
  double top, bottom;
  tiles->scroll_tick = 0;
  if (is_shown (tiles, tiles->chosen) && find_rows (tiles, tiles->chosen, &top, &bottom))
    gtk_adjustment_clamp_page (tiles->scroll, top, bottom);
  return G_SOURCE_REMOVE;
}

static void
scroll_soon (PfGroundTiles *tiles)
{
  if (tiles->scroll_tick == 0)
    tiles->scroll_tick =
        gtk_widget_add_tick_callback (GTK_WIDGET (tiles), scroll_to_chosen, NULL, NULL);
}

void
pf_ground_tiles_set_chosen (PfGroundTiles *tiles, const char *name)
{
  const int before = tiles->chosen;
  tiles->chosen = -1;
  for (int n = 0; n < n_tiles (tiles); n++)
    {
      const bool is_it = g_strcmp0 (ground_at (tiles, n)->name, name) == 0;
      if (is_it)
        tiles->chosen = n;
      pf_ground_tile_set_chosen (tile_at (tiles, n), is_it);
    }
  if (tiles->chosen != before)
    scroll_soon (tiles);
}

guint
pf_ground_tiles_search (PfGroundTiles *tiles, PfGroundSearch search)
{
  guint n_found = 0;
  for (int n = 0; n < n_tiles (tiles); n++)
    {
      const bool found = pf_ground_search_finds (search, ground_at (tiles, n));
      gtk_widget_set_visible (GTK_WIDGET (tile_at (tiles, n)), found);
      n_found += found;
    }
  gtk_adjustment_set_value (tiles->scroll, 0);
  scroll_soon (tiles);
  draw_next (tiles);
  return n_found;
}

static int
first_shown (PfGroundTiles *tiles)
{
  for (int n = 0; n < n_tiles (tiles); n++)
    if (is_shown (tiles, n))
      return n;
  return -1;
}

static int
current (PfGroundTiles *tiles)
{
  return is_shown (tiles, tiles->current)  ? tiles->current
         : is_shown (tiles, tiles->chosen) ? tiles->chosen
                                           : first_shown (tiles);
}

const PfGround *
pf_ground_tiles_current (PfGroundTiles *tiles)
{
  const int n = current (tiles);
  return n >= 0 ? ground_at (tiles, n) : NULL;
}

GPtrArray *
pf_ground_tiles_shown (PfGroundTiles *tiles)
{
  GPtrArray *shown = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_ground_free);
  for (int n = 0; n < n_tiles (tiles); n++)
    if (is_shown (tiles, n))
      g_ptr_array_add (shown, pf_ground_ref (ground_at (tiles, n)));
  return shown;
}

/* --- What the maker does ------------------------------------------------------------------------
 */

static void
choose (PfGroundTiles *tiles, int n)
{
  if (n >= 0 && n != tiles->chosen)
    g_signal_emit (tiles, signals[CHOSEN], 0, ground_at (tiles, n)->name);
}

static void
activated (PfGroundTiles *tiles, GtkFlowBoxChild *child)
{
  choose (tiles, gtk_flow_box_child_get_index (child));
}

void
pf_ground_tiles_choose_first (PfGroundTiles *tiles)
{
  choose (tiles, first_shown (tiles));
}

/* As Tab would: arrow keys then go on from there, which they don't after grabbing the focus. */
static bool
focus_tile (PfGroundTiles *tiles, int n)
{
  return n >= 0 && gtk_widget_child_focus (GTK_WIDGET (tile_at (tiles, n)), GTK_DIR_TAB_FORWARD);
}

void
pf_ground_tiles_focus_first (PfGroundTiles *tiles)
{
  focus_tile (tiles, first_shown (tiles));
}

static void
tell_about (PfGroundTiles *tiles, GtkWidget *child)
{
  const int n = gtk_flow_box_child_get_index (GTK_FLOW_BOX_CHILD (child));
  g_signal_emit (tiles, signals[ABOUT], 0, ground_at (tiles, n)->name);
}

static bool
is_in_first_row (PfGroundTiles *tiles, GtkWidget *child)
{
  double top, first_top, bottom;
  return find_rows (tiles, gtk_flow_box_child_get_index (GTK_FLOW_BOX_CHILD (child)), &top,
                    &bottom) &&
         find_rows (tiles, first_shown (tiles), &first_top, &bottom) && top <= first_top;
}

static bool
asks_about (guint keyval, GdkModifierType state)
{
  return keyval == GDK_KEY_space || keyval == GDK_KEY_KP_Space || keyval == GDK_KEY_Menu ||
         (keyval == GDK_KEY_F10 && (state & GDK_SHIFT_MASK) != 0);
}

static gboolean
key_pressed (PfGroundTiles *tiles, guint keyval, guint keycode G_GNUC_UNUSED, GdkModifierType state)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (tiles->box));
  const bool up = keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up;
  if (child == NULL || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (up && is_in_first_row (tiles, child))
    g_signal_emit (tiles, signals[LEFT_UPWARDS], 0);
  else if (asks_about (keyval, state))
    tell_about (tiles, child);
  else
    return FALSE;
  return TRUE;
}

/* A double click, or one with the secondary button. */
static void
pressed (PfGroundTiles *tiles, int n_press, double x, double y, GtkGestureSingle *gesture)
{
  const guint button = gtk_gesture_single_get_current_button (gesture);
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_pos (tiles->box, (int) x, (int) y);
  if (child != NULL &&
      (button == GDK_BUTTON_SECONDARY ? n_press == 1
                                      : button == GDK_BUTTON_PRIMARY && n_press == 2))
    tell_about (tiles, GTK_WIDGET (child));
}

static void
entered (GtkEventController *controller, PfGroundTiles *tiles)
{
  GtkWidget *child = gtk_event_controller_get_widget (controller);
  tiles->current = gtk_flow_box_child_get_index (GTK_FLOW_BOX_CHILD (child));
}

/* One stop for Tab, at the current ground: arrow keys go from one to the next. */
static gboolean
pf_ground_tiles_focus (GtkWidget *widget, GtkDirectionType direction)
{
  PfGroundTiles *tiles = PF_GROUND_TILES (widget);
  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (pf_ground_tiles_parent_class)->focus (widget, direction);
  if (gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;
  return focus_tile (tiles, current (tiles));
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static void
add_tile (PfGroundTiles *tiles, PfGround *ground)
{
  GtkWidget *tile = pf_ground_tile_new (ground);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect (focus, "enter", G_CALLBACK (entered), tiles);
  gtk_widget_add_controller (tile, focus);
  g_signal_connect_object (tile, "drawn", G_CALLBACK (drawn), tiles, G_CONNECT_SWAPPED);
  g_signal_connect_object (tile, "notify::scale-factor", G_CALLBACK (draw_next), tiles,
                           G_CONNECT_SWAPPED);
  gtk_flow_box_append (tiles->box, tile);
  g_ptr_array_add (tiles->tiles, tile);
}

static void
pf_ground_tiles_map (GtkWidget *widget)
{
  PfGroundTiles *tiles = PF_GROUND_TILES (widget);
  GTK_WIDGET_CLASS (pf_ground_tiles_parent_class)->map (widget);
  scroll_soon (tiles);
  draw_next (tiles);
}

static void
pf_ground_tiles_finalize (GObject *object)
{
  g_ptr_array_unref (PF_GROUND_TILES (object)->tiles);
  G_OBJECT_CLASS (pf_ground_tiles_parent_class)->finalize (object);
}

static void
pf_ground_tiles_class_init (PfGroundTilesClass *class)
{
  const GType type = PF_TYPE_GROUND_TILES;
  G_OBJECT_CLASS (class)->finalize = pf_ground_tiles_finalize;
  GTK_WIDGET_CLASS (class)->map = pf_ground_tiles_map;
  GTK_WIDGET_CLASS (class)->focus = pf_ground_tiles_focus;
  signals[CHOSEN] = g_signal_new ("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[ABOUT] = g_signal_new ("about", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                 1, G_TYPE_STRING);
  signals[LEFT_UPWARDS] =
      g_signal_new ("left-upwards", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
listen (PfGroundTiles *tiles)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkGesture *click = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), 0);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), tiles);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (pressed), tiles);
  gtk_widget_add_controller (GTK_WIDGET (tiles->box), keys);
  gtk_widget_add_controller (GTK_WIDGET (tiles->box), GTK_EVENT_CONTROLLER (click));
  g_signal_connect_swapped (tiles->box, "child-activated", G_CALLBACK (activated), tiles);
}

static void
pf_ground_tiles_init (PfGroundTiles *tiles)
{
  tiles->tiles = g_ptr_array_new ();
  tiles->chosen = tiles->current = -1;
  tiles->box = GTK_FLOW_BOX (gtk_flow_box_new ());
  gtk_flow_box_set_selection_mode (tiles->box, GTK_SELECTION_NONE);
  gtk_flow_box_set_min_children_per_line (tiles->box, 3);
  gtk_flow_box_set_max_children_per_line (tiles->box, 3);
  gtk_widget_set_valign (GTK_WIDGET (tiles->box), GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (tiles->box), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Grounds"), -1);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (tiles->box));
  gtk_widget_set_hexpand (scroller, TRUE);
  tiles->scroll = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  g_signal_connect_object (tiles->scroll, "value-changed", G_CALLBACK (draw_next), tiles,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (tiles), scroller);
  listen (tiles);
}

GtkWidget *
pf_ground_tiles_new (GPtrArray *grounds)
{
  PfGroundTiles *tiles = g_object_new (PF_TYPE_GROUND_TILES, NULL);
  for (guint n = 0; n < grounds->len; n++)
    add_tile (tiles, g_ptr_array_index (grounds, n));
  return GTK_WIDGET (tiles);
}
