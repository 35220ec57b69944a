/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The panels of the stages "Edge" and "Sewings" and the edge strip, on a screen.
 */
#include <locale.h>

#include <edge-tool.h>
#include <panel.h>
#include <pinhole-steps.h>
#include <resources.h>
#include <sewing-work.h>
#include <sewings-tool.h>
#include <stretch-row.h>
#include <strip-view-private.h>

#include "motif-samples.h"
#include "widget-hands.h"

#define SLIP 1e-9

typedef struct {
  PfEditor *editor;
  GtkWidget *canvas, *panel, *window;
  PfDocument *before;
  char *said;
} Fixture;

static void
note_said (PfPanel *panel G_GNUC_UNUSED, const char *text, Fixture *f)
{
  g_free (f->said);
  f->said = g_strdup (text);
}

static void
open_panel (Fixture *f, PfDocument *document,
            GtkWidget *(*new_panel) (PfEditor *editor, PfCanvas *canvas))
{
  f->editor = sample_editor (document);
  motif_of (f->editor);
  f->canvas = g_object_ref_sink (pf_canvas_new (f->editor));
  f->panel = new_panel (f->editor, PF_CANVAS (f->canvas));
  g_signal_connect (f->panel, "say", G_CALLBACK (note_said), f);
  f->window = show_widget (f->panel, 336, 700);
  f->before = pf_document_ref (pf_editor_document (f->editor));
}

static void
set_up_edge (Fixture *f, gconstpointer data)
{
  open_panel (f, data != NULL ? sample_frame (40, 30, 10, NULL) : sample_rectangle (40, 30, NULL),
              pf_edge_panel_new);
}

static void
set_up_sewings (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  open_panel (f, sample_rectangle (47, 38, "armure"), pf_sewings_panel_new);
}

static void
set_up_strip (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  f->editor = sample_editor (sample_frame (60, 50, 14, "armure"));
  motif_of (f->editor);
  f->panel = pf_strip_view_new (f->editor);
  f->window = show_widget (f->panel, 800, 160);
  f->before = pf_document_ref (pf_editor_document (f->editor));
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  g_clear_object (&f->canvas);
  settle ();
  g_clear_object (&f->editor);
  g_clear_pointer (&f->before, pf_document_unref);
  g_clear_pointer (&f->said, g_free);
}

static GtkWidget *
child (Fixture *f, const char *id)
{
  return template_child (f->panel, id);
}

static const char *
text_of (Fixture *f, const char *id)
{
  return gtk_label_get_label (GTK_LABEL (child (f, id)));
}

static void
set_spin (Fixture *f, const char *id, double value)
{
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (child (f, id)), value);
  settle ();
}

static void
choose (Fixture *f, const char *id, guint item)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (child (f, id)), item);
  settle ();
}

static void
assert_undone (Fixture *f)
{
  g_assert_cmpint (count_changes (f->editor), ==, 1);
  pf_history_undo (pf_editor_history (f->editor));
  g_assert_true (pf_editor_document (f->editor) == f->before);
  settle ();
}

/* Every control can be named by who hears the screen: a label of its own, or one that names it. */
static void
assert_named (GtkWidget *widget)
{
  if (GTK_IS_SPIN_BUTTON (widget) || GTK_IS_DROP_DOWN (widget))
    {
      GList *labels = gtk_widget_list_mnemonic_labels (widget);
      g_assert_nonnull (labels);
      g_list_free (labels);
      return;
    }
  if (GTK_IS_BUTTON (widget) && gtk_button_get_icon_name (GTK_BUTTON (widget)) != NULL)
    g_assert_nonnull (gtk_widget_get_tooltip_text (widget));
  for (GtkWidget *c = gtk_widget_get_first_child (widget); c != NULL;
       c = gtk_widget_get_next_sibling (c))
    assert_named (c);
}

/* --- Edge ---------------------------------------------------------------------------------------
 */

