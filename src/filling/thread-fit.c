/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "thread-fit.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#define TORCHON_ANGLE 45.0
#define SAME_ANGLE 0.5

/* Families that are worked on the torchon grid in its manner. Others may stand at the same angle,
 * but are worked closer or more open. */
static bool
is_torchon_like (const PfGround *ground)
{
  static const char *const families[] = { "torchon", "rose", "spider", "armure" };
  for (size_t f = 0; f < G_N_ELEMENTS (families); f++)
    if (g_strcmp0 (ground->family, families[f]) == 0)
      return true;
  return false;
}

bool
pf_fit_known (const PfGround *ground, PfPlacement placement)
{
  const double angle = placement.angle != 0 ? placement.angle : pf_ground_angle (ground);
  return ground->has_pins && is_torchon_like (ground) &&
         fabs (angle - TORCHON_ANGLE) <= SAME_ANGLE &&
         fabs (pf_ground_angle (ground) - TORCHON_ANGLE) <= SAME_ANGLE &&
         pf_ground_footside (ground) > 0;
}

double
pf_fit_wraps (const PfGround *ground, PfPlacement placement, double wraps_per_cm)
{
  return pf_placement_footside (ground, placement) * wraps_per_cm / 10;
}

PfFit
pf_fit_judge (const PfGround *ground, PfPlacement placement, double wraps_per_cm, PfFitRule rule)
{
  if (!pf_fit_known (ground, placement))
    return PF_FIT_UNKNOWN;
  const double wraps = pf_fit_wraps (ground, placement, wraps_per_cm);
  if (wraps < rule.from)
    return PF_FIT_CLOSE;
  return wraps > rule.to ? PF_FIT_OPEN : PF_FIT_FITS;
}

PfFitRule
pf_fit_threads (const PfGround *ground, PfPlacement placement, PfFitRule rule)
{
  const double footside = pf_placement_footside (ground, placement);
  return (PfFitRule){ 10 * rule.from / footside, 10 * rule.to / footside };
}

PfFitRule
pf_fit_gaps (const PfGround *ground, PfPlacement placement, double wraps_per_cm, PfFitRule rule)
{
  const double wraps_to_gap = pf_fit_wraps (ground, placement, wraps_per_cm) / placement.gap;
  return (PfFitRule){ rule.from / wraps_to_gap, rule.to / wraps_to_gap };
}

double
pf_fit_scale (double pattern_wraps_per_cm, double your_wraps_per_cm)
{
  return 100 * pattern_wraps_per_cm / your_wraps_per_cm;
}

static char *
judgement (PfFit fit, double wraps)
{
  switch (fit)
    {
    case PF_FIT_OPEN:
      return g_strdup_printf (_ ("Too open: %.1f wraps from pin to pin along the footside."),
                              wraps);
    case PF_FIT_FITS:
      return g_strdup_printf (_ ("Fits: %.1f wraps from pin to pin along the footside."), wraps);
    case PF_FIT_CLOSE:
      return g_strdup_printf (_ ("Too close: %.1f wraps from pin to pin along the footside."),
                              wraps);
    case PF_FIT_UNKNOWN:
      break;
    }
  return g_strdup (_ ("No rule is known for this ground: work a sample."));
}

char *
pf_explain_fit (const PfGround *ground, PfPlacement placement, double wraps_per_cm, PfFitRule rule)
{
  const PfFit fit = pf_fit_judge (ground, placement, wraps_per_cm, rule);
  g_autofree char *first = judgement (fit, pf_fit_wraps (ground, placement, wraps_per_cm));
  const char *sample =
      _ ("In a sample diamond of cloth stitch, holes mean that the pins are too far "
         "apart, bunched threads that they are too close.");
  if (fit == PF_FIT_UNKNOWN)
    return g_strdup_printf ("%s %s", first, sample);
  const PfFitRule gaps = pf_fit_gaps (ground, placement, wraps_per_cm, rule);
  const PfFitRule threads = pf_fit_threads (ground, placement, rule);
  g_autofree char *advice = g_strdup_printf (
      _ ("By the rule of %g to %g wraps this thread suits a gap of %.1f to %.1f mm, and this gap a "
         "thread of %.0f to %.0f wraps per cm."),
      rule.from, rule.to, gaps.from, gaps.to, threads.from, threads.to);
  return g_strdup_printf (
      "%s %s %s %s", first, advice,
      _ ("The rule is a habit without a printed source, so trust a sample more."), sample);
}
