/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds room for the labels of a repeat.
 */
#include "repeat-labels.h"

#include <math.h>

#include "text.h"

#define NAME 3.0 /* sizes of fonts */
#define LETTER 2.8
#define NUMBER 2.1
#define AROUND 1.55  /* what a circle or a box takes up, in the size of its number */
#define FARTHEST 5.5 /* font sizes from what a label belongs to */

/* In the order in which they find room. */
typedef enum { NAME_OF_PIN, LETTERS_OF_SEWING, NUMBER_OF_PAIR, NUMBER_OF_STEP } Shape;

typedef struct {
  Shape shape;
  char *text;
  const char *colour;
  PfPoint anchor;
  PfPoint outward; /* the side it would rather be on; (0, 0) for any */
  PfLabel label;   /* once it has a place */
  bool placed;
} Wanted;

struct PfLabels {
  PfBox box;
  PfPlacer *placer;
  GArray *wanted; /* of Wanted */
  /* The stretch of the pair that came last, for the number at its end. */
  guint32 pair;
  bool has_pair;
  PfPoint from, to;
  const char *colour;
};

static void
clear_wanted (gpointer data)
{
  Wanted *wanted = data;
  g_free (wanted->text);
  g_free (wanted->label.text);
}

PfLabels *
pf_labels_new (PfBox box)
{
  PfLabels *labels = g_new0 (PfLabels, 1);
  labels->box = box;
  labels->placer = pf_placer_new (4);
  labels->wanted = g_array_new (FALSE, FALSE, sizeof (Wanted));
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
want (PfLabels *labels, Shape shape, char *text, const char *colour, PfPoint anchor,
      PfPoint outward)
{
  const Wanted wanted = {
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
  want (labels, NUMBER_OF_PAIR, g_strdup_printf ("%u", pair + 1), colour, part_way (from, to, part),
        (PfPoint){ -ahead.y, ahead.x });
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

/* One name for each place: that of its pin, or of its first stitch. */
static void
add_names (PfLabels *labels, const PfMotif *motif, int i, int j, const PfView *view)
{
  const PfGround *ground = motif->ground;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      if (ground->stitches[k].place != k)
        continue;
      int named = k;
      for (int other = k; other < ground->n_stitches; other++)
        if (ground->stitches[other].place == k && ground->stitches[other].pin)
          named = other;
      const PfPoint at = pf_view_point (
          view, pf_affine_map (motif->filling->to_sheet, pf_ground_position (ground, k, i, j)));
      block_round (labels, at, 1.3);
      want (labels, NAME_OF_PIN, g_strdup (ground->stitches[named].name), PF_COLOUR_INK, at,
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
      want (labels, LETTERS_OF_SEWING, pf_step_sewing_letters (&names, s), PF_COLOUR_INK, at,
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
    want (labels, NUMBER_OF_STEP, texts->pdata[p], PF_COLOUR_QUIET,
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
  add_names (labels, motif, i, j, view);
  if (worksheet)
    return;
  add_letters (labels, motif, work, view, drawn);
  add_step_numbers (labels, motif, work, view, drawn);
}

/* --- Room ---------------------------------------------------------------------------------------
 */

static double
room_size (const Wanted *wanted)
{
  switch (wanted->shape)
    {
    case NAME_OF_PIN:
      return NAME;
    case LETTERS_OF_SEWING:
      return LETTER;
    default:
      return NUMBER * AROUND;
    }
}

static bool
is_within (PfBox box, gconstpointer data)
{
  const PfBox *all = data;
  return box.min.x >= all->min.x && box.max.x <= all->max.x && box.min.y >= all->min.y &&
         box.max.y <= all->max.y;
}

/* Tries the wanted side first, then those turned away from it, near before far. */
static void
find_room (PfLabels *labels, Wanted *wanted)
{
  static const double turns[] = { 0, 180, 45, -45, 90, -90, 135, -135 };
  static const double reaches[] = { 0.9, 1.8, 3.1, FARTHEST };
  const bool any = wanted->outward.x == 0 && wanted->outward.y == 0;
  const PfPoint out = any ? (PfPoint){ 1, 0 } : wanted->outward;
  for (size_t r = 0; r < G_N_ELEMENTS (reaches) && !wanted->placed; r++)
    for (size_t t = 0; t < G_N_ELEMENTS (turns) && !wanted->placed; t++)
      {
        const double a = turns[t] * G_PI / 180;
        const PfPoint side = { cos (a) * out.x - sin (a) * out.y,
                               sin (a) * out.x + cos (a) * out.y };
        wanted->placed = pf_label_place (labels->placer, wanted->text, room_size (wanted),
                                         wanted->colour, wanted->anchor, side, reaches[r],
                                         is_within, &labels->box, &wanted->label);
      }
}

static PfPoint
middle_of (PfBox box)
{
  return (PfPoint){ (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
}

static void
draw_shape (PfPage *page, const Wanted *wanted)
{
  const PfBox box = wanted->label.box;
  pf_page_group (page, "mark",
                 (PfInk){ .fill = PF_COLOUR_PAPER, .stroke = wanted->colour, .width = 0.2 });
  if (wanted->shape == NUMBER_OF_PAIR)
    pf_page_circle (page, middle_of (box), fmax (box.max.x - box.min.x, box.max.y - box.min.y) / 2);
  else
    pf_page_box (page, box);
  pf_page_group_end (page);
}

static void
draw_label (PfPage *page, const Wanted *wanted)
{
  const bool shaped = wanted->shape == NUMBER_OF_PAIR || wanted->shape == NUMBER_OF_STEP;
  const double size = shaped ? NUMBER : room_size (wanted);
  PfPoint at = wanted->label.baseline;
  if (shaped)
    {
      draw_shape (page, wanted);
      const PfPoint middle = middle_of (wanted->label.box);
      at = (PfPoint){ middle.x, middle.y + PF_TEXT_CAP / 2 * size };
    }
  pf_page_text_group (page, "numbers", shaped ? PF_COLOUR_INK : wanted->colour,
                      shaped ? NULL : PF_COLOUR_PAPER);
  pf_page_text (page, at, PF_TEXT_MIDDLE, size, wanted->text);
  pf_page_group_end (page);
}

static PfPoint
nearest_in_box (PfBox box, PfPoint p)
{
  return (PfPoint){ CLAMP (p.x, box.min.x, box.max.x), CLAMP (p.y, box.min.y, box.max.y) };
}

void
pf_labels_draw_all (PfPage *page, PfLabels *labels)
{
  for (Shape shape = NAME_OF_PIN; shape <= NUMBER_OF_STEP; shape++)
    for (guint n = 0; n < labels->wanted->len; n++)
      {
        Wanted *wanted = &g_array_index (labels->wanted, Wanted, n);
        if (wanted->shape == shape &&
            is_within ((PfBox){ wanted->anchor, wanted->anchor }, &labels->box))
          find_room (labels, wanted);
      }
  pf_page_group (page, "leaders", (PfInk){ .stroke = PF_COLOUR_QUIET, .width = 0.12 });
  for (guint n = 0; n < labels->wanted->len; n++)
    {
      const Wanted *wanted = &g_array_index (labels->wanted, Wanted, n);
      if (wanted->placed && wanted->label.leader)
        pf_page_line (page, wanted->anchor, nearest_in_box (wanted->label.box, wanted->anchor));
    }
  pf_page_group_end (page);
  for (guint n = 0; n < labels->wanted->len; n++)
    if (g_array_index (labels->wanted, Wanted, n).placed)
      draw_label (page, &g_array_index (labels->wanted, Wanted, n));
}
