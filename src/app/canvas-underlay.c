/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A scan has far more pixels than the screen. It is kept in sizes, each half of the one before; the
 * smallest that still has a pixel for every pixel of the screen is shown.
 */
#include "canvas-underlay.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "trace.h"

#define MAX_SIZES 12
/* A picture this small needs no smaller ones. */
#define SMALL 256

struct PfUnderlayPicture {
  char *file; /* NULL for none */
  PfAffine map;
  double strength;
  bool shown;
  cairo_surface_t *sizes[MAX_SIZES]; /* each half of the one before; NULL-terminated */
  char *trouble;
  GCancellable *reading; /* or NULL */

  void (*changed) (gpointer data);
  gpointer data;
};

/* --- The thread ---------------------------------------------------------------------------------
 */

typedef struct {
  char *file;
  cairo_surface_t *sizes[MAX_SIZES];
} Job;

static void
clear_sizes (cairo_surface_t **sizes)
{
  for (int s = 0; s < MAX_SIZES; s++)
    g_clear_pointer (&sizes[s], cairo_surface_destroy);
}

static void
job_free (gpointer data)
{
  Job *job = data;
  g_free (job->file);
  clear_sizes (job->sizes);
  g_free (job);
}

static cairo_surface_t *
read_whole (const char *file, GError **error)
{
  int width = 0, height = 0;
  if (gdk_pixbuf_get_file_info (file, &width, &height) != NULL &&
      (double) width * height > PF_SCAN_MAX_PIXELS)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("It has %d × %d pixels, which is too many. Scan it at 300 dots per inch."),
                   width, height);
      return NULL;
    }
  g_autoptr (GdkTexture) texture = gdk_texture_new_from_filename (file, error);
  if (texture == NULL)
    return NULL;
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, gdk_texture_get_width (texture), gdk_texture_get_height (texture));
  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS)
    {
      cairo_surface_destroy (surface);
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("It is too large. Scan it at 300 dots per inch."));
      return NULL;
    }
  gdk_texture_download (texture, cairo_image_surface_get_data (surface),
                        (gsize) cairo_image_surface_get_stride (surface));
  cairo_surface_mark_dirty (surface);
  return surface;
}

/* The mean of four pixels, one byte of each colour. */
static guint32
mean_of_four (guint32 a, guint32 b, guint32 c, guint32 d)
{
  const guint32 mask = 0x00ff00ff;
  const guint32 low = (a & mask) + (b & mask) + (c & mask) + (d & mask) + 0x00020002;
  const guint32 high =
      (a >> 8 & mask) + (b >> 8 & mask) + (c >> 8 & mask) + (d >> 8 & mask) + 0x00020002;
  return (low >> 2 & mask) | (high >> 2 & mask) << 8;
}

static cairo_surface_t *
half_of (cairo_surface_t *whole)
{
  const int width = cairo_image_surface_get_width (whole) / 2;
  const int height = cairo_image_surface_get_height (whole) / 2;
  cairo_surface_t *half = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  const guint8 *from = cairo_image_surface_get_data (whole);
  const int stride = cairo_image_surface_get_stride (whole);
  guint8 *to = cairo_image_surface_get_data (half);
  for (int y = 0; y < height; y++)
    {
      const guint32 *upper = (const guint32 *) (from + (gsize) 2 * y * stride);
      const guint32 *lower = (const guint32 *) (from + ((gsize) 2 * y + 1) * stride);
      guint32 *row = (guint32 *) (to + (gsize) y * cairo_image_surface_get_stride (half));
      for (int x = 0; x < width; x++)
        row[x] = mean_of_four (upper[2 * x], upper[2 * x + 1], lower[2 * x], lower[2 * x + 1]);
    }
  cairo_surface_mark_dirty (half);
  return half;
}

