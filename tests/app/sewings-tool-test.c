/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tool of the stage "Sewings", and the changes that it and the panel make, on an armure in a
 * rectangle.
 */
#include <math.h>

#include <canvas.h>
#include <sewing-walk.h>
#include <sewing-work.h>
#include <sewings-tool.h>

#include "motif-samples.h"

#define SLIP 1e-9

typedef struct {
  PfEditor *editor;
  PfTool *tool;
  PfDocument *before;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  f->editor = sample_editor (sample_rectangle (47, 38, "armure"));
  f->tool = pf_sewings_tool_new (f->editor);
  f->before = pf_document_ref (pf_editor_document (f->editor));
  motif_of (f->editor);
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_clear_object (&f->tool);
  g_clear_object (&f->editor);
  g_clear_pointer (&f->before, pf_document_unref);
}

static const PfFilling *
filling (Fixture *f)
{
  return motif_of (f->editor)->filling;
}

static const PfSewing *
selected_sewing (Fixture *f)
{
  const PfPick pick = pf_editor_selected (f->editor);
  g_assert_cmpint (pick.kind, ==, PF_PICK_SEWING);
  return &filling (f)->sewings[pick.index];
}

static void
select_sewing (Fixture *f, guint32 sewing)
{
  pf_editor_select (f->editor, (PfPick){ .kind = PF_PICK_SEWING, .index = sewing });
}

/* A sewing of that kind that has its place to itself, so that a press finds it. */
static guint32
find_sewing (Fixture *f, PfPairKind kind)
{
  const PfFilling *filled = filling (f);
  for (guint32 s = 0; s < filled->n_sewings; s++)
    {
      bool alone = filled->sewings[s].kind == kind;
      for (guint32 t = 0; t < filled->n_sewings && alone; t++)
        alone = t == s || hypot (filled->sewings[s].at.x - filled->sewings[t].at.x,
                                 filled->sewings[s].at.y - filled->sewings[t].at.y) > 0.1;
      if (alone)
        return s;
    }
  g_assert_not_reached ();
}

static void
assert_undone (Fixture *f)
{
  g_assert_cmpint (count_changes (f->editor), ==, 1);
  pf_history_undo (pf_editor_history (f->editor));
  g_assert_true (pf_editor_document (f->editor) == f->before);
}

/* --- Walking ------------------------------------------------------------------------------------
 */

/* Each sewing once, round the loop, and then the first again. */
static void
test_walk (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const size_t n = filling (f)->n_sewings;
  g_autofree bool *seen = g_new0 (bool, n);
  double last = -1;
  pf_sewings_tool_set_walk (PF_SEWINGS_TOOL (f->tool), PF_WALK_SEWINGS);
  for (size_t s = 0; s < n; s++)
    {
      g_assert_true (key (f->tool, GDK_KEY_n, 0));
      const PfPick pick = pf_editor_selected (f->editor);
      g_assert_false (seen[pick.index]);
      seen[pick.index] = true;
      g_assert_cmpfloat (selected_sewing (f)->target.along, >=, last);
      last = selected_sewing (f)->target.along;
    }
  const PfPick end = pf_editor_selected (f->editor);
  g_assert_false (key (f->tool, GDK_KEY_Tab, 0));
  g_assert_true (key (f->tool, GDK_KEY_n, 0));
  g_assert_true (key (f->tool, GDK_KEY_p, 0));
  g_assert_true (pf_pick_equal (pf_editor_selected (f->editor), end));
}

static void
test_walk_repeats (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GArray) steps = pf_walk_steps (f->editor, PF_WALK_REPEATS);
  const PfCounts counts = filling (f)->counts;
  g_assert_cmpuint (steps->len, ==, counts.partial + counts.left_out);
  g_assert_cmpuint (steps->len, >, 0);
  g_autoptr (GArray) off = pf_walk_steps (f->editor, PF_WALK_TO_LOOK);
  g_assert_cmpuint (off->len, >=, counts.off_line);
  for (guint s = 0; s < off->len; s++)
    g_assert_cmpint (g_array_index (off, PfPick, s).kind, ==, PF_PICK_SEWING);
}

/* --- Repeats ------------------------------------------------------------------------------------
 */

