/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A drawing made ready for the walk: its tree, its ids and its style sheets, which count for all
 * elements wherever they stand.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <string.h>

void
pf_svg_set_error (const PfSvgReader *reader, const xmlNode *node, GError **error, PfError code,
                  const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *message = pf_svg_message (format, arguments);
  va_end (arguments);
  g_autofree char *element = pf_svg_element_text (node);
  g_set_error (error, PF_ERROR, code, _ ("%s, line %ld: %s: %s"), reader->name, xmlGetLineNo (node),
               element, message);
}

static void
read_sheet (PfSvgReader *reader, const xmlNode *node)
{
  xmlChar *const text = xmlNodeGetContent (node);
  g_autofree char *unused =
      text != NULL ? pf_svg_sheet_read ((const char *) text, reader->rules) : NULL;
  xmlFree (text);
  if (unused != NULL)
    pf_svg_remark (reader->remarks, node,
                   _ ("its rule for “%.60s” isn't used: only simple selectors are read"), unused);
}

static void
collect (PfSvgReader *reader, xmlNode *node)
{
  const char *const id = pf_svg_attribute (node, "id");
  if (id != NULL && *id != '\0')
    {
      g_ptr_array_add (reader->in_order, node);
      if (!g_hash_table_contains (reader->ids, id))
        g_hash_table_insert (reader->ids, (void *) id, node);
    }
  if (pf_svg_is_named (node, "style"))
    read_sheet (reader, node);
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      collect (reader, child);
}

static bool
open_document (PfSvgReader *reader, const char *svg, gsize n, GError **error)
{
  reader->doc = pf_svg_xml_parse (svg, n, reader->name, error);
  if (reader->doc == NULL)
    return false;
  xmlNode *const root = xmlDocGetRootElement (reader->doc);
  if (root == NULL || !pf_svg_is_named (root, "svg"))
    {
      g_autofree char *element = root != NULL ? pf_svg_element_text (root) : g_strdup ("");
      g_set_error (error, PF_ERROR, PF_ERROR_FILE,
                   _ ("%s isn't an SVG drawing: it begins with %s, not <svg>"), reader->name,
                   element);
      return false;
    }
  collect (reader, root);
  return true;
}

static void
shape_clear (void *data)
{
  PfSvgShape *shape = data;
  for (size_t i = 0; i < shape->n_chains; i++)
    {
      g_free (shape->chains[i].points);
      pf_curve_unref (shape->curves[i]);
    }
  g_free (shape->curves);
  g_free (shape->chains);
}

bool
pf_svg_reader_init (PfSvgReader *reader, const char *svg, gsize n, const char *name,
                    const char *const *elements, GError **error)
{
  *reader = (PfSvgReader){
    .name = name,
    .ids = g_hash_table_new (g_str_hash, g_str_equal),
    .in_order = g_ptr_array_new (),
    .rules = pf_svg_sheet_new (),
    .remarks = pf_svg_remarks_new (),
    .shapes = g_array_new (FALSE, FALSE, sizeof (PfSvgShape)),
    .n_wanted = elements != NULL ? g_strv_length ((char **) elements) : 0,
  };
  g_array_set_clear_func (reader->shapes, shape_clear);
  reader->wanted = g_new0 (PfSvgWanted, reader->n_wanted);
  for (size_t i = 0; i < reader->n_wanted; i++)
    reader->wanted[i].id = elements[i];
  return open_document (reader, svg, n, error);
}

void
pf_svg_reader_clear (PfSvgReader *reader)
{
  g_array_unref (reader->shapes);
  g_array_unref (reader->rules);
  g_hash_table_unref (reader->ids);
  g_ptr_array_unref (reader->in_order);
  pf_svg_remarks_free (reader->remarks);
  g_clear_pointer (&reader->doc, xmlFreeDoc);
  g_clear_error (&reader->error);
  g_free (reader->wanted);
}
