/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How a viewBox is fitted into the viewport it is shown in (SVG 2, sections 8.2, 8.6 and 8.7).
 */
#include "svg.h"

#include <math.h>
#include <string.h>

bool
pf_svg_view_box (const char *text, PfSvgBox *box)
{
  double values[4];
  if (!pf_svg_numbers (text, values, 4) || values[2] < 0 || values[3] < 0)
    return false;
  *box = (PfSvgBox){ values[0], values[1], values[2], values[3] };
  return true;
}

typedef struct {
  double x, y; /* share of the room left over that lies before the drawing */
  bool stretch, slice;
} Alignment;

/* Min, Mid or Max; -1 for other words. */
static double
share (const char *word)
{
  static const char *const words[] = { "Min", "Mid", "Max" };
  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    if (strncmp (word, words[i], 3) == 0)
      return (double) i / 2;
  return -1;
}

static bool
parse_align (const char *word, Alignment *alignment)
{
  alignment->stretch = strcmp (word, "none") == 0;
  if (alignment->stretch)
    return true;
  if (strlen (word) != 8 || word[0] != 'x' || word[4] != 'Y')
    return false;
  alignment->x = share (word + 1);
  alignment->y = share (word + 5);
  return alignment->x >= 0 && alignment->y >= 0;
}

/* What can't be read counts as xMidYMid meet. */
static Alignment
parse_alignment (const char *text)
{
  const Alignment usual = { 0.5, 0.5, false, false };
  Alignment alignment = usual;
  g_auto (GStrv) words = g_strsplit_set (text != NULL ? text : "", " \t\n\r\f", -1);
  bool aligned = false;
  for (char **word = words; *word != NULL; word++)
    {
      if (**word == '\0' || (!aligned && strcmp (*word, "defer") == 0))
        continue;
      if (!aligned && parse_align (*word, &alignment))
        aligned = true;
      else if (aligned && strcmp (*word, "slice") == 0)
        alignment.slice = true;
      else if (!aligned || strcmp (*word, "meet") != 0)
        return usual;
    }
  return alignment;
}

PfAffine
pf_svg_fit (PfSvgBox view_box, const char *text, PfSvgBox viewport)
{
  const Alignment alignment = parse_alignment (text);
  double sx = viewport.width / view_box.width, sy = viewport.height / view_box.height;
  if (!alignment.stretch)
    sx = sy = alignment.slice ? fmax (sx, sy) : fmin (sx, sy);
  return (PfAffine){
    .xx = sx,
    .yy = sy,
    .x0 = viewport.x - view_box.x * sx + (viewport.width - view_box.width * sx) * alignment.x,
    .y0 = viewport.y - view_box.y * sy + (viewport.height - view_box.height * sy) * alignment.y,
  };
}
