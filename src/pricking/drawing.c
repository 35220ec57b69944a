/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drawings by file or text: what is too big, compressed or empty is refused before it is parsed.
 */
#include "svg.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#define CHUNK (1 << 16)

static void
set_too_big (const char *name, GError **error)
{
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("%s is larger than %d MB; remove its pictures and save it again as plain SVG"),
               name, PF_SVG_MAX_BYTES / (1024 * 1024));
}

static bool
check_text (const char *svg, gsize n, const char *name, GError **error)
{
  const char *problem = NULL;
  if (n > PF_SVG_MAX_BYTES)
    {
      set_too_big (name, error);
      return false;
    }
  if (n == 0)
    problem = _ ("the file is empty");
  else if (n >= 2 && memcmp (svg, "\x1f\x8b", 2) == 0)
    problem = _ ("it is a compressed drawing (SVGZ); save it as plain SVG");
  if (problem != NULL)
    g_set_error (error, PF_ERROR, PF_ERROR_FILE, "%s: %s", name, problem);
  return problem == NULL;
}

PfDrawing *
pf_drawing_parse (const char *svg, gsize n, const char *name, const char *const *elements,
                  GError **error)
{
  PfSvgReader reader;
  PfDrawing *drawing = NULL;
  g_return_val_if_fail (svg != NULL || n == 0, NULL);
  g_return_val_if_fail (name != NULL, NULL);
  if (!check_text (svg, n, name, error))
    return NULL;
  if (pf_svg_reader_init (&reader, svg, n, name, elements, error) &&
      pf_svg_reader_run (&reader, error))
    drawing = pf_svg_outlines (&reader, error);
  pf_svg_reader_clear (&reader);
  return drawing;
}

/* The whole file, or NULL as soon as it is known to be too big. */
static GString *
read_file (FILE *file, const char *name, GError **error)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *chunk = g_malloc (CHUNK);
  for (size_t got; text->len <= PF_SVG_MAX_BYTES && (got = fread (chunk, 1, CHUNK, file)) > 0;)
    g_string_append_len (text, chunk, (gssize) got);
  if (ferror (file))
    g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("%s can't be read: %s"), name,
                 g_strerror (errno));
  else if (text->len > PF_SVG_MAX_BYTES)
    set_too_big (name, error);
  else
    return g_steal_pointer (&text);
  return NULL;
}

static GString *
read_named (const char *filename, const char *name, GError **error)
{
  GString *text = NULL;
  struct stat status;
  FILE *const file = g_fopen (filename, "rb");
  if (file == NULL || fstat (fileno (file), &status) != 0)
    g_set_error (error, PF_ERROR, PF_ERROR_FILE, _ ("%s can't be opened: %s"), name,
                 g_strerror (errno));
  else if (status.st_size > PF_SVG_MAX_BYTES)
    set_too_big (name, error);
  else
    text = read_file (file, name, error);
  if (file != NULL)
    fclose (file);
  return text;
}

PfDrawing *
pf_drawing_load (const char *filename, const char *const *elements, GError **error)
{
  g_return_val_if_fail (filename != NULL, NULL);
  g_autofree char *name = g_filename_display_name (filename);
  g_autoptr (GString) text = read_named (filename, name, error);
  return text != NULL ? pf_drawing_parse (text->str, text->len, name, elements, error) : NULL;
}
