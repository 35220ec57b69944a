/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be said of a row of points on its own: its area, and whether it fits on a sheet. */
#include <glib/gi18n-lib.h>

#include "outline.h"

double
pf_chain_area (const PfPoint *points, size_t n)
{
  double twice = 0;

  /* Triangles fanned out from the first point: a small loop far from the sheet's corner loses
   * nothing. */
  for (size_t i = 2; i < n; i++)
    twice += pf_point_cross (pf_point_minus (points[i - 1], points[0]),
                             pf_point_minus (points[i], points[0]));
  return twice / 2;
}

void
pf_point_set_error (PfPoint p, GError **error)
{
  if (isfinite (p.x) && isfinite (p.y))
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_OUTLINE,
          _ ("The outline reaches (%.2f, %.2f) mm, more than %.0f mm from the sheet's top left "
             "corner. Check the drawing's units and scale."),
          p.x, p.y, PF_OUTLINE_LIMIT);
      pf_error_set_place (error, p);
    }
  else
    g_set_error_literal (
        error, PF_ERROR, PF_ERROR_OUTLINE,
        _ ("The outline has a coordinate that isn't a usable number. Check its path and "
           "the transforms around it."));
}
