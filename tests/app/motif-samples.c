/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "motif-samples.h"

static PfDraft *
new_draft (const char *ground, PfPoint middle)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) loaded = ground != NULL ? pf_ground_load (ground, &error) : NULL;
  g_assert_no_error (error);
  PfDraft *draft = pf_draft_new ("Sample", loaded);
  draft->settings.placement.origin = middle;
  return draft;
}

static void
add_rectangle (PfDraft *draft, PfBox box)
{
  const PfPoint corners[] = {
    box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y }
  };
  g_autoptr (PfCurve) curve = pf_curve_new_straight (corners, G_N_ELEMENTS (corners), true);
  pf_draft_add_curve (draft, curve);
}

PfDocument *
sample_rectangle (double width, double height, const char *ground)
{
  g_autoptr (PfDocument) empty = pf_document_new ();
  PfDraft *draft = new_draft (ground, (PfPoint){ width / 2, height / 2 });
  add_rectangle (draft, (PfBox){ { 0, 0 }, { width, height } });
  return pf_document_with_draft_added (empty, draft);
}

PfDocument *
sample_frame (double width, double height, double hole, const char *ground)
{
  g_autoptr (PfDocument) empty = pf_document_new ();
  PfDraft *draft = new_draft (ground, (PfPoint){ width / 2, height / 2 });
  add_rectangle (draft, (PfBox){ { 0, 0 }, { width, height } });
  add_rectangle (draft, (PfBox){ { (width - hole) / 2, (height - hole) / 2 },
                                 { (width + hole) / 2, (height + hole) / 2 } });
  return pf_document_with_draft_added (empty, draft);
}

PfEditor *
sample_editor (PfDocument *document)
{
  PfEditor *editor = pf_editor_new (document);
  pf_document_unref (document);
  return editor;
}

const PfMotif *
motif_of (PfEditor *editor)
{
  while (pf_editor_busy (editor))
    g_main_context_iteration (NULL, TRUE);
  const PfMotif *motif = pf_editor_motif (editor, (size_t) pf_editor_active (editor));
  g_assert_nonnull (motif);
  return motif;
}

const PfDraftEdge *
edge_of (PfEditor *editor)
{
  return &pf_editor_draft (editor)->edges[0];
}

int
count_changes (PfEditor *editor)
{
  PfHistory *history = pf_editor_history (editor);
  int n = 0;
  for (; pf_history_undo_name (history) != NULL; n++)
    pf_history_undo (history);
  for (int k = 0; k < n; k++)
    pf_history_redo (history);
  return n;
}

PfPointer
hand_at (PfPoint at)
{
  return (PfPointer){ .at = at, .pixel = 0.1, .reach = 0.8, .n_press = 1, .button = 1 };
}

bool
press (PfTool *tool, PfPoint at, int n_press, GdkModifierType state)
{
  PfPointer pointer = hand_at (at);
  pointer.n_press = n_press;
  pointer.state = state;
  return PF_TOOL_GET_CLASS (tool)->press (tool, &pointer);
}

void
drag (PfTool *tool, PfPoint at)
{
  const PfPointer pointer = hand_at (at);
  PF_TOOL_GET_CLASS (tool)->drag (tool, &pointer);
}

void
release (PfTool *tool, PfPoint at)
{
  const PfPointer pointer = hand_at (at);
  PF_TOOL_GET_CLASS (tool)->release (tool, &pointer);
}

void
drag_from_to (PfTool *tool, PfPoint from, PfPoint to, GdkModifierType state)
{
  const int steps = 8;
  g_assert_true (press (tool, from, 1, state));
  for (int s = 1; s <= steps; s++)
    drag (tool,
          (PfPoint){ from.x + (to.x - from.x) * s / steps, from.y + (to.y - from.y) * s / steps });
  release (tool, to);
}

void
cancel (PfTool *tool)
{
  PF_TOOL_GET_CLASS (tool)->cancel (tool);
}

bool
key (PfTool *tool, guint keyval, GdkModifierType state)
{
  return PF_TOOL_GET_CLASS (tool)->key (tool, keyval, state, 0.1);
}