/* 70 pinholes on 140 mm: see edge-tool-test. */
static void
test_edge_numbers (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_cmpstr (text_of (f, "count_pinholes"), ==, "70");
  g_assert_cmpstr (text_of (f, "count_length"), ==, "140.0 mm");
  g_assert_cmpstr (text_of (f, "count_mean"), ==, "2.00 mm");
  g_assert_false (gtk_widget_get_visible (child (f, "loop_box")));
  assert_named (f->panel);
  set_spin (f, "gap", 5);
  g_assert_cmpstr (text_of (f, "count_pinholes"), ==, "28");
  set_spin (f, "gap", 10);
  assert_undone (f);
  choose (f, "kind", PF_EDGE_CLOTH_STITCH);
  g_assert_cmpint (edge_of (f->editor)->kind, ==, PF_EDGE_CLOTH_STITCH);
  assert_undone (f);
}

static void
test_edge_pinholes (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_false (gtk_widget_get_sensitive (child (f, "even_button")));
  g_assert_false (gtk_widget_get_sensitive (child (f, "place")));
  click (child (f, "next_button"));
  click (child (f, "previous_button"));
  g_assert_cmpstr (text_of (f, "pinhole_label"), ==, "Pinhole 70 of 70");
  set_spin (f, "place", 138.25);
  g_assert_cmpfloat_with_epsilon (edge_of (f->editor)->pinholes[69], 138.25, SLIP);
  g_assert_true (gtk_widget_get_sensitive (child (f, "even_button")));
  set_spin (f, "add_at", 7);
  click (child (f, "add_button"));
  g_assert_cmpstr (text_of (f, "pinhole_label"), ==, "Pinhole 5 of 71");
  click (child (f, "add_button"));
  g_assert_nonnull (f->said);
  click (child (f, "remove_button"));
  g_assert_cmpuint (edge_of (f->editor)->n_pinholes, ==, 70);
  click (child (f, "even_button"));
  g_assert_true (edge_of (f->editor)->even);
  g_assert_cmpint (count_changes (f->editor), ==, 4);
}

static void
test_edge_stretches (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *stretches = child (f, "stretches");
  click (child (f, "stretch_button"));
  GtkWidget *row = gtk_widget_get_first_child (stretches);
  g_assert_true (PF_IS_STRETCH_ROW (row));
  g_assert_cmpuint (edge_of (f->editor)->n_stretches, ==, 1);
  assert_named (row);
  GtkWidget *spin = find_widget (row, GTK_TYPE_SPIN_BUTTON);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), 33.5);
  settle ();
  g_assert_cmpfloat_with_epsilon (edge_of (f->editor)->stretches[0].from, 33.5, SLIP);
  GtkWidget *kind = find_widget (row, GTK_TYPE_DROP_DOWN);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (kind), PF_EDGE_HALF_STITCH);
  settle ();
  g_assert_cmpint (edge_of (f->editor)->stretches[0].kind, ==, PF_EDGE_HALF_STITCH);
  g_signal_emit_by_name (row, "removed");
  settle ();
  g_assert_null (gtk_widget_get_first_child (stretches));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (child (f, "mark_toggle")), TRUE);
  PfTool *tool = pf_panel_tool (PF_PANEL (f->panel));
  g_assert_true (pf_edge_tool_marking (PF_EDGE_TOOL (tool)));
  drag_from_to (tool, (PfPoint){ 6, 0 }, (PfPoint){ 16, 0 }, 0);
  settle ();
  g_assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (child (f, "mark_toggle"))));
  g_assert_nonnull (gtk_widget_get_first_child (stretches));
}

static void
test_edge_loops (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_true (gtk_widget_get_visible (child (f, "loop_box")));
  choose (f, "loop", 1);
  g_assert_cmpstr (text_of (f, "count_length"), ==, "40.0 mm");
  g_assert_cmpuint (pf_editor_selected (f->editor).loop, ==, 1);
  pf_pinhole_select (f->editor, 0, 3);
  settle ();
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (child (f, "loop"))), ==, 0);
  g_assert_cmpstr (text_of (f, "count_length"), ==, "140.0 mm");
  g_assert_true (pf_editor_document (f->editor) == f->before);
}

