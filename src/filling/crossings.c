/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finds the pair lines that are cut, without looking at those that aren't.
 *
 * Lines with one end inside and one outside: the plane of one end, shifted onto the plane of the
 * other, differs from it exactly there; an exclusive-or finds 64 at a time. Lines with both ends
 * inside that run outside on their way: for each edge of the outline and each pair line of the
 * ground, the repeats whose line can meet the edge lie in a small parallelogram of the lattice;
 * only those are measured. Lines that pass dropped stitches show up in the first search, as a
 * dropped stitch isn't inside.
 */
#include "crossings.h"

#include <math.h>

/* A line is cut if more than this many mm of it lie outside. */
#define OUTSIDE_SLACK 1e-6

typedef struct {
  const PfLattice *lattice;
  const PfRegion *region;
  GArray *lines;    /* PfCutLine, the result */
  GArray *meetings; /* PfMeeting, of the line in hand */
} Search;

static PfStitchId
line_start (const PfPairLine *line, int i, int j)
{
  return (PfStitchId){ line->from.stitch, i, j };
}

static PfStitchId
line_end (const PfPairLine *line, int i, int j)
{
  return (PfStitchId){ line->to.stitch, i + line->da, j + line->db };
}

PfStitchId
pf_follow_pair (const PfLattice *lattice, PfStitchId from, PfSide side, PfSide *entry)
{
  const PfGround *ground = lattice->ground;
  PfStitchId at = from;
  *entry = side;
  do
    {
      const PfPairLine *line = &ground->lines[ground->exits[at.k][*entry]];
      at = line_end (line, at.i, at.j);
      *entry = line->to.side;
  } while (pf_lattice_dropped (lattice, at));
  return at;
}

PfStitchId
pf_trace_pair (const PfLattice *lattice, PfStitchId to, PfSide side, PfSide *exit)
{
  const PfGround *ground = lattice->ground;
  PfStitchId at = to;
  *exit = side;
  do
    {
      const PfPairLine *line = &ground->lines[ground->entries[at.k][*exit]];
      at = (PfStitchId){ line->from.stitch, at.i - line->da, at.j - line->db };
      *exit = line->from.side;
  } while (pf_lattice_dropped (lattice, at));
  return at;
}

/* The part of the line in hand, from 0 to 1, that lies outside: both its ends are inside. A run
 * along an edge isn't outside. */
static double
outside_part (const GArray *meetings)
{
  bool outside = false;
  double from = 0, sum = 0;
  for (guint m = 0; m < meetings->len; m++)
    {
      const PfMeeting *meeting = &g_array_index (meetings, PfMeeting, m);
      if (outside)
        sum += fmax (meeting->t - from, 0);
      outside ^= meeting->side != 0;
      from = fmax (from, fmax (meeting->t, meeting->t_run));
    }
  return sum;
}

/* The place of the line's last point on the outline. */
static PfPlace
last_meeting (Search *search, PfPoint from, PfPoint to)
{
  pf_region_meet (search->region, to, from, search->meetings);
  return g_array_index (search->meetings, PfMeeting, 0).place;
}

static void
add_if_cut (Search *search, PfCutLine cut)
{
  const PfPoint from = pf_lattice_position (search->lattice, cut.from);
  const PfPoint to = pf_lattice_position (search->lattice, cut.to);
  pf_region_meet (search->region, from, to, search->meetings);
  const double length = hypot (to.x - from.x, to.y - from.y);
  if (outside_part (search->meetings) * length <= OUTSIDE_SLACK)
    return;
  cut.leaves = g_array_index (search->meetings, PfMeeting, 0).place;
  cut.enters = last_meeting (search, from, to);
  g_array_append_val (search->lines, cut);
}

/* Where the ray from an inside stitch towards an outside one first meets the outline, or, if the
 * outside stitch comes before that, the outline point nearest to it. */
static PfPlace
crossing_place (Search *search, PfStitchId inside, PfStitchId outside)
{
  const PfPoint from = pf_lattice_position (search->lattice, inside);
  const PfPoint to = pf_lattice_position (search->lattice, outside);
  pf_region_meet (search->region, from, to, search->meetings);
  if (search->meetings->len > 0)
    return g_array_index (search->meetings, PfMeeting, 0).place;
  return pf_region_nearest (search->region, to, NULL);
}

/* A line of the lattice whose start is inside, and whose end isn't. */
static void
cut_after (Search *search, const PfPairLine *line, int i, int j)
{
  PfCutLine cut = { .from = line_start (line, i, j),
                    .from_side = line->from.side,
                    .from_inside = true };
  cut.to = pf_follow_pair (search->lattice, cut.from, cut.from_side, &cut.to_side);
  cut.to_inside = pf_lattice_inside (search->lattice, cut.to);
  if (cut.to_inside)
    {
      add_if_cut (search, cut);
      return;
    }
  cut.leaves = crossing_place (search, cut.from, cut.to);
  g_array_append_val (search->lines, cut);
}

