/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The command line as its users meet it: what comes out, what is said when something is wrong, and
 * the exit status.
 */
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>

static char *folder; /* of this test run */

typedef struct {
  int status;
  char *out, *err;
} Run;

static void
run_clear (Run *run)
{
  g_free (run->out);
  g_free (run->err);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Run, run_clear)

/* Runs the program on words split as a shell would, in the run's folder. */
static Run
run_words (const char *words)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *line = g_strdup_printf ("%s %s", g_getenv ("PINFOLD_CLI"), words);
  g_auto (GStrv) argv = NULL;
  g_assert_true (g_shell_parse_argv (line, NULL, &argv, &error));
  Run run = { 0 };
  int wait_status;
  g_assert_true (g_spawn_sync (folder, argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &run.out, &run.err,
                               &wait_status, &error));
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (wait_status));
  run.status = WEXITSTATUS (wait_status);
  return run;
}

/* The same, with %s in `words` for the demo folder. */
static Run
run_demo (const char *words)
{
  g_autofree char *demo = g_build_filename (g_getenv ("PF_DATA"), "demo", NULL);
  g_auto (GStrv) parts = g_strsplit (words, "DEMO", -1);
  g_autofree char *line = g_strjoinv (demo, parts);
  return run_words (line);
}

static char *
in_folder (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static void
write_file (const char *name, const char *text)
{
  g_autofree char *path = in_folder (name);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static char *
read_file (const char *name, gsize *length)
{
  g_autofree char *path = in_folder (name);
  char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_file_get_contents (path, &text, length, &error);
  g_assert_no_error (error);
  return text;
}

/* --- Exit status and errors ---------------------------------------------------------------------
 */

typedef struct {
  const char *name, *words;
  int status;
  const char *says; /* on standard error, in one line */
} Wrong;

static const Wrong wrong[] = {
  { "no-command", "", 2, "command is missing" },
  { "unknown-command", "weave", 2, "weave" },
  { "unknown-option", "fill --colour red", 2, "colour" },
  { "stray-word", "fill --outline DEMO/pond.svg --ground torchon --gap 4 pond", 2, "pond" },
  { "gap-missing", "fill --outline DEMO/pond.svg --ground torchon", 2, "--gap" },
  { "gap-word", "fill --outline DEMO/pond.svg --ground torchon --gap wide", 2, "wide" },
  { "gap-unit", "fill --outline DEMO/pond.svg --ground torchon --gap 4mm", 2, "4mm" },
  { "gap-zero", "fill --outline DEMO/pond.svg --ground torchon --gap 0", 1, "gap" },
  { "gap-negative", "fill --outline DEMO/pond.svg --ground torchon --gap -3", 1, "gap" },
  { "gap-huge", "fill --outline DEMO/pond.svg --ground torchon --gap 1e9", 1, "gap" },
  { "gap-nan", "fill --outline DEMO/pond.svg --ground torchon --gap nan", 1, "gap" },
  { "turn-infinite", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --turn inf", 1,
    "turn" },
  { "angle-flat", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --angle 90", 1, "angle" },
  { "thread-unknown", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --thread moonbeam", 2,
    "moonbeam" },
  { "thread-twice",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --thread moonbeam --wraps 20", 2,
    "--wraps" },
  { "wraps-none", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --wraps 0.2", 1,
    "wraps per cm" },
  { "spare-negative", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --wraps 20 --spare -1",
    1, "spare" },
  { "threads-word", "threads silk", 2, "silk" },
  { "threads-none", "threads --instead-of 0", 1, "200" },
  { "origin-one", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --origin 3", 2, "X,Y" },
  { "origin-far", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --origin 1e9,0", 1,
    "origin" },
  { "edge-word", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --edge whole", 2,
    "half, cloth" },
  { "edge-gap-zero", "fill --outline DEMO/swift.svg --ground torchon --gap 4 --edge-gap 0", 1,
    "edge gap" },
  { "beads-word", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --beads many", 2,
    "none, whole, kept" },
  { "carry-negative", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --carry -1", 1,
    "carry" },
  { "enlarge-zero",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --enlarge 0 --sheet a.pdf", 1,
    "enlarge" },
  { "paper-word", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --paper A9 --sheet a.pdf",
    2, "A9" },
  { "report-ending", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --report a.doc", 2,
    "a.doc" },
  { "sheet-ending", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --sheet a.bmp", 2,
    "a.bmp" },
  { "no-file", "fill --outline nowhere.svg --ground torchon --gap 4", 1, "nowhere.svg" },
  { "no-ground", "fill --outline DEMO/pond.svg --ground torchen --gap 4", 1, "torchon" },
  { "no-element", "fill --outline DEMO/pond.svg --element sea --ground torchon --gap 4", 1, "sea" },
  { "no-folder", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --report nowhere/a.txt", 1,
    "nowhere/a.txt" },
  { "crossing", "fill --outline bow.svg --ground torchon --gap 4", 1, "cross" },
  { "empty", "fill --outline empty.svg --ground torchon --gap 4", 1, "empty.svg" },
  { "not-svg", "fill --outline note.svg --ground torchon --gap 4", 1, "note.svg" },
  { "broken-ground", "fill --outline DEMO/pond.svg --ground broken.json --gap 4", 1,
    "broken.json" },
  { "over-outline", "fill --outline bow.svg --ground torchon --gap 4 --sheet ./bow.svg", 2,
    "bow.svg" },
  { "over-outline-page", "fill --outline bow-2.svg --ground torchon --gap 4 --sheet bow.svg", 2,
    "bow-2.svg" },
  { "over-ground", "fill --outline bow.svg --ground broken.json --gap 4 --report broken.json", 2,
    "broken.json" },
  { "document-and-ground", "fill piece.pinfold --ground rose", 2, "--ground" },
  { "document-and-gap", "fill piece.pinfold --gap 3", 2, "--gap" },
  { "document-and-outline", "fill piece.pinfold --outline DEMO/pond.svg", 2, "--outline" },
  { "two-documents", "fill piece.pinfold other.pinfold", 2, "other.pinfold" },
  { "no-document", "fill nowhere.pinfold", 1, "nowhere.pinfold" },
  { "document-later", "fill later.pinfold", 1, "later Pinfold" },
  { "document-empty", "fill unfilled.pinfold", 1, "ground" },
  { "document-crossing", "fill bow.pinfold", 1, "“bow”" },
  { "document-is-drawing", "fill bow.svg", 1, "bow.svg" },
  { "document-paper", "fill piece.pinfold --paper A9", 2, "A9" },
  { "over-document", "fill piece.svg --sheet ./piece.svg", 2, "piece.svg" },
  { "draw-two", "grounds --draw a.svg rose torchon", 2, "one ground" },
  { "draw-ending", "grounds --draw a.txt rose", 2, "a.txt" },
  { "close-up-two", "grounds --close-up a.svg rose torchon", 2, "one ground" },
  { "close-up-none", "grounds --close-up a.svg", 2, "one ground" },
  { "close-up-ending", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --close-up a.bmp", 2,
    "a.bmp" },
  { "part-alone", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --part 0,0,9,9", 2,
    "--close-up" },
  { "part-three",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --close-up a.svg --part 0,0,9", 2,
    "X,Y,W,H" },
  { "part-five",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --close-up a.svg --part 0,0,9,9,9", 2,
    "X,Y,W,H" },
  { "part-empty",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --close-up a.png --part 0,0,9,0", 1,
    "above 0 mm" },
  { "part-huge",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --close-up a.png --part 0,0,1e5,9", 1,
    "too large" },
  { "over-close-up", "fill --outline bow.svg --ground torchon --gap 4 --close-up bow.svg", 2,
    "bow.svg" },
  { "first-word", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --first up", 2,
    "left, right" },
  { "document-and-habit", "fill piece.pinfold --work-by row", 2, "--work-by" },
  { "book-ending", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --book a.svg", 2,
    "a.svg" },
  { "steps-ending", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --steps a.pdf", 2,
    "a.pdf" },
  { "contents-alone", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --contents notes", 2,
    "--book" },
  { "contents-word",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --book a.pdf --contents notes,cover", 2,
    "cover" },
  { "contents-none",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --book a.pdf --contents ''", 2,
    "--contents" },
  { "rules-one", "fill --outline DEMO/pond.svg --ground torchon --gap 4 --rules 49", 2, "49" },
  { "rules-far",
    "fill --outline DEMO/pond.svg --ground torchon --gap 4 --sheet a.pdf --rules 50,40", 1,
    "check rule" },
  { "over-book", "fill piece.pdf --book piece.pdf", 2, "piece.pdf" },
  { "grounds-unknown", "grounds roes", 1, "rose" },
};

static void
test_wrong (gconstpointer data)
{
  const Wrong *w = data;
  g_auto (Run) run = run_demo (w->words);
  g_test_message ("%s", run.err);
  g_assert_cmpint (run.status, ==, w->status);
  g_assert_nonnull (strstr (run.err, w->says));
  g_assert_true (g_str_has_prefix (run.err, "pinfold-cli: "));
  g_assert_cmpuint (strlen (run.err), >, 0);
  g_assert_true (strchr (run.err, '\n') == run.err + strlen (run.err) - 1);
}

static void
test_help (void)
{
  static const char *const words[] = { "--help", "fill --help", "grounds --help", "--version" };
  static const char *const shown[] = { "Exit status", "--edge-gap", "--draw", "pinfold-cli " };
  for (size_t w = 0; w < G_N_ELEMENTS (words); w++)
    {
      g_auto (Run) run = run_words (words[w]);
      g_assert_cmpint (run.status, ==, 0);
      g_assert_nonnull (strstr (run.out, shown[w]));
      g_assert_cmpstr (run.err, ==, "");
    }
}

static void
test_grounds (void)
{
  g_auto (Run) run = run_words ("grounds --check");
  g_assert_cmpint (run.status, ==, 0);
  static const char *const names[] = {
    "torchon",   "open-pin-torchon", "twisted-hole", "double-torchon",
    "rose",      "light-rose",       "ornamental",   "armure",
    "honeycomb", "point-net",        "spider",       "valenciennes-square"
  };
  for (size_t n = 0; n < G_N_ELEMENTS (names); n++)
    g_assert_nonnull (strstr (run.out, names[n]));
  g_assert_cmpstr (run.err, ==, "");
  g_assert_nonnull (strstr (run.out, "holds"));
  g_assert_null (strstr (run.out, "fails"));
  g_auto (Run) drawn = run_words ("grounds --draw rose.svg rose");
  g_assert_cmpint (drawn.status, ==, 0);
  g_autofree char *svg = read_file ("rose.svg", NULL);
  g_assert_nonnull (strstr (svg, "<svg"));
}

/* A ground's page: names, source, what is in a repeat, the working. Rose: four pairs, double stitch
 * at the corners, half stitch, pin, half stitch (J. Edkins, lace school web pages); torchon: No. 60
 * crochet cotton (G. Stillwell, 2013). */
static void
test_ground_page (void)
{
  static const struct {
    const char *words;
    const char *says[6];
  } cases[] = {
    { "grounds rose",
      { "Rose ground\n\nName: rose\n", "\nFamily: rose\n", "\nSource: Jo Edkins",
        "\nIn one repeat: stitches 6, pins 4, pairs 4, threads 8\n",
        "\n   3. Stitch 1: half stitch with the pairs from nw and ne; pin; half stitch.\n" } },
    { "grounds point-net torchon",
      { "Point net\n\nName: point-net\nAlso called: Bucks point ground, ",
        "\n\n\nTorchon ground\n\n",
        "\nUsual gap: 3.592 mm for No. 60 crochet cotton. Geraldine Stillwell (2013): " } },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Run) run = run_words (cases[i].words);
      g_assert_cmpint (run.status, ==, 0);
      g_assert_cmpstr (run.err, ==, "");
      for (const char *const *says = cases[i].says; *says; says++)
        if (!strstr (run.out, *says))
          g_error ("“%s” isn't in: %s", *says, run.out);
    }
  /* One that doesn't exist is told of, and the other's page comes all the same. */
  g_auto (Run) run = run_words ("grounds roes torchon");
  g_assert_cmpint (run.status, ==, 1);
  g_assert_nonnull (strstr (run.err, "rose"));
  g_assert_nonnull (strstr (run.out, "Name: torchon\n"));
  /* Proved, not told. */
  g_auto (Run) check = run_words ("grounds --check rose");
  g_assert_cmpint (check.status, ==, 0);
  g_assert_nonnull (strstr (check.out, "holds"));
  g_assert_null (strstr (check.out, "Name: rose"));
}

/* The columns of the table line up, and point net's row is what tests/ground derives: one stitch
 * and pin, two lines, one mesh of four lines, a line across either cut, two pairs in one zigzag;
 * one thread in a zigzag, one on each diagonal. */
static void
test_grounds_table (void)
{
  g_auto (Run) run = run_words ("grounds --check point-net valenciennes-square");
  g_auto (GStrv) lines = g_strsplit (run.out, "\n", 4);
  static const char *const left[] = { "Lines round them", "Pairs run", "Threads run", "Proof" };
  for (size_t c = 0; c < G_N_ELEMENTS (left); c++)
    {
      const char *heading = strstr (lines[0], left[c]);
      g_assert_nonnull (heading);
      const glong column = g_utf8_strlen (lines[0], heading - lines[0]);
      for (int row = 1; row <= 2; row++)
        {
          const char *cell = g_utf8_offset_to_pointer (lines[row], column);
          g_assert_true (cell[-1] == ' ' && cell[-2] == ' ' && cell[0] != ' ');
        }
    }
  g_auto (GStrv) cells = g_regex_split_simple (" {2,}", lines[1], 0, 0);
  g_autofree char *joined = g_strjoinv ("|", cells);
  g_assert_cmpstr (joined, ==,
                   "point-net|1|1|2|1|1×4|1|1|2|1×(1, 1)|1×(1, 1) 1×(1, 0) 1×(0, 1)|2|holds");
}

/* Crosses alone: every thread is joined with one other, and with no more. It is told apart from a
 * file that isn't a ground, and the others are still proved. */
static void
test_grounds_fail (void)
{
  write_file (
      "loose.json",
      "{\"format\": \"pinfold-ground\", \"version\": 1, \"name\": \"loose\", \"title\": "
      "\"Loose\", \"family\": \"test\", \"source\": \"Derived.\", \"repeat\": {\"a\": [1, 1], "
      "\"b\": [-1, 1]}, \"stitches\": [{\"name\": \"only\", \"at\": [0, 0], \"work\": \"cpc\"}], "
      "\"pair_lines\": [{\"from\": \"only.R\", \"to\": \"only.L\", \"repeat\": [1, 0]}, "
      "{\"from\": \"only.L\", \"to\": \"only.R\", \"repeat\": [0, 1]}]}");
  g_auto (Run) run = run_words ("grounds --check loose.json torchon broken.json");
  g_assert_cmpint (run.status, ==, 1);
  g_assert_nonnull (strstr (run.err, "loose: Nothing holds the threads of stitch “only”"));
  g_assert_nonnull (strstr (run.err, "broken.json"));
  g_assert_nonnull (strstr (run.out, "fails"));
  g_assert_nonnull (strstr (run.out, "holds"));
  g_assert_null (strstr (run.out, "Proved"));
}

/* --- What comes out ------------------------------------------------------------------------------
 */

static gint64
count_at (JsonObject *object, const char *outer, const char *inner)
{
  return json_object_get_int_member (json_object_get_object_member (object, outer), inner);
}

/* The identities that hold for every filling: every stitch has two pairs in and two out. */
static void
check_counts (JsonObject *counts)
{
  const gint64 entering = count_at (counts, "crossings", "entering");
  const gint64 new_pairs = count_at (counts, "pairs", "new");
  const gint64 turned = count_at (counts, "pairs", "turned");
  const gint64 carried = count_at (counts, "pairs", "carried");
  const gint64 sewings = count_at (counts, "sewings", "total");
  g_assert_cmpint (entering, ==, count_at (counts, "crossings", "leaving"));
  g_assert_cmpint (new_pairs, ==, count_at (counts, "pairs", "finished"));
  g_assert_cmpint (turned + carried, ==, count_at (counts, "pairs", "reused"));
  g_assert_cmpint (new_pairs, ==, entering - turned - carried);
  g_assert_cmpint (sewings, ==, 2 * new_pairs + turned + 2 * carried);
  g_assert_cmpint (sewings, ==,
                   count_at (counts, "sewings", "at_pinhole") +
                       count_at (counts, "sewings", "round_bar"));
}

/* The length of each list against the count that stands for it. */
static void
check_motif (JsonObject *motif)
{
  check_counts (motif);
  JsonArray *paths = json_object_get_array_member (motif, "paths");
  g_assert_cmpint (json_array_get_length (paths), ==, count_at (motif, "pairs", "new"));
  JsonArray *sewn = json_object_get_array_member (motif, "sewn");
  g_assert_cmpint (json_array_get_length (sewn), ==, count_at (motif, "sewings", "total"));
  gint64 stitches = 0;
  for (guint p = 0; p < json_array_get_length (paths); p++)
    {
      JsonArray *steps =
          json_object_get_array_member (json_array_get_object_element (paths, p), "steps");
      for (guint s = 0; s < json_array_get_length (steps); s++)
        stitches += json_object_has_member (json_array_get_object_element (steps, s), "stitch");
    }
  g_assert_cmpint (stitches, ==, 2 * json_object_get_int_member (motif, "stitches"));
}

static void
test_reports (void)
{
  g_auto (Run) run =
      run_demo ("fill --outline DEMO/runner-end.svg --ground armure --gap 5 --beads whole "
                "--paper Letter --report all.json --report all.txt --report all.csv "
                "--report all.pdf --report all.html --report all-winding.csv");
  g_assert_cmpint (run.status, ==, 0);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autofree char *path = in_folder ("all.json");
  g_assert_true (json_parser_load_from_file (parser, path, NULL));
  JsonObject *root = json_node_get_object (json_parser_get_root (parser));
  check_counts (root);
  JsonArray *motifs = json_object_get_array_member (root, "motifs");
  g_assert_cmpuint (json_array_get_length (motifs), ==, 6);
  gint64 stitches = 0, sewings = 0;
  for (guint m = 0; m < json_array_get_length (motifs); m++)
    {
      JsonObject *motif = json_array_get_object_element (motifs, m);
      check_motif (motif);
      stitches += json_object_get_int_member (motif, "stitches");
      sewings += count_at (motif, "sewings", "total");
    }
  g_assert_cmpint (stitches, ==, json_object_get_int_member (root, "stitches"));
  g_assert_cmpint (stitches, >, 500);

  g_autofree char *csv = read_file ("all.csv", NULL);
  g_auto (GStrv) lines = g_strsplit (csv, "\r\n", -1); /* RFC 4180, section 2: lines end in CRLF */
  g_assert_cmpint (g_strv_length (lines), ==, sewings + 2);
  g_autofree char *text = read_file ("all.txt", NULL);
  g_assert_nonnull (strstr (text, "New pairs (to wind)"));
  g_autofree char *html = read_file ("all.html", NULL),
                  *winding = read_file ("all-winding.csv", NULL);
  g_assert_true (g_str_has_prefix (html, "<!DOCTYPE html>"));
  g_assert_true (g_str_has_prefix (winding, "thread,wraps_per_cm,colour,bobbins,each_mm,"));
  gsize n;
  g_autofree char *pdf = read_file ("all.pdf", &n);
  g_assert_cmpmem (pdf, 5, "%PDF-", 5);
  for (gsize i = 0; i < n; i++)
    if (pdf[i] == '\0')
      pdf[i] = ' '; /* to look through it as a text */
  /* ANSI/ASME Y14.1: Letter is 8.5 by 11 inches, of 72 points each. */
  g_assert_nonnull (strstr (pdf, "/MediaBox [ 0 0 612 792 ]"));
}

/* A book of the parts asked for, and the steps. */
static void
test_book (void)
{
  g_auto (Run) run = run_demo ("fill --outline DEMO/quince-leaf.svg --ground armure --gap 4 "
                               "--first right --work-by row --sew-in first --rules 49.5,50.5 "
                               "--book book.pdf --contents notes,answers --pair-colours "
                               "--steps steps.txt");
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpint (run.status, ==, 0);
  g_assert_nonnull (strstr (run.out, "Book: book.pdf\n"));
  g_assert_nonnull (strstr (run.out, "Working steps: steps.txt\n"));
  gsize n;
  g_autofree char *pdf = read_file ("book.pdf", &n), *steps = read_file ("steps.txt", &n);
  g_assert_true (g_str_has_prefix (pdf, "%PDF-"));
  g_assert_nonnull (strstr (steps, "\nBefore the first stitch\n    1. Sew new pair 1 "));
  g_assert_nonnull (strstr (steps, "\nRepeat 1, at ("));
}

/* Same input, same bytes, whatever the day: the date is SOURCE_DATE_EPOCH's
 * (reproducible-builds.org). */
static void
test_same_bytes (void)
{
  g_setenv ("SOURCE_DATE_EPOCH", "1700000000", TRUE);
  const char *const endings[] = { ".pdf", ".svg",        ".png",  ".json",        ".txt",
                                  ".csv", "-report.pdf", ".html", "-winding.csv", ".ods" };
  for (int k = 0; k < 2; k++)
    {
      g_autofree char *words =
          g_strdup_printf ("fill --outline DEMO/quince-leaf.svg --ground rose --gap 4 "
                           "--sheet same%d.pdf --sheet same%d.svg --sheet same%d.png "
                           "--report same%d.json --report same%d.txt --report same%d.csv "
                           "--report same%d-report.pdf --report same%d.html "
                           "--report same%d-winding.csv --report same%d.ods",
                           k, k, k, k, k, k, k, k, k, k);
      g_auto (Run) run = run_demo (words);
      g_assert_cmpint (run.status, ==, 0);
    }
  for (size_t e = 0; e < G_N_ELEMENTS (endings); e++)
    {
      g_autofree char *first = g_strdup_printf ("same0%s", endings[e]);
      g_autofree char *second = g_strdup_printf ("same1%s", endings[e]);
      gsize n, m;
      g_autofree char *a = read_file (first, &n), *b = read_file (second, &m);
      g_assert_cmpuint (n, ==, m);
      g_assert_true (memcmp (a, b, n) == 0);
      if (strcmp (endings[e], ".svg") == 0)
        g_assert_nonnull (strstr (a, "2023-11-14")); /* 1,700,000,000 s after 1970-01-01, UTC */
    }
  g_unsetenv ("SOURCE_DATE_EPOCH");
}

/* A report that can't be written leaves the old one alone. */
static void
test_old_file_kept (void)
{
  write_file ("kept.txt", "old");
  g_auto (Run) run =
      run_demo ("fill --outline DEMO/pond.svg --ground torchon --gap 0.01 --report kept.txt");
  g_assert_cmpint (run.status, ==, 1);
  g_autofree char *text = read_file ("kept.txt", NULL);
  g_assert_cmpstr (text, ==, "old");
}

/* A part of 12 by 7.5 mm: 200 dots to the cm make 240 by 150 (W3C, Portable Network Graphics,
 * 11.2.2: the header); in SVG it is that large, and its threads are the part's alone. */
static void
test_close_up (void)
{
  g_auto (Run) run =
      run_demo ("fill --outline DEMO/quince-leaf.svg --ground torchon --gap 4 --part 20,30,12,7.5 "
                "--close-up part.png --close-up part.svg --close-up part.pdf");
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpint (run.status, ==, 0);
  g_assert_nonnull (strstr (run.out, "part.png"));
  gsize length;
  g_autofree char *png = read_file ("part.png", &length);
  g_assert_cmpmem (png, 8, "\x89PNG\r\n\x1a\n", 8);
  g_assert_cmpmem (png + 12, 12, "IHDR\0\0\0\xf0\0\0\0\x96", 12);
  g_autofree char *pdf = read_file ("part.pdf", &length);
  g_assert_cmpmem (pdf, 5, "%PDF-", 5);
  gsize part_length, whole_length;
  g_autofree char *part = read_file ("part.svg", &part_length);
  g_assert_nonnull (strstr (part, "width=\"12mm\" height=\"7.5mm\""));
  g_assert_nonnull (strstr (part, "class=\"threads\""));
  g_auto (Run) whole = run_demo (
      "fill --outline DEMO/quince-leaf.svg --ground torchon --gap 4 --close-up whole.svg");
  g_assert_cmpint (whole.status, ==, 0);
  g_autofree char *all = read_file ("whole.svg", &whole_length);
  g_assert_nonnull (strstr (all, "<svg"));
  g_assert_cmpuint (part_length, <, whole_length / 3);
}

static void
test_ground_close_up (void)
{
  g_auto (Run) run = run_words ("grounds --close-up rose.svg rose");
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpint (run.status, ==, 0);
  gsize length;
  g_autofree char *svg = read_file ("rose.svg", &length);
  g_assert_nonnull (strstr (svg, "class=\"threads\""));
}

static void
test_origin_and_turn (void)
{
  /* A square of 40 mm with torchon pins every 10 mm each way, 5 mm from its sides at least: 4 by 4
   * pins. */
  write_file (
      "square.svg",
      "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='60mm' viewBox='0 0 60 60'>"
      "<rect id='square' x='10' y='10' width='40' height='40'/></svg>");
  g_auto (Run) run =
      run_words ("fill --outline square.svg --ground torchon --gap 10 --turn 45 --origin 15,15 "
                 "--clearance 0.5 --report square.json");
  g_assert_cmpint (run.status, ==, 0);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autofree char *path = in_folder ("square.json");
  g_assert_true (json_parser_load_from_file (parser, path, NULL));
  JsonObject *root = json_node_get_object (json_parser_get_root (parser));
  g_assert_cmpint (json_object_get_int_member (root, "stitches"), ==, 16);
  /* An n by n diamond takes n pairs from each side (J. Edkins, lace school pages). */
  g_assert_cmpint (count_at (root, "crossings", "entering"), ==, 8);
}

/* A drawing whose name is its ending alone leaves no title: its file's name stands for it. */
static void
test_no_title (void)
{
  write_file (
      ".svg",
      "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='60mm' viewBox='0 0 60 60'>"
      "<rect x='10' y='10' width='40' height='40'/></svg>");
  g_auto (Run) run = run_words ("fill --outline .svg --ground torchon --gap 10 --report a.txt");
  g_assert_cmpint (run.status, ==, 0);
  g_assert_nonnull (strstr (run.out, "Torchon ground in .svg: "));
}

/* A document that says the same as options do gives the same report, byte by byte. */
static void
test_document (void)
{
  g_auto (Run) from_outline =
      run_words ("fill --outline piece-outline.svg --ground armure --gap 4 --turn 30 --edge cloth "
                 "--carry 2 --beads kept --report outline.json --report outline.csv");
  g_assert_cmpint (from_outline.status, ==, 0);
  g_auto (Run) from_document = run_words (
      "fill piece.pinfold --report document.json --report document.csv --sheet document.svg");
  g_assert_cmpstr (from_document.err, ==, "");
  g_assert_cmpint (from_document.status, ==, 0);
  static const char *const endings[] = { "json", "csv" };
  for (size_t e = 0; e < G_N_ELEMENTS (endings); e++)
    {
      g_autofree char *one = g_strconcat ("outline.", endings[e], NULL);
      g_autofree char *other = g_strconcat ("document.", endings[e], NULL);
      g_autofree char *a = read_file (one, NULL), *b = read_file (other, NULL);
      g_assert_true (strcmp (a, b) == 0);
    }
}

/* The page is the document's, but for what the options say. ISO 216: A3 is 420 mm high. */
static void
test_document_page (void)
{
  g_auto (Run) own = run_words ("fill piece.pinfold --sheet own.svg");
  g_auto (Run) other =
      run_words ("fill piece.pinfold --paper A4 --pins-only --enlarge 2 --sheet other.svg");
  g_assert_cmpint (own.status, ==, 0);
  g_assert_cmpint (other.status, ==, 0);
  g_autofree char *a3 = read_file ("own.svg", NULL), *a4 = read_file ("other.svg", NULL);
  g_assert_nonnull (strstr (a3, "height=\"420mm"));
  g_assert_null (strstr (a4, "420mm"));
  g_assert_nonnull (strstr (a3, "class=\"new"));
  g_assert_null (strstr (a4, "class=\"new"));
}

/* What the maker chose is kept to. */
static void
test_document_choices (void)
{
  static const char choice[] = "\"repeats\": [{\"repeat\": [0, 0], \"state\": \"left_out\"}]";
  g_autofree char *piece = read_file ("piece.pinfold", NULL);
  g_auto (GStrv) parts = g_strsplit (piece, "\"repeats\": []", -1);
  g_autofree char *chosen = g_strjoinv (choice, parts);
  g_assert_cmpuint (g_strv_length (parts), ==, 2);
  write_file ("chosen.pinfold", chosen);
  g_auto (Run) run = run_words ("fill chosen.pinfold --report chosen.json");
  g_assert_cmpint (run.status, ==, 0);
  g_autofree char *with = read_file ("chosen.json", NULL);
  g_auto (Run) without = run_words ("fill piece.pinfold --report plain.json");
  g_assert_cmpint (without.status, ==, 0);
  g_autofree char *plain = read_file ("plain.json", NULL);
  g_assert_true (strcmp (with, plain) != 0);
}

/* The same square as a drawing and as a document. */
static void
write_pieces (void)
{
  write_file (
      "piece-outline.svg",
      "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='60mm' viewBox='0 0 60 60'>"
      "<rect id='square' x='10' y='10' width='40' height='40'/></svg>");
  /* Through CSS pixels and back, 10 mm lose their last bit. */
  const char *piece =
      "{\"format\": \"pinfold\", \"version\": 1, \"title\": \"piece-outline\", \"size\": [60, 60],"
      " \"page\": {\"paper\": \"A3\"}, \"motifs\": [{\"id\": \"m1\", \"name\": \"square\","
      " \"curves\": [{\"path\": [\"M 9.9999999999999982 9.9999999999999982\","
      " \"L 49.999999999999993 9.9999999999999982\", \"L 49.999999999999993 49.999999999999993\","
      " \"L 9.9999999999999982 49.999999999999993\", \"Z\"],"
      " \"edge\": {\"kind\": \"cloth\", \"gap\": 2}}], \"ground\": \"armure\","
      " \"filling\": {\"gap\": 4, \"turn\": 30,"
      " \"origin\": [29.999999999999996, 29.999999999999996], \"carry\": 2,"
      " \"beads\": \"kept\", \"repeats\": []}}]}";
  write_file ("piece.pinfold", piece);
  write_file ("piece.svg", piece);
  write_file ("later.pinfold", "{\"format\": \"pinfold\", \"version\": 2}");
  write_file ("unfilled.pinfold", "{\"format\": \"pinfold\", \"version\": 1, \"motifs\": []}");
  write_file ("bow.pinfold",
              "{\"format\": \"pinfold\", \"version\": 1, \"motifs\": [{\"id\": \"m1\", \"name\": "
              "\"bow\", \"curves\": [{\"path\": [\"M 5 5\", \"L 55 55\", \"L 55 5\", \"L 5 55\", "
              "\"Z\"]}], \"ground\": \"rose\"}]}");
}

static void
remove_folder (void)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = in_folder (name);
      g_unlink (path);
    }
  g_rmdir (folder);
  g_free (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("pinfold-test-XXXXXX", NULL);
  g_assert_nonnull (folder);
  write_file (
      "bow.svg",
      "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='60mm' viewBox='0 0 60 60'>"
      "<path d='M5 5 L55 55 L55 5 L5 55 Z'/></svg>");
  write_file ("empty.svg", "");
  write_file ("note.svg", "Dear pupil, the outline is on the other side.");
  write_file ("broken.json", "{\"format\": \"pinfold-ground\"");
  write_pieces ();
  for (size_t w = 0; w < G_N_ELEMENTS (wrong); w++)
    {
      g_autofree char *path = g_strdup_printf ("/cli/wrong/%s", wrong[w].name);
      g_test_add_data_func (path, &wrong[w], test_wrong);
    }
  g_test_add_func ("/cli/help", test_help);
  g_test_add_func ("/cli/grounds", test_grounds);
  g_test_add_func ("/cli/ground-page", test_ground_page);
  g_test_add_func ("/cli/grounds-table", test_grounds_table);
  g_test_add_func ("/cli/grounds-fail", test_grounds_fail);
  g_test_add_func ("/cli/reports", test_reports);
  g_test_add_func ("/cli/book", test_book);
  g_test_add_func ("/cli/same-bytes", test_same_bytes);
  g_test_add_func ("/cli/old-file-kept", test_old_file_kept);
  g_test_add_func ("/cli/close-up", test_close_up);
  g_test_add_func ("/cli/ground-close-up", test_ground_close_up);
  g_test_add_func ("/cli/origin-and-turn", test_origin_and_turn);
  g_test_add_func ("/cli/no-title", test_no_title);
  g_test_add_func ("/cli/document", test_document);
  g_test_add_func ("/cli/document-page", test_document_page);
  g_test_add_func ("/cli/document-choices", test_document_choices);
  const int status = g_test_run ();
  remove_folder ();
  return status;
}
