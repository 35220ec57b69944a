/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * All panels in mm and in inches. One inch is 25.4 mm (international yard and pound agreement,
 * 1959; NIST Special Publication 811, appendix B).
 */
#include <locale.h>
#include <math.h>
#include <string.h>

#include <glib/gstdio.h>
#include <panel.h>
#include <resources.h>

#include "motif-samples.h"
#include "widget-hands.h"

#define SLIP 1e-9

typedef GtkWidget *(*NewPanel) (PfEditor *editor, PfCanvas *canvas);

typedef struct {
  PfEditor *editor;
  GtkWidget *canvas, *panel, *window;
  char *scan;
} Desk;

/* A scan without anything on it, at 0.1 mm to the pixel. */
static void
lay_scan (Desk *desk)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 400, 300);
  desk->scan = g_build_filename (g_get_tmp_dir (), "pinfold-units-XXXXXX", NULL);
  g_close (g_mkstemp (desk->scan), NULL);
  g_assert_cmpint (cairo_surface_write_to_png (surface, desk->scan), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
  const PfUnderlay scan = {
    .file = desk->scan, .map = { 0.1, 0, 0, 0.1, 1, 1 }, .strength = 0.5, .shown = true
  };
  pf_editor_change_document (
      desk->editor, pf_document_with_underlay (pf_editor_document (desk->editor), &scan), "Scan");
}

/* Numbers that no entry shows whole; a thread; a stretch of the edge. */
static void
make_uneven (Desk *desk)
{
  PfDraft *draft = pf_editor_edit (desk->editor);
  const PfEdgeStretch stretch = { 10.0 / 3, 40.0 / 7, PF_EDGE_CLOTH_STITCH };
  draft->settings.placement.gap = 3.5919;
  draft->settings.placement.origin = (PfPoint){ 70.0 / 3, 19.00049 };
  draft->thread.wraps_per_cm = 27;
  draft->thread.spare = 1000.0 / 3;
  pf_draft_set_stretches (draft, 0, &stretch, 1);
  pf_editor_change (desk->editor, draft, "Uneven");
}

/* What is folded away is unfolded. */
static void
unfold (GtkWidget *widget)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    unfold (child);
}

static Desk
desk_new (NewPanel new_panel)
{
  Desk desk = { .editor = sample_editor (sample_rectangle (140.0 / 3, 38.0001, "armure")) };
  lay_scan (&desk);
  make_uneven (&desk);
  motif_of (desk.editor);
  desk.canvas = g_object_ref_sink (pf_canvas_new (desk.editor));
  desk.panel = new_panel (desk.editor, PF_CANVAS (desk.canvas));
  desk.window = show_widget (desk.panel, 372, 900);
  unfold (desk.panel);
  const bool nodes = new_panel == pf_outline_panel_new;
  pf_editor_select (desk.editor, (PfPick){ .kind = nodes ? PF_PICK_NODE : PF_PICK_PINHOLE,
                                           .index = nodes ? 2 : 3 });
  settle ();
  return desk;
}

static void
desk_free (Desk *desk)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  g_clear_object (&desk->canvas);
  settle ();
  g_clear_object (&desk->editor);
  g_unlink (desk->scan);
  g_free (desk->scan);
}

static GPtrArray *
spins_of (GtkWidget *panel)
{
  GPtrArray *spins = g_ptr_array_new ();
  g_autoptr (GQueue) waiting = g_queue_new ();
  g_queue_push_tail (waiting, panel);
  while (!g_queue_is_empty (waiting))
    {
      GtkWidget *widget = g_queue_pop_head (waiting);
      if (GTK_IS_SPIN_BUTTON (widget))
        {
          g_ptr_array_add (spins, widget);
          continue;
        }
      for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
           child = gtk_widget_get_next_sibling (child))
        g_queue_push_tail (waiting, child);
    }
  return spins;
}

static bool
has_unit (GtkWidget *spin)
{
  return gtk_widget_has_css_class (spin, "length") || gtk_widget_has_css_class (spin, "area");
}

static double
adjusted (GtkWidget *spin)
{
  return gtk_adjustment_get_value (gtk_spin_button_get_adjustment (GTK_SPIN_BUTTON (spin)));
}

