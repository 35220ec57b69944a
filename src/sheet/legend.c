/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds what occurs on the sheet and sets it in columns: as many as the width has room for, and no
 * higher than they must be.
 */
#include "legend.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "legend-samples.h"
#include "text.h"

#define TEXT_SIZE 2.3
#define LINE_HEIGHT 2.9
#define COLUMN_LEAST 40.0
#define COLUMN_GAP 3.0
#define ITEM_GAP 0.9

typedef struct {
  PfSample sample;
  const char *text;
} Item;

struct PfLegend {
  GArray *items; /* of Item */
  PfSizes sizes;
  char *without_room;
};

typedef struct {
  PfCounts counts;
  bool has_missing, has_motifs;
  bool half_stitch, cloth_stitch;
  bool chosen, numbered; /* sewings; pinholes */
} Found;

static void
look_at_edge (Found *found, const PfEdge *edge)
{
  const bool half_stitch = edge->kind == PF_EDGE_HALF_STITCH;
  found->half_stitch |= half_stitch;
  found->cloth_stitch |= !half_stitch;
  for (size_t s = 0; s < edge->n_stretches; s++)
    {
      found->half_stitch |= edge->stretches[s].kind == PF_EDGE_HALF_STITCH;
      found->cloth_stitch |= edge->stretches[s].kind == PF_EDGE_CLOTH_STITCH;
    }
  found->numbered |= edge->n_pinholes > 0;
}

static Found
look_at (const PfPricking *pricking)
{
  Found found = { .counts = pf_pricking_counts (pricking) };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      const PfFilling *filling = motif->filling;
      found.has_motifs = true;
      for (size_t i = 0; i < motif->region->n_loops; i++)
        look_at_edge (&found, &motif->edges[i]);
      for (size_t i = 0; i < filling->n_crossings && !found.has_missing; i++)
        found.has_missing = filling->crossings[i].has_missing;
      for (size_t s = 0; s < filling->n_sewings && !found.chosen; s++)
        found.chosen = filling->sewings[s].chosen;
    }
  return found;
}

static void
add (PfLegend *legend, bool occurs, PfSample sample, const char *text)
{
  const Item item = { sample, text };
  if (occurs)
    g_array_append_val (legend->items, item);
}

static const char *
edge_text (const Found *found)
{
  if (found->half_stitch && found->cloth_stitch)
    return _ ("Worked edge with its pinholes");
  return found->half_stitch ? _ ("Worked edge, half stitch, with its pinholes")
                            : _ ("Worked edge, cloth stitch, with its pinholes");
}

static void
add_lines (PfLegend *legend, const PfCounts *counts)
{
  add (legend, counts->new_pairs > 0, PF_SAMPLE_NEW, _ ("New pair: sewn in"));
  add (legend, counts->turned > 0, PF_SAMPLE_TURNED, _ ("Turned pair: sewn once, comes back"));
  add (legend, counts->carried > 0, PF_SAMPLE_CARRIED,
       _ ("Carried pair: sewn, along the edge, sewn again"));
  add (legend, counts->finished > 0, PF_SAMPLE_FINISHED, _ ("Finished pair: sewn, tied, cut"));
}

static void
add_sewings (PfLegend *legend, const PfCounts *counts, bool chosen)
{
  add (legend, counts->at_pinhole > 0, PF_SAMPLE_AT_PINHOLE, _ ("Sewing into a pinhole"));
  add (legend, counts->round_bar > 0, PF_SAMPLE_ROUND_BAR, _ ("Sewing round the bar"));
  add (legend, counts->off_line > 0, PF_SAMPLE_OFF_LINE, _ ("Sewing off its line: look at it"));
  add (legend, chosen, PF_SAMPLE_CHOSEN, _ ("Sewing that you chose yourself"));
}

static PfLegend *
new_legend (void)
{
  PfLegend *legend = g_new0 (PfLegend, 1);
  legend->items = g_array_new (FALSE, FALSE, sizeof (Item));
  legend->sizes = pf_sizes (4.2, 1);
  return legend;
}

PfLegend *
pf_legend_new (const PfPricking *pricking, const PfSheetSettings *settings, size_t without_room)
{
  PfLegend *legend = new_legend ();
  const Found found = look_at (pricking);
  add (legend, found.counts.pins > 0, PF_SAMPLE_PIN, _ ("Pin of the ground"));
  add (legend, found.has_motifs, PF_SAMPLE_EDGE, edge_text (&found));
  if (settings->pins_only)
    return legend;
  add_lines (legend, &found.counts);
  add (legend, found.counts.new_pairs > 0, PF_SAMPLE_NUMBER,
       _ ("Number of a pair, where it enters or ends"));
  add (legend, found.counts.sewings > 0, PF_SAMPLE_PINHOLE_NUMBER,
       _ ("Number of a pinhole, every tenth"));
  add_sewings (legend, &found.counts, found.chosen);
  add (legend, found.has_missing, PF_SAMPLE_MISSING, _ ("Missing pin, where the line was going"));
  add (legend, found.counts.kept > 0, PF_SAMPLE_KEPT, _ ("Kept repeat: its middle is worked"));
  add (legend, found.counts.plain > 0, PF_SAMPLE_PLAIN, _ ("Plain repeat: without its middle"));
  add (legend, found.counts.left_out > 0, PF_SAMPLE_LEFT_OUT, _ ("Repeat left out"));
  add (legend, found.counts.beads > 0, PF_SAMPLE_BEAD, _ ("Bead"));
  add (legend, true, PF_SAMPLE_NONE,
       _ ("Scales: mm from the drawing’s top left, as in the report"));
  if (without_room > 0)
    {
      legend->without_room = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "%zu number left out for lack of room: print enlarged",
                       "%zu numbers left out for lack of room: print enlarged", without_room),
          without_room);
      add (legend, true, PF_SAMPLE_NONE, legend->without_room);
    }
  return legend;
}

