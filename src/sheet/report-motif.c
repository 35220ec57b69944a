/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a report says of one motif: how its ground lies, what it counts, its edge stretch by
 * stretch, its thread, what to look at, what the maker chose, and every sewing.
 */
#include "report-parts.h"
#include "report-stretches.h"
#include "report-thread.h"

#include <glib/gi18n-lib.h>

#include "layers.h"
#include "report.h"

static void G_GNUC_PRINTF (3, 4)
    add_row (PfReportTable *table, const char *label, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *value = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  pf_report_cell (table, "%s", label);
  pf_report_cell (table, "%s", value);
}

/* --- Placement ----------------------------------------------------------------------------------
 */

static const char *
beads_words (PfBeads beads)
{
  switch (beads)
    {
    case PF_BEADS_WHOLE:
      return _ ("in whole repeats");
    case PF_BEADS_KEPT:
      return _ ("in whole and kept repeats");
    default:
      return C_ ("beads", "none");
    }
}

static void
add_angle (PfReportTable *table, const PfGround *ground, const PfPlacement *placement)
{
  const double drawn = pf_ground_angle (ground);
  const double footside = pf_placement_footside (ground, *placement);
  if (placement->angle != 0)
    add_row (table, _ ("Its diagonals from the footside"), _ ("%g° (drawn at %.3g°)"),
             placement->angle, drawn);
  else if (drawn > 0)
    add_row (table, _ ("Its diagonals from the footside"), _ ("%.3g°, as drawn"), drawn);
  if (footside > 0)
    add_row (table, _ ("From pin to pin along the footside"), _ ("%.2f mm"), footside);
}

static void
add_habits (PfReportTable *table, PfWorkingHabits habits)
{
  add_row (table, _ ("Worked first"), "%s", habits.right_first ? _ ("The right") : _ ("The left"));
  add_row (table, _ ("Way of working"), "%s",
           habits.by == PF_WORK_BY_ROW ? _ ("In diagonal rows") : _ ("Repeat by repeat"));
  add_row (table, _ ("Pairs are sewn in"), "%s",
           habits.sew_in_first ? _ ("All of them first") : _ ("As they are needed"));
}

static void
add_placement (PfReportParts *parts, const PfMotif *motif)
{
  const PfFillingSettings *s = &motif->settings;
  const PfPlacement *p = &motif->filling->placement;
  pf_report_heading (parts, 3, _ ("How the ground lies"));
  PfReportTable *table = pf_report_table (parts, NULL, "ww", NULL);
  add_row (table, _ ("Ground"), "%s", motif->ground->title);
  add_row (table, _ ("Its origin, from the drawing’s top left"), _ ("%.2f mm across, %.2f mm down"),
           p->origin.x, p->origin.y);
  add_row (table, _ ("Turned clockwise"), _ ("%g°"), p->turn);
  add_row (table, _ ("Mirrored, left to right"), "%s", p->mirror ? _ ("yes") : _ ("no"));
  add_row (table, _ ("Gap, between the nearest pins"), _ ("%g mm"), p->gap);
  add_angle (table, motif->ground, p);
  add_row (table, _ ("Least distance of a stitch from the edge"), _ ("%g × the gap: %g mm"),
           s->clearance, s->clearance * p->gap);
  add_row (table, _ ("Farthest a pair is carried along the edge"), _ ("%g × the gap: %g mm"),
           s->carry, s->carry * p->gap);
  add_row (table, _ ("Farthest a sewing moves to a pinhole"), _ ("%g × the edge gap"), s->reach);
  add_row (table, _ ("A sewing is off its line by more than"), _ ("%g°"), s->off_line);
  add_row (table, _ ("Most sewings in a pinhole"), "%d", s->sewings_per_pinhole);
  add_row (table, _ ("Beads"), "%s", beads_words (s->beads));
  add_habits (table, motif->filling->habits);
  if (motif->ground->has_core)
    add_row (table, _ ("Repeats cut by the edge"), "%s",
             s->all_plain ? _ ("all worked plain") : _ ("their middle kept where it can be"));
}

