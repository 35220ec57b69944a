/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws a repeat: what lies round it faintly, then its pairs, then its pins and sewings, and last
 * the labels, which find room beside all of these.
 */
#include "repeat-drawing.h"

#include <math.h>

#include "marks.h"
#include "pair-style.h"
#include "repeat-labels.h"
#include "repeat-ways.h"

#define GAP 16.0           /* from pin to pin, ... */
#define STITCH_GAP 9.5     /* ... and at least from stitch to stitch, if there is room */
#define MODEST_HEIGHT 75.0 /* a drawing that is made larger for its labels is no higher */
#define MARGIN 7.0         /* for labels */
#define CROWDED 0.08       /* labels */
#define LINE 0.5           /* width of a pair's line */
#define ASIDE 1.1          /* between lines side by side */

struct PfRepeatPicture {
  const PfMotif *motif;
  PfRepeatWork *work;
  int i, j;
  PfRepeatLook look;
  GArray *ways; /* of PfRepeatStretch */
  PfAffine map; /* from the motif to the picture's own box */
  double scale, width, height;
  PfLabels *labels; /* in that box; they have their places */
  char *left_out;   /* labels that have none, in words, or NULL */
};

PfAffine
pf_worked_map (const PfMotif *motif, double scale)
{
  const double turn = motif->settings.placement.turn * G_PI / 180;
  const double c = scale * cos (turn), s = scale * sin (turn);
  return (PfAffine){ c, s, -s, c, 0, 0 };
}

/* --- Size ---------------------------------------------------------------------------------------
 */

/* Where stitch k of the repeat stands, worked or not. */
static PfPoint
stitch_at (const PfRepeatPicture *picture, int k)
{
  return pf_affine_map (picture->motif->filling->to_sheet,
                        pf_ground_position (picture->motif->ground, k, picture->i, picture->j));
}

static double
nearest_stitches (const PfRepeatPicture *picture)
{
  double nearest = picture->motif->settings.placement.gap;
  const int n = picture->motif->ground->n_stitches;
  for (int k = 0; k < n; k++)
    for (int other = 0; other < k; other++)
      {
        const double distance =
            pf_point_distance (stitch_at (picture, k), stitch_at (picture, other));
        if (distance > PF_TOUCH)
          nearest = fmin (nearest, distance);
      }
  return nearest;
}

/* All that the picture must show, turned as it is worked, in mm of the motif. */
static PfBox
extents (const PfRepeatPicture *picture)
{
  const PfAffine turned = pf_worked_map (picture->motif, 1);
  PfBox box = PF_BOX_EMPTY;
  for (int k = 0; k < picture->motif->ground->n_stitches; k++)
    box = pf_box_with (box, pf_affine_map (turned, stitch_at (picture, k)));
  for (guint w = 0; w < picture->ways->len; w++)
    {
      const PfRepeatStretch *way = &g_array_index (picture->ways, PfRepeatStretch, w);
      if (!way->run || !way->comes)
        box = pf_box_with (box, pf_affine_map (turned, way->from));
      if (!way->run || !way->goes)
        box = pf_box_with (box, pf_affine_map (turned, way->to));
    }
  return box;
}

static void
find_size (PfRepeatPicture *picture, double larger, double width, double height)
{
  const PfBox box = extents (picture);
  const double w = box.max.x - box.min.x, h = box.max.y - box.min.y;
  const double wanted = larger * fmax (GAP / picture->motif->settings.placement.gap,
                                       STITCH_GAP / nearest_stitches (picture));
  const double scale = fmin (wanted, fmin (w > 0 ? (width - 2 * MARGIN) / w : wanted,
                                           h > 0 ? (height - 2 * MARGIN) / h : wanted));
  picture->scale = scale;
  picture->width = scale * w + 2 * MARGIN;
  picture->height = scale * h + 2 * MARGIN;
  picture->map = pf_worked_map (picture->motif, scale);
  picture->map.x0 = MARGIN - scale * box.min.x;
  picture->map.y0 = MARGIN - scale * box.min.y;
}

/* --- Labels -------------------------------------------------------------------------------------
 */

static PfSizes
sizes_of (const PfRepeatPicture *picture)
{
  PfSizes sizes = pf_sizes (picture->motif->settings.placement.gap, picture->scale);
  sizes.pin = 1;
  sizes.hole = CLAMP (sizes.hole, 0.4, 0.8);
  sizes.mark = 1;
  sizes.fine = 0.12;
  sizes.line = LINE;
  sizes.outline = 0.35;
  sizes.arrow = 1.6;
  return sizes;
}

/* The view of the picture in that box of a page. */
static PfView
view_in (const PfRepeatPicture *picture, PfBox box)
{
  const PfView field = { .map = picture->map, .enlarge = picture->scale };
  return pf_view_page (&field, (PfPoint){ 0, 0 }, box);
}

static PfDrawn *
drawn_new (const PfRepeatPicture *picture)
{
  PfDrawn *drawn = pf_drawn_new_bare (picture->motif, picture->scale);
  drawn->sizes = drawn->lines = sizes_of (picture);
  return drawn;
}

