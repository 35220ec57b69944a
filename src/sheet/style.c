/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of line styles and the sizes of all that is drawn.
 */
#include "style.h"

#include <math.h>
#include <string.h>

static const PfLineStyle line_styles[] = {
  [PF_PAIR_NEW] = { "new", "#1a4a9c", 1.15, { 0 }, 0, false },
  [PF_PAIR_TURNED] = { "turned", "#c46200", 1.35, { 0, 1 }, 2, true },
  [PF_PAIR_CARRIED] = { "carried", "#0b86a3", 1.0, { 1.6, 0.8, 0.1, 0.8 }, 4, true },
  [PF_PAIR_FINISHED] = { "finished", "#4a2c1d", 1.0, { 1.5, 1.0 }, 2, false },
};

const PfLineStyle *
pf_line_style (PfPairKind kind)
{
  return &line_styles[kind];
}

PfSizes
pf_sizes (double gap, double enlarge)
{
  /* A reduced sheet is drawn as one with that smaller gap. */
  const double g = gap * fmin (enlarge, 1);
  const double grow = sqrt (fmax (enlarge, 1));
  return (PfSizes){
    .pin = fmin (CLAMP (0.1 * g, 0.18, 0.32), 0.2 * g) * grow,
    .hole = fmin (CLAMP (0.11 * g, 0.22, 0.34), 0.25 * g) * grow,
    .mark = fmin (CLAMP (0.2 * g, 0.36, 0.6), 0.3 * g) * grow,
    .fine = fmin (CLAMP (0.05 * g, 0.1, 0.16), 0.07 * g) * grow,
    .line = fmin (CLAMP (0.1 * g, 0.18, 0.28), 0.13 * g) * grow,
    .outline = fmin (CLAMP (0.1 * g, 0.16, 0.24), 0.15 * g) * grow,
    .dash = CLAMP (0.2 * g, 0.36, 0.7) * grow,
    .arrow = fmin (CLAMP (0.4 * g, 0.7, 1.3), 0.6 * g) * grow,
    .text = CLAMP (0.4 * g, 1.3, 2.6) * grow,
  };
}

PfInk
pf_line_ink (PfPairKind kind, const PfSizes *sizes)
{
  const PfLineStyle *style = pf_line_style (kind);
  PfInk ink = {
    .stroke = style->colour,
    .width = sizes->line * style->weight,
    .n_dash = style->n_dash,
    .round = style->round,
  };
  for (int i = 0; i < style->n_dash; i++)
    ink.dash[i] = style->dash[i] * sizes->dash;
  return ink;
}

PfLook
pf_look_printed (void)
{
  PfLook look = { .line_width = 1 };
  for (int kind = 0; kind < PF_N_PAIR_KINDS; kind++)
    g_strlcpy (look.colours[kind], line_styles[kind].colour, sizeof look.colours[kind]);
  return look;
}

bool
pf_look_equal (const PfLook *a, const PfLook *b)
{
  for (int kind = 0; kind < PF_N_PAIR_KINDS; kind++)
    if (strcmp (a->colours[kind], b->colours[kind]) != 0)
      return false;
  return a->line_width == b->line_width;
}

const char *
pf_look_colour (const PfLook *look, PfPairKind kind)
{
  return look ? look->colours[kind] : line_styles[kind].colour;
}

PfInk
pf_look_ink (const PfLook *look, PfPairKind kind, PfInk ink)
{
  if (ink.stroke)
    ink.stroke = pf_look_colour (look, kind);
  if (ink.fill)
    ink.fill = pf_look_colour (look, kind);
  return ink;
}

PfSizes
pf_look_sizes (const PfLook *look, PfSizes sizes)
{
  if (!look)
    return sizes;
  /* Dots that grow must not close into a line, nor a line hide its arrow. */
  const double grow = fmax (1, 0.85 * look->line_width);
  sizes.line *= look->line_width;
  sizes.dash *= grow;
  sizes.arrow *= grow;
  return sizes;
}
