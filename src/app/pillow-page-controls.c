/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The buttons at the pillow, large enough for a finger: the bar above, and the column of words with
 * those that move on and back.
 */
#include <glib/gi18n-lib.h>

#include "motif-chooser.h"
#include "pillow-page-private.h"

#define TOUCH 48      /* the least side of a button, pixels */
#define TOUCH_MOVE 64 /* of those that move on and back */

/* A button that a finger finds, and that leaves the keyboard where it is: a pedal's Space must not
 * press it. */
static void
make_touchable (GtkWidget *widget, int size)
{
  gtk_widget_set_size_request (widget, size, size);
  gtk_widget_set_focus_on_click (widget, FALSE);
}

static GtkWidget *
add_button (GtkBox *box, GtkWidget *button, const char *tooltip)
{
  make_touchable (button, TOUCH);
  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_box_append (box, button);
  return button;
}

static GtkWidget *
text_size_button (const char *icon, const char *name, const char *action)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return button;
}

static void
add_repeat_entry (PfPillowPage *page, GtkBox *bar)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *name = gtk_label_new_with_mnemonic (_ ("_Repeat"));
  page->repeat = GTK_ENTRY (gtk_entry_new ());
  page->n_repeats = GTK_LABEL (gtk_label_new (NULL));
  gtk_editable_set_width_chars (GTK_EDITABLE (page->repeat), 4);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (page->repeat), 4);
  gtk_entry_set_input_purpose (page->repeat, GTK_INPUT_PURPOSE_DIGITS);
  gtk_widget_set_tooltip_text (GTK_WIDGET (page->repeat),
                               _ ("Type a repeat’s number to go there (G); or click the repeat in "
                                  "the drawing"));
  gtk_label_set_mnemonic_widget (GTK_LABEL (name), GTK_WIDGET (page->repeat));
  gtk_accessible_update_property (GTK_ACCESSIBLE (page->repeat), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Go to the repeat of this number"), -1);
  g_signal_connect_swapped (page->repeat, "activate", G_CALLBACK (pf_pillow_page_repeat_given),
                            page);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->repeat));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->n_repeats));
  gtk_box_append (bar, box);
}

static void
whole_toggled (PfPillowPage *page)
{
  pf_pillow_page_set_whole (page, gtk_toggle_button_get_active (page->whole_button));
}

GtkWidget *
pf_pillow_page_make_bar (PfPillowPage *page)
{
  GtkBox *bar = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12));
  gtk_widget_add_css_class (GTK_WIDGET (bar), "pillow-bar");
  GtkWidget *leave_button = add_button (bar, gtk_button_new_with_mnemonic (_ ("_Leave")),
                                        _ ("Back to the drawing; your place is kept (Esc)"));
  g_signal_connect_swapped (leave_button, "clicked", G_CALLBACK (pf_pillow_page_leave), page);
  page->chooser = pf_motif_chooser_new_everywhere (page->editor);
  gtk_box_append (bar, page->chooser);
  add_repeat_entry (page, bar);
  page->whole_button = GTK_TOGGLE_BUTTON (
      add_button (bar, gtk_toggle_button_new_with_mnemonic (_ ("_Whole repeats")),
                  _ ("Show all steps of a repeat at once, and go on from repeat to repeat (W)")));
  g_signal_connect_swapped (page->whole_button, "toggled", G_CALLBACK (whole_toggled), page);
  page->note = add_button (bar, gtk_button_new_with_mnemonic (_ ("_Note…")),
                           _ ("Note what you did otherwise at this step (N)"));
  g_signal_connect_swapped (page->note, "clicked", G_CALLBACK (pf_pillow_words_open_note),
                            page->words);
  add_button (bar, text_size_button ("zoom-out-symbolic", _ ("Smaller letters"), "win.zoom-out"),
              _ ("Smaller letters (Ctrl+−)"));
  add_button (bar, text_size_button ("zoom-in-symbolic", _ ("Larger letters"), "win.zoom-in"),
              _ ("Larger letters (Ctrl++)"));
  return GTK_WIDGET (bar);
}

static GtkWidget *
move_button (PfPillowPage *page, GtkBox *box, const char *mnemonic, const char *tooltip,
             GCallback moved)
{
  GtkWidget *button = add_button (box, gtk_button_new_with_mnemonic (mnemonic), tooltip);
  make_touchable (button, TOUCH_MOVE);
  gtk_widget_set_hexpand (button, TRUE);
  g_signal_connect_swapped (button, "clicked", moved, page);
  return button;
}

GtkWidget *
pf_pillow_page_make_column (PfPillowPage *page)
{
  GtkBox *column = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  GtkBox *moves = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12));
  page->scroller = GTK_SCROLLED_WINDOW (gtk_scrolled_window_new ());
  gtk_scrolled_window_set_policy (page->scroller, GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (page->scroller, GTK_WIDGET (page->words));
  gtk_widget_set_vexpand (GTK_WIDGET (page->scroller), TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (moves), "pillow-bar");
  gtk_widget_add_css_class (GTK_WIDGET (moves), "pillow-moves");
  gtk_box_set_homogeneous (moves, TRUE);
  page->back = move_button (page, moves, _ ("_Back"), _ ("The step before (Backspace, Left)"),
                            G_CALLBACK (pf_pillow_page_back));
  page->forward = move_button (page, moves, _ ("_Done, go on"), _ ("The next step (Space, Right)"),
                               G_CALLBACK (pf_pillow_page_forward));
  gtk_widget_add_css_class (page->forward, "suggested-action");
  gtk_box_append (column, GTK_WIDGET (page->scroller));
  gtk_box_append (column, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_box_append (column, GTK_WIDGET (moves));
  GtkGesture *tap = gtk_gesture_click_new ();
  g_signal_connect_swapped (tap, "released", G_CALLBACK (pf_pillow_page_forward), page);
  gtk_widget_add_controller (GTK_WIDGET (page->words), GTK_EVENT_CONTROLLER (tap));
  return GTK_WIDGET (column);
}
