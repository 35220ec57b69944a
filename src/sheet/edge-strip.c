/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An edge strip on the screen: drawn, and asked what stands where. Both go by the same layout, so
 * that what is found is what is seen.
 */
#include "edge-strip-layout.h"

#include <math.h>

#include "view.h"

PfPoint
pf_strip_at (const PfStrip *strip, double x, double parts)
{
  return (PfPoint){ strip->corner.x + x, strip->corner.y + pf_strip_y (strip->layout, parts) };
}

PfInk
pf_strip_thin_ink (const PfStrip *strip, const char *colour, double parts)
{
  return (PfInk){ .stroke = colour, .width = parts * strip->layout->unit };
}

void
pf_strip_line (const PfStrip *strip, double x, double top, double foot)
{
  pf_page_line (strip->page, pf_strip_at (strip, x, top), pf_strip_at (strip, x, foot));
}

void
pf_strip_draw (PfPage *page, const PfEdgeStrip *strip, const PfStripLayout *layout, PfPoint corner,
               bool whole)
{
  const PfMotif *motif = strip->motif;
  const PfStrip drawn = { page,
                          strip,
                          layout,
                          &motif->region->loops[strip->loop],
                          &motif->edges[strip->loop],
                          corner,
                          (strip->to - strip->from) * strip->across,
                          whole };
  pf_strip_draw_edge (&drawn);
  if (motif->filling)
    pf_strip_draw_sewings (&drawn);
}

void
pf_edge_strip_draw (const PfEdgeStrip *strip, double pixel, cairo_t *cr)
{
  g_autoptr (PfStripLayout) layout = pf_strip_layout_new (strip);
  PfPage *page = pf_page_new_cairo (cr, pixel);
  pf_page_clip_group (
      page, "strip",
      (PfBox){ { 0, 0 }, { (strip->to - strip->from) * strip->across, strip->height } });
  pf_strip_draw (page, strip, layout, (PfPoint){ 0, 0 }, false);
  pf_page_group_end (page);
  pf_page_finish (page);
}

/* Of the same place on a loop that goes on and on, the one that is shown, or nearest to it. */
static double
shown_x (const PfEdgeStrip *strip, double length, double along)
{
  const double middle = (strip->from + strip->to) / 2 * strip->across;
  return pf_strip_x (strip, middle + remainder (along - middle, length));
}

static PfPoint
mark_at (const PfEdgeStrip *strip, const PfStripLayout *layout, const PfStripItem *item)
{
  return (PfPoint){ shown_x (strip, layout->length, item->place),
                    pf_strip_y (layout, PF_STRIP_OUTLINE - item->stack) };
}

PfPoint
pf_edge_strip_sewing (const PfEdgeStrip *strip, guint32 sewing)
{
  g_autoptr (PfStripLayout) layout = pf_strip_layout_new (strip);
  for (size_t k = 0; k < layout->n_items; k++)
    if (layout->items[k].sewing == sewing)
      return mark_at (strip, layout, &layout->items[k]);
  return (PfPoint){ NAN, NAN };
}

PfPoint
pf_edge_strip_pinhole (const PfEdgeStrip *strip, size_t pinhole)
{
  const double length = pf_loop_length (&strip->motif->region->loops[strip->loop]);
  const double along = strip->motif->edges[strip->loop].pinholes[pinhole];
  return (PfPoint){ shown_x (strip, length * strip->across, along * strip->across),
                    PF_STRIP_OUTLINE * strip->height / PF_EDGE_STRIP_HEIGHT };
}

double
pf_edge_strip_along (const PfEdgeStrip *strip, double x)
{
  const double length = pf_loop_length (&strip->motif->region->loops[strip->loop]);
  const double along = fmod (strip->from + x / strip->across, length);
  return along < 0 ? along + length : along;
}

/* How far `at` is from a sewing's mark, its target, or its number, whichever is nearest. */
static double
distance_to (const PfEdgeStrip *strip, const PfStripLayout *layout, const PfStripItem *item,
             PfPoint at)
{
  const PfPoint target = { shown_x (strip, layout->length, item->target),
                           pf_strip_y (layout, (PF_STRIP_TARGET_TOP + PF_STRIP_TARGET_FOOT) / 2) };
  const PfPoint label = { shown_x (strip, layout->length, item->label),
                          pf_strip_label_y (layout, item->row) };
  return fmin (pf_point_distance (at, mark_at (strip, layout, item)),
               fmin (pf_point_distance (at, target), pf_point_distance (at, label)));
}

guint32
pf_edge_strip_find_sewing (const PfEdgeStrip *strip, PfPoint at, double reach)
{
  g_autoptr (PfStripLayout) layout = pf_strip_layout_new (strip);
  guint32 found = PF_NONE;
  for (size_t k = 0; k < layout->n_items; k++)
    {
      const double distance = distance_to (strip, layout, &layout->items[k], at);
      if (distance <= reach)
        {
          reach = distance;
          found = layout->items[k].sewing;
        }
    }
  return found;
}

guint32
pf_edge_strip_find_pinhole (const PfEdgeStrip *strip, PfPoint at, double reach)
{
  guint32 found = PF_NONE;
  for (size_t h = 0; h < strip->motif->edges[strip->loop].n_pinholes; h++)
    {
      const double distance = pf_point_distance (at, pf_edge_strip_pinhole (strip, h));
      if (distance <= reach)
        {
          reach = distance;
          found = (guint32) h;
        }
    }
  return found;
}
