/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Bobbins, put together where they are wound alike.
 */
#include "report-winding.h"
#include "report-thread.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "layers.h"

#define NO_BREAK "\xc2\xa0" /* a space at which no line is broken */

/* Bobbins of one pair, before they are grouped. */
typedef struct {
  PfWoundPair wound;
  const PfThreadUse *thread;
  const char *colour;
  double least, used; /* mm: what each needs; what they take together */
} Bobbins;

static guint
n_of (PfBobbins bobbins)
{
  return bobbins == PF_BOBBIN_BOTH ? 2 : 1;
}

static void
add_pair (GArray *all, const PfMotif *motif, PfWoundPair wound, const char *const *colours,
          const double *lengths)
{
  const double left = lengths ? lengths[0] : 0, right = lengths ? lengths[1] : 0;
  if (g_strcmp0 (colours[0], colours[1]) == 0)
    {
      wound.bobbins = PF_BOBBIN_BOTH;
      const Bobbins both = { wound, &motif->thread, colours[0], fmax (left, right), left + right };
      g_array_append_val (all, both);
      return;
    }
  for (int b = 0; b < 2; b++)
    {
      wound.bobbins = b == 0 ? PF_BOBBIN_LEFT : PF_BOBBIN_RIGHT;
      const double length = b == 0 ? left : right;
      const Bobbins one = { wound, &motif->thread, colours[b], length, length };
      g_array_append_val (all, one);
    }
}

/* The bobbins of all motifs; whether the thread of one isn't chosen. */
static GArray *
all_bobbins (const PfPricking *pricking, bool *unknown)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Bobbins));
  for (guint m = 0; m < pricking->motifs->len; m++)
    {
      const PfMotif *motif = g_ptr_array_index (pricking->motifs, m);
      g_autofree const char **colours = pf_thread_colours (&motif->thread, motif->filling, NULL);
      PfThreadNeeds needs = { 0 };
      const bool known = pf_thread_needs (&needs, motif);
      *unknown |= !known;
      for (guint32 p = 0; p < motif->filling->n_pairs; p++)
        add_pair (all, motif, (PfWoundPair){ .motif = m, .pair = p }, colours + 2 * p,
                  known ? needs.bobbins + 2 * p : NULL);
      pf_thread_needs_clear (&needs);
    }
  return all;
}

static double
rounded_up (double length, double step)
{
  return step > 0 ? step * ceil (length / step - 1e-9) : 0;
}

static double
step_for (const GArray *all)
{
  double least = INFINITY, most = 0;
  for (guint i = 0; i < all->len; i++)
    {
      const double length = g_array_index (all, Bobbins, i).least;
      if (length <= 0)
        continue;
      least = fmin (least, length);
      most = fmax (most, length);
    }
  if (most <= 0)
    return 0;
  static const double steps[] = { 1, 2, 5 };
  for (double unit = 100;; unit *= 10)
    for (size_t s = 0; s < G_N_ELEMENTS (steps); s++)
      {
        const double step = unit * steps[s];
        const double between = rounded_up (most, step) - rounded_up (least, step);
        if (between / step < PF_WINDING_LENGTHS - 0.5)
          return step;
      }
}

static int
compare_threads (const PfThreadUse *a, const PfThreadUse *b)
{
  if (a->wraps_per_cm != b->wraps_per_cm)
    return a->wraps_per_cm < b->wraps_per_cm ? -1 : 1;
  return strcmp (a->name, b->name);
}

/* Those without a colour first. */
static int
compare_groups (gconstpointer a, gconstpointer b)
{
  const PfWindingGroup *x = a, *y = b;
  const int threads = compare_threads (x->thread, y->thread);
  const int colours = threads != 0 ? threads : g_strcmp0 (x->colour, y->colour);
  return colours != 0 ? colours : (x->each < y->each) - (x->each > y->each);
}

static void
clear_group (gpointer group)
{
  g_array_unref (((PfWindingGroup *) group)->pairs);
}

