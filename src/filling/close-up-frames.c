/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much room the ground leaves for its threads, and how its words are laid in it.
 *
 * All lengths of a stitch grow with the spacing of its threads, and there is a largest at which it
 * meets neither the next one along a pair line nor the one beside it. Threads are as thick as they
 * can be if they may touch where there is least room (a spider's body) and lie well apart where
 * there is most.
 */
#include "close-up-frames.h"

#include <math.h>
#include <string.h>

/* Lengths in spacings: of a cross or twist, of the room that a pin takes, of a leadwork, and of
 * what is left free between two stitches. */
#define LETTER 0.95
#define PIN 1.5
#define LEADWORK (0.85 * PF_LEADWORK_PASSES)
#define FREE 0.8
/* A word of at least this many letters without a pin is a plait, and takes all the room there is,
 * but no letter of it more than so many spacings. */
#define PLAIT 6
#define LONGEST_LETTER 2.4

/* A line that leads aside needs room to do so: this part of what it leads aside. But it leaves at
 * least that part of its length to the words. */
#define ASIDE 0.3
#define FOR_WORDS 0.35

/* How far a pair's line bends its way at a stitch off the axis: 0 not, much all. */
#define BEND 1.0

/* The spacing of threads of thickness 1: where they touch, and where there is room enough. */
#define TOUCHING 1.08
#define APART 1.6
#define PIN_RADIUS 0.68 /* of threads of thickness 1 */

/* A pin that another stitch closes stands between the two: the one that sets it ends above. */
static double
letter_length (const PfStitch *stitch, char letter, double cross)
{
  if (letter == 'p')
    return stitch->closed ? 0 : PIN;
  return letter == 'l' ? LEADWORK : cross;
}

static double
word_length (const PfStitch *stitch, const char *work, size_t n, double cross)
{
  double length = 0;
  for (size_t s = 0; s < n; s++)
    length += letter_length (stitch, work[s], cross);
  return length;
}

/* Where the word starts, in spacings along the axis from the stitch's position. */
static double
word_start (const PfStitch *stitch, const char *work, double cross)
{
  const char *pin = strchr (work, 'p');
  if (pin != NULL)
    return -word_length (stitch, work, (size_t) (pin - work), cross) - PIN / 2;
  if (stitch->closes >= 0)
    return PIN / 2;
  return -word_length (stitch, work, strlen (work), cross) / 2;
}

static double
word_end (const PfStitch *stitch, const char *work, double cross)
{
  return word_start (stitch, work, cross) + word_length (stitch, work, strlen (work), cross);
}

static PfPoint
unit (PfPoint p)
{
  const double length = hypot (p.x, p.y);
  return (PfPoint){ p.x / length, p.y / length };
}

/* A vector of the ground, on the sheet. */
static PfPoint
on_sheet (PfAffine map, PfPoint v)
{
  return (PfPoint){ map.xx * v.x + map.xy * v.y, map.yx * v.x + map.yy * v.y };
}

/* From the stitch at its start to the one at its end, on the sheet. */
static PfPoint
line_way (const PfGround *ground, PfAffine map, const PfPairLine *line)
{
  const PfPoint from = ground->stitches[line->from.stitch].at;
  const PfPoint to = pf_ground_position (ground, line->to.stitch, line->da, line->db);
  return on_sheet (map, (PfPoint){ to.x - from.x, to.y - from.y });
}

static bool
is_short (PfPoint way)
{
  return hypot (way.x, way.y) < PF_TOUCH;
}

/* The axis of a stitch lies between the ways of its pairs, as they come and go. */
static PfPoint
axis_of (const PfGround *ground, PfAffine map, int k)
{
  PfPoint sum = { 0, 0 };
  for (int l = 0; l < ground->n_lines; l++)
    {
      const PfPairLine *line = &ground->lines[l];
      const PfPoint way = line_way (ground, map, line);
      const int times = (line->from.stitch == k) + (line->to.stitch == k);
      if (times == 0 || is_short (way))
        continue;
      const PfPoint u = unit (way);
      sum = (PfPoint){ sum.x + times * u.x, sum.y + times * u.y };
    }
  return hypot (sum.x, sum.y) > 0.1 ? unit (sum) : unit (on_sheet (map, (PfPoint){ 0, 1 }));
}

/* How much of the line the words at its ends can have, along the axes of the stitches there. */
static double
length_along (const PfFrames *frames, PfAffine map, const PfPairLine *line)
{
  const PfPoint way = line_way (frames->ground, map, line);
  const int ends[2] = { line->from.stitch, line->to.stitch };
  double least = INFINITY;
  for (int e = 0; e < 2; e++)
    {
      const PfPoint axis = frames->frames[ends[e]].along;
      const double along = way.x * axis.x + way.y * axis.y;
      const double aside = fabs (way.x * axis.y - way.y * axis.x);
      least = fmin (least, fmax (along - ASIDE * aside, FOR_WORDS * hypot (way.x, way.y)));
    }
  return least;
}

/* How a pair comes to stitch k, or leaves it, by that line. */
static PfPoint
bent_way (const PfFrames *frames, PfAffine map, int k, const PfPairLine *line)
{
  const PfPoint axis = frames->frames[k].along, way = line_way (frames->ground, map, line);
  if (is_short (way))
    return axis;
  const PfPoint u = unit (way);
  const PfPoint sum = { axis.x + BEND * u.x, axis.y + BEND * u.y };
  return hypot (sum.x, sum.y) > 0.1 ? unit (sum) : axis;
}

static void
find_ways (PfFrames *frames, PfAffine map)
{
  const PfGround *ground = frames->ground;
  for (int k = 0; k < ground->n_stitches; k++)
    for (int side = 0; side < ground->stitches[k].n_pairs; side++)
      {
        PfFrame *frame = &frames->frames[k];
        frame->in[side] = bent_way (frames, map, k, &ground->lines[ground->entries[k][side]]);
        frame->out[side] = bent_way (frames, map, k, &ground->lines[ground->exits[k][side]]);
      }
}

/* The longest spacing at which the words at both ends of the line, and its twists, find room. */
static double
spacing_along (const PfFrames *frames, PfAffine map, const PfPairLine *line)
{
  const PfStitch *from = &frames->ground->stitches[line->from.stitch];
  const PfStitch *to = &frames->ground->stitches[line->to.stitch];
  if (is_short (line_way (frames->ground, map, line)))
    return INFINITY;
  const double before = fmax (word_end (from, from->work, LETTER), 0);
  const double after = fmax (-word_start (to, to->work, LETTER), 0);
  return length_along (frames, map, line) / (before + after + line->twists * LETTER + FREE);
}

/* The longest at which stitch k doesn't meet the nearest that stands apart from it. */
static double
spacing_beside (const PfGround *ground, PfAffine map, int k)
{
  const PfPoint p = ground->stitches[k].at;
  double nearest = INFINITY;
  for (int l = 0; l < ground->n_stitches; l++)
    for (int i = -2; i <= 2; i++)
      for (int j = -2; j <= 2; j++)
        {
          const PfPoint q = pf_ground_position (ground, l, i, j);
          const PfPoint way = on_sheet (map, (PfPoint){ q.x - p.x, q.y - p.y });
          const int n = ground->stitches[k].n_pairs + ground->stitches[l].n_pairs;
          if (!is_short (way))
            nearest = fmin (nearest, hypot (way.x, way.y) / (n + 0.4));
        }
  return nearest;
}

static void
find_spacings (PfFrames *frames, PfAffine map, double thickness)
{
  const PfGround *ground = frames->ground;
  double least = INFINITY, most = 0;
  for (int k = 0; k < ground->n_stitches; k++)
    frames->frames[k].spacing = spacing_beside (ground, map, k);
  for (int l = 0; l < ground->n_lines; l++)
    {
      const PfPairLine *line = &ground->lines[l];
      const double spacing = spacing_along (frames, map, line);
      double *from = &frames->frames[line->from.stitch].spacing;
      double *to = &frames->frames[line->to.stitch].spacing;
      *from = fmin (*from, spacing);
      *to = fmin (*to, spacing);
    }
  for (int k = 0; k < ground->n_stitches; k++)
    {
      least = fmin (least, frames->frames[k].spacing);
      most = fmax (most, frames->frames[k].spacing);
    }
  frames->thickness = fmin (least / TOUCHING, most / APART);
  if (thickness > 0)
    frames->thickness = fmin (frames->thickness, thickness);
  for (int k = 0; k < ground->n_stitches; k++)
    frames->frames[k].spacing = fmin (frames->frames[k].spacing, APART * frames->thickness);
}

/* How long a letter of stitch k can be, in spacings: a plait is stretched over its lines. */
static double
letter_of (const PfFrames *frames, PfAffine map, int k)
{
  const PfGround *ground = frames->ground;
  const PfStitch *stitch = &ground->stitches[k];
  const size_t n = strlen (stitch->work);
  if (n < PLAIT || strpbrk (stitch->work, "pl") != NULL || stitch->closes >= 0)
    return LETTER;
  double room = INFINITY;
  for (int side = 0; side < stitch->n_pairs; side++)
    {
      const PfPairLine *in = &ground->lines[ground->entries[k][side]];
      const PfPairLine *out = &ground->lines[ground->exits[k][side]];
      const PfStitch *above = &ground->stitches[in->from.stitch];
      const PfStitch *below = &ground->stitches[out->to.stitch];
      const double before = length_along (frames, map, in) -
                            (fmax (word_end (above, above->work, LETTER), 0) + FREE) *
                                frames->frames[in->from.stitch].spacing;
      const double after = length_along (frames, map, out) -
                           (fmax (-word_start (below, below->work, LETTER), 0) + FREE) *
                               frames->frames[out->to.stitch].spacing;
      room = fmin (room, 2 * fmin (before, after));
    }
  return CLAMP (room / ((double) n * frames->frames[k].spacing), LETTER, LONGEST_LETTER);
}

PfFrames *
pf_frames_new (const PfFilling *filling, const PfGround *ground, double thickness)
{
  const PfAffine map = filling->to_sheet;
  PfFrames *frames = g_new0 (PfFrames, 1);
  frames->ground = ground;
  frames->mirrored = filling->placement.mirror;
  frames->frames = g_new (PfFrame, ground->n_stitches);
  for (int k = 0; k < ground->n_stitches; k++)
    {
      const PfPoint along = axis_of (ground, map, k);
      const double left = frames->mirrored ? -1 : 1;
      frames->frames[k] =
          (PfFrame){ .along = along, .across = { left * along.y, -left * along.x } };
    }
  find_ways (frames, map);
  find_spacings (frames, map, thickness);
  frames->pin_radius = PIN_RADIUS * frames->thickness;
  for (int k = 0; k < ground->n_stitches; k++)
    frames->frames[k].letter = letter_of (frames, map, k) * frames->frames[k].spacing;
  return frames;
}

void
pf_frames_free (PfFrames *frames)
{
  if (frames == NULL)
    return;
  g_free (frames->frames);
  g_free (frames);
}

int
pf_frame_slots (const PfFrames *frames, int k, const char *work, PfSlot slots[PF_WORD_MAX])
{
  const double spacing = frames->frames[k].spacing;
  const double cross = frames->frames[k].letter / spacing;
  double at = word_start (&frames->ground->stitches[k], work, cross);
  int n = 0;
  for (; work[n] != '\0' && n < PF_WORD_MAX; n++)
    {
      const double next = at + letter_length (&frames->ground->stitches[k], work[n], cross);
      slots[n] = (PfSlot){ at * spacing, next * spacing };
      at = next;
    }
  return n;
}
