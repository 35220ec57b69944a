/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Grounds read from JSON, version 1 of our own format; DEVELOPERS.md describes it.
 *
 * Here a file is checked for what it says (keys, types, names that exist); whether the ground can
 * be worked and drawn is for pf_ground_complete().
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "json-reader.h"
#include "pricking.h"

#define FORMAT "pinfold-ground"
#define VERSION 1
#define MAX_NAME 40 /* bytes */
#define MIN_GAP 0.2 /* mm, as a filling takes them */
#define MAX_GAP 100.0
#define ANY_NUMBER 1e6
#define MAX_WRAPS 500.0 /* more than any thread has: only to catch slips */

static const char *const ground_keys[] = { "format",      "version", "name",     "title",
                                           "also_called", "family",  "used_for", "source",
                                           "notes",       "usual",   "repeat",   "stitches",
                                           "pair_lines",  NULL };
static const char *const usual_keys[] = { "thread", "wraps_per_cm", "gap_mm", "source", NULL };
static const char *const repeat_keys[] = { "a", "b", NULL };
static const char *const stitch_keys[] = { "name", "at",   "work",   "pairs",
                                           "core", "bead", "closes", NULL };
static const char *const line_keys[] = { "from", "to", "repeat", "twists", NULL };

static int
find_stitch (const PfGround *ground, const char *name)
{
  for (int k = 0; k < ground->n_stitches; k++)
    if (g_strcmp0 (ground->stitches[k].name, name) == 0)
      return k;
  return -1;
}

static bool
is_printable (const char *name)
{
  for (const char *p = name; *p; p = g_utf8_next_char (p))
    if (!g_unichar_isprint (g_utf8_get_char (p)))
      return false;
  return true;
}

/* A name by which pair lines can find the stitch. */
static char *
read_stitch_name (PfJsonReader *reader, const PfGround *ground, JsonObject *object)
{
  const char *name = pf_json_string (reader, object, "name", true);
  if (!name)
    return NULL;
  if (strlen (name) > MAX_NAME || strchr (name, '.') || !is_printable (name))
    pf_json_fail (reader, _ ("A stitch's name has at most %d letters and no full stop."), MAX_NAME);
  else if (find_stitch (ground, name) >= 0)
    pf_json_fail (reader, _ ("There is a stitch “%s” already: give this one another name."), name);
  return g_strdup (name);
}

static void
read_stitch (PfJsonReader *reader, PfGround *ground, int k, JsonNode *node)
{
  PfStitch *stitch = &ground->stitches[k];
  JsonObject *object = pf_json_object (reader, node, stitch_keys);
  stitch->name = read_stitch_name (reader, ground, object);
  stitch->at = pf_json_point (reader, object, "at");
  stitch->work = g_strdup (pf_json_string (reader, object, "work", true));
  stitch->n_pairs = pf_json_int (reader, object, "pairs", 2);
  stitch->core = pf_json_bool (reader, object, "core");
  stitch->bead = pf_json_bool (reader, object, "bead");
}

static int
find_named (PfJsonReader *reader, const PfGround *ground, const char *key, const char *name)
{
  const int k = find_stitch (ground, name);
  if (k < 0)
    {
      g_autofree char *shown = pf_json_shown (name);
      pf_json_fail (reader, _ ("There is no stitch “%s” for “%s” to name."), shown, key);
    }
  return k;
}

/* After all stitches are known by name. */
static void
read_closes (PfJsonReader *reader, PfGround *ground, int k, JsonNode *node)
{
  const char *name = pf_json_string (reader, json_node_get_object (node), "closes", false);
  if (name && *name)
    ground->stitches[k].closes = find_named (reader, ground, "closes", name);
}

/* The side that is written after the dot: "L", "R", where four pairs meet "IL" and "IR" too. Does
 * any side have that name? */
