/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sample grounds, as tables.
 */
#include <string.h>

#include "samples.h"

typedef struct {
  const char *name;
  double x, y;
  const char *work;
  bool core;
  int closes; /* 1 + the stitch; 0 for none */
  int pairs;
} Stitch;

#define L PF_LEFT
#define R PF_RIGHT

static PfGround *
make (double ax, double ay, const Stitch *stitches, int n, const PfPairLine *lines)
{
  int n_lines = 0;
  for (int k = 0; k < n; k++)
    n_lines += stitches[k].pairs;
  PfGround *ground = pf_ground_new (n, n_lines);
  ground->a = (PfPoint){ ax, ay };
  ground->b = (PfPoint){ -ax, ay };
  for (int k = 0; k < n; k++)
    {
      PfStitch *stitch = &ground->stitches[k];
      stitch->name = g_strdup (stitches[k].name);
      stitch->work = g_strdup (stitches[k].work);
      stitch->at = (PfPoint){ stitches[k].x, stitches[k].y };
      stitch->core = stitches[k].core;
      stitch->closes = stitches[k].closes - 1;
      stitch->n_pairs = stitches[k].pairs;
    }
  for (int e = 0; e < n_lines; e++)
    ground->lines[e] = lines[e];
  return ground;
}

PfGround *
sample_torchon (void)
{
  static const Stitch stitches[] = { { .name = "1", .work = "ctpct", .pairs = 2 } };
  static const PfPairLine lines[] = {
    { { 0, R }, { 0, L }, 1, 0, 0 },
    { { 0, L }, { 0, R }, 0, 1, 0 },
  };
  return make (1, 1, stitches, 1, lines);
}

PfGround *
sample_torchon_worked (const char *work)
{
  PfGround *ground = sample_torchon ();
  g_free (ground->stitches[0].work);
  ground->stitches[0].work = g_strdup (work);
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  return ground;
}

PfGround *
sample_plait (const char *work)
{
  PfGround *ground = sample_torchon ();
  g_free (ground->stitches[0].work);
  ground->stitches[0].work = g_strdup (work);
  ground->a = (PfPoint){ 2, 0 };
  ground->b = (PfPoint){ 0, 1 };
  ground->lines[0] = (PfPairLine){ { 0, L }, { 0, L }, 0, 1, 0 };
  ground->lines[1] = (PfPairLine){ { 0, R }, { 0, R }, 0, 1, 0 };
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  return ground;
}

PfGround *
sample_valenciennes (void)
{
  enum { PIN, LEFT, RIGHT };
  static const Stitch stitches[] = {
    { "1", 0, 0, "ctpct", false, 0, 2 },
    { "plait left", -0.5, 0.5, "ctctctct", false, 0, 2 },
    { "plait right", 0.5, 0.5, "ctctctct", false, 0, 2 },
  };
  static const PfPairLine lines[] = {
    { { RIGHT, R }, { PIN, L }, 1, 0, 0 }, { { RIGHT, L }, { LEFT, L }, 1, 0, 0 },
    { { LEFT, L }, { PIN, R }, 0, 1, 0 },  { { LEFT, R }, { RIGHT, R }, 0, 1, 0 },
    { { PIN, L }, { LEFT, R }, 0, 0, 0 },  { { PIN, R }, { RIGHT, L }, 0, 0, 0 },
  };
  PfGround *ground = make (1, 1, stitches, 3, lines);
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  return ground;
}

PfGround *
sample_rose (void)
{
  static const Stitch stitches[] = {
    { "nw", -1, -1, "ctct", false, 0, 2 },   { "ne", 1, -1, "ctct", false, 0, 2 },
    { "top", 0, -1, "ctpct", false, 0, 2 },  { "left", -1, 0, "ctpct", false, 0, 2 },
    { "right", 1, 0, "ctpct", false, 0, 2 }, { "bottom", 0, 1, "ctpct", false, 0, 2 },
  };
  enum { NW, NE, TOP, LEFT, RIGHT, BOTTOM };
  static const PfPairLine lines[] = {
    { { BOTTOM, R }, { NW, L }, 1, 0, 0 },   { { RIGHT, R }, { NW, R }, 1, 0, 0 },
    { { LEFT, L }, { NE, L }, 0, 1, 0 },     { { BOTTOM, L }, { NE, R }, 0, 1, 0 },
    { { NW, L }, { LEFT, L }, 0, 0, 0 },     { { NW, R }, { TOP, L }, 0, 0, 0 },
    { { NE, L }, { TOP, R }, 0, 0, 0 },      { { NE, R }, { RIGHT, R }, 0, 0, 0 },
    { { TOP, L }, { LEFT, R }, 0, 0, 0 },    { { TOP, R }, { RIGHT, L }, 0, 0, 0 },
    { { LEFT, R }, { BOTTOM, L }, 0, 0, 0 }, { { RIGHT, L }, { BOTTOM, R }, 0, 0, 0 },
  };
  return make (2, 2, stitches, 6, lines);
}

