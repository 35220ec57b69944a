/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edge strips on paper: every loop unrolled at true size into rows, to be cut out and laid along
 * the edge. Rows overlap by as much as a sewing with its number takes up, so that each of them is
 * whole in the row that holds its target.
 */
#include "edge-strip-layout.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "furniture.h"
#include "labels.h"
#include "layers.h"
#include "legend.h"
#include "pages.h"
#include "text.h"

#define PAD 3.5
#define HEAD 11.0   /* title and its line */
#define CAPTION 5.0 /* above a row */
#define ROW_GAP 4.5 /* below it */
#define NOTE_SIZE 2.1
#define NOTE_LINE 2.8
#define OVERLAP_LEAST 5.0

#define ROW_HEIGHT (CAPTION + PF_EDGE_STRIP_HEIGHT + ROW_GAP)

/* One loop, unrolled. */
typedef struct {
  PfEdgeStrip strip;
  PfStripLayout *layout;
  char *name;
  double overlap, step;
  size_t n_rows;
} Unrolled;

typedef struct {
  const PfPricking *pricking;
  const PfStripPaper *paper;
  PfBox frame;
  GArray *loops; /* of Unrolled */
  size_t n_rows, rows_per_page;
  PfLegend *legend;
  char **notes;
} Strips;

static void
clear_unrolled (gpointer data)
{
  Unrolled *unrolled = data;
  pf_strip_layout_free (unrolled->layout);
  g_free (unrolled->name);
}

/* What one sewing takes up on either side of its target, at most. */
static double
find_overlap (const Unrolled *unrolled, double row_width)
{
  double overlap = OVERLAP_LEAST;
  for (size_t k = 0; k < unrolled->layout->n_items; k++)
    {
      const PfStripItem *item = &unrolled->layout->items[k];
      const double label = fabs (item->label - item->target) + 3;
      overlap = fmax (overlap, fmax (label, fabs (item->place - item->target) + 1));
    }
  return fmin (overlap, row_width / 4);
}

static char *
name_of_loop (const PfPricking *pricking, guint m, size_t loop)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
  g_autofree char *roman = pf_roman_number (m + 1);
  g_autofree char *name = pricking->motifs->len > 1 ? g_strdup_printf ("%s %s", roman, motif->name)
                                                    : g_strdup (motif->name);
  if (loop == 0)
    return g_strdup_printf (_ ("%s, outer edge"), name);
  return g_strdup_printf (_ ("%s, edge of hole %zu"), name, loop);
}

static void
unroll (Strips *strips, guint m, size_t loop)
{
  const PfMotif *motif = g_ptr_array_index (strips->pricking->motifs, m);
  const double length = pf_loop_length (&motif->region->loops[loop]);
  const double row_width = strips->frame.max.x - strips->frame.min.x - 2 * PAD;
  Unrolled unrolled = { .strip = { motif, loop, 0, length, 1, PF_EDGE_STRIP_HEIGHT, NULL } };
  unrolled.layout = pf_strip_layout_new (&unrolled.strip);
  unrolled.name = name_of_loop (strips->pricking, m, loop);
  unrolled.overlap = find_overlap (&unrolled, row_width);
  unrolled.n_rows = (size_t) ceil (length / (row_width - 2 * unrolled.overlap));
  unrolled.step = length / (double) unrolled.n_rows;
  strips->n_rows += unrolled.n_rows;
  g_array_append_val (strips->loops, unrolled);
}

static double
notes_height (const Strips *strips)
{
  return NOTE_LINE * g_strv_length (strips->notes);
}

static double
foot_height (const Strips *strips)
{
  const double width = strips->frame.max.x - strips->frame.min.x - 2 * PAD;
  return 3 + pf_legend_height (strips->legend, width) + 2 + notes_height (strips) + 2;
}

static void
strips_init (Strips *strips)
{
  const double width = strips->frame.max.x - strips->frame.min.x - 2 * PAD;
  strips->loops = g_array_new (FALSE, FALSE, sizeof (Unrolled));
  g_array_set_clear_func (strips->loops, clear_unrolled);
  for (guint m = 0; m < strips->pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (strips->pricking->motifs, m);
      for (size_t loop = 0; loop < motif->region->n_loops; loop++)
        unroll (strips, m, loop);
    }
  strips->legend = pf_legend_new_of_strips (strips->pricking);
  strips->notes = pf_text_wrap (
      _ ("Each strip is an edge laid straight, at true size, the ground above it, as worked, face "
         "up. The ruler counts mm from the first point of the outline. Cut the strips out, lay "
         "dashed line on dashed line, and pin them along the edge. Measure after printing: 100 "
         "mm of a ruler are 100 mm long. Pins and scissors are sharp: keep them covered when you "
         "stop."),
      NOTE_SIZE, width, 6);
  const double room = strips->frame.max.y - strips->frame.min.y - HEAD - foot_height (strips);
  strips->rows_per_page = (size_t) fmax (1, floor (room / ROW_HEIGHT));
}

static void
strips_clear (Strips *strips)
{
  g_array_unref (strips->loops);
  pf_legend_free (strips->legend);
  g_strfreev (strips->notes);
}

/* Where one row is cut, to be joined to the next: below the outline, clear of the numbers. */
static void
draw_seam (PfPage *page, double x, double top)
{
  pf_page_line (page, (PfPoint){ x, top + PF_STRIP_OUTLINE },
                (PfPoint){ x, top + PF_EDGE_STRIP_HEIGHT });
}

