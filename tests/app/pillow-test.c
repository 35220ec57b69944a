/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * At the pillow, in the whole window: all steps of the demo motif, forth and back; what is heard of
 * them, what is kept, and what becomes of the place when the design changes. What a step is called
 * is the business of src/filling; here it is only shown.
 */
#include <glib/gstdio.h>
#include <locale.h>
#include <string.h>

#include <pillow-view.h>
#include <pillow-words.h>
#include <window-private.h>

#include "motif-samples.h"
#include "widget-hands.h"

typedef struct {
  PfWindow *window;
  PfPillowPage *page;
} Fixture;

static PfDocument *
load_demo (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path =
      g_build_filename (g_getenv ("PF_DATA"), "demo", "quince-leaf.pinfold", NULL);
  PfDocument *document = pf_document_load (path, &error);
  g_assert_no_error (error);
  return document;
}

static void
open_document (Fixture *f, PfDocument *taken)
{
  pf_editor_open (f->window->editor, taken);
  pf_document_unref (taken);
  while (pf_editor_busy (f->window->editor))
    g_main_context_iteration (NULL, TRUE);
  settle ();
}

static void
set_up (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  f->window = g_object_new (PF_TYPE_WINDOW, NULL);
  f->page = PF_PILLOW_PAGE (f->window->pillow);
  gtk_window_set_default_size (GTK_WINDOW (f->window), 1200, 800);
  open_document (f, load_demo ());
  gtk_window_present (GTK_WINDOW (f->window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (f->window));
  pf_window_go_to_pillow (f->window, true);
  settle ();
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  settle ();
}

static char *
bytes_of (Fixture *f)
{
  return pf_document_to_json (pf_editor_document (f->window->editor), NULL, NULL);
}

static size_t
place_of (Fixture *f)
{
  size_t place;
  g_assert_nonnull (pf_pillow_page_plan (f->page, &place));
  return place;
}

static const PfPillowPlan *
plan_of (Fixture *f)
{
  size_t place;
  return pf_pillow_page_plan (f->page, &place);
}

static void
press_on_page (Fixture *f, guint key)
{
  g_assert_true (press_key (GTK_WIDGET (f->page), key, 0));
}

/* Without waiting for what is drawn. */
static void
move (Fixture *f, guint key)
{
  gboolean used = FALSE;
  g_signal_emit_by_name (find_controller (GTK_WIDGET (f->page), GTK_TYPE_EVENT_CONTROLLER_KEY),
                         "key-pressed", key, 0u, (GdkModifierType) 0, &used);
  g_assert_true (used);
}

static GtkWidget *
teller_of (Fixture *f)
{
  return gtk_widget_get_first_child (find_widget (GTK_WIDGET (f->page), PF_TYPE_PILLOW_VIEW));
}

static PfPillowWords *
words_of (Fixture *f)
{
  return PF_PILLOW_WORDS (find_widget (GTK_WIDGET (f->page), PF_TYPE_PILLOW_WORDS));
}

/* The keyboard is where the step is heard, and it is the one at the place. */
static void
assert_heard (Fixture *f, const char *more)
{
  const PfStepNames names = { 0 };
  const PfPillowPlan *plan = plan_of (f);
  const size_t place = place_of (f);
  const PfWorkGroup *group = pf_pillow_group (plan, place);
  g_autofree char *step = pf_explain_step (plan->motif->filling, plan->motif->ground,
                                           &plan->steps->steps[place], &names);
  g_autofree char *heard =
      g_strdup_printf ("%s\n%sStep %zu of %zu – repeat %u of %zu (row %u of %zu)", step, more,
                       place + 1, plan->steps->n_steps, group->repeat + 1, plan->steps->n_repeats,
                       group->row + 1, plan->steps->n_rows);
  gtk_test_accessible_assert_property (teller_of (f), GTK_ACCESSIBLE_PROPERTY_LABEL, heard);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (f->window)) == teller_of (f));
}

