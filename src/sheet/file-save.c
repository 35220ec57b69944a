/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Saves a file whole or not at all: the bytes go to a file of another name beside it, which takes
 * the old one's place only when all of it is on the disk.
 */
#include <sheet.h>

#include <errno.h>
#include <stdlib.h>
#include <sys/stat.h>

#include <string.h>

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

static bool
fail (const char *filename, const char *reason, GError **error)
{
  g_autofree char *shown = g_filename_display_name (filename);
  g_set_error (error, PF_ERROR, PF_ERROR_FILE,
               _ ("“%s” can't be saved: %s. What was there before is unchanged."), shown, reason);
  return false;
}

/* Why the file couldn't be written, without the names of files that are not the user's. */
static const char *
reason_of (const GError *error)
{
  switch (error->code)
    {
    case G_FILE_ERROR_NOSPC:
      return _ ("the disk is full");
    case G_FILE_ERROR_NOENT:
    case G_FILE_ERROR_NOTDIR:
      return _ ("its folder doesn't exist");
    case G_FILE_ERROR_ACCES:
    case G_FILE_ERROR_PERM:
    case G_FILE_ERROR_ROFS:
      return _ ("you may not write there");
    case G_FILE_ERROR_ISDIR:
      return _ ("it is a folder");
    default:
      return error->message;
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

bool
pf_file_save (const char *filename, const char *bytes, gsize n, GError **error)
{
  GStatBuf status;
  const bool exists = g_stat (filename, &status) == 0;
  if (exists && S_ISDIR (status.st_mode))
    return fail (filename, _ ("it is a folder"), error);
  if (exists && !S_ISREG (status.st_mode))
    return write_through (filename, bytes, n, error);
  if (n > (gsize) G_MAXSSIZE)
    return fail (filename, _ ("it is too big"), error);

  /* Where the name is a link, the file that it leads to is replaced, not the link. */
  g_autoptr (GError) inner = NULL;
  char *real = exists ? realpath (filename, NULL) : NULL;
  const bool saved = g_file_set_contents_full (
      real ? real : filename, bytes, (gssize) n,
      G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, &inner);
  free (real);
  return saved || fail (filename, reason_of (inner), error);
}

bool
pf_file_ends_in (const char *filename, const char *ending)
{
  const size_t length = strlen (filename), end = strlen (ending);
  return length > end && g_ascii_strcasecmp (filename + length - end, ending) == 0;
}
