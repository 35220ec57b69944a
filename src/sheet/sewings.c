/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where pairs are sewn to the edge: a mark at each place, a pennant beside those off their line,
 * and a ring round those that the maker chose herself.
 */
#include "layers.h"

#include "marks.h"

static bool
is_round_bar (const PfSewing *sewing)
{
  return sewing->pinhole == PF_NONE;
}

static bool
is_at_pinhole (const PfSewing *sewing)
{
  return sewing->pinhole != PF_NONE;
}

static bool
is_off_line (const PfSewing *sewing)
{
  return sewing->off_line;
}

static bool
is_chosen (const PfSewing *sewing)
{
  return sewing->chosen;
}

static void
draw_lozenge (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward)
{
  (void) outward;
  pf_mark_at_pinhole (page, sizes, at);
}

/* Draws `mark` at all sewings that are `wanted`. */
static void
draw_marks (PfPage *page, const PfView *view, const PfDrawn *drawn,
            bool (*wanted) (const PfSewing *),
            void (*mark) (PfPage *, const PfSizes *, PfPoint, PfPoint))
{
  const PfFilling *filling = drawn->motif->filling;
  for (size_t i = 0; i < filling->n_sewings; i++)
    {
      const PfSewing *sewing = &filling->sewings[i];
      const PfPoint at = pf_view_point (view, sewing->at);
      if (!wanted (sewing) || !pf_view_sees (view, at, 5 * drawn->sizes.mark))
        continue;
      const PfPoint outward = pf_view_direction (view, pf_drawn_outward (drawn, sewing->place));
      mark (page, &drawn->sizes, at, pf_point_towards ((PfPoint){ 0, 0 }, outward));
    }
}

void
pf_layer_sewings (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  pf_page_group (page, "round-bar", pf_ink_round_bar (&drawn->sizes));
  draw_marks (page, view, drawn, is_round_bar, pf_mark_round_bar);
  pf_page_group_end (page);
  pf_page_group (page, "at-pinhole", pf_ink_at_pinhole ());
  draw_marks (page, view, drawn, is_at_pinhole, draw_lozenge);
  pf_page_group_end (page);
  pf_page_group (page, "off-line", pf_ink_off_line (&drawn->sizes));
  draw_marks (page, view, drawn, is_off_line, pf_mark_off_line);
  pf_page_group_end (page);
  pf_page_group (page, "chosen", pf_ink_chosen (&drawn->sizes));
  draw_marks (page, view, drawn, is_chosen, pf_mark_chosen);
  pf_page_group_end (page);
}
