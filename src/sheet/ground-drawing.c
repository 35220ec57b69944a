/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A ground by itself: a patch of repeats, one of them on a tint with its stitches named, and beside
 * it how each stitch is worked.
 */
#include <sheet.h>

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "labels.h"
#include "marks.h"
#include "paint.h"
#include "style.h"
#include "text.h"

#define MARGIN 6.0
#define WINDOW 84.0 /* the side of the patch */
#define TILE 40.0   /* the side of a tile */
#define LIST_WIDTH 56.0
#define LIST_SIZE 2.5
#define ROW 3.7
#define GAP 9.0          /* between pins, ... */
#define STITCH_GAP 4.5   /* ... and at least between stitches, ... */
#define REPEAT_MOST 56.0 /* ... unless a side of the repeat gets longer than that */

typedef struct {
  const PfGround *ground;
  PfView view;
  PfSizes sizes;
  PfPoint middle; /* of the drawn repeat, ground units */
  double scale;
  int reach_i, reach_j; /* repeats from -reach to reach are drawn */
} Patch;

static PfPoint
middle_of_repeat (const PfGround *ground)
{
  PfPoint middle = { 0, 0 };
  for (int k = 0; k < ground->n_stitches; k++)
    middle = pf_point_add (middle, ground->stitches[k].at, 1.0 / ground->n_stitches);
  return middle;
}

/* The least distance between stitches that stand apart, in and next to the drawn repeat. */
static double
nearest_stitches (const PfGround *ground)
{
  double nearest = ground->spacing;
  for (int j = -1; j <= 1; j++)
    for (int i = -1; i <= 1; i++)
      for (int k = 0; k < ground->n_stitches; k++)
        for (int other = 0; other < ground->n_stitches; other++)
          {
            const double distance = pf_point_distance (ground->stitches[k].at,
                                                       pf_ground_position (ground, other, i, j));
            if (distance > PF_TOUCH)
              nearest = fmin (nearest, distance);
          }
  return nearest;
}

static void
patch_init (Patch *patch, const PfGround *ground, PfBox window)
{
  const PfPoint a = ground->a, b = ground->b;
  const double side = fmax (hypot (a.x, a.y), hypot (b.x, b.y));
  patch->ground = ground;
  patch->scale = fmin (fmax (GAP / ground->spacing, STITCH_GAP / nearest_stitches (ground)),
                       REPEAT_MOST / side);
  patch->sizes = pf_sizes (patch->scale * ground->spacing / 3, 3);
  patch->middle = middle_of_repeat (ground);
  patch->view = (PfView){
    .map = { patch->scale, 0, 0, patch->scale,
             (window.min.x + window.max.x) / 2 - patch->scale * patch->middle.x,
             (window.min.y + window.max.y) / 2 - patch->scale * patch->middle.y },
    .enlarge = 1,
    .window = window,
  };
  /* All repeats whose middle lies within `radius`: i = (p × b) / (a × b), and so for j. */
  const double radius = WINDOW / patch->scale + side;
  const double area = fabs (a.x * b.y - a.y * b.x);
  patch->reach_i = (int) fmin (200, ceil (radius * hypot (b.x, b.y) / area));
  patch->reach_j = (int) fmin (200, ceil (radius * hypot (a.x, a.y) / area));
}

static void
draw_tint (PfPage *page, const Patch *patch)
{
  const PfPoint a = patch->ground->a, b = patch->ground->b;
  static const double corners[4][2] = {
    { -0.5, -0.5 }, { 0.5, -0.5 }, { 0.5, 0.5 }, { -0.5, 0.5 }
  };
  PfPoint points[4];
  for (int i = 0; i < 4; i++)
    points[i] =
        pf_view_point (&patch->view, pf_point_add (pf_point_add (patch->middle, a, corners[i][0]),
                                                   b, corners[i][1]));
  pf_page_group (page, "repeat", pf_ink_repeat (PF_REPEAT_KEPT, &patch->sizes));
  pf_page_polygon (page, points, 4);
  pf_page_group_end (page);
}

typedef void (*DrawRepeat) (PfPage *page, const Patch *patch, int i, int j);

static void
draw_repeats (PfPage *page, const Patch *patch, DrawRepeat draw)
{
  for (int j = -patch->reach_j; j <= patch->reach_j; j++)
    for (int i = -patch->reach_i; i <= patch->reach_i; i++)
      draw (page, patch, i, j);
}