/* --- Walking ------------------------------------------------------------------------------------
 */

static void
test_walk (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *before = bytes_of (f);
  const size_t n = plan_of (f)->steps->n_steps;
  const PfMotif *motif = plan_of (f)->motif;
  g_assert_cmpuint (n, >, 200);
  for (size_t place = 0; place < n; place++)
    {
      g_assert_cmpuint (place_of (f), ==, place);
      assert_heard (f, "");
      move (f, GDK_KEY_space);
    }
  g_assert_cmpuint (place_of (f), ==, n);
  g_autofree char *end =
      g_strdup_printf ("All is done: this motif is filled.\nAll %zu steps are done", n);
  gtk_test_accessible_assert_property (teller_of (f), GTK_ACCESSIBLE_PROPERTY_LABEL, end);
  move (f, GDK_KEY_space);
  g_assert_cmpuint (place_of (f), ==, n);
  g_assert_cmpint (pf_editor_draft (f->window->editor)->pillow.state, ==, PF_PILLOW_DONE);
  g_assert_true (plan_of (f)->motif == motif); /* nothing was worked out anew */
  g_assert_cmpint (count_changes (f->window->editor), ==, 1);
  pf_history_undo (pf_editor_history (f->window->editor));
  g_autofree char *undone = bytes_of (f);
  g_assert_cmpstr (undone, ==, before);
  g_assert_cmpuint (place_of (f), ==, 0);
  pf_history_redo (pf_editor_history (f->window->editor));
  for (size_t place = n; place > 0; place--)
    {
      g_assert_cmpuint (place_of (f), ==, place);
      move (f, GDK_KEY_BackSpace);
    }
  g_autofree char *back = bytes_of (f);
  g_assert_cmpstr (back, ==, before);
}

static void
test_keys (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  static const guint forward[] = { GDK_KEY_space,   GDK_KEY_Right,     GDK_KEY_Down,
                                   GDK_KEY_Return,  GDK_KEY_Page_Down, GDK_KEY_KP_Enter,
                                   GDK_KEY_KP_Right };
  static const guint back[] = { GDK_KEY_BackSpace, GDK_KEY_Left, GDK_KEY_Up, GDK_KEY_Page_Up };
  size_t place = 0;
  for (size_t k = 0; k < G_N_ELEMENTS (forward); k++)
    {
      press_on_page (f, forward[k]);
      g_assert_cmpuint (place_of (f), ==, ++place);
    }
  for (size_t k = 0; k < G_N_ELEMENTS (back); k++)
    {
      press_on_page (f, back[k]);
      g_assert_cmpuint (place_of (f), ==, --place);
    }
  press_on_page (f, GDK_KEY_End);
  g_assert_cmpuint (place_of (f), ==, plan_of (f)->steps->n_steps - 1);
  pf_history_undo (pf_editor_history (f->window->editor));
  g_assert_cmpuint (place_of (f), ==, place);
  press_on_page (f, GDK_KEY_Home);
  g_assert_cmpuint (place_of (f), ==, 0);
  pf_history_undo (pf_editor_history (f->window->editor));
  g_assert_cmpuint (place_of (f), ==, place);
  g_assert_false (press_key (GTK_WIDGET (f->page), GDK_KEY_Right, GDK_CONTROL_MASK));
  g_assert_false (press_key (GTK_WIDGET (f->page), GDK_KEY_x, 0));
  press_on_page (f, GDK_KEY_Escape);
  g_assert_false (f->window->at_pillow);
  g_assert_false (gtk_widget_get_mapped (GTK_WIDGET (f->page)));
  g_assert_true (gtk_widget_get_mapped (f->window->canvas));
}

