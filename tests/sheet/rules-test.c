/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The check rules and the size of the paper, measured in the PDF as Poppler renders it.
 *
 * Paper sizes: ISO 216 (A4 210 by 297 mm, A3 297 by 420 mm), ANSI/ASME Y14.1 (size A, 8.5 by 11
 * in).
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <poppler.h>

#include "paint.h"
#include "samples.h"

#define DOTS 20 /* to the mm */
#define SIDE 60 /* mm that are rendered */

typedef struct {
  guint8 *data; /* SIDE · DOTS squared, 0 for black */
  cairo_surface_t *surface;
  int stride;
} Picture;

/* Renders the square of SIDE mm with its top left at `from`. */
static Picture
render (PopplerPage *page, PfPoint from)
{
  Picture picture;
  picture.surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIDE * DOTS, SIDE * DOTS);
  cairo_t *cairo = cairo_create (picture.surface);
  cairo_set_source_rgb (cairo, 1, 1, 1);
  cairo_paint (cairo);
  cairo_scale (cairo, DOTS * 25.4 / 72, DOTS * 25.4 / 72);
  cairo_translate (cairo, -from.x * 72 / 25.4, -from.y * 72 / 25.4);
  poppler_page_render (page, cairo);
  g_assert_cmpint (cairo_status (cairo), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cairo);
  cairo_surface_flush (picture.surface);
  picture.data = cairo_image_surface_get_data (picture.surface);
  picture.stride = cairo_image_surface_get_stride (picture.surface);
  return picture;
}

/* How dark the dot at that place is, 0 to 1. */
static double
darkness (const Picture *picture, int x, int y)
{
  return 1 - picture->data[y * picture->stride + 4 * x + 1] / 255.0;
}

/* Along a line of dots across, or up and down if `upright`, the middle of the ink within 1 mm of
 * `near`, in mm from the picture's corner. */
static double
ink_near (const Picture *picture, bool upright, double line, double near)
{
  double ink = 0, moment = 0;
  const int l = (int) lround (line * DOTS);
  for (int i = (int) lround ((near - 1) * DOTS); i < (int) lround ((near + 1) * DOTS); i++)
    {
      const double d = upright ? darkness (picture, l, i) : darkness (picture, i, l);
      ink += d;
      moment += d * (i + 0.5);
    }
  g_assert_cmpfloat (ink, >, 0.5);
  return moment / ink / DOTS;
}

/* The rule's line itself has no gap. */
static void
check_whole (const Picture *picture, bool upright, double line, double from, double to)
{
  for (int i = (int) ceil (from * DOTS) + 1; i < (int) floor (to * DOTS) - 1; i++)
    {
      double most = 0;
      for (int l = (int) ((line - 0.1) * DOTS); l <= (int) ((line + 0.1) * DOTS); l++)
        most = fmax (most, upright ? darkness (picture, l, i) : darkness (picture, i, l));
      g_assert_cmpfloat (most, >, 0.5);
    }
}

/* Where the rules start, as the SVG page has it. */
static PfPoint
corner_of_rules (const PfSheet *sheet)
{
  xmlDoc *svg = read_page (pf_sheet_page_svg (sheet, 0));
  g_autoptr (GPtrArray) lines = elements_of (svg, "rule-across", "line");
  const xmlNode *line = g_ptr_array_index (lines, 0);
  const PfPoint corner = { number_of (line, "x1"), number_of (line, "y1") };
  xmlFreeDoc (svg);
  return corner;
}

static void
check_rules (PopplerPage *page, PfPoint corner)
{
  const PfPoint from = { corner.x - 4, corner.y - 54 };
  const PfPoint start = { 4, 54 };
  Picture picture = render (page, from);
  /* Half a mm beside the rule only its ticks have ink. */
  const double left = ink_near (&picture, false, start.y + 0.5, start.x);
  const double right = ink_near (&picture, false, start.y + 0.5, start.x + 50);
  const double foot = ink_near (&picture, true, start.x + 0.5, start.y);
  const double top = ink_near (&picture, true, start.x + 0.5, start.y - 50);
  g_assert_cmpfloat_with_epsilon (right - left, 50.0, 0.05);
  g_assert_cmpfloat_with_epsilon (foot - top, 50.0, 0.05);
  check_whole (&picture, false, start.y, left, right);
  check_whole (&picture, true, start.x, top, foot);
  cairo_surface_destroy (picture.surface);
}

typedef struct {
  const char *paper;
  double width, height; /* mm, upright */
} Paper;