PfGround *
sample_armure (void)
{
  enum { TOP, LEFT, RIGHT, CENTRE, CLOSE_LEFT, CLOSE_RIGHT, BOTTOM };
  static const Stitch stitches[] = {
    { "top", 0, -1, "ctp", false, 0, 2 },
    { "left", -1, 0, "ctp", false, 0, 2 },
    { "right", 1, 0, "ctp", false, 0, 2 },
    { "centre", 0, 0, "ct", true, 0, 2 },
    { "close left", -1, 0, "ct", false, 1 + LEFT, 2 },
    { "close right", 1, 0, "ct", false, 1 + RIGHT, 2 },
    { "bottom", 0, 1, "ctp", false, 0, 2 },
  };
  static const PfPairLine lines[] = {
    { { BOTTOM, R }, { LEFT, L }, 1, 0, 0 },       { { CLOSE_RIGHT, R }, { TOP, L }, 1, 0, 0 },
    { { CLOSE_LEFT, L }, { TOP, R }, 0, 1, 0 },    { { BOTTOM, L }, { RIGHT, R }, 0, 1, 0 },
    { { TOP, L }, { LEFT, R }, 0, 0, 0 },          { { TOP, R }, { RIGHT, L }, 0, 0, 0 },
    { { LEFT, L }, { CLOSE_LEFT, L }, 0, 0, 0 },   { { LEFT, R }, { CENTRE, L }, 0, 0, 0 },
    { { RIGHT, L }, { CENTRE, R }, 0, 0, 0 },      { { RIGHT, R }, { CLOSE_RIGHT, R }, 0, 0, 0 },
    { { CENTRE, L }, { CLOSE_LEFT, R }, 0, 0, 0 }, { { CENTRE, R }, { CLOSE_RIGHT, L }, 0, 0, 0 },
    { { CLOSE_LEFT, R }, { BOTTOM, L }, 0, 0, 0 }, { { CLOSE_RIGHT, L }, { BOTTOM, R }, 0, 0, 0 },
  };
  return make (2, 2, stitches, 7, lines);
}

PfGround *
sample_honeycomb (void)
{
  const double r3 = 1.7320508075688772; /* square root of 3 */
  const Stitch stitches[] = {
    { "mid", 0, 0, "cttpctt", false, 0, 2 },
    { "right", r3 / 2, 0.5, "cttpctt", false, 0, 2 },
    { "left", -r3 / 2, 0.5, "cttpctt", false, 0, 2 },
  };
  static const PfPairLine lines[] = {
    { { 0, R }, { 1, L }, 0, 0, 0 }, { { 0, L }, { 2, R }, 0, 0, 0 },
    { { 1, R }, { 0, L }, 1, 0, 0 }, { { 1, L }, { 2, L }, 1, 0, 0 },
    { { 2, L }, { 0, R }, 0, 1, 0 }, { { 2, R }, { 1, R }, 0, 1, 0 },
  };
  return make (r3, 1, stitches, 3, lines);
}

