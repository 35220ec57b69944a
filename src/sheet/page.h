/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A page, drawn shape by shape: written as SVG, or drawn at once with cairo. Coordinates are mm on
 * the page, x right and y down; in SVG they come out with at most three decimals, whatever the
 * language of the machine.
 */
#pragma once

#include <cairo.h>
#include <shape.h>

G_BEGIN_DECLS

typedef struct PfPage PfPage;

/* How lines and areas are drawn. Lengths in mm. */
typedef struct {
  const char *fill;   /* a colour, or NULL for none */
  const char *stroke; /* a colour, or NULL for none */
  double width;       /* of the stroke */
  double dash[4];     /* drawn, not drawn, ... */
  int n_dash;         /* 0 for a whole line */
  bool round;         /* round ends: a dash of length 0 is a dot */
} PfInk;

typedef enum { PF_TEXT_START, PF_TEXT_MIDDLE, PF_TEXT_END } PfTextAnchor;

/* An empty sheet of white paper of that size, as SVG; `title` is plain text. */
PfPage *pf_page_new (double width, double height, const char *title);
/* The same, drawn larger on the paper than it is, so many times across and down: for a printer that
 * prints it as much smaller. 1 and 1: as it is. */
PfPage *pf_page_new_stretched (double width, double height, PfPoint stretch, const char *title);
/* A page without paper that shows `window`, as SVG. No line on it is thinner than `pixel` mm, and
 * dashes that couldn't be told apart at that size are drawn as whole lines. */
PfPage *pf_page_new_window (PfBox window, double pixel);
/* The same, drawn on `cr` (borrowed) at once, with one user unit to the mm. Shapes of one group may
 * be drawn together: one that fills and strokes covers those before it; else they must be opaque.
 */
PfPage *pf_page_new_cairo (cairo_t *cr, double pixel);
/* Ends the page and gives its text, NULL if it was drawn at once. Free with g_free(). */
char *pf_page_finish (PfPage *page);

/* Opens a group whose elements are drawn in `ink`; `name` becomes its class. */
void pf_page_group (PfPage *page, const char *name, PfInk ink);
/* Opens a group of text in one colour; `halo` (may be NULL) is a colour that clears the space round
 * the letters. */
void pf_page_text_group (PfPage *page, const char *name, const char *colour, const char *halo);
/* Opens a group that shows nothing outside `box`. Not within another one. */
void pf_page_clip_group (PfPage *page, const char *name, PfBox box);
void pf_page_group_end (PfPage *page);

void pf_page_line (PfPage *page, PfPoint a, PfPoint b);
void pf_page_polyline (PfPage *page, const PfPoint *points, size_t n);
void pf_page_polygon (PfPage *page, const PfPoint *points, size_t n);
/* `n_curves` cubic curves, each from where the one before ends: 1 + 3 · n_curves points. They are
 * for strokes: those of one group may come out as one shape. */
void pf_page_curves (PfPage *page, const PfPoint *points, size_t n_curves);
void pf_page_circle (PfPage *page, PfPoint centre, double radius);
void pf_page_box (PfPage *page, PfBox box);
/* Text with its baseline at `at`; `size` is the font's. `turn` is in degrees clockwise. */
void pf_page_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, const char *text);
void pf_page_turned_text (PfPage *page, PfPoint at, PfTextAnchor anchor, double size, double turn,
                          const char *text);

/* Appends `value` with at most three decimals. */
void pf_page_append_number (GString *out, double value);
/* Appends `text` so that it can stand in an element or an attribute: markup is escaped; what
 * XML 1.0 can't hold becomes U+FFFD. */
void pf_page_append_text (GString *out, const char *text);

G_END_DECLS
