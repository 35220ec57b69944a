/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Grounds in files: those that come with the program, and files that are wrong in every way.
 */
#include <math.h>
#include <string.h>

#include <drawing.h>
#include <glib/gstdio.h>

#include "document-file.h"
#include "json-reader.h"
#include "pricking.h"

/* --- The grounds that come with the program --- */

/* Works: as printed in the sources that each file names. How the pairs of a repeat were derived:
 *   2: two pairs to each pin, or to each place of a pin (torchon: T. de Dillmont, Encyclopedia of
 *      Needlework, figs 787-788; the other grounds with one stitch a repeat alike); two pairs to a
 * column of diamond leadworks (Goubaud); 4: the source gives four pairs for the armure (eight
 * threads; common practice), rose and all its kin (figs 793-794; J. Edkins, lace school web pages),
 * Valenciennes (fig. 796), five-hole (a Flanders ground page), cord (two groups of two pairs; L.
 * Halley), triangles (Edkins) and spider ground (two legs at each of the four corners; Edkins); for
 * the honeycomb layout they are derived from its drawing, for the two with tallies from four
 * stitches of two pairs, two by two; two plaits or leaves of two pairs meet in their lattices
 * (Edkins; derived); 6, 8, 10: spiders of 2, 3, 4 pairs a side: a diamond of n pins by n takes n
 * pairs from each side (Edkins), and the diamond round a spider has one pin more than the spider
 * has pairs a side. Body stitches of a spider: k legs a side make k² before the pin and k² after it
 * (Edkins: 16 and 16 for k = 4; the rest derived). Spacings: derived; at 45 degrees the next pin
 * lies at (1, 1), in point ground and honeycomb one unit away. */
static const struct {
  const char *name;
  int n_stitches, n_pins, n_core;
  double spacing;
  const char *works; /* in the order of the file, each different one once */
  int pairs, threads;
} shipped[] = {
  { "armure", 7, 4, 1, G_SQRT2, "ctp ct", 4, 8 },
  { "brussels", 1, 1, 0, G_SQRT2, "ctctpctctt", 2, 4 },
  { "cord", 4, 0, 0, G_SQRT2 / 2, "ctc", 4, 8 },
  { "diamond-leadworks", 2, 1, 0, 1, "lttptt ctc", 2, 4 },
  { "double-torchon", 1, 1, 0, G_SQRT2, "ctctpctct", 2, 4 },
  { "doubled-rose", 6, 4, 0, G_SQRT2, "ctctctct ctctpctct", 4, 8 },
  { "droschel", 1, 1, 0, G_SQRT2, "pctctctctt", 2, 4 },
  { "droschel-without-pins", 1, 0, 0, G_SQRT2, "ctctctctt", 2, 4 },
  { "five-hole", 6, 1, 0, G_SQRT2, "ctct ct pctct", 4, 8 },
  { "five-hole-double", 6, 1, 0, G_SQRT2, "ctct pctct", 4, 8 },
  { "half-stitch-spider", 13, 6, 8, G_SQRT2, "ctpct ct ctp", 6, 12 },
  { "honeycomb", 3, 3, 0, 1, "cttpctt", 4, 8 },
  { "honeycomb-half-stitch", 3, 3, 0, 1, "ctpct", 4, 8 },
  { "leaf-lattice", 3, 2, 0, 1, "ctc ctclpctc", 4, 8 },
  { "light-rose", 6, 4, 0, G_SQRT2, "ct ctp", 4, 8 },
  { "linen-stitch-holes", 1, 1, 0, G_SQRT2, "ttctcpctc", 2, 4 },
  { "mechlin", 1, 1, 0, G_SQRT2, "ctctctpt", 2, 4 },
  { "mechlin-without-pins", 1, 0, 0, G_SQRT2, "ctctctt", 2, 4 },
  { "open-pin-torchon", 1, 1, 0, G_SQRT2, "ctctp", 2, 4 },
  { "ornamental", 6, 4, 0, G_SQRT2, "ct ctpct", 4, 8 },
  { "plait-lattice", 3, 0, 0, M_SQRT1_2, "ctc ctctctct", 4, 8 },
  { "point-net", 1, 1, 0, 1, "ctttp", 2, 4 },
  { "point-net-tallies", 4, 3, 0, 1, "ctttp lt", 4, 8 },
  { "rose", 6, 4, 0, G_SQRT2, "ctct ctpct", 4, 8 },
  { "rose-double-double", 6, 4, 0, G_SQRT2, "ctct ctctpctct", 4, 8 },
  { "rose-double-open", 6, 4, 0, G_SQRT2, "ctct ctp", 4, 8 },
  { "rose-four-half", 6, 4, 0, G_SQRT2, "ctctctct ctpct", 4, 8 },
  { "rose-four-open", 6, 4, 0, G_SQRT2, "ctctctct ctp", 4, 8 },
  { "rose-half-double", 6, 4, 0, G_SQRT2, "ct ctctpctct", 4, 8 },
  { "rose-tallies", 6, 4, 0, G_SQRT2, "lt ctpct", 4, 8 },
  { "spider", 13, 6, 8, G_SQRT2, "ctpct ctc ctcp", 6, 12 },
  { "spider-12", 25, 8, 18, G_SQRT2, "ctpct ctc ctcp", 8, 16 },
  { "spider-16", 41, 10, 32, G_SQRT2, "ctpct ctc ctcp", 10, 20 },
  { "spider-ground", 8, 1, 0, 1.25 * G_SQRT2, "ctc ctcp", 4, 8 },
  { "torchon", 1, 1, 0, G_SQRT2, "ctpct", 2, 4 },
  { "torchon-tallies", 4, 3, 0, G_SQRT2, "ctpct lt", 4, 8 },
  { "torchon-without-pins", 1, 0, 0, G_SQRT2, "ctct", 2, 4 },
  { "triangles", 8, 3, 0, G_SQRT2, "ctcp ctc pctc", 4, 8 },
  { "tulle", 1, 1, 0, G_SQRT2, "ctptt", 2, 4 },
  { "twisted-hole", 1, 1, 0, G_SQRT2, "cttpctt", 2, 4 },
  { "twisted-hole-one-twist", 1, 1, 0, G_SQRT2, "ctpctt", 2, 4 },
  { "twisted-rose", 6, 4, 0, G_SQRT2, "ctct cttpctt", 4, 8 },
  { "valenciennes-round", 3, 1, 0, G_SQRT2, "ctpct ctctctct", 4, 8 },
  { "valenciennes-square", 3, 1, 0, G_SQRT2, "ctpct ctctctct", 4, 8 },
  { "valenciennes-square-eight", 3, 1, 0, G_SQRT2, "ctpct ctctctctctctctct", 4, 8 },
  { "valenciennes-square-six", 3, 1, 0, G_SQRT2, "ctpct ctctctctctct", 4, 8 },
};

