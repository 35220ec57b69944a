/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The pair-count report for people: what to wind, where each pair begins and ends, where to sew.
 */
#include "report.h"
#include "report-parts.h"
#include "report-thread.h"

#include <string.h>

#include <glib/gi18n-lib.h>

/* A line of a table: a label padded to a column by what it shows, not by its bytes, and a number.
 */
static void
append_count (GString *text, const char *label, size_t count)
{
  const glong width = g_utf8_strlen (label, -1);
  g_string_append_printf (text, "  %s%*s%7zu\n", label, (int) MAX (34 - width, 1), "", count);
}

static void
append_length (GString *text, const char *label, double mm)
{
  const glong width = g_utf8_strlen (label, -1);
  g_string_append_printf (text, "  %s%*s%7.1f\n", label, (int) MAX (34 - width, 1), "", mm);
}

static void
append_repeat_counts (GString *text, bool has_core, const PfCounts *c)
{
  append_count (text, _ ("Whole repeats"), c->whole);
  append_count (text, _ ("Partial repeats"), c->partial);
  if (has_core)
    {
      append_count (text, _ ("  kept, with their middle"), c->kept);
      append_count (text, _ ("  plain, without it"), c->plain);
    }
  append_count (text, _ ("Repeats left out"), c->left_out);
}

static void
append_counts (GString *text, bool has_core, const PfCounts *c)
{
  append_count (text, _ ("Stitches"), c->stitches);
  append_count (text, _ ("Pins"), c->pins);
  append_count (text, _ ("Beads"), c->beads);
  append_repeat_counts (text, has_core, c);
  append_count (text, _ ("New pairs (to wind)"), c->new_pairs);
  append_count (text, _ ("Turns of a pair at the edge"), c->turned);
  append_count (text, _ ("Carries of a pair along the edge"), c->carried);
  append_count (text, _ ("Pairs finished"), c->finished);
  append_count (text, _ ("Most pairs on the pillow at once"), c->most_at_once);
  append_length (text, _ ("Turned and carried pairs, along, mm"), c->carry_mm);
  append_count (text, _ ("Pair lines that leave"), c->leaving);
  append_count (text, _ ("Pair lines that enter"), c->entering);
  append_count (text, _ ("Sewings"), c->sewings);
  append_count (text, _ ("  into a pinhole"), c->at_pinhole);
  append_count (text, _ ("  round a bar"), c->round_bar);
  append_count (text, _ ("  off their line: look at these"), c->off_line);
  append_length (text, _ ("Moved from their targets, mm"), c->place_mm);
}

/* Appends `cell`, filled up to `width` characters and two more. */
static void
append_cell (GString *text, const char *cell, int width)
{
  const int shown = (int) g_utf8_strlen (cell, -1);
  g_string_append_printf (text, "%s%*s", cell, MAX (width - shown, 0) + 2, "");
}

static void
append_sewings (GString *text, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  if (filling->n_sewings == 0)
    return;
  g_string_append_printf (text, "\n%s\n", _ ("Sewings, in the order of work"));
  bool any_chosen = false;
  for (size_t s = 0; s < filling->n_sewings && !any_chosen; s++)
    any_chosen = filling->sewings[s].chosen;
  if (any_chosen)
    g_string_append_printf (text, "  %s\n", _ ("An asterisk marks what you chose yourself."));
  g_string_append (text, "  ");
  append_cell (text, _ ("No."), 5);
  append_cell (text, _ ("Pair"), 5);
  append_cell (text, _ ("Kind"), 10);
  append_cell (text, _ ("Place"), 20);
  append_cell (text, _ ("At (mm)"), 16);
  append_cell (text, _ ("Angle"), 6);
  g_string_append_printf (text, "%s\n", _ ("Stitch (repeat)"));
  for (size_t s = 0; s < filling->n_sewings; s++)
    {
      const PfSewing *sewing = &filling->sewings[s];
      g_autofree char *place = pf_sewing_place_words (motif, sewing);
      g_autofree char *stitch = pf_sewing_stitch_name (motif, sewing, _ (" and "));
      g_autofree char *at = g_strdup_printf ("%.1f, %.1f", sewing->at.x, sewing->at.y);
      g_autofree char *angle = g_strdup_printf (
          "%.0f°%s%s", sewing->angle, sewing->off_line ? " !" : "", sewing->chosen ? " *" : "");
      g_string_append_printf (text, "  %5zu  %5u  ", s + 1, sewing->pair + 1);
      append_cell (text, pf_pair_kind_word (sewing->kind), 10);
      append_cell (text, place, 20);
      append_cell (text, at, 16);
      append_cell (text, angle, 6);
      g_string_append_printf (text, "%s\n", stitch);
    }
}

static void
append_path (GString *text, const PfMotif *motif, size_t p)
{
  g_autofree char *way = pf_pair_way_words (motif, p);
  g_string_append_printf (text, "  %5zu  %s\n", p + 1, way);
}

