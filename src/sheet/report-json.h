/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Private to the JSON report: members, put one by one.
 */
#pragma once

#include <json-glib/json-glib.h>

#include <pricking.h>

G_BEGIN_DECLS

static inline void
add_count (JsonBuilder *json, const char *name, size_t count)
{
  json_builder_set_member_name (json, name);
  json_builder_add_int_value (json, (gint64) count);
}

static inline void
add_number (JsonBuilder *json, const char *name, double value)
{
  json_builder_set_member_name (json, name);
  json_builder_add_double_value (json, value);
}

static inline void
add_string (JsonBuilder *json, const char *name, const char *value)
{
  json_builder_set_member_name (json, name);
  json_builder_add_string_value (json, value);
}

/* What is false goes without saying. */
static inline void
add_flag (JsonBuilder *json, const char *name, bool set)
{
  if (!set)
    return;
  json_builder_set_member_name (json, name);
  json_builder_add_boolean_value (json, TRUE);
}

static inline void
begin_member (JsonBuilder *json, const char *name)
{
  json_builder_set_member_name (json, name);
  json_builder_begin_object (json);
}

static inline void
begin_list (JsonBuilder *json, const char *name)
{
  json_builder_set_member_name (json, name);
  json_builder_begin_array (json);
}

static inline void
add_point_value (JsonBuilder *json, PfPoint p)
{
  json_builder_begin_array (json);
  json_builder_add_double_value (json, p.x);
  json_builder_add_double_value (json, p.y);
  json_builder_end_array (json);
}

static inline void
add_point (JsonBuilder *json, const char *name, PfPoint p)
{
  json_builder_set_member_name (json, name);
  add_point_value (json, p);
}

static inline void
add_places (JsonBuilder *json, size_t at_pinhole, size_t round_bar, size_t off_line)
{
  add_count (json, "at_pinhole", at_pinhole);
  add_count (json, "round_bar", round_bar);
  add_count (json, "off_line", off_line);
}

/* report-json-winding.c: the members that tell what to wind, of the whole piece. */
void pf_report_json_winding (JsonBuilder *json, const PfPricking *pricking);
/* report-json-edge.c: the loops of a motif, their edges as they were set, and their stretches of
 * one kind with what is sewn there. */
void pf_report_json_edges (JsonBuilder *json, const PfMotif *motif);

G_END_DECLS
