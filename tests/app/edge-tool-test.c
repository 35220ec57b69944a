/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool of the stage "Edge" on a rectangle of 40 by 30 mm. Its four corners get a pinhole, and
 * its sides are divided into 20 and 15 parts of 2 mm: pinhole k lies 2·k mm along.
 */
#include <edge-tool.h>
#include <pinhole-steps.h>

#include "motif-samples.h"

#define SLIP 1e-9

typedef struct {
  PfEditor *editor;
  PfTool *tool;
  PfDocument *before;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->editor = sample_editor (data != NULL ? sample_frame (40, 30, 10, NULL)
                                          : sample_rectangle (40, 30, "torchon"));
  f->tool = pf_edge_tool_new (f->editor);
  f->before = pf_document_ref (pf_editor_document (f->editor));
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_clear_object (&f->tool);
  g_clear_object (&f->editor);
  g_clear_pointer (&f->before, pf_document_unref);
}

static double
pinhole (Fixture *f, size_t n)
{
  g_assert_cmpuint (n, <, motif_of (f->editor)->edges[0].n_pinholes);
  return motif_of (f->editor)->edges[0].pinholes[n];
}

static void
select_pinhole (Fixture *f, guint32 n)
{
  pf_pinhole_select (f->editor, 0, n);
  g_assert_cmpint (pf_editor_selected (f->editor).kind, ==, PF_PICK_PINHOLE);
}

static void
assert_undone (Fixture *f)
{
  g_assert_cmpint (count_changes (f->editor), ==, 1);
  pf_history_undo (pf_editor_history (f->editor));
  g_assert_true (pf_editor_document (f->editor) == f->before);
}

/* --- Pinholes -----------------------------------------------------------------------------------
 */

static void
test_drag (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_cmpuint (motif_of (f->editor)->edges[0].n_pinholes, ==, 70);
  drag_from_to (f->tool, (PfPoint){ 6, 0.2 }, (PfPoint){ 6.7, 0.6 }, 0);
  g_assert_false (edge_of (f->editor)->even);
  g_assert_cmpuint (edge_of (f->editor)->n_pinholes, ==, 70);
  for (size_t n = 0; n < 70; n++)
    g_assert_cmpfloat_with_epsilon (pinhole (f, n), n == 3 ? 6.7 : 2.0 * (double) n, SLIP);
  const PfPick pick = pf_editor_selected (f->editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_PINHOLE);
  g_assert_cmpuint (pick.index, ==, 3);
  assert_undone (f);
  g_assert_true (edge_of (f->editor)->even);
}

/* It stops 0.1 mm before the next one. */
static void
test_drag_too_far (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  drag_from_to (f->tool, (PfPoint){ 6, 0 }, (PfPoint){ 15, 0 }, 0);
  g_assert_cmpfloat_with_epsilon (pinhole (f, 3), 7.9, SLIP);
  drag_from_to (f->tool, (PfPoint){ 2, 0 }, (PfPoint){ 0, 9 }, 0);
  g_assert_cmpfloat_with_epsilon (pinhole (f, 1), 0.1, SLIP);
}

/* Back over the loop's first point, it becomes the last of the list. */
static void
test_drag_over_start (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  drag_from_to (f->tool, (PfPoint){ 0, 0 }, (PfPoint){ 0, 1.5 }, 0);
  g_assert_cmpfloat_with_epsilon (pinhole (f, 0), 2, SLIP);
  g_assert_cmpfloat_with_epsilon (pinhole (f, 69), 138.5, SLIP);
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 69);
}

static void
test_click_and_escape (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_true (press (f->tool, (PfPoint){ 6, 0 }, 1, 0));
  release (f->tool, (PfPoint){ 6, 0 });
  g_assert_true (pf_editor_document (f->editor) == f->before);
  g_assert_true (press (f->tool, (PfPoint){ 6, 0 }, 1, 0));
  drag (f->tool, (PfPoint){ 7, 0 });
  g_assert_false (pf_editor_document (f->editor) == f->before);
  cancel (f->tool);
  g_assert_true (pf_editor_document (f->editor) == f->before);
  g_assert_cmpint (count_changes (f->editor), ==, 0);
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 3);
}

static void
test_add (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  press (f->tool, (PfPoint){ 7, 0.1 }, 1, 0);
  release (f->tool, (PfPoint){ 7, 0.1 });
  press (f->tool, (PfPoint){ 7, 0.1 }, 2, 0);
  release (f->tool, (PfPoint){ 7, 0.1 });
  g_assert_cmpuint (edge_of (f->editor)->n_pinholes, ==, 71);
  g_assert_cmpfloat_with_epsilon (pinhole (f, 4), 7, SLIP);
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 4);
  g_assert_false (pf_pinhole_add (f->editor, 0, 7.02));
  assert_undone (f);
}

