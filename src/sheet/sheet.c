/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A sheet: all pages of a pricking, each a finished SVG document. Labels are placed once, in the
 * field, before it is cut into pages, so that every page shows the same ones.
 */
#include <sheet.h>

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "edge-strip-layout.h"
#include "furniture.h"
#include "layers.h"
#include "paint.h"

struct PfSheet {
  double width, height; /* of a page, as it is printed */
  GPtrArray *pages;     /* of char *: SVG */
  char *title;
  gint64 created;
};

/* Around the drawing, so that nothing touches the frame. */
#define FIELD_MARGIN 2.5

typedef struct {
  const PfPricking *pricking;
  const PfSheetSettings *settings;
  GPtrArray *drawn; /* of PfDrawn */
  PfView field;
  PfPlacer *placer;
  size_t without_room; /* numbers */
  PfPaper paper;       /* smaller or larger than the real one, by what the pages are stretched */
  PfTiling tiling;
  PfPoint stretch;
  GArray *joins; /* of PfJoin */
  PfLegend *legend;
  PfFurniture *furniture;
} Layout;

static void
layout_clear (Layout *layout)
{
  g_clear_pointer (&layout->drawn, g_ptr_array_unref);
  g_clear_pointer (&layout->placer, pf_placer_free);
  g_clear_pointer (&layout->joins, g_array_unref);
  g_clear_pointer (&layout->furniture, pf_furniture_free);
  g_clear_pointer (&layout->legend, pf_legend_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Layout, layout_clear)

static bool
check_settings (const PfPricking *pricking, const PfSheetSettings *settings, GError **error)
{
  for (guint m = 0; m < pricking->motifs->len; m++)
    g_return_val_if_fail (((PfMotif *) g_ptr_array_index (pricking->motifs, m))->filling, false);
  if (settings->enlarge >= PF_ENLARGE_MIN && settings->enlarge <= PF_ENLARGE_MAX)
    return pf_printer_check (&settings->printer, error);
  g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
               _ ("The sheet can't be enlarged %g times. Choose between %g and %g."),
               settings->enlarge, PF_ENLARGE_MIN, PF_ENLARGE_MAX);
  return false;
}

bool
pf_printer_check (const PfPrinterRules *rules, GError **error)
{
  const double measured[] = { rules->short_side, rules->long_side };
  if (measured[0] == 0 && measured[1] == 0)
    return true;
  for (size_t r = 0; r < G_N_ELEMENTS (measured); r++)
    if (!(measured[r] >= PF_RULE_LEAST && measured[r] <= PF_RULE_MOST))
      {
        g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
                     _ ("A check rule that measures %g mm can’t be corrected: it should be %g mm "
                        "long. Choose a value from %g to %g, and print without fitting to the "
                        "page."),
                     measured[r], PF_RULE_LENGTH, PF_RULE_LEAST, PF_RULE_MOST);
        return false;
      }
  return true;
}

/* By how much a rule of that length has to be stretched. */
static double
stretch_of (double measured)
{
  return measured == 0 ? 1 : PF_RULE_LENGTH / measured;
}

/* The paper as it is before it is stretched. */
static PfPaper
paper_before (const PfSheetSettings *settings)
{
  PfPaper paper = *settings->paper;
  paper.width /= stretch_of (settings->printer.short_side);
  paper.height /= stretch_of (settings->printer.long_side);
  return paper;
}

static PfPoint
page_stretch (const Layout *layout)
{
  const double along_short = stretch_of (layout->settings->printer.short_side);
  const double along_long = stretch_of (layout->settings->printer.long_side);
  const bool upright = layout->tiling.width == layout->paper.width;
  return upright ? (PfPoint){ along_short, along_long } : (PfPoint){ along_long, along_short };
}

static void
place_labels (Layout *layout)
{
  layout->placer = pf_numbers_placer (layout->drawn);
  if (!layout->settings->pins_only)
    layout->without_room = pf_numbers_place (layout->drawn, &layout->field, layout->placer);
}

