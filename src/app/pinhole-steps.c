/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * After each change the pinhole that it was about is selected, so that the next key means it.
 */
#include "pinhole-steps.h"

#include <glib/gi18n-lib.h>

#include "edge-work.h"

void
pf_pinhole_select (PfEditor *editor, size_t loop, guint32 pinhole)
{
  pf_editor_select (editor, (PfPick){ .kind = PF_PICK_PINHOLE,
                                      .draft = (size_t) pf_editor_active (editor),
                                      .loop = loop,
                                      .index = pinhole });
}

bool
pf_pinhole_selected (PfEditor *editor, const PfMotif *motif, PfPick *pick)
{
  *pick = pf_editor_selected (editor);
  return motif != NULL && pick->kind == PF_PICK_PINHOLE &&
         (int) pick->draft == pf_editor_active (editor) && pick->loop < motif->region->n_loops &&
         pick->index < motif->edges[pick->loop].n_pinholes;
}

bool
pf_pinhole_walk (PfEditor *editor, size_t loop, int step, bool round)
{
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  PfPick pick;
  if (motif == NULL)
    return false;
  const bool selected = pf_pinhole_selected (editor, motif, &pick) && pick.loop == loop;
  const gint64 n = (gint64) motif->edges[loop].n_pinholes;
  const gint64 next = selected ? pick.index + (gint64) step : step > 0 ? 0 : n - 1;
  if (n == 0 || (!round && (next < 0 || next >= n)))
    return false;
  pf_pinhole_select (editor, loop, (guint32) ((next + n) % n));
  return true;
}

bool
pf_pinhole_nudge (PfEditor *editor, double by)
{
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  PfPick pick;
  PfDraft *draft = pf_pinhole_selected (editor, motif, &pick) ? pf_editor_edit (editor) : NULL;
  if (draft == NULL)
    return false;
  g_autofree char *name = g_strdup_printf (_ ("Move pinhole %u"), pick.index + 1);
  pick.index = pf_edge_move_pinhole (draft, motif, pick.loop, pick.index, by);
  pf_editor_change_merged (editor, draft, name);
  pf_editor_select (editor, pick);
  return true;
}

bool
pf_pinhole_remove (PfEditor *editor)
{
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  PfPick pick;
  PfDraft *draft = pf_pinhole_selected (editor, motif, &pick) ? pf_editor_edit (editor) : NULL;
  if (draft == NULL)
    return false;
  const size_t left = motif->edges[pick.loop].n_pinholes - 1;
  pf_edge_remove_pinhole (draft, motif, pick.loop, pick.index);
  pf_editor_change (editor, draft, _ ("Remove a pinhole"));
  if (left > 0)
    pf_pinhole_select (editor, pick.loop, pick.index < left ? pick.index : 0);
  else
    pf_editor_select (editor, PF_PICK_NOTHING);
  return true;
}

bool
pf_pinhole_add (PfEditor *editor, size_t loop, double along)
{
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  PfDraft *draft = motif != NULL ? pf_editor_edit (editor) : NULL;
  if (draft == NULL)
    return false;
  const guint32 pinhole = pf_edge_add_pinhole (draft, motif, loop, along);
  if (pinhole == PF_NONE)
    {
      pf_draft_unref (draft);
      return false;
    }
  pf_editor_change (editor, draft, _ ("Add a pinhole"));
  pf_pinhole_select (editor, loop, pinhole);
  return true;
}

bool
pf_pinhole_add_midway (PfEditor *editor)
{
  g_autoptr (PfMotif) motif = pf_edge_motif (editor);
  PfPick pick;
  if (!pf_pinhole_selected (editor, motif, &pick))
    return false;
  const PfLoop *loop = &motif->region->loops[pick.loop];
  const double *pinholes = motif->edges[pick.loop].pinholes;
  const guint32 next = pf_edge_next_pinhole (motif, pick.loop, pinholes[pick.index], 1);
  const double way = next == PF_NONE ? pf_loop_length (loop)
                                     : pf_loop_forward (loop, pinholes[pick.index], pinholes[next]);
  return pf_pinhole_add (editor, pick.loop, pinholes[pick.index] + way / 2);
}
