/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the sheet lies on the canvas: places and pixels, zoom, turn, fit; and the numbers of rulers.
 */
#include <locale.h>
#include <math.h>

#include <canvas-rulers.h>
#include <canvas-view.h>

static PfCanvasView
sample_view (void)
{
  PfCanvasView view = pf_canvas_view_default ();
  view.width = 1000;
  view.height = 700;
  view.inset = 24;
  view.middle = (PfPoint){ 60, 80 };
  return view;
}

static PfCanvasView
random_view (void)
{
  PfCanvasView view = sample_view ();
  view.middle =
      (PfPoint){ g_test_rand_double_range (-500, 500), g_test_rand_double_range (-500, 500) };
  view.zoom = exp (g_test_rand_double_range (log (PF_ZOOM_MIN), log (PF_ZOOM_MAX)));
  view.turn = g_test_rand_double_range (0, 360);
  return view;
}

static PfPoint
random_pixel (void)
{
  return (PfPoint){ g_test_rand_double_range (0, 1000), g_test_rand_double_range (0, 700) };
}

static void
assert_near (PfPoint a, PfPoint b, double tolerance)
{
  g_assert_cmpfloat_with_epsilon (a.x, b.x, tolerance);
  g_assert_cmpfloat_with_epsilon (a.y, b.y, tolerance);
}

/* CSS Values and Units Level 4, absolute lengths: 1in = 2.54cm = 96px. */
static void
true_size_is_96_pixels_to_the_inch (void)
{
  const PfCanvasView view = sample_view ();
  const PfPoint a = pf_canvas_view_to_screen (&view, (PfPoint){ 10, 20 });
  const PfPoint b = pf_canvas_view_to_screen (&view, (PfPoint){ 10 + 25.4, 20 });
  g_assert_cmpfloat_with_epsilon (b.x - a.x, 96, 1e-9);
  g_assert_cmpfloat_with_epsilon (b.y - a.y, 0, 1e-9);
  assert_near (pf_canvas_view_to_screen (&view, view.middle), (PfPoint){ 512, 362 }, 1e-9);
}

/* Clockwise, as a pillow is turned: what was at the right comes to the bottom. */
static void
turns_clockwise (void)
{
  static const struct {
    double turn;
    PfPoint ahead; /* where the sheet's right is */
  } cases[] = { { 0, { 1, 0 } }, { 90, { 0, 1 } }, { 180, { -1, 0 } }, { 270, { 0, -1 } } };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      PfCanvasView view = sample_view ();
      view.turn = cases[c].turn;
      const PfPoint a = pf_canvas_view_to_screen (&view, view.middle);
      const PfPoint b = pf_canvas_view_to_screen (
          &view, (PfPoint){ view.middle.x + pf_canvas_view_pixel (&view), view.middle.y });
      assert_near ((PfPoint){ b.x - a.x, b.y - a.y }, cases[c].ahead, 1e-9);
    }
}

static void
places_and_pixels_go_back_and_forth (void)
{
  for (int n = 0; n < 1000; n++)
    {
      const PfCanvasView view = random_view ();
      const PfPoint pixel = random_pixel ();
      const PfPoint place = pf_canvas_view_to_sheet (&view, pixel);
      assert_near (pf_canvas_view_to_screen (&view, place), pixel, 1e-6);
    }
}

static void
zoom_and_turn_keep_the_place_at_the_pointer (void)
{
  for (int n = 0; n < 1000; n++)
    {
      PfCanvasView view = random_view ();
      const PfPoint pixel = random_pixel ();
      const PfPoint place = pf_canvas_view_to_sheet (&view, pixel);
      pf_canvas_view_zoom_at (&view, pixel, view.zoom * g_test_rand_double_range (0.5, 2));
      assert_near (pf_canvas_view_to_screen (&view, place), pixel, 1e-6);
      const double turn = g_test_rand_double_range (-720, 720);
      pf_canvas_view_turn_at (&view, pixel, turn);
      assert_near (pf_canvas_view_to_screen (&view, place), pixel, 1e-6);
      g_assert_cmpfloat (view.turn, >=, 0);
      g_assert_cmpfloat (view.turn, <, 360);
      g_assert_cmpfloat_with_epsilon (remainder (view.turn - turn, 360), 0, 1e-9);
    }
}

static void
zoom_keeps_its_limits (void)
{
  PfCanvasView view = sample_view ();
  pf_canvas_view_zoom_at (&view, (PfPoint){ 100, 100 }, 1e9);
  g_assert_cmpfloat (view.zoom, ==, PF_ZOOM_MAX);
  pf_canvas_view_zoom_at (&view, (PfPoint){ 100, 100 }, 0);
  g_assert_cmpfloat (view.zoom, ==, PF_ZOOM_MIN);
  pf_canvas_view_turn_at (&view, (PfPoint){ 0, 0 }, -1e-18);
  g_assert_cmpfloat (view.turn, ==, 0);
}

static void
pan_moves_the_sheet_with_the_hand (void)
{
  for (int n = 0; n < 200; n++)
    {
      PfCanvasView view = random_view ();
      const PfPoint pixel = random_pixel (), by = random_pixel ();
      const PfPoint place = pf_canvas_view_to_sheet (&view, pixel);
      pf_canvas_view_pan (&view, by.x, by.y);
      assert_near (pf_canvas_view_to_screen (&view, place),
                   (PfPoint){ pixel.x + by.x, pixel.y + by.y }, 1e-6);
    }
}

