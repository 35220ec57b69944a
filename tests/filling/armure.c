/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The cut is made by hand, corner by corner, so that the tests of one repeat rest on nothing but
 * pf_region_new().
 */
#include "armure.h"

PfRegion *
armure_region (ArmureCut cut)
{
  const PfPoint diamond[] = { { 0, -1.5 }, { 1.5, 0 }, { 0, 1.5 }, { -1.5, 0 } };
  PfPoint points[8];
  size_t n = 0;
  for (int k = 0; k < 4; k++)
    {
      const PfPoint p = diamond[k], q = diamond[(k + 1) % 4];
      const double dp = cut.nx * p.x + cut.ny * p.y - cut.offset;
      const double dq = cut.nx * q.x + cut.ny * q.y - cut.offset;
      if (dp > 0)
        points[n++] = (PfPoint){ p.x * ARMURE_SCALE, p.y * ARMURE_SCALE };
      if ((dp > 0) != (dq > 0))
        {
          const double t = dp / (dp - dq);
          points[n++] = (PfPoint){ (p.x + t * (q.x - p.x)) * ARMURE_SCALE,
                                   (p.y + t * (q.y - p.y)) * ARMURE_SCALE };
        }
    }
  return sample_polygon (points, n);
}

PfFillingSettings
armure_settings (const PfGround *ground)
{
  PfFillingSettings settings = pf_filling_settings_default ();
  settings.placement.gap = ARMURE_SCALE * ground->spacing;
  settings.clearance = 0.01;
  settings.carry = 0;
  return settings;
}

PfFilling *
armure_fill (const PfGround *ground, ArmureCut cut, const PfFillingSettings *settings)
{
  g_autoptr (PfRegion) region = armure_region (cut);
  const PfFillingSettings defaults = armure_settings (ground);
  PfEdge edge;
  g_assert_true (pf_edge_init_even (&edge, &region->loops[0], PF_EDGE_HALF_STITCH, 2, NULL));
  g_autoptr (GError) error = NULL;
  PfFilling *filling =
      pf_filling_new (region, &edge, ground, settings != NULL ? settings : &defaults, &error);
  g_assert_no_error (error);
  pf_edge_clear (&edge);
  return filling;
}