static void
test_override_repeat (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfRepeatState states[] = { PF_REPEAT_PLAIN, PF_REPEAT_LEFT_OUT };
  const PfFilling *filled = filling (f);
  size_t r = 0;
  while (r < filled->n_repeats && filled->repeats[r].state != PF_REPEAT_KEPT)
    r++;
  g_assert_cmpuint (r, <, filled->n_repeats);
  const PfRepeat repeat = filled->repeats[r];
  for (gsize s = 0; s < G_N_ELEMENTS (states); s++)
    {
      pf_repeat_choose (f->editor, pf_editor_edit (f->editor), repeat.i, repeat.j, states[s]);
      g_assert_cmpint (pf_filling_repeat_state (filling (f), repeat.i, repeat.j), ==, states[s]);
      g_assert_cmpint (pf_repeat_choice (motif_of (f->editor), repeat.i, repeat.j), ==, states[s]);
      assert_undone (f);
      g_assert_cmpint (pf_filling_repeat_state (filling (f), repeat.i, repeat.j), ==,
                       PF_REPEAT_KEPT);
    }
}

/* A number stands for what it numbers, not for the repeat behind it. */
static void
test_number (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const guint32 sewing = find_sewing (f, PF_PAIR_NEW);
  PfPointer pointer = hand_at ((PfPoint){ 23, 19 });
  g_assert_cmpint (pf_find_pick (f->editor, pointer.at, 0.1, 1u << PF_PICK_REPEAT).kind, ==,
                   PF_PICK_REPEAT);
  pointer.number = (PfPick){ .kind = PF_PICK_SEWING, .index = sewing };
  PF_TOOL_GET_CLASS (f->tool)->hover (f->tool, &pointer);
  g_assert_true (pf_pick_equal (pf_editor_hovered (f->editor), pointer.number));
  PF_TOOL_GET_CLASS (f->tool)->press (f->tool, &pointer);
  g_assert_true (pf_pick_equal (pf_editor_selected (f->editor), pointer.number));
  cancel (f->tool);
  pointer.number = (PfPick){ .kind = PF_PICK_PINHOLE, .index = 9 };
  PF_TOOL_GET_CLASS (f->tool)->press (f->tool, &pointer);
  g_assert_true (pf_pick_equal (pf_editor_selected (f->editor), pointer.number));
}

/* --- Sewings ------------------------------------------------------------------------------------
 */

/* Half stitch edge: pinholes are 2 mm apart or nearly. */
static void
test_move_by_key (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  select_sewing (f, find_sewing (f, PF_PAIR_NEW));
  const PfLineId line = pf_sewing_line (filling (f), pf_editor_selected (f->editor).index);
  const double along = selected_sewing (f)->place.along;
  g_assert_true (key (f->tool, GDK_KEY_Right, 0));
  g_assert_cmpuint (selected_sewing (f)->pinhole, !=, PF_NONE);
  g_assert_true (selected_sewing (f)->chosen);
  const PfLoop *loop = &motif_of (f->editor)->region->loops[0];
  const double way = pf_loop_forward (loop, along, selected_sewing (f)->place.along);
  g_assert_cmpfloat (way, >, 0);
  g_assert_cmpfloat (way, <, 2.2);
  g_assert_cmpuint (pf_filling_find_crossing (filling (f), line), ==,
                    selected_sewing (f)->entering);
  assert_undone (f);
  g_assert_cmpfloat (selected_sewing (f)->place.along, ==, along);
}

/* Dragged to a pinhole that is 3 to 5 mm on from its target: up to one gap of the ground. */
static void
test_drag (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const guint32 sewing = find_sewing (f, PF_PAIR_FINISHED);
  const PfSewing before = filling (f)->sewings[sewing];
  const PfRegion *region = motif_of (f->editor)->region;
  const PfEdge *edge = &motif_of (f->editor)->edges[0];
  size_t far = 0;
  while (pf_loop_forward (&region->loops[0], before.target.along, edge->pinholes[far]) < 3 ||
         pf_loop_forward (&region->loops[0], before.target.along, edge->pinholes[far]) > 5)
    far++;
  const PfPoint to = pf_region_point (region, (PfPlace){ 0, edge->pinholes[far] });
  drag_from_to (f->tool, before.at, to, 0);
  g_assert_cmpuint (selected_sewing (f)->pinhole, ==, far);
  g_assert_cmpuint (selected_sewing (f)->leaving, ==, before.leaving);
  assert_undone (f);
  g_assert_true (press (f->tool, before.at, 1, 0));
  drag (f->tool, to);
  g_assert_cmpuint (selected_sewing (f)->pinhole, ==, far);
  cancel (f->tool);
  g_assert_true (pf_editor_document (f->editor) == f->before);
  g_assert_cmpfloat (selected_sewing (f)->place.along, ==, before.place.along);
}

