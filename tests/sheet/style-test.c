/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Can the four kinds of pairs be told apart: in grey by their lines, in colour also by those who
 * see fewer colours?
 *
 * How colours look without one kind of cone: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
 * physiologically-based model for simulation of color vision deficiency", IEEE Transactions on
 * Visualization and Computer Graphics 15 (2009), severity 1. Contrast: W3C, Web Content
 * Accessibility Guidelines 2.1, relative luminance and success criteria 1.4.3 and 1.4.11. Colour
 * difference: CIE 1976 L*a*b*, white D65.
 */
#include <math.h>
#include <stdio.h>

#include "samples.h"
#include "style.h"

typedef struct {
  double c[3];
} Colour;

static const double seen[][3][3] = {
  { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
  { { 0.152286, 1.052583, -0.204868 },
    { 0.114503, 0.786281, 0.099216 },
    { -0.003882, -0.048116, 1.051998 } },
  { { 0.367322, 0.860646, -0.227968 },
    { 0.280085, 0.672501, 0.047413 },
    { -0.011820, 0.042940, 0.968881 } },
  { { 1.255528, -0.076749, -0.178779 },
    { -0.078411, 0.930809, 0.147602 },
    { 0.004733, 0.691367, 0.303900 } },
};

/* Linear light, from "#rrggbb" in sRGB (IEC 61966-2-1). */
static Colour
linear (const char *text)
{
  unsigned int r, g, b;
  g_assert_cmpint (sscanf (text, "#%2x%2x%2x", &r, &g, &b), ==, 3);
  const unsigned int parts[] = { r, g, b };
  Colour colour;
  for (int i = 0; i < 3; i++)
    {
      const double v = parts[i] / 255.0;
      colour.c[i] = v <= 0.04045 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4);
    }
  return colour;
}

static Colour
times (const double m[3][3], Colour colour)
{
  Colour out;
  for (int i = 0; i < 3; i++)
    out.c[i] = CLAMP (m[i][0] * colour.c[0] + m[i][1] * colour.c[1] + m[i][2] * colour.c[2], 0, 1);
  return out;
}

static double
luminance (Colour colour)
{
  return 0.2126 * colour.c[0] + 0.7152 * colour.c[1] + 0.0722 * colour.c[2];
}

static double
lab_part (double t)
{
  return t > 216.0 / 24389 ? cbrt (t) : (24389.0 / 27 * t + 16) / 116;
}

static Colour
lab (Colour colour)
{
  static const double to_xyz[3][3] = { { 0.4124564, 0.3575761, 0.1804375 },
                                       { 0.2126729, 0.7151522, 0.0721750 },
                                       { 0.0193339, 0.1191920, 0.9503041 } };
  const Colour xyz = times (to_xyz, colour);
  const double x = lab_part (xyz.c[0] / 0.95047), y = lab_part (xyz.c[1]);
  const double z = lab_part (xyz.c[2] / 1.08883);
  return (Colour){ { 116 * y - 16, 500 * (x - y), 200 * (y - z) } };
}

static double
difference (Colour a, Colour b)
{
  const Colour p = lab (a), q = lab (b);
  return sqrt (pow (p.c[0] - q.c[0], 2) + pow (p.c[1] - q.c[1], 2) + pow (p.c[2] - q.c[2], 2));
}

static void
test_colours (void)
{
  /* A difference of 2.3 is just noticeable; lines a fifth of a mm wide need many times that. */
  for (size_t s = 0; s < G_N_ELEMENTS (seen); s++)
    for (int a = PF_PAIR_NEW; a <= PF_PAIR_FINISHED; a++)
      for (int b = PF_PAIR_NEW; b < a; b++)
        {
          const Colour p = times (seen[s], linear (pf_line_style ((PfPairKind) a)->colour));
          const Colour q = times (seen[s], linear (pf_line_style ((PfPairKind) b)->colour));
          g_test_message ("%zu: %d, %d differ by %.1f", s, a, b, difference (p, q));
          g_assert_cmpfloat (difference (p, q), >, 15);
        }
}

static double
contrast (const char *colour)
{
  return 1.05 / (luminance (linear (colour)) + 0.05);
}

static void
test_contrast (void)
{
  for (int kind = PF_PAIR_NEW; kind <= PF_PAIR_FINISHED; kind++)
    g_assert_cmpfloat (contrast (pf_line_style ((PfPairKind) kind)->colour), >=, 3);
  g_assert_cmpfloat (contrast (PF_COLOUR_PAIR_LINE), >=, 3);
  g_assert_cmpfloat (contrast (PF_COLOUR_INK), >=, 4.5);
  g_assert_cmpfloat (contrast (PF_COLOUR_QUIET), >=, 4.5);
  g_assert_cmpfloat (contrast (pf_line_style (PF_PAIR_NEW)->colour), >=, 4.5);
  g_assert_cmpfloat (contrast (pf_line_style (PF_PAIR_FINISHED)->colour), >=, 4.5);
}