static bool
read_side (PfJsonReader *reader, const PfStitch *stitch, const char *text, PfSide *side)
{
  static const char *const sides[] = { "L", "IL", "IR", "R" }; /* of PfSideName */
  for (size_t s = 0; s < G_N_ELEMENTS (sides); s++)
    if (strcmp (text, sides[s]) == 0)
      {
        if (!pf_side_find (stitch->n_pairs, (PfSideName) s, side))
          pf_json_fail (
              reader,
              _ ("Stitch “%s” has no side “%s”: only where four pairs meet are there inner sides."),
              stitch->name, text);
        return true;
      }
  return false;
}

/* "close 3.R" is the right of stitch "close 3". */
static PfEnd
read_end (PfJsonReader *reader, const PfGround *ground, JsonObject *object, const char *key)
{
  const char *text = pf_json_string (reader, object, key, true);
  const char *dot = text ? strrchr (text, '.') : NULL;
  g_autofree char *name = dot ? g_strndup (text, (gsize) (dot - text)) : NULL;
  const int k = dot ? find_named (reader, ground, key, name) : -1;
  PfEnd end = { MAX (k, 0), PF_LEFT };
  if (!dot || (k >= 0 && !read_side (reader, &ground->stitches[k], dot + 1, &end.side)))
    pf_json_fail (reader,
                  _ ("“%s” must name a stitch and its side, such as “1.L” or “1.R”; where four "
                     "pairs meet also “1.IL” or “1.IR”."),
                  key);
  return end;
}

static void
read_line (PfJsonReader *reader, const PfGround *ground, PfPairLine *line, JsonNode *node)
{
  JsonObject *object = pf_json_object (reader, node, line_keys);
  line->from = read_end (reader, ground, object, "from");
  line->to = read_end (reader, ground, object, "to");
  pf_json_two_ints (reader, object, "repeat", &line->da, &line->db);
  line->twists = pf_json_int (reader, object, "twists", 0);
}

static void
read_graph (PfJsonReader *reader, PfGround *ground, JsonArray *stitches, JsonArray *lines)
{
  for (int k = 0; k < ground->n_stitches && !reader->error; k++)
    {
      pf_json_at (reader, g_strdup_printf (_ ("stitch %d"), k + 1));
      read_stitch (reader, ground, k, json_array_get_element (stitches, k));
    }
  for (int k = 0; k < ground->n_stitches && !reader->error; k++)
    {
      pf_json_at (reader, g_strdup_printf (_ ("stitch %d"), k + 1));
      read_closes (reader, ground, k, json_array_get_element (stitches, k));
    }
  for (int e = 0; e < ground->n_lines && !reader->error; e++)
    {
      pf_json_at (reader, g_strdup_printf (_ ("pair line %d"), e + 1));
      read_line (reader, ground, &ground->lines[e], json_array_get_element (lines, e));
    }
  pf_json_at (reader, NULL);
}

static void
read_usual (PfJsonReader *reader, PfUsualGap *usual, JsonNode *node)
{
  pf_json_at (reader, g_strdup ("usual"));
  JsonObject *object = pf_json_object (reader, node, usual_keys);
  usual->thread = g_strdup (pf_json_string (reader, object, "thread", false));
  usual->wraps_per_cm = pf_json_number (reader, object, "wraps_per_cm", ANY_NUMBER, 0);
  usual->gap_mm = pf_json_number (reader, object, "gap_mm", ANY_NUMBER, 0);
  usual->source = g_strdup (pf_json_string (reader, object, "source", true));
  if (usual->gap_mm < MIN_GAP || usual->gap_mm > MAX_GAP)
    pf_json_fail (reader, _ ("“gap_mm” must be a number from %g to %g."), MIN_GAP, MAX_GAP);
  if (usual->wraps_per_cm < 0 || usual->wraps_per_cm > MAX_WRAPS)
    pf_json_fail (reader, _ ("“wraps_per_cm” must be a number from 0 to %g."), MAX_WRAPS);
  if (usual->wraps_per_cm == 0 && !(usual->thread && *usual->thread))
    pf_json_fail (reader, _ ("Name the “thread”, or give its “wraps_per_cm”."));
  pf_json_at (reader, NULL);
}

