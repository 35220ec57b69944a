/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The steps of reading an SVG drawing: text to tree, tree to shapes, shapes to outlines.
 *
 * Text inside attributes is never trusted: every scanner stops at the first character that doesn't
 * fit and says so. Lengths are in user units (px of 1/96 inch) until a shape's points are mapped to
 * mm.
 */
#pragma once

#include <libxml/tree.h>

#include "pricking.h"

G_BEGIN_DECLS

/* px of 1/96 inch in one mm: CSS Values and Units 3, section 6.2. */
#define PF_SVG_PX_PER_MM (96.0 / 25.4)
/* All curves of a drawing together become at most this many points. */
#define PF_SVG_MAX_POINTS 2000000
/* All path data read, repeats by `use` included. */
#define PF_SVG_MAX_PATH_TEXT (4 * (gsize) PF_SVG_MAX_BYTES)
/* A path whose ends are this near is closed: they are one point to a needle. */
#define PF_SVG_CLOSE 0.01

/* --- Numbers and lengths (svg-length.c) ---------------------------------------------------------
 */

void pf_svg_skip_space (const char **at);
/* White space, at most one comma, white space. */
void pf_svg_skip_comma (const char **at);
/* One finite number of the SVG grammar at `*at`, which moves behind it; false leaves `*at`. */
bool pf_svg_scan_number (const char **at, double *value);
/* Exactly `n` numbers in `text` and nothing else. */
bool pf_svg_numbers (const char *text, double *values, size_t n);
/* A length in px; 100 % is `whole`. */
bool pf_svg_length (const char *text, double whole, double *px);

/* --- Transforms and viewports (svg-transform.c, svg-viewport.c) ----------------------------------
 */

/* The value of a `transform` attribute: the last of the list is done first. */
bool pf_svg_transform (const char *text, PfAffine *transform);

typedef struct {
  double x, y, width, height;
} PfSvgBox;

/* False if it isn't four numbers with width and height 0 or more. */
bool pf_svg_view_box (const char *text, PfSvgBox *box);
/* Maps `view_box` into `viewport` as preserveAspectRatio `text` (may be NULL) says: SVG 2,
 * section 8.2. */
PfAffine pf_svg_fit (PfSvgBox view_box, const char *text, PfSvgBox viewport);

/* --- Paths (svg-path-data.c) --------------------------------------------------------------------
 */

/* A path being drawn, and how many points it may still get. */
typedef struct {
  PfPath *path;
  size_t limit;  /* of its points */
  size_t credit; /* points that can be added before they must be counted again */
  bool full;     /* stopped at the limit */
} PfSvgPen;

/* Draws path data; false at its first error, `*bad` bytes into `d`: what comes before is drawn. */
bool pf_svg_path_data (const char *d, PfSvgPen *pen, size_t *bad);
/* Draws the points of a polyline or polygon in the same way. */
bool pf_svg_points (const char *points, bool closed, PfSvgPen *pen, size_t *bad);

/* --- Style (svg-css.c, svg-style.c) -------------------------------------------------------------
 */

/* The properties that decide what is an outline, each told by its value that isn't the initial one.
 */
typedef enum {
  PF_SVG_DISPLAY,    /* none */
  PF_SVG_VISIBILITY, /* hidden, collapse */
  PF_SVG_FILL_RULE,  /* evenodd */
  PF_SVG_N_PROPERTIES,
} PfSvgProperty;

typedef enum { PF_SVG_UNSET, PF_SVG_INITIAL, PF_SVG_OTHER, PF_SVG_INHERIT } PfSvgValue;

typedef struct {
  PfSvgValue value;
  bool important;
} PfSvgDeclared;

/* The text between braces, or of a style attribute: `declared` has PF_SVG_N_PROPERTIES elements. */
void pf_svg_declarations (const char *text, PfSvgDeclared *declared);
PfSvgValue pf_svg_property_value (PfSvgProperty property, const char *text);
/* The properties' names, in the order of PfSvgProperty. */
extern const char *const pf_svg_property_names[PF_SVG_N_PROPERTIES];

