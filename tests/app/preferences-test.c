/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Preferences in their file.
 */
#include <preferences.h>

#include <signal.h>
#include <string.h>
#include <sys/resource.h>

#include <glib/gstdio.h>
#include <style.h>

typedef struct {
  char *folder, *file, *aside;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  (void) data;
  fixture->folder = g_dir_make_tmp ("pinfold-preferences-XXXXXX", NULL);
  fixture->file = g_build_filename (fixture->folder, "pinfold", "preferences.ini", NULL);
  fixture->aside = g_strconcat (fixture->file, "~", NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autofree char *inner = g_path_get_dirname (fixture->file);
  g_remove (fixture->file);
  g_remove (fixture->aside);
  g_rmdir (inner);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0); /* nothing else was left there */
  g_free (fixture->folder);
  g_free (fixture->file);
  g_free (fixture->aside);
}

static void
put (Fixture *fixture, const char *text)
{
  g_autofree char *inner = g_path_get_dirname (fixture->file);
  g_assert_cmpint (g_mkdir_with_parents (inner, 0700), ==, 0);
  g_assert_true (g_file_set_contents (fixture->file, text, -1, NULL));
}

static char *
content (const char *file)
{
  char *text = NULL;
  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return text;
}

static void
assert_defaults (PfPreferences *preferences)
{
  g_assert_cmpint (pf_preferences_units (preferences), ==, PF_UNITS_MM);
  g_assert_cmpint (pf_preferences_style (preferences), ==, PF_STYLE_SYSTEM);
  g_assert_cmpuint (pf_preferences_layers (preferences), ==, PF_LAYER_ALL);
  g_assert_cmpfloat (pf_preferences_line_width (preferences), ==, 1);
  g_assert_cmpfloat_with_epsilon (pf_preferences_pixels_per_mm (preferences), 3.7795, 1e-4);
  g_assert_true (pf_preferences_edge_strip (preferences));
  const PfLook look = pf_preferences_look (preferences), printed = pf_look_printed ();
  g_assert_true (pf_look_equal (&look, &printed));
  g_assert_null (pf_preferences_last_folder (preferences));
  g_assert_false (pf_preferences_welcome_shown (preferences));
  for (int kind = PF_PAIR_NEW; kind <= PF_PAIR_FINISHED; kind++)
    g_assert_cmpstr (pf_preferences_colour (preferences, (PfPairKind) kind), ==,
                     pf_line_style ((PfPairKind) kind)->colour);
}

static void
test_fresh (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autoptr (PfPreferences) preferences = pf_preferences_new (fixture->file);
  assert_defaults (preferences);
  g_assert_null (pf_preferences_trouble (preferences));
  g_clear_object (&preferences);
  g_assert_false (g_file_test (fixture->file, G_FILE_TEST_EXISTS)); /* nothing was chosen */
}

static void
choose (PfPreferences *preferences)
{
  g_object_set (preferences, "units", PF_UNITS_INCH, "style", PF_STYLE_DARK_CONTRAST, "new-colour",
                "#123456", "finished-colour", "#FFfe01", "line-width", 2.5, "pixels-per-mm", 5.25,
                "layers", PF_LAYER_OUTLINE | PF_LAYER_THREADS, "last-folder", "/a b/ü;c\n ",
                "welcome-shown", TRUE, "edge-strip", FALSE, "printer-short-side", 49.25,
                "printer-long-side", 50.5, "printer-files", FALSE, "pillow-whole", TRUE, NULL);
}

static void
assert_chosen (PfPreferences *preferences)
{
  g_assert_cmpint (pf_preferences_units (preferences), ==, PF_UNITS_INCH);
  g_assert_cmpint (pf_preferences_style (preferences), ==, PF_STYLE_DARK_CONTRAST);
  g_assert_cmpstr (pf_preferences_colour (preferences, PF_PAIR_NEW), ==, "#123456");
  g_assert_cmpstr (pf_preferences_colour (preferences, PF_PAIR_FINISHED), ==, "#FFfe01");
  g_assert_cmpfloat (pf_preferences_line_width (preferences), ==, 2.5);
  g_assert_cmpfloat (pf_preferences_pixels_per_mm (preferences), ==, 5.25);
  g_assert_cmpuint (pf_preferences_layers (preferences), ==, PF_LAYER_OUTLINE | PF_LAYER_THREADS);
  g_assert_false (pf_preferences_edge_strip (preferences));
  const PfPrinterRules printer = pf_preferences_printer (preferences);
  g_assert_cmpfloat (printer.short_side, ==, 49.25);
  g_assert_cmpfloat (printer.long_side, ==, 50.5);
  const PfPrinterRules of_files = pf_preferences_printer_of_files (preferences);
  g_assert_true (pf_printer_is_true (&of_files));
  g_assert_true (pf_preferences_pillow_whole (preferences));
  const PfLook look = pf_preferences_look (preferences);
  g_assert_cmpstr (look.colours[PF_PAIR_NEW], ==, "#123456");
  g_assert_cmpstr (look.colours[PF_PAIR_FINISHED], ==, "#FFfe01");
  g_assert_cmpfloat (look.line_width, ==, 2.5);
  g_assert_cmpstr (pf_preferences_last_folder (preferences), ==, "/a b/ü;c\n ");
  g_assert_true (pf_preferences_welcome_shown (preferences));
}

