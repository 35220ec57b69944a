/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The thread of a motif in a document's file.
 */
#include <string.h>

#include <glib/gi18n-lib.h>

#include "document-file.h"

static const char *const thread_keys[] = {
  "name", "wraps_per_cm", "spare", "rule", "colours", NULL
};
static const char *const colour_keys[] = { "stitch",  "repeat", "side", "leaves",
                                           "bobbins", "colour", NULL };
static const char *const bobbin_words[] = { "left", "right", "both", NULL };

G_STATIC_ASSERT (PF_BOBBIN_LEFT == 1 && PF_BOBBIN_RIGHT == 2 && PF_BOBBIN_BOTH == 3);

/* A colour names a line of the ground: without one, or with another, it says nothing. */
static bool
is_of_ground (const PfThreadColour *colour, const PfGround *ground)
{
  const int k = colour->line.stitch.k;
  return ground && k >= 0 && k < ground->n_stitches &&
         (int) colour->line.side < ground->stitches[k].n_pairs;
}

void
pf_thread_use_write (PfJsonWriter *writer, const PfThreadUse *use, const PfGround *ground)
{
  pf_json_open_object (writer, "thread", true);
  pf_json_put_text (writer, "name", use->name);
  pf_json_put_limited (writer, "wraps_per_cm", use->wraps_per_cm, PF_LIMIT_NUMBER);
  pf_json_put_limited (writer, "spare", use->spare, PF_LIMIT_NUMBER);
  pf_json_put_two (writer, "rule", use->rule.from, use->rule.to);
  pf_json_open_list (writer, "colours", true);
  for (size_t c = 0; c < use->n_colours; c++)
    {
      const PfThreadColour *colour = &use->colours[c];
      if (!is_of_ground (colour, ground))
        continue;
      pf_json_open_object (writer, NULL, false);
      pf_line_write (writer, ground, colour->line);
      pf_json_put_text (writer, "bobbins", bobbin_words[colour->bobbins - 1]);
      pf_json_put_text (writer, "colour", colour->colour);
      pf_json_close (writer);
    }
  pf_json_close (writer);
  pf_json_close (writer);
}

static void
read_colour (PfJsonReader *reader, JsonNode *node, const PfGround *ground, PfThreadColour *colour)
{
  JsonObject *object = pf_json_object (reader, node, colour_keys);
  colour->line = pf_line_read (reader, object, ground);
  const int bobbins = pf_json_word (reader, object, "bobbins", bobbin_words, 2);
  colour->bobbins = (PfBobbins) (bobbins + 1);
  const char *text = pf_json_string (reader, object, "colour", true);
  if (text && strlen (text) >= sizeof colour->colour)
    pf_json_fail (reader, _ ("“%s” must be # and six digits or letters a to f."), "colour");
  else if (text)
    g_strlcpy (colour->colour, text, sizeof colour->colour);
}

void
pf_thread_use_read (PfJsonReader *reader, JsonObject *motif, const PfGround *ground,
                    PfThreadUse *use)
{
  JsonNode *node = pf_json_member (reader, motif, "thread");
  if (!node)
    return;
  g_autofree char *where = g_strdup (reader->where);
  pf_json_at (reader, g_strdup_printf (_ ("%s, thread"), where));
  JsonObject *object = pf_json_object (reader, node, thread_keys);
  g_free (use->name);
  use->name = g_strdup (pf_json_string (reader, object, "name", false));
  use->wraps_per_cm = pf_json_number (reader, object, "wraps_per_cm", PF_LIMIT_NUMBER, 0);
  use->spare = pf_json_number (reader, object, "spare", PF_LIMIT_NUMBER, use->spare);
  if (pf_json_member (reader, object, "rule"))
    {
      double rule[2];
      pf_json_numbers (reader, object, "rule", PF_LIMIT_NUMBER, rule, 2);
      use->rule = (PfFitRule){ rule[0], rule[1] };
    }
  guint n;
  JsonArray *list = pf_json_list (reader, object, "colours", &n);
  use->colours = g_new0 (PfThreadColour, MAX (n, 1));
  for (; use->n_colours < n && !reader->error; use->n_colours++)
    read_colour (reader, json_array_get_element (list, (guint) use->n_colours), ground,
                 &use->colours[use->n_colours]);
  if (!reader->error)
    pf_json_at (reader, g_strdup (where));
}
