/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Motifs out of a document's file: keys, types, words and names are checked here; whether the
 * outline holds together and the numbers can be worked is for pf_motif_new().
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "document-file.h"

static const char *const draft_keys[] = { "id",     "name",      "notes", "curves",
                                          "ground", "mirror_of", "axis",  "filling",
                                          "thread", "pillow",    NULL };
static const char *const curve_keys[] = { "path",   "handle_before", "handle_after",
                                          "smooth", "edge",          NULL };
static const char *const edge_keys[] = { "kind", "gap", "pinholes", "stretches", NULL };
static const char *const stretch_keys[] = { "from", "to", "kind", NULL };
static const char *const axis_keys[] = { "at", "angle", NULL };
static const char *const filling_keys[] = {
  "gap",       "turn",      "origin", "mirror",   "angle",
  "clearance", "carry",     "reach",  "off_line", "sewings_per_pinhole",
  "beads",     "all_plain", "order",  "repeats",  "sewings",
  NULL
};
static const char *const order_keys[] = { "first", "by", "sew_in", NULL };
static const char *const repeat_keys[] = { "repeat", "state", NULL };
static const char *const line_keys[] = { "stitch", "repeat", "side", "leaves", NULL };
static const char *const sewing_keys[] = { "stitch", "repeat", "side",  "leaves", "choice",
                                           "other",  "curve",  "along", NULL };

/* --- Curves and edges --- */

static void
read_stretches (PfJsonReader *reader, JsonObject *object, PfDraft *draft, size_t curve)
{
  guint n;
  JsonArray *list = pf_json_list (reader, object, "stretches", &n);
  g_autofree PfEdgeStretch *stretches = g_new0 (PfEdgeStretch, MAX (n, 1));
  for (guint k = 0; k < n && !reader->error; k++)
    {
      JsonObject *one = pf_json_object (reader, json_array_get_element (list, k), stretch_keys);
      stretches[k].from = pf_json_number (reader, one, "from", PF_LIMIT_ALONG, 0);
      stretches[k].to = pf_json_number (reader, one, "to", PF_LIMIT_ALONG, 0);
      stretches[k].kind = (PfEdgeKind) pf_json_word (reader, one, "kind", pf_edge_words, 0);
    }
  pf_draft_set_stretches (draft, curve, stretches, n);
}

static void
read_edge (PfJsonReader *reader, JsonObject *curve, PfDraft *draft, size_t c)
{
  JsonNode *node = pf_json_member (reader, curve, "edge");
  JsonObject *object = node ? pf_json_object (reader, node, edge_keys) : NULL;
  if (!object)
    return;
  const PfDraftEdge usual = pf_draft_edge_default ();
  PfDraftEdge *edge = &draft->edges[c];
  edge->kind = (PfEdgeKind) pf_json_word (reader, object, "kind", pf_edge_words, usual.kind);
  edge->gap = pf_json_number (reader, object, "gap", PF_LIMIT_NUMBER, usual.gap);
  if (pf_json_member (reader, object, "pinholes"))
    {
      size_t n;
      g_autofree double *pinholes =
          pf_json_all_numbers (reader, object, "pinholes", PF_LIMIT_ALONG, &n);
      pf_draft_set_pinholes (draft, c, pinholes, n);
    }
  read_stretches (reader, object, draft, c);
}

static void
read_curves (PfJsonReader *reader, JsonObject *object, PfDraft *draft)
{
  g_autofree char *motif = g_strdup (reader->where);
  JsonArray *list = pf_json_array (reader, object, "curves");
  const guint n = list ? json_array_get_length (list) : 0;
  for (guint c = 0; c < n && !reader->error; c++)
    {
      pf_json_at (reader, g_strdup_printf (_ ("%s, curve %u"), motif, c + 1));
      JsonObject *one = pf_json_object (reader, json_array_get_element (list, c), curve_keys);
      g_autoptr (PfCurve) curve = pf_curve_read (reader, one);
      pf_draft_add_curve (draft, curve);
      draft->edges[c] = pf_draft_edge_default ();
      read_edge (reader, one, draft, c);
    }
  if (!reader->error)
    pf_json_at (reader, g_strdup (motif));
}

/* --- The ground and what was chosen for it --- */

GHashTable *
pf_grounds_read_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) pf_ground_free);
}

/* The reader's error, from one of another function. */
static void
take_error (PfJsonReader *reader, GError *error)
{
  pf_json_fail (reader, "%s", error->message);
  g_error_free (error);
}

/* The ground of that name or text, read once. */
static PfGround *
find_ground (PfJsonReader *reader, GHashTable *grounds, const char *name, const char *json)
{
  const char *key = json ? json : name;
  PfGround *ground = g_hash_table_lookup (grounds, key);
  GError *error = NULL;
  if (!ground)
    {
      ground = json ? pf_ground_parse (json, strlen (json), _ ("its ground"), &error)
                    : pf_ground_load (name, &error);
      if (ground)
        g_hash_table_insert (grounds, g_strdup (key), ground);
      else
        take_error (reader, error);
    }
  return ground;
}

