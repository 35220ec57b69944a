/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Strips laid on pages. Strips that are glued together are one run, laid down at once; a run that
 * is higher than a page is taken apart where its glue is weaker, and only then anywhere.
 */
#include "flow-strips.h"

#include <math.h>
#include <string.h>

#include "style.h"
#include "text.h"

#define EPSILON 1e-6
#define END_OF_PAGE "</svg>\n"

/* A strip's place: the same header may stand on many pages. */
typedef struct {
  const PfFlowStrip *strip;
  guint page;
  double y; /* mm from the paper's top */
} Placed;

typedef struct {
  PfFlow *flow;
  GArray *placed; /* of Placed */
  guint page;
  double y;   /* where the next strip stands */
  bool empty; /* nothing stands on this page yet */
} Pager;

static PfFlowStrip *
strip_at (const Pager *pager, guint i)
{
  return g_ptr_array_index (pager->flow->strips, i);
}

static double
top_of_page (void)
{
  return PF_FLOW_MARGIN + PF_FLOW_RUNNING_ROOM;
}

/* The height of strips `from` to `to` at the head of a page, or further down. */
static double
run_height (const Pager *pager, guint from, guint to, bool at_head)
{
  const PfFlowStrip *first = strip_at (pager, from);
  double height = at_head ? -first->before : 0;
  if (at_head && first->head)
    height += first->head->height;
  for (guint i = from; i < to; i++)
    height += strip_at (pager, i)->before + strip_at (pager, i)->height;
  return height;
}

static void
begin_page (Pager *pager)
{
  pager->page++;
  pager->y = top_of_page ();
  pager->empty = true;
}

static void
put (Pager *pager, const PfFlowStrip *strip)
{
  const Placed placed = { strip, pager->page, pager->y };
  g_array_append_val (pager->placed, placed);
  pager->y += strip->height;
  pager->empty = false;
}

static void
put_run (Pager *pager, guint from, guint to)
{
  const PfFlowStrip *first = strip_at (pager, from);
  if (pager->empty && first->head)
    put (pager, first->head);
  else if (!pager->empty)
    pager->y += first->before;
  put (pager, first);
  for (guint i = from + 1; i < to; i++)
    {
      pager->y += strip_at (pager, i)->before;
      put (pager, strip_at (pager, i));
    }
}

/* Lays strips that are held together by at least `glue`. */
static void
lay_run (Pager *pager, guint from, guint to, PfFlowGlue glue)
{
  const double whole = pf_flow_height (pager->flow) + EPSILON;
  const double used = pager->y - top_of_page ();
  if (used + run_height (pager, from, to, pager->empty) <= whole)
    {
      put_run (pager, from, to);
      return;
    }
  if (to - from == 1 || run_height (pager, from, to, true) <= whole)
    {
      if (!pager->empty)
        begin_page (pager);
      put_run (pager, from, to);
      return;
    }
  for (guint i = from, end; i < to; i = end)
    {
      for (end = i + 1; end < to && strip_at (pager, end)->glue > glue; end++)
        ;
      lay_run (pager, i, end, glue + 1);
    }
}

