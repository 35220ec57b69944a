/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Numbers and lengths of SVG attributes (SVG 2, section 4.3; CSS Values and Units 3, section 6).
 * The token is found by its grammar first and then converted, so that no locale, no "inf" and no
 * hexadecimal number gets through, and the number scanned is always finite.
 */
#include "svg.h"

#include <math.h>
#include <string.h>

static bool
is_space (char c)
{
  return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

void
pf_svg_skip_space (const char **at)
{
  while (is_space (**at))
    ++*at;
}

void
pf_svg_skip_comma (const char **at)
{
  pf_svg_skip_space (at);
  if (**at == ',')
    {
      ++*at;
      pf_svg_skip_space (at);
    }
}

static const char *
skip_digits (const char *at)
{
  while (g_ascii_isdigit (*at))
    at++;
  return at;
}

/* An `e` without digits behind it is no exponent: it may begin `em` or `ex`. */
static const char *
skip_exponent (const char *at)
{
  const char *digits = at + 1;
  if (*at != 'e' && *at != 'E')
    return at;
  if (*digits == '+' || *digits == '-')
    digits++;
  return g_ascii_isdigit (*digits) ? skip_digits (digits) : at;
}

/* The end of the number at `at`, or NULL. */
static const char *
number_end (const char *at)
{
  if (*at == '+' || *at == '-')
    at++;
  const char *whole = skip_digits (at), *end = whole;
  size_t n_digits = (size_t) (whole - at);
  if (*whole == '.')
    {
      end = skip_digits (whole + 1);
      n_digits += (size_t) (end - whole - 1);
    }
  return n_digits > 0 ? skip_exponent (end) : NULL;
}

bool
pf_svg_scan_number (const char **at, double *value)
{
  const char *const end = number_end (*at);
  if (end == NULL)
    return false;
  char short_text[64];
  const size_t length = (size_t) (end - *at);
  g_autofree char *long_text = length < sizeof short_text ? NULL : g_strndup (*at, length);
  if (long_text == NULL)
    {
      memcpy (short_text, *at, length);
      short_text[length] = '\0';
    }
  const double number = g_ascii_strtod (long_text != NULL ? long_text : short_text, NULL);
  if (!isfinite (number))
    return false;
  *value = number;
  *at = end;
  return true;
}

bool
pf_svg_numbers (const char *text, double *values, size_t n)
{
  pf_svg_skip_space (&text);
  for (size_t i = 0; i < n; i++)
    {
      if (i > 0)
        pf_svg_skip_comma (&text);
      if (!pf_svg_scan_number (&text, &values[i]))
        return false;
    }
  pf_svg_skip_space (&text);
  return *text == '\0';
}

/* px in one of each unit. `em` and `ex` take the usual text size of 16 px, as no text is read. */
static const struct {
  const char *name;
  double px;
} units[] = {
  { "", 1 },           { "px", 1 },  { "mm", PF_SVG_PX_PER_MM }, { "cm", 96 / 2.54 }, { "in", 96 },
  { "pt", 96.0 / 72 }, { "pc", 16 }, { "Q", 96 / 101.6 },        { "em", 16 },        { "rem", 16 },
  { "ex", 8 },
};

bool
pf_svg_length (const char *text, double whole, double *px)
{
  double number;
  pf_svg_skip_space (&text);
  if (!pf_svg_scan_number (&text, &number))
    return false;
  g_autofree char *unit = g_strchomp (g_strdup (text));
  double factor = strcmp (unit, "%") == 0 ? whole / 100 : NAN;
  for (size_t i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_ascii_strcasecmp (unit, units[i].name) == 0)
      factor = units[i].px;
  if (!isfinite (number * factor))
    return false;
  *px = number * factor;
  return true;
}
