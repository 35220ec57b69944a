/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Drawing the canvas. Each part keeps what it drew until it changes, so that a pointer that moves
 * costs no more than its wedges on the rulers.
 */
#include <math.h>

#include "canvas-marks.h"
#include "canvas-private.h"
#include "canvas-rulers.h"

typedef struct {
  GdkRGBA ink, desk, ruler, mark;
} Colours;

/* The paper is light in every style, since what is printed is; the rest goes with the window. */
static Colours
find_colours (PfCanvas *canvas)
{
  Colours colours;
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (canvas)), &colours.ink);
  const float light = 0.3f * colours.ink.red + 0.59f * colours.ink.green + 0.11f * colours.ink.blue;
  const bool dark = light > 0.5f;
  colours.desk = dark ? (GdkRGBA){ 0.20f, 0.20f, 0.21f, 1 } : (GdkRGBA){ 0.80f, 0.80f, 0.79f, 1 };
  colours.ruler = dark ? (GdkRGBA){ 0.13f, 0.13f, 0.14f, 1 } : (GdkRGBA){ 0.97f, 0.97f, 0.96f, 1 };
  colours.mark = dark ? (GdkRGBA){ PF_MARK_LIGHT, 1 } : (GdkRGBA){ PF_MARK_INK, 1 };
  return colours;
}

static graphene_rect_t
whole (const PfCanvas *canvas)
{
  return GRAPHENE_RECT_INIT (0, 0, (float) canvas->view.width, (float) canvas->view.height);
}

static PfMarks
marks_of (PfCanvas *canvas)
{
  return (PfMarks){ canvas->editor, &canvas->view, GTK_WIDGET (canvas) };
}

static void
append_paper (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  const PfDocument *document = pf_editor_document (canvas->editor);
  const PfAffine map = pf_canvas_view_map (&canvas->view);
  const PfPoint corners[] = {
    { 0, 0 }, { document->width, 0 }, { document->width, document->height }, { 0, document->height }
  };
  const graphene_rect_t all = whole (canvas);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &all);
  for (size_t c = 0; c < G_N_ELEMENTS (corners); c++)
    {
      const PfPoint p = pf_affine_map (map, corners[c]);
      if (canvas->view.turn == 0)
        cairo_line_to (cr, round (p.x), round (p.y));
      else
        cairo_line_to (cr, p.x, p.y);
    }
  cairo_close_path (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.45, 0.45, 0.45);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
draw_under (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  const Colours colours = find_colours (canvas);
  const graphene_rect_t all = whole (canvas);
  gtk_snapshot_append_color (snapshot, &colours.desk, &all);
  append_paper (canvas, snapshot);
  pf_underlay_picture_show (canvas->underlay, &canvas->view, !canvas->moving, snapshot);
  const PfMarks marks = marks_of (canvas);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &all);
  pf_marks_draw_under (&marks, cr);
  cairo_destroy (cr);
}

static void
draw_picture (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (GTK_WIDGET (canvas)));
  const bool by_cairo =
      renderer == NULL || g_strcmp0 (G_OBJECT_TYPE_NAME (renderer), "GskCairoRenderer") == 0;
  pf_picture_show (canvas->picture, &canvas->view,
                   gtk_widget_get_scale_factor (GTK_WIDGET (canvas)),
                   by_cairo ? PF_SHOW_PAINTED : PF_SHOW_TEXTURE, snapshot);
}

static void
draw_tool (PfCanvas *canvas, cairo_t *cr)
{
  const PfAffine map = pf_canvas_view_map (&canvas->view);
  cairo_save (cr);
  cairo_transform (cr, &(cairo_matrix_t){ map.xx, map.yx, map.xy, map.yy, map.x0, map.y0 });
  PF_TOOL_GET_CLASS (canvas->tool)->draw (canvas->tool, cr, pf_canvas_view_pixel (&canvas->view));
  cairo_restore (cr);
}

static void
draw_over (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  const graphene_rect_t all = whole (canvas);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &all);
  const PfMarks marks = marks_of (canvas);
  pf_marks_draw_over (&marks, cr);
  if (canvas->tool != NULL)
    draw_tool (canvas, cr);
  pf_signs_draw (&marks, cr);
  const char *trouble = pf_underlay_picture_trouble (canvas->underlay);
  if (trouble != NULL)
    {
      const double room = canvas->view.inset + 12;
      pf_signs_draw_words (&marks, cr, (PfPoint){ room, room }, trouble);
    }
  cairo_destroy (cr);
}

static void
draw_rulers (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  const Colours colours = find_colours (canvas);
  const PfRulers rulers = {
    .view = &canvas->view,
    .inches = canvas->inches,
    .pointer = canvas->pointer,
    .ink = colours.ink,
    .paper = colours.ruler,
    .mark = colours.mark,
  };
  pf_rulers_snapshot (&rulers, GTK_WIDGET (canvas), snapshot);
}

void
pf_canvas_draw (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  static void (*const draw[PF_N_PARTS]) (PfCanvas *, GtkSnapshot *) = {
    [PF_PART_UNDER] = draw_under,
    [PF_PART_PICTURE] = draw_picture,
    [PF_PART_OVER] = draw_over,
    [PF_PART_RULERS] = draw_rulers,
  };
  for (int p = 0; p < PF_N_PARTS; p++)
    {
      if (canvas->parts[p] == NULL)
        {
          GtkSnapshot *part = gtk_snapshot_new ();
          draw[p](canvas, part);
          canvas->parts[p] = gtk_snapshot_free_to_node (part);
        }
      if (canvas->parts[p] != NULL)
        gtk_snapshot_append_node (snapshot, canvas->parts[p]);
    }
}

void
pf_canvas_draw_focus (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  if (!gtk_widget_has_visible_focus (canvas->teller))
    return;
  const Colours colours = find_colours (canvas);
  const graphene_rect_t all = whole (canvas);
  GskRoundedRect frame;
  gsk_rounded_rect_init_from_rect (&frame, &all, 0);
  const float widths[] = { 2, 2, 2, 2 };
  const GdkRGBA mark[] = { colours.mark, colours.mark, colours.mark, colours.mark };
  gtk_snapshot_append_border (snapshot, &frame, widths, mark);
}