static void
test_whole_repeats (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfWorkingSteps *steps = plan_of (f)->steps;
  press_on_page (f, GDK_KEY_w);
  for (size_t g = 0; g < steps->n_groups; g++)
    {
      g_assert_cmpuint (place_of (f), ==, steps->groups[g].first_step);
      move (f, GDK_KEY_Page_Down);
    }
  g_assert_cmpuint (place_of (f), ==, steps->n_steps);
  move (f, GDK_KEY_Page_Up);
  g_assert_cmpuint (place_of (f), ==, steps->groups[steps->n_groups - 1].first_step);
  /* Within a repeat, back goes to its start. */
  move (f, GDK_KEY_w);
  move (f, GDK_KEY_Home);
  move (f, GDK_KEY_space);
  move (f, GDK_KEY_w);
  move (f, GDK_KEY_Left);
  g_assert_cmpuint (place_of (f), ==, 0);
}

static void
test_go_to_repeat (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfPillowPlan *plan = plan_of (f);
  GtkWidget *entry = find_widget (GTK_WIDGET (f->page), GTK_TYPE_ENTRY);
  press_on_page (f, GDK_KEY_g);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (f->window)), entry));
  /* Typing there doesn't move. */
  g_assert_false (press_key (GTK_WIDGET (f->page), GDK_KEY_Left, 0));
  gtk_editable_set_text (GTK_EDITABLE (entry), "9");
  g_signal_emit_by_name (entry, "activate");
  settle ();
  g_assert_cmpuint (place_of (f), ==, pf_pillow_repeat (plan, 8));
  g_assert_cmpuint (pf_pillow_group (plan, place_of (f))->repeat, ==, 8);
  assert_heard (f, "");
  gtk_editable_set_text (GTK_EDITABLE (entry), "999");
  g_signal_emit_by_name (entry, "activate");
  settle ();
  g_assert_cmpuint (place_of (f), ==, pf_pillow_repeat (plan, 8));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "9");

  /* Every stitch that can be seen leads to its repeat. */
  GtkWidget *view = find_widget (GTK_WIDGET (f->page), PF_TYPE_PILLOW_VIEW);
  const PfFilling *filling = plan->motif->filling;
  int clicked = 0;
  for (guint32 s = 0; s < filling->n_stitches; s += 7)
    {
      const PfPoint at = pf_pillow_view_to_screen (PF_PILLOW_VIEW (view), filling->stitches[s].at);
      if (at.x < 0 || at.y < 0 || at.x > gtk_widget_get_width (view) ||
          at.y > gtk_widget_get_height (view))
        continue;
      const PfPoint there = pf_pillow_view_to_sheet (PF_PILLOW_VIEW (view), at);
      g_assert_cmpfloat_with_epsilon (there.x, filling->stitches[s].at.x, 1e-9);
      g_assert_cmpfloat_with_epsilon (there.y, filling->stitches[s].at.y, 1e-9);
      g_signal_emit_by_name (find_controller (view, GTK_TYPE_GESTURE_CLICK), "released", 1, at.x,
                             at.y);
      settle ();
      const PfWorkGroup *group = pf_pillow_group (plan, place_of (f));
      g_assert_cmpuint (place_of (f), ==, group->first_step);
      g_assert_cmpint (group->i, ==, filling->stitches[s].id.i);
      g_assert_cmpint (group->j, ==, filling->stitches[s].id.j);
      clicked++;
    }
  g_assert_cmpint (clicked, >, 3);
}

/* Where a spider's legs cross, the drawing comes so near that the stitches can be told apart: no
 * other lies under the ring round the present one. */