static void
read_ground (PfJsonReader *reader, JsonObject *object, PfDraft *draft, GHashTable *grounds)
{
  JsonNode *node = pf_json_member (reader, object, "ground");
  if (!node)
    return;
  const bool own = JSON_NODE_HOLDS_OBJECT (node);
  const char *name = own ? NULL : pf_json_string (reader, object, "ground", true);
  if (name && g_str_has_suffix (name, ".json"))
    pf_json_fail (reader, _ ("“ground” names a file: put the ground itself here, in braces { }."));
  if (reader->error)
    return;
  g_autofree char *json = own ? json_to_string (node, false) : NULL;
  PfGround *ground = find_ground (reader, grounds, name, json);
  if (!ground)
    return;
  g_autofree char *tidy = own ? pf_ground_to_json (ground, NULL) : NULL;
  pf_draft_set_ground (draft, ground, tidy);
}

static int
find_stitch (PfJsonReader *reader, JsonObject *object, const PfGround *ground)
{
  const char *name = pf_json_string (reader, object, "stitch", true);
  if (!name)
    return 0;
  for (int k = 0; ground && k < ground->n_stitches; k++)
    if (strcmp (ground->stitches[k].name, name) == 0)
      return k;
  g_autofree char *shown = pf_json_shown (name);
  pf_json_fail (reader, _ ("The motif’s ground has no stitch “%s”."), shown);
  return 0;
}

PfLineId
pf_line_read (PfJsonReader *reader, JsonObject *object, const PfGround *ground)
{
  PfLineId line = { .stitch.k = find_stitch (reader, object, ground) };
  pf_json_two_ints (reader, object, "repeat", &line.stitch.i, &line.stitch.j);
  const PfSideName name =
      (PfSideName) pf_json_word (reader, object, "side", pf_side_words, PF_SIDE_LEFT);
  if (ground && !pf_side_find (ground->stitches[line.stitch.k].n_pairs, name, &line.side))
    pf_json_fail (
        reader,
        _ ("Stitch “%s” has no side “%s”: only where four pairs meet are there inner sides."),
        ground->stitches[line.stitch.k].name, pf_side_words[name]);
  line.leaves = pf_json_bool (reader, object, "leaves");
  return line;
}

static void
read_kind (PfJsonReader *reader, JsonObject *object, const PfGround *ground, PfSewingChoice *choice)
{
  JsonNode *other = pf_json_member (reader, object, "other");
  const bool placed = choice->kind == PF_SEW_PINHOLE || choice->kind == PF_SEW_BAR;
  if ((choice->kind == PF_SEW_TURN) != (other != NULL))
    pf_json_fail (reader, _ ("“other” must name the line where a turned pair enters, and stand "
                             "with “turn” alone."));
  else if (other)
    choice->other = pf_line_read (reader, pf_json_object (reader, other, line_keys), ground);
  if (placed != (pf_json_member (reader, object, "along") != NULL))
    pf_json_fail (reader, _ ("“along” must say where, with “pinhole” and “bar” alone."));
  const int curve = pf_json_int (reader, object, "curve", 0);
  if (curve < 0)
    pf_json_fail (reader, _ ("“%s” must be a whole number."), "curve");
  choice->place.loop = (size_t) MAX (curve, 0);
  choice->place.along = pf_json_number (reader, object, "along", PF_LIMIT_ALONG, 0);
}

static void
read_sewings (PfJsonReader *reader, JsonObject *object, PfDraft *draft)
{
  guint n;
  JsonArray *list = pf_json_list (reader, object, "sewings", &n);
  PfSewingChoice *choices = g_new0 (PfSewingChoice, MAX (n, 1));
  for (guint k = 0; k < n && !reader->error; k++)
    {
      JsonObject *one = pf_json_object (reader, json_array_get_element (list, k), sewing_keys);
      choices[k].line = pf_line_read (reader, one, draft->ground);
      choices[k].kind =
          (PfSewingChoiceKind) pf_json_word (reader, one, "choice", pf_choice_words, -1);
      if ((int) choices[k].kind < 0)
        pf_json_fail (reader, _ ("“choice” is missing."));
      else
        read_kind (reader, one, draft->ground, &choices[k]);
    }
  g_free ((void *) draft->settings.sewing_choices);
  draft->settings.sewing_choices = choices;
  draft->settings.n_sewing_choices = n;
}

static void
read_repeats (PfJsonReader *reader, JsonObject *object, PfDraft *draft)
{
  guint n;
  JsonArray *list = pf_json_list (reader, object, "repeats", &n);
  PfRepeatChoice *choices = g_new0 (PfRepeatChoice, MAX (n, 1));
  for (guint k = 0; k < n && !reader->error; k++)
    {
      JsonObject *one = pf_json_object (reader, json_array_get_element (list, k), repeat_keys);
      pf_json_two_ints (reader, one, "repeat", &choices[k].i, &choices[k].j);
      const int state = pf_json_word (reader, one, "state", pf_state_words, -1);
      if (state < 0)
        pf_json_fail (reader, _ ("“state” is missing."));
      choices[k].state = (PfRepeatState) (PF_REPEAT_KEPT + MAX (state, 0));
    }
  g_free ((void *) draft->settings.choices);
  draft->settings.choices = choices;
  draft->settings.n_choices = n;
}

