/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The map of a motif's repeats. Its numbers are as large as the nearest two leave room for; where
 * that is too small to be read, the map is drawn larger, cut into parts.
 */
#include "notes.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "repeat-drawing.h"
#include "text.h"

#define MARGIN 2.0
#define NUMBER_MOST 3.2 /* size of the numbers */
#define NUMBER_LEAST 1.4
#define SCALE_MOST 4.0
#define MAP_HEIGHT 0.45   /* of a page, if there is no need for more */
#define CAPTION_ROOM 40.0 /* kept free on a page that a part fills */
#define PARTS_MOST 24     /* a map with more is no help */

typedef struct {
  PfPoint at; /* in the motif, turned as it is worked */
  char *text;
  double width; /* of the text, in the size of its font */
  bool other;   /* not worked as the ground is */
} Mark;

/* What all drawings of one motif share; counts those that use it. */
typedef struct {
  const PfMotif *motif;
  GArray *marks; /* of Mark, from above down */
  PfBox box;     /* of the outline, turned as it is worked */
  double number; /* the largest size of numbers that leaves room for all, at scale 1 */
  double widest; /* text, in the size of its font */
} Map;

/* One drawing. */
typedef struct {
  Map *map;
  double scale;
  PfBox shown;   /* of the motif, turned as it is worked */
  double number; /* the size of the numbers; 0: there are none */
  GArray *parts; /* of PfBox: what the parts show, to be told apart; NULL for none */
} Drawing;

static void
clear_mark (gpointer mark)
{
  g_free (((Mark *) mark)->text);
}

/* The middle of a repeat's worked stitches. */
static PfPoint
middle_of (const PfFilling *filling, const PfRepeatKinds *kinds, const PfWorkedRepeat *repeat)
{
  PfPoint sum = { 0, 0 };
  for (size_t n = 0; n < repeat->n_stitches; n++)
    sum = pf_point_add (sum, filling->stitches[kinds->stitches[repeat->first_stitch + n]].at,
                        1.0 / (double) repeat->n_stitches);
  return sum;
}

static void
clear_map (gpointer data)
{
  g_array_unref (((Map *) data)->marks);
}

static void
free_drawing (gpointer data)
{
  Drawing *drawing = data;
  g_rc_box_release_full (drawing->map, clear_map);
  g_clear_pointer (&drawing->parts, g_array_unref);
  g_free (drawing);
}

/* --- Marks --------------------------------------------------------------------------------------
 */

static int
compare_marks (gconstpointer a, gconstpointer b)
{
  const PfPoint *p = &((const Mark *) a)->at, *q = &((const Mark *) b)->at;
  return p->y != q->y ? (p->y > q->y) - (p->y < q->y) : (p->x > q->x) - (p->x < q->x);
}

static void
add_marks (Map *map, const PfRepeatKinds *kinds)
{
  const PfAffine turned = pf_worked_map (map->motif, 1);
  for (guint32 r = 0; r < kinds->n_repeats; r++)
    {
      const PfWorkedRepeat *repeat = &kinds->repeats[r];
      const bool other = !pf_repeat_kind_is_plain_ground (&kinds->kinds[repeat->kind]);
      g_autofree char *letters = other ? pf_kind_letters (repeat->kind) : g_strdup ("");
      Mark mark = { .at = pf_affine_map (turned, middle_of (map->motif->filling, kinds, repeat)),
                    .text = g_strdup_printf ("%u%s", r + 1, letters),
                    .other = other };
      mark.width = pf_text_width (mark.text, 1);
      map->widest = fmax (map->widest, mark.width);
      g_array_append_val (map->marks, mark);
    }
  g_array_sort (map->marks, compare_marks);
}

/* Marks come from above down, so those that are far enough below needn't be looked at. */
static void
find_number_size (Map *map)
{
  map->number = G_MAXDOUBLE;
  for (guint a = 0; a < map->marks->len; a++)
    for (guint b = a + 1; b < map->marks->len; b++)
      {
        const Mark *p = &g_array_index (map->marks, Mark, a);
        const Mark *q = &g_array_index (map->marks, Mark, b);
        const double down = (q->at.y - p->at.y) / 1.15;
        if (down >= map->number)
          break;
        const double wide = (p->width + q->width) / 2 + 0.4;
        map->number = fmin (map->number, fmax (fabs (p->at.x - q->at.x) / wide, down));
      }
}

static Map *
map_new (const PfMotif *motif, const PfRepeatKinds *kinds)
{
  Map *map = g_rc_box_new0 (Map);
  const PfAffine turned = pf_worked_map (motif, 1);
  const PfLoop *loop = &motif->region->loops[0];
  map->motif = motif;
  map->marks = g_array_new (FALSE, FALSE, sizeof (Mark));
  g_array_set_clear_func (map->marks, clear_mark);
  add_marks (map, kinds);
  find_number_size (map);
  map->box = PF_BOX_EMPTY;
  for (size_t p = 0; p < loop->n_points; p++)
    map->box = pf_box_with (map->box, pf_affine_map (turned, loop->points[p]));
  return map;
}

