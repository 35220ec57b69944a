/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Edge strips: everything stands where its distance along the loop says, at true size on paper;
 * no number is lost, and none covers another.
 */
#include <math.h>
#include <string.h>

#include <cairo-pdf.h>
#include <poppler.h>

#include "edge-strip-layout.h"
#include "samples.h"
#include "view.h"

static PfPricking *
flower (const char *ground, double gap, PfEdgeKind edge)
{
  return sample_demo ("quince-flower", ground, gap, edge, PF_BEADS_NONE);
}

static PfEdgeStrip
strip_of (const PfPricking *pricking, size_t loop, double from, double to, double across)
{
  return (PfEdgeStrip){
    .motif = g_ptr_array_index (pricking->motifs, 0),
    .loop = loop,
    .from = from,
    .to = to,
    .across = across,
    .height = PF_EDGE_STRIP_HEIGHT,
  };
}

static void
test_positions (void)
{
  PfPricking *pricking = flower ("armure", 4, PF_EDGE_HALF_STITCH);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  for (size_t loop = 0; loop < motif->region->n_loops; loop++)
    {
      const double length = pf_loop_length (&motif->region->loops[loop]);
      const PfEdgeStrip strip = strip_of (pricking, loop, 10, 10 + length, 2.5);
      for (size_t h = 0; h < motif->edges[loop].n_pinholes; h++)
        {
          /* The strip begins 10 mm after the first point and goes once round. */
          const double after = fmod (motif->edges[loop].pinholes[h] - 10 + length, length);
          const PfPoint at = pf_edge_strip_pinhole (&strip, h);
          g_assert_cmpfloat_with_epsilon (at.x, 2.5 * after, 1e-6);
          g_assert_cmpuint (pf_edge_strip_find_pinhole (&strip, at, 0.1), ==, h);
          g_assert_cmpfloat_with_epsilon (pf_loop_distance (&motif->region->loops[loop],
                                                            pf_edge_strip_along (&strip, at.x),
                                                            motif->edges[loop].pinholes[h]),
                                          0, 1e-6);
        }
      for (size_t s = 0; s < motif->filling->n_sewings; s++)
        {
          const PfSewing *sewing = &motif->filling->sewings[s];
          const PfPoint at = pf_edge_strip_sewing (&strip, (guint32) s);
          if (sewing->place.loop != loop)
            {
              g_assert_true (isnan (at.x));
              continue;
            }
          const double after = fmod (sewing->place.along - 10 + length, length);
          g_assert_cmpfloat_with_epsilon (remainder (at.x - 2.5 * after, 2.5 * length), 0, 1e-6);
          g_assert_cmpuint (pf_edge_strip_find_sewing (&strip, at, 0.1), ==, s);
        }
      g_assert_cmpuint (pf_edge_strip_find_sewing (&strip, (PfPoint){ 50, -90 }, 5), ==, PF_NONE);
      g_assert_cmpuint (pf_edge_strip_find_pinhole (&strip, (PfPoint){ 50, -90 }, 5), ==, PF_NONE);
    }
  pf_pricking_free (pricking);
}

/* Labels keep the order of the targets and stand apart; marks at one place are stacked. */
static void
check_layout (const PfPricking *pricking, double across)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const double length = pf_loop_length (&motif->region->loops[0]);
  const PfEdgeStrip strip = strip_of (pricking, 0, 0, length, across);
  g_autoptr (PfStripLayout) layout = pf_strip_layout_new (&strip);
  for (size_t k = 0; k < layout->n_items; k++)
    for (size_t other = 0; other < k; other++)
      {
        const PfStripItem *a = &layout->items[other], *b = &layout->items[k];
        g_assert_cmpfloat (a->label, <, b->label);
        g_autofree char *first =
            g_strdup_printf ("%u", motif->filling->sewings[a->sewing].pair + 1);
        g_autofree char *second =
            g_strdup_printf ("%u", motif->filling->sewings[b->sewing].pair + 1);
        const double room =
            pf_strip_label_reach (layout, first).x + pf_strip_label_reach (layout, second).x;
        if (a->row == b->row)
          g_assert_cmpfloat (b->label - a->label, >=, room);
        if (fabs (a->place - b->place) < 1e-6)
          g_assert_cmpfloat (fabs (a->stack - b->stack), >, 0.2);
      }
}

typedef struct {
  const char *ground;
  double gap;
  PfEdgeKind edge;
} Case;

static const Case cases[] = {
  { "armure", 4, PF_EDGE_HALF_STITCH },
  { "torchon", 1.5, PF_EDGE_CLOTH_STITCH },
  { "honeycomb", 2, PF_EDGE_HALF_STITCH },
};