static void
read_in_thread (GTask *task, gpointer object G_GNUC_UNUSED, gpointer data,
                GCancellable *cancellable G_GNUC_UNUSED)
{
  Job *job = data;
  GError *error = NULL;
  job->sizes[0] = read_whole (job->file, &error);
  if (job->sizes[0] == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  for (int s = 1; s < MAX_SIZES - 1; s++)
    {
      cairo_surface_t *larger = job->sizes[s - 1];
      if (MIN (cairo_image_surface_get_width (larger), cairo_image_surface_get_height (larger)) <
          SMALL)
        break;
      job->sizes[s] = half_of (larger);
    }
  g_task_return_boolean (task, TRUE);
}

static void
reading_done (GObject *object G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  const bool read = g_task_propagate_boolean (G_TASK (result), &error);
  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return; /* another file is wanted by now, or none */
  PfUnderlayPicture *picture = data;
  Job *job = g_task_get_task_data (G_TASK (result));
  g_clear_object (&picture->reading);
  if (read)
    {
      memcpy (picture->sizes, job->sizes, sizeof picture->sizes);
      memset (job->sizes, 0, sizeof job->sizes);
    }
  else
    {
      g_autofree char *name = g_filename_display_basename (picture->file);
      picture->trouble =
          g_strdup_printf (_ ("The picture “%s” can’t be shown: %s"), name, error->message);
    }
  picture->changed (picture->data);
}

/* --- The picture --------------------------------------------------------------------------------
 */

PfUnderlayPicture *
pf_underlay_picture_new (void (*changed) (gpointer data), gpointer data)
{
  PfUnderlayPicture *picture = g_new0 (PfUnderlayPicture, 1);
  picture->changed = changed;
  picture->data = data;
  return picture;
}

static void
forget_file (PfUnderlayPicture *picture)
{
  if (picture->reading != NULL)
    g_cancellable_cancel (picture->reading);
  g_clear_object (&picture->reading);
  g_clear_pointer (&picture->file, g_free);
  g_clear_pointer (&picture->trouble, g_free);
  clear_sizes (picture->sizes);
}

void
pf_underlay_picture_free (PfUnderlayPicture *picture)
{
  forget_file (picture);
  g_free (picture);
}

static void
start_reading (PfUnderlayPicture *picture, const char *file)
{
  picture->file = g_strdup (file);
  picture->reading = g_cancellable_new ();
  Job *job = g_new0 (Job, 1);
  job->file = g_strdup (file);
  g_autoptr (GTask) task = g_task_new (NULL, picture->reading, reading_done, picture);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, read_in_thread);
}

void
pf_underlay_picture_set (PfUnderlayPicture *picture, const PfUnderlay *underlay)
{
  if (underlay == NULL || g_strcmp0 (underlay->file, picture->file) != 0)
    {
      forget_file (picture);
      if (underlay != NULL)
        start_reading (picture, underlay->file);
    }
  if (underlay == NULL)
    return;
  picture->map = underlay->map;
  picture->strength = underlay->strength;
  picture->shown = underlay->shown;
}

const char *
pf_underlay_picture_trouble (const PfUnderlayPicture *picture)
{
  return picture->shown || picture->file == NULL ? picture->trouble : NULL;
}

bool
pf_underlay_picture_box (const PfUnderlayPicture *picture, PfBox *box)
{
  if (picture->file == NULL || !picture->shown || picture->sizes[0] == NULL)
    return false;
  const double width = cairo_image_surface_get_width (picture->sizes[0]);
  const double height = cairo_image_surface_get_height (picture->sizes[0]);
  const PfPoint corners[] = { { 0, 0 }, { width, 0 }, { width, height }, { 0, height } };
  box->min = box->max = pf_affine_map (picture->map, corners[0]);
  for (size_t c = 1; c < G_N_ELEMENTS (corners); c++)
    {
      const PfPoint p = pf_affine_map (picture->map, corners[c]);
      box->min = (PfPoint){ fmin (box->min.x, p.x), fmin (box->min.y, p.y) };
      box->max = (PfPoint){ fmax (box->max.x, p.x), fmax (box->max.y, p.y) };
    }
  return true;
}

void
pf_underlay_picture_paint (const PfUnderlayPicture *picture, const PfCanvasView *view, bool smooth,
                           cairo_t *cr)
{
  if (picture->file == NULL || !picture->shown || picture->sizes[0] == NULL ||
      pf_affine_determinant (picture->map) == 0)
    return;
  PfAffine map = pf_affine_compose (pf_canvas_view_map (view), picture->map);
  int s = 0;
  double shrunk = sqrt (fabs (pf_affine_determinant (map)));
  for (; shrunk <= 0.5 && picture->sizes[s + 1] != NULL; s++)
    shrunk *= 2;
  /* Halves leave out an odd last row or column, so that a pixel of theirs is exactly two. */
  const double times = ldexp (1, s);
  map = pf_affine_compose (map, (PfAffine){ times, 0, 0, times, 0, 0 });
  cairo_save (cr);
  cairo_transform (cr, &(cairo_matrix_t){ map.xx, map.yx, map.xy, map.yy, map.x0, map.y0 });
  cairo_set_source_surface (cr, picture->sizes[s], 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr),
                            smooth ? CAIRO_FILTER_BILINEAR : CAIRO_FILTER_FAST);
  cairo_paint_with_alpha (cr, picture->strength);
  cairo_restore (cr);
}
