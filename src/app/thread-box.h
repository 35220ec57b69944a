/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The thread of the active motif: chosen from the table or by its thickness, judged against the
 * gap; how much of it the bobbins take; and which bobbins have a colour. A part of a panel.
 */
#pragma once

#include "panel.h"

G_BEGIN_DECLS

#define PF_TYPE_THREAD_BOX (pf_thread_box_get_type ())
G_DECLARE_FINAL_TYPE (PfThreadBox, pf_thread_box, PF, THREAD_BOX, GtkBox)

/* Shows the thread of `draft` (NULL: none); `motif` is what is worked out of it, or NULL. Called
 * from its panel's update(). */
void pf_thread_box_show (PfThreadBox *box, const PfDraft *draft, const PfMotif *motif);

G_END_DECLS
