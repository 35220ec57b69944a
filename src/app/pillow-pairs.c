/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The lines of pairs beside the pillow, each from stitch to stitch or to its sewing. Those that are
 * done stand back, those that hang on the pillow now are dark, what is to come is thin and broken,
 * and the pairs of the present step are strong.
 */
#include <math.h>

#include "pillow-marks.h"

/* --- All pairs that are near --------------------------------------------------------------------
 */

typedef enum { LINE_DONE, LINE_LATER, LINE_HANGING, N_LINES } LineState;

static LineState
state_of (const PfPillowMarks *marks, guint32 from_step, guint32 to_step)
{
  if (to_step < marks->place)
    return LINE_DONE;
  return from_step < marks->place ? LINE_HANGING : LINE_LATER;
}

static void
add_line (cairo_t *cr, PfPoint a, PfPoint b)
{
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
}

/* Adds the lines out of one side of a stitch, and into it from the edge, if they are in `state`. */
static void
add_lines_at (const PfPillowMarks *marks, cairo_t *cr, guint32 s, const PfWorkedEnd *end,
              LineState state)
{
  const PfPillowPlan *plan = marks->plan;
  const PfFilling *filling = plan->motif->filling;
  const guint32 own = plan->of_stitch[s];
  if (end->leaving != PF_NONE)
    {
      const guint32 sewing = filling->crossings[end->leaving].sewing;
      if (state_of (marks, own, plan->of_sewing[sewing]) == state)
        add_line (cr, pf_pillow_stitch_at (marks, s), pf_pillow_sewing_at (marks, sewing));
    }
  else if (state_of (marks, own, plan->of_stitch[end->to]) == state)
    add_line (cr, pf_pillow_stitch_at (marks, s), pf_pillow_stitch_at (marks, end->to));
  if (end->entering != PF_NONE)
    {
      const guint32 sewing = filling->crossings[end->entering].sewing;
      if (state_of (marks, plan->of_sewing[sewing], own) == state)
        add_line (cr, pf_pillow_sewing_at (marks, sewing), pf_pillow_stitch_at (marks, s));
    }
}

