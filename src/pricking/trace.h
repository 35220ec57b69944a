/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Scans: a picture straightened and scaled by known distances, and traced to outlines.
 *
 * A picture is n rows of grey, 0 black to 255 white; a pixel's top left corner has its numbers as
 * coordinates.
 */
#pragma once

#include <curve.h>

G_BEGIN_DECLS

typedef struct {
  const guint8 *grey;
  int width, height;
  int stride; /* bytes from row to row */
} PfScan;

/* At most this many pixels. */
#define PF_SCAN_MAX_PIXELS 200000000

/* Two points marked in the picture, known to be so far apart on paper. */
typedef struct {
  PfPoint a, b; /* pixels */
  double mm;
} PfKnownDistance;

/* The map from pixels to mm that turns the line from `across`.a to `across`.b level, and makes both
 * distances true: `across` runs from left to right, `down` (may be NULL: the same scale down as
 * across) from top to bottom; copiers and scanners stretch one more than the other. The two needn't
 * be at right angles in the picture; they are on the sheet if `down` is given: it becomes upright.
 * across.a comes to lie at `at`. PF_ERROR_SETTING if points fall together, lie on one line, or a
 * distance isn't 0.1 to 10000 mm. Which of down's points comes first doesn't matter: the picture is
 * never mirrored. */
bool pf_scan_straighten (const PfKnownDistance *across, const PfKnownDistance *down, PfPoint at,
                         PfAffine *map, GError **error);

typedef struct {
  int threshold;    /* darker than this is ink: 1 to 255; 0: find it (Otsu's method) */
  bool light;       /* the shape is light on dark */
  double speckle;   /* spots of a smaller area are left out, mm² */
  double roundness; /* 0 every corner kept, 1 usual, 1.34 no corners: potrace's alphamax */
  double tolerance; /* how far a joined curve may be off, in pixels: potrace's opttolerance */
} PfTraceSettings;

PfTraceSettings pf_trace_settings_default (void);

/* The level between ink and paper, from 1 to 255: N. Otsu, "A threshold selection method from
 * gray-level histograms", IEEE Transactions on Systems, Man, and Cybernetics 9 (1979). */
int pf_scan_threshold (const PfScan *scan);

/* The outlines of the ink, by potrace, mapped to the sheet; outer ones and holes, each outer one
 * followed by its holes. `*outer` (free with g_free(); may be NULL) gets a flag for each. Free with
 * g_ptr_array_unref(); an empty picture gives none. PF_ERROR_SETTING, PF_ERROR_TOO_BIG. */
GPtrArray *pf_scan_trace (const PfScan *scan, const PfTraceSettings *settings, PfAffine map,
                          bool **outer, GError **error);

G_END_DECLS
