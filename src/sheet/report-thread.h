/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the reports say of thread: how much each bobbin takes, and whether the thread suits the gap.
 */
#pragma once

#include <pricking.h>

G_BEGIN_DECLS

/* How much thread a motif takes. */
typedef struct {
  double
      *bobbins; /* 2 for each pair, left and right as it is sewn in: mm, what is spare included */
  double total; /* mm */
} PfThreadNeeds;

/* False, and nothing is filled in, if the motif's thread isn't chosen. */
bool pf_thread_needs (PfThreadNeeds *needs, const PfMotif *motif);
void pf_thread_needs_clear (PfThreadNeeds *needs);

/* The thread in words, a line with its end. Free with g_free(). */
char *pf_report_thread_words (const PfThreadUse *use);

/* The part of the text report; nothing if the thread isn't chosen. */
void pf_report_append_thread (GString *text, const PfMotif *motif);
/* The same of all motifs together. */
void pf_report_append_thread_total (GString *text, const PfPricking *pricking);

/* "open", "fits", "close", "unknown": as in files, not translated. */
const char *pf_fit_name (PfFit fit);

G_END_DECLS