static PfWindingGroup *
group_for (GArray *groups, const PfWindingGroup *like)
{
  for (guint g = 0; g < groups->len; g++)
    if (compare_groups (&g_array_index (groups, PfWindingGroup, g), like) == 0)
      return &g_array_index (groups, PfWindingGroup, g);
  PfWindingGroup added = *like;
  added.pairs = g_array_new (FALSE, FALSE, sizeof (PfWoundPair));
  g_array_append_val (groups, added);
  return &g_array_index (groups, PfWindingGroup, groups->len - 1);
}

PfWinding *
pf_winding_new (const PfPricking *pricking)
{
  PfWinding *winding = g_new0 (PfWinding, 1);
  winding->groups = g_array_new (FALSE, FALSE, sizeof (PfWindingGroup));
  g_array_set_clear_func (winding->groups, clear_group);
  g_autoptr (GArray) all = all_bobbins (pricking, &winding->unknown);
  winding->step = step_for (all);
  for (guint i = 0; i < all->len; i++)
    {
      const Bobbins *bobbins = &g_array_index (all, Bobbins, i);
      PfWindingGroup *group = group_for (
          winding->groups, &(PfWindingGroup){ .thread = bobbins->thread,
                                              .colour = bobbins->colour,
                                              .each = rounded_up (bobbins->least, winding->step) });
      group->n_bobbins += n_of (bobbins->wound.bobbins);
      group->used += bobbins->used;
      g_array_append_val (group->pairs, bobbins->wound);
    }
  g_array_sort (winding->groups, compare_groups);
  return winding;
}

void
pf_winding_free (PfWinding *winding)
{
  if (!winding)
    return;
  g_array_unref (winding->groups);
  g_free (winding);
}

double
pf_winding_group_length (const PfWindingGroup *group)
{
  return group->n_bobbins * group->each;
}

/* --- Words --------------------------------------------------------------------------------------
 */

/* Does `b` carry on the run that `a` is in? Single bobbins are told one by one. */
static bool
follows (const PfWoundPair *a, const PfWoundPair *b)
{
  return a->motif == b->motif && a->pair + 1 == b->pair && a->bobbins == PF_BOBBIN_BOTH &&
         b->bobbins == PF_BOBBIN_BOTH;
}

typedef struct {
  const char *to, *left, *right; /* what stands between the ends of a run, and after it */
  const char *after_motif;
} Wording;

static void
append_run (GString *text, const PfWoundPair *first, const PfWoundPair *last,
            const Wording *wording)
{
  g_string_append_printf (text, "%u", first->pair + 1);
  if (last->pair > first->pair)
    g_string_append_printf (text, "%s%u", last->pair > first->pair + 1 ? wording->to : ", ",
                            last->pair + 1);
  if (first->bobbins != PF_BOBBIN_BOTH)
    g_string_append_printf (text, "%s%s", wording->after_motif,
                            first->bobbins == PF_BOBBIN_LEFT ? wording->left : wording->right);
}

static char *
pairs_text (const PfWindingGroup *group, bool several_motifs, const Wording *wording)
{
  GString *text = g_string_new (NULL);
  const PfWoundPair *pairs = (const PfWoundPair *) (const void *) group->pairs->data;
  for (guint i = 0, end; i < group->pairs->len; i = end)
    {
      for (end = i + 1; end < group->pairs->len && follows (&pairs[end - 1], &pairs[end]); end++)
        ;
      const bool new_motif = i == 0 || pairs[i].motif != pairs[i - 1].motif;
      if (i > 0)
        g_string_append (text, new_motif ? "; " : ", ");
      if (several_motifs && new_motif)
        {
          g_autofree char *roman = pf_roman_number (pairs[i].motif + 1);
          g_string_append_printf (text, "%s%s", roman, wording->after_motif);
        }
      append_run (text, &pairs[i], &pairs[end - 1], wording);
    }
  return g_string_free (text, FALSE);
}

char *
pf_winding_pairs_words (const PfWindingGroup *group, bool several_motifs)
{
  const Wording wording = { "–", C_ ("bobbin", "(left)"), C_ ("bobbin", "(right)"), NO_BREAK };
  return pairs_text (group, several_motifs, &wording);
}

char *
pf_winding_pairs_name (const PfWindingGroup *group, bool several_motifs)
{
  static const Wording wording = { " to ", "left", "right", " " };
  return pairs_text (group, several_motifs, &wording);
}
