/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pattern inside: each pair's line from stitch to stitch, the pins that are set, and the beads.
 */
#include "layers.h"

#include "marks.h"

static void
end_chain (PfPage *page, const PfView *view, GArray *points)
{
  pf_view_chain (view, page, (const PfPoint *) (gpointer) points->data, points->len, false);
  g_array_set_size (points, 0);
}

static bool
is_at (const GArray *points, guint back, PfPoint at)
{
  return points->len >= back &&
         pf_point_distance (g_array_index (points, PfPoint, points->len - back), at) <= PF_TOUCH;
}

/* Draws one pair's stitches from path step `step` to where it is sewn next, and gives that step. */
static size_t
draw_stretch (PfPage *page, const PfView *view, const PfFilling *filling, size_t step, size_t end,
              GArray *points)
{
  for (; step < end && filling->path_steps[step].kind == PF_STEP_STITCH; step++)
    {
      const PfPoint at = filling->stitches[filling->path_steps[step].index].at;
      /* A pin and the stitch that closes it stand at one position. */
      if (is_at (points, 1, at))
        continue;
      /* A line that turns back on itself has no join to draw there: a new chain begins. */
      if (is_at (points, 2, at))
        end_chain (page, view, points);
      g_array_append_val (points, at);
    }
  end_chain (page, view, points);
  return step;
}

void
pf_layer_pair_lines (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  pf_page_group (page, "pair-lines",
                 (PfInk){ .stroke = PF_COLOUR_PAIR_LINE, .width = drawn->sizes.fine });
  for (size_t p = 0; p < filling->n_pairs; p++)
    {
      const PfPair *pair = &filling->pairs[p];
      const size_t end = pair->first_step + pair->n_steps;
      for (size_t step = pair->first_step; step < end;)
        if (filling->path_steps[step].kind == PF_STEP_SEWING)
          step++;
        else
          step = draw_stretch (page, view, filling, step, end, points);
    }
  pf_page_group_end (page);
}

void
pf_layer_pins (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  pf_page_group (page, "pins", pf_ink_pin ());
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const PfPoint at = pf_view_point (view, filling->stitches[s].at);
      if (drawn->ground->stitches[filling->stitches[s].id.k].pin &&
          pf_view_sees (view, at, drawn->sizes.pin))
        pf_mark_pin (page, &drawn->sizes, at);
    }
  pf_page_group_end (page);
}

void
pf_layer_beads (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  /* All beads, then all their holes: shapes that don't cover one another are drawn together. */
  static void (*const marks[]) (PfPage *, const PfSizes *, PfPoint) = { pf_mark_bead,
                                                                        pf_mark_bead_hole };
  const PfFilling *filling = drawn->motif->filling;
  pf_page_group (page, "beads", pf_ink_bead (&drawn->sizes));
  for (size_t mark = 0; mark < G_N_ELEMENTS (marks); mark++)
    for (size_t b = 0; b < filling->counts.beads; b++)
      {
        const PfPoint at = pf_view_point (view, filling->stitches[filling->beads[b]].at);
        if (pf_view_sees (view, at, 3 * drawn->sizes.pin))
          marks[mark](page, &drawn->sizes, at);
      }
  pf_page_group_end (page);
}
