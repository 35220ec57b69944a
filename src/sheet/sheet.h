/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sheets: what is printed. One description of the drawing, an SVG page, is what is shown, printed
 * and saved; PDF and PNG are that same page painted by librsvg.
 */
#pragma once

#include <cairo.h>
#include <document.h>
#include <pricking.h>

G_BEGIN_DECLS

/* What the two check rules measured on the maker's own printer, mm: PF_RULE_LENGTH if it prints
 * true. */
typedef struct {
  double short_side, long_side; /* the rule along the shorter side of the paper, along the longer */
} PfPrinterRules;

#define PF_RULE_LENGTH 50.0 /* of the check rules, on paper */
#define PF_RULE_LEAST 45.0  /* what they may have measured */
#define PF_RULE_MOST 55.0

static inline PfPrinterRules
pf_printer_true (void)
{
  return (PfPrinterRules){ PF_RULE_LENGTH, PF_RULE_LENGTH };
}

static inline bool
pf_printer_is_true (const PfPrinterRules *rules)
{
  const bool set = rules->short_side != 0 || rules->long_side != 0;
  return !set || (rules->short_side == PF_RULE_LENGTH && rules->long_side == PF_RULE_LENGTH);
}

typedef struct {
  const PfPaper *paper;
  double enlarge;         /* 1 for true size */
  bool pins_only;         /* the plain pricking, for the pillow */
  bool mirror;            /* seen from the other side; the text still reads */
  bool background;        /* the drawing's other lines, faintly */
  bool edge_strip;        /* every edge unrolled, on pages after the others */
  const char *date;       /* as printed, or NULL for none */
  gint64 created;         /* seconds since 1970, for the PDF's own date */
  PfPrinterRules printer; /* the pages are corrected by these; 0 and 0 as if true */
  size_t of_pages; /* the sheet's pages are the first of so many, and say so; 0: they don't */
} PfSheetSettings;

/* The settings of a document's page, without a date. */
PfSheetSettings pf_sheet_settings_of (const PfDocument *document);

/* Checks that the rules are both 0, or what a printer can have made of them (PF_ERROR_SETTING). */
bool pf_printer_check (const PfPrinterRules *rules, GError **error);

#define PF_ENLARGE_MIN 0.1
#define PF_ENLARGE_MAX 20.0

typedef struct PfSheet PfSheet;

/* Lays the filled pricking out on pages. PF_ERROR_SETTING, PF_ERROR_TOO_BIG (more than 400 pages).
 */
PfSheet *pf_sheet_new (const PfPricking *pricking, const PfSheetSettings *settings, GError **error);
void pf_sheet_free (PfSheet *sheet);

size_t pf_sheet_n_pages (const PfSheet *sheet);
/* Page `n` as an SVG document, in mm. */
const char *pf_sheet_page_svg (const PfSheet *sheet, size_t n);
/* Its size in mm. */
void pf_sheet_page_size (const PfSheet *sheet, double *width, double *height);

/* Draws page `n` with one user unit to the mm, from the page's top left corner on. */
bool pf_sheet_draw_page (const PfSheet *sheet, size_t n, cairo_t *cr, GError **error);

/* Saves all pages, in the format that the name ends in: .pdf; .svg and .png, with pages after the
 * first in NAME-2.svg and so on. A file is written whole or not at all. `*files` (may be NULL) gets
 * the names of the files, NULL-terminated. */
bool pf_sheet_save (const PfSheet *sheet, const char *filename, char ***files, GError **error);

/* One ground by itself, as an SVG document: a patch of repeats with pins, pair lines and names. */
char *pf_ground_drawing_svg (const PfGround *ground);
/* A square patch of it alone, with the names of the stitches; and one to be shown small. Free with
 * g_free(). */
char *pf_ground_patch_svg (const PfGround *ground);
char *pf_ground_tile_svg (const PfGround *ground);
/* The same as the drawing, saved as .svg, .pdf or .png. */
bool pf_ground_drawing_save (const PfGround *ground, const char *filename, GError **error);

/* The threads of a square patch of it, over and under each other, as an SVG document; a tile is to
 * be shown small. Free with g_free(). */
char *pf_ground_close_up_svg (const PfGround *ground, bool tile, GError **error);
/* The same, saved as .svg, .pdf or .png. */
bool pf_ground_close_up_save (const PfGround *ground, const char *filename, GError **error);

