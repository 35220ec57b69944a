/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How large the outline must be follows from what a stitch of the ground takes up. */
#include "bench-document.h"

#include <math.h>

#include "bench.h"

#define GAP 2.0

PfDocument *
bench_document (const char *ground, double n_stitches)
{
  /* Seven of the armure's stitches take 4 gap² of the region, one of the torchon's takes gap². */
  const double area = n_stitches * GAP * GAP * (g_str_equal (ground, "armure") ? 4.0 / 7 : 1);
  const double radius = sqrt (area / (0.73 * G_PI * 8 / 9));
  PfChain *chains = bench_chains (radius, 2000);
  g_autoptr (PfDocument) empty = pf_document_new ();
  empty->width = empty->height = 2 * radius;
  PfDraft *draft = pf_draft_new ("Wave", bench_ground (ground));
  draft->settings.placement = (PfPlacement){ .gap = GAP, .turn = 13, .origin = { radius, radius } };
  for (size_t c = 0; c < 2; c++)
    {
      for (size_t p = 0; p < chains[c].n_points; p++)
        chains[c].points[p] =
            (PfPoint){ chains[c].points[p].x + radius, chains[c].points[p].y + radius };
      g_autoptr (PfCurve) curve =
          pf_curve_new_straight (chains[c].points, chains[c].n_points, true);
      pf_draft_add_curve (draft, curve);
    }
  bench_chains_free (chains);
  return pf_document_with_draft_added (empty, draft);
}
