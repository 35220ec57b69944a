/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Saves a file whole or not at all: the bytes go to a file of another name beside it, which takes
 * the old one's place only when all of it is on the disk. At no moment is there no file.
 */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "pricking.h"

static bool
fail (const char *filename, const char *reason, GError **error)
{
  g_autofree char *shown = g_filename_display_name (filename);
  g_set_error (error, PF_ERROR, PF_ERROR_FILE,
               _ ("“%s” can't be saved: %s. What was there before is unchanged."), shown, reason);
  return false;
}

/* Why the file couldn't be written, and what to do where that isn't plain. */
static const char *
reason_of (int number)
{
  switch (number)
    {
    case ENOSPC:
    case EDQUOT:
      return _ ("the disk is full; make room, or save it on another disk");
    case EFBIG:
      return _ ("no file may grow so large there; save it on another disk");
    case ENOENT:
    case ENOTDIR:
      return _ ("its folder doesn't exist");
    case EACCES:
    case EPERM:
    case EROFS:
      return _ ("you may not write there; choose another folder");
    case EISDIR:
      return _ ("it is a folder");
    default:
      return g_strerror (number);
    }
}

static bool
fail_midway (const char *filename, int number, GError **error)
{
  g_autofree char *shown = g_filename_display_name (filename);
  g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("“%s” can't be written: %s."), shown,
               g_strerror (number));
  return false;
}

/* A pipe, a terminal or a device is written to, not replaced. */
static bool
write_through (const char *filename, const char *bytes, gsize n, GError **error)
{
  FILE *stream = g_fopen (filename, "wb");
  if (!stream)
    return fail_midway (filename, errno, error);
  const bool written = fwrite (bytes, 1, n, stream) == n;
  const int write_error = errno;
  if (fclose (stream) != 0 || !written)
    return fail_midway (filename, written ? errno : write_error, error);
  return true;
}

/* The functions below give 0, or the number of what went wrong. */

static int
write_all (int file, const char *bytes, gsize n)
{
  while (n > 0)
    {
      const ssize_t written = write (file, bytes, n);
      if (written < 0 && errno != EINTR)
        return errno;
      bytes += MAX (written, 0);
      n -= (gsize) MAX (written, 0);
    }
  return 0;
}

/* A file beside `real` with the bytes, safe on the disk; `*name` gets its name. */
static int
write_beside (const char *real, const char *bytes, gsize n, const mode_t *mode, char **name)
{
  g_autofree char *folder = g_path_get_dirname (real), *base = g_path_get_basename (real);
  g_autofree char *short_base = g_strndup (base, 200); /* a name has at most 255 bytes */
  g_autofree char *pattern = g_strdup_printf (".%s.XXXXXX", short_base);
  g_autofree char *path = g_build_filename (folder, pattern, NULL);
  const int file = g_mkstemp_full (path, O_WRONLY | O_CLOEXEC, 0666);
  if (file < 0)
    return errno;
  int problem = write_all (file, bytes, n);
  if (!problem && mode && fchmod (file, *mode & 07777) != 0)
    problem = errno;
  if (!problem && fsync (file) != 0)
    problem = errno;
  if (close (file) != 0 && !problem)
    problem = errno;
  if (problem)
    g_unlink (path);
  else
    *name = g_steal_pointer (&path);
  return problem;
}

/* Where the file system has no second names for one file, the bytes are copied. */
static int
copy_beside (const char *real, mode_t mode, char **name)
{
  g_autofree char *bytes = NULL;
  gsize n;
  if (!g_file_get_contents (real, &bytes, &n, NULL))
    return EIO;
  return write_beside (real, bytes, n, &mode, name);
}

/* Makes NAME~ another name of the file that is at NAME now. */
static int
keep_last (const char *real, mode_t mode)
{
  g_autofree char *last = g_strconcat (real, "~", NULL);
  g_autofree char *beside = g_strdup_printf ("%s~.%08x", real, g_random_int ());
  if (link (real, beside) != 0)
    {
      g_clear_pointer (&beside, g_free);
      const int problem = copy_beside (real, mode, &beside);
      if (problem)
        return problem;
    }
  const int problem = g_rename (beside, last) != 0 ? errno : 0;
  g_unlink (beside); /* still there if both were names of one file already */
  return problem;
}

/* So that the new name is on the disk too. Some file systems can't: nothing is lost there but the
 * certainty. */
static void
sync_folder (const char *real)
{
  g_autofree char *folder = g_path_get_dirname (real);
  const int file = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);
  if (file < 0)
    return;
  fsync (file);
  close (file);
}

/* `mode` is that of the file there is, or NULL. `*last` says whether it was the last version that
 * couldn't be kept. */
static int
replace (const char *real, const char *bytes, gsize n, const mode_t *mode, bool keep, bool *last)
{
  g_autofree char *beside = NULL;
  int problem = write_beside (real, bytes, n, mode, &beside);
  if (problem)
    return problem;
  if (keep && mode)
    problem = keep_last (real, *mode);
  *last = problem != 0;
  if (!problem && g_rename (beside, real) != 0)
    problem = errno;
  if (problem)
    g_unlink (beside);
  else
    sync_folder (real);
  return problem;
}

/* A name that is free, or a file. Where the name is a link, the file that it leads to is replaced,
 * not the link. */
static bool
save (const char *filename, const char *bytes, gsize n, bool keep, GError **error)
{
  GStatBuf status;
  const bool exists = g_stat (filename, &status) == 0;
  if (exists && S_ISDIR (status.st_mode))
    return fail (filename, _ ("it is a folder"), error);
  if (exists && !S_ISREG (status.st_mode))
    return write_through (filename, bytes, n, error);
  if (!exists && g_lstat (filename, &status) == 0)
    return fail (filename, _ ("it is a link that leads nowhere; remove it, or choose another name"),
                 error);
  bool last = false;
  char *real = exists ? realpath (filename, NULL) : NULL;
  const int problem =
      replace (real ? real : filename, bytes, n, exists ? &status.st_mode : NULL, keep, &last);
  free (real);
  g_autofree char *reason =
      last ? g_strdup_printf (_ ("its last version can't be kept under its name with ~ at the end "
                                 "(%s)"),
                              reason_of (problem))
           : g_strdup (reason_of (problem));
  return !problem || fail (filename, reason, error);
}

bool
pf_file_save (const char *filename, const char *bytes, gsize n, GError **error)
{
  return save (filename, bytes, n, false, error);
}

bool
pf_file_save_keeping_last (const char *filename, const char *bytes, gsize n, GError **error)
{
  return save (filename, bytes, n, true, error);
}

bool
pf_file_ends_in (const char *filename, const char *ending)
{
  const size_t length = strlen (filename), end = strlen (ending);
  return length > end && g_ascii_strcasecmp (filename + length - end, ending) == 0;
}