/* A motif that follows another one isn't changed; the widgets go back, and the maker is told. */
static void
test_edge_follower (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfAxis axis = { { 50, 0 }, 90 };
  pf_editor_change_document (f->editor, pf_document_with_mirror_image (f->before, 0, axis),
                             "Mirror image");
  pf_editor_set_active (f->editor, 1);
  PfDocument *document = pf_editor_document (f->editor);
  settle ();
  set_spin (f, "gap", 4);
  g_assert_nonnull (f->said);
  g_assert_cmpfloat (gtk_spin_button_get_value (GTK_SPIN_BUTTON (child (f, "gap"))), ==, 2);
  choose (f, "kind", PF_EDGE_CLOTH_STITCH);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (child (f, "kind"))), ==,
                    PF_EDGE_HALF_STITCH);
  g_assert_true (pf_editor_document (f->editor) == document);
}

/* --- Sewings ------------------------------------------------------------------------------------
 */

static void
test_sewings_repeat (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfFilling *filling = motif_of (f->editor)->filling;
  g_assert_cmpuint (filling->n_repeats, >, 0);
  assert_named (f->panel);
  g_assert_false (gtk_widget_get_visible (child (f, "repeat_box")));
  click (child (f, "next_button"));
  const PfPick pick = pf_editor_selected (f->editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_REPEAT);
  g_autofree char *words = pf_editor_describe (f->editor, pick);
  g_assert_cmpstr (text_of (f, "words"), ==, words);
  g_assert_true (gtk_widget_get_visible (child (f, "repeat_box")));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (child (f, "state_left_out")), TRUE);
  settle ();
  g_assert_cmpint (pf_filling_repeat_state (motif_of (f->editor)->filling, pick.i, pick.j), ==,
                   PF_REPEAT_LEFT_OUT);
  g_assert_true (pf_pick_equal (pf_editor_selected (f->editor), pick));
  g_assert_true (gtk_widget_get_sensitive (child (f, "reset_all_button")));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (child (f, "state_default")), TRUE);
  settle ();
  g_assert_cmpint (count_changes (f->editor), ==, 2);
  g_assert_cmpuint (pf_editor_draft (f->editor)->settings.n_choices, ==, 0);
  g_assert_false (gtk_widget_get_sensitive (child (f, "reset_all_button")));
}

static void
test_sewings_sewing (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  choose (f, "walk", 1);
  click (child (f, "next_button"));
  const PfPick pick = pf_editor_selected (f->editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_SEWING);
  g_assert_true (gtk_widget_get_visible (child (f, "sewing_box")));
  g_assert_false (gtk_widget_get_sensitive (child (f, "reset_button")));
  const PfSewing before = motif_of (f->editor)->filling->sewings[pick.index];
  click (child (f, "on_button"));
  const PfSewing after =
      motif_of (f->editor)->filling->sewings[pf_editor_selected (f->editor).index];
  g_assert_true (after.chosen);
  g_assert_cmpfloat (after.place.along, !=, before.place.along);
  g_assert_true (gtk_widget_get_sensitive (child (f, "reset_button")));
  click (child (f, "reset_button"));
  g_assert_cmpuint (pf_editor_draft (f->editor)->settings.n_sewing_choices, ==, 0);
  click (child (f, "back_button"));
  click (child (f, "reset_all_button"));
  g_assert_cmpint (count_changes (f->editor), ==, 4);
  click (child (f, "pair_button"));
  g_assert_cmpint (pf_editor_selected (f->editor).kind, ==, PF_PICK_PAIR);
  g_assert_true (pf_editor_document (f->editor) != f->before);
}

