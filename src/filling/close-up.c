/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws threads along their ways, from where each comes into the box to where it leaves it, so that
 * a part costs no more than what it shows.
 */
#include "close-up.h"

#include <math.h>

#include "close-up-frames.h"
#include "close-up-stitch.h"
#include "filling-private.h"

/* The handles of the curve between two stitches, as parts of its length. */
#define HANDLE 0.34
/* The two threads of a pair on its way, and where it is sewn, in thicknesses apart. */
#define LINE_SPACING 1.55
#define SEWN_APART 0.9
/* A line that is longer than so many thicknesses shows its two threads apart. */
#define LONG_LINE 6.0
/* Room round the box within which a stitch still shows in it, in gaps of the ground. */
#define MARGIN 0.5

typedef struct {
  const PfFilling *filling;
  const PfGround *ground;
  const PfThreads *threads;
  const PfFrames *frames;
  PfBox box;
  guint32 pair; /* whose threads alone are drawn, or PF_NONE */
  PfPen pen;
} Drawing;

static bool
shows (const Drawing *d, PfPoint p)
{
  return p.x >= d->box.min.x && p.x <= d->box.max.x && p.y >= d->box.min.y && p.y <= d->box.max.y;
}

static PfCubic
between (PfGate from, PfGate to)
{
  const double handle = HANDLE * hypot (to.at.x - from.at.x, to.at.y - from.at.y);
  return (PfCubic){ { from.at,
                      { from.at.x + handle * from.along.x, from.at.y + handle * from.along.y },
                      { to.at.x - handle * to.along.x, to.at.y - handle * to.along.y },
                      to.at } };
}

/* The way of a pair from one stitch to the next: where its middle starts and ends. */
typedef struct {
  PfPoint from, to;
  PfPoint along, across; /* unit vectors */
  double length;
} Way;

static Way
way_between (const Drawing *d, PfPoint from, PfPoint to)
{
  const double length = fmax (hypot (to.x - from.x, to.y - from.y), PF_TOUCH);
  const PfPoint along = { (to.x - from.x) / length, (to.y - from.y) / length };
  const double left = d->frames->mirrored ? -1 : 1;
  return (Way){ from, to, along, { left * along.y, -left * along.x }, length };
}

/* A thread on its way in the middle of a line, at `at` mm from its start, on its pair's left (0) or
 * right (1). */
static PfGate
on_way (const Drawing *d, const Way *way, double at, int side)
{
  const double x = (side - 0.5) * LINE_SPACING * d->frames->thickness;
  return (PfGate){ { way->from.x + at * way->along.x + x * way->across.x,
                     way->from.y + at * way->along.y + x * way->across.y },
                   way->along };
}

/* From a stitch to the next, with the twists on the way: in each the right thread passes over the
 * left. `side` is the thread's in its pair as it leaves. */
static void
draw_line (Drawing *d, PfGate from, PfGate to, const Way *way, int twists, int side)
{
  const double letter = LINE_SPACING * d->frames->thickness;
  const double step = fmin (letter, way->length / (twists + 1));
  double at = (way->length - twists * step) / 2;
  for (int twist = 0; twist < twists; twist++)
    {
      const PfGate start = on_way (d, way, at, side);
      pf_pen_draw (&d->pen, between (from, start), NULL, 0);
      at += step;
      const PfGate left[2] = { on_way (d, way, at - step, 0), on_way (d, way, at, 1) };
      const PfGate right[2] = { on_way (d, way, at - step, 1), on_way (d, way, at, 0) };
      const bool over = (side == 1) != d->frames->mirrored;
      pf_draw_crossing (d->frames, &d->pen, side == 0 ? left : right, side == 0 ? right : left,
                        over);
      side = 1 - side;
      from = on_way (d, way, at, side);
    }
  /* Side by side in the middle, whichever way the line leads there. */
  if (twists == 0 && way->length > LONG_LINE * d->frames->thickness)
    {
      const PfGate middle = on_way (d, way, way->length / 2, side);
      pf_pen_draw (&d->pen, between (from, middle), NULL, 0);
      from = middle;
    }
  pf_pen_draw (&d->pen, between (from, to), NULL, 0);
}

