/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lengths in words: inside the program they are mm, whatever the maker reads.
 */
#include "length.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gi18n-lib.h>

/* The number with at most `decimals` of them, and no 0 at their end. */
static char *
trimmed (double value, int decimals)
{
  char *text = g_strdup_printf ("%.*f", decimals, value);
  size_t end = strlen (text);
  while (end > 0 && text[end - 1] == '0')
    end--;
  while (end > 0 && !g_ascii_isdigit (text[end - 1]))
    end--; /* the decimal mark, which may be of several bytes */
  text[end] = '\0';
  if (strcmp (text, "-0") == 0)
    strcpy (text, "0");
  return text;
}

char *
pf_format_length (double mm, PfUnits units)
{
  const bool inches = units == PF_UNITS_INCH;
  g_autofree char *number = inches ? trimmed (mm / PF_MM_PER_INCH, 3) : trimmed (mm, 2);
  /* Translators: a length in mm, and one in inches. */
  return inches ? g_strdup_printf (_ ("%s in"), number) : g_strdup_printf (_ ("%s mm"), number);
}

char *
pf_format_fixed_length (double mm, int decimals, PfUnits units)
{
  const bool inches = units == PF_UNITS_INCH;
  g_autofree char *number = inches
                                ? g_strdup_printf ("%.*f", decimals + 1, mm / PF_MM_PER_INCH + 0.0)
                                : g_strdup_printf ("%.*f", decimals, mm + 0.0);
  return inches ? g_strdup_printf (_ ("%s in"), number) : g_strdup_printf (_ ("%s mm"), number);
}

char *
pf_format_place (double x, double y, int decimals, PfUnits units)
{
  const bool inches = units == PF_UNITS_INCH;
  const double unit = inches ? PF_MM_PER_INCH : 1;
  g_autofree char *both = g_strdup_printf ("%.*f, %.*f", decimals + inches, x / unit + 0.0,
                                           decimals + inches, y / unit + 0.0);
  return inches ? g_strdup_printf (_ ("%s in"), both) : g_strdup_printf (_ ("%s mm"), both);
}

static const struct {
  const char *name;
  double mm;
} unit_names[] = {
  { "mm", 1 },
  { "cm", 10 },
  { "m", 1000 },
  { "in", PF_MM_PER_INCH },
  { "inch", PF_MM_PER_INCH },
  { "inches", PF_MM_PER_INCH },
  { "\"", PF_MM_PER_INCH },
  { "″", PF_MM_PER_INCH },
};

/* mm to one of the unit; 0 for an unknown one. */
static double
unit_named (const char *name, PfUnits units)
{
  if (*name == '\0')
    return units == PF_UNITS_INCH ? PF_MM_PER_INCH : 1;
  for (size_t i = 0; i < G_N_ELEMENTS (unit_names); i++)
    if (g_ascii_strcasecmp (name, unit_names[i].name) == 0)
      return unit_names[i].mm;
  return 0;
}

static const char *
skip_space (const char *text)
{
  while (g_unichar_isspace (g_utf8_get_char (text)))
    text = g_utf8_next_char (text);
  return text;
}

/* Digits with at most one decimal mark among them: no exponent, no hexadecimal number. */
static bool
read_number (const char **text, double *value)
{
  g_autofree char *digits = g_strdup (*text);
  size_t n = strspn (digits, "0123456789.,");
  digits[n] = '\0';
  g_strdelimit (digits, ",", '.');
  char *end;
  *value = g_ascii_strtod (digits, &end);
  *text += n;
  return n > 0 && end == digits + n && end != digits;
}

/* A number, a fraction, or a whole number and a fraction. */
static bool
read_amount (const char **text, double *amount)
{
  double number, below;
  if (!read_number (text, amount))
    return false;
  const char *next = skip_space (*text);
  if (*next == '/')
    number = *amount, *amount = 0;
  else if (!g_ascii_isdigit (*next))
    return true;
  else if (!read_number (&next, &number))
    return false;
  next = skip_space (next);
  if (*next != '/')
    return false;
  next = skip_space (next + 1);
  if (!read_number (&next, &below) || below == 0)
    return false;
  *amount += number / below;
  *text = next;
  return true;
}

static bool
read_minus (const char **text)
{
  static const char *const signs[] = { "-", "−" };
  for (size_t i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (*text, signs[i]))
      {
        *text = skip_space (*text + strlen (signs[i]));
        return true;
      }
  return false;
}

bool
pf_parse_length (const char *text, PfUnits units, double *mm)
{
  if (!g_utf8_validate (text, -1, NULL))
    return false;
  text = skip_space (text);
  const bool minus = read_minus (&text);
  double amount;
  if (!read_amount (&text, &amount))
    return false;
  g_autofree char *name = g_strchomp (g_strdup (skip_space (text)));
  while (g_str_has_suffix (name, "\302\240")) /* a no-break space */
    name[strlen (name) - 2] = '\0';
  const double length = amount * unit_named (name, units);
  if (!isfinite (length) || unit_named (name, units) == 0)
    return false;
  *mm = minus ? -length : length;
  return true;
}