/* What one motif takes up in the field; `*widest` grows to its widest label. */
static PfBox
motif_box (const Layout *layout, const PfDrawn *drawn, double *widest)
{
  const PfView *field = &layout->field;
  const PfBox region = drawn->motif->region->box;
  PfBox box = pf_box_with (PF_BOX_EMPTY, pf_view_point (field, region.min));
  box = pf_box_with (box, pf_view_point (field, region.max));
  box =
      pf_box_grown (box, layout->settings->pins_only ? drawn->sizes.hole : 4.5 * drawn->sizes.mark);
  if (layout->settings->pins_only)
    return box;
  const PfFilling *filling = drawn->motif->filling;
  for (size_t i = 0; i < filling->n_crossings; i++)
    if (filling->crossings[i].has_missing)
      {
        const PfPoint at = pf_view_point (field, filling->crossings[i].missing_at);
        box = pf_box_union (box, pf_box_grown ((PfBox){ at, at }, 2 * drawn->sizes.pin));
      }
  for (guint i = 0; i < drawn->labels->len; i++)
    {
      const PfBox label = g_array_index (drawn->labels, PfLabel, i).box;
      *widest = fmax (*widest, label.max.x - label.min.x);
      box = pf_box_union (box, label);
    }
  return box;
}

static PfBox
background_box (const Layout *layout)
{
  PfBox box = PF_BOX_EMPTY;
  const GPtrArray *lines = layout->pricking->background;
  for (guint i = 0; i < lines->len; i++)
    {
      const PfPolyline *line = g_ptr_array_index (lines, i);
      for (size_t p = 0; p < line->n_points; p++)
        box = pf_box_with (box, pf_view_point (&layout->field, line->points[p]));
    }
  return box;
}

static PfBox
field_box (const Layout *layout, double *widest)
{
  PfBox box = PF_BOX_EMPTY;
  for (guint m = 0; m < layout->drawn->len; m++)
    box = pf_box_union (box, motif_box (layout, g_ptr_array_index (layout->drawn, m), widest));
  if (pf_box_is_empty (box) && layout->settings->background)
    box = background_box (layout);
  if (pf_box_is_empty (box))
    box = (PfBox){ { 0, 0 }, { 0, 0 } };
  return pf_box_grown (box, FIELD_MARGIN);
}

/* Join marks keep off pins if they can. */
static void
block_doubled_pins (Layout *layout)
{
  for (guint m = 0; m < layout->drawn->len; m++)
    {
      const PfDrawn *drawn = g_ptr_array_index (layout->drawn, m);
      const PfFilling *filling = drawn->motif->filling;
      for (size_t s = 0; s < filling->n_stitches; s++)
        {
          const PfPoint at = pf_view_point (&layout->field, filling->stitches[s].at);
          if (pf_tiling_overlaps (&layout->tiling, at))
            pf_placer_block_box (layout->placer, pf_box_grown ((PfBox){ at, at }, drawn->sizes.pin),
                                 PF_BLOCK_SOFT);
        }
    }
}

static bool
layout_init (Layout *layout, const PfPricking *pricking, const PfSheetSettings *settings,
             GError **error)
{
  layout->pricking = pricking;
  layout->settings = settings;
  layout->field = pf_view_field (settings->enlarge, settings->mirror);
  layout->drawn = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_drawn_free);
  for (guint m = 0; m < pricking->motifs->len; m++)
    g_ptr_array_add (layout->drawn,
                     pf_drawn_new (g_ptr_array_index (pricking->motifs, m), settings->enlarge));
  place_labels (layout);
  layout->legend = pf_legend_new (pricking, settings, layout->without_room);
  layout->furniture = pf_furniture_new (pricking, settings, layout->legend);
  /* Every label is whole on one page at least: the overlap is wider than any. */
  double widest = 0;
  const PfBox box = field_box (layout, &widest);
  layout->paper = paper_before (settings);
  if (!pf_tiling_init (&layout->tiling, &layout->paper, box, fmax (PF_OVERLAP, widest + 1),
                       pf_furniture_strip_height, layout->furniture, error))
    return false;
  layout->stretch = page_stretch (layout);
  block_doubled_pins (layout);
  layout->joins = pf_joins_new (&layout->tiling, layout->placer);
  return true;
}

typedef void (*DrawLayer) (PfPage *page, const PfView *view, const PfDrawn *drawn);

static void
draw_layer (PfPage *page, const PfView *view, const Layout *layout, DrawLayer layer)
{
  for (guint m = 0; m < layout->drawn->len; m++)
    layer (page, view, g_ptr_array_index (layout->drawn, m));
}

static void
draw_layers (PfPage *page, const PfView *view, const Layout *layout)
{
  static const struct {
    DrawLayer layer;
    bool plain; /* is part of the plain pricking */
  } layers[] = {
    { pf_layer_repeats, false }, { pf_layer_missing, false }, { pf_layer_pair_lines, false },
    { pf_layer_outline, true },  { pf_layer_pinholes, true }, { pf_layer_predicted, false },
    { pf_layer_sewings, false }, { pf_layer_pins, true },     { pf_layer_beads, false },
    { pf_layer_labels, false },
  };
  if (layout->settings->background)
    pf_layer_background (page, view, layout->pricking);
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    if (layers[i].plain || !layout->settings->pins_only)
      draw_layer (page, view, layout, layers[i].layer);
}

