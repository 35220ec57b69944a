/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the maker chooses: defaults, and the range of each number.
 */
#include "filling.h"

#include <math.h>

#include <glib/gi18n-lib.h>

PfFillingSettings
pf_filling_settings_default (void)
{
  return (PfFillingSettings){
    .placement = { .gap = 5 },
    .clearance = 0.25,
    .carry = 1,
    .reach = 0.25,
    .off_line = 8,
    .sewings_per_pinhole = 2,
    .beads = PF_BEADS_NONE,
  };
}

/* NaN is outside every range. */
static bool
check_range (const char *what, double value, double min, double max, GError **error)
{
  if (value >= min && value <= max)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_SETTING, _ ("The %s is %g; choose a value from %g to %g."),
               what, value, min, max);
  return false;
}

static bool
check_repeat_choices (const PfFillingSettings *s, GError **error)
{
  for (size_t c = 0; c < s->n_choices; c++)
    {
      const PfRepeatChoice *choice = &s->choices[c];
      if (choice->state == PF_REPEAT_KEPT || choice->state == PF_REPEAT_PLAIN ||
          choice->state == PF_REPEAT_LEFT_OUT)
        continue;
      g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
                   _ ("Repeat (%d, %d) has a choice that doesn’t exist. Choose kept, plain or left "
                      "out."),
                   choice->i, choice->j);
      return false;
    }
  return true;
}

static bool
is_side (PfSide side)
{
  return (int) side >= 0 && (int) side < PF_STITCH_MAX_PAIRS;
}

static bool
is_usable (const PfSewingChoice *choice)
{
  switch (choice->kind)
    {
    case PF_SEW_ALONE:
      return is_side (choice->line.side);
    case PF_SEW_TURN:
      return is_side (choice->line.side) && is_side (choice->other.side);
    case PF_SEW_PINHOLE:
    case PF_SEW_BAR:
      return is_side (choice->line.side) && isfinite (choice->place.along);
    }
  return false;
}

static bool
check_sewing_choices (const PfFillingSettings *s, GError **error)
{
  for (size_t c = 0; c < s->n_sewing_choices; c++)
    {
      if (is_usable (&s->sewing_choices[c]))
        continue;
      const PfStitchId id = s->sewing_choices[c].line.stitch;
      g_set_error (
          error, PF_ERROR, PF_ERROR_SETTING,
          _ ("The choice for the sewing at stitch number %ld of repeat (%d, %d) is broken. "
             "Reset it."),
          (long) id.k + 1, id.i, id.j);
      return false;
    }
  return true;
}

static bool
check_beads (PfBeads beads, GError **error)
{
  if (beads == PF_BEADS_NONE || beads == PF_BEADS_WHOLE || beads == PF_BEADS_KEPT)
    return true;
  g_set_error (
      error, PF_ERROR, PF_ERROR_SETTING,
      _ ("Beads go nowhere, into whole repeats, or into whole and kept ones. Choose one of "
         "these."));
  return false;
}

static bool
check_habits (const PfWorkingHabits *habits, GError **error)
{
  if (habits->by == PF_WORK_BY_REPEAT || habits->by == PF_WORK_BY_ROW)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
               _ ("A filling is worked repeat by repeat or row by row. Choose one of these."));
  return false;
}

bool
pf_filling_settings_check (const PfFillingSettings *s, GError **error)
{
  const PfPlacement *p = &s->placement;
  return check_range (_ ("gap (mm between the nearest pins)"), p->gap, PF_GAP_MIN, PF_GAP_MAX,
                      error) &&
         check_range (_ ("turn of the ground (degrees)"), p->turn, -3600, 3600, error) &&
         (p->angle == 0 || check_range (_ ("angle of the ground from the footside (degrees)"),
                                        p->angle, PF_ANGLE_MIN, PF_ANGLE_MAX, error)) &&
         check_range (_ ("origin’s x (mm)"), p->origin.x, -PF_OUTLINE_LIMIT, PF_OUTLINE_LIMIT,
                      error) &&
         check_range (_ ("origin’s y (mm)"), p->origin.y, -PF_OUTLINE_LIMIT, PF_OUTLINE_LIMIT,
                      error) &&
         check_range (_ ("clearance (in gaps)"), s->clearance, 0, 10, error) &&
         check_range (_ ("carry (in gaps)"), s->carry, 0, 100, error) &&
         check_range (_ ("reach (in edge gaps)"), s->reach, 0, 10, error) &&
         check_range (_ ("off-line limit (degrees)"), s->off_line, 0, 180, error) &&
         check_range (_ ("number of sewings to a pinhole"), s->sewings_per_pinhole, 1, 20, error) &&
         check_beads (s->beads, error) && check_habits (&s->habits, error) &&
         check_repeat_choices (s, error) && check_sewing_choices (s, error);
}
