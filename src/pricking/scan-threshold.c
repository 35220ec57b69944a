/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The level between ink and paper by Otsu's method (the paper is cited in trace.h): the one with
 * the largest variance between the two classes, their shares multiplied with the square of how far
 * their means are apart.
 */
#include "trace.h"

#define LEVELS 256

/* Where all pixels are alike there is no level between; the middle tells dark from light. */
#define MIDDLE 128

static double
variance_between (double n_below, double sum_below, double n, double sum)
{
  const double n_above = n - n_below;
  if (!(n_below > 0 && n_above > 0))
    return 0;
  const double apart = sum_below / n_below - (sum - sum_below) / n_above;
  return n_below / n * (n_above / n) * apart * apart;
}

int
pf_scan_threshold (const PfScan *scan)
{
  guint64 counts[LEVELS] = { 0 };
  double n = 0, sum = 0, n_below = 0, sum_below = 0, best = 0;
  int first = MIDDLE, last = MIDDLE;
  for (int y = 0; y < scan->height; y++)
    for (int x = 0; x < scan->width; x++)
      counts[scan->grey[(gsize) y * (gsize) scan->stride + (gsize) x]]++;
  for (int level = 0; level < LEVELS; level++)
    {
      n += (double) counts[level];
      sum += (double) counts[level] * level;
    }
  for (int level = 1; level < LEVELS; level++)
    {
      n_below += (double) counts[level - 1];
      sum_below += (double) counts[level - 1] * (level - 1);
      const double between = variance_between (n_below, sum_below, n, sum);
      if (between > best)
        {
          best = between;
          first = last = level;
        }
      /* Levels that no pixel has divide the pixels alike: their middle is farthest from both. */
      else if (counts[level - 1] == 0 && last == level - 1 && best > 0)
        last = level;
    }
  return (first + last) / 2;
}
