/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Each step of a drag starts from the draft and the motif that it began with, so that nothing adds
 * up and a filling that is still in work doesn't matter.
 */
#include "edge-drag.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "edge-work.h"
#include "sewing-work.h"

bool
pf_edge_drag_begin (PfEdgeDrag *drag, PfEditor *editor, PfPick pick)
{
  PfDraft *draft = pf_editor_draft (editor);
  const bool own =
      draft != NULL && (int) pick.draft == pf_editor_active (editor) && !pf_editor_follows (editor);
  PfMotif *motif = own ? pf_edge_motif (editor) : NULL;
  if (motif == NULL || (pick.kind == PF_PICK_SEWING && motif->filling == NULL))
    {
      g_clear_pointer (&motif, pf_motif_unref);
      return false;
    }
  *drag = (PfEdgeDrag){ editor, pf_draft_ref (draft), motif, pick, pick.loop };
  if (pick.kind == PF_PICK_SEWING)
    drag->loop = motif->filling->sewings[pick.index].target.loop;
  return true;
}

static void
drag_pinhole (PfEdgeDrag *drag, PfDraft *draft, double along)
{
  const double from = drag->motif->edges[drag->loop].pinholes[drag->pick.index];
  const double by = pf_edge_way (drag->motif, drag->loop, from, along);
  PfPick pick = drag->pick;
  pick.index = pf_edge_move_pinhole (draft, drag->motif, drag->loop, drag->pick.index, by);
  pf_editor_preview (drag->editor, draft);
  pf_editor_select (drag->editor, pick);
}

void
pf_edge_drag_to (PfEdgeDrag *drag, double along, double snap)
{
  PfDraft *draft = pf_draft_copy (drag->start);
  if (drag->pick.kind == PF_PICK_PINHOLE)
    {
      drag_pinhole (drag, draft, along);
      return;
    }
  const PfSewingChoice choice = pf_sewing_choice_at (drag->motif, drag->pick.index, along, snap);
  pf_draft_set_sewing (draft, &choice);
  pf_editor_preview (drag->editor, draft);
}

static void
finish (PfEdgeDrag *drag)
{
  g_clear_pointer (&drag->start, pf_draft_unref);
  g_clear_pointer (&drag->motif, pf_motif_unref);
  *drag = (PfEdgeDrag){ 0 };
}

void
pf_edge_drag_end (PfEdgeDrag *drag)
{
  if (pf_history_previewing (pf_editor_history (drag->editor)))
    pf_editor_commit (drag->editor, drag->pick.kind == PF_PICK_PINHOLE ? _ ("Move a pinhole")
                                                                       : _ ("Move a sewing"));
  finish (drag);
}

void
pf_edge_drag_cancel (PfEdgeDrag *drag)
{
  pf_editor_cancel (drag->editor);
  if (drag->pick.kind == PF_PICK_PINHOLE)
    pf_editor_select (drag->editor, drag->pick);
  finish (drag);
}