/* --- The screen ---------------------------------------------------------------------------------
 */

/* What can be shown or hidden, from the lowest to the uppermost. */
typedef enum {
  PF_LAYER_BACKGROUND = 1 << 0, /* the drawing's other lines */
  PF_LAYER_REPEATS = 1 << 1,    /* kept, plain and left out repeats */
  PF_LAYER_MISSING = 1 << 2,    /* missing pins */
  PF_LAYER_PAIR_LINES = 1 << 3, /* between stitches that are worked */
  PF_LAYER_OUTLINE = 1 << 4,
  PF_LAYER_PINHOLES = 1 << 5,
  PF_LAYER_PREDICTED = 1 << 6, /* the lines of pairs at the edge, by their kind */
  PF_LAYER_SEWINGS = 1 << 7,   /* and off-line marks */
  PF_LAYER_PINS = 1 << 8,
  PF_LAYER_BEADS = 1 << 9,
  PF_LAYER_NUMBERS = 1 << 10, /* of pairs, pinholes and motifs */
  PF_LAYER_ALL = (1 << 11) - 1,
  /* Not one of those: the threads as they lie, in place of pair lines and pins. Where they would be
   * thinner than PF_THREAD_LEAST pixels, these are shown all the same. */
  PF_LAYER_THREADS = 1 << 11,
} PfLayers;

#define PF_THREAD_LEAST 1.5

/* How lines of pairs look on a screen; on paper they are always as printed. */
#define PF_N_PAIR_KINDS (PF_PAIR_FINISHED + 1)
typedef struct {
  char colours[PF_N_PAIR_KINDS][8]; /* "#rrggbb" */
  double line_width;                /* 1: that on paper; dashes and arrows grow with it */
} PfLook;

PfLook pf_look_printed (void);
bool pf_look_equal (const PfLook *a, const PfLook *b);

/* Are the threads of a filled motif thick enough to be shown, with `pixel` mm to a pixel? */
bool pf_threads_show (const PfMotif *motif, double pixel);

/* Saves the threads of a filled pricking as they lie, with outlines, pinholes and beads, at true
 * size: all of the drawing, or the part of it in `part` (may be NULL), mm from the drawing's top
 * left. As .svg, .pdf or .png, which has 200 dots to the cm. PF_ERROR_SETTING, PF_ERROR_TOO_BIG. */
bool pf_close_up_save (const PfPricking *pricking, const PfBox *part, gint64 created,
                       const char *filename, GError **error);

/* A pricking ready to be drawn on the screen. It holds references to its motifs; use it in one
 * thread at a time. The same layers are drawn as on the sheet, in the drawing's own mm. */
typedef struct PfScene PfScene;

/* With `numbers`, room for them is found (slow for many); else PF_LAYER_NUMBERS shows none. A motif
 * without a filling shows its outline and pinholes. */
PfScene *pf_scene_new (const PfPricking *pricking, bool numbers);
void pf_scene_free (PfScene *scene);
/* As printed at first. */
void pf_scene_set_look (PfScene *scene, const PfLook *look);

/* The numbers of a scene, each in a box of the drawing. */
typedef enum { PF_NUMBER_OF_MOTIF, PF_NUMBER_OF_SEWING, PF_NUMBER_OF_PINHOLE } PfNumberOf;

typedef struct {
  PfBox box;
  PfNumberOf of;
  guint motif;
  size_t loop;   /* of a pinhole */
  guint32 index; /* of the pinhole on its loop, or of the sewing */
} PfNumber;

/* How far numbers reach out from the outline, as a rule, mm. */
double pf_number_room (double gap);
/* An array of PfNumber. Free with g_array_unref(). */
GArray *pf_scene_numbers (const PfScene *scene);
/* Of a scene with numbers: from now on pinholes that have none are numbered too, `size` mm high,
 * where there is room; on a screen that is so from near. */
void pf_scene_number_pinholes (PfScene *scene, double size);

/* `window` of the drawing as an SVG document: its viewBox is the window, in mm. On a screen with
 * `pixel` mm to a pixel no line is thinner than that. Free with g_free(). */
char *pf_scene_svg (const PfScene *scene, PfLayers layers, PfBox window, double pixel);
/* The same drawn at once, with one user unit to the mm. */
void pf_scene_draw (const PfScene *scene, PfLayers layers, PfBox window, double pixel, cairo_t *cr);

