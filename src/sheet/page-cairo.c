/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A page drawn with cairo at once. Shapes of one ink are gathered into one path, since each fill or
 * stroke costs far more than its shapes: polygons all turn the same way in it, so that two that
 * overlap make no hole. Where shapes cover one another with their paper, they aren't gathered.
 */
#include "page-back-end.h"

#include <math.h>
#include <string.h>

#include "view.h"

/* A disc of a smaller radius than this is drawn as a square of the same area, pixels. */
#define ROUND_LEAST 1.5
/* How far a circle's polygon may lie off it, pixels. */
#define ROUNDNESS 0.08
#define MAX_SIDES 64

#define MAX_OPEN 8
/* So many shapes that may cover one another are gathered: each is compared with all before it. */
#define MAX_COVERING 256
/* A path of more points than this is drawn, and another one begun: cairo sorts all its edges. */
#define MAX_POINTS 2000
/* Joins of thinner lines are cut off straight, which can't be seen, pixels. */
#define ROUND_JOIN_LEAST 2.0

typedef struct {
  PfInk ink; /* colours are kept as numbers */
  double fill[3], stroke[3];
  bool clips;
  bool text; /* its stroke, the halo, lies under its fill */
} Group;

typedef struct {
  PfPage page;
  cairo_t *cr;
  double pixel; /* of the device, mm */
  Group open[MAX_OPEN];
  int n_open;
  guint n_points; /* of the path so far */
  PfBox covering[MAX_COVERING];
  int n_covering;
  int n_sides; /* of the circle below */
  double sides_radius;
  PfPoint sides[MAX_SIDES];
} CairoPage;

static CairoPage *
cairo_page (PfPage *page)
{
  return (CairoPage *) page;
}

static const Group *
current (const CairoPage *self)
{
  return &self->open[self->n_open - 1];
}

/* "#rgb" or "#rrggbb". */
static void
read_colour (const char *colour, double rgb[3])
{
  const size_t n = strlen (colour + 1) / 3;
  for (size_t i = 0; i < 3; i++)
    {
      const int high = g_ascii_xdigit_value (colour[1 + n * i]);
      const int low = n == 2 ? g_ascii_xdigit_value (colour[2 + n * i]) : high;
      rgb[i] = (16 * high + low) / 255.0;
    }
}

