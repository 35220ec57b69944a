/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The dialogs round the window, on a screen: what is chosen in them takes effect, and all that can
 * be used has a name for who hears the screen.
 */
#include <glib/gstdio.h>
#include <gtk/gtk.h>

#include <import-dialog.h>
#include <left-work-dialog.h>
#include <locale.h>
#include <math.h>
#include <preferences-window.h>
#include <printer-dialog.h>
#include <shortcuts.h>
#include <string.h>
#include <true-size-dialog.h>

/* --- Finding and using widgets ------------------------------------------------------------------
 */

typedef bool (*Matches) (GtkWidget *widget, gconstpointer data);

static GtkWidget *
find (GtkWidget *widget, Matches matches, gconstpointer data)
{
  if (matches (widget, data))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find (child, matches, data);
      if (found)
        return found;
    }
  return NULL;
}

static bool
is_button_called (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_BUTTON (widget) &&
         g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

static bool
has_name (GtkWidget *widget, gconstpointer name)
{
  g_autofree char *wrong = gtk_test_accessible_check_property (
      GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, (const char *) name);
  return wrong == NULL && !GTK_IS_LABEL (widget); /* a label is named by its own words */
}

static GtkWidget *
named (GtkWidget *window, const char *name)
{
  GtkWidget *widget = find (window, has_name, name);
  g_test_message ("“%s”", name);
  g_assert_nonnull (widget);
  return widget;
}

static bool
is_label (GtkWidget *widget, gconstpointer text)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), text) == 0;
}

/* What a label of a form names: by it the widget is reached and heard. */
static GtkWidget *
beside (GtkWidget *window, const char *text)
{
  GtkWidget *label = find (window, is_label, text);
  g_test_message ("beside “%s”", text);
  g_assert_nonnull (label);
  GtkWidget *widget = gtk_label_get_mnemonic_widget (GTK_LABEL (label));
  g_assert_nonnull (widget);
  return widget;
}

static void
press (GtkWidget *window, const char *label)
{
  GtkWidget *button = find (window, is_button_called, label);
  g_test_message ("press “%s”", label);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
}

static void
settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
show (GtkWidget *window)
{
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (window);
}

/* --- Preferences --------------------------------------------------------------------------------
 */

static PfPreferences *
preferences_new (char **file)
{
  g_close (g_file_open_tmp ("pinfold-dialogs-XXXXXX", file, NULL), NULL);
  return pf_preferences_new (*file);
}

static void
test_preferences (void)
{
  g_autofree char *file = NULL;
  g_autoptr (PfPreferences) preferences = preferences_new (&file);
  GtkWidget *window = pf_preferences_window_new (NULL, preferences);
  show (window);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (beside (window, "Lengths in")), 1);
  g_assert_cmpint (pf_preferences_units (preferences), ==, PF_UNITS_INCH);
  named (window, "Lengths in: Inches"); /* the button in it, which has the keyboard */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (beside (window, "Style")), PF_STYLE_DARK_CONTRAST);
  g_assert_cmpint (pf_preferences_style (preferences), ==, PF_STYLE_DARK_CONTRAST);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (beside (window, "Line width")), 2.5);
  g_assert_cmpfloat_with_epsilon (pf_preferences_line_width (preferences), 2.5, 1e-9);
  static const struct {
    const char *name;
    PfPairKind kind;
  } colours[] = { { "New pairs", PF_PAIR_NEW },
                  { "Turned pairs", PF_PAIR_TURNED },
                  { "Carried pairs", PF_PAIR_CARRIED },
                  { "Finished pairs", PF_PAIR_FINISHED } };
  for (size_t i = 0; i < G_N_ELEMENTS (colours); i++)
    {
      const GdkRGBA colour = { 1, 0.2f, (float) i / 5, 1 };
      g_autofree char *expected = g_strdup_printf ("#ff33%02x", (guint) i * 51);
      named (window, colours[i].name);
      gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (beside (window, colours[i].name)), &colour);
      g_assert_cmpstr (pf_preferences_colour (preferences, colours[i].kind), ==, expected);
    }
  press (window, "_Back to defaults");
  g_assert_cmpint (pf_preferences_units (preferences), ==, PF_UNITS_MM);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (beside (window, "Lengths in"))), ==,
                    0);
  g_assert_cmpfloat (pf_preferences_line_width (preferences), ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
  g_clear_object (&preferences);
  g_remove (file);
}

