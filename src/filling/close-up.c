/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Draws each thread along its way.
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
  draw_line (d, start, end, &way, to->twists, from->place_out % 2);
}

static bool
step_shows (const Drawing *d, const PfThreadStep *step)
{
  return step->kind == PF_STEP_STITCH && shows (d, d->filling->stitches[step->index].at);
}

static void
draw_thread (Drawing *d, guint32 thread)
{
  size_t n;
  g_autofree PfThreadStep *way = pf_thread_way (d->threads, d->filling, d->ground, thread, &n);
  d->pen.thread = thread;
  pf_pen_lift (&d->pen);
  for (size_t s = 0; s < n; s++)
    {
      if (s > 0 && (step_shows (d, &way[s - 1]) || step_shows (d, &way[s])))
        {
          if (way[s].kind == PF_STEP_SEWING && way[s - 1].kind == PF_STEP_STITCH)
            draw_to_edge (d, &way[s - 1], way[s].index, true);
          else if (way[s].kind == PF_STEP_STITCH && way[s - 1].kind == PF_STEP_SEWING)
            draw_to_edge (d, &way[s], way[s - 1].index, false);
          else
            draw_between (d, &way[s - 1], &way[s]);
        }
      if (way[s].kind == PF_STEP_STITCH && step_shows (d, &way[s]))
        pf_draw_in_stitch (d->frames, d->filling, &d->filling->stitches[way[s].index],
                           way[s].place_in, &d->pen);
      else
        pf_pen_lift (&d->pen);
    }
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

PfCloseUp *
pf_close_up_new (const PfFilling *filling, const PfGround *ground, const PfThreads *threads,
                 PfBox box, double thickness)
{
  g_autoptr (PfFrames) frames = pf_frames_new (filling, ground, thickness);
  const double margin = MARGIN * filling->placement.gap;
  Drawing d = {
    .filling = filling,
    .ground = ground,
    .threads = threads,
    .frames = frames,
    .box = { { box.min.x - margin, box.min.y - margin },
             { box.max.x + margin, box.max.y + margin } },
    .pen = { .strands = g_array_new (FALSE, FALSE, sizeof (PfStrand)),
             .points = g_array_new (FALSE, FALSE, sizeof (PfPoint)) },
  };
  for (guint32 t = 0; t < threads->n_threads; t++)
    draw_thread (&d, t);
  PfCloseUp *close_up = g_new0 (PfCloseUp, 1);
  close_up->thickness = frames->thickness;
  close_up->pin_radius = frames->pin_radius;
  close_up->n_strands = d.pen.strands->len;
  close_up->strands = (PfStrand *) (void *) g_array_free (d.pen.strands, FALSE);
  close_up->n_points = d.pen.points->len;
  close_up->points = (PfPoint *) (void *) g_array_free (d.pen.points, FALSE);
  add_pins (close_up, &d);
  return close_up;
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
