/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Letter by letter. In a cross or twist the threads that change places run in S-curves. Where a
 * word starts and ends, they come and go in the ways of their pairs.
 */
#include "close-up-stitch.h"

#include <math.h>

/* How far a thread is kept off the one it passes under, in thicknesses. */
#define CLEAR 0.22
/* Of a pin's slot: how far the threads beside it are pushed aside, in spacings. */
#define PUSHED 0.86
/* In a leadwork, in spacings: the threads that don't weave stand so far apart, and the weaver goes
 * out so far beyond them; and the part of it, above and below, where they go there. */
#define PASSIVE_APART 1.15
#define BEYOND 0.62
#define LEAD 0.1

typedef struct {
  const PfFrames *frames;
  const PfFrame *frame;
  PfPoint at; /* of the stitch */
  int n_threads, wide;
  double start, end; /* of the word, along the axis */
  PfPen *pen;
} Stitch;

/* Across the stitch, where the thread in a place lies between letters, mm. */
static double
across_at (const Stitch *s, int place)
{
  return (place - (s->n_threads - 1) / 2.0) * s->frame->spacing;
}

static PfPoint
point_at (const Stitch *s, double x, double y)
{
  return (PfPoint){ s->at.x + y * s->frame->along.x + x * s->frame->across.x,
                    s->at.y + y * s->frame->along.y + x * s->frame->across.y };
}

static PfGate
gate_at (const Stitch *s, double x, double y)
{
  return (PfGate){ point_at (s, x, y), s->frame->along };
}

/* Where the thread in a place passes from one letter to the next, or comes in or goes out. */
static PfGate
gate_of (const Stitch *s, int place, double y)
{
  PfGate gate = gate_at (s, across_at (s, place), y);
  if (y <= s->start)
    gate.along = s->frame->in[place / 2];
  else if (y >= s->end)
    gate.along = s->frame->out[place / 2];
  return gate;
}

static Stitch
stitch_of (const PfFrames *frames, const PfWorkedStitch *stitch, const PfSlot *slots, int n_slots)
{
  return (Stitch){ .frames = frames,
                   .frame = &frames->frames[stitch->id.k],
                   .at = stitch->at,
                   .n_threads = 2 * (int) stitch->n_sides,
                   .wide = 2 * (int) stitch->n_sides / PF_PLACES,
                   .start = slots[0].from,
                   .end = slots[n_slots - 1].to };
}

PfGate
pf_stitch_gate (const PfFrames *frames, const PfFilling *filling, const PfWorkedStitch *stitch,
                int place, bool out)
{
  PfSlot slots[PF_WORD_MAX];
  const int n = pf_frame_slots (frames, stitch->id.k,
                                pf_filling_work (filling, frames->ground, stitch), slots);
  const Stitch s = stitch_of (frames, stitch, slots, n);
  PfGate gate = gate_at (&s, across_at (&s, place), out ? s.end : s.start);
  gate.along = out ? s.frame->out[place / 2] : s.frame->in[place / 2];
  return gate;
}

/* From gate to gate, leaving and coming in along their ways. */
static PfCubic
s_curve (const PfGate gates[2])
{
  const PfPoint a = gates[0].at, b = gates[1].at;
  const PfPoint u = gates[0].along, v = gates[1].along;
  const PfPoint axis = { u.x + v.x, u.y + v.y };
  const double length = fmax (hypot (axis.x, axis.y), 1e-12);
  const double half = fabs ((b.x - a.x) * axis.x + (b.y - a.y) * axis.y) / length / 2;
  return (PfCubic){
    { a, { a.x + half * u.x, a.y + half * u.y }, { b.x - half * v.x, b.y - half * v.y }, b }
  };
}

/* From gate to gate at one speed. */
static PfCubic
straight (const PfGate gates[2])
{
  const PfPoint a = gates[0].at, b = gates[1].at;
  const PfPoint third = { (b.x - a.x) / 3, (b.y - a.y) / 3 };
  return (PfCubic){ { a, { a.x + third.x, a.y + third.y }, { b.x - third.x, b.y - third.y }, b } };
}

static PfGap
gap_under (const PfFrames *frames, const PfCubic *own, const PfCubic *other, double t,
           double t_other)
{
  const PfPoint u = pf_cubic_speed (own, t), v = pf_cubic_speed (other, t_other);
  const double sine =
      fabs (u.x * v.y - u.y * v.x) / fmax (hypot (u.x, u.y) * hypot (v.x, v.y), 1e-12);
  return (PfGap){ t, (0.5 + CLEAR) * frames->thickness / fmax (sine, 0.4) };
}

/* The parameter at which an S-curve has gone `part` of its way across. */
static double
parameter_at (double part)
{
  double low = 0, high = 1;
  for (int n = 0; n < 30; n++)
    {
      const double t = (low + high) / 2;
      *(t * t * (3 - 2 * t) < part ? &low : &high) = t;
    }
  return (low + high) / 2;
}