static void
test_crowded (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GError) error = NULL;
  PfDraft *draft = pf_editor_edit (f->window->editor);
  g_autoptr (PfGround) ground = pf_ground_load ("spider", &error);
  g_assert_no_error (error);
  pf_draft_set_ground (draft, ground, NULL);
  pf_editor_change (f->window->editor, draft, "Ground");
  while (pf_editor_busy (f->window->editor))
    g_main_context_iteration (NULL, TRUE);
  settle ();
  const PfPillowPlan *plan = plan_of (f);
  const PfFilling *filling = plan->motif->filling;
  PfPillowView *view = PF_PILLOW_VIEW (find_widget (GTK_WIDGET (f->page), PF_TYPE_PILLOW_VIEW));
  double usual = 0, nearest = 0;
  for (size_t step = 0; step < MIN (plan->steps->n_steps, 90); step++, move (f, GDK_KEY_space))
    {
      const PfPoint at = filling->stitches[plan->steps->steps[step].stitch].at;
      const PfPoint here = pf_pillow_view_to_screen (view, at);
      const PfPoint beside = pf_pillow_view_to_screen (view, (PfPoint){ at.x + 1, at.y });
      const double pixels = hypot (beside.x - here.x, beside.y - here.y);
      usual = usual == 0 ? pixels : fmin (usual, pixels);
      nearest = fmax (nearest, pixels);
      for (guint32 s = 0; s < filling->n_stitches; s++)
        {
          const double d =
              pixels * hypot (filling->stitches[s].at.x - at.x, filling->stitches[s].at.y - at.y);
          if (d > 0.01)
            g_assert_cmpfloat (d, >, 0.6 * pf_pillow_page_text (f->page));
        }
    }
  g_assert_cmpfloat (nearest, >=, 2 * usual);
}

/* The ground runs down: the next stitches of a pair are farther down on the screen. */
static void
test_turned (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  static const struct {
    double turn;
    bool mirror;
  } rows[] = { { 0, false }, { 90, false }, { 217, false }, { 33, true }, { 180, true } };
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      PfDraft *draft = pf_editor_edit (f->window->editor);
      draft->settings.placement.turn = rows[r].turn;
      draft->settings.placement.mirror = rows[r].mirror;
      pf_editor_change (f->window->editor, draft, "Turn");
      settle ();
      const PfPillowPlan *plan = plan_of (f);
      PfPillowView *view = PF_PILLOW_VIEW (find_widget (GTK_WIDGET (f->page), PF_TYPE_PILLOW_VIEW));
      const PfGround *ground = plan->motif->ground;
      const PfAffine map = plan->motif->filling->to_sheet;
      const PfPoint o = pf_pillow_view_to_screen (view, pf_affine_map (map, (PfPoint){ 0, 0 }));
      const PfPoint down = pf_pillow_view_to_screen (view, pf_affine_map (map, (PfPoint){ 0, 9 }));
      const PfPoint right = pf_pillow_view_to_screen (view, pf_affine_map (map, (PfPoint){ 9, 0 }));
      g_assert_cmpint (ground->n_stitches, >, 0);
      g_assert_cmpfloat_with_epsilon (down.x, o.x, 1e-6);
      g_assert_cmpfloat (down.y, >, o.y + 100);
      g_assert_cmpfloat_with_epsilon (right.y, o.y, 1e-6);
      g_assert_true ((right.x < o.x) == rows[r].mirror);
    }
}

/* --- What is kept -------------------------------------------------------------------------------
 */