/* --- Drawing ------------------------------------------------------------------------------------
 */

static void
draw_numbers (PfPage *page, const Drawing *drawing, const PfView *view, PfBox box)
{
  const double size = drawing->number;
  const GArray *marks = drawing->map->marks;
  for (int other = 0; other < 2; other++)
    {
      /* Nothing lies under a number that isn't at the edge: it needs no room cleared round it. */
      pf_page_text_group (page, "numbers", other ? PF_COLOUR_INK : PF_COLOUR_QUIET,
                          other ? PF_COLOUR_PAPER : NULL);
      for (guint m = 0; m < marks->len; m++)
        {
          const Mark *mark = &g_array_index (marks, Mark, m);
          const PfPoint at = pf_view_point (view, mark->at);
          const bool within = at.x - mark->width / 2 * size >= box.min.x &&
                              at.x + mark->width / 2 * size <= box.max.x &&
                              at.y - size / 2 >= box.min.y && at.y + size / 2 <= box.max.y;
          if (mark->other == (other != 0) && within)
            pf_page_text (page, (PfPoint){ at.x, at.y + PF_TEXT_CAP / 2 * size }, PF_TEXT_MIDDLE,
                          size, mark->text);
        }
      pf_page_group_end (page);
    }
}

/* Where the parts lie in the whole, each with its number. */
static void
draw_parts (PfPage *page, const Drawing *drawing, const PfView *view)
{
  pf_page_group (page, "parts", (PfInk){ .stroke = PF_COLOUR_QUIET, .width = 0.2 });
  for (guint p = 0; p < drawing->parts->len; p++)
    {
      const PfBox *part = &g_array_index (drawing->parts, PfBox, p);
      pf_page_box (page,
                   (PfBox){ pf_view_point (view, part->min), pf_view_point (view, part->max) });
    }
  pf_page_group_end (page);
  pf_page_text_group (page, "numbers", PF_COLOUR_INK, PF_COLOUR_PAPER);
  for (guint p = 0; p < drawing->parts->len; p++)
    {
      const PfBox *part = &g_array_index (drawing->parts, PfBox, p);
      g_autofree char *number = g_strdup_printf ("%u", p + 1);
      const PfPoint middle = { (part->min.x + part->max.x) / 2, (part->min.y + part->max.y) / 2 };
      const PfPoint at = pf_view_point (view, middle);
      pf_page_text (page, (PfPoint){ at.x, at.y + PF_TEXT_CAP / 2 * NUMBER_MOST }, PF_TEXT_MIDDLE,
                    NUMBER_MOST, number);
    }
  pf_page_group_end (page);
}

static void
draw (PfPage *page, PfBox box, gpointer data)
{
  const Drawing *drawing = data;
  const double scale = drawing->scale;
  PfView field = { .map = pf_worked_map (drawing->map->motif, scale), .enlarge = scale };
  field.map.x0 = MARGIN - scale * drawing->shown.min.x;
  field.map.y0 = MARGIN - scale * drawing->shown.min.y;
  const PfView view = pf_view_page (&field, (PfPoint){ 0, 0 }, box);
  PfView turned = view; /* of what is turned already */
  turned.map.xx = turned.map.yy = scale;
  turned.map.xy = turned.map.yx = 0;
  PfDrawn *drawn = pf_drawn_new (drawing->map->motif, 1);
  pf_page_clip_group (page, "map", box);
  pf_layer_repeats (page, &view, drawn);
  pf_layer_outline (page, &view, drawn);
  if (drawing->number > 0)
    draw_numbers (page, drawing, &turned, box);
  if (drawing->parts != NULL)
    draw_parts (page, drawing, &turned);
  pf_page_group_end (page);
  pf_drawn_free (drawn);
}

/* --- Parts --------------------------------------------------------------------------------------
 */

static void
add_drawing (const PfNotes *notes, Map *map, double scale, PfBox shown, bool numbers, GArray *parts,
             const char *caption)
{
  Drawing *drawing = g_new0 (Drawing, 1);
  drawing->map = g_rc_box_acquire (map);
  drawing->scale = scale;
  drawing->shown = shown;
  drawing->number = numbers ? fmin (NUMBER_MOST, scale * map->number) : 0;
  drawing->parts = parts ? g_array_ref (parts) : NULL;
  pf_flow_box (notes->flow,
               &(PfFlowBox){ .width = scale * (shown.max.x - shown.min.x) + 2 * MARGIN,
                             .height = scale * (shown.max.y - shown.min.y) + 2 * MARGIN,
                             .draw = draw,
                             .data = drawing,
                             .destroy = free_drawing,
                             .caption = caption });
}

