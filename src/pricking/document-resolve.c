/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Mirror images made whole. Every node of the image is the reflection of one of the original's, in
 * the same order: places along its loops, repeats and stitches are called the same on both.
 */
#include <math.h>

#include "document-private.h"

/* The original's turn a goes to 2·axis + 180 - a, and the ground is turned over. The gap and the
 * edges' distances stay to the last bit. */
static PfPlacement
reflected_placement (PfPlacement placement, PfAxis axis)
{
  PfPlacement image = pf_placement_mapped (placement, pf_axis_reflection (axis));
  image.gap = placement.gap;
  return image;
}

/* Number n as a draft of its own, of at most `steps` images of images: a ring of them has no
 * original and ends somewhere. */
static PfDraft *
image_of (const PfDocument *document, size_t n, size_t steps)
{
  const PfDraft *draft = document->drafts[n];
  const int original = draft->mirror_of ? pf_document_find (document, draft->mirror_of) : -1;
  if (original < 0 || steps == 0)
    return pf_draft_copy (draft);
  PfDraft *image = image_of (document, (size_t) original, steps - 1);
  const PfAffine reflection = pf_axis_reflection (draft->mirror_axis);
  for (size_t c = 0; c < image->n_curves; c++)
    {
      PfCurve *curve = pf_curve_mapped (image->curves[c], reflection);
      pf_curve_unref (image->curves[c]);
      image->curves[c] = curve;
    }
  image->settings.placement = reflected_placement (image->settings.placement, draft->mirror_axis);
  pf_draft_set_name (image, draft->name);
  pf_draft_set_notes (image, draft->notes);
  pf_pillow_clear (&image->pillow);
  image->pillow = pf_pillow_copy (&draft->pillow);
  g_free (image->id);
  image->id = g_strdup (draft->id);
  return image;
}

PfDraft *
pf_document_resolve (const PfDocument *document, size_t n)
{
  g_return_val_if_fail (n < document->n_drafts, NULL);
  if (!document->drafts[n]->mirror_of)
    return pf_draft_ref (document->drafts[n]);
  PfDraft *whole = image_of (document, n, document->n_drafts);
  g_clear_pointer (&whole->mirror_of, g_free);
  return whole;
}