static const Paper papers[] = { { "A4", 210, 297 },
                                { "A3", 297, 420 },
                                { "Letter", 215.9, 279.4 } };

static void
check_size (PopplerPage *page, const Paper *paper)
{
  double width, height;
  poppler_page_get_size (page, &width, &height);
  width *= 25.4 / 72;
  height *= 25.4 / 72;
  g_assert_cmpfloat_with_epsilon (fmin (width, height), paper->width, 0.01);
  g_assert_cmpfloat_with_epsilon (fmax (width, height), paper->height, 0.01);
}

static PopplerDocument *
open_pdf (const PfSheet *sheet)
{
  g_autoptr (GError) error = NULL;
  double width, height;
  pf_sheet_page_size (sheet, &width, &height);
  const size_t n = pf_sheet_n_pages (sheet);
  const char **pages = g_new (const char *, n);
  for (size_t i = 0; i < n; i++)
    pages[i] = pf_sheet_page_svg (sheet, i);
  g_autoptr (GByteArray) pdf =
      pf_paint_pdf (pages, n, width, height, (PfPdfWords){ "Rules", 0 }, &error);
  g_assert_no_error (error);
  g_free (pages);
  g_autoptr (GBytes) bytes = g_byte_array_free_to_bytes (g_steal_pointer (&pdf));
  PopplerDocument *document = poppler_document_new_from_bytes (bytes, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, (int) n);
  return document;
}

static void
check_sheet (const PfPricking *pricking, const Paper *paper, double enlarge, bool mirror)
{
  g_autoptr (GError) error = NULL;
  PfSheetSettings settings = sample_settings (paper->paper);
  settings.enlarge = enlarge;
  settings.mirror = mirror;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  g_test_message ("%s, %g : 1, %zu pages", paper->paper, enlarge, pf_sheet_n_pages (sheet));
  const PfPoint corner = corner_of_rules (sheet);
  PopplerDocument *document = open_pdf (sheet);
  const int last = (int) pf_sheet_n_pages (sheet) - 1;
  for (int i = 0; i <= last; i += MAX (1, last))
    {
      PopplerPage *page = poppler_document_get_page (document, i);
      check_size (page, paper);
      check_rules (page, corner);
      g_object_unref (page);
    }
  g_object_unref (document);
}

static void
test_rules (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 6, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      check_sheet (pricking, &papers[i], 1, false);
      check_sheet (pricking, &papers[i], 3, i == 0);
    }
  check_sheet (pricking, &papers[0], 0.5, false);
  pf_pricking_free (pricking);
}

/* What a printer makes of a page that was corrected for it: the rules are true again on its paper,
 * whichever way the page lies. A printer that prints the short side `across` and the long side
 * `down` times as long as it should is stood in for by that map. */