/* Half-way between the two threads of a pair, where it comes in at a stitch, or goes out. */
static PfPoint
middle_of (const PfGate *left, const PfGate *right)
{
  return (PfPoint){ (left->at.x + right->at.x) / 2, (left->at.y + right->at.y) / 2 };
}

static PfPoint
pair_middle (const Drawing *d, const PfWorkedStitch *stitch, int place, bool out)
{
  const PfGate left = pf_stitch_gate (d->frames, d->filling, stitch, place & ~1, out);
  const PfGate right = pf_stitch_gate (d->frames, d->filling, stitch, place | 1, out);
  return middle_of (&left, &right);
}

/* From a stitch to where its pair is sewn, or from there to it. */
static void
draw_to_edge (Drawing *d, const PfThreadStep *at, guint32 sewing, bool leaves)
{
  const PfWorkedStitch *stitch = &d->filling->stitches[at->index];
  const int place = leaves ? at->place_out : at->place_in;
  const PfSide side = (PfSide) (place / 2);
  const PfPoint sewn = d->filling->sewings[sewing].at;
  const PfPoint middle = pair_middle (d, stitch, place, leaves);
  const Way way = leaves ? way_between (d, middle, sewn) : way_between (d, sewn, middle);
  const int twists = leaves ? pf_twists_after (d->filling, d->ground, at->index, side)
                            : pf_twists_before (d->filling, d->ground, at->index, side);
  const int first = leaves ? place % 2 : (place + twists) % 2; /* its side as it starts */
  const int last = (first + twists) % 2;
  const double x = ((leaves ? last : first) - 0.5) * SEWN_APART * d->frames->thickness;
  const PfGate edge = { { sewn.x + x * way.across.x, sewn.y + x * way.across.y }, way.along };
  const PfGate gate = pf_stitch_gate (d->frames, d->filling, stitch, place, leaves);
  draw_line (d, leaves ? gate : edge, leaves ? edge : gate, &way, twists, first);
}

static void
draw_between (Drawing *d, const PfThreadStep *from, const PfThreadStep *to)
{
  const PfWorkedStitch *a = &d->filling->stitches[from->index];
  const PfWorkedStitch *b = &d->filling->stitches[to->index];
  const PfGate start = pf_stitch_gate (d->frames, d->filling, a, from->place_out, true);
  const PfGate end = pf_stitch_gate (d->frames, d->filling, b, to->place_in, false);
  const Way way = way_between (d, pair_middle (d, a, from->place_out, true),
                               pair_middle (d, b, to->place_in, false));
  const int twists =
      pf_twists_before (d->filling, d->ground, to->index, (PfSide) (to->place_in / 2));
  draw_line (d, start, end, &way, twists, from->place_out % 2);
}

static bool
stitch_shows (const Drawing *d, guint32 stitch)
{
  return shows (d, d->filling->stitches[stitch].at);
}

/* A thread at a stitch. */
static PfThreadStep
step_at (const Drawing *d, guint32 stitch, guint32 thread)
{
  const PfWorkedStitch *worked = &d->filling->stitches[stitch];
  return (PfThreadStep){ .kind = PF_STEP_STITCH,
                         .index = stitch,
                         .place_in = pf_thread_place (d->threads->in, worked, thread),
                         .place_out = pf_thread_place (d->threads->out, worked, thread) };
}

/* The end of a stitch where the thread comes in, or goes out. */
static const PfWorkedEnd *
end_of (const Drawing *d, const PfThreadStep *step, int place)
{
  return &pf_worked_ends (d->filling, &d->filling->stitches[step->index])[place / 2];
}

/* How the thread comes to a stitch that shows: from one that doesn't, or from where it is sewn. */
static void
draw_arrival (Drawing *d, const PfThreadStep *step, guint32 thread)
{
  const PfWorkedEnd *entry = end_of (d, step, step->place_in);
  if (entry->from == PF_NONE)
    draw_to_edge (d, step, d->filling->crossings[entry->entering].sewing, false);
  else
    {
      const PfThreadStep before = step_at (d, entry->from, thread);
      draw_between (d, &before, step);
    }
}