/* A line of the lattice whose end is inside, and whose start isn't. */
static void
cut_before (Search *search, const PfPairLine *line, int i, int j)
{
  PfCutLine cut = { .to = line_end (line, i, j), .to_side = line->to.side, .to_inside = true };
  cut.from = pf_trace_pair (search->lattice, cut.to, cut.to_side, &cut.from_side);
  if (pf_lattice_inside (search->lattice, cut.from))
    return; /* found from its start */
  cut.enters = crossing_place (search, cut.to, cut.from);
  g_array_append_val (search->lines, cut);
}

/* 64 bits of a row from column `first`, which may begin before the row or end after it. */
static guint64
row_bits (const guint64 *row, size_t n_words, gint64 first)
{
  const gint64 word = first >> 6;
  const int shift = (int) (first & 63);
  const guint64 low = word >= 0 && word < (gint64) n_words ? row[word] : 0;
  if (shift == 0)
    return low;
  const guint64 high = word + 1 >= 0 && word + 1 < (gint64) n_words ? row[word + 1] : 0;
  return low >> shift | high << (64 - shift);
}

/* The lines of one class that have one end inside. */
static void
cut_one_inside (Search *search, const PfPairLine *line)
{
  const PfLattice *lattice = search->lattice;
  const int first = lattice->j0 + MAX (-line->db, 0);
  const int last = lattice->j0 + lattice->n_rows - MAX (line->db, 0);
  for (int j = first; j < last; j++)
    {
      const guint64 *starts = pf_lattice_row (lattice, line->from.stitch, j);
      const guint64 *ends = pf_lattice_row (lattice, line->to.stitch, j + line->db);
      for (size_t w = 0; w < lattice->row_words; w++)
        {
          const guint64 end = row_bits (ends, lattice->row_words, (gint64) w * 64 + line->da);
          for (guint64 cut = starts[w] ^ end; cut != 0; cut &= cut - 1)
            {
              const int i = lattice->i0 + (int) w * 64 + __builtin_ctzll (cut);
              if (starts[w] & cut & -cut)
                cut_after (search, line, i, j);
              else
                cut_before (search, line, i, j);
            }
        }
    }
}

typedef struct {
  double min, max;
} Span;

/* What is found up to this many repeats too far is measured and dropped. */
#define WIDE 1e-7

/* Up to this width, looking at every column costs less than finding the right ones. */
#define FEW_COLUMNS 4

static Span
span_of (double at, double e, double d)
{
  return (Span){ at + MIN (e, 0) + MIN (d, 0) - WIDE, at + MAX (e, 0) + MAX (d, 0) + WIDE };
}

/* The columns in which row `y` passes the parallelogram that starts at `corner` and is spanned by
 * `e` and `d`: its boundary's columns between y and itself. Empty if min > max. */
static Span
parallelogram_columns (PfPoint corner, PfPoint e, PfPoint d, double y)
{
  const PfPoint corners[] = { corner,
                              { corner.x + e.x, corner.y + e.y },
                              { corner.x + e.x + d.x, corner.y + e.y + d.y },
                              { corner.x + d.x, corner.y + d.y } };
  Span span = { INFINITY, -INFINITY };
  for (int c = 0; c < 4; c++)
    {
      const PfPoint p = corners[c], q = corners[(c + 1) % 4];
      if (MIN (p.y, q.y) > y + WIDE || MAX (p.y, q.y) < y - WIDE)
        continue;
      double x0 = p.x, x1 = q.x;
      if (fabs (q.y - p.y) > 2 * WIDE)
        x0 = x1 = p.x + CLAMP ((y - p.y) / (q.y - p.y), 0.0, 1.0) * (q.x - p.x);
      span.min = MIN (span.min, MIN (x0, x1) - WIDE);
      span.max = MAX (span.max, MAX (x0, x1) + WIDE);
    }
  return span;
}

/* A line of the ground: its start and its way in repeats, and where it was found so far. */
typedef struct {
  const PfPairLine *line;
  PfPoint start, way;
  GArray
      *found; /* PfStitchId of the starts of lines that meet some edge and have both ends inside */
} LineClass;

