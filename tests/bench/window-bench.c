/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The whole window with ten thousand stitches: how soon an opened file is shown, and how long the
 * main loop is held at most while the maker goes through the steps, drags the ground, and works at
 * the pillow. Needs a screen.
 */
#include <stdio.h>

#include <glib/gstdio.h>

#include <ground-tool.h>
#include <pillow-page.h>
#include <window.h>

#include "bench.h"
#include "bench-document.h"

#define N_STITCHES 1.0e4
#define N_MOVES 60
#define PATIENCE 30000000 /* µs */

static PfWindow *window;
static double loop_free; /* when the loop last came back from waiting */
static double held;      /* the longest it was busy in one go, ms */

/* The loop is held from where it stops waiting for events to where it waits again. */
static int
poll_and_measure (GPollFD *fds, guint n, int timeout)
{
  held = MAX (held, bench_now () - loop_free);
  const int ready = g_poll (fds, n, timeout);
  loop_free = bench_now ();
  return ready;
}

static bool
is_worked_out (void)
{
  const PfMotif *motif = pf_editor_motif (pf_window_editor (window), 0);
  return motif != NULL && motif->filling != NULL;
}

static bool
wait_until (bool (*done) (void))
{
  const gint64 end = g_get_monotonic_time () + PATIENCE;
  while (!done () && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  return done ();
}

static void
run_for (gint64 ms)
{
  const gint64 end = g_get_monotonic_time () + 1000 * ms;
  while (g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
}

/* Gives the longest that the loop was held since the last call. */
static double
take_held (void)
{
  const double longest = held;
  held = 0;
  return longest;
}

static void
measure_opening (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  const gint64 start = g_get_monotonic_time ();
  pf_window_open (window, file);
  if (!wait_until (is_worked_out))
    g_error ("The file isn't opened");
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  const double took = (double) (g_get_monotonic_time () - start) / 1000;
  bench_at_most ("ms from opening a file to its first picture", took, 1000);
  run_for (1500);
  bench_at_most ("ms the loop is held at most, opening", take_held (), 100);
}

static void
measure_steps (void)
{
  PfEditor *editor = pf_window_editor (window);
  for (int stage = 0; stage < PF_N_STAGES; stage++)
    {
      pf_editor_set_stage (editor, (PfStage) stage);
      run_for (1200);
      g_autofree char *what = g_strdup_printf ("ms the loop is held at most, step %d", stage + 1);
      bench_at_most (what, take_held (), 100);
    }
}

static void
measure_drag (void)
{
  PfEditor *editor = pf_window_editor (window);
  pf_editor_set_stage (editor, PF_STAGE_GROUND);
  run_for (800);
  take_held ();
  for (int n = 0; n < N_MOVES; n++)
    {
      PfDraft *draft = pf_editor_edit (editor);
      draft->settings.placement.origin.x += 0.13;
      pf_editor_preview (editor, draft);
      gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
    }
  pf_editor_commit (editor, "Move the ground");
  run_for (800);
  bench_at_most ("ms the loop is held at most, dragging the ground", take_held (), 100);
}

static PfPillowPage *
find_pillow (GtkWidget *widget)
{
  PfPillowPage *found = PF_IS_PILLOW_PAGE (widget) ? PF_PILLOW_PAGE (widget) : NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_pillow (child);
  return found;
}

static int
compare_doubles (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* From the middle of the work on, as a step there has most before and after it. */
static void
measure_pillow (void)
{
  PfEditor *editor = pf_window_editor (window);
  double took[N_MOVES];
  size_t place;
  g_action_group_activate_action (G_ACTION_GROUP (window), "pillow", NULL);
  run_for (800);
  PfPillowPage *page = find_pillow (GTK_WIDGET (window));
  const PfPillowPlan *plan = pf_pillow_page_plan (page, &place);
  place = plan->steps->n_steps / 2;
  pf_pillow_go (editor, plan, place, true);
  run_for (800);
  for (int n = 0; n < N_MOVES; n++)
    {
      take_held ();
      pf_pillow_go (editor, plan, ++place, false);
      run_for (60);
      took[n] = take_held ();
    }
  qsort (took, N_MOVES, sizeof *took, compare_doubles);
  bench_at_most ("ms the loop is held by a step at the pillow, as a rule", took[N_MOVES / 2], 16);
  bench_at_most ("ms the loop is held at most, at the pillow", took[N_MOVES - 1], 100);
}

static char *
save_document (const char *folder)
{
  g_autoptr (PfDocument) document = bench_document ("torchon", N_STITCHES);
  g_autoptr (GError) error = NULL;
  char *path = g_build_filename (folder, "large.pinfold", NULL);
  if (!pf_document_save (document, path, &error))
    g_error ("%s", error->message);
  return path;
}

int
main (void)
{
  if (!gtk_init_check ())
    {
      printf ("skipped: there is no screen\n");
      return 77;
    }
  g_set_prgname ("pinfold");
  g_autofree char *folder = g_dir_make_tmp ("pinfold-bench-XXXXXX", NULL);
  g_autofree char *path = save_document (folder);
  g_autoptr (PfApplication) application = pf_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  if (!g_application_register (G_APPLICATION (application), NULL, NULL))
    g_error ("The application can't be registered");
  window = pf_window_new (application);
  gtk_window_set_default_size (GTK_WINDOW (window), 1600, 1000);
  gtk_window_present (GTK_WINDOW (window));
  run_for (1500);
  g_main_context_set_poll_func (NULL, poll_and_measure);
  loop_free = bench_now ();
  measure_opening (path);
  measure_steps ();
  measure_drag ();
  measure_pillow ();
  gtk_window_destroy (GTK_WINDOW (window));
  g_remove (path);
  g_rmdir (folder);
  return bench_exit ();
}
