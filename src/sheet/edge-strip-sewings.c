/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sewings in an edge strip. What belongs to one hangs together from its number down: the pair's
 * line, in the style of its kind; the tick of its target; an arrow to its place; its mark there.
 */
#include "edge-strip-layout.h"

#include <math.h>

#include "marks.h"
#include "text.h"
#include "view.h"

/* A sewing as it lies in the strip, mm from its left end. */
typedef struct {
  const PfSewing *sewing;
  double target, place, label;
  double mark; /* parts */
  int row;
  char number[12]; /* of its pair */
  PfPoint reach;   /* half of the number's room */
} Item;

typedef void (*DrawItem) (const PfStrip *strip, const Item *item);

static bool
is_shown (const PfStrip *strip, const Item *item)
{
  const double reach = item->reach.x + 0.3 * strip->layout->unit;
  const double left = fmin (item->label - reach, fmin (item->target, item->place));
  const double right = fmax (item->label + reach, fmax (item->target, item->place));
  return strip->whole ? left >= 0 && right <= strip->width : right >= 0 && left <= strip->width;
}

static Item
item_of (const PfStrip *strip, const PfStripItem *in, int turn)
{
  const double shift = pf_strip_x (strip->strip, turn * strip->layout->length);
  Item item = {
    .sewing = &strip->strip->motif->filling->sewings[in->sewing],
    .target = in->target + shift,
    .place = in->place + shift,
    .label = in->label + shift,
    .mark = PF_STRIP_OUTLINE - in->stack,
    .row = in->row,
  };
  g_snprintf (item.number, sizeof item.number, "%u", item.sewing->pair + 1);
  item.reach = pf_strip_label_reach (strip->layout, item.number);
  return item;
}

/* All sewings that are shown: an array of Item. */
static GArray *
find_items (const PfStrip *strip)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (Item));
  for (int turn = -2; turn <= 1; turn++)
    for (size_t k = 0; k < strip->layout->n_items; k++)
      {
        const Item item = item_of (strip, &strip->layout->items[k], turn);
        if (is_shown (strip, &item))
          g_array_append_val (items, item);
      }
  return items;
}

/* Draws what `draw` draws of all sewings of a kind (-1: of all). */
static void
draw_items (const PfStrip *strip, const GArray *items, int kind, DrawItem draw)
{
  for (guint i = 0; i < items->len; i++)
    {
      const Item *item = &g_array_index (items, Item, i);
      if (kind < 0 || (int) item->sewing->kind == kind)
        draw (strip, item);
    }
}

static void
draw_target (const PfStrip *strip, const Item *item)
{
  pf_strip_line (strip, item->target, PF_STRIP_TARGET_TOP, PF_STRIP_TARGET_FOOT);
}

/* Half a mark, parts. */
#define MARK 0.75

static void
draw_way (const PfStrip *strip, const Item *item)
{
  pf_page_line (strip->page, pf_strip_at (strip, item->target, PF_STRIP_TARGET_FOOT),
                pf_strip_at (strip, item->place, item->mark - MARK));
}

static void
draw_way_arrow (const PfStrip *strip, const Item *item)
{
  if (fabs (item->place - item->target) < 0.25 * strip->layout->unit)
    return;
  PfSizes sizes = strip->layout->sizes;
  sizes.arrow *= 0.75;
  pf_mark_arrow (strip->page, &sizes, pf_strip_at (strip, item->target, PF_STRIP_TARGET_FOOT),
                 pf_strip_at (strip, item->place, item->mark - MARK), 0.7);
}

static void
draw_line (const PfStrip *strip, const Item *item)
{
  pf_page_line (strip->page, pf_strip_at (strip, item->target, PF_STRIP_TARGET_TOP),
                pf_strip_at (strip, item->label, PF_STRIP_LABEL_FOOT));
}

static void
draw_arrow (const PfStrip *strip, const Item *item)
{
  const PfPoint foot = pf_strip_at (strip, item->target, PF_STRIP_TARGET_TOP);
  const PfPoint top = pf_strip_at (strip, item->label, PF_STRIP_LABEL_FOOT);
  const bool ends = item->sewing->entering == PF_NONE;
  pf_mark_arrow (strip->page, &strip->layout->lines, ends ? top : foot, ends ? foot : top, 0.5);
}

static void
draw_cut (const PfStrip *strip, const Item *item)
{
  pf_mark_cut (strip->page, &strip->layout->lines,
               pf_strip_at (strip, item->label, PF_STRIP_LABEL_FOOT),
               pf_strip_at (strip, item->target, PF_STRIP_TARGET_TOP));
}

/* From the pair's line up to a number in the upper row. */
static void
draw_leader (const PfStrip *strip, const Item *item)
{
  const double bottom = strip->corner.y + pf_strip_label_y (strip->layout, item->row) +
                        item->reach.y + 0.2 * strip->layout->unit;
  const PfPoint foot = pf_strip_at (strip, item->label, PF_STRIP_LABEL_FOOT);
  if (item->row > 0)
    pf_page_line (strip->page, foot, (PfPoint){ foot.x, bottom });
}

/* A number that is cut at the strip's end could be read as another one. */
static bool
is_number_whole (const PfStrip *strip, const Item *item)
{
  return item->label >= item->reach.x && item->label <= strip->width - item->reach.x;
}

