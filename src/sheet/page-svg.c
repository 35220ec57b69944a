/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A page written as SVG. Every element stands on a line of its own and takes its ink from the group
 * round it, so that pages stay small and can be compared line by line.
 */
#include "page-back-end.h"

#include <math.h>
#include <string.h>

/* So many curves of one ink stand in one element: a close-up has more of them than readers of SVG
 * take elements. */
#define MAX_CURVES 500
#define END_OF_PATH "\"/>\n"

typedef struct {
  PfPage page;
  GString *out;
  gsize path_end;  /* where the last path ends; others may join it if nothing follows */
  size_t n_curves; /* in that path */
  guint n_clips;   /* so far */
} SvgPage;

static GString *
out_of (PfPage *page)
{
  return ((SvgPage *) page)->out;
}

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
  g_string_append_printf (out_of (page), " %s=\"", name);
  pf_page_append_number (out_of (page), value);
  g_string_append_c (out_of (page), '"');
}

static void
append_point (PfPage *page, PfPoint p)
{
  pf_page_append_number (out_of (page), p.x);
  g_string_append_c (out_of (page), ',');
  pf_page_append_number (out_of (page), p.y);
}

static void
append_dash (PfPage *page, const PfInk *ink)
{
  g_string_append (out_of (page), " stroke-dasharray=\"");
  for (int i = 0; i < ink->n_dash; i++)
    {
      if (i > 0)
        g_string_append_c (out_of (page), ' ');
      pf_page_append_number (out_of (page), ink->dash[i]);
    }
  g_string_append_c (out_of (page), '"');
}

static void
svg_group (PfPage *page, const char *name, const PfInk *ink)
{
  g_string_append_printf (out_of (page), "<g class=\"%s\" fill=\"%s\"", name,
                          ink->fill ? ink->fill : "none");
  if (ink->stroke)
    {
      g_string_append_printf (out_of (page), " stroke=\"%s\" stroke-linejoin=\"round\"",
                              ink->stroke);
      append_attribute (page, "stroke-width", ink->width);
      if (ink->round)
        g_string_append (out_of (page), " stroke-linecap=\"round\"");
      if (ink->n_dash > 0)
        append_dash (page, ink);
    }
  g_string_append (out_of (page), ">\n");
}

static void
svg_text_group (PfPage *page, const char *name, const char *colour, const char *halo)
{
  g_string_append_printf (out_of (page), "<g class=\"%s\" fill=\"%s\"", name, colour);
  if (halo)
    g_string_append_printf (
        out_of (page),
        " stroke=\"%s\" stroke-width=\"" G_STRINGIFY (PF_HALO_WIDTH) "\" stroke-linejoin=\"round\""
                                                                     " paint-order=\"stroke\"",
        halo);
  g_string_append (out_of (page), ">\n");
}

static void
svg_box (PfPage *page, PfBox box)
{
  g_string_append (out_of (page), "<rect");
  append_attribute (page, "x", box.min.x);
  append_attribute (page, "y", box.min.y);
  append_attribute (page, "width", box.max.x - box.min.x);
  append_attribute (page, "height", box.max.y - box.min.y);
  g_string_append (out_of (page), "/>\n");
}

static void
svg_clip_group (PfPage *page, const char *name, PfBox box)
{
  const guint n = ++((SvgPage *) page)->n_clips;
  g_autofree char *id = n == 1 ? g_strdup ("window") : g_strdup_printf ("window-%u", n);
  g_string_append_printf (out_of (page), "<clipPath id=\"%s\">\n", id);
  svg_box (page, box);
  g_string_append_printf (out_of (page), "</clipPath>\n<g class=\"%s\" clip-path=\"url(#%s)\">\n",
                          name, id);
}

static void
svg_group_end (PfPage *page)
{
  g_string_append (out_of (page), "</g>\n");
}

static void
svg_line (PfPage *page, PfPoint a, PfPoint b)
{
  g_string_append (out_of (page), "<line");
  append_attribute (page, "x1", a.x);
  append_attribute (page, "y1", a.y);
  append_attribute (page, "x2", b.x);
  append_attribute (page, "y2", b.y);
  g_string_append (out_of (page), "/>\n");
}

static void
append_points (PfPage *page, const char *element, const PfPoint *points, size_t n)
{
  g_string_append_printf (out_of (page), "<%s points=\"", element);
  for (size_t i = 0; i < n; i++)
    {
      if (i > 0)
        g_string_append_c (out_of (page), ' ');
      append_point (page, points[i]);
    }
  g_string_append (out_of (page), "\"/>\n");
}

static void
svg_polyline (PfPage *page, const PfPoint *points, size_t n)
{
  append_points (page, "polyline", points, n);
}

static void
svg_polygon (PfPage *page, const PfPoint *points, size_t n)
{
  append_points (page, "polygon", points, n);
}

