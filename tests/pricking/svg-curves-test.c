/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The nodes of imported outlines: as many as were drawn, and a curve that is the region's own loop
 * again when it is flattened.
 */
#include <math.h>
#include <string.h>

#include <pricking.h>

/* Twice the flatness: the curve and the loop are flattened each for itself. */
#define WITHIN (2 * PF_FLATNESS)

static double
distance_to_step (PfPoint p, PfPoint a, PfPoint b)
{
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t = square > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0;
  const double u = CLAMP (t, 0, 1);
  return hypot (a.x + u * dx - p.x, a.y + u * dy - p.y);
}

/* Whether each point of one closed chain, and each middle between two, is near the other. */
static void
assert_within (const PfPoint *a, size_t n, const PfPoint *b, size_t m)
{
  for (size_t i = 0; i < 2 * n; i++)
    {
      const PfPoint from = a[i / 2], to = a[(i / 2 + i % 2) % n];
      const PfPoint p = { (from.x + to.x) / 2, (from.y + to.y) / 2 };
      double least = INFINITY;
      for (size_t k = 0; k < m; k++)
        least = fmin (least, distance_to_step (p, b[k], b[(k + 1) % m]));
      g_assert_cmpfloat (least, <=, WITHIN);
    }
}

static void
check_outline (const PfOutline *outline)
{
  for (size_t l = 0; l < outline->region->n_loops; l++)
    {
      const PfLoop *loop = &outline->region->loops[l];
      const PfCurve *curve = outline->curves[l];
      g_autoptr (GError) error = NULL;
      PfChain chain;
      g_assert_nonnull (curve);
      g_assert_true (curve->closed);
      g_assert_true (pf_curve_flatten (curve, &chain, &error));
      g_assert_no_error (error);
      g_assert_cmpfloat (
          hypot (chain.points[0].x - loop->points[0].x, chain.points[0].y - loop->points[0].y), <=,
          PF_TOUCH);
      assert_within (chain.points, chain.n_points, loop->points, loop->n_points);
      assert_within (loop->points, loop->n_points, chain.points, chain.n_points);
      /* The same sign too: the direction is kept. */
      const double area = pf_chain_area (chain.points, chain.n_points);
      const double want = pf_chain_area (loop->points, loop->n_points);
      g_assert_cmpfloat (fabs (area - want), <=, PF_FLATNESS * pf_loop_length (loop));
      for (size_t i = 0; i < curve->n_nodes; i++)
        g_assert_true (curve->nodes[i].smooth == pf_node_runs_smooth (&curve->nodes[i]));
      g_free (chain.points);
    }
  g_assert_null (outline->curves[outline->region->n_loops]);
}

/* "4s" for each loop: its nodes, and s if some of them are smooth, S if all are. */
static char *
describe (const PfDrawing *drawing)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < drawing->outlines->len; i++)
    {
      const PfOutline *outline = drawing->outlines->pdata[i];
      check_outline (outline);
      g_string_append (text, i > 0 ? "; " : "");
      for (size_t l = 0; l < outline->region->n_loops; l++)
        {
          const PfCurve *curve = outline->curves[l];
          size_t n_smooth = 0;
          for (size_t k = 0; k < curve->n_nodes; k++)
            n_smooth += curve->nodes[k].smooth;
          g_string_append_printf (text, "%s%zu%s", l > 0 ? " " : "", curve->n_nodes,
                                  n_smooth == curve->n_nodes ? "S"
                                  : n_smooth > 0             ? "s"
                                                             : "");
        }
    }
  return g_string_free (text, FALSE);
}

static PfDrawing *
parse_inside (const char *inside)
{
  g_autofree char *svg = g_strconcat ("<svg xmlns='http://www.w3.org/2000/svg' width='1000mm' "
                                      "height='1000mm' viewBox='0 0 1000 1000'>",
                                      inside, "</svg>", NULL);
  g_autoptr (GError) error = NULL;
  g_test_message ("%s", inside);
  PfDrawing *drawing = pf_drawing_parse (svg, strlen (svg), "test.svg", NULL, &error);
  g_assert_no_error (error);
  return drawing;
}

