/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Saves pages in the format that the file's name ends in. All pages are one PDF; SVG and PNG hold
 * one page a file.
 */
#include "paint.h"

#include <string.h>

#include <glib/gi18n-lib.h>

#include <sheet.h>

typedef enum { FORMAT_PDF, FORMAT_SVG, FORMAT_PNG, FORMAT_UNKNOWN } Format;

static Format
format_of (const char *filename)
{
  static const char *const endings[] = { ".pdf", ".svg", ".png" };
  for (int i = 0; i < FORMAT_UNKNOWN; i++)
    if (pf_file_ends_in (filename, endings[i]))
      return (Format) i;
  return FORMAT_UNKNOWN;
}

/* NAME.svg, NAME-2.svg, ... */
static char *
name_of_page (const char *filename, size_t n)
{
  const int stem = (int) strlen (filename) - 4;
  if (n == 0)
    return g_strdup (filename);
  return g_strdup_printf ("%.*s-%zu%s", stem, filename, n + 1, filename + stem);
}

static bool
save_page (const char *page, double width, double height, Format format, const char *name,
           GError **error)
{
  if (format == FORMAT_SVG)
    return pf_file_save (name, page, strlen (page), error);
  g_autoptr (GByteArray) png = pf_paint_png (page, width, height, PF_PNG_DOTS, error);
  return png && pf_file_save (name, (const char *) png->data, png->len, error);
}

bool
pf_paint_save (const char *const *pages, size_t n, double width, double height, PfPdfWords words,
               const char *filename, char ***files, GError **error)
{
  const Format format = format_of (filename);
  if (format == FORMAT_UNKNOWN)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                   _ ("“%s” can't be saved: end its name in .pdf, .svg or .png."), filename);
      return false;
    }
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();
  if (format == FORMAT_PDF)
    {
      g_autoptr (GByteArray) pdf = pf_paint_pdf (pages, n, width, height, words, error);
      if (!pdf || !pf_file_save (filename, (const char *) pdf->data, pdf->len, error))
        return false;
      g_strv_builder_add (names, filename);
    }
  for (size_t i = 0; i < n && format != FORMAT_PDF; i++)
    {
      g_autofree char *name = name_of_page (filename, i);
      if (!save_page (pages[i], width, height, format, name, error))
        return false;
      g_strv_builder_add (names, name);
    }
  if (files)
    *files = g_strv_builder_end (names);
  return true;
}