static void
read_habits (PfJsonReader *reader, JsonObject *object, PfWorkingHabits *habits)
{
  JsonNode *node = pf_json_member (reader, object, "order");
  if (!node)
    return;
  JsonObject *order = pf_json_object (reader, node, order_keys);
  habits->right_first = pf_json_word (reader, order, "first", pf_first_words, 0) == 1;
  habits->by = (PfWorkBy) pf_json_word (reader, order, "by", pf_work_by_words, PF_WORK_BY_REPEAT);
  habits->sew_in_first = pf_json_word (reader, order, "sew_in", pf_sew_in_words, 0) == 1;
}

static void
read_settings (PfJsonReader *reader, JsonObject *object, PfFillingSettings *s)
{
  const double limit = PF_LIMIT_NUMBER;
  s->placement.gap = pf_json_number (reader, object, "gap", limit, s->placement.gap);
  s->placement.turn = pf_json_number (reader, object, "turn", limit, s->placement.turn);
  if (pf_json_member (reader, object, "origin"))
    {
      double origin[2];
      pf_json_numbers (reader, object, "origin", PF_LIMIT_MM, origin, 2);
      s->placement.origin = (PfPoint){ origin[0], origin[1] };
    }
  s->placement.mirror = pf_json_bool (reader, object, "mirror");
  s->placement.angle = pf_json_number (reader, object, "angle", limit, s->placement.angle);
  s->clearance = pf_json_number (reader, object, "clearance", limit, s->clearance);
  s->carry = pf_json_number (reader, object, "carry", limit, s->carry);
  s->reach = pf_json_number (reader, object, "reach", limit, s->reach);
  s->off_line = pf_json_number (reader, object, "off_line", limit, s->off_line);
  s->sewings_per_pinhole =
      pf_json_int (reader, object, "sewings_per_pinhole", s->sewings_per_pinhole);
  s->beads = (PfBeads) pf_json_word (reader, object, "beads", pf_beads_words, PF_BEADS_NONE);
  s->all_plain = pf_json_bool (reader, object, "all_plain");
  read_habits (reader, object, &s->habits);
}

static void
read_filling (PfJsonReader *reader, JsonObject *object, PfDraft *draft)
{
  JsonNode *node = pf_json_member (reader, object, "filling");
  if (!node)
    return;
  g_autofree char *motif = g_strdup (reader->where);
  pf_json_at (reader, g_strdup_printf (_ ("%s, filling"), motif));
  JsonObject *filling = pf_json_object (reader, node, filling_keys);
  read_settings (reader, filling, &draft->settings);
  read_repeats (reader, filling, draft);
  read_sewings (reader, filling, draft);
  if (!reader->error)
    pf_json_at (reader, g_strdup (motif));
}

/* --- Motifs --- */

static void
read_mirror (PfJsonReader *reader, JsonObject *object, PfDraft *draft)
{
  static const char *const own[] = { "curves", "ground", "filling", "thread" };
  for (size_t k = 0; k < G_N_ELEMENTS (own); k++)
    if (pf_json_member (reader, object, own[k]))
      pf_json_fail (reader,
                    _ ("“%s” can’t stand with “mirror_of”: a mirror image has those of "
                       "its original."),
                    own[k]);
  JsonNode *node = pf_json_member (reader, object, "axis");
  draft->mirror_of = g_strdup (pf_json_string (reader, object, "mirror_of", true));
  if (!node)
    pf_json_fail (reader, _ ("“axis” with “at” and “angle” is missing."));
  JsonObject *axis = node ? pf_json_object (reader, node, axis_keys) : NULL;
  double at[2];
  pf_json_numbers (reader, axis, "at", PF_LIMIT_MM, at, 2);
  draft->mirror_axis.at = (PfPoint){ at[0], at[1] };
  draft->mirror_axis.angle = pf_json_number (reader, axis, "angle", PF_LIMIT_NUMBER, 0);
}

PfDraft *
pf_draft_read (PfJsonReader *reader, JsonNode *node, guint n, GHashTable *grounds)
{
  pf_json_at (reader, g_strdup_printf (_ ("motif %u"), n + 1));
  JsonObject *object = pf_json_object (reader, node, draft_keys);
  const char *id = pf_json_string (reader, object, "id", true);
  const char *name = pf_json_string (reader, object, "name", false);
  PfDraft *draft = pf_draft_new (name ? name : "", NULL);
  pf_draft_set_notes (draft, pf_json_lines (reader, object, "notes"));
  g_free (draft->id);
  draft->id = g_strdup (id ? id : "");
  if (pf_json_member (reader, object, "mirror_of"))
    read_mirror (reader, object, draft);
  else
    {
      read_curves (reader, object, draft);
      read_ground (reader, object, draft, grounds);
      read_filling (reader, object, draft);
      pf_thread_use_read (reader, object, draft->ground, &draft->thread);
    }
  pf_pillow_read (reader, object, &draft->pillow);
  return draft;
}
