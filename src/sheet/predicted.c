/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker has to do at the edge: for every crossing the line from its stitch to its sewing,
 * in the style of its pair, and faintly on to the missing stitch. A turned pair is one line with
 * its sewing at the tip; a carried one runs along the outline between its two.
 */
#include "layers.h"

#include <math.h>

#include "marks.h"

static PfPoint
stitch_at (const PfFilling *filling, guint32 crossing)
{
  return filling->stitches[filling->crossings[crossing].stitch].at;
}

const PfSewing *
pf_carried_end (const PfFilling *filling, const PfSewing *sewing)
{
  const guint32 entering = filling->crossings[sewing->leaving].match;
  return &filling->sewings[filling->crossings[entering].sewing];
}

/* The corners of the outline strictly between two places, in the order of the way from one to the
 * other, the shorter way round. */
static void
add_corners (const PfDrawn *drawn, PfPlace from, PfPlace to, double away, GArray *points)
{
  const PfLoop *loop = &drawn->motif->region->loops[from.loop];
  const double length = pf_loop_length (loop);
  const double ahead = pf_loop_forward (loop, from.along, to.along);
  const bool forward = ahead <= length / 2;
  const double distance = forward ? ahead : length - ahead;
  size_t first = 0;
  while (first < loop->n_points && loop->along[first] <= from.along)
    first++;
  for (size_t step = 0; step < loop->n_points; step++)
    {
      const size_t v = forward ? (first + step) % loop->n_points
                               : (first + 2 * loop->n_points - 1 - step) % loop->n_points;
      const double gone = forward ? pf_loop_forward (loop, from.along, loop->along[v])
                                  : pf_loop_forward (loop, loop->along[v], from.along);
      if (gone >= distance)
        return;
      if (gone == 0)
        continue;
      const PfPlace place = { from.loop, loop->along[v] };
      const PfPoint p = pf_point_add (loop->points[v], pf_drawn_outward (drawn, place), away);
      g_array_append_val (points, p);
    }
}

GArray *
pf_carried_run (const PfDrawn *drawn, const PfView *view, const PfSewing *from, const PfSewing *to)
{
  const double away = 1.6 * drawn->sizes.mark / view->enlarge;
  GArray *points = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  const PfPoint start = pf_point_add (from->at, pf_drawn_outward (drawn, from->place), away);
  const PfPoint end = pf_point_add (to->at, pf_drawn_outward (drawn, to->place), away);
  g_array_append_val (points, from->at);
  g_array_append_val (points, start);
  if (from->place.loop == to->place.loop)
    add_corners (drawn, from->place, to->place, away, points);
  g_array_append_val (points, end);
  g_array_append_val (points, to->at);
  return points;
}

static void
draw_faint (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  pf_page_group (page, "beyond",
                 (PfInk){ .stroke = PF_COLOUR_FAINT, .width = 0.8 * drawn->sizes.fine });
  for (size_t i = 0; i < filling->n_crossings; i++)
    {
      const PfCrossing *crossing = &filling->crossings[i];
      const PfPoint beyond[] = { crossing->at, crossing->missing_at };
      if (crossing->has_missing)
        pf_view_chain (view, page, beyond, G_N_ELEMENTS (beyond), false);
    }
  pf_page_group_end (page);
}

void
pf_layer_missing (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  draw_faint (page, view, drawn);
  pf_page_group (page, "missing", pf_ink_missing (&drawn->sizes));
  g_autoptr (GHashTable) done = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  for (size_t i = 0; i < filling->n_crossings; i++)
    {
      const PfCrossing *crossing = &filling->crossings[i];
      if (!crossing->has_missing || !drawn->has_pin[crossing->missing.k])
        continue;
      const PfPoint at = pf_view_point (view, crossing->missing_at);
      /* Several pairs may be cut from one missing pin: to a µm, it is one place. */
      const gint64 key = pf_pair_key ((int) lround (at.x * 1000), (int) lround (at.y * 1000));
      if (!g_hash_table_add (done, g_memdup2 (&key, sizeof key)))
        continue;
      if (pf_view_sees (view, at, 2 * drawn->sizes.pin))
        pf_mark_missing (page, &drawn->sizes, at);
    }
  pf_page_group_end (page);
}

/* The line of one sewing; for a turned pair both its legs. */
static size_t
line_of (const PfFilling *filling, const PfSewing *sewing, PfPoint points[3])
{
  size_t n = 0;
  if (sewing->leaving != PF_NONE)
    points[n++] = stitch_at (filling, sewing->leaving);
  points[n++] = sewing->at;
  if (sewing->entering != PF_NONE)
    points[n++] = stitch_at (filling, sewing->entering);
  return n;
}

