/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-pictures.h"

#include <string.h>

#include <librsvg/rsvg.h>

typedef struct {
  PfGround *ground; /* referenced */
  PfGroundPicture picture;
  int side;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;
  pf_ground_free (job->ground);
  g_free (job);
}

static char *
page_of (const Job *job, GError **error)
{
  switch (job->picture)
    {
    case PF_GROUND_TILE_DRAWING:
      return pf_ground_tile_svg (job->ground);
    case PF_GROUND_DRAWING:
      return pf_ground_patch_svg (job->ground);
    case PF_GROUND_TILE_THREADS:
    case PF_GROUND_THREADS:
    default:
      return pf_ground_close_up_svg (job->ground, job->picture == PF_GROUND_TILE_THREADS, error);
    }
}

static void
draw_in_thread (GTask *task, gpointer source G_GNUC_UNUSED, gpointer data,
                GCancellable *cancellable G_GNUC_UNUSED)
{
  const Job *job = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *svg = page_of (job, &error);
  RsvgHandle *handle =
      svg != NULL ? rsvg_handle_new_from_data ((const guint8 *) svg, strlen (svg), &error) : NULL;
  if (handle == NULL)
    {
      g_task_return_error (task, g_steal_pointer (&error));
      return;
    }
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, job->side, job->side);
  cairo_t *cr = cairo_create (surface);
  const RsvgRectangle viewport = { 0, 0, job->side, job->side };
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  const bool drawn = rsvg_handle_render_document (handle, cr, &viewport, &error);
  g_object_unref (handle);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  if (drawn)
    g_task_return_pointer (task, surface, (GDestroyNotify) cairo_surface_destroy);
  else
    {
      cairo_surface_destroy (surface);
      g_task_return_error (task, g_steal_pointer (&error));
    }
}

void
pf_ground_picture_draw (PfGround *ground, PfGroundPicture picture, int side,
                        GCancellable *cancellable, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, data);
  Job *job = g_new (Job, 1);
  *job = (Job){ pf_ground_ref (ground), picture, side };
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, draw_in_thread);
}

GdkTexture *
pf_ground_picture_finish (GAsyncResult *result, GError **error)
{
  cairo_surface_t *surface = g_task_propagate_pointer (G_TASK (result), error);
  if (surface == NULL)
    return NULL;
  const int width = cairo_image_surface_get_width (surface);
  const int height = cairo_image_surface_get_height (surface);
  const gsize stride = (gsize) cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes =
      g_bytes_new_with_free_func (cairo_image_surface_get_data (surface), stride * (gsize) height,
                                  (GDestroyNotify) cairo_surface_destroy, surface);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, stride);
}