static void
draw_pair_lines (PfPage *page, const Patch *patch, int i, int j)
{
  const PfGround *ground = patch->ground;
  for (int l = 0; l < ground->n_lines; l++)
    {
      const PfPairLine *line = &ground->lines[l];
      const PfPoint ends[] = {
        pf_ground_position (ground, line->from.stitch, i, j),
        pf_ground_position (ground, line->to.stitch, i + line->da, j + line->db),
      };
      if (pf_point_distance (ends[0], ends[1]) > PF_TOUCH)
        pf_view_chain (&patch->view, page, ends, 2, false);
    }
}

static bool
has_pin_at (const PfGround *ground, int k)
{
  for (int other = 0; other < ground->n_stitches; other++)
    if (ground->stitches[other].place == ground->stitches[k].place && ground->stitches[other].pin)
      return true;
  return false;
}

static void
draw_pins (PfPage *page, const Patch *patch, int i, int j)
{
  for (int k = 0; k < patch->ground->n_stitches; k++)
    {
      const PfPoint at = pf_view_point (&patch->view, pf_ground_position (patch->ground, k, i, j));
      if (patch->ground->stitches[k].pin && pf_view_sees (&patch->view, at, patch->sizes.pin))
        pf_mark_pin (page, &patch->sizes, at);
    }
}

/* Stitches without a pin. */
static void
draw_stitches (PfPage *page, const Patch *patch, int i, int j)
{
  for (int k = 0; k < patch->ground->n_stitches; k++)
    {
      const PfPoint at = pf_view_point (&patch->view, pf_ground_position (patch->ground, k, i, j));
      if (patch->ground->stitches[k].place == k && !has_pin_at (patch->ground, k) &&
          pf_view_sees (&patch->view, at, patch->sizes.hole))
        pf_mark_pinhole (page, &patch->sizes, at);
    }
}

static bool
is_in_window (PfBox box, gconstpointer view)
{
  return pf_view_holds (view, box);
}

/* What labels keep off: the stitches and, if they can, the pair lines of nearby repeats. */
static void
block_nearby (PfPlacer *placer, const Patch *patch)
{
  const PfGround *ground = patch->ground;
  for (int j = -2; j <= 2; j++)
    for (int i = -2; i <= 2; i++)
      {
        for (int k = 0; k < ground->n_stitches; k++)
          {
            const PfPoint at = pf_view_point (&patch->view, pf_ground_position (ground, k, i, j));
            pf_placer_block_box (placer, pf_box_grown ((PfBox){ at, at }, patch->sizes.hole),
                                 PF_BLOCK_HARD);
          }
        for (int l = 0; l < ground->n_lines; l++)
          {
            const PfPairLine *line = &ground->lines[l];
            pf_placer_block_line (
                placer,
                pf_view_point (&patch->view, pf_ground_position (ground, line->from.stitch, i, j)),
                pf_view_point (&patch->view, pf_ground_position (ground, line->to.stitch,
                                                                 i + line->da, j + line->db)),
                PF_BLOCK_SOFT);
          }
      }
}

/* The names of all stitches that stand where stitch k does. */
static char *
names_at (const PfGround *ground, int k)
{
  g_autoptr (GString) names = g_string_new (NULL);
  for (int other = 0; other < ground->n_stitches; other++)
    if (ground->stitches[other].place == k)
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "",
                              ground->stitches[other].name);
  return g_string_free (g_steal_pointer (&names), FALSE);
}

static void
draw_names (PfPage *page, const Patch *patch)
{
  static const PfPoint sides[] = { { 1, 0 }, { -1, 0 }, { 0, -1 }, { 0, 1 } };
  static const double reaches[] = { 0.5, 1.2, 2.5, 6 };
  const PfGround *ground = patch->ground;
  const double size = 2.2;
  PfPlacer *placer = pf_placer_new (5);
  block_nearby (placer, patch);
  for (int k = 0; k < ground->n_stitches; k++)
    {
      if (ground->stitches[k].place != k)
        continue;
      g_autofree char *names = names_at (ground, k);
      const PfPoint at = pf_view_point (&patch->view, ground->stitches[k].at);
      PfLabel label;
      bool placed = false;
      for (size_t r = 0; r < G_N_ELEMENTS (reaches) && !placed; r++)
        for (size_t s = 0; s < G_N_ELEMENTS (sides) && !placed; s++)
          placed = pf_label_place (placer, names, size, PF_COLOUR_INK, at, sides[s], reaches[r],
                                   is_in_window, &patch->view, &label);
      if (!placed)
        continue;
      pf_labels_draw (page, &patch->view, &label, 1, PF_COLOUR_PAPER);
      g_free (label.text);
    }
  pf_placer_free (placer);
}

