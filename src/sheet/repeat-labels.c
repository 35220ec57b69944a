/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Gathers the labels of a repeat, and what they must not cover.
 */
#include "wanted-labels.h"

static void
clear_wanted (gpointer data)
{
  PfWantedLabel *wanted = data;
  g_free (wanted->text);
  g_free (wanted->label.text);
}

PfLabels *
pf_labels_new (PfBox box)
{
  PfLabels *labels = g_new0 (PfLabels, 1);
  labels->box = box;
  labels->placer = pf_placer_new (4);
  labels->wanted = g_array_new (FALSE, FALSE, sizeof (PfWantedLabel));
  g_array_set_clear_func (labels->wanted, clear_wanted);
  return labels;
}

void
pf_labels_free (PfLabels *labels)
{
  if (labels == NULL)
    return;
  pf_placer_free (labels->placer);
  g_array_unref (labels->wanted);
  g_free (labels);
}

/* Takes over `text`. */
static void
want (PfLabels *labels, PfLabelShape shape, char *text, const char *colour, PfPoint anchor,
      PfPoint outward)
{
  const PfWantedLabel wanted = {
    .shape = shape, .text = text, .colour = colour, .anchor = anchor, .outward = outward
  };
  g_array_append_val (labels->wanted, wanted);
}

/* --- Pairs --------------------------------------------------------------------------------------
 */

static PfPoint
part_way (PfPoint from, PfPoint to, double part)
{
  return pf_point_add (from, (PfPoint){ to.x - from.x, to.y - from.y }, part);
}

static void
want_number (PfLabels *labels, guint32 pair, PfPoint from, PfPoint to, double part,
             const char *colour)
{
  const PfPoint ahead = pf_point_towards (from, to);
  want (labels, PF_NUMBER_OF_PAIR, g_strdup_printf ("%u", pair + 1), colour,
        part_way (from, to, part), (PfPoint){ -ahead.y, ahead.x });
}

/* The last stretch of a pair has its number, too, if it isn't the first one. */
static void
end_pair (PfLabels *labels)
{
  if (labels->has_pair)
    want_number (labels, labels->pair, labels->from, labels->to, 0.75, labels->colour);
  labels->has_pair = false;
}

void
pf_labels_add_way (PfLabels *labels, guint32 pair, const PfPoint *points, size_t n,
                   const char *colour)
{
  for (size_t p = 1; p < n; p++)
    pf_placer_block_line (labels->placer, points[p - 1], points[p], PF_BLOCK_SOFT);
  if (labels->has_pair && labels->pair != pair)
    end_pair (labels);
  const bool first = labels->colour == NULL || labels->pair != pair;
  if (first)
    want_number (labels, pair, points[0], points[1], 0.25, colour);
  labels->has_pair = !first;
  labels->pair = pair;
  labels->colour = colour;
  labels->from = points[n - 2];
  labels->to = points[n - 1];
}

/* --- Pins, sewings, steps -----------------------------------------------------------------------
 */

static void
block_round (PfLabels *labels, PfPoint at, double reach)
{
  pf_placer_block_box (labels->placer, pf_box_grown ((PfBox){ at, at }, reach), PF_BLOCK_HARD);
}

/* Which of the ground's stitches are worked in a repeat. */
static bool *
worked_in (const PfMotif *motif, const PfRepeatWork *work)
{
  bool *worked = g_new0 (bool, motif->ground->n_stitches);
  for (guint s = 0; s < work->steps->len; s++)
    {
      const PfWorkStep *step = &g_array_index (work->steps, PfWorkStep, s);
      if (step->kind == PF_WORK_STITCH)
        worked[motif->filling->stitches[step->stitch].id.k] = true;
    }
  return worked;
}

/* One name for each place: that of its pin, or of its first stitch. What is left of a middle that
 * isn't worked needs none: no step speaks of it. */