static void
test_reopened (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("pinfold-pillow-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "leaf.pinfold", NULL);
  for (int k = 0; k < 57; k++)
    move (f, GDK_KEY_space);
  pf_document_save (pf_editor_document (f->window->editor), path, &error);
  g_assert_no_error (error);
  move (f, GDK_KEY_Home);
  PfDocument *again = pf_document_load (path, &error);
  g_assert_no_error (error);
  open_document (f, again);
  g_assert_true (f->window->at_pillow);
  g_assert_cmpuint (place_of (f), ==, 57);
  assert_heard (f, "");
  g_unlink (path);
  g_rmdir (folder);
}

static void
change_gap (Fixture *f, double gap)
{
  PfDraft *draft = pf_editor_edit (f->window->editor);
  draft->settings.placement.gap = gap;
  pf_editor_change (f->window->editor, draft, "Change the gap");
  settle ();
}

static void
test_other_gap (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  for (int k = 0; k < 80; k++)
    move (f, GDK_KEY_space);
  const PfStepId id =
      pf_working_step_id (plan_of (f)->steps, plan_of (f)->motif->filling, place_of (f));
  g_autofree char *before = bytes_of (f);
  change_gap (f, 3.8);
  const PfPillowPlan *plan = plan_of (f);
  const size_t there = pf_working_steps_find (plan->steps, plan->motif->filling, id);
  g_assert_cmpuint (there, <, plan->steps->n_steps);
  g_assert_cmpuint (place_of (f), ==, there);
  assert_heard (f, "");
  pf_history_undo (pf_editor_history (f->window->editor));
  settle ();
  g_assert_cmpuint (place_of (f), ==, 80);
  g_autofree char *after = bytes_of (f);
  g_assert_cmpstr (after, ==, before);
  /* So large that hardly anything is left. */
  change_gap (f, 12);
  g_assert_cmpuint (place_of (f), <=, plan_of (f)->steps->n_steps);
  g_assert_cmpuint (plan_of (f)->steps->n_steps, <, 80);
  assert_heard (f, "");
  pf_history_undo (pf_editor_history (f->window->editor));
  g_assert_cmpuint (place_of (f), ==, 80);
}

static GtkWidget *
note_entry (Fixture *f)
{
  return find_widget (GTK_WIDGET (words_of (f)), GTK_TYPE_ENTRY);
}

static void
test_notes (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfPillow *pillow;
  for (int k = 0; k < 30; k++)
    move (f, GDK_KEY_space);
  press_on_page (f, GDK_KEY_n);
  g_assert_true (
      gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (f->window)), note_entry (f)));
  g_assert_false (press_key (GTK_WIDGET (f->page), GDK_KEY_space, 0));
  gtk_editable_set_text (GTK_EDITABLE (note_entry (f)), "one twist");
  gtk_editable_set_text (GTK_EDITABLE (note_entry (f)), "one twist more");
  pillow = &pf_editor_draft (f->window->editor)->pillow;
  g_assert_cmpuint (pillow->n_notes, ==, 1);
  g_assert_cmpstr (pillow->notes[0].text, ==, "one twist more");
  g_assert_cmpuint (place_of (f), ==, 30);
  g_signal_emit_by_name (note_entry (f), "activate");
  settle ();
  g_assert_false (gtk_widget_get_mapped (note_entry (f)));
  assert_heard (f, "Your note: one twist more\n");
  g_assert_cmpint (count_changes (f->window->editor), ==, 2);
  move (f, GDK_KEY_space);
  assert_heard (f, "");
  move (f, GDK_KEY_Left);
  assert_heard (f, "Your note: one twist more\n");

  /* Without its step it stays, and can be taken away. */
  GtkWidget *lost = gtk_widget_get_last_child (GTK_WIDGET (words_of (f)));
  g_assert_null (gtk_widget_get_first_child (lost));
  change_gap (f, 14);
  g_assert_nonnull (gtk_widget_get_first_child (lost));
  pillow = &pf_editor_draft (f->window->editor)->pillow;
  g_assert_cmpstr (pillow->notes[0].text, ==, "one twist more");
  pf_history_undo (pf_editor_history (f->window->editor));
  settle ();
  g_assert_null (gtk_widget_get_first_child (lost));
  change_gap (f, 14);
  click (find_widget (lost, GTK_TYPE_BUTTON));
  g_assert_cmpuint (pf_editor_draft (f->window->editor)->pillow.n_notes, ==, 0);
  pf_history_undo (pf_editor_history (f->window->editor));
  pf_history_undo (pf_editor_history (f->window->editor));
  settle ();

  /* An emptied note is none. */
  press_on_page (f, GDK_KEY_n);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (note_entry (f))), ==, "one twist more");
  gtk_editable_set_text (GTK_EDITABLE (note_entry (f)), "");
  press_on_page (f, GDK_KEY_Escape);
  g_assert_true (f->window->at_pillow);
  g_assert_cmpuint (pf_editor_draft (f->window->editor)->pillow.n_notes, ==, 0);
  assert_heard (f, "");
}

