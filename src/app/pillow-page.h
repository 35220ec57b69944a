/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * At the pillow: the active motif step by step, for a screen beside the pillow. Space, Return and
 * the arrow and page keys move on and back, as pedals send them; so does a tap on the words.
 *
 * It works only while it is shown. Signals: "leave": she wants to go back to the drawing;
 * "whole-changed": she takes the steps of a repeat as one from now on, or one by one.
 */
#pragma once

#include <gtk/gtk.h>

#include "pillow-place.h"
#include "preferences.h"

G_BEGIN_DECLS

#define PF_TYPE_PILLOW_PAGE (pf_pillow_page_get_type ())
G_DECLARE_FINAL_TYPE (PfPillowPage, pf_pillow_page, PF, PILLOW_PAGE, GtkBox)

GtkWidget *pf_pillow_page_new (PfEditor *editor);

/* The size of the present step's letters, pixels: PF_PILLOW_TEXT_MIN to PF_PILLOW_TEXT_MAX. */
double pf_pillow_page_text (PfPillowPage *page);
void pf_pillow_page_set_text (PfPillowPage *page, double pixels);

/* Takes the steps of a repeat as one. */
void pf_pillow_page_set_whole (PfPillowPage *page, bool whole);
bool pf_pillow_page_whole (PfPillowPage *page);

/* The plan and the place that are shown; NULL if the motif can't be worked. Borrowed. */
const PfPillowPlan *pf_pillow_page_plan (PfPillowPage *page, size_t *place);

G_END_DECLS