/* However far it is dragged, it stops where it is still kept to. */
static void
test_drag_too_far (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const guint32 sewing = find_sewing (f, PF_PAIR_NEW);
  const PfSewing before = filling (f)->sewings[sewing];
  const PfPoint corners[] = { { 0, 0 }, { 47, 0 }, { 47, 38 }, { 0, 38 } };
  for (gsize c = 0; c < G_N_ELEMENTS (corners); c++)
    {
      drag_from_to (f->tool, before.at, corners[c], 0);
      g_assert_cmpuint (filling (f)->n_unheeded, ==, 0);
      g_assert_true (selected_sewing (f)->chosen);
      g_assert_cmpfloat (selected_sewing (f)->distance, <=, 5 + SLIP);
      pf_history_undo (pf_editor_history (f->editor));
    }
  select_sewing (f, sewing);
  int steps = 0;
  for (const PfDocument *was = NULL; was != pf_editor_document (f->editor) && steps < 20; steps++)
    {
      was = pf_editor_document (f->editor);
      g_assert_true (key (f->tool, GDK_KEY_Right, 0)); /* the keyboard stays here */
    }
  g_assert_cmpint (steps, >=, 3);
  g_assert_cmpint (steps, <=, 4);
  g_assert_cmpuint (filling (f)->n_unheeded, ==, 0);
}

static void
test_bar_and_reset (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfFilling *filled = filling (f);
  guint32 s = 0;
  while (s < filled->n_sewings && filled->sewings[s].pinhole == PF_NONE)
    s++;
  g_assert_cmpuint (s, <, filled->n_sewings);
  select_sewing (f, s);
  const guint32 pinhole = selected_sewing (f)->pinhole;
  g_assert_true (key (f->tool, GDK_KEY_b, 0));
  g_assert_cmpuint (selected_sewing (f)->pinhole, ==, PF_NONE);
  g_assert_cmpfloat_with_epsilon (selected_sewing (f)->place.along,
                                  selected_sewing (f)->target.along, SLIP);
  g_assert_true (pf_sewing_has_choice (motif_of (f->editor), pf_editor_selected (f->editor).index));
  g_assert_true (key (f->tool, GDK_KEY_Delete, 0));
  g_assert_cmpuint (selected_sewing (f)->pinhole, ==, pinhole);
  g_assert_cmpuint (pf_editor_draft (f->editor)->settings.n_sewing_choices, ==, 0);
  g_assert_cmpint (count_changes (f->editor), ==, 2);
}

/* A turned pair made two, and the two turned into one again. */
static void
test_alone_and_turn (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const guint32 sewing = find_sewing (f, PF_PAIR_TURNED);
  const PfFilling *filled = filling (f);
  const PfLineId leaving = pf_crossing_line (filled, filled->sewings[sewing].leaving);
  const PfLineId entering = pf_crossing_line (filled, filled->sewings[sewing].entering);
  select_sewing (f, sewing);
  g_assert_true (key (f->tool, GDK_KEY_a, 0));
  g_assert_cmpint (selected_sewing (f)->kind, ==, PF_PAIR_NEW);
  assert_undone (f);
  pf_sewing_make_alone (f->editor, pf_editor_edit (f->editor), sewing);
  const guint32 alone = pf_editor_selected (f->editor).index;
  g_autoptr (GArray) partners = pf_sewing_partners (motif_of (f->editor), alone);
  const guint32 back = pf_filling_find_crossing (filling (f), leaving);
  bool offered = false;
  for (guint p = 0; p < partners->len; p++)
    offered |= g_array_index (partners, guint32, p) == back;
  g_assert_true (offered);
  pf_sewing_turn_with (f->editor, pf_editor_edit (f->editor), alone, back);
  g_assert_cmpint (selected_sewing (f)->kind, ==, PF_PAIR_TURNED);
  g_assert_cmpuint (selected_sewing (f)->leaving, ==,
                    pf_filling_find_crossing (filling (f), leaving));
  g_assert_cmpuint (selected_sewing (f)->entering, ==,
                    pf_filling_find_crossing (filling (f), entering));
}

