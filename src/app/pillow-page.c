/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The page puts together the drawing, the words and the buttons, and turns keys into moves. Where
 * the maker is stands in the document alone: each move changes that, and what is shown follows, so
 * that undo and other changes bring the right step by themselves.
 */
#include "pillow-page.h"

#include <glib/gi18n-lib.h>

#include "form.h"
#include "motif-chooser.h"
#include "pillow-split.h"
#include "pillow-tell.h"
#include "pillow-view.h"
#include "pillow-words.h"

#define TOUCH 48      /* the least side of a button, pixels */
#define TOUCH_MOVE 64 /* of those that move on and back */

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

G_DEFINE_FINAL_TYPE (PfPillowPage, pf_pillow_page, GTK_TYPE_BOX)

static guint leave_signal;

/* --- What is shown ------------------------------------------------------------------------------
 */

static bool
has_keyboard (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  return focus != NULL && (focus == widget || gtk_widget_is_ancestor (focus, widget));
}

static void
show_repeat (PfPillowPage *page)
{
  const size_t n_steps = page->plan->steps->n_steps;
  const PfWorkGroup *group = pf_pillow_group (page->plan, MIN (page->place, n_steps - 1));
  g_autofree char *number =
      group->sews_in ? g_strdup ("") : g_strdup_printf ("%u", group->repeat + 1);
  g_autofree char *of = g_strdup_printf (_ ("of %zu"), page->plan->steps->n_repeats);
  if (!has_keyboard (GTK_WIDGET (page->repeat)))
    gtk_editable_set_text (GTK_EDITABLE (page->repeat), number);
  gtk_label_set_label (page->n_repeats, of);
}

static void
forget_plan (PfPillowPage *page)
{
  pf_pillow_view_show (page->view, NULL, 0, page->whole, page->text);
  pf_pillow_words_show (page->words, NULL, 0, page->whole, page->text);
  g_clear_pointer (&page->plan, pf_pillow_plan_free);
}

static void
show_trouble (PfPillowPage *page, const char *trouble)
{
  forget_plan (page);
  gtk_label_set_label (page->trouble, trouble);
  gtk_stack_set_visible_child_name (page->stack, "trouble");
  gtk_widget_grab_focus (GTK_WIDGET (page->trouble));
}

static void
show_step (PfPillowPage *page)
{
  const PfMotif *motif = pf_editor_motif (page->editor, (size_t) pf_editor_active (page->editor));
  if (page->plan == NULL || page->plan->motif != motif)
    {
      forget_plan (page);
      page->plan = pf_pillow_plan_new (motif);
    }
  const size_t before = page->place;
  page->place = pf_pillow_place (page->editor, page->plan);
  pf_pillow_view_show (page->view, page->plan, page->place, page->whole, page->text);
  pf_pillow_words_show (page->words, page->plan, page->place, page->whole, page->text);
  g_autofree char *spoken = pf_pillow_words_spoken (page->words);
  pf_pillow_view_tell (page->view, spoken);
  show_repeat (page);
  gtk_widget_set_sensitive (page->back, page->place > 0);
  gtk_widget_set_sensitive (page->forward, page->place < page->plan->steps->n_steps);
  gtk_widget_set_sensitive (page->note, page->place < page->plan->steps->n_steps);
  if (page->place != before)
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (page->scroller), 0);
  const bool was_shut = g_strcmp0 (gtk_stack_get_visible_child_name (page->stack), "work") != 0;
  gtk_stack_set_visible_child_name (page->stack, "work");
  if (was_shut && gtk_widget_get_mapped (GTK_WIDGET (page)))
    gtk_widget_grab_focus (GTK_WIDGET (page->view));
}

static void
update (PfPillowPage *page)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (page)) || page->updating)
    return;
  page->updating = true;
  g_autofree char *trouble = pf_pillow_tell_trouble (page->editor);
  if (trouble != NULL)
    show_trouble (page, trouble);
  else
    show_step (page);
  page->updating = false;
}

/* --- Moves --------------------------------------------------------------------------------------
 */

static void
go (PfPillowPage *page, size_t place, bool leap)
{
  if (page->plan != NULL && place <= page->plan->steps->n_steps)
    pf_pillow_go (page->editor, page->plan, place, leap);
}

static void
go_forward (PfPillowPage *page)
{
  if (page->plan != NULL)
    go (page, pf_pillow_next (page->plan, page->place, page->whole), false);
}

static void
go_back (PfPillowPage *page)
{
  if (page->plan != NULL)
    go (page, pf_pillow_before (page->plan, page->place, page->whole), false);
}

