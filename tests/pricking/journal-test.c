/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Journals: what is unsaved is found again after a crash, at most a second old, and whole.
 *
 * The crash is real: a process that edits in a loop is killed (SIGKILL) at a random moment.
 */
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "samples.h"

#define SECOND G_USEC_PER_SEC

typedef struct {
  char *folder;
} Fixture;

static void
set_up (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  fixture->folder = sample_folder ();
}

static void
tear_down (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  sample_folder_remove (fixture->folder);
}

static PfJournal *
open_journal (const char *folder, const char *filename)
{
  g_autoptr (GError) error = NULL;
  PfJournal *journal = pf_journal_new (folder, filename, &error);
  g_assert_no_error (error);
  return journal;
}

static void
flush (PfJournal *journal)
{
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_journal_flush (journal, &error));
  g_assert_no_error (error);
}

static void
write_titled (PfJournal *journal, const char *title)
{
  g_autoptr (PfDocument) document = sample_document ();
  g_free (document->title);
  document->title = g_strdup (title);
  pf_journal_write (journal, document);
}

/* The title of the one journal that was left behind. */
static char *
left_title (const char *folder, char **filename)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) list = pf_journal_list (folder);
  g_assert_cmpuint (list->len, ==, 1);
  const PfLeftWork *left = g_ptr_array_index (list, 0);
  g_autoptr (PfDocument) document = pf_journal_load (left, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (document->title, ==, left->title);
  if (filename)
    *filename = g_strdup (left->filename);
  return g_steal_pointer (&document->title);
}

static guint
n_left (const char *folder)
{
  g_autoptr (GPtrArray) list = pf_journal_list (folder);
  return list->len;
}

static guint
n_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;
  while (g_dir_read_name (dir))
    n++;
  return n;
}

/* --- One program, and its end --- */

