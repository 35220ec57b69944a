/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Marks of what is selected and hovered. The two differ in shape, not only in colour: what is
 * selected has a double ring or a wide band, what is hovered a single ring or a narrow one.
 */
#include "canvas-marks.h"

#include <math.h>

static PfPoint
to_screen (const PfMarks *marks, PfPoint place)
{
  return pf_canvas_view_to_screen (marks->view, place);
}

static void
trace_line (const PfMarks *marks, cairo_t *cr, const PfPoint *points, size_t n)
{
  const PfAffine map = pf_canvas_view_map (marks->view);
  cairo_new_path (cr);
  for (size_t i = 0; i < n; i++)
    {
      const PfPoint p = pf_affine_map (map, points[i]);
      cairo_line_to (cr, p.x, p.y);
    }
}

/* --- Pairs --------------------------------------------------------------------------------------
 */

static double
gap_on_screen (const PfMarks *marks, const PfFilling *filling)
{
  return filling->placement.gap / pf_canvas_view_pixel (marks->view);
}

static void
light_pair (const PfMarks *marks, cairo_t *cr, const PfFilling *filling, guint32 pair,
            bool selected)
{
  size_t n;
  g_autofree PfPoint *way = pf_pair_way (filling, pair, &n);
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  trace_line (marks, cr, way, n);
  /* The lines beside it are still told apart from afar. */
  const double wide = 0.4 * gap_on_screen (marks, filling);
  const double width = selected ? CLAMP (wide, 5, 10) : CLAMP (0.5 * wide, 3, 5);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, width + 3);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_LIGHT);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
pf_marks_draw_arrow (cairo_t *cr, PfPoint from, PfPoint tip, double size)
{
  const double length = hypot (tip.x - from.x, tip.y - from.y);
  if (length == 0)
    return;
  const PfPoint d = { (tip.x - from.x) / length * size, (tip.y - from.y) / length * size };
  cairo_move_to (cr, tip.x, tip.y);
  cairo_line_to (cr, tip.x - d.x - d.y / 2, tip.y - d.y + d.x / 2);
  cairo_line_to (cr, tip.x - d.x + d.y / 2, tip.y - d.y - d.x / 2);
  cairo_close_path (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_fill (cr);
}

void
pf_marks_draw_start (const PfMarks *marks, cairo_t *cr, PfPoint at, guint32 pair, bool selected)
{
  cairo_arc (cr, at.x, at.y, selected ? 5 : 4, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_fill (cr);
  g_autofree char *number = g_strdup_printf ("%u", pair + 1);
  pf_signs_draw_words (marks, cr, (PfPoint){ at.x + 10, at.y - 30 }, number);
}

/* Where it begins, a dot and its number; an arrowhead where it ends. */
static void
mark_pair (const PfMarks *marks, cairo_t *cr, const PfFilling *filling, guint32 pair, bool selected)
{
  size_t n;
  g_autofree PfPoint *way = pf_pair_way (filling, pair, &n);
  if (n < 2)
    return;
  const PfPoint start = to_screen (marks, way[0]), next = to_screen (marks, way[1]);
  const double size = selected ? 15 : 11;
  pf_marks_draw_arrow (cr, to_screen (marks, way[n - 2]), to_screen (marks, way[n - 1]), size);
  pf_marks_draw_arrow (cr, start, (PfPoint){ (start.x + next.x) / 2, (start.y + next.y) / 2 },
                       size);
  pf_marks_draw_start (marks, cr, start, pair, selected);
}

/* --- Repeats ------------------------------------------------------------------------------------
 */

static int
compare_points (const void *first, const void *second)
{
  const PfPoint *a = first, *b = second;
  if (a->x != b->x)
    return a->x < b->x ? -1 : 1;
  return (a->y > b->y) - (a->y < b->y);
}

/* The convex hull of n points (sorted on the way) in `hull`, which has room for 2n: A. Andrew,
 * "Another efficient algorithm for convex hulls in two dimensions", Information Processing Letters
 * 9 (1979). */
static size_t
find_hull (PfPoint *points, size_t n, PfPoint *hull)
{
  qsort (points, n, sizeof *points, compare_points);
  size_t h = 0;
  for (int half = 0; half < 2; half++)
    {
      const size_t first = h;
      for (size_t i = 0; i < n; i++)
        {
          const PfPoint p = points[half == 0 ? i : n - 1 - i];
          while (h >= first + 2 &&
                 (hull[h - 1].x - hull[h - 2].x) * (p.y - hull[h - 2].y) -
                         (hull[h - 1].y - hull[h - 2].y) * (p.x - hull[h - 2].x) <=
                     0)
            h--;
          hull[h++] = p;
        }
      h--; /* the other half begins with it */
    }
  return MAX (h, 1);
}

/* Round the places of a repeat's stitches, worked or not. */
static void
trace_repeat (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, int i, int j)
{
  const size_t n = (size_t) motif->ground->n_stitches;
  g_autofree PfPoint *points = g_new (PfPoint, n);
  g_autofree PfPoint *hull = g_new (PfPoint, 2 * n + 2);
  for (size_t k = 0; k < n; k++)
    points[k] =
        pf_affine_map (motif->filling->to_sheet, pf_ground_position (motif->ground, (int) k, i, j));
  trace_line (marks, cr, hull, find_hull (points, n, hull));
  cairo_close_path (cr);
}

static void
light_repeat (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, PfPick pick, bool selected)
{
  const double room = fmax (0.6 * gap_on_screen (marks, motif->filling), 12);
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  trace_repeat (marks, cr, motif, pick.i, pick.j);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, room + (selected ? 6 : 3));
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, selected ? 1 : 0.98, selected ? 0.91 : 0.95, selected ? 0.62 : 0.85);
  cairo_set_line_width (cr, room);
  cairo_stroke_preserve (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

static void
draw_name (cairo_t *cr, PfPoint at, const char *name)
{
  cairo_move_to (cr, at.x + 7, at.y + 4.5);
  cairo_text_path (cr, name);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 3.5);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_fill (cr);
}

static bool
has_pin_at (const PfGround *ground, int place)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (ground->stitches[k].place == place && ground->stitches[k].pin)
      return true;
  return false;
}