/* The points of a stretch on the page; an array of PfPoint. */
static GArray *
way_points (const PfRepeatPicture *picture, const PfView *view, const PfDrawn *drawn,
            const PfRepeatStretch *way)
{
  if (way->run)
    {
      const PfFilling *filling = picture->motif->filling;
      GArray *points = pf_carried_run (drawn, view, &filling->sewings[way->start.index],
                                       &filling->sewings[way->end.index]);
      for (guint n = 0; n < points->len; n++)
        g_array_index (points, PfPoint, n) =
            pf_view_point (view, g_array_index (points, PfPoint, n));
      return points;
    }
  GArray *points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  const PfPoint from = pf_view_point (view, way->from), to = pf_view_point (view, way->to);
  const PfPoint ahead = pf_point_towards (from, to);
  const double mirrored = picture->motif->settings.placement.mirror ? -1 : 1;
  const PfPoint left = { -mirrored * ahead.y, mirrored * ahead.x };
  const PfPoint ends[] = { pf_point_add (from, left, ASIDE * way->aside),
                           pf_point_add (to, left, ASIDE * way->aside) };
  g_array_append_vals (points, ends, 2);
  return points;
}

static PfInk
ink_of (const PfRepeatPicture *picture, const PfRepeatStretch *way)
{
  return pf_pair_ink (way->pair, LINE, picture->look.colour);
}

/* Labels find their room beside all that is going to be drawn. */
static PfLabels *
placed_labels (const PfRepeatPicture *picture)
{
  const bool worksheet = picture->look.worksheet;
  const PfBox box = { { 0, 0 }, { picture->width, picture->height } };
  const PfView view = view_in (picture, box);
  PfDrawn *drawn = drawn_new (picture);
  PfLabels *labels = pf_labels_new (box);
  for (guint w = 0; w < picture->ways->len && !worksheet; w++)
    {
      const PfRepeatStretch *way = &g_array_index (picture->ways, PfRepeatStretch, w);
      g_autoptr (GArray) points = way_points (picture, &view, drawn, way);
      pf_labels_add_way (labels, way->pair, (const PfPoint *) (void *) points->data, points->len,
                         ink_of (picture, way).stroke);
    }
  pf_labels_add_repeat (labels, picture->motif, picture->work, picture->i, picture->j, &view, drawn,
                        worksheet);
  pf_labels_find_room (labels);
  pf_drawn_free (drawn);
  return labels;
}

/* A size, and its labels. */
static void
try_size (PfRepeatPicture *picture, double larger, double width, double height)
{
  find_size (picture, larger, width, height);
  g_clear_pointer (&picture->labels, pf_labels_free);
  picture->labels = placed_labels (picture);
}

/* As large as its labels need, but not so large that it would take up much of the page: of several
 * sizes the first that isn't crowded, else the least crowded one. */
static void
find_size_for_labels (PfRepeatPicture *picture, double width, double height)
{
  static const double larger[] = { 1, 1.2, 1.4, 1.6 };
  try_size (picture, 1, width, height);
  double least = pf_labels_crowding (picture->labels);
  size_t best = 0, last = 0;
  const double modest = fmax (picture->height, fmin (height, MODEST_HEIGHT));
  for (size_t l = 1; l < G_N_ELEMENTS (larger) && least > CROWDED; l++)
    {
      const double before = picture->scale;
      try_size (picture, larger[l], width, modest);
      const double crowding = pf_labels_crowding (picture->labels);
      last = l;
      if (crowding < least)
        {
          least = crowding;
          best = l;
        }
      if (picture->scale <= before)
        break;
    }
  if (best != last)
    try_size (picture, larger[best], width, best == 0 ? height : modest);
  picture->left_out = pf_labels_left_out_words (picture->labels);
}

PfRepeatPicture *
pf_repeat_picture_new (const PfMotif *motif, PfRepeatWork *work, int i, int j, PfRepeatLook look,
                       double width, double height)
{
  PfRepeatPicture *picture = g_new0 (PfRepeatPicture, 1);
  *picture = (PfRepeatPicture){
    .motif = motif,
    .work = work,
    .i = i,
    .j = j,
    .look = look,
    .ways = pf_repeat_ways (motif->filling, work, i, j),
  };
  find_size_for_labels (picture, width, height);
  return picture;
}

void
pf_repeat_picture_free (PfRepeatPicture *picture)
{
  if (picture == NULL)
    return;
  pf_repeat_work_free (picture->work);
  g_array_unref (picture->ways);
  pf_labels_free (picture->labels);
  g_free (picture->left_out);
  g_free (picture);
}

const char *
pf_repeat_picture_left_out (const PfRepeatPicture *picture)
{
  return picture->left_out;
}

