/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Documents in files: what is written is read again to the last byte, broken files are refused with
 * words that say where, and a file that is being saved is there at every moment.
 */
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>
#include <json-glib/json-glib.h>

#include "samples.h"

static PfDocument *
parse (const char *json)
{
  g_autoptr (GError) error = NULL;
  PfDocument *document = pf_document_parse (json, strlen (json), "piece", "/scans", &error);
  g_assert_no_error (error);
  g_assert_nonnull (document);
  return document;
}

/* --- Round trips --- */

static void
assert_round_trip (const PfDocument *document)
{
  gsize n;
  g_autofree char *json = pf_document_to_json (document, "/scans", &n);
  g_assert_cmpuint (n, ==, strlen (json));
  g_autoptr (PfDocument) read = parse (json);
  g_autofree char *again = pf_document_to_json (read, "/scans", NULL);
  g_assert_cmpstr (again, ==, json);
}

static void
test_round_trip (void)
{
  PfDocument *document = sample_document ();
  for (int k = 0; k < 300; k++)
    {
      assert_round_trip (document);
      sample_step (&document, sample_edit (document));
    }
  pf_document_unref (document);
}

static void
assert_same_settings (const PfFillingSettings *s, const PfFillingSettings *t)
{
  g_assert_cmpfloat (s->placement.gap, ==, t->placement.gap);
  g_assert_cmpfloat (s->placement.turn, ==, t->placement.turn);
  g_assert_cmpfloat (s->placement.origin.x, ==, t->placement.origin.x);
  g_assert_true (s->placement.mirror == t->placement.mirror);
  g_assert_cmpuint (s->n_choices, ==, t->n_choices);
  g_assert_cmpuint (s->n_sewing_choices, ==, t->n_sewing_choices);
  for (size_t k = 0; k < s->n_sewing_choices; k++)
    {
      const PfSewingChoice *a = &s->sewing_choices[k], *b = &t->sewing_choices[k];
      g_assert_cmpint (a->kind, ==, b->kind);
      g_assert_cmpint (a->line.stitch.k, ==, b->line.stitch.k);
      g_assert_cmpint (a->line.stitch.j, ==, b->line.stitch.j);
      g_assert_true (a->line.leaves == b->line.leaves && a->line.side == b->line.side);
      g_assert_cmpint (a->other.stitch.j, ==, b->other.stitch.j);
      g_assert_cmpfloat (a->place.along, ==, b->place.along);
      g_assert_cmpuint (a->place.loop, ==, b->place.loop);
    }
}

/* Not only the same text: the same values. */
static void
test_values (void)
{
  g_autoptr (PfDocument) document = sample_document ();
  g_autofree char *json = pf_document_to_json (document, NULL, NULL);
  g_autoptr (PfDocument) read = parse (json);
  g_assert_cmpuint (read->n_drafts, ==, document->n_drafts);
  for (size_t n = 0; n < read->n_drafts; n++)
    {
      const PfDraft *a = document->drafts[n], *b = read->drafts[n];
      g_assert_cmpstr (a->id, ==, b->id);
      g_assert_cmpstr (a->name, ==, b->name);
      g_assert_cmpstr (a->mirror_of, ==, b->mirror_of);
      g_assert_cmpfloat (a->mirror_axis.angle, ==, b->mirror_axis.angle);
      g_assert_cmpuint (a->n_curves, ==, b->n_curves);
      assert_same_settings (&a->settings, &b->settings);
      for (size_t c = 0; c < a->n_curves; c++)
        {
          g_assert_true (pf_curve_equal (a->curves[c], b->curves[c]));
          g_assert_true (a->edges[c].even == b->edges[c].even);
          g_assert_cmpuint (a->edges[c].n_pinholes, ==, b->edges[c].n_pinholes);
          for (size_t p = 0; p < a->edges[c].n_pinholes; p++)
            g_assert_cmpfloat (a->edges[c].pinholes[p], ==, b->edges[c].pinholes[p]);
          g_assert_cmpuint (a->edges[c].n_stretches, ==, b->edges[c].n_stretches);
        }
    }
}

/* Numbers as people write them, and their like with all digits. IEEE 754: 17 digits always tell a
 * double, 15 never say too much. */