/* Where two curves cross, as parameters of both; in the middle if they don't. */
static void
find_meeting (const PfCubic *own, const PfCubic *other, double *t, double *t_other)
{
  enum { PIECES = 16 };
  PfPoint p[PIECES + 1], q[PIECES + 1];
  for (int n = 0; n <= PIECES; n++)
    {
      p[n] = pf_cubic_point (own, (double) n / PIECES);
      q[n] = pf_cubic_point (other, (double) n / PIECES);
    }
  *t = *t_other = 0.5;
  for (int a = 0; a < PIECES; a++)
    for (int b = 0; b < PIECES; b++)
      {
        const PfPoint u = { p[a + 1].x - p[a].x, p[a + 1].y - p[a].y };
        const PfPoint v = { q[b + 1].x - q[b].x, q[b + 1].y - q[b].y };
        const PfPoint w = { q[b].x - p[a].x, q[b].y - p[a].y };
        const double area = u.x * v.y - u.y * v.x;
        const double s = (w.x * v.y - w.y * v.x) / area, r = (w.x * u.y - w.y * u.x) / area;
        if (s >= 0 && s <= 1 && r >= 0 && r <= 1) /* false for lines side by side: NaN */
          {
            *t = (a + s) / PIECES;
            *t_other = (b + r) / PIECES;
            return;
          }
      }
}

void
pf_draw_crossing (const PfFrames *frames, PfPen *pen, const PfGate own[2], const PfGate other[2],
                  bool over)
{
  const PfCubic cubic = s_curve (own), crossed = s_curve (other);
  double t, t_other;
  find_meeting (&cubic, &crossed, &t, &t_other);
  const PfGap gap = gap_under (frames, &cubic, &crossed, t, t_other);
  pf_pen_draw (pen, cubic, &gap, over ? 0 : 1);
}

/* The move in which the thread of a place takes part in a step, or NULL. */
static const PfMove *
move_of (const PfMove *moves, int n, int step, int place)
{
  for (int m = 0; m < n; m++)
    if (moves[m].step == step && moves[m].kind == PF_MOVE_SWAP &&
        (moves[m].place == place || moves[m].place + 1 == place))
      return &moves[m];
  return NULL;
}

static void
draw_straight (const Stitch *s, int thread, double from, double to)
{
  const PfGate gates[2] = { gate_of (s, thread, from), gate_of (s, thread, to) };
  pf_pen_draw (s->pen, s_curve (gates), NULL, 0);
}

/* A thread changes places with the one or two on the other side of the move; gives its new one. */
static int
draw_swap (const Stitch *s, const PfMove *move, int thread, PfSlot slot)
{
  const int wide = s->wide;
  const bool from_left = thread / wide == move->place;
  const int to = from_left ? thread + wide : thread - wide;
  const bool over = (from_left == move->left_over) != s->frames->mirrored;
  const PfGate own[2] = { gate_of (s, thread, slot.from), gate_of (s, to, slot.to) };
  const PfCubic cubic = s_curve (own);
  PfGap gaps[2];
  for (int t = 0; t < wide; t++)
    {
      const int start = (from_left ? move->place + 1 : move->place) * wide + t;
      const int end = from_left ? start - wide : start + wide;
      const PfGate other[2] = { gate_of (s, start, slot.from), gate_of (s, end, slot.to) };
      const PfCubic crossed = s_curve (other);
      double at, at_other;
      find_meeting (&cubic, &crossed, &at, &at_other);
      gaps[t] = gap_under (s->frames, &cubic, &crossed, at, at_other);
    }
  pf_pen_draw (s->pen, cubic, gaps, over ? 0 : wide);
  return to;
}

/* The threads bend round the pin. */
static void
draw_past_pin (const Stitch *s, int thread, PfSlot slot)
{
  const double x = across_at (s, thread), spacing = s->frame->spacing;
  const int from_middle =
      thread < s->n_threads / 2 ? s->n_threads / 2 - 1 - thread : thread - s->n_threads / 2;
  const double pushed = fmax (fabs (x), (PUSHED + 0.8 * from_middle) * spacing);
  const double middle = (slot.from + slot.to) / 2;
  const PfGate gates[3] = { gate_of (s, thread, slot.from),
                            gate_at (s, copysign (pushed, x), middle),
                            gate_of (s, thread, slot.to) };
  pf_pen_draw (s->pen, s_curve (gates), NULL, 0);
  pf_pen_draw (s->pen, s_curve (gates + 1), NULL, 0);
}

/* --- Leadworks: the second thread from the right weaves -----------------------------------------
 */

enum { WEAVER = 2, N_PASSIVE = 3 };

static double
passive_across (const Stitch *s, int passive)
{
  return (passive - 1) * PASSIVE_APART * s->frame->spacing;
}

/* Where the weaver turns: at the start of pass `turn`, alternately right and left; it begins and
 * ends in its own place. */
static double
turn_across (const Stitch *s, int turn)
{
  if (turn == 0 || turn == PF_LEADWORK_PASSES)
    return across_at (s, WEAVER);
  const double edge = passive_across (s, 2) + BEYOND * s->frame->spacing;
  return turn % 2 == 1 ? edge : -edge;
}

