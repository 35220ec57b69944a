/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Places labels greedily: nearest candidate first, at first only where even fine lines stay clear,
 * then wherever no mark and no other label would be covered. A label never covers another one.
 */
#include "labels.h"

#include <math.h>
#include <string.h>

#include "style.h"
#include "text.h"

typedef struct {
  PfPoint a, b; /* a box's corners, or a line's ends */
  bool is_line;
  PfBlock block;
} Obstacle;

struct PfPlacer {
  double cell;
  GHashTable *cells; /* key of a cell to a GArray of guint32, indices of obstacles */
  GArray *obstacles; /* of Obstacle */
};

PfPlacer *
pf_placer_new (double cell)
{
  PfPlacer *placer = g_new0 (PfPlacer, 1);
  placer->cell = cell;
  placer->cells =
      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) g_array_unref);
  placer->obstacles = g_array_new (FALSE, FALSE, sizeof (Obstacle));
  return placer;
}

void
pf_placer_free (PfPlacer *placer)
{
  g_hash_table_unref (placer->cells);
  g_array_unref (placer->obstacles);
  g_free (placer);
}

typedef struct {
  int first_column, last_column, first_row, last_row;
} Cells;

static Cells
cells_of (const PfPlacer *placer, PfBox box)
{
  return (Cells){ (int) floor (box.min.x / placer->cell), (int) floor (box.max.x / placer->cell),
                  (int) floor (box.min.y / placer->cell), (int) floor (box.max.y / placer->cell) };
}

static void
enter (PfPlacer *placer, PfBox box, guint32 index)
{
  const Cells cells = cells_of (placer, box);
  for (int row = cells.first_row; row <= cells.last_row; row++)
    for (int column = cells.first_column; column <= cells.last_column; column++)
      {
        const gint64 key = pf_pair_key (column, row);
        GArray *list = g_hash_table_lookup (placer->cells, &key);
        if (!list)
          {
            list = g_array_new (FALSE, FALSE, sizeof (guint32));
            g_hash_table_insert (placer->cells, g_memdup2 (&key, sizeof key), list);
          }
        g_array_append_val (list, index);
      }
}

void
pf_placer_block_box (PfPlacer *placer, PfBox box, PfBlock block)
{
  const Obstacle obstacle = { box.min, box.max, false, block };
  g_array_append_val (placer->obstacles, obstacle);
  enter (placer, box, placer->obstacles->len - 1);
}

void
pf_placer_block_line (PfPlacer *placer, PfPoint a, PfPoint b, PfBlock block)
{
  /* A long line is entered in short pieces: its box would fill the grid. */
  const int n = MAX (1, (int) ceil (pf_point_distance (a, b) / placer->cell));
  for (int i = 0; i < n; i++)
    {
      const PfPoint d = { (b.x - a.x) / n, (b.y - a.y) / n };
      const Obstacle piece = { pf_point_add (a, d, i), pf_point_add (a, d, i + 1), true, block };
      g_array_append_val (placer->obstacles, piece);
      enter (placer, pf_box_with (pf_box_with (PF_BOX_EMPTY, piece.a), piece.b),
             placer->obstacles->len - 1);
    }
}

/* Shortens [*t0, *t1] of a line to where p + t·d lies between low and high. */
static bool
clip (double p, double d, double low, double high, double *t0, double *t1)
{
  if (d == 0)
    return p >= low && p <= high;
  const double a = (low - p) / d, b = (high - p) / d;
  *t0 = fmax (*t0, fmin (a, b));
  *t1 = fmin (*t1, fmax (a, b));
  return *t0 <= *t1;
}

static bool
covers (PfBox box, const Obstacle *obstacle)
{
  if (!obstacle->is_line)
    return pf_boxes_meet (box, (PfBox){ obstacle->a, obstacle->b });
  const PfPoint a = obstacle->a, b = obstacle->b;
  double t0 = 0, t1 = 1;
  return clip (a.x, b.x - a.x, box.min.x, box.max.x, &t0, &t1) &&
         clip (a.y, b.y - a.y, box.min.y, box.max.y, &t0, &t1);
}

static bool
cell_is_free (const PfPlacer *placer, gint64 key, PfBox box, int blocks)
{
  const GArray *list = g_hash_table_lookup (placer->cells, &key);
  for (guint i = 0; list && i < list->len; i++)
    {
      const guint32 index = g_array_index (list, guint32, i);
      const Obstacle *obstacle = &g_array_index (placer->obstacles, Obstacle, index);
      if ((obstacle->block & blocks) && covers (box, obstacle))
        return false;
    }
  return true;
}

bool
pf_placer_is_free (const PfPlacer *placer, PfBox box, int blocks)
{
  const Cells cells = cells_of (placer, box);
  for (int row = cells.first_row; row <= cells.last_row; row++)
    for (int column = cells.first_column; column <= cells.last_column; column++)
      if (!cell_is_free (placer, pf_pair_key (column, row), box, blocks))
        return false;
  return true;
}

