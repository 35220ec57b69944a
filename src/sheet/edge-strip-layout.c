/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds room for the numbers of pairs: they keep the order of their targets, so that no two of
 * their lines cross, stand in two rows where they crowd, and are moved as little as can be.
 */
#include "edge-strip-layout.h"

#include <math.h>
#include <string.h>

#include "text.h"
#include "view.h"

#define TEXT 2.1       /* font size, parts */
#define TEXT_LEAST 1.1 /* below it no one could read it */
#define SPACE 0.45     /* between labels of one row, parts */
/* Numbers are set upwards where one would have to be moved by more than that, parts. */
#define MOVED_MOST 2.5
/* Marks at one place are stacked so far apart, and not higher than that, parts. */
#define SAME_PLACE 0.05
#define STACK_STEP 1.2
#define STACK_MOST 3.0

double
pf_strip_x (const PfEdgeStrip *strip, double along)
{
  return along - strip->from * strip->across;
}

double
pf_strip_y (const PfStripLayout *layout, double parts)
{
  return parts * layout->unit;
}

double
pf_strip_label_y (const PfStripLayout *layout, int row)
{
  return pf_strip_y (layout, PF_STRIP_LABEL_FOOT - 0.15 - (row + 0.5) * PF_STRIP_ROW_HEIGHT);
}

PfPoint
pf_strip_label_reach (const PfStripLayout *layout, const char *text)
{
  const PfPoint level = { pf_text_width (text, layout->text) / 2, PF_TEXT_CAP * layout->text / 2 };
  return layout->upright ? (PfPoint){ level.y, level.x } : level;
}

/* How far apart two labels next to one another must stand: half a label's room, since they may
 * stand in two rows. */
static double
label_step (const PfStripLayout *layout, guint32 largest)
{
  g_autofree char *text = g_strdup_printf ("%u", largest + 1);
  return pf_strip_label_reach (layout, text).x + SPACE * layout->unit / 2;
}

typedef struct {
  double sum; /* of target - k·step, of the labels k of the block */
  size_t n;
} Block;

static double
start_of (Block block)
{
  return block.sum / (double) block.n;
}

/* Moves labels so that they are `step` apart at least, with the least sum of squared ways: pooling
 * adjacent violators (M. Ayer and others, Annals of Mathematical Statistics 26, 1955) of target -
 * k·step. */
static double
spread (PfStripLayout *layout, double step)
{
  Block *blocks = g_new (Block, layout->n_items + 1);
  size_t n = 0;
  for (size_t k = 0; k < layout->n_items; k++)
    {
      Block block = { layout->items[k].target - (double) k * step, 1 };
      while (n > 0 && start_of (blocks[n - 1]) > start_of (block))
        {
          n--;
          block.sum += blocks[n].sum;
          block.n += blocks[n].n;
        }
      blocks[n++] = block;
    }
  double most = 0;
  size_t k = 0;
  for (size_t b = 0; b < n; b++)
    for (size_t end = k + blocks[b].n; k < end; k++)
      {
        layout->items[k].label = start_of (blocks[b]) + (double) k * step;
        most = fmax (most, fabs (layout->items[k].label - layout->items[k].target));
      }
  g_free (blocks);
  return most;
}

static void
choose_rows (PfStripLayout *layout, double step)
{
  for (size_t k = 1; k < layout->n_items; k++)
    if (layout->items[k].label - layout->items[k - 1].label < 2 * step)
      layout->items[k].row = 1 - layout->items[k - 1].row;
}

/* Numbers set upwards must not be longer than their row is high. */
static void
fit_upright (PfStripLayout *layout, guint32 largest)
{
  g_autofree char *text = g_strdup_printf ("%u", largest + 1);
  const double length = pf_text_width (text, layout->text);
  layout->text *= fmin (1, (PF_STRIP_ROW_HEIGHT - SPACE) * layout->unit / length);
}

static void
place_labels (PfStripLayout *layout, guint32 largest)
{
  layout->text = TEXT * layout->unit;
  double step = label_step (layout, largest);
  layout->upright = spread (layout, step) > MOVED_MOST * layout->unit;
  if (layout->upright)
    {
      const double room = layout->length / (double) layout->n_items;
      fit_upright (layout, largest);
      step = label_step (layout, largest);
      /* Too many even so: smaller numbers, as long as they can be read. */
      if (step > room)
        layout->text = fmax (layout->text * room / step, TEXT_LEAST * layout->unit);
      step = fmin (step, fmax (room, label_step (layout, largest)));
      spread (layout, step);
    }
  choose_rows (layout, step);
}

