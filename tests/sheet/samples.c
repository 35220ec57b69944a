/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Reads pages with libxml2 and measures words with cairo.
 */
#include "samples.h"

#include <math.h>
#include <string.h>

#include <cairo.h>
#include <libxml/parser.h>

static PfPricking *
filled (const char *title, PfDrawing *drawing, const char *ground_name, double gap, PfEdgeKind edge,
        PfBeads beads)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_load (ground_name, &error);
  g_assert_no_error (error);
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = gap;
  settings.beads = beads;
  PfPricking *pricking =
      pf_pricking_new (title, drawing, ground, edge, 2, &settings, false, &error);
  g_assert_no_error (error);
  pf_pricking_fill (pricking, &error);
  g_assert_no_error (error);
  return pricking;
}

PfPricking *
sample_demo (const char *name, const char *ground, double gap, PfEdgeKind edge, PfBeads beads)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strconcat (name, ".svg", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("PF_DATA"), "demo", file, NULL);
  PfDrawing *drawing = pf_drawing_load (path, NULL, &error);
  g_assert_no_error (error);
  return filled (name, drawing, ground, gap, edge, beads);
}

PfPricking *
sample_drawing (const char *title, const char *inside, const char *ground, double gap)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *svg = g_strconcat ("<svg xmlns='http://www.w3.org/2000/svg' width='1000mm' "
                                      "height='1000mm' viewBox='0 0 1000 1000'>",
                                      inside, "</svg>", NULL);
  PfDrawing *drawing = pf_drawing_parse (svg, strlen (svg), "sample.svg", NULL, &error);
  g_assert_no_error (error);
  return filled (title, drawing, ground, gap, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
}

PfSheetSettings
sample_settings (const char *paper)
{
  g_autoptr (GError) error = NULL;
  PfSheetSettings settings = { .paper = pf_paper_find (paper, &error),
                               .enlarge = 1,
                               .date = "2024-02-29",
                               .created = 1709164800 };
  g_assert_no_error (error);
  return settings;
}

xmlDoc *
read_page (const char *svg)
{
  xmlDoc *page = xmlReadMemory (svg, (int) strlen (svg), NULL, NULL,
                                XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  g_assert_nonnull (page);
  const xmlNode *root = xmlDocGetRootElement (page);
  g_assert_cmpstr ((const char *) root->name, ==, "svg");
  g_assert_cmpstr ((const char *) root->ns->href, ==, "http://www.w3.org/2000/svg");
  return page;
}

static bool
is_in_group (xmlNode *node, const char *group)
{
  if (!group)
    return true;
  xmlChar *name = xmlGetProp (node->parent, (const xmlChar *) "class");
  const bool is_in = name && strcmp ((const char *) name, group) == 0;
  xmlFree (name);
  return is_in;
}

static void
collect (xmlNode *node, const char *group, const char *name, GPtrArray *found)
{
  for (; node; node = node->next)
    {
      if (node->type != XML_ELEMENT_NODE)
        continue;
      if (strcmp ((const char *) node->name, name) == 0 && is_in_group (node, group))
        g_ptr_array_add (found, node);
      collect (node->children, group, name, found);
    }
}

GPtrArray *
elements_of (xmlDoc *page, const char *group, const char *name)
{
  GPtrArray *found = g_ptr_array_new ();
  collect (xmlDocGetRootElement (page), group, name, found);
  return found;
}

size_t
count_of (xmlDoc *page, const char *group, const char *name)
{
  g_autoptr (GPtrArray) found = elements_of (page, group, name);
  return found->len;
}

static char *
attribute_of (const xmlNode *node, const char *attribute)
{
  xmlChar *value = xmlGetProp ((xmlNode *) node, (const xmlChar *) attribute);
  char *text = value ? g_strdup ((const char *) value) : NULL;
  xmlFree (value);
  return text;
}

double
number_of (const xmlNode *node, const char *attribute)
{
  g_autofree char *text = attribute_of (node, attribute);
  g_assert_nonnull (text);
  char *end;
  const double value = g_ascii_strtod (text, &end);
  g_assert_true (end > text);
  return value;
}

GArray *
points_of (const xmlNode *node)
{
  g_autofree char *text = attribute_of (node, "points");
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  GArray *points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (char **word = words; *word; word++)
    {
      char *comma;
      PfPoint p;
      p.x = g_ascii_strtod (*word, &comma);
      g_assert_cmpint (*comma, ==, ',');
      p.y = g_ascii_strtod (comma + 1, NULL);
      g_array_append_val (points, p);
    }
  return points;
}

char *
text_of (const xmlNode *node)
{
  xmlChar *content = xmlNodeGetContent (node);
  char *text = g_strdup ((const char *) content);
  xmlFree (content);
  return text;
}

/* Of text from the origin to the right, in a font of `size`. */
static cairo_text_extents_t
extents_of (const char *text, double size)
{
  /* Measured large, so that nothing is rounded to whole pixels. */
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cairo = cairo_create (surface);
  cairo_select_font_face (cairo, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size (cairo, 1000);
  cairo_text_extents_t e;
  cairo_text_extents (cairo, text, &e);
  cairo_destroy (cairo);
  cairo_surface_destroy (surface);
  const double scale = size / 1000;
  return (cairo_text_extents_t){ e.x_bearing * scale, e.y_bearing * scale, e.width * scale,
                                 e.height * scale,    e.x_advance * scale, 0 };
}

PfBox
text_ink (const xmlNode *node)
{
  g_autofree char *text = text_of (node), *anchor = attribute_of (node, "text-anchor");
  g_autofree char *transform = attribute_of (node, "transform");
  const cairo_text_extents_t e = extents_of (text, number_of (node, "font-size"));
  const PfPoint at = { number_of (node, "x"), number_of (node, "y") };
  const double part = g_strcmp0 (anchor, "middle") == 0 ? 0.5 : g_strcmp0 (anchor, "end") == 0;
  const double left = e.x_bearing - part * e.x_advance, top = e.y_bearing;
  if (!transform)
    return (PfBox){ { at.x + left, at.y + top }, { at.x + left + e.width, at.y + top + e.height } };
  /* A quarter turn to the left: right becomes up, down becomes right. */
  g_assert_true (g_str_has_prefix (transform, "rotate(-90 "));
  return (PfBox){ { at.x + top, at.y - left - e.width }, { at.x + top + e.height, at.y - left } };
}

static PfBox
box_of (const xmlNode *rect)
{
  const PfPoint min = { number_of (rect, "x"), number_of (rect, "y") };
  return (PfBox){ min, { min.x + number_of (rect, "width"), min.y + number_of (rect, "height") } };
}

PfBox
window_of (xmlDoc *page)
{
  g_autoptr (GPtrArray) clips = elements_of (page, NULL, "clipPath");
  g_assert_cmpuint (clips->len, ==, 1);
  const xmlNode *rect = xmlFirstElementChild (g_ptr_array_index (clips, 0));
  return box_of (rect);
}

PfBox
frame_of (xmlDoc *page)
{
  g_autoptr (GPtrArray) rects = elements_of (page, "frame", "rect");
  g_assert_cmpuint (rects->len, ==, 1);
  return box_of (g_ptr_array_index (rects, 0));
}