static void
test_layout (void)
{
  static const double across[] = { 1, 3, 8 };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      PfPricking *pricking = flower (cases[c].ground, cases[c].gap, cases[c].edge);
      for (size_t a = 0; a < G_N_ELEMENTS (across); a++)
        check_layout (pricking, across[a]);
      pf_pricking_free (pricking);
    }
}

static PfSheet *
sheet_with_strips (const PfPricking *pricking)
{
  g_autoptr (GError) error = NULL;
  PfSheetSettings settings = sample_settings ("A4");
  settings.edge_strip = true;
  PfSheet *sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  return sheet;
}

static size_t
first_strip_page (const PfSheet *sheet)
{
  size_t n = 0;
  while (!strstr (pf_sheet_page_svg (sheet, n), "strip-ruler"))
    n++;
  return n;
}

static void
count_numbers (xmlDoc *page, guint *found, size_t n_pairs)
{
  g_autoptr (GPtrArray) texts = elements_of (page, "strip-numbers", "text");
  for (guint i = 0; i < texts->len; i++)
    {
      g_autofree char *text = text_of (g_ptr_array_index (texts, i));
      const guint64 number = g_ascii_strtoull (text, NULL, 10);
      g_assert_cmpuint (number, >=, 1);
      g_assert_cmpuint (number, <=, n_pairs);
      found[number - 1]++;
    }
}

/* No word lies on another one or across the frame. */
static void
check_words (xmlDoc *page)
{
  const PfBox frame = frame_of (page);
  g_autoptr (GPtrArray) texts = elements_of (page, NULL, "text");
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (PfBox));
  for (guint i = 0; i < texts->len; i++)
    {
      const PfBox box = text_ink (g_ptr_array_index (texts, i));
      g_assert_true (box.min.x > frame.min.x && box.max.x < frame.max.x &&
                     box.min.y > frame.min.y && box.max.y < frame.max.y);
      for (guint j = 0; j < boxes->len; j++)
        g_assert_false (pf_boxes_meet (box, g_array_index (boxes, PfBox, j)));
      g_array_append_val (boxes, box);
    }
}

static void
test_pages (gconstpointer data)
{
  const Case *c = data;
  PfPricking *pricking = flower (c->ground, c->gap, c->edge);
  const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, 0))->filling;
  g_autoptr (PfSheet) sheet = sheet_with_strips (pricking);
  guint *found = g_new0 (guint, filling->n_pairs);
  for (size_t n = first_strip_page (sheet); n < pf_sheet_n_pages (sheet); n++)
    {
      xmlDoc *page = read_page (pf_sheet_page_svg (sheet, n));
      count_numbers (page, found, filling->n_pairs);
      check_words (page);
      xmlFreeDoc (page);
    }
  /* A number may stand on two rows, where they overlap. */
  for (size_t s = 0; s < filling->n_sewings; s++)
    {
      g_assert_cmpuint (found[filling->sewings[s].pair], >, 0);
      found[filling->sewings[s].pair]--;
    }
  g_free (found);
  pf_pricking_free (pricking);
}

/* On the screen a strip may begin anywhere, even before the loop's first point: no number of a pair
 * is cut, and the ruler's 0 has its place to itself. */
static void
test_nothing_is_cut (void)
{
  PfPricking *pricking = flower ("armure", 4, PF_EDGE_HALF_STITCH);
  for (int from = -6; from < 20; from++)
    {
      const PfEdgeStrip strip = strip_of (pricking, 0, from, from + 60, 1);
      g_autoptr (PfStripLayout) layout = pf_strip_layout_new (&strip);
      PfPage *page = pf_page_new_window ((PfBox){ { 0, 0 }, { 60, 24 } }, 0);
      pf_strip_draw (page, &strip, layout, (PfPoint){ 0, 0 }, false);
      g_autofree char *svg = pf_page_finish (page);
      xmlDoc *doc = read_page (svg);
      g_autoptr (GPtrArray) numbers = elements_of (doc, "strip-numbers", "text");
      g_assert_cmpuint (numbers->len, >, 5);
      for (guint n = 0; n < numbers->len; n++)
        {
          const double x = number_of (g_ptr_array_index (numbers, n), "x");
          const PfBox ink = text_ink (g_ptr_array_index (numbers, n));
          const double half = layout->upright ? 0 : (ink.max.x - ink.min.x) / 2;
          g_assert_cmpfloat (x - half, >, -0.1);
          g_assert_cmpfloat (x + half, <, 60.1);
        }
      g_autoptr (GPtrArray) words = elements_of (doc, "strip-ruler-words", "text");
      for (guint a = 0; a < words->len; a++)
        for (guint b = 0; b < a; b++)
          g_assert_cmpfloat (fabs (number_of (g_ptr_array_index (words, a), "x") -
                                   number_of (g_ptr_array_index (words, b), "x")),
                             >, 3);
      xmlFreeDoc (doc);
    }
  pf_pricking_free (pricking);
}

