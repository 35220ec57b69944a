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

char *
pf_format_area (double mm2, PfUnits units)
{
  const bool inches = units == PF_UNITS_INCH;
  g_autofree char *number =
      inches ? g_strdup_printf ("%.4f", mm2 / (PF_MM_PER_INCH * PF_MM_PER_INCH) + 0.0)
             : g_strdup_printf ("%.2f", mm2 + 0.0);
  /* Translators: an area in mm², and one in square inches. */
  return inches ? g_strdup_printf (_ ("%s sq in"), number) : g_strdup_printf (_ ("%s mm²"), number);
}

char *
pf_format_thread (double mm, int decimals, PfUnits units)
{
  if (units == PF_UNITS_MM)
    return g_strdup_printf (_ ("%.*f m"), decimals, mm / 1000);
  return g_strdup_printf (_ ("%.*f yd"), decimals, mm / PF_MM_PER_YARD);
}

typedef struct {
  const char *name;
  double size; /* mm or mm² */
} Unit;

static const Unit length_units[] = {
  { "mm", 1 },
  { "cm", 10 },
  { "m", 1000 },
  { "in", PF_MM_PER_INCH },
  { "inch", PF_MM_PER_INCH },
  { "inches", PF_MM_PER_INCH },
  { "\"", PF_MM_PER_INCH },
  { "″", PF_MM_PER_INCH },
  { NULL, 0 },
};

static const Unit area_units[] = {
  { "mm²", 1 },
  { "mm2", 1 },
  { "cm²", 100 },
  { "cm2", 100 },
  { "sq in", PF_MM_PER_INCH *PF_MM_PER_INCH },
  { "in²", PF_MM_PER_INCH *PF_MM_PER_INCH },
  { "in2", PF_MM_PER_INCH *PF_MM_PER_INCH },
  { NULL, 0 },
};

/* Is it the unit as it is shown, in the maker's language? `format` has a %s for the number. */
static bool
is_shown_as (const char *name, const char *format)
{
  g_auto (GStrv) parts = g_strsplit (format, "%s", 2);
  g_autofree char *shown = g_strjoinv ("", parts);
  g_autofree char *shown_folded = g_utf8_casefold (g_strstrip (shown), -1);
  g_autofree char *folded = g_utf8_casefold (name, -1);
  return strcmp (folded, shown_folded) == 0;
}

/* Its size; `usual` if none is named, 0 for an unknown one. */
static double
unit_named (const char *name, const Unit *units, double usual)
{
  const bool areas = units == area_units;
  if (*name == '\0')
    return usual;
  for (; units->name != NULL; units++)
    if (g_ascii_strcasecmp (name, units->name) == 0)
      return units->size;
  if (is_shown_as (name, areas ? _ ("%s mm²") : _ ("%s mm")))
    return 1;
  if (is_shown_as (name, areas ? _ ("%s sq in") : _ ("%s in")))
    return areas ? PF_MM_PER_INCH * PF_MM_PER_INCH : PF_MM_PER_INCH;
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

static bool
parse (const char *text, const Unit *units, double usual, double *value)
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
  const double unit = unit_named (name, units, usual);
  if (!isfinite (amount * unit) || unit == 0)
    return false;
  *value = minus ? -amount * unit : amount * unit;
  return true;
}

bool
pf_parse_length (const char *text, PfUnits units, double *mm)
{
  return parse (text, length_units, units == PF_UNITS_INCH ? PF_MM_PER_INCH : 1, mm);
}

bool
pf_parse_area (const char *text, PfUnits units, double *mm2)
{
  const double square_inch = PF_MM_PER_INCH * PF_MM_PER_INCH;
  return parse (text, area_units, units == PF_UNITS_INCH ? square_inch : 1, mm2);
}
