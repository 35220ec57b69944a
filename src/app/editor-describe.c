/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is selected, in words: shown in the panels and spoken by the canvas.
 */
#include "editor.h"

#include <glib/gi18n-lib.h>

static char *
describe_pinhole (const PfMotif *motif, PfPick pick)
{
  const PfEdge *edge = &motif->edges[pick.loop];
  const PfPlace place = { pick.loop, edge->pinholes[pick.index] };
  const PfPoint at = pf_region_point (motif->region, place);
  return g_strdup_printf (_ ("Pinhole %u of %zu, %.1f mm along the outline, at %.1f, %.1f mm"),
                          pick.index + 1, edge->n_pinholes, place.along, at.x, at.y);
}

static char *
describe_node (const PfCurve *curve, PfPick pick)
{
  const PfNode *node = &curve->nodes[pick.index];
  return g_strdup_printf (node->smooth ? _ ("Smooth node %u of %zu, at %.2f, %.2f mm")
                                       : _ ("Corner node %u of %zu, at %.2f, %.2f mm"),
                          pick.index + 1, curve->n_nodes, node->at.x, node->at.y);
}

char *
pf_editor_describe (PfEditor *editor, PfPick pick)
{
  if (!pf_editor_has (editor, pick))
    return g_strdup (_ ("Nothing is selected"));
  const PfMotif *motif = pf_editor_motif (editor, pick.draft);
  const PfDraft *draft = pf_editor_document (editor)->drafts[pick.draft];
  if (motif == NULL && pick.kind != PF_PICK_NODE)
    return g_strdup (_ ("The motif is being worked out"));
  switch (pick.kind)
    {
    case PF_PICK_REPEAT:
      return pf_explain_repeat (motif->filling, motif->ground, pick.i, pick.j);
    case PF_PICK_SEWING:
      return pf_explain_sewing (motif->filling, motif->ground, pick.index);
    case PF_PICK_PAIR:
      return pf_explain_pair (motif->filling, motif->ground, pick.index);
    case PF_PICK_PINHOLE:
      return describe_pinhole (motif, pick);
    case PF_PICK_NODE:
      return describe_node (draft->curves[pick.loop], pick);
    case PF_PICK_NONE:
      break;
    }
  return NULL;
}