static void
test_keys (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const struct {
    guint keyval;
    GdkModifierType state;
    double turn, by;
  } keys[] = {
    { GDK_KEY_Right, 0, 0, 0.1 },
    { GDK_KEY_Left, 0, 0, -0.1 },
    { GDK_KEY_Right, GDK_SHIFT_MASK, 0, 1 },
    { GDK_KEY_Up, 0, 0, 0 },
    /* The sheet turned by a quarter, clockwise: what ran right runs down. */
    { GDK_KEY_Down, 0, 90, 0.1 },
    { GDK_KEY_Up, 0, 90, -0.1 },
    { GDK_KEY_Right, 0, 90, 0 },
    { GDK_KEY_Right, 0, 180, -0.1 },
  };
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    {
      select_pinhole (f, 5);
      pf_edge_tool_set_turn (PF_EDGE_TOOL (f->tool), keys[k].turn);
      const double before = pinhole (f, 5);
      g_assert_true (key (f->tool, keys[k].keyval, keys[k].state));
      g_assert_cmpfloat_with_epsilon (pinhole (f, 5), before + keys[k].by, SLIP);
    }
  /* Steps in a row are one change. */
  assert_undone (f);
}

static void
test_remove (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  select_pinhole (f, 69);
  g_assert_true (key (f->tool, GDK_KEY_Delete, 0));
  g_assert_cmpuint (edge_of (f->editor)->n_pinholes, ==, 69);
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 0);
  assert_undone (f);
  pf_editor_select (f->editor, PF_PICK_NOTHING);
  g_assert_false (key (f->tool, GDK_KEY_Delete, 0));
}

static void
test_walk (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  for (guint32 n = 0; n < 70; n++)
    {
      g_assert_true (key (f->tool, GDK_KEY_Tab, 0));
      g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, n);
    }
  g_assert_false (key (f->tool, GDK_KEY_Tab, 0)); /* the keyboard goes on to the next widget */
  g_assert_true (key (f->tool, GDK_KEY_ISO_Left_Tab, 0));
  g_assert_cmpuint (pf_editor_selected (f->editor).index, ==, 68);
  g_assert_true (key (f->tool, GDK_KEY_Insert, 0));
  g_assert_cmpfloat_with_epsilon (pinhole (f, 69), 137, SLIP);
  g_assert_true (key (f->tool, GDK_KEY_Escape, 0));
  g_assert_false (key (f->tool, GDK_KEY_Escape, 0));
}

/* --- Stretches ----------------------------------------------------------------------------------
 */

static void
assert_stretch (Fixture *f, double from, double to)
{
  g_assert_cmpuint (edge_of (f->editor)->n_stretches, ==, 1);
  const PfEdgeStretch stretch = edge_of (f->editor)->stretches[0];
  g_assert_cmpfloat_with_epsilon (stretch.from, from, SLIP);
  g_assert_cmpfloat_with_epsilon (stretch.to, to, SLIP);
  g_assert_cmpint (stretch.kind, ==, PF_EDGE_CLOTH_STITCH);
}

/* Forwards, backwards, over the first point and round more than half of the loop; the ends go to
 * pinholes near by. */
static void
test_stretch (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  drag_from_to (f->tool, (PfPoint){ 4.1, 0 }, (PfPoint){ 21, 0 }, GDK_CONTROL_MASK);
  assert_stretch (f, 4, 21);
  g_assert_true (edge_of (f->editor)->even);
  assert_undone (f);
  drag_from_to (f->tool, (PfPoint){ 21, 0 }, (PfPoint){ 4.1, 0 }, GDK_CONTROL_MASK);
  assert_stretch (f, 4, 21);
  assert_undone (f);
  drag_from_to (f->tool, (PfPoint){ 0, 7 }, (PfPoint){ 5, 0 }, GDK_CONTROL_MASK);
  assert_stretch (f, 133, 5);
  g_assert_cmpint (pf_edge_kind_at (&motif_of (f->editor)->edges[0], 139), ==,
                   PF_EDGE_CLOTH_STITCH);
  assert_undone (f);
  const PfPoint way[] = { { 5, 0 }, { 38, 0 }, { 40, 20 }, { 30, 30 }, { 3, 30 }, { 0, 25 } };
  g_assert_true (press (f->tool, way[0], 1, GDK_CONTROL_MASK));
  for (gsize w = 1; w < G_N_ELEMENTS (way); w++)
    drag (f->tool, way[w]);
  release (f->tool, way[G_N_ELEMENTS (way) - 1]);
  assert_stretch (f, 5, 115);
}

static void
test_marking (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfEdgeTool *tool = PF_EDGE_TOOL (f->tool);
  pf_edge_tool_set_marking (tool, true);
  drag_from_to (f->tool, (PfPoint){ 6, 0 }, (PfPoint){ 12, 0 }, 0);
  assert_stretch (f, 6, 12);
  g_assert_true (edge_of (f->editor)->even);
  g_assert_false (pf_edge_tool_marking (tool));
  pf_edge_tool_set_marking (tool, true);
  g_assert_true (press (f->tool, (PfPoint){ 20, 0 }, 1, 0));
  drag (f->tool, (PfPoint){ 28, 0 });
  g_assert_cmpuint (edge_of (f->editor)->n_stretches, ==, 2);
  cancel (f->tool);
  assert_stretch (f, 6, 12);
  g_assert_false (pf_edge_tool_marking (tool));
}

