/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Numbers that the maker types in a panel. What can't be read, or is out of range, is said, and the
 * last number stays. A spin button of the style class "length" holds mm, and shows and reads them
 * in the maker's unit, which is written behind: "4.00 mm", "0.157 in"; she may type another unit,
 * or a fraction of an inch. One of the class "area" does the same with mm².
 */
#pragma once

#include "panel.h"

G_BEGIN_DECLS

/* How many decimals of an inch are shown. */
#define PF_INCH_DECIMALS 3

/* Looks after all spin buttons in `inside`, which belongs to the panel. Once for each. */
void pf_number_entries_prepare (GtkWidget *inside, PfPanel *panel);

G_END_DECLS