static void
draw_lines (const PfPillowMarks *marks, cairo_t *cr, const GArray *near, LineState state)
{
  static const struct {
    double grey, width;
    bool broken;
  } looks[N_LINES] = { [LINE_DONE] = { 0.84, 1.5, false },
                       [LINE_LATER] = { 0.55, 1, true },
                       [LINE_HANGING] = { 0.2, 1.75, false } };
  const PfFilling *filling = marks->plan->motif->filling;
  const double dashes[] = { 5, 4 };
  cairo_save (cr);
  cairo_set_dash (cr, dashes, looks[state].broken ? 2 : 0, 0);
  cairo_set_source_rgb (cr, looks[state].grey, looks[state].grey, looks[state].grey);
  cairo_set_line_width (cr, looks[state].width * marks->text / 26);
  for (guint n = 0; n < near->len; n++)
    {
      const guint32 s = g_array_index (near, guint32, n);
      const PfWorkedStitch *stitch = &filling->stitches[s];
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        add_lines_at (marks, cr, s, &ends[side], state);
      if (n % 64 == 63)
        cairo_stroke (cr);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* --- The present ones ---------------------------------------------------------------------------
 */

static void
add_present (GArray *lines, PfPoint from, PfPoint to, guint32 pair, bool outward)
{
  const PfPillowLine line = { .from = from, .to = to, .pair = pair, .outward = outward };
  g_array_append_val (lines, line);
}

/* The way of a pair to one side of a stitch. Where a stitch closes the pin of another, the pair
 * comes from the same place; then its last way before is shown. */
static void
add_way_in (const PfPillowMarks *marks, GArray *lines, guint32 s, unsigned side)
{
  const PfFilling *filling = marks->plan->motif->filling;
  const PfPoint to = pf_pillow_stitch_at (marks, s);
  guint32 at = s;
  for (int back = 0; back < 4; back++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[at];
      const PfWorkedEnd *end = &pf_worked_ends (filling, stitch)[MIN (side, stitch->n_sides - 1u)];
      const PfPoint from =
          end->entering != PF_NONE
              ? pf_pillow_sewing_at (marks, filling->crossings[end->entering].sewing)
              : pf_pillow_stitch_at (marks, end->from);
      if (hypot (from.x - to.x, from.y - to.y) > 1 || end->entering != PF_NONE)
        {
          add_present (lines, from, to, end->pair, false);
          return;
        }
      at = end->from;
    }
}

static void
add_way_out (const PfPillowMarks *marks, GArray *lines, guint32 s, unsigned side)
{
  const PfFilling *filling = marks->plan->motif->filling;
  const PfWorkedEnd *end = &pf_worked_ends (filling, &filling->stitches[s])[side];
  const PfPoint to = end->leaving != PF_NONE
                         ? pf_pillow_sewing_at (marks, filling->crossings[end->leaving].sewing)
                         : pf_pillow_stitch_at (marks, end->to);
  add_present (lines, pf_pillow_stitch_at (marks, s), to, end->pair, end->leaving != PF_NONE);
}

static void
add_sewing (const PfPillowMarks *marks, GArray *lines, const PfWorkStep *step)
{
  const PfFilling *filling = marks->plan->motif->filling;
  const PfSewing *sewing = &filling->sewings[step->sewing];
  const PfPoint at = pf_pillow_sewing_at (marks, step->sewing);
  if (sewing->leaving != PF_NONE)
    add_present (lines, pf_pillow_stitch_at (marks, filling->crossings[sewing->leaving].stitch), at,
                 step->pair, false);
  if (sewing->entering != PF_NONE)
    add_present (lines, at,
                 pf_pillow_stitch_at (marks, filling->crossings[sewing->entering].stitch),
                 step->pair, false);
  if (step->kind == PF_WORK_CARRY)
    {
      const guint32 match = filling->crossings[sewing->leaving].match;
      const PfPillowLine line = {
        .from = at,
        .to = pf_pillow_sewing_at (marks, filling->crossings[match].sewing),
        .pair = step->pair,
        .along = true,
      };
      g_array_append_val (lines, line);
    }
}

/* Is the twist at step n on the way out of its stitch? */
static bool
goes_out (const PfPillowMarks *marks, size_t n)
{
  return pf_working_step_id (marks->plan->steps, marks->plan->motif->filling, n).line.leaves;
}

GArray *
pf_pillow_present_lines (const PfPillowMarks *marks)
{
  const PfFilling *filling = marks->plan->motif->filling;
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (PfPillowLine));
  for (size_t n = marks->span.first; n < marks->span.first + marks->span.n; n++)
    {
      const PfWorkStep *step = &marks->plan->steps->steps[n];
      if (step->kind == PF_WORK_STITCH)
        for (unsigned side = 0; side < filling->stitches[step->stitch].n_sides; side++)
          add_way_in (marks, lines, step->stitch, side);
      else if (step->kind != PF_WORK_TWIST)
        add_sewing (marks, lines, step);
      else if (goes_out (marks, n))
        add_way_out (marks, lines, step->stitch, step->side);
      else
        add_way_in (marks, lines, step->stitch, step->side);
    }
  return lines;
}

static void
draw_present (const PfPillowMarks *marks, cairo_t *cr)
{
  const double width = marks->text * 0.24, dashes[] = { 1.6 * width, 1.6 * width };
  g_autoptr (GArray) lines = pf_pillow_present_lines (marks);
  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  for (int halo = 1; halo >= 0; halo--)
    for (guint n = 0; n < lines->len; n++)
      {
        const PfPillowLine *line = &g_array_index (lines, PfPillowLine, n);
        add_line (cr, line->from, line->to);
        if (halo)
          cairo_set_source_rgb (cr, 1, 1, 1);
        else
          cairo_set_source_rgb (cr, 0.05, 0.28, 0.63);
        cairo_set_dash (cr, dashes, line->along && !halo ? 2 : 0, 0);
        cairo_set_line_width (cr, halo ? width + 4 : width);
        cairo_stroke (cr);
      }
  cairo_restore (cr);
}

void
pf_pillow_draw_pairs (const PfPillowMarks *marks, cairo_t *cr)
{
  const PfFilling *filling = marks->plan->motif->filling;
  g_autoptr (GArray) near = g_array_new (FALSE, FALSE, sizeof (guint32));
  for (guint32 s = 0; s < filling->n_stitches; s++)
    if (pf_pillow_is_near (marks, filling->stitches[s].at))
      g_array_append_val (near, s);
  for (int state = 0; state < N_LINES; state++)
    draw_lines (marks, cr, near, (LineState) state);
  draw_present (marks, cr);
}