static void
test_true_size (void)
{
  g_autofree char *file = NULL;
  g_autoptr (PfPreferences) preferences = preferences_new (&file);
  GtkWidget *dialog = pf_true_size_dialog_new (NULL, preferences);
  show (dialog);
  GtkWidget *area = named (dialog, "The drawing to compare with the thing you hold");
  GtkWidget *number = named (dialog, "Pixels to the mm");
  static const struct {
    guint choice;
    double width, height; /* mm; the card: ISO/IEC 7810, ID-1 */
  } things[] = { { 0, 100, 0 }, { 1, 101.6, 0 }, { 2, 85.6, 53.98 } };
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (number), 5);
  for (size_t i = 0; i < G_N_ELEMENTS (things); i++)
    {
      gtk_drop_down_set_selected (GTK_DROP_DOWN (beside (dialog, "Compare with")),
                                  things[i].choice);
      const int margins = 2 * 24;
      g_assert_cmpint (gtk_drawing_area_get_content_width (GTK_DRAWING_AREA (area)) - margins, ==,
                       (int) ceil (5 * things[i].width));
      if (things[i].height > 0)
        g_assert_cmpint (gtk_drawing_area_get_content_height (GTK_DRAWING_AREA (area)) - margins,
                         ==, (int) ceil (5 * things[i].height));
    }
  g_assert_cmpfloat (pf_preferences_pixels_per_mm (preferences), ==, PF_PIXELS_PER_MM_USUAL);
  press (dialog, "_Use this size");
  g_assert_cmpfloat_with_epsilon (pf_preferences_pixels_per_mm (preferences), 5, 1e-9);
  g_clear_object (&preferences);
  g_remove (file);
}

static void
check_printer (PfPreferences *preferences, double short_side, double long_side, bool files)
{
  const PfPrinterRules printer = pf_preferences_printer (preferences);
  const PfPrinterRules of_files = pf_preferences_printer_of_files (preferences);
  g_assert_cmpfloat_with_epsilon (printer.short_side, short_side, 1e-9);
  g_assert_cmpfloat_with_epsilon (printer.long_side, long_side, 1e-9);
  g_assert_cmpfloat_with_epsilon (of_files.short_side, files ? short_side : 50, 1e-9);
  g_assert_cmpfloat_with_epsilon (of_files.long_side, files ? long_side : 50, 1e-9);
}

/* In the printer dialog: types what the rules measured on a sheet printed that way (-1: isn't
 * asked), and accepts. */
static void
measure_printer (PfPreferences *preferences, int way, double short_side, double long_side,
                 const char *says)
{
  GtkWidget *dialog = pf_printer_dialog_new (NULL, preferences);
  show (dialog);
  GtkWidget *printed = find (dialog, is_label, "The sheet was printed");
  g_assert_true ((printed != NULL) == (way >= 0));
  if (printed != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (beside (dialog, "The sheet was printed")),
                                (guint) way);
  gtk_spin_button_set_value (
      GTK_SPIN_BUTTON (beside (dialog, "The rule along the short side of the paper")), short_side);
  gtk_spin_button_set_value (
      GTK_SPIN_BUTTON (beside (dialog, "The rule along the long side of the paper")), long_side);
  g_assert_nonnull (find (dialog, is_label, says));
  press (dialog, "_Correct pages");
}

static void
test_printer (void)
{
  g_autofree char *file = NULL;
  g_autoptr (PfPreferences) preferences = preferences_new (&file);
  check_printer (preferences, 50, 50, true);
  measure_printer (preferences, -1, 49.2, 50.5,
                   "Along the short side pages are made 1.63 % longer.\n"
                   "Along the long side pages are made 0.99 % shorter.");
  check_printer (preferences, 49.2, 50.5, true);
  /* A corrected sheet that is right asks for nothing else; one that isn't adds to it. */
  measure_printer (preferences, 0, 50, 50,
                   "Along the short side pages are made 1.63 % longer.\n"
                   "Along the long side pages are made 0.99 % shorter.");
  check_printer (preferences, 49.2, 50.5, true);
  measure_printer (preferences, 0, 50.5, 50,
                   "Along the short side pages are made 0.62 % longer.\n"
                   "Along the long side pages are made 0.99 % shorter.");
  check_printer (preferences, 49.2 * 50.5 / 50, 50.5, true);
  measure_printer (preferences, 1, 49.5, 50,
                   "Along the short side pages are made 1.01 % longer.\n"
                   "Along the long side pages stay as they are.");
  check_printer (preferences, 49.5, 50, true);
  g_object_set (preferences, "printer-files", FALSE, NULL);
  check_printer (preferences, 49.5, 50, false);

  GtkWidget *dialog = pf_printer_dialog_new (NULL, preferences);
  show (dialog);
  press (dialog, "_No correction");
  press (dialog, "_Correct pages");
  check_printer (preferences, 50, 50, false);
  g_clear_object (&preferences);
  g_remove (file);
}