/* --- Counts and edge ----------------------------------------------------------------------------
 */

static void
add_counts (PfReportParts *parts, const PfMotif *motif)
{
  const PfCounts *c = &motif->filling->counts;
  pf_report_heading (parts, 3, _ ("Counts"));
  PfReportTable *table = pf_report_table (parts, NULL, "wn", NULL);
  add_row (table, _ ("New pairs (to wind)"), "%zu", c->new_pairs);
  add_row (table, _ ("Turns of a pair at the edge"), "%zu", c->turned);
  add_row (table, _ ("Carries of a pair along the edge"), "%zu", c->carried);
  add_row (table, _ ("Pairs finished"), "%zu", c->finished);
  add_row (table, _ ("Most pairs on the pillow at once"), "%zu", c->most_at_once);
  add_row (table, _ ("Turned and carried pairs, along, mm"), "%.1f", c->carry_mm);
  add_row (table, _ ("Stitches"), "%zu", c->stitches);
  add_row (table, _ ("Pins"), "%zu", c->pins);
  add_row (table, _ ("Beads"), "%zu", c->beads);
  add_row (table, _ ("Whole repeats"), "%zu", c->whole);
  add_row (table, _ ("Partial repeats"), "%zu", c->partial);
  if (motif->ground->has_core)
    {
      add_row (table, _ ("Partial repeats kept, with their middle"), "%zu", c->kept);
      add_row (table, _ ("Partial repeats plain, without it"), "%zu", c->plain);
    }
  add_row (table, _ ("Repeats left out"), "%zu", c->left_out);
  add_row (table, _ ("Sewings"), "%zu", c->sewings);
  add_row (table, _ ("Sewings into a pinhole"), "%zu", c->at_pinhole);
  add_row (table, _ ("Sewings round a bar"), "%zu", c->round_bar);
  add_row (table, _ ("Sewings off their line"), "%zu", c->off_line);
  add_row (table, _ ("Moved from their targets, mm"), "%.1f", c->place_mm);
}

static char *
loop_words (size_t loop)
{
  return loop == 0 ? g_strdup (_ ("outline")) : g_strdup_printf (_ ("hole %zu"), loop);
}

static void
add_edge (PfReportParts *parts, const PfMotif *motif)
{
  const char *const heads[] = { _ ("Edge"),           _ ("Kind"),        _ ("From, mm"),
                                _ ("To, mm"),         _ ("Pinholes"),    _ ("Sewings"),
                                _ ("into a pinhole"), _ ("round a bar"), _ ("off their line") };
  g_autoptr (GArray) counts = pf_stretch_counts (motif);
  pf_report_heading (parts, 3, _ ("Sewings along the edge"));
  PfReportTable *table = pf_report_table (parts, NULL, "wwnnnnnnn", heads);
  for (guint i = 0; i < counts->len; i++)
    {
      const PfStretchCount *c = &g_array_index (counts, PfStretchCount, i);
      g_autofree char *loop = loop_words (c->loop);
      const size_t numbers[] = { c->n_pinholes, c->at_pinhole + c->round_bar, c->at_pinhole,
                                 c->round_bar, c->off_line };
      pf_report_cell (table, "%s", loop);
      pf_report_cell (table, "%s", pf_edge_words_of (c->kind));
      pf_report_cell (table, "%.1f", c->from);
      pf_report_cell (table, "%.1f", c->to);
      for (size_t n = 0; n < G_N_ELEMENTS (numbers); n++)
        pf_report_cell (table, "%zu", numbers[n]);
    }
  pf_report_take (parts, PF_PART_CAPTION,
                  g_strdup (_ ("Along the outline from its first point, each stretch of one kind; "
                               "one that ends before it begins runs past that point.")));
}

/* --- Thread -------------------------------------------------------------------------------------
 */

