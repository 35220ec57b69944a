/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents saved to their file. What couldn't be read again isn't written.
 */
#include <glib/gi18n-lib.h>

#include "document-file.h"

bool
pf_document_save (const PfDocument *document, const char *filename, GError **error)
{
  gsize n;
  g_autofree char *whole = g_canonicalize_filename (filename, NULL);
  g_autofree char *folder = g_path_get_dirname (whole);
  g_autofree char *json = pf_document_to_json (document, folder, &n);
  if (n <= PF_JSON_MAX_DOCUMENT)
    return pf_file_save_keeping_last (filename, json, n, error);
  g_autofree char *shown = g_filename_display_name (filename);
  g_set_error (
      error, PF_ERROR, PF_ERROR_TOO_BIG,
      _ ("“%s” can’t be saved: the document would have more than %d MB. Remove some of its "
         "motifs or background lines. What was there before is unchanged."),
      shown, PF_JSON_MAX_DOCUMENT / (1024 * 1024));
  return false;
}
