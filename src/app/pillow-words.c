/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Labels that are filled anew at each move. Sizes go by attributes, as the maker chooses them.
 */
#include "pillow-words.h"

#include <glib/gi18n-lib.h>

#include "form.h"
#include "pillow-tell.h"

#define ASIDE 0.72 /* the size of words that stand back */
#define N_AFTER 2

struct _PfPillowWords {
  GtkBox parent_instance;

  PfEditor *editor;
  const PfPillowPlan *plan; /* borrowed, or NULL */
  size_t place;
  bool whole;
  double text;

  GtkLabel *where, *before, *present, *note, *note_name, *pairs, *left, *lost_name;
  GtkLabel *after[N_AFTER];
  GtkWidget *note_box;
  GtkEntry *note_entry;
  GtkBox *lost;
  size_t noted; /* the place whose note is in the entry */
  bool filling_entry;
};

G_DEFINE_FINAL_TYPE (PfPillowWords, pf_pillow_words, GTK_TYPE_BOX)

static guint note_closed_signal;

/* --- Labels -------------------------------------------------------------------------------------
 */

/* Our own sentences are broken between words alone: to find out how narrow a label could be if it
 * were broken anywhere takes longer than all else that a step does. */
static GtkLabel *
add_label (GtkBox *box, const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  gtk_box_append (box, label);
  return GTK_LABEL (label);
}

static PangoAttrList *
size_attributes (double pixels)
{
  PangoAttrList *list = pango_attr_list_new ();
  pango_attr_list_insert (list, pango_attr_size_new_absolute ((int) (pixels * PANGO_SCALE)));
  return list;
}

/* Words of the maker's may be of any length. */
static void
break_anywhere (GtkLabel *label)
{
  gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD_CHAR);
}

/* Takes over `text`; an empty one hides the label. */
static void
set_text (GtkLabel *label, char *text, double pixels)
{
  g_autoptr (PangoAttrList) list = size_attributes (pixels);
  gtk_label_set_attributes (label, list);
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
  g_free (text);
}

/* --- The present step, or all of its repeat -----------------------------------------------------
 */

static char *
step_with_note (PfPillowWords *words, size_t place)
{
  g_autofree char *step = pf_pillow_tell_step (words->plan, place);
  g_autofree char *note = pf_pillow_tell_note (words->editor, words->plan, place);
  return note != NULL ? g_strdup_printf ("%s\n%s", step, note) : g_steal_pointer (&step);
}

static void
add_attribute (PangoAttrList *list, PangoAttribute *attribute, gsize from, gsize to)
{
  attribute->start_index = (guint) from;
  attribute->end_index = (guint) to;
  pango_attr_list_insert (list, attribute);
}

/* So many steps of a repeat are told that are done: more would push the present one out of sight.
 */
#define DONE_TOLD 2

/* All steps of a span, with some room between them; those that are done stand back. */
static char *
tell_span (PfPillowWords *words, PfPillowSpan span, PangoAttrList *list)
{
  const bool begins_late = words->place > span.first + DONE_TOLD;
  const size_t first = begins_late ? words->place - DONE_TOLD : span.first;
  GString *text = g_string_new (begins_late ? "• …" : NULL);
  for (size_t n = first; n < span.first + span.n; n++)
    {
      g_autofree char *step = step_with_note (words, n);
      if (text->len > 0)
        {
          g_string_append (text, "\n\n");
          add_attribute (list,
                         pango_attr_size_new_absolute ((int) (0.35 * words->text * PANGO_SCALE)),
                         text->len - 1, text->len);
        }
      if (n == words->place)
        add_attribute (list, pango_attr_foreground_alpha_new (G_MAXUINT16 / 2), 0, text->len);
      g_string_append_printf (text, span.n > 1 ? "• %s" : "%s", step);
    }
  return g_string_free (text, FALSE);
}

static void
show_present (PfPillowWords *words)
{
  const PfPillowSpan span = pf_pillow_span (words->plan, words->place, words->whole);
  g_autoptr (PangoAttrList) list = size_attributes (words->text);
  set_text (words->present,
            span.n > 0 && words->whole ? tell_span (words, span, list)
                                       : pf_pillow_tell_step (words->plan, words->place),
            words->text);
  gtk_label_set_attributes (words->present, list);
  gtk_label_set_wrap_mode (words->present, words->whole ? PANGO_WRAP_WORD_CHAR : PANGO_WRAP_WORD);
}

