/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Random drawings beside librsvg: what it paints is what our outlines hold, in area and place.
 */
#include <cairo.h>
#include <librsvg/rsvg.h>
#include <math.h>
#include <string.h>

#include <pricking.h>

#define SIDE 80     /* of a drawing, mm */
#define PX_PER_MM 8 /* of its picture */
#define DRAWINGS 120

/* A closed line round (cx, cy), of curves or straight lines, whose radius wavers round `r`. */
static void
append_round (GString *d, double cx, double cy, double r, bool clockwise)
{
  const int n = g_test_rand_int_range (3, 9), kind = g_test_rand_int_range (0, 4);
  const double turn = g_test_rand_double_range (0, 2 * G_PI);
  PfPoint before = { 0, 0 }, first = { 0, 0 };
  for (int i = 0; i <= n; i++)
    {
      const double angle = turn + (clockwise ? 1 : -1) * 2 * G_PI * i / n;
      const double radius = r * g_test_rand_double_range (0.8, 1);
      PfPoint p = { cx + radius * cos (angle), cy + radius * sin (angle) };
      if (i == n)
        p = first;
      if (i == 0)
        {
          g_string_append_printf (d, "M%.4f %.4f", p.x, p.y);
          first = p;
        }
      else if (kind == 0)
        g_string_append_printf (d, "L%.4f,%.4f", p.x, p.y);
      else if (kind == 1)
        g_string_append_printf (
            d, "q%.4f %.4f,%.4f %.4f", (p.x - before.x) / 2 + (cx - before.x) / 9,
            (p.y - before.y) / 2 + (cy - before.y) / 9, p.x - before.x, p.y - before.y);
      else if (kind == 2)
        g_string_append_printf (d, "A%.4f %.4f %d 0%d%.4f %.4f", r * 1.5, r * 2, 20 * i, clockwise,
                                p.x, p.y);
      else
        g_string_append_printf (d, "c%.4f %.4f %.4f %.4f %.4f %.4f", (p.x - before.x) / 3,
                                (p.y - before.y) / 3, (p.x - before.x) * 0.6 + (cx - before.x) / 6,
                                (p.y - before.y) * 0.6 + (cy - before.y) / 6, p.x - before.x,
                                p.y - before.y);
      before = p;
    }
  g_string_append (d, "z");
}

/* Rings within rings: some make holes and some don't, as the fill rule has it. */
static void
append_path (GString *svg)
{
  g_autoptr (GString) d = g_string_new (NULL);
  const int rings = g_test_rand_int_range (1, 5);
  double r = 10;
  for (int i = 0; i < rings; i++, r *= 0.35)
    append_round (d, 10, 10, r, g_test_rand_bit ());
  g_string_append_printf (svg, "<path d='%s' fill-rule='%s'/>", d->str,
                          g_test_rand_bit () ? "evenodd" : "nonzero");
}

/* A shape within the square from 0 to 20 user units. */
static void
append_shape (GString *svg)
{
  switch (g_test_rand_int_range (0, 8))
    {
    case 0:
      g_string_append_printf (svg, "<rect x='1' y='2' width='15' height='10' rx='%g' ry='%g'/>",
                              g_test_rand_double_range (0, 9), g_test_rand_double_range (0, 9));
      break;
    case 1:
      g_string_append_printf (svg, "<ellipse cx='10' cy='9' rx='%g' ry='%g'/>",
                              g_test_rand_double_range (2, 9), g_test_rand_double_range (2, 9));
      break;
    case 2:
      g_string_append (svg, "<circle cx='9' cy='10' r='6'/>"
                            "<use href='#bit' x='1'/><defs><g id='bit' style='fill:#000'>"
                            "<polygon points='16,0 19,0 17,5'/></g></defs>");
      break;
    case 3:
      g_string_append (svg,
                       "<svg x='1' y='1' width='18' height='9' viewBox='0 0 5 5'"
                       " preserveAspectRatio='xMaxYMid'><circle cx='2.5' cy='2.5' r='2'/></svg>");
      break;
    default:
      append_path (svg);
    }
}

static void
append_transform (GString *svg)
{
  const double a = g_test_rand_double_range (-40, 40), b = g_test_rand_double_range (0.6, 1.2);
  switch (g_test_rand_int_range (0, 5))
    {
    case 0:
      g_string_append_printf (svg, "rotate(%g)", a);
      break;
    case 1:
      g_string_append_printf (svg, "rotate(%g 10,10)", 4 * a);
      break;
    case 2:
      g_string_append_printf (svg, "scale(%g,%g)", b, -b);
      break;
    case 3:
      g_string_append_printf (svg, "skewX(%g) skewY(%g)", a / 2, a / 3);
      break;
    default:
      g_string_append_printf (svg, "matrix(%g %g %g %g 0 0)", b, a / 90, -a / 70, b);
    }
}

