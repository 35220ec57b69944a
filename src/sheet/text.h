/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How much room text takes, and how it is fitted into less. Measured with a table of DejaVu Sans,
 * so that a page comes out the same on every machine.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Above and below the baseline, as parts of the font's size: digits and capitals reach this high,
 * ... */
#define PF_TEXT_CAP 0.73
/* ... and letters such as g this low. */
#define PF_TEXT_DESCENT 0.24

/* The width of one line of `text` in a font of `size` (both in mm); never less than it is drawn. */
double pf_text_width (const char *text, double size);

/* `text` in lines at most `width` wide, at most max_lines of them, broken at spaces where there are
 * some; what doesn't fit is left off and marked with an ellipsis. NULL-terminated; g_strfreev(). */
char **pf_text_wrap (const char *text, double size, double width, int max_lines);

/* A length in mm or another small number, with up to two decimals. Free with g_free(). */
char *pf_text_number (double value);

G_END_DECLS
