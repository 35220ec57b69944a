/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ground-finder.h"

#include <glib/gi18n-lib.h>

#include "form.h"

struct _PfGroundFinder {
  GtkBox parent_instance;

  GtkWidget *words;
  GtkDropDown *pairs, *family; /* the first of each: any */
  GArray *n_pairs;             /* of int, as in the drop-down after the first */
  GPtrArray *families;         /* of char, borrowed from the grounds; the same */
  GPtrArray *grounds;
  bool clearing;
};

G_DEFINE_FINAL_TYPE (PfGroundFinder, pf_ground_finder, GTK_TYPE_BOX)

enum { CHANGED, LEAVE, ACCEPT, N_SIGNALS };
static guint signals[N_SIGNALS];

PfGroundSearch
pf_ground_finder_search (PfGroundFinder *finder)
{
  const guint pairs = gtk_drop_down_get_selected (finder->pairs);
  const guint family = gtk_drop_down_get_selected (finder->family);
  return (PfGroundSearch){
    .words = gtk_editable_get_text (GTK_EDITABLE (finder->words)),
    .pairs = pairs > 0 && pairs <= finder->n_pairs->len
                 ? g_array_index (finder->n_pairs, int, pairs - 1)
                 : 0,
    .family = family > 0 && family <= finder->families->len
                  ? g_ptr_array_index (finder->families, family - 1)
                  : NULL,
  };
}

static void
changed (PfGroundFinder *finder)
{
  if (!finder->clearing)
    g_signal_emit (finder, signals[CHANGED], 0);
}

void
pf_ground_finder_clear (PfGroundFinder *finder)
{
  finder->clearing = true;
  gtk_editable_set_text (GTK_EDITABLE (finder->words), "");
  gtk_drop_down_set_selected (finder->pairs, 0);
  gtk_drop_down_set_selected (finder->family, 0);
  finder->clearing = false;
  changed (finder);
}

/* GTK's own way to do this would take Return, too. */
static gboolean
typed_elsewhere (PfGroundFinder *finder, guint keyval, guint keycode G_GNUC_UNUSED,
                 GdkModifierType state)
{
  const gunichar letter = gdk_keyval_to_unicode (keyval);
  char text[8] = "";
  if (!g_unichar_isgraph (letter) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  g_unichar_to_utf8 (letter, text);
  int end = -1;
  gtk_editable_insert_text (GTK_EDITABLE (finder->words), text, -1, &end);
  return TRUE;
}

void
pf_ground_finder_listen_in (PfGroundFinder *finder, GtkWidget *widget)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (typed_elsewhere), finder,
                           G_CONNECT_SWAPPED);
  gtk_widget_add_controller (widget, keys);
}

void
pf_ground_finder_focus_words (PfGroundFinder *finder)
{
  gtk_widget_grab_focus (finder->words);
}

/* Also where they are typed elsewhere: what had the keyboard there may be gone next. */
static void
words_changed (PfGroundFinder *finder)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (finder->words));
  if (!finder->clearing && !gtk_widget_is_focus (GTK_WIDGET (text)))
    {
      gtk_text_grab_focus_without_selecting (GTK_TEXT (text));
      gtk_editable_set_position (text, -1);
    }
  changed (finder);
}

/* --- What there is to choose from ---------------------------------------------------------------
 */

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  return *(const int *) a - *(const int *) b;
}

static void
add_number (GArray *numbers, int number)
{
  for (guint n = 0; n < numbers->len; n++)
    if (g_array_index (numbers, int, n) == number)
      return;
  g_array_append_val (numbers, number);
}

static void
name_choice (GtkDropDown *choice, const char *name)
{
  pf_name_widget (GTK_WIDGET (choice), name);
  pf_name_choice (choice, name);
}

static void
add_pairs (PfGroundFinder *finder)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  for (guint n = 0; n < finder->grounds->len; n++)
    add_number (finder->n_pairs, pf_ground_pairs (g_ptr_array_index (finder->grounds, n)));
  g_array_sort (finder->n_pairs, compare_numbers);
  gtk_string_list_append (names, _ ("Any pairs"));
  for (guint n = 0; n < finder->n_pairs->len; n++)
    {
      const int pairs = g_array_index (finder->n_pairs, int, n);
      gtk_string_list_take (
          names, g_strdup_printf (
                     g_dngettext (GETTEXT_PACKAGE, "%d pair", "%d pairs", (gulong) pairs), pairs));
    }
  gtk_drop_down_set_model (finder->pairs, G_LIST_MODEL (names));
  name_choice (finder->pairs, _ ("Pairs in a repeat"));
}

