/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The window, and files that are dropped on it: several at once, some that can't be read, some
 * while something else is being done.
 */
#include <glib/gstdio.h>
#include <locale.h>
#include <string.h>

#include <canvas-private.h>
#include <window-private.h>

#include "motif-samples.h"
#include "widget-hands.h"

/* --- Files to drop ------------------------------------------------------------------------------
 */

static const char leaf[] = "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' "
                           "viewBox='0 0 60 40'><path id='leaf' d='M 5 5 H 55 V 35 H 5 Z'/></svg>";
static const char pond[] =
    "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' "
    "viewBox='0 0 60 40'><path id='pond' d='M 10 10 H 40 V 30 H 10 Z'/></svg>";

typedef struct {
  PfWindow *window;
  char *folder;
  GSList *files; /* to be dropped next */
} Fixture;

static char *
path_of (Fixture *f, const char *name)
{
  return g_build_filename (f->folder, name, NULL);
}

static void
offer (Fixture *f, const char *name, const char *text)
{
  g_autofree char *path = path_of (f, name);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  f->files = g_slist_append (f->files, g_file_new_for_path (path));
}

static void
offer_scan (Fixture *f, const char *name)
{
  g_autofree char *path = path_of (f, name);
  cairo_surface_t *scan = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 300, 200);
  g_assert_cmpint (cairo_surface_write_to_png (scan, path), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (scan);
  f->files = g_slist_append (f->files, g_file_new_for_path (path));
}

static void
drop (Fixture *f)
{
  GtkEventController *target = find_controller (GTK_WIDGET (f->window), GTK_TYPE_DROP_TARGET);
  GValue value = G_VALUE_INIT;
  gboolean taken = FALSE;
  g_value_init (&value, GDK_TYPE_FILE_LIST);
  g_value_take_boxed (&value, gdk_file_list_new_from_list (f->files));
  g_signal_emit_by_name (target, "drop", &value, 400.0, 300.0, &taken);
  g_value_unset (&value);
  g_slist_free_full (g_steal_pointer (&f->files), g_object_unref);
  g_assert_true (taken);
}

