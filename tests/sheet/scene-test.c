/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A scene drawn by cairo at once looks as its SVG does when librsvg, which shares nothing with our
 * drawing, paints it: layer by layer, but for the grey of the edges of shapes.
 */
#include <math.h>
#include <string.h>

#include <librsvg/rsvg.h>

#include "samples.h"

static const struct {
  const char *name;
  PfLayers layer;
} layers[] = {
  { "background", PF_LAYER_BACKGROUND },
  { "repeats", PF_LAYER_REPEATS },
  { "missing", PF_LAYER_MISSING },
  { "pair lines", PF_LAYER_PAIR_LINES },
  { "outline", PF_LAYER_OUTLINE },
  { "pinholes", PF_LAYER_PINHOLES },
  { "predicted", PF_LAYER_PREDICTED },
  { "sewings", PF_LAYER_SEWINGS },
  { "pins", PF_LAYER_PINS },
  { "beads", PF_LAYER_BEADS },
  { "numbers", PF_LAYER_NUMBERS },
  { "threads", PF_LAYER_THREADS },
  { "all", PF_LAYER_ALL },
};

typedef struct {
  cairo_surface_t *surface;
  cairo_t *cr;
  int width, height;
} Picture;

static Picture
new_picture (PfBox window, double pixel)
{
  Picture picture = { .width = (int) ceil ((window.max.x - window.min.x) / pixel),
                      .height = (int) ceil ((window.max.y - window.min.y) / pixel) };
  picture.surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, picture.width, picture.height);
  picture.cr = cairo_create (picture.surface);
  cairo_set_source_rgb (picture.cr, 1, 1, 1);
  cairo_paint (picture.cr);
  return picture;
}

static void
clear_picture (Picture *picture)
{
  cairo_destroy (picture->cr);
  cairo_surface_destroy (picture->surface);
}

static Picture
drawn_at_once (const PfScene *scene, PfLayers shown, PfBox window, double pixel)
{
  Picture picture = new_picture (window, pixel);
  cairo_scale (picture.cr, 1 / pixel, 1 / pixel);
  cairo_translate (picture.cr, -window.min.x, -window.min.y);
  pf_scene_draw (scene, shown, window, pixel, picture.cr);
  g_assert_cmpint (cairo_status (picture.cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

static Picture
painted_svg (const PfScene *scene, PfLayers shown, PfBox window, double pixel)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *svg = pf_scene_svg (scene, shown, window, pixel);
  xmlFreeDoc (read_page (svg));
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *) svg, strlen (svg), &error);
  g_assert_no_error (error);
  Picture picture = new_picture (window, pixel);
  const RsvgRectangle viewport = { 0, 0, (window.max.x - window.min.x) / pixel,
                                   (window.max.y - window.min.y) / pixel };
  rsvg_handle_render_document (handle, picture.cr, &viewport, &error);
  g_assert_no_error (error);
  g_object_unref (handle);
  return picture;
}

static int
grey_at (const Picture *picture, int x, int y)
{
  const unsigned char *p = cairo_image_surface_get_data (picture->surface) +
                           (ptrdiff_t) y * cairo_image_surface_get_stride (picture->surface) +
                           4 * (ptrdiff_t) x;
  return (p[0] + p[1] + p[2]) / 3;
}

/* The mean of 3 by 3 pixels: what stands a part of a pixel aside has nearly the same. */
static double
mean_at (const Picture *picture, int x, int y)
{
  int sum = 0;
  for (int dy = -1; dy <= 1; dy++)
    for (int dx = -1; dx <= 1; dx++)
      sum += grey_at (picture, x + dx, y + dy);
  return sum / 9.0;
}

typedef struct {
  double most;  /* of the means */
  double ink_a; /* whole darkness */
  double ink_b;
} Difference;

static Difference
compare (Picture *a, Picture *b)
{
  Difference d = { 0, 0, 0 };
  cairo_surface_flush (a->surface);
  cairo_surface_flush (b->surface);
  g_assert_cmpint (a->width, ==, b->width);
  g_assert_cmpint (a->height, ==, b->height);
  for (int y = 1; y + 1 < a->height; y++)
    for (int x = 1; x + 1 < a->width; x++)
      {
        d.most = fmax (d.most, fabs (mean_at (a, x, y) - mean_at (b, x, y)));
        d.ink_a += 255 - grey_at (a, x, y);
        d.ink_b += 255 - grey_at (b, x, y);
      }
  return d;
}