static void
chosen (PfPillowPage *page, guint step)
{
  go (page, step, true);
}

/* The number of a repeat was typed. One that doesn't exist changes nothing, and is put right. */
static void
repeat_given (PfPillowPage *page)
{
  if (page->plan == NULL)
    return;
  const guint64 number =
      g_ascii_strtoull (gtk_editable_get_text (GTK_EDITABLE (page->repeat)), NULL, 10);
  const size_t step = number > 0 ? pf_pillow_repeat (page->plan, number - 1) : G_MAXSIZE;
  gtk_widget_grab_focus (GTK_WIDGET (page->view));
  if (step == G_MAXSIZE)
    gtk_widget_error_bell (GTK_WIDGET (page->repeat));
  else
    go (page, step, true);
  update (page);
}

void
pf_pillow_page_set_whole (PfPillowPage *page, bool whole)
{
  page->whole = whole;
  gtk_toggle_button_set_active (page->whole_button, whole);
  update (page);
}

static void
whole_toggled (PfPillowPage *page)
{
  pf_pillow_page_set_whole (page, gtk_toggle_button_get_active (page->whole_button));
}

static void
leave (PfPillowPage *page)
{
  g_signal_emit (page, leave_signal, 0);
}

static void
back_to_view (PfPillowPage *page)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (page)))
    gtk_widget_grab_focus (GTK_WIDGET (page->view));
}

static gboolean
take_keyboard_back (gpointer data)
{
  PfPillowPage *page = data;
  if (has_keyboard (page->chooser))
    back_to_view (page);
  return G_SOURCE_REMOVE;
}

/* The list of motifs closes after this, and keeps the keyboard. */
static void
motif_chosen (PfPillowPage *page)
{
  update (page);
  if (gtk_widget_get_mapped (GTK_WIDGET (page)))
    g_idle_add_full (G_PRIORITY_LOW, take_keyboard_back, g_object_ref (page), g_object_unref);
}

/* --- Keys ---------------------------------------------------------------------------------------
 */

static bool
is_typing (PfPillowPage *page)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (page));
  return root != NULL && GTK_IS_EDITABLE (gtk_root_get_focus (root));
}

static void
escape (PfPillowPage *page)
{
  if (pf_pillow_words_close_note (page->words))
    return;
  if (is_typing (page))
    {
      back_to_view (page);
      update (page);
      return;
    }
  leave (page);
}

static bool
move_by_key (PfPillowPage *page, guint key)
{
  switch (key)
    {
    case GDK_KEY_space:
    case GDK_KEY_KP_Space:
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
    case GDK_KEY_Page_Down:
    case GDK_KEY_KP_Page_Down:
      go_forward (page);
      return true;
    case GDK_KEY_BackSpace:
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
    case GDK_KEY_Page_Up:
    case GDK_KEY_KP_Page_Up:
      go_back (page);
      return true;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      go (page, 0, true);
      return true;
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      if (page->plan != NULL)
        go (page, page->plan->steps->n_steps - 1, true);
      return true;
    default:
      return false;
    }
}

static bool
command_by_key (PfPillowPage *page, guint key)
{
  switch (gdk_keyval_to_lower (key))
    {
    case GDK_KEY_n:
      pf_pillow_words_open_note (page->words);
      return true;
    case GDK_KEY_g:
      if (page->plan != NULL)
        gtk_widget_grab_focus (GTK_WIDGET (page->repeat));
      return true;
    case GDK_KEY_w:
      pf_pillow_page_set_whole (page, !page->whole);
      return true;
    default:
      return false;
    }
}

static gboolean
key_pressed (GtkEventControllerKey *keys G_GNUC_UNUSED, guint key, guint code G_GNUC_UNUSED,
             GdkModifierType state, PfPillowPage *page)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (key == GDK_KEY_Escape)
    {
      escape (page);
      return GDK_EVENT_STOP;
    }
  return !is_typing (page) && (move_by_key (page, key) || command_by_key (page, key));
}

/* --- Widgets ------------------------------------------------------------------------------------
 */

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
  g_signal_connect_swapped (page->repeat, "activate", G_CALLBACK (repeat_given), page);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->repeat));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->n_repeats));
  gtk_box_append (bar, box);
}

static GtkWidget *
make_bar (PfPillowPage *page)
{
  GtkBox *bar = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12));
  gtk_widget_add_css_class (GTK_WIDGET (bar), "pillow-bar");
  GtkWidget *leave_button = add_button (bar, gtk_button_new_with_mnemonic (_ ("_Leave")),
                                        _ ("Back to the drawing; your place is kept (Esc)"));
  g_signal_connect_swapped (leave_button, "clicked", G_CALLBACK (leave), page);
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