static void
test_numbers (void)
{
  static const struct {
    double width;
    const char *text;
  } numbers[] = {
    { 0.1, "[0.1, 0]" },          { 0.1 + 0.2, "[0.30000000000000004, 0]" },
    { 123.456, "[123.456, 0]" },  { 1.0 / 3, "[0.3333333333333333, 0]" },
    { 1e-7, "[1e-07, 0]" },       { 5e5, "[500000, 0]" },
    { -0.0, "[0, 0]" },           { NAN, "[0, 0]" },
    { INFINITY, "[1000000, 0]" },
  };
  for (size_t k = 0; k < G_N_ELEMENTS (numbers); k++)
    {
      g_autoptr (PfDocument) document = pf_document_new ();
      document->width = numbers[k].width;
      document->height = 0;
      g_autofree char *json = pf_document_to_json (document, NULL, NULL);
      g_assert_nonnull (strstr (json, numbers[k].text));
    }
}

/* The layout that DEVELOPERS.md shows. */
static void
test_layout (void)
{
  static const PfNode nodes[] = {
    { { 10, 20 }, { 10, 20 }, { 11, 20.5 }, true },
    { { 30, 20 }, { 29, 21 }, { 30, 20 }, false },
    { { 30, 40.25 }, { 30, 40.25 }, { 30, 40.25 }, false },
  };
  g_autoptr (PfCurve) curve = pf_curve_new (nodes, 3, true);
  g_autoptr (PfDocument) document = pf_document_new ();
  PfDraft *draft = pf_draft_new ("leaf", NULL);
  pf_draft_add_curve (draft, curve);
  g_autoptr (PfDocument) with = pf_document_with_draft_added (document, draft);
  g_autofree char *json = pf_document_to_json (with, NULL, NULL);
  g_assert_true (g_str_has_prefix (json, "{\n  \"format\": \"pinfold\",\n  \"version\": 1,\n"
                                         "  \"title\": \"\",\n"));
  g_assert_nonnull (strstr (json, "          \"path\": [\n"
                                  "            \"M 10 20\",\n"
                                  "            \"C 11 20.5 29 21 30 20\",\n"
                                  "            \"L 30 40.25\",\n"
                                  "            \"Z\"\n"
                                  "          ],\n"
                                  "          \"smooth\": [0],\n"));
  g_assert_nonnull (strstr (json, "\"id\": \"m1\""));
  /* Any JSON reader reads it. */
  g_autoptr (JsonNode) root = json_from_string (json, NULL);
  g_assert_true (JSON_NODE_HOLDS_OBJECT (root));
}

/* A ground of the maker's own goes with the document; one that only looks like one that comes with
 * the program, too. */
static void
test_own_ground (void)
{
  static const char own[] =
      "{\"format\": \"pinfold-ground\", \"version\": 1, \"name\": \"torchon\", \"title\": \"Mine\","
      " \"family\": \"torchon\", \"source\": \"Common practice.\","
      " \"repeat\": {\"a\": [1, 1], \"b\": [-1, 1]},"
      " \"stitches\": [{\"name\": \"p\", \"at\": [0, 0], \"work\": \"ctpctt\"}],"
      " \"pair_lines\": [{\"from\": \"p.R\", \"to\": \"p.L\", \"repeat\": [1, 0]},"
      " {\"from\": \"p.L\", \"to\": \"p.R\", \"repeat\": [0, 1], \"twists\": 1}]}";
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_parse (own, strlen (own), "own", &error);
  g_assert_no_error (error);
  for (int with_text = 0; with_text < 2; with_text++)
    {
      g_autoptr (PfDocument) document = pf_document_new ();
      PfDraft *draft = sample_square ("own", 0, 0, 20, "torchon");
      pf_draft_set_ground (draft, ground, with_text ? own : NULL);
      g_autoptr (PfDocument) one = pf_document_with_draft_added (document, draft);
      g_autoptr (PfDocument) two =
          pf_document_with_draft_added (one, pf_draft_copy (one->drafts[0]));
      assert_round_trip (two);
      g_autofree char *json = pf_document_to_json (two, NULL, NULL);
      g_autoptr (PfDocument) read = parse (json);
      g_assert_true (pf_ground_equal (read->drafts[0]->ground, ground));
      g_assert_nonnull (read->drafts[0]->ground_json);
      g_assert_true (read->drafts[0]->ground == read->drafts[1]->ground);
    }
}

