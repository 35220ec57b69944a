/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Threads as ribbons: each strand is drawn as wide as it is in the colour of its sides, and again,
 * thinner, in its own. Light threads have dark sides, dark ones light sides, so that two that touch
 * are told apart.
 */
#include "close-up-drawing.h"

#include <string.h>

#include "style.h"

/* The part of a thread's thickness that shows its colour. */
#define INSIDE 0.68

typedef struct {
  PfPage *page;
  const PfView *view;
  const PfCloseUp *close_up;
  const char *const *colours;
  GArray *points; /* of a strand, on the page */
} Threads;

static const char *
colour_of (const Threads *t, const PfStrand *strand)
{
  const char *colour = t->colours != NULL ? t->colours[strand->thread] : NULL;
  return colour != NULL ? colour : PF_COLOUR_THREAD;
}

static void
draw_strand (const Threads *t, const PfStrand *strand)
{
  const size_t n = 3 * strand->n_curves + 1;
  const PfPoint *points = t->close_up->points + strand->first;
  g_array_set_size (t->points, (guint) n);
  for (size_t p = 0; p < n; p++)
    g_array_index (t->points, PfPoint, p) = pf_view_point (t->view, points[p]);
  pf_page_curves (t->page, (const PfPoint *) (gpointer) t->points->data, strand->n_curves);
}

/* Darker than a middle grey: the luma of Rec. ITU-R BT.601, which is near enough for eyes. */
static bool
is_dark (const char *colour)
{
  static const int weights[] = { 299, 587, 114 };
  int luma = 0;
  for (int part = 0; part < 3; part++)
    luma += weights[part] * (16 * g_ascii_xdigit_value (colour[1 + 2 * part]) +
                             g_ascii_xdigit_value (colour[2 + 2 * part]));
  return luma < 1000 * 96;
}

/* All strands of one colour. */
static void
draw_strands (const Threads *t, const char *name, PfInk ink, const char *colour)
{
  pf_page_group (t->page, name, ink);
  for (size_t s = 0; s < t->close_up->n_strands; s++)
    {
      const PfStrand *strand = &t->close_up->strands[s];
      if (strcmp (colour_of (t, strand), colour) == 0)
        draw_strand (t, strand);
    }
  pf_page_group_end (t->page);
}

/* The colours that occur, each once. */
static GPtrArray *
list_colours (const Threads *t)
{
  GPtrArray *colours = g_ptr_array_new ();
  for (size_t s = 0; s < t->close_up->n_strands; s++)
    {
      const char *colour = colour_of (t, &t->close_up->strands[s]);
      if (!g_ptr_array_find_with_equal_func (colours, colour, g_str_equal, NULL))
        g_ptr_array_add (colours, (gpointer) colour);
    }
  return colours;
}

static void
draw_pins (const Threads *t)
{
  const double radius = t->close_up->pin_radius * t->view->enlarge;
  pf_page_group (
      t->page, "pins",
      (PfInk){ .fill = PF_COLOUR_PIN, .stroke = PF_COLOUR_THREAD_SIDE, .width = radius / 4 });
  for (size_t p = 0; p < t->close_up->n_pins; p++)
    pf_page_circle (t->page, pf_view_point (t->view, t->close_up->pins[p]), radius);
  pf_page_group_end (t->page);
}

void
pf_draw_close_up (PfPage *page, const PfView *view, const PfCloseUp *close_up,
                  const char *const *colours)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  const Threads t = { page, view, close_up, colours, points };
  const double width = close_up->thickness * view->enlarge;
  g_autoptr (GPtrArray) all = list_colours (&t);
  for (guint c = 0; c < all->len; c++)
    {
      const char *colour = g_ptr_array_index (all, c);
      const char *side = is_dark (colour) ? PF_COLOUR_PAPER : PF_COLOUR_THREAD_SIDE;
      draw_strands (&t, "thread-sides", (PfInk){ .stroke = side, .width = width }, colour);
    }
  for (guint c = 0; c < all->len; c++)
    {
      const char *colour = g_ptr_array_index (all, c);
      draw_strands (&t, "threads", (PfInk){ .stroke = colour, .width = INSIDE * width }, colour);
    }
  draw_pins (&t);
}