PfGround *
sample_plaits (void)
{
  static const Stitch stitches[] = {
    { "crossing", 0, 0, "ctc", false, 0, 4 },
    { "left", -0.5, 0.5, "ctctctct", false, 0, 2 },
    { "right", 0.5, 0.5, "ctctctct", false, 0, 2 },
  };
  enum { CROSSING, LEFT, RIGHT };
  static const PfPairLine lines[] = {
    { { CROSSING, L }, { LEFT, L }, 0, 0, 0 },
    { { CROSSING, PF_RIGHT }, { LEFT, R }, 0, 0, 0 },
    { { CROSSING, PF_THIRD }, { RIGHT, L }, 0, 0, 0 },
    { { CROSSING, PF_FOURTH }, { RIGHT, R }, 0, 0, 0 },
    { { RIGHT, L }, { CROSSING, L }, 1, 0, 0 },
    { { RIGHT, R }, { CROSSING, PF_RIGHT }, 1, 0, 0 },
    { { LEFT, L }, { CROSSING, PF_THIRD }, 0, 1, 0 },
    { { LEFT, R }, { CROSSING, PF_FOURTH }, 0, 1, 0 },
  };
  return make (1, 1, stitches, 3, lines);
}

const Sample samples[N_SAMPLES] = {
  { "torchon", sample_torchon },     { "rose", sample_rose },     { "armure", sample_armure },
  { "honeycomb", sample_honeycomb }, { "plaits", sample_plaits },
};

const char *
sample_side (const PfGround *ground, PfEnd end)
{
  static const char *const two[] = { "left", "right" };
  static const char *const four[] = { "left", "inner left", "inner right", "right" };
  return ground->stitches[end.stitch].n_pairs == 2 ? two[end.side] : four[end.side];
}

PfGround *
sample_columns (int n_columns, const ColumnStitch *stitches, int n)
{
  int n_lines = 0;
  for (int k = 0; k < n; k++)
    n_lines += stitches[k].n_pairs;
  PfGround *ground = pf_ground_new (n, n_lines);
  ground->n_lines = 0;
  ground->a = (PfPoint){ n_columns, 0 };
  ground->b = (PfPoint){ 0, n };
  g_autofree PfEnd *outs = g_new0 (PfEnd, n_columns);
  g_autofree int *repeats = g_new0 (int, n_columns);
  /* The first round finds the last exit in each column, the second one draws the lines. */
  for (int step = 0; step < 2 * n; step++)
    {
      const ColumnStitch *s = &stitches[step % n];
      PfStitch *stitch = &ground->stitches[step % n];
      for (int side = 0; side < s->n_pairs; side++)
        {
          const int column = (s->column + side) % n_columns;
          const int repeat = (s->column + side) / n_columns;
          const PfEnd end = { step % n, (PfSide) side };
          if (step >= n)
            ground->lines[ground->n_lines++] =
                (PfPairLine){ outs[column], end, repeats[column] - repeat,
                              outs[column].stitch >= step % n, 0 }; /* from the repeat above */
          outs[column] = end;
          repeats[column] = repeat;
        }
      if (step >= n)
        continue;
      stitch->name = g_strdup_printf ("%d", step + 1);
      stitch->work = g_strdup (s->work);
      stitch->n_pairs = s->n_pairs;
      stitch->at = (PfPoint){ s->column + (s->n_pairs - 1) / 2.0, step };
    }
  g_assert_true (pf_ground_check_pairs (ground, NULL));
  return ground;
}

int
sample_stitch (const PfGround *ground, const char *name)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (g_str_equal (ground->stitches[k].name, name))
      return k;
  g_assert_not_reached ();
}

/* The side at the same distance from the other end. */
static PfSide
other_side (const PfGround *ground, PfEnd end)
{
  return (PfSide) (ground->stitches[end.stitch].n_pairs - 1 - (int) end.side);
}

void
sample_swap_entries (PfGround *ground, int stitch)
{
  for (int e = 0; e < ground->n_lines; e++)
    if (ground->lines[e].to.stitch == stitch)
      ground->lines[e].to.side = other_side (ground, ground->lines[e].to);
}

void
sample_swap_exits (PfGround *ground, int stitch)
{
  for (int e = 0; e < ground->n_lines; e++)
    if (ground->lines[e].from.stitch == stitch)
      ground->lines[e].from.side = other_side (ground, ground->lines[e].from);
}

void
assert_refused (bool accepted, GError **error, const char *part)
{
  g_assert_false (accepted);
  g_assert_error (*error, PF_ERROR, PF_ERROR_GROUND);
  if (!strstr ((*error)->message, part))
    g_error ("“%s” isn't in: %s", part, (*error)->message);
  g_clear_error (error);
}
