/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How single pairs are told apart in a drawing of one repeat: by the dashes of their lines and
 * their numbers, so that a grey print is enough; colour can help.
 *
 * The colours are those of M. Okabe and K. Ito, "Color Universal Design" (2008), which people with
 * the common kinds of colour blindness can tell from one another; yellow is left out, as it is too
 * light for lines on white paper.
 */
#pragma once

#include "page.h"

G_BEGIN_DECLS

#define PF_PAIR_STYLES 8

/* The ink of the line of pair n, counted from 0, `width` mm wide; in its colour, or black. */
PfInk pf_pair_ink (guint32 n, double width, bool colour);

G_END_DECLS
