/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Measures and breaks text. A width is never too small: what the table doesn't know counts as a
 * whole em, and kerning, which only draws letters together here, isn't counted.
 */
#include "text.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#define FIRST 0x20

/* Advance widths of DejaVu Sans 2.37, in hundredths of the font's size, rounded up. */
static const guint8 widths[] = {
  /* clang-format off */
  32, 41, 46, 84, 64, 96, 78, 28, 40, 40, 50, 84, 32, 37, 32, 34, /* U+0020 */
  64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 54, /* U+0030 */
  100, 69, 69, 70, 78, 64, 58, 78, 76, 30, 30, 66, 56, 87, 75, 79, /* U+0040 */
  61, 79, 70, 64, 62, 74, 69, 99, 69, 62, 69, 40, 34, 40, 84, 50, /* U+0050 */
  50, 62, 64, 55, 64, 62, 36, 64, 64, 28, 28, 58, 28, 98, 64, 62, /* U+0060 */
  64, 64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84, 0, /* U+0070 */
  0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, /* U+0080 */
  0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, /* U+0090 */
  32, 41, 64, 64, 64, 64, 34, 50, 50, 100, 48, 62, 84, 37, 100, 50, /* U+00A0 */
  50, 84, 41, 41, 50, 64, 64, 32, 50, 41, 48, 62, 97, 97, 97, 54, /* U+00B0 */
  69, 69, 69, 69, 69, 69, 98, 70, 64, 64, 64, 64, 30, 30, 30, 30, /* U+00C0 */
  78, 75, 79, 79, 79, 79, 79, 84, 79, 74, 74, 74, 74, 62, 61, 63, /* U+00D0 */
  62, 62, 62, 62, 62, 62, 99, 55, 62, 62, 62, 62, 28, 28, 28, 28, /* U+00E0 */
  62, 64, 62, 62, 62, 62, 62, 84, 62, 64, 64, 64, 64, 60, 64, 60, /* U+00F0 */
  69, 62, 69, 62, 69, 62, 70, 55, 70, 55, 70, 55, 70, 55, 78, 64, /* U+0100 */
  78, 64, 64, 62, 64, 62, 64, 62, 64, 62, 64, 62, 78, 64, 78, 64, /* U+0110 */
  78, 64, 78, 64, 76, 64, 92, 70, 30, 28, 30, 28, 30, 28, 30, 28, /* U+0120 */
  30, 28, 59, 56, 30, 28, 66, 58, 58, 56, 28, 56, 28, 56, 38, 56, /* U+0130 */
  35, 57, 29, 75, 64, 75, 64, 75, 64, 82, 75, 64, 79, 62, 79, 62, /* U+0140 */
  79, 62, 107, 103, 70, 42, 70, 42, 70, 42, 64, 53, 64, 53, 64, 53, /* U+0150 */
  64, 53, 62, 40, 62, 40, 62, 40, 74, 64, 74, 64, 74, 64, 74, 64, /* U+0160 */
  74, 64, 74, 64, 99, 82, 62, 60, 62, 69, 53, 69, 53, 69, 53, 36, /* U+0170 */
  /* clang-format on */
};

static double
char_width (gunichar c)
{
  if (c >= FIRST && c - FIRST < G_N_ELEMENTS (widths))
    return widths[c - FIRST] / 100.0;
  return g_unichar_iszerowidth (c) ? 0 : 1;
}

double
pf_text_width (const char *text, double size)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  double width = 0;
  for (const char *p = valid; *p; p = g_utf8_next_char (p))
    width += char_width (g_utf8_get_char (p));
  return width * size;
}

/* How many bytes of `text` fit into `width`: whole words where at least one fits, else letters. */
static size_t
fitting (const char *text, double size, double width)
{
  const char *last_space = NULL;
  const char *p = text;
  for (double used = 0; *p; p = g_utf8_next_char (p))
    {
      used += char_width (g_utf8_get_char (p)) * size;
      if (*p == ' ')
        last_space = p;
      else if (used > width)
        {
          const char *end = last_space ? last_space : p > text ? p : g_utf8_next_char (p);
          return (size_t) (end - text);
        }
    }
  return (size_t) (p - text);
}

static char *
ellipsized (const char *text, double size, double width)
{
  const double room = fmax (0, width - pf_text_width ("…", size));
  const char *p = text;
  double used = 0;
  for (; *p; p = g_utf8_next_char (p))
    {
      used += char_width (g_utf8_get_char (p)) * size;
      if (used > room)
        break;
    }
  g_autofree char *start = g_strchomp (g_strndup (text, (size_t) (p - text)));
  return g_strconcat (start, "…", NULL);
}

static char *
one_line (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  for (char *p = valid; *p; p++)
    if (g_ascii_isspace (*p))
      *p = ' ';
  return g_strdup (g_strstrip (valid));
}

char **
pf_text_wrap (const char *text, double size, double width, int max_lines)
{
  g_autofree char *whole = one_line (text);
  GPtrArray *lines = g_ptr_array_new ();
  const char *rest = whole;
  while (*rest)
    {
      const size_t n = fitting (rest, size, width);
      if (rest[n] && (int) lines->len == max_lines - 1)
        {
          g_ptr_array_add (lines, ellipsized (rest, size, width));
          break;
        }
      g_ptr_array_add (lines, g_strchomp (g_strndup (rest, n)));
      rest += n;
      rest += strspn (rest, " ");
    }
  g_ptr_array_add (lines, NULL);
  return (char **) g_ptr_array_free (lines, FALSE);
}

char *
pf_text_number (double value)
{
  const double hundredths = round (fabs (value) * 100);
  const int decimals = fmod (hundredths, 100) == 0 ? 0 : fmod (hundredths, 10) == 0 ? 1 : 2;
  return g_strdup_printf ("%.*f", decimals, hundredths == 0 ? 0 : value);
}
