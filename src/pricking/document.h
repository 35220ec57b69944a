/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents: what the maker drew and chose, as it is kept in a file, undone and redone.
 *
 * A document and its drafts never change once they are made. What edits a document gives another
 * one, which shares all that stayed the same; that is why undo is exact and costs little, and why a
 * draft's address tells whether what was worked out from it still holds. Lengths in mm, angles in
 * degrees clockwise as seen on the sheet.
 */
#pragma once

#include <curve.h>
#include <gio/gio.h>
#include <step-id.h>

#include <pricking.h>

G_BEGIN_DECLS

/* --- What a document holds ----------------------------------------------------------------------
 */

/* The worked edge of one curve, as the maker wants it. */
typedef struct {
  PfEdgeKind kind;
  double gap;       /* mm between pinholes that are spaced evenly */
  bool even;        /* spaced evenly; else `pinholes` are the maker's own */
  double *pinholes; /* n_pinholes: mm along the loop, rising */
  size_t n_pinholes;
  PfEdgeStretch *stretches;
  size_t n_stretches;
} PfDraftEdge;

/* A working step by names that any document can hold: without its ground, and through changes. */
typedef struct {
  PfWorkKind kind;
  char *ground; /* whose stitch it is */
  char *stitch; /* its name in that ground */
  int i, j;
  PfSideName side;
  bool leaves;
} PfPillowStep;

typedef struct {
  PfPillowStep step;
  char *text;
} PfPillowNote;

typedef enum { PF_PILLOW_NOT_BEGUN, PF_PILLOW_BEGUN, PF_PILLOW_DONE } PfPillowState;

/* How far a motif is worked on the pillow, and what the maker noted there. */
typedef struct {
  PfPillowState state;
  PfPillowStep at;     /* of a motif begun: the step that is to be done next */
  PfPillowNote *notes; /* n_notes: what she did otherwise */
  size_t n_notes;
} PfPillow;

/* One motif as the maker drew it: its curves, its edges, its ground, and her choices. */
typedef struct {
  int refs;           /* private */
  char *id;           /* "m1"; no two in a document are alike, and it never changes */
  char *name;         /* for people */
  char *notes;        /* "" for none */
  PfCurve **curves;   /* n_curves: the outer one, then holes; the last may be open, being drawn */
  PfDraftEdge *edges; /* n_curves */
  size_t n_curves;
  PfGround *ground;           /* NULL: not filled yet */
  char *ground_json;          /* the file's text, if it isn't one that comes with the program */
  PfFillingSettings settings; /* its arrays are the draft's own */
  PfThreadUse thread;
  PfPillow pillow; /* an image's own, too: it is worked by itself */
  char *mirror_of; /* the id of the motif that this one is the mirror image of, or NULL. Then its
                      curves, edges, ground and settings follow that one's */
  PfAxis mirror_axis;
} PfDraft;

/* A picture that lies under the drawing. */
typedef struct {
  char *file;      /* the name of a PNG or JPEG file, whole */
  PfAffine map;    /* from its pixels to the sheet, mm */
  double strength; /* 0 not to be seen to 1 */
  bool shown;
} PfUnderlay;

/* The parts of what is printed, in their order: a book. */
typedef enum {
  PF_BOOK_PRICKING = 1 << 0,
  PF_BOOK_NOTES = 1 << 1,     /* working notes, with a drawing for each kind of repeat */
  PF_BOOK_WORKSHEET = 1 << 2, /* the same drawings without the pairs, to be filled in */
  PF_BOOK_ANSWERS = 1 << 3,   /* and with them */
  PF_BOOK_REPORT = 1 << 4,    /* the pair-count report */
} PfBookParts;

