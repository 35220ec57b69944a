/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What to wind, and which pairs go on from motif to motif, as JSON. Motifs and pairs are numbered
 * from 1.
 */
#include "report-json.h"
#include "report-winding.h"

static void
add_bobbins (JsonBuilder *json, const PfPricking *pricking, size_t n_handed)
{
  const PfCounts total = pf_pricking_counts (pricking);
  begin_member (json, "bobbins");
  add_count (json, "to_wind", 2 * total.new_pairs);
  add_count (json, "to_wind_handed_on", 2 * (total.new_pairs - n_handed));
  add_count (json, "most_at_once", 2 * total.most_at_once);
  json_builder_end_object (json);
}

static void
add_wound_pair (JsonBuilder *json, const PfWoundPair *wound)
{
  static const char *const names[] = {
    [PF_BOBBIN_LEFT] = "left", [PF_BOBBIN_RIGHT] = "right", [PF_BOBBIN_BOTH] = "both"
  };
  json_builder_begin_object (json);
  add_count (json, "motif", wound->motif + 1);
  add_count (json, "pair", wound->pair + 1);
  add_string (json, "bobbins", names[wound->bobbins]);
  json_builder_end_object (json);
}

static void
add_group (JsonBuilder *json, const PfWindingGroup *group)
{
  json_builder_begin_object (json);
  add_count (json, "bobbins", group->n_bobbins);
  if (group->colour != NULL)
    add_string (json, "colour", group->colour);
  if (group->each > 0)
    {
      add_string (json, "thread", group->thread->name);
      add_number (json, "wraps_per_cm", group->thread->wraps_per_cm);
      add_number (json, "each_mm", group->each);
      add_number (json, "wind_mm", pf_winding_group_length (group));
      add_number (json, "used_mm", group->used);
    }
  begin_list (json, "pairs");
  for (guint p = 0; p < group->pairs->len; p++)
    add_wound_pair (json, &g_array_index (group->pairs, PfWoundPair, p));
  json_builder_end_array (json);
  json_builder_end_object (json);
}

static void
add_handed_on (JsonBuilder *json, const GArray *handed)
{
  begin_list (json, "pairs_handed_on");
  for (guint i = 0; i < handed->len; i++)
    {
      const PfHandedOn *one = &g_array_index (handed, PfHandedOn, i);
      json_builder_begin_object (json);
      add_count (json, "from_motif", one->from_motif + 1);
      add_count (json, "from_pair", one->from_pair + 1);
      add_count (json, "to_motif", one->to_motif + 1);
      add_count (json, "to_pair", one->to_pair + 1);
      begin_list (json, "bobbins");
      for (int b = 0; b < 2; b++)
        {
          json_builder_begin_object (json);
          add_count (json, "pair", one->bobbins[b] / 2 + 1);
          add_string (json, "side", one->bobbins[b] % 2 == 0 ? "left" : "right");
          json_builder_end_object (json);
        }
      json_builder_end_array (json);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

void
pf_report_json_winding (JsonBuilder *json, const PfPricking *pricking)
{
  g_autoptr (PfWinding) winding = pf_winding_new (pricking);
  g_autoptr (GArray) handed = pf_pairs_handed_on (pricking);
  add_bobbins (json, pricking, handed->len);
  begin_list (json, "winding");
  for (guint g = 0; g < winding->groups->len; g++)
    add_group (json, &g_array_index (winding->groups, PfWindingGroup, g));
  json_builder_end_array (json);
  add_handed_on (json, handed);
}