/* Pictures move with the document's folder, where they lie in it. */
static void
test_picture (void)
{
  static const struct {
    char *file;
    const char *folder, *written;
  } pictures[] = {
    { "/lace/scans/leaf.png", "/lace", "\"file\": \"scans/leaf.png\"" },
    { "/lace/scans/leaf.png", "/lace/", "\"file\": \"scans/leaf.png\"" },
    { "/lace2/leaf.png", "/lace", "\"file\": \"/lace2/leaf.png\"" },
    { "/leaf.png", "/", "\"file\": \"leaf.png\"" },
    { "/lace/leaf.png", NULL, "\"file\": \"/lace/leaf.png\"" },
    { "/lace/le\naf.png", "/lace", "\"file_escaped\": \"le%0Aaf.png\"" },
    { "/lace/\xe4.png", "/lace", "\"file_escaped\": \"%E4.png\"" },
  };
  for (size_t k = 0; k < G_N_ELEMENTS (pictures); k++)
    {
      const PfUnderlay underlay = { pictures[k].file, { 0.1, 0, 0, 0.1, 5, 5 }, 0.5, true };
      g_autoptr (PfDocument) document = pf_document_new ();
      g_autoptr (PfDocument) with = pf_document_with_underlay (document, &underlay);
      g_autofree char *json = pf_document_to_json (with, pictures[k].folder, NULL);
      g_assert_nonnull (strstr (json, pictures[k].written));
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDocument) read =
          pf_document_parse (json, strlen (json), "piece", pictures[k].folder, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (read->underlay->file, ==, pictures[k].file);
    }
}

/* --- Broken files --- */

#define DOCUMENT(rest) "{\"format\": \"pinfold\", \"version\": 1" rest "}"
#define MOTIFS(rest) DOCUMENT (", \"motifs\": [" rest "]")
#define MOTIF(rest) MOTIFS ("{\"id\": \"m1\"" rest "}")
#define CURVE(rest) MOTIF (", \"curves\": [{" rest "}]")
#define PATH "\"path\": [\"M 0 0\", \"L 9 0\", \"L 9 9\", \"Z\"]"
#define FILLED(rest)                                                                               \
  MOTIF (", \"curves\": [{" PATH "}], \"ground\": \"torchon\", \"filling\": {" rest "}")
#define SEWING(rest) FILLED ("\"sewings\": [{" rest "}]")
#define CROSSED(rest)                                                                              \
  MOTIF (", \"curves\": [{" PATH                                                                   \
         "}], \"ground\": \"plait-lattice\", \"filling\": {\"sewings\": [{" rest "}]}")
#define IMAGE(id, of)                                                                              \
  "{\"id\": \"" id "\", \"mirror_of\": \"" of "\", \"axis\": {\"at\": [0, 0], \"angle\": 0}}"