/* The scale at which the whole has room. */
static double
fitting (const Map *map, double width, double height)
{
  return fmin (SCALE_MOST, fmin ((width - 2 * MARGIN) / (map->box.max.x - map->box.min.x),
                                 (height - 2 * MARGIN) / (map->box.max.y - map->box.min.y)));
}

static bool
has_marks (const Map *map, PfBox part)
{
  for (guint m = 0; m < map->marks->len; m++)
    {
      const PfPoint at = g_array_index (map->marks, Mark, m).at;
      if (at.x >= part.min.x && at.x <= part.max.x && at.y >= part.min.y && at.y <= part.max.y)
        return true;
    }
  return false;
}

/* How many parts of a length `part`, which overlap by `overlap`, cover `whole`. */
static guint
n_parts (double whole, double part, double overlap)
{
  return (guint) fmax (1, ceil ((whole - overlap) / (part - overlap) - 1e-9));
}

/* Parts of at most that size, in mm of the motif, that together show all numbers whole; an array of
 * PfBox, NULL if there would be too many. */
static GArray *
parts_of (const Map *map, double width, double height, double overlap)
{
  const PfBox all = map->box;
  const guint across = n_parts (all.max.x - all.min.x, width, overlap);
  const guint down = n_parts (all.max.y - all.min.y, height, overlap);
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (PfBox));
  if (across > 2 * PARTS_MOST || down > 2 * PARTS_MOST)
    return NULL;
  /* All alike: */
  const double wide = (all.max.x - all.min.x + (across - 1) * overlap) / across;
  const double high = (all.max.y - all.min.y + (down - 1) * overlap) / down;
  for (guint n = 0; n < across * down; n++)
    {
      const PfPoint from = { all.min.x + (n % across) * (wide - overlap),
                             all.min.y + (guint) (n / across) * (high - overlap) };
      const PfBox part = { from, { from.x + wide, from.y + high } };
      if (has_marks (map, part))
        g_array_append_val (parts, part);
    }
  return parts->len <= PARTS_MOST ? g_steal_pointer (&parts) : NULL;
}

/* As large as the pages are. */
static void
add_parts (const PfNotes *notes, Map *map, double width, double height, const GArray *parts)
{
  const PfBox first = g_array_index (parts, PfBox, 0); /* all have its size */
  const double scale =
      fmin (width / (first.max.x - first.min.x), height / (first.max.y - first.min.y));
  for (guint p = 0; p < parts->len; p++)
    {
      g_autofree char *caption = g_strdup_printf (_ ("Part %u of %u."), p + 1, parts->len);
      add_drawing (notes, map, scale, g_array_index (parts, PfBox, p), true, NULL, caption);
    }
}

static void
add_in_parts (const PfNotes *notes, Map *map, double width, double height)
{
  const double w = width - 2 * MARGIN, h = height - 2 * MARGIN;
  const double scale = NUMBER_LEAST / map->number; /* at least */
  /* A number that the end of one part cuts stands whole in the next. */
  const double overlap = (map->widest * NUMBER_LEAST + 1) / scale;
  g_autoptr (GArray) parts = parts_of (map, w / scale, h / scale, overlap);
  const double whole = fitting (map, width, MAP_HEIGHT * pf_flow_height (notes->flow));
  const char *told =
      parts != NULL
          ? _ ("Repeats are numbered in the order in which they are begun: their numbers stand in "
               "the parts that follow. A letter tells which kind of partial repeat it is; those "
               "without a letter are worked as the ground is. The work runs down the page.")
          : _ ("Repeats are numbered in the order in which they are begun. There are too many of "
               "them to show all numbers here: the working steps, saved as .txt, tell where each "
               "repeat lies. The work runs down the page.");
  add_drawing (notes, map, whole, map->box, false, parts, told);
  if (parts != NULL)
    add_parts (notes, map, w, h, parts);
}

void
pf_notes_add_map (const PfNotes *notes)
{
  Map *map = map_new (notes->motif, notes->kinds);
  const double width = pf_flow_width (notes->flow);
  const double page = pf_flow_height (notes->flow) - CAPTION_ROOM;
  const double usual = fitting (map, width, MAP_HEIGHT * pf_flow_height (notes->flow));
  const double large = fitting (map, width, page);
  const bool fits = usual * map->number >= NUMBER_LEAST;
  if (fits || large * map->number >= NUMBER_LEAST)
    add_drawing (notes, map, fits ? usual : large, map->box, true, NULL,
                 _ ("Repeats are numbered in the order in which they are begun. A letter tells "
                    "which kind of partial repeat it is; those without a letter are worked as the "
                    "ground is. The work runs down the page."));
  else
    add_in_parts (notes, map, width, page);
  g_rc_box_release_full (map, clear_map);
}