static int
compare_items (gconstpointer a, gconstpointer b)
{
  const PfStripItem *p = a, *q = b;
  if (p->target != q->target)
    return p->target < q->target ? -1 : 1;
  return p->sewing < q->sewing ? -1 : p->sewing > q->sewing;
}

/* Begins the order after the widest gap, so that no crowd is cut. */
static void
begin_after_gap (PfStripLayout *layout)
{
  const size_t n = layout->n_items;
  size_t first = 0;
  double widest = -1;
  for (size_t k = 0; k < n; k++)
    {
      const double before =
          k > 0 ? layout->items[k - 1].target : layout->items[n - 1].target - layout->length;
      if (layout->items[k].target - before > widest)
        {
          widest = layout->items[k].target - before;
          first = k;
        }
    }
  for (size_t k = 0; k < first; k++)
    {
      layout->items[k].target += layout->length;
      layout->items[k].place += layout->length;
    }
  qsort (layout->items, n, sizeof layout->items[0], compare_items);
}

/* The way along the loop from `from` to `to`, the shorter way round, negative if backwards. */
static double
way (const PfLoop *loop, double from, double to)
{
  const double forward = pf_loop_forward (loop, from, to);
  const double length = pf_loop_length (loop);
  return forward <= length / 2 ? forward : forward - length;
}

static double
place_on_loop (const PfStripLayout *layout, const PfStripItem *item)
{
  /* To a µm, so that -1e-17 and the whole length are one place. */
  const double along = round (fmod (item->place + layout->length, layout->length) * 1000) / 1000;
  return along >= layout->length ? 0 : along;
}

static int
compare_places (gconstpointer a, gconstpointer b, gpointer layout)
{
  const PfStripItem *p = *(PfStripItem *const *) a, *q = *(PfStripItem *const *) b;
  const double x = place_on_loop (layout, p), y = place_on_loop (layout, q);
  return x != y ? (x < y ? -1 : 1) : compare_items (p, q);
}

/* Of all marks at one place, the one whose target comes first stands lowest. */
static void
stack_marks (PfStripLayout *layout)
{
  PfStripItem **by_place = g_new (PfStripItem *, layout->n_items + 1);
  for (size_t k = 0; k < layout->n_items; k++)
    by_place[k] = &layout->items[k];
  g_qsort_with_data (by_place, (int) layout->n_items, sizeof by_place[0], compare_places, layout);
  for (size_t k = 0, end; k < layout->n_items; k = end)
    {
      const double place = place_on_loop (layout, by_place[k]);
      for (end = k + 1; end < layout->n_items; end++)
        if (place_on_loop (layout, by_place[end]) - place > SAME_PLACE * layout->unit)
          break;
      const double step = fmin (STACK_STEP, STACK_MOST / (double) MAX (end - k - 1, 1));
      for (size_t i = k; i < end; i++)
        by_place[i]->stack = (double) (i - k) * step;
    }
  g_free (by_place);
}

PfStripLayout *
pf_strip_layout_new (const PfEdgeStrip *strip)
{
  const PfMotif *motif = strip->motif;
  const PfLoop *loop = &motif->region->loops[strip->loop];
  const size_t n = motif->filling ? motif->filling->n_sewings : 0;
  PfStripLayout *layout = g_new0 (PfStripLayout, 1);
  layout->unit = strip->height / PF_EDGE_STRIP_HEIGHT;
  layout->length = pf_loop_length (loop) * strip->across;
  /* Lines and marks grow as the strip does. */
  layout->sizes = pf_sizes (4.2, layout->unit < 1 ? layout->unit : layout->unit * layout->unit);
  layout->lines = pf_look_sizes (strip->look, layout->sizes);
  layout->items = g_new0 (PfStripItem, n + 1);
  guint32 largest = 0;
  for (size_t s = 0; s < n; s++)
    {
      const PfSewing *sewing = &motif->filling->sewings[s];
      if (sewing->target.loop != strip->loop)
        continue;
      PfStripItem *item = &layout->items[layout->n_items++];
      item->sewing = (guint32) s;
      item->target = sewing->target.along * strip->across;
      item->place =
          item->target + way (loop, sewing->target.along, sewing->place.along) * strip->across;
      largest = MAX (largest, sewing->pair);
    }
  qsort (layout->items, layout->n_items, sizeof layout->items[0], compare_items);
  begin_after_gap (layout);
  stack_marks (layout);
  place_labels (layout, largest);
  return layout;
}

void
pf_strip_layout_free (PfStripLayout *layout)
{
  g_free (layout->items);
  g_free (layout);
}
