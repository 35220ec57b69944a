/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The transform attribute: a list of functions, composed from the left (SVG 1.1, section 7.6).
 */
#include "svg.h"

#include <math.h>
#include <string.h>

#define MAX_ARGUMENTS 6

/* Exact for quarter turns, so that what is turned by them stays on its grid. */
static double
cosine (double degrees)
{
  const double turn = fabs (fmod (degrees, 360));
  if (turn == 90 || turn == 270)
    return 0;
  return turn == 180 ? -1 : cos (turn * G_PI / 180);
}

static double
sine (double degrees)
{
  const double turn = fmod (degrees, 360);
  return fmod (turn, 180) == 0 ? 0 : cosine (turn - 90);
}

static PfAffine
translation (double x, double y)
{
  return (PfAffine){ 1, 0, 0, 1, x, y };
}

static PfAffine
matrix (const double *a, size_t n G_GNUC_UNUSED)
{
  return (PfAffine){ .xx = a[0], .yx = a[1], .xy = a[2], .yy = a[3], .x0 = a[4], .y0 = a[5] };
}

static PfAffine
translate (const double *a, size_t n)
{
  return translation (a[0], n > 1 ? a[1] : 0);
}

static PfAffine
scale (const double *a, size_t n)
{
  return (PfAffine){ a[0], 0, 0, n > 1 ? a[1] : a[0], 0, 0 };
}

static PfAffine
rotate (const double *a, size_t n)
{
  const double c = cosine (a[0]), s = sine (a[0]);
  const PfAffine turn = { .xx = c, .xy = -s, .yx = s, .yy = c };
  if (n == 1)
    return turn;
  return pf_affine_compose (translation (a[1], a[2]),
                            pf_affine_compose (turn, translation (-a[1], -a[2])));
}

static PfAffine
skew_x (const double *a, size_t n G_GNUC_UNUSED)
{
  return (PfAffine){ 1, tan (a[0] * G_PI / 180), 0, 1, 0, 0 };
}

static PfAffine
skew_y (const double *a, size_t n G_GNUC_UNUSED)
{
  return (PfAffine){ 1, 0, tan (a[0] * G_PI / 180), 1, 0, 0 };
}

/* Bit n of `counts` is set if the function takes n numbers. */
static const struct {
  const char *name;
  unsigned counts;
  PfAffine (*make) (const double *arguments, size_t n);
} functions[] = {
  { "matrix", 1 << 6, matrix },        { "translate", 1 << 1 | 1 << 2, translate },
  { "scale", 1 << 1 | 1 << 2, scale }, { "rotate", 1 << 1 | 1 << 3, rotate },
  { "skewX", 1 << 1, skew_x },         { "skewY", 1 << 1, skew_y },
};

/* The numbers in parentheses; returns how many there are, 0 if they can't be read. */
static size_t
scan_arguments (const char **at, double *arguments)
{
  size_t n = 0;
  pf_svg_skip_space (at);
  if (*(*at)++ != '(')
    return 0;
  for (pf_svg_skip_space (at); **at != ')'; n++)
    {
      if (n > 0)
        pf_svg_skip_comma (at);
      if (n == MAX_ARGUMENTS || !pf_svg_scan_number (at, &arguments[n]))
        return 0;
      pf_svg_skip_space (at);
    }
  ++*at;
  return n;
}

static bool
scan_function (const char **at, PfAffine *result)
{
  double arguments[MAX_ARGUMENTS];
  for (size_t i = 0; i < G_N_ELEMENTS (functions); i++)
    {
      const size_t length = strlen (functions[i].name);
      if (strncmp (*at, functions[i].name, length) != 0)
        continue;
      *at += length;
      const size_t n = scan_arguments (at, arguments);
      if (n == 0 || (functions[i].counts & 1u << n) == 0)
        return false;
      *result = functions[i].make (arguments, n);
      return true;
    }
  return false;
}

bool
pf_svg_transform (const char *text, PfAffine *transform)
{
  PfAffine whole = PF_AFFINE_IDENTITY, next;
  pf_svg_skip_space (&text);
  if (strcmp (text, "none") == 0)
    text += strlen (text);
  while (*text != '\0')
    {
      if (!scan_function (&text, &next))
        return false;
      whole = pf_affine_compose (whole, next);
      pf_svg_skip_comma (&text);
    }
  *transform = whole;
  return true;
}