static void
draw_off_line_box (const PfStrip *strip, const Item *item)
{
  const PfPoint reach = item->reach;
  const PfPoint middle = { strip->corner.x + item->label,
                           strip->corner.y + pf_strip_label_y (strip->layout, item->row) };
  const double pad = 0.22 * strip->layout->unit;
  if (item->sewing->off_line && is_number_whole (strip, item))
    pf_page_box (strip->page, (PfBox){ { middle.x - reach.x - pad, middle.y - reach.y - pad },
                                       { middle.x + reach.x + pad, middle.y + reach.y + pad } });
}

static void
draw_number (const PfStrip *strip, const Item *item)
{
  const PfStripLayout *layout = strip->layout;
  const double half_cap = PF_TEXT_CAP * layout->text / 2;
  PfPoint p = { strip->corner.x + item->label,
                strip->corner.y + pf_strip_label_y (layout, item->row) };
  if (layout->upright)
    p.x += half_cap;
  else
    p.y += half_cap;
  if (is_number_whole (strip, item))
    pf_page_turned_text (strip->page, p, PF_TEXT_MIDDLE, layout->text, layout->upright ? -90 : 0,
                         item->number);
}

static void
draw_plain_number (const PfStrip *strip, const Item *item)
{
  if (!item->sewing->off_line)
    draw_number (strip, item);
}

static void
draw_off_line_number (const PfStrip *strip, const Item *item)
{
  if (item->sewing->off_line)
    draw_number (strip, item);
}

static void
draw_slot (const PfStrip *strip, const Item *item)
{
  if (item->sewing->pinhole == PF_NONE)
    pf_mark_round_bar (strip->page, &strip->layout->sizes,
                       pf_strip_at (strip, item->place, item->mark), (PfPoint){ 0, 1 });
}

static void
draw_lozenge (const PfStrip *strip, const Item *item)
{
  if (item->sewing->pinhole != PF_NONE)
    pf_mark_at_pinhole (strip->page, &strip->layout->sizes,
                        pf_strip_at (strip, item->place, item->mark));
}

static void
draw_pennant (const PfStrip *strip, const Item *item)
{
  if (item->sewing->off_line)
    pf_mark_off_line (strip->page, &strip->layout->sizes,
                      pf_strip_at (strip, item->place, PF_STRIP_OUTLINE), (PfPoint){ 0, 1 });
}

static void
draw_ring (const PfStrip *strip, const Item *item)
{
  if (item->sewing->chosen)
    pf_mark_chosen (strip->page, &strip->layout->sizes,
                    pf_strip_at (strip, item->place, item->mark), (PfPoint){ 0, 1 });
}

static void
draw_group (const PfStrip *strip, const GArray *items, const char *name, PfInk ink, DrawItem draw)
{
  pf_page_group (strip->page, name, ink);
  draw_items (strip, items, -1, draw);
  pf_page_group_end (strip->page);
}

static void
draw_kind (const PfStrip *strip, const GArray *items, PfPairKind kind)
{
  const PfSizes *lines = &strip->layout->lines;
  const PfLook *look = strip->strip->look;
  const PfInk sign = kind == PF_PAIR_FINISHED ? pf_ink_cut (lines) : pf_ink_arrow (kind);
  pf_page_group (strip->page, pf_line_style (kind)->name,
                 pf_look_ink (look, kind, pf_line_ink (kind, lines)));
  draw_items (strip, items, (int) kind, draw_line);
  pf_page_group_end (strip->page);
  pf_page_group (strip->page, "strip-signs", pf_look_ink (look, kind, sign));
  draw_items (strip, items, (int) kind, kind == PF_PAIR_FINISHED ? draw_cut : draw_arrow);
  pf_page_group_end (strip->page);
  pf_page_text_group (strip->page, "strip-numbers", pf_look_colour (look, kind), NULL);
  draw_items (strip, items, (int) kind, draw_plain_number);
  pf_page_group_end (strip->page);
}

void
pf_strip_draw_sewings (const PfStrip *strip)
{
  static const PfPairKind kinds[] = { PF_PAIR_FINISHED, PF_PAIR_CARRIED, PF_PAIR_TURNED,
                                      PF_PAIR_NEW };
  const PfSizes *sizes = &strip->layout->sizes;
  g_autoptr (GArray) items = find_items (strip);
  draw_group (strip, items, "strip-ways", pf_strip_thin_ink (strip, PF_COLOUR_QUIET, 0.12),
              draw_way);
  draw_group (strip, items, "strip-arrows", (PfInk){ .fill = PF_COLOUR_INK }, draw_way_arrow);
  draw_group (strip, items, "strip-targets", pf_strip_thin_ink (strip, PF_COLOUR_INK, 0.3),
              draw_target);
  draw_group (strip, items, "strip-leaders", pf_strip_thin_ink (strip, PF_COLOUR_FAINT, 0.12),
              draw_leader);
  for (size_t k = 0; k < G_N_ELEMENTS (kinds); k++)
    draw_kind (strip, items, kinds[k]);
  draw_group (strip, items, "strip-off-line", (PfInk){ .fill = PF_COLOUR_INK }, draw_off_line_box);
  pf_page_text_group (strip->page, "strip-numbers", PF_COLOUR_PAPER, NULL);
  draw_items (strip, items, -1, draw_off_line_number);
  pf_page_group_end (strip->page);
  draw_group (strip, items, "off-line", pf_ink_off_line (sizes), draw_pennant);
  draw_group (strip, items, "round-bar", pf_ink_round_bar (sizes), draw_slot);
  draw_group (strip, items, "at-pinhole", pf_ink_at_pinhole (), draw_lozenge);
  draw_group (strip, items, "chosen", pf_ink_chosen (sizes), draw_ring);
}
