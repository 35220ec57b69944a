/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drawing and changing outlines with the tools, as the canvas would drive them, without a screen.
 */
#include <locale.h>
#include <math.h>

#include <gdk/gdk.h>

#include <measure-tool.h>
#include <motif-box.h>
#include <outline-edit.h>
#include <outline-tool.h>
#include <pen-tool.h>
#include <shape-tool.h>
#include <trace-tool.h>

#define PIXEL 0.1

/* --- A hand -------------------------------------------------------------------------------------
 */

typedef struct {
  PfEditor *editor;
  PfTool *tool;
  char *said;   /* by the tool, last */
  int finished; /* how often it said so */
} Hand;

static void
said (PfTool *tool G_GNUC_UNUSED, const char *text, Hand *hand)
{
  g_free (hand->said);
  hand->said = g_strdup (text);
}

static void
finished (PfTool *tool G_GNUC_UNUSED, Hand *hand)
{
  hand->finished++;
}

/* Takes over both. */
static void
hand_init (Hand *hand, PfEditor *editor, PfTool *tool)
{
  *hand = (Hand){ editor, tool, NULL, 0 };
  pf_drawing_tool_set_snapping (PF_DRAWING_TOOL (tool), (PfSnapping){ 0, false });
  g_signal_connect (tool, "say", G_CALLBACK (said), hand);
  g_signal_connect (tool, "finished", G_CALLBACK (finished), hand);
}

static void
hand_clear (Hand *hand)
{
  g_signal_handlers_disconnect_by_data (hand->tool, hand);
  g_object_unref (hand->tool);
  g_object_unref (hand->editor);
  g_free (hand->said);
}

static PfPointer
pointer (PfPoint at, GdkModifierType state)
{
  return (PfPointer){ .at = at,
                      .pixel = PIXEL,
                      .reach = 8 * PIXEL,
                      .n_press = 1,
                      .button = GDK_BUTTON_PRIMARY,
                      .state = state };
}

static void
press (Hand *hand, PfPoint at, GdkModifierType state)
{
  const PfPointer p = pointer (at, state);
  PF_TOOL_GET_CLASS (hand->tool)->press (hand->tool, &p);
}

/* Ten small moves. */
static void
move (Hand *hand, PfPoint from, PfPoint to, GdkModifierType state)
{
  for (int n = 1; n <= 10; n++)
    {
      const PfPointer p = pointer (
          (PfPoint){ from.x + (to.x - from.x) * n / 10, from.y + (to.y - from.y) * n / 10 }, state);
      PF_TOOL_GET_CLASS (hand->tool)->drag (hand->tool, &p);
    }
}

static void
let_go (Hand *hand, PfPoint at, GdkModifierType state)
{
  const PfPointer p = pointer (at, state);
  PF_TOOL_GET_CLASS (hand->tool)->release (hand->tool, &p);
}

static void
click (Hand *hand, double x, double y, GdkModifierType state)
{
  press (hand, (PfPoint){ x, y }, state);
  let_go (hand, (PfPoint){ x, y }, state);
}

static void
drag (Hand *hand, PfPoint from, PfPoint to, GdkModifierType state)
{
  press (hand, from, state);
  move (hand, from, to, state);
  let_go (hand, to, state);
}

static bool
key (Hand *hand, guint keyval, GdkModifierType state)
{
  return PF_TOOL_GET_CLASS (hand->tool)->key (hand->tool, keyval, state, PIXEL);
}

/* --- What is looked at --------------------------------------------------------------------------
 */

static PfEditor *
empty_editor (void)
{
  g_autoptr (PfDocument) document = pf_document_new ();
  return pf_editor_new (document);
}

static PfEditor *
square_editor (void)
{
  PfEditor *editor = empty_editor ();
  const PfBox box = { { 20, 20 }, { 60, 60 } };
  pf_outline_add_motif (editor, pf_curve_new_rectangle (box), "Draw");
  return editor;
}

