/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What things are called in sentences for the maker.
 *
 * She sees a pin where the ground has a stitch that sets it and another that closes it, and a
 * middle where the ground has a core of one stitch without a pin.
 */
#include "words.h"

#include <glib/gi18n-lib.h>

/* The stitch itself is the whole middle of the pattern. */
static bool
is_middle (const PfGround *ground, int k)
{
  int n_core = 0;
  for (int c = 0; c < ground->n_stitches; c++)
    n_core += ground->stitches[c].core;
  return ground->stitches[k].core && n_core == 1;
}

/* The stitch whose pin this one sets or closes, or -1. */
static int
pin_of (const PfGround *ground, int k)
{
  const PfStitch *stitch = &ground->stitches[k];
  return stitch->pin ? k : stitch->closes;
}

char *
pf_words_stitch (const PfGround *ground, int k)
{
  const int pin = pin_of (ground, k);
  if (pin >= 0)
    return g_strdup_printf (_ ("pin %s"), ground->stitches[pin].name);
  if (is_middle (ground, k))
    return g_strdup (_ ("the middle"));
  return g_strdup_printf (_ ("stitch %s"), ground->stitches[k].name);
}

char *
pf_words_stitch_first (const PfGround *ground, int k)
{
  const int pin = pin_of (ground, k);
  if (pin >= 0)
    return g_strdup_printf (_ ("Pin %s"), ground->stitches[pin].name);
  if (is_middle (ground, k))
    return g_strdup (_ ("The middle"));
  return g_strdup_printf (_ ("Stitch %s"), ground->stitches[k].name);
}

char *
pf_words_stitch_of (const PfGround *ground, PfStitchId id)
{
  g_autofree char *stitch = pf_words_stitch (ground, id.k);
  /* Translators: “pin 3 of repeat (2, -1)”. */
  return g_strdup_printf (_ ("%s of repeat (%d, %d)"), stitch, id.i, id.j);
}

/* Takes over `stitch`. */
static char *
seen_from (char *stitch, PfStitchId missing, PfStitchId from)
{
  if (missing.i == from.i && missing.j == from.j)
    return stitch;
  /* Translators: “pin 3 of the next repeat”. */
  char *words = g_strdup_printf (_ ("%s of the next repeat"), stitch);
  g_free (stitch);
  return words;
}

char *
pf_words_missing (const PfGround *ground, PfStitchId missing, PfStitchId from)
{
  return seen_from (pf_words_stitch (ground, missing.k), missing, from);
}

char *
pf_words_missing_first (const PfGround *ground, PfStitchId missing, PfStitchId from)
{
  return seen_from (pf_words_stitch_first (ground, missing.k), missing, from);
}

/* A side of a stitch that the ground may not have: a choice may have been made for another. */
static PfSideName
side_of (const PfGround *ground, PfLineId line)
{
  const int n_pairs = ground->stitches[line.stitch.k].n_pairs;
  return pf_side_name (n_pairs, MIN (line.side, (PfSide) (n_pairs - 1)));
}

char *
pf_words_line (const PfGround *ground, PfLineId line)
{
  g_autofree char *stitch = pf_words_stitch_of (ground, line.stitch);
  const PfSideName side = side_of (ground, line);
  if (line.leaves)
    switch (side)
      {
      case PF_SIDE_LEFT:
        return g_strdup_printf (_ ("the line that leaves %s on its left"), stitch);
      case PF_SIDE_INNER_LEFT:
        return g_strdup_printf (_ ("the line that leaves %s on its inner left"), stitch);
      case PF_SIDE_INNER_RIGHT:
        return g_strdup_printf (_ ("the line that leaves %s on its inner right"), stitch);
      default:
        return g_strdup_printf (_ ("the line that leaves %s on its right"), stitch);
      }
  switch (side)
    {
    case PF_SIDE_LEFT:
      return g_strdup_printf (_ ("the line that comes to %s from its left"), stitch);
    case PF_SIDE_INNER_LEFT:
      return g_strdup_printf (_ ("the line that comes to %s from its inner left"), stitch);
    case PF_SIDE_INNER_RIGHT:
      return g_strdup_printf (_ ("the line that comes to %s from its inner right"), stitch);
    default:
      return g_strdup_printf (_ ("the line that comes to %s from its right"), stitch);
    }
}

const char *
pf_words_from_side (int n_pairs, PfSide side)
{
  switch (pf_side_name (n_pairs, side))
    {
    /* Translators: these four after “The pair goes to pin 3”. */
    case PF_SIDE_LEFT:
      return _ ("from its left");
    case PF_SIDE_INNER_LEFT:
      return _ ("from its inner left");
    case PF_SIDE_INNER_RIGHT:
      return _ ("from its inner right");
    default:
      return _ ("from its right");
    }
}

const char *
pf_words_on_side (int n_pairs, PfSide side)
{
  switch (pf_side_name (n_pairs, side))
    {
    /* Translators: these four after “The pair leaves pin 3”. */
    case PF_SIDE_LEFT:
      return _ ("on its left");
    case PF_SIDE_INNER_LEFT:
      return _ ("on its inner left");
    case PF_SIDE_INNER_RIGHT:
      return _ ("on its inner right");
    default:
      return _ ("on its right");
    }
}

static char *
bar_words (const PfSewing *sewing)
{
  const guint32 before = sewing->between[0], after = sewing->between[1];
  if (before == PF_NONE)
    /* Translators: after “sewn round”, “from”, “to” or “at”. */
    return g_strdup (_ ("the bar"));
  if (before == after)
    /* Translators: after “sewn round”, “from”, “to” or “at”. */
    return g_strdup_printf (_ ("the bar from pinhole %u"), before + 1);
  /* Translators: after “sewn round”, “from”, “to” or “at”. */
  return g_strdup_printf (_ ("the bar between pinholes %u and %u"), before + 1, after + 1);
}

char *
pf_words_place (const PfSewing *sewing)
{
  g_autofree char *place = sewing->pinhole != PF_NONE
                               ? g_strdup_printf (_ ("pinhole %u"), sewing->pinhole + 1)
                               : bar_words (sewing);
  if (sewing->place.loop == 0)
    return g_steal_pointer (&place);
  /* Translators: “pinhole 12 of hole 1”, a hole in the shape. */
  return g_strdup_printf (_ ("%s of hole %zu"), place, sewing->place.loop);
}
