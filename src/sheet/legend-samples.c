/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The legend's samples, drawn with the very marks and inks of the layers, so that what the legend
 * says is what the drawing shows.
 */
#include "legend-samples.h"

#include "marks.h"
#include "view.h"

static PfPoint
off (PfPoint middle, double x, double y)
{
  return (PfPoint){ middle.x + x, middle.y + y };
}

static void
sample_pin (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  pf_page_group (page, "sample", pf_ink_pin ());
  pf_mark_pin (page, sizes, middle);
  pf_page_group_end (page);
}

static void
sample_edge (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  pf_page_group (page, "sample",
                 (PfInk){ .stroke = PF_COLOUR_INK, .width = sizes->outline, .round = true });
  pf_page_line (page, off (middle, -4.2, 0), off (middle, 4.2, 0));
  pf_page_group_end (page);
  pf_page_group (page, "sample", pf_ink_pinhole (sizes));
  for (int i = -1; i <= 1; i++)
    pf_mark_pinhole (page, sizes, off (middle, 2.8 * i, 0));
  pf_page_group_end (page);
}

/* The line of a pair, with its arrow or its cut, between a stitch on the right and a sewing on the
 * left. */
static void
sample_line (PfPage *page, const PfSizes *sizes, PfPairKind kind, const PfPoint *points, size_t n)
{
  pf_page_group (page, "sample", pf_line_ink (kind, sizes));
  pf_page_polyline (page, points, n);
  pf_page_group_end (page);
  pf_page_group (page, "sample", pf_ink_pin ());
  if (kind != PF_PAIR_NEW)
    pf_mark_pin (page, sizes, points[0]);
  if (kind != PF_PAIR_FINISHED)
    pf_mark_pin (page, sizes, points[n - 1]);
  pf_page_group_end (page);
}

static void
sample_new (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  const PfPoint line[] = { off (middle, -4.2, 0), off (middle, 4.2, 0) };
  sample_line (page, sizes, PF_PAIR_NEW, line, G_N_ELEMENTS (line));
  pf_page_group (page, "sample", pf_ink_arrow (PF_PAIR_NEW));
  pf_mark_arrow (page, sizes, line[0], line[1], 0.5);
  pf_page_group_end (page);
}

static void
sample_turned (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  const PfPoint line[] = { off (middle, 4.2, -1.4), off (middle, -4.2, 0), off (middle, 4.2, 1.4) };
  sample_line (page, sizes, PF_PAIR_TURNED, line, G_N_ELEMENTS (line));
  pf_page_group (page, "sample", pf_ink_arrow (PF_PAIR_TURNED));
  pf_mark_arrow (page, sizes, line[1], line[2], 0.5);
  pf_page_group_end (page);
}

static void
sample_carried (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  const PfPoint line[] = { off (middle, 4.2, -1.4), off (middle, -4.2, -1.4),
                           off (middle, -4.2, 1.4), off (middle, 4.2, 1.4) };
  sample_line (page, sizes, PF_PAIR_CARRIED, line, G_N_ELEMENTS (line));
  pf_page_group (page, "sample", pf_ink_arrow (PF_PAIR_CARRIED));
  pf_mark_arrow (page, sizes, line[1], line[2], 0.5);
  pf_page_group_end (page);
}

static void
sample_finished (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  const PfPoint line[] = { off (middle, 4.2, 0), off (middle, -4.2, 0) };
  sample_line (page, sizes, PF_PAIR_FINISHED, line, G_N_ELEMENTS (line));
  pf_page_group (page, "sample", pf_ink_cut (sizes));
  pf_mark_cut (page, sizes, line[0], line[1]);
  pf_page_group_end (page);
}

static void
sample_outline (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  pf_page_group (page, "sample",
                 (PfInk){ .stroke = PF_COLOUR_INK, .width = sizes->outline, .round = true });
  pf_page_line (page, off (middle, -3, 0), off (middle, 3, 0));
  pf_page_group_end (page);
}

static void
sample_at_pinhole (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_outline (page, sizes, middle);
  pf_page_group (page, "sample", pf_ink_at_pinhole ());
  pf_mark_at_pinhole (page, sizes, middle);
  pf_page_group_end (page);
}

static void
sample_round_bar (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_outline (page, sizes, middle);
  pf_page_group (page, "sample", pf_ink_round_bar (sizes));
  pf_mark_round_bar (page, sizes, middle, (PfPoint){ 0, -1 });
  pf_page_group_end (page);
}

static void
sample_off_line (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  const PfPoint at = off (middle, -0.5, 1.2);
  sample_at_pinhole (page, sizes, at);
  pf_page_group (page, "sample", pf_ink_off_line (sizes));
  pf_mark_off_line (page, sizes, at, (PfPoint){ 0, -1 });
  pf_page_group_end (page);
}

static void
sample_chosen (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_at_pinhole (page, sizes, middle);
  pf_page_group (page, "sample", pf_ink_chosen (sizes));
  pf_mark_chosen (page, sizes, middle, (PfPoint){ 0, -1 });
  pf_page_group_end (page);
}

static void
sample_missing (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  pf_page_group (page, "sample", (PfInk){ .stroke = PF_COLOUR_FAINT, .width = sizes->fine });
  pf_page_line (page, off (middle, -3.5, 0), middle);
  pf_page_group_end (page);
  pf_page_group (page, "sample", pf_ink_missing (sizes));
  pf_mark_missing (page, sizes, middle);
  pf_page_group_end (page);
}