static const PfCurve *
curve (Hand *hand, size_t n)
{
  const PfDraft *draft = pf_editor_draft (hand->editor);
  g_assert_nonnull (draft);
  g_assert_cmpuint (n, <, draft->n_curves);
  return draft->curves[n];
}

static void
assert_at (PfPoint a, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (a.x, x, 1e-9);
  g_assert_cmpfloat_with_epsilon (a.y, y, 1e-9);
}

static int
count_undos (PfEditor *editor)
{
  PfHistory *history = pf_editor_history (editor);
  int n = 0;
  for (; pf_history_undo_name (history) != NULL; n++)
    pf_history_undo (history);
  for (int k = 0; k < n; k++)
    pf_history_redo (history);
  return n;
}

/* --- The pen ------------------------------------------------------------------------------------
 */

static void
draw_square (Hand *hand, double side)
{
  click (hand, 10, 10, 0);
  click (hand, 10 + side, 10, 0);
  click (hand, 10 + side, 10 + side, 0);
  click (hand, 10, 10 + side, 0);
}

static void
pen_draws_a_square (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  click (&hand, 10, 10, 0);
  g_assert_cmpuint (pf_editor_document (editor)->n_drafts, ==, 0);
  g_assert_cmpuint (pf_pen_tool_n_nodes (PF_PEN_TOOL (hand.tool)), ==, 1);
  click (&hand, 50, 10, 0);
  /* From the second node on the unfinished outline is in the document. */
  g_assert_cmpuint (pf_editor_document (editor)->n_drafts, ==, 1);
  g_assert_false (curve (&hand, 0)->closed);
  click (&hand, 50, 50, 0);
  click (&hand, 10, 50, 0);
  g_assert_nonnull (pf_editor_trouble (editor, 0, NULL));
  click (&hand, 10.3, 10.2, 0);
  g_assert_true (curve (&hand, 0)->closed);
  g_assert_cmpuint (curve (&hand, 0)->n_nodes, ==, 4);
  g_assert_cmpint (hand.finished, ==, 1);
  g_assert_null (pf_editor_trouble (editor, 0, NULL));
  g_assert_cmpfloat_with_epsilon (pf_region_area (pf_editor_motif (editor, 0)->region), 1600, 1e-9);
  g_assert_cmpint (count_undos (editor), ==, 4);
  hand_clear (&hand);
}

static void
pen_draws_smooth_nodes (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  drag (&hand, (PfPoint){ 10, 30 }, (PfPoint){ 10, 20 }, 0);
  drag (&hand, (PfPoint){ 50, 30 }, (PfPoint){ 50, 40 }, 0);
  const PfNode *nodes = curve (&hand, 0)->nodes;
  g_assert_true (nodes[0].smooth && nodes[1].smooth);
  assert_at (nodes[0].out, 10, 20);
  assert_at (nodes[0].in, 10, 40);
  assert_at (nodes[1].in, 50, 20);
  /* Two nodes and curved sides are enough. */
  g_assert_true (key (&hand, GDK_KEY_Return, 0));
  g_assert_true (curve (&hand, 0)->closed);
  g_assert_nonnull (pf_editor_motif (editor, 0));
  hand_clear (&hand);
}

static void
pen_takes_back_and_ends (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  PfPenTool *pen = PF_PEN_TOOL (hand.tool);
  draw_square (&hand, 40);
  for (size_t n = 4; n > 0; n--)
    {
      g_assert_cmpuint (pf_pen_tool_n_nodes (pen), ==, n);
      key (&hand, GDK_KEY_BackSpace, 0);
    }
  g_assert_cmpuint (pf_pen_tool_n_nodes (pen), ==, 0);
  g_assert_cmpuint (pf_editor_document (editor)->n_drafts, ==, 0);
  click (&hand, 10, 10, 0);
  click (&hand, 50, 10, 0);
  key (&hand, GDK_KEY_Return, 0);
  g_assert_nonnull (hand.said);
  key (&hand, GDK_KEY_Escape, 0);
  g_assert_cmpint (hand.finished, ==, 1);
  /* The half stays, and the pen goes on with it. */
  g_assert_cmpuint (pf_pen_tool_n_nodes (pen), ==, 2);
  click (&hand, 50, 50, 0);
  g_assert_cmpuint (curve (&hand, 0)->n_nodes, ==, 3);
  hand_clear (&hand);
}

