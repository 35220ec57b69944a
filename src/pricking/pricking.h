/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Prickings: the motifs of a piece, what fills each, and the files they are read from.
 */
#pragma once

#include <close-up.h>
#include <curve.h>
#include <filling.h>
#include <working-steps.h>

#include "thread.h"

G_BEGIN_DECLS

/* --- Grounds ------------------------------------------------------------------------------------
 */

/* Reads one ground from JSON text (`n` bytes; the format is described in DEVELOPERS.md) and
 * completes it. `name` names the text in errors: PF_ERROR_FILE, PF_ERROR_GROUND. */
PfGround *pf_ground_parse (const char *json, gsize n, const char *name, GError **error);

/* The ground of that name among those that come with the program; or, if `name` ends in .json, the
 * one in that file. One that comes with the program is the same each time, so that grounds can be
 * compared by address. An unknown name is an error that suggests the nearest one. */
PfGround *pf_ground_load (const char *name, GError **error);

/* The names of the grounds that come with the program, sorted; NULL-terminated. Free with
 * g_strfreev(). */
char **pf_ground_names (void);

/* --- Outlines -----------------------------------------------------------------------------------
 */

/* What an imported drawing holds. Lengths in mm from the drawing's top left. */
typedef struct {
  double width, height;  /* of the drawing */
  GPtrArray *outlines;   /* of PfOutline, in drawing order */
  GPtrArray *background; /* of PfPolyline: open lines and other shapes, kept faintly */
  GPtrArray *remarks;    /* of char *: what couldn't be used, by element and line */
} PfDrawing;

/* One region of a drawing. */
typedef struct {
  char *name; /* the id of the element its outer loop comes from, or "motif N" */
  PfRegion *region;
  PfCurve **curves;  /* for each loop, then NULL: the nodes it was flattened from, from the same
                        first point on and in the same direction */
  GArray **pinholes; /* for each loop, then NULL: distances along it (double, rising) of the
                        drawing's own pinholes; empty if it has none */
} PfOutline;

typedef struct {
  PfPoint *points;
  size_t n_points;
  bool closed;
} PfPolyline;

/* A drawing has at most this many elements, each nested at most this deep, `use` included. */
#define PF_SVG_MAX_ELEMENTS 200000
#define PF_SVG_MAX_DEPTH 64
#define PF_SVG_MAX_BYTES (64 * 1024 * 1024)

/* Reads the outlines of an SVG drawing: all closed shapes, or only the elements whose ids are in
 * `elements` (NULL-terminated; NULL for all), the rest as background. Circles up to 1 mm across
 * near an outline, and all on a layer or group called `pinholes`, become pinholes. PF_ERROR_FILE,
 * PF_ERROR_TOO_BIG, PF_ERROR_OUTLINE. */
PfDrawing *pf_drawing_parse (const char *svg, gsize n, const char *name,
                             const char *const *elements, GError **error);
PfDrawing *pf_drawing_load (const char *filename, const char *const *elements, GError **error);
void pf_drawing_free (PfDrawing *drawing);

/* --- Motifs -------------------------------------------------------------------------------------
 */

/* A shape with a worked edge, and what fills it. Shared by counting references; it never changes
 * once it is filled. */
typedef struct {
  int refs; /* private */
  char *name;
  PfRegion *region;
  PfEdge *edges;    /* one for each loop of the region */
  PfGround *ground; /* NULL: not filled */
  PfFillingSettings settings;
  PfFilling *filling; /* NULL until it is filled */
  PfThreadUse thread;
  PfLaid *laid;          /* private: pf_motif_laid() */
  PfWorkingSteps *steps; /* private: pf_motif_steps() */
} PfMotif;

PfMotif *pf_motif_ref (PfMotif *motif);
void pf_motif_unref (PfMotif *motif);

/* The threads of a motif that is filled, as they lie: as thick as its own thread, as far as there
 * is room, or if none is chosen as thick as there is room for. Followed when first asked for, by
 * whatever thread of the program, and kept; borrowed. */
const PfLaid *pf_motif_laid (const PfMotif *motif);
/* Its working steps, likewise listed when first asked for, and kept; borrowed. */
const PfWorkingSteps *pf_motif_steps (const PfMotif *motif);

/* Paper, upright. */
typedef struct {
  const char *name;     /* "A4", "A3", "Letter" */
  double width, height; /* mm */
} PfPaper;

/* The paper of that name, in any case; NULL and PF_ERROR_SETTING if there is none. */
const PfPaper *pf_paper_find (const char *name, GError **error);
/* All of them, n papers. */
const PfPaper *pf_papers (size_t *n);

/* A piece: its motifs, each filled with its ground, and the drawing they come from. */
typedef struct {
  char *title;
  char *notes;           /* of the whole piece; may be NULL */
  double width, height;  /* of the drawing, mm */
  GPtrArray *motifs;     /* of PfMotif */
  GPtrArray *background; /* of PfPolyline */
} PfPricking;

/* A pricking of all outlines in `drawing`, which it takes over. Each motif has edges of `kind`, its
 * own pinholes where the drawing has some, and `settings`; unless `origin_given`, the ground's
 * origin lies in the middle of each region's box. PF_ERROR_SETTING. Takes over `ground` too, which
 * fills every motif. */
PfPricking *pf_pricking_new (const char *title, PfDrawing *drawing, PfGround *ground,
                             PfEdgeKind kind, double edge_gap, const PfFillingSettings *settings,
                             bool origin_given, GError **error);
void pf_pricking_free (PfPricking *pricking);

/* Fills every motif that isn't filled yet. The error names the motif. */
bool pf_pricking_fill (PfPricking *pricking, GError **error);

/* Says of every motif that it is worked in this thread (copied). Not while others use them. */
void pf_pricking_set_thread (PfPricking *pricking, const PfThreadUse *thread);

/* The ground of all motifs, or NULL if they have several. */
const PfGround *pf_pricking_ground (const PfPricking *pricking);
/* Has a ground of any motif a core? */
bool pf_pricking_has_core (const PfPricking *pricking);

/* All motifs' counts added up. */
PfCounts pf_pricking_counts (const PfPricking *pricking);

/* --- Files --------------------------------------------------------------------------------------
 */

/* Does a file's name end in `ending` (".pdf"), in capitals or not, with something before it? */
bool pf_file_ends_in (const char *filename, const char *ending);

/* Writes n bytes to a file, whole or not at all, with an error that names it. A link stays one, and
 * who may read or write the file stays as it is. */
bool pf_file_save (const char *filename, const char *bytes, gsize n, GError **error);
/* The same, and what was in the file before is in FILE~ after. */
bool pf_file_save_keeping_last (const char *filename, const char *bytes, gsize n, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfGround, pf_ground_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfDrawing, pf_drawing_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfMotif, pf_motif_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfPricking, pf_pricking_free)

G_END_DECLS
