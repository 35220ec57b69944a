/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The basic shapes as paths, each from the first point and in the direction that SVG 2, chapter 10,
 * gives it. A shape with an attribute that can't be read isn't drawn: drawn wrong it would be
 * pricked.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

bool
pf_svg_frame_length (PfSvgReader *reader, const PfSvgFrame *frame, const char *name, char axis,
                     double *px)
{
  const char *const text = pf_svg_attribute (frame->node, name);
  const double whole = axis == 'x'   ? frame->width
                       : axis == 'y' ? frame->height
                                     : hypot (frame->width, frame->height) / G_SQRT2;
  if (text == NULL || strcmp (text, "auto") == 0 || pf_svg_length (text, whole, px))
    return true;
  pf_svg_remark (reader->remarks, frame->node, _ ("%s=\"%.40s\" isn't a length; skipped"), name,
                 text);
  return false;
}

typedef struct {
  PfSvgReader *reader;
  const PfSvgFrame *frame;
  PfSvgPen *pen;
  PfSvgShape *shape;
} Drawing;

static bool
length (const Drawing *drawing, const char *name, char axis, double *px)
{
  return pf_svg_frame_length (drawing->reader, drawing->frame, name, axis, px);
}

static PfSvgDrawn
draw_line (const Drawing *drawing)
{
  PfPoint from = { 0, 0 }, to = { 0, 0 };
  if (!length (drawing, "x1", 'x', &from.x) || !length (drawing, "y1", 'y', &from.y) ||
      !length (drawing, "x2", 'x', &to.x) || !length (drawing, "y2", 'y', &to.y))
    return PF_SVG_SKIPPED;
  pf_path_move_to (drawing->pen->path, from);
  pf_path_line_to (drawing->pen->path, to);
  return PF_SVG_DRAWN;
}

/* The ellipse's largest diameter on the sheet: twice the larger singular value of the map from the
 * unit circle. */
static double
diameter (PfAffine m, double rx, double ry)
{
  const double xx = m.xx * rx, yx = m.yx * rx, xy = m.xy * ry, yy = m.yy * ry;
  return hypot (xx + yy, yx - xy) + hypot (xx - yy, yx + xy);
}

static PfSvgDrawn
draw_round (const Drawing *drawing, PfPoint centre, double rx, double ry)
{
  PfPath *const path = drawing->pen->path;
  if (!(rx > 0 && ry > 0))
    {
      pf_svg_remark (drawing->reader->remarks, drawing->frame->node, _ ("it has no size; skipped"));
      return PF_SVG_SKIPPED;
    }
  pf_path_move_to (path, (PfPoint){ centre.x + rx, centre.y });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ centre.x, centre.y + ry });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ centre.x - rx, centre.y });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ centre.x, centre.y - ry });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ centre.x + rx, centre.y });
  pf_path_close (path);
  drawing->shape->round = true;
  drawing->shape->centre = pf_affine_map (drawing->frame->to_sheet, centre);
  drawing->shape->across = diameter (drawing->frame->to_sheet, rx, ry);
  return PF_SVG_DRAWN;
}

static PfSvgDrawn
draw_circle (const Drawing *drawing)
{
  PfPoint centre = { 0, 0 };
  double r = 0;
  if (!length (drawing, "cx", 'x', &centre.x) || !length (drawing, "cy", 'y', &centre.y) ||
      !length (drawing, "r", 'd', &r))
    return PF_SVG_SKIPPED;
  return draw_round (drawing, centre, r, r);
}

/* A radius that is missing, `auto` or negative is as long as the other. */
static bool
radii (const Drawing *drawing, double *rx, double *ry)
{
  *rx = *ry = -1;
  if (!length (drawing, "rx", 'x', rx) || !length (drawing, "ry", 'y', ry))
    return false;
  if (*rx < 0)
    *rx = *ry;
  if (*ry < 0)
    *ry = *rx;
  return true;
}

static PfSvgDrawn
draw_ellipse (const Drawing *drawing)
{
  PfPoint centre = { 0, 0 };
  double rx, ry;
  if (!length (drawing, "cx", 'x', &centre.x) || !length (drawing, "cy", 'y', &centre.y) ||
      !radii (drawing, &rx, &ry))
    return PF_SVG_SKIPPED;
  return draw_round (drawing, centre, rx, ry);
}

