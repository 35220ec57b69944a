/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The marks' shapes. No two share an outline, so that each can be told without its colour.
 */
#include "marks.h"

#include <math.h>

#include "view.h"

PfInk
pf_ink_pin (void)
{
  return (PfInk){ .fill = PF_COLOUR_INK };
}

void
pf_mark_pin (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  pf_page_circle (page, at, sizes->pin);
}

PfInk
pf_ink_pinhole (const PfSizes *sizes)
{
  return (PfInk){ .fill = PF_COLOUR_PAPER, .stroke = PF_COLOUR_INK, .width = sizes->fine };
}

void
pf_mark_pinhole (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  pf_page_circle (page, at, sizes->hole);
}

PfInk
pf_ink_missing (const PfSizes *sizes)
{
  const double step = 2 * G_PI * sizes->pin * 1.2 / 6;
  return (PfInk){
    .stroke = PF_COLOUR_PAIR_LINE,
    .width = sizes->fine,
    .dash = { step * 0.5, step * 0.5 },
    .n_dash = 2,
  };
}

void
pf_mark_missing (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  pf_page_circle (page, at, sizes->pin * 1.2);
}

PfInk
pf_ink_bead (const PfSizes *sizes)
{
  return (PfInk){ .fill = PF_COLOUR_PAPER, .stroke = PF_COLOUR_INK, .width = 0.8 * sizes->line };
}

void
pf_mark_bead (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  pf_page_circle (page, at, sizes->pin * 2.1);
}

void
pf_mark_bead_hole (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  pf_page_circle (page, at, sizes->pin * 0.9);
}

PfInk
pf_ink_left_out (const PfSizes *sizes)
{
  return (PfInk){ .stroke = PF_COLOUR_PAIR_LINE, .width = sizes->line };
}

void
pf_mark_left_out (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  const double r = 0.8 * sizes->mark;
  pf_page_line (page, (PfPoint){ at.x - r, at.y - r }, (PfPoint){ at.x + r, at.y + r });
  pf_page_line (page, (PfPoint){ at.x - r, at.y + r }, (PfPoint){ at.x + r, at.y - r });
}

PfInk
pf_ink_at_pinhole (void)
{
  return (PfInk){ .fill = PF_COLOUR_INK };
}

void
pf_mark_at_pinhole (PfPage *page, const PfSizes *sizes, PfPoint at)
{
  const double r = 1.15 * sizes->mark;
  const PfPoint lozenge[] = {
    { at.x, at.y - r }, { at.x + r, at.y }, { at.x, at.y + r }, { at.x - r, at.y }
  };
  pf_page_polygon (page, lozenge, G_N_ELEMENTS (lozenge));
}

PfInk
pf_ink_round_bar (const PfSizes *sizes)
{
  return (PfInk){ .fill = PF_COLOUR_PAPER, .stroke = PF_COLOUR_INK, .width = sizes->outline };
}

void
pf_mark_round_bar (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward)
{
  const PfPoint along = { -outward.y, outward.x };
  const double half_length = 1.1 * sizes->mark, half_width = 0.42 * sizes->mark;
  const PfPoint out = pf_point_add (at, outward, half_length);
  const PfPoint in = pf_point_add (at, outward, -half_length);
  const PfPoint slot[] = {
    pf_point_add (out, along, half_width),
    pf_point_add (out, along, -half_width),
    pf_point_add (in, along, -half_width),
    pf_point_add (in, along, half_width),
  };
  pf_page_polygon (page, slot, G_N_ELEMENTS (slot));
}

PfInk
pf_ink_off_line (const PfSizes *sizes)
{
  return (PfInk){ .fill = PF_COLOUR_INK, .stroke = PF_COLOUR_INK, .width = sizes->fine };
}

void
pf_mark_off_line (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward)
{
  const PfPoint along = { -outward.y, outward.x };
  const double m = sizes->mark;
  const PfPoint foot = pf_point_add (at, outward, 1.1 * m);
  const PfPoint top = pf_point_add (at, outward, 4.2 * m);
  const PfPoint flag[] = {
    top,
    pf_point_add (pf_point_add (at, outward, 3.4 * m), along, 1.5 * m),
    pf_point_add (at, outward, 2.6 * m),
  };
  pf_page_line (page, foot, top);
  pf_page_polygon (page, flag, G_N_ELEMENTS (flag));
}