static void
draw_row (PfPage *page, const Unrolled *unrolled, size_t row, PfPoint at)
{
  const double from = (double) row * unrolled->step, to = from + unrolled->step;
  PfEdgeStrip strip = unrolled->strip;
  strip.from = from - unrolled->overlap;
  strip.to = to + unrolled->overlap;
  g_autofree char *caption = g_strdup_printf (_ ("%s: row %zu of %zu, %.0f to %.0f mm"),
                                              unrolled->name, row + 1, unrolled->n_rows, from, to);
  g_auto (GStrv) lines = pf_text_wrap (caption, 2.6, 170, 1);
  pf_page_text_group (page, "strip-caption", PF_COLOUR_INK, NULL);
  if (lines[0])
    pf_page_text (page, (PfPoint){ at.x, at.y + 3 }, PF_TEXT_START, 2.6, lines[0]);
  pf_page_group_end (page);
  const PfPoint corner = { at.x, at.y + CAPTION };
  pf_page_group (
      page, "strip-seams",
      (PfInk){ .stroke = PF_COLOUR_QUIET, .width = 0.15, .dash = { 1.2, 0.8 }, .n_dash = 2 });
  draw_seam (page, at.x + unrolled->overlap, corner.y);
  draw_seam (page, at.x + unrolled->overlap + to - from, corner.y);
  pf_page_group_end (page);
  pf_strip_draw (page, &strip, unrolled->layout, corner, true);
}

static void
draw_head (PfPage *page, const Strips *strips, size_t n, size_t n_pages)
{
  const PfBox frame = strips->frame;
  g_autofree char *title = *strips->paper->title
                               ? g_strdup_printf (_ ("Edge strips: %s"), strips->paper->title)
                               : g_strdup (_ ("Edge strips"));
  g_autofree char *sheet = g_strdup_printf (_ ("Edge strips, sheet %zu of %zu"), n + 1, n_pages);
  g_autofree char *number =
      pf_number_of_page (sheet, strips->paper->n_before + n, strips->paper->of_pages);
  const double number_width = pf_text_width (number, 2.3);
  const double width = frame.max.x - frame.min.x - 3 * PAD - number_width;
  g_auto (GStrv) lines = pf_text_wrap (title, 4.2, width, 1);
  pf_page_group (page, "frame", (PfInk){ .stroke = PF_COLOUR_INK, .width = 0.3 });
  pf_page_box (page, frame);
  pf_page_group_end (page);
  pf_page_text_group (page, "title", PF_COLOUR_INK, NULL);
  if (lines[0])
    pf_page_text (page, (PfPoint){ frame.min.x + PAD, frame.min.y + 6.8 }, PF_TEXT_START, 4.2,
                  lines[0]);
  pf_page_text (page, (PfPoint){ frame.max.x - PAD, frame.min.y + 6.8 }, PF_TEXT_END, 2.3, number);
  pf_page_group_end (page);
}

static void
draw_foot (PfPage *page, const Strips *strips)
{
  const PfBox frame = strips->frame;
  const double top = frame.max.y - foot_height (strips), left = frame.min.x + PAD;
  pf_page_group (page, "strip", (PfInk){ .stroke = PF_COLOUR_FAINT, .width = 0.15 });
  pf_page_line (page, (PfPoint){ frame.min.x, top }, (PfPoint){ frame.max.x, top });
  pf_page_group_end (page);
  pf_legend_draw (page, strips->legend, (PfPoint){ left, top + 3 },
                  frame.max.x - frame.min.x - 2 * PAD);
  pf_page_text_group (page, "foot", PF_COLOUR_QUIET, NULL);
  for (guint i = 0; strips->notes[i]; i++)
    pf_page_text (
        page, (PfPoint){ left, frame.max.y - 2 - notes_height (strips) + NOTE_LINE * (i + 0.8) },
        PF_TEXT_START, NOTE_SIZE, strips->notes[i]);
  pf_page_group_end (page);
}

/* Draws the rows of one page, of all rows those from `first` on. */
static void
draw_rows (PfPage *page, const Strips *strips, size_t first)
{
  size_t n = 0;
  for (guint l = 0; l < strips->loops->len; l++)
    {
      const Unrolled *unrolled = &g_array_index (strips->loops, Unrolled, l);
      for (size_t row = 0; row < unrolled->n_rows; row++, n++)
        if (n >= first && n < first + strips->rows_per_page)
          draw_row (page, unrolled, row,
                    (PfPoint){ strips->frame.min.x + PAD,
                               strips->frame.min.y + HEAD + ROW_HEIGHT * (double) (n - first) });
    }
}

GPtrArray *
pf_strip_pages_new (const PfPricking *pricking, const PfStripPaper *paper)
{
  Strips strips = { .pricking = pricking,
                    .paper = paper,
                    .frame = {
                        { PF_FRAME_MARGIN, PF_FRAME_MARGIN },
                        { paper->width - PF_FRAME_MARGIN, paper->height - PF_FRAME_MARGIN } } };
  strips_init (&strips);
  GPtrArray *pages = g_ptr_array_new_with_free_func (g_free);
  const size_t n_pages = (strips.n_rows + strips.rows_per_page - 1) / strips.rows_per_page;
  for (size_t n = 0; n < n_pages && n <= PF_MAX_SHEETS; n++)
    {
      PfPage *page =
          pf_page_new_stretched (paper->width, paper->height, paper->stretch, paper->title);
      draw_rows (page, &strips, n * strips.rows_per_page);
      draw_head (page, &strips, n, n_pages);
      draw_foot (page, &strips);
      g_ptr_array_add (pages, pf_page_finish (page));
    }
  strips_clear (&strips);
  return pages;
}
