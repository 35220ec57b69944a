/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Loops: closed rows of points, each apart from the next, with the distance along at every one.
 *
 * A distance along is always from 0 to less than the length: the loop's end is its start.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "outline.h"

/* Copies the points that are apart from the one before. */
static bool
copy_points (PfLoop *loop, const PfChain *chain, GError **error)
{
  loop->points = g_new (PfPoint, MAX (chain->n_points, 1));
  for (size_t i = 0; i < chain->n_points; i++)
    {
      const PfPoint p = chain->points[i];

      if (!pf_point_usable (p))
        {
          pf_point_set_error (p, error);
          return false;
        }
      if (loop->n_points == 0 || !pf_point_near (p, loop->points[loop->n_points - 1], PF_TOUCH))
        loop->points[loop->n_points++] = p;
    }
  while (loop->n_points > 1 &&
         pf_point_near (loop->points[loop->n_points - 1], loop->points[0], PF_TOUCH))
    loop->n_points--;
  return true;
}

static void
measure (PfLoop *loop)
{
  const size_t n = loop->n_points;

  loop->along = g_new (double, n + 1);
  loop->along[0] = 0;
  for (size_t i = 0; i < n; i++)
    {
      const PfPoint d = pf_point_minus (loop->points[i + 1 < n ? i + 1 : 0], loop->points[i]);

      loop->along[i + 1] = loop->along[i] + sqrt (pf_point_dot (d, d));
    }
}

/* Whether all points lie on one straight line, from the first to the one farthest from it. */
static bool
is_on_a_line (const PfLoop *loop)
{
  PfPoint way = { 0, 0 };

  for (size_t i = 1; i < loop->n_points; i++)
    {
      const PfPoint d = pf_point_minus (loop->points[i], loop->points[0]);

      way = pf_point_dot (d, d) > pf_point_dot (way, way) ? d : way;
    }
  const double within = PF_TOUCH * sqrt (pf_point_dot (way, way));
  for (size_t i = 1; i < loop->n_points; i++)
    if (fabs (pf_point_cross (way, pf_point_minus (loop->points[i], loop->points[0]))) > within)
      return false;
  return true;
}

bool
pf_loop_init (PfLoop *loop, const PfChain *chain, GError **error)
{
  memset (loop, 0, sizeof *loop);
  if (!copy_points (loop, chain, error))
    {
      pf_loop_clear (loop);
      return false;
    }
  measure (loop);
  /* A loop off the line whose area adds up to 0 crosses itself. */
  if (is_on_a_line (loop))
    {
      const PfPoint at = loop->n_points > 0 ? loop->points[0] : (PfPoint){ 0, 0 };

      g_set_error (
          error, PF_ERROR, PF_ERROR_OUTLINE,
          _ ("The outline that starts at (%.2f, %.2f) mm has no area. Remove it, or draw it "
             "so that it goes round a space."),
          at.x, at.y);
      pf_error_set_place (error, at);
      pf_loop_clear (loop);
      return false;
    }
  return true;
}

void
pf_loop_clear (PfLoop *loop)
{
  g_clear_pointer (&loop->points, g_free);
  g_clear_pointer (&loop->along, g_free);
  loop->n_points = 0;
}

PfBox
pf_loop_box (const PfLoop *loop)
{
  PfBox box = { loop->points[0], loop->points[0] };

  for (size_t i = 1; i < loop->n_points; i++)
    {
      const PfPoint p = loop->points[i];

      box.min = (PfPoint){ MIN (box.min.x, p.x), MIN (box.min.y, p.y) };
      box.max = (PfPoint){ MAX (box.max.x, p.x), MAX (box.max.y, p.y) };
    }
  return box;
}

static double
wrap (const PfLoop *loop, double along)
{
  const double length = pf_loop_length (loop);

  if (along < 0)
    along += length;
  return along < length ? along : along - length;
}

double
pf_loop_forward (const PfLoop *loop, double from, double to)
{
  return wrap (loop, to - from);
}

double
pf_loop_distance (const PfLoop *loop, double a, double b)
{
  const double forward = fabs (b - a);

  return MIN (forward, pf_loop_length (loop) - forward);
}

double
pf_loop_midway (const PfLoop *loop, double a, double b)
{
  const double forward = pf_loop_forward (loop, a, b), back = pf_loop_length (loop) - forward;

  return forward <= back ? wrap (loop, a + forward / 2) : wrap (loop, b + back / 2);
}
