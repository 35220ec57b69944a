/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From XML text to a tree that is safe to walk. Nothing outside the text is ever read, the tree
 * stops growing at the limits of a drawing, and an entity is known only if its text refers to no
 * other: so text can't grow by entities within entities.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

#define SVG_NAMESPACE "http://www.w3.org/2000/svg"

#define MAX_ENTITY_LENGTH 1000
#define MAX_ENTITY_USES 10000

/* What happened while the text was parsed. */
typedef struct {
  int n_elements, n_entities;
  GError *error; /* the first */
  const char *name;
} Parsing;

static void G_GNUC_PRINTF (3, 4)
    stop (xmlParserCtxt *context, PfError code, const char *format, ...)
{
  Parsing *const parsing = context->_private;
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *message = pf_svg_message (format, arguments);
  va_end (arguments);
  if (parsing->error == NULL)
    g_set_error (&parsing->error, PF_ERROR, code, _ ("%s, line %d: %s"), parsing->name,
                 xmlSAX2GetLineNumber (context), message);
  xmlStopParser (context);
}

static void
start_element (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri,
               int n_namespaces, const xmlChar **namespaces, int n_attributes, int n_defaulted,
               const xmlChar **attributes)
{
  xmlParserCtxt *const context = data;
  Parsing *const parsing = context->_private;
  if (++parsing->n_elements > PF_SVG_MAX_ELEMENTS)
    stop (context, PF_ERROR_TOO_BIG, _ ("the drawing has more than %d elements; simplify it"),
          PF_SVG_MAX_ELEMENTS);
  else if (context->nodeNr >= PF_SVG_MAX_DEPTH)
    stop (context, PF_ERROR_TOO_BIG,
          _ ("elements lie more than %d deep within one another; ungroup them"), PF_SVG_MAX_DEPTH);
  else
    /* Without the attributes that only a DTD gives, which come last. */
    xmlSAX2StartElementNs (data, name, prefix, uri, n_namespaces, namespaces,
                           n_attributes - n_defaulted, 0, attributes);
}

/* Lets through entities of plain text only. */
static void
declare_entity (void *data, const xmlChar *name, int type, const xmlChar *public_id,
                const xmlChar *system_id, xmlChar *content)
{
  const char *text = (const char *) content;
  if (type == XML_INTERNAL_GENERAL_ENTITY && text != NULL && strpbrk (text, "&<%") == NULL &&
      strlen (text) <= MAX_ENTITY_LENGTH)
    xmlSAX2EntityDecl (data, name, type, public_id, system_id, content);
}

static xmlEntity *
get_entity (void *data, const xmlChar *name)
{
  xmlParserCtxt *const context = data;
  Parsing *const parsing = context->_private;
  xmlEntity *const entity = xmlSAX2GetEntity (data, name);
  /* Where they are declared, the parser only looks whether they are. */
  if (context->inSubset != 0)
    return entity;
  if (entity == NULL)
    stop (context, PF_ERROR_FILE,
          _ ("the entity “&%.40s;” isn't plain text; save the drawing again as plain SVG"),
          (const char *) name);
  else if (++parsing->n_entities > MAX_ENTITY_USES)
    stop (context, PF_ERROR_TOO_BIG,
          _ ("entities are used more than %d times; save the drawing again as plain SVG"),
          MAX_ENTITY_USES);
  return parsing->error == NULL ? entity : NULL;
}

static void
note_error (void *data, xmlError *error)
{
  Parsing *const parsing = data;
  if (parsing->error != NULL || error->level < XML_ERR_FATAL)
    return;
  g_set_error (&parsing->error, PF_ERROR, PF_ERROR_FILE,
               _ ("%s, line %d: this isn't well-formed XML. Look there for a bracket, quote or end "
                  "of an element that is missing or too many, or save the drawing again as SVG"),
               parsing->name, error->line);
}

/* Gives each attribute that holds entities its whole text as one node. */
static void
flatten_attributes (xmlDoc *doc, xmlNode *node)
{
  for (xmlAttr *attribute = node->properties; attribute != NULL; attribute = attribute->next)
    {
      xmlNode *const first = attribute->children;
      if (first == NULL || (first->next == NULL && first->type == XML_TEXT_NODE))
        continue;
      xmlChar *text = xmlNodeListGetString (doc, first, 1);
      xmlFreeNodeList (first);
      attribute->children = attribute->last = xmlNewDocText (doc, text);
      attribute->children->parent = (xmlNode *) attribute;
      xmlFree (text);
    }
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      flatten_attributes (doc, child);
}