static void
sample_repeat (PfPage *page, const PfSizes *sizes, PfPoint middle, PfRepeatState state)
{
  const PfPoint lozenge[] = { off (middle, 0, -1.9), off (middle, 3.4, 0), off (middle, 0, 1.9),
                              off (middle, -3.4, 0) };
  pf_page_group (page, "sample", pf_ink_repeat (state, sizes));
  pf_page_polygon (page, lozenge, G_N_ELEMENTS (lozenge));
  pf_page_group_end (page);
}

static void
sample_kept (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_repeat (page, sizes, middle, PF_REPEAT_KEPT);
}

static void
sample_plain (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_repeat (page, sizes, middle, PF_REPEAT_PLAIN);
}

static void
sample_left_out (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  pf_page_group (page, "sample", pf_ink_left_out (sizes));
  pf_mark_left_out (page, sizes, middle);
  pf_page_group_end (page);
}

static void
sample_bead (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  pf_page_group (page, "sample", pf_ink_bead (sizes));
  pf_mark_bead (page, sizes, middle);
  pf_mark_bead_hole (page, sizes, middle);
  pf_page_group_end (page);
}

static void
sample_number (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  (void) sizes;
  pf_page_text_group (page, "sample", pf_line_style (PF_PAIR_NEW)->colour, NULL);
  pf_page_text (page, off (middle, 0, 0.9), PF_TEXT_MIDDLE, 2.3, "12");
  pf_page_group_end (page);
}

static void
sample_pinhole_number (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  (void) sizes;
  pf_page_text_group (page, "sample", PF_COLOUR_HOLE_NUMBER, NULL);
  pf_page_text (page, off (middle, 0, 0.7), PF_TEXT_MIDDLE, 1.8, "10");
  pf_page_group_end (page);
}

static void
sample_off_line_number (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  (void) sizes;
  pf_page_group (page, "sample", (PfInk){ .fill = PF_COLOUR_INK });
  pf_page_box (page, (PfBox){ off (middle, -1.8, -1.2), off (middle, 1.8, 1.2) });
  pf_page_group_end (page);
  pf_page_text_group (page, "sample", PF_COLOUR_PAPER, NULL);
  pf_page_text (page, off (middle, 0, 0.85), PF_TEXT_MIDDLE, 2.3, "12");
  pf_page_group_end (page);
}

static void
sample_target (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  const PfPoint target = off (middle, 1.6, -0.9), place = off (middle, -0.9, 0.6);
  sample_at_pinhole (page, sizes, off (middle, -1.2, 1.4));
  pf_page_group (page, "sample", (PfInk){ .stroke = PF_COLOUR_INK, .width = 0.3 });
  pf_page_line (page, off (target, 0, -1.2), target);
  pf_page_group_end (page);
  pf_page_group (page, "sample", (PfInk){ .stroke = PF_COLOUR_QUIET, .width = 0.12 });
  pf_page_line (page, target, place);
  pf_page_group_end (page);
  pf_page_group (page, "sample", (PfInk){ .fill = PF_COLOUR_INK });
  pf_mark_arrow (page, sizes, target, place, 0.7);
  pf_page_group_end (page);
}

static void
sample_band (PfPage *page, const PfSizes *sizes, PfPoint middle, PfEdgeKind kind)
{
  const PfBox box = { off (middle, -4.2, -0.9), off (middle, 4.2, 0.9) };
  pf_page_group (page, "sample", (PfInk){ .stroke = PF_COLOUR_PAIR_LINE, .width = 0.12 });
  pf_mark_band (page, kind, box, box.min.x);
  pf_page_group_end (page);
  pf_page_group (page, "sample", (PfInk){ .stroke = PF_COLOUR_INK, .width = sizes->outline });
  pf_page_line (page, off (middle, -4.2, -1.2), off (middle, 4.2, -1.2));
  pf_page_group_end (page);
}

static void
sample_half_stitch (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_band (page, sizes, middle, PF_EDGE_HALF_STITCH);
}

static void
sample_cloth_stitch (PfPage *page, const PfSizes *sizes, PfPoint middle)
{
  sample_band (page, sizes, middle, PF_EDGE_CLOTH_STITCH);
}

void
pf_sample_draw (PfPage *page, const PfSizes *sizes, PfPoint middle, PfSample sample)
{
  static void (*const draw[]) (PfPage *, const PfSizes *, PfPoint) = {
    [PF_SAMPLE_PIN] = sample_pin,
    [PF_SAMPLE_EDGE] = sample_edge,
    [PF_SAMPLE_NEW] = sample_new,
    [PF_SAMPLE_TURNED] = sample_turned,
    [PF_SAMPLE_CARRIED] = sample_carried,
    [PF_SAMPLE_FINISHED] = sample_finished,
    [PF_SAMPLE_AT_PINHOLE] = sample_at_pinhole,
    [PF_SAMPLE_ROUND_BAR] = sample_round_bar,
    [PF_SAMPLE_OFF_LINE] = sample_off_line,
    [PF_SAMPLE_CHOSEN] = sample_chosen,
    [PF_SAMPLE_MISSING] = sample_missing,
    [PF_SAMPLE_KEPT] = sample_kept,
    [PF_SAMPLE_PLAIN] = sample_plain,
    [PF_SAMPLE_LEFT_OUT] = sample_left_out,
    [PF_SAMPLE_BEAD] = sample_bead,
    [PF_SAMPLE_NUMBER] = sample_number,
    [PF_SAMPLE_PINHOLE_NUMBER] = sample_pinhole_number,
    [PF_SAMPLE_OFF_LINE_NUMBER] = sample_off_line_number,
    [PF_SAMPLE_TARGET] = sample_target,
    [PF_SAMPLE_HALF_STITCH] = sample_half_stitch,
    [PF_SAMPLE_CLOTH_STITCH] = sample_cloth_stitch,
  };
  if (sample != PF_SAMPLE_NONE)
    draw[sample](page, sizes, middle);
}