/* What is off by more than a printer can be, with what is in use, can't be accepted. */
static void
test_wrong_printer (void)
{
  g_autofree char *file = NULL;
  g_autoptr (PfPreferences) preferences = preferences_new (&file);
  g_object_set (preferences, "printer-short-side", 54.0, NULL);
  GtkWidget *dialog = pf_printer_dialog_new (NULL, preferences);
  show (dialog);
  GtkWidget *use = find (dialog, is_button_called, "_Correct pages");
  g_assert_true (gtk_widget_get_sensitive (use));
  gtk_spin_button_set_value (
      GTK_SPIN_BUTTON (beside (dialog, "The rule along the short side of the paper")), 52);
  g_assert_false (gtk_widget_get_sensitive (use));
  gtk_window_destroy (GTK_WINDOW (dialog));
  g_clear_object (&preferences);
  g_remove (file);
}

/* --- Keys ---------------------------------------------------------------------------------------
 */

/* A key of an action works everywhere; one without works where its group says, and may mean
 * something else elsewhere. */
static void
add_keys (const PfShortcut *shortcut, GHashTable *seen)
{
  g_auto (GStrv) keys = g_strsplit (shortcut->keys, " ", -1);
  for (char **key = keys; *key; key++)
    {
      guint keyval;
      GdkModifierType modifiers;
      g_test_message ("%s", *key);
      g_assert_true (gtk_accelerator_parse (*key, &keyval, &modifiers));
      g_autofree char *accelerator = gtk_accelerator_name (keyval, modifiers);
      g_assert_false (g_hash_table_contains (seen, accelerator));
      const char *where = shortcut->action ? "" : shortcut->group;
      g_assert_true (g_hash_table_add (seen, g_strconcat (accelerator, where, NULL)));
    }
}