PfInk
pf_ink_chosen (const PfSizes *sizes)
{
  return (PfInk){ .stroke = PF_COLOUR_INK, .width = sizes->fine };
}

void
pf_mark_chosen (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward)
{
  (void) outward;
  pf_page_circle (page, at, PF_CHOSEN_REACH * sizes->mark);
}

PfInk
pf_ink_arrow (PfPairKind kind)
{
  return (PfInk){ .fill = pf_line_style (kind)->colour };
}

void
pf_mark_arrow (PfPage *page, const PfSizes *sizes, PfPoint from, PfPoint to, double part)
{
  const double distance = pf_point_distance (from, to);
  const PfPoint d = pf_point_towards (from, to);
  const double length = fmin (sizes->arrow, 0.5 * distance);
  const PfPoint tip = pf_point_add (from, d, part * distance + length / 2);
  const PfPoint back = pf_point_add (tip, d, -length);
  const PfPoint aside = { -d.y, d.x };
  const PfPoint head[] = {
    tip,
    pf_point_add (back, aside, 0.36 * length),
    pf_point_add (back, aside, -0.36 * length),
  };
  pf_page_polygon (page, head, G_N_ELEMENTS (head));
}

PfInk
pf_ink_cut (const PfSizes *sizes)
{
  return (PfInk){
    .stroke = pf_line_style (PF_PAIR_FINISHED)->colour,
    .width = 1.3 * sizes->line,
  };
}

void
pf_mark_cut (PfPage *page, const PfSizes *sizes, PfPoint from, PfPoint to)
{
  const double distance = pf_point_distance (from, to);
  const PfPoint d = pf_point_towards (from, to);
  const PfPoint aside = { -d.y, d.x };
  const PfPoint at = pf_point_add (to, d, -fmin (1.9 * sizes->mark, 0.55 * distance));
  const double half = 0.38 * sizes->arrow;
  pf_page_line (page, pf_point_add (at, aside, half), pf_point_add (at, aside, -half));
}

static void
mark_cloth (PfPage *page, PfBox box, double origin, double step)
{
  for (double n = ceil ((box.min.x - origin) / step); origin + n * step <= box.max.x; n++)
    pf_page_line (page, (PfPoint){ origin + n * step, box.min.y },
                  (PfPoint){ origin + n * step, box.max.y });
  for (int row = 1; row <= 3; row++)
    {
      const double y = box.min.y + (box.max.y - box.min.y) * row / 4;
      pf_page_line (page, (PfPoint){ box.min.x, y }, (PfPoint){ box.max.x, y });
    }
}

void
pf_mark_band (PfPage *page, PfEdgeKind kind, PfBox box, double origin)
{
  const double height = box.max.y - box.min.y;
  const double step = 0.8 * height;
  pf_page_line (page, (PfPoint){ box.min.x, box.max.y }, box.max);
  if (kind == PF_EDGE_CLOTH_STITCH)
    {
      mark_cloth (page, box, origin, 0.27 * height);
      return;
    }
  for (double n = ceil ((box.min.x - origin) / step);
       origin + (n + 1) * step <= box.max.x + PF_TOUCH; n++)
    {
      const double left = origin + n * step, right = left + step;
      pf_page_line (page, (PfPoint){ left, box.min.y }, (PfPoint){ right, box.max.y });
      pf_page_line (page, (PfPoint){ left, box.max.y }, (PfPoint){ right, box.min.y });
    }
}

PfInk
pf_ink_repeat (PfRepeatState state, const PfSizes *sizes)
{
  if (state == PF_REPEAT_KEPT)
    return (PfInk){ .fill = PF_COLOUR_KEPT };
  return (PfInk){
    .stroke = PF_COLOUR_FAINT,
    .width = 1.6 * sizes->fine,
    .dash = { 0, 1.1 * sizes->dash },
    .n_dash = 2,
    .round = true,
  };
}
