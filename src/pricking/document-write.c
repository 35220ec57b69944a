/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents written as JSON: the same bytes for the same document.
 */
#include <math.h>
#include <string.h>

#include "document-file.h"

static double
limited (double number, double min, double max)
{
  return isnan (number) ? min : CLAMP (number, min, max);
}

static void
write_parts (PfJsonWriter *writer, PfBookParts parts)
{
  const char *const *names = pf_book_part_names ();
  pf_json_open_list (writer, "parts", false);
  for (guint n = 0; names[n]; n++)
    if (parts & 1U << n)
      pf_json_put_text (writer, NULL, names[n]);
  pf_json_close (writer);
}

static void
write_page (PfJsonWriter *writer, const PfPageSetup *page)
{
  pf_json_open_object (writer, "page", true);
  pf_json_put_text (writer, "paper", page->paper->name);
  pf_json_put_number (writer, "enlarge",
                      limited (page->enlarge, -PF_LIMIT_NUMBER, PF_LIMIT_NUMBER));
  pf_json_put_bool (writer, "pins_only", page->pins_only);
  pf_json_put_bool (writer, "mirror", page->mirror);
  pf_json_put_bool (writer, "background", page->background);
  pf_json_put_bool (writer, "edge_strip", page->edge_strip);
  pf_json_put_number (writer, "copies", CLAMP (page->copies, 1, PF_LIMIT_COPIES));
  write_parts (writer, page->parts);
  pf_json_put_bool (writer, "pair_colours", page->pair_colours);
  pf_json_close (writer);
}

/* The rest of `file` below `folder`, or NULL if it lies elsewhere. */
static const char *
below (const char *file, const char *folder)
{
  const size_t n = folder ? strlen (folder) : 0;
  if (n == 0 || strncmp (file, folder, n) != 0)
    return NULL;
  const char *rest = file + n;
  if (folder[n - 1] != '/' && *rest++ != '/')
    return NULL;
  return *rest ? rest : NULL;
}

/* Could the name be read again, letter by letter? */
static bool
is_plain (const char *name)
{
  if (!g_utf8_validate (name, -1, NULL))
    return false;
  for (const char *p = name; *p; p = g_utf8_next_char (p))
    if (!pf_json_letter_is_shown (g_utf8_get_char (p)))
      return false;
  return true;
}

void
pf_filename_write (PfJsonWriter *writer, const char *key, const char *escaped_key,
                   const char *filename)
{
  if (is_plain (filename))
    {
      pf_json_put_text (writer, key, filename);
      return;
    }
  g_autofree char *escaped = g_uri_escape_string (filename, "/", false);
  pf_json_put_text (writer, escaped_key, escaped);
}

static void
write_underlay (PfJsonWriter *writer, const PfUnderlay *underlay, const char *folder)
{
  const PfAffine m = underlay->map;
  const double map[] = { m.xx, m.xy, m.yx, m.yy, m.x0, m.y0 };
  g_autofree char *base = folder ? g_canonicalize_filename (folder, NULL) : NULL;
  const char *relative = below (underlay->file, base);
  pf_json_open_object (writer, "underlay", true);
  pf_filename_write (writer, "file", "file_escaped", relative ? relative : underlay->file);
  pf_json_open_list (writer, "map", false);
  for (size_t k = 0; k < G_N_ELEMENTS (map); k++)
    pf_json_put_number (writer, NULL, limited (map[k], -PF_LIMIT_MM, PF_LIMIT_MM));
  pf_json_close (writer);
  pf_json_put_number (writer, "strength", limited (underlay->strength, 0, 1));
  pf_json_put_bool (writer, "shown", underlay->shown);
  pf_json_close (writer);
}

static void
write_polyline (PfJsonWriter *writer, const PfPolyline *line)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (size_t k = 0; k < line->n_points; k++)
    {
      g_string_append (text, k == 0 ? "M " : " L ");
      pf_append_number (text, limited (line->points[k].x, -PF_LIMIT_MM, PF_LIMIT_MM));
      g_string_append_c (text, ' ');
      pf_append_number (text, limited (line->points[k].y, -PF_LIMIT_MM, PF_LIMIT_MM));
    }
  if (line->closed)
    g_string_append (text, " Z");
  if (line->n_points > 0)
    pf_json_put_text (writer, NULL, text->str);
}

void
pf_document_write (PfJsonWriter *writer, const char *key, const PfDocument *document,
                   const char *folder)
{
  pf_json_open_object (writer, key, true);
  pf_json_put_text (writer, "format", "pinfold");
  pf_json_put_number (writer, "version", PF_DOCUMENT_VERSION);
  pf_json_put_text (writer, "title", document->title);
  pf_json_put_text (writer, "notes", document->notes);
  pf_json_put_two (writer, "size", limited (document->width, 0, PF_LIMIT_MM),
                   limited (document->height, 0, PF_LIMIT_MM));
  write_page (writer, &document->page);
  if (document->underlay)
    write_underlay (writer, document->underlay, folder);
  pf_json_open_list (writer, "background", true);
  for (guint k = 0; k < document->background->len; k++)
    write_polyline (writer, g_ptr_array_index (document->background, k));
  pf_json_close (writer);
  pf_json_open_list (writer, "motifs", true);
  for (size_t n = 0; n < document->n_drafts; n++)
    pf_draft_write (writer, document->drafts[n]);
  pf_json_close (writer);
  pf_json_close (writer);
}

char *
pf_document_to_json (const PfDocument *document, const char *folder, gsize *n)
{
  PfJsonWriter writer;
  gsize length;
  pf_json_writer_init (&writer);
  pf_document_write (&writer, NULL, document, folder);
  char *json = pf_json_writer_end (&writer, &length);
  if (n)
    *n = length;
  return json;
}
