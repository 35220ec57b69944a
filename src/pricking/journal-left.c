/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Work that was left behind: journals whose lock no program holds.
 */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "document-file.h"

#define SUFFIX ".journal"

static const char *const journal_keys[] = { "format",  "version",  "file", "file_escaped",
                                            "written", "document", NULL };

static char *
lock_name (const char *journal)
{
  g_autofree char *base = g_strndup (journal, strlen (journal) - strlen (SUFFIX));
  return g_strconcat (base, ".lock", NULL);
}

/* Takes the lock of a journal: an open file to close, -1 if there is no lock, -2 if a program holds
 * it. */
static int
take_lock (const char *journal)
{
  g_autofree char *name = lock_name (journal);
  const int lock = g_open (name, O_RDWR | O_CLOEXEC, 0);
  if (lock < 0)
    return errno == ENOENT ? -1 : -2;
  if (flock (lock, LOCK_EX | LOCK_NB) == 0)
    return lock;
  close (lock);
  return -2;
}

static void
give_lock (int lock)
{
  if (lock >= 0)
    close (lock);
}

/* --- Reading --- */

static JsonObject *
read_around (PfJsonReader *reader, JsonNode *root)
{
  JsonObject *object = pf_json_object (reader, root, journal_keys);
  const char *format = pf_json_string (reader, object, "format", true);
  if (g_strcmp0 (format, "pinfold-journal") != 0 ||
      pf_json_int (reader, object, "version", -1) != 1)
    pf_json_fail (reader, _ ("This isn’t unsaved work that this Pinfold can read."));
  if (!pf_json_member (reader, object, "document"))
    pf_json_fail (reader, _ ("“%s” is missing."), "document");
  return object;
}

static JsonNode *
parse_file (const char *path, GError **error)
{
  gsize n;
  g_autofree char *shown = g_filename_display_name (path);
  g_autofree char *json = pf_json_read_file (path, PF_JSON_MAX_DOCUMENT, &n, error);
  return json ? pf_json_parse (json, n, PF_JSON_MAX_DOCUMENT, shown, error) : NULL;
}

PfDocument *
pf_journal_load (const PfLeftWork *left, GError **error)
{
  g_autofree char *shown = g_filename_display_name (left->journal);
  g_autoptr (JsonNode) root = parse_file (left->journal, error);
  if (!root)
    return NULL;
  PfJsonReader reader = { .file = shown };
  JsonObject *object = read_around (&reader, root);
  JsonNode *node = pf_json_member (&reader, object, "document");
  PfDocument *document = node ? pf_document_read (&reader, node, NULL) : NULL;
  if (reader.error)
    g_propagate_error (error, reader.error);
  return document;
}

/* --- Finding --- */

static void
left_free (void *data)
{
  PfLeftWork *left = data;
  g_free (left->journal);
  g_free (left->filename);
  g_free (left->title);
  g_date_time_unref (left->written);
  g_free (left);
}

static GDateTime *
time_of_file (const char *path)
{
  GStatBuf status;
  return g_date_time_new_from_unix_utc (g_stat (path, &status) == 0 ? status.st_mtime : 0);
}

/* What can be told of a journal without all of its document. One that can't be read is told of by
 * its own name, so that nothing is lost without a word. */
static PfLeftWork *
left_new (const char *path)
{
  PfLeftWork *left = g_new0 (PfLeftWork, 1);
  PfJsonReader reader = { .file = path };
  g_autoptr (JsonNode) root = parse_file (path, NULL);
  JsonObject *object = root ? read_around (&reader, root) : NULL;
  left->journal = g_strdup (path);
  if (object)
    {
      JsonNode *node = pf_json_member (&reader, object, "document");
      JsonObject *document =
          node && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
      const char *written = pf_json_string (&reader, object, "written", true);
      left->filename = pf_filename_read (&reader, object, "file", "file_escaped");
      left->title = g_strdup (pf_json_lines (&reader, document, "title"));
      left->written = written ? g_date_time_new_from_iso8601 (written, NULL) : NULL;
    }
  if (!left->title)
    left->title = g_filename_display_basename (path);
  if (!left->written)
    left->written = time_of_file (path);
  g_clear_error (&reader.error);
  return left;
}

/* Half-written files and locks that a crash left beside the journal. */
static void
tidy_up (const char *folder, const char *name)
{
  const char *half = *name == '.' ? strstr (name, SUFFIX ".") : NULL;
  const bool is_lock = g_str_has_suffix (name, ".lock");
  if (!half && !is_lock)
    return;
  g_autofree char *base = half ? g_strndup (name + 1, (gsize) (half - name) - 1)
                               : g_strndup (name, strlen (name) - strlen (".lock"));
  g_autofree char *journal = g_strconcat (folder, "/", base, SUFFIX, NULL);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  const int lock = take_lock (journal);
  if (lock != -2 && (half || !g_file_test (journal, G_FILE_TEST_EXISTS)))
    g_unlink (path);
  give_lock (lock);
}

static int
compare_left (gconstpointer a, gconstpointer b)
{
  const PfLeftWork *one = *(PfLeftWork *const *) a, *other = *(PfLeftWork *const *) b;
  return strcmp (one->journal, other->journal);
}

GPtrArray *
pf_journal_list (const char *folder)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (left_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  while (dir && (name = g_dir_read_name (dir)))
    {
      if (*name == '.' || !g_str_has_suffix (name, SUFFIX))
        {
          tidy_up (folder, name);
          continue;
        }
      g_autofree char *path = g_build_filename (folder, name, NULL);
      const int lock = take_lock (path);
      if (lock != -2)
        g_ptr_array_add (list, left_new (path));
      give_lock (lock);
    }
  g_ptr_array_sort (list, compare_left);
  return list;
}

bool
pf_journal_discard (const PfLeftWork *left, GError **error)
{
  g_autofree char *name = lock_name (left->journal);
  const int lock = take_lock (left->journal);
  const int problem = lock == -2 ? EBUSY : g_unlink (left->journal) != 0 ? errno : 0;
  if (lock >= 0 && !problem)
    g_unlink (name);
  give_lock (lock);
  if (!problem || problem == ENOENT)
    return true;
  g_autofree char *shown = g_filename_display_name (left->journal);
  g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("“%s” can’t be removed: %s."), shown,
               g_strerror (problem));
  return false;
}