static void
read_about (PfJsonReader *reader, PfGround *ground, JsonObject *object)
{
  ground->name = g_strdup (pf_json_string (reader, object, "name", true));
  ground->title = g_strdup (pf_json_string (reader, object, "title", true));
  ground->also_called = pf_json_strings (reader, object, "also_called");
  ground->family = g_strdup (pf_json_string (reader, object, "family", true));
  ground->used_for = g_strdup (pf_json_string (reader, object, "used_for", false));
  ground->source = g_strdup (pf_json_string (reader, object, "source", true));
  ground->notes = g_strdup (pf_json_string (reader, object, "notes", false));
  JsonNode *usual = pf_json_member (reader, object, "usual");
  if (usual)
    read_usual (reader, &ground->usual, usual);
  if (ground->name && ground->name[strspn (ground->name, "abcdefghijklmnopqrstuvwxyz0123456789-")])
    pf_json_fail (reader, _ ("“name” must hold only small letters a to z, digits and hyphens."));
}

static void
read_repeat (PfJsonReader *reader, PfGround *ground, JsonObject *object)
{
  JsonNode *node = object ? json_object_get_member (object, "repeat") : NULL;
  if (!node)
    {
      pf_json_fail (reader, _ ("“repeat” with the repeat vectors a and b is missing."));
      return;
    }
  pf_json_at (reader, g_strdup ("repeat"));
  JsonObject *repeat = pf_json_object (reader, node, repeat_keys);
  ground->a = pf_json_point (reader, repeat, "a");
  ground->b = pf_json_point (reader, repeat, "b");
  pf_json_at (reader, NULL);
}

static void
check_format (PfJsonReader *reader, JsonObject *object)
{
  const char *format = pf_json_string (reader, object, "format", true);
  if (g_strcmp0 (format, FORMAT) != 0)
    pf_json_fail (reader, _ ("This isn't a ground: “format” must be “%s”."), FORMAT);
  const int version = pf_json_int (reader, object, "version", -1);
  if (version != VERSION)
    pf_json_fail (reader, _ ("“version” must be %d; a later version needs a later Pinfold."),
                  VERSION);
}

static PfGround *
read_ground (PfJsonReader *reader, JsonNode *root)
{
  JsonObject *object = pf_json_object (reader, root, ground_keys);
  check_format (reader, object);
  JsonArray *stitches = pf_json_array (reader, object, "stitches");
  JsonArray *lines = pf_json_array (reader, object, "pair_lines");
  const guint n_stitches = stitches ? json_array_get_length (stitches) : 0;
  const guint n_lines = lines ? json_array_get_length (lines) : 0;
  if (n_stitches < 1 || n_stitches > PF_GROUND_MAX_STITCHES)
    pf_json_fail (reader, _ ("“stitches” must hold 1 to %d stitches."), PF_GROUND_MAX_STITCHES);
  if (n_lines > PF_STITCH_MAX_PAIRS * PF_GROUND_MAX_STITCHES)
    pf_json_fail (reader, _ ("“pair_lines” must hold one pair line for each pair of each stitch."));
  if (reader->error)
    return NULL;
  PfGround *ground = pf_ground_new ((int) n_stitches, (int) n_lines);
  read_about (reader, ground, object);
  read_repeat (reader, ground, object);
  read_graph (reader, ground, stitches, lines);
  return ground;
}

PfGround *
pf_ground_parse (const char *json, gsize n, const char *name, GError **error)
{
  g_autoptr (JsonNode) root = pf_json_parse (json, n, PF_JSON_MAX_GROUND, name, error);
  if (!root)
    return NULL;
  PfJsonReader reader = { .file = name };
  g_autoptr (PfGround) ground = read_ground (&reader, root);
  pf_json_at (&reader, NULL);
  if (reader.error)
    {
      g_propagate_error (error, reader.error);
      return NULL;
    }
  if (!pf_ground_complete (ground, error))
    {
      g_prefix_error (error, "%s: ", name);
      return NULL;
    }
  return g_steal_pointer (&ground);
}
