/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Motifs as they stand in a document's file. Every setting is written, also where it is the usual
 * one: another version's may differ.
 */
#include <math.h>

#include "document-file.h"

void
pf_json_put_limited (PfJsonWriter *writer, const char *key, double number, double limit)
{
  pf_json_put_number (writer, key, isnan (number) ? 0 : CLAMP (number, -limit, limit));
}

static void
put_point (PfJsonWriter *writer, const char *key, PfPoint p)
{
  pf_json_open_list (writer, key, false);
  pf_json_put_limited (writer, NULL, p.x, PF_LIMIT_MM);
  pf_json_put_limited (writer, NULL, p.y, PF_LIMIT_MM);
  pf_json_close (writer);
}

static void
write_stretch (PfJsonWriter *writer, const PfEdgeStretch *stretch)
{
  pf_json_open_object (writer, NULL, false);
  pf_json_put_limited (writer, "from", stretch->from, PF_LIMIT_ALONG);
  pf_json_put_limited (writer, "to", stretch->to, PF_LIMIT_ALONG);
  pf_json_put_text (writer, "kind", pf_edge_words[stretch->kind]);
  pf_json_close (writer);
}

static void
write_edge (PfJsonWriter *writer, const PfDraftEdge *edge)
{
  pf_json_open_object (writer, "edge", true);
  pf_json_put_text (writer, "kind", pf_edge_words[edge->kind]);
  pf_json_put_limited (writer, "gap", edge->gap, PF_LIMIT_NUMBER);
  if (!edge->even)
    {
      pf_json_open_list (writer, "pinholes", true);
      for (size_t k = 0; k < edge->n_pinholes; k++)
        pf_json_put_limited (writer, NULL, edge->pinholes[k], PF_LIMIT_ALONG);
      pf_json_close (writer);
    }
  if (edge->n_stretches > 0)
    {
      pf_json_open_list (writer, "stretches", true);
      for (size_t k = 0; k < edge->n_stretches; k++)
        write_stretch (writer, &edge->stretches[k]);
      pf_json_close (writer);
    }
  pf_json_close (writer);
}

static void
write_curves (PfJsonWriter *writer, const PfDraft *draft)
{
  pf_json_open_list (writer, "curves", true);
  for (size_t c = 0; c < draft->n_curves; c++)
    {
      pf_json_open_object (writer, NULL, true);
      pf_curve_write (writer, draft->curves[c]);
      write_edge (writer, &draft->edges[c]);
      pf_json_close (writer);
    }
  pf_json_close (writer);
}

static bool
comes_with_program (const PfGround *ground)
{
  g_autoptr (PfGround) own = ground->name && !g_str_has_suffix (ground->name, ".json")
                                 ? pf_ground_load (ground->name, NULL)
                                 : NULL;
  return own && pf_ground_equal (own, ground);
}

static void
write_ground (PfJsonWriter *writer, const PfDraft *draft)
{
  if (!draft->ground)
    return;
  if (!draft->ground_json && comes_with_program (draft->ground))
    pf_json_put_text (writer, "ground", draft->ground->name);
  else
    pf_ground_write (writer, "ground", draft->ground);
}

void
pf_line_write (PfJsonWriter *writer, const PfGround *ground, PfLineId line)
{
  pf_json_put_text (writer, "stitch", ground->stitches[line.stitch.k].name);
  pf_json_put_two (writer, "repeat", line.stitch.i, line.stitch.j);
  pf_json_put_text (
      writer, "side",
      pf_side_words[pf_side_name (ground->stitches[line.stitch.k].n_pairs, line.side)]);
  pf_json_put_bool (writer, "leaves", line.leaves);
}

static void
write_sewing (PfJsonWriter *writer, const PfGround *ground, const PfSewingChoice *choice)
{
  pf_json_open_object (writer, NULL, false);
  pf_line_write (writer, ground, choice->line);
  pf_json_put_text (writer, "choice", pf_choice_words[choice->kind]);
  if (choice->kind == PF_SEW_TURN)
    {
      pf_json_open_object (writer, "other", false);
      pf_line_write (writer, ground, choice->other);
      pf_json_close (writer);
    }
  if (choice->kind == PF_SEW_PINHOLE || choice->kind == PF_SEW_BAR)
    {
      pf_json_put_number (writer, "curve", (double) choice->place.loop);
      pf_json_put_limited (writer, "along", choice->place.along, PF_LIMIT_ALONG);
    }
  pf_json_close (writer);
}