static void
show_around (PfPillowWords *words)
{
  const PfPillowSpan span = pf_pillow_span (words->plan, words->place, words->whole);
  const double small = ASIDE * words->text;
  set_text (words->before,
            span.first > 0 ? pf_pillow_tell_step (words->plan, span.first - 1) : NULL, small);
  for (int k = 0; k < N_AFTER; k++)
    set_text (words->after[k],
              pf_pillow_tell_step (words->plan, span.first + MAX (span.n, 1) + (size_t) k), small);
}

/* --- Notes --------------------------------------------------------------------------------------
 */

static void
remove_lost (GtkButton *button, PfPillowWords *words)
{
  const size_t note = GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (button), "note"));
  pf_pillow_remove_note (words->editor, note);
}

static void
add_lost (PfPillowWords *words, size_t note, const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *button = gtk_button_new_with_label (_ ("Remove"));
  g_autofree char *name = g_strdup_printf (_ ("Remove the note “%s”"), text);
  GtkLabel *label = add_label (GTK_BOX (row), NULL);
  break_anywhere (label);
  set_text (label, g_strdup (text), ASIDE * words->text);
  gtk_widget_set_hexpand (gtk_widget_get_first_child (row), TRUE);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_size_request (button, 48, 48);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (button), "note", GSIZE_TO_POINTER (note));
  g_signal_connect (button, "clicked", G_CALLBACK (remove_lost), words);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (words->lost, row);
}

/* Those of steps that aren't there any more. */
static void
show_lost (PfPillowWords *words)
{
  const PfPillow *pillow = &pf_editor_draft (words->editor)->pillow;
  for (GtkWidget *row; (row = gtk_widget_get_first_child (GTK_WIDGET (words->lost))) != NULL;)
    gtk_box_remove (words->lost, row);
  size_t n_lost = 0;
  for (size_t n = 0; n < pillow->n_notes; n++)
    if (pf_pillow_note_position (pillow, n, words->plan->motif) >= words->plan->steps->n_steps)
      {
        add_lost (words, n, pillow->notes[n].text);
        n_lost++;
      }
  set_text (words->lost_name,
            n_lost > 0 ? g_strdup (g_dngettext (
                             GETTEXT_PACKAGE, "A note that belongs to no step of the motif now:",
                             "Notes that belong to no step of the motif now:", n_lost))
                       : NULL,
            ASIDE * words->text);
}

/* In a whole repeat each note stands under its step. */
static void
show_note (PfPillowWords *words)
{
  const bool shown =
      words->plan != NULL && !words->whole && !gtk_widget_get_visible (words->note_box);
  set_text (words->note,
            shown ? pf_pillow_tell_note (words->editor, words->plan, words->place) : NULL,
            0.85 * words->text);
}

static void
note_changed (PfPillowWords *words)
{
  if (words->plan != NULL && !words->filling_entry)
    pf_pillow_set_note (words->editor, words->plan, words->noted,
                        gtk_editable_get_text (GTK_EDITABLE (words->note_entry)));
}

/* Under the step; but all steps of a repeat may be higher than the window, so there above them, at
 * its top. */
static void
show_note_box (PfPillowWords *words)
{
  GtkWidget *scroller = gtk_widget_get_ancestor (GTK_WIDGET (words), GTK_TYPE_SCROLLED_WINDOW);
  gtk_box_reorder_child_after (GTK_BOX (words), words->note_box,
                               GTK_WIDGET (words->whole ? words->where : words->note));
  gtk_widget_set_visible (words->note_box, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (words->note_entry));
  gtk_editable_set_position (GTK_EDITABLE (words->note_entry), -1);
  if (words->whole && scroller != NULL)
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)),
                              0);
}

void
pf_pillow_words_open_note (PfPillowWords *words)
{
  if (words->plan == NULL || words->place >= words->plan->steps->n_steps)
    return;
  const char *note = pf_pillow_note (words->editor, words->plan, words->place);
  g_autofree char *step = pf_pillow_tell_step (words->plan, words->place);
  words->noted = words->place;
  words->filling_entry = true;
  gtk_editable_set_text (GTK_EDITABLE (words->note_entry), note != NULL ? note : "");
  words->filling_entry = false;
  set_text (words->note_name,
            words->whole ? g_strdup_printf (_ ("Your note for: %s"), step)
                         : g_strdup (_ ("Your note for this step:")),
            ASIDE * words->text);
  g_autoptr (PangoAttrList) list = size_attributes (ASIDE * words->text);
  gtk_entry_set_attributes (words->note_entry, list);
  gtk_widget_set_visible (GTK_WIDGET (words->note), FALSE);
  show_note_box (words);
}

