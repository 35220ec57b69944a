/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The gallery of the stage "Ground", and the page of a ground, on a screen: by keyboard, as a hand
 * would.
 */
#include <locale.h>

#include <ground-finder.h>
#include <ground-gallery.h>
#include <ground-page.h>
#include <ground-tile.h>
#include <ground-tiles.h>
#include <panel.h>
#include <resources.h>
#include <string.h>

#include "motif-samples.h"
#include "widget-hands.h"

typedef struct {
  PfEditor *editor;
  PfDocument *before;
  GtkWidget *canvas, *panel, *window;
  GtkWidget *gallery, *finder, *words, *tiles, *box;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  f->editor = sample_editor (sample_rectangle (40, 30, "armure"));
  motif_of (f->editor);
  f->canvas = g_object_ref_sink (pf_canvas_new (f->editor));
  f->panel = pf_ground_panel_new (f->editor, PF_CANVAS (f->canvas));
  f->window = show_widget (f->panel, 360, 900);
  f->before = pf_document_ref (pf_editor_document (f->editor));
  f->gallery = template_child (f->panel, "gallery");
  f->finder = find_widget (f->gallery, PF_TYPE_GROUND_FINDER);
  f->words = find_widget (f->finder, GTK_TYPE_SEARCH_ENTRY);
  f->tiles = find_widget (f->gallery, PF_TYPE_GROUND_TILES);
  f->box = find_widget (f->tiles, GTK_TYPE_FLOW_BOX);
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  g_clear_object (&f->canvas);
  settle ();
  g_clear_object (&f->editor);
  g_clear_pointer (&f->before, pf_document_unref);
}

/* --- Hands and eyes -----------------------------------------------------------------------------
 */

static void
type (Fixture *f, const char *words)
{
  gtk_editable_set_text (GTK_EDITABLE (f->words), words);
  settle ();
}

/* The names of the grounds shown, in their order. */
static char *
shown (Fixture *f)
{
  g_autoptr (GPtrArray) grounds = pf_ground_tiles_shown (PF_GROUND_TILES (f->tiles));
  g_autoptr (GString) names = g_string_new (NULL);
  for (guint n = 0; n < grounds->len; n++)
    g_string_append_printf (names, "%s%s", n > 0 ? " " : "",
                            ((PfGround *) g_ptr_array_index (grounds, n))->name);
  return g_string_free (g_steal_pointer (&names), FALSE);
}

static void
assert_shown (Fixture *f, const char *names)
{
  g_autofree char *now = shown (f);
  g_assert_cmpstr (now, ==, names);
}

/* A button with that label or tooltip. */
static GtkWidget *
button (GtkWidget *widget, const char *words)
{
  if (GTK_IS_BUTTON (widget) &&
      (g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), words) == 0 ||
       g_strcmp0 (gtk_widget_get_tooltip_text (widget), words) == 0))
    return widget;
  GtkWidget *found = NULL;
  for (GtkWidget *c = gtk_widget_get_first_child (widget); c != NULL && found == NULL;
       c = gtk_widget_get_next_sibling (c))
    found = button (c, words);
  return found;
}

static bool
has_label (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget) &&
      strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return true;
  for (GtkWidget *c = gtk_widget_get_first_child (widget); c != NULL;
       c = gtk_widget_get_next_sibling (c))
    if (has_label (c, text))
      return true;
  return false;
}

/* The ground that has the keyboard. */
static const char *
focused (Fixture *f)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  return PF_IS_GROUND_TILE (focus) ? pf_ground_tile_ground (PF_GROUND_TILE (focus))->name : NULL;
}

/* The window with a page; NULL. */
static GtkWidget *
page_window (void)
{
  GListModel *windows = gtk_window_get_toplevels ();
  for (guint w = 0; w < g_list_model_get_n_items (windows); w++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, w);
      if (find_widget (window, PF_TYPE_GROUND_PAGE) != NULL && gtk_widget_get_visible (window))
        return window; /* GTK keeps it */
    }
  return NULL;
}

static void
assert_name (GtkWidget *widget, const char *name)
{
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       name);
}

static const char *
ground_name (Fixture *f)
{
  return pf_editor_draft (f->editor)->ground->name;
}

/* --- The gallery --------------------------------------------------------------------------------
 */