static void
test_sewings_turn (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfFilling *filling = motif_of (f->editor)->filling;
  guint32 s = 0;
  for (; s < filling->n_sewings; s++)
    {
      g_autoptr (GArray) partners = pf_sewing_partners (motif_of (f->editor), s);
      if (filling->sewings[s].kind == PF_PAIR_TURNED && partners->len > 0)
        break;
    }
  g_assert_cmpuint (s, <, filling->n_sewings);
  pf_editor_select (f->editor, (PfPick){ .kind = PF_PICK_SEWING, .index = s });
  settle ();
  gtk_menu_button_popup (GTK_MENU_BUTTON (child (f, "turn_button")));
  settle ();
  GtkPopover *popover = gtk_menu_button_get_popover (GTK_MENU_BUTTON (child (f, "turn_button")));
  GtkWidget *first = find_widget (GTK_WIDGET (popover), GTK_TYPE_BUTTON);
  g_assert_nonnull (first);
  click (first);
  const PfFillingSettings *settings = &pf_editor_draft (f->editor)->settings;
  g_assert_cmpuint (settings->n_sewing_choices, ==, 1);
  g_assert_cmpint (settings->sewing_choices[0].kind, ==, PF_SEW_TURN);
  g_assert_cmpuint (motif_of (f->editor)->filling->n_unheeded, ==, 0);
  assert_undone (f);
}

/* A sewing whose pair turns and could turn elsewhere, and what it can turn with. */
static guint32
find_turning (Fixture *f)
{
  const PfFilling *filling = motif_of (f->editor)->filling;
  for (guint32 s = 0; s < filling->n_sewings; s++)
    {
      g_autoptr (GArray) partners = pf_sewing_partners (motif_of (f->editor), s);
      if (filling->sewings[s].kind == PF_PAIR_TURNED && partners->len > 1)
        return s;
    }
  g_assert_not_reached ();
}

static void
count_partner_names (Fixture *f, guint *n_pinholes, guint *n_bars)
{
  const PfMotif *motif = motif_of (f->editor);
  const PfFilling *filling = motif->filling;
  *n_pinholes = *n_bars = 0;
  for (guint32 s = 0; s < filling->n_sewings; s++)
    {
      g_autoptr (GArray) partners = pf_sewing_partners (motif, s);
      for (guint p = 0; p < partners->len; p++)
        {
          const guint32 crossing = g_array_index (partners, guint32, p);
          const PfCrossing *c = &filling->crossings[crossing];
          const PfSewing *sewing = &filling->sewings[c->sewing];
          g_autofree char *name = pf_sewing_partner_name (motif, s, crossing, PF_UNITS_INCH);
          g_autofree char *start = g_strdup_printf (
              sewing->pinhole != PF_NONE ? "Pair %u, which %s at pinhole %u, "
                                         : "Pair %u, which %s between pinholes %u and ",
              c->pair + 1, c->leaves ? "leaves" : "enters",
              (sewing->pinhole != PF_NONE ? sewing->pinhole : sewing->between[0]) + 1);
          g_test_message ("%s", name);
          g_assert_true (g_str_has_prefix (name, start));
          g_assert_true (g_str_has_suffix (name, " in on") || g_str_has_suffix (name, " in back"));
          *n_pinholes += sewing->pinhole != PF_NONE;
          *n_bars += sewing->pinhole == PF_NONE;
        }
    }
}

/* Lines are named by what is numbered on the canvas: the pair, and the pinholes. */
static void
test_sewings_partner_names (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  guint n_pinholes, n_bars;
  count_partner_names (f, &n_pinholes, &n_bars);
  g_assert_cmpuint (n_bars, >, 0);
  PfDraft *draft = pf_editor_edit (f->editor);
  draft->edges[0].kind = PF_EDGE_CLOTH_STITCH;
  pf_editor_change (f->editor, draft, "Edge");
  count_partner_names (f, &n_pinholes, &n_bars);
  g_assert_cmpuint (n_pinholes, >, 0);
  g_assert_cmpuint (n_bars, ==, 0);
}

static GtkWidget *
open_partner_list (Fixture *f)
{
  GtkMenuButton *button = GTK_MENU_BUTTON (child (f, "turn_button"));
  gtk_menu_button_popup (button);
  settle ();
  return GTK_WIDGET (gtk_menu_button_get_popover (button));
}