/* Half stitch and cloth stitch are drawn with unlike patterns, and only where they are. */
static void
test_stretches (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking = flower ("armure", 4, PF_EDGE_HALF_STITCH);
  PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const PfEdgeStretch stretch = { 50, 80, PF_EDGE_CLOTH_STITCH };
  pf_edge_set_stretches (&motif->edges[0], &motif->region->loops[0], &stretch, 1, &error);
  g_assert_no_error (error);
  const PfEdgeStrip strip = strip_of (pricking, 0, 0, 150, 1);
  g_autoptr (PfStripLayout) layout = pf_strip_layout_new (&strip);
  PfPage *page = pf_page_new_window ((PfBox){ { 0, 0 }, { 150, 24 } }, 0);
  pf_strip_draw (page, &strip, layout, (PfPoint){ 0, 0 }, false);
  g_autofree char *svg = pf_page_finish (page);
  xmlDoc *doc = read_page (svg);
  g_autoptr (GPtrArray) lines = elements_of (doc, "strip-band", "line");
  guint n_aslant = 0, n_upright = 0;
  for (guint i = 0; i < lines->len; i++)
    {
      const xmlNode *line = g_ptr_array_index (lines, i);
      const double x1 = number_of (line, "x1"), x2 = number_of (line, "x2");
      const bool is_level = number_of (line, "y1") == number_of (line, "y2");
      const double middle = (x1 + x2) / 2;
      if (is_level)
        continue;
      n_upright += x1 == x2;
      n_aslant += x1 != x2;
      g_assert_true ((x1 == x2) == (middle >= 50 - 1e-3 && middle <= 80 + 1e-3));
    }
  g_assert_cmpuint (n_upright, >, 20);
  g_assert_cmpuint (n_aslant, >, 50);
  xmlFreeDoc (doc);
  pf_pricking_free (pricking);
}

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* The page drawn on a PDF's surface scaled to mm, as it is when it is printed. */
static PopplerDocument *
print_page (const PfSheet *sheet, size_t n)
{
  g_autoptr (GError) error = NULL;
  GByteArray *pdf = g_byte_array_new ();
  double width, height;
  pf_sheet_page_size (sheet, &width, &height);
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (
      append_bytes, pdf, width * 72 / 25.4, height * 72 / 25.4);
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, 72 / 25.4, 72 / 25.4);
  g_assert_true (pf_sheet_draw_page (sheet, n, cr, &error));
  g_assert_no_error (error);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  g_autoptr (GBytes) bytes = g_byte_array_free_to_bytes (pdf);
  PopplerDocument *document = poppler_document_new_from_bytes (bytes, NULL, &error);
  g_assert_no_error (error);
  return document;
}

/* The middle of the ink within 0.8 mm of (x, y) mm on the page, along x, in points. */
static double
ink_near (PopplerPage *page, double x, double y)
{
  enum { DOTS = 40, WIDTH = 64, HEIGHT = 8 }; /* dots to the mm; dots */
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, DOTS * 25.4 / 72, DOTS * 25.4 / 72);
  const double left = x - WIDTH / 2.0 / DOTS, top = y - HEIGHT / 2.0 / DOTS;
  cairo_translate (cr, -left * 72 / 25.4, -top * 72 / 25.4);
  poppler_page_render (page, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  const guint8 *data = cairo_image_surface_get_data (surface);
  double ink = 0, moment = 0;
  for (int dot_y = 0; dot_y < HEIGHT; dot_y++)
    for (int dot_x = 0; dot_x < WIDTH; dot_x++)
      {
        const double dark =
            255 - data[dot_y * cairo_image_surface_get_stride (surface) + 4 * dot_x + 1];
        ink += dark;
        moment += dark * (dot_x + 0.5);
      }
  cairo_surface_destroy (surface);
  g_assert_cmpfloat (ink, >, 255);
  return (left + moment / ink / DOTS) * 72 / 25.4;
}

/* On the screen the ruler may count inches of 25.4 mm (the international yard of 1959), however
 * near they stand. */