/* The edge of one loop, unrolled into a straight ruler: pinholes, bars, targets, places, pair
 * numbers; what is off its line, and where sewings crowd. From the loop's first point at x = 0 to
 * its length, in mm; `across` mm stand for one mm along (1 for true size). */
typedef struct {
  const PfMotif *motif;
  size_t loop;
  double from, to; /* mm along the loop: what is shown */
  double across;
  double height;      /* of the strip, mm */
  const PfLook *look; /* NULL: as printed */
  bool inches;        /* the ruler's figures, else mm */
} PfEdgeStrip;

#define PF_EDGE_STRIP_HEIGHT 24.0

/* With one user unit to the mm, from the strip's top left corner on. */
void pf_edge_strip_draw (const PfEdgeStrip *strip, double pixel, cairo_t *cr);
/* Where things stand in the strip, and what stands at a point: PF_NONE for nothing. */
PfPoint pf_edge_strip_sewing (const PfEdgeStrip *strip, guint32 sewing);
PfPoint pf_edge_strip_pinhole (const PfEdgeStrip *strip, size_t pinhole);
double pf_edge_strip_along (const PfEdgeStrip *strip, double x);
guint32 pf_edge_strip_find_sewing (const PfEdgeStrip *strip, PfPoint at, double reach);
guint32 pf_edge_strip_find_pinhole (const PfEdgeStrip *strip, PfPoint at, double reach);

/* --- Books --------------------------------------------------------------------------------------
 */

typedef enum { PF_TEACHING_NOTES, PF_TEACHING_WORKSHEET, PF_TEACHING_ANSWERS } PfTeaching;

/* Several parts as one: pages with numbers, bookmarks, and a line of care at each foot. */
typedef struct PfBook PfBook;

/* The parts of a filled pricking, on the paper of `sheet`, which the pricking's own pages follow in
 * all. With `pair_colours` the pairs in drawings of repeats have colours. A pricking alone is the
 * sheet itself, without page numbers. PF_ERROR_SETTING (no part among them), PF_ERROR_TOO_BIG (with
 * other parts than the pricking more than PF_BOOK_MAX_PAGES). */
#define PF_BOOK_MAX_PAGES 400
PfBook *pf_book_new (const PfPricking *pricking, PfBookParts parts, const PfSheetSettings *sheet,
                     bool pair_colours, GError **error);
void pf_book_free (PfBook *book);

size_t pf_book_n_pages (const PfBook *book);
/* Page `n` as an SVG document, and its size in mm. */
const char *pf_book_page (const PfBook *book, size_t n, double *width, double *height);
/* Draws page `n` with one user unit to the mm, from its top left corner on. */
bool pf_book_draw_page (const PfBook *book, size_t n, cairo_t *cr, GError **error);
/* Saves it as one PDF, with bookmarks. Whole or not at all. */
bool pf_book_save (const PfBook *book, const char *filename, GError **error);

/* Every working step of every motif in words, in their order, as plain text. Free with g_free(). */
char *pf_steps_text (const PfPricking *pricking);
/* The same, saved. */
bool pf_steps_save (const PfPricking *pricking, const char *filename, GError **error);

/* --- Reports ------------------------------------------------------------------------------------
 */

/* The pair-count report: for people, as text and as one HTML file that needs no other; as JSON; the
 * sewings as CSV, and the winding list as CSV. Free with g_free(). */
char *pf_report_text (const PfPricking *pricking);
char *pf_report_html (const PfPricking *pricking);
char *pf_report_json (const PfPricking *pricking);
char *pf_report_csv (const PfPricking *pricking);
char *pf_report_winding_csv (const PfPricking *pricking);

/* Saves the report that the name ends in: .pdf, .html, .ods (a spreadsheet), .txt, .json, .csv for
 * the sewings, -winding.csv for the winding list. Whole or not at all. A PDF is on `paper`, and
 * like a spreadsheet says that it was made at `created` (seconds since 1970). */
bool pf_report_save_on (const PfPricking *pricking, const PfPaper *paper, gint64 created,
                        const char *filename, GError **error);
/* The same, on A4 and now. */
bool pf_report_save (const PfPricking *pricking, const char *filename, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfSheet, pf_sheet_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfScene, pf_scene_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfBook, pf_book_free)

G_END_DECLS
