/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The editor. Every change goes through the history, whose "changed" brings everything else up to
 * date in one place: what is worked out, then the active motif, then the selection. Only after that
 * are the signals sent, so that nobody sees a mixture.
 */
#include "editor.h"

#include "working.h"

struct _PfEditor {
  GObject parent_instance;

  PfHistory *history;
  PfWorking *working;
  PfStage stage;
  char *active; /* the id of the active motif, or NULL */
  PfPick selected, hovered;
  PfUnits units;
  double thread_pixel;    /* mm, or 0 */
  PfLineId selected_line; /* of a selected sewing or pair: finds it again */
};

G_DEFINE_FINAL_TYPE (PfEditor, pf_editor, G_TYPE_OBJECT)

enum {
  DOCUMENT_CHANGED,
  WORKED_OUT,
  STAGE_CHANGED,
  SELECTION_CHANGED,
  HOVER_CHANGED,
  UNITS_CHANGED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
emit (PfEditor *editor, int signal)
{
  g_signal_emit (editor, signals[signal], 0);
}

/* --- The selection through changes --------------------------------------------------------------
 */

static const PfFilling *
filling_of (PfEditor *editor, size_t draft)
{
  const PfMotif *motif = pf_editor_motif (editor, draft);
  return motif != NULL ? motif->filling : NULL;
}

static guint32
sewing_crossing (const PfSewing *sewing)
{
  return sewing->entering != PF_NONE ? sewing->entering : sewing->leaving;
}

bool
pf_editor_has (PfEditor *editor, PfPick pick)
{
  const PfDocument *document = pf_editor_document (editor);
  if (pick.draft >= document->n_drafts)
    return false;
  const PfMotif *motif = pf_editor_motif (editor, pick.draft);
  const PfFilling *filling = motif != NULL ? motif->filling : NULL;
  const PfDraft *draft = document->drafts[pick.draft];
  switch (pick.kind)
    {
    case PF_PICK_REPEAT:
      return filling != NULL;
    case PF_PICK_SEWING:
      return filling != NULL && pick.index < filling->n_sewings;
    case PF_PICK_PAIR:
      return filling != NULL && pick.index < filling->n_pairs;
    case PF_PICK_PINHOLE:
      if (motif == NULL)
        return pick.loop < draft->n_curves && pick.index < draft->edges[pick.loop].n_pinholes;
      return pick.loop < motif->region->n_loops && pick.index < motif->edges[pick.loop].n_pinholes;
    case PF_PICK_NODE:
      return pick.loop < draft->n_curves && pick.index < draft->curves[pick.loop]->n_nodes;
    case PF_PICK_NONE:
      break;
    }
  return false;
}

/* Keeps in mind which cut line a selected sewing or pair belongs to. */
static void
remember_line (PfEditor *editor)
{
  const PfPick pick = editor->selected;
  if (pick.kind != PF_PICK_SEWING && pick.kind != PF_PICK_PAIR)
    return;
  const PfFilling *filling = filling_of (editor, pick.draft);
  const guint32 sewing =
      pick.kind == PF_PICK_SEWING ? pick.index : filling->pairs[pick.index].sewn_in;
  editor->selected_line = pf_crossing_line (filling, sewing_crossing (&filling->sewings[sewing]));
}

/* The same sewing or pair in another filling; false if its line isn't cut there. */
static bool
find_line_again (PfEditor *editor, PfPick *pick)
{
  const PfFilling *filling = filling_of (editor, pick->draft);
  const guint32 crossing =
      filling != NULL ? pf_filling_find_crossing (filling, editor->selected_line) : PF_NONE;
  if (crossing == PF_NONE)
    return false;
  pick->index = pick->kind == PF_PICK_SEWING ? filling->crossings[crossing].sewing
                                             : filling->crossings[crossing].pair;
  return true;
}

static bool
bring_selection_up_to_date (PfEditor *editor)
{
  const PfPick before = editor->selected;
  PfPick pick = before;
  if (pick.kind == PF_PICK_NONE)
    return false;
  /* While its filling is in work a thing can't be found; it is looked for again afterwards. */
  if (pick.kind != PF_PICK_NODE && pf_editor_busy (editor))
    return false;
  const bool by_line = pick.kind == PF_PICK_SEWING || pick.kind == PF_PICK_PAIR;
  if ((by_line && !find_line_again (editor, &pick)) || !pf_editor_has (editor, pick))
    pick = PF_PICK_NOTHING;
  editor->selected = pick;
  return !pf_pick_equal (before, pick);
}

/* The active motif stays the same one; if it is gone, the last one of the document is active. */
static bool
bring_active_up_to_date (PfEditor *editor)
{
  const PfDocument *document = pf_editor_document (editor);
  if (editor->active != NULL && pf_document_find (document, editor->active) >= 0)
    return false;
  const bool had_one = editor->active != NULL;
  g_clear_pointer (&editor->active, g_free);
  if (document->n_drafts > 0)
    editor->active = g_strdup (document->drafts[document->n_drafts - 1]->id);
  return had_one || editor->active != NULL;
}

static void
bring_up_to_date (PfEditor *editor)
{
  pf_working_set_document (editor->working, pf_editor_document (editor));
  bool selection = bring_active_up_to_date (editor);
  selection |= bring_selection_up_to_date (editor);
  const bool hover = editor->hovered.kind != PF_PICK_NONE;
  editor->hovered = PF_PICK_NOTHING;
  emit (editor, DOCUMENT_CHANGED);
  emit (editor, WORKED_OUT);
  if (selection)
    emit (editor, SELECTION_CHANGED);
  if (hover)
    emit (editor, HOVER_CHANGED);
}

static void
thread_worked_out (gpointer data)
{
  PfEditor *editor = data;
  const bool selection = bring_selection_up_to_date (editor);
  emit (editor, WORKED_OUT);
  if (selection)
    emit (editor, SELECTION_CHANGED);
}

/* --- The object ---------------------------------------------------------------------------------
 */

static void
pf_editor_dispose (GObject *object)
{
  PfEditor *editor = PF_EDITOR (object);
  g_clear_pointer (&editor->working, pf_working_free);
  if (editor->history != NULL)
    g_signal_handlers_disconnect_by_data (editor->history, editor);
  g_clear_object (&editor->history);
  g_clear_pointer (&editor->active, g_free);
  G_OBJECT_CLASS (pf_editor_parent_class)->dispose (object);
}

static void
pf_editor_class_init (PfEditorClass *class)
{
  static const char *const names[N_SIGNALS] = { "document-changed", "worked-out",
                                                "stage-changed",    "selection-changed",
                                                "hover-changed",    "units-changed" };
  G_OBJECT_CLASS (class)->dispose = pf_editor_dispose;
  for (int s = 0; s < N_SIGNALS; s++)
    signals[s] = g_signal_new (names[s], PF_TYPE_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
pf_editor_init (PfEditor *editor)
{
  editor->working = pf_working_new (thread_worked_out, editor);
}

PfEditor *
pf_editor_new (PfDocument *document)
{
  PfEditor *editor = g_object_new (PF_TYPE_EDITOR, NULL);
  pf_editor_open (editor, document);
  return editor;
}

void
pf_editor_open (PfEditor *editor, PfDocument *document)
{
  if (editor->history != NULL)
    g_signal_handlers_disconnect_by_data (editor->history, editor);
  g_clear_object (&editor->history);
  editor->history = pf_history_new (document);
  g_signal_connect_swapped (editor->history, "changed", G_CALLBACK (bring_up_to_date), editor);
  g_clear_pointer (&editor->active, g_free);
  if (document->n_drafts > 0)
    editor->active = g_strdup (document->drafts[0]->id);
  editor->selected = PF_PICK_NOTHING;
  bring_up_to_date (editor);
  emit (editor, SELECTION_CHANGED);
}

PfHistory *
pf_editor_history (PfEditor *editor)
{
  return editor->history;
}

PfDocument *
pf_editor_document (PfEditor *editor)
{
  return pf_history_current (editor->history);
}

PfStage
pf_editor_stage (PfEditor *editor)
{
  return editor->stage;
}

void
pf_editor_set_stage (PfEditor *editor, PfStage stage)
{
  if (stage == editor->stage)
    return;
  editor->stage = stage;
  emit (editor, STAGE_CHANGED);
}

int
pf_editor_active (PfEditor *editor)
{
  return editor->active != NULL ? pf_document_find (pf_editor_document (editor), editor->active)
                                : -1;
}

void
pf_editor_set_active (PfEditor *editor, int draft)
{
  const PfDocument *document = pf_editor_document (editor);
  g_return_if_fail (draft >= 0 && (size_t) draft < document->n_drafts);
  const char *id = document->drafts[draft]->id;
  if (g_strcmp0 (id, editor->active) == 0)
    return;
  g_free (editor->active);
  editor->active = g_strdup (id);
  editor->selected = PF_PICK_NOTHING;
  emit (editor, SELECTION_CHANGED);
}

PfDraft *
pf_editor_draft (PfEditor *editor)
{
  const int active = pf_editor_active (editor);
  return active >= 0 ? pf_editor_document (editor)->drafts[active] : NULL;
}

/* --- What is worked out -------------------------------------------------------------------------
 */

const PfMotif *
pf_editor_motif (PfEditor *editor, size_t n)
{
  return pf_working_motif (editor->working, n);
}

const char *
pf_editor_trouble (PfEditor *editor, size_t n, PfPoint *where)
{
  return pf_working_trouble (editor->working, n, where);
}

bool
pf_editor_is_open (PfEditor *editor, size_t n)
{
  const PfDocument *document = pf_editor_document (editor);
  const PfDraft *draft = n < document->n_drafts ? document->drafts[n] : NULL;
  return draft != NULL && draft->n_curves > 0 && !draft->curves[draft->n_curves - 1]->closed;
}

bool
pf_editor_busy (PfEditor *editor)
{
  return pf_working_busy (editor->working);
}

PfPricking *
pf_editor_pricking (PfEditor *editor)
{
  g_autoptr (GPtrArray) motifs = pf_working_motifs (editor->working, false);
  return pf_pricking_from_motifs (pf_editor_document (editor), motifs);
}

PfPricking *
pf_editor_filled (PfEditor *editor)
{
  g_autoptr (GPtrArray) motifs = pf_working_motifs (editor->working, true);
  return pf_pricking_from_motifs (pf_editor_document (editor), motifs);
}

/* --- Selecting ----------------------------------------------------------------------------------
 */

bool
pf_pick_equal (PfPick a, PfPick b)
{
  if (a.kind != b.kind)
    return false;
  switch (a.kind)
    {
    case PF_PICK_NONE:
      return true;
    case PF_PICK_REPEAT:
      return a.draft == b.draft && a.i == b.i && a.j == b.j;
    case PF_PICK_SEWING:
    case PF_PICK_PAIR:
      return a.draft == b.draft && a.index == b.index;
    case PF_PICK_PINHOLE:
    case PF_PICK_NODE:
      return a.draft == b.draft && a.loop == b.loop && a.index == b.index;
    }
  return false;
}

PfPick
pf_editor_selected (PfEditor *editor)
{
  return editor->selected;
}

PfPick
pf_editor_hovered (PfEditor *editor)
{
  return editor->hovered;
}

void
pf_editor_select (PfEditor *editor, PfPick pick)
{
  if (!pf_editor_has (editor, pick))
    pick = PF_PICK_NOTHING;
  if (pf_pick_equal (pick, editor->selected))
    return;
  if (pick.kind != PF_PICK_NONE)
    {
      g_free (editor->active);
      editor->active = g_strdup (pf_editor_document (editor)->drafts[pick.draft]->id);
    }
  editor->selected = pick;
  remember_line (editor);
  emit (editor, SELECTION_CHANGED);
}

void
pf_editor_select_line (PfEditor *editor, PfLineId line)
{
  if (editor->selected.kind == PF_PICK_SEWING || editor->selected.kind == PF_PICK_PAIR)
    editor->selected_line = line;
}

void
pf_editor_hover (PfEditor *editor, PfPick pick)
{
  if (!pf_editor_has (editor, pick))
    pick = PF_PICK_NOTHING;
  if (pf_pick_equal (pick, editor->hovered))
    return;
  editor->hovered = pick;
  emit (editor, HOVER_CHANGED);
}

/* --- Changing -----------------------------------------------------------------------------------
 */

bool
pf_editor_follows (PfEditor *editor)
{
  const PfDraft *draft = pf_editor_draft (editor);
  return draft != NULL && draft->mirror_of != NULL;
}

PfDraft *
pf_editor_edit (PfEditor *editor)
{
  const PfDraft *draft = pf_editor_draft (editor);
  return draft != NULL && draft->mirror_of == NULL ? pf_draft_copy (draft) : NULL;
}

PfUnits
pf_editor_units (PfEditor *editor)
{
  return editor->units;
}

void
pf_editor_set_units (PfEditor *editor, PfUnits units)
{
  if (editor->units == units)
    return;
  editor->units = units;
  emit (editor, UNITS_CHANGED);
}

void
pf_editor_set_thread_pixel (PfEditor *editor, double pixel)
{
  const bool same = (editor->thread_pixel > 0) == (pixel > 0);
  editor->thread_pixel = pixel;
  if (!same)
    emit (editor, SELECTION_CHANGED); /* more, or less, is said of it */
}

bool
pf_editor_shows_threads (PfEditor *editor)
{
  return editor->thread_pixel > 0;
}

bool
pf_editor_sees_threads (PfEditor *editor, size_t n)
{
  const PfMotif *motif = pf_editor_motif (editor, n);
  return editor->thread_pixel > 0 && motif != NULL && motif->filling != NULL &&
         pf_threads_show (motif, editor->thread_pixel);
}

static PfDocument *
with_draft (PfEditor *editor, PfDraft *taken)
{
  return pf_document_with_draft (pf_editor_document (editor), (size_t) pf_editor_active (editor),
                                 taken);
}

void
pf_editor_change (PfEditor *editor, PfDraft *taken, const char *name)
{
  pf_history_change (editor->history, with_draft (editor, taken), name, false);
}

void
pf_editor_change_merged (PfEditor *editor, PfDraft *taken, const char *name)
{
  pf_history_change (editor->history, with_draft (editor, taken), name, true);
}

void
pf_editor_preview (PfEditor *editor, PfDraft *taken)
{
  pf_history_preview (editor->history, with_draft (editor, taken));
}

void
pf_editor_commit (PfEditor *editor, const char *name)
{
  pf_history_commit (editor->history, name);
}

void
pf_editor_cancel (PfEditor *editor)
{
  pf_history_cancel (editor->history);
}

void
pf_editor_change_document (PfEditor *editor, PfDocument *taken, const char *name)
{
  pf_history_change (editor->history, taken, name, false);
}