/* The way by keyboard: down in the list, and Return. Then nothing is lit any more, and what is
 * selected and told of is the turn that was chosen. */
static void
test_sewings_turn_by_keys (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const guint32 s = find_turning (f);
  const PfSewing before = motif_of (f->editor)->filling->sewings[s];
  const PfLineId line = pf_crossing_line (motif_of (f->editor)->filling, before.leaving);
  pf_editor_select (f->editor, (PfPick){ .kind = PF_PICK_SEWING, .index = s });
  settle ();
  GtkWidget *list = open_partner_list (f);
  g_assert_true (gtk_widget_child_focus (list, GTK_DIR_DOWN));
  settle ();
  g_assert_cmpint (pf_editor_hovered (f->editor).kind, ==, PF_PICK_PAIR);
  gtk_widget_activate (gtk_root_get_focus (gtk_widget_get_root (f->panel)));
  const gint64 end = g_get_monotonic_time () + 5 * G_USEC_PER_SEC;
  while (pf_editor_document (f->editor) == f->before && g_get_monotonic_time () < end)
    settle ();
  const PfFillingSettings *settings = &pf_editor_draft (f->editor)->settings;
  g_assert_cmpuint (settings->n_sewing_choices, ==, 1);
  g_assert_cmpint (settings->sewing_choices[0].kind, ==, PF_SEW_TURN);
  g_assert_cmpint (pf_editor_hovered (f->editor).kind, ==, PF_PICK_NONE);
  const PfFilling *filling = motif_of (f->editor)->filling;
  const guint32 leaving = pf_filling_find_crossing (filling, line);
  const PfPick pick = pf_editor_selected (f->editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_SEWING);
  g_assert_cmpuint (pick.index, ==, filling->crossings[leaving].sewing);
  g_assert_nonnull (strstr (text_of (f, "words"), "You chose this turn."));
  assert_undone (f);
  g_assert_cmpint (pf_editor_selected (f->editor).kind, ==, PF_PICK_SEWING);
}

/* Given up, the list leaves nothing lit either. */
static void
test_sewings_turn_given_up (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  pf_editor_select (f->editor, (PfPick){ .kind = PF_PICK_SEWING, .index = find_turning (f) });
  settle ();
  GtkWidget *list = open_partner_list (f);
  g_assert_true (gtk_widget_child_focus (list, GTK_DIR_DOWN));
  settle ();
  g_assert_cmpint (pf_editor_hovered (f->editor).kind, ==, PF_PICK_PAIR);
  gtk_popover_popdown (GTK_POPOVER (list));
  settle ();
  g_assert_cmpint (pf_editor_hovered (f->editor).kind, ==, PF_PICK_NONE);
  g_assert_false (pf_sewings_tool_choosing (PF_SEWINGS_TOOL (pf_panel_tool (PF_PANEL (f->panel)))));
}

/* Torchon ground has no motif to keep: there it opens on sewings, until the maker chooses. */
static void
test_sewings_walk (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkDropDown *walk = GTK_DROP_DOWN (child (f, "walk"));
  g_autoptr (PfDocument) torchon = sample_rectangle (47, 38, "torchon");
  g_autoptr (PfDocument) armure = sample_rectangle (47, 38, "armure");
  g_assert_cmpuint (gtk_drop_down_get_selected (walk), ==, PF_WALK_REPEATS);
  pf_editor_open (f->editor, torchon);
  motif_of (f->editor);
  settle ();
  g_assert_cmpuint (gtk_drop_down_get_selected (walk), ==, PF_WALK_SEWINGS);
  click (child (f, "next_button"));
  g_assert_cmpint (pf_editor_selected (f->editor).kind, ==, PF_PICK_SEWING);
  pf_editor_open (f->editor, armure);
  motif_of (f->editor);
  settle ();
  g_assert_cmpuint (gtk_drop_down_get_selected (walk), ==, PF_WALK_REPEATS);
  choose (f, "walk", PF_WALK_TO_LOOK);
  pf_editor_open (f->editor, torchon);
  motif_of (f->editor);
  settle ();
  g_assert_cmpuint (gtk_drop_down_get_selected (walk), ==, PF_WALK_TO_LOOK);
}

