/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The words beside the drawing at the pillow: the present step in large letters, those round it in
 * smaller ones, her note, what is left.
 */
#pragma once

#include <gtk/gtk.h>

#include "pillow-place.h"

G_BEGIN_DECLS

#define PF_TYPE_PILLOW_WORDS (pf_pillow_words_get_type ())
G_DECLARE_FINAL_TYPE (PfPillowWords, pf_pillow_words, PF, PILLOW_WORDS, GtkBox)

GtkWidget *pf_pillow_words_new (PfEditor *editor);

/* Shows a place (borrowed plan; NULL: nothing), with letters of `text` pixels. */
void pf_pillow_words_show (PfPillowWords *words, const PfPillowPlan *plan, size_t place, bool whole,
                           double text);
/* All that is to be heard of the place that is shown. Free with g_free(). */
char *pf_pillow_words_spoken (PfPillowWords *words);

/* Opens the entry for the step's note, with the keyboard in it; or closes it, if it is open (then
 * true). What is typed is in the document at once. Signal "note-closed". */
void pf_pillow_words_open_note (PfPillowWords *words);
bool pf_pillow_words_close_note (PfPillowWords *words);

G_END_DECLS