static GtkWidget *
make_column (PfPillowPage *page)
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
                            G_CALLBACK (go_back));
  page->forward = move_button (page, moves, _ ("_Done, go on"), _ ("The next step (Space, Right)"),
                               G_CALLBACK (go_forward));
  gtk_widget_add_css_class (page->forward, "suggested-action");
  gtk_box_append (column, GTK_WIDGET (page->scroller));
  gtk_box_append (column, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_box_append (column, GTK_WIDGET (moves));
  GtkGesture *tap = gtk_gesture_click_new ();
  g_signal_connect_swapped (tap, "released", G_CALLBACK (go_forward), page);
  gtk_widget_add_controller (GTK_WIDGET (page->words), GTK_EVENT_CONTROLLER (tap));
  return GTK_WIDGET (column);
}

static GtkWidget *
make_trouble (PfPillowPage *page)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 24);
  page->trouble = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (page->trouble, TRUE);
  gtk_label_set_max_width_chars (page->trouble, 40);
  gtk_label_set_justify (page->trouble, GTK_JUSTIFY_CENTER);
  gtk_label_set_selectable (page->trouble, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (page->trouble), "pillow-trouble");
  gtk_widget_set_vexpand (box, TRUE);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->trouble));
  return box;
}

/* --- The object ---------------------------------------------------------------------------------
 */

double
pf_pillow_page_text (PfPillowPage *page)
{
  return page->text;
}

void
pf_pillow_page_set_text (PfPillowPage *page, double pixels)
{
  page->text = CLAMP (pixels, PF_PILLOW_TEXT_MIN, PF_PILLOW_TEXT_MAX);
  update (page);
}

const PfPillowPlan *
pf_pillow_page_plan (PfPillowPage *page, size_t *place)
{
  *place = page->place;
  return page->plan;
}

static gboolean
pf_pillow_page_grab_focus (GtkWidget *widget)
{
  PfPillowPage *page = PF_PILLOW_PAGE (widget);
  return gtk_widget_grab_focus (page->plan != NULL ? GTK_WIDGET (page->view)
                                                   : GTK_WIDGET (page->trouble));
}

static void
pf_pillow_page_dispose (GObject *object)
{
  PfPillowPage *page = PF_PILLOW_PAGE (object);
  if (page->plan != NULL)
    forget_plan (page);
  g_clear_object (&page->editor);
  G_OBJECT_CLASS (pf_pillow_page_parent_class)->dispose (object);
}

static void
pf_pillow_page_class_init (PfPillowPageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_pillow_page_dispose;
  GTK_WIDGET_CLASS (class)->grab_focus = pf_pillow_page_grab_focus;
  leave_signal = g_signal_new ("leave", PF_TYPE_PILLOW_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
pf_pillow_page_init (PfPillowPage *page)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (page), GTK_ORIENTATION_VERTICAL);
  page->text = PF_PILLOW_TEXT_USUAL;
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), page);
  gtk_widget_add_controller (GTK_WIDGET (page), keys);
  g_signal_connect (page, "map", G_CALLBACK (update), NULL);
}

static void
add_children (PfPillowPage *page)
{
  page->view = PF_PILLOW_VIEW (pf_pillow_view_new ());
  page->words = PF_PILLOW_WORDS (pf_pillow_words_new (page->editor));
  page->stack = GTK_STACK (gtk_stack_new ());
  g_signal_connect_swapped (page->view, "chosen", G_CALLBACK (chosen), page);
  g_signal_connect_swapped (page->words, "note-closed", G_CALLBACK (back_to_view), page);
  gtk_stack_add_named (page->stack, make_trouble (page), "trouble");
  gtk_box_append (GTK_BOX (page), make_bar (page));
  gtk_box_append (GTK_BOX (page), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_stack_add_named (page->stack,
                       pf_pillow_split_new (GTK_WIDGET (page->view), make_column (page)), "work");
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (page->stack));
}

GtkWidget *
pf_pillow_page_new (PfEditor *editor)
{
  PfPillowPage *page = g_object_new (PF_TYPE_PILLOW_PAGE, NULL);
  page->editor = g_object_ref (editor);
  add_children (page);
  g_signal_connect_object (editor, "worked-out", G_CALLBACK (update), page, G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "selection-changed", G_CALLBACK (motif_chosen), page,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (page);
}
