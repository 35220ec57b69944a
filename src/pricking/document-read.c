/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents out of JSON. A document exists only if all of it was read.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "document-file.h"

static const char *const document_keys[] = { "format", "version",  "title",      "notes",  "size",
                                             "page",   "underlay", "background", "motifs", NULL };
static const char *const page_keys[] = { "paper",        "enlarge",    "pins_only", "mirror",
                                         "background",   "edge_strip", "copies",    "parts",
                                         "pair_colours", NULL };
static const char *const underlay_keys[] = { "file",     "file_escaped", "map",
                                             "strength", "shown",        NULL };

static void
check_format (PfJsonReader *reader, JsonObject *object)
{
  const char *format = pf_json_string (reader, object, "format", false);
  const int version = format ? pf_json_int (reader, object, "version", -1) : -1;
  if (g_strcmp0 (format, "pinfold") != 0)
    pf_json_fail (reader, _ ("This isn’t a Pinfold document: “format” must be “%s”."), "pinfold");
  else if (version > PF_DOCUMENT_VERSION)
    pf_json_fail (reader,
                  _ ("A later Pinfold wrote this document (version %d): open it with that one. "
                     "This one reads version %d."),
                  version, PF_DOCUMENT_VERSION);
  else if (version != PF_DOCUMENT_VERSION)
    pf_json_fail (reader, _ ("“version” must be %d."), PF_DOCUMENT_VERSION);
}

static void
read_paper (PfJsonReader *reader, JsonObject *object, PfPageSetup *page)
{
  const char *name = pf_json_string (reader, object, "paper", false);
  g_autoptr (GError) error = NULL;
  const PfPaper *paper = name && *name ? pf_paper_find (name, &error) : NULL;
  if (error)
    pf_json_fail (reader, "%s", error->message);
  if (paper)
    page->paper = paper;
}

/* The parts of the book; as they are where the file has none, as older ones do. */
static void
read_parts (PfJsonReader *reader, JsonObject *object, PfPageSetup *page)
{
  if (!pf_json_member (reader, object, "parts"))
    return;
  const char *const *names = pf_book_part_names ();
  g_auto (GStrv) parts = pf_json_strings (reader, object, "parts");
  page->parts = 0;
  for (char **part = parts; *part; part++)
    {
      guint n = 0;
      while (names[n] && strcmp (names[n], *part) != 0)
        n++;
      if (names[n])
        page->parts |= (PfBookParts) (1U << n);
      else
        {
          g_autofree char *all = g_strjoinv (", ", (char **) names);
          g_autofree char *shown = pf_json_shown (*part);
          pf_json_fail (reader, _ ("“parts” has “%s”; a part is one of: %s."), shown, all);
        }
    }
}

static void
read_page (PfJsonReader *reader, JsonObject *document, PfPageSetup *page)
{
  JsonNode *node = pf_json_member (reader, document, "page");
  if (!node)
    return;
  pf_json_at (reader, g_strdup ("page"));
  JsonObject *object = pf_json_object (reader, node, page_keys);
  read_paper (reader, object, page);
  page->enlarge = pf_json_number (reader, object, "enlarge", PF_LIMIT_NUMBER, 1);
  page->pins_only = pf_json_bool (reader, object, "pins_only");
  page->mirror = pf_json_bool (reader, object, "mirror");
  if (pf_json_member (reader, object, "background"))
    page->background = pf_json_bool (reader, object, "background");
  page->edge_strip = pf_json_bool (reader, object, "edge_strip");
  page->copies = pf_json_int (reader, object, "copies", 1);
  if (page->copies < 1 || page->copies > PF_LIMIT_COPIES)
    pf_json_fail (reader, _ ("“copies” must be 1 to %d."), PF_LIMIT_COPIES);
  read_parts (reader, object, page);
  page->pair_colours = pf_json_bool (reader, object, "pair_colours");
}

char *
pf_filename_read (PfJsonReader *reader, JsonObject *object, const char *key,
                  const char *escaped_key)
{
  const char *plain = pf_json_string (reader, object, key, false);
  if (plain && *plain)
    return g_strdup (plain);
  const char *escaped = pf_json_string (reader, object, escaped_key, false);
  if (!escaped || !*escaped)
    return NULL;
  char *name = g_uri_unescape_string (escaped, NULL);
  if (!name)
    pf_json_fail (reader, _ ("“%s” isn’t a file’s name."), escaped_key);
  return name;
}

static void
read_underlay (PfJsonReader *reader, JsonObject *object, const char *folder, PfUnderlay *underlay)
{
  double m[6];
  g_autofree char *file = pf_filename_read (reader, object, "file", "file_escaped");
  if (!file)
    pf_json_fail (reader, _ ("“file” must be a text in quotes, of letters that can be shown."));
  else
    underlay->file = g_path_is_absolute (file) || !folder ? g_steal_pointer (&file)
                                                          : g_canonicalize_filename (file, folder);
  pf_json_numbers (reader, object, "map", PF_LIMIT_MM, m, G_N_ELEMENTS (m));
  underlay->map = (PfAffine){ m[0], m[1], m[2], m[3], m[4], m[5] };
  underlay->strength = pf_json_number (reader, object, "strength", 1, 1);
  if (underlay->strength < 0)
    pf_json_fail (reader, _ ("“strength” must be 0 to 1."));
  underlay->shown = pf_json_bool (reader, object, "shown");
}

