/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The history: whatever is done, undoing it step by step brings back every byte, and so does
 * redoing it.
 */
#include "samples.h"

static char *
json_now (PfHistory *history)
{
  return pf_document_to_json (pf_history_current (history), NULL, NULL);
}

static void
assert_now (PfHistory *history, GPtrArray *states, guint n)
{
  g_autofree char *json = json_now (history);
  g_assert_cmpstr (json, ==, g_ptr_array_index (states, n));
}

/* An edit, as a change or as a drag of three previews. */
static void
change_somehow (PfHistory *history, const char *name)
{
  if (g_test_rand_int_range (0, 3) > 0)
    {
      pf_history_change (history, sample_edit (pf_history_current (history)), name, false);
      return;
    }
  g_autoptr (PfDocument) start = pf_document_ref (pf_history_current (history));
  for (int k = 0; k < 3; k++)
    pf_history_preview (history, sample_edit (start));
  pf_history_commit (history, name);
}

static void
test_random (void)
{
  enum { STEPS = 150 };
  g_autoptr (PfDocument) document = sample_document ();
  g_autoptr (PfHistory) history = pf_history_new (document);
  g_autoptr (GPtrArray) states = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (states, json_now (history));
  for (guint n = 1; n <= STEPS; n++)
    {
      g_autofree char *name = g_strdup_printf ("Change %u", n);
      change_somehow (history, name);
      g_assert_cmpstr (pf_history_undo_name (history), ==, name);
      g_ptr_array_add (states, json_now (history));
    }
  for (guint n = STEPS; n > 0; n--)
    {
      assert_now (history, states, n);
      pf_history_undo (history);
    }
  assert_now (history, states, 0);
  g_assert_null (pf_history_undo_name (history));
  g_assert_true (pf_history_current (history) == document);
  for (guint n = 1; n <= STEPS; n++)
    {
      pf_history_redo (history);
      assert_now (history, states, n);
    }
  g_assert_null (pf_history_redo_name (history));
  /* A walk to and fro ends where it should. */
  guint at = STEPS;
  for (int k = 0; k < 300; k++)
    {
      const bool undo = g_test_rand_int_range (0, 2);
      (undo ? pf_history_undo : pf_history_redo) (history);
      at = undo ? at - (at > 0) : at + (at < STEPS);
      assert_now (history, states, at);
    }
}

/* --- Commands on a document that is told by its title ---
 *
 * A letter each: a and b change, as "x" and as "y"; m and n do the same and may merge; p shows a
 * preview, c makes it a change "p", k takes it back; u undoes, r redoes; s saves, S says that no
 * state is saved; e changes to the same document. */

static const struct {
  const char *name, *commands;
  const char *title; /* how many edits led to what is seen */
  const char *undo, *redo;
  bool saved;
} walks[] = {
  { "start", "", "", NULL, NULL, true },
  { "change", "a", "1", "x", NULL, false },
  { "undo", "au", "", NULL, "x", true },
  { "undo-at-start", "uu", "", NULL, NULL, true },
  { "redo", "aur", "1", "x", NULL, false },
  { "redo-at-end", "arr", "1", "x", NULL, false },
  { "two-names", "abu", "1", "x", "y", false },
  { "branch-gone", "aubr", "2", "y", NULL, false },
  { "merge", "mmmu", "", NULL, "x", true },
  { "merge-shows-last", "mmm", "3", "x", NULL, false },
  { "merge-of-another-name", "mnu", "1", "x", "y", false },
  { "no-merge-without-asking", "mau", "1", "x", "x", false },
  { "no-merge-into-saved", "msmu", "1", "x", "x", true },
  { "no-merge-after-undo", "mmaumu", "2", "x", "x", false },
  { "same-document", "aeee", "1", "x", NULL, false },
  { "same-document-keeps-redo", "abue", "1", "x", "y", false },
  { "preview", "ap", "2", "x", NULL, false },
  { "preview-isn't-a-change", "p", "1", NULL, NULL, true },
  { "preview-taken-back", "apk", "1", "x", NULL, false },
  { "commit", "apppcu", "1", "x", "p", false },
  { "commit-nothing", "ac", "1", "x", NULL, false },
  { "undo-ends-preview", "apu", "", NULL, "x", true },
  { "change-ends-preview", "pau", "", NULL, "x", true },
  { "saved", "as", "1", "x", NULL, true },
  { "undo-of-saved", "asu", "", NULL, "x", false },
  { "redo-to-saved", "asur", "1", "x", NULL, true },
  { "saved-branch-gone", "asubu", "", NULL, "y", false },
  { "unsaved", "S", "", NULL, NULL, false },
};

