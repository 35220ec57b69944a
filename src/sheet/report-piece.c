/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a report says of the whole piece: how many bobbins, what to wind on them, which pairs can go
 * on from motif to motif, and the motifs' counts beside each other.
 */
#include "report-parts.h"
#include "report-thread.h"
#include "report-winding.h"

#include <glib/gi18n-lib.h>

#include "layers.h"
#include "report.h"

static void
count_row (PfReportTable *table, const char *label, size_t count)
{
  pf_report_cell (table, "%s", label);
  pf_report_cell (table, "%zu", count);
}

static void
add_bobbins (PfReportParts *parts, const PfPricking *pricking, size_t n_handed)
{
  const PfCounts total = pf_pricking_counts (pricking);
  pf_report_heading (parts, 2, _ ("Bobbins"));
  PfReportTable *table = pf_report_table (parts, NULL, "wn", NULL);
  count_row (table, _ ("Pairs to wind, each new pair by itself"), total.new_pairs);
  count_row (table, _ ("Bobbins to wind for them"), 2 * total.new_pairs);
  if (pricking->motifs->len > 1)
    {
      count_row (table, _ ("Pairs to wind if pairs go on from motif to motif"),
                 total.new_pairs - n_handed);
      count_row (table, _ ("Bobbins to wind for them"), 2 * (total.new_pairs - n_handed));
    }
  count_row (table, _ ("Most pairs on the pillow at once"), total.most_at_once);
  count_row (table, _ ("Bobbins on the pillow then"), 2 * total.most_at_once);
  pf_report_take (parts, PF_PART_CAPTION,
                  g_strdup (_ ("A pair is two bobbins. Bobbins that come free can be wound again: "
                               "then those on the pillow at once are enough.")));
}

/* --- Winding ------------------------------------------------------------------------------------
 */

static char *
thread_words (const PfThreadUse *use)
{
  if (use->wraps_per_cm <= 0)
    return g_strdup (_ ("not chosen yet"));
  return *use->name != '\0'
             ? g_strdup_printf (_ ("%s (%g wraps per cm)"), use->name, use->wraps_per_cm)
             : g_strdup_printf (_ ("%g wraps per cm"), use->wraps_per_cm);
}

/* A thread that all bobbins share is told in a sentence, else in a column of its own. */
static bool
is_one_thread (const PfWinding *winding)
{
  const PfThreadUse *first = g_array_index (winding->groups, PfWindingGroup, 0).thread;
  for (guint g = 1; g < winding->groups->len; g++)
    {
      const PfThreadUse *use = g_array_index (winding->groups, PfWindingGroup, g).thread;
      if (use->wraps_per_cm != first->wraps_per_cm || g_strcmp0 (use->name, first->name) != 0)
        return false;
    }
  return true;
}

static bool
has_colours (const PfWinding *winding)
{
  for (guint g = 0; g < winding->groups->len; g++)
    if (g_array_index (winding->groups, PfWindingGroup, g).colour)
      return true;
  return false;
}

static void
length_cells (PfReportTable *table, bool known, double each, double wound, double used)
{
  if (each > 0)
    pf_report_cell (table, "%.1f", each / 1000);
  else
    pf_report_cell (table, "%s", known ? "" : "–");
  if (known)
    {
      pf_report_cell (table, "%.1f", wound / 1000);
      pf_report_cell (table, "%.2f", used / 1000);
    }
  else
    for (int c = 0; c < 2; c++)
      pf_report_cell (table, "–");
}

static void
winding_row (PfReportTable *table, const PfWinding *winding, const PfWindingGroup *group,
             bool several_motifs)
{
  g_autofree char *pairs = pf_winding_pairs_words (group, several_motifs);
  pf_report_cell (table, "%s", pairs);
  pf_report_cell (table, "%u", group->n_bobbins);
  if (has_colours (winding))
    pf_report_cell (table, "%s", group->colour ? group->colour : C_ ("colour", "none"));
  if (!is_one_thread (winding))
    {
      g_autofree char *thread = thread_words (group->thread);
      pf_report_cell (table, "%s", thread);
    }
  if (winding->step > 0)
    length_cells (table, group->each > 0, group->each, pf_winding_group_length (group),
                  group->used);
}

static void
winding_total (PfReportTable *table, const PfWinding *winding)
{
  double wound = 0, used = 0;
  guint n = 0;
  for (guint g = 0; g < winding->groups->len; g++)
    {
      const PfWindingGroup *group = &g_array_index (winding->groups, PfWindingGroup, g);
      wound += pf_winding_group_length (group);
      used += group->used;
      n += group->n_bobbins;
    }
  pf_report_cell (table, "%s", _ ("All"));
  pf_report_cell (table, "%u", n);
  if (has_colours (winding))
    pf_report_cell (table, "%s", "");
  if (!is_one_thread (winding))
    pf_report_cell (table, "%s", "");
  if (winding->step > 0)
    length_cells (table, true, 0, wound, used);
  table->total = true;
}

