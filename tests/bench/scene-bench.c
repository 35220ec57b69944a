/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A frame of the screen: ten thousand worked stitches drawn on a picture of 1600 by 1000 pixels,
 * whole and enlarged; and their edge strip.
 */
#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include <sheet.h>

#define WIDTH 1600
#define HEIGHT 1000
#define N_STITCHES 1.0e4

/* The wavy outline with its hole as a drawing, moved to where coordinates are positive. */
static PfDrawing *
wavy_drawing (double radius)
{
  PfChain *chains = bench_chains (radius, 2000);
  g_autoptr (GString) svg = g_string_new (NULL);
  g_string_printf (svg,
                   "<svg xmlns='http://www.w3.org/2000/svg' width='%.0fmm' height='%.0fmm' "
                   "viewBox='0 0 %.0f %.0f'><path fill-rule='evenodd' d='",
                   2 * radius, 2 * radius, 2 * radius, 2 * radius);
  for (size_t c = 0; c < 2; c++)
    for (size_t p = 0; p < chains[c].n_points; p++)
      g_string_append_printf (svg, "%s%.4f,%.4f%s", p == 0 ? "M" : "L",
                              chains[c].points[p].x + radius, chains[c].points[p].y + radius,
                              p + 1 == chains[c].n_points ? "Z" : "");
  g_string_append (svg, "'/></svg>");
  bench_chains_free (chains);
  PfDrawing *drawing = pf_drawing_parse (svg->str, svg->len, "wave.svg", NULL, NULL);
  g_assert (drawing != NULL);
  return drawing;
}

static PfPricking *
wavy_pricking (const char *ground)
{
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = 2;
  settings.placement.turn = 13;
  settings.beads = PF_BEADS_WHOLE;
  /* Seven of the armure's stitches take 4 gap² of the region, one of the torchon's takes gap². */
  const double area = N_STITCHES * 4 * (g_str_equal (ground, "armure") ? 4.0 / 7 : 1);
  const double radius = sqrt (area / (0.73 * G_PI * 8 / 9));
  PfPricking *pricking = pf_pricking_new ("Wave", wavy_drawing (radius), bench_ground (ground),
                                          PF_EDGE_HALF_STITCH, 3, &settings, false, NULL);
  g_assert (pricking != NULL && pf_pricking_fill (pricking, NULL));
  return pricking;
}

typedef struct {
  const char *name;
  PfLayers layers;
  bool with_scene; /* the scene is made anew, as after each change */
  double most;     /* ms; 0 where nothing is asked for */
} Case;

/* Draws the middle of the pricking, `zoom` times as large as the whole; returns ms. */
static double
draw_once (const PfPricking *pricking, PfScene **scene, const Case *c, double zoom)
{
  const double scale = zoom * HEIGHT / pricking->height;
  const PfPoint middle = { pricking->width / 2, pricking->height / 2 };
  const PfPoint half = { WIDTH / scale / 2, HEIGHT / scale / 2 };
  const PfBox window = { { middle.x - half.x, middle.y - half.y },
                         { middle.x + half.x, middle.y + half.y } };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  /* The paper, so that the system has given all of the picture's memory. */
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  cairo_translate (cr, -window.min.x, -window.min.y);
  const double start = bench_now ();
  if (c->with_scene)
    {
      pf_scene_free (*scene);
      *scene = pf_scene_new (pricking, false);
    }
  pf_scene_draw (*scene, c->layers, window, 1 / scale, cr);
  const double ms = bench_now () - start;
  const char *folder = g_getenv ("PF_BENCH_PICTURES");
  if (folder)
    {
      g_autofree char *name = g_strdup_printf ("%s/%s-%g.png", folder, c->name, zoom);
      cairo_surface_write_to_png (surface, name);
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return ms;
}

static void
measure (const PfPricking *pricking, const char *ground, const Case *c, double zoom)
{
  PfScene *scene = pf_scene_new (pricking, false);
  double times[BENCH_RUNS];
  for (int run = 0; run < BENCH_RUNS; run++)
    times[run] = draw_once (pricking, &scene, c, zoom);
  pf_scene_free (scene);
  const double ms = bench_median (times);
  g_autofree char *what = g_strdup_printf ("ms for %s of %s, zoom %g", c->name, ground, zoom);
  if (c->most > 0)
    bench_at_most (what, ms, c->most);
  else
    printf ("%-52s %10.4g\n", what, ms);
}

/* The whole outer edge in one strip; its sewings come to some hundreds. */
static void
measure_strip (const PfPricking *pricking, const char *ground)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  const double length = pf_loop_length (&motif->region->loops[0]);
  const PfEdgeStrip strip = {
    .motif = motif, .to = length, .across = 1, .height = PF_EDGE_STRIP_HEIGHT
  };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  const double scale = WIDTH / length;
  cairo_scale (cr, scale, scale);
  double times[BENCH_RUNS];
  for (int run = 0; run < BENCH_RUNS; run++)
    {
      const double start = bench_now ();
      pf_edge_strip_draw (&strip, 1 / scale, cr);
      times[run] = bench_now () - start;
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  g_autofree char *what = g_strdup_printf ("ms for the edge strip of %s", ground);
  bench_at_most (what, bench_median (times), 16);
}

int
main (void)
{
  const PfLayers edge = PF_LAYER_REPEATS | PF_LAYER_MISSING | PF_LAYER_PREDICTED |
                        PF_LAYER_SEWINGS | PF_LAYER_OUTLINE | PF_LAYER_PINHOLES;
  const Case cases[] = {
    { "repeats", PF_LAYER_REPEATS, false, 0 },
    { "missing", PF_LAYER_MISSING, false, 0 },
    { "predicted", PF_LAYER_PREDICTED, false, 0 },
    { "sewings", PF_LAYER_SEWINGS, false, 0 },
    { "outline", PF_LAYER_OUTLINE, false, 0 },
    { "pinholes", PF_LAYER_PINHOLES, false, 0 },
    { "beads", PF_LAYER_BEADS, false, 0 },
    { "scene alone", 0, true, 0 },
    { "scene and edge", edge, true, 16 },
    { "pins", PF_LAYER_PINS, false, 0 },
    { "pair lines", PF_LAYER_PAIR_LINES, false, 0 },
    { "pins and pair lines", PF_LAYER_PINS | PF_LAYER_PAIR_LINES, false, 50 },
  };
  static const char *const grounds[] = { "armure", "torchon" };
  static const double zooms[] = { 1, 4 };
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      PfPricking *pricking = wavy_pricking (grounds[g]);
      const PfCounts counts = pf_pricking_counts (pricking);
      printf ("%s: %zu stitches, %zu pins, %zu crossings, %zu repeats kept, %zu plain\n",
              grounds[g], counts.stitches, counts.pins, counts.leaving + counts.entering,
              counts.kept, counts.plain);
      for (size_t z = 0; z < G_N_ELEMENTS (zooms); z++)
        for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
          measure (pricking, grounds[g], &cases[c], zooms[z]);
      measure_strip (pricking, grounds[g]);
      pf_pricking_free (pricking);
    }
  return bench_exit ();
}
