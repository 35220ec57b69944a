/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The worked edge: its outline and its pinholes; round it, the rest of the drawing as a faint
 * background.
 */
#include "layers.h"

#include "marks.h"

void
pf_layer_background (PfPage *page, const PfView *view, const PfPricking *pricking)
{
  pf_page_group (page, "background", (PfInk){ .stroke = PF_COLOUR_BACKGROUND, .width = 0.15 });
  for (guint i = 0; i < pricking->background->len; i++)
    {
      const PfPolyline *line = g_ptr_array_index (pricking->background, i);
      pf_view_chain (view, page, line->points, line->n_points, line->closed);
    }
  pf_page_group_end (page);
}

void
pf_layer_outline (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfRegion *region = drawn->motif->region;
  pf_page_group (page, "outline",
                 (PfInk){ .stroke = PF_COLOUR_INK, .width = drawn->sizes.outline, .round = true });
  for (size_t i = 0; i < region->n_loops; i++)
    pf_view_chain (view, page, region->loops[i].points, region->loops[i].n_points, true);
  pf_page_group_end (page);
}

void
pf_layer_pinholes (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  const PfMotif *motif = drawn->motif;
  pf_page_group (page, "pinholes", pf_ink_pinhole (&drawn->sizes));
  for (size_t i = 0; i < motif->region->n_loops; i++)
    for (size_t h = 0; h < motif->edges[i].n_pinholes; h++)
      {
        const PfPlace place = { i, motif->edges[i].pinholes[h] };
        const PfPoint at = pf_view_point (view, pf_region_point (motif->region, place));
        if (pf_view_sees (view, at, 2 * drawn->sizes.hole))
          pf_mark_pinhole (page, &drawn->sizes, at);
      }
  pf_page_group_end (page);
}
