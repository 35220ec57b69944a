/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Tracing by potrace. Its scanlines are counted upwards, ours downwards: it is given the picture
 * upside down, and its coordinates are the picture's own again.
 */
#include "trace.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <potracelib.h>

#define ROUNDNESS_MAX 1.34
#define TOLERANCE_MAX 100.0

PfTraceSettings
pf_trace_settings_default (void)
{
  return (PfTraceSettings){ .speckle = 0.5, .roundness = 1, .tolerance = 0.2 };
}

/* --- What is refused ----------------------------------------------------------------------------
 */

static bool
check_settings (const PfTraceSettings *settings, double pixel, GError **error)
{
  if (settings->threshold < 0 || settings->threshold > 255)
    g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
                 _ ("A threshold of %d can't be used. Give one from 1 to 255, or 0 to find it."),
                 settings->threshold);
  else if (!(settings->speckle >= 0 && isfinite (settings->speckle)))
    g_set_error_literal (error, PF_ERROR, PF_ERROR_SETTING,
                         _ ("The area of spots to leave out must be 0 mm² or more."));
  else if (!(settings->roundness >= 0 && settings->roundness <= ROUNDNESS_MAX))
    g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
                 _ ("A roundness of %.2f can't be used. Give one from 0 to %.2f."),
                 settings->roundness, ROUNDNESS_MAX);
  else if (!(settings->tolerance >= 0 && settings->tolerance <= TOLERANCE_MAX))
    g_set_error (error, PF_ERROR, PF_ERROR_SETTING,
                 _ ("A tolerance of %.2f pixels can't be used. Give one from 0 to %.0f."),
                 settings->tolerance, TOLERANCE_MAX);
  else if (!(pixel > 0 && isfinite (pixel)))
    g_set_error_literal (error, PF_ERROR, PF_ERROR_SETTING,
                         _ ("The picture has no size on the sheet. Scale it by a known distance "
                            "first."));
  else
    return true;
  return false;
}

static bool
check_size (const PfScan *scan, GError **error)
{
  if ((gint64) scan->width * scan->height <= PF_SCAN_MAX_PIXELS)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("The picture has %d by %d pixels, more than can be traced. Scan it with fewer "
                  "dots per inch, or cut it to the motif."),
               scan->width, scan->height);
  return false;
}

static void
set_complicated (GError **error)
{
  g_set_error_literal (error, PF_ERROR, PF_ERROR_TOO_BIG,
                       _ ("The picture is too complicated to be traced. Leave out larger spots, or "
                          "choose another threshold."));
}

/* --- The picture as bits ------------------------------------------------------------------------
 */

#define WORD_BITS ((int) (8 * sizeof (potrace_word)))

static void
pack_row (const guint8 *grey, int width, int threshold, bool light, potrace_word *row)
{
  for (int x = 0; x < width; x++)
    if ((grey[x] < threshold) != light)
      row[x / WORD_BITS] |= (potrace_word) 1 << (WORD_BITS - 1 - x % WORD_BITS);
}

/* False if there is no memory for it. Free its map with g_free(). */
static bool
pack (const PfScan *scan, const PfTraceSettings *settings, potrace_bitmap_t *bits)
{
  const int threshold = settings->threshold != 0 ? settings->threshold : pf_scan_threshold (scan);
  const int words = (scan->width + WORD_BITS - 1) / WORD_BITS;
  *bits = (potrace_bitmap_t){ scan->width, scan->height, words, NULL };
  bits->map = g_try_new0 (potrace_word, (gsize) words * (gsize) scan->height);
  for (int y = 0; bits->map != NULL && y < scan->height; y++)
    pack_row (scan->grey + (gsize) y * (gsize) scan->stride, scan->width, threshold,
              settings->light, bits->map + (gsize) y * (gsize) words);
  return bits->map != NULL;
}

static potrace_state_t *
trace_bits (const potrace_bitmap_t *bits, const PfTraceSettings *settings, double pixel)
{
  potrace_param_t *const param = potrace_param_default ();
  if (param == NULL)
    return NULL;
  /* Left out: areas up to this many pixels. */
  param->turdsize = (int) fmin (G_MAXINT, fmax (0, ceil (settings->speckle / pixel) - 1));
  param->alphamax = settings->roundness;
  param->opticurve = settings->tolerance > 0;
  param->opttolerance = settings->tolerance;
  potrace_state_t *state = potrace_trace (param, bits);
  potrace_param_free (param);
  if (state != NULL && state->status != POTRACE_STATUS_OK)
    {
      potrace_state_free (state);
      state = NULL;
    }
  return state;
}

/* --- Paths to curves ----------------------------------------------------------------------------
 */

static PfPoint
on_sheet (PfAffine map, potrace_dpoint_t p)
{
  return pf_affine_map (map, (PfPoint){ p.x, p.y });
}

