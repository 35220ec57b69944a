/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The map of a motif's repeats.
 */
#include <math.h>

#include "repeat-drawing.h"
#include "teaching.h"
#include "text.h"

#define MARGIN 2.0
#define NUMBER_MOST 3.2 /* size of the numbers */
#define NUMBER_LEAST 1.2

struct PfNotesMap {
  const PfMotif *motif;
  GArray *marks; /* of Mark */
  PfAffine map;
  double scale, width, height;
};

typedef struct {
  PfPoint at; /* in the motif */
  char *text;
  bool other; /* not worked as the ground is */
} Mark;

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
add_marks (PfNotesMap *map, const PfRepeatKinds *kinds)
{
  for (guint32 r = 0; r < kinds->n_repeats; r++)
    {
      const PfWorkedRepeat *repeat = &kinds->repeats[r];
      const bool other = !pf_repeat_kind_is_plain_ground (&kinds->kinds[repeat->kind]);
      g_autofree char *letters = other ? pf_kind_letters (repeat->kind) : g_strdup ("");
      const Mark mark = { middle_of (map->motif->filling, kinds, repeat),
                          g_strdup_printf ("%u%s", r + 1, letters), other };
      g_array_append_val (map->marks, mark);
    }
}

PfNotesMap *
pf_notes_map_new (const PfMotif *motif, const PfRepeatKinds *kinds, double width, double height)
{
  PfNotesMap *map = g_new0 (PfNotesMap, 1);
  map->motif = motif;
  map->marks = g_array_new (FALSE, FALSE, sizeof (Mark));
  g_array_set_clear_func (map->marks, clear_mark);
  add_marks (map, kinds);
  const PfAffine turned = pf_worked_map (motif, 1);
  PfBox box = PF_BOX_EMPTY;
  const PfLoop *loop = &motif->region->loops[0];
  for (size_t p = 0; p < loop->n_points; p++)
    box = pf_box_with (box, pf_affine_map (turned, loop->points[p]));
  const double w = box.max.x - box.min.x, h = box.max.y - box.min.y;
  map->scale = fmin (4, fmin ((width - 2 * MARGIN) / w, (height - 2 * MARGIN) / h));
  map->width = map->scale * w + 2 * MARGIN;
  map->height = map->scale * h + 2 * MARGIN;
  map->map = pf_worked_map (motif, map->scale);
  map->map.x0 = MARGIN - map->scale * box.min.x;
  map->map.y0 = MARGIN - map->scale * box.min.y;
  return map;
}

void
pf_notes_map_free (gpointer data)
{
  PfNotesMap *map = data;
  g_array_unref (map->marks);
  g_free (map);
}

void
pf_notes_map_size (const PfNotesMap *map, double *width, double *height)
{
  *width = map->width;
  *height = map->height;
}

/* As large as the nearest two repeats leave room for; at most NUMBER_MOST. */
static double
number_size (const PfNotesMap *map)
{
  double size = NUMBER_MOST;
  for (guint a = 0; a < map->marks->len && map->marks->len < 4000; a++)
    for (guint b = 0; b < a; b++)
      {
        const Mark *p = &g_array_index (map->marks, Mark, a);
        const Mark *q = &g_array_index (map->marks, Mark, b);
        const PfPoint at = pf_affine_map (map->map, p->at), to = pf_affine_map (map->map, q->at);
        const double wide = (pf_text_width (p->text, 1) + pf_text_width (q->text, 1)) / 2 + 0.4;
        size = fmin (size, fmax (fabs (at.x - to.x) / wide, fabs (at.y - to.y) / 1.15));
      }
  return size;
}

void
pf_notes_map_draw (PfPage *page, PfBox box, gpointer data)
{
  const PfNotesMap *map = data;
  const PfView field = { .map = map->map, .enlarge = map->scale };
  const PfView view = pf_view_page (&field, (PfPoint){ 0, 0 }, box);
  const double size = number_size (map);
  PfDrawn *drawn = pf_drawn_new (map->motif, 1);
  pf_page_clip_group (page, "map", box);
  pf_layer_repeats (page, &view, drawn);
  pf_layer_outline (page, &view, drawn);
  for (int other = 0; other < 2; other++)
    {
      pf_page_text_group (page, "numbers", other ? PF_COLOUR_INK : PF_COLOUR_QUIET,
                          PF_COLOUR_PAPER);
      for (guint m = 0; m < map->marks->len; m++)
        {
          const Mark *mark = &g_array_index (map->marks, Mark, m);
          PfPoint at = pf_view_point (&view, mark->at);
          at.y += PF_TEXT_CAP / 2 * size;
          if (mark->other == (other != 0) && size >= NUMBER_LEAST)
            pf_page_text (page, at, PF_TEXT_MIDDLE, size, mark->text);
        }
      pf_page_group_end (page);
    }
  pf_page_group_end (page);
  pf_drawn_free (drawn);
}
