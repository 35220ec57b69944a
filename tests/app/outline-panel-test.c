/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The outline panel on a screen: what is typed and pressed in it changes the document, and looking
 * at it changes nothing.
 */
#include <locale.h>
#include <math.h>

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>

#include <outline-edit.h>
#include <outline-panel.h>
#include <outline-tool.h>
#include <pen-tool.h>
#include <resources.h>
#include <scan-picture.h>

#include "widget-hands.h"

typedef struct {
  PfEditor *editor;
  GtkWidget *canvas, *panel, *window;
} Desk;

/* What an expander holds is there only once it is open. */
static void
open_all (GtkWidget *widget)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    open_all (child);
}

/* The canvas stands beside the panel, as in the program's window. */
static Desk
desk_new (void)
{
  g_autoptr (PfDocument) document = pf_document_new ();
  Desk desk = { .editor = pf_editor_new (document) };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  desk.canvas = pf_canvas_new (desk.editor);
  desk.panel = pf_outline_panel_new (desk.editor, PF_CANVAS (desk.canvas));
  gtk_widget_set_hexpand (desk.canvas, TRUE);
  gtk_box_append (GTK_BOX (box), desk.canvas);
  gtk_box_append (GTK_BOX (box), desk.panel);
  desk.window = show_widget (box, 1000, 800);
  open_all (desk.panel);
  settle ();
  return desk;
}

static Desk
desk_with_square (void)
{
  Desk desk = desk_new ();
  const PfBox box = { { 20, 20 }, { 60, 60 } };
  pf_outline_add_motif (desk.editor, pf_curve_new_rectangle (box), "Draw");
  settle ();
  return desk;
}

static void
desk_free (Desk *desk)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  settle ();
  g_assert_finalize_object (desk->editor);
}

static GtkWidget *
part (Desk *desk, const char *id)
{
  return template_child (desk->panel, id);
}

static void
type_number (Desk *desk, const char *id, const char *text)
{
  GtkWidget *spin = part (desk, id);
  gtk_editable_set_text (GTK_EDITABLE (spin), text);
  gtk_spin_button_update (GTK_SPIN_BUTTON (spin));
  settle ();
}

static double
number (Desk *desk, const char *id)
{
  return gtk_spin_button_get_value (GTK_SPIN_BUTTON (part (desk, id)));
}

static void
set_toggle (Desk *desk, const char *id)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (part (desk, id)), TRUE);
  settle ();
}