static xmlDoc *
parse (const char *svg, gsize n, Parsing *parsing)
{
  xmlParserCtxt *const context = xmlNewParserCtxt ();
  context->_private = parsing;
  xmlSAXHandler *const sax = context->sax;
  sax->startElementNs = start_element;
  sax->entityDecl = declare_entity;
  sax->getEntity = get_entity;
  sax->reference = NULL;
  sax->comment = NULL;
  sax->processingInstruction = NULL;
  sax->cdataBlock = NULL;
  xmlStructuredErrorFunc const usual = xmlStructuredError;
  void *const usual_data = xmlStructuredErrorContext;
  xmlSetStructuredErrorFunc (parsing, note_error);
  xmlDoc *doc = xmlCtxtReadMemory (context, svg, (int) n, NULL, NULL,
                                   XML_PARSE_NONET | XML_PARSE_COMPACT | XML_PARSE_BIG_LINES);
  xmlSetStructuredErrorFunc (usual_data, usual);
  xmlFreeParserCtxt (context);
  return doc;
}

xmlDoc *
pf_svg_xml_parse (const char *svg, gsize n, const char *name, GError **error)
{
  Parsing parsing = { .name = name };
  xmlDoc *doc = parse (svg, n, &parsing);
  if (doc == NULL && parsing.error == NULL)
    g_set_error (&parsing.error, PF_ERROR, PF_ERROR_FILE,
                 _ ("%s: this isn't well-formed XML; save the drawing again as SVG"), name);
  if (parsing.error != NULL)
    {
      g_propagate_error (error, parsing.error);
      g_clear_pointer (&doc, xmlFreeDoc);
      return NULL;
    }
  xmlNode *const root = xmlDocGetRootElement (doc);
  if (doc->intSubset != NULL && root != NULL)
    flatten_attributes (doc, root);
  return doc;
}

/* A namespace given as an entity is still its reference: the parser expands none. */
static const char *
namespace_of (const xmlNode *node)
{
  const char *uri = node->ns != NULL ? (const char *) node->ns->href : NULL;
  const size_t length = uri != NULL ? strlen (uri) : 0;
  if (length < 3 || uri[0] != '&' || uri[length - 1] != ';')
    return uri;
  g_autofree char *name = g_strndup (uri + 1, length - 2);
  const xmlEntity *const entity = xmlGetDocEntity (node->doc, (const xmlChar *) name);
  return entity != NULL ? (const char *) entity->content : uri;
}

bool
pf_svg_is_element (const xmlNode *node)
{
  if (node->type != XML_ELEMENT_NODE)
    return false;
  const char *uri = namespace_of (node);
  return uri == NULL || strcmp (uri, SVG_NAMESPACE) == 0;
}

bool
pf_svg_is_named (const xmlNode *node, const char *name)
{
  return pf_svg_is_element (node) && strcmp ((const char *) node->name, name) == 0;
}

static const char *
attribute_text (const xmlAttr *attribute)
{
  const xmlNode *const text = attribute->children;
  return text != NULL && text->content != NULL ? (const char *) text->content : "";
}

const char *
pf_svg_attribute (const xmlNode *node, const char *name)
{
  for (const xmlAttr *attribute = node->properties; attribute != NULL; attribute = attribute->next)
    if (attribute->ns == NULL && strcmp ((const char *) attribute->name, name) == 0)
      return attribute_text (attribute);
  return NULL;
}

const char *
pf_svg_reference (const xmlNode *node)
{
  const char *target = pf_svg_attribute (node, "href");
  /* xlink:href, however the prefix is bound. */
  for (const xmlAttr *attribute = node->properties; attribute != NULL && target == NULL;
       attribute = attribute->next)
    if (strcmp ((const char *) attribute->name, attribute->ns != NULL ? "href" : "xlink:href") == 0)
      target = attribute_text (attribute);
  return target != NULL && target[0] == '#' && target[1] != '\0' ? target + 1 : NULL;
}

bool
pf_svg_is_pinhole_layer (const xmlNode *node)
{
  for (const xmlAttr *attribute = node->properties; attribute != NULL; attribute = attribute->next)
    {
      const char *const name = (const char *) attribute->name, *const colon = strrchr (name, ':');
      const bool names_it =
          strcmp (name, "id") == 0 || strcmp (colon ? colon + 1 : name, "label") == 0;
      if (names_it && g_ascii_strcasecmp (attribute_text (attribute), "pinholes") == 0)
        return true;
    }
  return false;
}

/* Text cut off within a character is mended. */
char *
pf_svg_message (const char *format, va_list arguments)
{
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  return g_utf8_make_valid (text, -1);
}

static char *G_GNUC_PRINTF (1, 2) message (const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  char *const text = pf_svg_message (format, arguments);
  va_end (arguments);
  return text;
}

char *
pf_svg_element_text (const xmlNode *node)
{
  const char *const id = pf_svg_attribute (node, "id"), *const name = (const char *) node->name;
  return id != NULL ? message ("<%.40s id=\"%.60s\">", name, id) : message ("<%.40s>", name);
}
