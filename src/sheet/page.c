/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Writes one page as SVG. Every element stands on a line of its own and takes its ink from the
 * group round it, so that pages stay small and can be compared line by line.
 */
#include "page.h"

#include <math.h>
#include <string.h>

struct PfPage {
  GString *out;
  int depth; /* groups that are open */
};

void
pf_page_append_number (GString *out, double value)
{
  g_return_if_fail (isfinite (value));
  char text[G_ASCII_DTOSTR_BUF_SIZE + 310]; /* the largest double has 309 digits */
  g_ascii_formatd (text, sizeof text, "%.3f", value);
  size_t n = strlen (text);
  while (text[n - 1] == '0')
    n--;
  if (text[n - 1] == '.')
    n--;
  text[n] = 0;
  g_string_append (out, strcmp (text, "-0") == 0 ? "0" : text);
}

/* The characters of XML 1.0 (fifth edition, production 2). */
static bool
is_xml_char (gunichar c)
{
  return c == 0x9 || c == 0xa || c == 0xd || (c >= 0x20 && c <= 0xd7ff) ||
         (c >= 0xe000 && c <= 0xfffd) || (c >= 0x10000 && c <= 0x10ffff);
}

static void
append_char (GString *out, gunichar c)
{
  switch (c)
    {
    case '<':
      g_string_append (out, "&lt;");
      break;
    case '>':
      g_string_append (out, "&gt;");
      break;
    case '&':
      g_string_append (out, "&amp;");
      break;
    case '"':
      g_string_append (out, "&quot;");
      break;
    case '\'':
      g_string_append (out, "&apos;");
      break;
    default:
      g_string_append_unichar (out, is_xml_char (c) ? c : 0xfffd);
    }
}

void
pf_page_append_text (GString *out, const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  for (const char *p = valid; *p; p = g_utf8_next_char (p))
    append_char (out, g_utf8_get_char (p));
}

static void
append_attribute (PfPage *page, const char *name, double value)
{
  g_string_append_printf (page->out, " %s=\"", name);
  pf_page_append_number (page->out, value);
  g_string_append_c (page->out, '"');
}

static void
append_point (PfPage *page, PfPoint p)
{
  pf_page_append_number (page->out, p.x);
  g_string_append_c (page->out, ',');
  pf_page_append_number (page->out, p.y);
}

PfPage *
pf_page_new (double width, double height, const char *title)
{
  PfPage *page = g_new0 (PfPage, 1);
  page->out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"");
  pf_page_append_number (page->out, width);
  g_string_append (page->out, "mm\" height=\"");
  pf_page_append_number (page->out, height);
  g_string_append (page->out, "mm\" viewBox=\"0 0 ");
  pf_page_append_number (page->out, width);
  g_string_append_c (page->out, ' ');
  pf_page_append_number (page->out, height);
  g_string_append (page->out, "\" font-family=\"'DejaVu Sans', sans-serif\">\n<title>");
  pf_page_append_text (page->out, title);
  g_string_append (page->out, "</title>\n");
  pf_page_group (page, "paper", (PfInk){ .fill = "#fff" });
  pf_page_box (page, (PfBox){ { 0, 0 }, { width, height } });
  pf_page_group_end (page);
  return page;
}

char *
pf_page_finish (PfPage *page)
{
  g_assert (page->depth == 0);
  g_string_append (page->out, "</svg>\n");
  char *text = g_string_free (page->out, FALSE);
  g_free (page);
  return text;
}

static void
append_dash (PfPage *page, PfInk ink)
{
  g_string_append (page->out, " stroke-dasharray=\"");
  for (int i = 0; i < ink.n_dash; i++)
    {
      if (i > 0)
        g_string_append_c (page->out, ' ');
      pf_page_append_number (page->out, ink.dash[i]);
    }
  g_string_append_c (page->out, '"');
}

