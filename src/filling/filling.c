/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Setting a ground into a region, from the outline to the counted pairs.
 */
#include "filling-private.h"

#include <stdlib.h>
#include <string.h>

#include <glib/gi18n-lib.h>

void
pf_filling_warn (PfFilling *filling, PfWarningKind kind, PfPoint at, char *text)
{
  filling->warnings = g_renew (PfWarning, filling->warnings, filling->n_warnings + 1);
  filling->warnings[filling->n_warnings++] = (PfWarning){ kind, at, text };
}

void
pf_filling_note_unheeded (PfFilling *filling, bool of_sewing, size_t index, char *why)
{
  filling->unheeded = g_renew (PfUnheeded, filling->unheeded, filling->n_unheeded + 1);
  filling->unheeded[filling->n_unheeded++] = (PfUnheeded){ of_sewing, index, why };
}

static int
compare_unheeded (const void *a, const void *b)
{
  const PfUnheeded *p = a, *q = b;
  if (p->of_sewing != q->of_sewing)
    return p->of_sewing ? 1 : -1;
  return (p->index > q->index) - (p->index < q->index);
}

static int
compare_stitches (const void *a, const void *b)
{
  const guint32 p = *(const guint32 *) a, q = *(const guint32 *) b;
  return (p > q) - (p < q);
}

static void
take_beads (PfFilling *filling, const PfLattice *lattice, const GArray *beads)
{
  filling->beads = g_new (guint32, beads->len);
  for (guint b = 0; b < beads->len; b++)
    filling->beads[b] = pf_lattice_index (lattice, g_array_index (beads, PfStitchId, b));
  if (beads->len > 0)
    qsort (filling->beads, beads->len, sizeof *filling->beads, compare_stitches);
}

static int
compare_repeats (gconstpointer a, gconstpointer b)
{
  const PfRepeat *p = a, *q = b;
  return p->j != q->j ? p->j - q->j : p->i - q->i;
}

static void
take_repeats (PfFilling *filling, GArray *repeats)
{
  g_array_sort (repeats, compare_repeats);
  filling->n_repeats = repeats->len;
  filling->repeats = (PfRepeat *) (void *) g_array_free (repeats, FALSE);
}

PfFilling *
pf_filling_new (const PfRegion *region, const PfEdge *edges, const PfGround *ground,
                const PfFillingSettings *settings, GError **error)
{
  if (!pf_filling_settings_check (settings, error))
    return NULL;
  g_autoptr (PfLattice) lattice = pf_lattice_new (region, ground, &settings->placement, error);
  if (lattice == NULL)
    return NULL;
  PfFilling *filling = g_new0 (PfFilling, 1);
  filling->placement = settings->placement;
  filling->habits = settings->habits;
  filling->to_sheet = lattice->to_sheet;
  pf_lattice_find_inside (lattice, region, settings->clearance);
  g_autoptr (GArray) beads = NULL;
  take_repeats (filling, pf_lattice_find_repeats (lattice, settings, filling, &beads));
  if (filling->counts.stitches > PF_FILLING_MAX_STITCHES)
    {
      g_set_error (error, PF_ERROR, PF_ERROR_TOO_BIG,
                   _ ("At a gap of %.2f mm the shape holds %zu stitches, more than %d. Choose a "
                      "larger gap."),
                   settings->placement.gap, filling->counts.stitches, PF_FILLING_MAX_STITCHES);
      pf_filling_free (filling);
      return NULL;
    }
  pf_lattice_count (lattice);
  pf_link_stitches (filling, lattice, region);
  take_beads (filling, lattice, beads);
  pf_choose_pairs (filling, ground, settings);
  pf_match_crossings (filling, region, ground, settings);
  pf_find_order (filling, lattice);
  if (!pf_find_sewings (filling, region, edges, ground, settings, error))
    {
      pf_filling_free (filling);
      return NULL;
    }
  pf_follow_pairs (filling);
  pf_find_warnings (filling, region, ground);
  if (filling->n_unheeded > 0)
    qsort (filling->unheeded, filling->n_unheeded, sizeof (PfUnheeded), compare_unheeded);
  return filling;
}

void
pf_filling_free (PfFilling *filling)
{
  if (filling == NULL)
    return;
  for (size_t w = 0; w < filling->n_warnings; w++)
    g_free (filling->warnings[w].text);
  g_free (filling->warnings);
  for (size_t u = 0; u < filling->n_unheeded; u++)
    g_free (filling->unheeded[u].why);
  g_free (filling->unheeded);
  g_free (filling->stitches);
  g_free (filling->ends);
  g_free (filling->order);
  g_free (filling->repeats);
  g_free (filling->beads);
  g_free (filling->crossings);
  g_free (filling->sewings);
  g_free (filling->pairs);
  g_free (filling->path_steps);
  g_free (filling);
}

const PfRepeat *
pf_filling_find_repeat (const PfFilling *filling, int i, int j)
{
  const PfRepeat wanted = { .i = i, .j = j };
  size_t low = 0, high = filling->n_repeats;
  while (low < high)
    {
      const size_t middle = low + (high - low) / 2;
      const int order = compare_repeats (&filling->repeats[middle], &wanted);
      if (order == 0)
        return &filling->repeats[middle];
      if (order < 0)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

PfRepeatState
pf_filling_repeat_state (const PfFilling *filling, int i, int j)
{
  const PfRepeat *repeat = pf_filling_find_repeat (filling, i, j);
  return repeat != NULL ? repeat->state : PF_REPEAT_WHOLE;
}

const char *
pf_filling_work (const PfFilling *filling, const PfGround *ground, const PfWorkedStitch *stitch)
{
  const PfStitchId id = stitch->id;
  const PfStitch *drawn = &ground->stitches[id.k];
  const bool at_pin = drawn->pin || drawn->closes >= 0;
  const bool plain_work = drawn->n_pairs == 2 && strchr (drawn->work, 'l') == NULL;
  if (!at_pin || !plain_work || pf_filling_repeat_state (filling, id.i, id.j) != PF_REPEAT_PLAIN)
    return drawn->work;
  if (drawn->closes >= 0)
    return "ct";
  return drawn->closed ? "ctp" : "ctpct";
}

void
pf_counts_add (PfCounts *sum, const PfCounts *more)
{
  sum->stitches += more->stitches;
  sum->pins += more->pins;
  sum->beads += more->beads;
  sum->whole += more->whole;
  sum->partial += more->partial;
  sum->kept += more->kept;
  sum->plain += more->plain;
  sum->left_out += more->left_out;
  sum->leaving += more->leaving;
  sum->entering += more->entering;
  sum->new_pairs += more->new_pairs;
  sum->turned += more->turned;
  sum->carried += more->carried;
  sum->finished += more->finished;
  sum->reused += more->reused;
  sum->most_at_once = MAX (sum->most_at_once, more->most_at_once);
  sum->carry_mm += more->carry_mm;
  sum->sewings += more->sewings;
  sum->at_pinhole += more->at_pinhole;
  sum->round_bar += more->round_bar;
  sum->off_line += more->off_line;
  sum->place_mm += more->place_mm;
}