typedef struct {
  const char *demo, *ground;
  double gap, pixel;
  PfBox window;
} Case;

static void
test_alike (gconstpointer data)
{
  const Case *c = data;
  PfPricking *pricking =
      sample_demo (c->demo, c->ground, c->gap, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  pf_pricking_free (pricking); /* the scene has references of its own */
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    {
      Picture a = drawn_at_once (scene, layers[i].layer, c->window, c->pixel);
      Picture b = painted_svg (scene, layers[i].layer, c->window, c->pixel);
      const Difference d = compare (&a, &b);
      g_test_message ("%s: %.1f of 255, ink %.0f and %.0f", layers[i].name, d.most, d.ink_a / 255,
                      d.ink_b / 255);
      const char *folder = g_getenv ("PF_TEST_PICTURES");
      if (folder)
        for (int n = 0; n < 2; n++)
          {
            g_autofree char *name = g_strdup_printf ("%s/%s-%g-%s-%s.png", folder, c->demo,
                                                     c->pixel, layers[i].name, n ? "svg" : "cairo");
            cairo_surface_write_to_png (n ? b.surface : a.surface, name);
          }
      /* Cairo 1.16 leaves the corner where a closed path ends unrounded, in librsvg's hands too:
       * a shape that isn't there makes more than twice the difference. */
      g_assert_cmpfloat (d.most, <, 80);
      g_assert_cmpfloat (fabs (d.ink_a - d.ink_b), <=, 0.07 * d.ink_b + 255);
      clear_picture (&a);
      clear_picture (&b);
    }
}

/* A motif that isn't filled yet shows its outline and its pinholes, and nothing else. */
static void
test_not_filled (void)
{
  PfPricking *pricking =
      sample_demo ("quince-flower", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_clear_pointer (&motif->filling, pf_filling_free);
  g_clear_pointer (&motif->ground, pf_ground_free);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  const PfBox window = { { 0, 0 }, { 100, 100 } };
  g_autofree char *svg = pf_scene_svg (scene, PF_LAYER_ALL & ~PF_LAYER_BACKGROUND, window, 0.1);
  xmlDoc *page = read_page (svg);
  size_t n_holes = 0;
  for (size_t l = 0; l < motif->region->n_loops; l++)
    n_holes += motif->edges[l].n_pinholes;
  g_assert_cmpuint (count_of (page, NULL, "circle"), ==, n_holes);
  g_assert_cmpuint (count_of (page, "pinholes", "circle"), ==, n_holes);
  g_assert_cmpuint (count_of (page, "outline", "polyline"), ==, count_of (page, NULL, "polyline"));
  g_assert_cmpuint (count_of (page, NULL, "polygon"), ==, 0);
  xmlFreeDoc (page);
  Picture picture = drawn_at_once (scene, PF_LAYER_ALL, window, 0.1);
  clear_picture (&picture);
  pf_pricking_free (pricking);
}

static bool
overlap (PfBox a, PfBox b)
{
  return a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;
}

static guint
count_pinholes (const GArray *numbers)
{
  guint n = 0;
  for (guint i = 0; i < numbers->len; i++)
    n += g_array_index (numbers, PfNumber, i).of == PF_NUMBER_OF_PINHOLE;
  return n;
}

/* From near many more pinholes have their number, each one only, and none lies over another. */
static void
test_numbers_from_near (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, 0);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  g_autoptr (GArray) few = pf_scene_numbers (scene);
  pf_scene_number_pinholes (scene, 0.9); /* pinholes stand 2 mm apart: room enough */
  g_autoptr (GArray) many = pf_scene_numbers (scene);
  pf_scene_number_pinholes (scene, 1.2); /* not enough */
  g_autoptr (GArray) again = pf_scene_numbers (scene);
  const size_t n_pinholes = motif->edges[0].n_pinholes;
  g_assert_cmpuint (count_pinholes (few), <=, 1 + n_pinholes / 10);
  g_assert_cmpuint (count_pinholes (many), >, n_pinholes / 2);
  g_assert_cmpuint (again->len, ==, few->len);
  g_autofree bool *seen = g_new0 (bool, n_pinholes);
  for (guint i = 0; i < many->len; i++)
    {
      const PfNumber a = g_array_index (many, PfNumber, i);
      for (guint j = 0; j < i; j++)
        g_assert_false (overlap (a.box, g_array_index (many, PfNumber, j).box));
      if (a.of != PF_NUMBER_OF_PINHOLE)
        continue;
      g_assert_false (seen[a.index]);
      seen[a.index] = true;
      const PfPlace place = { 0, motif->edges[0].pinholes[a.index] };
      const PfPoint at = pf_region_point (motif->region, place);
      const PfPoint middle = { (a.box.min.x + a.box.max.x) / 2, (a.box.min.y + a.box.max.y) / 2 };
      g_assert_cmpfloat (hypot (at.x - middle.x, at.y - middle.y), <, 3.5);
    }
  pf_pricking_free (pricking);
}

/* No line is thinner than a pixel, however far away the drawing. */
static void
test_least_width (void)
{
  PfPricking *pricking =
      sample_demo ("quince-leaf", "torchon", 3, PF_EDGE_HALF_STITCH, PF_BEADS_NONE);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  g_autofree char *svg =
      pf_scene_svg (scene, PF_LAYER_ALL, (PfBox){ { 0, 0 }, { 100, 100 } }, 0.75);
  int n = 0;
  for (const char *width = strstr (svg, "stroke-width=\""); width;
       width = strstr (width + 1, "stroke-width=\""))
    {
      const char *value = width + strlen ("stroke-width=\"");
      const bool is_halo = g_str_has_prefix (value, "0.5\" stroke-linejoin");
      g_assert_true (is_halo || g_ascii_strtod (value, NULL) >= 0.75);
      n++;
    }
  g_assert_cmpint (n, >, 5);
  pf_pricking_free (pricking);
}

/* Lines, arrows, cuts and numbers of every kind follow the look, and nothing else does. */
static void
test_look (void)
{
  static const PfBox whole = { { 0, 0 }, { 100, 100 } };
  PfPricking *pricking =
      sample_demo ("quince-flower", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, true);
  const PfLook printed = pf_look_printed ();
  PfLook look = { .colours = { "#ab0001", "#ab0002", "#ab0003", "#ab0004" }, .line_width = 2 };
  g_autofree char *before = pf_scene_svg (scene, PF_LAYER_ALL, whole, 0.01);
  pf_scene_set_look (scene, &look);
  g_autofree char *after = pf_scene_svg (scene, PF_LAYER_ALL, whole, 0.01);
  for (int kind = PF_PAIR_NEW; kind <= PF_PAIR_FINISHED; kind++)
    {
      const char *old = printed.colours[kind];
      g_assert_true (!strstr (before, old) == !strstr (after, look.colours[kind]));
      g_assert_null (strstr (after, old));
    }
  g_assert_nonnull (strstr (after, look.colours[PF_PAIR_NEW]));
  pf_scene_set_look (scene, &printed);
  g_autofree char *again = pf_scene_svg (scene, PF_LAYER_ALL, whole, 0.01);
  g_assert_cmpstr (again, ==, before);
  pf_pricking_free (pricking);
}

int
main (int argc, char **argv)
{
  static const Case cases[] = {
    { "quince-flower", "armure", 4, 0.1, { { 4, 10 }, { 54, 60 } } },
    { "quince-flower", "armure", 4, 0.3, { { 0, 0 }, { 100, 100 } } },
    { "quince-leaf", "torchon", 4, 0.02, { { 28, 20 }, { 40, 30 } } },
  };
  g_test_init (&argc, &argv, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *name =
          g_strdup_printf ("/sheet/scene/alike/%s-%g", cases[i].demo, cases[i].pixel);
      g_test_add_data_func (name, &cases[i], test_alike);
    }
  g_test_add_func ("/sheet/scene/not-filled", test_not_filled);
  g_test_add_func ("/sheet/scene/look", test_look);
  g_test_add_func ("/sheet/scene/from-near", test_numbers_from_near);
  g_test_add_func ("/sheet/scene/least-width", test_least_width);
  return g_test_run ();
}