/* From a stitch that shows on, as long as the stitches do. */
static void
draw_run (Drawing *d, guint32 stitch, guint32 thread)
{
  PfThreadStep step = step_at (d, stitch, thread);
  d->pen.thread = thread;
  pf_pen_lift (&d->pen);
  draw_arrival (d, &step, thread);
  while (true)
    {
      const PfWorkedEnd *exit = end_of (d, &step, step.place_out);
      pf_draw_in_stitch (d->frames, d->filling, &d->filling->stitches[step.index], step.place_in,
                         &d->pen);
      if (exit->to == PF_NONE)
        {
          draw_to_edge (d, &step, d->filling->crossings[exit->leaving].sewing, true);
          return;
        }
      const PfThreadStep next = step_at (d, exit->to, thread);
      draw_between (d, &step, &next);
      if (!stitch_shows (d, exit->to))
        return;
      step = next;
    }
}

/* The runs that begin at a stitch. */
static void
draw_from (Drawing *d, guint32 s)
{
  const PfWorkedStitch *stitch = &d->filling->stitches[s];
  const PfWorkedEnd *ends = pf_worked_ends (d->filling, stitch);
  for (unsigned side = 0; side < stitch->n_sides; side++)
    if (ends[side].from == PF_NONE || !stitch_shows (d, ends[side].from))
      for (int t = 0; t < 2; t++)
        {
          const guint32 thread = d->threads->in[stitch->first_end + side][t];
          if (d->pair == PF_NONE || thread / 2 == d->pair)
            draw_run (d, s, thread);
        }
}

/* --- Lines that pass through the box from and to what doesn't show ------------------------------
 */

static bool
passes (const Drawing *d, PfPoint a, PfPoint b)
{
  return fmax (a.x, b.x) >= d->box.min.x && fmin (a.x, b.x) <= d->box.max.x &&
         fmax (a.y, b.y) >= d->box.min.y && fmin (a.y, b.y) <= d->box.max.y;
}

/* The two threads of an exit, or an entry, on their line alone. */
static void
draw_passing (Drawing *d, guint32 s, unsigned side, bool leaves)
{
  const PfWorkedStitch *stitch = &d->filling->stitches[s];
  const PfWorkedEnd *end = &pf_worked_ends (d->filling, stitch)[side];
  for (int t = 0; t < 2; t++)
    {
      const guint32 thread =
          (leaves ? d->threads->out : d->threads->in)[stitch->first_end + side][t];
      if (d->pair != PF_NONE && thread / 2 != d->pair)
        continue;
      const PfThreadStep step = step_at (d, s, thread);
      d->pen.thread = thread;
      pf_pen_lift (&d->pen);
      if (!leaves || end->to == PF_NONE)
        {
          const guint32 crossing = leaves ? end->leaving : end->entering;
          draw_to_edge (d, &step, d->filling->crossings[crossing].sewing, leaves);
          continue;
        }
      const PfThreadStep next = step_at (d, end->to, thread);
      draw_between (d, &step, &next);
    }
}

static PfPoint
sewn_at (const PfFilling *filling, guint32 crossing)
{
  return filling->sewings[filling->crossings[crossing].sewing].at;
}

/* Of a stitch that doesn't show. */
static void
draw_lines_from (Drawing *d, guint32 s)
{
  const PfFilling *f = d->filling;
  const PfWorkedStitch *stitch = &f->stitches[s];
  const PfWorkedEnd *ends = pf_worked_ends (f, stitch);
  for (unsigned side = 0; side < stitch->n_sides; side++)
    {
      const PfWorkedEnd *end = &ends[side];
      const PfPoint to = end->to != PF_NONE ? f->stitches[end->to].at : sewn_at (f, end->leaving);
      if (passes (d, stitch->at, to) && (end->to == PF_NONE || !stitch_shows (d, end->to)))
        draw_passing (d, s, side, true);
      if (end->from == PF_NONE && passes (d, stitch->at, sewn_at (f, end->entering)))
        draw_passing (d, s, side, false);
    }
}