/* A rule with one simple selector: type, id and classes that must all fit (NULL: any). */
typedef struct {
  char *type, *id;
  char **classes;
  int specificity;
  PfSvgDeclared declared[PF_SVG_N_PROPERTIES];
} PfSvgRule;

/* Rules beyond this many aren't used. */
#define PF_SVG_MAX_RULES 1000

/* Appends the rules of a style sheet to `rules`. Returns the first selector or at-rule that
 * couldn't be used though it holds one of our properties (free with g_free()), NULL if all could.
 */
char *pf_svg_sheet_read (const char *text, GArray *rules);
GArray *pf_svg_sheet_new (void);

/* What an element hands on to its children. */
typedef struct {
  bool hidden, even_odd;
} PfSvgStyle;

/* Applies the element's own style to `style`, which it inherits; false if it isn't displayed. */
bool pf_svg_style_apply (const GArray *rules, const xmlNode *node, PfSvgStyle *style);

/* --- The tree (svg-xml.c) -----------------------------------------------------------------------
 */

/* The tree of an XML text, without comments, external parts or nested entities. Free with
 * xmlFreeDoc(). */
xmlDoc *pf_svg_xml_parse (const char *svg, gsize n, const char *name, GError **error);
bool pf_svg_is_element (const xmlNode *node);
bool pf_svg_is_named (const xmlNode *node, const char *name);
/* An attribute without namespace; NULL if there is none. It belongs to the tree. */
const char *pf_svg_attribute (const xmlNode *node, const char *name);
/* The id that a `use` refers to, NULL if none is given or it lies in another file. */
const char *pf_svg_reference (const xmlNode *node);
/* Whether the element is the layer or group of the edge's pinholes. */
bool pf_svg_is_pinhole_layer (const xmlNode *node);
/* A message in valid UTF-8, though "%.40s" may cut a character. Free with g_free(). */
char *pf_svg_message (const char *format, va_list arguments) G_GNUC_PRINTF (1, 0);
/* `<path id="leaf">`, for messages. Free with g_free(). */
char *pf_svg_element_text (const xmlNode *node);

/* --- Remarks (svg-remarks.c) --------------------------------------------------------------------
 */

typedef struct PfSvgRemarks PfSvgRemarks;

PfSvgRemarks *pf_svg_remarks_new (void);
void pf_svg_remarks_free (PfSvgRemarks *remarks);
/* Notes that something about `node` couldn't be used. Remarks that repeat are counted. */
void pf_svg_remark (PfSvgRemarks *remarks, const xmlNode *node, const char *format, ...)
    G_GNUC_PRINTF (3, 4);
/* All remarks, in order; of those that repeat only the first ones and how many there are more. */
GPtrArray *pf_svg_remarks_steal (PfSvgRemarks *remarks);

/* --- Shapes (svg-shapes.c, svg-reader.c) --------------------------------------------------------
 */

/* Where the reader is in the tree, on the way from the root through every `use`. */
typedef struct PfSvgFrame {
  const struct PfSvgFrame *parent; /* NULL for the root's */
  const xmlNode *node;
  PfAffine to_sheet;    /* user units to mm */
  double width, height; /* of the nearest viewport, in user units */
  PfSvgStyle style;
  int depth;
  bool pinholes; /* within a pinhole layer */
} PfSvgFrame;

/* A drawn element, its points in mm. */
typedef struct {
  const xmlNode *node;
  const xmlNode *use; /* the nearest `use` that repeats it, or NULL */
  PfChain *chains;
  PfCurve **curves; /* what each chain is flattened from */
  size_t n_chains;
  bool even_odd;
  bool picked;
  bool pinhole_layer;
  bool round; /* a circle or ellipse: */
  PfPoint centre;
  double across; /* its largest diameter */
} PfSvgShape;

