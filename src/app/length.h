/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Lengths as the maker reads and writes them.
 */
#pragma once

#include <stdbool.h>

#include <glib.h>

G_BEGIN_DECLS

typedef enum { PF_UNITS_MM, PF_UNITS_INCH } PfUnits;

/* An international inch: exactly 25.4 mm (international yard and pound agreement, 1959). */
#define PF_MM_PER_INCH 25.4
/* 36 inches. */
#define PF_MM_PER_YARD (36 * PF_MM_PER_INCH)

/* The length with its unit, as "12.5 mm" (at most 2 decimals) or "0.492 in" (at most 3), with the
 * decimal mark of the locale. Free with g_free(). */
char *pf_format_length (double mm, PfUnits units);

/* With exactly so many decimals in mm, and one more in inches, so that it compares well with
 * others; and two coordinates with one unit. Free with g_free(). */
char *pf_format_fixed_length (double mm, int decimals, PfUnits units);
char *pf_format_place (double x, double y, int decimals, PfUnits units);

/* "1.00 mm²", "0.0016 sq in"; "2.50 m", "2.73 yd". Free with g_free(). */
char *pf_format_area (double mm2, PfUnits units);
char *pf_format_thread (double mm, int decimals, PfUnits units);

/* Reads a length: a number (decimal point or comma), a fraction (3/4) or both (1 1/2), then a unit:
 * mm, cm, m, in, inch, inches, ″ or ", or as it is shown in the maker's language; without one it is
 * of `units`. False, and `*mm` is unchanged, for anything else. */
bool pf_parse_length (const char *text, PfUnits units, double *mm);
/* Reads an area likewise: mm², cm², sq in, in² (also with a plain 2). */
bool pf_parse_area (const char *text, PfUnits units, double *mm2);

G_END_DECLS