static const struct {
  const char *name, *json;
  const char *says, *where;
} broken[] = {
  { "empty", "", "empty", "piece" },
  { "not-json", "<svg/>", "can't stand in a JSON file", "line 1" },
  { "half", "{\"format\": \"pinfold\", \"ver", "isn't valid JSON", "line 1" },
  { "a-list", "[]", "isn’t a Pinfold document", "piece" },
  { "a-ground", "{\"format\": \"pinfold-ground\", \"version\": 1}", "isn’t a Pinfold document",
    "piece" },
  { "no-version", "{\"format\": \"pinfold\"}", "“version” must be 1", "piece" },
  { "later-version", "{\"format\": \"pinfold\", \"version\": 2, \"threads\": 5}", "version 2",
    "later Pinfold" },
  { "version-word", "{\"format\": \"pinfold\", \"version\": \"1\"}", "whole number", "version" },
  { "unknown-key", DOCUMENT (", \"colour\": 3"), "“colour” isn't known", "piece" },
  { "key-twice", DOCUMENT (", \"title\": \"a\", \"title\": \"b\""), "twice", "title" },
  { "title-number", DOCUMENT (", \"title\": 5"), "must be a text", "title" },
  { "title-bell", DOCUMENT (", \"title\": \"\\u0007\""), "letters that can be shown", "title" },
  { "size-one", DOCUMENT (", \"size\": [5]"), "2 numbers", "size" },
  { "size-huge", DOCUMENT (", \"size\": [1e9, 5]"), "1e+09", "size" },
  { "size-infinite", DOCUMENT (", \"size\": [1e999, 5]"), "inf", "size" },
  { "size-nan", DOCUMENT (", \"size\": [NaN, 5]"), "isn't valid JSON", "line 1" },
  { "size-negative", DOCUMENT (", \"size\": [-1, 5]"), "width", "size" },
  { "page-list", DOCUMENT (", \"page\": []"), "Braces", "page" },
  { "page-key", DOCUMENT (", \"page\": {\"margin\": 3}"), "“margin” isn't known", "page" },
  { "paper", DOCUMENT (", \"page\": {\"paper\": \"A9\"}"), "A9", "page" },
  { "copies", DOCUMENT (", \"page\": {\"copies\": 0}"), "1 to 999", "page" },
  { "part", DOCUMENT (", \"page\": {\"parts\": [\"pricking\", \"cover\"]}"), "“cover”", "page" },
  { "parts", DOCUMENT (", \"page\": {\"parts\": \"pricking\"}"), "“parts”", "page" },
  { "copies-half", DOCUMENT (", \"page\": {\"copies\": 1.5}"), "whole number", "page" },
  { "underlay-file", DOCUMENT (", \"underlay\": {\"map\": [1, 0, 0, 1, 0, 0]}"), "“file”",
    "underlay" },
  { "underlay-map", DOCUMENT (", \"underlay\": {\"file\": \"a.png\", \"map\": [1, 0]}"),
    "6 numbers", "underlay" },
  { "underlay-strength",
    DOCUMENT (
        ", \"underlay\": {\"file\": \"a.png\", \"map\": [1, 0, 0, 1, 0, 0], \"strength\": 2}"),
    "“strength”", "underlay" },
  { "background-number", DOCUMENT (", \"background\": [5]"), "isn’t a part of a path",
    "line 1 of the background" },
  { "background-curve", DOCUMENT (", \"background\": [\"M 0 0 L 1 1\", \"M 0 0 Q 1 1\"]"),
    "isn’t a part of a path", "line 2 of the background" },
  { "motifs-object", DOCUMENT (", \"motifs\": {}"), "list", "motifs" },
  { "motif-number", MOTIFS ("7"), "Braces", "motif 1" },
  { "motif-no-id", MOTIFS ("{\"curves\": []}"), "“id”", "motif 1" },
  { "motif-no-curves", MOTIF (""), "“curves” must be a list", "motif 1" },
  { "same-id", MOTIFS ("{\"id\": \"m1\", \"curves\": []}, {\"id\": \"m1\", \"curves\": []}"),
    "“m1”", "motif 2" },
  { "curve-no-path", CURVE (""), "“path” must be a list", "motif 1, curve 1" },
  { "curve-key", CURVE (PATH ", \"colour\": 1"), "“colour” isn't known", "motif 1, curve 1" },
  { "path-number", CURVE ("\"path\": [5]"), "isn’t a part of a path", "motif 1, curve 1" },
  { "path-null", CURVE ("\"path\": [null]"), "isn’t a part of a path", "motif 1, curve 1" },
  { "path-no-start", CURVE ("\"path\": [\"L 0 0\"]"), "“L 0 0”", "motif 1, curve 1" },
  { "path-two-starts", CURVE ("\"path\": [\"M 0 0\", \"M 1 1\"]"), "“M 1 1”", "curve 1" },
  { "path-short", CURVE ("\"path\": [\"M 0 0\", \"C 1 2 3 4 5\"]"), "“C 1 2 3 4 5”", "curve 1" },
  { "path-long", CURVE ("\"path\": [\"M 0 0 1\"]"), "“M 0 0 1”", "curve 1" },
  { "path-relative", CURVE ("\"path\": [\"M 0 0\", \"l 1 1\"]"), "“l 1 1”", "curve 1" },
  { "path-after-end", CURVE ("\"path\": [\"M 0 0\", \"Z\", \"L 1 1\"]"), "“L 1 1”", "curve 1" },
  { "path-nan", CURVE ("\"path\": [\"M nan 0\"]"), "“M nan 0”", "curve 1" },
  { "path-infinite", CURVE ("\"path\": [\"M -inf 0\"]"), "“M -inf 0”", "curve 1" },
  { "path-far", CURVE ("\"path\": [\"M 1e9 0\"]"), "beyond 1000000", "curve 1" },
  { "smooth-beyond", CURVE (PATH ", \"smooth\": [3]"), "names node 3", "curve 1" },
  { "smooth-half", CURVE (PATH ", \"smooth\": [0.5]"), "names node 0.5", "curve 1" },
  { "smooth-negative", CURVE (PATH ", \"smooth\": [-1]"), "names node -1", "curve 1" },
  { "edge-kind", CURVE (PATH ", \"edge\": {\"kind\": \"lace\"}"), "half, cloth", "curve 1" },
  { "edge-gap", CURVE (PATH ", \"edge\": {\"gap\": 1e9}"), "“gap” has the number", "curve 1" },
  { "edge-gap-text", CURVE (PATH ", \"edge\": {\"gap\": \"2\"}"), "“gap” must be a number",
    "curve 1" },
  { "pinholes-text", CURVE (PATH ", \"edge\": {\"pinholes\": [1, \"2\"]}"), "“pinholes”",
    "curve 1" },
  { "stretch-key", CURVE (PATH ", \"edge\": {\"stretches\": [{\"at\": 1}]}"), "“at” isn't known",
    "curve 1" },
  { "ground-unknown", MOTIF (", \"curves\": [], \"ground\": \"torchen\""), "Did you mean “torchon”",
    "motif 1" },
  { "ground-file", MOTIF (", \"curves\": [], \"ground\": \"../mine.json\""), "names a file",
    "motif 1" },
  { "ground-number", MOTIF (", \"curves\": [], \"ground\": 5"), "must be a text", "motif 1" },
  { "ground-broken", MOTIF (", \"curves\": [], \"ground\": {\"format\": \"pinfold-ground\"}"),
    "its ground", "motif 1" },
  { "filling-key", FILLED ("\"size\": 3"), "“size” isn't known", "motif 1, filling" },
  { "filling-gap", FILLED ("\"gap\": -1e9"), "“gap” has the number", "motif 1, filling" },
  { "filling-origin", FILLED ("\"origin\": [1]"), "2 numbers", "motif 1, filling" },
  { "filling-mirror", FILLED ("\"mirror\": 1"), "true or false", "motif 1, filling" },
  { "filling-beads", FILLED ("\"beads\": \"many\""), "none, whole, kept", "motif 1, filling" },
  { "repeat-state", FILLED ("\"repeats\": [{\"repeat\": [0, 0]}]"), "“state” is missing",
    "filling" },
  { "repeat-huge", FILLED ("\"repeats\": [{\"repeat\": [1e9, 0], \"state\": \"kept\"}]"),
    "two whole numbers", "filling" },
  { "repeat-longer", FILLED ("\"repeats\": [{\"repeat\": [99999999999, 0]}]"), "two whole numbers",
    "filling" },
  { "sewing-stitch", SEWING ("\"stitch\": \"9\""), "no stitch “9”", "filling" },
  { "sewing-side", SEWING ("\"stitch\": \"1\", \"side\": \"inner right\""),
    "Stitch “1” has no side “inner right”", "filling" },
  { "sewing-side-of-two", CROSSED ("\"stitch\": \"plait left\", \"side\": \"inner left\""),
    "Stitch “plait left” has no side “inner left”", "filling" },
  { "sewing-side-unknown", CROSSED ("\"stitch\": \"crossing\", \"side\": \"middle\""),
    "left, inner left, inner right, right", "filling" },
  { "sewing-choice", SEWING ("\"stitch\": \"1\""), "“choice” is missing", "filling" },
  { "sewing-other", SEWING ("\"stitch\": \"1\", \"choice\": \"turn\""), "“other”", "filling" },
  { "sewing-stray-other",
    SEWING ("\"stitch\": \"1\", \"choice\": \"alone\", \"other\": {\"stitch\": \"1\"}"), "“other”",
    "filling" },
  { "sewing-along", SEWING ("\"stitch\": \"1\", \"choice\": \"bar\""), "“along”", "filling" },
  { "sewing-curve", SEWING ("\"stitch\": \"1\", \"choice\": \"bar\", \"along\": 1, \"curve\": -1"),
    "“curve”", "filling" },
  { "sewing-no-ground",
    MOTIF (", \"curves\": [], \"filling\": {\"sewings\": [{\"stitch\": \"1\"}]}"), "no stitch",
    "filling" },
  { "image-no-axis", MOTIFS ("{\"id\": \"m1\", \"mirror_of\": \"m2\"}"), "“axis”", "motif 1" },
  { "image-with-curves",
    MOTIF (", \"mirror_of\": \"m2\", \"curves\": [], \"axis\": {\"at\": [0, 0]}"), "“curves”",
    "motif 1" },
  { "image-of-none", MOTIFS (IMAGE ("m1", "m2")), "“m2”", "motif 1" },
  { "image-of-itself", MOTIFS (IMAGE ("m1", "m1")), "ring", "motif 1" },
  { "image-ring", MOTIFS (IMAGE ("m1", "m2") "," IMAGE ("m2", "m3") "," IMAGE ("m3", "m2")), "ring",
    "motif 1" },
};