static PfGround *
load (const char *name)
{
  g_autoptr (GError) error = NULL;
  PfGround *ground = pf_ground_load (name, &error);
  g_assert_no_error (error);
  g_assert_nonnull (ground);
  return ground;
}

static void
test_names (void)
{
  g_auto (GStrv) names = pf_ground_names ();
  g_assert_cmpuint (g_strv_length (names), ==, G_N_ELEMENTS (shipped));
  for (gsize i = 0; i < G_N_ELEMENTS (shipped); i++)
    g_assert_cmpstr (names[i], ==, shipped[i].name);
}

static void
test_shipped (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (shipped); i++)
    {
      g_autoptr (PfGround) ground = load (shipped[i].name);
      g_assert_cmpstr (ground->name, ==, shipped[i].name);
      g_assert_true (*ground->title && *ground->family && g_str_has_suffix (ground->source, "."));
      g_assert_cmpint (ground->n_stitches, ==, shipped[i].n_stitches);
      g_assert_cmpfloat_with_epsilon (ground->spacing, shipped[i].spacing, 1e-12);
      int n_pins = 0, n_core = 0;
      g_autoptr (GPtrArray) works = g_ptr_array_new ();
      for (int k = 0; k < ground->n_stitches; k++)
        {
          PfStitch *stitch = &ground->stitches[k];
          n_pins += stitch->pin;
          n_core += stitch->core;
          if (!g_ptr_array_find_with_equal_func (works, stitch->work, g_str_equal, NULL))
            g_ptr_array_add (works, stitch->work);
        }
      g_ptr_array_add (works, NULL);
      g_autofree char *joined = g_strjoinv (" ", (char **) works->pdata);
      g_assert_cmpstr (joined, ==, shipped[i].works);
      g_assert_cmpint (n_pins, ==, shipped[i].n_pins);
      g_assert_cmpint (n_core, ==, shipped[i].n_core);
      g_assert_true (ground->has_pins == (n_pins > 0));
      g_assert_true (ground->has_core == (n_core > 0));
    }
}

/* E = 2V and F = V where two pairs meet in each stitch: V. Irvine, F. Ruskey, "Developing a
 * mathematical model for bobbin lace" (2014). In general F = E - V, by Euler's formula on a torus;
 * a column that isn't linked to its repeats lies on a ring, where it is 2 more. */
static void
test_shipped_graphs (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (shipped); i++)
    {
      g_autoptr (PfGround) ground = load (shipped[i].name);
      g_autofree PfMesh *meshes = g_new (PfMesh, 2 * ground->n_lines);
      int n_ends = 0;
      for (int k = 0; k < ground->n_stitches; k++)
        n_ends += ground->stitches[k].n_pairs;
      g_assert_cmpint (ground->n_lines, ==, n_ends);
      const bool is_column = g_str_equal (ground->name, "diamond-leadworks");
      g_assert_cmpint (pf_ground_trace_meshes (ground, meshes), ==,
                       n_ends - ground->n_stitches + (is_column ? 2 : 0));
      int pairs = 0;
      for (int e = 0; e < ground->n_lines; e++)
        {
          const PfPairLine *line = &ground->lines[e];
          pairs += line->da + line->db;
          /* Within a repeat the file's order is one in which the stitches can be worked. */
          if (!line->da && !line->db)
            g_assert_cmpint (line->from.stitch, <, line->to.stitch);
          g_assert_cmpfloat (pf_ground_time (ground, line->from.stitch, 0, 0), <,
                             pf_ground_time (ground, line->to.stitch, line->da, line->db));
        }
      g_assert_cmpint (pairs, ==, shipped[i].pairs);
      g_assert_cmpint (pf_ground_pairs (ground), ==, shipped[i].pairs);
      g_assert_cmpint (2 * pf_ground_pairs (ground), ==, shipped[i].threads);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGroundNumbers) numbers = pf_ground_count (ground);
      g_assert_cmpint (numbers->n_pairs, ==, shipped[i].pairs);
      g_assert_true (pf_ground_prove (ground, &error));
      g_assert_no_error (error);
    }
}

