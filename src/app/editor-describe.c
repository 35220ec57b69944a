/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is selected, in words: shown in the panels and spoken by the canvas.
 */
#include "editor.h"

#include <glib/gi18n-lib.h>

char *
pf_editor_length (PfEditor *editor, double mm, int decimals)
{
  return pf_format_fixed_length (mm, decimals, pf_editor_units (editor));
}

char *
pf_editor_place (PfEditor *editor, PfPoint at, int decimals)
{
  return pf_format_place (at.x, at.y, decimals, pf_editor_units (editor));
}

static char *
describe_pinhole (PfEditor *editor, const PfMotif *motif, PfPick pick)
{
  const PfEdge *edge = &motif->edges[pick.loop];
  const PfPlace place = { pick.loop, edge->pinholes[pick.index] };
  const PfPoint at = pf_region_point (motif->region, place);
  g_autofree char *along = pf_editor_length (editor, place.along, 1);
  g_autofree char *point = pf_editor_place (editor, at, 1);
  return g_strdup_printf (_ ("Pinhole %u of %zu, %s along the outline, at %s"), pick.index + 1,
                          edge->n_pinholes, along, point);
}

static char *
describe_node (PfEditor *editor, const PfCurve *curve, PfPick pick)
{
  const PfNode *node = &curve->nodes[pick.index];
  g_autofree char *place = pf_editor_place (editor, node->at, 2);
  return node->smooth ? g_strdup_printf (_ ("Smooth node %u of %zu, at %s"), pick.index + 1,
                                         curve->n_nodes, place)
                      : g_strdup_printf (_ ("Corner node %u of %zu, at %s"), pick.index + 1,
                                         curve->n_nodes, place);
}

/* With the threads in view, also where each of them goes. */
static char *
describe_pair (PfEditor *editor, const PfMotif *motif, guint32 pair)
{
  char *words = pf_explain_pair (motif->filling, motif->ground, pair);
  if (!pf_editor_shows_threads (editor))
    return words;
  g_autofree char *of_pair = words;
  g_autofree char *of_threads =
      pf_explain_threads (pf_motif_laid (motif)->threads, motif->filling, motif->ground, pair);
  return g_strconcat (of_pair, "\n", of_threads, NULL);
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
      return describe_pair (editor, motif, pick.index);
    case PF_PICK_PINHOLE:
      return describe_pinhole (editor, motif, pick);
    case PF_PICK_NODE:
      return describe_node (editor, draft->curves[pick.loop], pick);
    case PF_PICK_NONE:
      break;
    }
  return NULL;
}
