/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From shapes to a drawing: even-odd over all loops taken, and a name for each region.
 */
#include "svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Pairs of loops that are tried to find which two of them cross. */
#define MAX_TRIALS 2000

/* --- The drawing --------------------------------------------------------------------------------
 */

static void
polyline_free (void *data)
{
  PfPolyline *line = data;
  g_free (line->points);
  g_free (line);
}

static void
outline_free (void *data)
{
  PfOutline *outline = data;
  for (GArray **pinholes = outline->pinholes; *pinholes != NULL; pinholes++)
    g_array_unref (*pinholes);
  g_free (outline->pinholes);
  for (PfCurve **curve = outline->curves; *curve != NULL; curve++)
    pf_curve_unref (*curve);
  g_free (outline->curves);
  pf_region_free (outline->region);
  g_free (outline->name);
  g_free (outline);
}

/* Takes over the region and the name. */
static PfOutline *
outline_new (PfRegion *region, char *name)
{
  PfOutline *outline = g_new0 (PfOutline, 1);
  outline->name = name;
  outline->region = region;
  outline->curves = g_new0 (PfCurve *, region->n_loops + 1);
  outline->pinholes = g_new0 (GArray *, region->n_loops + 1);
  for (size_t i = 0; i < region->n_loops; i++)
    outline->pinholes[i] = g_array_new (FALSE, FALSE, sizeof (double));
  return outline;
}

static PfDrawing *
drawing_new (double width, double height)
{
  PfDrawing *drawing = g_new0 (PfDrawing, 1);
  drawing->width = width;
  drawing->height = height;
  drawing->outlines = g_ptr_array_new_with_free_func (outline_free);
  drawing->background = g_ptr_array_new_with_free_func (polyline_free);
  return drawing;
}

void
pf_drawing_free (PfDrawing *drawing)
{
  if (drawing == NULL)
    return;
  g_ptr_array_unref (drawing->outlines);
  g_ptr_array_unref (drawing->background);
  g_clear_pointer (&drawing->remarks, g_ptr_array_unref);
  g_free (drawing);
}

void
pf_svg_add_background (PfDrawing *drawing, const PfChain *chain)
{
  if (chain->n_points < 2)
    return;
  PfPolyline *line = g_new (PfPolyline, 1);
  *line = (PfPolyline){ g_memdup2 (chain->points, chain->n_points * sizeof (PfPoint)),
                        chain->n_points, chain->closed };
  g_ptr_array_add (drawing->background, line);
}

/* --- Which loops don't fit ----------------------------------------------------------------------
 */

static void
name_culprits (const PfSvgReader *reader, const PfSvgLoop *a, const PfSvgLoop *b,
               const GError *cause, GError **error)
{
  if (b == NULL || b->shape->node == a->shape->node)
    {
      pf_svg_set_error (reader, a->shape->node, error, PF_ERROR_OUTLINE, "%s", cause->message);
      return;
    }
  g_autofree char *other = pf_svg_element_text (b->shape->node);
  pf_svg_set_error (reader, a->shape->node, error, PF_ERROR_OUTLINE, _ ("with line %ld, %s: %s"),
                    xmlGetLineNo (b->shape->node), other, cause->message);
}

/* Whether these loops alone are refused; the error then names their elements. */
static bool
is_refused (const PfSvgReader *reader, const PfSvgLoop *a, const PfSvgLoop *b, GError **error)
{
  const PfChain chains[] = { *a->chain, b != NULL ? *b->chain : *a->chain };
  g_autoptr (GError) cause = NULL;
  g_autoptr (GPtrArray) regions = pf_regions_from_chains (chains, b != NULL ? 2 : 1, NULL, &cause);
  if (regions != NULL)
    return false;
  name_culprits (reader, a, b, cause, error);
  return true;
}

static PfBox
chain_box (const PfChain *chain)
{
  PfBox box = { chain->points[0], chain->points[0] };
  for (size_t i = 1; i < chain->n_points; i++)
    {
      const PfPoint p = chain->points[i];
      box.min = (PfPoint){ fmin (box.min.x, p.x), fmin (box.min.y, p.y) };
      box.max = (PfPoint){ fmax (box.max.x, p.x), fmax (box.max.y, p.y) };
    }
  return box;
}

static bool
boxes_meet (PfBox a, PfBox b)
{
  return a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y;
}

static bool
find_pair (const PfSvgReader *reader, const GArray *loops, GError **error)
{
  g_autofree PfBox *boxes = g_new (PfBox, loops->len);
  int trials = 0;
  for (guint i = 0; i < loops->len; i++)
    {
      const PfSvgLoop *const loop = &g_array_index (loops, PfSvgLoop, i);
      boxes[i] = chain_box (loop->chain);
      for (guint j = 0; j < i; j++)
        if (boxes_meet (boxes[i], boxes[j]))
          {
            if (++trials > MAX_TRIALS)
              return false;
            if (is_refused (reader, &g_array_index (loops, PfSvgLoop, j), loop, error))
              return true;
          }
    }
  return false;
}