static GArray *
lay (PfFlow *flow, guint *n_pages)
{
  Pager pager = { flow, g_array_new (FALSE, FALSE, sizeof (Placed)), 0, top_of_page (), true };
  const guint n = flow->strips->len;
  for (guint i = 0, end; i < n; i = end)
    {
      for (end = i + 1; end < n && strip_at (&pager, end)->glue > PF_FLOW_LOOSE; end++)
        ;
      if (strip_at (&pager, i)->new_page && !pager.empty)
        begin_page (&pager);
      lay_run (&pager, i, end, PF_FLOW_KEPT);
    }
  *n_pages = pager.page + 1;
  return pager.placed;
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

static const struct {
  const char *name, *colour;
} looks[PF_FLOW_N_STYLES] = {
  [PF_FLOW_RUNNING] = { "running", PF_COLOUR_QUIET },
  [PF_FLOW_HEADING] = { "heading", PF_COLOUR_INK },
  [PF_FLOW_TEXT] = { "text", PF_COLOUR_INK },
  [PF_FLOW_SMALL] = { "caption", PF_COLOUR_QUIET },
  [PF_FLOW_HEAD] = { "head", PF_COLOUR_QUIET },
  [PF_FLOW_CELL] = { "cell", PF_COLOUR_INK },
};

/* A page being drawn, with the group of text that is open on it. */
typedef struct {
  PfPage *page;
  PfFlowStyle style; /* PF_FLOW_N_STYLES: none is open */
} Sheet;

static void
open_style (Sheet *sheet, PfFlowStyle style)
{
  if (sheet->style == style)
    return;
  if (sheet->style != PF_FLOW_N_STYLES)
    pf_page_group_end (sheet->page);
  if (style != PF_FLOW_N_STYLES)
    pf_page_text_group (sheet->page, looks[style].name, looks[style].colour, NULL);
  sheet->style = style;
}

static void
draw_rules (Sheet *sheet, const PfFlowStrip *strip, double y)
{
  for (int end = 0; end < 2; end++)
    {
      if (strip->rule[end] <= 0)
        continue;
      open_style (sheet, PF_FLOW_N_STYLES);
      pf_page_group (sheet->page, "rule",
                     (PfInk){ .stroke = strip->strong ? PF_COLOUR_INK : PF_COLOUR_BACKGROUND,
                              .width = strip->rule[end] });
      const double at = y + (end == 0 ? 0 : strip->height);
      pf_page_line (sheet->page, (PfPoint){ PF_FLOW_MARGIN, at },
                    (PfPoint){ PF_FLOW_MARGIN + strip->ruled, at });
      pf_page_group_end (sheet->page);
    }
}

static void
draw_strip (Sheet *sheet, const Placed *placed)
{
  const PfFlowStrip *strip = placed->strip;
  if (strip->draw)
    {
      open_style (sheet, PF_FLOW_N_STYLES);
      const PfPoint by = { PF_FLOW_MARGIN, placed->y };
      const PfBox box = { { strip->box.min.x + by.x, strip->box.min.y + by.y },
                          { strip->box.max.x + by.x, strip->box.max.y + by.y } };
      strip->draw (sheet->page, box, strip->data);
    }
  for (guint i = 0; i < strip->pieces->len; i++)
    {
      const PfFlowPiece *piece = &g_array_index (strip->pieces, PfFlowPiece, i);
      open_style (sheet, piece->style);
      pf_page_text (sheet->page, (PfPoint){ PF_FLOW_MARGIN + piece->at.x, placed->y + piece->at.y },
                    piece->anchor, piece->size, piece->text);
    }
  draw_rules (sheet, strip, placed->y);
}

static char *
draw_page (const PfFlow *flow, const GArray *placed, guint page)
{
  Sheet sheet = { pf_page_new (flow->paper->width, flow->paper->height, flow->running),
                  PF_FLOW_N_STYLES };
  g_auto (GStrv) running = pf_text_wrap (flow->running, PF_FLOW_CAPTION, pf_flow_width (flow), 1);
  if (running[0])
    {
      open_style (&sheet, PF_FLOW_RUNNING);
      pf_page_text (sheet.page,
                    (PfPoint){ PF_FLOW_MARGIN, PF_FLOW_MARGIN + PF_FLOW_CAPTION * PF_TEXT_CAP },
                    PF_TEXT_START, PF_FLOW_CAPTION, running[0]);
    }
  for (guint i = 0; i < placed->len; i++)
    if (g_array_index (placed, Placed, i).page == page)
      draw_strip (&sheet, &g_array_index (placed, Placed, i));
  open_style (&sheet, PF_FLOW_N_STYLES);
  return pf_page_finish (sheet.page);
}

static void
clear_bookmark (gpointer bookmark)
{
  g_free (((PfFlowBookmark *) bookmark)->text);
}

static GArray *
bookmarks_of (const GArray *placed)
{
  GArray *bookmarks = g_array_new (FALSE, FALSE, sizeof (PfFlowBookmark));
  g_array_set_clear_func (bookmarks, clear_bookmark);
  for (guint i = 0; i < placed->len; i++)
    {
      const Placed *p = &g_array_index (placed, Placed, i);
      if (p->strip->level == 0)
        continue;
      const PfFlowBookmark bookmark = { p->page, p->strip->level, g_strdup (p->strip->heading) };
      g_array_append_val (bookmarks, bookmark);
    }
  return bookmarks;
}

guint
pf_flow_n_pages (PfFlow *flow)
{
  guint n_pages;
  g_array_unref (lay (flow, &n_pages));
  return n_pages;
}

GPtrArray *
pf_flow_finish (PfFlow *flow, GArray **bookmarks)
{
  guint n_pages;
  g_autoptr (GArray) placed = lay (flow, &n_pages);
  GPtrArray *pages = g_ptr_array_new_with_free_func (g_free);
  for (guint page = 0; page < n_pages; page++)
    g_ptr_array_add (pages, draw_page (flow, placed, page));
  if (bookmarks)
    *bookmarks = bookmarks_of (placed);
  return pages;
}

static void
append_foot_text (GString *svg, double x, double y, bool right, const char *text)
{
  g_string_append (svg, "<text x=\"");
  pf_page_append_number (svg, x);
  g_string_append (svg, "\" y=\"");
  pf_page_append_number (svg, y);
  g_string_append (svg, "\" font-size=\"");
  pf_page_append_number (svg, PF_FLOW_CAPTION);
  g_string_append (svg, right ? "\" text-anchor=\"end\">" : "\">");
  pf_page_append_text (svg, text);
  g_string_append (svg, "</text>\n");
}

char *
pf_flow_with_foot (const char *svg, const PfPaper *paper, const char *words, guint number, guint n)
{
  GString *out = g_string_new (svg);
  g_return_val_if_fail (g_str_has_suffix (svg, END_OF_PAGE), g_string_free (out, FALSE));
  g_string_truncate (out, out->len - strlen (END_OF_PAGE));
  g_string_append (out, "<g class=\"foot\" fill=\"" PF_COLOUR_QUIET "\">\n");
  const double bottom = paper->height - PF_FLOW_MARGIN - PF_FLOW_CAPTION * PF_TEXT_DESCENT;
  double room = paper->width - 2 * PF_FLOW_MARGIN;
  if (n > 0)
    {
      g_autofree char *numbers = g_strdup_printf ("%u / %u", number, n);
      append_foot_text (out, paper->width - PF_FLOW_MARGIN, bottom, true, numbers);
      room -= pf_text_width (numbers, PF_FLOW_CAPTION) + 6;
    }
  g_auto (GStrv) lines = pf_text_wrap (words ? words : "", PF_FLOW_CAPTION, room, 2);
  const guint n_lines = g_strv_length (lines);
  for (guint i = 0; i < n_lines; i++)
    append_foot_text (out, PF_FLOW_MARGIN,
                      bottom - (n_lines - 1 - i) * PF_FLOW_CAPTION * PF_FLOW_LEADING, false,
                      lines[i]);
  g_string_append (out, "</g>\n" END_OF_PAGE);
  return g_string_free (out, FALSE);
}
