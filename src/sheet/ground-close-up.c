/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The threads of a ground by itself: a patch of it, cut out of a larger filling so that no edge
 * shows.
 */
#include <sheet.h>

#include <math.h>

#include <glib/gi18n-lib.h>

#include "close-up-drawing.h"
#include "paint.h"
#include "style.h"

#define SIDE 80.0      /* of the patch, mm on the page */
#define TILE_SIDE 40.0 /* of a tile */
#define REPEATS 1.15   /* that a side of the patch shows, ... */
#define LEAST_GAPS 2.4 /* ... but at least so many gaps */

typedef struct {
  PfRegion *region;
  PfFilling *filling;
  PfLaid *laid;
  PfCloseUp *close_up;
} Patch;

static void
patch_clear (Patch *patch)
{
  pf_region_free (patch->region);
  pf_filling_free (patch->filling);
  pf_laid_free (patch->laid);
  pf_close_up_free (patch->close_up);
}

/* A square region round the origin, `half` mm to each side. */
static PfRegion *
square (double half, GError **error)
{
  PfPoint corners[] = { { -half, -half }, { half, -half }, { half, half }, { -half, half } };
  const PfChain chain = { corners, G_N_ELEMENTS (corners), true };
  return pf_region_new (&chain, 1, error);
}

/* The ground so large that a window of that side, in mm, round the origin shows the patch. */
static PfPlacement
placement_of (const PfGround *ground, double side)
{
  const double repeat = fmax (
      fmax (fabs (ground->a.x) + fabs (ground->b.x), fabs (ground->a.y) + fabs (ground->b.y)) / 2,
      1e-3);
  const double shown = fmax (REPEATS * repeat, LEAST_GAPS * ground->spacing);
  PfPoint middle = { 0, 0 };
  for (int k = 0; k < ground->n_stitches; k++)
    {
      middle.x += ground->stitches[k].at.x / ground->n_stitches;
      middle.y += ground->stitches[k].at.y / ground->n_stitches;
    }
  const double scale = side / shown;
  return (PfPlacement){ .gap = scale * ground->spacing,
                        .origin = { -scale * middle.x, -scale * middle.y } };
}

static bool
patch_init (Patch *patch, const PfGround *ground, double side, GError **error)
{
  PfFillingSettings settings = pf_filling_settings_default ();
  PfEdge edge;
  settings.placement = placement_of (ground, side);
  const double scale = settings.placement.gap / ground->spacing;
  const double beyond =
      scale * (hypot (ground->a.x, ground->a.y) + hypot (ground->b.x, ground->b.y));
  *patch = (Patch){ .region = square (side / 2 + beyond, error) };
  if (patch->region == NULL ||
      !pf_edge_init_even (&edge, &patch->region->loops[0], PF_EDGE_HALF_STITCH, 10, error))
    return false;
  patch->filling = pf_filling_new (patch->region, &edge, ground, &settings, error);
  pf_edge_clear (&edge);
  if (patch->filling == NULL)
    return false;
  const PfBox box = { { -side / 2, -side / 2 }, { side / 2, side / 2 } };
  patch->laid = pf_laid_new (patch->filling, ground, 0);
  patch->close_up = pf_close_up_part (patch->laid, box);
  return true;
}

static char *
patch_svg (const PfGround *ground, double side, GError **error)
{
  Patch patch;
  char *svg = NULL;
  if (patch_init (&patch, ground, side, error))
    {
      const PfBox window = { { 0, 0 }, { side, side } };
      const PfView view = { .map = { 1, 0, 0, 1, side / 2, side / 2 },
                            .enlarge = 1,
                            .window = window };
      PfPage *page = pf_page_new (side, side, ground->title ? ground->title : ground->name);
      pf_page_clip_group (page, "close-up", window);
      pf_draw_close_up (page, &view, patch.close_up, NULL);
      pf_page_group_end (page);
      svg = pf_page_finish (page);
    }
  patch_clear (&patch);
  return svg;
}

char *
pf_ground_close_up_svg (const PfGround *ground, bool tile, GError **error)
{
  return patch_svg (ground, tile ? TILE_SIDE : SIDE, error);
}

bool
pf_ground_close_up_save (const PfGround *ground, const char *filename, GError **error)
{
  g_autofree char *svg = patch_svg (ground, SIDE, error);
  const PfPdfWords words = { ground->title ? ground->title : ground->name, 0 };
  return svg != NULL &&
         pf_paint_save ((const char *const[]){ svg }, 1, SIDE, SIDE, words, filename, NULL, error);
}