static void
a_cancelled_press_draws_nothing (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  press (&hand, (PfPoint){ 10, 10 }, 0);
  move (&hand, (PfPoint){ 10, 10 }, (PfPoint){ 20, 10 }, 0);
  PF_TOOL_GET_CLASS (hand.tool)->cancel (hand.tool);
  let_go (&hand, (PfPoint){ 20, 10 }, 0);
  g_assert_cmpuint (pf_pen_tool_n_nodes (PF_PEN_TOOL (hand.tool)), ==, 0);
  hand_clear (&hand);
}

static void
pen_draws_a_hole (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  pf_drawing_tool_set_hole (PF_DRAWING_TOOL (hand.tool), true);
  click (&hand, 30, 30, 0);
  click (&hand, 40, 30, 0);
  click (&hand, 40, 40, 0);
  key (&hand, GDK_KEY_Return, 0);
  g_assert_cmpuint (pf_editor_document (editor)->n_drafts, ==, 1);
  g_assert_cmpuint (pf_editor_draft (editor)->n_curves, ==, 2);
  g_assert_cmpfloat_with_epsilon (pf_region_area (pf_editor_motif (editor, 0)->region), 1600 - 50,
                                  1e-9);
  hand_clear (&hand);
}

static void
no_hole_without_a_motif (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  pf_drawing_tool_set_hole (PF_DRAWING_TOOL (hand.tool), true);
  click (&hand, 30, 30, 0);
  g_assert_nonnull (hand.said);
  g_assert_cmpuint (pf_pen_tool_n_nodes (PF_PEN_TOOL (hand.tool)), ==, 0);
  hand_clear (&hand);
}

static void
shift_draws_level (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  click (&hand, 10, 10, 0);
  click (&hand, 50, 13, GDK_SHIFT_MASK);
  assert_at (curve (&hand, 0)->nodes[1].at, 50, 10);
  hand_clear (&hand);
}

static void
pen_draws_by_keys_alone (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_pen_tool_new (editor));
  static const guint ways[] = { GDK_KEY_Right, GDK_KEY_Down, GDK_KEY_Left };
  key (&hand, GDK_KEY_n, 0);
  for (size_t w = 0; w < G_N_ELEMENTS (ways); w++)
    {
      key (&hand, ways[w], GDK_SHIFT_MASK);
      key (&hand, ways[w], GDK_SHIFT_MASK);
      key (&hand, GDK_KEY_n, 0);
    }
  key (&hand, GDK_KEY_Return, 0);
  g_assert_cmpfloat_with_epsilon (pf_region_area (pf_editor_motif (editor, 0)->region), 400, 1e-9);
  hand_clear (&hand);
}

/* --- Nodes, handles, segments -------------------------------------------------------------------
 */

static void
a_drag_is_one_change (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  g_autoptr (PfCurve) before = pf_curve_ref ((PfCurve *) curve (&hand, 0));
  drag (&hand, (PfPoint){ 20.2, 19.9 }, (PfPoint){ 15.2, 9.9 }, 0);
  assert_at (curve (&hand, 0)->nodes[0].at, 15, 10);
  g_assert_cmpint (count_undos (editor), ==, 2);
  pf_history_undo (pf_editor_history (editor));
  g_assert_true (pf_curve_equal (curve (&hand, 0), before));
  hand_clear (&hand);
}