static char *
page_svg (const Layout *layout, const char *title, size_t n)
{
  const PfTiling *tiling = &layout->tiling;
  PfPage *page = pf_page_new_stretched (tiling->width, tiling->height, layout->stretch, title);
  const PfView view = pf_view_page (&layout->field, pf_tiling_corner (tiling, n), tiling->window);
  pf_page_clip_group (page, "drawing", tiling->window);
  draw_layers (page, &view, layout);
  if (pf_tiling_n_sheets (tiling) > 1)
    pf_joins_draw (page, &view, tiling, layout->joins, n);
  pf_page_group_end (page);
  pf_furniture_draw (page, layout->furniture, tiling, n);
  pf_scales_draw (page, &view);
  return pf_page_finish (page);
}

static bool
add_strips (PfSheet *sheet, const Layout *layout, GError **error)
{
  const PfStripPaper paper = { sheet->title,    layout->tiling.width, layout->tiling.height,
                               layout->stretch, sheet->pages->len,    layout->settings->of_pages };
  g_autoptr (GPtrArray) strips = pf_strip_pages_new (layout->pricking, &paper);
  if (sheet->pages->len + strips->len > PF_MAX_SHEETS)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("With the edge strips there would be more than %d sheets. Choose a larger "
                      "paper, or leave the strips out."),
                   PF_MAX_SHEETS);
      return false;
    }
  g_ptr_array_extend_and_steal (sheet->pages, g_steal_pointer (&strips));
  return true;
}

PfSheetSettings
pf_sheet_settings_of (const PfDocument *document)
{
  const PfPageSetup *page = &document->page;
  return (PfSheetSettings){
    .paper = page->paper,
    .enlarge = page->enlarge,
    .pins_only = page->pins_only,
    .mirror = page->mirror,
    .background = page->background,
    .edge_strip = page->edge_strip,
  };
}

PfSheet *
pf_sheet_new (const PfPricking *pricking, const PfSheetSettings *settings, GError **error)
{
  g_auto (Layout) layout = { 0 };
  if (!check_settings (pricking, settings, error) ||
      !layout_init (&layout, pricking, settings, error))
    return NULL;
  g_autoptr (PfSheet) sheet = g_new0 (PfSheet, 1);
  sheet->width = layout.stretch.x * layout.tiling.width;
  sheet->height = layout.stretch.y * layout.tiling.height;
  sheet->title = g_utf8_make_valid (pricking->title ? pricking->title : "", -1);
  sheet->created = settings->created;
  sheet->pages = g_ptr_array_new_with_free_func (g_free);
  for (size_t n = 0; n < pf_tiling_n_sheets (&layout.tiling); n++)
    g_ptr_array_add (sheet->pages, page_svg (&layout, sheet->title, n));
  if (settings->edge_strip && !add_strips (sheet, &layout, error))
    return NULL;
  return g_steal_pointer (&sheet);
}

void
pf_sheet_free (PfSheet *sheet)
{
  if (!sheet)
    return;
  g_ptr_array_unref (sheet->pages);
  g_free (sheet->title);
  g_free (sheet);
}

size_t
pf_sheet_n_pages (const PfSheet *sheet)
{
  return sheet->pages->len;
}

const char *
pf_sheet_page_svg (const PfSheet *sheet, size_t n)
{
  g_return_val_if_fail (n < sheet->pages->len, NULL);
  return g_ptr_array_index (sheet->pages, n);
}

void
pf_sheet_page_size (const PfSheet *sheet, double *width, double *height)
{
  *width = sheet->width;
  *height = sheet->height;
}

bool
pf_sheet_draw_page (const PfSheet *sheet, size_t n, cairo_t *cr, GError **error)
{
  g_return_val_if_fail (n < sheet->pages->len, false);
  return pf_paint_page (cr, g_ptr_array_index (sheet->pages, n), sheet->width, sheet->height,
                        error);
}

bool
pf_sheet_save (const PfSheet *sheet, const char *filename, char ***files, GError **error)
{
  const PfPdfWords words = { sheet->title, sheet->created };
  return pf_paint_save ((const char *const *) sheet->pages->pdata, sheet->pages->len, sheet->width,
                        sheet->height, words, filename, files, error);
}