/* Without the columns of colours if there are none. */
static void
add_bobbins (PfReportParts *parts, const PfMotif *motif, const PfThreadNeeds *needs)
{
  const char *const plain[] = { _ ("Pair"), _ ("Left bobbin, mm"), _ ("Right bobbin, mm") };
  const char *const coloured[] = { _ ("Pair"), _ ("Left bobbin, mm"), _ ("Its colour"),
                                   _ ("Right bobbin, mm"), _ ("Its colour") };
  const size_t n_pairs = motif->filling->n_pairs;
  g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
  bool any = false;
  for (size_t b = 0; b < 2 * n_pairs; b++)
    any |= colours[b] != NULL;
  g_autofree char *caption =
      g_strdup_printf (_ ("On each bobbin, with %g mm to spare for hitching and handling "
                          "(left and right as the pair is sewn in):"),
                       motif->thread.spare);
  PfReportTable *table = any ? pf_report_table (parts, caption, "nnwnw", coloured)
                             : pf_report_table (parts, caption, "nnn", plain);
  for (size_t b = 0; b < 2 * n_pairs; b++)
    {
      if (b % 2 == 0)
        pf_report_cell (table, "%zu", b / 2 + 1);
      pf_report_cell (table, "%.0f", needs->bobbins[b]);
      if (any)
        pf_report_cell (table, "%s", colours[b] ? colours[b] : "–");
    }
}

static void
add_thread (PfReportParts *parts, const PfMotif *motif)
{
  PfThreadNeeds needs;
  const PfThreadUse *use = &motif->thread;
  pf_report_heading (parts, 3, _ ("Thread"));
  if (!pf_thread_needs (&needs, motif))
    {
      pf_report_paragraph (parts,
                           _ ("No thread is chosen for this motif: choose one, and the report "
                              "tells how much of it each pair takes."));
      return;
    }
  pf_report_take (parts, PF_PART_PARAGRAPH, pf_report_thread_words (use));
  pf_report_take (
      parts, PF_PART_PARAGRAPH,
      pf_explain_fit (motif->ground, motif->filling->placement, use->wraps_per_cm, use->rule));
  add_bobbins (parts, motif, &needs);
  pf_report_take (parts, PF_PART_PARAGRAPH,
                  g_strdup_printf (_ ("All bobbins together: %.2f m"), needs.total / 1000));
  pf_thread_needs_clear (&needs);
}

/* --- What to look at ----------------------------------------------------------------------------
 */

static void
add_warnings (PfReportParts *parts, const PfFilling *filling)
{
  if (filling->n_warnings == 0)
    return;
  pf_report_heading (parts, 3, _ ("Look at these"));
  for (size_t w = 0; w < filling->n_warnings; w++)
    pf_report_take (parts, PF_PART_ITEM, g_strdup (filling->warnings[w].text));
}

static void
add_choices (PfReportParts *parts, const PfMotif *motif)
{
  const PfFilling *filling = motif->filling;
  g_autoptr (GPtrArray) items = g_ptr_array_new ();
  for (size_t r = 0; r < filling->n_repeats; r++)
    if (pf_repeat_is_chosen (motif, &filling->repeats[r]))
      g_ptr_array_add (items, g_strdup_printf (_ ("Repeat (%d, %d) is %s"), filling->repeats[r].i,
                                               filling->repeats[r].j,
                                               pf_repeat_state_words (filling->repeats[r].state)));
  for (guint32 s = 0; s < filling->n_sewings; s++)
    if (filling->sewings[s].chosen)
      {
        g_autofree char *words = pf_explain_sewing (filling, motif->ground, s);
        g_ptr_array_add (items, g_strdup_printf (_ ("Sewing %u: %s"), s + 1, words));
      }
  for (size_t u = 0; u < filling->n_unheeded; u++)
    g_ptr_array_add (items, g_strdup_printf (_ ("A choice of yours wasn’t kept to: %s"),
                                             filling->unheeded[u].why));
  if (items->len > 0)
    pf_report_heading (parts, 3, _ ("What you chose yourself"));
  for (guint i = 0; i < items->len; i++)
    pf_report_take (parts, PF_PART_ITEM, g_ptr_array_index (items, i));
}