void
pf_page_group (PfPage *page, const char *name, PfInk ink)
{
  g_string_append_printf (page->out, "<g class=\"%s\" fill=\"%s\"", name,
                          ink.fill ? ink.fill : "none");
  if (ink.stroke)
    {
      g_string_append_printf (page->out, " stroke=\"%s\" stroke-linejoin=\"round\"", ink.stroke);
      append_attribute (page, "stroke-width", ink.width);
      if (ink.round)
        g_string_append (page->out, " stroke-linecap=\"round\"");
      if (ink.n_dash > 0)
        append_dash (page, ink);
    }
  g_string_append (page->out, ">\n");
  page->depth++;
}

void
pf_page_text_group (PfPage *page, const char *name, const char *colour, const char *halo)
{
  g_string_append_printf (page->out, "<g class=\"%s\" fill=\"%s\"", name, colour);
  if (halo)
    g_string_append_printf (page->out,
                            " stroke=\"%s\" stroke-width=\"0.5\" stroke-linejoin=\"round\""
                            " paint-order=\"stroke\"",
                            halo);
  g_string_append (page->out, ">\n");
  page->depth++;
}

void
pf_page_clip_group (PfPage *page, const char *name, PfBox box)
{
  g_string_append (page->out, "<clipPath id=\"window\">\n");
  pf_page_box (page, box);
  g_string_append_printf (page->out, "</clipPath>\n<g class=\"%s\" clip-path=\"url(#window)\">\n",
                          name);
  page->depth++;
}

void
pf_page_group_end (PfPage *page)
{
  g_assert (page->depth > 0);
  g_string_append (page->out, "</g>\n");
  page->depth--;
}

void
pf_page_line (PfPage *page, PfPoint a, PfPoint b)
{
  g_string_append (page->out, "<line");
  append_attribute (page, "x1", a.x);
  append_attribute (page, "y1", a.y);
  append_attribute (page, "x2", b.x);
  append_attribute (page, "y2", b.y);
  g_string_append (page->out, "/>\n");
}

static void
append_points (PfPage *page, const char *element, const PfPoint *points, size_t n)
{
  g_string_append_printf (page->out, "<%s points=\"", element);
  for (size_t i = 0; i < n; i++)
    {
      if (i > 0)
        g_string_append_c (page->out, ' ');
      append_point (page, points[i]);
    }
  g_string_append (page->out, "\"/>\n");
}

void
pf_page_polyline (PfPage *page, const PfPoint *points, size_t n)
{
  append_points (page, "polyline", points, n);
}

void
pf_page_polygon (PfPage *page, const PfPoint *points, size_t n)
{
  append_points (page, "polygon", points, n);
}

void
pf_page_circle (PfPage *page, PfPoint centre, double radius)
{
  g_string_append (page->out, "<circle");
  append_attribute (page, "cx", centre.x);
  append_attribute (page, "cy", centre.y);
  append_attribute (page, "r", radius);
  g_string_append (page->out, "/>\n");
}

void
pf_page_box (PfPage *page, PfBox box)
{
  g_string_append (page->out, "<rect");
  append_attribute (page, "x", box.min.x);
  append_attribute (page, "y", box.min.y);
  append_attribute (page, "width", box.max.x - box.min.x);
  append_attribute (page, "height", box.max.y - box.min.y);
  g_string_append (page->out, "/>\n");
}

void
pf_page_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, const char *text)
{
  pf_page_turned_text (page, at, anchor, size, 0, text);
}

void
pf_page_turned_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, double turn,
                     const char *text)
{
  static const char *const anchors[] = { NULL, "middle", "end" };
  g_string_append (page->out, "<text");
  append_attribute (page, "x", at.x);
  append_attribute (page, "y", at.y);
  append_attribute (page, "font-size", size);
  if (anchors[anchor])
    g_string_append_printf (page->out, " text-anchor=\"%s\"", anchors[anchor]);
  if (turn != 0)
    {
      g_string_append (page->out, " transform=\"rotate(");
      pf_page_append_number (page->out, turn);
      g_string_append_c (page->out, ' ');
      append_point (page, at);
      g_string_append (page->out, ")\"");
    }
  g_string_append_c (page->out, '>');
  pf_page_append_text (page->out, text);
  g_string_append (page->out, "</text>\n");
}