/* All corners can be seen, and a tenth more zoom would hide one or fill all the room. */
static void
fit_shows_all_as_large_as_it_can (void)
{
  for (int n = 0; n < 300; n++)
    {
      PfCanvasView view = random_view ();
      const PfPoint at = { g_test_rand_double_range (-300, 300),
                           g_test_rand_double_range (-300, 300) };
      const PfBox box = {
        at, { at.x + g_test_rand_double_range (5, 400), at.y + g_test_rand_double_range (5, 400) }
      };
      pf_canvas_view_fit (&view, box);
      const PfPoint corners[] = {
        box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y }
      };
      double least = INFINITY;
      for (size_t c = 0; c < G_N_ELEMENTS (corners); c++)
        {
          const PfPoint p = pf_canvas_view_to_screen (&view, corners[c]);
          least = fmin (least, fmin (fmin (p.x - view.inset, p.y - view.inset),
                                     fmin (view.width - p.x, view.height - p.y)));
        }
      g_assert_cmpfloat (least, >=, 10);
      g_assert_cmpfloat (least, <=, 40);
    }
}

static void
a_drawing_without_size_can_be_fitted (void)
{
  PfCanvasView view = sample_view ();
  pf_canvas_view_fit (&view, (PfBox){ { 5, 5 }, { 5, 5 } });
  g_assert_cmpfloat (view.zoom, ==, PF_ZOOM_MAX);
  assert_near (view.middle, (PfPoint){ 5, 5 }, 1e-12);
}

static void
show_moves_no_more_than_it_must (void)
{
  PfCanvasView view = sample_view ();
  const PfCanvasView before = view;
  g_assert_false (pf_canvas_view_show (&view, view.middle, 60));
  g_assert_true (pf_canvas_view_equal (&view, &before));
  const PfPoint right = pf_canvas_view_to_sheet (&view, (PfPoint){ 1200, 300 });
  g_assert_true (pf_canvas_view_show (&view, right, 60));
  assert_near (pf_canvas_view_to_screen (&view, right), (PfPoint){ 940, 300 }, 1e-6);
  const PfPoint above = pf_canvas_view_to_sheet (&view, (PfPoint){ 500, -4000 });
  g_assert_true (pf_canvas_view_show (&view, above, 60));
  assert_near (pf_canvas_view_to_screen (&view, above), (PfPoint){ 500, 84 }, 1e-6);
}

static void
the_window_holds_what_is_seen (void)
{
  for (int n = 0; n < 300; n++)
    {
      const PfCanvasView view = random_view ();
      const PfBox window = pf_canvas_view_window (&view, 10);
      const PfPoint place =
          pf_canvas_view_to_sheet (&view, (PfPoint){ g_test_rand_double_range (14, 1010),
                                                     g_test_rand_double_range (14, 710) });
      const double room = 1e-6;
      g_assert_cmpfloat (place.x, >=, window.min.x - room);
      g_assert_cmpfloat (place.y, >=, window.min.y - room);
      g_assert_cmpfloat (place.x, <=, window.max.x + room);
      g_assert_cmpfloat (place.y, <=, window.max.y + room);
    }
}

/* Numbers far enough apart to be read, lines far enough to be counted, at every zoom. */
static void
rulers_can_be_read_at_every_zoom (void)
{
  for (int inches = 0; inches < 2; inches++)
    for (double zoom = PF_ZOOM_MIN; zoom <= PF_ZOOM_MAX; zoom *= 1.07)
      {
        const double pixel = 1 / (zoom * PF_CANVAS_PIXELS_PER_MM);
        const PfRulerScale scale = pf_ruler_scale (pixel, inches);
        g_assert_cmpfloat (scale.step / pixel, >=, 64);
        g_assert_cmpfloat (scale.step / pixel, <=, 400);
        g_assert_cmpfloat (scale.step / scale.parts / pixel, >=, 5);
        g_assert_cmpfloat (scale.unit, ==, inches ? 25.4 : 1);
      }
}

static void
ruler_numbers_are_short (void)
{
  static const struct {
    double zoom, mm;
    bool inches;
    const char *number;
  } cases[] = {
    { 1, 20, false, "20" },     { 1, -40, false, "-40" },   { 20, 3, false, "3" },
    { 100, 0.2, false, "0.2" }, { 100, 7.4, false, "7.4" }, { 0.02, 1000, false, "1000" },
    { 1, 25.4, true, "1" },     { 2, 12.7, true, "0.5" },   { 6, 3.175, true, "0.125" },
    { 0.1, 254, true, "10" },   { 1, -1e-12, false, "0" },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      const PfRulerScale scale =
          pf_ruler_scale (1 / (cases[c].zoom * PF_CANVAS_PIXELS_PER_MM), cases[c].inches);
      g_autofree char *number = pf_ruler_number (&scale, cases[c].mm);
      g_assert_cmpstr (number, ==, cases[c].number);
    }
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/view/true-size", true_size_is_96_pixels_to_the_inch);
  g_test_add_func ("/view/turn", turns_clockwise);
  g_test_add_func ("/view/round-trip", places_and_pixels_go_back_and_forth);
  g_test_add_func ("/view/hold", zoom_and_turn_keep_the_place_at_the_pointer);
  g_test_add_func ("/view/limits", zoom_keeps_its_limits);
  g_test_add_func ("/view/pan", pan_moves_the_sheet_with_the_hand);
  g_test_add_func ("/view/fit", fit_shows_all_as_large_as_it_can);
  g_test_add_func ("/view/fit-point", a_drawing_without_size_can_be_fitted);
  g_test_add_func ("/view/show", show_moves_no_more_than_it_must);
  g_test_add_func ("/view/window", the_window_holds_what_is_seen);
  g_test_add_func ("/rulers/scale", rulers_can_be_read_at_every_zoom);
  g_test_add_func ("/rulers/numbers", ruler_numbers_are_short);
  return g_test_run ();
}