/* A choice for a repeat that isn't there is listed, and its button takes it away. */
static void
test_sewings_unheeded (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_false (gtk_widget_get_visible (child (f, "unheeded_box")));
  pf_repeat_choose (f->editor, pf_editor_edit (f->editor), 500, 500, PF_REPEAT_LEFT_OUT);
  motif_of (f->editor);
  settle ();
  g_assert_true (gtk_widget_get_visible (child (f, "unheeded_box")));
  click (find_widget (child (f, "unheeded"), GTK_TYPE_BUTTON));
  g_assert_false (gtk_widget_get_visible (child (f, "unheeded_box")));
  g_assert_cmpint (count_changes (f->editor), ==, 2);
}

/* --- Lengths in the maker's unit ----------------------------------------------------------------
 */

static void
type_length (Fixture *f, const char *id, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (child (f, id)), text);
  gtk_spin_button_update (GTK_SPIN_BUTTON (child (f, id)));
  settle ();
}

static const char *
typed_in (Fixture *f, const char *id)
{
  return gtk_editable_get_text (GTK_EDITABLE (child (f, id)));
}

static double
edge_gap (Fixture *f)
{
  return pf_editor_draft (f->editor)->edges[0].gap;
}

/* An inch is 25.4 mm (international yard and pound agreement, 1959). Another unit, or only a look
 * at the numbers, changes nothing. */
static void
test_units (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  static const char *const lengths[] = { "gap", "place", "add_at" };
  g_assert_cmpstr (typed_in (f, "gap"), ==, "2.00 mm");
  pf_editor_set_units (f->editor, PF_UNITS_INCH);
  g_assert_cmpstr (typed_in (f, "gap"), ==, "0.079 in");
  g_assert_cmpstr (text_of (f, "count_length"), ==, "5.51 in");
  for (size_t l = 0; l < G_N_ELEMENTS (lengths); l++)
    gtk_spin_button_update (GTK_SPIN_BUTTON (child (f, lengths[l])));
  g_assert_true (pf_editor_document (f->editor) == f->before);

  type_length (f, "gap", "1/8");
  g_assert_cmpfloat_with_epsilon (edge_gap (f), 3.175, SLIP);
  g_assert_cmpstr (typed_in (f, "gap"), ==, "0.125 in");
  type_length (f, "gap", "5 mm");
  g_assert_cmpfloat_with_epsilon (edge_gap (f), 5, SLIP);
  gtk_spin_button_spin (GTK_SPIN_BUTTON (child (f, "gap")), GTK_SPIN_STEP_FORWARD, 0);
  settle ();
  g_assert_cmpfloat_with_epsilon (edge_gap (f), 5.254, SLIP);
  type_length (f, "gap", "wide");
  g_assert_nonnull (strstr (f->said, "“wide” can’t stand there"));
  g_assert_nonnull (strstr (f->said, " in"));
  g_assert_cmpfloat_with_epsilon (edge_gap (f), 5.254, SLIP);

  pf_editor_set_units (f->editor, PF_UNITS_MM);
  g_assert_cmpstr (typed_in (f, "gap"), ==, "5.25 mm");
  gtk_spin_button_update (GTK_SPIN_BUTTON (child (f, "gap")));
  g_assert_cmpfloat_with_epsilon (edge_gap (f), 5.254, SLIP);
  type_length (f, "gap", "0.25 in");
  g_assert_cmpfloat_with_epsilon (edge_gap (f), 6.35, SLIP);
}

/* --- Edge strip ---------------------------------------------------------------------------------
 */

static GtkWidget *
area_of (Fixture *f)
{
  return find_widget (f->panel, GTK_TYPE_DRAWING_AREA);
}