static void
draw_round_corners (PfPath *path, PfSvgBox box, double rx, double ry)
{
  const double left = box.x, right = box.x + box.width, top = box.y, bottom = box.y + box.height;
  pf_path_move_to (path, (PfPoint){ left + rx, top });
  pf_path_line_to (path, (PfPoint){ right - rx, top });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ right, top + ry });
  pf_path_line_to (path, (PfPoint){ right, bottom - ry });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ right - rx, bottom });
  pf_path_line_to (path, (PfPoint){ left + rx, bottom });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ left, bottom - ry });
  pf_path_line_to (path, (PfPoint){ left, top + ry });
  pf_path_arc_to (path, rx, ry, 0, false, true, (PfPoint){ left + rx, top });
  pf_path_close (path);
}

static PfSvgDrawn
draw_rect (const Drawing *drawing)
{
  PfSvgBox box = { 0, 0, 0, 0 };
  double rx, ry;
  if (!length (drawing, "x", 'x', &box.x) || !length (drawing, "y", 'y', &box.y) ||
      !length (drawing, "width", 'x', &box.width) ||
      !length (drawing, "height", 'y', &box.height) || !radii (drawing, &rx, &ry))
    return PF_SVG_SKIPPED;
  if (!(box.width > 0 && box.height > 0))
    {
      pf_svg_remark (drawing->reader->remarks, drawing->frame->node, _ ("it has no size; skipped"));
      return PF_SVG_SKIPPED;
    }
  const bool rounded = rx > 0 && ry > 0;
  draw_round_corners (drawing->pen->path, box, rounded ? fmin (rx, box.width / 2) : 0,
                      rounded ? fmin (ry, box.height / 2) : 0);
  return PF_SVG_DRAWN;
}

/* Path data or points, drawn up to the first error. */
static PfSvgDrawn
draw_text (const Drawing *drawing, const char *name, bool points, bool closed)
{
  const char *const text = pf_svg_attribute (drawing->frame->node, name);
  size_t bad = 0;
  if (text == NULL)
    return PF_SVG_SKIPPED;
  drawing->reader->n_path_text += strlen (text);
  if (drawing->reader->n_path_text > PF_SVG_MAX_PATH_TEXT)
    {
      drawing->pen->full = true;
      return PF_SVG_SKIPPED;
    }
  const bool whole = points ? pf_svg_points (text, closed, drawing->pen, &bad)
                            : pf_svg_path_data (text, drawing->pen, &bad);
  if (!whole && !drawing->pen->full)
    pf_svg_remark (drawing->reader->remarks, drawing->frame->node,
                   _ ("its %s can't be read from character %zu on; only what comes before is used"),
                   name, bad + 1);
  return PF_SVG_DRAWN;
}

static PfSvgDrawn
draw_path (const Drawing *drawing)
{
  return draw_text (drawing, "d", false, false);
}

static PfSvgDrawn
draw_polyline (const Drawing *drawing)
{
  return draw_text (drawing, "points", true, false);
}

static PfSvgDrawn
draw_polygon (const Drawing *drawing)
{
  return draw_text (drawing, "points", true, true);
}

static const struct {
  const char *name;
  PfSvgDrawn (*draw) (const Drawing *drawing);
} shapes[] = {
  { "path", draw_path },       { "rect", draw_rect }, { "circle", draw_circle },
  { "ellipse", draw_ellipse }, { "line", draw_line }, { "polyline", draw_polyline },
  { "polygon", draw_polygon },
};

PfSvgDrawn
pf_svg_shape_draw (PfSvgReader *reader, const PfSvgFrame *frame, PfSvgPen *pen, PfSvgShape *shape)
{
  const Drawing drawing = { reader, frame, pen, shape };
  for (size_t i = 0; i < G_N_ELEMENTS (shapes); i++)
    if (strcmp ((const char *) frame->node->name, shapes[i].name) == 0)
      return shapes[i].draw (&drawing);
  return PF_SVG_NO_SHAPE;
}
