/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How the threads of a close-up are drawn.
 */
#pragma once

#include <close-up.h>

#include "view.h"

G_BEGIN_DECLS

#define PF_COLOUR_THREAD "#efe9da"      /* undyed */
#define PF_COLOUR_THREAD_SIDE "#4a4238" /* its outline */
#define PF_COLOUR_PIN "#2f5d8a"

/* Draws a close-up as the view shows it: undyed threads, and those in `colours` (one for each
 * thread, borrowed, NULL for undyed; or NULL for none) in theirs. */
void pf_draw_close_up (PfPage *page, const PfView *view, const PfCloseUp *close_up,
                       const char *const *colours);

G_END_DECLS
