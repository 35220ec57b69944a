/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * PDF and PNG are the SVG page painted by librsvg, at true size: its mm become points or dots, and
 * nothing is drawn twice.
 */
#include "paint.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>
#include <librsvg/rsvg.h>

#include <shape.h>

#define POINTS_PER_MM (72 / 25.4)

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

bool
pf_paint_page (cairo_t *cairo, const char *page, double width, double height, GError **error)
{
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *) page, strlen (page), error);
  if (!handle)
    return false;
  rsvg_handle_set_dpi (handle, 96);
  const bool painted =
      rsvg_handle_render_document (handle, cairo, &(RsvgRectangle){ 0, 0, width, height }, error);
  g_object_unref (handle);
  return painted;
}

/* Finishes the surface; gives whether all went well. */
static bool
finish (cairo_t *cairo, cairo_surface_t *surface, GError **error)
{
  cairo_status_t status = cairo_status (cairo);
  cairo_destroy (cairo);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG, _ ("The sheet can't be painted: %s."),
               cairo_status_to_string (status));
  return false;
}

static void
set_words (cairo_surface_t *surface, PfPdfWords words)
{
  g_autoptr (GDateTime) when = g_date_time_new_from_unix_utc (words.created);
  g_autofree char *date = when ? g_date_time_format_iso8601 (when) : NULL;
  if (words.title)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, words.title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Pinfold");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                  date ? date : "1970-01-01T00:00:00Z");
}

GByteArray *
pf_paint_pdf (const char *const *pages, size_t n, double width, double height, PfPdfWords words,
              GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  const double w = width * POINTS_PER_MM, h = height * POINTS_PER_MM;
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, w, h);
  set_words (surface, words);
  cairo_t *cairo = cairo_create (surface);
  bool painted = true;
  for (size_t i = 0; i < n && painted; i++)
    {
      painted = pf_paint_page (cairo, pages[i], w, h, error);
      cairo_show_page (cairo);
    }
  const bool finished = finish (cairo, surface, painted ? error : NULL);
  return painted && finished ? g_steal_pointer (&bytes) : NULL;
}

/* Each mark lies below the last one of a lower level. Outlines deeper than this are made flat. */
enum { DEEPEST = 8 };

static void
add_outline (cairo_surface_t *surface, const GArray *marks)
{
  int parents[DEEPEST + 1] = { CAIRO_PDF_OUTLINE_ROOT };
  for (guint m = 0; m < marks->len; m++)
    {
      const PfPaintMark *mark = &g_array_index (marks, PfPaintMark, m);
      const int level = CLAMP (mark->level, 1, DEEPEST);
      g_autofree char *link = g_strdup_printf ("page=%u", mark->page + 1);
      const int id = cairo_pdf_surface_add_outline (surface, parents[level - 1], mark->text, link,
                                                    level == 1 ? CAIRO_PDF_OUTLINE_FLAG_OPEN
                                                               : (cairo_pdf_outline_flags_t) 0);
      for (int below = level; below <= DEEPEST; below++)
        parents[below] = id;
    }
}

GByteArray *
pf_paint_book (const GArray *pages, const GArray *marks, PfPdfWords words, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, 1, 1);
  set_words (surface, words);
  cairo_t *cairo = cairo_create (surface);
  bool painted = true;
  for (guint p = 0; p < pages->len && painted; p++)
    {
      const PfPaintPage *page = &g_array_index (pages, PfPaintPage, p);
      const double w = page->width * POINTS_PER_MM, h = page->height * POINTS_PER_MM;
      cairo_pdf_surface_set_size (surface, w, h);
      painted = pf_paint_page (cairo, page->svg, w, h, error);
      cairo_show_page (cairo);
    }
  add_outline (surface, marks);
  const bool finished = finish (cairo, surface, painted ? error : NULL);
  return painted && finished ? g_steal_pointer (&bytes) : NULL;
}

GByteArray *
pf_paint_png (const char *page, double width, double height, double dots, GError **error)
{
  const double w = round (width * dots), h = round (height * dots);
  if (!(w >= 1 && h >= 1 && w <= PF_PNG_MAX && h <= PF_PNG_MAX))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_TOO_BIG,
          _ ("A picture of %.0f by %.0f mm is too big: each side has at most %d dots, %.0f to "
             "the inch. Save it as PDF or SVG."),
          width, height, PF_PNG_MAX, 25.4 * dots);
      return NULL;
    }
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) w, (int) h);
  cairo_t *cairo = cairo_create (surface);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  bool painted = pf_paint_page (cairo, page, w, h, error);
  if (painted &&
      cairo_surface_write_to_png_stream (surface, append_bytes, bytes) != CAIRO_STATUS_SUCCESS)
    {
      g_set_error_literal (error, PF_ERROR, PF_ERROR_TOO_BIG,
                           _ ("There isn't enough memory for the picture."));
      painted = false;
    }
  const bool finished = finish (cairo, surface, painted ? error : NULL);
  return painted && finished ? g_steal_pointer (&bytes) : NULL;
}