static PfReportTable *
winding_table (PfReportParts *parts, const PfWinding *winding)
{
  const char *heads[8];
  size_t n = 0;
  g_autoptr (GString) columns = g_string_new ("wn");
  heads[n++] = _ ("Pairs");
  heads[n++] = _ ("Bobbins");
  if (has_colours (winding))
    {
      g_string_append_c (columns, 'w');
      heads[n++] = _ ("Colour");
    }
  if (!is_one_thread (winding))
    {
      g_string_append_c (columns, 'w');
      heads[n++] = _ ("Thread");
    }
  if (winding->step > 0)
    {
      g_string_append (columns, "nnn");
      heads[n++] = _ ("On each, m");
      heads[n++] = _ ("For all, m");
      heads[n++] = _ ("Worked out, m");
    }
  return pf_report_table (parts, NULL, columns->str, heads);
}

static void
say_how_to_wind (PfReportParts *parts, const PfWinding *winding)
{
  const PfThreadUse *thread = g_array_index (winding->groups, PfWindingGroup, 0).thread;
  if (winding->unknown)
    pf_report_paragraph (parts,
                         _ ("How much thread a bobbin takes can’t be told before a thread is "
                            "chosen for each motif: choose it by its name, or say how many "
                            "turns of it lie on 1 cm."));
  else if (is_one_thread (winding))
    pf_report_take (parts, PF_PART_PARAGRAPH, pf_report_thread_words (thread));
  if (winding->step > 0)
    pf_report_take (
        parts, PF_PART_PARAGRAPH,
        g_strdup_printf (_ ("Lengths are rounded up to the next %g cm. Both bobbins of a pair in "
                            "one colour are wound alike, from one thread; “left” and “right” are "
                            "the bobbins as the pair is sewn in."),
                         winding->step / 10));
}

/* Below the list. */
static void
tell_wound_pairs (PfReportParts *parts)
{
  pf_report_take (parts, PF_PART_CAPTION,
                  g_strdup (_ ("Pairs are named here as they are sewn in: at each stitch bobbins "
                               "go on to other pairs.")));
}

static void
add_winding_list (PfReportParts *parts, const PfPricking *pricking)
{
  g_autoptr (PfWinding) winding = pf_winding_new (pricking);
  if (winding->groups->len == 0)
    return;
  pf_report_heading (parts, 2, _ ("Winding list"));
  say_how_to_wind (parts, winding);
  PfReportTable *table = winding_table (parts, winding);
  for (guint g = 0; g < winding->groups->len; g++)
    winding_row (table, winding, &g_array_index (winding->groups, PfWindingGroup, g),
                 pricking->motifs->len > 1);
  winding_total (table, winding);
  tell_wound_pairs (parts);
}

/* --- From motif to motif ------------------------------------------------------------------------
 */

/* Do two follow one another, in both motifs? */
static bool
follows (const PfHandedOn *a, const PfHandedOn *b)
{
  return pf_handed_on_is_whole (a) && pf_handed_on_is_whole (b) && a->from_motif == b->from_motif &&
         a->to_motif == b->to_motif && a->from_pair + 1 == b->from_pair &&
         a->to_pair + 1 == b->to_pair;
}

static char *
run_words (guint32 first, guint32 n)
{
  return n == 1 ? g_strdup_printf ("%u", first + 1)
                : g_strdup_printf ("%u–%u", first + 1, first + n);
}

/* As which pairs its bobbins are wound: "3–5", "2", "3 (left), 7 (right)". */
static char *
bobbins_words (const PfHandedOn *first, guint32 n)
{
  if (pf_handed_on_is_whole (first))
    return run_words (first->from_pair, n);
  if (first->bobbins[0] / 2 == first->bobbins[1] / 2)
    return run_words (first->bobbins[0] / 2, 1);
  const char *sides[2];
  for (int b = 0; b < 2; b++)
    sides[b] = first->bobbins[b] % 2 == 0 ? C_ ("bobbin", "(left)") : C_ ("bobbin", "(right)");
  return g_strdup_printf ("%u %s, %u %s", first->bobbins[0] / 2 + 1, sides[0],
                          first->bobbins[1] / 2 + 1, sides[1]);
}

static void
handed_row (PfReportTable *table, const PfHandedOn *first, guint32 n)
{
  g_autofree char *from = pf_roman_number (first->from_motif + 1);
  g_autofree char *to = pf_roman_number (first->to_motif + 1);
  g_autofree char *pairs = run_words (first->from_pair, n), *as = run_words (first->to_pair, n);
  g_autofree char *bobbins = bobbins_words (first, n);
  pf_report_cell (table, "%s", from);
  pf_report_cell (table, "%s", pairs);
  pf_report_cell (table, "%s", bobbins);
  pf_report_cell (table, "%s", to);
  pf_report_cell (table, "%s", as);
  pf_report_cell (table, "%u", n);
}

