/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What of an outline lies under the pointer: small things before large ones.
 */
#include "outline-find.h"

#include <math.h>

#include "outline-edit.h"

static double
distance (PfPoint a, PfPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

static bool
find_handle (const PfDraft *draft, const PfNodeSet *chosen, PfPoint at, double reach, PfSpot *spot)
{
  double nearest = reach;
  for (guint c = 0; c < chosen->len; c++)
    {
      const PfNodeRef ref = pf_node_set_get (chosen, c);
      const PfNode *node = &draft->curves[ref.curve]->nodes[ref.node];
      const PfPoint handles[] = { [PF_HANDLE_IN] = node->in, [PF_HANDLE_OUT] = node->out };
      for (int h = 0; h < 2; h++)
        {
          const double far = distance (handles[h], at);
          if (far > nearest || distance (handles[h], node->at) <= PF_TOUCH)
            continue;
          nearest = far;
          spot->on = PF_ON_HANDLE;
          spot->node = ref;
          spot->handle = (PfHandle) h;
        }
    }
  return spot->on == PF_ON_HANDLE;
}

static bool
find_node (const PfDraft *draft, PfPoint at, double reach, PfSpot *spot)
{
  double nearest = reach;
  for (size_t c = 0; c < draft->n_curves; c++)
    for (size_t n = 0; n < draft->curves[c]->n_nodes; n++)
      {
        const double far = distance (draft->curves[c]->nodes[n].at, at);
        if (far > nearest)
          continue;
        nearest = far;
        spot->on = PF_ON_NODE;
        spot->node = (PfNodeRef){ c, n };
      }
  return spot->on == PF_ON_NODE;
}

static bool
find_segment (const PfDraft *draft, PfPoint at, double reach, PfSpot *spot)
{
  double nearest = reach;
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      if (draft->curves[c]->n_nodes < 2)
        continue;
      size_t segment;
      double t;
      const double far = pf_curve_nearest (draft->curves[c], at, &segment, &t);
      if (far > nearest)
        continue;
      nearest = far;
      spot->on = PF_ON_SEGMENT;
      spot->node = (PfNodeRef){ c, segment };
      spot->t = t;
    }
  return spot->on == PF_ON_SEGMENT;
}

/* On or within the motif. */
static bool
holds (PfEditor *editor, size_t n, PfPoint at, double reach)
{
  const PfMotif *motif = pf_editor_motif (editor, n);
  if (motif != NULL && pf_region_contains (motif->region, at))
    return true;
  PfSpot spot = { 0 };
  return find_segment (pf_editor_document (editor)->drafts[n], at, reach, &spot);
}

static bool
find_motif (PfEditor *editor, PfPoint at, double reach, PfSpot *spot)
{
  const int active = pf_editor_active (editor);
  const size_t n_drafts = pf_editor_document (editor)->n_drafts;
  spot->on = PF_ON_MOTIF;
  spot->draft = (size_t) MAX (active, 0);
  if (active >= 0 && holds (editor, spot->draft, at, reach))
    return true;
  for (size_t n = n_drafts; n-- > 0;)
    if (holds (editor, n, at, reach))
      {
        spot->draft = n;
        return true;
      }
  return false;
}

bool
pf_outline_grips (PfEditor *editor, const PfNodeSet *chosen, PfBox *box)
{
  return chosen->len == 0 && !pf_editor_follows (editor) &&
         pf_outline_box (pf_editor_draft (editor), box);
}

PfSpot
pf_outline_find (PfEditor *editor, const PfNodeSet *chosen, PfPoint at, double reach, double pixel)
{
  PfSpot spot = { 0 };
  PfBox box;
  const PfDraft *draft = pf_editor_draft (editor);
  if (draft == NULL)
    return spot;
  spot.draft = (size_t) pf_editor_active (editor);
  if (draft->mirror_of == NULL)
    {
      if (find_handle (draft, chosen, at, reach, &spot) || find_node (draft, at, reach, &spot))
        return spot;
      if (pf_outline_grips (editor, chosen, &box) &&
          pf_grip_find (box, pixel, reach, at, &spot.grip))
        {
          spot.on = PF_ON_GRIP;
          return spot;
        }
      if (find_segment (draft, at, reach, &spot))
        return spot;
    }
  if (!find_motif (editor, at, reach, &spot))
    spot.on = PF_ON_NOTHING;
  return spot;
}
