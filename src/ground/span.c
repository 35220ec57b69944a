/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The whole combinations of vectors of two whole numbers: Euclid's algorithm on the first numbers
 * leaves one vector with a first number that isn't 0, and on the second numbers of the rest
 * another.
 */
#include "layers.h"

static gint64
positive_rest (gint64 x, gint64 by)
{
  return by ? ((x % by) + by) % by : x;
}

static gint64
common_divisor (gint64 x, gint64 y)
{
  while (y)
    {
      const gint64 rest = x % y;
      x = y;
      y = rest;
    }
  return ABS (x);
}

void
pf_ground_span_add (PfGroundSpan *span, gint64 x, gint64 y)
{
  while (x)
    {
      const gint64 q = span->a / x;
      const gint64 a = span->a - q * x, b = span->b - q * y;
      span->a = x;
      span->b = y;
      x = a;
      y = b;
    }
  span->c = common_divisor (span->c, y);
  span->b = positive_rest (span->b, span->c); /* keeps numbers small */
}

bool
pf_ground_span_has (const PfGroundSpan *span, gint64 x, gint64 y)
{
  if (span->a == 0 ? x != 0 : x % span->a != 0)
    return false;
  const gint64 q = span->a ? x / span->a : 0;
  return positive_rest (y - q * span->b, span->c) == 0;
}
