/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A journal's files, as the program that writes them sees them.
 */
#include "journal-file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "document-file.h"

static void
refuse_folder (const char *folder, int number, GError **error)
{
  g_autofree char *shown = g_filename_display_name (folder);
  g_set_error (error, PF_ERROR, PF_ERROR_FILE,
               _ ("Unsaved work can’t be kept safe in “%s”: %s. Save often."), shown,
               g_strerror (number));
}

/* Another program that looks for what was left behind may take the lock first, and the file away
 * with it. */
static bool
hold (int lock, const char *path)
{
  struct stat held, named;
  while (flock (lock, LOCK_EX) != 0)
    if (errno != EINTR)
      return false;
  return fstat (lock, &held) == 0 && stat (path, &named) == 0 && held.st_ino == named.st_ino &&
         held.st_dev == named.st_dev;
}

char *
pf_journal_file_new (const char *folder, int *lock, GError **error)
{
  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      refuse_folder (folder, errno, error);
      return NULL;
    }
  for (;;)
    {
      g_autofree char *base =
          g_strdup_printf ("%s/%08x%08x", folder, g_random_int (), g_random_int ());
      g_autofree char *path = g_strconcat (base, ".lock", NULL);
      *lock = g_open (path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
      if (*lock < 0 && errno != EEXIST)
        {
          refuse_folder (folder, errno, error);
          return NULL;
        }
      if (*lock >= 0 && hold (*lock, path))
        return g_strconcat (base, ".journal", NULL);
      if (*lock >= 0)
        close (*lock);
    }
}

bool
pf_journal_file_save (const char *path, const PfDocument *document, const char *filename,
                      GError **error)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char *written = g_date_time_format_iso8601 (now);
  PfJsonWriter writer;
  gsize n;
  pf_json_writer_init (&writer);
  pf_json_open_object (&writer, NULL, true);
  pf_json_put_text (&writer, "format", "pinfold-journal");
  pf_json_put_number (&writer, "version", 1);
  if (filename)
    pf_filename_write (&writer, "file", "file_escaped", filename);
  pf_json_put_text (&writer, "written", written);
  pf_document_write (&writer, "document", document, NULL);
  pf_json_close (&writer);
  g_autofree char *json = pf_json_writer_end (&writer, &n);
  if (n <= PF_JSON_MAX_DOCUMENT)
    return pf_file_save (path, json, n, error);
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("The document has more than %d MB: unsaved work on it isn’t kept safe. Remove "
                  "some of its motifs or background lines."),
               PF_JSON_MAX_DOCUMENT / (1024 * 1024));
  return false;
}

void
pf_journal_file_end (const char *path, int lock)
{
  g_autofree char *base = g_strndup (path, strlen (path) - strlen (".journal"));
  g_autofree char *name = g_strconcat (base, ".lock", NULL);
  g_unlink (name);
  close (lock);
}