/* An element asked for by its id. */
typedef struct {
  const char *id;
  int active; /* how often the reader is within it */
  bool drawn;
  size_t n_closed;
  const xmlNode *open; /* a shape of it that isn't closed, and how far its ends are apart */
  double open_gap;
} PfSvgWanted;

typedef struct {
  const char *name; /* of the file, for errors */
  xmlDoc *doc;
  GHashTable *ids;     /* id to node, the first of each */
  GPtrArray *in_order; /* the nodes with an id, in document order */
  GArray *rules;
  PfSvgRemarks *remarks;
  GArray *shapes; /* of PfSvgShape, in drawing order */
  PfSvgWanted *wanted;
  size_t n_wanted;
  size_t n_elements, n_points, n_path_text;
  double width, height; /* mm */
  GError *error;        /* what stopped the reading */
} PfSvgReader;

typedef enum { PF_SVG_NO_SHAPE, PF_SVG_SKIPPED, PF_SVG_DRAWN } PfSvgDrawn;

/* Draws the element's shape; for a circle or ellipse also sets round, centre and across of `shape`.
 * PF_SVG_NO_SHAPE if it is another element. What is wrong with it becomes a remark. */
PfSvgDrawn pf_svg_shape_draw (PfSvgReader *reader, const PfSvgFrame *frame, PfSvgPen *pen,
                              PfSvgShape *shape);
/* A length attribute; false (and a remark) if it can't be read; unchanged if it is missing or
 * `auto`. */
bool pf_svg_frame_length (PfSvgReader *reader, const PfSvgFrame *frame, const char *name, char axis,
                          double *px);

/* Reads all shapes of a drawing. */
bool pf_svg_reader_init (PfSvgReader *reader, const char *svg, gsize n, const char *name,
                         const char *const *elements, GError **error);
void pf_svg_reader_clear (PfSvgReader *reader);
bool pf_svg_reader_run (PfSvgReader *reader, GError **error);
/* Sets an error that names file, line and element. */
void pf_svg_set_error (const PfSvgReader *reader, const xmlNode *node, GError **error, PfError code,
                       const char *format, ...) G_GNUC_PRINTF (5, 6);

/* --- Elements asked for (svg-picking.c)
 * ----------------------------------------------------------- */

/* Counts the shape for the elements that the reader is within. */
void pf_svg_note_wanted (PfSvgReader *reader, const PfSvgShape *shape);
/* Whether each element asked for exists, is drawn, and holds a closed outline. */
bool pf_svg_check_wanted (const PfSvgReader *reader, GError **error);

/* --- Outlines (svg-winding.c, svg-loops.c, svg-outlines.c, svg-pinholes.c)
 * ------------------------- */

/* At most this many closed chains are taken: each is compared with every other. */
#define PF_SVG_MAX_LOOPS 5000

/* A closed chain that bounds an element's interior. */
typedef struct {
  const PfChain *chain;
  PfCurve *curve; /* borrowed, like the chain */
  const PfSvgShape *shape;
} PfSvgLoop;

/* Which of one element's closed chains bound its interior under the nonzero rule. */
void pf_svg_find_bounding (const PfChain *chains, size_t n, bool *bounding);
/* Whether a closed chain is more than a line there and back. */
bool pf_svg_chain_has_area (const PfChain *chain);
/* The loops taken (of PfSvgLoop), each once and in drawing order; all other chains but those of
 * pinholes become the drawing's background. */
GArray *pf_svg_loops (PfSvgReader *reader, PfDrawing *drawing);

/* Whether the shape can be a pinhole and is no outline. */
bool pf_svg_is_pinhole (const PfSvgShape *shape);
/* Gives the drawing's outlines the pinholes among the reader's shapes. */
void pf_svg_add_pinholes (PfSvgReader *reader, PfDrawing *drawing);

/* Keeps a chain as background. */
void pf_svg_add_background (PfDrawing *drawing, const PfChain *chain);
/* The drawing that the reader's shapes make. */
PfDrawing *pf_svg_outlines (PfSvgReader *reader, GError **error);

G_END_DECLS