/* Goes on with the path before, or begins one. */
static void
begin_curves (SvgPage *svg, size_t n_curves)
{
  if (svg->path_end == svg->out->len && svg->n_curves + n_curves <= MAX_CURVES)
    g_string_truncate (svg->out, svg->out->len - strlen (END_OF_PATH));
  else
    {
      g_string_append (svg->out, "<path d=\"");
      svg->n_curves = 0;
    }
  svg->n_curves += n_curves;
}

static void
svg_curves (PfPage *page, const PfPoint *points, size_t n_curves)
{
  SvgPage *svg = (SvgPage *) page;
  begin_curves (svg, n_curves);
  g_string_append_c (svg->out, 'M');
  append_point (page, points[0]);
  g_string_append_c (svg->out, 'C');
  for (size_t p = 1; p <= 3 * n_curves; p++)
    {
      if (p > 1)
        g_string_append_c (svg->out, ' ');
      append_point (page, points[p]);
    }
  g_string_append (svg->out, END_OF_PATH);
  svg->path_end = svg->out->len;
}

static void
svg_circle (PfPage *page, PfPoint centre, double radius)
{
  g_string_append (out_of (page), "<circle");
  append_attribute (page, "cx", centre.x);
  append_attribute (page, "cy", centre.y);
  append_attribute (page, "r", radius);
  g_string_append (out_of (page), "/>\n");
}

static void
svg_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, double turn, const char *text)
{
  static const char *const anchors[] = { NULL, "middle", "end" };
  g_string_append (out_of (page), "<text");
  append_attribute (page, "x", at.x);
  append_attribute (page, "y", at.y);
  append_attribute (page, "font-size", size);
  if (anchors[anchor])
    g_string_append_printf (out_of (page), " text-anchor=\"%s\"", anchors[anchor]);
  if (turn != 0)
    {
      g_string_append (out_of (page), " transform=\"rotate(");
      pf_page_append_number (out_of (page), turn);
      g_string_append_c (out_of (page), ' ');
      append_point (page, at);
      g_string_append (out_of (page), ")\"");
    }
  g_string_append_c (out_of (page), '>');
  pf_page_append_text (out_of (page), text);
  g_string_append (out_of (page), "</text>\n");
}

static char *
svg_finish (PfPage *page)
{
  g_string_append (out_of (page), "</svg>\n");
  char *text = g_string_free (out_of (page), FALSE);
  g_free (page);
  return text;
}

static const PfPageBackEnd back_end = {
  .group = svg_group,
  .text_group = svg_text_group,
  .clip_group = svg_clip_group,
  .group_end = svg_group_end,
  .line = svg_line,
  .polyline = svg_polyline,
  .polygon = svg_polygon,
  .curves = svg_curves,
  .circle = svg_circle,
  .box = svg_box,
  .text = svg_text,
  .finish = svg_finish,
};

static PfPage *
new_page (PfBox box, PfPoint stretch, double pixel)
{
  SvgPage *svg = g_new0 (SvgPage, 1);
  svg->page.back_end = &back_end;
  svg->page.pixel = pixel;
  svg->out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                           "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"");
  pf_page_append_number (svg->out, stretch.x * (box.max.x - box.min.x));
  g_string_append (svg->out, "mm\" height=\"");
  pf_page_append_number (svg->out, stretch.y * (box.max.y - box.min.y));
  g_string_append (svg->out, "mm\" viewBox=\"");
  const double view_box[] = { box.min.x, box.min.y, box.max.x - box.min.x, box.max.y - box.min.y };
  for (size_t i = 0; i < G_N_ELEMENTS (view_box); i++)
    {
      if (i > 0)
        g_string_append_c (svg->out, ' ');
      pf_page_append_number (svg->out, view_box[i]);
    }
  if (stretch.x != 1 || stretch.y != 1)
    g_string_append (svg->out, "\" preserveAspectRatio=\"none");
  g_string_append (svg->out, "\" font-family=\"'DejaVu Sans', sans-serif\">\n");
  return &svg->page;
}

PfPage *
pf_page_new (double width, double height, const char *title)
{
  return pf_page_new_stretched (width, height, (PfPoint){ 1, 1 }, title);
}

PfPage *
pf_page_new_stretched (double width, double height, PfPoint stretch, const char *title)
{
  const PfBox paper = { { 0, 0 }, { width, height } };
  PfPage *page = new_page (paper, stretch, 0);
  g_string_append (out_of (page), "<title>");
  pf_page_append_text (out_of (page), title);
  g_string_append (out_of (page), "</title>\n");
  pf_page_group (page, "paper", (PfInk){ .fill = "#fff" });
  pf_page_box (page, paper);
  pf_page_group_end (page);
  return page;
}

PfPage *
pf_page_new_window (PfBox window, double pixel)
{
  return new_page (window, (PfPoint){ 1, 1 }, pixel);
}
