/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pair-count report as JSON: totals at the top, and under `motifs` the same names for each
 * motif, with all that they were worked out from (placement, loops, edges) and all that they count
 * (pairs' paths, stitches in
 * working order, sewings with their crossings).
 */
#include "report.h"
#include "report-json.h"
#include "report-thread.h"

static void
add_counts (JsonBuilder *json, const PfCounts *c)
{
  add_count (json, "stitches", c->stitches);
  add_count (json, "pins", c->pins);
  add_count (json, "beads", c->beads);
  begin_member (json, "repeats");
  add_count (json, "whole", c->whole);
  add_count (json, "partial", c->partial);
  add_count (json, "kept", c->kept);
  add_count (json, "plain", c->plain);
  add_count (json, "left_out", c->left_out);
  json_builder_end_object (json);
  begin_member (json, "crossings");
  add_count (json, "leaving", c->leaving);
  add_count (json, "entering", c->entering);
  json_builder_end_object (json);
  begin_member (json, "pairs");
  add_count (json, "new", c->new_pairs);
  add_count (json, "turned", c->turned);
  add_count (json, "carried", c->carried);
  add_count (json, "finished", c->finished);
  add_count (json, "reused", c->reused);
  add_count (json, "most_at_once", c->most_at_once);
  json_builder_end_object (json);
  add_number (json, "carry_mm", c->carry_mm);
  begin_member (json, "sewings");
  add_count (json, "total", c->sewings);
  add_places (json, c->at_pinhole, c->round_bar, c->off_line);
  add_number (json, "place_mm", c->place_mm);
  json_builder_end_object (json);
}

static void
add_placement (JsonBuilder *json, const PfMotif *motif)
{
  static const char *const bead_words[] = { "none", "whole", "kept" };
  const PfFillingSettings *s = &motif->settings;
  begin_member (json, "placement");
  add_number (json, "gap", s->placement.gap);
  add_number (json, "turn", s->placement.turn);
  add_number (json, "angle",
              s->placement.angle != 0 ? s->placement.angle : pf_ground_angle (motif->ground));
  add_number (json, "footside_mm", pf_placement_footside (motif->ground, s->placement));
  add_point (json, "origin", s->placement.origin);
  add_number (json, "clearance", s->clearance);
  add_number (json, "carry", s->carry);
  add_number (json, "reach", s->reach);
  add_number (json, "off_line", s->off_line);
  add_count (json, "sewings_per_pinhole", (size_t) s->sewings_per_pinhole);
  json_builder_set_member_name (json, "mirror");
  json_builder_add_boolean_value (json, s->placement.mirror);
  add_string (json, "beads", bead_words[s->beads]);
  add_string (json, "partial", s->all_plain ? "plain" : "auto");
  add_string (json, "first", s->habits.right_first ? "right" : "left");
  add_string (json, "work_by", s->habits.by == PF_WORK_BY_ROW ? "row" : "repeat");
  add_string (json, "sew_in", s->habits.sew_in_first ? "first" : "as_needed");
  json_builder_end_object (json);
}

/* The numbers of a repeat. */
static void
add_repeat (JsonBuilder *json, int i, int j)
{
  begin_list (json, "repeat");
  json_builder_add_int_value (json, i);
  json_builder_add_int_value (json, j);
  json_builder_end_array (json);
}

static void
add_stitch (JsonBuilder *json, const PfMotif *motif, PfStitchId id)
{
  add_string (json, "stitch", motif->ground->stitches[id.k].name);
  add_repeat (json, id.i, id.j);
}

/* The side of a stitch of so many pairs. */
static void
add_side (JsonBuilder *json, unsigned n_sides, unsigned side)
{
  static const char *const names[] = { "left", "inner left", "inner right", "right" };
  add_string (json, "side", names[pf_side_name ((int) n_sides, (PfSide) side)]);
}

static void
add_pairs (JsonBuilder *json, unsigned n_sides, const PfWorkedEnd *ends)
{
  static const char *const names[] = { "left_pair", "inner_left_pair", "inner_right_pair",
                                       "right_pair" };
  for (unsigned side = 0; side < n_sides; side++)
    add_count (json, names[pf_side_name ((int) n_sides, (PfSide) side)], ends[side].pair + 1);
}

static void
add_step (JsonBuilder *json, const PfMotif *motif, PfPathStep step)
{
  const PfFilling *filling = motif->filling;
  json_builder_begin_object (json);
  if (step.kind == PF_STEP_SEWING)
    {
      add_count (json, "sewing", step.index + 1);
      add_point (json, "at", filling->sewings[step.index].at);
    }
  else
    {
      add_stitch (json, motif, filling->stitches[step.index].id);
      add_side (json, filling->stitches[step.index].n_sides, step.side);
      add_point (json, "at", filling->stitches[step.index].at);
    }
  json_builder_end_object (json);
}