static void
test_printer (void)
{
  static const double printers[][2] = { { 0.985, 1.012 }, { 1.02, 0.99 } };
  static const char *const shapes[] = { "<rect x='10' y='10' width='120' height='150'/>",
                                        "<rect x='10' y='10' width='250' height='90'/>" };
  bool lay[2] = { false, false };
  for (size_t n = 0; n < G_N_ELEMENTS (printers) * G_N_ELEMENTS (shapes); n++)
    {
      g_autoptr (GError) error = NULL;
      const double *printer = printers[n / 2];
      PfPricking *pricking = sample_drawing ("Printer", shapes[n % 2], "torchon", 10);
      PfSheetSettings settings = sample_settings ("A4");
      settings.printer = (PfPrinterRules){ 50 * printer[0], 50 * printer[1] };
      settings.edge_strip = true;
      g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
      g_assert_no_error (error);
      double width, height;
      pf_sheet_page_size (sheet, &width, &height);
      g_assert_cmpfloat_with_epsilon (fmin (width, height), 210, 1e-9);
      g_assert_cmpfloat_with_epsilon (fmax (width, height), 297, 1e-9);
      const bool lies = width > height;
      lay[lies] = true;
      for (size_t p = 0; p < pf_sheet_n_pages (sheet); p++)
        {
          /* How long a mm of the drawing is on the page, across and down: from the SVG's own size
           * and its viewBox, which it fills both ways. */
          xmlDoc *svg = read_page (pf_sheet_page_svg (sheet, p));
          const xmlNode *root = xmlDocGetRootElement (svg);
          xmlChar *box = xmlGetProp (root, (const xmlChar *) "viewBox");
          double view[4];
          g_assert_cmpint (sscanf ((const char *) box, "%lf %lf %lf %lf", &view[0], &view[1],
                                   &view[2], &view[3]),
                           ==, 4);
          const double across = width / view[2] * printer[lies ? 1 : 0];
          const double down = height / view[3] * printer[lies ? 0 : 1];
          g_assert_cmpfloat_with_epsilon (50 * across, 50, 0.005);
          g_assert_cmpfloat_with_epsilon (50 * down, 50, 0.005);
          xmlFree (box);
          xmlFreeDoc (svg);
        }
      g_assert_nonnull (strstr (pf_sheet_page_svg (sheet, 0), "Only for a printer on which 50 mm"));
      /* And in the PDF, as rendered: as long as they must be for that printer. */
      PopplerDocument *document = open_pdf (sheet);
      PopplerPage *page = poppler_document_get_page (document, 0);
      const double stretch[] = { 1 / printer[lies ? 1 : 0], 1 / printer[lies ? 0 : 1] };
      const PfPoint corner = corner_of_rules (sheet);
      const PfPoint start = { corner.x * stretch[0], corner.y * stretch[1] };
      Picture picture = render (page, (PfPoint){ start.x - 4, start.y - 54 });
      const double left = ink_near (&picture, false, 54.5, 4);
      const double right = ink_near (&picture, false, 54.5, 4 + 50 * stretch[0]);
      const double foot = ink_near (&picture, true, 4.5, 54);
      const double top = ink_near (&picture, true, 4.5, 54 - 50 * stretch[1]);
      g_assert_cmpfloat_with_epsilon ((right - left) / stretch[0], 50.0, 0.05);
      g_assert_cmpfloat_with_epsilon ((foot - top) / stretch[1], 50.0, 0.05);
      cairo_surface_destroy (picture.surface);
      g_object_unref (page);
      g_object_unref (document);
      pf_pricking_free (pricking);
    }
  g_assert_true (lay[0] && lay[1]);
}

/* What no printer does is refused. */
static void
test_wrong_printer (void)
{
  static const PfPrinterRules wrong[] = { { 44.9, 50 }, { 50, 55.1 },     { 0, 50 },
                                          { NAN, 50 },  { 50, INFINITY }, { -50, 50 } };
  for (size_t w = 0; w < G_N_ELEMENTS (wrong); w++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_false (pf_printer_check (&wrong[w], &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_SETTING);
    }
  g_assert_true (pf_printer_check (&(PfPrinterRules){ 0, 0 }, NULL));
}

/* The outline itself is at true size: a rectangle of 100 by 80 mm. */
static void
test_true_size (void)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking =
      sample_drawing ("Rectangle", "<rect x='10' y='10' width='100' height='80'/>", "torchon", 10);
  PfSheetSettings settings = sample_settings ("A4");
  settings.pins_only = true;
  g_autoptr (PfSheet) sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  xmlDoc *svg = read_page (pf_sheet_page_svg (sheet, 0));
  g_autoptr (GPtrArray) outlines = elements_of (svg, "outline", "polyline");
  g_autoptr (GArray) points = points_of (g_ptr_array_index (outlines, 0));
  const PfPoint at = g_array_index (points, PfPoint, 0);
  xmlFreeDoc (svg);

  /* Its left and right sides, and its top and bottom, in the rendered page. */
  PopplerDocument *document = open_pdf (sheet);
  PopplerPage *page = poppler_document_get_page (document, 0);
  Picture near_corner = render (page, (PfPoint){ at.x - 5, at.y - 5 });
  Picture far_corner = render (page, (PfPoint){ at.x + 50, at.y + 40 });
  const double left = at.x - 5 + ink_near (&near_corner, false, 6, 5);
  const double right = at.x + 50 + ink_near (&far_corner, false, 39, 50);
  const double top = at.y - 5 + ink_near (&near_corner, true, 6, 5);
  const double bottom = at.y + 40 + ink_near (&far_corner, true, 49, 40);
  g_assert_cmpfloat_with_epsilon (right - left, 100, 0.05);
  g_assert_cmpfloat_with_epsilon (bottom - top, 80, 0.05);
  cairo_surface_destroy (near_corner.surface);
  cairo_surface_destroy (far_corner.surface);
  g_object_unref (page);
  g_object_unref (document);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/rules/length", test_rules);
  g_test_add_func ("/sheet/rules/printer", test_printer);
  g_test_add_func ("/sheet/rules/wrong-printer", test_wrong_printer);
  g_test_add_func ("/sheet/rules/true-size", test_true_size);
  return g_test_run ();
}