PfLegend *
pf_legend_new_of_strips (const PfPricking *pricking)
{
  PfLegend *legend = new_legend ();
  const Found found = look_at (pricking);
  const PfCounts *counts = &found.counts;
  add_lines (legend, counts);
  add (legend, counts->sewings > 0, PF_SAMPLE_NUMBER, _ ("Number of the pair that is sewn"));
  add (legend, counts->off_line > 0, PF_SAMPLE_OFF_LINE_NUMBER,
       _ ("Number of a pair that is sewn off its line"));
  add (legend, counts->sewings > 0, PF_SAMPLE_TARGET,
       _ ("Where a line meets the edge, and the place where it is sewn"));
  add_sewings (legend, counts, found.chosen);
  add (legend, found.numbered, PF_SAMPLE_PINHOLE_NUMBER, _ ("Number of a pinhole"));
  add (legend, found.half_stitch, PF_SAMPLE_HALF_STITCH, _ ("Half stitch edge"));
  add (legend, found.cloth_stitch, PF_SAMPLE_CLOTH_STITCH, _ ("Cloth stitch edge"));
  return legend;
}

void
pf_legend_free (PfLegend *legend)
{
  g_array_unref (legend->items);
  g_free (legend->without_room);
  g_free (legend);
}

typedef struct {
  int n;
  double width; /* of one column */
  double height;
} Columns;

static char **
item_lines (const Item *item, double column_width)
{
  return pf_text_wrap (item->text, TEXT_SIZE, column_width - PF_SAMPLE_WIDTH - 1.5, 3);
}

static double
item_height (const Item *item, double column_width)
{
  g_auto (GStrv) lines = item_lines (item, column_width);
  return fmax (PF_SAMPLE_HEIGHT, LINE_HEIGHT * g_strv_length (lines)) + ITEM_GAP;
}

/* How many columns of that height the items fill, in their order. */
static int
columns_filled (const PfLegend *legend, double column_width, double height)
{
  int n = 1;
  double used = 0;
  for (guint i = 0; i < legend->items->len; i++)
    {
      const double h = item_height (&g_array_index (legend->items, Item, i), column_width);
      if (used > 0 && used + h > height)
        {
          n++;
          used = 0;
        }
      used += h;
    }
  return n;
}

static Columns
set_columns (const PfLegend *legend, double width)
{
  Columns columns = { .n = MAX (1, (int) ((width + COLUMN_GAP) / (COLUMN_LEAST + COLUMN_GAP))) };
  columns.width = (width + COLUMN_GAP) / columns.n - COLUMN_GAP;
  columns.height = PF_SAMPLE_HEIGHT;
  while (columns_filled (legend, columns.width, columns.height) > columns.n)
    columns.height += 0.5;
  return columns;
}

double
pf_legend_height (const PfLegend *legend, double width)
{
  return legend->items->len == 0 ? 0 : set_columns (legend, width).height;
}

static void
draw_item (PfPage *page, const PfLegend *legend, const Item *item, PfPoint at, double width,
           double height)
{
  const double middle = at.y + (height - ITEM_GAP) / 2;
  pf_sample_draw (page, &legend->sizes, (PfPoint){ at.x + PF_SAMPLE_WIDTH / 2, middle },
                  item->sample);
  g_auto (GStrv) lines = item_lines (item, width);
  const guint n = g_strv_length (lines);
  const double first = middle - LINE_HEIGHT * (n - 1) / 2 + PF_TEXT_CAP / 2 * TEXT_SIZE;
  pf_page_text_group (page, "words", PF_COLOUR_INK, NULL);
  for (guint i = 0; i < n; i++)
    pf_page_text (page, (PfPoint){ at.x + PF_SAMPLE_WIDTH + 1.5, first + LINE_HEIGHT * i },
                  PF_TEXT_START, TEXT_SIZE, lines[i]);
  pf_page_group_end (page);
}

void
pf_legend_draw (PfPage *page, const PfLegend *legend, PfPoint top_left, double width)
{
  if (legend->items->len == 0)
    return;
  const Columns columns = set_columns (legend, width);
  double x = top_left.x, used = 0;
  for (guint i = 0; i < legend->items->len; i++)
    {
      const Item *item = &g_array_index (legend->items, Item, i);
      const double h = item_height (item, columns.width);
      if (used > 0 && used + h > columns.height)
        {
          x += columns.width + COLUMN_GAP;
          used = 0;
        }
      draw_item (page, legend, item, (PfPoint){ x, top_left.y + used }, columns.width, h);
      used += h;
    }
}