/* --- Which loop, which motif --------------------------------------------------------------------
 */

/* A press up to 12 pixels (1.2 mm here) beside the outline means it, and the pointer's shape says
 * so; farther away the view is moved. */
static void
test_beside_the_outline (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfToolClass *class = PF_TOOL_GET_CLASS (f->tool);
  const PfPointer near = hand_at ((PfPoint){ 7, -1.15 }), far = hand_at ((PfPoint){ 7, -1.3 });
  motif_of (f->editor);
  class->hover (f->tool, &near);
  g_assert_cmpstr (class->cursor (f->tool), ==, "crosshair");
  class->hover (f->tool, &far);
  g_assert_cmpstr (class->cursor (f->tool), ==, "all-scroll");
  g_assert_false (press (f->tool, far.at, 1, 0));
  drag_from_to (f->tool, near.at, (PfPoint){ 15, -2 }, 0);
  g_assert_cmpuint (edge_of (f->editor)->n_stretches, ==, 1);
  assert_undone (f);
  /* Once she has said that she marks a stretch, from farther away. */
  pf_edge_tool_set_marking (PF_EDGE_TOOL (f->tool), true);
  class->hover (f->tool, &far);
  g_assert_cmpstr (class->cursor (f->tool), ==, "crosshair");
  drag_from_to (f->tool, (PfPoint){ 7, -3.5 }, (PfPoint){ 15, -2 }, 0);
  g_assert_cmpuint (edge_of (f->editor)->n_stretches, ==, 1);
}

/* Its number stands for a pinhole, whatever is nearer. */
static void
test_number (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfPointer pointer = hand_at ((PfPoint){ 20, 15 });
  motif_of (f->editor);
  pointer.number = (PfPick){ .kind = PF_PICK_PINHOLE, .index = 9 };
  g_assert_true (PF_TOOL_GET_CLASS (f->tool)->press (f->tool, &pointer));
  g_assert_true (pf_pick_equal (pf_editor_selected (f->editor), pointer.number));
  cancel (f->tool);
}

static void
test_hole (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfEdgeTool *tool = PF_EDGE_TOOL (f->tool);
  g_assert_cmpuint (pf_edge_tool_loop (tool), ==, 0);
  drag_from_to (f->tool, (PfPoint){ 17, 10 }, (PfPoint){ 17.5, 10 }, 0);
  g_assert_cmpuint (pf_edge_tool_loop (tool), ==, 1);
  g_assert_true (edge_of (f->editor)->even);
  g_assert_false (pf_editor_draft (f->editor)->edges[1].even);
  g_assert_cmpfloat_with_epsilon (motif_of (f->editor)->edges[1].pinholes[1], 2.5, SLIP);
  select_pinhole (f, 2);
  g_assert_cmpuint (pf_edge_tool_loop (tool), ==, 0);
}

/* A motif that follows another one is shown, not changed. */
static void
test_follower (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfAxis axis = { { 50, 0 }, 90 };
  pf_editor_change_document (f->editor, pf_document_with_mirror_image (f->before, 0, axis),
                             "Mirror image");
  pf_editor_set_active (f->editor, 1);
  PfDocument *document = pf_editor_document (f->editor);
  const PfPlace place = { 0, motif_of (f->editor)->edges[0].pinholes[3] };
  const PfPoint at = pf_region_point (motif_of (f->editor)->region, place);
  g_assert_false (press (f->tool, at, 1, 0));
  g_assert_cmpint (pf_editor_selected (f->editor).kind, ==, PF_PICK_PINHOLE);
  key (f->tool, GDK_KEY_Right, 0);
  key (f->tool, GDK_KEY_Down, 0);
  g_assert_false (key (f->tool, GDK_KEY_Delete, 0));
  g_assert_true (pf_editor_document (f->editor) == document);
}

#define ADD(name, data, test)                                                                      \
  g_test_add ("/edge-tool/" name, Fixture, data, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("drag", NULL, test_drag);
  ADD ("drag-too-far", NULL, test_drag_too_far);
  ADD ("drag-over-start", NULL, test_drag_over_start);
  ADD ("click-and-escape", NULL, test_click_and_escape);
  ADD ("add", NULL, test_add);
  ADD ("keys", NULL, test_keys);
  ADD ("remove", NULL, test_remove);
  ADD ("walk", NULL, test_walk);
  ADD ("stretch", NULL, test_stretch);
  ADD ("marking", NULL, test_marking);
  ADD ("beside-the-outline", NULL, test_beside_the_outline);
  ADD ("number", NULL, test_number);
  ADD ("hole", "with a hole", test_hole);
  ADD ("follower", NULL, test_follower);
  return g_test_run ();
}
