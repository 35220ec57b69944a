/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One shot is kept, of the current motifs. It is drawn at once by cairo when there is none, and
 * replaced by one that librsvg painted when the view has been still for a moment. One thread works
 * at a time, on scenes of its own.
 */
#include "canvas-picture.h"

#include <math.h>

#include <librsvg/rsvg.h>

/* How long the view has to be still, ms. */
#define STILL_MS 80
/* Pixels painted beyond the window, so that there is something to pan to. */
#define MARGIN 240
/* When drawing at once takes longer, ms, what is inside the shape waits for the thread, while the
 * lines at its edge are still drawn. */
#define AT_ONCE_MS 12
/* What takes no longer is drawn again for each view until the thread is done. */
#define AGAIN_MS 6
/* How high numbers of pinholes are that are there from near, pixels. */
#define CLOSE_UP 11.0

/* What a picture is made from, shared with the thread. */
typedef struct {
  gatomicrefcount refs;
  PfPricking *pricking;
  PfScene *scene;    /* without numbers: for the main thread */
  PfScene *numbered; /* for the thread that paints */
  bool no_svg;       /* librsvg couldn't paint it */
} Source;

typedef struct {
  Source *source;
  PfLayers layers;
  PfLook look;
  PfShot *shot;
  GArray *numbers;       /* of PfNumber, in the shot */
  GCancellable *closing; /* cancelled: the picture is gone */
} Job;

/* When drawing at once was slow. */
typedef struct {
  double pixel; /* mm to the pixel; 0: it wasn't */
  size_t stitches;
} Slow;

struct PfPicture {
  Source *source; /* NULL before the first pricking */
  PfLayers layers;
  PfLook look;
  PfShot *shot;    /* of `source`, `layers` and `look`, or NULL */
  bool painted;    /* by librsvg */
  GArray *numbers; /* of PfNumber: those in the shot, or NULL */

  PfCanvasView wanted; /* the view shown last, and its scale */
  int wanted_scale;
  guint timeout;
  GCancellable *running; /* of the thread, or NULL */
  GCancellable *closing;

  Slow slow_threads; /* drawing them at once */
  Slow slow;         /* all else */
  gint64 took;       /* µs to draw the shot at once */

  void (*changed) (gpointer data);
  gpointer data;
};

/* --- Sources ------------------------------------------------------------------------------------
 */

static Source *
source_new (PfPricking *pricking)
{
  Source *source = g_new0 (Source, 1);
  g_atomic_ref_count_init (&source->refs);
  source->pricking = pricking;
  source->scene = pf_scene_new (pricking, false);
  return source;
}

static Source *
source_ref (Source *source)
{
  g_atomic_ref_count_inc (&source->refs);
  return source;
}

static void
source_unref (Source *source)
{
  if (!g_atomic_ref_count_dec (&source->refs))
    return;
  pf_scene_free (source->scene);
  pf_scene_free (source->numbered);
  pf_pricking_free (source->pricking);
  g_free (source);
}

static bool
same_motifs (const PfPricking *a, const PfPricking *b)
{
  if (a->motifs->len != b->motifs->len || a->background != b->background || a->width != b->width ||
      a->height != b->height)
    return false;
  for (guint m = 0; m < a->motifs->len; m++)
    if (g_ptr_array_index (a->motifs, m) != g_ptr_array_index (b->motifs, m))
      return false;
  return true;
}

static size_t
count_stitches (const PfPricking *pricking)
{
  size_t n = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      n += motif->filling != NULL ? motif->filling->n_stitches : 0;
    }
  return n;
}

/* --- The thread ---------------------------------------------------------------------------------
 */

static void
job_free (gpointer data)
{
  Job *job = data;
  source_unref (job->source);
  pf_shot_free (job->shot);
  g_clear_pointer (&job->numbers, g_array_unref);
  g_object_unref (job->closing);
  g_free (job);
}