/* The words of a side name the pairs in their order from the left. */
static void
test_sides (void)
{
  static const struct {
    const char *stitch, *side;
    int n;
  } sides[] = {
    { "crossing", "left", 0 },  { "crossing", "inner left", 1 }, { "crossing", "inner right", 2 },
    { "crossing", "right", 3 }, { "plait left", "left", 0 },     { "plait left", "right", 1 },
  };
  for (size_t k = 0; k < G_N_ELEMENTS (sides); k++)
    {
      g_autofree char *json = g_strdup_printf (
          CROSSED ("\"stitch\": \"%s\", \"repeat\": [2, -1], \"side\": \"%s\", \"leaves\": true, "
                   "\"choice\": \"alone\""),
          sides[k].stitch, sides[k].side);
      g_autoptr (PfDocument) document = parse (json);
      const PfFillingSettings *settings = &document->drafts[0]->settings;
      g_assert_cmpuint (settings->n_sewing_choices, ==, 1);
      g_assert_cmpint ((int) settings->sewing_choices[0].line.side, ==, sides[k].n);
      g_autofree char *written = pf_document_to_json (document, NULL, NULL);
      g_autofree char *expected = g_strdup_printf ("\"side\": \"%s\"", sides[k].side);
      g_assert_nonnull (strstr (written, expected));
      assert_round_trip (document);
    }
}