static void
test_keys (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  size_t n;
  const PfShortcut *shortcuts = pf_shortcuts (&n);
  for (size_t i = 0; i < n; i++)
    {
      g_autofree char *name = NULL;
      g_autoptr (GVariant) target = NULL;
      if (!shortcuts[i].action)
        continue;
      add_keys (&shortcuts[i], seen);
      g_assert_true (g_action_parse_detailed_name (shortcuts[i].action, &name, &target, NULL));
    }
  for (size_t i = 0; i < n; i++)
    if (!shortcuts[i].action)
      add_keys (&shortcuts[i], seen);
  GtkWidget *window = pf_shortcuts_window_new (NULL);
  show (window);
  for (size_t i = 0; i < n; i++)
    beside (window, shortcuts[i].title);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- Import -------------------------------------------------------------------------------------
 */

typedef struct {
  PfDrawing *drawing;
  GtkWidget *parent, *dialog;
  GAsyncResult *result;
} Import;

static void
keep_result (GObject *source, GAsyncResult *result, gpointer data)
{
  (void) source;
  ((Import *) data)->result = g_object_ref (result);
}

static void
import_init (Import *import, GCancellable *cancellable)
{
  static const char svg[] =
      "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='50mm' viewBox='0 0 100 50'>"
      "<rect id='pond' width='30' height='20'/><rect id='pool' x='40' width='12.5' height='12'/>"
      "<rect id='lake' x='60' width='20' height='10'/><text>words</text></svg>";
  g_autoptr (GError) error = NULL;
  *import = (Import){ .drawing = pf_drawing_parse (svg, sizeof svg - 1, "ponds", NULL, &error) };
  g_assert_no_error (error);
  import->parent = gtk_window_new ();
  show (import->parent);
  pf_import_dialog_choose (GTK_WINDOW (import->parent), import->drawing, "ponds", PF_UNITS_MM,
                           cancellable, keep_result, import);
  g_autoptr (GListModel) toplevels = g_object_ref (gtk_window_get_toplevels ());
  for (guint i = 0; i < g_list_model_get_n_items (toplevels); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (toplevels, i);
      if (gtk_window_get_transient_for (window) == GTK_WINDOW (import->parent))
        import->dialog = GTK_WIDGET (window);
    }
  g_assert_nonnull (import->dialog);
  gtk_test_widget_wait_for_draw (import->dialog);
}

static void
import_clear (Import *import)
{
  g_clear_object (&import->result);
  if (import->parent)
    gtk_window_destroy (GTK_WINDOW (import->parent));
  pf_drawing_free (import->drawing);
}

static void
assert_chosen (Import *import, const char *flags)
{
  settle ();
  g_assert_nonnull (import->result);
  g_autoptr (GError) error = NULL;
  g_autofree bool *chosen = pf_import_dialog_choose_finish (import->result, &error);
  if (!flags)
    {
      g_assert_null (chosen);
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
      return;
    }
  g_assert_no_error (error);
  for (guint i = 0; i < strlen (flags); i++)
    g_assert_cmpint (chosen[i], ==, flags[i] == '1');
}

static void
toggle (Import *import, const char *name)
{
  GtkCheckButton *check = GTK_CHECK_BUTTON (named (import->dialog, name));
  gtk_check_button_set_active (check, !gtk_check_button_get_active (check));
}

#define POND "pond, 30 mm by 20 mm, area 6.0 cm²"
#define POOL "pool, 12.5 mm by 12 mm, area 1.5 cm²"

static bool
is_check_all (GtkWidget *widget, gconstpointer data)
{
  (void) data;
  return GTK_IS_CHECK_BUTTON (widget) &&
         g_strcmp0 (gtk_check_button_get_label (GTK_CHECK_BUTTON (widget)), "A_ll shapes") == 0;
}

static void
test_import (void)
{
  static const struct {
    const char *toggled[3];
    bool all;
    const char *flags;
  } cases[] = {
    { { NULL }, false, "111" },       { { POOL }, false, "101" },
    { { POND, POOL }, false, "001" }, { { POND, POOL, POND }, false, "101" },
    { { POND }, true, "111" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Import import;
      import_init (&import, NULL);
      for (size_t t = 0; t < G_N_ELEMENTS (cases[i].toggled) && cases[i].toggled[t]; t++)
        toggle (&import, cases[i].toggled[t]);
      GtkCheckButton *all = GTK_CHECK_BUTTON (find (import.dialog, is_check_all, NULL));
      g_assert_cmpint (gtk_check_button_get_inconsistent (all), ==,
                       strchr (cases[i].flags, '0') != NULL || cases[i].all);
      if (cases[i].all)
        gtk_check_button_set_active (all, TRUE);
      press (import.dialog, "_Import");
      assert_chosen (&import, cases[i].flags);
      import_clear (&import);
    }
}

static void
test_import_none (void)
{
  Import import;
  import_init (&import, NULL);
  GtkWidget *button = find (import.dialog, is_button_called, "_Import");
  GtkCheckButton *all = GTK_CHECK_BUTTON (find (import.dialog, is_check_all, NULL));
  g_assert_true (gtk_widget_get_sensitive (button));
  gtk_check_button_set_active (all, FALSE);
  g_assert_false (gtk_widget_get_sensitive (button));
  gtk_check_button_set_active (all, TRUE);
  g_assert_true (gtk_widget_get_sensitive (button));
  press (import.dialog, "_Cancel");
  assert_chosen (&import, NULL);
  import_clear (&import);
}

/* The answer comes too if the dialog goes in another way. */
static void
test_import_gone (void)
{
  Import import;
  import_init (&import, NULL);
  gtk_window_destroy (GTK_WINDOW (import.parent));
  import.parent = NULL;
  assert_chosen (&import, NULL);
  import_clear (&import);

  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  import_init (&import, cancellable);
  g_cancellable_cancel (cancellable);
  assert_chosen (&import, NULL);
  import_clear (&import);
}

/* --- Left work ----------------------------------------------------------------------------------
 */

static bool
keep_opened (const PfLeftWork *left, gpointer data)
{
  g_string_append_printf (data, "[%s]", left->title);
  return strcmp (left->title, "Broken") != 0;
}

/* Leaves work behind, as a crash does. */
static void
leave_work (const char *folder, const char *title)
{
  g_autoptr (GError) error = NULL;
  PfJournal *journal = pf_journal_new (folder, NULL, &error);
  g_assert_no_error (error);
  g_autoptr (PfDocument) document = pf_document_new ();
  g_free (document->title);
  document->title = g_strdup (title);
  pf_journal_write (journal, document);
  g_assert_true (pf_journal_flush (journal, &error));
  pf_journal_free (journal, false);
}

static bool
is_message (GtkWidget *widget, gconstpointer data)
{
  (void) data;
  return GTK_IS_MESSAGE_DIALOG (widget);
}

/* The question that is open now, answered. */
static void
answer (int response)
{
  g_autoptr (GListModel) toplevels = g_object_ref (gtk_window_get_toplevels ());
  for (guint i = 0; i < g_list_model_get_n_items (toplevels); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (toplevels, i);
      if (is_message (window, NULL))
        {
          gtk_dialog_response (GTK_DIALOG (window), response);
          return;
        }
    }
  g_assert_not_reached ();
}

static void
gone (gpointer data, GObject *object)
{
  (void) object;
  *(bool *) data = true;
}

static void
test_left_work (void)
{
  g_autofree char *folder = g_dir_make_tmp ("pinfold-left-XXXXXX", NULL);
  leave_work (folder, "Leaf");
  leave_work (folder, "Flower");
  leave_work (folder, "Broken");
  GPtrArray *list = pf_journal_list (folder);
  g_assert_cmpuint (list->len, ==, 3);
  g_autoptr (GString) opened = g_string_new (NULL);
  GtkWidget *dialog = pf_left_work_dialog_new (NULL, list, keep_opened, opened);
  bool closed = false;
  g_object_weak_ref (G_OBJECT (dialog), gone, &closed);
  show (dialog);

  g_signal_emit_by_name (named (dialog, "Open it: Broken"), "clicked");
  g_signal_emit_by_name (named (dialog, "Open it: Leaf"), "clicked");
  g_assert_cmpstr (opened->str, ==, "[Broken][Leaf]");
  g_assert_null (find (dialog, has_name, "Open it: Leaf"));
  g_assert_nonnull (find (dialog, has_name, "Open it: Broken"));

  g_signal_emit_by_name (named (dialog, "Throw it away…: Flower"), "clicked");
  answer (GTK_RESPONSE_CANCEL);
  GPtrArray *kept = pf_journal_list (folder);
  g_assert_cmpuint (kept->len, ==, 3);
  g_ptr_array_unref (kept);
  g_signal_emit_by_name (named (dialog, "Throw it away…: Flower"), "clicked");
  answer (GTK_RESPONSE_ACCEPT);
  kept = pf_journal_list (folder);
  g_assert_cmpuint (kept->len, ==, 2);

  g_assert_false (closed);
  g_signal_emit_by_name (named (dialog, "Throw it away…: Broken"), "clicked");
  answer (GTK_RESPONSE_ACCEPT);
  settle ();
  g_assert_true (closed); /* nothing is left to ask about */
  for (guint i = 0; i < kept->len; i++)
    pf_journal_discard (g_ptr_array_index (kept, i), NULL);
  g_ptr_array_unref (kept);
  g_ptr_array_unref (list);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  setlocale (LC_ALL, "C.UTF-8");
  g_test_add_func ("/app/dialogs/preferences", test_preferences);
  g_test_add_func ("/app/dialogs/true-size", test_true_size);
  g_test_add_func ("/app/dialogs/printer", test_printer);
  g_test_add_func ("/app/dialogs/printer/wrong", test_wrong_printer);
  g_test_add_func ("/app/dialogs/keys", test_keys);
  g_test_add_func ("/app/dialogs/import", test_import);
  g_test_add_func ("/app/dialogs/import/none", test_import_none);
  g_test_add_func ("/app/dialogs/import/gone", test_import_gone);
  g_test_add_func ("/app/dialogs/left-work", test_left_work);
  return g_test_run ();
}