/* A turned pair that could turn with another line instead. */
static guint32
find_sewing_with_partners (Fixture *f)
{
  for (guint32 s = 0; s < filling (f)->n_sewings; s++)
    {
      g_autoptr (GArray) partners = pf_sewing_partners (motif_of (f->editor), s);
      if (filling (f)->sewings[s].kind == PF_PAIR_TURNED && partners->len > 0)
        return s;
    }
  g_assert_not_reached ();
}

static void
note_partner (PfTool *tool G_GNUC_UNUSED, guint crossing, guint *chosen)
{
  *chosen = crossing;
}

static void
test_choose_on_canvas (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfSewingsTool *tool = PF_SEWINGS_TOOL (f->tool);
  guint chosen = PF_NONE;
  g_signal_connect (tool, "partner", G_CALLBACK (note_partner), &chosen);
  select_sewing (f, find_sewing_with_partners (f));
  g_autoptr (GArray) partners =
      pf_sewing_partners (motif_of (f->editor), pf_editor_selected (f->editor).index);
  g_assert_cmpuint (partners->len, >, 0);
  const PfCrossing *crossing =
      &filling (f)->crossings[g_array_index (partners, guint32, partners->len - 1)];
  g_assert_false (crossing->leaves);
  pf_sewings_tool_set_choosing (tool, true);
  press (f->tool, (PfPoint){ 23, 19 }, 1, 0); /* the middle: nothing to choose */
  g_assert_true (pf_sewings_tool_choosing (tool));
  press (f->tool, crossing->at, 1, 0);
  g_assert_false (pf_sewings_tool_choosing (tool));
  g_assert_cmpfloat (hypot (filling (f)->crossings[chosen].at.x - crossing->at.x,
                            filling (f)->crossings[chosen].at.y - crossing->at.y),
                     <, 0.01);
  pf_sewings_tool_set_choosing (tool, true);
  g_assert_true (key (f->tool, GDK_KEY_Escape, 0));
  g_assert_false (pf_sewings_tool_choosing (tool));
}

/* --- Choices that aren't kept to ----------------------------------------------------------------
 */

/* The ground is moved away by 100 repeats: there is no such repeat, and no such line any more. */
static void
test_unheeded (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfRepeat repeat = filling (f)->repeats[0];
  pf_repeat_choose (f->editor, pf_editor_edit (f->editor), repeat.i, repeat.j, PF_REPEAT_LEFT_OUT);
  select_sewing (f, find_sewing (f, PF_PAIR_NEW));
  g_assert_true (key (f->tool, GDK_KEY_Right, 0));
  PfDraft *draft = pf_editor_edit (f->editor);
  const PfPoint a = motif_of (f->editor)->ground->a;
  const PfAffine map = filling (f)->to_sheet;
  draft->settings.placement.origin.x += 100 * (map.xx * a.x + map.xy * a.y);
  draft->settings.placement.origin.y += 100 * (map.yx * a.x + map.yy * a.y);
  pf_editor_change (f->editor, draft, "Move the ground");
  g_assert_cmpuint (filling (f)->n_unheeded, ==, 2);
  g_assert_cmpuint (filling (f)->counts.stitches, >, 0);
  for (size_t left = 2; left-- > 0;)
    {
      pf_choice_remove (f->editor, pf_editor_edit (f->editor), &filling (f)->unheeded[0]);
      g_assert_cmpuint (filling (f)->n_unheeded, ==, left);
    }
  g_assert_cmpuint (pf_editor_draft (f->editor)->settings.n_choices, ==, 0);
  g_assert_cmpuint (pf_editor_draft (f->editor)->settings.n_sewing_choices, ==, 0);
}

#define ADD(name, test) g_test_add ("/sewings-tool/" name, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("walk", test_walk);
  ADD ("walk-repeats", test_walk_repeats);
  ADD ("override-repeat", test_override_repeat);
  ADD ("number", test_number);
  ADD ("move-by-key", test_move_by_key);
  ADD ("drag", test_drag);
  ADD ("drag-too-far", test_drag_too_far);
  ADD ("bar-and-reset", test_bar_and_reset);
  ADD ("alone-and-turn", test_alone_and_turn);
  ADD ("choose-on-canvas", test_choose_on_canvas);
  ADD ("unheeded", test_unheeded);
  return g_test_run ();
}