static GtkDropDown *
choice (Fixture *f, int n)
{
  GtkWidget *row = gtk_widget_get_last_child (f->finder);
  GtkWidget *first = gtk_widget_get_first_child (row);
  return GTK_DROP_DOWN (n == 0 ? first : gtk_widget_get_next_sibling (first));
}

static void
test_names (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  assert_name (f->words, "Find a ground by name or family");
  assert_name (f->box, "Grounds");
  assert_name (gtk_widget_get_first_child (GTK_WIDGET (choice (f, 0))),
               "Pairs in a repeat: Any pairs");
  assert_name (gtk_widget_get_first_child (GTK_WIDGET (choice (f, 1))), "Family: All families");
  GtkWidget *tile = find_widget (f->box, PF_TYPE_GROUND_TILE);
  assert_name (tile, pf_ground_tile_ground (PF_GROUND_TILE (tile))->title);
  g_assert_nonnull (button (f->gallery, "About this groun_d…"));
}

/* The tile of the motif's ground is marked; the first stands first by family. */
static void
test_order (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *all = shown (f);
  g_assert_true (g_str_has_prefix (all, "armure "));
  g_assert_cmpint (strstr (all, " rose ") - all, <, strstr (all, " torchon ") - all);
  g_assert_true (gtk_widget_has_css_class (find_widget (f->box, PF_TYPE_GROUND_TILE), "chosen"));
  g_assert_cmpstr (pf_ground_tiles_current (PF_GROUND_TILES (f->tiles))->name, ==, "armure");
}

static void
test_search (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  type (f, "FLÁNDERS five");
  assert_shown (f, "five-hole five-hole-double");
  g_assert_true (has_label (f->gallery, "2 of "));
  gtk_drop_down_set_selected (choice (f, 0), 1); /* 2 pairs: the least */
  settle ();
  assert_shown (f, "");
  g_assert_true (has_label (f->gallery, "No ground is like that"));
  g_assert_false (gtk_widget_get_sensitive (button (f->gallery, "About this groun_d…")));
  click (button (f->gallery, "_Show all grounds"));
  g_autofree char *all = shown (f);
  g_assert_cmpuint (strlen (all), >, 300);
  g_assert_false (has_label (f->gallery, "No ground is like that"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (f->words)), ==, "");
  g_assert_cmpuint (gtk_drop_down_get_selected (choice (f, 0)), ==, 0);
  g_assert_true (pf_editor_document (f->editor) == f->before);
}

/* Down and Up go between the words and the tiles, arrow keys on from there; Return takes one. */
static void
test_keys (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  type (f, "valenciennes square");
  g_assert_true (press_key (f->words, GDK_KEY_Down, 0));
  g_assert_cmpstr (focused (f), ==, "valenciennes-square");
  gboolean moved = FALSE;
  g_signal_emit_by_name (f->box, "move-cursor", GTK_MOVEMENT_VISUAL_POSITIONS, 1, FALSE, FALSE,
                         &moved);
  g_assert_cmpstr (focused (f), ==, "valenciennes-square-eight");
  GtkWidget *tile = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_signal_emit_by_name (tile, "activate");
  settle ();
  g_assert_cmpstr (ground_name (f), ==, "valenciennes-square-eight");
  g_assert_cmpint (count_changes (f->editor), ==, 1);
  g_signal_emit_by_name (tile, "activate"); /* it is the chosen one now */
  settle ();
  g_assert_cmpint (count_changes (f->editor), ==, 1);
  g_assert_true (press_key (f->box, GDK_KEY_Up, 0));
  g_assert_true (gtk_widget_get_focus_child (f->finder) != NULL);
}

/* Letters typed on a tile go on with the search; what else is pressed there doesn't. */
static void
test_typing (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  type (f, "spider 1");
  press_key (f->words, GDK_KEY_Down, 0);
  g_assert_false (press_key (f->tiles, GDK_KEY_Return, 0));
  g_assert_false (press_key (f->tiles, GDK_KEY_6, GDK_CONTROL_MASK));
  g_assert_false (press_key (f->tiles, GDK_KEY_Left, 0));
  g_assert_false (press_key (f->tiles, GDK_KEY_BackSpace, 0));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (f->words)), ==, "spider 1");
  g_assert_true (press_key (f->tiles, GDK_KEY_6, 0));
  assert_shown (f, "spider-16");
  g_assert_true (gtk_widget_get_focus_child (f->finder) != NULL);
  g_assert_cmpint (gtk_editable_get_position (GTK_EDITABLE (f->words)), ==, 9);
  g_assert_true (press_key (f->words, GDK_KEY_Down, 0));
  press_key (f->tiles, GDK_KEY_z, 0); /* its tile is gone, and the keyboard in the words */
  assert_shown (f, "");
  g_assert_true (gtk_widget_get_focus_child (f->finder) != NULL);
}