/* What is printed, and what is on the pricking's own sheets. */
typedef struct {
  const PfPaper *paper;
  double enlarge;  /* 1 for true size */
  bool pins_only;  /* the plain pricking, for the pillow */
  bool mirror;     /* seen from the other side */
  bool background; /* the drawing's other lines */
  bool edge_strip; /* every edge unrolled, on pages of its own */
  int copies;
  PfBookParts parts;
  bool pair_colours; /* in the drawings of repeats */
} PfPageSetup;

/* "pricking", "notes"...: the parts by name, as in files, in their order; NULL-terminated. */
const char *const *pf_book_part_names (void);

typedef struct {
  int refs; /* private */
  char *title, *notes;
  double width, height; /* of the drawing, mm */
  PfPageSetup page;
  PfDraft **drafts;
  size_t n_drafts;
  GPtrArray *background; /* of PfPolyline; shared */
  PfUnderlay *underlay;  /* NULL for none */
} PfDocument;

PfDocument *pf_document_new (void); /* empty: A4, no motif */
PfDocument *pf_document_ref (PfDocument *document);
void pf_document_unref (PfDocument *document);
PfDraft *pf_draft_ref (PfDraft *draft);
void pf_draft_unref (PfDraft *draft);

/* The number of the draft of that id; -1 if there is none. */
int pf_document_find (const PfDocument *document, const char *id);

/* The outlines of a drawing as new motifs, all with `like`'s edge kind and gap, ground and
 * settings; `chosen` has a flag for each outline (NULL: all). The ground's origin lies in the
 * middle of each. The drawing's size and background become the document's if it has no motif yet,
 * else its background is added, and the document enlarged where the drawing doesn't lie in it. */
PfDocument *pf_document_with_drawing (const PfDocument *document, const PfDrawing *drawing,
                                      const bool *chosen, const PfDraft *like);

/* --- Edits: each gives a new document -----------------------------------------------------------
 */

/* A draft to start from: no curves, half stitch edge, edge gap 2 mm, the ground given (takes a
 * reference; may be NULL) at gap 5 mm. */
PfDraft *pf_draft_new (const char *name, PfGround *ground);
/* A copy to change before others see it; it has one reference. */
PfDraft *pf_draft_copy (const PfDraft *draft);
/* A copy of a document, which shares the drafts, to change before others see it. */
PfDocument *pf_document_copy (const PfDocument *document);

/* Takes over `draft`. Adding gives it an id of its own. */
PfDocument *pf_document_with_draft (const PfDocument *document, size_t n, PfDraft *draft);
PfDocument *pf_document_with_draft_added (const PfDocument *document, PfDraft *draft);
/* Motifs that follow the one removed stay, as drafts of their own. */
PfDocument *pf_document_without_draft (const PfDocument *document, size_t n);
/* A mirror image of draft n is added, which follows it. */
PfDocument *pf_document_with_mirror_image (const PfDocument *document, size_t n, PfAxis axis);
PfDocument *pf_document_with_underlay (const PfDocument *document, const PfUnderlay *underlay);

/* Setters for a draft that is still one's own copy. Arrays are copied; of curves and grounds a
 * reference is taken. */
/* Changes curve n. Pinholes, stretches and chosen places stay where they were on the sheet, or at
 * the nearest point of the same segment (of the whole curve, if it has other segments than before);
 * those at a node go with it. With `map` (may be NULL) they are mapped by it first. */
void pf_draft_set_curve (PfDraft *draft, size_t n, PfCurve *curve, const PfAffine *map);
void pf_draft_add_curve (PfDraft *draft, PfCurve *curve);
void pf_draft_remove_curve (PfDraft *draft, size_t n);
/* Curves, edges, places and the ground's origin, turn and gap, all mapped by a similarity. */
void pf_draft_map (PfDraft *draft, PfAffine map);
/* Another ground than before (pf_ground_equal()) takes all choices away: they speak of its
 * stitches.
 */