static void
test_round_trip (Fixture *fixture, gconstpointer data)
{
  (void) data;
  PfPreferences *first = pf_preferences_new (fixture->file);
  choose (first);
  g_object_unref (first);

  PfPreferences *second = pf_preferences_new (fixture->file);
  assert_chosen (second);
  pf_preferences_reset (second);
  g_assert_cmpint (pf_preferences_units (second), ==, PF_UNITS_MM);
  g_assert_cmpfloat (pf_preferences_pixels_per_mm (second), ==, 5.25); /* measured, not chosen */
  pf_preferences_reset_property (second, "pixels-per-mm");
  pf_preferences_reset_property (second, "printer-short-side");
  pf_preferences_reset_property (second, "printer-long-side");
  pf_preferences_reset_property (second, "printer-files");
  g_object_set (second, "layers", PF_LAYER_ALL, "last-folder", NULL, "welcome-shown", FALSE,
                "edge-strip", TRUE, "pillow-whole", FALSE, NULL);
  g_object_unref (second);

  g_autoptr (PfPreferences) third = pf_preferences_new (fixture->file);
  assert_defaults (third);
  g_autofree char *text = content (fixture->file);
  g_assert_null (strchr (text, '=')); /* what is the default isn't kept */
}

static void
test_no_layers (Fixture *fixture, gconstpointer data)
{
  (void) data;
  PfPreferences *preferences = pf_preferences_new (fixture->file);
  g_object_set (preferences, "layers", 0, NULL);
  g_object_unref (preferences);
  preferences = pf_preferences_new (fixture->file);
  g_assert_cmpuint (pf_preferences_layers (preferences), ==, 0);
  g_object_unref (preferences);
}

static void
quit (GMainLoop *loop)
{
  g_main_loop_quit (loop);
}

static gboolean
quit_when_saved (gpointer data)
{
  Fixture *fixture = ((gpointer *) data)[0];
  if (g_file_test (fixture->file, G_FILE_TEST_EXISTS))
    g_main_loop_quit (((gpointer *) data)[1]);
  return G_SOURCE_CONTINUE;
}

static void
test_saved_soon (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr (PfPreferences) preferences = pf_preferences_new (fixture->file);
  choose (preferences);
  g_assert_false (g_file_test (fixture->file, G_FILE_TEST_EXISTS));
  gpointer both[] = { fixture, loop };
  const guint poll = g_timeout_add (50, quit_when_saved, both);
  const guint limit = g_timeout_add_once (10000, (GSourceOnceFunc) quit, loop);
  g_main_loop_run (loop);
  g_source_remove (poll);
  g_assert_true (g_source_remove (limit)); /* it hadn't come to that */
  g_autoptr (PfPreferences) other = pf_preferences_new (fixture->file);
  assert_chosen (other);
}

static void
count (int *n)
{
  (*n)++;
}

static void
test_notify (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autoptr (PfPreferences) preferences = pf_preferences_new (fixture->file);
  int n = 0;
  g_signal_connect_swapped (preferences, "notify", G_CALLBACK (count), &n);
  g_object_set (preferences, "units", PF_UNITS_INCH, NULL);
  g_assert_cmpint (n, ==, 1);
  g_object_set (preferences, "units", PF_UNITS_INCH, "line-width", 1.0, NULL);
  g_assert_cmpint (n, ==, 1); /* nothing changed */
  pf_preferences_reset (preferences);
  g_assert_cmpint (n, ==, 2);
}

static void
test_broken (Fixture *fixture, gconstpointer data)
{
  (void) data;
  static const char *const broken[] = { "units=inch\n", "[Pinfold\nunits=inch\n", "\x01\x02\xff",
                                        "[Pinfold]\nunits\n" };
  for (size_t i = 0; i < G_N_ELEMENTS (broken); i++)
    {
      put (fixture, broken[i]);
      g_autoptr (PfPreferences) preferences = pf_preferences_new (fixture->file);
      assert_defaults (preferences);
      g_assert_nonnull (strstr (pf_preferences_trouble (preferences), "preferences.ini~"));
      g_autofree char *aside = content (fixture->aside);
      g_assert_cmpstr (aside, ==, broken[i]);
      g_assert_false (g_file_test (fixture->file, G_FILE_TEST_EXISTS));
    }
}

