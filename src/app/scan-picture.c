/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Pictures to lay under the drawing. What a thread works on is its own: a file name, settings, and
 * what comes out.
 */
#include "scan-picture.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gi18n-lib.h>

#define MM_PER_INCH 25.4
#define DPI_MIN 30.0 /* what says less or more doesn't know */
#define DPI_MAX 10000.0

typedef struct {
  char *file;
  double width;
  PfTraceSettings settings;
  PfAffine map;
} Work;

static Work *
work_new (const char *file)
{
  Work *work = g_new0 (Work, 1);
  work->file = g_strdup (file);
  return work;
}

static void
work_free (void *data)
{
  Work *work = data;
  g_free (work->file);
  g_free (work);
}

static GdkPixbuf *
load (const char *file, GError **error)
{
  int width = 0, height = 0;
  if (gdk_pixbuf_get_file_info (file, &width, &height) != NULL &&
      (gint64) width * height > PF_SCAN_MAX_PIXELS)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("This picture has %d by %d pixels, which is too many. Scan it with fewer "
                      "dots to the inch: 300 are enough."),
                   width, height);
      return NULL;
    }
  return gdk_pixbuf_new_from_file (file, error);
}

static void
start (GTask *task, GTaskThreadFunc function, Work *work)
{
  g_task_set_task_data (task, work, work_free);
  g_task_set_return_on_cancel (task, TRUE);
  g_task_run_in_thread (task, function);
  g_object_unref (task);
}

/* --- Opening ------------------------------------------------------------------------------------
 */

static double
pixel_size (GdkPixbuf *picture, const char *key, double fallback)
{
  const char *text = gdk_pixbuf_get_option (picture, key);
  const double dpi = text != NULL ? g_ascii_strtod (text, NULL) : 0;
  return dpi >= DPI_MIN && dpi <= DPI_MAX ? MM_PER_INCH / dpi : fallback;
}

static void
open_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                GCancellable *cancellable G_GNUC_UNUSED)
{
  const Work *work = data;
  GError *error = NULL;
  g_autoptr (GdkPixbuf) picture = load (work->file, &error);
  if (picture == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  const double fit = work->width / gdk_pixbuf_get_width (picture);
  const double across = pixel_size (picture, "x-dpi", fit);
  PfUnderlay *underlay = g_new0 (PfUnderlay, 1);
  underlay->file = g_strdup (work->file);
  underlay->map = (PfAffine){ across, 0, 0, pixel_size (picture, "y-dpi", across), 0, 0 };
  underlay->strength = 0.5;
  underlay->shown = true;
  g_task_return_pointer (task, underlay, (GDestroyNotify) pf_scan_picture_free);
}

void
pf_scan_picture_open_async (const char *file, double width, GCancellable *cancellable,
                            GAsyncReadyCallback callback, gpointer data)
{
  Work *work = work_new (file);
  work->width = width;
  start (g_task_new (NULL, cancellable, callback, data), open_in_thread, work);
}

PfUnderlay *
pf_scan_picture_open_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
pf_scan_picture_free (PfUnderlay *underlay)
{
  g_free (underlay->file);
  g_free (underlay);
}

/* --- Tracing ------------------------------------------------------------------------------------
 */

typedef struct {
  GPtrArray *curves;
  bool *outer;
} Traced;

static void
traced_free (void *data)
{
  Traced *traced = data;
  g_clear_pointer (&traced->curves, g_ptr_array_unref);
  g_free (traced->outer);
  g_free (traced);
}

/* Rec. ITU-R BT.601-7, 2.5.1: luminance from red, green and blue; on white where it is clear. */
static guint8
grey_of (const guchar *pixel, bool has_alpha)
{
  const double grey = 0.299 * pixel[0] + 0.587 * pixel[1] + 0.114 * pixel[2];
  const double alpha = has_alpha ? pixel[3] / 255.0 : 1;
  return (guint8) (grey * alpha + 255 * (1 - alpha) + 0.5);
}

static guint8 *
to_grey (GdkPixbuf *picture)
{
  const int width = gdk_pixbuf_get_width (picture), height = gdk_pixbuf_get_height (picture);
  const int channels = gdk_pixbuf_get_n_channels (picture);
  const bool has_alpha = gdk_pixbuf_get_has_alpha (picture);
  guint8 *grey = g_malloc ((gsize) width * (gsize) height);
  for (int y = 0; y < height; y++)
    {
      const guchar *row =
          gdk_pixbuf_read_pixels (picture) + (gsize) y * (gsize) gdk_pixbuf_get_rowstride (picture);
      for (int x = 0; x < width; x++)
        grey[(gsize) y * (gsize) width + (gsize) x] = grey_of (row + x * channels, has_alpha);
    }
  return grey;
}

static void
trace_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                 GCancellable *cancellable)
{
  const Work *work = data;
  GError *error = NULL;
  g_autoptr (GdkPixbuf) picture = load (work->file, &error);
  if (picture == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  if (g_cancellable_is_cancelled (cancellable))
    return;
  g_autofree guint8 *grey = to_grey (picture);
  const int width = gdk_pixbuf_get_width (picture);
  const PfScan scan = { grey, width, gdk_pixbuf_get_height (picture), width };
  Traced *traced = g_new0 (Traced, 1);
  traced->curves = pf_scan_trace (&scan, &work->settings, work->map, &traced->outer, &error);
  if (traced->curves != NULL)
    {
      g_task_return_pointer (task, traced, traced_free);
      return;
    }
  traced_free (traced);
  g_task_return_error (task, error);
}

void
pf_scan_picture_trace_async (const PfUnderlay *underlay, const PfTraceSettings *settings,
                             GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  Work *work = work_new (underlay->file);
  work->settings = *settings;
  work->map = underlay->map;
  start (g_task_new (NULL, cancellable, callback, data), trace_in_thread, work);
}

GPtrArray *
pf_scan_picture_trace_finish (GAsyncResult *result, bool **outer, GError **error)
{
  Traced *traced = g_task_propagate_pointer (G_TASK (result), error);
  if (traced == NULL)
    return NULL;
  GPtrArray *curves = g_steal_pointer (&traced->curves);
  *outer = g_steal_pointer (&traced->outer);
  traced_free (traced);
  return curves;
}
