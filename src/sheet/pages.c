/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cuts the field into equal windows that overlap and together cover it, and puts join marks on the
 * overlaps. A mark has the same place in the field on every sheet that shows it.
 */
#include "pages.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "style.h"

static void
place_boxes (PfTiling *tiling, double strip_height)
{
  const PfBox frame = { { PF_FRAME_MARGIN, PF_FRAME_MARGIN },
                        { tiling->width - PF_FRAME_MARGIN, tiling->height - PF_FRAME_MARGIN } };
  const double strip_top = frame.max.y - strip_height;
  tiling->frame = frame;
  tiling->window = (PfBox){ { frame.min.x + PF_GUTTER, frame.min.y }, { frame.max.x, strip_top } };
  tiling->strip = (PfBox){ { frame.min.x, strip_top }, frame.max };
}

/* How many windows of size `window` cover `length`; a number too large for int becomes G_MAXINT. */
static int
windows_for (double length, double window, double overlap)
{
  const double n = ceil ((length - overlap) / (window - overlap) - 1e-9);
  return n < 1 ? 1 : n > G_MAXINT ? G_MAXINT : (int) n;
}

static double
covered (int n, double window, double overlap)
{
  return n * window - (n - 1) * overlap;
}

static void
lay_out (PfTiling *tiling, PfBox field, double strip_height)
{
  place_boxes (tiling, strip_height);
  const double width = tiling->window.max.x - tiling->window.min.x;
  const double height = tiling->window.max.y - tiling->window.min.y;
  tiling->columns = windows_for (field.max.x - field.min.x, width, tiling->overlap);
  tiling->rows = windows_for (field.max.y - field.min.y, height, tiling->overlap);
  tiling->corner.x =
      (field.min.x + field.max.x - covered (tiling->columns, width, tiling->overlap)) / 2;
  tiling->corner.y =
      (field.min.y + field.max.y - covered (tiling->rows, height, tiling->overlap)) / 2;
}

static double
count_of (const PfTiling *tiling)
{
  return (double) tiling->columns * tiling->rows;
}

static PfTiling
tiling_on (double width, double height, PfBox field, double overlap, PfStripHeight strip_height,
           gconstpointer data)
{
  const double frame_width = width - 2 * PF_FRAME_MARGIN;
  PfTiling tiling = { .width = width, .height = height, .overlap = overlap };
  lay_out (&tiling, field, strip_height (frame_width, false, data));
  if (count_of (&tiling) > 1)
    {
      const double window_height = tiling.window.max.y - tiling.window.min.y;
      tiling.overlap = fmin (overlap, window_height / 3);
      lay_out (&tiling, field, strip_height (frame_width, true, data));
    }
  return tiling;
}

bool
pf_tiling_init (PfTiling *tiling, const PfPaper *paper, PfBox field, double overlap,
                PfStripHeight strip_height, gconstpointer data, GError **error)
{
  const PfTiling upright =
      tiling_on (paper->width, paper->height, field, overlap, strip_height, data);
  const PfTiling lying =
      tiling_on (paper->height, paper->width, field, overlap, strip_height, data);
  *tiling = count_of (&lying) < count_of (&upright) ? lying : upright;
  if (count_of (tiling) <= PF_MAX_SHEETS)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("The pricking would take %.0f sheets of %s, more than %d. Choose a larger paper "
                  "or a smaller enlargement."),
               count_of (tiling), paper->name, PF_MAX_SHEETS);
  return false;
}

static double
step_x (const PfTiling *tiling)
{
  return tiling->window.max.x - tiling->window.min.x - tiling->overlap;
}

static double
step_y (const PfTiling *tiling)
{
  return tiling->window.max.y - tiling->window.min.y - tiling->overlap;
}

PfPoint
pf_tiling_corner (const PfTiling *tiling, size_t n)
{
  const int column = (int) (n % (size_t) tiling->columns);
  const int row = (int) (n / (size_t) tiling->columns);
  return (PfPoint){ tiling->corner.x + column * step_x (tiling),
                    tiling->corner.y + row * step_y (tiling) };
}

/* Whether `along` lies in an overlap of windows that start every `step` mm. */
static bool
is_doubled (double along, double step, double overlap, int n)
{
  const double window = floor (along / step);
  return window >= 1 && window < n && along - window * step <= overlap;
}

bool
pf_tiling_overlaps (const PfTiling *tiling, PfPoint p)
{
  return is_doubled (p.x - tiling->corner.x, step_x (tiling), tiling->overlap, tiling->columns) ||
         is_doubled (p.y - tiling->corner.y, step_y (tiling), tiling->overlap, tiling->rows);
}

#define JOIN_REACH 2.2 /* half the size of a cross, mm */
#define JOIN_TEXT 2.4

/* The room of a mark with its letters. */
static PfBox
join_box (PfPoint at)
{
  return (PfBox){ { at.x - JOIN_REACH - 0.3, at.y - JOIN_REACH - 1 },
                  { at.x + JOIN_REACH + 1.5, at.y + JOIN_REACH + 0.3 } };
}

static void
name_join (PfJoin *join, guint n)
{
  char reversed[sizeof join->letters];
  guint length = 0;
  for (guint rest = n + 1; rest > 0 && length < sizeof reversed - 1; rest = (rest - 1) / 26)
    reversed[length++] = (char) ('A' + (rest - 1) % 26);
  for (guint i = 0; i < length; i++)
    join->letters[i] = reversed[length - 1 - i];
  join->letters[length] = 0;
}