/* No two kinds have the same pattern of ink and paper. */
static void
test_dashes (void)
{
  const PfSizes sizes = pf_sizes (2, 1);
  for (int a = PF_PAIR_NEW; a <= PF_PAIR_FINISHED; a++)
    for (int b = PF_PAIR_NEW; b < a; b++)
      {
        const PfInk p = pf_line_ink ((PfPairKind) a, &sizes);
        const PfInk q = pf_line_ink ((PfPairKind) b, &sizes);
        bool same = p.n_dash == q.n_dash;
        for (int i = 0; i < p.n_dash && same; i++)
          same = fabs (p.dash[i] - q.dash[i]) < 0.15;
        g_assert_false (same);
      }
}

/* Sizes on paper: at a gap of 2 mm pins of 0.35 to 0.5 mm, lines of 0.1 to 0.3 mm, numbers of 1.3
 * mm and more; enlarged n times, nothing but the geometry grows more than √n. */
static void
test_sizes (void)
{
  const PfSizes two = pf_sizes (2, 1);
  g_assert_cmpfloat (2 * two.pin, >=, 0.35);
  g_assert_cmpfloat (2 * two.pin, <=, 0.5);
  for (double gap = 0.5; gap <= 20; gap += 0.5)
    for (double enlarge = 1; enlarge <= 20; enlarge += 0.7)
      {
        const PfSizes plain = pf_sizes (gap, 1), large = pf_sizes (gap, enlarge);
        const double most = sqrt (enlarge) * (1 + 1e-9);
        g_assert_cmpfloat (large.line, <=, plain.line * most);
        g_assert_cmpfloat (large.text, <=, plain.text * most);
        g_assert_cmpfloat (large.pin, <=, plain.pin * most);
        g_assert_cmpfloat (plain.text, >=, 1.3 - 1e-9);
        g_assert_cmpfloat (plain.text, <=, 2.6 + 1e-9);
        g_assert_cmpfloat (1.35 * plain.line, <=, 0.4);
        /* Pins never run into one another. */
        g_assert_cmpfloat (2 * plain.pin, <=, 0.5 * gap);
      }
}

/* Wider lines keep their kinds apart: dots stay apart, gaps between dashes stay, arrows show. */
static void
test_looks (void)
{
  for (double gap = 2; gap <= 6; gap++)
    for (double width = 0.5; width <= 3; width += 0.25)
      {
        PfLook look = pf_look_printed ();
        look.line_width = width;
        const PfSizes sizes = pf_look_sizes (&look, pf_sizes (gap, 1));
        const PfInk dots = pf_line_ink (PF_PAIR_TURNED, &sizes);
        g_assert_cmpfloat (dots.dash[1], >, 1.1 * dots.width);
        const PfInk carried = pf_line_ink (PF_PAIR_CARRIED, &sizes);
        g_assert_cmpfloat (carried.dash[1], >, 1.1 * carried.width);
        g_assert_cmpfloat (0.72 * sizes.arrow, >, 1.1 * pf_line_ink (PF_PAIR_NEW, &sizes).width);
      }
}

static void
test_look_printed (void)
{
  const PfLook look = pf_look_printed ();
  const PfSizes plain = pf_sizes (4, 1), sizes = pf_look_sizes (&look, plain);
  g_assert_cmpmem (&sizes, sizeof sizes, &plain, sizeof plain);
  for (int kind = PF_PAIR_NEW; kind <= PF_PAIR_FINISHED; kind++)
    g_assert_cmpstr (pf_look_colour (&look, (PfPairKind) kind), ==,
                     pf_line_style ((PfPairKind) kind)->colour);
  PfLook other = look;
  g_assert_true (pf_look_equal (&look, &other));
  other.line_width = 1.5;
  g_assert_false (pf_look_equal (&look, &other));
  other = look;
  other.colours[PF_PAIR_FINISHED][6] = '0';
  g_assert_false (pf_look_equal (&look, &other));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/style/colours", test_colours);
  g_test_add_func ("/sheet/style/contrast", test_contrast);
  g_test_add_func ("/sheet/style/dashes", test_dashes);
  g_test_add_func ("/sheet/style/sizes", test_sizes);
  g_test_add_func ("/sheet/style/looks", test_looks);
  g_test_add_func ("/sheet/style/look-printed", test_look_printed);
  return g_test_run ();
}