static void
test_left (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *folder = g_build_filename (fixture->folder, "made", "here", NULL);
  PfJournal *journal = open_journal (folder, NULL);
  write_titled (journal, "first");
  write_titled (journal, "second");
  flush (journal);
  g_assert_cmpuint (n_left (folder), ==, 0); /* in use */
  pf_journal_set_filename (journal, "/lace/colla\xe4r.pinfold");
  flush (journal);
  pf_journal_free (journal, false);
  g_autofree char *filename = NULL, *title = left_title (folder, &filename);
  g_assert_cmpstr (title, ==, "second");
  g_assert_cmpstr (filename, ==, "/lace/colla\xe4r.pinfold");
  g_autoptr (GPtrArray) list = pf_journal_list (folder);
  const PfLeftWork *left = g_ptr_array_index (list, 0);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_assert_cmpint (g_date_time_difference (now, left->written), <, 60 * SECOND);
  g_assert_cmpint (g_date_time_difference (now, left->written), >=, 0);
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_journal_discard (left, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (n_left (folder), ==, 0);
  g_assert_cmpuint (n_files (folder), ==, 0);
}

/* Nothing is unsaved: nothing is left. Two programs don't see one another's. */
static void
test_saved (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  PfJournal *one = open_journal (fixture->folder, "/lace/one.pinfold");
  PfJournal *other = open_journal (fixture->folder, NULL);
  write_titled (one, "one");
  write_titled (other, "other");
  flush (one);
  flush (other);
  g_assert_cmpuint (n_files (fixture->folder), ==, 4);
  pf_journal_write (one, NULL);
  flush (one);
  g_assert_cmpuint (n_files (fixture->folder), ==, 3);
  pf_journal_free (one, false);
  g_assert_cmpuint (n_left (fixture->folder), ==, 0);
  pf_journal_free (other, true);
  g_assert_cmpuint (n_files (fixture->folder), ==, 0);
}

/* Without a flush the file is there half a second after the first change of many. */
static void
test_soon (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  PfJournal *journal = open_journal (fixture->folder, NULL);
  const gint64 start = g_get_monotonic_time ();
  gint64 first = 0;
  for (int k = 0; first == 0 && g_get_monotonic_time () - start < 10 * SECOND; k++)
    {
      g_autofree char *title = g_strdup_printf ("%d", k);
      write_titled (journal, title);
      g_usleep (10000);
      if (n_files (fixture->folder) > 1)
        first = g_get_monotonic_time () - start;
    }
  g_test_message ("written after %.3f s", (double) first / SECOND);
  g_assert_cmpint (first, >, 0);
  g_assert_cmpint (first, <, SECOND); /* half a second, on a machine that is busy with others */
  pf_journal_free (journal, true);
}

/* A file that isn't a journal is told of, can't be loaded, and can be thrown away. */
static void
test_damaged (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  static const char later[] = "{\"format\": \"pinfold-journal\", \"version\": 1, "
                              "\"document\": {\"format\": \"pinfold\", \"version\": 9}}";
  static const char *const texts[] = { "", "{\"format\": \"pinfold-jour", "{}",
                                       "{\"format\": \"pinfold-journal\", \"version\": 1}", later };
  for (size_t k = 0; k < G_N_ELEMENTS (texts); k++)
    {
      g_autofree char *path = g_build_filename (fixture->folder, "broken.journal", NULL);
      g_assert_true (g_file_set_contents (path, texts[k], -1, NULL));
      g_autoptr (GPtrArray) list = pf_journal_list (fixture->folder);
      g_assert_cmpuint (list->len, ==, 1);
      const PfLeftWork *left = g_ptr_array_index (list, 0);
      g_autoptr (GError) error = NULL;
      g_assert_null (pf_journal_load (left, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
      g_assert_nonnull (strstr (error->message, "broken.journal"));
      g_assert_true (pf_journal_discard (left, NULL));
    }
  g_assert_cmpuint (n_left ("/nowhere/at/all"), ==, 0);
}

static void
test_no_folder (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *file = g_build_filename (fixture->folder, "file", NULL);
  g_autofree char *folder = g_build_filename (file, "in", NULL);
  g_autoptr (GError) error = NULL;
  g_assert_true (g_file_set_contents (file, "", -1, NULL));
  g_assert_null (pf_journal_new (folder, NULL, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
}

/* --- Crashes --- */

/* In a process of its own: edits without end. Each document's title is the time at which it was
 * made; the document is saved now and then, too. */
G_NORETURN static void
edit_on (const char *folder, const char *file, guint32 seed)
{
  GRand *random = g_rand_new_with_seed (seed);
  PfJournal *journal = open_journal (folder, file);
  PfDocument *document = sample_document ();
  for (int k = 0;; k++)
    {
      PfDocument *next = pf_document_copy (document);
      g_free (next->title);
      next->title = g_strdup_printf ("%" G_GINT64_FORMAT, g_get_monotonic_time ());
      sample_step (&document, next);
      if (k == 0 || g_rand_int_range (random, 0, 40) == 0)
        g_assert_true (pf_document_save (document, file, NULL));
      pf_journal_write (journal, document);
      if (k == 0)
        g_assert_cmpint (write (STDOUT_FILENO, "!", 1), ==, 1); /* the clock may start */
      g_usleep (3000);
    }
}

/* Starts this program again to edit on, kills it after `wait`, and gives the time of its death. */
static gint64
run_and_kill (const char *folder, const char *file, gulong wait)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *seed = g_strdup_printf ("%u", (guint32) g_test_rand_int ());
  const char *const argv[] = { self, "--edit-on", folder, file, seed, NULL };
  GPid pid;
  int out;
  g_assert_true (g_spawn_async_with_pipes (NULL, (char **) argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD,
                                           NULL, NULL, &pid, NULL, &out, NULL, &error));
  g_assert_no_error (error);
  char mark;
  g_assert_cmpint (read (out, &mark, 1), ==, 1);
  g_usleep (wait);
  const gint64 death = g_get_monotonic_time ();
  g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
  int status;
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_true (WIFSIGNALED (status));
  close (out);
  return death;
}

/* The monotonic clock is the same for all processes since the machine was started. */
static gint64
age (const char *title, gint64 death)
{
  return death - g_ascii_strtoll (title, NULL, 10);
}

static void
test_kill (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  enum { TIMES = 12 };
  g_autofree char *folder = g_build_filename (fixture->folder, "journals", NULL);
  g_autofree char *file = g_build_filename (fixture->folder, "piece.pinfold", NULL);
  gint64 oldest = 0;
  for (int k = 0; k < TIMES; k++)
    {
      const gulong wait = (gulong) g_test_rand_int_range (0, 900000);
      const gint64 death = run_and_kill (folder, file, wait);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDocument) saved = pf_document_load (file, &error);
      g_assert_no_error (error);
      g_autoptr (GPtrArray) list = pf_journal_list (folder);
      g_assert_cmpuint (list->len, <=, 1);
      gint64 lost = age (saved->title, death);
      if (list->len == 1)
        {
          const PfLeftWork *left = g_ptr_array_index (list, 0);
          g_autoptr (PfDocument) document = pf_journal_load (left, &error);
          g_assert_no_error (error);
          g_assert_cmpstr (left->filename, ==, file);
          lost = MIN (lost, age (document->title, death));
          g_assert_true (pf_journal_discard (left, NULL));
        }
      oldest = MAX (oldest, lost);
      g_assert_cmpint (lost, <, SECOND);
      /* Locks and half-written files of the dead are cleared away. */
      g_assert_cmpuint (n_left (folder), ==, 0);
      g_assert_cmpuint (n_files (folder), ==, 0);
    }
  g_test_message ("at most %.3f s lost", (double) oldest / SECOND);
}

/* --- A full disk --- */

/* In a process of its own, which after its first turn may write no file longer than 1 KiB. */
static int
fill_disk (const char *folder)
{
  const struct rlimit limit = { 1024, 1024 };
  PfJournal *journal = open_journal (folder, NULL);
  write_titled (journal, "before");
  flush (journal);
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
  for (int k = 0; k < 3; k++)
    {
      g_autoptr (GError) error = NULL;
      write_titled (journal, "after");
      g_assert_false (pf_journal_flush (journal, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
    }
  pf_journal_free (journal, false);
  return 0;
}

static void
test_full_disk (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  const char *const argv[] = { self, "--fill-disk", fixture->folder, NULL };
  int status;
  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, NULL, NULL,
                               &status, &error));
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  g_autofree char *title = left_title (fixture->folder, NULL);
  g_assert_cmpstr (title, ==, "before");
}

int
main (int argc, char **argv)
{
  if (argc == 5 && strcmp (argv[1], "--edit-on") == 0)
    edit_on (argv[2], argv[3], (guint32) g_ascii_strtoull (argv[4], NULL, 10));
  if (argc == 3 && strcmp (argv[1], "--fill-disk") == 0)
    return fill_disk (argv[2]);
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/journal/left", Fixture, NULL, set_up, test_left, tear_down);
  g_test_add ("/journal/saved", Fixture, NULL, set_up, test_saved, tear_down);
  g_test_add ("/journal/soon", Fixture, NULL, set_up, test_soon, tear_down);
  g_test_add ("/journal/damaged", Fixture, NULL, set_up, test_damaged, tear_down);
  g_test_add ("/journal/no-folder", Fixture, NULL, set_up, test_no_folder, tear_down);
  g_test_add ("/journal/kill", Fixture, NULL, set_up, test_kill, tear_down);
  g_test_add ("/journal/full-disk", Fixture, NULL, set_up, test_full_disk, tear_down);
  return g_test_run ();
}
