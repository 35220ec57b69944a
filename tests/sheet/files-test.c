/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Saving: whole or not at all, same input same bytes, and clear words when it can't be done.
 */
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <poppler.h>

#include "paint.h"
#include "samples.h"

typedef struct {
  char *folder;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autoptr (GError) error = NULL;
  fixture->folder = g_dir_make_tmp ("pinfold-sheet-XXXXXX", &error);
  g_assert_no_error (error);
}

static guint
n_files (const char *folder)
{
  guint n = 0;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  (void) data;
  GDir *dir = g_dir_open (fixture->folder, 0, NULL);
  for (const char *name = g_dir_read_name (dir); name; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (fixture->folder, name, NULL);
      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_dir_close (dir);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
}

static char *
path_in (const Fixture *fixture, const char *name)
{
  return g_build_filename (fixture->folder, name, NULL);
}

static void
assert_content (const char *path, const char *expected)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *content = NULL;
  g_file_get_contents (path, &content, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (content, ==, expected);
}

static void
save (const char *path, const char *content)
{
  g_autoptr (GError) error = NULL;
  g_assert_true (pf_file_save (path, content, strlen (content), &error));
  g_assert_no_error (error);
}

static void
test_replace (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autofree char *path = path_in (fixture, "sheet.svg");
  save (path, "first");
  assert_content (path, "first");
  save (path, "second, longer");
  assert_content (path, "second, longer");
  save (path, "");
  assert_content (path, "");
  g_assert_cmpuint (n_files (fixture->folder), ==, 1);
}

/* A link stays a link; the file that it leads to gets the bytes. */
static void
test_link (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autofree char *path = path_in (fixture, "sheet.svg"), *link = path_in (fixture, "link.svg");
  save (path, "first");
  g_assert_cmpint (symlink ("sheet.svg", link), ==, 0);
  save (link, "second");
  assert_content (path, "second");
  GStatBuf status;
  g_assert_cmpint (g_lstat (link, &status), ==, 0);
  g_assert_true (S_ISLNK (status.st_mode));
}

static void
assert_fails (const char *path, const char *words)
{
  g_autoptr (GError) error = NULL;
  g_assert_false (pf_file_save (path, "bytes", 5, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, words));
  g_autofree char *name = g_path_get_basename (path);
  g_assert_nonnull (strstr (error->message, name));
}

static void
test_refused (Fixture *fixture, gconstpointer data)
{
  (void) data;
  g_autofree char *none = g_build_filename (fixture->folder, "none", "sheet.svg", NULL);
  assert_fails (none, "folder doesn't exist");
  assert_fails (fixture->folder, "is a folder");
  g_assert_cmpuint (n_files (fixture->folder), ==, 0);
  /* A device that is always full is written to and not replaced. */
  assert_fails ("/dev/full", "No space left");
  GStatBuf status;
  g_assert_cmpint (g_stat ("/dev/full", &status), ==, 0);
  g_assert_true (S_ISCHR (status.st_mode));
}

/* In a process of its own, which may write no file longer than 4 KiB: as on a full disk. */
static void
save_on_full_disk (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = g_strnfill (100000, 'x');
  signal (SIGXFSZ, SIG_IGN);
  const struct rlimit limit = { 4096, 4096 };
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
  g_assert_false (pf_file_save (path, bytes, 100000, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
}

static void
test_full_disk (Fixture *fixture, gconstpointer data)
{
  (void) data;
  const char *given = g_getenv ("PF_TEST_FULL_DISK");
  if (g_test_subprocess ())
    {
      save_on_full_disk (given);
      return;
    }
  g_autofree char *path = path_in (fixture, "sheet.pdf");
  save (path, "what was there");
  g_setenv ("PF_TEST_FULL_DISK", path, TRUE);
  g_test_trap_subprocess (NULL, 0, 0);
  g_unsetenv ("PF_TEST_FULL_DISK");
  g_test_trap_assert_passed ();
  assert_content (path, "what was there");
  g_assert_cmpuint (n_files (fixture->folder), ==, 1);
}

static PfSheet *
sample_sheet (double enlarge)
{
  g_autoptr (GError) error = NULL;
  PfPricking *pricking =
      sample_demo ("quince-leaf", "armure", 4, PF_EDGE_HALF_STITCH, PF_BEADS_KEPT);
  PfSheetSettings settings = sample_settings ("A4");
  settings.enlarge = enlarge;
  PfSheet *sheet = pf_sheet_new (pricking, &settings, &error);
  g_assert_no_error (error);
  pf_pricking_free (pricking);
  return sheet;
}

/* SVG, PDF and PNG of two runs, byte by byte. */
static void
test_same_bytes (Fixture *fixture, gconstpointer data)
{
  (void) data;
  static const char *const endings[] = { "svg", "pdf", "png" };
  for (size_t i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      char *content[2];
      gsize length[2];
      for (int run = 0; run < 2; run++)
        {
          g_autoptr (GError) error = NULL;
          g_autofree char *name = g_strdup_printf ("run%d.%s", run, endings[i]);
          g_autofree char *path = path_in (fixture, name);
          g_autoptr (PfSheet) sheet = sample_sheet (1);
          g_assert_true (pf_sheet_save (sheet, path, NULL, &error));
          g_assert_no_error (error);
          g_file_get_contents (path, &content[run], &length[run], &error);
          g_assert_no_error (error);
        }
      g_assert_cmpmem (content[0], (int) length[0], content[1], (int) length[1]);
      g_free (content[0]);
      g_free (content[1]);
    }
}

/* What the PDF says about itself is what it is given, not the clock. */
static void
test_pdf_words (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfSheet) sheet = sample_sheet (1);
  const char *page = pf_sheet_page_svg (sheet, 0);
  g_autoptr (GByteArray) pdf =
      pf_paint_pdf (&page, 1, 210, 297, (PfPdfWords){ "Leaf", 1709164800 }, &error);
  g_assert_no_error (error);
  g_autoptr (GBytes) bytes = g_byte_array_free_to_bytes (g_steal_pointer (&pdf));
  PopplerDocument *document = poppler_document_new_from_bytes (bytes, NULL, &error);
  g_assert_no_error (error);
  g_autofree char *title = poppler_document_get_title (document);
  g_assert_cmpstr (title, ==, "Leaf");
  g_assert_cmpint (poppler_document_get_creation_date (document), ==, 1709164800);
  g_object_unref (document);
}

static void
test_pages (Fixture *fixture, gconstpointer data)
{
  (void) data;
  static const char *const endings[] = { ".svg", ".PNG" };
  g_autoptr (PfSheet) sheet = sample_sheet (4);
  const size_t n = pf_sheet_n_pages (sheet);
  g_assert_cmpuint (n, >=, 2);
  for (size_t e = 0; e < G_N_ELEMENTS (endings); e++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *first = g_strconcat ("my.leaf", endings[e], NULL);
      g_autofree char *path = path_in (fixture, first);
      g_auto (GStrv) files = NULL;
      g_assert_true (pf_sheet_save (sheet, path, &files, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (g_strv_length (files), ==, n);
      g_assert_cmpstr (files[0], ==, path);
      for (size_t i = 0; i < n; i++)
        {
          g_autofree char *name =
              i == 0 ? g_strdup (first) : g_strdup_printf ("my.leaf-%zu%s", i + 1, endings[e]);
          g_autofree char *expected = path_in (fixture, name);
          g_assert_cmpstr (files[i], ==, expected);
          g_assert_true (g_file_test (files[i], G_FILE_TEST_IS_REGULAR));
        }
    }
  g_assert_cmpuint (n_files (fixture->folder), ==, 2 * n);
}

/* A PNG of an A4 page at 300 dots to the inch: 2480 by 3508 (210 and 297 mm divided by 25.4, times
 * 300). Its header: W3C, Portable Network Graphics, 11.2.2. */
static void
test_png_size (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfSheet) sheet = sample_sheet (1);
  g_autoptr (GByteArray) png =
      pf_paint_png (pf_sheet_page_svg (sheet, 0), 210, 297, PF_PNG_DOTS, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (png->data, 8, "\x89PNG\r\n\x1a\n", 8);
  g_assert_cmpmem (png->data + 12, 12, "IHDR\0\0\x09\xb0\0\0\x0d\xb4", 12);

  g_assert_null (pf_paint_png (pf_sheet_page_svg (sheet, 0), 1e6, 10, PF_PNG_DOTS, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_TOO_BIG);
}

static void
test_unknown_ending (void)
{
  static const char *const names[] = { "leaf", "leaf.ps", "leaf.svg.gz", ".pdf", "pdf" };
  g_autoptr (PfSheet) sheet = sample_sheet (1);
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_false (pf_sheet_save (sheet, names[i], NULL, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
      g_assert_nonnull (strstr (error->message, ".pdf, .svg or .png"));
      g_assert_false (g_file_test (names[i], G_FILE_TEST_EXISTS));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add (name, Fixture, NULL, set_up, function, tear_down)
  ADD ("/sheet/files/replace", test_replace);
  ADD ("/sheet/files/link", test_link);
  ADD ("/sheet/files/refused", test_refused);
  ADD ("/sheet/files/full-disk", test_full_disk);
  ADD ("/sheet/files/same-bytes", test_same_bytes);
  ADD ("/sheet/files/pages", test_pages);
  g_test_add_func ("/sheet/files/pdf-words", test_pdf_words);
  g_test_add_func ("/sheet/files/png-size", test_png_size);
  g_test_add_func ("/sheet/files/unknown-ending", test_unknown_ending);
  return g_test_run ();
}