/* The grounds are sorted by them. */
static void
add_families (PfGroundFinder *finder)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gtk_string_list_append (names, _ ("All families"));
  for (guint n = 0; n < finder->grounds->len; n++)
    {
      char *family = ((PfGround *) g_ptr_array_index (finder->grounds, n))->family;
      if (g_ptr_array_find_with_equal_func (finder->families, family, g_str_equal, NULL))
        continue;
      g_ptr_array_add (finder->families, family);
      gtk_string_list_append (names, family);
    }
  gtk_drop_down_set_model (finder->family, G_LIST_MODEL (names));
  name_choice (finder->family, _ ("Family"));
}

/* --- The widget ---------------------------------------------------------------------------------
 */

static gboolean
key_pressed (PfGroundFinder *finder, guint keyval)
{
  if (keyval != GDK_KEY_Down && keyval != GDK_KEY_KP_Down)
    return FALSE;
  g_signal_emit (finder, signals[LEAVE], 0);
  return TRUE;
}

static void
activate (PfGroundFinder *finder)
{
  if (*gtk_editable_get_text (GTK_EDITABLE (finder->words)) != '\0')
    g_signal_emit (finder, signals[ACCEPT], 0);
}

static void
stop_search (PfGroundFinder *finder)
{
  gtk_editable_set_text (GTK_EDITABLE (finder->words), "");
}

static void
pf_ground_finder_dispose (GObject *object)
{
  PfGroundFinder *finder = PF_GROUND_FINDER (object);
  g_clear_pointer (&finder->n_pairs, g_array_unref);
  g_clear_pointer (&finder->families, g_ptr_array_unref);
  g_clear_pointer (&finder->grounds, g_ptr_array_unref);
  G_OBJECT_CLASS (pf_ground_finder_parent_class)->dispose (object);
}

static void
pf_ground_finder_class_init (PfGroundFinderClass *class)
{
  const char *const names[N_SIGNALS] = { "changed", "leave", "accept" };
  G_OBJECT_CLASS (class)->dispose = pf_ground_finder_dispose;
  for (int s = 0; s < N_SIGNALS; s++)
    signals[s] = g_signal_new (names[s], PF_TYPE_GROUND_FINDER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                               NULL, G_TYPE_NONE, 0);
}

static GtkDropDown *
choice_new (PfGroundFinder *finder, GtkWidget *row, const char *tip)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);
  gtk_widget_set_tooltip_text (choice, tip);
  gtk_box_append (GTK_BOX (row), choice);
  g_signal_connect_swapped (choice, "notify::selected", G_CALLBACK (changed), finder);
  return GTK_DROP_DOWN (choice);
}

static void
pf_ground_finder_init (PfGroundFinder *finder)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkEventController *keys = gtk_event_controller_key_new ();
  finder->n_pairs = g_array_new (FALSE, FALSE, sizeof (int));
  finder->families = g_ptr_array_new ();
  finder->words = gtk_search_entry_new ();
  g_object_set (finder->words, "placeholder-text", _ ("Find a ground by name or family"), NULL);
  gtk_widget_set_tooltip_text (
      finder->words, _ ("Down goes to the grounds that were found, Return takes the first"));
  pf_name_widget (finder->words, _ ("Find a ground by name or family"));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed), finder);
  gtk_widget_add_controller (finder->words, keys);
  g_signal_connect_swapped (finder->words, "changed", G_CALLBACK (words_changed), finder);
  g_signal_connect_swapped (finder->words, "activate", G_CALLBACK (activate), finder);
  g_signal_connect_swapped (finder->words, "stop-search", G_CALLBACK (stop_search), finder);
  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  gtk_box_append (GTK_BOX (finder), finder->words);
  gtk_box_append (GTK_BOX (finder), row);
  finder->pairs = choice_new (finder, row, _ ("How many pairs one repeat takes"));
  finder->family = choice_new (finder, row, _ ("What the ground is listed with"));
}

GtkWidget *
pf_ground_finder_new (GPtrArray *grounds)
{
  PfGroundFinder *finder = g_object_new (PF_TYPE_GROUND_FINDER, "orientation",
                                         GTK_ORIENTATION_VERTICAL, "spacing", 6, NULL);
  finder->grounds = g_ptr_array_ref (grounds);
  finder->clearing = true;
  add_pairs (finder);
  add_families (finder);
  finder->clearing = false;
  return GTK_WIDGET (finder);
}
