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
  colours.desk = dark ? (GdkRGBA){ 0.17f, 0.17f, 0.17f, 1 } : (GdkRGBA){ 0.80f, 0.80f, 0.80f, 1 };
  colours.ruler = dark ? (GdkRGBA){ 0.13f, 0.13f, 0.14f, 1 } : (GdkRGBA){ 0.97f, 0.97f, 0.97f, 1 };
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

/* Without cairo, which would need a picture of the whole desk first. */
static void
draw_desk (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  const PfDocument *document = pf_editor_document (canvas->editor);
  const Colours colours = find_colours (canvas);
  const graphene_rect_t all = whole (canvas);
  gtk_snapshot_append_color (snapshot, &colours.desk, &all);
  const PfPoint corner = pf_canvas_view_to_screen (&canvas->view, (PfPoint){ 0, 0 });
  const double pixel = pf_canvas_view_pixel (&canvas->view);
  const graphene_rect_t paper = GRAPHENE_RECT_INIT (0, 0, (float) round (document->width / pixel),
                                                    (float) round (document->height / pixel));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (
      snapshot, &GRAPHENE_POINT_INIT ((float) round (corner.x), (float) round (corner.y)));
  if (canvas->view.turn != 0)
    gtk_snapshot_rotate (snapshot, (float) canvas->view.turn);
  const GdkRGBA white = { 1, 1, 1, 1 }, rim = { 0.45f, 0.45f, 0.45f, 1 };
  gtk_snapshot_append_color (snapshot, &white, &paper);
  GskRoundedRect frame;
  gsk_rounded_rect_init_from_rect (&frame, &paper, 0);
  gtk_snapshot_append_border (snapshot, &frame, (const float[]){ 1, 1, 1, 1 },
                              (const GdkRGBA[]){ rim, rim, rim, rim });
  gtk_snapshot_restore (snapshot);
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
paint_under (PfCanvas *canvas, cairo_t *cr)
{
  const PfMarks marks = marks_of (canvas);
  pf_underlay_picture_paint (canvas->underlay, &canvas->view, !canvas->moving, cr);
  pf_marks_draw_under (&marks, cr);
}

static void
paint_over (PfCanvas *canvas, cairo_t *cr)
{
  const PfMarks marks = marks_of (canvas);
  pf_marks_draw_over (&marks, cr);
  if (canvas->tool != NULL)
    draw_tool (canvas, cr);
  pf_signs_draw (&marks, cr);
  const char *trouble = pf_underlay_picture_trouble (canvas->underlay);
  if (trouble == NULL)
    return;
  const double room = canvas->view.inset + 12;
  pf_signs_draw_words (&marks, cr, (PfPoint){ room, room }, trouble);
}

static bool
cairo_renders_all (PfCanvas *canvas)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (canvas));
  GskRenderer *renderer = native != NULL ? gtk_native_get_renderer (native) : NULL;
  return renderer == NULL || g_str_equal (G_OBJECT_TYPE_NAME (renderer), "GskCairoRenderer");
}

/* Each cairo node costs a surface as large as the window; where cairo renders all, one does. */
static void
draw_drawing (PfCanvas *canvas, GtkSnapshot *snapshot)
{
  const graphene_rect_t all = whole (canvas);
  PfShot *shot = pf_picture_shot (canvas->picture, &canvas->view,
                                  gtk_widget_get_scale_factor (GTK_WIDGET (canvas)));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &all);
  paint_under (canvas, cr);
  if (shot != NULL && cairo_renders_all (canvas))
    pf_shot_paint (shot, &canvas->view, cr);
  else if (shot != NULL)
    {
      cairo_destroy (cr);
      pf_shot_append (shot, &canvas->view, snapshot);
      cr = gtk_snapshot_append_cairo (snapshot, &all);
    }
  paint_over (canvas, cr);
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
    [PF_PART_DESK] = draw_desk,
    [PF_PART_DRAWING] = draw_drawing,
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
  /* Round the drawing only, so that the rulers can be read. */
  const float inset = PF_RULER_WIDTH;
  const graphene_rect_t box =
      GRAPHENE_RECT_INIT (inset, inset, fmaxf ((float) canvas->view.width - inset, 0),
                          fmaxf ((float) canvas->view.height - inset, 0));
  GskRoundedRect frame;
  gsk_rounded_rect_init_from_rect (&frame, &box, 0);
  const float widths[] = { 2, 2, 2, 2 };
  const GdkRGBA mark[] = { colours.mark, colours.mark, colours.mark, colours.mark };
  gtk_snapshot_append_border (snapshot, &frame, widths, mark);
}