static void
draw_patch (PfPage *page, const PfGround *ground, PfBox window, bool names)
{
  Patch patch;
  patch_init (&patch, ground, window);
  pf_page_clip_group (page, "patch", window);
  draw_tint (page, &patch);
  pf_page_group (page, "pair-lines",
                 (PfInk){ .stroke = PF_COLOUR_PAIR_LINE, .width = patch.sizes.line });
  draw_repeats (page, &patch, draw_pair_lines);
  pf_page_group_end (page);
  pf_page_group (page, "stitches", pf_ink_pinhole (&patch.sizes));
  draw_repeats (page, &patch, draw_stitches);
  pf_page_group_end (page);
  pf_page_group (page, "pins", pf_ink_pin ());
  draw_repeats (page, &patch, draw_pins);
  pf_page_group_end (page);
  if (names)
    draw_names (page, &patch);
  pf_page_group_end (page);
  pf_page_group (page, "frame", (PfInk){ .stroke = PF_COLOUR_INK, .width = 0.2 });
  pf_page_box (page, window);
  pf_page_group_end (page);
}

typedef struct {
  double size;
  const char *colour;
  char *text;
} Row;

static void
clear_row (gpointer row)
{
  g_free (((Row *) row)->text);
}

static void
add_rows (GArray *rows, const char *text, double size, const char *colour)
{
  g_auto (GStrv) lines = pf_text_wrap (text, size, LIST_WIDTH, 12);
  for (char **line = lines; *line; line++)
    {
      const Row row = { size, colour, g_strdup (*line) };
      g_array_append_val (rows, row);
    }
}

/* "ctpct" as "ct, pin, ct". */
static char *
spelled_out (const char *work)
{
  const char *pin = strchr (work, 'p');
  if (!pin)
    return g_strdup (work);
  g_autofree char *before = g_strndup (work, (size_t) (pin - work));
  return g_strconcat (before, *before ? ", " : "", _ ("pin"), pin[1] ? ", " : "", pin + 1, NULL);
}

static bool
is_worked_as (const PfStitch *stitch, const PfStitch *other)
{
  return stitch->n_pairs == other->n_pairs && strcmp (stitch->work, other->work) == 0;
}

/* Stitches that follow one another and are worked alike share a row. */
static void
add_work_rows (GArray *rows, const PfGround *ground)
{
  for (int k = 0; k < ground->n_stitches;)
    {
      const PfStitch *first = &ground->stitches[k];
      g_autoptr (GString) text = g_string_new (first->name);
      while (++k < ground->n_stitches && is_worked_as (&ground->stitches[k], first))
        g_string_append_printf (text, ", %s", ground->stitches[k].name);
      g_autofree char *work = spelled_out (first->work);
      g_string_append_printf (text, first->n_pairs == 4 ? _ (" (four pairs):  %s") : ":  %s", work);
      add_rows (rows, text->str, LIST_SIZE, PF_COLOUR_INK);
    }
}

/* An earlier line than l has as many twists. */
static bool
is_told (const PfGround *ground, int l)
{
  for (int e = 0; e < l; e++)
    if (ground->lines[e].twists == ground->lines[l].twists)
      return true;
  return false;
}

/* Pair lines with equally many twists share a row. */
static void
add_twist_rows (GArray *rows, const PfGround *ground)
{
  for (int l = 0; l < ground->n_lines; l++)
    {
      const int twists = ground->lines[l].twists;
      if (twists == 0 || is_told (ground, l))
        continue;
      g_autoptr (GString) ways = g_string_new (NULL);
      for (int e = l; e < ground->n_lines; e++)
        {
          const PfPairLine *line = &ground->lines[e];
          if (line->twists != twists)
            continue;
          g_string_append (ways, e > l ? "; " : "");
          /* Translators: a pair's way from one stitch to another. */
          g_string_append_printf (ways, _ ("from %s to %s"),
                                  ground->stitches[line->from.stitch].name,
                                  ground->stitches[line->to.stitch].name);
        }
      g_autofree char *text =
          g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d twist on the way:  %s",
                                        "%d twists on the way:  %s", (gulong) twists),
                           twists, ways->str);
      add_rows (rows, text, 2.2, PF_COLOUR_INK);
    }
}

