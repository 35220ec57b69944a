/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * True size on paper: 100 mm are 283.465 points (a point is 1/72 of an inch of 25.4 mm: ISO
 * 32000-1, 8.3.2.3), measured by Poppler in what a print operation exports.
 */
#include <print-operation.h>

#include <math.h>

#include <glib/gstdio.h>
#include <poppler.h>

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PopplerDocument, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PopplerPage, g_object_unref)

#define POINTS_PER_MM (72 / 25.4)

typedef struct {
  const char *paper;
  double width, height; /* upright, mm */
  bool lies[2];         /* each of two pages */
  bool fails;           /* the second page can't be drawn */
} Case;

static bool
lies (gpointer data, size_t n)
{
  const Case *this = data;
  return this->lies[n];
}

/* On page n a black bar 100 mm long and a bar 100 mm high that begin 10 + n mm from the left and 20
 * mm from the top. */
static bool
draw_bars (gpointer data, size_t n, cairo_t *cr, GError **error)
{
  const Case *this = data;
  if (this->fails && n == 1)
    {
      g_set_error_literal (error, PF_ERROR, PF_ERROR_FILE, "a page that can't be drawn");
      return false;
    }
  cairo_rectangle (cr, 10 + (double) n, 20, 100, 1);
  cairo_rectangle (cr, 10 + (double) n, 20, 1, 100);
  cairo_fill (cr);
  return true;
}

static char *
export_to (const Case *this, GtkPrintOperation **operation)
{
  char *path = NULL;
  g_close (g_file_open_tmp ("pinfold-print-XXXXXX.pdf", &path, NULL), NULL);
  const PfPrintJob job = {
    .title = "Bars",
    .paper = pf_paper_find (this->paper, NULL),
    .n_pages = 2,
    .copies = 1,
    .lies = lies,
    .draw = draw_bars,
    .data = (gpointer) this,
  };
  *operation = pf_print_operation_new (&job);
  gtk_print_operation_set_export_filename (*operation, path);
  return path;
}

/* The ink of a page in points, from a picture with 8 pixels to the point. */
static PfBox
ink_of (PopplerPage *page)
{
  enum { FINE = 8 };
  double width, height;
  poppler_page_get_size (page, &width, &height);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_A8, (int) ceil (width * FINE),
                                                         (int) ceil (height * FINE));
  cairo_t *cr = cairo_create (picture);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_NONE);
  cairo_scale (cr, FINE, FINE);
  poppler_page_render_for_printing (page, cr);
  cairo_destroy (cr);
  cairo_surface_flush (picture);
  const guchar *rows = cairo_image_surface_get_data (picture);
  const int stride = cairo_image_surface_get_stride (picture);
  PfBox box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };
  for (int y = 0; y < cairo_image_surface_get_height (picture); y++)
    for (int x = 0; x < cairo_image_surface_get_width (picture); x++)
      if (rows[y * stride + x] > 127)
        {
          box.min = (PfPoint){ fmin (box.min.x, x), fmin (box.min.y, y) };
          box.max = (PfPoint){ fmax (box.max.x, x + 1), fmax (box.max.y, y + 1) };
        }
  cairo_surface_destroy (picture);
  return (PfBox){ { box.min.x / FINE, box.min.y / FINE }, { box.max.x / FINE, box.max.y / FINE } };
}

static void
test_true_size (gconstpointer data)
{
  const Case *this = data;
  g_autoptr (GtkPrintOperation) operation = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = export_to (this, &operation);
  g_assert_cmpint (
      gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error), ==,
      GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  g_assert_null (pf_print_operation_trouble (operation));

  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  g_autoptr (PopplerDocument) document = poppler_document_new_from_file (uri, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 2);
  for (int n = 0; n < 2; n++)
    {
      g_autoptr (PopplerPage) page = poppler_document_get_page (document, n);
      double width, height;
      poppler_page_get_size (page, &width, &height);
      const bool turned = this->lies[n];
      g_assert_cmpfloat_with_epsilon (turned ? height : width, this->width * POINTS_PER_MM, 0.01);
      g_assert_cmpfloat_with_epsilon (turned ? width : height, this->height * POINTS_PER_MM, 0.01);
      const PfBox ink = ink_of (page);
      const double pixel = 0.13; /* an eighth of a point */
      g_assert_cmpfloat_with_epsilon (ink.max.x - ink.min.x, 283.465, pixel);
      g_assert_cmpfloat_with_epsilon (ink.max.y - ink.min.y, 283.465, pixel);
      g_assert_cmpfloat_with_epsilon (ink.min.x, (10 + n) * POINTS_PER_MM, pixel);
      g_assert_cmpfloat_with_epsilon (ink.min.y, 20 * POINTS_PER_MM, pixel);
    }
  g_remove (path);
}

static void
test_trouble (void)
{
  const Case this = { "A4", 210, 297, .fails = true };
  g_autoptr (GtkPrintOperation) operation = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = export_to (&this, &operation);
  g_assert_cmpint (
      gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error), !=,
      GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_error (pf_print_operation_trouble (operation), PF_ERROR, PF_ERROR_FILE);
  g_remove (path);
}

static void
test_copies (void)
{
  Case this = { "Letter", 215.9, 279.4, .lies = { true } };
  const PfPrintJob job = {
    .title = "Bars",
    .paper = pf_paper_find (this.paper, NULL),
    .n_pages = 1,
    .copies = 3,
    .lies = lies,
    .draw = draw_bars,
    .data = &this,
  };
  g_autoptr (GtkPrintOperation) operation = pf_print_operation_new (&job);
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (operation);
  g_assert_cmpint (gtk_print_settings_get_n_copies (settings), ==, 3);
  g_assert_cmpfloat (gtk_print_settings_get_scale (settings), ==, 100);
  GtkPageSetup *setup = gtk_print_operation_get_default_page_setup (operation);
  g_assert_cmpstr (gtk_paper_size_get_name (gtk_page_setup_get_paper_size (setup)), ==,
                   "na_letter");
  g_assert_cmpint (gtk_page_setup_get_orientation (setup), ==, GTK_PAGE_ORIENTATION_LANDSCAPE);
}

int
main (int argc, char **argv)
{
  /* ISO 216 and ANSI/ASME Y14.1, upright and lying. */
  static const Case cases[] = {
    { "A4", 210, 297, .lies = { false, false } },
    { "A4", 210, 297, .lies = { true, true } },
    { "A4", 210, 297, .lies = { true, false } },
    { "A4", 210, 297, .lies = { false, true } },
    { "A3", 297, 420, .lies = { false, false } },
    { "Letter", 215.9, 279.4, .lies = { false, false } },
    { "Letter", 215.9, 279.4, .lies = { true, true } },
  };
  gtk_disable_setlocale ();
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *name = g_strdup_printf ("/app/print/true-size/%s/%s-%s", cases[i].paper,
                                               cases[i].lies[0] ? "lying" : "upright",
                                               cases[i].lies[1] ? "lying" : "upright");
      g_test_add_data_func (name, &cases[i], test_true_size);
    }
  g_test_add_func ("/app/print/trouble", test_trouble);
  g_test_add_func ("/app/print/copies", test_copies);
  return g_test_run ();
}