static void
add_paths (JsonBuilder *json, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  begin_list (json, "paths");
  for (size_t p = 0; p < filling->n_pairs; p++)
    {
      const PfPair *pair = &filling->pairs[p];
      json_builder_begin_object (json);
      add_count (json, "pair", p + 1);
      begin_list (json, "steps");
      for (size_t s = 0; s < pair->n_steps; s++)
        add_step (json, motif, filling->path_steps[pair->first_step + s]);
      json_builder_end_array (json);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

/* The stitches in working order. */
static void
add_worked (JsonBuilder *json, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  g_autofree bool *beaded = g_new0 (bool, filling->n_stitches);
  for (size_t b = 0; b < filling->counts.beads; b++)
    beaded[filling->beads[b]] = true;
  begin_list (json, "worked");
  for (size_t n = 0; n < filling->n_stitches; n++)
    {
      const PfWorkedStitch *stitch = &filling->stitches[filling->order[n]];
      json_builder_begin_object (json);
      add_stitch (json, motif, stitch->id);
      add_string (json, "work", pf_filling_work (filling, motif->ground, stitch));
      add_point (json, "at", stitch->at);
      add_pairs (json, stitch->n_sides, pf_worked_ends (filling, stitch));
      add_flag (json, "bead", beaded[filling->order[n]]);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

/* The stitch a sewing ends or begins at: for a turned pair, both. */
static void
add_sewn_stitch (JsonBuilder *json, const char *name, const PfMotif *motif, guint32 crossing)
{
  const PfFilling *filling = motif->filling;
  if (crossing == PF_NONE)
    return;
  begin_member (json, name);
  add_stitch (json, motif, filling->stitches[filling->crossings[crossing].stitch].id);
  add_side (json, filling->stitches[filling->crossings[crossing].stitch].n_sides,
            filling->crossings[crossing].side);
  add_point (json, "crosses_at", filling->crossings[crossing].at);
  json_builder_end_object (json);
}

static void
add_sewings (JsonBuilder *json, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  begin_list (json, "sewn");
  for (size_t s = 0; s < filling->n_sewings; s++)
    {
      const PfSewing *sewing = &filling->sewings[s];
      json_builder_begin_object (json);
      add_count (json, "number", s + 1);
      add_string (json, "kind", pf_pair_kind_name (sewing->kind));
      add_count (json, "pair", sewing->pair + 1);
      add_count (json, "loop", sewing->place.loop);
      add_number (json, "along", sewing->place.along);
      if (sewing->pinhole != PF_NONE)
        add_count (json, "pinhole", sewing->pinhole + 1);
      add_point (json, "at", sewing->at);
      add_point (json, "target", sewing->target_at);
      add_number (json, "distance", sewing->distance);
      add_number (json, "angle", sewing->angle);
      add_flag (json, "chosen", sewing->chosen);
      add_sewn_stitch (json, "leaves", motif, sewing->leaving);
      add_sewn_stitch (json, "enters", motif, sewing->entering);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

static const char *
state_name (PfRepeatState state)
{
  static const char *const names[] = { "whole", "partial", "kept", "plain", "left_out" };
  return names[state];
}

static const char *
warning_name (PfWarningKind kind)
{
  static const char *const names[] = { "nothing_fits", "lone_stitch", "core_dropped", "narrow",
                                       "crowded_edge" };
  return names[kind];
}

static void
add_repeats (JsonBuilder *json, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  begin_list (json, "repeat_states");
  for (size_t r = 0; r < filling->n_repeats; r++)
    {
      const PfRepeat *repeat = &filling->repeats[r];
      json_builder_begin_object (json);
      add_repeat (json, repeat->i, repeat->j);
      add_string (json, "state", state_name (repeat->state));
      add_flag (json, "chosen", pf_repeat_is_chosen (motif, repeat));
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

static void
add_warnings (JsonBuilder *json, const PfFilling *filling)
{
  begin_list (json, "warnings");
  for (size_t w = 0; w < filling->n_warnings; w++)
    {
      json_builder_begin_object (json);
      add_string (json, "kind", warning_name (filling->warnings[w].kind));
      add_string (json, "text", filling->warnings[w].text);
      add_point (json, "at", filling->warnings[w].at);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

/* The sides of the stitch that a choice names: a choice may have been made for another ground. */
static unsigned
n_sides_of (const PfGround *ground, PfLineId line)
{
  const bool known = line.stitch.k >= 0 && line.stitch.k < ground->n_stitches;
  const int n = known ? ground->stitches[line.stitch.k].n_pairs : 2;
  return (int) line.side < n ? (unsigned) n : PF_STITCH_MAX_PAIRS;
}

/* Choices that couldn't be kept to. */
static void
add_unheeded (JsonBuilder *json, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  begin_list (json, "unheeded");
  for (size_t u = 0; u < filling->n_unheeded; u++)
    {
      const PfUnheeded *unheeded = &filling->unheeded[u];
      json_builder_begin_object (json);
      add_string (json, "of", unheeded->of_sewing ? "sewing" : "repeat");
      if (unheeded->of_sewing)
        {
          const PfLineId line = motif->settings.sewing_choices[unheeded->index].line;
          add_count (json, "stitch_number", (size_t) line.stitch.k + 1);
          add_repeat (json, line.stitch.i, line.stitch.j);
          add_side (json, n_sides_of (motif->ground, line), line.side);
          add_string (json, "way", line.leaves ? "leaves" : "enters");
        }
      else
        add_repeat (json, motif->settings.choices[unheeded->index].i,
                    motif->settings.choices[unheeded->index].j);
      add_string (json, "why", unheeded->why);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

static void
add_bobbins (JsonBuilder *json, const PfMotif *motif, const PfThreadNeeds *needs)
{
  static const char *const lengths[] = { "left_mm", "right_mm" };
  static const char *const names[] = { "left_colour", "right_colour" };
  g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
  begin_list (json, "bobbins");
  for (size_t p = 0; p < motif->filling->n_pairs; p++)
    {
      json_builder_begin_object (json);
      add_count (json, "pair", p + 1);
      for (size_t bobbin = 0; bobbin < 2; bobbin++)
        add_number (json, lengths[bobbin], needs->bobbins[2 * p + bobbin]);
      for (size_t bobbin = 0; bobbin < 2; bobbin++)
        if (colours[2 * p + bobbin] != NULL)
          add_string (json, names[bobbin], colours[2 * p + bobbin]);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

/* Nothing if the thread isn't chosen. */
static void
add_thread (JsonBuilder *json, const PfMotif *motif)
{
  PfThreadNeeds needs;
  if (!pf_thread_needs (&needs, motif))
    return;
  const PfThreadUse *use = &motif->thread;
  begin_member (json, "thread");
  add_string (json, "name", use->name);
  add_number (json, "wraps_per_cm", use->wraps_per_cm);
  add_number (json, "spare_mm", use->spare);
  add_string (json, "fit",
              pf_fit_name (pf_fit_judge (motif->ground, motif->filling->placement,
                                         use->wraps_per_cm, use->rule)));
  add_number (json, "total_mm", needs.total);
  add_bobbins (json, motif, &needs);
  json_builder_end_object (json);
  pf_thread_needs_clear (&needs);
}

static void
add_motif (JsonBuilder *json, const PfMotif *motif, bool own_ground)
{
  json_builder_begin_object (json);
  add_string (json, "name", motif->name);
  if (own_ground)
    add_string (json, "ground", motif->ground->name);
  add_counts (json, &motif->filling->counts);
  add_placement (json, motif);
  pf_report_json_edges (json, motif);
  add_paths (json, motif);
  add_worked (json, motif);
  add_sewings (json, motif);
  add_repeats (json, motif);
  add_warnings (json, motif->filling);
  add_unheeded (json, motif);
  add_thread (json, motif);
  json_builder_end_object (json);
}

char *
pf_report_json (const PfPricking *pricking)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  const PfCounts total = pf_pricking_counts (pricking);
  const PfGround *ground = pf_pricking_ground (pricking);
  json_builder_begin_object (json);
  add_string (json, "format", "pinfold-report");
  add_count (json, "version", 1);
  add_string (json, "title", pricking->title);
  if (pricking->notes != NULL && *pricking->notes != '\0')
    add_string (json, "notes", pricking->notes);
  if (ground != NULL)
    add_string (json, "ground", ground->name);
  add_counts (json, &total);
  pf_report_json_winding (json, pricking);
  begin_list (json, "motifs");
  for (guint m = 0; m < pricking->motifs->len; m++)
    add_motif (json, g_ptr_array_index (pricking->motifs, m), ground == NULL);
  json_builder_end_array (json);
  json_builder_end_object (json);

  g_autoptr (JsonNode) root = json_builder_get_root (json);
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  json_generator_set_root (generator, root);
  json_generator_set_pretty (generator, pf_report_is_small (pricking));
  json_generator_set_indent (generator, 1);
  g_autofree char *text = json_generator_to_data (generator, NULL);
  return g_strconcat (text, "\n", NULL);
}
