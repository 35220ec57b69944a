/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The drawing beside the pillow: the part of the motif round the present step, large, with the
 * ground turned so that it is worked downwards. Done, present, next and later pins differ in shape.
 *
 * Signal "chosen" (guint step): a repeat was clicked; its first step of those that belong together.
 */
#pragma once

#include <gtk/gtk.h>

#include "pillow-place.h"

G_BEGIN_DECLS

#define PF_TYPE_PILLOW_VIEW (pf_pillow_view_get_type ())
G_DECLARE_FINAL_TYPE (PfPillowView, pf_pillow_view, PF, PILLOW_VIEW, GtkWidget)

GtkWidget *pf_pillow_view_new (void);

/* Shows a place (borrowed plan; NULL: nothing), the steps of its span as one. `text` is the size of
 * its numbers, pixels; the drawing is as much larger. */
void pf_pillow_view_show (PfPillowView *view, const PfPillowPlan *plan, size_t place, bool whole,
                          double text);
/* What is said of it: the name of the child that has the keyboard. */
void pf_pillow_view_tell (PfPillowView *view, const char *words);
/* The place of the drawing at a pixel, mm, and back. */
PfPoint pf_pillow_view_to_sheet (PfPillowView *view, PfPoint pixel);
PfPoint pf_pillow_view_to_screen (PfPillowView *view, PfPoint place);

G_END_DECLS
