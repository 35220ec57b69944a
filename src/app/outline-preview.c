/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Outlines are drawn in pixels, so that the line is of one width whatever the shape's size.
 */
#include "outline-preview.h"

#include <math.h>

void
pf_region_path (cairo_t *cr, const PfRegion *region)
{
  for (size_t l = 0; l < region->n_loops; l++)
    {
      const PfLoop *loop = &region->loops[l];
      for (size_t p = 0; p < loop->n_points; p++)
        cairo_line_to (cr, loop->points[p].x, loop->points[p].y);
      cairo_close_path (cr);
      cairo_new_sub_path (cr);
    }
}

PfAffine
pf_fit_box (PfBox box, double width, double height, double margin)
{
  const double w = fmax (box.max.x - box.min.x, PF_TOUCH);
  const double h = fmax (box.max.y - box.min.y, PF_TOUCH);
  const double scale = fmin (fmax (width - 2 * margin, 1) / w, fmax (height - 2 * margin, 1) / h);
  return (PfAffine){ scale,
                     0,
                     0,
                     scale,
                     width / 2 - scale * (box.min.x + box.max.x) / 2,
                     height / 2 - scale * (box.min.y + box.max.y) / 2 };
}

void
pf_region_draw (cairo_t *cr, const PfRegion *region, double width, double height,
                const GdkRGBA *ink)
{
  const PfAffine map = pf_fit_box (region->box, width, height, 3);
  cairo_matrix_t matrix;
  cairo_matrix_init (&matrix, map.xx, map.yx, map.xy, map.yy, map.x0, map.y0);
  cairo_save (cr);
  cairo_transform (cr, &matrix);
  pf_region_path (cr, region);
  cairo_restore (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_source_rgba (cr, ink->red, ink->green, ink->blue, 0.15 * ink->alpha);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 1.2);
  cairo_stroke (cr);
}