static PfEdgeStrip
strip_of (Fixture *f, size_t loop)
{
  GtkWidget *bar = find_widget (gtk_widget_get_last_child (f->panel), GTK_TYPE_SCROLLBAR);
  GtkAdjustment *scroll = gtk_scrollbar_get_adjustment (GTK_SCROLLBAR (bar));
  return (PfEdgeStrip){ .motif = motif_of (f->editor),
                        .loop = loop,
                        .from = gtk_adjustment_get_value (scroll),
                        .to = gtk_adjustment_get_value (scroll) +
                              gtk_adjustment_get_page_size (scroll),
                        .across = pf_strip_view_zoom (PF_STRIP_VIEW (f->panel)),
                        .height = PF_EDGE_STRIP_HEIGHT };
}

static double
scale_of (Fixture *f)
{
  return gtk_widget_get_height (area_of (f)) / PF_EDGE_STRIP_HEIGHT;
}

/* Drags in the strip, in mm of it. */
static void
drag_in_strip (Fixture *f, PfPoint from, double to)
{
  GtkEventController *gesture = find_controller (area_of (f), GTK_TYPE_GESTURE_DRAG);
  const double scale = scale_of (f), way = (to - from.x) * scale;
  g_signal_emit_by_name (gesture, "drag-begin", from.x * scale, from.y * scale);
  for (int s = 1; s <= 5; s++)
    g_signal_emit_by_name (gesture, "drag-update", way * s / 5, 0.0);
  g_signal_emit_by_name (gesture, "drag-end", way, 0.0);
  settle ();
}

static void
test_strip_pinhole (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfEdgeStrip strip = strip_of (f, 0);
  const PfPoint at = pf_edge_strip_pinhole (&strip, 5);
  pf_editor_set_stage (f->editor, PF_STAGE_EDGE);
  g_signal_emit_by_name (find_controller (area_of (f), GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion",
                         at.x * scale_of (f), at.y * scale_of (f));
  const PfPick hovered = pf_editor_hovered (f->editor);
  g_assert_cmpint (hovered.kind, ==, PF_PICK_PINHOLE);
  g_assert_cmpuint (hovered.index, ==, 5);
  drag_in_strip (f, at, at.x + 0.8 * strip.across);
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 5);
  g_assert_cmpfloat_with_epsilon (edge_of (f->editor)->pinholes[5], 10.8, 1e-6);
  assert_undone (f);
}

static void
test_strip_sewing (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfFilling *filling = motif_of (f->editor)->filling;
  const PfEdgeStrip strip = strip_of (f, 0);
  guint32 s = 0;
  for (; s < filling->n_sewings; s++)
    if (filling->sewings[s].target.loop == 0 && filling->sewings[s].place.along > strip.from + 5 &&
        filling->sewings[s].place.along < strip.to - 20 &&
        pf_edge_strip_find_sewing (&strip, pf_edge_strip_sewing (&strip, s), 0.1) == s)
      break;
  g_assert_cmpuint (s, <, filling->n_sewings);
  const PfPoint at = pf_edge_strip_sewing (&strip, s);
  const double wanted = pf_edge_strip_along (&strip, at.x) + 4;
  pf_editor_set_stage (f->editor, PF_STAGE_SEWINGS); /* and not its pinhole */
  drag_in_strip (f, at, at.x + 4 * strip.across);
  const PfPick pick = pf_editor_selected (f->editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_SEWING);
  const PfSewing *moved = &motif_of (f->editor)->filling->sewings[pick.index];
  g_assert_true (moved->chosen);
  g_assert_cmpfloat_with_epsilon (moved->place.along, wanted, 2.1);
  assert_undone (f);
}