/* Angles of the first two pair lines from the footside, which stands upright. Torchon 45 degrees,
 * point ground 60 (J. Edkins, lace school web pages); the honeycomb's diagonals stand about 30
 * degrees from level (T. de Dillmont, Encyclopedia of Needlework, fig. 791). */
static void
test_angles (void)
{
  static const struct {
    const char *name;
    double degrees;
  } cases[] = {
    { "torchon", 45 },
    { "open-pin-torchon", 45 },
    { "torchon-without-pins", 45 },
    { "double-torchon", 45 },
    { "twisted-hole", 45 },
    { "twisted-hole-one-twist", 45 },
    { "linen-stitch-holes", 45 },
    { "tulle", 45 },
    { "brussels", 45 },
    { "mechlin", 45 },
    { "droschel", 45 },
    { "cord", 45 },
    { "point-net", 60 },
    { "honeycomb", 60 },
    { "honeycomb-half-stitch", 60 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (PfGround) ground = load (cases[i].name);
      for (int e = 0; e < 2; e++)
        {
          const PfPoint way = pf_end_way (ground, 2 * e);
          g_assert_cmpfloat_with_epsilon (atan2 (fabs (way.x), way.y) * 180 / G_PI,
                                          cases[i].degrees, 1e-9);
        }
    }
}

static void
test_armure (void)
{
  g_autoptr (PfGround) ground = load ("armure");
  static const char *const names[] = { "1", "2", "3", "centre", "close 2", "close 3", "4" };
  static const int closes[] = { -1, -1, -1, -1, 1, 2, -1 };
  for (int k = 0; k < 7; k++)
    {
      g_assert_cmpstr (ground->stitches[k].name, ==, names[k]);
      g_assert_cmpint (ground->stitches[k].closes, ==, closes[k]);
      g_assert_true (ground->stitches[k].core == (k == 3));
      g_assert_true (ground->stitches[k].bead == (k == 3));
    }
}

/* Legs of spiders: as many as the name says, each twisted once in T. de Dillmont's figures 789-790
 * (Encyclopedia of Needlework), at least six times in cloth stitch and about twice in half stitch
 * in J. Edkins's (lace school web pages). Body: see the table above. */
static void
test_spiders (void)
{
  static const struct {
    const char *name;
    int legs, twists;
  } cases[] = {
    { "spider", 8, 1 },
    { "spider-12", 12, 6 },
    { "spider-16", 16, 6 },
    { "half-stitch-spider", 8, 2 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (PfGround) ground = load (cases[i].name);
      int legs = 0, body = 0;
      for (int e = 0; e < ground->n_lines; e++)
        {
          const PfPairLine *line = &ground->lines[e];
          const bool leg =
              ground->stitches[line->from.stitch].core != ground->stitches[line->to.stitch].core;
          g_assert_cmpint (line->twists, ==, leg ? cases[i].twists : 0);
          legs += leg;
        }
      for (int k = 0; k < ground->n_stitches; k++)
        body += ground->stitches[k].core;
      g_assert_cmpint (legs, ==, cases[i].legs);
      g_assert_cmpint (body, ==, 2 * (legs / 4) * (legs / 4));
    }
}

/* Rose ground's nine variants, corners by pins (J. Edkins, lace school web pages). */
static void
test_roses (void)
{
  static const char *const names[3][3] = {
    { "light-rose", "ornamental", "rose-half-double" },
    { "rose-double-open", "rose", "rose-double-double" },
    { "rose-four-open", "rose-four-half", "doubled-rose" },
  };
  static const char *const corners[] = { "ct", "ctct", "ctctctct" };
  static const char *const pins[] = { "ctp", "ctpct", "ctctpctct" };
  g_autoptr (PfGround) rose = load ("rose");
  for (int c = 0; c < 3; c++)
    for (int p = 0; p < 3; p++)
      {
        g_autoptr (PfGround) ground = load (names[c][p]);
        g_assert_cmpint (ground->n_stitches, ==, rose->n_stitches);
        for (int k = 0; k < ground->n_stitches; k++)
          g_assert_cmpstr (ground->stitches[k].work, ==,
                           rose->stitches[k].pin ? pins[p] : corners[c]);
        g_assert_cmpmem (ground->lines, sizeof *ground->lines * (gsize) ground->n_lines,
                         rose->lines, sizeof *rose->lines * (gsize) rose->n_lines);
      }
}

/* G. Stillwell (2013): torchon of No. 60 crochet cotton on ten squares to the inch; a gap is the
 * diagonal of one square. */
static void
test_usual (void)
{
  g_autoptr (PfGround) ground = load ("torchon");
  g_assert_cmpfloat_with_epsilon (ground->usual.gap_mm, 25.4 / 10 * G_SQRT2, 0.0005);
  g_assert_cmpstr (ground->usual.thread, ==, "No. 60 crochet cotton");
  g_assert_cmpfloat (ground->usual.wraps_per_cm, ==, 0);
  g_assert_nonnull (strstr (ground->usual.source, "Stillwell"));
  g_autoptr (PfGround) none = load ("rose");
  g_assert_cmpfloat (none->usual.gap_mm, ==, 0);
  g_assert_null (none->usual.source);
}

/* What is written is read again, to the last word. */
static void
test_written (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (shipped); i++)
    {
      g_autoptr (PfGround) ground = load (shipped[i].name);
      g_autoptr (GError) error = NULL;
      gsize n;
      g_autofree char *json = pf_ground_to_json (ground, &n);
      g_autoptr (PfGround) again = pf_ground_parse (json, n, "written", &error);
      g_assert_no_error (error);
      g_assert_true (pf_ground_equal (ground, again));
      g_assert_true (g_strv_equal ((const char *const *) ground->also_called,
                                   (const char *const *) again->also_called));
      g_assert_cmpstr (ground->source, ==, again->source);
      g_assert_cmpstr (ground->notes, ==, again->notes);
      g_assert_cmpfloat (ground->usual.gap_mm, ==, again->usual.gap_mm);
      g_assert_cmpstr (ground->usual.thread, ==, again->usual.thread);
      g_assert_cmpstr (ground->usual.source, ==, again->usual.source);
      g_autofree char *json_again = pf_ground_to_json (again, NULL);
      g_assert_cmpstr (json, ==, json_again);
    }
}

static void
test_unknown_name (void)
{
  static const struct {
    const char *name, *part;
  } cases[] = {
    { "torchn", "Did you mean “torchon”?" },
    { "Armure", "Did you mean “armure”?" },
    { "spiders", "called “spiders”. Did you mean “spider”?" },
    { "../grounds/rose", "There is no ground" },
    { "", "There is no ground" },
    { "\xff\xfe", "There is no ground" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (pf_ground_load (cases[i].name, &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_GROUND);
      g_assert_nonnull (strstr (error->message, cases[i].part));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
    }
}

/* --- Files --- */

static char *
data_text (const char *name, gsize *n)
{
  g_autofree char *file = g_strconcat (name, ".json", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("PF_DATA"), "grounds", file, NULL);
  char *text;
  g_assert_true (g_file_get_contents (path, &text, n, NULL));
  return text;
}

static void
test_load_file (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (g_getenv ("PF_DATA"), "grounds", "rose.json", NULL);
  g_autoptr (PfGround) ground = pf_ground_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (ground->name, ==, "rose");

  g_assert_null (pf_ground_load ("no-such-folder/own.json", &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "no-such-folder/own.json can't be read"));
}

static void
test_file_sizes (void)
{
  g_autofree char *folder = g_dir_make_tmp ("pinfold-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "big.json", NULL);
  g_autoptr (GError) error = NULL;
  gsize n;
  g_autofree char *torchon = data_text ("torchon", &n);
  g_autoptr (GString) text = g_string_new (torchon);

  /* A ground and blanks up to the limit; then one more. */
  while (text->len < PF_JSON_MAX_GROUND)
    g_string_append_c (text, ' ');
  g_assert_true (g_file_set_contents (path, text->str, (gssize) text->len, NULL));
  PfGround *ground = pf_ground_load (path, &error);
  g_assert_no_error (error);
  pf_ground_free (ground);
  g_string_append_c (text, ' ');
  g_assert_true (g_file_set_contents (path, text->str, (gssize) text->len, NULL));
  g_assert_null (pf_ground_load (path, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "too big"));
  g_clear_error (&error);

  /* 100 MB, and none of it read into memory. */
  FILE *file = g_fopen (path, "wb");
  g_assert_cmpint (fseek (file, 100 * 1000 * 1000, SEEK_SET), ==, 0);
  g_assert_cmpint (fputc ('}', file), ==, '}');
  fclose (file);
  g_assert_null (pf_ground_load (path, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "too big"));
  g_clear_error (&error);
  g_remove (path);

  /* A folder. */
  g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
  g_assert_null (pf_ground_load (path, &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_rmdir (path);
  g_rmdir (folder);
}

/* Each case changes the first `from` in a shipped ground to `to`. */
static const struct {
  const char *ground, *from, *to;
  int code;
  const char *part; /* of the message */
} wrong[] = {
  { "plait-lattice", "\"pairs\": 4", "\"pairs\": 3", PF_ERROR_GROUND, "joins 3 pairs" },
  { "plait-lattice", "\"pairs\": 4", "\"pairs\": \"four\"", PF_ERROR_FILE,
    "“pairs” must be a whole" },
  { "plait-lattice", "crossing.IL", "crossing.XL", PF_ERROR_FILE, "and its side" },
  { "plait-lattice", "plait left.L", "plait left.IL", PF_ERROR_FILE,
    "pair line 1: Stitch “plait left” has no side “IL”" },
  { "plait-lattice", "\"plait right.R\", \"to\"", "\"plait right.IR\", \"to\"", PF_ERROR_FILE,
    "pair line 6: Stitch “plait right” has no side “IR”" },
  { "plait-lattice", ", \"pairs\": 4", "", PF_ERROR_FILE,
    "pair line 2: Stitch “crossing” has no side “IL”" },
  { "plait-lattice", "\"pairs\": 4", "\"pairs\": 2.5", PF_ERROR_FILE, "“pairs” must be a whole" },
  { "plait-lattice", "\"pairs\": 4", "\"pairs\": 5", PF_ERROR_GROUND, "joins 5 pairs" },
  { "plait-lattice", "\"ctc\"", "\"ctlc\"", PF_ERROR_GROUND, "made with two pairs" },
  { "plait-lattice", "\"ctctctct\"", "\"ctm\"", PF_ERROR_GROUND, "and l (leadwork) can stand" },
  { "plait-lattice", "{\"from\": \"crossing.IL\", \"to\": \"plait left.R\"},", "", PF_ERROR_GROUND,
    "Stitch “crossing”: No pair leaves it on its inner left" },
  { "plait-lattice", "\"to\": \"crossing.IR\"", "\"to\": \"crossing.IL\"", PF_ERROR_GROUND,
    "Stitch “crossing”: Two pairs come to it on its inner left" },
  { "plait-lattice", "{\"from\": \"crossing.L\", \"to\": \"plait left.L\"},", "", PF_ERROR_GROUND,
    "No pair leaves it on its left" },
  { "plait-lattice", "\"crossing.IR\", \"to\"", "\"crossing.R\", \"to\"", PF_ERROR_GROUND,
    "Two pairs leave it on its right" },
  { "torchon", "pinfold-ground", "other", PF_ERROR_FILE, "“format” must be" },
  { "torchon", "\"version\": 1", "\"version\": 2", PF_ERROR_FILE, "“version” must be 1" },
  { "torchon", "\"version\": 1,", "", PF_ERROR_FILE, "“version” must be 1" },
  { "torchon", "\"version\": 1", "\"version\": \"1\"", PF_ERROR_FILE, "“version” must be a whole" },
  { "torchon", "\"version\": 1", "\"version\": 1.5", PF_ERROR_FILE, "“version” must be a whole" },
  { "torchon", "\"name\": \"torchon\"", "\"name\": \"My Own\"", PF_ERROR_FILE, "small letters" },
  { "torchon", "\"title\"", "\"titel\"", PF_ERROR_FILE, "“titel” isn't known here" },
  { "torchon", "\"title\": \"Torchon ground\",", "", PF_ERROR_FILE, "“title” must be a text" },
  { "torchon", "\"Torchon ground\"", "\"\"", PF_ERROR_FILE, "“title” must be a text" },
  { "torchon", "\"Torchon ground\"", "\"\\ud800x\"", PF_ERROR_FILE, "“title” must be a text" },
  { "torchon", "\"Torchon ground\"", "\"a\\u0001\"", PF_ERROR_FILE, "“title” must be a text" },
  { "torchon", "\"Torchon ground\"", "\"\\uffff\"", PF_ERROR_FILE, "“title” must be a text" },
  { "torchon", "\"title\"", "\"\\ud800x\"", PF_ERROR_FILE, "isn't known here" },
  { "torchon", "\"Torchon ground\"", "7", PF_ERROR_FILE, "“title” must be a text" },
  { "torchon", "\"also_called\": []", "\"also_called\": [1]", PF_ERROR_FILE,
    "only texts in quotes" },
  { "torchon", "\"also_called\": []", "\"also_called\": \"x\"", PF_ERROR_FILE, "must be a list" },
  { "torchon", "\"a\": [1, 1]", "\"a\": [1]", PF_ERROR_FILE, "repeat: “a” must be two numbers" },
  { "torchon", "\"a\": [1, 1]", "\"a\": [1, \"1\"]", PF_ERROR_FILE, "“a” must be two numbers" },
  { "torchon", "\"a\": [1, 1], ", "", PF_ERROR_FILE, "“a” must be two numbers" },
  { "torchon", "\"a\": [1, 1]", "\"a\": [-1, 1]", PF_ERROR_GROUND, "lie on one line" },
  { "torchon", "\"a\": [1, 1]", "\"a\": [1e999, 1]", PF_ERROR_GROUND, "too long" },
  { "torchon", "\"gap_mm\": 3.592", "\"gap\": 3.592", PF_ERROR_FILE, "usual: “gap” isn't known" },
  { "torchon", "\"gap_mm\": 3.592, ", "", PF_ERROR_FILE, "usual: “gap_mm” must be a number" },
  { "torchon", "\"gap_mm\": 3.592", "\"gap_mm\": -3", PF_ERROR_FILE, "“gap_mm” must be" },
  { "torchon", "\"gap_mm\": 3.592", "\"gap_mm\": 101", PF_ERROR_FILE, "“gap_mm” must be" },
  { "torchon", "\"thread\": \"No. 60 crochet cotton\", ", "", PF_ERROR_FILE, "Name the “thread”" },
  { "torchon", "\"thread\"", "\"wraps_per_cm\": -1, \"thread\"", PF_ERROR_FILE,
    "“wraps_per_cm” must be" },
  { "torchon", "\"thread\"", "\"wraps_per_cm\": 501, \"thread\"", PF_ERROR_FILE,
    "“wraps_per_cm” must be" },
  { "torchon", "\"usual\": {", "\"usual\": 3, \"notes\": {", PF_ERROR_FILE, "stands twice" },
  { "torchon", "\"repeat\":", "\"repeats\":", PF_ERROR_FILE, "“repeats” isn't known" },
  { "torchon", "\"at\": [0, 0]", "\"at\": [0, 999999999999999999]", PF_ERROR_GROUND, "too far" },
  { "torchon", "\"at\": [0, 0]", "\"at\": [0, 0, 0]", PF_ERROR_FILE, "stitch 1: “at” must be" },
  { "torchon", "\"at\": [0, 0]", "\"at\": {}", PF_ERROR_FILE, "stitch 1: “at” must be" },
  { "torchon", "\"at\": [0, 0]", "\"at\": [0, NaN]", PF_ERROR_FILE, "isn't valid JSON" },
  { "torchon", "\"work\"", "\"wrok\"", PF_ERROR_FILE, "stitch 1: “wrok” isn't known" },
  { "torchon", "ctpct", "ctxct", PF_ERROR_GROUND, "“1” is “ctxct”" },
  { "torchon", "{\"name\": \"1\"", "{\"name\": \"a.b\"", PF_ERROR_FILE, "no full stop" },
  { "torchon", "{\"name\": \"1\"", "{\"name\": \"\\n\"", PF_ERROR_FILE, "“name” must be a text" },
  { "torchon", "\"1.R\"", "\"1.M\"", PF_ERROR_FILE, "pair line 1: “from” must name" },
  { "torchon", "\"1.R\"", "\"1\"", PF_ERROR_FILE, "pair line 1: “from” must name" },
  { "torchon", "\"1.R\"", "\"2.R\"", PF_ERROR_FILE, "pair line 1: There is no stitch “2”" },
  { "torchon", "\"1.R\"", "\".R\"", PF_ERROR_FILE, "pair line 1: There is no stitch “”" },
  { "torchon", "\"1.R\"", "\"1.L\"", PF_ERROR_GROUND,
    "Stitch “1”: Two pairs leave it on its left" },
  { "torchon", "[1, 0]", "[1.5, 0]", PF_ERROR_FILE, "pair line 1: “repeat” must be two whole" },
  { "torchon", "[1, 0]", "[9, 0]", PF_ERROR_GROUND, "9 and 0 repeats away" },
  { "torchon", "[1, 0]", "[-999999999999999999, 0]", PF_ERROR_FILE, "two whole numbers" },
  { "torchon", "[1, 0]", "[1, 0], \"twists\": 0.5", PF_ERROR_FILE, "“twists” must be a whole" },
  { "torchon", "[1, 0]", "[0, 0]", PF_ERROR_GROUND, "can't be worked" },
  { "torchon", "[1, 0]", "[1, 0], \"repeat\": [0, 0]", PF_ERROR_FILE, "“repeat” stands twice" },
  { "torchon", "{\"from\"", "[\"from\"", PF_ERROR_FILE, "line 16: this isn't valid JSON" },
  { "torchon", "\"stitches\": [", "\"stitches\": [7, ", PF_ERROR_FILE, "stitch 1: Braces" },
  { "torchon", "\"pair_lines\"", "/* \" */ \"pair_lines\"", PF_ERROR_FILE, "“/” can't stand" },
  { "armure", "\"core\": true", "\"core\": \"yes\"", PF_ERROR_FILE,
    "stitch 4: “core” must be true" },
  { "armure", "\"bead\": true", "\"bead\": 1", PF_ERROR_FILE, "stitch 4: “bead” must be true" },
  { "armure", "\"closes\": \"2\"", "\"closes\": \"9\"", PF_ERROR_FILE,
    "stitch 5: There is no stitch “9”" },
  { "armure", "\"closes\": \"2\"", "\"closes\": \"centre\"", PF_ERROR_GROUND,
    "“centre” must set a pin" },
  { "armure", "\"name\": \"3\"", "\"name\": \"2\"", PF_ERROR_FILE,
    "stitch 3: There is a stitch “2” already" },
  { "rose", "\"at\": [0, 1]", "\"at\": [3, 0.5]", PF_ERROR_GROUND, "rose: " },
  { "point-net", "[-0.8660254037844386, 0.5]", "[-0.4, 0.2]", PF_ERROR_GROUND, "not 1 to 2" },
};

static char *
replace_first (const char *text, const char *from, const char *to)
{
  const char *at = strstr (text, from);
  g_assert_nonnull (at);
  return g_strdup_printf ("%.*s%s%s", (int) (at - text), text, to, at + strlen (from));
}

/* Both the thread and its wraps, and either. */
static void
test_usual_wraps (void)
{
  static const struct {
    const char *thread;
    double wraps;
    const char *name;
  } cases[] = {
    { "\"thread\": \"A\", \"wraps_per_cm\": 27.5", 27.5, "A" },
    { "\"wraps_per_cm\": 30", 30, "" },
    { "\"thread\": \"A\"", 0, "A" },
  };
  gsize n;
  g_autofree char *right = data_text ("torchon", &n);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text =
          replace_first (right, "\"thread\": \"No. 60 crochet cotton\"", cases[i].thread);
      g_autoptr (PfGround) ground = pf_ground_parse (text, strlen (text), "usual", &error);
      g_assert_no_error (error);
      g_autofree char *json = pf_ground_to_json (ground, &n);
      g_autoptr (PfGround) again = pf_ground_parse (json, n, "written", &error);
      g_assert_no_error (error);
      g_assert_cmpfloat (again->usual.wraps_per_cm, ==, cases[i].wraps);
      g_assert_cmpstr (again->usual.thread, ==, cases[i].name);
    }
}

static void
test_wrong (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      gsize n;
      g_autofree char *right = data_text (wrong[i].ground, &n);
      g_autofree char *text = replace_first (right, wrong[i].from, wrong[i].to);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_parse (text, strlen (text), wrong[i].ground, &error);
      g_assert_null (ground);
      g_test_message ("%s", error->message);
      g_assert_error (error, PF_ERROR, wrong[i].code);
      g_assert_true (g_str_has_prefix (error->message, wrong[i].ground));
      if (!strstr (error->message, wrong[i].part))
        g_error ("“%s” isn't in: %s", wrong[i].part, error->message);
    }
}

/* Texts that are no ground at all. */
static void
test_not_ground (void)
{
  static const struct {
    const char *text;
    gsize n; /* 0: up to its end */
    const char *part;
  } cases[] = {
    { "", 0, "own is empty" },
    { " \n ", 0, "own is empty" },
    { "[]", 0, "Braces" },
    { "null", 0, "Braces" },
    { "7", 0, "Braces" },
    { "{}", 0, "“format” must be a text" },
    { "{\"a\": 1, \"a\": 1}", 0, "“a” stands twice" },
    { "var x = {};", 0, "“=” can't stand" },
    { "{\"format\": \"pinfold\0-ground\"}", 28, "isn't a text in UTF-8" },
    { "{\"format\": \"\xff\"}", 0, "isn't a text in UTF-8" },
    { "{\"format\": \"pinfold-ground", 0, "isn't valid JSON" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      const gsize n = cases[i].n ? cases[i].n : strlen (cases[i].text);
      g_assert_null (pf_ground_parse (cases[i].text, n, "own", &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
      if (!strstr (error->message, cases[i].part))
        g_error ("“%s” isn't in: %s", cases[i].part, error->message);
    }
}

/* RFC 8259, section 6: no leading zeros or plus, digits on both sides of a point, and decimal only.
 * A whole number beyond 18 digits would be misread. */
static void
test_numbers (void)
{
  static const struct {
    const char *number;
    bool accepted;
  } cases[] = {
    { "0", true },       { "-0", true },     { "0.0", true },
    { "-0.5e-3", true }, { "0e0", true },    { "0E+10", true },
    { "0.25e1", true },  { "00", false },    { "01", false },
    { "+0", false },     { ".5", false },    { "0.", false },
    { "-", false },      { "0e", false },    { "0e+", false },
    { "0x0", false },    { "0.5.5", false }, { "--0", false },
    { "NaN", false },    { "1O", false },    { "18446744073709551616", false },
  };
  gsize n;
  g_autofree char *right = data_text ("torchon", &n);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *at = g_strdup_printf ("\"at\": [0, %s]", cases[i].number);
      g_autofree char *text = replace_first (right, "\"at\": [0, 0]", at);
      g_autoptr (GError) error = NULL;
      g_autoptr (PfGround) ground = pf_ground_parse (text, strlen (text), "number", &error);
      if (cases[i].accepted)
        {
          g_assert_no_error (error);
          g_assert_cmpfloat (ground->stitches[0].at.y, ==, g_ascii_strtod (cases[i].number, NULL));
        }
      else
        {
          g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
          g_assert_true (g_str_has_prefix (error->message, "number, line 13: "));
        }
    }
}

static void
test_byte_order_mark (void)
{
  gsize n;
  g_autofree char *text = data_text ("torchon", &n);
  g_autofree char *marked = g_strconcat ("\xEF\xBB\xBF", text, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_parse (marked, n + 3, "marked", &error);
  g_assert_no_error (error);
  g_assert_nonnull (ground);
}

/* Brackets half a million deep, plain and with quotes and comments that would hide them. */
static void
test_deep (void)
{
  static const char *const starts[] = { "[", "{\"a\":", "[\"]\",", "[\"\\\"]\",", "[/*\"*/" };
  for (gsize i = 0; i < G_N_ELEMENTS (starts); i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      while (text->len < PF_JSON_MAX_GROUND / 2)
        g_string_append (text, starts[i]);
      g_autoptr (GError) error = NULL;
      g_assert_null (pf_ground_parse (text->str, text->len, "deep", &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
    }
}

static void
test_too_many (void)
{
  gsize n;
  g_autofree char *right = data_text ("torchon", &n);
  g_autoptr (GString) stitches = g_string_new (NULL);
  for (int k = 2; k <= PF_GROUND_MAX_STITCHES + 1; k++)
    g_string_append_printf (stitches, "{\"name\": \"%d\", \"at\": [0, %d], \"work\": \"ct\"},", k,
                            k);
  g_autofree char *head = g_strconcat ("\"stitches\": [", stitches->str, NULL);
  g_autofree char *text = replace_first (right, "\"stitches\": [", head);
  g_autoptr (GError) error = NULL;
  g_assert_null (pf_ground_parse (text, strlen (text), "many", &error));
  g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, "1 to 256 stitches"));
}

/* --- Broken at random --- */

/* Either a ground comes back, or an error that names the text. */
static void
parse_anything (const char *text, gsize n)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PfGround) ground = pf_ground_parse (text, n, "broken", &error);
  g_assert_true (!ground == !!error);
  if (error)
    {
      g_assert_true (error->code == PF_ERROR_FILE || error->code == PF_ERROR_GROUND);
      g_assert_true (g_str_has_prefix (error->message, "broken"));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
    }
}

static void
test_truncated (void)
{
  gsize n;
  g_autofree char *text = data_text ("armure", &n);
  for (gsize length = 0; length < n - 2; length++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *cut = g_memdup2 (text, length);
      g_assert_null (pf_ground_parse (cut, length, "cut", &error));
      g_assert_error (error, PF_ERROR, PF_ERROR_FILE);
    }
}

/* Bytes changed, and words changed for others that mean something to the reader. */
static void
mutate (GString *text)
{
  static const char *const words[] = { "[",    "]",   "{",     "}",       "\"",    ",",
                                       ":",    "-",   "1e308", "1e-308",  "null",  "true",
                                       "0x1F", "017", "\\",    "\\u0000", "\n",    "\xc3\xa9",
                                       "1.L",  "1.R", "8",     "99999",   "p",     "core",
                                       "[[",   "-0",  "1.5",   "2.L",     "close", "\\ud800" };
  const gsize at = (gsize) g_test_rand_int_range (0, (int) text->len);
  if (g_test_rand_bit ())
    text->str[at] = (char) g_test_rand_int_range (0, 256);
  else
    {
      const gsize gone = (gsize) g_test_rand_int_range (0, 4);
      g_string_erase (text, (gssize) at, (gssize) MIN (gone, text->len - at));
      g_string_insert (text, (gssize) at, words[g_test_rand_int_range (0, G_N_ELEMENTS (words))]);
    }
}

static void
test_mutated (void)
{
  static const char *const names[] = { "torchon", "rose", "armure", "spider" };
  for (int round = 0; round < 3000; round++)
    {
      gsize n;
      g_autofree char *right = data_text (names[round % 4], &n);
      g_autoptr (GString) text = g_string_new_len (right, (gssize) n);
      for (int changes = g_test_rand_int_range (1, 5); changes > 0; changes--)
        mutate (text);
      /* A copy of just that size, so that a read beyond its end shows. */
      g_autofree char *copy = g_memdup2 (text->str, text->len);
      parse_anything (copy, text->len);
    }
}

/* Only digits change: the text stays valid JSON, so that the checks of the ground see it. */
static void
test_numbers_changed (void)
{
  static const char *const names[] = { "rose", "armure", "spider", "valenciennes-square" };
  for (int round = 0; round < 2000; round++)
    {
      gsize n;
      g_autofree char *text = data_text (names[round % 4], &n);
      for (int changes = g_test_rand_int_range (1, 8); changes > 0;)
        {
          const gsize at = (gsize) g_test_rand_int_range (0, (int) n);
          if (!g_ascii_isdigit (text[at]) && text[at] != 'L' && text[at] != 'R')
            continue;
          text[at] = g_ascii_isdigit (text[at]) ? (char) g_test_rand_int_range ('0', '9' + 1)
                                                : "LR"[g_test_rand_bit ()];
          changes--;
        }
      parse_anything (text, n);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pricking/ground-file/names", test_names);
  g_test_add_func ("/pricking/ground-file/shipped", test_shipped);
  g_test_add_func ("/pricking/ground-file/shipped-graphs", test_shipped_graphs);
  g_test_add_func ("/pricking/ground-file/angles", test_angles);
  g_test_add_func ("/pricking/ground-file/armure", test_armure);
  g_test_add_func ("/pricking/ground-file/spiders", test_spiders);
  g_test_add_func ("/pricking/ground-file/roses", test_roses);
  g_test_add_func ("/pricking/ground-file/usual", test_usual);
  g_test_add_func ("/pricking/ground-file/usual-wraps", test_usual_wraps);
  g_test_add_func ("/pricking/ground-file/written", test_written);
  g_test_add_func ("/pricking/ground-file/unknown-name", test_unknown_name);
  g_test_add_func ("/pricking/ground-file/load-file", test_load_file);
  g_test_add_func ("/pricking/ground-file/file-sizes", test_file_sizes);
  g_test_add_func ("/pricking/ground-file/wrong", test_wrong);
  g_test_add_func ("/pricking/ground-file/not-ground", test_not_ground);
  g_test_add_func ("/pricking/ground-file/numbers", test_numbers);
  g_test_add_func ("/pricking/ground-file/byte-order-mark", test_byte_order_mark);
  g_test_add_func ("/pricking/ground-file/deep", test_deep);
  g_test_add_func ("/pricking/ground-file/too-many", test_too_many);
  g_test_add_func ("/pricking/ground-file/truncated", test_truncated);
  g_test_add_func ("/pricking/ground-file/mutated", test_mutated);
  g_test_add_func ("/pricking/ground-file/numbers-changed", test_numbers_changed);
  return g_test_run ();
}