static void
add_names (PfLabels *labels, const PfMotif *motif, const PfRepeatWork *work, int i, int j,
           const PfView *view)
{
  g_autofree bool *worked = worked_in (motif, work);
  const PfGround *ground = motif->ground;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      if (ground->stitches[k].place != k)
        continue;
      int named = k;
      bool tell = false;
      for (int other = k; other < ground->n_stitches; other++)
        {
          if (ground->stitches[other].place != k)
            continue;
          if (ground->stitches[other].pin)
            named = other;
          tell |= worked[other] || ground->stitches[other].pin || !ground->stitches[other].core;
        }
      if (!tell)
        continue;
      const PfPoint at = pf_view_point (
          view, pf_affine_map (motif->filling->to_sheet, pf_ground_position (ground, k, i, j)));
      block_round (labels, at, 1.3);
      want (labels, PF_NAME_OF_PIN, g_strdup (ground->stitches[named].name), PF_COLOUR_INK, at,
            (PfPoint){ 0, 0 });
    }
}

static PfPoint
outward_of (const PfView *view, const PfDrawn *drawn, const PfSewing *sewing)
{
  return pf_point_towards ((PfPoint){ 0, 0 },
                           pf_view_direction (view, pf_drawn_outward (drawn, sewing->place)));
}

static void
add_letters (PfLabels *labels, const PfMotif *motif, const PfRepeatWork *work, const PfView *view,
             const PfDrawn *drawn)
{
  const PfStepNames names = pf_repeat_work_names (work);
  for (guint n = 0; n < work->sewings->len; n++)
    {
      const guint32 s = g_array_index (work->sewings, guint32, n);
      const PfSewing *sewing = &motif->filling->sewings[s];
      const PfPoint at = pf_view_point (view, sewing->at);
      block_round (labels, at, 1.3);
      want (labels, PF_LETTERS_OF_SEWING, pf_step_sewing_letters (&names, s), PF_COLOUR_INK, at,
            outward_of (view, drawn, sewing));
    }
}

/* The numbers of all steps done at one place stand together: "3, 9". */
static void
add_step_numbers (PfLabels *labels, const PfMotif *motif, const PfRepeatWork *work,
                  const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = motif->filling;
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  g_autoptr (GArray) outward = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  g_autoptr (GPtrArray) texts = g_ptr_array_new ();
  for (guint s = 0; s < work->steps->len; s++)
    {
      const PfWorkStep *step = &g_array_index (work->steps, PfWorkStep, s);
      if (step->kind == PF_WORK_TWIST)
        continue;
      const bool sewn = step->sewing != PF_NONE;
      const PfPoint at = pf_view_point (view, sewn ? filling->sewings[step->sewing].at
                                                   : filling->stitches[step->stitch].at);
      const PfPoint out =
          sewn ? outward_of (view, drawn, &filling->sewings[step->sewing]) : (PfPoint){ 0, 0 };
      guint p = 0;
      while (p < places->len && pf_point_distance (g_array_index (places, PfPoint, p), at) > 1e-3)
        p++;
      if (p == places->len)
        {
          g_array_append_val (places, at);
          g_array_append_val (outward, out);
          g_ptr_array_add (texts, g_strdup_printf ("%u", s + 1));
          continue;
        }
      char *joined = g_strdup_printf ("%s, %u", (char *) texts->pdata[p], s + 1);
      g_free (texts->pdata[p]);
      texts->pdata[p] = joined;
    }
  for (guint p = 0; p < places->len; p++)
    want (labels, PF_NUMBER_OF_STEP, texts->pdata[p], PF_COLOUR_QUIET,
          g_array_index (places, PfPoint, p), g_array_index (outward, PfPoint, p));
}

static void
block_edge (PfLabels *labels, const PfMotif *motif, const PfView *view)
{
  for (size_t l = 0; l < motif->region->n_loops; l++)
    {
      const PfLoop *loop = &motif->region->loops[l];
      for (size_t p = 0; p < loop->n_points; p++)
        {
          const PfPoint a = pf_view_point (view, loop->points[p]);
          const PfPoint b = pf_view_point (view, loop->points[(p + 1) % loop->n_points]);
          if (pf_view_sees_line (view, a, b))
            pf_placer_block_line (labels->placer, a, b, PF_BLOCK_SOFT);
        }
    }
}

void
pf_labels_add_repeat (PfLabels *labels, const PfMotif *motif, const PfRepeatWork *work, int i,
                      int j, const PfView *view, const PfDrawn *drawn, bool worksheet)
{
  end_pair (labels);
  block_edge (labels, motif, view);
  add_names (labels, motif, work, i, j, view);
  if (worksheet)
    return;
  add_letters (labels, motif, work, view, drawn);
  add_step_numbers (labels, motif, work, view, drawn);
}
