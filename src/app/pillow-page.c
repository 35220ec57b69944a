/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The page puts together the drawing, the words and the buttons, and turns keys into moves. Where
 * the maker is stands in the document alone: each move changes that, and what is shown follows, so
 * that undo and other changes bring the right step by themselves.
 */
#include <glib/gi18n-lib.h>

#include "pillow-page-private.h"
#include "pillow-split.h"
#include "pillow-tell.h"

G_DEFINE_FINAL_TYPE (PfPillowPage, pf_pillow_page, GTK_TYPE_BOX)

enum { LEAVE, WHOLE_CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

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

void
pf_pillow_page_update (PfPillowPage *page)
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

void
pf_pillow_page_go (PfPillowPage *page, size_t place, bool leap)
{
  if (page->plan != NULL && place <= page->plan->steps->n_steps)
    pf_pillow_go (page->editor, page->plan, place, leap);
}

void
pf_pillow_page_forward (PfPillowPage *page)
{
  if (page->plan != NULL)
    pf_pillow_page_go (page, pf_pillow_next (page->plan, page->place, page->whole), false);
}

void
pf_pillow_page_back (PfPillowPage *page)
{
  if (page->plan != NULL)
    pf_pillow_page_go (page, pf_pillow_before (page->plan, page->place, page->whole), false);
}

static void
chosen (PfPillowPage *page, guint step)
{
  pf_pillow_page_go (page, step, true);
}

/* The number of a repeat was typed. One that doesn't exist changes nothing, and is put right. */
void
pf_pillow_page_repeat_given (PfPillowPage *page)
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
    pf_pillow_page_go (page, step, true);
  pf_pillow_page_update (page);
}

void
pf_pillow_page_set_whole (PfPillowPage *page, bool whole)
{
  if (page->whole == whole)
    return;
  page->whole = whole;
  gtk_toggle_button_set_active (page->whole_button, whole);
  pf_pillow_page_update (page);
  g_signal_emit (page, signals[WHOLE_CHANGED], 0);
}

bool
pf_pillow_page_whole (PfPillowPage *page)
{
  return page->whole;
}

void
pf_pillow_page_leave (PfPillowPage *page)
{
  g_signal_emit (page, signals[LEAVE], 0);
}

void
pf_pillow_page_to_view (PfPillowPage *page)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (page)))
    gtk_widget_grab_focus (GTK_WIDGET (page->view));
}

static gboolean
take_keyboard_back (gpointer data)
{
  PfPillowPage *page = data;
  if (has_keyboard (page->chooser))
    pf_pillow_page_to_view (page);
  return G_SOURCE_REMOVE;
}

/* The list of motifs closes after this, and keeps the keyboard. */
static void
motif_chosen (PfPillowPage *page)
{
  pf_pillow_page_update (page);
  if (gtk_widget_get_mapped (GTK_WIDGET (page)))
    g_idle_add_full (G_PRIORITY_LOW, take_keyboard_back, g_object_ref (page), g_object_unref);
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
  pf_pillow_page_update (page);
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
  signals[LEAVE] = g_signal_new ("leave", PF_TYPE_PILLOW_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
  signals[WHOLE_CHANGED] = g_signal_new ("whole-changed", PF_TYPE_PILLOW_PAGE, G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
pf_pillow_page_init (PfPillowPage *page)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (page), GTK_ORIENTATION_VERTICAL);
  page->text = PF_PILLOW_TEXT_USUAL;
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect (keys, "key-pressed", G_CALLBACK (pf_pillow_page_key), page);
  gtk_widget_add_controller (GTK_WIDGET (page), keys);
  g_signal_connect (page, "map", G_CALLBACK (pf_pillow_page_update), NULL);
}

static void
add_children (PfPillowPage *page)
{
  page->view = PF_PILLOW_VIEW (pf_pillow_view_new ());
  page->words = PF_PILLOW_WORDS (pf_pillow_words_new (page->editor));
  page->stack = GTK_STACK (gtk_stack_new ());
  g_signal_connect_swapped (page->view, "chosen", G_CALLBACK (chosen), page);
  g_signal_connect_swapped (page->words, "note-closed", G_CALLBACK (pf_pillow_page_to_view), page);
  gtk_stack_add_named (page->stack, make_trouble (page), "trouble");
  gtk_box_append (GTK_BOX (page), pf_pillow_page_make_bar (page));
  gtk_box_append (GTK_BOX (page), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_stack_add_named (
      page->stack, pf_pillow_split_new (GTK_WIDGET (page->view), pf_pillow_page_make_column (page)),
      "work");
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (page->stack));
}

GtkWidget *
pf_pillow_page_new (PfEditor *editor)
{
  PfPillowPage *page = g_object_new (PF_TYPE_PILLOW_PAGE, NULL);
  page->editor = g_object_ref (editor);
  add_children (page);
  g_signal_connect_object (editor, "worked-out", G_CALLBACK (pf_pillow_page_update), page,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (editor, "selection-changed", G_CALLBACK (motif_chosen), page,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (page);
}