static const struct {
  const char *inside, *nodes;
} cases[] = {
  { "<rect width='30' height='20'/>", "4" },
  { "<rect width='30' height='20' rx='4'/>", "8" },
  { "<circle cx='50' cy='50' r='20'/>", "4S" },
  /* A larger one needs more nodes: four curves would be off by 0.03 % of the radius, 0.08 mm. */
  { "<circle cx='400' cy='400' r='300'/>", "8S" },
  { "<ellipse cx='50' cy='50' rx='20' ry='5' transform='rotate(30) skewX(10)'/>", "4S" },
  { "<polygon points='0,0 9,0 9,9 4,12'/>", "4" },
  /* Joined by Z, by coming back, by coming back nearly, and by both. */
  { "<path d='M0 0L9 0L9 9Z'/>", "3" },
  { "<path d='M0 0L9 0L9 9L0 0'/>", "3" },
  { "<path d='M0 0L9 0L9 9L0.004 0'/>", "3" },
  { "<path d='M0 0L9 0L9 9L0.004 0Z'/>", "3" },
  { "<path d='M0 0C40 40 -40 40 0 0'/>", "1" },
  { "<path d='M0 0C40 40 -40 40 0 0.003Z'/>", "1" },
  { "<path d='M0 0Q10 20 20 0T40 0L20 -40Z'/>", "4s" },
  { "<path d='M0 0C0 10 10 20 20 20S40 10 40 0Z'/>", "3s" },
  /* The tangents at the middle node turn by 0.57, then by 1.7 degrees. */
  { "<path d='M0 0C0 10 10 20 20 20C30 20.1 40 10 40 0Z'/>", "3s" },
  { "<path d='M0 0C0 10 10 20 20 20C30 20.3 40 10 40 0Z'/>", "3" },
  { "<path d='M10 0A10 10 0 0 1 -10 0A10 10 0 0 1 10 0Z'/>", "4S" },
  { "<path d='M10 0A10 10 0 1 1 0 -10Z'/>", "4s" },
  /* A loop within another, each drawn its own way. */
  { "<path fill-rule='evenodd' d='M0 0H50V50H0Z M20 20C20 30 30 30 30 20Z'/>", "4 2" },
  { "<circle cx='50' cy='50' r='20'/><circle cx='50' cy='50' r='9'/><path d='M45 45h5v5z'/>",
    "4S 4S; 3" },
  { "<defs><path id='a' d='M0 0C10 0 10 10 0 10Z'/></defs><use href='#a' x='5'/>"
    "<use href='#a' transform='matrix(0 3 -2 0 90 50)'/>",
    "2; 2" },
  /* Two loops that touch in their first points. */
  { "<path d='M50 50L60 40L60 60Z'/><path d='M50 50L40 60L40 40L45 45Z'/>", "3; 4" },
};

static void
test_nodes (void)
{
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (PfDrawing) drawing = parse_inside (cases[i].inside);
      g_autofree char *text = describe (drawing);
      g_assert_cmpstr (text, ==, cases[i].nodes);
    }
}

/* The demo's drawings: far fewer nodes than points. */
static void
test_demo (void)
{
  static const char *const files[] = { "pond.svg", "quince-flower.svg", "quince-leaf.svg",
                                       "runner-end.svg", "swift.svg" };
  for (size_t i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_build_filename (g_getenv ("PF_DATA"), "demo", files[i], NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDrawing) drawing = pf_drawing_load (path, NULL, &error);
      size_t n_nodes = 0, n_points = 0;
      g_assert_no_error (error);
      for (guint k = 0; k < drawing->outlines->len; k++)
        {
          const PfOutline *outline = drawing->outlines->pdata[k];
          check_outline (outline);
          for (size_t l = 0; l < outline->region->n_loops; l++)
            {
              n_nodes += outline->curves[l]->n_nodes;
              n_points += outline->region->loops[l].n_points;
            }
        }
      g_test_message ("%s: %zu nodes, %zu points", files[i], n_nodes, n_points);
      g_assert_true (n_nodes * 4 < n_points);
    }
}

