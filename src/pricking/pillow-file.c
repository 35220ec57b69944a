/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is done and noted at the pillow in a document's file. Steps are told by names, which nobody
 * looks up here: a note may speak of a ground that the motif had before.
 */
#include <glib/gi18n-lib.h>

#include "document-file.h"

static const char *const pillow_keys[] = { "state", "at", "notes", NULL };
static const char *const step_keys[] = { "step", "ground", "stitch", "repeat",
                                         "side", "leaves", NULL };
static const char *const note_keys[] = { "step", "ground", "stitch", "repeat",
                                         "side", "leaves", "text",   NULL };

static void
put_step (PfJsonWriter *writer, const PfPillowStep *step)
{
  pf_json_put_text (writer, "step", pf_step_words[step->kind]);
  pf_json_put_text (writer, "ground", step->ground);
  pf_json_put_text (writer, "stitch", step->stitch);
  pf_json_put_two (writer, "repeat", step->i, step->j);
  if (step->kind == PF_WORK_STITCH)
    return;
  pf_json_put_text (writer, "side", pf_side_words[step->side]);
  pf_json_put_bool (writer, "leaves", step->leaves);
}

void
pf_pillow_write (PfJsonWriter *writer, const PfPillow *pillow)
{
  if (pillow->state == PF_PILLOW_NOT_BEGUN && pillow->n_notes == 0)
    return;
  pf_json_open_object (writer, "pillow", true);
  pf_json_put_text (writer, "state", pf_pillow_words[pillow->state]);
  if (pillow->state == PF_PILLOW_BEGUN)
    {
      pf_json_open_object (writer, "at", false);
      put_step (writer, &pillow->at);
      pf_json_close (writer);
    }
  pf_json_open_list (writer, "notes", true);
  for (size_t n = 0; n < pillow->n_notes; n++)
    {
      pf_json_open_object (writer, NULL, false);
      put_step (writer, &pillow->notes[n].step);
      pf_json_put_text (writer, "text", pillow->notes[n].text);
      pf_json_close (writer);
    }
  pf_json_close (writer);
  pf_json_close (writer);
}

static PfPillowStep
read_step (PfJsonReader *reader, JsonObject *object)
{
  PfPillowStep step = { .kind = PF_WORK_STITCH };
  const int kind = pf_json_word (reader, object, "step", pf_step_words, -1);
  if (kind < 0)
    pf_json_fail (reader, _ ("“step” is missing."));
  else
    step.kind = (PfWorkKind) kind;
  step.ground = g_strdup (pf_json_string (reader, object, "ground", false));
  step.stitch = g_strdup (pf_json_string (reader, object, "stitch", true));
  pf_json_two_ints (reader, object, "repeat", &step.i, &step.j);
  step.side = (PfSideName) pf_json_word (reader, object, "side", pf_side_words, PF_SIDE_LEFT);
  step.leaves = pf_json_bool (reader, object, "leaves");
  if (step.kind == PF_WORK_STITCH && (step.side != PF_SIDE_LEFT || step.leaves))
    pf_json_fail (reader, _ ("“side” and “leaves” can’t stand with the step “stitch”."));
  return step;
}

static void
read_notes (PfJsonReader *reader, JsonObject *object, PfPillow *pillow)
{
  guint n;
  JsonArray *list = pf_json_list (reader, object, "notes", &n);
  pillow->notes = g_new0 (PfPillowNote, MAX (n, 1));
  for (; pillow->n_notes < n && !reader->error; pillow->n_notes++)
    {
      JsonNode *node = json_array_get_element (list, (guint) pillow->n_notes);
      JsonObject *one = pf_json_object (reader, node, note_keys);
      const PfPillowStep step = read_step (reader, one);
      const char *text = pf_json_lines (reader, one, "text");
      if (text == NULL || *text == '\0')
        pf_json_fail (reader, _ ("A note at the pillow needs its “text”."));
      pillow->notes[pillow->n_notes] = (PfPillowNote){ step, g_strdup (text) };
    }
}

void
pf_pillow_read (PfJsonReader *reader, JsonObject *motif, PfPillow *pillow)
{
  JsonNode *node = pf_json_member (reader, motif, "pillow");
  if (!node)
    return;
  g_autofree char *where = g_strdup (reader->where);
  pf_json_at (reader, g_strdup_printf (_ ("%s, pillow"), where));
  JsonObject *object = pf_json_object (reader, node, pillow_keys);
  pillow->state =
      (PfPillowState) pf_json_word (reader, object, "state", pf_pillow_words, PF_PILLOW_NOT_BEGUN);
  JsonNode *at = pf_json_member (reader, object, "at");
  if ((pillow->state == PF_PILLOW_BEGUN) != (at != NULL))
    pf_json_fail (reader, _ ("“at” must name the next step, with the state “begun” alone."));
  else if (at)
    pillow->at = read_step (reader, pf_json_object (reader, at, step_keys));
  read_notes (reader, object, pillow);
  if (!reader->error)
    pf_json_at (reader, g_strdup (where));
}
