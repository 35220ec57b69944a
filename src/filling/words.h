/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What things are called in sentences for the maker. All translated, and all to be freed with
 * g_free() unless const.
 */
#pragma once

#include "filling-private.h"

/* A stitch: "pin 3" (the closing stitch of pin 3 too), "the middle", "stitch nw"; and the same at
 * the start of a sentence. */
char *pf_words_stitch (const PfGround *ground, int k);
char *pf_words_stitch_first (const PfGround *ground, int k);
/* "pin 3 of repeat (2, -1)" */
char *pf_words_stitch_of (const PfGround *ground, PfStitchId id);
/* A missing stitch as seen from another: "pin 3", or "pin 3 of the next repeat"; and the same at
 * the start of a sentence. */
char *pf_words_missing (const PfGround *ground, PfStitchId missing, PfStitchId from);
char *pf_words_missing_first (const PfGround *ground, PfStitchId missing, PfStitchId from);
/* A cut line: "the line out of the left of pin 3 of repeat (2, -1)". */
char *pf_words_line (const PfGround *ground, PfLineId line);
/* "from its left", where a pair comes in at a stitch of so many pairs. */
const char *pf_words_from_side (int n_pairs, PfSide side);
/* "on its left", where a pair goes out. */
const char *pf_words_on_side (int n_pairs, PfSide side);
/* "pinhole 12", "the bar between pinholes 3 and 4", in a hole of the shape with its number. */
char *pf_words_place (const PfSewing *sewing);

/* What happens at a sewing, in one sentence. */
char *pf_words_sewing (const PfFilling *filling, const PfGround *ground, guint32 sewing);