static PfSlot
woven_part (PfSlot slot)
{
  const double lead = LEAD * (slot.to - slot.from);
  return (PfSlot){ slot.from + lead, slot.to - lead };
}

static void
pass_gates (const Stitch *s, PfSlot woven, int pass, PfGate gates[2])
{
  const double height = (woven.to - woven.from) / PF_LEADWORK_PASSES;
  gates[0] = gate_at (s, turn_across (s, pass), woven.from + pass * height);
  gates[1] = gate_at (s, turn_across (s, pass + 1), woven.from + (pass + 1) * height);
}

static void
passive_gates (const Stitch *s, PfSlot woven, int passive, PfGate gates[2])
{
  gates[0] = gate_at (s, passive_across (s, passive), woven.from);
  gates[1] = gate_at (s, passive_across (s, passive), woven.to);
}

/* Does this pass of the weaver cross that thread, and where on its own way? */
static bool
crosses (const Stitch *s, int pass, int passive, double *part)
{
  const double a = turn_across (s, pass), b = turn_across (s, pass + 1);
  *part = (passive_across (s, passive) - a) / (b - a);
  return *part > 0 && *part < 1;
}

static bool
weaver_over (int pass, int passive)
{
  return (pass + passive) % 2 == 0;
}

static void
draw_weaver (const Stitch *s, PfSlot slot)
{
  const PfSlot woven = woven_part (slot);
  draw_straight (s, WEAVER, slot.from, woven.from);
  for (int pass = 0; pass < PF_LEADWORK_PASSES; pass++)
    {
      PfGate gates[2];
      PfGap gaps[N_PASSIVE];
      int n = 0;
      pass_gates (s, woven, pass, gates);
      const PfCubic cubic = s_curve (gates);
      for (int passive = 0; passive < N_PASSIVE; passive++)
        {
          double part;
          if (weaver_over (pass, passive) || !crosses (s, pass, passive, &part))
            continue;
          PfGate other[2];
          passive_gates (s, woven, passive, other);
          const PfCubic crossed = straight (other);
          gaps[n++] = gap_under (s->frames, &cubic, &crossed, parameter_at (part), 0.5);
        }
      pf_pen_draw (s->pen, cubic, gaps, n);
    }
  draw_straight (s, WEAVER, woven.to, slot.to);
}

static void
draw_passive (const Stitch *s, int thread, PfSlot slot)
{
  const int passive = thread > WEAVER ? thread - 1 : thread;
  const PfSlot woven = woven_part (slot);
  PfGate gates[2];
  PfGap gaps[PF_LEADWORK_PASSES];
  int n = 0;
  passive_gates (s, woven, passive, gates);
  const PfGate lead_in[2] = { gate_of (s, thread, slot.from), gates[0] };
  const PfGate lead_out[2] = { gates[1], gate_of (s, thread, slot.to) };
  const PfCubic cubic = straight (gates);
  for (int pass = 0; pass < PF_LEADWORK_PASSES; pass++)
    {
      double part;
      if (!weaver_over (pass, passive) || !crosses (s, pass, passive, &part))
        continue;
      PfGate weaver[2];
      pass_gates (s, woven, pass, weaver);
      const PfCubic crossed = s_curve (weaver);
      const double t_weaver = parameter_at (part);
      const PfPoint at = pf_cubic_point (&crossed, t_weaver);
      const double along =
          (at.x - gates[0].at.x) * s->frame->along.x + (at.y - gates[0].at.y) * s->frame->along.y;
      gaps[n++] =
          gap_under (s->frames, &cubic, &crossed, along / (woven.to - woven.from), t_weaver);
    }
  pf_pen_draw (s->pen, s_curve (lead_in), NULL, 0);
  pf_pen_draw (s->pen, cubic, gaps, n);
  pf_pen_draw (s->pen, s_curve (lead_out), NULL, 0);
}

/* ------------------------------------------------------------------------------------------------
 */

void
pf_draw_in_stitch (const PfFrames *frames, const PfFilling *filling, const PfWorkedStitch *stitch,
                   int place, PfPen *pen)
{
  const char *work = pf_filling_work (filling, frames->ground, stitch);
  PfSlot slots[PF_WORD_MAX];
  PfMove moves[PF_MOVES_MAX];
  const int n_slots = pf_frame_slots (frames, stitch->id.k, work, slots);
  Stitch s = stitch_of (frames, stitch, slots, n_slots);
  s.pen = pen;
  const int n_moves = pf_word_moves (work, moves);
  int thread = place;
  for (int step = 0; step < n_slots; step++)
    {
      const PfMove *move = move_of (moves, n_moves, step, thread / s.wide);
      if (work[step] == 'p')
        draw_past_pin (&s, thread, slots[step]);
      else if (work[step] == 'l' && thread == WEAVER)
        draw_weaver (&s, slots[step]);
      else if (work[step] == 'l')
        draw_passive (&s, thread, slots[step]);
      else if (move != NULL)
        thread = draw_swap (&s, move, thread, slots[step]);
      else
        draw_straight (&s, thread, slots[step].from, slots[step].to);
    }
}