static bool
paint_svg (const char *svg, const PfShot *shot, PfBox window, GError **error)
{
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *) svg, strlen (svg), error);
  if (handle == NULL)
    return false;
  const RsvgRectangle viewport = { window.min.x, window.min.y, window.max.x - window.min.x,
                                   window.max.y - window.min.y };
  cairo_t *cr = pf_shot_cairo (shot);
  const bool painted = rsvg_handle_render_document (handle, cr, &viewport, error);
  cairo_destroy (cr);
  g_object_unref (handle);
  return painted;
}

static void
paint_in_thread (GTask *task, gpointer object G_GNUC_UNUSED, gpointer data,
                 GCancellable *cancellable G_GNUC_UNUSED)
{
  Job *job = data;
  Source *source = job->source;
  if (source->numbered == NULL)
    source->numbered = pf_scene_new (source->pricking, true);
  if (g_task_return_error_if_cancelled (task))
    return;
  const PfBox window = pf_canvas_view_window (&job->shot->view, MARGIN + job->shot->view.inset);
  const double pixel = pf_canvas_view_pixel (&job->shot->view) / job->shot->scale;
  pf_scene_set_look (source->numbered, &job->look);
  pf_scene_number_pinholes (source->numbered, CLOSE_UP * pf_canvas_view_pixel (&job->shot->view));
  job->numbers = pf_scene_numbers (source->numbered);
  g_autofree char *svg = pf_scene_svg (source->numbered, job->layers, window, pixel);
  if (g_task_return_error_if_cancelled (task))
    return;
  GError *error = NULL;
  if (paint_svg (svg, job->shot, window, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
drop_shot (PfPicture *picture)
{
  g_clear_pointer (&picture->shot, pf_shot_free);
  g_clear_pointer (&picture->numbers, g_array_unref);
}

static void
draw_at_once (PfPicture *picture, const PfCanvasView *view, int scale, PfLayers layers)
{
  drop_shot (picture);
  picture->shot = pf_shot_new (view, 0, scale);
  picture->painted = false;
  cairo_t *cr = pf_shot_cairo (picture->shot);
  pf_scene_set_look (picture->source->scene, &picture->look);
  pf_scene_draw (picture->source->scene, layers, pf_canvas_view_window (view, view->inset),
                 pf_canvas_view_pixel (view) / scale, cr);
  cairo_destroy (cr);
}

static void start_or_wait (PfPicture *picture);

static void
job_done (GObject *object G_GNUC_UNUSED, GAsyncResult *result, gpointer data)
{
  PfPicture *picture = data;
  GTask *task = G_TASK (result);
  Job *job = g_task_get_task_data (task);
  g_autoptr (GError) error = NULL;
  const bool painted = g_task_propagate_boolean (task, &error);
  if (g_cancellable_is_cancelled (job->closing))
    return;
  g_clear_object (&picture->running);
  if (job->source == picture->source && job->layers == picture->layers &&
      pf_look_equal (&job->look, &picture->look))
    {
      if (painted)
        {
          drop_shot (picture);
          picture->shot = g_steal_pointer (&job->shot);
          picture->numbers = g_steal_pointer (&job->numbers);
          picture->painted = true;
        }
      else if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        {
          /* More elements than librsvg reads, most likely. */
          job->source->no_svg = true;
          draw_at_once (picture, &picture->wanted, picture->wanted_scale, picture->layers);
        }
      picture->changed (picture->data);
    }
  else
    start_or_wait (picture);
}

static void
start_job (PfPicture *picture)
{
  Job *job = g_new0 (Job, 1);
  job->source = source_ref (picture->source);
  job->layers = picture->layers;
  job->look = picture->look;
  job->shot = pf_shot_new (&picture->wanted, MARGIN, picture->wanted_scale);
  job->closing = g_object_ref (picture->closing);
  picture->running = g_cancellable_new ();
  g_autoptr (GTask) task = g_task_new (NULL, picture->running, job_done, picture);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, paint_in_thread);
}

/* --- What is shown ------------------------------------------------------------------------------
 */

/* Where there is anything to see, mm. */
static PfBox
sheet_box (const PfPicture *picture)
{
  const PfPricking *pricking = picture->source->pricking;
  PfBox box = { { 0, 0 }, { pricking->width, pricking->height } };
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfBox own = ((PfMotif *) g_ptr_array_index (pricking->motifs, m))->region->box;
      box.min = (PfPoint){ fmin (box.min.x, own.min.x), fmin (box.min.y, own.min.y) };
      box.max = (PfPoint){ fmax (box.max.x, own.max.x), fmax (box.max.y, own.max.y) };
    }
  return box;
}

bool
pf_picture_is_sharp (const PfPicture *picture)
{
  return picture->shot != NULL && (picture->painted || picture->source->no_svg) &&
         pf_shot_is_sharp_for (picture->shot, &picture->wanted, picture->wanted_scale) &&
         pf_shot_covers (picture->shot, &picture->wanted, sheet_box (picture));
}

static gboolean
view_is_still (gpointer data)
{
  PfPicture *picture = data;
  picture->timeout = 0;
  if (picture->source->no_svg)
    {
      draw_at_once (picture, &picture->wanted, picture->wanted_scale, picture->layers);
      picture->changed (picture->data);
    }
  else if (picture->running == NULL)
    start_job (picture);
  return G_SOURCE_REMOVE;
}

/* A view that is only moved gets its shot as soon as it runs out of the old one; else when it has
 * been still for a moment. */
static void
start_or_wait (PfPicture *picture)
{
  const bool moved = picture->shot != NULL && picture->painted &&
                     pf_shot_is_sharp_for (picture->shot, &picture->wanted, picture->wanted_scale);
  if (picture->running != NULL)
    return;
  g_clear_handle_id (&picture->timeout, g_source_remove);
  picture->timeout = g_timeout_add (moved ? 0 : STILL_MS, view_is_still, picture);
}

static bool
will_be_slow (const PfPicture *picture, Slow slow, double pixel)
{
  const double zoomed = slow.pixel / pixel;
  const size_t n = count_stitches (picture->source->pricking);
  return zoomed > 0.7 && zoomed < 1.4 && n > slow.stitches / 2;
}

/* Of threads that take too long the pair lines are shown, unless these do too. */
static PfLayers
layers_at_once (const PfPicture *picture, double pixel)
{
  const PfLayers inner = PF_LAYER_PAIR_LINES | PF_LAYER_PINS | PF_LAYER_BEADS;
  PfLayers layers = picture->layers;
  if (will_be_slow (picture, picture->slow_threads, pixel))
    layers &= ~PF_LAYER_THREADS;
  if ((layers & PF_LAYER_THREADS) == 0 && will_be_slow (picture, picture->slow, pixel))
    layers &= ~inner;
  return layers;
}

static void
draw_what_is_quick (PfPicture *picture, const PfCanvasView *view, int scale)
{
  const double pixel = pf_canvas_view_pixel (view);
  const PfLayers layers = layers_at_once (picture, pixel);
  const gint64 start = g_get_monotonic_time ();
  draw_at_once (picture, view, scale, layers);
  picture->took = g_get_monotonic_time () - start;
  const Slow slow = { picture->took > AT_ONCE_MS * 1000 ? pixel : 0,
                      count_stitches (picture->source->pricking) };
  if (layers & PF_LAYER_THREADS)
    picture->slow_threads = slow;
  else if (layers == (picture->layers & ~PF_LAYER_THREADS))
    picture->slow = slow;
}

PfShot *
pf_picture_shot (PfPicture *picture, const PfCanvasView *view, int scale)
{
  if (picture->source == NULL)
    return NULL;
  const bool still =
      pf_canvas_view_equal (view, &picture->wanted) && scale == picture->wanted_scale;
  picture->wanted = *view;
  picture->wanted_scale = scale;
  if (picture->shot == NULL || (!picture->painted && !still && picture->took < AGAIN_MS * 1000))
    draw_what_is_quick (picture, view, scale);
  if (!pf_picture_is_sharp (picture) && !(still && picture->timeout != 0))
    start_or_wait (picture);
  return picture->shot;
}

/* --- The picture --------------------------------------------------------------------------------
 */

PfPicture *
pf_picture_new (void (*changed) (gpointer data), gpointer data)
{
  PfPicture *picture = g_new0 (PfPicture, 1);
  picture->layers = PF_LAYER_ALL;
  picture->look = pf_look_printed ();
  picture->closing = g_cancellable_new ();
  picture->changed = changed;
  picture->data = data;
  return picture;
}

void
pf_picture_free (PfPicture *picture)
{
  g_clear_handle_id (&picture->timeout, g_source_remove);
  drop_shot (picture);
  g_clear_pointer (&picture->source, source_unref);
  if (picture->running != NULL)
    g_cancellable_cancel (picture->running);
  g_clear_object (&picture->running);
  g_cancellable_cancel (picture->closing);
  g_object_unref (picture->closing);
  g_free (picture);
}

static void
forget_shot (PfPicture *picture)
{
  drop_shot (picture);
  g_clear_handle_id (&picture->timeout, g_source_remove);
  if (picture->running != NULL)
    g_cancellable_cancel (picture->running);
}

bool
pf_picture_set_pricking (PfPicture *picture, PfPricking *pricking)
{
  if (picture->source != NULL && same_motifs (picture->source->pricking, pricking))
    {
      pf_pricking_free (pricking);
      return false;
    }
  forget_shot (picture);
  g_clear_pointer (&picture->source, source_unref);
  picture->source = source_new (pricking);
  return true;
}

bool
pf_picture_set_layers (PfPicture *picture, PfLayers layers)
{
  if (layers == picture->layers)
    return false;
  picture->layers = layers;
  forget_shot (picture);
  return true;
}

bool
pf_picture_set_look (PfPicture *picture, const PfLook *look)
{
  if (pf_look_equal (look, &picture->look))
    return false;
  picture->look = *look;
  forget_shot (picture);
  return true;
}

PfLayers
pf_picture_layers (const PfPicture *picture)
{
  return picture->layers;
}

const PfNumber *
pf_picture_find_number (const PfPicture *picture, PfPoint at, const PfMotif **motif)
{
  if (picture->numbers == NULL || (picture->layers & PF_LAYER_NUMBERS) == 0)
    return NULL;
  for (guint n = 0; n < picture->numbers->len; n++)
    {
      const PfNumber *number = &g_array_index (picture->numbers, PfNumber, n);
      const PfBox box = number->box;
      if (at.x >= box.min.x && at.x <= box.max.x && at.y >= box.min.y && at.y <= box.max.y)
        {
          *motif = g_ptr_array_index (picture->source->pricking->motifs, number->motif);
          return number;
        }
    }
  return NULL;
}

PfBox
pf_picture_box_with_numbers (const PfPicture *picture, const PfMotif *motif, PfBox box)
{
  if ((picture->layers & PF_LAYER_NUMBERS) == 0)
    return box;
  if (picture->numbers == NULL)
    {
      const double room = pf_number_room (motif->settings.placement.gap);
      return (PfBox){ { box.min.x - room, box.min.y - room },
                      { box.max.x + room, box.max.y + room } };
    }
  for (guint n = 0; n < picture->numbers->len; n++)
    {
      const PfNumber *number = &g_array_index (picture->numbers, PfNumber, n);
      if (g_ptr_array_index (picture->source->pricking->motifs, number->motif) != motif)
        continue;
      box.min =
          (PfPoint){ fmin (box.min.x, number->box.min.x), fmin (box.min.y, number->box.min.y) };
      box.max =
          (PfPoint){ fmax (box.max.x, number->box.max.x), fmax (box.max.y, number->box.max.y) };
    }
  return box;
}