/* However many steps are shown at once, the entry for a note is seen. */
static void
test_note_seen (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfDraft *draft = pf_draft_copy (pf_editor_draft (f->window->editor));
  draft->settings.habits.sew_in_first = true;
  pf_editor_change (f->window->editor, draft, "Working order");
  settle ();
  press_on_page (f, GDK_KEY_w);
  GtkWidget *words = GTK_WIDGET (words_of (f));
  GtkWidget *scroller = gtk_widget_get_ancestor (words, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *along = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  settle ();
  g_assert_cmpfloat (gtk_adjustment_get_upper (along), >, gtk_widget_get_height (scroller));
  for (int down = 0; down < 2; down++)
    {
      gtk_adjustment_set_value (along, down ? gtk_adjustment_get_upper (along) : 0);
      settle ();
      press_on_page (f, GDK_KEY_n);
      settle ();
      graphene_rect_t bounds;
      g_assert_true (gtk_widget_compute_bounds (note_entry (f), scroller, &bounds));
      g_assert_cmpfloat (bounds.origin.y, >=, 0);
      g_assert_cmpfloat (bounds.origin.y + bounds.size.height, <=,
                         gtk_widget_get_height (scroller));
      g_signal_emit_by_name (note_entry (f), "activate");
      settle ();
    }
}

/* --- What can't be worked -----------------------------------------------------------------------
 */

static void
assert_trouble (Fixture *f, const char *part)
{
  size_t place;
  g_assert_null (pf_pillow_page_plan (f->page, &place));
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (f->window));
  g_assert_true (GTK_IS_LABEL (focus));
  g_test_message ("%s", gtk_label_get_label (GTK_LABEL (focus)));
  g_assert_nonnull (strstr (gtk_label_get_label (GTK_LABEL (focus)), part));
  move (f, GDK_KEY_space);
  move (f, GDK_KEY_End);
  move (f, GDK_KEY_n);
  g_assert_cmpint (count_changes (f->window->editor), ==, 0);
}

static void
test_trouble (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  open_document (f, pf_document_new ());
  assert_trouble (f, "no motif yet");
  open_document (f, sample_rectangle (40, 30, NULL));
  assert_trouble (f, "no ground yet");
  open_document (f, sample_rectangle (1, 1, "armure"));
  assert_trouble (f, "fits into this motif");
  PfDocument *crossed = sample_rectangle (40, 30, "armure");
  const PfPoint corners[] = { { 0, 0 }, { 40, 30 }, { 40, 0 }, { 0, 30 } };
  g_autoptr (PfCurve) curve = pf_curve_new_straight (corners, G_N_ELEMENTS (corners), true);
  PfDraft *draft = pf_draft_copy (crossed->drafts[0]);
  pf_draft_set_curve (draft, 0, curve, NULL);
  PfDocument *broken = pf_document_with_draft (crossed, 0, draft);
  pf_document_unref (crossed);
  open_document (f, broken);
  assert_trouble (f, "can’t be worked out");
  open_document (f, load_demo ());
  g_assert_cmpuint (place_of (f), ==, 0);
  assert_heard (f, "");
}

/* Each motif has a place of its own, a mirror image too. */
static void
test_two_motifs (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (PfDocument) one = load_demo ();
  open_document (f, pf_document_with_mirror_image (one, 0, (PfAxis){ { 60, 0 }, 90 }));
  for (int k = 0; k < 5; k++)
    move (f, GDK_KEY_space);
  pf_editor_set_active (f->window->editor, 1);
  settle ();
  g_assert_cmpuint (place_of (f), ==, 0);
  move (f, GDK_KEY_space);
  g_assert_cmpuint (place_of (f), ==, 1);
  assert_heard (f, "");
  pf_editor_set_active (f->window->editor, 0);
  settle ();
  g_assert_cmpuint (place_of (f), ==, 5);
  g_assert_cmpint (count_changes (f->window->editor), ==, 2);
}