static void
read_background (PfJsonReader *reader, JsonObject *object, PfDocument *document)
{
  guint n;
  JsonArray *list = pf_json_list (reader, object, "background", &n);
  for (guint k = 0; k < n && !reader->error; k++)
    {
      pf_json_at (reader, g_strdup_printf (_ ("line %u of the background"), k + 1));
      JsonNode *node = json_array_get_element (list, k);
      const char *text = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
      PfPolyline *line = pf_polyline_read (reader, text ? text : "?");
      if (line)
        g_ptr_array_add (document->background, line);
    }
}

static void
read_motifs (PfJsonReader *reader, JsonObject *object, PfDocument *document)
{
  guint n;
  g_autoptr (GHashTable) grounds = pf_grounds_read_new ();
  JsonArray *list = pf_json_list (reader, object, "motifs", &n);
  document->drafts = g_new0 (PfDraft *, MAX (n, 1));
  for (guint k = 0; k < n && !reader->error; k++)
    document->drafts[document->n_drafts++] =
        pf_draft_read (reader, json_array_get_element (list, k), k, grounds);
}

static void
refuse_image (PfJsonReader *reader, const char *id, const PfDraft *original)
{
  g_autofree char *shown = pf_json_shown (id);
  if (!original)
    pf_json_fail (reader, _ ("“mirror_of” names “%s”, but no motif has this id."), shown);
  else
    pf_json_fail (
        reader,
        _ ("“mirror_of” goes round in a ring, or on over more than %d motifs: one of them "
           "must be an original."),
        PF_LIMIT_IMAGES);
}

/* A motif and all that it is the image of, of the image of: each must be there, and the row must
 * come to an end. */
static void
check_images (PfJsonReader *reader, const PfDraft *draft, GHashTable *by_id)
{
  for (int steps = 0; draft->mirror_of; steps++)
    {
      const PfDraft *original = g_hash_table_lookup (by_id, draft->mirror_of);
      if (!original || steps == PF_LIMIT_IMAGES)
        {
          refuse_image (reader, draft->mirror_of, original);
          return;
        }
      draft = original;
    }
}

static void
check_ids (PfJsonReader *reader, const PfDocument *document)
{
  g_autoptr (GHashTable) by_id = g_hash_table_new (g_str_hash, g_str_equal);
  for (size_t n = 0; n < document->n_drafts && !reader->error; n++)
    {
      PfDraft *draft = document->drafts[n];
      g_autofree char *shown = pf_json_shown (draft->id);
      pf_json_at (reader, g_strdup_printf (_ ("motif %zu"), n + 1));
      if (!g_hash_table_insert (by_id, draft->id, draft))
        pf_json_fail (reader, _ ("An earlier motif has the id “%s” too: give each its own."),
                      shown);
    }
  for (size_t n = 0; n < document->n_drafts && !reader->error; n++)
    if (document->drafts[n]->mirror_of)
      {
        pf_json_at (reader, g_strdup_printf (_ ("motif %zu"), n + 1));
        check_images (reader, document->drafts[n], by_id);
      }
}

static void
read_all (PfJsonReader *reader, JsonObject *object, const char *folder, PfDocument *document)
{
  double size[2] = { document->width, document->height };
  g_free (document->title);
  document->title = g_strdup (pf_json_lines (reader, object, "title"));
  g_free (document->notes);
  document->notes = g_strdup (pf_json_lines (reader, object, "notes"));
  if (pf_json_member (reader, object, "size"))
    pf_json_numbers (reader, object, "size", PF_LIMIT_MM, size, 2);
  if (size[0] < 0 || size[1] < 0)
    pf_json_fail (reader, _ ("“size” must be the width and the height in mm."));
  document->width = size[0];
  document->height = size[1];
  read_page (reader, object, &document->page);
  JsonNode *underlay = pf_json_member (reader, object, "underlay");
  if (underlay)
    {
      pf_json_at (reader, g_strdup ("underlay"));
      document->underlay = g_new0 (PfUnderlay, 1);
      read_underlay (reader, pf_json_object (reader, underlay, underlay_keys), folder,
                     document->underlay);
    }
  read_background (reader, object, document);
  read_motifs (reader, object, document);
  check_ids (reader, document);
}

PfDocument *
pf_document_read (PfJsonReader *reader, JsonNode *node, const char *folder)
{
  g_autoptr (PfDocument) document = pf_document_new ();
  JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  check_format (reader, object);
  if (!reader->error) /* a later version has other keys */
    read_all (reader, pf_json_object (reader, node, document_keys), folder, document);
  pf_json_at (reader, NULL);
  return reader->error ? NULL : g_steal_pointer (&document);
}

PfDocument *
pf_document_parse (const char *json, gsize n, const char *name, const char *folder, GError **error)
{
  g_autoptr (JsonNode) root = pf_json_parse (json, n, PF_JSON_MAX_DOCUMENT, name, error);
  if (!root)
    return NULL;
  PfJsonReader reader = { .file = name };
  PfDocument *document = pf_document_read (&reader, root, folder);
  if (reader.error)
    g_propagate_error (error, reader.error);
  return document;
}

PfDocument *
pf_document_load (const char *filename, GError **error)
{
  gsize n;
  g_autofree char *json = pf_json_read_file (filename, PF_JSON_MAX_DOCUMENT, &n, error);
  if (!json)
    return NULL;
  g_autofree char *shown = g_filename_display_name (filename);
  g_autofree char *whole = g_canonicalize_filename (filename, NULL);
  g_autofree char *folder = g_path_get_dirname (whole);
  return pf_document_parse (json, n, shown, folder, error);
}
