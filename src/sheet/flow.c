/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Headings, paragraphs, lists and drawings, turned into strips: one line of text each, so that a
 * page can end between any two that aren't glued together.
 */
#include "flow-strips.h"

#include <math.h>
#include <string.h>

#include "text.h"

#define MEASURE 180.0 /* longer lines of running text are hard to read */
#define INDENT 5.0    /* of a list's lines, at least */
#define BESIDE 4.0    /* between a drawing and the words beside it */
#define BESIDE_LEAST 40.0
#define HEADING_ROOM 40.0 /* left to a drawing's heading and caption */

static void
clear_piece (gpointer piece)
{
  g_free (((PfFlowPiece *) piece)->text);
}

static void
free_strip (gpointer data)
{
  PfFlowStrip *strip = data;
  g_array_unref (strip->pieces);
  g_free (strip->heading);
  if (strip->destroy)
    strip->destroy (strip->data);
  g_free (strip);
}

PfFlow *
pf_flow_new (const PfPaper *paper, const char *running)
{
  PfFlow *flow = g_new0 (PfFlow, 1);
  flow->paper = paper;
  flow->running = g_strdup (running);
  flow->strips = g_ptr_array_new_with_free_func (free_strip);
  return flow;
}

void
pf_flow_free (PfFlow *flow)
{
  if (!flow)
    return;
  g_ptr_array_unref (flow->strips);
  g_free (flow->running);
  g_free (flow);
}

double
pf_flow_width (const PfFlow *flow)
{
  return flow->paper->width - 2 * PF_FLOW_MARGIN;
}

double
pf_flow_height (const PfFlow *flow)
{
  return flow->paper->height - 2 * PF_FLOW_MARGIN - PF_FLOW_RUNNING_ROOM - PF_FLOW_FOOT;
}

double
pf_flow_baseline (double size)
{
  return size * (PF_FLOW_LEADING + PF_TEXT_CAP - PF_TEXT_DESCENT / 2) / 2;
}

PfFlowStrip *
pf_flow_add_strip (PfFlow *flow, PfFlowGlue glue, double before, double height)
{
  PfFlowStrip *strip = g_new0 (PfFlowStrip, 1);
  strip->glue = flow->after_heading ? PF_FLOW_GLUED : glue;
  if (flow->keeping && flow->kept_one)
    strip->glue = MAX (strip->glue, PF_FLOW_KEPT);
  strip->new_page = flow->new_page;
  if (strip->new_page)
    strip->glue = PF_FLOW_LOOSE;
  flow->kept_one = true;
  flow->after_heading = flow->new_page = false;
  strip->before = before;
  strip->height = height;
  strip->pieces = g_array_new (FALSE, FALSE, sizeof (PfFlowPiece));
  g_array_set_clear_func (strip->pieces, clear_piece);
  g_ptr_array_add (flow->strips, strip);
  return strip;
}

void
pf_flow_add_piece (PfFlowStrip *strip, PfFlowStyle style, PfTextAnchor anchor, double size,
                   PfPoint at, const char *text)
{
  const PfFlowPiece piece = { style, anchor, size, at, g_strdup (text) };
  g_array_append_val (strip->pieces, piece);
}

/* How line i of n is glued to the one before: no line stands alone, at a page's foot or head. */
static PfFlowGlue
line_glue (guint i, guint n)
{
  return i == 1 || (i > 0 && i == n - 1) ? PF_FLOW_GLUED : PF_FLOW_LOOSE;
}

/* Lines of text, one strip each; gives the first, or NULL if there is nothing to set. */
static PfFlowStrip *
add_lines (PfFlow *flow, PfFlowStyle style, double size, double indent, double before,
           const char *text)
{
  const double width = fmin (MEASURE, pf_flow_width (flow)) - indent;
  g_auto (GStrv) lines = pf_text_wrap (text, size, width, G_MAXINT);
  const guint n = g_strv_length (lines);
  PfFlowStrip *first = NULL;
  for (guint i = 0; i < n; i++)
    {
      PfFlowStrip *strip = pf_flow_add_strip (
          flow, style == PF_FLOW_HEADING && i > 0 ? PF_FLOW_GLUED : line_glue (i, n),
          i == 0 ? before : 0, size * PF_FLOW_LEADING);
      pf_flow_add_piece (strip, style, PF_TEXT_START, size,
                         (PfPoint){ indent, pf_flow_baseline (size) }, lines[i]);
      if (first == NULL)
        first = strip;
    }
  return first;
}

void
pf_flow_heading (PfFlow *flow, int level, const char *text)
{
  static const double sizes[] = { 5, 4, 3.6 }, befores[] = { 7, 6, 4.5 };
  const int l = CLAMP (level, 1, (int) G_N_ELEMENTS (sizes)) - 1;
  PfFlowStrip *first = add_lines (flow, PF_FLOW_HEADING, sizes[l], 0, befores[l], text);
  if (first == NULL)
    return;
  first->level = l + 1;
  first->heading = g_strdup (text);
  flow->after_heading = true;
}

void
pf_flow_paragraph (PfFlow *flow, const char *text)
{
  add_lines (flow, PF_FLOW_TEXT, PF_FLOW_BODY, 0, 1.6, text);
}

void
pf_flow_caption (PfFlow *flow, const char *text)
{
  PfFlowStrip *first = add_lines (flow, PF_FLOW_SMALL, PF_FLOW_CAPTION, 0, 1, text);
  if (first && !first->new_page)
    first->glue = MAX (first->glue, PF_FLOW_KEPT);
}