/* Is `p` in the parallelogram that starts at `corner` and is spanned by `e` and `d`? */
static bool
parallelogram_has (PfPoint corner, PfPoint e, PfPoint d, PfPoint p)
{
  const PfPoint w = { p.x - corner.x, p.y - corner.y };
  const double all = e.x * d.y - e.y * d.x, along_e = w.x * d.y - w.y * d.x,
               along_d = e.x * w.y - e.y * w.x;
  const double wide_e = WIDE * (fabs (d.x) + fabs (d.y)), wide_d = WIDE * (fabs (e.x) + fabs (e.y));
  return along_e >= MIN (all, 0) - wide_e && along_e <= MAX (all, 0) + wide_e &&
         along_d >= MIN (all, 0) - wide_d && along_d <= MAX (all, 0) + wide_d;
}

/* Lists the lines of the class that can meet the edge from a to b and have both ends inside: first
 * those in the box round the parallelogram, in few columns; of a long edge only those in each row's
 * part of it. */
static void
meet_edge (const PfLattice *lattice, const LineClass *class, PfPoint a, PfPoint b)
{
  const PfPoint corner = { a.x - class->start.x, a.y - class->start.y };
  const PfPoint e = { b.x - a.x, b.y - a.y };
  const PfPoint d = { -class->way.x, -class->way.y };
  const Span rows = span_of (corner.y, e.y, d.y), columns = span_of (corner.x, e.x, d.x);
  const bool narrow = columns.max - columns.min < FEW_COLUMNS;
  for (int j = pf_ceil (rows.min); j <= rows.max; j++)
    {
      const Span span = narrow ? columns : parallelogram_columns (corner, e, d, j);
      if (span.min > span.max)
        continue;
      for (int i = pf_ceil (span.min); i <= span.max; i++)
        {
          const PfStitchId start = line_start (class->line, i, j);
          if (pf_lattice_inside (lattice, start) &&
              pf_lattice_inside (lattice, line_end (class->line, i, j)) &&
              parallelogram_has (corner, e, d, (PfPoint){ i, j }))
            g_array_append_val (class->found, start);
        }
    }
}

static int
compare_starts (gconstpointer a, gconstpointer b)
{
  const PfStitchId *s = a, *t = b;
  return s->j != t->j ? s->j - t->j : s->i - t->i;
}

/* The lines of one class with both ends inside that meet the outline. `outline` has every loop's
 * points in repeats. */
static void
cut_both_inside (Search *search, const PfPairLine *line, const PfPoint *outline, GArray *found)
{
  const PfLattice *lattice = search->lattice;
  const PfPoint u = lattice->offsets[line->from.stitch], v = lattice->offsets[line->to.stitch];
  const LineClass class = { line, u, { v.x + line->da - u.x, v.y + line->db - u.y }, found };
  if (hypot (class.way.x, class.way.y) < 1e-9)
    return;
  g_array_set_size (found, 0);
  for (size_t l = 0; l < search->region->n_loops; l++)
    {
      const size_t n = search->region->loops[l].n_points;
      for (size_t p = 0; p < n; p++)
        meet_edge (lattice, &class, outline[p], outline[p + 1 < n ? p + 1 : 0]);
      outline += n;
    }
  g_array_sort (found, compare_starts);
  for (guint f = 0; f < found->len; f++)
    {
      const PfStitchId start = g_array_index (found, PfStitchId, f);
      if (f > 0 && compare_starts (&start, &g_array_index (found, PfStitchId, f - 1)) == 0)
        continue;
      add_if_cut (search, (PfCutLine){ .from = start,
                                       .to = line_end (line, start.i, start.j),
                                       .from_side = line->from.side,
                                       .to_side = line->to.side,
                                       .from_inside = true,
                                       .to_inside = true });
    }
}

static PfPoint *
outline_in_repeats (const PfLattice *lattice, const PfRegion *region)
{
  size_t n = 0;
  for (size_t l = 0; l < region->n_loops; l++)
    n += region->loops[l].n_points;
  PfPoint *points = g_new (PfPoint, n);
  size_t at = 0;
  for (size_t l = 0; l < region->n_loops; l++)
    for (size_t p = 0; p < region->loops[l].n_points; p++)
      points[at++] = pf_affine_map (lattice->to_lattice, region->loops[l].points[p]);
  return points;
}

GArray *
pf_find_cut_lines (const PfLattice *lattice, const PfRegion *region)
{
  const PfGround *ground = lattice->ground;
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (PfMeeting));
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (PfStitchId));
  g_autofree PfPoint *outline = outline_in_repeats (lattice, region);
  Search search = { lattice, region, g_array_new (FALSE, FALSE, sizeof (PfCutLine)), meetings };
  for (int l = 0; l < ground->n_lines; l++)
    {
      cut_one_inside (&search, &ground->lines[l]);
      cut_both_inside (&search, &ground->lines[l], outline, found);
    }
  return search.lines;
}
