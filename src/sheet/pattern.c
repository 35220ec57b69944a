/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pattern inside: each pair's line from stitch to stitch, the pins that are set, and the beads.
 */
#include "layers.h"

#include <math.h>

#include "marks.h"

#define FAR_GAPS 4 /* longer than pair lines are, as a rule */

/* A pair's line as it is followed: of a chain only what is near the page is kept. */
typedef struct {
  PfPage *page;
  const PfView *view;
  PfBox seen;     /* of the drawing */
  GArray *points; /* of PfPoint: the chain, its last point being `last`; or none */
  PfPoint last;
  bool begun; /* `last` is set */
} Pen;

static bool
is_one (PfPoint p, PfPoint q)
{
  return fabs (p.x - q.x) <= PF_TOUCH && fabs (p.y - q.y) <= PF_TOUCH;
}

static void
end_chain (Pen *pen)
{
  if (pen->points->len > 0)
    pf_view_chain (pen->view, pen->page, (const PfPoint *) (gpointer) pen->points->data,
                   pen->points->len, false);
  g_array_set_size (pen->points, 0);
}

static void
draw_to (Pen *pen, PfPoint at)
{
  GArray *points = pen->points;
  const PfPoint last = pen->last;
  /* A pin and the stitch that closes it stand at one position. */
  if (pen->begun && is_one (last, at))
    return;
  const bool begun = pen->begun;
  pen->begun = true;
  pen->last = at;
  if (!begun)
    return;
  /* A line that turns back on itself has no join to draw there: a new chain begins. */
  if (points->len >= 2 && is_one (g_array_index (points, PfPoint, points->len - 2), at))
    {
      end_chain (pen);
      return;
    }
  const PfBox box = { { fmin (last.x, at.x), fmin (last.y, at.y) },
                      { fmax (last.x, at.x), fmax (last.y, at.y) } };
  if (!pf_boxes_meet (box, pen->seen))
    {
      end_chain (pen);
      return;
    }
  if (points->len == 0)
    g_array_append_val (points, last);
  g_array_append_val (points, at);
}

/* Draws one pair's stitches from path step `step` to where it is sewn next, and gives that step. */
static size_t
draw_stretch (Pen *pen, const PfFilling *filling, size_t step, size_t end)
{
  pen->begun = false;
  for (; step < end && filling->path_steps[step].kind == PF_STEP_STITCH; step++)
    draw_to (pen, filling->stitches[filling->path_steps[step].index].at);
  end_chain (pen);
  return step;
}

void
pf_layer_pair_lines (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  Pen pen = { .page = page, .view = view, .seen = pf_view_seen (view), .points = points };
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
          step = draw_stretch (&pen, filling, step, end);
    }
  pf_page_group_end (page);
}

static bool
is_in (PfBox box, PfPoint p)
{
  return p.x >= box.min.x && p.x <= box.max.x && p.y >= box.min.y && p.y <= box.max.y;
}

static void
draw_line (PfPage *page, const PfView *view, PfPoint from, PfPoint to)
{
  if (!is_one (from, to))
    pf_view_chain (view, page, (PfPoint[]){ from, to }, 2, false);
}

void
pf_layer_pair_lines_near (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  const PfBox near = pf_box_grown (pf_view_seen (view), FAR_GAPS * filling->placement.gap);
  pf_page_group (page, "pair-lines",
                 (PfInk){ .stroke = PF_COLOUR_PAIR_LINE, .width = drawn->sizes.fine });
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[s];
      if (!is_in (near, stitch->at))
        continue;
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        {
          if (ends[side].to != PF_NONE)
            draw_line (page, view, stitch->at, filling->stitches[ends[side].to].at);
          if (ends[side].from != PF_NONE && !is_in (near, filling->stitches[ends[side].from].at))
            draw_line (page, view, filling->stitches[ends[side].from].at, stitch->at);
        }
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