static void
test_strip_keys (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *teller = gtk_widget_get_next_sibling (area_of (f));
  g_assert_true (gtk_widget_get_focusable (teller));
  pf_editor_set_stage (f->editor, PF_STAGE_SEWINGS);
  g_assert_true (press_key (teller, GDK_KEY_n, 0));
  g_assert_cmpint (pf_editor_selected (f->editor).kind, ==, PF_PICK_SEWING);
  g_autofree char *words = pf_editor_describe (f->editor, pf_editor_selected (f->editor));
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (teller), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       words);
  g_assert_true (press_key (teller, GDK_KEY_Right, 0));
  assert_undone (f);
  pf_editor_set_stage (f->editor, PF_STAGE_EDGE);
  g_assert_true (press_key (teller, GDK_KEY_Escape, 0));
  g_assert_true (press_key (teller, GDK_KEY_End, 0));
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 109);
  g_assert_true (press_key (teller, GDK_KEY_Left, GDK_SHIFT_MASK));
  g_assert_cmpfloat_with_epsilon (edge_of (f->editor)->pinholes[109], 217, SLIP);
  assert_undone (f);
  const double zoom = pf_strip_view_zoom (PF_STRIP_VIEW (f->panel));
  g_assert_true (press_key (teller, GDK_KEY_plus, 0));
  g_assert_cmpfloat (pf_strip_view_zoom (PF_STRIP_VIEW (f->panel)), >, zoom);
  g_assert_false (press_key (teller, GDK_KEY_Tab, 0));
}

/* What is selected elsewhere is scrolled to, on its loop. */
static void
test_strip_follows (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  pf_strip_view_set_zoom (PF_STRIP_VIEW (f->panel), 5, 0);
  pf_pinhole_select (f->editor, 0, 100);
  settle ();
  g_assert_cmpfloat (strip_of (f, 0).from, <, 200);
  g_assert_cmpfloat (strip_of (f, 0).to, >, 200);
  pf_pinhole_select (f->editor, 1, 2);
  settle ();
  GtkWidget *loops = find_widget (f->panel, GTK_TYPE_DROP_DOWN);
  g_assert_true (gtk_widget_get_visible (loops));
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (loops)), ==, 1);
  /* Its start, with a little of its end before it: 24 pixels. */
  const double scale = 5 * pf_strip_view_scale (PF_STRIP_VIEW (f->panel));
  g_assert_cmpfloat_with_epsilon (strip_of (f, 1).from, -24 / scale, 0.01);
}

#define ADD(name, data, up, test) g_test_add ("/steps/" name, Fixture, data, up, test, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  setlocale (LC_ALL, "C.UTF-8");
  pf_use_resources ();
  ADD ("edge/numbers", NULL, set_up_edge, test_edge_numbers);
  ADD ("units", NULL, set_up_edge, test_units);
  ADD ("edge/pinholes", NULL, set_up_edge, test_edge_pinholes);
  ADD ("edge/stretches", NULL, set_up_edge, test_edge_stretches);
  ADD ("edge/loops", "with a hole", set_up_edge, test_edge_loops);
  ADD ("edge/follower", NULL, set_up_edge, test_edge_follower);
  ADD ("sewings/repeat", NULL, set_up_sewings, test_sewings_repeat);
  ADD ("sewings/sewing", NULL, set_up_sewings, test_sewings_sewing);
  ADD ("sewings/turn", NULL, set_up_sewings, test_sewings_turn);
  ADD ("sewings/partner-names", NULL, set_up_sewings, test_sewings_partner_names);
  ADD ("sewings/turn-by-keys", NULL, set_up_sewings, test_sewings_turn_by_keys);
  ADD ("sewings/turn-given-up", NULL, set_up_sewings, test_sewings_turn_given_up);
  ADD ("sewings/walk", NULL, set_up_sewings, test_sewings_walk);
  ADD ("sewings/unheeded", NULL, set_up_sewings, test_sewings_unheeded);
  ADD ("strip/pinhole", NULL, set_up_strip, test_strip_pinhole);
  ADD ("strip/sewing", NULL, set_up_strip, test_strip_sewing);
  ADD ("strip/keys", NULL, set_up_strip, test_strip_keys);
  ADD ("strip/follows", NULL, set_up_strip, test_strip_follows);
  return g_test_run ();
}