/* The names that the words about the repeat use, beside its pins, worked or missing. */
static void
name_pins (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, int i, int j)
{
  const PfGround *ground = motif->ground;
  if (gap_on_screen (marks, motif->filling) < 14)
    return;
  cairo_save (cr);
  cairo_select_font_face (cr, "sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
  cairo_set_font_size (cr, 13);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (int k = 0; k < ground->n_stitches; k++)
    if (ground->stitches[k].place == k && has_pin_at (ground, k))
      {
        const PfPoint at =
            pf_affine_map (motif->filling->to_sheet, pf_ground_position (ground, k, i, j));
        draw_name (cr, to_screen (marks, at), ground->stitches[k].name);
      }
  cairo_restore (cr);
}

/* --- Points -------------------------------------------------------------------------------------
 */

static void
trace_ring (cairo_t *cr, PfPoint at, double radius, bool square)
{
  cairo_new_path (cr);
  if (square)
    cairo_rectangle (cr, at.x - radius, at.y - radius, 2 * radius, 2 * radius);
  else
    cairo_arc (cr, at.x, at.y, radius, 0, 2 * G_PI);
}

/* Light round dark, so that it stands out from any line. */
static void
stroke_ring (cairo_t *cr)
{
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 5);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, PF_MARK_INK);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

static void
mark_point (const PfMarks *marks, cairo_t *cr, PfPoint place, bool square, bool selected)
{
  const PfPoint at = to_screen (marks, place);
  trace_ring (cr, at, 9, square);
  stroke_ring (cr);
  if (!selected)
    return;
  trace_ring (cr, at, 14, square);
  stroke_ring (cr);
}

/* --- What there is to mark ----------------------------------------------------------------------
 */

static void
draw_pick_under (const PfMarks *marks, cairo_t *cr, PfPick pick, bool selected)
{
  const PfMotif *motif =
      pick.kind != PF_PICK_NONE ? pf_editor_motif (marks->editor, pick.draft) : NULL;
  if (motif == NULL || motif->filling == NULL)
    return;
  const PfFilling *filling = motif->filling;
  const bool threads = pf_editor_shows_threads (marks->editor);
  if (pick.kind == PF_PICK_PAIR && pick.index < filling->n_pairs && !threads)
    light_pair (marks, cr, filling, pick.index, selected);
  else if (pick.kind == PF_PICK_SEWING && pick.index < filling->n_sewings)
    light_pair (marks, cr, filling, filling->sewings[pick.index].pair, false);
  else if (pick.kind == PF_PICK_REPEAT)
    light_repeat (marks, cr, motif, pick, selected);
}

/* With the threads in view a pair is its two threads, wherever they go. */
static void
mark_pair_or_threads (const PfMarks *marks, cairo_t *cr, const PfMotif *motif, PfPick pick,
                      bool selected)
{
  if (!pf_editor_shows_threads (marks->editor))
    {
      mark_pair (marks, cr, motif->filling, pick.index, selected);
      return;
    }
  if (pf_editor_sees_threads (marks->editor, pick.draft))
    pf_marks_draw_threads (marks, cr, motif, pick.index, selected);
  else
    pf_marks_draw_thread_ways (marks, cr, motif, pick.index, selected);
  pf_marks_draw_thread_ends (marks, cr, motif, pick.index, selected);
}

