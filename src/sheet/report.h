/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the reports share: how a sewing and its place are named, in every one of them alike.
 */
#pragma once

#include "sheet.h"

/* "new", "turned", "carried", "finished": as in files, not translated. */
const char *pf_pair_kind_name (PfPairKind kind);

/* Where sewing `s` goes, as on the sheet: "pinhole 12", "bar 12-13"; with the hole's number before
 * it if it isn't on the outer outline. Not translated. */
char *pf_sewing_place_name (const PfMotif *motif, const PfSewing *sewing);

/* The stitch it begins or ends at, "1 (0, -2)": name and repeat; both, with `joiner`
 * between them, for a turned pair. */
char *pf_sewing_stitch_name (const PfMotif *motif, const PfSewing *sewing, const char *joiner);

/* The same in words, translated, as is all that follows down to pf_report_care(). */
const char *pf_pair_kind_word (PfPairKind kind);
char *pf_sewing_place_words (const PfMotif *motif, const PfSewing *sewing);
/* A pair's way: "sewing 1 – 1 (0, -2) – sewing 4". */
char *pf_pair_way_words (const PfMotif *motif, size_t pair);
/* "Motif “moon”", of several with its number: "II. Motif “moon”". */
char *pf_report_motif_heading (const PfPricking *pricking, guint m);
/* "cloth stitch" */
const char *pf_edge_words_of (PfEdgeKind kind);
/* "kept", "plain", "left out" */
const char *pf_repeat_state_words (PfRepeatState state);
/* What to take care of; each report for people has it. */
const char *pf_report_care (void);

/* Did the maker choose the state that this repeat has? */
bool pf_repeat_is_chosen (const PfMotif *motif, const PfRepeat *repeat);

/* Few enough stitches that people may read the file. */
bool pf_report_is_small (const PfPricking *pricking);