void pf_draft_set_ground (PfDraft *draft, PfGround *ground, const char *json);
void pf_draft_set_name (PfDraft *draft, const char *name);
void pf_draft_set_notes (PfDraft *draft, const char *notes);
void pf_draft_set_pinholes (PfDraft *draft, size_t curve, const double *pinholes, size_t n);
void pf_draft_set_pinholes_even (PfDraft *draft, size_t curve, double gap);
void pf_draft_set_stretches (PfDraft *draft, size_t curve, const PfEdgeStretch *stretches,
                             size_t n);
/* The choice for a repeat; PF_REPEAT_WHOLE takes it away. */
void pf_draft_set_repeat (PfDraft *draft, int i, int j, PfRepeatState state);
/* Replaces the choice of pair, or of place, for the choice's line; a turn does so for both of its
 * lines. */
void pf_draft_set_sewing (PfDraft *draft, const PfSewingChoice *choice);
/* Takes all choices that speak of a line away. */
void pf_draft_reset_sewing (PfDraft *draft, PfLineId line);
void pf_draft_reset_choices (PfDraft *draft);
/* Takes another thread (copied), colours and all. */
void pf_draft_set_thread (PfDraft *draft, const PfThreadUse *thread);

/* --- At the pillow ------------------------------------------------------------------------------
 */

/* The motif is begun, and the step `at` of its ground `ground` is next; or it is not begun, or done
 * (`at` and `ground` are not looked at). As all setters, of a draft that is one's own copy. */
void pf_draft_set_pillow (PfDraft *draft, PfPillowState state, const PfGround *ground,
                          const PfStepId *at);
/* Her note for a step; an empty one takes it away. */
void pf_draft_set_pillow_note (PfDraft *draft, const PfGround *ground, const PfStepId *step,
                               const char *text);
void pf_draft_remove_pillow_note (PfDraft *draft, size_t note);

/* Where the maker is in pf_motif_steps() of `motif`, worked out from the draft that has `pillow`:
 * the number of the next step, or how many there are once it is done. A step that isn't there any
 * more gives the nearest earlier one (pf_working_steps_find_near()); with another ground, 0. */
size_t pf_pillow_position (const PfPillow *pillow, const PfMotif *motif);
/* The note for a step of a ground, or NULL. Borrowed. */
const char *pf_pillow_find_note (const PfPillow *pillow, const PfGround *ground,
                                 const PfStepId *step);
/* The step that a note belongs to, or how many there are: it belongs to none now. */
size_t pf_pillow_note_position (const PfPillow *pillow, size_t note, const PfMotif *motif);

/* Would both drafts be worked out alike? So if they differ only in notes and in what is done at the
 * pillow. May say no where the answer is yes. */
bool pf_draft_works_alike (const PfDraft *a, const PfDraft *b);

/* --- From drafts to motifs ----------------------------------------------------------------------
 */

/* A draft that follows another one, made whole: its own curves, edges, ground and settings. Any
 * other draft is given as it is. Release with pf_draft_unref(). */
PfDraft *pf_document_resolve (const PfDocument *document, size_t n);

/* Works a resolved draft out: region, edges and, if it has a ground, the filling. The error names
 * the trouble, and `*where` (may be NULL) gets its place on the sheet, or a point with NAN. Safe in
 * any thread. */
PfMotif *pf_motif_new (const PfDraft *draft, PfPoint *where, GError **error);

/* A pricking of all drafts of a document that have a ground; the first error names its motif. */
PfPricking *pf_document_fill (const PfDocument *document, GError **error);
/* The same, of motifs that are worked out already (PfMotif, referenced). */
PfPricking *pf_pricking_from_motifs (const PfDocument *document, GPtrArray *motifs);

/* --- Files --------------------------------------------------------------------------------------
 */

#define PF_DOCUMENT_SUFFIX ".pinfold"
#define PF_DOCUMENT_VERSION 1

/* The text of a document's file: JSON, keys in a fixed order, the same bytes for the same
 * document. File names of pictures are written relative to `folder` (may be NULL) where they lie
 * in it. Free with g_free(). */