/* --- Ten thousand stitches ----------------------------------------------------------------------
 */

enum { MOVES = 61 };

/* Moves from the middle of the work on; nothing is worked out anew for that. */
static void
move_on (Fixture *f)
{
  const PfMotif *motif = plan_of (f)->motif;
  const PfWorkingSteps *steps = plan_of (f)->steps;
  const size_t middle = steps->n_steps / 2;
  pf_pillow_go (f->window->editor, plan_of (f), middle, true);
  settle ();
  for (int k = 0; k < MOVES; k++)
    {
      move (f, GDK_KEY_space);
      settle (); /* a frame is drawn */
      g_assert_true (plan_of (f)->motif == motif);
      g_assert_true (plan_of (f)->steps == steps);
    }
  g_assert_cmpuint (place_of (f), ==, middle + MOVES);
}

/* How long a move takes is measured by the window's benchmark. */
static void
test_large (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  open_document (f, sample_rectangle (385, 385, "armure"));
  settle ();
  g_assert_cmpuint (motif_of (f->window->editor)->filling->n_stitches, >=, 10000);
  move_on (f);
}

/* --- The screen stays lit -----------------------------------------------------------------------
 */

#define MANAGER "org.gnome.SessionManager"

/* What a desktop's session manager does with the two calls, as its published interface has them:
 * Inhibit (app_id, toplevel_xid, reason, flags: 8 for idle) gives a cookie, Uninhibit takes it. In
 * a thread of its own, since the program waits for its answers. */
typedef struct {
  GMutex mutex;
  GMainLoop *loop;
  GMainContext *context;
  gint ready;
  guint flags, cookies, taken_back;
} Manager;

static const char interface[] =
    "<node><interface name='org.gnome.SessionManager'>"
    "<method name='RegisterClient'><arg type='s' direction='in'/><arg type='s' direction='in'/>"
    "<arg type='o' direction='out'/></method>"
    "<method name='Inhibit'><arg type='s' direction='in'/><arg type='u' direction='in'/>"
    "<arg type='s' direction='in'/><arg type='u' direction='in'/><arg type='u' direction='out'/>"
    "</method><method name='Uninhibit'><arg type='u' direction='in'/></method>"
    "</interface></node>";

static void
called (GDBusConnection *bus G_GNUC_UNUSED, const char *sender G_GNUC_UNUSED,
        const char *path G_GNUC_UNUSED, const char *name G_GNUC_UNUSED, const char *method,
        GVariant *arguments, GDBusMethodInvocation *call, gpointer data)
{
  Manager *manager = data;
  g_mutex_lock (&manager->mutex);
  GVariant *answer = NULL;
  if (strcmp (method, "Inhibit") == 0)
    {
      g_variant_get_child (arguments, 3, "u", &manager->flags);
      answer = g_variant_new ("(u)", 100 + ++manager->cookies);
    }
  else if (strcmp (method, "Uninhibit") == 0)
    g_variant_get_child (arguments, 0, "u", &manager->taken_back);
  else
    answer = g_variant_new ("(o)", "/client");
  g_mutex_unlock (&manager->mutex);
  g_dbus_method_invocation_return_value (call, answer);
}

static gpointer
manage (gpointer data)
{
  static const GDBusInterfaceVTable table = { .method_call = called };
  Manager *manager = data;
  g_main_context_push_thread_default (manager->context);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDBusNodeInfo) node = g_dbus_node_info_new_for_xml (interface, &error);
  g_assert_no_error (error);
  g_autoptr (GDBusConnection) bus =
      g_dbus_connection_new_for_address_sync (g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
                                              G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT |
                                                  G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION,
                                              NULL, NULL, &error);
  g_assert_no_error (error);
  g_dbus_connection_register_object (bus, "/org/gnome/SessionManager", node->interfaces[0], &table,
                                     manager, NULL, &error);
  g_assert_no_error (error);
  g_autoptr (GVariant) owned = g_dbus_connection_call_sync (
      bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "RequestName",
      g_variant_new ("(su)", MANAGER, 4u), NULL, G_DBUS_CALL_FLAGS_NONE, -1, NULL, &error);
  g_assert_no_error (error);
  g_atomic_int_set (&manager->ready, 1);
  g_main_loop_run (manager->loop);
  g_dbus_connection_close_sync (bus, NULL, NULL);
  g_main_context_pop_thread_default (manager->context);
  return NULL;
}