static void
draw_run (PfPage *page, const PfView *view, const PfDrawn *drawn, const PfSewing *sewing)
{
  g_autoptr (GArray) run =
      pf_carried_run (drawn, view, sewing, pf_carried_end (drawn->motif->filling, sewing));
  pf_view_chain (view, page, (const PfPoint *) (gpointer) run->data, run->len, false);
}

static void
draw_lines (PfPage *page, const PfView *view, const PfDrawn *drawn, PfPairKind kind)
{
  const PfFilling *filling = drawn->motif->filling;
  pf_page_group (page, pf_line_style (kind)->name,
                 pf_look_ink (&drawn->look, kind, pf_line_ink (kind, &drawn->lines)));
  for (size_t i = 0; i < filling->n_sewings; i++)
    {
      const PfSewing *sewing = &filling->sewings[i];
      if (sewing->kind != kind)
        continue;
      PfPoint points[3];
      const size_t n = line_of (filling, sewing, points);
      pf_view_chain (view, page, points, n, false);
      if (kind == PF_PAIR_CARRIED && sewing->leaving != PF_NONE)
        draw_run (page, view, drawn, sewing);
    }
  pf_page_group_end (page);
}

/* Arrowheads say which way a pair goes; the longest straight stretch of a run has its arrow. */
static void
draw_run_arrow (PfPage *page, const PfView *view, const PfDrawn *drawn, const PfSewing *sewing)
{
  g_autoptr (GArray) run =
      pf_carried_run (drawn, view, sewing, pf_carried_end (drawn->motif->filling, sewing));
  const PfPoint *points = (const PfPoint *) (gpointer) run->data;
  guint best = 1;
  for (guint i = 1; i + 2 < run->len; i++)
    if (pf_point_distance (points[i], points[i + 1]) >
        pf_point_distance (points[best], points[best + 1]))
      best = i;
  const PfPoint a = pf_view_point (view, points[best]);
  const PfPoint b = pf_view_point (view, points[best + 1]);
  if (pf_view_sees (view, b, 2))
    pf_mark_arrow (page, &drawn->lines, a, b, 0.5);
}

static void
draw_arrows (PfPage *page, const PfView *view, const PfDrawn *drawn, PfPairKind kind)
{
  const PfFilling *filling = drawn->motif->filling;
  pf_page_group (page, "arrows", pf_look_ink (&drawn->look, kind, pf_ink_arrow (kind)));
  for (size_t i = 0; i < filling->n_sewings; i++)
    {
      const PfSewing *sewing = &filling->sewings[i];
      if (sewing->kind != kind)
        continue;
      const PfPoint at = pf_view_point (view, sewing->at);
      if (kind == PF_PAIR_CARRIED && sewing->leaving != PF_NONE)
        draw_run_arrow (page, view, drawn, sewing);
      else if (sewing->entering != PF_NONE && pf_view_sees (view, at, 2))
        pf_mark_arrow (page, &drawn->lines, at,
                       pf_view_point (view, stitch_at (filling, sewing->entering)), 0.58);
    }
  pf_page_group_end (page);
}

static void
draw_cuts (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfFilling *filling = drawn->motif->filling;
  pf_page_group (page, "cuts",
                 pf_look_ink (&drawn->look, PF_PAIR_FINISHED, pf_ink_cut (&drawn->lines)));
  for (size_t i = 0; i < filling->n_sewings; i++)
    {
      const PfSewing *sewing = &filling->sewings[i];
      const PfPoint at = pf_view_point (view, sewing->at);
      if (sewing->kind == PF_PAIR_FINISHED && pf_view_sees (view, at, 2))
        pf_mark_cut (page, &drawn->lines,
                     pf_view_point (view, stitch_at (filling, sewing->leaving)), at);
    }
  pf_page_group_end (page);
}

void
pf_layer_predicted (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  static const PfPairKind order[] = { PF_PAIR_FINISHED, PF_PAIR_CARRIED, PF_PAIR_TURNED,
                                      PF_PAIR_NEW };
  for (size_t i = 0; i < G_N_ELEMENTS (order); i++)
    {
      draw_lines (page, view, drawn, order[i]);
      if (order[i] == PF_PAIR_FINISHED)
        draw_cuts (page, view, drawn);
      else
        draw_arrows (page, view, drawn, order[i]);
    }
}