static GtkWidget *
button_called (GtkWidget *widget, const char *label)
{
  if (GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = button_called (child, label);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
press (Desk *desk, const char *label)
{
  GtkWidget *button = button_called (desk->panel, label);
  g_test_message ("press “%s”", label);
  g_assert_nonnull (button);
  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  settle ();
}

static const PfCurve *
curve (Desk *desk)
{
  return pf_editor_draft (desk->editor)->curves[0];
}

static PfBox
box_of (Desk *desk)
{
  PfBox box;
  g_assert_true (pf_outline_box (pf_editor_draft (desk->editor), &box));
  return box;
}

static PfOutlineTool *
chooser (Desk *desk)
{
  return PF_OUTLINE_TOOL (pf_panel_tool (PF_PANEL (desk->panel)));
}

static void
draws_by_numbers (void)
{
  static const char *const places[][2] = { { "10", "10" }, { "50", "10" }, { "50", "40" } };
  Desk desk = desk_new ();
  for (size_t n = 0; n < G_N_ELEMENTS (places); n++)
    {
      type_number (&desk, "add_x", places[n][0]);
      type_number (&desk, "add_y", places[n][1]);
      press (&desk, "_Draw a node at x, y");
    }
  g_assert_true (PF_IS_PEN_TOOL (pf_panel_tool (PF_PANEL (desk.panel))));
  g_assert_cmpuint (curve (&desk)->n_nodes, ==, 3);
  g_assert_false (curve (&desk)->closed);
  /* Being drawn is no trouble. */
  g_assert_false (gtk_widget_get_visible (part (&desk, "trouble_label")));
  press (&desk, "C_lose it");
  g_assert_true (curve (&desk)->closed);
  g_assert_true (PF_IS_OUTLINE_TOOL (pf_panel_tool (PF_PANEL (desk.panel))));
  g_assert_cmpfloat_with_epsilon (pf_region_area (pf_editor_motif (desk.editor, 0)->region),
                                  40 * 30 / 2.0, 1e-9);
  desk_free (&desk);
}

static void
tells_what_is_wrong (void)
{
  Desk desk = desk_new ();
  const PfPoint bow[] = { { 10, 10 }, { 50, 50 }, { 50, 10 }, { 10, 50 } };
  pf_outline_add_motif (desk.editor, pf_curve_new_straight (bow, 4, true), "Draw");
  settle ();
  g_assert_true (gtk_widget_get_visible (part (&desk, "trouble_label")));
  g_assert_cmpstr (gtk_label_get_label (GTK_LABEL (part (&desk, "trouble_label"))), ==,
                   pf_editor_trouble (desk.editor, 0, NULL));
  desk_free (&desk);
}

static void
looking_changes_nothing (void)
{
  Desk desk = desk_new ();
  const PfPoint odd[] = { { 10.123456, 10.98765 }, { 50.55555, 11.11111 }, { 30.00499, 47.7777 } };
  pf_outline_add_motif (desk.editor, pf_curve_new_straight (odd, 3, true), "Draw");
  settle ();
  const PfDocument *before = pf_editor_document (desk.editor);
  static const char *const spins[] = { "motif_x", "motif_y", "motif_width", "motif_height",
                                       "node_x",  "node_y",  "axis_x",      "axis_y" };
  pf_outline_tool_choose (chooser (&desk), (PfNodeRef){ 0, 2 }, false);
  settle ();
  g_assert_cmpfloat_with_epsilon (number (&desk, "node_x"), 30, 1e-9);
  for (size_t s = 0; s < G_N_ELEMENTS (spins); s++)
    gtk_spin_button_update (GTK_SPIN_BUTTON (part (&desk, spins[s])));
  settle ();
  g_assert_true (pf_editor_document (desk.editor) == before);
  desk_free (&desk);
}

static void
numbers_are_exact (void)
{
  Desk desk = desk_with_square ();
  pf_outline_tool_choose (chooser (&desk), (PfNodeRef){ 0, 2 }, false);
  settle ();
  g_assert_true (gtk_widget_get_mapped (part (&desk, "node_x")));
  type_number (&desk, "node_x", "65.25");
  g_assert_cmpfloat_with_epsilon (curve (&desk)->nodes[2].at.x, 65.25, 1e-9);
  g_assert_cmpfloat_with_epsilon (curve (&desk)->nodes[2].at.y, 60, 1e-9);
  pf_history_undo (pf_editor_history (desk.editor));
  pf_outline_tool_choose_none (chooser (&desk));
  settle ();
  type_number (&desk, "motif_width", "100");
  PfBox box = box_of (&desk);
  g_assert_cmpfloat_with_epsilon (box.max.x - box.min.x, 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.max.y - box.min.y, 100, 1e-9);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (part (&desk, "proportions_check")), FALSE);
  type_number (&desk, "motif_height", "25.5");
  type_number (&desk, "motif_x", "7");
  box = box_of (&desk);
  g_assert_cmpfloat_with_epsilon (box.min.x, 7, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.max.x - box.min.x, 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.max.y - box.min.y, 25.5, 1e-9);
  type_number (&desk, "turn_spin", "90");
  press (&desk, "Turn");
  box = box_of (&desk);
  g_assert_cmpfloat_with_epsilon (box.max.x - box.min.x, 25.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.max.y - box.min.y, 100, 1e-9);
  desk_free (&desk);
}

static void
the_list_names_orders_and_removes (void)
{
  Desk desk = desk_with_square ();
  const PfBox second = { { 70, 20 }, { 90, 60 } };
  pf_outline_add_motif (desk.editor, pf_curve_new_rectangle (second), "Draw");
  settle ();
  GtkListBox *list = GTK_LIST_BOX (part (&desk, "motif_list"));
  g_assert_cmpint (gtk_list_box_row_get_index (gtk_list_box_get_selected_row (list)), ==, 1);
  gtk_editable_set_text (GTK_EDITABLE (part (&desk, "name_entry")), "  Leaf ");
  g_signal_emit_by_name (part (&desk, "name_entry"), "activate");
  settle ();
  g_assert_cmpstr (pf_editor_draft (desk.editor)->name, ==, "Leaf");
  click (part (&desk, "up_button"));
  settle ();
  g_assert_cmpstr (pf_editor_document (desk.editor)->drafts[0]->name, ==, "Leaf");
  g_assert_cmpint (pf_editor_active (desk.editor), ==, 0);
  gtk_list_box_select_row (list, gtk_list_box_get_row_at_index (list, 1));
  settle ();
  g_assert_cmpint (pf_editor_active (desk.editor), ==, 1);
  press (&desk, "Remo_ve");
  g_assert_cmpuint (pf_editor_document (desk.editor)->n_drafts, ==, 1);
  g_assert_cmpstr (pf_editor_draft (desk.editor)->name, ==, "Leaf");
  desk_free (&desk);
}

static void
a_half_is_completed (void)
{
  static const char *const places[][2] = { { "50", "10" }, { "80", "30" }, { "50", "70" } };
  Desk desk = desk_new ();
  for (size_t n = 0; n < G_N_ELEMENTS (places); n++)
    {
      type_number (&desk, "add_x", places[n][0]);
      type_number (&desk, "add_y", places[n][1]);
      press (&desk, "_Draw a node at x, y");
    }
  press (&desk, "Through nodes");
  g_assert_cmpfloat_with_epsilon (number (&desk, "axis_x"), 50, 1e-9);
  g_assert_cmpfloat_with_epsilon (number (&desk, "axis_angle"), 90, 1e-9);
  press (&desk, "Complete the half");
  g_assert_true (curve (&desk)->closed);
  g_assert_cmpuint (curve (&desk)->n_nodes, ==, 4);
  /* Twice the triangle of the half: base 60 on the axis, height 30. */
  g_assert_cmpfloat_with_epsilon (pf_region_area (pf_editor_motif (desk.editor, 0)->region),
                                  60 * 30, 1e-9);
  desk_free (&desk);
}

static void
a_mirror_image_follows (void)
{
  Desk desk = desk_with_square ();
  type_number (&desk, "axis_x", "70");
  press (&desk, "Add a mirror image");
  g_assert_true (pf_editor_follows (desk.editor));
  g_assert_true (gtk_widget_get_visible (part (&desk, "follow_row")));
  const PfMotif *image = pf_editor_motif (desk.editor, 1);
  g_assert_cmpfloat_with_epsilon (image->region->box.min.x, 80, 1e-9);
  /* Its own axis is what is typed now. */
  type_number (&desk, "axis_x", "75");
  image = pf_editor_motif (desk.editor, 1);
  g_assert_cmpfloat_with_epsilon (image->region->box.min.x, 90, 1e-9);
  press (&desk, "Stop _following");
  g_assert_false (pf_editor_follows (desk.editor));
  g_assert_cmpfloat_with_epsilon (box_of (&desk).min.x, 90, 1e-9);
  desk_free (&desk);
}

static void
tools_are_taken_up_and_laid_down (void)
{
  Desk desk = desk_with_square ();
  static const char *const buttons[] = { "pen_button", "rectangle_button", "ellipse_button",
                                         "axis_button" };
  for (size_t b = 0; b < G_N_ELEMENTS (buttons); b++)
    {
      PfTool *before = pf_panel_tool (PF_PANEL (desk.panel));
      set_toggle (&desk, buttons[b]);
      PfTool *tool = pf_panel_tool (PF_PANEL (desk.panel));
      g_assert_true (tool != before);
      g_assert_false (
          gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (part (&desk, "choose_button"))));
      g_assert_true (PF_TOOL_GET_CLASS (tool)->key (tool, GDK_KEY_Escape, 0, 0.1));
      settle ();
      g_assert_true (
          gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (part (&desk, "choose_button"))));
    }
  desk_free (&desk);
}