/* One mark on the line from a to b, as near to its middle as there is room. */
static void
add_join (GArray *joins, PfPlacer *placer, PfPoint a, PfPoint b)
{
  static const double parts[] = { 0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9 };
  static const int passes[] = { PF_BLOCK_HARD | PF_BLOCK_SOFT, PF_BLOCK_HARD };
  PfJoin join = { .at = { (a.x + b.x) / 2, (a.y + b.y) / 2 } };
  bool placed = false;
  for (size_t pass = 0; pass < G_N_ELEMENTS (passes) && !placed; pass++)
    for (size_t i = 0; i < G_N_ELEMENTS (parts) && !placed; i++)
      {
        const PfPoint at = { a.x + parts[i] * (b.x - a.x), a.y + parts[i] * (b.y - a.y) };
        placed = pf_placer_is_free (placer, join_box (at), passes[pass]);
        if (placed)
          join.at = at;
      }
  name_join (&join, joins->len);
  g_array_append_val (joins, join);
  pf_placer_block_box (placer, join_box (join.at), PF_BLOCK_HARD);
}

/* Two marks on the seam from a to b, which runs along one window. */
static void
add_two (GArray *joins, PfPlacer *placer, PfPoint a, PfPoint b)
{
  const PfPoint d = { b.x - a.x, b.y - a.y };
  add_join (joins, placer, pf_point_add (a, d, 0.08), pf_point_add (a, d, 0.45));
  add_join (joins, placer, pf_point_add (a, d, 0.55), pf_point_add (a, d, 0.92));
}

GArray *
pf_joins_new (const PfTiling *tiling, PfPlacer *placer)
{
  GArray *joins = g_array_new (FALSE, FALSE, sizeof (PfJoin));
  const double half = tiling->overlap / 2;
  for (int row = 0; row < tiling->rows; row++)
    for (int column = 0; column < tiling->columns; column++)
      {
        /* The seams right of and below this window, between the overlaps at their ends. */
        const PfPoint corner =
            pf_tiling_corner (tiling, (size_t) row * (size_t) tiling->columns + (size_t) column);
        const PfPoint far = { corner.x + step_x (tiling), corner.y + step_y (tiling) };
        if (column + 1 < tiling->columns)
          add_two (joins, placer, (PfPoint){ far.x + half, corner.y + tiling->overlap },
                   (PfPoint){ far.x + half, far.y });
        if (row + 1 < tiling->rows)
          add_two (joins, placer, (PfPoint){ corner.x + tiling->overlap, far.y + half },
                   (PfPoint){ far.x, far.y + half });
      }
  return joins;
}

static void
draw_seams (PfPage *page, const PfTiling *tiling, size_t n)
{
  const int column = (int) (n % (size_t) tiling->columns);
  const int row = (int) (n / (size_t) tiling->columns);
  const PfBox w = tiling->window;
  const double half = tiling->overlap / 2;
  pf_page_group (
      page, "seams",
      (PfInk){ .stroke = PF_COLOUR_FAINT, .width = 0.12, .dash = { 0.4, 1.6 }, .n_dash = 2 });
  if (column > 0)
    pf_page_line (page, (PfPoint){ w.min.x + half, w.min.y }, (PfPoint){ w.min.x + half, w.max.y });
  if (column + 1 < tiling->columns)
    pf_page_line (page, (PfPoint){ w.max.x - half, w.min.y }, (PfPoint){ w.max.x - half, w.max.y });
  if (row > 0)
    pf_page_line (page, (PfPoint){ w.min.x, w.min.y + half }, (PfPoint){ w.max.x, w.min.y + half });
  if (row + 1 < tiling->rows)
    pf_page_line (page, (PfPoint){ w.min.x, w.max.y - half }, (PfPoint){ w.max.x, w.max.y - half });
  pf_page_group_end (page);
}

void
pf_joins_draw (PfPage *page, const PfView *view, const PfTiling *tiling, const GArray *joins,
               size_t n)
{
  draw_seams (page, tiling, n);
  pf_page_group (page, "joins", (PfInk){ .stroke = PF_COLOUR_INK, .width = 0.18 });
  for (guint i = 0; i < joins->len; i++)
    {
      const PfPoint at = pf_point_add (g_array_index (joins, PfJoin, i).at, view->shift, 1);
      if (!pf_view_holds (view, pf_box_grown ((PfBox){ at, at }, JOIN_REACH)))
        continue;
      pf_page_line (page, (PfPoint){ at.x - JOIN_REACH, at.y },
                    (PfPoint){ at.x + JOIN_REACH, at.y });
      pf_page_line (page, (PfPoint){ at.x, at.y - JOIN_REACH },
                    (PfPoint){ at.x, at.y + JOIN_REACH });
    }
  pf_page_group_end (page);
  pf_page_text_group (page, "join-letters", PF_COLOUR_INK, PF_COLOUR_PAPER);
  for (guint i = 0; i < joins->len; i++)
    {
      const PfJoin *join = &g_array_index (joins, PfJoin, i);
      const PfPoint at = pf_point_add (join->at, view->shift, 1);
      if (pf_view_holds (view, pf_box_grown ((PfBox){ at, at }, JOIN_REACH)))
        pf_page_text (page, (PfPoint){ at.x + 0.6, at.y - 0.6 }, PF_TEXT_START, JOIN_TEXT,
                      join->letters);
    }
  pf_page_group_end (page);
}