static void
test_broken (gconstpointer data)
{
  const size_t k = GPOINTER_TO_SIZE (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document =
      pf_document_parse (broken[k].json, strlen (broken[k].json), "piece", NULL, &error);
  g_assert_null (document);
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, broken[k].says));
  g_assert_nonnull (strstr (error->message, broken[k].where));
  g_assert_nonnull (strstr (error->message, "piece"));
}

static void
test_deep (void)
{
  g_autoptr (GString) json = g_string_new ("{\"format\": ");
  for (int k = 0; k < 100000; k++)
    g_string_append_c (json, '[');
  g_autoptr (GError) error = NULL;
  g_assert_null (pf_document_parse (json->str, json->len, "piece", NULL, &error));
  g_assert_nonnull (strstr (error->message, "too deep"));
}

/* Every byte of a whole file put wrong: read, or refused with an error, never a crash. */
static void
test_damage (void)
{
  g_autoptr (PfDocument) document = sample_document ();
  gsize n;
  g_autofree char *json = pf_document_to_json (document, NULL, &n);
  for (int k = 0; k < 400; k++)
    {
      g_autofree char *damaged = g_memdup2 (json, n + 1);
      gsize length = n;
      if (k % 4 == 0)
        length = g_test_rand_int_range (0, (int) n);
      else
        damaged[g_test_rand_int_range (0, (int) n)] =
            "0\"{}[],:-9aZ\xff\n"[g_test_rand_int_range (0, 14)];
      g_autoptr (GError) error = NULL;
      g_autoptr (PfDocument) read = pf_document_parse (damaged, length, "piece", NULL, &error);
      g_assert_true ((read == NULL) == (error != NULL));
      g_clear_pointer (&read, pf_document_unref);
    }
}

/* --- Saving --- */

typedef struct {
  char *folder, *file;
} Fixture;

static void
set_up (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  fixture->folder = sample_folder ();
  fixture->file = g_build_filename (fixture->folder, "piece.pinfold", NULL);
}

static void
tear_down (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  sample_folder_remove (fixture->folder);
  g_free (fixture->file);
}

static void
save (const char *file, const char *title)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = sample_document ();
  g_free (document->title);
  document->title = g_strdup (title);
  g_assert_true (pf_document_save (document, file, &error));
  g_assert_no_error (error);
}

static void
assert_title (const char *file, const char *title)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = pf_document_load (file, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (document->title, ==, title);
}

static guint
n_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;
  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