static void
test_return (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_signal_emit_by_name (f->words, "activate"); /* nothing is searched for */
  g_assert_cmpstr (ground_name (f), ==, "armure");
  type (f, "fond simple");
  g_signal_emit_by_name (f->words, "activate");
  settle ();
  g_assert_cmpstr (ground_name (f), ==, "point-net");
  g_signal_emit_by_name (f->words, "stop-search");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (f->words)), ==, "");
}

/* --- Pictures -----------------------------------------------------------------------------------
 */

static GdkPaintable *
picture_of (GtkWidget *tile)
{
  return gtk_image_get_paintable (GTK_IMAGE (find_widget (tile, GTK_TYPE_IMAGE)));
}

static bool
all_drawn (GtkWidget *box)
{
  for (GtkWidget *tile = gtk_widget_get_first_child (box); tile != NULL;
       tile = gtk_widget_get_next_sibling (tile))
    if (picture_of (tile) == NULL)
      return false;
  return true;
}

static int
count_dark (GdkPaintable *paintable)
{
  GdkTexture *texture = GDK_TEXTURE (paintable);
  const int width = gdk_texture_get_width (texture), height = gdk_texture_get_height (texture);
  g_autofree guint32 *pixels = g_new (guint32, width * height);
  int dark = 0;
  gdk_texture_download (texture, (guchar *) pixels, (gsize) width * sizeof *pixels);
  for (int p = 0; p < width * height; p++)
    dark += (pixels[p] & 0xff) < 0xa0;
  return dark;
}

/* Both kinds are drawn, and are not the same. */
static void
test_pictures (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  while (!all_drawn (f->box))
    g_main_context_iteration (NULL, TRUE);
  GtkWidget *tile = find_widget (f->box, PF_TYPE_GROUND_TILE);
  g_autoptr (GdkPaintable) drawing = g_object_ref (picture_of (tile));
  g_assert_cmpint (count_dark (drawing), >, 100);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button (f->gallery, "Threads")), TRUE);
  g_assert_true (picture_of (tile) != drawing);
  while (!all_drawn (f->box))
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpint (count_dark (picture_of (tile)), >, 50);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button (f->gallery, "Drawings")), TRUE);
  g_assert_true (picture_of (tile) == drawing);
}

/* --- The page -----------------------------------------------------------------------------------
 */

static GtkWidget *
open_page (Fixture *f, const char *words, guint key)
{
  type (f, words);
  g_assert_true (press_key (f->words, GDK_KEY_Down, 0));
  g_assert_null (page_window ());
  g_assert_true (press_key (f->box, key, 0));
  GtkWidget *window = page_window ();
  g_assert_nonnull (window);
  settle ();
  return window;
}

static void
assert_selectable (GtkWidget *page, const char *text)
{
  g_test_message ("“%s”", text);
  for (GtkWidget *c = gtk_widget_get_first_child (page); c != NULL;
       c = gtk_widget_get_next_sibling (c))
    if (has_label (c, text))
      {
        if (!GTK_IS_LABEL (c))
          assert_selectable (c, text);
        else
          g_assert_true (gtk_label_get_selectable (GTK_LABEL (c)));
        return;
      }
  g_assert_not_reached ();
}