static void
escape_restores (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  const PfDocument *before = pf_editor_document (editor);
  press (&hand, (PfPoint){ 60, 60 }, 0);
  move (&hand, (PfPoint){ 60, 60 }, (PfPoint){ 80, 90 }, 0);
  assert_at (curve (&hand, 0)->nodes[2].at, 80, 90);
  PF_TOOL_GET_CLASS (hand.tool)->cancel (hand.tool);
  g_assert_true (pf_editor_document (editor) == before);
  let_go (&hand, (PfPoint){ 80, 90 }, 0);
  g_assert_true (pf_editor_document (editor) == before);
  hand_clear (&hand);
}

static void
a_trembling_hand_moves_nothing (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  const PfDocument *before = pf_editor_document (editor);
  drag (&hand, (PfPoint){ 20, 20 }, (PfPoint){ 20.2, 20.1 }, 0);
  g_assert_true (pf_editor_document (editor) == before);
  g_assert_cmpuint (pf_outline_tool_nodes (PF_OUTLINE_TOOL (hand.tool))->len, ==, 1);
  g_assert_cmpint (pf_editor_selected (editor).kind, ==, PF_PICK_NODE);
  hand_clear (&hand);
}

static void
several_nodes_move_together (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  const PfNodeSet *nodes = pf_outline_tool_nodes (PF_OUTLINE_TOOL (hand.tool));
  click (&hand, 20, 20, 0);
  click (&hand, 60, 20, GDK_SHIFT_MASK);
  g_assert_cmpuint (nodes->len, ==, 2);
  drag (&hand, (PfPoint){ 60, 20 }, (PfPoint){ 60, 10 }, 0);
  assert_at (curve (&hand, 0)->nodes[0].at, 20, 10);
  assert_at (curve (&hand, 0)->nodes[1].at, 60, 10);
  assert_at (curve (&hand, 0)->nodes[2].at, 60, 60);
  /* Shift takes one out again; a drag beside the motif chooses what it goes round. */
  click (&hand, 60, 10, GDK_SHIFT_MASK);
  g_assert_cmpuint (nodes->len, ==, 1);
  drag (&hand, (PfPoint){ 10, 50 }, (PfPoint){ 70, 70 }, 0);
  g_assert_cmpuint (nodes->len, ==, 2);
  g_assert_true (pf_node_set_has (nodes, (PfNodeRef){ 0, 2 }));
  g_assert_true (pf_node_set_has (nodes, (PfNodeRef){ 0, 3 }));
  hand_clear (&hand);
}

static void
segments_bend_and_handles_turn (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  drag (&hand, (PfPoint){ 40, 20 }, (PfPoint){ 40, 10 }, 0);
  g_assert_false (pf_curve_segment_straight (curve (&hand, 0), 0));
  const PfPoint middle = pf_curve_point (curve (&hand, 0), 0, 0.5);
  assert_at (middle, 40, 10);
  g_assert_cmpint (count_undos (editor), ==, 2);
  /* A click on it chooses its ends; then their handles can be dragged. */
  click (&hand, 40, 10, 0);
  const PfPoint out = curve (&hand, 0)->nodes[0].out;
  drag (&hand, out, (PfPoint){ 25, 5 }, 0);
  assert_at (curve (&hand, 0)->nodes[0].out, 25, 5);
  hand_clear (&hand);
}

static void
a_double_click_adds_a_node (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  PfPointer p = pointer ((PfPoint){ 30, 60 }, 0);
  p.n_press = 2;
  PF_TOOL_GET_CLASS (hand.tool)->press (hand.tool, &p);
  PF_TOOL_GET_CLASS (hand.tool)->release (hand.tool, &p);
  g_assert_cmpuint (curve (&hand, 0)->n_nodes, ==, 5);
  const PfPick pick = pf_editor_selected (editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_NODE);
  g_assert_cmpfloat_with_epsilon (curve (&hand, 0)->nodes[pick.index].at.x, 30, 0.01);
  hand_clear (&hand);
}