static guint
read_of (Manager *manager, const guint *number)
{
  g_mutex_lock (&manager->mutex);
  const guint value = *number;
  g_mutex_unlock (&manager->mutex);
  return value;
}

static void
wait_for (Manager *manager, const guint *number, guint wanted)
{
  const gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  while (read_of (manager, number) != wanted && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (read_of (manager, number), ==, wanted);
}

static void
test_awake (void)
{
  Manager manager = { .context = g_main_context_new () };
  g_mutex_init (&manager.mutex);
  manager.loop = g_main_loop_new (manager.context, FALSE);
  GThread *thread = g_thread_new ("manager", manage, &manager);
  while (g_atomic_int_get (&manager.ready) == 0)
    g_usleep (1000);

  g_autoptr (GError) error = NULL;
  PfApplication *application = pf_application_new ();
  g_application_register (G_APPLICATION (application), NULL, &error);
  g_assert_no_error (error);
  PfWindow *window = pf_window_new (application);
  gtk_window_present (GTK_WINDOW (window));
  settle ();
  g_assert_cmpuint (read_of (&manager, &manager.cookies), ==, 0);
  g_action_group_activate_action (G_ACTION_GROUP (window), "pillow", NULL);
  wait_for (&manager, &manager.cookies, 1);
  g_assert_cmpuint (read_of (&manager, &manager.flags), ==, 8);
  g_action_group_activate_action (G_ACTION_GROUP (window), "pillow", NULL);
  wait_for (&manager, &manager.taken_back, 101);

  /* Going to a step, and closing the window, let it sleep as well. */
  g_action_group_activate_action (G_ACTION_GROUP (window), "pillow", NULL);
  wait_for (&manager, &manager.cookies, 2);
  g_action_group_activate_action (G_ACTION_GROUP (window), "stage", g_variant_new_int32 (1));
  wait_for (&manager, &manager.taken_back, 102);
  g_assert_false (window->at_pillow);
  g_action_group_activate_action (G_ACTION_GROUP (window), "pillow", NULL);
  wait_for (&manager, &manager.cookies, 3);
  gtk_window_close (GTK_WINDOW (window));
  wait_for (&manager, &manager.taken_back, 103);
  settle ();
  g_object_unref (application);
  g_main_loop_quit (manager.loop);
  g_thread_join (thread);
  g_main_loop_unref (manager.loop);
  g_main_context_unref (manager.context);
  g_mutex_clear (&manager.mutex);
}

#define ADD(path, test) g_test_add (path, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  if (!gtk_init_check ())
    {
      g_print ("1..0 # SKIP there is no screen\n");
      return 0;
    }
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  ADD ("/pillow/walk", test_walk);
  ADD ("/pillow/keys", test_keys);
  ADD ("/pillow/whole-repeats", test_whole_repeats);
  ADD ("/pillow/crowded", test_crowded);
  ADD ("/pillow/go-to-repeat", test_go_to_repeat);
  ADD ("/pillow/turned", test_turned);
  ADD ("/pillow/reopened", test_reopened);
  ADD ("/pillow/other-gap", test_other_gap);
  ADD ("/pillow/notes", test_notes);
  ADD ("/pillow/note-seen", test_note_seen);
  ADD ("/pillow/trouble", test_trouble);
  ADD ("/pillow/two-motifs", test_two_motifs);
  ADD ("/pillow/large", test_large);
  g_test_add_func ("/pillow/awake", test_awake);
  return g_test_run ();
}