static void
set_stroke (const CairoPage *self, const Group *group)
{
  cairo_set_source_rgb (self->cr, group->stroke[0], group->stroke[1], group->stroke[2]);
  cairo_set_line_width (self->cr, group->ink.width);
  cairo_set_line_join (self->cr, group->ink.width < ROUND_JOIN_LEAST * self->pixel
                                     ? CAIRO_LINE_JOIN_BEVEL
                                     : CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (self->cr, group->ink.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (self->cr, group->ink.dash, group->ink.n_dash, 0);
}

static void
stroke (const CairoPage *self, const Group *group)
{
  set_stroke (self, group);
  cairo_stroke_preserve (self->cr);
}

/* Draws what has been gathered. */
static void
flush (CairoPage *self)
{
  const Group *group = current (self);
  const bool any = self->n_points > 0;
  if (any && group->text && group->ink.stroke)
    stroke (self, group);
  if (any && group->ink.fill)
    {
      cairo_set_source_rgb (self->cr, group->fill[0], group->fill[1], group->fill[2]);
      cairo_fill_preserve (self->cr);
    }
  if (any && !group->text && group->ink.stroke)
    stroke (self, group);
  cairo_new_path (self->cr);
  self->n_points = 0;
  self->n_covering = 0;
}

/* Makes room for a shape that fills `box`. */
static void
begin_shape (CairoPage *self, PfBox box)
{
  const Group *group = current (self);
  if (self->n_points > MAX_POINTS)
    flush (self);
  cairo_new_sub_path (self->cr);
  if (!group->ink.fill || !group->ink.stroke || g_str_equal (group->ink.fill, group->ink.stroke))
    return;
  box = pf_box_grown (box, group->ink.width);
  bool covers = self->n_covering == MAX_COVERING;
  for (int i = 0; i < self->n_covering && !covers; i++)
    covers = pf_boxes_meet (self->covering[i], box);
  if (covers)
    flush (self);
  self->covering[self->n_covering++] = box;
}

static void
push (CairoPage *self, Group group)
{
  g_assert (self->n_open < MAX_OPEN);
  if (self->n_open > 0)
    flush (self);
  self->open[self->n_open++] = group;
}

static void
push_ink (PfPage *page, const PfInk *ink, bool text)
{
  Group group = { .ink = *ink, .text = text };
  if (ink->fill)
    read_colour (ink->fill, group.fill);
  if (ink->stroke)
    read_colour (ink->stroke, group.stroke);
  push (cairo_page (page), group);
}

static void
cairo_page_group (PfPage *page, const char *name, const PfInk *ink)
{
  (void) name;
  push_ink (page, ink, false);
}

static void
cairo_page_text_group (PfPage *page, const char *name, const char *colour, const char *halo)
{
  (void) name;
  const PfInk ink = { .fill = colour, .stroke = halo, .width = PF_HALO_WIDTH };
  push_ink (page, &ink, true);
}

static void
cairo_page_clip_group (PfPage *page, const char *name, PfBox box)
{
  (void) name;
  CairoPage *self = cairo_page (page);
  push (self, (Group){ .clips = true });
  cairo_save (self->cr);
  cairo_rectangle (self->cr, box.min.x, box.min.y, box.max.x - box.min.x, box.max.y - box.min.y);
  cairo_clip (self->cr);
}

static void
cairo_page_group_end (PfPage *page)
{
  CairoPage *self = cairo_page (page);
  flush (self);
  if (current (self)->clips)
    cairo_restore (self->cr);
  self->n_open--;
}

/* Goes on from where the path is, or begins there. */
static void
add_points (CairoPage *self, const PfPoint *points, size_t n, bool backwards)
{
  for (size_t i = 0; i < n; i++)
    {
      const PfPoint p = points[backwards ? n - 1 - i : i];
      cairo_line_to (self->cr, p.x, p.y);
    }
  self->n_points += (guint) n;
}

static PfBox
box_of (const PfPoint *points, size_t n)
{
  PfBox box = PF_BOX_EMPTY;
  for (size_t i = 0; i < n; i++)
    box = pf_box_with (box, points[i]);
  return box;
}

static void
cairo_page_polyline (PfPage *page, const PfPoint *points, size_t n)
{
  CairoPage *self = cairo_page (page);
  begin_shape (self, current (self)->ink.fill ? box_of (points, n) : PF_BOX_EMPTY);
  add_points (self, points, n, false);
}

static void
cairo_page_line (PfPage *page, PfPoint a, PfPoint b)
{
  const PfPoint ends[] = { a, b };
  cairo_page_polyline (page, ends, G_N_ELEMENTS (ends));
}

static void
cairo_page_polygon (PfPage *page, const PfPoint *points, size_t n)
{
  CairoPage *self = cairo_page (page);
  const PfInk *ink = &current (self)->ink;
  begin_shape (self, ink->fill ? box_of (points, n) : PF_BOX_EMPTY);
  const bool backwards = ink->fill && pf_chain_area (points, n) < 0;
  /* Cairo 1.16 doesn't round the join where a closed path ends: begin in the middle of a side. */
  if (ink->stroke && ink->n_dash == 0 && n > 1)
    {
      const PfPoint a = points[0], b = points[n - 1];
      cairo_move_to (self->cr, (a.x + b.x) / 2, (a.y + b.y) / 2);
    }
  add_points (self, points, n, backwards);
  cairo_close_path (self->cr);
}

static void
cairo_page_curves (PfPage *page, const PfPoint *points, size_t n_curves)
{
  CairoPage *self = cairo_page (page);
  begin_shape (self, current (self)->ink.fill ? box_of (points, 3 * n_curves + 1) : PF_BOX_EMPTY);
  cairo_move_to (self->cr, points[0].x, points[0].y);
  for (const PfPoint *p = points + 1; p < points + 3 * n_curves; p += 3)
    cairo_curve_to (self->cr, p[0].x, p[0].y, p[1].x, p[1].y, p[2].x, p[2].y);
  self->n_points += (guint) (8 * n_curves);
}

static void
cairo_page_box (PfPage *page, PfBox box)
{
  CairoPage *self = cairo_page (page);
  begin_shape (self, box);
  cairo_rectangle (self->cr, box.min.x, box.min.y, box.max.x - box.min.x, box.max.y - box.min.y);
  self->n_points += 4;
}

/* The polygon that stands for a circle of that radius; most circles of a group are alike. */
static void
find_sides (CairoPage *self, double radius)
{
  if (self->sides_radius == radius)
    return;
  const double off = fmin (ROUNDNESS * self->pixel / radius, 0.1);
  self->n_sides = CLAMP ((int) ceil (G_PI / acos (1 - off)), 8, MAX_SIDES);
  /* Half inside the circle, half outside it: the area is the same. */
  const double step = 2 * G_PI / self->n_sides;
  const double reach = radius * sqrt (step / sin (step));
  for (int i = 0; i < self->n_sides; i++)
    self->sides[i] = (PfPoint){ reach * cos (i * step), reach * sin (i * step) };
  self->sides_radius = radius;
}

static void
cairo_page_circle (PfPage *page, PfPoint centre, double radius)
{
  CairoPage *self = cairo_page (page);
  const PfBox around = { centre, centre };
  if (radius < ROUND_LEAST * self->pixel && !current (self)->ink.stroke)
    {
      cairo_page_box (page, pf_box_grown (around, radius * sqrt (G_PI) / 2));
      return;
    }
  find_sides (self, radius);
  begin_shape (self, pf_box_grown (around, radius));
  PfPoint points[MAX_SIDES];
  for (int i = 0; i < self->n_sides; i++)
    points[i] = pf_point_add (centre, self->sides[i], 1);
  add_points (self, points, (size_t) self->n_sides, false);
  cairo_close_path (self->cr);
}

static void
cairo_page_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, double turn,
                 const char *text)
{
  CairoPage *self = cairo_page (page);
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  cairo_text_extents_t e;
  cairo_set_font_size (self->cr, size);
  cairo_text_extents (self->cr, valid, &e);
  const double part = anchor == PF_TEXT_MIDDLE ? 0.5 : anchor == PF_TEXT_END ? 1 : 0;
  const double reach = turn == 0 ? 0 : e.x_advance + size;
  const double left = at.x - part * e.x_advance;
  const PfBox box = { { left + e.x_bearing, at.y + e.y_bearing },
                      { left + e.x_bearing + e.width, at.y + e.y_bearing + e.height } };
  begin_shape (self, pf_box_grown (box, reach));
  const int points_a_letter = 20;
  self->n_points += points_a_letter * (guint) strlen (valid);
  cairo_save (self->cr);
  cairo_translate (self->cr, at.x, at.y);
  cairo_rotate (self->cr, turn * G_PI / 180);
  cairo_move_to (self->cr, -part * e.x_advance, 0);
  cairo_text_path (self->cr, valid);
  cairo_restore (self->cr);
}

static char *
cairo_page_finish (PfPage *page)
{
  cairo_restore (cairo_page (page)->cr);
  g_free (page);
  return NULL;
}

/* As librsvg sets words: nothing of the letters is moved to whole pixels. */
static void
select_font (cairo_t *cr)
{
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options (cr, options);
  cairo_font_options_destroy (options);
  cairo_select_font_face (cr, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
}

/* The least of a device pixel's sides, in user units. */
static double
device_pixel (cairo_t *cr)
{
  double xx = 1, yx = 0, xy = 0, yy = 1;
  cairo_user_to_device_distance (cr, &xx, &yx);
  cairo_user_to_device_distance (cr, &xy, &yy);
  return 1 / fmax (hypot (xx, yx), hypot (xy, yy));
}

PfPage *
pf_page_new_cairo (cairo_t *cr, double pixel)
{
  static const PfPageBackEnd back_end = {
    .group = cairo_page_group,
    .text_group = cairo_page_text_group,
    .clip_group = cairo_page_clip_group,
    .group_end = cairo_page_group_end,
    .line = cairo_page_line,
    .polyline = cairo_page_polyline,
    .polygon = cairo_page_polygon,
    .curves = cairo_page_curves,
    .circle = cairo_page_circle,
    .box = cairo_page_box,
    .text = cairo_page_text,
    .finish = cairo_page_finish,
  };
  CairoPage *self = g_new0 (CairoPage, 1);
  self->page.back_end = &back_end;
  self->page.pixel = pixel;
  self->cr = cr;
  self->pixel = pixel > 0 ? pixel : device_pixel (cr);
  cairo_save (cr);
  cairo_new_path (cr);
  /* Grey in 16 steps, not 255, takes half the time. */
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
  select_font (cr);
  return &self->page;
}