/* Explains why the loops together are refused, as exactly as it can be found. */
static void
explain (const PfSvgReader *reader, const GArray *loops, const GError *cause, GError **error)
{
  for (guint i = 0; i < loops->len; i++)
    if (is_refused (reader, &g_array_index (loops, PfSvgLoop, i), NULL, error))
      return;
  if (!find_pair (reader, loops, error))
    g_set_error (error, PF_ERROR, cause->code, "%s: %s", reader->name, cause->message);
}

/* --- Regions and names --------------------------------------------------------------------------
 */

static char *
base_name (const PfSvgLoop *loop, guint number)
{
  const char *id = loop->shape->use != NULL ? pf_svg_attribute (loop->shape->use, "id") : NULL;
  if (id == NULL || *id == '\0')
    id = pf_svg_attribute (loop->shape->node, "id");
  return id != NULL && *id != '\0' ? g_strdup (id) : g_strdup_printf (_ ("motif %u"), number);
}

/* `base`, or with a number if it is one of `names`, which count how often each was wanted. */
static char *
unique_name (GHashTable *names, const char *base)
{
  unsigned n = GPOINTER_TO_UINT (g_hash_table_lookup (names, base));
  char *name = g_strdup (base);
  while (g_hash_table_contains (names, name))
    {
      g_free (name);
      name = g_strdup_printf ("%s %u", base, ++n);
    }
  g_hash_table_insert (names, g_strdup (base), GUINT_TO_POINTER (MAX (n, 1)));
  if (strcmp (name, base) != 0)
    g_hash_table_insert (names, g_strdup (name), GUINT_TO_POINTER (1));
  return name;
}

/* The curve that a loop was flattened from: that of the chain with its points. */
static PfCurve *
find_curve (const PfLoop *loop, const GArray *loops)
{
  for (guint i = 0; i < loops->len; i++)
    {
      const PfSvgLoop *drawn = &g_array_index (loops, PfSvgLoop, i);
      if (drawn->chain->n_points == loop->n_points &&
          memcmp (drawn->chain->points, loop->points, loop->n_points * sizeof (PfPoint)) == 0)
        return pf_curve_ref (drawn->curve);
    }
  return pf_curve_new_straight (loop->points, loop->n_points, true);
}

static void
add_outlines (PfDrawing *drawing, GPtrArray *regions, const size_t *owners, const GArray *loops)
{
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_ptr_array_set_free_func (regions, NULL);
  for (guint i = 0; i < regions->len; i++)
    {
      g_autofree char *base = base_name (&g_array_index (loops, PfSvgLoop, owners[i]), i + 1);
      char *const name = unique_name (names, base);
      PfOutline *outline = outline_new (regions->pdata[i], name);
      for (size_t l = 0; l < outline->region->n_loops; l++)
        outline->curves[l] = find_curve (&outline->region->loops[l], loops);
      g_ptr_array_add (drawing->outlines, outline);
    }
}

static bool
make_regions (PfSvgReader *reader, const GArray *loops, PfDrawing *drawing, GError **error)
{
  g_autofree PfChain *chains = g_new (PfChain, loops->len);
  g_autofree size_t *owners = NULL;
  g_autoptr (GError) cause = NULL;
  for (guint i = 0; i < loops->len; i++)
    chains[i] = *g_array_index (loops, PfSvgLoop, i).chain;
  g_autoptr (GPtrArray) regions = pf_regions_from_chains (chains, loops->len, &owners, &cause);
  if (regions == NULL)
    {
      explain (reader, loops, cause, error);
      return false;
    }
  add_outlines (drawing, regions, owners, loops);
  return true;
}

/* Refuses what can't give any outline, and what would take too long. */
static bool
check_loops (const PfSvgReader *reader, const GArray *loops, GError **error)
{
  if (!pf_svg_check_wanted (reader, error))
    return false;
  if (loops->len > PF_SVG_MAX_LOOPS)
    {
      g_set_error (
          error, PF_ERROR, PF_ERROR_TOO_BIG,
          _ ("%s has %u closed outlines, and at most %d can be taken; name those to fill by "
             "their ids"),
          reader->name, loops->len, PF_SVG_MAX_LOOPS);
      return false;
    }
  if (loops->len == 0)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_OUTLINE,
                   _ ("%s has no closed outline to fill; draw one, or join the ends of its lines"),
                   reader->name);
      return false;
    }
  return true;
}

PfDrawing *
pf_svg_outlines (PfSvgReader *reader, GError **error)
{
  PfDrawing *drawing = drawing_new (reader->width, reader->height);
  g_autoptr (GArray) loops = pf_svg_loops (reader, drawing);
  if (!check_loops (reader, loops, error) || !make_regions (reader, loops, drawing, error))
    {
      pf_drawing_free (drawing);
      return NULL;
    }
  pf_svg_add_pinholes (reader, drawing);
  drawing->remarks = pf_svg_remarks_steal (reader->remarks);
  return drawing;
}