static PfDocument *
titled (PfHistory *history, int *edits)
{
  PfDocument *copy = pf_document_copy (pf_history_current (history));
  g_free (copy->title);
  copy->title = g_strdup_printf ("%d", ++*edits);
  return copy;
}

static void
run (PfHistory *history, char command, int *edits)
{
  switch (command)
    {
    case 'a':
    case 'm':
      pf_history_change (history, titled (history, edits), "x", command == 'm');
      break;
    case 'b':
    case 'n':
      pf_history_change (history, titled (history, edits), "y", command == 'n');
      break;
    case 'e':
      pf_history_change (history, pf_document_ref (pf_history_current (history)), "e", false);
      break;
    case 'p':
      pf_history_preview (history, titled (history, edits));
      g_assert_true (pf_history_previewing (history));
      break;
    case 'c':
      pf_history_commit (history, "p");
      break;
    case 'k':
      pf_history_cancel (history);
      break;
    case 'u':
      pf_history_undo (history);
      break;
    case 'r':
      pf_history_redo (history);
      break;
    default:
      (command == 's' ? pf_history_set_saved : pf_history_set_unsaved) (history);
    }
}

static void
test_walk (gconstpointer data)
{
  const size_t w = GPOINTER_TO_SIZE (data);
  g_autoptr (PfDocument) document = pf_document_new ();
  g_autoptr (PfHistory) history = pf_history_new (document);
  int edits = 0;
  for (const char *c = walks[w].commands; *c; c++)
    run (history, *c, &edits);
  g_assert_cmpstr (pf_history_current (history)->title, ==, walks[w].title);
  g_assert_cmpstr (pf_history_undo_name (history), ==, walks[w].undo);
  g_assert_cmpstr (pf_history_redo_name (history), ==, walks[w].redo);
  g_assert_true (pf_history_is_saved (history) == walks[w].saved);
}

static void
count (G_GNUC_UNUSED PfHistory *history, gpointer data)
{
  ++*(int *) data;
}

static void
test_signal (void)
{
  static const struct {
    char command;
    int times;
  } steps[] = { { 'a', 1 }, { 'e', 0 }, { 'p', 1 }, { 'p', 1 }, { 'k', 1 }, { 'k', 0 },
                { 'c', 0 }, { 'u', 1 }, { 'u', 0 }, { 'r', 1 }, { 'r', 0 }, { 's', 1 } };
  g_autoptr (PfDocument) document = pf_document_new ();
  g_autoptr (PfHistory) history = pf_history_new (document);
  int times = 0, edits = 0;
  g_signal_connect (history, "changed", G_CALLBACK (count), &times);
  for (size_t s = 0; s < G_N_ELEMENTS (steps); s++)
    {
      times = 0;
      run (history, steps[s].command, &edits);
      g_assert_cmpint (times, ==, steps[s].times);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/history/random", test_random);
  g_test_add_func ("/history/signal", test_signal);
  for (size_t w = 0; w < G_N_ELEMENTS (walks); w++)
    {
      g_autofree char *path = g_strdup_printf ("/history/walk/%s", walks[w].name);
      g_test_add_data_func (path, GSIZE_TO_POINTER (w), test_walk);
    }
  return g_test_run ();
}
