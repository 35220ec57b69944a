/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The small marks of a pricking, drawn at a point of the page. The legend draws the same ones.
 *
 * Each kind of mark has its ink; open a group of that ink round them.
 */
#pragma once

#include "style.h"

G_BEGIN_DECLS

PfInk pf_ink_pin (void);
void pf_mark_pin (PfPage *page, const PfSizes *sizes, PfPoint at);

PfInk pf_ink_pinhole (const PfSizes *sizes);
void pf_mark_pinhole (PfPage *page, const PfSizes *sizes, PfPoint at);

PfInk pf_ink_missing (const PfSizes *sizes);
void pf_mark_missing (PfPage *page, const PfSizes *sizes, PfPoint at);

PfInk pf_ink_bead (const PfSizes *sizes);
void pf_mark_bead (PfPage *page, const PfSizes *sizes, PfPoint at);
void pf_mark_bead_hole (PfPage *page, const PfSizes *sizes, PfPoint at);

PfInk pf_ink_left_out (const PfSizes *sizes);
void pf_mark_left_out (PfPage *page, const PfSizes *sizes, PfPoint at);

/* Sewings: a filled lozenge on the pinhole, an open slot across the bar, a pennant beside either.
 */
PfInk pf_ink_at_pinhole (void);
void pf_mark_at_pinhole (PfPage *page, const PfSizes *sizes, PfPoint at);
PfInk pf_ink_round_bar (const PfSizes *sizes);
void pf_mark_round_bar (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward);
PfInk pf_ink_off_line (const PfSizes *sizes);
void pf_mark_off_line (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward);

/* Round a sewing that the maker chose herself: a ring. */
#define PF_CHOSEN_REACH 1.7 /* of PfSizes.mark */
PfInk pf_ink_chosen (const PfSizes *sizes);
void pf_mark_chosen (PfPage *page, const PfSizes *sizes, PfPoint at, PfPoint outward);

/* An arrowhead on the line from `from` to `to`, `part` of the way along. */
PfInk pf_ink_arrow (PfPairKind kind);
void pf_mark_arrow (PfPage *page, const PfSizes *sizes, PfPoint from, PfPoint to, double part);

/* Where a finished pair is cut: a bar across its line, near its end `to`. */
PfInk pf_ink_cut (const PfSizes *sizes);
void pf_mark_cut (PfPage *page, const PfSizes *sizes, PfPoint from, PfPoint to);

/* The worked edge as a band along the x axis. Half stitch: threads that cross aslant and leave it
 * open; cloth stitch: woven close. `origin` is an x from which the pattern is counted, so that
 * parts of one band fit together. */
void pf_mark_band (PfPage *page, PfEdgeKind kind, PfBox box, double origin);

/* The area of a kept or a plain repeat. */
PfInk pf_ink_repeat (PfRepeatState state, const PfSizes *sizes);

G_END_DECLS