static bool
has_line (const PfGround *ground, PfLineId line)
{
  const int k = line.stitch.k;
  return ground && k >= 0 && k < ground->n_stitches &&
         (int) line.side < ground->stitches[k].n_pairs;
}

static bool
is_of_ground (const PfSewingChoice *choice, const PfGround *ground)
{
  return has_line (ground, choice->line) &&
         (choice->kind != PF_SEW_TURN || has_line (ground, choice->other));
}

static void
write_choices (PfJsonWriter *writer, const PfDraft *draft)
{
  const PfFillingSettings *s = &draft->settings;
  pf_json_open_list (writer, "repeats", true);
  for (size_t k = 0; k < s->n_choices; k++)
    {
      pf_json_open_object (writer, NULL, false);
      pf_json_put_two (writer, "repeat", s->choices[k].i, s->choices[k].j);
      pf_json_put_text (writer, "state", pf_state_words[s->choices[k].state - PF_REPEAT_KEPT]);
      pf_json_close (writer);
    }
  pf_json_close (writer);
  pf_json_open_list (writer, "sewings", true);
  for (size_t k = 0; k < s->n_sewing_choices; k++)
    if (is_of_ground (&s->sewing_choices[k], draft->ground))
      write_sewing (writer, draft->ground, &s->sewing_choices[k]);
  pf_json_close (writer);
}

static void
write_settings (PfJsonWriter *writer, const PfDraft *draft)
{
  const PfFillingSettings *s = &draft->settings;
  pf_json_open_object (writer, "filling", true);
  pf_json_put_limited (writer, "gap", s->placement.gap, PF_LIMIT_NUMBER);
  pf_json_put_limited (writer, "turn", s->placement.turn, PF_LIMIT_NUMBER);
  put_point (writer, "origin", s->placement.origin);
  pf_json_put_bool (writer, "mirror", s->placement.mirror);
  pf_json_put_limited (writer, "angle", s->placement.angle, PF_LIMIT_NUMBER);
  pf_json_put_limited (writer, "clearance", s->clearance, PF_LIMIT_NUMBER);
  pf_json_put_limited (writer, "carry", s->carry, PF_LIMIT_NUMBER);
  pf_json_put_limited (writer, "reach", s->reach, PF_LIMIT_NUMBER);
  pf_json_put_limited (writer, "off_line", s->off_line, PF_LIMIT_NUMBER);
  pf_json_put_number (writer, "sewings_per_pinhole", s->sewings_per_pinhole);
  pf_json_put_text (writer, "beads", pf_beads_words[s->beads]);
  pf_json_put_bool (writer, "all_plain", s->all_plain);
  pf_json_open_object (writer, "order", false);
  pf_json_put_text (writer, "first", pf_first_words[s->habits.right_first]);
  pf_json_put_text (writer, "by", pf_work_by_words[s->habits.by]);
  pf_json_put_text (writer, "sew_in", pf_sew_in_words[s->habits.sew_in_first]);
  pf_json_close (writer);
  write_choices (writer, draft);
  pf_json_close (writer);
}

static void
write_mirror (PfJsonWriter *writer, const PfDraft *draft)
{
  pf_json_put_text (writer, "mirror_of", draft->mirror_of);
  pf_json_open_object (writer, "axis", false);
  put_point (writer, "at", draft->mirror_axis.at);
  pf_json_put_limited (writer, "angle", draft->mirror_axis.angle, PF_LIMIT_NUMBER);
  pf_json_close (writer);
}

void
pf_draft_write (PfJsonWriter *writer, const PfDraft *draft)
{
  pf_json_open_object (writer, NULL, true);
  pf_json_put_text (writer, "id", draft->id);
  pf_json_put_text (writer, "name", draft->name);
  pf_json_put_text (writer, "notes", draft->notes);
  if (draft->mirror_of)
    write_mirror (writer, draft);
  else
    {
      write_curves (writer, draft);
      write_ground (writer, draft);
      write_settings (writer, draft);
      pf_thread_use_write (writer, &draft->thread, draft->ground);
    }
  pf_pillow_write (writer, &draft->pillow);
  pf_json_close (writer);
}