static char *
random_drawing (void)
{
  static const char *const roots[] = {
    "viewBox='-40 -40 80 80'",
    "viewBox='-40 -30 80 60'",
    "viewBox='-30 -50 60 90' preserveAspectRatio='xMinYMax'",
    "viewBox='-60 -20 130 40' preserveAspectRatio='xMidYMid slice'",
    "viewBox='-40 -40 80 60' preserveAspectRatio='none'",
  };
  GString *svg = g_string_new (NULL);
  g_string_append_printf (svg,
                          "<svg xmlns='http://www.w3.org/2000/svg' width='%dmm' height='8cm' %s>"
                          "<g transform='",
                          SIDE, roots[g_test_rand_int_range (0, G_N_ELEMENTS (roots))]);
  append_transform (svg);
  g_string_append (svg, "'><g transform='");
  append_transform (svg);
  g_string_append (svg, " translate(-10 -10)'>");
  append_shape (svg);
  g_string_append (svg, "</g></g></svg>");
  return g_string_free (svg, FALSE);
}

static cairo_surface_t *
paint (const char *svg)
{
  const int side = SIDE * PX_PER_MM;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, side, side);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (GError) error = NULL;
  const RsvgRectangle viewport = { 0, 0, side, side };
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *) svg, strlen (svg), &error);
  g_assert_no_error (error);
  rsvg_handle_render_document (handle, cr, &viewport, &error);
  g_assert_no_error (error);
  g_object_unref (handle);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static bool
holds (const PfDrawing *drawing, PfPoint p)
{
  for (guint i = 0; i < drawing->outlines->len; i++)
    if (pf_region_contains (((const PfOutline *) drawing->outlines->pdata[i])->region, p))
      return true;
  return false;
}

/* The painted area in mm²; checks on the way that each pixel painted fully or not at all, of every
 * fifth row and column, lies within or without. */
static double
compare_pixels (const PfDrawing *drawing, cairo_surface_t *surface)
{
  const unsigned char *data = cairo_image_surface_get_data (surface);
  const int stride = cairo_image_surface_get_stride (surface), side = SIDE * PX_PER_MM;
  double painted = 0;
  for (int y = 0; y < side; y++)
    for (int x = 0; x < side; x++)
      {
        const unsigned char alpha = data[y * stride + x];
        painted += alpha / 255.0;
        if (x % 5 == 2 && y % 5 == 2 && (alpha == 0 || alpha == 255))
          g_assert_cmpint (
              holds (drawing, (PfPoint){ (x + 0.5) / PX_PER_MM, (y + 0.5) / PX_PER_MM }), ==,
              alpha == 255);
      }
  return painted / (PX_PER_MM * PX_PER_MM);
}

static bool
lies_on_sheet (const PfDrawing *drawing)
{
  for (guint i = 0; i < drawing->outlines->len; i++)
    {
      const PfBox box = ((const PfOutline *) drawing->outlines->pdata[i])->region->box;
      if (box.min.x < 0 || box.min.y < 0 || box.max.x > SIDE || box.max.y > SIDE)
        return false;
    }
  return true;
}

static void
test_beside_librsvg (void)
{
  int compared = 0;
  for (int i = 0; i < DRAWINGS; i++)
    {
      g_autofree char *svg = random_drawing ();
      g_autoptr (GError) error = NULL;
      g_test_message ("%s", svg);
      g_autoptr (PfDrawing) drawing = pf_drawing_parse (svg, strlen (svg), "random", NULL, &error);
      g_assert_no_error (error);
      if (!lies_on_sheet (drawing))
        continue;
      cairo_surface_t *surface = paint (svg);
      const double painted = compare_pixels (drawing, surface);
      double area = 0;
      for (guint k = 0; k < drawing->outlines->len; k++)
        area += pf_region_area (((const PfOutline *) drawing->outlines->pdata[k])->region);
      g_assert_cmpfloat (fabs (area - painted), <=, 0.01 * painted);
      cairo_surface_destroy (surface);
      compared++;
    }
  g_test_message ("%d of %d compared", compared, DRAWINGS);
  g_assert_cmpint (compared, >=, DRAWINGS / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg/render/beside-librsvg", test_beside_librsvg);
  return g_test_run ();
}