/* A number, then the unit: nobody needs to look elsewhere what it is. */
static void
assert_unit (GtkWidget *spin, PfUnits units)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (spin));
  const bool area = gtk_widget_has_css_class (spin, "area");
  const char *unit = units == PF_UNITS_INCH ? (area ? " sq in" : " in") : (area ? " mm²" : " mm");
  char *end;
  g_test_message ("“%s”", text);
  const double number = g_ascii_strtod (text, &end);
  g_assert_cmpstr (end, ==, unit);
  const double mm = area ? 25.4 * 25.4 : 25.4;
  const double digits = gtk_spin_button_get_digits (GTK_SPIN_BUTTON (spin));
  if (units == PF_UNITS_INCH)
    g_assert_cmpfloat_with_epsilon (number * mm, adjusted (spin),
                                    mm * (area ? 0.0000501 : 0.000501));
  else
    g_assert_cmpfloat_with_epsilon (number, adjusted (spin), 0.501 * pow (10, -digits));
}

/* No word of mm where the maker works in inches. */
static void
assert_no_mm (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget) && gtk_widget_get_child_visible (widget))
    {
      const char *text = gtk_label_get_text (GTK_LABEL (widget));
      g_test_message ("“%s”", text);
      g_assert_false (g_regex_match_simple ("\\bmm\\b|mm²", text, 0, 0));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_no_mm (child);
}

/* The keyboard comes to an entry and leaves it, and what is shown there is read. */
static void
visit (GtkWidget *spin)
{
  gtk_widget_grab_focus (spin);
  settle ();
  gtk_spin_button_update (GTK_SPIN_BUTTON (spin));
  gtk_root_set_focus (gtk_widget_get_root (spin), NULL);
  settle ();
}

static void
assert_panel (NewPanel new_panel, guint n_lengths, bool own_words)
{
  static const PfUnits units[] = { PF_UNITS_MM, PF_UNITS_INCH, PF_UNITS_MM, PF_UNITS_INCH };
  Desk desk = desk_new (new_panel);
  g_autoptr (GPtrArray) spins = spins_of (desk.panel);
  PfDocument *before = pf_editor_document (desk.editor);
  g_autofree char *json = pf_document_to_json (before, NULL, NULL);
  guint n = 0;
  for (size_t u = 0; u < G_N_ELEMENTS (units); u++)
    {
      pf_editor_set_units (desk.editor, units[u]);
      settle ();
      for (guint s = 0; s < spins->len; s++)
        {
          GtkWidget *spin = g_ptr_array_index (spins, s);
          n += has_unit (spin);
          if (has_unit (spin))
            assert_unit (spin, units[u]);
          visit (spin);
        }
    }
  g_assert_cmpuint (n, ==, n_lengths * G_N_ELEMENTS (units));
  if (own_words)
    assert_no_mm (desk.panel);
  g_autofree char *after = pf_document_to_json (pf_editor_document (desk.editor), NULL, NULL);
  g_assert_cmpstr (after, ==, json);
  g_assert_true (pf_editor_document (desk.editor) == before);
  desk_free (&desk);
}

/* The next place, a node, the motif's place and size, the grid, the axis, two distances on the
 * scan, and the spots that are left out. */
static void
outline_shows_units (void)
{
  assert_panel (pf_outline_panel_new, 2 + 2 + 4 + 1 + 2 + 2 + 1, true);
}

/* The gap, a pinhole, a new one, both ends of the stretch. */
static void
edge_shows_units (void)
{
  assert_panel (pf_edge_panel_new, 5, true);
}

/* The gap, the origin, thread to spare. Whether the thread fits is told by the library, in mm. */
static void
ground_shows_units (void)
{
  assert_panel (pf_ground_panel_new, 4, false);
}

static void
sewings_shows_units (void)
{
  assert_panel (pf_sewings_panel_new, 0, true);
}

static void
sheet_shows_units (void)
{
  assert_panel (pf_sheet_panel_new, 0, true);
}

static void
type (GtkWidget *spin, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (spin), text);
  gtk_spin_button_update (GTK_SPIN_BUTTON (spin));
  settle ();
}

