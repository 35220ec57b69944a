/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Grounds written as JSON: what pf_ground_parse() reads.
 */
#include "document-file.h"

static const char *
or_else (const char *text, const char *other)
{
  return text && *text ? text : other;
}

static void
write_usual (PfJsonWriter *writer, const PfUsualGap *usual)
{
  pf_json_open_object (writer, "usual", false);
  if (usual->thread && *usual->thread)
    pf_json_put_text (writer, "thread", usual->thread);
  if (usual->wraps_per_cm > 0)
    pf_json_put_number (writer, "wraps_per_cm", usual->wraps_per_cm);
  pf_json_put_number (writer, "gap_mm", usual->gap_mm);
  pf_json_put_text (writer, "source", or_else (usual->source, "Our own."));
  pf_json_close (writer);
}

static void
write_about (PfJsonWriter *writer, const PfGround *ground)
{
  pf_json_put_text (writer, "format", "pinfold-ground");
  pf_json_put_number (writer, "version", 1);
  pf_json_put_text (writer, "name", ground->name);
  pf_json_put_text (writer, "title", or_else (ground->title, ground->name));
  pf_json_open_list (writer, "also_called", false);
  for (char **name = ground->also_called; name && *name; name++)
    pf_json_put_text (writer, NULL, *name);
  pf_json_close (writer);
  pf_json_put_text (writer, "family", or_else (ground->family, ground->name));
  pf_json_put_text (writer, "used_for", or_else (ground->used_for, ""));
  pf_json_put_text (writer, "source", or_else (ground->source, "Common practice."));
  pf_json_put_text (writer, "notes", or_else (ground->notes, ""));
  if (ground->usual.gap_mm > 0)
    write_usual (writer, &ground->usual);
  pf_json_open_object (writer, "repeat", false);
  pf_json_put_two (writer, "a", ground->a.x, ground->a.y);
  pf_json_put_two (writer, "b", ground->b.x, ground->b.y);
  pf_json_close (writer);
}

static void
write_stitch (PfJsonWriter *writer, const PfGround *ground, const PfStitch *stitch)
{
  pf_json_open_object (writer, NULL, false);
  pf_json_put_text (writer, "name", stitch->name);
  pf_json_put_two (writer, "at", stitch->at.x, stitch->at.y);
  pf_json_put_text (writer, "work", stitch->work);
  if (stitch->n_pairs != 2)
    pf_json_put_number (writer, "pairs", stitch->n_pairs);
  if (stitch->closes >= 0)
    pf_json_put_text (writer, "closes", ground->stitches[stitch->closes].name);
  if (stitch->core)
    pf_json_put_bool (writer, "core", true);
  if (stitch->bead)
    pf_json_put_bool (writer, "bead", true);
  pf_json_close (writer);
}

static void
write_end (PfJsonWriter *writer, const char *key, const PfGround *ground, PfEnd end)
{
  static const char *const sides[] = { "L", "IL", "IR", "R" }; /* of PfSideName */
  const PfStitch *stitch = &ground->stitches[end.stitch];
  g_autofree char *text =
      g_strdup_printf ("%s.%s", stitch->name, sides[pf_side_name (stitch->n_pairs, end.side)]);
  pf_json_put_text (writer, key, text);
}

static void
write_line (PfJsonWriter *writer, const PfGround *ground, const PfPairLine *line)
{
  pf_json_open_object (writer, NULL, false);
  write_end (writer, "from", ground, line->from);
  write_end (writer, "to", ground, line->to);
  if (line->da != 0 || line->db != 0)
    pf_json_put_two (writer, "repeat", line->da, line->db);
  if (line->twists != 0)
    pf_json_put_number (writer, "twists", line->twists);
  pf_json_close (writer);
}

void
pf_ground_write (PfJsonWriter *writer, const char *key, const PfGround *ground)
{
  pf_json_open_object (writer, key, true);
  write_about (writer, ground);
  pf_json_open_list (writer, "stitches", true);
  for (int k = 0; k < ground->n_stitches; k++)
    write_stitch (writer, ground, &ground->stitches[k]);
  pf_json_close (writer);
  pf_json_open_list (writer, "pair_lines", true);
  for (int e = 0; e < ground->n_lines; e++)
    write_line (writer, ground, &ground->lines[e]);
  pf_json_close (writer);
  pf_json_close (writer);
}

char *
pf_ground_to_json (const PfGround *ground, gsize *n)
{
  PfJsonWriter writer;
  pf_json_writer_init (&writer);
  pf_ground_write (&writer, NULL, ground);
  gsize length;
  char *json = pf_json_writer_end (&writer, &length);
  if (n)
    *n = length;
  return json;
}
