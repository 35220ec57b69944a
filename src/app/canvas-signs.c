/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Warning signs. A sign stands where the trouble is; trouble without a place stands at its motif.
 */
#include <math.h>

#include "canvas-marks.h"

#define SIGN 11.0       /* half the size of a sign of trouble, pixels */
#define SMALL_SIGN 7.0  /* and of a warning */
#define WORDS_WIDTH 300 /* longer words are broken */

void
pf_signs_draw_words (const PfMarks *marks, cairo_t *cr, PfPoint at, const char *words)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (marks->widget, words);
  pango_layout_set_width (layout, WORDS_WIDTH * PANGO_SCALE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  PangoRectangle ink;
  pango_layout_get_pixel_extents (layout, NULL, &ink);
  const double width = ink.width + 9, height = ink.height + 5;
  at.x = floor (fmax (fmin (at.x, marks->view->width - width - 1), marks->view->inset));
  at.y = floor (fmax (fmin (at.y, marks->view->height - height - 1), marks->view->inset));
  cairo_rectangle (cr, at.x + 0.5, at.y + 0.5, width, height);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_move_to (cr, at.x + 5 - ink.x, at.y + 3);
  cairo_set_source_rgb (cr, 0.1, 0.1, 0.1);
  pango_cairo_show_layout (cr, layout);
}

/* A triangle with an exclamation mark. */
static void
draw_sign (cairo_t *cr, PfPoint at, double size, bool trouble)
{
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_move_to (cr, 0, -size);
  cairo_line_to (cr, size, 0.8 * size);
  cairo_line_to (cr, -size, 0.8 * size);
  cairo_close_path (cr);
  if (trouble)
    cairo_set_source_rgb (cr, PF_MARK_TROUBLE);
  else
    cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 0.36 * size);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 1, trouble ? 0.95 : 0.80, trouble ? 0.93 : 0.25);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.1, 0.1, 0.1);
  cairo_set_line_width (cr, 0.22 * size);
  cairo_move_to (cr, 0, -0.4 * size);
  cairo_line_to (cr, 0, 0.25 * size);
  cairo_stroke (cr);
  cairo_arc (cr, 0, 0.55 * size, 0.14 * size, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_restore (cr);
}

static bool
can_be_seen (const PfMarks *marks, PfPoint pixel)
{
  return pixel.x > -SIGN && pixel.y > -SIGN && pixel.x < marks->view->width + SIGN &&
         pixel.y < marks->view->height + SIGN;
}

/* Where the trouble of motif n is shown: at its place, at its motif, else in the middle. */
static PfPoint
trouble_at (const PfMarks *marks, size_t n, PfPoint where)
{
  if (isfinite (where.x) && isfinite (where.y))
    return pf_canvas_view_to_screen (marks->view, where);
  const PfDraft *draft = pf_editor_document (marks->editor)->drafts[n];
  if (draft->n_curves == 0 || draft->curves[0]->n_nodes == 0)
    return pf_canvas_view_centre (marks->view);
  const PfBox box = pf_curve_box (draft->curves[0]);
  const PfPoint middle = { (box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2 };
  return pf_canvas_view_to_screen (marks->view, middle);
}

static bool
being_drawn (PfEditor *editor, size_t n)
{
  return pf_editor_stage (editor) == PF_STAGE_OUTLINE && pf_editor_is_open (editor, n);
}

typedef bool (*SignFunc) (const PfMarks *marks, PfPoint at, const char *text, bool trouble,
                          void *data);

/* Calls `look` for each sign until it says true. */
static void
for_each_sign (const PfMarks *marks, SignFunc look, void *data)
{
  const size_t n_drafts = pf_editor_document (marks->editor)->n_drafts;
  for (size_t n = 0; n < n_drafts; n++)
    {
      PfPoint where = { NAN, NAN };
      const char *trouble =
          being_drawn (marks->editor, n) ? NULL : pf_editor_trouble (marks->editor, n, &where);
      if (trouble != NULL && look (marks, trouble_at (marks, n, where), trouble, true, data))
        return;
      const PfMotif *motif = pf_editor_motif (marks->editor, n);
      const PfFilling *filling = motif != NULL ? motif->filling : NULL;
      for (size_t w = 0; filling != NULL && w < filling->n_warnings; w++)
        {
          const PfWarning *warning = &filling->warnings[w];
          const PfPoint at = pf_canvas_view_to_screen (marks->view, warning->at);
          if (look (marks, at, warning->text, false, data))
            return;
        }
    }
}

static bool
draw_one (const PfMarks *marks, PfPoint at, const char *text, bool trouble, void *data)
{
  cairo_t *cr = data;
  if (!isfinite (at.x) || !isfinite (at.y) || !can_be_seen (marks, at))
    return false;
  draw_sign (cr, at, trouble ? SIGN : SMALL_SIGN, trouble);
  if (!trouble)
    return false;
  /* Beside the sign; below it where there is no room. */
  if (at.x + SIGN + WORDS_WIDTH + 20 < marks->view->width)
    pf_signs_draw_words (marks, cr, (PfPoint){ at.x + SIGN + 8, at.y - SIGN }, text);
  else
    pf_signs_draw_words (marks, cr, (PfPoint){ at.x - WORDS_WIDTH, at.y + SIGN + 6 }, text);
  return false;
}

void
pf_signs_draw (const PfMarks *marks, cairo_t *cr)
{
  for_each_sign (marks, draw_one, cr);
}

typedef struct {
  PfPoint pixel;
  const char *text;
} Found;

static bool
find_one (const PfMarks *marks G_GNUC_UNUSED, PfPoint at, const char *text, bool trouble,
          void *data)
{
  Found *found = data;
  if (hypot (at.x - found->pixel.x, at.y - found->pixel.y) > (trouble ? SIGN : SMALL_SIGN) + 2)
    return false;
  found->text = text;
  return true;
}

const char *
pf_signs_find (const PfMarks *marks, PfPoint pixel)
{
  Found found = { pixel, NULL };
  for_each_sign (marks, find_one, &found);
  return found.text;
}