static void
add_legend_rows (GArray *rows, const PfGround *ground)
{
  bool has_leadworks = false, has_four = false;
  for (int k = 0; k < ground->n_stitches; k++)
    {
      has_leadworks |= strchr (ground->stitches[k].work, 'l') != NULL;
      has_four |= ground->stitches[k].n_pairs == 4;
    }
  add_rows (rows, _ ("c: cross. t: twist both pairs. The tint marks one repeat, worked downwards."),
            2.2, PF_COLOUR_QUIET);
  if (has_leadworks)
    add_rows (rows, _ ("l: leadwork. One thread weaves over and under the other three."), 2.2,
              PF_COLOUR_QUIET);
  if (has_four)
    add_rows (rows, _ ("Where four pairs meet, each pair moves as if it were one thread."), 2.2,
              PF_COLOUR_QUIET);
}

static GArray *
word_rows (const PfGround *ground)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (Row));
  g_array_set_clear_func (rows, clear_row);
  add_work_rows (rows, ground);
  add_twist_rows (rows, ground);
  const Row space = { 1.5, PF_COLOUR_QUIET, g_strdup ("") };
  g_array_append_val (rows, space);
  add_legend_rows (rows, ground);
  if (ground->also_called && ground->also_called[0])
    {
      g_autofree char *names = g_strjoinv (", ", ground->also_called);
      g_autofree char *text = g_strdup_printf (_ ("Also called: %s"), names);
      add_rows (rows, text, 2.2, PF_COLOUR_QUIET);
    }
  if (ground->notes && ground->notes[0])
    add_rows (rows, ground->notes, 2.2, PF_COLOUR_QUIET);
  if (ground->source)
    add_rows (rows, ground->source, 2.2, PF_COLOUR_QUIET);
  return rows;
}

/* Draws the rows under one another from `at`, and gives where they end. */
static double
draw_rows (PfPage *page, const GArray *rows, PfPoint at)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const Row *row = &g_array_index (rows, Row, i);
      at.y += ROW * row->size / LIST_SIZE;
      pf_page_text_group (page, "words", row->colour, NULL);
      pf_page_text (page, at, PF_TEXT_START, row->size, row->text);
      pf_page_group_end (page);
    }
  return at.y;
}

static double
rows_height (const GArray *rows)
{
  double height = 0;
  for (guint i = 0; i < rows->len; i++)
    height += ROW * g_array_index (rows, Row, i).size / LIST_SIZE;
  return height;
}

static char *
ground_page (const PfGround *ground, double *width, double *height)
{
  const double top = 15;
  const PfBox window = { { MARGIN, top }, { MARGIN + WINDOW, top + WINDOW } };
  const char *title = ground->title ? ground->title : ground->name;
  g_autoptr (GArray) rows = word_rows (ground);
  *width = MARGIN + WINDOW + MARGIN + LIST_WIDTH + MARGIN;
  *height = top + fmax (WINDOW, rows_height (rows)) + MARGIN;
  PfPage *page = pf_page_new (*width, *height, title);
  g_auto (GStrv) heading = pf_text_wrap (title, 4.6, *width - 2 * MARGIN, 1);
  pf_page_text_group (page, "title", PF_COLOUR_INK, NULL);
  pf_page_text (page, (PfPoint){ MARGIN, 10 }, PF_TEXT_START, 4.6, heading[0] ? heading[0] : "");
  pf_page_group_end (page);
  draw_patch (page, ground, window, true);
  draw_rows (page, rows, (PfPoint){ window.max.x + MARGIN, top });
  return pf_page_finish (page);
}

char *
pf_ground_drawing_svg (const PfGround *ground)
{
  double width, height;
  return ground_page (ground, &width, &height);
}

static char *
patch_svg (const PfGround *ground, double side, bool names)
{
  const PfBox window = { { 0, 0 }, { side, side } };
  PfPage *page = pf_page_new (side, side, ground->title ? ground->title : ground->name);
  draw_patch (page, ground, window, names);
  return pf_page_finish (page);
}

char *
pf_ground_patch_svg (const PfGround *ground)
{
  return patch_svg (ground, WINDOW, true);
}

char *
pf_ground_tile_svg (const PfGround *ground)
{
  return patch_svg (ground, TILE, false);
}

bool
pf_ground_drawing_save (const PfGround *ground, const char *filename, GError **error)
{
  double width, height;
  g_autofree char *svg = ground_page (ground, &width, &height);
  const PfPdfWords words = { ground->title ? ground->title : ground->name, 0 };
  return pf_paint_save ((const char *const[]){ svg }, 1, width, height, words, filename, NULL,
                        error);
}