void
pf_repeat_picture_size (const PfRepeatPicture *picture, double *width, double *height)
{
  *width = picture->width;
  *height = picture->height;
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

static void
draw_arrow (PfPage *page, const PfSizes *sizes, const GArray *points)
{
  const PfPoint *p = (const PfPoint *) (const void *) points->data;
  guint best = 1;
  for (guint n = 2; n < points->len; n++)
    if (pf_point_distance (p[n - 1], p[n]) > pf_point_distance (p[best - 1], p[best]))
      best = n;
  if (pf_point_distance (p[best - 1], p[best]) > 2 * sizes->arrow)
    pf_mark_arrow (page, sizes, p[best - 1], p[best], 0.58);
}

static void
draw_ways (PfPage *page, const PfRepeatPicture *picture, const PfView *view, const PfDrawn *drawn)
{
  for (guint w = 0; w < picture->ways->len; w++)
    {
      const PfRepeatStretch *way = &g_array_index (picture->ways, PfRepeatStretch, w);
      g_autoptr (GArray) points = way_points (picture, view, drawn, way);
      const PfInk ink = ink_of (picture, way);
      pf_page_group (page, "pair", ink);
      pf_page_polyline (page, (const PfPoint *) (void *) points->data, points->len);
      pf_page_group_end (page);
      pf_page_group (page, "arrow", (PfInk){ .fill = ink.stroke });
      draw_arrow (page, &drawn->sizes, points);
      pf_page_group_end (page);
    }
}

static void
draw_missing (PfPage *page, const PfRepeatPicture *picture, const PfView *view,
              const PfDrawn *drawn)
{
  const PfGround *ground = picture->motif->ground;
  pf_page_group (page, "missing", pf_ink_missing (&drawn->sizes));
  for (int k = 0; k < ground->n_stitches; k++)
    if (drawn->has_pin[k] && ground->stitches[k].place == k)
      pf_mark_missing (page, &drawn->sizes, pf_view_point (view, stitch_at (picture, k)));
  pf_page_group_end (page);
}

/* Pins and stitches without a pin, as they are worked here. */
static void
draw_stitches (PfPage *page, const PfRepeatPicture *picture, const PfView *view,
               const PfDrawn *drawn, bool pins)
{
  const PfFilling *filling = picture->motif->filling;
  pf_page_group (page, pins ? "pins" : "stitches",
                 pins ? pf_ink_pin ()
                      : (PfInk){ .fill = PF_COLOUR_PAPER, .stroke = PF_COLOUR_INK, .width = 0.3 });
  for (guint s = 0; s < picture->work->steps->len; s++)
    {
      const PfWorkStep *step = &g_array_index (picture->work->steps, PfWorkStep, s);
      if (step->kind != PF_WORK_STITCH)
        continue;
      const PfWorkedStitch *stitch = &filling->stitches[step->stitch];
      if (drawn->has_pin[stitch->id.k] == pins)
        pf_page_circle (page, pf_view_point (view, stitch->at), pins ? drawn->sizes.pin : 0.9);
    }
  pf_page_group_end (page);
}

static void
draw_sewings (PfPage *page, const PfRepeatPicture *picture, const PfView *view,
              const PfDrawn *drawn)
{
  const PfFilling *filling = picture->motif->filling;
  for (guint n = 0; n < picture->work->sewings->len; n++)
    {
      const PfSewing *sewing =
          &filling->sewings[g_array_index (picture->work->sewings, guint32, n)];
      const PfPoint at = pf_view_point (view, sewing->at);
      const bool at_pinhole = sewing->pinhole != PF_NONE;
      pf_page_group (page, "sewing",
                     at_pinhole ? pf_ink_at_pinhole () : pf_ink_round_bar (&drawn->sizes));
      if (at_pinhole)
        pf_mark_at_pinhole (page, &drawn->sizes, at);
      else
        pf_mark_round_bar (
            page, &drawn->sizes, at,
            pf_point_towards ((PfPoint){ 0, 0 },
                              pf_view_direction (view, pf_drawn_outward (drawn, sewing->place))));
      pf_page_group_end (page);
    }
}

/* The lines of all pairs near by, and the edge. */
static void
draw_surroundings (PfPage *page, const PfView *view, const PfDrawn *drawn, bool lines)
{
  if (lines)
    pf_layer_pair_lines_near (page, view, drawn);
  pf_layer_outline (page, view, drawn);
  pf_layer_pinholes (page, view, drawn);
}

void
pf_repeat_picture_draw (PfPage *page, PfBox box, gpointer data)
{
  const PfRepeatPicture *picture = data;
  const bool worksheet = picture->look.worksheet;
  const PfView view = view_in (picture, box);
  PfDrawn *drawn = drawn_new (picture);
  pf_page_clip_group (page, "repeat", box);
  draw_surroundings (page, &view, drawn, !worksheet);
  draw_missing (page, picture, &view, drawn);
  if (!worksheet)
    draw_ways (page, picture, &view, drawn);
  draw_stitches (page, picture, &view, drawn, false);
  draw_stitches (page, picture, &view, drawn, true);
  pf_layer_beads (page, &view, drawn);
  if (!worksheet)
    draw_sewings (page, picture, &view, drawn);
  pf_labels_draw_all (page, picture->labels, box.min);
  pf_page_group_end (page);
  pf_drawn_free (drawn);
}