char *pf_document_to_json (const PfDocument *document, const char *folder, gsize *n);
PfDocument *pf_document_parse (const char *json, gsize n, const char *name, const char *folder,
                               GError **error);
PfDocument *pf_document_load (const char *filename, GError **error);

/* Saves whole or not at all; what was there before is kept as FILE~. */
bool pf_document_save (const PfDocument *document, const char *filename, GError **error);

/* --- History ------------------------------------------------------------------------------------
 */

/* All states of a document, one after another, each with the name of the change that led to it. */
#define PF_TYPE_HISTORY (pf_history_get_type ())
G_DECLARE_FINAL_TYPE (PfHistory, pf_history, PF, HISTORY, GObject)

/* Starts with `document` (takes a reference), which counts as saved. Signal "changed": another
 * document is current, or what can be undone, or whether it is saved, changed. */
PfHistory *pf_history_new (PfDocument *document);
/* What the maker sees now: the preview if there is one. Borrowed. */
PfDocument *pf_history_current (PfHistory *history);

/* Makes `document` (taken over) the current one; what was undone before is gone. `name` says what
 * changed, translated. With `merge`, a change of the same name as the last is one with it. A
 * document that is the current one changes nothing. */
void pf_history_change (PfHistory *history, PfDocument *document, const char *name, bool merge);
/* Shows `document` (taken over) while something is dragged: not a change yet. */
void pf_history_preview (PfHistory *history, PfDocument *document);
/* Makes the preview a change; or takes it back. */
void pf_history_commit (PfHistory *history, const char *name);
void pf_history_cancel (PfHistory *history);
bool pf_history_previewing (PfHistory *history);

/* The name of the change that can be undone, or redone; NULL if there is none. */
const char *pf_history_undo_name (PfHistory *history);
const char *pf_history_redo_name (PfHistory *history);
void pf_history_undo (PfHistory *history);
void pf_history_redo (PfHistory *history);

void pf_history_set_saved (PfHistory *history);   /* the current document is the one in the file */
void pf_history_set_unsaved (PfHistory *history); /* no state is */
bool pf_history_is_saved (PfHistory *history);

/* --- Journal ------------------------------------------------------------------------------------
 */

/* Unsaved work, written to a file of its own at most half a second after each change, in another
 * thread, and taken away when it is saved or given up. */
typedef struct PfJournal PfJournal;

/* A journal in `folder` (made if it isn't there) of work on `filename` (NULL: not saved yet).
 * Another program that lists the folder sees that it is in use for as long as this one lives. */
PfJournal *pf_journal_new (const char *folder, const char *filename, GError **error);
void pf_journal_set_filename (PfJournal *journal, const char *filename);
/* Has `document` written soon. NULL: nothing is unsaved, the file is removed. */
void pf_journal_write (PfJournal *journal, PfDocument *document);
/* Waits until all is written; the last error, if there was one since the last call. */
bool pf_journal_flush (PfJournal *journal, GError **error);
/* The last error since it was last asked for, or NULL; doesn't wait. Free with g_error_free(). */
GError *pf_journal_take_error (PfJournal *journal);
/* Flushes; removes the file, or leaves it to be found at the next start. */
void pf_journal_free (PfJournal *journal, bool remove);

/* Work that was left behind: by a crash, by a power cut. */
typedef struct {
  char *journal;      /* its file */
  char *filename;     /* of the document, or NULL */
  char *title;        /* of the document */
  GDateTime *written; /* when */
} PfLeftWork;

/* What lies in `folder` and is in use by no program; free with g_ptr_array_unref(). */
GPtrArray *pf_journal_list (const char *folder);
PfDocument *pf_journal_load (const PfLeftWork *left, GError **error);
bool pf_journal_discard (const PfLeftWork *left, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfDocument, pf_document_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PfDraft, pf_draft_unref)

G_END_DECLS