/* A unit that is typed is heeded whatever is set; without one the number is of what is set. */
static void
typed_units_are_heeded (void)
{
  static const struct {
    PfUnits units;
    const char *typed;
    double mm;
    const char *shown;
  } cases[] = {
    { PF_UNITS_MM, "4", 4, "4.00 mm" },          { PF_UNITS_MM, "3/4", 0.75, "0.75 mm" },
    { PF_UNITS_MM, "3/8 in", 9.525, NULL },      { PF_UNITS_MM, "0.5 in", 12.7, "12.70 mm" },
    { PF_UNITS_INCH, "12 mm", 12, "0.472 in" },  { PF_UNITS_INCH, "3/4", 19.05, "0.750 in" },
    { PF_UNITS_INCH, "0.25", 6.35, "0.250 in" }, { PF_UNITS_INCH, "1/4\"", 6.35, "0.250 in" },
    { PF_UNITS_INCH, "1,5 cm", 15, "0.591 in" },
  };
  Desk desk = desk_new (pf_ground_panel_new);
  GtkWidget *gap = template_child (desk.panel, "gap");
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_test_message ("“%s”", cases[c].typed);
      pf_editor_set_units (desk.editor, cases[c].units);
      type (gap, cases[c].typed);
      g_assert_cmpfloat_with_epsilon (pf_editor_draft (desk.editor)->settings.placement.gap,
                                      cases[c].mm, SLIP);
      if (cases[c].shown != NULL)
        g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (gap)), ==, cases[c].shown);
    }
  desk_free (&desk);
}

/* One step: 0.1 mm, or a hundredth of an inch; an area's a thousandth of a square inch. */
static void
steps_suit_the_unit (void)
{
  Desk desk = desk_new (pf_outline_panel_new);
  GtkWidget *place = template_child (desk.panel, "axis_x");
  GtkWidget *spots = template_child (desk.panel, "speckle_spin");
  type (place, "10");
  gtk_spin_button_spin (GTK_SPIN_BUTTON (place), GTK_SPIN_STEP_FORWARD, 0);
  g_assert_cmpfloat_with_epsilon (adjusted (place), 10.1, SLIP);
  pf_editor_set_units (desk.editor, PF_UNITS_INCH);
  type (place, "1");
  gtk_spin_button_spin (GTK_SPIN_BUTTON (place), GTK_SPIN_STEP_BACKWARD, 0);
  g_assert_cmpfloat_with_epsilon (adjusted (place), 25.4 * 0.99, SLIP);
  type (spots, "0.002");
  gtk_spin_button_spin (GTK_SPIN_BUTTON (spots), GTK_SPIN_STEP_FORWARD, 0);
  g_assert_cmpfloat_with_epsilon (adjusted (spots), 0.003 * 645.16, SLIP);
  type (spots, "2 mm²");
  g_assert_cmpfloat_with_epsilon (adjusted (spots), 2, SLIP);
  desk_free (&desk);
}

/* Thread is bought by the yard where inches are used: 0.9144 m (the same agreement). */
static void
thread_is_in_yards (void)
{
  Desk desk = desk_new (pf_ground_panel_new);
  GtkWidget *box = template_child (desk.panel, "thread_box");
  GtkWidget *needs = NULL;
  double metres = 0, yards = 0;
  for (int wait = 0; metres == 0 && wait < 300; wait++)
    {
      settle ();
      for (GtkWidget *child = gtk_widget_get_first_child (box); child != NULL;
           child = gtk_widget_get_next_sibling (child))
        if (GTK_IS_LABEL (child) && strstr (gtk_label_get_text (GTK_LABEL (child)), "in all"))
          needs = child;
      if (needs != NULL)
        metres = g_ascii_strtod (strstr (gtk_label_get_text (GTK_LABEL (needs)), " m, ") + 4, NULL);
    }
  g_assert_cmpfloat (metres, >, 1);
  pf_editor_set_units (desk.editor, PF_UNITS_INCH);
  settle ();
  yards = g_ascii_strtod (strstr (gtk_label_get_text (GTK_LABEL (needs)), " yd, ") + 5, NULL);
  g_assert_cmpfloat_with_epsilon (yards * 0.9144, metres, 0.1);
  desk_free (&desk);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  setlocale (LC_ALL, "C.UTF-8");
  pf_use_resources ();
  g_test_add_func ("/units/outline", outline_shows_units);
  g_test_add_func ("/units/edge", edge_shows_units);
  g_test_add_func ("/units/ground", ground_shows_units);
  g_test_add_func ("/units/sewings", sewings_shows_units);
  g_test_add_func ("/units/sheet", sheet_shows_units);
  g_test_add_func ("/units/typed", typed_units_are_heeded);
  g_test_add_func ("/units/steps", steps_suit_the_unit);
  g_test_add_func ("/units/thread", thread_is_in_yards);
  return g_test_run ();
}