static void
test_leaf (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("PF_DATA"), "demo", "quince-leaf.svg", NULL);
  g_autoptr (PfDrawing) drawing = pf_drawing_load (path, NULL, NULL);
  const PfOutline *leaf = drawing->outlines->pdata[0];
  const PfNode *nodes = leaf->curves[0]->nodes;
  g_assert_cmpuint (leaf->curves[0]->n_nodes, ==, 4);
  g_assert_cmpfloat_with_epsilon (nodes[0].at.x, 25, 1e-9);
  g_assert_cmpfloat_with_epsilon (nodes[0].at.y, 75, 1e-9);
  g_assert_cmpfloat_with_epsilon (nodes[2].at.y, 5, 1e-9);
  g_assert_cmpfloat_with_epsilon (nodes[2].out.x, 33, 1e-9);
  g_assert_cmpfloat_with_epsilon (nodes[2].in.y, 21, 1e-9);
  g_assert_false (nodes[2].smooth);
}

static double
random_up_to (double size)
{
  return g_test_rand_double_range (-size, size);
}

/* A spiky round outline of arcs, lines and curves, anyhow transformed, and repeated by `use`. */
static char *
random_drawing (void)
{
  GString *text = g_string_new ("<defs><path id='a' d='");
  const int n = g_test_rand_int_range (3, 9);
  for (int i = 0; i <= n; i++)
    {
      const double angle = 2 * G_PI * i / n, x = 40 * cos (angle), y = 40 * sin (angle);
      const double near = 2 * G_PI * (i - 0.5) / n, cx = 36 * cos (near), cy = 36 * sin (near);
      if (i == 0)
        g_string_append_printf (text, "M%g %g", x, y);
      else if (g_test_rand_bit ())
        g_string_append_printf (text, "A%g %g %g 0 1 %g %g", g_test_rand_double_range (40, 60),
                                g_test_rand_double_range (40, 60), random_up_to (90), x, y);
      else if (g_test_rand_bit ())
        g_string_append_printf (text, "Q%g %g %g %g", cx, cy, x, y);
      else
        g_string_append_printf (text, "L%g %g", x, y);
    }
  g_string_append_printf (
      text,
      "Z'/></defs><use href='#a' transform='translate(%g %g) rotate(%g) scale(%g %g)'/>"
      "<use href='#a' transform='translate(700 700) matrix(%g %g %g %g 0 0)'/>",
      200 + random_up_to (9), 200 + random_up_to (9), random_up_to (180),
      g_test_rand_double_range (0.3, 4), g_test_rand_double_range (0.3, 4),
      g_test_rand_double_range (1, 3), random_up_to (0.9), random_up_to (0.9),
      g_test_rand_double_range (-3, -1));
  return g_string_free (text, FALSE);
}

static void
test_random (void)
{
  for (int k = 0; k < 20; k++)
    {
      g_autofree char *inside = random_drawing ();
      g_autoptr (PfDrawing) drawing = parse_inside (inside);
      g_assert_cmpuint (drawing->outlines->len, ==, 2);
      for (guint i = 0; i < drawing->outlines->len; i++)
        check_outline (drawing->outlines->pdata[i]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg-curves/nodes", test_nodes);
  g_test_add_func ("/svg-curves/demo", test_demo);
  g_test_add_func ("/svg-curves/leaf", test_leaf);
  g_test_add_func ("/svg-curves/random", test_random);
  return g_test_run ();
}