static void
draw_pick_over (const PfMarks *marks, cairo_t *cr, PfPick pick, bool selected)
{
  if (pick.kind == PF_PICK_NONE)
    return;
  const PfDocument *document = pf_editor_document (marks->editor);
  if (pick.kind == PF_PICK_NODE)
    {
      if (pick.draft < document->n_drafts && pick.loop < document->drafts[pick.draft]->n_curves &&
          pick.index < document->drafts[pick.draft]->curves[pick.loop]->n_nodes)
        mark_point (marks, cr,
                    document->drafts[pick.draft]->curves[pick.loop]->nodes[pick.index].at, true,
                    selected);
      return;
    }
  const PfMotif *motif = pf_editor_motif (marks->editor, pick.draft);
  if (motif == NULL)
    return;
  const PfFilling *filling = motif->filling;
  if (pick.kind == PF_PICK_REPEAT && filling != NULL && selected)
    name_pins (marks, cr, motif, pick.i, pick.j);
  if (pick.kind == PF_PICK_PAIR && filling != NULL && pick.index < filling->n_pairs)
    mark_pair_or_threads (marks, cr, motif, pick, selected);
  if (pick.kind == PF_PICK_SEWING && filling != NULL && pick.index < filling->n_sewings)
    mark_point (marks, cr, filling->sewings[pick.index].at, false, selected);
  if (pick.kind == PF_PICK_PINHOLE && pick.loop < motif->region->n_loops &&
      pick.index < motif->edges[pick.loop].n_pinholes)
    {
      const PfPlace place = { pick.loop, motif->edges[pick.loop].pinholes[pick.index] };
      mark_point (marks, cr, pf_region_point (motif->region, place), false, selected);
    }
}

static void
draw_curves (const PfMarks *marks, cairo_t *cr, const PfDraft *draft)
{
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      PfChain chain = { NULL, 0, false };
      if (!pf_curve_flatten (draft->curves[c], &chain, NULL))
        continue;
      trace_line (marks, cr, chain.points, chain.n_points);
      if (chain.closed)
        cairo_close_path (cr);
      cairo_stroke (cr);
      g_free (chain.points);
    }
}

/* What can't be worked out, or isn't yet, shows as it was drawn. */
static void
draw_bare_curves (const PfMarks *marks, cairo_t *cr)
{
  const PfDocument *document = pf_editor_document (marks->editor);
  cairo_set_source_rgb (cr, 0.11, 0.11, 0.11);
  cairo_set_line_width (cr, 1.5);
  for (size_t n = 0; n < document->n_drafts; n++)
    {
      if (pf_editor_motif (marks->editor, n) != NULL)
        continue;
      g_autoptr (PfDraft) draft = pf_document_resolve (document, n);
      draw_curves (marks, cr, draft);
    }
}

/* What a step works on is marked there and nowhere else: a pair that stays lit while the ground is
 * moved would look like a part of it. */
static bool
is_marked_now (PfEditor *editor, PfPickKind kind)
{
  switch (pf_editor_stage (editor))
    {
    case PF_STAGE_OUTLINE:
      return kind == PF_PICK_NODE;
    case PF_STAGE_EDGE:
      return kind == PF_PICK_PINHOLE || kind == PF_PICK_SEWING || kind == PF_PICK_PAIR;
    case PF_STAGE_SEWINGS:
      return kind != PF_PICK_NODE;
    default:
      return false;
    }
}

static PfPick
if_marked (const PfMarks *marks, PfPick pick)
{
  return is_marked_now (marks->editor, pick.kind) ? pick : PF_PICK_NOTHING;
}

void
pf_marks_draw_under (const PfMarks *marks, cairo_t *cr)
{
  const PfPick selected = if_marked (marks, pf_editor_selected (marks->editor));
  const PfPick hovered = if_marked (marks, pf_editor_hovered (marks->editor));
  if (!pf_pick_equal (hovered, selected))
    draw_pick_under (marks, cr, hovered, false);
  draw_pick_under (marks, cr, selected, true);
  draw_bare_curves (marks, cr);
}

void
pf_marks_draw_over (const PfMarks *marks, cairo_t *cr)
{
  const PfPick selected = if_marked (marks, pf_editor_selected (marks->editor));
  const PfPick hovered = if_marked (marks, pf_editor_hovered (marks->editor));
  if (!pf_pick_equal (hovered, selected))
    draw_pick_over (marks, cr, hovered, false);
  draw_pick_over (marks, cr, selected, true);
}
