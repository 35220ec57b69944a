/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Frames of the canvas at 1600 by 1000 pixels, of ten thousand worked stitches: panned, zoomed, and
 * while the ground is dragged. Needs a screen.
 */
#include <stdio.h>
#include <stdlib.h>

#include <math.h>

#include <canvas-private.h>

#include "bench.h"
#include "bench-document.h"

#define N_STITCHES 1.0e4
#define N_FRAMES 100
#define PATIENCE 20000000 /* µs */

static GtkWidget *window;
static PfCanvas *canvas;
static PfEditor *editor;
static double frame_start;
static double frame_ms; /* of the last frame; negative while there is none */

static void
before_paint (void)
{
  frame_start = bench_now ();
}

static void
after_paint (void)
{
  frame_ms = bench_now () - frame_start;
}

static bool
wait_until (bool (*done) (void))
{
  const gint64 end = g_get_monotonic_time () + PATIENCE;
  while (!done () && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  return done ();
}

static bool
frame_is_painted (void)
{
  return frame_ms >= 0;
}

static bool
picture_is_sharp (void)
{
  return pf_picture_is_sharp (canvas->picture);
}

/* Waits for the next frame; gives what it took, ms. */
static double
next_frame (void)
{
  frame_ms = -1;
  if (!wait_until (frame_is_painted))
    g_error ("No frame is painted");
  return frame_ms;
}

static int
compare_times (const void *a, const void *b)
{
  const double *x = a, *y = b;
  return (*x > *y) - (*x < *y);
}

/* The time that 95 of 100 frames don't exceed. */
static double
of_95 (double times[N_FRAMES])
{
  qsort (times, N_FRAMES, sizeof *times, compare_times);
  return times[N_FRAMES * 95 / 100 - 1];
}

static void
change_view (int n, const char *how)
{
  PfCanvasView *view = &canvas->view;
  const PfPoint at = { 700, 400 };
  const bool back = n % 50 >= 25;
  if (g_str_equal (how, "pan"))
    pf_canvas_view_pan (view, back ? -11 : 11, back ? -7 : 7);
  else
    pf_canvas_view_zoom_at (view, at, view->zoom * (back ? 1 / 1.03 : 1.03));
  pf_canvas_view_changed (canvas);
}

/* Snapshot and rendering of what the canvas shows now, ms. */
static double
render_frame (void)
{
  const double start = bench_now ();
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GTK_WIDGET_GET_CLASS (canvas)->snapshot (GTK_WIDGET (canvas), snapshot);
  GskRenderNode *node = gtk_snapshot_free_to_node (snapshot);
  GskRenderer *renderer = gtk_native_get_renderer (GTK_NATIVE (window));
  GdkTexture *texture = gsk_renderer_render_texture (
      renderer, node,
      &GRAPHENE_RECT_INIT (0, 0, (float) canvas->view.width, (float) canvas->view.height));
  const double took = bench_now () - start;
  g_object_unref (texture);
  gsk_render_node_unref (node);
  return took;
}

/* `zoom` times as large as the whole. */
static void
measure_frames (const char *ground, const char *how, double zoom)
{
  double times[N_FRAMES], shown[N_FRAMES];
  pf_canvas_fit (canvas);
  pf_canvas_set_zoom (canvas, zoom * pf_canvas_zoom (canvas));
  next_frame ();
  if (!wait_until (picture_is_sharp))
    g_error ("No sharp picture came");
  for (int n = 0; n < N_FRAMES; n++)
    {
      change_view (n, how);
      times[n] = render_frame ();
      shown[n] = times[n] + next_frame ();
    }
  g_autofree char *what = g_strdup_printf ("ms a frame, %s, %s, zoom %.1f", ground, how, zoom);
  bench_at_most (what, of_95 (times), 16);
  /* How long the window system takes to show it isn't ours. The frame is rendered twice here. */
  printf ("  rendered twice and brought to the screen: %.2f ms\n", of_95 (shown));
}

static void
measure_drag (const char *ground, double zoom)
{
  double times[N_FRAMES];
  pf_canvas_fit (canvas);
  pf_canvas_set_zoom (canvas, zoom * pf_canvas_zoom (canvas));
  next_frame ();
  wait_until (picture_is_sharp);
  for (int n = 0; n < N_FRAMES; n++)
    {
      PfDraft *draft = pf_editor_edit (editor);
      draft->settings.placement.origin.x += 0.11;
      draft->settings.placement.origin.y += 0.07;
      const double start = bench_now ();
      pf_editor_preview (editor, draft);
      const double worked_out = bench_now ();
      times[n] = worked_out - start + next_frame ();
    }
  pf_editor_cancel (editor);
  g_autofree char *what =
      g_strdup_printf ("ms from a move of the ground to its lines, %s, zoom %.1f", ground, zoom);
  bench_at_most (what, of_95 (times), 50);
}

/* The least zoom at which the threads are shown, and a larger one. A pair is lit up. */
static void
measure_threads (const char *ground, const char *how)
{
  char *what = g_strconcat (ground, " with threads", NULL);
  pf_canvas_set_layers (canvas, PF_LAYER_ALL | PF_LAYER_THREADS);
  pf_editor_select (editor, (PfPick){ .kind = PF_PICK_PAIR, .index = 7 });
  double zoom = 1;
  for (pf_canvas_fit (canvas); pf_canvas_threads_too_small (canvas); zoom *= 1.05)
    {
      pf_canvas_fit (canvas);
      pf_canvas_set_zoom (canvas, zoom * pf_canvas_zoom (canvas));
    }
  measure_frames (what, how, 1.6 * zoom);
  measure_frames (what, how, 4 * zoom);
  measure_drag (what, 1.6 * zoom);
  pf_canvas_set_layers (canvas, PF_LAYER_ALL);
  pf_editor_select (editor, PF_PICK_NOTHING);
  g_free (what);
}

static void
open_window (void)
{
  g_autoptr (PfDocument) document = bench_document ("torchon", N_STITCHES);
  editor = pf_editor_new (document);
  canvas = PF_CANVAS (pf_canvas_new (editor));
  window = gtk_window_new ();
  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (window), 1600, 1000);
  gtk_window_set_child (GTK_WINDOW (window), GTK_WIDGET (canvas));
  gtk_window_present (GTK_WINDOW (window));
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  g_signal_connect (clock, "before-paint", G_CALLBACK (before_paint), NULL);
  g_signal_connect (clock, "after-paint", G_CALLBACK (after_paint), NULL);
  next_frame ();
  printf ("canvas of %.0f × %.0f pixels\n", canvas->view.width, canvas->view.height);
}

int
main (void)
{
  if (!gtk_init_check ())
    {
      printf ("skipped: there is no screen\n");
      return 77;
    }
  open_window ();
  static const char *const grounds[] = { "torchon", "armure" };
  static const char *const ways[] = { "pan", "zoom" };
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      g_autoptr (PfDocument) document = bench_document (grounds[g], N_STITCHES);
      pf_editor_open (editor, document);
      for (size_t w = 0; w < G_N_ELEMENTS (ways); w++)
        {
          measure_frames (grounds[g], ways[w], 2);
          measure_threads (grounds[g], ways[w]);
        }
      measure_drag (grounds[g], 1);
      measure_drag (grounds[g], 3);
    }
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (editor);
  return bench_exit ();
}
