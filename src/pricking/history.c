/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * History: every state of a document in a row, and which of them is now. Documents never change, so
 * a state kept is a state that comes back to the last bit.
 */
#include "document-private.h"

typedef struct {
  PfDocument *document;
  char *name; /* of the change that led to it; NULL for the first */
} State;

struct _PfHistory {
  GObject parent;
  GPtrArray *states; /* of State, the oldest first */
  guint now;
  gint64 saved;        /* the state in the file; -1: none */
  PfDocument *preview; /* shown in the place of the state now */
  bool open;           /* a change of the same name may be one with the last */
};

G_DEFINE_FINAL_TYPE (PfHistory, pf_history, G_TYPE_OBJECT)

static guint changed;

static State *
state_new (PfDocument *document, const char *name)
{
  State *state = g_new (State, 1);
  *state = (State){ document, g_strdup (name) };
  return state;
}

static void
state_free (void *data)
{
  State *state = data;
  pf_document_unref (state->document);
  g_free (state->name);
  g_free (state);
}

static State *
state_at (const PfHistory *history, guint n)
{
  return g_ptr_array_index (history->states, n);
}

static void
pf_history_init (PfHistory *history)
{
  history->states = g_ptr_array_new_with_free_func (state_free);
}

static void
pf_history_finalize (GObject *object)
{
  PfHistory *history = PF_HISTORY (object);
  g_ptr_array_unref (history->states);
  pf_document_unref (history->preview);
  G_OBJECT_CLASS (pf_history_parent_class)->finalize (object);
}

static void
pf_history_class_init (PfHistoryClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pf_history_finalize;
  changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                          NULL, G_TYPE_NONE, 0);
}

PfHistory *
pf_history_new (PfDocument *document)
{
  PfHistory *history = g_object_new (PF_TYPE_HISTORY, NULL);
  g_ptr_array_add (history->states, state_new (pf_document_ref (document), NULL));
  return history;
}

PfDocument *
pf_history_current (PfHistory *history)
{
  return history->preview ? history->preview : state_at (history, history->now)->document;
}

static bool
can_merge (const PfHistory *history, const char *name)
{
  return history->open && history->saved != history->now &&
         g_strcmp0 (state_at (history, history->now)->name, name) == 0;
}

static void
add_state (PfHistory *history, PfDocument *document, const char *name)
{
  if (history->now + 1 < history->states->len)
    g_ptr_array_remove_range (history->states, history->now + 1,
                              history->states->len - history->now - 1);
  if (history->saved > history->now)
    history->saved = -1;
  g_ptr_array_add (history->states, state_new (document, name));
  history->now++;
  history->open = true;
}

void
pf_history_change (PfHistory *history, PfDocument *document, const char *name, bool merge)
{
  State *state = state_at (history, history->now);
  const bool previewed = history->preview != NULL;
  g_clear_pointer (&history->preview, pf_document_unref);
  if (document == state->document)
    {
      pf_document_unref (document);
      if (previewed)
        g_signal_emit (history, changed, 0);
      return;
    }
  if (merge && can_merge (history, name))
    {
      pf_document_unref (state->document);
      state->document = document;
    }
  else
    add_state (history, document, name);
  g_signal_emit (history, changed, 0);
}

void
pf_history_preview (PfHistory *history, PfDocument *document)
{
  PfDocument *old = history->preview;
  history->preview = document;
  pf_document_unref (old);
  g_signal_emit (history, changed, 0);
}

void
pf_history_commit (PfHistory *history, const char *name)
{
  if (history->preview)
    pf_history_change (history, pf_document_ref (history->preview), name, false);
}

void
pf_history_cancel (PfHistory *history)
{
  if (!history->preview)
    return;
  g_clear_pointer (&history->preview, pf_document_unref);
  g_signal_emit (history, changed, 0);
}

bool
pf_history_previewing (PfHistory *history)
{
  return history->preview != NULL;
}

const char *
pf_history_undo_name (PfHistory *history)
{
  return state_at (history, history->now)->name;
}

const char *
pf_history_redo_name (PfHistory *history)
{
  return history->now + 1 < history->states->len ? state_at (history, history->now + 1)->name
                                                 : NULL;
}

static void
go_to (PfHistory *history, guint n)
{
  g_clear_pointer (&history->preview, pf_document_unref);
  history->now = n;
  history->open = false;
  g_signal_emit (history, changed, 0);
}

void
pf_history_undo (PfHistory *history)
{
  if (history->now > 0)
    go_to (history, history->now - 1);
}

void
pf_history_redo (PfHistory *history)
{
  if (history->now + 1 < history->states->len)
    go_to (history, history->now + 1);
}

void
pf_history_set_saved (PfHistory *history)
{
  history->saved = history->now;
  g_signal_emit (history, changed, 0);
}

void
pf_history_set_unsaved (PfHistory *history)
{
  history->saved = -1;
  g_signal_emit (history, changed, 0);
}

bool
pf_history_is_saved (PfHistory *history)
{
  return history->saved == history->now;
}