/* --- Sewings and ways ---------------------------------------------------------------------------
 */

static void
sewing_row (PfReportTable *table, const PfMotif *motif, size_t s)
{
  const PfSewing *sewing = &motif->filling->sewings[s];
  g_autofree char *place = pf_sewing_place_words (motif, sewing);
  g_autofree char *stitch = pf_sewing_stitch_name (motif, sewing, _ (" and "));
  pf_report_cell (table, "%zu", s + 1);
  pf_report_cell (table, "%u", sewing->pair + 1);
  pf_report_cell (table, "%s", pf_pair_kind_word (sewing->kind));
  pf_report_cell (table, "%s", place);
  pf_report_cell (table, "%.1f", sewing->at.x);
  pf_report_cell (table, "%.1f", sewing->at.y);
  pf_report_cell (table, "%.0f°", sewing->angle);
  pf_report_cell (table, "%s%s", sewing->off_line ? "!" : "", sewing->chosen ? "*" : "");
  pf_report_cell (table, "%s", stitch);
}

static void
add_sewings (PfReportParts *parts, const PfMotif *motif)
{
  const char *const heads[] = { _ ("No."),   _ ("Pair"),  _ ("Kind"),
                                _ ("Place"), _ ("x, mm"), _ ("y, mm"),
                                _ ("Angle"), _ ("Mark"),  _ ("Stitch (repeat)") };
  if (motif->filling->n_sewings == 0)
    return;
  pf_report_heading (parts, 3, _ ("Sewings, in the order of work"));
  pf_report_paragraph (parts,
                       _ ("Places in mm from the drawing’s top left; pinholes numbered along "
                          "the outline from its first point; repeats as (i, j) from the "
                          "ground’s origin. ! marks a sewing off its line, * what you chose "
                          "yourself."));
  PfReportTable *table = pf_report_table (parts, NULL, "nnwwnnnww", heads);
  for (size_t s = 0; s < motif->filling->n_sewings; s++)
    sewing_row (table, motif, s);
}

/* Lines are broken between steps, after the dash. */
static char *
without_breaks (const char *way)
{
  GString *text = g_string_new (way);
  g_string_replace (text, " ", "\xc2\xa0", 0);
  g_string_replace (text, "\xc2\xa0–\xc2\xa0", "\xc2\xa0– ", 0);
  return g_string_free (text, FALSE);
}

static void
add_ways (PfReportParts *parts, const PfMotif *motif)
{
  const char *const heads[] = { _ ("Pair"), _ ("Its way") };
  const PfFilling *filling = motif->filling;
  if (filling->n_pairs == 0)
    return;
  pf_report_heading (parts, 3, _ ("Each pair’s way: sewings and stitches (repeat)"));
  PfReportTable *table = pf_report_table (parts, NULL, "nw", heads);
  for (size_t p = 0; p < filling->n_pairs; p++)
    {
      g_autofree char *plain = pf_pair_way_words (motif, p);
      g_autofree char *way = without_breaks (plain);
      pf_report_cell (table, "%zu", p + 1);
      pf_report_cell (table, "%s", way);
    }
}

void
pf_report_add_motif (PfReportParts *parts, const PfPricking *pricking, guint m)
{
  const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
  g_autofree char *heading = pf_report_motif_heading (pricking, m);
  pf_report_heading (parts, 2, heading);
  add_counts (parts, motif);
  add_edge (parts, motif);
  add_placement (parts, motif);
  add_warnings (parts, motif->filling);
  add_choices (parts, motif);
  add_thread (parts, motif);
  if (!pf_report_is_small (pricking))
    {
      pf_report_paragraph (parts, _ ("There are too many sewings and pairs to list them here: the "
                                     "report saved as .txt lists them all, the one saved as .csv "
                                     "every sewing."));
      return;
    }
  add_sewings (parts, motif);
  add_ways (parts, motif);
}