static void
append_edges (GString *text, const PfMotif *motif)
{
  for (size_t l = 0; l < motif->region->n_loops; l++)
    {
      const PfEdge *edge = &motif->edges[l];
      const bool cloth = edge->kind == PF_EDGE_CLOTH_STITCH;
      if (l == 0)
        g_string_append_printf (text,
                                cloth ? _ ("  Cloth stitch edge, edge gap %g mm\n")
                                      : _ ("  Half stitch edge, edge gap %g mm\n"),
                                edge->gap);
      else if (edge->kind != motif->edges[0].kind || edge->gap != motif->edges[0].gap)
        g_string_append_printf (text, _ ("  Hole %zu: %s edge, edge gap %g mm\n"), l,
                                pf_edge_words_of (edge->kind), edge->gap);
      for (size_t s = 0; s < edge->n_stretches; s++)
        {
          const PfEdgeStretch *stretch = &edge->stretches[s];
          if (l == 0)
            g_string_append_printf (text, _ ("  From %.1f to %.1f mm along the outline: %s edge\n"),
                                    stretch->from, stretch->to, pf_edge_words_of (stretch->kind));
          else
            g_string_append_printf (text, _ ("  From %.1f to %.1f mm along hole %zu: %s edge\n"),
                                    stretch->from, stretch->to, l,
                                    pf_edge_words_of (stretch->kind));
        }
    }
}

/* What the maker chose herself, and what of it couldn't be. */
static void
append_choices (GString *text, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  for (size_t r = 0; r < filling->n_repeats; r++)
    if (pf_repeat_is_chosen (motif, &filling->repeats[r]))
      g_string_append_printf (text, _ ("  Your choice: repeat (%d, %d) is %s\n"),
                              filling->repeats[r].i, filling->repeats[r].j,
                              pf_repeat_state_words (filling->repeats[r].state));
  for (size_t u = 0; u < filling->n_unheeded; u++)
    g_string_append_printf (text, _ ("  A choice of yours wasn’t kept to: %s\n"),
                            filling->unheeded[u].why);
}

/* How steep the ground stands, where the maker changed it; how far apart its pins are along the
 * footside, where any lie so. */
static void
append_angle (GString *text, const PfGround *ground, const PfPlacement *placement)
{
  const double footside = pf_placement_footside (ground, *placement);
  if (placement->angle != 0)
    g_string_append_printf (
        text, _ ("  Its diagonals at %g degrees from the footside (drawn at %.3g degrees)\n"),
        placement->angle, pf_ground_angle (ground));
  if (footside > 0)
    g_string_append_printf (text, _ ("  Pins along the footside %.2f mm apart\n"), footside);
}

static void
append_motif (GString *text, const PfPricking *pricking, guint m, bool own_ground)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
  const PfFilling *filling = motif->filling;
  const PfPlacement *placement = &filling->placement;
  g_autofree char *heading = pf_report_motif_heading (pricking, m);
  pf_report_append_heading (text, heading, '-');
  if (own_ground)
    g_string_append_printf (text, _ ("  Ground: %s\n"), motif->ground->title);
  g_string_append_printf (
      text, _ ("  Ground’s origin at (%.2f, %.2f) mm, turned by %g degrees, gap %g mm\n"),
      placement->origin.x, placement->origin.y, placement->turn, placement->gap);
  append_angle (text, motif->ground, placement);
  append_edges (text, motif);
  append_counts (text, motif->ground->has_core, &filling->counts);
  for (size_t w = 0; w < filling->n_warnings; w++)
    g_string_append_printf (text, _ ("  Look: %s\n"), filling->warnings[w].text);
  append_choices (text, motif);
  pf_report_append_thread (text, motif);
  append_sewings (text, motif);
  if (filling->n_pairs > 0)
    g_string_append_printf (text, "\n%s\n", _ ("Each pair’s way: sewings and stitches (repeat)"));
  for (size_t p = 0; p < filling->n_pairs; p++)
    append_path (text, motif, p);
}

/* Bobbins, the winding list, and pairs that go on: as the other reports for people tell it. */
static void
append_winding (GString *text, const PfPricking *pricking)
{
  g_autoptr (PfReportParts) parts = pf_report_parts_empty ();
  pf_report_add_winding (parts, pricking);
  pf_report_parts_append_text (parts, text);
}

char *
pf_report_text (const PfPricking *pricking)
{
  GString *text = g_string_new (NULL);
  g_autofree char *title = pricking->title && *pricking->title
                               ? g_strdup_printf (_ ("Pair-count report: %s"), pricking->title)
                               : g_strdup (_ ("Pair-count report"));
  pf_report_append_heading (text, title, '=');
  const PfGround *ground = pf_pricking_ground (pricking);
  if (ground != NULL)
    g_string_append_printf (text, _ ("Ground: %s\n"), ground->title);
  g_string_append (
      text,
      _ ("Places in mm from the drawing’s top left; pinholes numbered along the outline from its "
         "first point; repeats as (i, j) from the ground’s origin.\n"));
  if (pricking->notes != NULL && *pricking->notes != '\0')
    g_string_append_printf (text, "\n%s\n%s\n", _ ("Notes"), pricking->notes);
  if (pricking->motifs->len > 1)
    {
      const PfCounts total = pf_pricking_counts (pricking);
      pf_report_append_heading (text, _ ("Whole piece"), '-');
      append_counts (text, pf_pricking_has_core (pricking), &total);
      pf_report_append_thread_total (text, pricking);
    }
  append_winding (text, pricking);
  for (guint m = 0; m < pricking->motifs->len; m++)
    append_motif (text, pricking, m, ground == NULL);
  g_string_append_printf (text, "\n%s\n", pf_report_care ());
  g_string_erase (text, 0, 1); /* the first heading needs no empty line before it */
  return g_string_free (text, FALSE);
}