bool
pf_pillow_words_close_note (PfPillowWords *words)
{
  if (!gtk_widget_get_visible (words->note_box))
    return false;
  gtk_widget_set_visible (words->note_box, FALSE);
  show_note (words);
  g_signal_emit (words, note_closed_signal, 0);
  return true;
}

/* --- All of it ----------------------------------------------------------------------------------
 */

void
pf_pillow_words_show (PfPillowWords *words, const PfPillowPlan *plan, size_t place, bool whole,
                      double text)
{
  words->plan = plan;
  words->place = place;
  words->whole = whole;
  words->text = text;
  if (plan == NULL || place != words->noted)
    pf_pillow_words_close_note (words);
  if (plan == NULL)
    return;
  const double small = ASIDE * text;
  set_text (words->where, pf_pillow_tell_place (plan, place), small);
  show_present (words);
  show_around (words);
  show_note (words);
  set_text (words->pairs, pf_pillow_tell_pairs (plan, place), small);
  set_text (words->left, pf_pillow_tell_left (plan, place), small);
  show_lost (words);
}

char *
pf_pillow_words_spoken (PfPillowWords *words)
{
  g_autofree char *where = pf_pillow_tell_place (words->plan, words->place);
  g_autofree char *note =
      words->whole ? NULL : pf_pillow_tell_note (words->editor, words->plan, words->place);
  return g_strjoin ("\n", gtk_label_get_label (words->present), note != NULL ? note : where,
                    note != NULL ? where : NULL, NULL);
}

static void
pf_pillow_words_dispose (GObject *object)
{
  PfPillowWords *words = PF_PILLOW_WORDS (object);
  words->plan = NULL;
  g_clear_object (&words->editor);
  G_OBJECT_CLASS (pf_pillow_words_parent_class)->dispose (object);
}

static void
pf_pillow_words_class_init (PfPillowWordsClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pf_pillow_words_dispose;
  note_closed_signal = g_signal_new ("note-closed", PF_TYPE_PILLOW_WORDS, G_SIGNAL_RUN_LAST, 0,
                                     NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
add_note_box (PfPillowWords *words)
{
  words->note_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  words->note_name = add_label (GTK_BOX (words->note_box), NULL);
  words->note_entry = GTK_ENTRY (gtk_entry_new ());
  gtk_widget_set_size_request (GTK_WIDGET (words->note_entry), -1, 48);
  gtk_widget_set_visible (words->note_box, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (words->note_entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Your note for this step"), -1);
  gtk_entry_set_placeholder_text (words->note_entry, _ ("What you did otherwise"));
  g_signal_connect_swapped (words->note_entry, "changed", G_CALLBACK (note_changed), words);
  g_signal_connect_swapped (words->note_entry, "activate", G_CALLBACK (pf_pillow_words_close_note),
                            words);
  gtk_box_append (GTK_BOX (words->note_box), GTK_WIDGET (words->note_entry));
  gtk_box_append (GTK_BOX (words), words->note_box);
}

static void
pf_pillow_words_init (PfPillowWords *words)
{
  GtkBox *box = GTK_BOX (words);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (words), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (box, 14);
  gtk_widget_add_css_class (GTK_WIDGET (words), "pillow-words");
  words->where = add_label (box, "heading");
  words->before = add_label (box, "pillow-aside");
  words->present = add_label (box, "pillow-present");
  words->note = add_label (box, "pillow-note");
  break_anywhere (words->note);
  add_note_box (words);
  for (int k = 0; k < N_AFTER; k++)
    words->after[k] = add_label (box, "pillow-aside");
  gtk_box_append (box, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  words->pairs = add_label (box, NULL);
  words->left = add_label (box, NULL);
  words->lost_name = add_label (box, "heading");
  words->lost = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  gtk_box_append (box, GTK_WIDGET (words->lost));
}

GtkWidget *
pf_pillow_words_new (PfEditor *editor)
{
  PfPillowWords *words = g_object_new (PF_TYPE_PILLOW_WORDS, NULL);
  words->editor = g_object_ref (editor);
  return GTK_WIDGET (words);
}