static void
test_ruler_inches (void)
{
  PfPricking *pricking = flower ("armure", 4, PF_EDGE_HALF_STITCH);
  static const double across[] = { 0.2, 0.7, 1, 3, 12 };
  for (size_t a = 0; a < G_N_ELEMENTS (across); a++)
    {
      PfEdgeStrip strip = strip_of (pricking, 0, 0, 110 / across[a], across[a]);
      strip.inches = true;
      g_autoptr (PfStripLayout) layout = pf_strip_layout_new (&strip);
      PfPage *page = pf_page_new_window ((PfBox){ { 0, 0 }, { 110, 24 } }, 0);
      pf_strip_draw (page, &strip, layout, (PfPoint){ 0, 0 }, false);
      g_autofree char *svg = pf_page_finish (page);
      xmlDoc *doc = read_page (svg);
      g_autoptr (GPtrArray) words = elements_of (doc, "strip-ruler-words", "text");
      guint n = 0;
      for (guint i = 0; i < words->len; i++)
        {
          g_autofree char *text = text_of (g_ptr_array_index (words, i));
          const double x = number_of (g_ptr_array_index (words, i), "x");
          const double inches = g_ascii_strtod (text, NULL), mm = inches * 25.4;
          /* Past its end the loop begins anew. */
          const double length = layout->length / across[a], turn = mm * across[a] < x - 0.01;
          g_assert_cmpfloat_with_epsilon (x, (mm + turn * length) * across[a], 0.01);
          n++;
        }
      g_assert_cmpuint (n, >, 2);
      xmlFreeDoc (doc);
    }
  pf_pricking_free (pricking);
}

/* 100 mm of a strip's ruler are 100 / 25.4 · 72 = 283.465 points: an inch has 25.4 mm (the
 * international yard of 1959), a PDF's unit is 1/72 inch (ISO 32000-1, 8.3.2.3). */
static void
test_ruler_printed (void)
{
  PfPricking *pricking = flower ("armure", 4, PF_EDGE_HALF_STITCH);
  g_autoptr (PfSheet) sheet = sheet_with_strips (pricking);
  const size_t n = first_strip_page (sheet);
  xmlDoc *svg = read_page (pf_sheet_page_svg (sheet, n));
  g_autoptr (GPtrArray) words = elements_of (svg, "strip-ruler-words", "text");
  double start = NAN, end = NAN, y = NAN;
  for (guint i = 0; i < words->len; i++)
    {
      const xmlNode *word = g_ptr_array_index (words, i);
      g_autofree char *text = text_of (word);
      if (isnan (start) && strcmp (text, "20") == 0)
        start = number_of (word, "x");
      if (isnan (end) && strcmp (text, "120") == 0)
        end = number_of (word, "x");
      if (isnan (y))
        y = number_of (word, "y") - 2.7 + 1.15; /* where only the ticks of figures reach */
    }
  xmlFreeDoc (svg);
  PopplerDocument *document = print_page (sheet, n);
  PopplerPage *page = poppler_document_get_page (document, 0);
  const double points = ink_near (page, end, y) - ink_near (page, start, y);
  g_assert_cmpfloat_with_epsilon (points, 283.465, 0.1);
  g_object_unref (page);
  g_object_unref (document);
  pf_pricking_free (pricking);
}

static void
test_settings_of (void)
{
  g_autoptr (GError) error = NULL;
  PfDocument *document = pf_document_new ();
  PfDocument *copy = pf_document_copy (document);
  copy->page.paper = pf_paper_find ("A3", &error);
  copy->page.enlarge = 1.5;
  copy->page.mirror = true;
  copy->page.edge_strip = true;
  copy->page.background = !document->page.background;
  const PfSheetSettings plain = pf_sheet_settings_of (document);
  const PfSheetSettings settings = pf_sheet_settings_of (copy);
  g_assert_cmpstr (plain.paper->name, ==, "A4");
  g_assert_cmpfloat (plain.enlarge, ==, 1);
  g_assert_false (plain.edge_strip);
  g_assert_cmpstr (settings.paper->name, ==, "A3");
  g_assert_cmpfloat (settings.enlarge, ==, 1.5);
  g_assert_true (settings.mirror && settings.edge_strip);
  g_assert_false (settings.pins_only);
  g_assert_true (settings.background != plain.background);
  g_assert_null (settings.date);
  pf_document_unref (copy);
  pf_document_unref (document);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/edge-strip/positions", test_positions);
  g_test_add_func ("/sheet/edge-strip/layout", test_layout);
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *name = g_strdup_printf ("/sheet/edge-strip/pages/%s", cases[c].ground);
      g_test_add_data_func (name, &cases[c], test_pages);
    }
  g_test_add_func ("/sheet/edge-strip/cut", test_nothing_is_cut);
  g_test_add_func ("/sheet/edge-strip/stretches", test_stretches);
  g_test_add_func ("/sheet/edge-strip/ruler-inches", test_ruler_inches);
  g_test_add_func ("/sheet/edge-strip/ruler-printed", test_ruler_printed);
  g_test_add_func ("/sheet/edge-strip/settings-of", test_settings_of);
  return g_test_run ();
}