static void
add_node (GArray *nodes, PfPoint at)
{
  const PfNode node = { at, at, at, false };
  g_array_append_val (nodes, node);
}

/* The nodes of a path. Each segment gives its end; a corner its vertex too, and its end only if a
 * curve follows: between two corners the end lies on a straight line. */
static GArray *
collect_nodes (const potrace_curve_t *path, PfAffine map)
{
  GArray *const nodes = g_array_new (FALSE, FALSE, sizeof (PfNode));
  PfPoint in = { 0, 0 };
  for (int i = 0; i < path->n; i++)
    {
      const potrace_dpoint_t *const c = path->c[i];
      const bool corner = path->tag[i] == POTRACE_CORNER;
      const bool corner_before = path->tag[(i + path->n - 1) % path->n] == POTRACE_CORNER;
      const PfPoint start = on_sheet (map, path->c[(i + path->n - 1) % path->n][2]);
      if (!corner || !corner_before)
        {
          add_node (nodes, start);
          PfNode *const node = &g_array_index (nodes, PfNode, nodes->len - 1);
          node->in = corner_before || i == 0 ? start : in;
          node->out = corner ? start : on_sheet (map, c[0]);
        }
      if (corner)
        add_node (nodes, on_sheet (map, c[1]));
      else
        in = on_sheet (map, c[1]);
    }
  if (path->tag[path->n - 1] == POTRACE_CURVETO)
    g_array_index (nodes, PfNode, 0).in = in;
  return nodes;
}

static PfCurve *
curve_from_path (const potrace_curve_t *path, PfAffine map, GError **error)
{
  g_autoptr (GArray) nodes = collect_nodes (path, map);
  if (nodes->len > PF_CURVE_MAX_NODES)
    {
      set_complicated (error);
      return NULL;
    }
  for (guint i = 0; i < nodes->len; i++)
    {
      PfNode *const node = &g_array_index (nodes, PfNode, i);
      node->smooth = pf_node_runs_smooth (node);
    }
  return pf_curve_new ((const PfNode *) (const void *) nodes->data, nodes->len, true);
}

typedef struct {
  PfAffine map;
  GPtrArray *curves;
  GArray *outer; /* of bool */
} Traced;

static bool
add_path (Traced *traced, const potrace_path_t *path, GError **error)
{
  const bool outer = path->sign == '+';
  PfCurve *const curve = curve_from_path (&path->curve, traced->map, error);
  if (curve == NULL)
    return false;
  g_ptr_array_add (traced->curves, curve);
  g_array_append_val (traced->outer, outer);
  return true;
}

/* In potrace's tree the children of an outer path are its holes, and those of a hole are the outer
 * paths within it. They are taken level by level: a nest may be deeper than a stack. */
static bool
add_tree (Traced *traced, const potrace_path_t *paths, GError **error)
{
  g_autoptr (GQueue) levels = g_queue_new ();
  g_queue_push_tail (levels, (gpointer) paths);
  while (!g_queue_is_empty (levels))
    for (const potrace_path_t *outer = g_queue_pop_head (levels); outer != NULL;
         outer = outer->sibling)
      {
        if (!add_path (traced, outer, error))
          return false;
        for (const potrace_path_t *hole = outer->childlist; hole != NULL; hole = hole->sibling)
          {
            if (!add_path (traced, hole, error))
              return false;
            if (hole->childlist != NULL)
              g_queue_push_tail (levels, hole->childlist);
          }
      }
  return true;
}

GPtrArray *
pf_scan_trace (const PfScan *scan, const PfTraceSettings *settings, PfAffine map, bool **outer,
               GError **error)
{
  const double pixel = fabs (pf_affine_determinant (map));
  if (!check_settings (settings, pixel, error) || !check_size (scan, error))
    return NULL;
  g_autoptr (GPtrArray) curves = g_ptr_array_new_with_free_func ((GDestroyNotify) pf_curve_unref);
  g_autoptr (GArray) flags = g_array_new (TRUE, TRUE, sizeof (bool));
  Traced traced = { map, curves, flags };
  if (scan->width > 0 && scan->height > 0)
    {
      potrace_bitmap_t bits;
      potrace_state_t *const state =
          pack (scan, settings, &bits) ? trace_bits (&bits, settings, pixel) : NULL;
      g_free (bits.map);
      if (state == NULL)
        {
          set_complicated (error);
          return NULL;
        }
      const bool whole = add_tree (&traced, state->plist, error);
      potrace_state_free (state);
      if (!whole)
        return NULL;
    }
  if (outer != NULL)
    *outer = (bool *) (void *) g_array_free (g_steal_pointer (&flags), FALSE);
  return g_steal_pointer (&curves);
}