/* --- A scan -------------------------------------------------------------------------------------
 */

typedef struct {
  PfUnderlay *underlay;
  GError *error;
  bool done;
} Opened;

static void
opened (GObject *source G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  Opened *open = data;
  open->underlay = pf_scan_picture_open_finish (result, &open->error);
  open->done = true;
}

static Opened
open_picture (const char *file)
{
  Opened open = { 0 };
  pf_scan_picture_open_async (file, 210, NULL, opened, &open);
  while (!open.done)
    g_main_context_iteration (NULL, TRUE);
  return open;
}

static char *
white_picture (int width, int height, const char *dpi)
{
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  g_autoptr (GError) error = NULL;
  char *file = g_build_filename (g_get_tmp_dir (), "pinfold-scan-XXXXXX", NULL);
  g_close (g_mkstemp (file), NULL);
  gdk_pixbuf_fill (picture, 0xffffffff);
  gdk_pixbuf_save (picture, file, "png", &error, dpi != NULL ? "x-dpi" : NULL, dpi, "y-dpi", dpi,
                   NULL);
  g_assert_no_error (error);
  return file;
}

static void
a_scan_lies_at_its_own_resolution (void)
{
  g_autofree char *known = white_picture (300, 200, "300");
  Opened open = open_picture (known);
  g_assert_no_error (open.error);
  /* 300 dots to the inch of 25.4 mm; PNG keeps whole dots to the metre. */
  g_assert_cmpfloat_with_epsilon (open.underlay->map.xx * 300, 25.4, 0.02);
  g_assert_cmpfloat_with_epsilon (open.underlay->map.yy * 300, 25.4, 0.02);
  pf_scan_picture_free (open.underlay);
  g_unlink (known);
  g_autofree char *unknown = white_picture (300, 200, NULL);
  open = open_picture (unknown);
  g_assert_no_error (open.error);
  g_assert_cmpfloat_with_epsilon (open.underlay->map.xx * 300, 210, 1e-9);
  pf_scan_picture_free (open.underlay);
  g_unlink (unknown);
  open = open_picture ("/no/such/picture.png");
  g_assert_nonnull (open.error);
  g_clear_error (&open.error);
}