/* A value that can't be is the default; what isn't known, and what makes no sense, stays. */
static void
test_odd_values (Fixture *fixture, gconstpointer data)
{
  (void) data;
  put (fixture, "# mine\n[Pinfold]\nunits=ell\nstyle=dark\nnew-colour=blue\nline-width=9\n"
                "pixels-per-mm=wide\nlayers=outline;sparkles;\nwelcome-shown=perhaps\nlater=7\n\n"
                "[Elsewhere]\nkey=value\n");
  PfPreferences *preferences = pf_preferences_new (fixture->file);
  g_assert_null (pf_preferences_trouble (preferences));
  g_assert_cmpint (pf_preferences_units (preferences), ==, PF_UNITS_MM);
  g_assert_cmpint (pf_preferences_style (preferences), ==, PF_STYLE_DARK);
  g_assert_cmpstr (pf_preferences_colour (preferences, PF_PAIR_NEW), ==,
                   pf_line_style (PF_PAIR_NEW)->colour);
  g_assert_cmpfloat (pf_preferences_line_width (preferences), ==, 1);
  g_assert_cmpfloat (pf_preferences_pixels_per_mm (preferences), ==, PF_PIXELS_PER_MM_USUAL);
  g_assert_cmpuint (pf_preferences_layers (preferences), ==, PF_LAYER_OUTLINE);
  g_assert_false (pf_preferences_welcome_shown (preferences));
  g_object_set (preferences, "line-width", 2.0, NULL);
  g_object_unref (preferences);

  g_autofree char *text = content (fixture->file);
  static const char *const kept[] = { "# mine\n",  "units=ell\n",    "new-colour=blue\n",
                                      "later=7\n", "line-width=2\n", "[Elsewhere]\nkey=value\n" };
  for (size_t i = 0; i < G_N_ELEMENTS (kept); i++)
    g_assert_nonnull (strstr (text, kept[i]));
}

static void
keep_message (PfPreferences *preferences, const char *message, char **kept)
{
  (void) preferences;
  g_free (*kept);
  *kept = g_strdup (message);
}

/* In a process of its own that may write no byte to a file: as on a full disk. */
static void
save_on_full_disk (const char *file)
{
  signal (SIGXFSZ, SIG_IGN);
  g_autoptr (PfPreferences) preferences = pf_preferences_new (file);
  choose (preferences);
  const struct rlimit none = { 0, RLIM_INFINITY }, enough = { RLIM_INFINITY, RLIM_INFINITY };
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &none), ==, 0);
  g_autoptr (GError) error = NULL;
  g_assert_false (pf_preferences_save (preferences, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_clear_error (&error);
  g_autofree char *message = NULL;
  g_signal_connect (preferences, "save-failed", G_CALLBACK (keep_message), &message);
  g_object_set (preferences, "line-width", 3.0, NULL);
  while (!message)
    g_main_context_iteration (NULL, TRUE);
  /* Once there is room, nothing is lost. */
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &enough), ==, 0);
  g_object_set (preferences, "line-width", 2.5, NULL);
  g_assert_true (pf_preferences_save (preferences, &error));
  g_assert_no_error (error);
}

static void
test_full_disk (Fixture *fixture, gconstpointer data)
{
  (void) data;
  if (g_test_subprocess ())
    {
      save_on_full_disk (g_getenv ("PF_TEST_FULL_DISK"));
      return;
    }
  put (fixture, "[Pinfold]\nstyle=light\n");
  g_setenv ("PF_TEST_FULL_DISK", fixture->file, TRUE);
  g_test_trap_subprocess (NULL, 30 * G_USEC_PER_SEC, 0);
  g_unsetenv ("PF_TEST_FULL_DISK");
  g_test_trap_assert_passed ();
  g_autoptr (PfPreferences) preferences = pf_preferences_new (fixture->file);
  assert_chosen (preferences);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test)                                                                            \
  g_test_add ("/app/preferences/" name, Fixture, NULL, set_up, test, tear_down)
  ADD ("fresh", test_fresh);
  ADD ("round-trip", test_round_trip);
  ADD ("no-layers", test_no_layers);
  ADD ("saved-soon", test_saved_soon);
  ADD ("notify", test_notify);
  ADD ("broken", test_broken);
  ADD ("odd-values", test_odd_values);
  ADD ("full-disk", test_full_disk);
  return g_test_run ();
}