static void
wait_until_opened (Fixture *f)
{
  const gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;
  while (f->window->opening && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_false (f->window->opening);
  settle ();
}

static void
set_up (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  f->folder = g_dir_make_tmp ("pinfold-window-XXXXXX", NULL);
  f->window = g_object_new (PF_TYPE_WINDOW, NULL);
  gtk_window_set_default_size (GTK_WINDOW (f->window), 1100, 760);
  gtk_window_present (GTK_WINDOW (f->window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (f->window));
  settle ();
}

static void
close_window (Fixture *f)
{
  if (f->window != NULL)
    gtk_window_destroy (GTK_WINDOW (f->window));
  f->window = NULL;
  settle ();
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  close_window (f);
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = path_of (f, name);
      g_remove (path);
    }
  g_rmdir (f->folder);
  g_free (f->folder);
}

static PfDocument *
document_of (Fixture *f)
{
  return pf_editor_document (f->window->editor);
}

static void
assert_said (Fixture *f, const char *part)
{
  const char *text = gtk_label_get_label (f->window->info_label);
  g_test_message ("“%s” in “%s”", part, text);
  g_assert_true (gtk_info_bar_get_revealed (f->window->info_bar));
  g_assert_nonnull (strstr (text, part));
}

/* A rectangle of the maker's own. */
static void
fill_window (Fixture *f)
{
  g_autoptr (PfDocument) document = sample_rectangle (50, 40, "armure");
  pf_editor_open (f->window->editor, document);
  pf_editor_set_stage (f->window->editor, PF_STAGE_GROUND);
  f->window->unused = false;
  settle ();
}

/* --- The tests ----------------------------------------------------------------------------------
 */

static void
all_that_is_dropped_is_opened (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  offer (f, "leaf.svg", leaf);
  offer_scan (f, "scan.png");
  offer (f, "pond.svg", pond);
  drop (f);
  wait_until_opened (f);
  const PfDocument *document = document_of (f);
  g_assert_cmpuint (document->n_drafts, ==, 2);
  g_assert_cmpstr (document->drafts[0]->name, ==, "leaf");
  g_assert_cmpstr (document->drafts[1]->name, ==, "pond");
  g_assert_nonnull (document->underlay);
  assert_said (f, "The scan lies under the drawing.");
}

static void
no_error_is_lost (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  offer (f, "notes.txt", "Not a drawing.");
  offer (f, "broken.svg", "<svg");
  offer (f, "broken.png", "\x89PNG and no more");
  offer_scan (f, "scan.png");
  offer (f, "letter.txt", "Nor this.");
  offer (f, "list.txt", "Nor this.");
  drop (f);
  wait_until_opened (f);
  g_assert_nonnull (document_of (f)->underlay);
  assert_said (f, "notes.txt");
  assert_said (f, "broken.svg");
  assert_said (f, "broken.png");
  assert_said (f, "Nor can 2 more files be opened.");
  assert_said (f, "The scan lies under the drawing.");
  g_assert_cmpint (gtk_info_bar_get_message_type (f->window->info_bar), ==, GTK_MESSAGE_ERROR);
  /* The next message stands alone. */
  offer (f, "leaf.svg", leaf);
  offer (f, "notes.txt", "Not a drawing.");
  drop (f);
  wait_until_opened (f);
  g_assert_null (strstr (gtk_label_get_label (f->window->info_label), "broken"));
}

static GtkEventController *
canvas_drag (Fixture *f)
{
  return find_controller (f->window->canvas, GTK_TYPE_GESTURE_DRAG);
}

/* The ground moves as it is dragged, whatever is read meanwhile; then the file is there too. */
static void
nothing_changes_under_the_hand (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  fill_window (f);
  const PfPoint before = document_of (f)->drafts[0]->settings.placement.origin;
  const double pixel = 1 / (pf_canvas_zoom (PF_CANVAS (f->window->canvas)) *
                            PF_CANVAS (f->window->canvas)->view.pixels_per_mm);
  const PfPoint at = pf_canvas_to_screen (PF_CANVAS (f->window->canvas), (PfPoint){ 10, 10 });
  g_signal_emit_by_name (canvas_drag (f), "drag-begin", at.x, at.y);
  g_signal_emit_by_name (canvas_drag (f), "drag-update", 10.0, 0.0);
  offer (f, "pond.svg", pond);
  drop (f);
  for (int wait = 0; wait < 30; wait++)
    {
      settle ();
      g_usleep (10000);
    }
  g_assert_cmpuint (document_of (f)->n_drafts, ==, 1);
  g_signal_emit_by_name (canvas_drag (f), "drag-update", 20.0, 0.0);
  g_signal_emit_by_name (canvas_drag (f), "drag-end", 20.0, 0.0);
  wait_until_opened (f);
  const PfDocument *document = document_of (f);
  g_assert_cmpuint (document->n_drafts, ==, 2);
  g_assert_cmpstr (document->drafts[1]->name, ==, "pond");
  g_assert_cmpfloat_with_epsilon (document->drafts[0]->settings.placement.origin.x,
                                  before.x + 20 * pixel, 1e-6);
  pf_history_undo (pf_editor_history (f->window->editor));
  g_assert_cmpuint (document_of (f)->n_drafts, ==, 1);
  g_assert_cmpfloat_with_epsilon (document_of (f)->drafts[0]->settings.placement.origin.x,
                                  before.x + 20 * pixel, 1e-6);
}

/* What is half drawn stays, and is gone on with. */
static void
drawing_goes_on (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const PfPoint corners[] = { { 1, 1 }, { 9, 2 }, { 8, 9 } };
  PfDraft *draft = pf_draft_new ("begun", NULL);
  g_autoptr (PfCurve) open = pf_curve_new_straight (corners, 3, false);
  pf_draft_add_curve (draft, open);
  pf_editor_change_document (f->window->editor,
                             pf_document_with_draft_added (document_of (f), draft), "Draw");
  pf_editor_set_active (f->window->editor, 0);
  offer (f, "leaf.svg", leaf);
  drop (f);
  wait_until_opened (f);
  g_assert_cmpuint (document_of (f)->n_drafts, ==, 2);
  g_assert_cmpint (pf_editor_active (f->window->editor), ==, 0);
  g_assert_true (pf_editor_is_open (f->window->editor, 0));
}

/* While a filling is in work in a thread: nothing waits for it, and nothing is lost. */
static void
a_fill_under_way_comes_to_its_end (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (PfDocument) large = sample_rectangle (900, 900, "torchon");
  pf_editor_open (f->window->editor, large);
  f->window->unused = false;
  g_assert_true (pf_editor_busy (f->window->editor));
  offer (f, "leaf.svg", leaf);
  drop (f);
  wait_until_opened (f);
  const gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  while (pf_editor_busy (f->window->editor) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (document_of (f)->n_drafts, ==, 2);
  for (size_t n = 0; n < 2; n++)
    g_assert_nonnull (pf_editor_motif (f->window->editor, n));
}

static bool
strip_is_ticked (Fixture *f)
{
  g_autoptr (GVariant) state =
      g_action_group_get_action_state (G_ACTION_GROUP (f->window), "edge-strip");
  return g_variant_get_boolean (state);
}

/* In each stage the tick tells what is seen, and what the maker wants is kept in mind. */
static void
strip_is_ticked_where_it_is_seen (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  fill_window (f);
  for (int wanted = 1; wanted >= 0; wanted--)
    {
      for (int stage = 0; stage < PF_N_STAGES; stage++)
        {
          const bool useful = stage == PF_STAGE_EDGE || stage == PF_STAGE_SEWINGS;
          pf_editor_set_stage (f->window->editor, (PfStage) stage);
          g_assert_cmpint (strip_is_ticked (f), ==, useful && wanted);
          g_assert_cmpint (gtk_widget_get_visible (f->window->strip), ==, useful && wanted);
          g_assert_cmpint (
              g_action_group_get_action_enabled (G_ACTION_GROUP (f->window), "edge-strip"), ==,
              useful);
        }
      pf_editor_set_stage (f->window->editor, PF_STAGE_EDGE);
      g_action_group_activate_action (G_ACTION_GROUP (f->window), "edge-strip", NULL);
    }
  g_assert_true (strip_is_ticked (f));
}

/* A drawing of 60 by 40 mm comes into a document of 50 by 30. */
static void
import_enlarges_the_sheet (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (PfDocument) small = sample_rectangle (20, 20, NULL);
  small->width = 50;
  small->height = 30;
  pf_editor_open (f->window->editor, small);
  f->window->unused = false;
  offer (f, "leaf.svg", leaf);
  drop (f);
  wait_until_opened (f);
  g_assert_cmpfloat_with_epsilon (document_of (f)->width, 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (document_of (f)->height, 40, 1e-6);
  pf_history_undo (pf_editor_history (f->window->editor));
  g_assert_true (document_of (f) == small);
}

static void
change_scan (Fixture *f, double strength, double pixel)
{
  PfUnderlay scan = *document_of (f)->underlay;
  scan.strength = strength;
  scan.map.xx = scan.map.yy = pixel;
  pf_editor_change_document (f->window->editor, pf_document_with_underlay (document_of (f), &scan),
                             "Scan");
}

/* What is to be done with a scan is said until it is done: it is straightened, or drawn on. */
static void
advice_ends_when_it_is_followed (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  for (int drawn = 0; drawn < 2; drawn++)
    {
      offer_scan (f, "scan.png");
      drop (f);
      wait_until_opened (f);
      assert_said (f, "The scan lies under the drawing.");
      change_scan (f, 0.25, document_of (f)->underlay->map.xx);
      assert_said (f, "The scan lies under the drawing.");
      if (drawn)
        pf_editor_change_document (
            f->window->editor,
            pf_document_with_draft_added (document_of (f), pf_draft_new ("drawn", NULL)), "Draw");
      else
        change_scan (f, 0.25, 0.05);
      g_assert_false (gtk_info_bar_get_revealed (f->window->info_bar));
    }
  /* What is said otherwise stays. */
  pf_window_say (f->window, GTK_MESSAGE_INFO, "Something else");
  change_scan (f, 0.25, 0.06);
  assert_said (f, "Something else");
}

static GtkWidget *
find_button (GtkWidget *inside, const char *label)
{
  if (GTK_IS_BUTTON (inside) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (inside)), label) == 0)
    return inside;
  for (GtkWidget *child = gtk_widget_get_first_child (inside); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_button (child, label);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
unfold (GtkWidget *widget)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    unfold (child);
}

/* Does it lie in the part of the panel that is seen? */
static bool
is_seen (Fixture *f, GtkWidget *widget)
{
  graphene_rect_t bounds;
  g_assert_true (
      gtk_widget_compute_bounds (widget, GTK_WIDGET (f->window->panel_scroller), &bounds));
  return bounds.origin.y >= 0 &&
         bounds.origin.y + bounds.size.height <=
             (float) gtk_widget_get_height (GTK_WIDGET (f->window->panel_scroller));
}

/* What was found is taken over by a button that was not there before. */
static void
what_is_traced_is_scrolled_to (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *panel = f->window->panels[PF_STAGE_OUTLINE];
  offer_scan (f, "scan.png"); /* all black: one outline */
  drop (f);
  wait_until_opened (f);
  unfold (panel);
  settle ();
  GtkWidget *trace = find_button (panel, "Trace the scan");
  GtkWidget *take_over = find_button (panel, "Take over");
  g_assert_nonnull (trace);
  g_assert_nonnull (take_over);
  g_assert_false (is_seen (f, trace));
  click (trace);
  const gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;
  while (!(gtk_widget_get_mapped (take_over) && is_seen (f, take_over)) &&
         g_get_monotonic_time () < end)
    settle ();
  g_assert_true (gtk_widget_get_mapped (take_over));
  g_assert_true (is_seen (f, take_over));
  click (take_over);
  g_assert_cmpuint (document_of (f)->n_drafts, ==, 1);
  g_assert_false (gtk_info_bar_get_revealed (f->window->info_bar));
}

/* A window may be closed while its files are read. */
static void
a_closed_window_forgets_files (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  PfWindow *window = g_object_ref (f->window);
  offer (f, "leaf.svg", leaf);
  offer (f, "broken.svg", "<svg");
  offer_scan (f, "scan.png");
  drop (f);
  close_window (f);
  const gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  while (window->n_works > 0 && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpint (window->n_works, ==, 0);
  g_assert_true (g_queue_is_empty (&window->to_open));
  g_assert_finalize_object (window);
}

static void
wait_until_saved (Fixture *f)
{
  const gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;
  while (f->window->saving && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_false (f->window->saving);
  settle ();
}

/* The question that is open, or NULL. */
static GtkDialog *
question (void)
{
  GListModel *windows = gtk_window_get_toplevels ();
  for (guint n = 0; n < g_list_model_get_n_items (windows); n++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, n);
      if (GTK_IS_MESSAGE_DIALOG (window) && gtk_widget_get_visible (GTK_WIDGET (window)))
        return GTK_DIALOG (window);
    }
  return NULL;
}

static void
save_and_answer (Fixture *f, int answer)
{
  pf_window_save (f->window);
  settle ();
  g_assert_nonnull (question ());
  g_assert_false (f->window->saving);
  gtk_dialog_response (question (), answer);
  wait_until_saved (f);
  g_assert_null (question ());
}

static void
assert_holds (const char *path, const char *text)
{
  g_autofree char *held = NULL;
  g_assert_true (g_file_get_contents (path, &held, NULL, NULL));
  g_assert_nonnull (strstr (held, text));
}

/* What another window or program has saved meanwhile isn't replaced unasked, nor lost. */
static void
a_changed_file_is_asked_for (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  enum { REPLACE = 1 };
  g_autofree char *path = path_of (f, "piece.pinfold"), *before = path_of (f, "piece.pinfold~");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  fill_window (f);
  pf_window_set_file (f->window, file);
  pf_window_save (f->window); /* there is no such file yet */
  wait_until_saved (f);
  pf_window_save (f->window); /* its own */
  g_assert_null (question ());
  wait_until_saved (f);
  assert_holds (path, "armure");

  g_assert_true (g_file_set_contents (path, "another's work", -1, NULL));
  save_and_answer (f, GTK_RESPONSE_CANCEL);
  assert_holds (path, "another's work");
  save_and_answer (f, REPLACE);
  assert_holds (path, "armure");
  assert_holds (before, "another's work");
  pf_window_save (f->window);
  g_assert_null (question ());
  wait_until_saved (f);
}

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
#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, tear_down)
  ADD ("/window/dropped", all_that_is_dropped_is_opened);
  ADD ("/window/changed-file", a_changed_file_is_asked_for);
  ADD ("/window/errors", no_error_is_lost);
  ADD ("/window/hand", nothing_changes_under_the_hand);
  ADD ("/window/drawing", drawing_goes_on);
  ADD ("/window/filling", a_fill_under_way_comes_to_its_end);
  ADD ("/window/strip", strip_is_ticked_where_it_is_seen);
  ADD ("/window/import", import_enlarges_the_sheet);
  ADD ("/window/advice", advice_ends_when_it_is_followed);
  ADD ("/window/traced", what_is_traced_is_scrolled_to);
  ADD ("/window/closed", a_closed_window_forgets_files);
  return g_test_run ();
}