static void
a_scan_is_shown_and_taken_away (void)
{
  Desk desk = desk_new ();
  g_autofree char *file = white_picture (400, 300, NULL);
  const PfUnderlay scan = {
    .file = file, .map = { 0.5, 0, 0, 0.5, 5, 5 }, .strength = 0.5, .shown = true
  };
  g_assert_false (gtk_widget_get_visible (part (&desk, "scan_box")));
  pf_editor_change_document (
      desk.editor, pf_document_with_underlay (pf_editor_document (desk.editor), &scan), "Scan");
  settle ();
  g_assert_true (gtk_widget_get_visible (part (&desk, "scan_box")));
  gtk_range_set_value (GTK_RANGE (part (&desk, "scan_strength")), 0.25);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (part (&desk, "scan_shown")), FALSE);
  settle ();
  const PfUnderlay *now = pf_editor_document (desk.editor)->underlay;
  g_assert_cmpfloat_with_epsilon (now->strength, 0.25, 1e-9);
  g_assert_false (now->shown);
  press (&desk, "Remove");
  g_assert_null (pf_editor_document (desk.editor)->underlay);
  g_unlink (file);
  desk_free (&desk);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  setlocale (LC_ALL, "C.UTF-8");
  pf_use_resources ();
  g_test_add_func ("/outline-panel/numbers/draw", draws_by_numbers);
  g_test_add_func ("/outline-panel/trouble", tells_what_is_wrong);
  g_test_add_func ("/outline-panel/looking", looking_changes_nothing);
  g_test_add_func ("/outline-panel/numbers/exact", numbers_are_exact);
  g_test_add_func ("/outline-panel/list", the_list_names_orders_and_removes);
  g_test_add_func ("/outline-panel/half", a_half_is_completed);
  g_test_add_func ("/outline-panel/mirror-image", a_mirror_image_follows);
  g_test_add_func ("/outline-panel/tools", tools_are_taken_up_and_laid_down);
  g_test_add_func ("/outline-panel/scan/resolution", a_scan_lies_at_its_own_resolution);
  g_test_add_func ("/outline-panel/scan/shown", a_scan_is_shown_and_taken_away);
  return g_test_run ();
}
