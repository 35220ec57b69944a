/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The scales along the window: mm from the drawing's top left, as the report gives places, so that
 * every place in it can be found on the sheet.
 */
#include "furniture.h"

#include <math.h>

#include "style.h"

#define TICK 0.6
#define TEXT_SIZE 1.25
#define TEXT_GAP 0.25

/* Ticks stand at least this far apart on the paper, mm. */
#define LEAST_STEP 7.0

static double
tick_step (const PfView *view)
{
  static const double steps[] = { 1, 2, 5, 10, 20, 50, 100 };
  for (size_t s = 0; s < G_N_ELEMENTS (steps); s++)
    if (steps[s] * view->enlarge >= LEAST_STEP)
      return steps[s];
  return 1000;
}

/* The first and the last tick, in steps, between two places on the page. `scale` and `start` lead
 * from the drawing to the page. */
static void
tick_range (double from, double to, double scale, double start, double step, int *first, int *last)
{
  const double a = (from - start) / (scale * step), b = (to - start) / (scale * step);
  *first = (int) ceil (fmin (a, b));
  *last = (int) floor (fmax (a, b));
}

static void
draw_along_bottom (PfPage *page, const PfView *view, double step, bool words)
{
  const PfBox window = view->window;
  int first, last;
  tick_range (window.min.x, window.max.x, view->map.xx, view->map.x0, step, &first, &last);
  for (int n = first; n <= last; n++)
    {
      const double x = view->map.xx * n * step + view->map.x0;
      const PfPoint end = { x, window.max.y + TICK };
      g_autofree char *text = g_strdup_printf ("%g", n * step);
      if (!words)
        pf_page_line (page, (PfPoint){ x, window.max.y }, end);
      else if (x > window.min.x + 2 && x < window.max.x - 2)
        pf_page_text (page, (PfPoint){ x, end.y + TEXT_GAP + 0.75 * TEXT_SIZE }, PF_TEXT_MIDDLE,
                      TEXT_SIZE, text);
    }
}

static void
draw_along_left (PfPage *page, const PfView *view, double step, bool words)
{
  const PfBox window = view->window;
  int first, last;
  tick_range (window.min.y, window.max.y, view->map.yy, view->map.y0, step, &first, &last);
  for (int n = first; n <= last; n++)
    {
      const double y = view->map.yy * n * step + view->map.y0;
      const PfPoint end = { window.min.x - TICK, y };
      g_autofree char *text = g_strdup_printf ("%g", n * step);
      if (!words)
        pf_page_line (page, (PfPoint){ window.min.x, y }, end);
      else if (y > window.min.y + 2 && y < window.max.y - 2)
        pf_page_turned_text (page, (PfPoint){ end.x - TEXT_GAP, y }, PF_TEXT_MIDDLE, TEXT_SIZE, -90,
                             text);
    }
}

void
pf_scales_draw (PfPage *page, const PfView *view)
{
  const double step = tick_step (view);
  pf_page_group (page, "scales", (PfInk){ .stroke = PF_COLOUR_FAINT, .width = 0.12 });
  draw_along_bottom (page, view, step, false);
  draw_along_left (page, view, step, false);
  pf_page_group_end (page);
  pf_page_text_group (page, "scale-words", PF_COLOUR_QUIET, NULL);
  draw_along_bottom (page, view, step, true);
  draw_along_left (page, view, step, true);
  pf_page_group_end (page);
}