static void
add_handed_on (PfReportParts *parts, const PfPricking *pricking, const GArray *handed)
{
  const char *const heads[] = {
    _ ("Finished in motif"), _ ("Its pairs"),    _ ("Their bobbins, wound as"),
    _ ("Go on in motif"),    _ ("As its pairs"), _ ("How many")
  };
  if (pricking->motifs->len < 2)
    return;
  pf_report_heading (parts, 2, _ ("Pairs that can go on in the next motif"));
  if (handed->len == 0)
    {
      pf_report_paragraph (parts, _ ("None: no pair that is finished in one motif is wound as one "
                                     "that is new in a later motif."));
      return;
    }
  pf_report_take (
      parts, PF_PART_PARAGRAPH,
      g_strdup_printf (
          g_dngettext (
              GETTEXT_PACKAGE,
              "A suggestion, if you work the motifs in the order of the document: %u pair "
              "that is finished in one motif can be wound for a later motif as well, and "
              "need not be cut and wound anew. Wind the thread for both on the bobbins it ends "
              "with.",
              "A suggestion, if you work the motifs in the order of the document: %u pairs "
              "that are finished in one motif can be wound for a later motif as well, and "
              "need not be cut and wound anew. Wind the thread for both on the bobbins they end "
              "with.",
              handed->len),
          handed->len));
  PfReportTable *table = pf_report_table (parts, NULL, "wwwwwn", heads);
  for (guint i = 0, end; i < handed->len; i = end)
    {
      for (end = i + 1; end < handed->len && follows (&g_array_index (handed, PfHandedOn, end - 1),
                                                      &g_array_index (handed, PfHandedOn, end));
           end++)
        ;
      handed_row (table, &g_array_index (handed, PfHandedOn, i), end - i);
    }
}

/* --- The motifs beside each other ---------------------------------------------------------------
 */

static double
thread_of (const PfMotif *motif)
{
  PfThreadNeeds needs;
  if (!pf_thread_needs (&needs, motif))
    return 0;
  pf_thread_needs_clear (&needs);
  return needs.total;
}

/* A row of the table of pairs, or of that of sewings. */
static void
motif_row (PfReportTable *table, const char *number, const char *name, const size_t *counts,
           size_t n)
{
  pf_report_cell (table, "%s", number);
  pf_report_cell (table, "%s", name);
  for (size_t i = 0; i < n; i++)
    pf_report_cell (table, "%zu", counts[i]);
}

static void
pairs_row (PfReportTable *table, const char *number, const char *name, const PfCounts *c,
           double thread)
{
  const size_t counts[] = { c->new_pairs,    c->turned, c->carried, c->finished,
                            c->most_at_once, c->pins,   c->beads };
  motif_row (table, number, name, counts, G_N_ELEMENTS (counts));
  if (thread > 0)
    pf_report_cell (table, "%.2f", thread / 1000);
  else
    pf_report_cell (table, "–");
}

static void
sewings_row (PfReportTable *table, const char *number, const char *name, const PfCounts *c)
{
  const size_t counts[] = { c->sewings, c->at_pinhole, c->round_bar, c->off_line };
  motif_row (table, number, name, counts, G_N_ELEMENTS (counts));
}

static void
add_motifs (PfReportParts *parts, const PfPricking *pricking)
{
  const char *const of_pairs[] = {
    _ ("No."),     _ ("Motif"),          _ ("New pairs"),          _ ("Turns"),
    _ ("Carries"), _ ("Pairs finished"), _ ("Most pairs at once"), _ ("Pins"),
    _ ("Beads"),   _ ("Thread, m"),
  };
  const char *const of_sewings[] = { _ ("No."),         _ ("Motif"),
                                     _ ("Sewings"),     _ ("into a pinhole"),
                                     _ ("round a bar"), _ ("off their line: look at these") };
  pf_report_heading (parts, 2, _ ("Motif by motif"));
  PfReportTable *pairs = pf_report_table (parts, NULL, "wwnnnnnnnn", of_pairs);
  PfReportTable *sewings = pf_report_table (parts, NULL, "wwnnnn", of_sewings);
  double all = 0;
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      g_autofree char *roman = pf_roman_number (m + 1);
      const double thread = thread_of (motif);
      pairs_row (pairs, roman, motif->name, &motif->filling->counts, thread);
      sewings_row (sewings, roman, motif->name, &motif->filling->counts);
      all += thread;
    }
  const PfCounts total = pf_pricking_counts (pricking);
  pairs_row (pairs, "", _ ("Whole piece"), &total, all);
  sewings_row (sewings, "", _ ("Whole piece"), &total);
  pairs->total = sewings->total = true;
}

void
pf_report_add_winding (PfReportParts *parts, const PfPricking *pricking)
{
  g_autoptr (GArray) handed = pf_pairs_handed_on (pricking);
  add_bobbins (parts, pricking, handed->len);
  add_winding_list (parts, pricking);
  add_handed_on (parts, pricking, handed);
}

void
pf_report_add_piece (PfReportParts *parts, const PfPricking *pricking)
{
  pf_report_add_winding (parts, pricking);
  if (pricking->motifs->len > 1)
    add_motifs (parts, pricking);
}
