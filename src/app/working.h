/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Working out: the motifs of the current document, each made from its draft once and kept for as
 * long as that draft is in the document. Small ones are worked out at once, so that a drag shows
 * them in the same frame; large ones in another thread, where only the latest draft counts.
 */
#pragma once

#include <document.h>

G_BEGIN_DECLS

typedef struct PfWorking PfWorking;

/* `done` is called with `data` in the main loop whenever something came out of a thread. */
PfWorking *pf_working_new (void (*done) (gpointer data), gpointer data);
/* What still runs in a thread ends without a word. */
void pf_working_free (PfWorking *working);

/* Goes on to a document: keeps what still holds, works out the rest. */
void pf_working_set_document (PfWorking *working, const PfDocument *document);

/* NULL while in work or in trouble. */
const PfMotif *pf_working_motif (const PfWorking *working, size_t n);
const char *pf_working_trouble (const PfWorking *working, size_t n, PfPoint *where);
bool pf_working_busy (const PfWorking *working);
/* References to all motifs that came out, in the order of the document; with `filled`, only those
 * with a filling. */
GPtrArray *pf_working_motifs (const PfWorking *working, bool filled);

G_END_DECLS