/* How far a label reaches below its baseline: figures and capitals don't. */
static double
descent_of (const char *text, double size)
{
  const bool is_plain = text[strspn (text, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ")] == 0;
  return is_plain ? 0 : PF_TEXT_DESCENT * size;
}

PfBox
pf_label_box (const char *text, double size, PfPoint centre)
{
  const double half_width = pf_text_width (text, size) / 2 + 0.08 * size;
  const double half_height = (PF_TEXT_CAP / 2 + 0.1) * size + descent_of (text, size) / 2;
  return (PfBox){ { centre.x - half_width, centre.y - half_height },
                  { centre.x + half_width, centre.y + half_height } };
}

PfLabel
pf_label_in_box (PfBox box, double size, char *text, const char *colour, PfPoint anchor,
                 bool leader)
{
  return (PfLabel){
    .box = box,
    .baseline = { (box.min.x + box.max.x) / 2, box.max.y - 0.1 * size - descent_of (text, size) },
    .size = size,
    .anchor = anchor,
    .leader = leader,
    .colour = colour,
    .text = text,
  };
}

/* Steps away from the anchor and aside, in font sizes, the nearest first. */
typedef struct {
  double away, aside;
} Candidate;

static const Candidate candidates[] = {
  { 0.45, 0 },   { 0.45, 0.5 }, { 0.45, -0.5 }, { 0.8, 0 },    { 0.8, 0.7 },  { 0.8, -0.7 },
  { 1.2, 0 },    { 1.2, 1 },    { 1.2, -1 },    { 1.7, 0 },    { 1.7, 0.8 },  { 1.7, -0.8 },
  { 1.7, 1.6 },  { 1.7, -1.6 }, { 2.3, 0 },     { 2.3, 1 },    { 2.3, -1 },   { 2.3, 2 },
  { 2.3, -2 },   { 3, 0 },      { 3, 1.2 },     { 3, -1.2 },   { 3, 2.4 },    { 3, -2.4 },
  { 3.8, 0 },    { 3.8, 1.2 },  { 3.8, -1.2 },  { 3.8, 2.6 },  { 3.8, -2.6 }, { 4.6, 0 },
  { 4.6, 1.4 },  { 4.6, -1.4 }, { 4.6, 2.8 },   { 4.6, -2.8 }, { 5.5, 0 },    { 5.5, 1.5 },
  { 5.5, -1.5 }, { 5.5, 3 },    { 5.5, -3 },
};

/* A label farther from its anchor than this, in font sizes, gets a leader. */
#define LEADER_FROM 1.2

static PfBox
candidate_box (const Candidate *candidate, const char *text, double size, PfPoint anchor,
               PfPoint outward)
{
  const PfBox at_anchor = pf_label_box (text, size, anchor);
  const double half_width = anchor.x - at_anchor.min.x;
  const double half_height = anchor.y - at_anchor.min.y;
  const double support = fabs (outward.x) * half_width + fabs (outward.y) * half_height;
  const PfPoint aside = { -outward.y, outward.x };
  PfPoint centre = pf_point_add (anchor, outward, candidate->away * size + support);
  centre = pf_point_add (centre, aside, candidate->aside * size);
  return pf_label_box (text, size, centre);
}

bool
pf_label_place (PfPlacer *placer, const char *text, double size, const char *colour, PfPoint anchor,
                PfPoint outward, double reach, PfLabelAllowed allowed, gconstpointer data,
                PfLabel *label)
{
  static const int passes[] = { PF_BLOCK_HARD | PF_BLOCK_SOFT, PF_BLOCK_HARD };
  for (size_t pass = 0; pass < G_N_ELEMENTS (passes); pass++)
    for (size_t i = 0; i < G_N_ELEMENTS (candidates) && candidates[i].away <= reach; i++)
      {
        const PfBox box = candidate_box (&candidates[i], text, size, anchor, outward);
        if (!pf_placer_is_free (placer, box, passes[pass]) || !allowed (box, data))
          continue;
        pf_placer_block_box (placer, box, PF_BLOCK_HARD);
        *label = pf_label_in_box (box, size, g_strdup (text), colour, anchor,
                                  candidates[i].away > LEADER_FROM);
        return true;
      }
  return false;
}

static PfBox
moved (PfBox box, PfPoint by)
{
  return (PfBox){ pf_point_add (box.min, by, 1), pf_point_add (box.max, by, 1) };
}

/* The point of the box nearest to p. */
static PfPoint
nearest_in_box (PfBox box, PfPoint p)
{
  return (PfPoint){ CLAMP (p.x, box.min.x, box.max.x), CLAMP (p.y, box.min.y, box.max.y) };
}

static void
draw_leaders (PfPage *page, const PfView *view, const PfLabel *labels, size_t n)
{
  pf_page_group (page, "leaders", (PfInk){ .stroke = PF_COLOUR_QUIET, .width = 0.1 });
  for (size_t i = 0; i < n; i++)
    if (labels[i].leader && pf_view_holds (view, moved (labels[i].box, view->shift)))
      {
        const PfPoint end = nearest_in_box (labels[i].box, labels[i].anchor);
        pf_page_line (page, pf_point_add (labels[i].anchor, view->shift, 1),
                      pf_point_add (end, view->shift, 1));
      }
  pf_page_group_end (page);
}

void
pf_labels_draw (PfPage *page, const PfView *view, const PfLabel *labels, size_t n, const char *halo)
{
  draw_leaders (page, view, labels, n);
  const char *open = NULL;
  for (size_t i = 0; i < n; i++)
    {
      if (!pf_view_holds (view, moved (labels[i].box, view->shift)))
        continue;
      if (open != labels[i].colour)
        {
          if (open)
            pf_page_group_end (page);
          open = labels[i].colour;
          pf_page_text_group (page, "numbers", open, halo);
        }
      pf_page_text (page, pf_point_add (labels[i].baseline, view->shift, 1), PF_TEXT_MIDDLE,
                    labels[i].size, labels[i].text);
    }
  if (open)
    pf_page_group_end (page);
}
