/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the files of the page at the pillow share: pillow-page.c (what it shows, and its moves),
 * pillow-page-keys.c, pillow-page-controls.c (its buttons).
 */
#pragma once

#include "pillow-page.h"
#include "pillow-view.h"
#include "pillow-words.h"

G_BEGIN_DECLS

struct _PfPillowPage {
  GtkBox parent_instance;

  PfEditor *editor;
  PfPillowPlan *plan; /* of the motif that is shown, or NULL */
  size_t place;
  bool whole;
  double text;
  bool updating;

  GtkStack *stack;
  GtkLabel *trouble;
  PfPillowView *view;
  PfPillowWords *words;
  GtkScrolledWindow *scroller;
  GtkWidget *back, *forward, *note, *chooser;
  GtkEntry *repeat;
  GtkLabel *n_repeats;
  GtkToggleButton *whole_button;
};

/* pillow-page.c: shows what the document has now. */
void pf_pillow_page_update (PfPillowPage *page);
/* Moves; `leap` as pf_pillow_go() has it. */
void pf_pillow_page_go (PfPillowPage *page, size_t place, bool leap);
void pf_pillow_page_forward (PfPillowPage *page);
void pf_pillow_page_back (PfPillowPage *page);
/* Goes to the repeat whose number is in the entry. */
void pf_pillow_page_repeat_given (PfPillowPage *page);
void pf_pillow_page_leave (PfPillowPage *page);
/* Gives the keyboard to the drawing. */
void pf_pillow_page_to_view (PfPillowPage *page);

/* pillow-page-keys.c: a handler of "key-pressed". */
gboolean pf_pillow_page_key (GtkEventControllerKey *keys, guint key, guint code,
                             GdkModifierType state, PfPillowPage *page);

/* pillow-page-controls.c */
GtkWidget *pf_pillow_page_make_bar (PfPillowPage *page);
GtkWidget *pf_pillow_page_make_column (PfPillowPage *page);

G_END_DECLS
