/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sewings as a table, one a line, in the order of work, and the winding list: CSV as in RFC
 * 4180, with points in numbers.
 */
#include "report.h"
#include "report-winding.h"

#include <string.h>

/* A field in quotes, its own quotes doubled, if it needs them. A spreadsheet must not take a
 * motif's name for a formula, so one that begins like a formula gets an apostrophe before it. */
static void
append_field (GString *csv, const char *text)
{
  const char *guard = strchr ("=+-@\t\r", text[0]) != NULL && text[0] != '\0' ? "'" : "";
  if (*guard == '\0' && strpbrk (text, ",\"\r\n") == NULL)
    {
      g_string_append (csv, text);
      return;
    }
  g_string_append_printf (csv, "\"%s", guard);
  for (const char *c = text; *c != '\0'; c++)
    {
      if (*c == '"')
        g_string_append_c (csv, '"');
      g_string_append_c (csv, *c);
    }
  g_string_append_c (csv, '"');
}

static void
append_number (GString *csv, double value)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  g_string_append_printf (csv, ",%s", g_ascii_formatd (number, sizeof number, "%.3f", value + 0.0));
}

static void
append_sewing (GString *csv, const PfMotif *motif, size_t s)
{
  const PfSewing *sewing = &motif->filling->sewings[s];
  g_autofree char *place = pf_sewing_place_name (motif, sewing);
  g_autofree char *stitch = pf_sewing_stitch_name (motif, sewing, " and ");
  g_string_append_printf (csv, "%zu,%s,%s,%u,", s + 1, place, pf_pair_kind_name (sewing->kind),
                          sewing->pair + 1);
  append_field (csv, stitch);
  append_number (csv, sewing->angle);
  g_string_append (csv, sewing->off_line ? ",yes," : ",no,");
  append_field (csv, motif->name);
  append_number (csv, sewing->at.x);
  append_number (csv, sewing->at.y);
  g_string_append (csv, "\r\n");
}

char *
pf_report_csv (const PfPricking *pricking)
{
  GString *csv =
      g_string_new ("number,place,kind,pair,stitch,angle_off_line,off_line,motif,x_mm,y_mm\r\n");
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      for (size_t s = 0; s < motif->filling->n_sewings; s++)
        append_sewing (csv, motif, s);
    }
  return g_string_free (csv, FALSE);
}

/* What isn't known, as no thread is chosen, stays empty. */
static void
append_length (GString *csv, const PfWindingGroup *group, double value)
{
  if (group->each > 0)
    append_number (csv, value);
  else
    g_string_append_c (csv, ',');
}

static void
append_group (GString *csv, const PfWindingGroup *group, bool several_motifs)
{
  g_autofree char *pairs = pf_winding_pairs_name (group, several_motifs);
  append_field (csv, group->thread->name);
  append_length (csv, group, group->thread->wraps_per_cm);
  g_string_append_printf (csv, ",%s,%u", group->colour ? group->colour : "", group->n_bobbins);
  append_length (csv, group, group->each);
  append_length (csv, group, pf_winding_group_length (group));
  append_length (csv, group, group->used);
  g_string_append_c (csv, ',');
  append_field (csv, pairs);
  g_string_append (csv, "\r\n");
}

char *
pf_report_winding_csv (const PfPricking *pricking)
{
  g_autoptr (PfWinding) winding = pf_winding_new (pricking);
  GString *csv =
      g_string_new ("thread,wraps_per_cm,colour,bobbins,each_mm,wind_mm,used_mm,pairs\r\n");
  for (guint g = 0; g < winding->groups->len; g++)
    append_group (csv, &g_array_index (winding->groups, PfWindingGroup, g),
                  pricking->motifs->len > 1);
  return g_string_free (csv, FALSE);
}
