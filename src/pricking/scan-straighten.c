/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One or two known distances, turned to a map from the picture to the sheet. */
#include "trace.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define DISTANCE_MIN 0.1
#define DISTANCE_MAX 10000.0

/* Marks nearer than this many pixels are one mark to the hand that set them. */
#define MARKS_APART 1.0

/* Two lines between marks that enclose less than 1 degree can't tell two scales apart. */
#define LEAST_SINE 0.0175

static PfPoint
way (const PfKnownDistance *known)
{
  return (PfPoint){ known->b.x - known->a.x, known->b.y - known->a.y };
}

static bool
check_known (const PfKnownDistance *known, GError **error)
{
  const PfPoint d = way (known);
  if (!(known->mm >= DISTANCE_MIN && known->mm <= DISTANCE_MAX))
    {
      g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
                   _ ("A known distance of %.2f mm can't be used. Give one from %.1f to %.0f mm."),
                   known->mm, DISTANCE_MIN, DISTANCE_MAX);
      return false;
    }
  if (isfinite (d.x) && isfinite (d.y) && hypot (d.x, d.y) >= MARKS_APART)
    return true;
  g_set_error_literal (error, PF_ERROR, PF_ERROR_SETTING,
                       _ ("Two marks of a known distance fall together. Set them far apart: the "
                          "farther, the truer the scale."));
  return false;
}

/* The map that turns and scales alone: `d` becomes (mm, 0). */
static PfAffine
turn_level (PfPoint d, double mm)
{
  const double square = d.x * d.x + d.y * d.y;
  const double c = mm * d.x / square, s = mm * d.y / square;
  return (PfAffine){ c, s, -s, c, 0, 0 };
}

/* The map by which `across` becomes (across_mm, 0) and `down` (0, down_mm). */
static PfAffine
stretch (PfPoint across, double across_mm, PfPoint down, double down_mm)
{
  const PfAffine marks = { across.x, down.x, across.y, down.y, 0, 0 };
  const PfAffine sheet = { across_mm, 0, 0, down_mm, 0, 0 };
  return pf_affine_compose (sheet, pf_affine_invert (marks));
}

bool
pf_scan_straighten (const PfKnownDistance *across, const PfKnownDistance *down, PfPoint at,
                    PfAffine *map, GError **error)
{
  if (!check_known (across, error) || (down != NULL && !check_known (down, error)))
    return false;
  const PfPoint a = way (across);
  *map = turn_level (a, across->mm);
  if (down != NULL)
    {
      PfPoint d = way (down);
      const double area = a.x * d.y - a.y * d.x;
      if (fabs (area) <= LEAST_SINE * hypot (a.x, a.y) * hypot (d.x, d.y))
        {
          g_set_error_literal (error, PF_ERROR, PF_ERROR_SETTING,
                               _ ("Both known distances lie along one line. Mark one across and "
                                  "one down the picture."));
          return false;
        }
      if (area < 0)
        d = (PfPoint){ -d.x, -d.y };
      *map = stretch (a, across->mm, d, down->mm);
    }
  const PfPoint start = pf_affine_map (*map, across->a);
  map->x0 = at.x - start.x;
  map->y0 = at.y - start.y;
  return true;
}
