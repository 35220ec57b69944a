/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Finding what lies at a place, in the very arrays that are drawn: what can be seen can be picked,
 * and nothing else.
 */
#include <math.h>

#include "canvas.h"

typedef struct {
  PfEditor *editor;
  PfPoint at;
  guint kinds;
  PfPick best;
  double distance; /* of the best so far */
  double second;   /* decides between things at one place */
} Search;

static double
distance_of (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

static double
distance_to_line (PfPoint p, PfPoint a, PfPoint b)
{
  const double x = b.x - a.x, y = b.y - a.y;
  const double squared = x * x + y * y;
  const double t = squared > 0 ? ((p.x - a.x) * x + (p.y - a.y) * y) / squared : 0;
  const double nearest = CLAMP (t, 0, 1);
  return hypot (a.x + nearest * x - p.x, a.y + nearest * y - p.y);
}

static bool
wants (const Search *search, PfPickKind kind)
{
  return (search->kinds & 1u << kind) != 0;
}

static void
consider (Search *search, PfPick pick, double distance, double second)
{
  if (distance > search->distance || (distance == search->distance && second >= search->second))
    return;
  search->best = pick;
  search->distance = distance;
  search->second = second;
}

static void
consider_nodes (Search *search, size_t n)
{
  const PfDraft *draft = pf_editor_document (search->editor)->drafts[n];
  for (size_t c = 0; c < draft->n_curves; c++)
    for (size_t i = 0; i < draft->curves[c]->n_nodes; i++)
      consider (search,
                (PfPick){ .kind = PF_PICK_NODE, .draft = n, .loop = c, .index = (guint32) i },
                distance_of (search->at, draft->curves[c]->nodes[i].at), 0);
}

/* Of sewings at one place the one whose line was meant to end nearest. */
static void
consider_sewings (Search *search, size_t n, const PfFilling *filling)
{
  for (size_t s = 0; s < filling->n_sewings; s++)
    {
      const PfSewing *sewing = &filling->sewings[s];
      consider (search, (PfPick){ .kind = PF_PICK_SEWING, .draft = n, .index = (guint32) s },
                distance_of (search->at, sewing->at), distance_of (search->at, sewing->target_at));
    }
}

static void
consider_pinholes (Search *search, size_t n, const PfMotif *motif)
{
  for (size_t l = 0; l < motif->region->n_loops; l++)
    for (size_t p = 0; p < motif->edges[l].n_pinholes; p++)
      {
        const PfPlace place = { l, motif->edges[l].pinholes[p] };
        consider (search,
                  (PfPick){ .kind = PF_PICK_PINHOLE, .draft = n, .loop = l, .index = (guint32) p },
                  distance_of (search->at, pf_region_point (motif->region, place)), INFINITY);
      }
}

static void
consider_pair_line (Search *search, size_t n, guint32 pair, PfPoint a, PfPoint b, double second)
{
  /* Cheaper than the distance, and true for nearly all. */
  const double reach = search->distance;
  if (fmin (a.x, b.x) > search->at.x + reach || fmax (a.x, b.x) < search->at.x - reach ||
      fmin (a.y, b.y) > search->at.y + reach || fmax (a.y, b.y) < search->at.y - reach)
    return;
  consider (search, (PfPick){ .kind = PF_PICK_PAIR, .draft = n, .index = pair },
            distance_to_line (search->at, a, b), second);
}

/* The pairs of a plait run on one line: each is found on its own side of it. 1 if another pair of
 * the same line lies between the pair of an exit and the pointer, else 0. */
static double
lies_beyond (const Search *search, const PfFilling *filling, const PfWorkedStitch *stitch,
             unsigned side)
{
  const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
  const PfPoint a = stitch->at, b = filling->stitches[ends[side].to].at, p = search->at;
  const bool clockwise = (b.x - a.x) * (p.y - a.y) > (b.y - a.y) * (p.x - a.x);
  const bool on_left = clockwise != filling->placement.mirror;
  for (unsigned other = 0; other < stitch->n_sides; other++)
    if ((on_left ? other < side : other > side) && ends[other].to == ends[side].to)
      return 1;
  return 0;
}

static void
consider_pairs (Search *search, size_t n, const PfFilling *filling)
{
  for (size_t s = 0; s < filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[s];
      const PfWorkedEnd *ends = pf_worked_ends (filling, stitch);
      for (unsigned side = 0; side < stitch->n_sides; side++)
        if (ends[side].to != PF_NONE)
          consider_pair_line (search, n, ends[side].pair, stitch->at,
                              filling->stitches[ends[side].to].at,
                              lies_beyond (search, filling, stitch, side));
    }
  for (size_t c = 0; c < filling->n_crossings; c++)
    {
      const PfCrossing *crossing = &filling->crossings[c];
      consider_pair_line (search, n, crossing->pair, filling->stitches[crossing->stitch].at,
                          filling->sewings[crossing->sewing].at, 0);
    }
}

/* Straight pieces that a curve of a thread is measured by. */
#define PIECES 6

static PfPoint
on_curve (const PfPoint p[4], double t)
{
  const double s = 1 - t;
  const double k[4] = { s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t };
  PfPoint at = { 0, 0 };
  for (int n = 0; n < 4; n++)
    at = (PfPoint){ at.x + k[n] * p[n].x, at.y + k[n] * p[n].y };
  return at;
}

static double
distance_to_strand (PfPoint at, const PfStrand *strand, const PfPoint *points)
{
  double least = INFINITY;
  for (size_t c = 0; c < strand->n_curves; c++)
    {
      const PfPoint *curve = points + strand->first + 3 * c;
      for (int piece = 0; piece < PIECES; piece++)
        least = fmin (least, distance_to_line (at, on_curve (curve, piece / (double) PIECES),
                                               on_curve (curve, (piece + 1) / (double) PIECES)));
    }
  return least;
}

/* Threads that are drawn as they lie: a thread means the pair that it is sewn in with. */
static void
consider_threads (Search *search, size_t n, const PfMotif *motif)
{
  const PfLaid *laid = pf_motif_laid (motif);
  const double reach = search->distance + laid->thickness;
  const PfBox box = { { search->at.x - reach, search->at.y - reach },
                      { search->at.x + reach, search->at.y + reach } };
  g_autoptr (PfCloseUp) close_up = pf_close_up_part (laid, box);
  for (size_t s = 0; s < close_up->n_strands; s++)
    {
      const PfStrand *strand = &close_up->strands[s];
      const double off = distance_to_strand (search->at, strand, close_up->points);
      consider (search, (PfPick){ .kind = PF_PICK_PAIR, .draft = n, .index = strand->thread / 2 },
                fmax (off - laid->thickness / 2, 0), off);
    }
}

/* Is any stitch of the repeat worked, or the repeat one that the maker left out? Stitches are
 * sorted by k, then j, then i; one of a whole repeat is among those of k = 0. */
static bool
repeat_exists (const PfFilling *filling, int i, int j)
{
  if (pf_filling_repeat_state (filling, i, j) != PF_REPEAT_WHOLE)
    return true;
  size_t low = 0, high = filling->n_stitches;
  while (low < high)
    {
      const size_t middle = (low + high) / 2;
      const PfStitchId id = filling->stitches[middle].id;
      if (id.k == 0 && (id.j < j || (id.j == j && id.i < i)))
        low = middle + 1;
      else
        high = middle;
    }
  if (low == filling->n_stitches)
    return false;
  const PfStitchId id = filling->stitches[low].id;
  return id.k == 0 && id.i == i && id.j == j;
}

static PfPoint
middle_of_stitches (const PfGround *ground)
{
  PfPoint sum = { 0, 0 };
  for (int k = 0; k < ground->n_stitches; k++)
    {
      sum.x += ground->stitches[k].at.x;
      sum.y += ground->stitches[k].at.y;
    }
  return (PfPoint){ sum.x / ground->n_stitches, sum.y / ground->n_stitches };
}

/* A repeat holds all that is nearer to its middle than to any other's, in the ground's units. */
static void
consider_repeats (Search *search, size_t n, const PfMotif *motif)
{
  const PfGround *ground = motif->ground;
  const PfPoint at = pf_affine_map (pf_affine_invert (motif->filling->to_sheet), search->at);
  const PfPoint middle = middle_of_stitches (ground);
  const PfPoint a = ground->a, b = ground->b, p = { at.x - middle.x, at.y - middle.y };
  const double area = a.x * b.y - a.y * b.x;
  const int near_i = (int) round ((p.x * b.y - p.y * b.x) / area);
  const int near_j = (int) round ((a.x * p.y - a.y * p.x) / area);
  double least = INFINITY;
  PfPick pick = { .kind = PF_PICK_REPEAT, .draft = n };
  for (int i = near_i - 2; i <= near_i + 2; i++)
    for (int j = near_j - 2; j <= near_j + 2; j++)
      {
        const double d = hypot (p.x - i * a.x - j * b.x, p.y - i * a.y - j * b.y);
        if (d >= least)
          continue;
        least = d;
        pick.i = i;
        pick.j = j;
      }
  if (repeat_exists (motif->filling, pick.i, pick.j))
    consider (search, pick, least, 0);
}

/* Calls `look` for each motif, the active one first: it wins where two are as near. */
static void
for_each_motif (Search *search, void (*look) (Search *search, size_t n))
{
  const int active = pf_editor_active (search->editor);
  if (active >= 0)
    look (search, (size_t) active);
  const size_t n_drafts = pf_editor_document (search->editor)->n_drafts;
  for (size_t n = 0; n < n_drafts; n++)
    if ((int) n != active)
      look (search, n);
}

static void
look_for_small (Search *search, size_t n)
{
  if (wants (search, PF_PICK_NODE))
    consider_nodes (search, n);
  const PfMotif *motif = pf_editor_motif (search->editor, n);
  if (motif == NULL)
    return;
  if (wants (search, PF_PICK_SEWING) && motif->filling != NULL)
    consider_sewings (search, n, motif->filling);
  if (wants (search, PF_PICK_PINHOLE))
    consider_pinholes (search, n, motif);
}

static void
look_for_pairs (Search *search, size_t n)
{
  const PfMotif *motif = pf_editor_motif (search->editor, n);
  if (motif == NULL || motif->filling == NULL)
    return;
  if (pf_editor_sees_threads (search->editor, n))
    consider_threads (search, n, motif);
  else
    consider_pairs (search, n, motif->filling);
}

static void
look_for_repeats (Search *search, size_t n)
{
  const PfMotif *motif = pf_editor_motif (search->editor, n);
  if (motif != NULL && motif->filling != NULL)
    consider_repeats (search, n, motif);
}

PfPick
pf_find_pick (PfEditor *editor, PfPoint at, double reach, guint kinds)
{
  Search search = { editor, at, kinds, PF_PICK_NOTHING, nextafter (reach, INFINITY), 0 };
  for_each_motif (&search, look_for_small);
  if (search.best.kind == PF_PICK_NONE && wants (&search, PF_PICK_PAIR))
    for_each_motif (&search, look_for_pairs);
  if (search.best.kind == PF_PICK_NONE && wants (&search, PF_PICK_REPEAT))
    {
      search.distance = INFINITY;
      for_each_motif (&search, look_for_repeats);
    }
  return search.best;
}