/* The longest line of the filling, mm. */
static double
longest_line (const PfFilling *f)
{
  double longest = 0;
  for (size_t s = 0; s < f->n_stitches; s++)
    {
      const PfWorkedEnd *ends = pf_worked_ends (f, &f->stitches[s]);
      const PfPoint at = f->stitches[s].at;
      for (unsigned side = 0; side < f->stitches[s].n_sides; side++)
        {
          if (ends[side].to != PF_NONE)
            {
              const PfPoint to = f->stitches[ends[side].to].at;
              longest = fmax (longest, hypot (to.x - at.x, to.y - at.y));
            }
        }
    }
  for (size_t c = 0; c < f->n_crossings; c++)
    {
      const PfPoint at = f->stitches[f->crossings[c].stitch].at;
      const PfPoint to = sewn_at (f, (guint32) c);
      longest = fmax (longest, hypot (to.x - at.x, to.y - at.y));
    }
  return longest;
}

/* Might a line from there pass through the box? */
static bool
is_near (const Drawing *d, PfPoint p, double reach)
{
  return p.x >= d->box.min.x - reach && p.x <= d->box.max.x + reach &&
         p.y >= d->box.min.y - reach && p.y <= d->box.max.y + reach;
}

static void
add_pins (PfCloseUp *close_up, const Drawing *d)
{
  GArray *pins = g_array_new (FALSE, FALSE, sizeof (PfPoint));
  for (size_t s = 0; s < d->filling->n_stitches; s++)
    {
      const PfWorkedStitch *stitch = &d->filling->stitches[s];
      if (d->ground->stitches[stitch->id.k].pin && shows (d, stitch->at))
        g_array_append_val (pins, stitch->at);
    }
  close_up->n_pins = pins->len;
  close_up->pins = (PfPoint *) (void *) g_array_free (pins, FALSE);
}

static PfCloseUp *
draw_part (const PfLaid *laid, PfBox box, guint32 pair)
{
  const double margin = MARGIN * laid->filling->placement.gap;
  Drawing d = {
    .filling = laid->filling,
    .ground = laid->ground,
    .threads = laid->threads,
    .frames = laid->frames,
    .box = { { box.min.x - margin, box.min.y - margin },
             { box.max.x + margin, box.max.y + margin } },
    .pair = pair,
    .pen = { .strands = g_array_new (FALSE, FALSE, sizeof (PfStrand)),
             .points = g_array_new (FALSE, FALSE, sizeof (PfPoint)) },
  };
  for (size_t s = 0; s < d.filling->n_stitches; s++)
    if (stitch_shows (&d, (guint32) s))
      draw_from (&d, (guint32) s);
    else if (is_near (&d, d.filling->stitches[s].at, laid->longest))
      draw_lines_from (&d, (guint32) s);
  PfCloseUp *close_up = g_new0 (PfCloseUp, 1);
  close_up->thickness = laid->thickness;
  close_up->pin_radius = d.frames->pin_radius;
  close_up->n_strands = d.pen.strands->len;
  close_up->strands = (PfStrand *) (void *) g_array_free (d.pen.strands, FALSE);
  close_up->n_points = d.pen.points->len;
  close_up->points = (PfPoint *) (void *) g_array_free (d.pen.points, FALSE);
  if (pair == PF_NONE)
    add_pins (close_up, &d);
  return close_up;
}

PfCloseUp *
pf_close_up_part (const PfLaid *laid, PfBox box)
{
  return draw_part (laid, box, PF_NONE);
}

PfCloseUp *
pf_close_up_pair (const PfLaid *laid, PfBox box, guint32 pair)
{
  return draw_part (laid, box, pair);
}

void
pf_close_up_free (PfCloseUp *close_up)
{
  if (close_up == NULL)
    return;
  g_free (close_up->strands);
  g_free (close_up->points);
  g_free (close_up->pins);
  g_free (close_up);
}

PfLaid *
pf_laid_new (const PfFilling *filling, const PfGround *ground, double thickness)
{
  PfLaid *laid = g_new0 (PfLaid, 1);
  laid->filling = filling;
  laid->ground = ground;
  laid->threads = pf_threads_new (filling, ground);
  laid->frames = pf_frames_new (filling, ground, thickness);
  laid->thickness = laid->frames->thickness;
  laid->longest = longest_line (filling);
  return laid;
}

void
pf_laid_free (PfLaid *laid)
{
  if (laid == NULL)
    return;
  pf_threads_free (laid->threads);
  pf_frames_free (laid->frames);
  g_free (laid);
}
