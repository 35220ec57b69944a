/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The loops and edges of a motif as JSON: the outline is loop 0, holes follow.
 */
#include "report-json.h"
#include "report-stretches.h"

static const char *
edge_name (PfEdgeKind kind)
{
  return kind == PF_EDGE_CLOTH_STITCH ? "cloth" : "half";
}

/* Begins an object: a stretch of one kind. */
static void
begin_stretch (JsonBuilder *json, double from, double to, PfEdgeKind kind)
{
  json_builder_begin_object (json);
  add_number (json, "from", from);
  add_number (json, "to", to);
  add_string (json, "kind", edge_name (kind));
}

static void
add_edge (JsonBuilder *json, const PfEdge *edge)
{
  json_builder_begin_object (json);
  add_string (json, "kind", edge_name (edge->kind));
  add_number (json, "gap", edge->gap);
  begin_list (json, "pinholes");
  for (size_t p = 0; p < edge->n_pinholes; p++)
    json_builder_add_double_value (json, edge->pinholes[p]);
  json_builder_end_array (json);
  begin_list (json, "stretches");
  for (size_t s = 0; s < edge->n_stretches; s++)
    {
      begin_stretch (json, edge->stretches[s].from, edge->stretches[s].to, edge->stretches[s].kind);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
  json_builder_end_object (json);
}

static void
add_loop (JsonBuilder *json, const PfLoop *loop)
{
  json_builder_begin_array (json);
  for (size_t p = 0; p < loop->n_points; p++)
    add_point_value (json, loop->points[p]);
  json_builder_end_array (json);
}

static void
add_counted (JsonBuilder *json, const PfStretchCount *c)
{
  begin_stretch (json, c->from, c->to, c->kind);
  add_count (json, "loop", c->loop);
  add_count (json, "pinholes", c->n_pinholes);
  add_places (json, c->at_pinhole, c->round_bar, c->off_line);
  json_builder_end_object (json);
}

void
pf_report_json_edges (JsonBuilder *json, const PfMotif *motif)
{
  begin_list (json, "loops");
  for (size_t l = 0; l < motif->region->n_loops; l++)
    add_loop (json, &motif->region->loops[l]);
  json_builder_end_array (json);
  begin_list (json, "edges");
  for (size_t l = 0; l < motif->region->n_loops; l++)
    add_edge (json, &motif->edges[l]);
  json_builder_end_array (json);
  g_autoptr (GArray) counts = pf_stretch_counts (motif);
  begin_list (json, "stretches");
  for (guint i = 0; i < counts->len; i++)
    add_counted (json, &g_array_index (counts, PfStretchCount, i));
  json_builder_end_array (json);
}