void
pf_flow_title (PfFlow *flow, const char *text)
{
  if (add_lines (flow, PF_FLOW_SMALL, PF_FLOW_CAPTION, 0, 3, text))
    flow->after_heading = true;
}

void
pf_flow_item (PfFlow *flow, const char *label, const char *text)
{
  const double indent = fmax (INDENT, pf_text_width (label, PF_FLOW_BODY) + 1.5);
  PfFlowStrip *first = add_lines (flow, PF_FLOW_TEXT, PF_FLOW_BODY, indent, 0.8, text);
  if (first == NULL)
    return;
  pf_flow_add_piece (first, PF_FLOW_TEXT, PF_TEXT_START, PF_FLOW_BODY,
                     (PfPoint){ 0, pf_flow_baseline (PF_FLOW_BODY) }, label);
  /* Read in the order in which they are set. */
  PfFlowPiece *pieces = (PfFlowPiece *) (void *) first->pieces->data;
  const PfFlowPiece words = pieces[0];
  pieces[0] = pieces[1];
  pieces[1] = words;
}

void
pf_flow_bullet (PfFlow *flow, const char *text)
{
  pf_flow_item (flow, "•", text);
}

void
pf_flow_keep_begin (PfFlow *flow)
{
  flow->keeping = true;
  flow->kept_one = false;
}

void
pf_flow_keep_end (PfFlow *flow)
{
  flow->keeping = false;
}

void
pf_flow_new_page (PfFlow *flow)
{
  flow->new_page = true;
}

/* --- Drawings -----------------------------------------------------------------------------------
 */

/* Sets a paragraph beside a drawing, from `y` of the strip on; gives where it ends. */
static double
set_beside (PfFlowStrip *strip, const PfFlowText *words, double x, double y, double width)
{
  const double size = PF_FLOW_BODY;
  double indent = 0;
  if (words->label)
    {
      indent = fmax (INDENT, pf_text_width (words->label, size) + 1.5);
      pf_flow_add_piece (strip, PF_FLOW_TEXT, PF_TEXT_START, size,
                         (PfPoint){ x, y + pf_flow_baseline (size) }, words->label);
    }
  g_auto (GStrv) lines = pf_text_wrap (words->text, size, width - indent, G_MAXINT);
  for (char **line = lines; *line; line++, y += size * PF_FLOW_LEADING)
    pf_flow_add_piece (strip, PF_FLOW_TEXT, PF_TEXT_START, size,
                       (PfPoint){ x + indent, y + pf_flow_baseline (size) }, *line);
  return y;
}

static double
set_all_beside (PfFlowStrip *strip, const PfFlowBox *box, double x, double width)
{
  double y = 0;
  for (size_t i = 0; i < box->n_beside; i++)
    y = set_beside (strip, &box->beside[i], x, y + (i > 0 ? 1 : 0), width);
  return y;
}

/* The first of them stays with the drawing; more of them would make what is kept together higher
 * than a page, so that the drawing could part from its heading. */
static void
set_below (PfFlow *flow, const PfFlowBox *box)
{
  const bool keeping = flow->keeping;
  const guint first = flow->strips->len;
  flow->keeping = false;
  for (size_t i = 0; i < box->n_beside; i++)
    if (box->beside[i].label)
      pf_flow_item (flow, box->beside[i].label, box->beside[i].text);
    else
      pf_flow_paragraph (flow, box->beside[i].text);
  flow->keeping = keeping;
  if (first == flow->strips->len)
    return;
  PfFlowStrip *strip = g_ptr_array_index (flow->strips, first);
  strip->glue = MAX (strip->glue, PF_FLOW_KEPT);
}

/* The caption's lines, below the drawing and no wider. */
static double
set_box_caption (PfFlowStrip *strip, const PfFlowBox *box, double width, double y)
{
  if (box->caption == NULL)
    return y;
  const double size = PF_FLOW_CAPTION;
  g_auto (GStrv) lines = pf_text_wrap (box->caption, size, width, 6);
  y += 1;
  for (char **line = lines; *line; line++, y += size * PF_FLOW_LEADING)
    pf_flow_add_piece (strip, PF_FLOW_SMALL, PF_TEXT_START, size,
                       (PfPoint){ 0, y + pf_flow_baseline (size) }, *line);
  return y;
}

void
pf_flow_box (PfFlow *flow, const PfFlowBox *box)
{
  const double whole = pf_flow_width (flow), most = pf_flow_height (flow);
  const double width = box->width > 0 ? fmin (box->width, whole) : whole;
  const double height = fmin (box->height, most - HEADING_ROOM);
  PfFlowStrip *strip = pf_flow_add_strip (flow, PF_FLOW_LOOSE, 2, height);
  strip->draw = box->draw;
  strip->data = box->data;
  strip->destroy = box->destroy;
  strip->box = (PfBox){ { 0, 0 }, { width, height } };
  strip->height = set_box_caption (strip, box, width, height);
  const guint n_pieces = strip->pieces->len;
  const double left = width + BESIDE, room = fmin (MEASURE, whole) - left;
  const double set = room >= BESIDE_LEAST ? set_all_beside (strip, box, left, room) : INFINITY;
  if (set <= most - HEADING_ROOM)
    strip->height = fmax (strip->height, set);
  else
    {
      g_array_set_size (strip->pieces, n_pieces);
      set_below (flow, box);
    }
}
