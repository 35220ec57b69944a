/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The threads as they lie. Only the part that the view shows is worked out.
 */
#include "close-up-drawing.h"
#include "layers.h"

bool
pf_threads_show (const PfMotif *motif, double pixel)
{
  return pf_motif_laid (motif)->thickness >= PF_THREAD_LEAST * pixel;
}

/* What of the drawing the view shows. */
static PfBox
seen_box (const PfView *view)
{
  const PfAffine back = pf_affine_invert (view->map);
  const PfBox box = pf_box_with (PF_BOX_EMPTY, pf_affine_map (back, view->window.min));
  return pf_box_with (box, pf_affine_map (back, view->window.max));
}

void
pf_layer_threads (PfPage *page, const PfView *view, const PfDrawn *drawn)
{
  g_autoptr (PfCloseUp) close_up = pf_close_up_part (pf_motif_laid (drawn->motif), seen_box (view));
  pf_draw_close_up (page, view, close_up, drawn->threads);
}