/* What data/grounds/torchon.json says, and two pairs as everybody works it (common practice). */
static void
test_page_words (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *page =
      find_widget (open_page (f, "torchon ground", GDK_KEY_space), PF_TYPE_GROUND_PAGE);
  /* The first found is the one with tallies. */
  assert_selectable (page, "Torchon ground with tallies");
  gtk_window_destroy (GTK_WINDOW (page_window ()));
  g_assert_cmpstr (focused (f), ==, "torchon-tallies");

  gtk_drop_down_set_selected (choice (f, 0), 1);
  type (f, "torchon ground");
  GtkWidget *window = open_page (f, "torchon ground", GDK_KEY_Menu);
  page = find_widget (window, PF_TYPE_GROUND_PAGE);
  for (int step = 0; step < 9 && !has_label (page, "3.59 mm for No. 60"); step++)
    click (button (window, "Next ground (Alt+Right)"));
  assert_selectable (page, "Torchon ground");
  assert_selectable (page, "Half stitch, pin, half stitch");
  assert_selectable (page, "2 pairs, 4 threads, 1 stitch, 1 pin");
  assert_selectable (page, "Encyclopedia of Needlework");
  assert_selectable (page, "1. ");
  g_assert_false (has_label (page, "Also called"));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_page_pictures (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *window = open_page (f, "armure", GDK_KEY_space);
  GtkWidget *page = find_widget (window, PF_TYPE_GROUND_PAGE);
  GtkWidget *first = find_widget (page, GTK_TYPE_PICTURE);
  GtkWidget *second =
      find_widget (gtk_widget_get_next_sibling (gtk_widget_get_parent (first)), GTK_TYPE_PICTURE);
  GtkPicture *pictures[] = { GTK_PICTURE (first), GTK_PICTURE (second) };
  for (gsize p = 0; p < G_N_ELEMENTS (pictures); p++)
    {
      while (!GDK_IS_TEXTURE (gtk_picture_get_paintable (pictures[p])))
        g_main_context_iteration (NULL, TRUE);
      g_assert_cmpint (count_dark (gtk_picture_get_paintable (pictures[p])), >, 1000);
      const char *words = gtk_picture_get_alternative_text (pictures[p]);
      g_assert_nonnull (strstr (words, "Eight-thread armure"));
    }
  g_assert_nonnull (strstr (gtk_picture_get_alternative_text (pictures[0]),
                            "4 pairs, 8 threads, 7 stitches, 4 pins"));
  g_assert_true (has_label (page, "A bead can sit at “centre”."));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Closed while its pictures are still being drawn. */
static void
test_page_closed (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  type (f, "spider 16");
  press_key (f->words, GDK_KEY_Down, 0);
  press_key (f->box, GDK_KEY_space, 0);
  gtk_window_destroy (GTK_WINDOW (page_window ()));
  settle ();
  g_assert_null (page_window ());
}

static void
test_page_use (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  type (f, "flanders");
  click (button (f->gallery, "About this groun_d…"));
  GtkWidget *window = page_window ();
  GtkWidget *before = button (window, "Ground before (Alt+Left)");
  GtkWidget *after = button (window, "Next ground (Alt+Right)");
  g_assert_true (has_label (window, "1 of 2"));
  g_assert_false (gtk_widget_get_sensitive (before));
  click (after);
  g_assert_true (has_label (window, "Five-hole ground in double stitch"));
  g_assert_false (gtk_widget_get_sensitive (after));
  click (before);
  g_assert_true (has_label (window, "1 of 2"));
  click (after);
  click (button (window, "_Use this ground"));
  g_assert_null (page_window ());
  g_assert_cmpstr (ground_name (f), ==, "five-hole-double");
  g_assert_cmpint (count_changes (f->editor), ==, 1);
}

/* --- Beads --------------------------------------------------------------------------------------
 */

static void
test_bead_room (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkLabel *room = GTK_LABEL (template_child (f->panel, "bead_room"));
  /* See bead-room-test: 5 mm / √2 - 5 mm · √2 / 10 = 2.83 mm. */
  g_assert_nonnull (strstr (gtk_label_get_text (room), "about 2.8 mm "));
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (template_child (f->panel, "gap")), 10);
  settle ();
  g_assert_nonnull (strstr (gtk_label_get_text (room), "about 5.6 mm "));
  type (f, "point net");
  g_signal_emit_by_name (f->words, "activate");
  settle ();
  g_assert_nonnull (strstr (gtk_label_get_text (room), "no place for a bead"));
}

#define ADD(name, test) g_test_add ("/ground-gallery/" name, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  setlocale (LC_ALL, "C.UTF-8");
  pf_use_resources ();
  ADD ("names", test_names);
  ADD ("order", test_order);
  ADD ("search", test_search);
  ADD ("keys", test_keys);
  ADD ("typing", test_typing);
  ADD ("return", test_return);
  ADD ("pictures", test_pictures);
  ADD ("page/words", test_page_words);
  ADD ("page/pictures", test_page_pictures);
  ADD ("page/closed", test_page_closed);
  ADD ("page/use", test_page_use);
  ADD ("bead-room", test_bead_room);
  return g_test_run ();
}
