/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The threads of a part of a pricking on a page as large as the part.
 */
#include <sheet.h>

#include <math.h>

#include <glib/gi18n-lib.h>

#include "layers.h"
#include "paint.h"

#define DOTS 20 /* to the mm, of a picture */
/* The longest side, mm, and the most stitches: beyond that files can't be looked at any more. */
#define MOST_MM 1000
#define MOST_STITCHES 20000

static bool
check_part (PfBox part, GError **error)
{
  const double width = part.max.x - part.min.x, height = part.max.y - part.min.y;
  if (!(width > 0 && height > 0 && isfinite (part.min.x) && isfinite (part.min.y) &&
        isfinite (part.max.x) && isfinite (part.max.y)))
    {
      g_set_error_literal (error, PF_ERROR, PF_ERROR_SETTING,
                           _ ("The part of a close-up needs a place, and a width and a height "
                              "above 0 mm."));
      return false;
    }
  if (width <= MOST_MM && height <= MOST_MM)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("A close-up of %g by %g mm is too large: each side has at most %d mm. Choose a "
                  "smaller part."),
               width, height, MOST_MM);
  return false;
}

static bool
check_stitches (const PfPricking *pricking, PfBox part, GError **error)
{
  size_t n = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfFilling *filling = ((PfMotif *) g_ptr_array_index (pricking->motifs, m))->filling;
      for (size_t s = 0; s < filling->n_stitches; s++)
        {
          const PfPoint at = filling->stitches[s].at;
          n += at.x >= part.min.x && at.x <= part.max.x && at.y >= part.min.y && at.y <= part.max.y;
        }
    }
  if (n <= MOST_STITCHES)
    return true;
  g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
               _ ("A close-up of %zu stitches is too large: it shows at most %d. Choose a smaller "
                  "part."),
               n, MOST_STITCHES);
  return false;
}

static char *
draw_part (const PfPricking *pricking, PfBox part)
{
  const PfLayers layers = PF_LAYER_THREADS | PF_LAYER_OUTLINE | PF_LAYER_PINHOLES | PF_LAYER_BEADS;
  const PfBox page_box = { { 0, 0 }, { part.max.x - part.min.x, part.max.y - part.min.y } };
  const PfView field = pf_view_field (1, false);
  const PfView view = pf_view_page (&field, part.min, page_box);
  g_autoptr (PfScene) scene = pf_scene_new (pricking, false);
  PfPage *page = pf_page_new (page_box.max.x, page_box.max.y, pricking->title);
  pf_draw_layers (page, &view, scene, layers, 0);
  return pf_page_finish (page);
}

static bool
save_picture (const char *svg, PfBox part, const char *filename, GError **error)
{
  g_autoptr (GByteArray) png =
      pf_paint_png (svg, part.max.x - part.min.x, part.max.y - part.min.y, DOTS, error);
  return png != NULL && pf_file_save (filename, (const char *) png->data, png->len, error);
}

bool
pf_close_up_save (const PfPricking *pricking, const PfBox *part, gint64 created,
                  const char *filename, GError **error)
{
  const PfBox whole = { { 0, 0 }, { pricking->width, pricking->height } };
  const PfBox box = part != NULL ? *part : whole;
  if (!check_part (box, error) || !check_stitches (pricking, box, error))
    return false;
  g_autofree char *svg = draw_part (pricking, box);
  if (pf_file_ends_in (filename, ".png"))
    return save_picture (svg, box, filename, error);
  const PfPdfWords words = { pricking->title, created };
  return pf_paint_save ((const char *const[]){ svg }, 1, box.max.x - box.min.x,
                        box.max.y - box.min.y, words, filename, NULL, error);
}