static void
keys_walk_move_and_change (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  for (guint n = 0; n < 4; n++)
    {
      g_assert_true (key (&hand, GDK_KEY_Tab, 0));
      g_assert_cmpuint (pf_editor_selected (editor).index, ==, n);
    }
  /* Past the last one the keyboard goes on to the next widget. */
  g_assert_false (key (&hand, GDK_KEY_Tab, 0));
  g_assert_true (key (&hand, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  g_assert_cmpuint (pf_editor_selected (editor).index, ==, 2);
  for (int n = 0; n < 3; n++)
    key (&hand, GDK_KEY_Right, 0);
  key (&hand, GDK_KEY_Down, GDK_SHIFT_MASK);
  assert_at (curve (&hand, 0)->nodes[2].at, 60.3, 61);
  key (&hand, GDK_KEY_s, 0);
  g_assert_true (curve (&hand, 0)->nodes[2].smooth);
  key (&hand, GDK_KEY_c, 0);
  g_assert_false (curve (&hand, 0)->nodes[2].smooth);
  key (&hand, GDK_KEY_l, 0);
  g_assert_true (pf_curve_segment_straight (curve (&hand, 0), 2));
  key (&hand, GDK_KEY_b, 0);
  g_assert_false (pf_curve_segment_straight (curve (&hand, 0), 2));
  key (&hand, GDK_KEY_n, 0);
  g_assert_cmpuint (curve (&hand, 0)->n_nodes, ==, 5);
  key (&hand, GDK_KEY_Delete, 0);
  g_assert_cmpuint (curve (&hand, 0)->n_nodes, ==, 4);
  g_assert_cmpint (pf_editor_selected (editor).kind, ==, PF_PICK_NONE);
  /* Drawn; moved, as one change; smooth, corner, straight, curved, added, deleted. */
  g_assert_cmpint (count_undos (editor), ==, 8);
  hand_clear (&hand);
}

static void
an_outline_keeps_its_last_nodes (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  const PfDocument *before = pf_editor_document (editor);
  key (&hand, GDK_KEY_a, GDK_CONTROL_MASK);
  g_assert_cmpuint (pf_outline_tool_nodes (PF_OUTLINE_TOOL (hand.tool))->len, ==, 4);
  key (&hand, GDK_KEY_Delete, 0);
  g_assert_nonnull (hand.said);
  g_assert_true (pf_editor_document (editor) == before);
  hand_clear (&hand);
}

static void
a_hole_goes_with_its_nodes (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  const PfBox hole = { { 30, 30 }, { 40, 40 } };
  pf_outline_add_hole (editor, pf_curve_new_rectangle (hole), "Draw");
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  drag (&hand, (PfPoint){ 28, 28 }, (PfPoint){ 42, 42 }, GDK_SHIFT_MASK);
  g_assert_cmpuint (pf_outline_tool_nodes (PF_OUTLINE_TOOL (hand.tool))->len, ==, 4);
  key (&hand, GDK_KEY_Delete, 0);
  g_assert_cmpuint (pf_editor_draft (editor)->n_curves, ==, 1);
  g_assert_cmpuint (curve (&hand, 0)->n_nodes, ==, 4);
  hand_clear (&hand);
}

static void
the_box_scales_and_turns (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  PfBox box;
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  /* The grip at the right: twice as wide. */
  const PfPoint right = pf_grip_place ((PfBox){ { 20, 20 }, { 60, 60 } }, PF_GRIP_RIGHT, PIXEL);
  drag (&hand, right, (PfPoint){ right.x + 40, 45 }, 0);
  g_assert_true (pf_outline_box (pf_editor_draft (editor), &box));
  assert_at (box.min, 20, 20);
  assert_at (box.max, 100, 60);
  /* The grip above turns; by a quarter, what was wide is high. */
  const PfPoint turn = pf_grip_place (box, PF_GRIP_TURN, PIXEL);
  drag (&hand, turn, (PfPoint){ 90, 40 }, 0);
  g_assert_true (pf_outline_box (pf_editor_draft (editor), &box));
  assert_at (box.min, 40, 0);
  assert_at (box.max, 80, 80);
  /* Within: the whole motif moves. */
  drag (&hand, (PfPoint){ 55, 35 }, (PfPoint){ 60, 45 }, 0);
  g_assert_true (pf_outline_box (pf_editor_draft (editor), &box));
  assert_at (box.min, 45, 10);
  g_assert_cmpint (count_undos (editor), ==, 4);
  hand_clear (&hand);
}

static void
what_follows_is_left_alone (void)
{
  Hand hand;
  PfEditor *editor = square_editor ();
  const PfAxis axis = { { 70, 0 }, 90 };
  pf_editor_change_document (
      editor, pf_document_with_mirror_image (pf_editor_document (editor), 0, axis), "Mirror");
  hand_init (&hand, editor, pf_outline_tool_new (editor));
  const PfDocument *before = pf_editor_document (editor);
  /* Its image lies from 80 to 120 mm. */
  drag (&hand, (PfPoint){ 100, 40 }, (PfPoint){ 110, 40 }, 0);
  g_assert_cmpint (pf_editor_active (editor), ==, 1);
  g_assert_true (pf_editor_document (editor) == before);
  g_assert_nonnull (hand.said);
  hand_clear (&hand);
}

/* --- Shapes, lines, traces ----------------------------------------------------------------------
 */

static void
shapes_are_dragged (void)
{
  for (int ellipse = 0; ellipse < 2; ellipse++)
    {
      Hand hand;
      PfEditor *editor = empty_editor ();
      hand_init (&hand, editor, pf_shape_tool_new (editor, ellipse));
      drag (&hand, (PfPoint){ 50, 60 }, (PfPoint){ 10, 40 }, 0);
      const double area = pf_region_area (pf_editor_motif (editor, 0)->region);
      g_assert_cmpfloat_with_epsilon (area, ellipse ? G_PI * 20 * 10 : 40 * 20, 0.5);
      drag (&hand, (PfPoint){ 100, 100 }, (PfPoint){ 120, 130 }, GDK_SHIFT_MASK);
      PfBox box;
      g_assert_true (pf_outline_box (pf_editor_draft (editor), &box));
      g_assert_cmpfloat_with_epsilon (box.max.x - box.min.x, 30, 1e-9);
      g_assert_cmpfloat_with_epsilon (box.max.y - box.min.y, 30, 1e-9);
      g_assert_cmpint (count_undos (editor), ==, 2);
      click (&hand, 5, 5, 0);
      g_assert_nonnull (hand.said);
      hand_clear (&hand);
    }
}

static void
lines_are_kept_in_their_own_coordinates (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_measure_tool_new (editor));
  PfMeasureTool *measure = PF_MEASURE_TOOL (hand.tool);
  const PfAffine map = { 0.1, 0, 0, 0.1, 5, 5 };
  PfPoint a, b;
  pf_measure_tool_set_map (measure, map);
  pf_measure_tool_set_line (measure, 0, (PfPoint){ 100, 100 }, (PfPoint){ 500, 100 });
  g_assert_cmpfloat_with_epsilon (pf_measure_tool_length (measure, 0), 40, 1e-9);
  drag (&hand, (PfPoint){ 55, 15 }, (PfPoint){ 65, 25 }, 0);
  pf_measure_tool_get_line (measure, 0, &a, &b);
  assert_at (a, 100, 100);
  assert_at (b, 600, 200);
  press (&hand, (PfPoint){ 15, 15 }, 0);
  move (&hand, (PfPoint){ 15, 15 }, (PfPoint){ 30, 30 }, 0);
  PF_TOOL_GET_CLASS (hand.tool)->cancel (hand.tool);
  pf_measure_tool_get_line (measure, 0, &a, &b);
  assert_at (a, 100, 100);
  g_assert_true (key (&hand, GDK_KEY_Tab, 0));
  key (&hand, GDK_KEY_Right, 0);
  pf_measure_tool_get_line (measure, 0, &a, &b);
  assert_at (b, 601, 200);
  g_assert_false (key (&hand, GDK_KEY_Tab, 0));
  hand_clear (&hand);
}

static void
found_outlines_are_taken_over_as_chosen (void)
{
  Hand hand;
  PfEditor *editor = empty_editor ();
  hand_init (&hand, editor, pf_trace_tool_new (editor));
  PfTraceTool *trace = PF_TRACE_TOOL (hand.tool);
  static const struct {
    PfBox box;
    bool outer;
  } found[] = {
    { { { 10, 10 }, { 50, 50 } }, true },
    { { { 20, 20 }, { 30, 30 } }, false },
    { { { 60, 10 }, { 70, 20 } }, true },
    { { { 80, 10 }, { 90, 20 } }, true },
  };
  bool outer[G_N_ELEMENTS (found)];
  g_autoptr (GPtrArray) curves = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_curve_unref);
  for (size_t n = 0; n < G_N_ELEMENTS (found); n++)
    {
      g_ptr_array_add (curves, pf_curve_new_rectangle (found[n].box));
      outer[n] = found[n].outer;
    }
  pf_trace_tool_set_found (trace, curves, outer);
  g_assert_cmpuint (pf_trace_tool_n_found (trace), ==, 3);
  click (&hand, 65, 10.2, 0);
  g_assert_cmpuint (pf_trace_tool_n_chosen (trace), ==, 2);
  key (&hand, GDK_KEY_Return, 0);
  const PfDocument *document = pf_editor_document (editor);
  g_assert_cmpuint (document->n_drafts, ==, 2);
  g_assert_cmpuint (document->drafts[0]->n_curves, ==, 2);
  g_assert_cmpuint (document->drafts[1]->n_curves, ==, 1);
  g_assert_cmpint (count_undos (editor), ==, 1);
  g_assert_cmpuint (pf_trace_tool_n_found (trace), ==, 0);
  hand_clear (&hand);
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pen/square", pen_draws_a_square);
  g_test_add_func ("/pen/smooth", pen_draws_smooth_nodes);
  g_test_add_func ("/pen/back", pen_takes_back_and_ends);
  g_test_add_func ("/pen/cancel", a_cancelled_press_draws_nothing);
  g_test_add_func ("/pen/hole", pen_draws_a_hole);
  g_test_add_func ("/pen/no-hole", no_hole_without_a_motif);
  g_test_add_func ("/pen/shift", shift_draws_level);
  g_test_add_func ("/pen/keys", pen_draws_by_keys_alone);
  g_test_add_func ("/outline/one-change", a_drag_is_one_change);
  g_test_add_func ("/outline/escape", escape_restores);
  g_test_add_func ("/outline/tremble", a_trembling_hand_moves_nothing);
  g_test_add_func ("/outline/several", several_nodes_move_together);
  g_test_add_func ("/outline/segments", segments_bend_and_handles_turn);
  g_test_add_func ("/outline/double-click", a_double_click_adds_a_node);
  g_test_add_func ("/outline/keys", keys_walk_move_and_change);
  g_test_add_func ("/outline/last-nodes", an_outline_keeps_its_last_nodes);
  g_test_add_func ("/outline/hole", a_hole_goes_with_its_nodes);
  g_test_add_func ("/outline/box", the_box_scales_and_turns);
  g_test_add_func ("/outline/follows", what_follows_is_left_alone);
  g_test_add_func ("/shape/drag", shapes_are_dragged);
  g_test_add_func ("/measure/coordinates", lines_are_kept_in_their_own_coordinates);
  g_test_add_func ("/trace/take-over", found_outlines_are_taken_over_as_chosen);
  return g_test_run ();
}
