/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The editor: what one window works on. It keeps a document with its history, what is worked out
 * from it, the motif and the thing selected, and tells everybody when one of them changes. It knows
 * no widget.
 *
 * What is worked out is always that of the current document, or none: while a large filling is in
 * work, pf_editor_motif() gives NULL.
 *
 * Signals:
 *   "document-changed"   the current document (or preview) is another one
 *   "worked-out"         what pf_editor_motif() or _trouble() gives changed
 *   "stage-changed"      pf_editor_stage()
 *   "selection-changed"  the active motif, or pf_editor_selected()
 *   "hover-changed"      pf_editor_hovered()
 *   "units-changed"      pf_editor_units()
 */
#pragma once

#include <document.h>
#include <sheet.h>

#include "length.h"

G_BEGIN_DECLS

/* The steps of the job, between which the maker goes back and forth. */
typedef enum {
  PF_STAGE_OUTLINE,
  PF_STAGE_EDGE,
  PF_STAGE_GROUND,
  PF_STAGE_SEWINGS,
  PF_STAGE_SHEET,
  PF_N_STAGES
} PfStage;

/* What can be selected in a motif. */
typedef enum {
  PF_PICK_NONE,
  PF_PICK_REPEAT,  /* i, j */
  PF_PICK_SEWING,  /* index: of PfFilling.sewings */
  PF_PICK_PAIR,    /* index: of PfFilling.pairs */
  PF_PICK_PINHOLE, /* loop, index */
  PF_PICK_NODE,    /* loop (the curve's number), index */
} PfPickKind;

typedef struct {
  PfPickKind kind;
  size_t draft; /* number of the motif in the document */
  int i, j;
  size_t loop;
  guint32 index;
} PfPick;

#define PF_PICK_NOTHING ((PfPick){ .kind = PF_PICK_NONE })

#define PF_TYPE_EDITOR (pf_editor_get_type ())
G_DECLARE_FINAL_TYPE (PfEditor, pf_editor, PF, EDITOR, GObject)

/* Takes a reference to the document. */
PfEditor *pf_editor_new (PfDocument *document);
/* Goes over to another document, with a history of its own. */
void pf_editor_open (PfEditor *editor, PfDocument *document);

/* Both borrowed. The history must be changed through the functions below, undo and redo aside. */
PfHistory *pf_editor_history (PfEditor *editor);
PfDocument *pf_editor_document (PfEditor *editor);

PfStage pf_editor_stage (PfEditor *editor);
void pf_editor_set_stage (PfEditor *editor, PfStage stage);

/* The number of the active motif; -1 if the document has none. */
int pf_editor_active (PfEditor *editor);
void pf_editor_set_active (PfEditor *editor, int draft);
/* The active draft as it is in the document (it may follow another); NULL. Borrowed. */
PfDraft *pf_editor_draft (PfEditor *editor);

/* --- What is worked out -------------------------------------------------------------------------
 */

/* Motif n worked out; NULL if it is in work or in trouble. Borrowed. Its filling may be NULL: no
 * ground is chosen yet. */
const PfMotif *pf_editor_motif (PfEditor *editor, size_t n);
/* What is wrong with motif n, or NULL; `*where` (may be NULL) gets the place, or NANs. */
const char *pf_editor_trouble (PfEditor *editor, size_t n, PfPoint *where);
/* Is the last outline of motif n open? While it is drawn that is no trouble yet. */
bool pf_editor_is_open (PfEditor *editor, size_t n);
/* Is something still in work in another thread? */
bool pf_editor_busy (PfEditor *editor);
/* All motifs that are worked out, as a pricking; only those with a filling, to be printed and
 * reported. Free with pf_pricking_free(). */
PfPricking *pf_editor_pricking (PfEditor *editor);
PfPricking *pf_editor_filled (PfEditor *editor);

/* --- Selecting ----------------------------------------------------------------------------------
 */

PfPick pf_editor_selected (PfEditor *editor);
PfPick pf_editor_hovered (PfEditor *editor);
/* A selected sewing or pair stays selected through changes of the filling if its cut line is still
 * there. Selecting a thing of another motif makes that one active. */
void pf_editor_select (PfEditor *editor, PfPick pick);
/* Another cut line of the selected sewing or pair, by which it is to be found again. */
void pf_editor_select_line (PfEditor *editor, PfLineId line);
void pf_editor_hover (PfEditor *editor, PfPick pick);
bool pf_pick_equal (PfPick a, PfPick b);
/* Does the pick name something that is there now? */
bool pf_editor_has (PfEditor *editor, PfPick pick);
/* The thing in words, as it is spoken and shown. Free with g_free(). */
char *pf_editor_describe (PfEditor *editor, PfPick pick);

/* The mm to a pixel at which threads are shown as they lie; 0: they are hidden. What lies at a
 * place and what is said of a pair follow from that. */
void pf_editor_set_thread_pixel (PfEditor *editor, double pixel);
bool pf_editor_shows_threads (PfEditor *editor);
/* Can those of motif n be seen, or are they too small? */
bool pf_editor_sees_threads (PfEditor *editor, size_t n);

/* --- Lengths ------------------------------------------------------------------------------------
 */

/* The unit in which lengths are read and typed; mm at first. Documents are in mm. */
PfUnits pf_editor_units (PfEditor *editor);
void pf_editor_set_units (PfEditor *editor, PfUnits units);
/* "12.5 mm", with so many decimals (one more in inches); "12.5, 3.0 mm". Free with g_free(). */
char *pf_editor_length (PfEditor *editor, double mm, int decimals);
char *pf_editor_place (PfEditor *editor, PfPoint at, int decimals);

/* --- Changing -----------------------------------------------------------------------------------
 */

/* A copy of the active draft to change; NULL if there is none, or if it follows another one (say so
 * to the maker: pf_editor_follows()). */
PfDraft *pf_editor_edit (PfEditor *editor);
bool pf_editor_follows (PfEditor *editor);
/* Puts the changed copy in the active draft's place. `name` says what changed, translated. */
void pf_editor_change (PfEditor *editor, PfDraft *taken, const char *name);
/* Merges with the change before if that has the same name: for numbers stepped up and down. */
void pf_editor_change_merged (PfEditor *editor, PfDraft *taken, const char *name);
/* While something is dragged; then commit or cancel. */
void pf_editor_preview (PfEditor *editor, PfDraft *taken);
void pf_editor_commit (PfEditor *editor, const char *name);
void pf_editor_cancel (PfEditor *editor);
/* Changes of the whole document. */
void pf_editor_change_document (PfEditor *editor, PfDocument *taken, const char *name);

G_END_DECLS