test_last_version (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *last = g_strconcat (fixture->file, "~", NULL);
  save (fixture->file, "first");
  assert_title (fixture->file, "first");
  g_assert_false (g_file_test (last, G_FILE_TEST_EXISTS));
  save (fixture->file, "second");
  save (fixture->file, "third");
  assert_title (fixture->file, "third");
  assert_title (last, "second");
  /* A second name of the same file is no trouble. */
  g_assert_cmpint (g_unlink (last), ==, 0);
  g_assert_cmpint (link (fixture->file, last), ==, 0);
  save (fixture->file, "fourth");
  assert_title (last, "third");
  g_assert_cmpuint (n_files (fixture->folder), ==, 2);
}

static void
test_link (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *name = g_build_filename (fixture->folder, "link.pinfold", NULL);
  GStatBuf status;
  save (fixture->file, "first");
  g_assert_cmpint (g_chmod (fixture->file, 0640), ==, 0);
  g_assert_cmpint (symlink ("piece.pinfold", name), ==, 0);
  save (name, "second");
  assert_title (fixture->file, "second");
  g_assert_cmpint (g_lstat (name, &status), ==, 0);
  g_assert_true (S_ISLNK (status.st_mode));
  g_assert_cmpint (g_stat (fixture->file, &status), ==, 0);
  g_assert_cmpint (status.st_mode & 07777, ==, 0640);
}

static void
assert_not_saved (const char *file, const char *says)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = sample_document ();
  g_assert_false (pf_document_save (document, file, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, says));
}

static void
test_refused (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *none = g_build_filename (fixture->folder, "none", "piece.pinfold", NULL);
  g_autofree char *nowhere = g_build_filename (fixture->folder, "nowhere.pinfold", NULL);
  g_autofree char *last = g_strconcat (fixture->file, "~", NULL);
  assert_not_saved (none, "folder doesn't exist");
  assert_not_saved (fixture->folder, "is a folder");
  assert_not_saved ("/proc/self/piece.pinfold", "can't be saved"); /* where no one may write */
  g_assert_cmpint (symlink ("none/piece", nowhere), ==, 0);
  assert_not_saved (nowhere, "link that leads nowhere");
  /* The last version can't be kept: nothing is written. */
  save (fixture->file, "first");
  g_assert_cmpint (g_mkdir (last, 0700), ==, 0);
  assert_not_saved (fixture->file, "last version can't be kept");
  assert_title (fixture->file, "first");
  g_assert_cmpuint (n_files (fixture->folder), ==, 3);
}

/* In a process of its own, which may write no file longer than 1 KiB: as on a full disk. */
static void
save_on_full_disk (const char *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfDocument) document = sample_document ();
  const struct rlimit limit = { 1024, 1024 };
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
  g_assert_false (pf_document_save (document, file, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
}

static void
test_full_disk (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *last = g_strconcat (fixture->file, "~", NULL);
  if (g_test_subprocess ())
    {
      save_on_full_disk (g_getenv ("PF_TEST_FILE"));
      return;
    }
  save (fixture->file, "first");
  save (fixture->file, "second");
  g_setenv ("PF_TEST_FILE", fixture->file, TRUE);
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  assert_title (fixture->file, "second");
  assert_title (last, "first");
  g_assert_cmpuint (n_files (fixture->folder), ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/document-file/round-trip", test_round_trip);
  g_test_add_func ("/document-file/values", test_values);
  g_test_add_func ("/document-file/numbers", test_numbers);
  g_test_add_func ("/document-file/layout", test_layout);
  g_test_add_func ("/document-file/sides", test_sides);
  g_test_add_func ("/document-file/own-ground", test_own_ground);
  g_test_add_func ("/document-file/picture", test_picture);
  g_test_add_func ("/document-file/deep", test_deep);
  g_test_add_func ("/document-file/damage", test_damage);
  for (size_t k = 0; k < G_N_ELEMENTS (broken); k++)
    {
      g_autofree char *path = g_strdup_printf ("/document-file/broken/%s", broken[k].name);
      g_test_add_data_func (path, GSIZE_TO_POINTER (k), test_broken);
    }
  g_test_add ("/document-file/last-version", Fixture, NULL, set_up, test_last_version, tear_down);
  g_test_add ("/document-file/link", Fixture, NULL, set_up, test_link, tear_down);
  g_test_add ("/document-file/refused", Fixture, NULL, set_up, test_refused, tear_down);
  g_test_add ("/document-file/full-disk", Fixture, NULL, set_up, test_full_disk, tear_down);
  return g_test_run ();
}
